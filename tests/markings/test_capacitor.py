"""Film, ceramic and electrolytic capacitors."""

from __future__ import annotations

import pytest

from inventory.markings.capacitance import code_volts
from inventory.markings.capacitor import canonical, likely, read

# EIA voltage codes, as printed at oriedza.blogspot.com/2014_04_17_archive.html, table 2.
EIA_VOLTS = {
    "0G": 4, "0L": None, "0J": 6.3, "1A": 10, "1C": 16, "1E": 25, "1H": 50, "1J": 63, "1K": 80,
    "2A": 100, "2Q": 110, "2B": 125, "2C": 160, "2Z": 180, "2D": 200, "2P": 220, "2E": 250,
    "2F": 315, "2V": 350, "2G": 400, "2W": 450, "2H": 500, "2J": 630, "3A": 1000,
}  # fmt: skip


@pytest.mark.parametrize(("code", "volts"), EIA_VOLTS.items())
def test_voltage_codes_agree_with_the_printed_table(code: str, volts: float | None) -> None:
    """Exponent and mantissa letter; 0L (5.5 V) follows no rule and is not read."""
    assert code_volts(code) == volts


def test_f_behind_u_is_the_unit_and_not_one_per_cent() -> None:
    """220uF says no tolerance."""
    assert dict(read("220uF").ratings) == {"capacitance_pf": 220000000, "capacitance_uf": 220}


def test_a_bare_voltage_is_the_d_c_rating() -> None:
    """A capacitor without AC or ~ is rated for d.c. Source: Nichicon, film capacitor guide."""
    assert read("100n J 630").ratings["voltage_vdc"] == 630
    assert "voltage_vac" not in read("470µF 25V").ratings


def test_ac_and_dc_stay_apart() -> None:
    """What is printed with ~ is never a d.c. figure."""
    said = read("0,47/250~ 630V").ratings

    assert (said["voltage_vac"], said["voltage_vdc"]) == (250, 630)


def test_r_is_the_point_and_the_unit_stays_open() -> None:
    """0R5 may be 0.5 µF or 0.5 pF; both are offered, none is set."""
    reading = read("0R5")

    assert dict(reading.ratings) == {"value": 0.5, "r_is_decimal_point": True}
    assert [c.ratings["capacitance_pf"] for c in reading.candidates] == [500000, 0.5]
    assert "body decides" in reading.warnings[0]


def test_a_lost_micro_is_offered_and_never_applied() -> None:
    """0.01mF is likely 0.01 µF; the factor of 1000 is a question."""
    reading = read("0.01mF 275V~")

    assert "capacitance_pf" not in reading.ratings
    assert [c.ratings["capacitance_pf"] for c in reading.candidates] == [10_000, 10_000_000]
    assert reading.candidates[0].text == "0.01µF 275V~"
    assert "thousand times less" in reading.warnings[0]


def test_m_as_the_point_is_a_question_too() -> None:
    """4m7 is 4700 µF by IEC 60062 and 4.7 µF where the µ was lost."""
    reading = read("4m7")

    assert "capacitance_pf" not in reading.ratings
    assert {c.ratings["capacitance_pf"] for c in reading.candidates} == {4_700_000, 4_700_000_000}


@pytest.mark.parametrize(("text", "pico"), [("0.1", 100000), (".047", 47000)])
def test_a_bare_decimal_below_one_is_microfarad(text: str, pico: int) -> None:
    """Source: china-jinpei.com and shenmaoec.net; the missing unit is warned of."""
    reading = read(text)

    assert reading.ratings["capacitance_pf"] == pico
    assert "No unit" in reading.warnings[0]


def test_a_bare_decimal_above_one_is_left_open() -> None:
    """4.7 alone may be µF or pF."""
    reading = read("4.7")

    assert dict(reading.ratings) == {}
    assert len(reading.candidates) == 2


def test_a_code_that_ends_in_zero_may_be_plain_picofarad() -> None:
    """470 is 47 pF by the code; some print plain 470 pF."""
    reading = read("470")

    assert reading.ratings["capacitance_pf"] == 47
    assert reading.candidates[0].ratings["capacitance_pf"] == 470


def test_digits_at_a_few_volts_may_count_microfarad() -> None:
    """An electrolytic 471 6.3V is 470 µF. Source: forum.allaboutcircuits.com 210680."""
    reading = read("471 6.3V")

    assert reading.ratings["capacitance_pf"] == 470
    assert reading.candidates[0].ratings["capacitance_uf"] == 470


def test_a_second_different_value_is_a_warning() -> None:
    """471 against 470 V style clashes are not settled in silence."""
    assert any("printed twice" in w for w in read("100nF 220nF").warnings)


@pytest.mark.parametrize("text", ["100k", "T5AL250V", "M4x8", "hello"])
def test_other_parts_give_no_capacitance(text: str) -> None:
    """What is no capacitor's mark stays unread."""
    assert "capacitance_pf" not in read(text).ratings


def test_likely_prefers_units_over_bare_digits() -> None:
    """Farads are surer than three digits; classes and kilovolts point elsewhere."""
    assert likely("470µF 25V") > likely("103") > likely("hello") == 0
    assert likely("X2 100nF") < likely("100nF")
    assert likely("0.94µF AC2100V") < 0.5


def test_the_plain_form_speaks_in_usual_units() -> None:
    """2A104K is 100 nF ±10 % 100 V d.c."""
    assert canonical(read("2A104K")) == "100 nF ±10% 100VDC"


def test_a_second_bare_voltage_is_not_taken() -> None:
    """630 is the rating, a further 400 stays unread."""
    reading = read("100n 630 400")

    assert reading.ratings["voltage_vdc"] == 630
    assert [piece.text for piece in reading.unread] == ["400"]


@pytest.mark.parametrize(("text", "pico"), [("4.7n 50V", 4700), ("0,1u 275V", 100000)])
def test_a_prefix_behind_a_decimal_is_read_with_its_point(text: str, pico: int) -> None:
    """4.7n is 4700 pF, never 7000 with a lost 4. Source: IEC 60062."""
    assert read(text).ratings["capacitance_pf"] == pico
