"""Drive belts."""

from __future__ import annotations

import pytest

from inventory.markings.belt import RIB_PITCH_MM, canonical, likely, read

# Rib pitch of each profile in mm. Source: ISO 9982:2019, as quoted at pti-latam.com.
ISO_9982 = {"PH": 1.6, "PJ": 2.34, "PK": 3.56, "PL": 4.7, "PM": 9.4}


@pytest.mark.parametrize(("profile", "pitch"), ISO_9982.items())
def test_rib_pitches_agree_with_the_standard(profile: str, pitch: float) -> None:
    """Every profile of the table."""
    assert RIB_PITCH_MM[profile] == pitch


@pytest.mark.parametrize("text", ["5PJ1270", "5 PJ 1270", "1270 J5", "1270PJ5", "PJ 1270/5"])
def test_one_belt_in_many_orders(text: str) -> None:
    """Five ribs of PJ, 1270 mm."""
    said = read(text).ratings

    assert (said["ribs"], said["profile"], said["length_mm"]) == (5, "PJ", 1270)


@pytest.mark.parametrize("text", ["EL 1195J5", "5EPJ 1195", "5PJE1195"])
def test_a_stretch_belt_says_so(text: str) -> None:
    """E or EL; a plain belt says nothing of it."""
    assert read(text).ratings["elastic"] is True
    assert "elastic" not in read("5PJ1195").ratings


def test_the_length_system_only_where_it_is_printed() -> None:
    """One source writes Li and La for the same belt: without a letter it stays open."""
    assert "length_system" not in read("RPF 2365 9,5x925").ratings
    assert read("9,5x925 La").ratings["length_system"] == "La"


def test_inches_and_millimetres_must_agree() -> None:
    """36.5 inch are 927 mm: 925 fits, 1200 does not."""
    assert read("RPF 2365 9,5x925").warnings == ()
    assert "927 mm" in read("RPF 2365 9,5x1200").warnings[0]


def test_inches_alone_give_an_assumed_length() -> None:
    """A43 is 43 inch inside by practice."""
    reading = read("A43")

    assert reading.ratings["length_in"] == 43
    assert reading.assumed["length_mm"] == 1092
    assert reading.assumed["length_system"] == "Li"


def test_toothed_belts_keep_their_profile() -> None:
    """300-3M-9 is 300 mm of 3M, 9 mm wide."""
    said = read("300-3M-9").ratings

    assert (said["profile"], said["length_mm"], said["width_mm"]) == ("3M", 300, 9)


@pytest.mark.parametrize("text", ["6205", "M4x8", "2N3904", "PK"])
def test_other_codes_have_no_profile(text: str) -> None:
    """A belt needs a length or ribs."""
    assert "profile" not in read(text).ratings


def test_the_plain_form_is_the_standard_s() -> None:
    """Ribs, profile, length."""
    assert canonical(read("1270 J5")) == "5PJ1270"


def test_likely() -> None:
    """Ribs and profile are sure."""
    assert likely("6PK2120") > 0.8
    assert likely("6205-2RS") == 0


def test_narrow_and_classical_v_belts() -> None:
    """SPZ 1000 Lw in mm, B51.5 in inches (synthetic rows; widths from memory of ISO 4184)."""
    said = read("SPZ 1000 Lw").ratings

    assert (said["profile"], said["length_mm"], said["length_system"]) == ("SPZ", 1000, "Lw")
    assert read("B51.5").ratings["length_in"] == 51.5
    assert canonical(read("SPZ 1000")) == "SPZ 1000"


def test_an_inch_toothed_belt_counts_in_tenths() -> None:
    """100XL is 10 inch (synthetic row, from memory of ISO 5296)."""
    assert read("100XL").ratings["length_in"] == 10
    assert read("T5/420").ratings["length_mm"] == 420


def test_a_single_letter_with_three_figures_of_j_is_a_question() -> None:
    """American belts count tenths of an inch (rogerbrownco.com), washing machines millimetres."""
    reading = read("460J6")

    assert not {"length_mm", "length_in"} & reading.ratings.keys()
    assert reading.ratings["needs_review"] is True
    assert [dict(c.ratings) for c in reading.candidates] == [{"length_mm": 460}, {"length_in": 46}]


def test_the_full_name_of_a_profile_counts_millimetres() -> None:
    """6PK845 is metric, 845K8 American (rogerbrownco.com, 84.5 inch)."""
    assert read("6PK845").ratings["length_mm"] == 845
    assert "length_mm" not in read("845K8").ratings
