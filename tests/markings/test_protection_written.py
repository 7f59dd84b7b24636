"""Ratings written out and read again, for ratings nobody thought of."""

from __future__ import annotations

from types import ModuleType
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from inventory.markings import (
    fuse,
    hv_capacitor,
    hv_diode,
    hv_fuse,
    lamp,
    motor_turntable,
    mov,
    rating_plate,
    thermal_cutout,
    thermal_link,
)
from inventory.records import Reading

_AMPS = st.sampled_from([0.05, 0.063, 0.315, 0.9, 1, 1.25, 3.15, 5, 6.3, 10, 16, 20])
_MAINS = st.sampled_from([24, 110, 120, 125, 230, 240, 250])
_C = st.integers(60, 260)


def _at_60_hz(said: dict[str, Any]) -> dict[str, Any]:
    """The same gear's speed at 60 Hz beside that at 50 Hz."""
    return {**said, "rpm_60hz": {2.5: 3, 5: 6, 10: 12}[said["rpm_50hz"]]}


RATINGS: dict[ModuleType, st.SearchStrategy[dict[str, Any]]] = {
    fuse: st.fixed_dictionaries(
        {
            "time_characteristic": st.sampled_from(["FF", "F", "M", "T", "TT"]),
            "standard": st.just("IEC 60127"),
            "current_a": _AMPS,
        },
        optional={
            "breaking_class": st.sampled_from(["L", "H", "E"]),
            "voltage_v": _MAINS,
            "size_mm": st.sampled_from([[5, 20], [6.3, 32]]),
            "body": st.sampled_from(["glass", "ceramic"]),
            "leads": st.just("pigtail"),
        },
    ),
    hv_fuse: st.fixed_dictionaries(
        {"current_a": st.sampled_from([0.5, 0.65, 0.75, 0.9, 1])},
        optional={"voltage_v": st.sampled_from([4000, 5000]), "size_mm": st.just([6.5, 40])},
    ),
    thermal_cutout: st.fixed_dictionaries(
        {"open_c": _C},
        optional={
            "contact": st.sampled_from(["NC", "NO"]),
            "open_tol_c": st.integers(1, 10),
            "location": st.sampled_from(["magnetron", "hood", "cavity", "top heater"]),
            "series": st.sampled_from(["KSD301", "KSD9700"]),
            "reset": st.sampled_from(["manual", "none"]),
            "cycles": st.sampled_from([6000, 100000]),
        },
    ),
    thermal_link: st.fixed_dictionaries(
        {"tf_c": _C},
        optional={
            "th_c": st.integers(40, 59),
            "tm_c": st.integers(270, 400),
            "current_a": st.sampled_from([1, 2, 10, 15, 16]),
            "voltage_v": _MAINS,
            "lead": st.sampled_from(["long", "standard"]),
            "case": st.sampled_from(["live", "insulated"]),
        },
    ),
    hv_capacitor: st.fixed_dictionaries(
        {"capacitance_uf": st.integers(50, 150).map(lambda n: n / 100)},
        optional={
            "voltage_vac": st.integers(18, 25).map(lambda n: n * 100),
            "tolerance_pct": st.sampled_from([3, 5, 10]),
            "frequency_hz": st.sampled_from([50, 60, [50, 60]]),
            "no_pcb": st.just(value=True),
        },
    ),
    hv_diode: st.fixed_dictionaries(
        {"vrrm_kv": st.integers(5, 20)},
        optional={
            "if_ma": st.integers(100, 600),
            "type": st.sampled_from(["HVM12", "T3512", "UX-F5B"]),
            "ir_ua": st.integers(1, 10),
            "protector": st.just(value=True),
        },
    ),
    motor_turntable: st.fixed_dictionaries(
        {
            "voltage_vac": st.sampled_from([21, 30, 120, [220, 240]]),
            "rpm_50hz": st.sampled_from([2.5, 5, 10]),
        },
        optional={
            "power_w": st.sampled_from([2.5, 3, 4]),
            "direction": st.sampled_from(["CW", "CCW", "random"]),
        },
    ).map(_at_60_hz),
    mov: st.fixed_dictionaries(
        {
            "diameter_mm": st.sampled_from([5, 7, 10, 14, 20]),
            "shape": st.just("disc"),
            "v1ma_v": st.sampled_from([18, 22, 180, 220, 390, 470, 820, 1000, 1100]),
            "tolerance_letter": st.sampled_from(["J", "K", "M"]),
        },
        optional={"series": st.sampled_from(["HEL", "GNR"]), "high_surge": st.just(value=True)},
    ),
    lamp: st.fixed_dictionaries(
        {"power_w": st.integers(5, 60), "base": st.sampled_from(["E14", "E17", "B15d", "G9"])},
        optional={
            "voltage_v": _MAINS,
            "temp_c": st.sampled_from([170, 300, 500]),
            "technology": st.sampled_from(["halogen", "LED"]),
        },
    ),
    rating_plate: st.fixed_dictionaries(
        {"model": st.sampled_from(["R-820BK", "KOR-63B5"]), "voltage_vac": _MAINS},
        optional={
            "serial": st.from_regex(r"[0-9]{6,10}", fullmatch=True),
            "frequency_hz": st.sampled_from([50, 60, [50, 60]]),
            "power_in_w": st.integers(1000, 1700),
            "power_out_w": st.integers(500, 999),
            "frequency_mhz": st.just(2450),
            "protection_class": st.sampled_from(["I", "II"]),
        },
    ),
}
"""Ratings a part of the family can carry, every combination of them."""


@pytest.mark.parametrize(
    "grammar", RATINGS, ids=lambda module: str(module.__name__).rsplit(".", 1)[1]
)
@settings(max_examples=60, deadline=None)
@given(data=st.data())
def test_ratings_written_out_read_back_the_same(grammar: ModuleType, data: st.DataObject) -> None:
    """A reading in canonical form says again what it said, no less and nothing wrong."""
    said = data.draw(RATINGS[grammar])
    text = grammar.canonical(Reading(text="", family="", ratings=said))

    again = grammar.read(text).ratings

    assert {name: again.get(name) for name in said} == said, text
