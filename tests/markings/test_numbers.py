"""Part, model and serial numbers, and the grammar of last resort."""

from __future__ import annotations

import doctest

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.markings import model_number, oem_number, plain, serial_number
from inventory.markings.oem_number import keys, normalise
from inventory.markings.serial_number import part_series


def test_the_suffix_is_kept_apart_and_never_explained() -> None:
    """DE59-00002A: both forms are kept, the letter's meaning is not stated."""
    reading = oem_number.read("DE59-00002A")

    assert reading.ratings == {
        "normalized": "DE5900002A",
        "base": "DE59-00002",
        "suffix": "A",
    }
    assert "never the same part" in reading.warnings[0]


@pytest.mark.parametrize("text", ["WB27X11214", "5304468869", "RMOTDA227WRE0"])
def test_a_number_that_ends_in_figures_has_no_suffix(text: str) -> None:
    """Nothing is cut off."""
    assert oem_number.read(text).ratings["base"] == text
    assert "suffix" not in oem_number.read(text).ratings


def test_leading_zeros_stay_in_every_key() -> None:
    """0051234 is not 51234."""
    assert normalise("005-1234") == "0051234"


def test_the_prefix_of_a_renumbering_is_optional_in_the_search() -> None:
    """WP3387747 is found as 3387747 too; the number itself is unchanged."""
    assert keys("WP3387747") == ("WP3387747", "3387747")
    assert keys("WPC") == ("WPC",)


def test_lower_case_is_read_as_upper() -> None:
    """Typed numbers are often small letters; the text stays as typed."""
    reading = oem_number.read("de59-00002a")

    assert reading.ratings["base"] == "DE59-00002"
    assert reading.marks[0].text == "de59-00002"


@given(st.text(alphabet="ABC123-. /", min_size=1, max_size=20))
def test_normalising_twice_changes_nothing(text: str) -> None:
    """The key of a key is the key."""
    assert normalise(normalise(text)) == normalise(text)


@pytest.mark.parametrize(
    ("text", "base", "revision"),
    [
        ("LMXS27626D/00", "LMXS27626D", "00"),
        ("WRF535SWHZ01", "WRF535SWHZ", "01"),
        ("RF28R7351SR/AA-00", "RF28R7351SR/AA", "00"),
        ("Model: WM14E420/05", "WM14E420", "05"),
    ],
)
def test_base_and_revision_of_a_model(text: str, base: str, revision: str) -> None:
    """Sources: searspartsdirect.com and servicemag.org for the first two shapes."""
    said = model_number.read(text).ratings

    assert (said["base"], said["revision"]) == (base, revision)
    assert "same_parts_as" not in said


def test_a_missing_revision_is_asked_for() -> None:
    """Two revisions do not share all parts."""
    reading = model_number.read("NN-SD452W")

    assert "revision" not in reading.ratings
    assert "No revision" in reading.warnings[0]


def test_a_wildcard_is_a_pattern_and_never_a_model() -> None:
    """A star stands for several models."""
    reading = model_number.read("LMXS27626*/00")

    assert reading.ratings["wildcard"] is True
    assert any("pattern" in w for w in reading.warnings)


@pytest.mark.parametrize(("own", "chosen"), [(21, 15), (10, 10), (30, 30), (99, 30), (9, None)])
def test_the_nearest_series_not_above_is_chosen(own: int, chosen: int | None) -> None:
    """Series 21 of 10, 15, 25, 30 takes 15. Source: appliancehelp.com."""
    assert part_series(own, (10, 15, 25, 30)) == chosen


@given(st.integers(0, 99), st.lists(st.integers(0, 99), max_size=8))
def test_a_chosen_series_is_never_above_the_machine_s(own: int, listed: list[int]) -> None:
    """And no listed one lies between."""
    chosen = part_series(own, listed)

    assert chosen is None or chosen in listed
    assert not any(series <= own and (chosen is None or series > chosen) for series in listed)


def test_a_serial_gives_its_series_and_the_parts_series() -> None:
    """Source: appliancehelp.com, 2157437135R."""
    said = serial_number.read("2157437135R").ratings

    assert said["series"] == 21
    assert said["chosen_part_series_from_10_15_25_30"] == 15


def test_a_list_in_the_text_replaces_the_example_s() -> None:
    """What the parts list gives is what is chosen from."""
    said = serial_number.read("2157437135R of 10, 20, 30").ratings

    assert said["chosen_part_series_from_10_20_30"] == 20


def test_a_serial_of_another_shape_has_no_series() -> None:
    """Nothing is read into it."""
    assert "series" not in serial_number.read("K12345678").ratings


def test_the_last_resort_claims_a_type_code_and_nothing_else() -> None:
    """Words stay unread."""
    reading = plain.read("board KX-998 foo")

    assert dict(reading.ratings) == {"type": "KX-998"}
    assert [u.text for u in reading.unread] == ["board", "foo"]


@pytest.mark.parametrize("text", ["hello world", "12", "ABC", "a1b2c3"])
def test_words_and_short_figures_are_no_type_code(text: str) -> None:
    """Capitals and figures, or five figures and more."""
    assert "type" not in plain.read(text).ratings


def test_numbers_are_likely_by_shape_and_the_last_resort_hardly() -> None:
    """Whole-text shapes only."""
    assert oem_number.likely("DE59-00002A") > 0.5 > oem_number.likely("DE59-00002A 250V")
    assert model_number.likely("LMXS27626D/00") > 0.5
    assert serial_number.likely("2157437135R") > 0.5
    assert 0 < plain.likely("anything") < 0.1
    assert plain.likely("  ") == 0


def test_the_examples_in_the_docstrings_hold() -> None:
    """Every example shown is run."""
    for module in (oem_number, serial_number):
        assert doctest.testmod(module).failed == 0


def test_a_revision_in_words_and_a_dotted_model() -> None:
    """Model 795.51032 rev 010 in either form (synthetic rows)."""
    assert model_number.read("795.51032.010").ratings["revision"] == "010"
    assert model_number.read("NN-SD452W rev B").ratings["revision"] == "B"
    assert model_number.likely("x" * 60) == 0


def test_a_second_number_stays_unread() -> None:
    """One text, one number."""
    reading = serial_number.read("AB123456 CD123456")

    assert reading.ratings["serial"] == "AB123456"
    assert "".join(piece.text for piece in reading.unread) == "CD123456"
