"""What the sheet compares becomes a range or words an index can look up."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from inventory.matching.needs import Need, needs
from inventory.records import Value
from inventory.rules.verdict import Wanted

WORDS = {"contact_form": ["SPST-NO", "SPST-NC", "SPDT"], "body": ["miniature v", "basic"]}


def _words(name: str) -> Sequence[str]:
    """Words on a small shelf."""
    return WORDS.get(name, [])


def _needs(family: str = "switch", **typed: Value) -> dict[str, Need]:
    """Needs by attribute, as a tech types them."""
    return {need.names[0]: need for need in needs(Wanted(family, needs=typed), _words)}


def test_a_current_is_needed_at_least() -> None:
    """A range with no upper end; it aims at the figure itself."""
    need = _needs(resistive_a=16)["resistive_a"]

    assert need.low == pytest.approx(16)
    assert (need.high, need.aim, need.must) == (None, 16, True)


def test_a_changeover_serves_as_a_make_contact_and_a_break_contact_does_not() -> None:
    """The sheet's own operator picks the recorded words. Source: Omron V data sheet, forms."""
    assert _needs(contact_form="SPST-NO")["contact_form"].words == ("SPST-NO", "SPDT")


def test_a_hole_pitch_is_needed_within_its_tolerance() -> None:
    """Posts of a latch board set the switch's place: 22.2 mm ± 0.25. Source: the sheet."""
    need = _needs(hole_pitch_mm=22.2)["hole_pitch_mm"]

    assert need.low is not None
    assert need.high is not None
    assert need.low <= 21.95 <= need.high
    assert not need.low <= 21.8 <= need.high


def test_a_fuse_keeps_its_current() -> None:
    """Equal: one figure, both ends. Source: IEC 60127, rated current."""
    need = _needs("fuse", current_a=5)["current_a"]

    assert need.low == pytest.approx(5)
    assert need.high == pytest.approx(5)


def test_what_is_read_and_no_must_only_may_not_contradict() -> None:
    """A lamp rating read off the old switch does not hide switches without one."""
    wanted = Wanted("switch", ratings={"resistive_a": 16, "lamp_a": 2})
    found = {need.names[0]: need.must for need in needs(wanted, _words)}

    assert found == {"resistive_a": True, "lamp_a": False}


def test_what_the_tech_typed_wins_over_what_was_read() -> None:
    """The place may need less than the old part could."""
    wanted = Wanted("switch", ratings={"resistive_a": 21}, needs={"resistive_a": 16})

    assert needs(wanted, _words)[0].aim == 16


def test_an_unknown_family_has_no_needs() -> None:
    """No sheet says how to compare."""
    assert needs(Wanted(None, needs={"resistive_a": 16}), _words) == []
    assert needs(Wanted("gadget", needs={"resistive_a": 16}), _words) == []


def test_values_that_no_index_holds_are_left_to_the_rules() -> None:
    """A table of horsepowers is judged, not looked up."""
    assert "hp" not in _needs(hp=[{"hp": 0.1667, "volts": 125, "fla": None}])


@pytest.mark.parametrize(
    ("family", "name", "value", "inside", "outside"),
    [
        # a voltage range must be covered, each end stretched by 10 %: motors for 220 to 240 V
        ("motor_turntable", "voltage_vac", [220, 240], 240, 120),
        # 1.14 for 1.2 µF is -5 %; up to 10 % a person decides (reference/parts.md 1.5)
        ("hv_capacitor", "capacitance_uf", 1.2, 1.1, 1.0),
        # a lamp never takes more watts than its holder (reference/parts.md 1.12)
        ("lamp", "power_w", 25, 15, 40),
        # a 50 Hz motor runs at 50 Hz (reference/parts.md 1.11)
        ("motor_fan", "frequency_hz", 50, 50, 60),
        ("motor_fan", "frequency_hz", [50, 60], 60, 50),
    ],
)
def test_each_comparison_has_its_range(
    family: str, name: str, value: Value, inside: float, outside: float
) -> None:
    """What the sheet's operator could accept lies within, what it refuses lies outside."""
    need = _needs(family, **{name: value})[name]
    low, high = need.low or float("-inf"), need.high or float("inf")

    assert low <= inside <= high
    assert not low <= outside <= high


def test_what_is_only_a_question_has_no_range() -> None:
    """Another hole diameter is a note: it narrows nothing down, but the near one comes first."""
    need = _needs(hole_mm=3.1)["hole_mm"]

    assert (need.low, need.high, need.aim) == (None, None, 3.1)


def test_a_yes_serves_where_a_no_would_do() -> None:
    """A fast diode may replace a plain one, never the reverse."""
    assert _needs("hv_diode", fast_recovery=True)["fast_recovery"].low == pytest.approx(1)
    assert "fast_recovery" not in _needs("hv_diode", fast_recovery=False)


def test_what_only_follows_from_other_ratings_is_not_looked_up() -> None:
    """A 6.3 mm tab is 0.8 mm thick, but no record says so: the rules know, the index does not."""
    assert set(_needs(tab_mm=6.3)) == {"tab_mm"}


def test_a_flag_is_looked_up_as_a_figure() -> None:
    """Yes is 1, as the store files it."""
    assert _needs("hv_capacitor", bleeder=True)["bleeder"].low == pytest.approx(1)


def test_of_several_printed_ratings_the_least_is_looked_for() -> None:
    """3 A at 250 V and 6 A at 125 V: which one the place uses only the mains tells."""
    rows = [{"resistive_a": 3, "volts_ac": [250]}, {"resistive_a": 6, "volts_ac": [125]}]
    found = {n.names[0]: n for n in needs(Wanted("switch", ratings={"ratings": rows}), _words)}

    assert found["resistive_a"].low == pytest.approx(3)
    assert (found["volts_ac"].low or 0) < 125


def test_another_name_of_one_mains_is_not_left_out() -> None:
    """240 V where 250 V is printed is a question of the mains. Source: NEC table 430.248."""
    low = _needs(volts_ac=250)["volts_ac"].low or 0

    assert 125 < low < 240


def test_a_recorded_word_is_compared_as_the_rules_compare_it() -> None:
    """M4 on record is M4x0.7. Source: ISO 261, coarse pitches."""
    words = {"thread": ["M4", "M5", "M4x0.5"]}
    found = needs(Wanted("screw", needs={"thread": "M4x0.7"}), lambda name: words.get(name, ()))

    assert found[0].words == ("M4",)


def test_a_current_of_an_unknown_kind_is_looked_for_as_an_ordinary_one() -> None:
    """``10 A 24 V``: the rules ask what it switches; the search still finds what carries 10 A."""
    found = {n.names[0]: n for n in needs(Wanted("switch", ratings={"amps": 10}), _words)}

    assert found["resistive_a"].low == pytest.approx(10)
