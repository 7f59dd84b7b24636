"""Words that mean the same are one word; words that do not stay apart."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.rules.words import (
    SAFETY_SERVES,
    code_key,
    flag,
    form,
    plain_word,
    poles,
    reset,
    throws,
)

FORMS = {
    "SPST-NO": "NO", "1 Form A": "NO", "form B": "NC", "SPDT": "CO", "C": "CO", "N.C.": "NC",
    "DPST-NO": "NO", "changeover": "CO", "NO/NC": "CO", "latching": None, "": None,
}  # fmt: skip


@pytest.mark.parametrize(("written", "meant"), FORMS.items())
def test_a_contact_form_is_known_however_it_is_written(written: str, meant: str | None) -> None:
    """Source: IEC 61810-1; Omron G5LE data sheet (forms A, B, C)."""
    assert form(written) == meant


RESETS = {"auto": "auto", "Manual reset": "manual", "none": "one-shot", "one-shot": "one-shot",
          "bimetal": "bimetal"}  # fmt: skip


@pytest.mark.parametrize(("written", "meant"), RESETS.items())
def test_a_reset_is_known_however_it_is_written(written: str, meant: str) -> None:
    """A protector without reset is a one-shot."""
    assert reset(written) == meant


# LG MB-308DDD unit label: the interlock and the monitor version of three makers' switches
LOOK_ALIKES = (("SZM-V16-FA-63", "SZM-V16-FA-62"), ("VP-533A-OF", "VP-532A-OF"),
               ("V-5230Q", "V-5220Q"))  # fmt: skip


@pytest.mark.parametrize(("interlock", "monitor"), LOOK_ALIKES)
def test_interlock_and_monitor_versions_are_two_codes(interlock: str, monitor: str) -> None:
    """One character apart is never the same. Source: LG MB-308DDD unit label."""
    assert code_key(interlock) != code_key(monitor)


def test_look_alike_characters_are_two_codes() -> None:
    """Folding 0 and O is for searching; being the same is stricter."""
    assert code_key("V-5230Q") != code_key("V-523OQ")


def test_spaces_and_hyphens_do_not_part_codes() -> None:
    """Source: LG MB-308DDD unit label, printed SZM-V 16-FA-62."""
    assert code_key("SZM-V 16-FA-62") == code_key("szm_v16/fa62")


@given(st.text(max_size=40))
def test_folding_a_code_twice_changes_nothing(text: str) -> None:
    """Codes folded by the caller and folded again are the same codes."""
    assert code_key(code_key(text)) == code_key(text)


def test_poles_are_read_from_the_form() -> None:
    """A form that names no number leaves it unknown."""
    assert [poles(text) for text in ("SPDT", "DPDT", "4PDT", "2 Form A", "NO")] == [
        1,
        2,
        4,
        2,
        None,
    ]


def test_flags_are_yes_no_or_unknown() -> None:
    """An unclear word is not a no."""
    assert [flag(value) for value in (True, "Yes", 1, "off", "perhaps")] == [
        True, True, True, False, None,
    ]  # fmt: skip


def test_short_words_are_written_out() -> None:
    """The sheets' own words win."""
    assert plain_word("isolated") == "insulated"
    assert plain_word("V") == plain_word("Miniature-V")


def test_no_x_class_serves_in_a_y_place() -> None:
    """Source: IEC 60384-14, and the impulse table printed by techoverflow."""
    for name, serves in SAFETY_SERVES.items():
        assert name.startswith("Y") or not any(place.startswith("Y") for place in serves)


def test_two_contacts_are_two_poles_with_a_throw_each() -> None:
    """Source: Omron D2D data sheet, SPST-NO/SPST-NC types."""
    assert throws("SPST-NO+SPST-NC") == frozenset({"NO", "NC"})
    assert poles("SPST-NO+SPST-NC") == 2
    assert throws("SPST-NO+wobble") is None
    assert poles("SPST-NO+wobble") is None
