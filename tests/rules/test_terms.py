"""One quantity under one name: what is derived is only another way to say what is there."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.families.sheet import families, sheet
from inventory.rules.terms import in_terms, tidy


def said(family: str, **ratings: Any) -> dict[str, Any]:
    """Ratings in the terms of a family."""
    return in_terms(sheet(family), ratings)


CASES: list[tuple[str, dict[str, Any], dict[str, Any]]] = [
    ("switch", {"tab_mm": [4.8, 0.5]}, {"tab_mm": 4.8, "tab_thick": 0.5}),
    ("switch", {"tab_width": 6.3}, {"tab_mm": 6.3, "tab_thick": 0.8}),
    ("switch", {"terminal": "qc-2.8"}, {"tab_mm": 2.8}),
    ("switch", {"terminals": "#187 tabs"}, {"tab_mm": 4.8}),
    ("switch", {"contact": "SPDT"}, {"contact_form": "SPDT"}),
    ("terminal", {"tab_mm": "6,3 x 0,8 mm"}, {"tab_mm": 6.3, "tab_thick": 0.8}),
    ("relay", {"contact": "SPST-NO", "series": "G5RL"}, {"poles": 1, "latching": False}),
    ("relay", {"special": "TV-8", "series": "G5RL"}, {"tv": "TV-8"}),
    ("relay", {"coil_volts_dc": 12}, {"coil_vdc": 12}),
    ("thermal_cutout", {"open_f": 302}, {"open_c": 150.0, "contact": "NC"}),
    ("thermal_cutout", {"close_on_rise_c": 60}, {"contact": "NO"}),
    ("thermal_cutout", {"reset": "auto", "reset_c": -35}, {"reset": "one-shot"}),
    ("thermal_cutout", {"reset": "none"}, {"reset": "one-shot"}),
    ("fuse", {"breaking_class": "L"}, {"standard": "IEC 60127"}),
    ("fuse", {"time_characteristic": "T"}, {"standard": "IEC 60127"}),
    ("fuse", {"standard": "GB/T 9364.2"}, {"standard": "IEC 60127"}),
    ("fuse", {"standard": "UL 248-14"}, {"standard": "UL 248-14", "breaking_class": "UL 248-14"}),
    ("fuse", {"standard": "BS 1362"}, {"standard": "BS 1362"}),
    ("hv_fuse", {"voltage_kv": 5}, {"voltage_v": 5000}),
    ("capacitor_safety", {"capacitance_pf": 680}, {"capacitance_uf": 0.00068}),
    ("capacitor", {"capacitance_nf": 100}, {"capacitance_uf": 0.1}),
    ("capacitor_safety", {"discharge_resistor_ohm": 1e6}, {"discharge_resistor": True}),
    ("hv_capacitor", {"bleeder_mohm": 10}, {"bleeder": True}),
    ("hv_diode", {"if_a": 0.35}, {"if_ma": 350}),
    ("ntc", {"r25_ohm": 10, "diameter_mm": 7}, {"inrush_ohm": 10}),
    ("cord", {"awg": 18}, {"area_mm2": 0.823}),
    ("cord", {"service": "SJTOW"}, {"service": "SJT"}),
    ("thermal_cutout", {"inductive_a": 2}, {"motor_a": 2}),
    ("terminal", {"tab_mm": [[4.8, 0.5], [4.8, 0.8]]}, {"tab_mm": 4.8}),
    ("screw", {"thread": "M4"}, {"thread": "M4x0.7"}),
    ("screw", {"thread": "M4 x 0,7"}, {"thread": "M4x0.7"}),
    ("screw", {"thread": "M8x1"}, {"thread": "M8x1"}),
    ("screw", {"thread": "#8-32"}, {"thread": "#8-32"}),
    ("screw", {"thread": "M13"}, {"thread": "M13"}),
    ("switch", {"maker_rating_a": 5}, {"resistive_a": 5}),
    ("switch", {"contact_form": "DPDT"}, {"poles": 2}),
    ("relay", {"coil_vdc": 12, "coil_power_w": 0.36}, {"coil_ohm": 400}),
    ("thermal_cutout", {"open_tol_f": 9, "reset_tol_f": 18}, {"open_tol_c": 5, "reset_tol_c": 10}),
    ("thermal_cutout", {"open_f": 145, "differential_f": 30}, {"reset_c": 46.1}),
    ("thermal_cutout", {"close_on_rise_c": 60, "open_on_fall_c": 45}, {"reset_c": 45}),
    ("thermal_cutout", {"voltage_vdc": 24, "current_a": 10}, {"volts_dc": 24}),
    ("thermal_link", {"tf_f": 230}, {"tf_c": 110}),
    ("lamp", {"temp_f": 572}, {"temp_c": 300}),
    ("belt", {"length_in": 36.5}, {"length_mm": 927.1}),
    ("cord", {"jacket": "thermoplastic"}, {"sheath": "PVC"}),
    ("cord", {"type": "HPNO"}, {"type": "HPN"}),
    (
        "fuse",
        {"interrupting": [{"a": 10000, "voltage_v": 125}, {"a": 100, "voltage_v": 250}]},
        {"breaking_capacity_a": 100},
    ),
    ("capacitor_safety", {"voltage_vac_by_class": {"X1": 440, "Y2": 250}}, {"voltage_vac": 250}),
]
"""Sources: UL 310 (tabs), ASTM B258 (18 AWG is 0.823 mm²), NIST SP 811 (302 °F is 150 °C),
IEC 60127-1 (letters), ISO 261 (coarse pitches), UL 62 type letters,
LG DLE3777W service manual (reset at -35 °C), Littelfuse fuseology guide (interrupting ratings),
Omron G5LE data sheet (12 V, 0.36 W, 400 Ω), a lint-filter thermostat stamped L145-30F."""


@pytest.mark.parametrize(("family", "ratings", "derived"), CASES)
def test_a_term_is_derived(family: str, ratings: dict[str, Any], derived: dict[str, Any]) -> None:
    """What was said in one way can be compared in another."""
    terms = said(family, **ratings)

    assert {name: terms.get(name) for name in derived} == derived


NOT_DERIVED = [
    ("switch", {"tab_mm": 4.8}, "tab_thick"),  # comes in 0.5 and 0.8
    ("switch", {"contact": "NO"}, "contact_form"),  # the throw of a rating
    ("switch", {"resistive_a": 16}, "volts_ac"),
    ("fuse", {"current_a": 5, "time_characteristic": "time-delay"}, "standard"),
    ("relay", {"contact": "SPST-NO"}, "latching"),
    ("ntc", {"r25_ohm": 10, "diameter_mm": 7}, "r25_ohm"),
    ("ntc", {"r25_ohm": 10000, "b_k": 3950, "diameter_mm": 5}, "inrush_ohm"),
    ("hv_capacitor", {"capacitance_uf": 1}, "bleeder"),
    ("cord", {"awg": "thick"}, "area_mm2"),
    ("relay", {"contact_form": "NO"}, "poles"),
    ("terminal", {"tab_mm": [[4.8, 0.5], [6.3, 0.8]]}, "tab_mm"),
    ("terminal", {"tab_mm": [[4.8, 0.5], [4.8, 0.8]]}, "tab_thick"),
    ("relay", {"coil_vac": 230, "coil_power_w": 1.2}, "coil_ohm"),  # an a.c. coil has reactance
    ("thermal_cutout", {"voltage_vdc": 24, "current_a": 10}, "resistive_a"),
    ("thermal_cutout", {"differential_f": 30}, "reset_c"),
    ("cord", {"type": "SJT", "service": "SJT"}, "type"),  # the service class speaks for it
    ("cord", {"jacket": "elastomer"}, "sheath"),
    ("fuse", {"interrupting": [{"a": 1200}]}, "breaking_capacity_a"),
]


@pytest.mark.parametrize(("family", "ratings", "name"), NOT_DERIVED)
def test_nothing_is_invented(family: str, ratings: dict[str, Any], name: str) -> None:
    """What the text does not say stays unknown."""
    assert name not in said(family, **ratings)


def test_what_is_stated_wins_over_what_is_derived() -> None:
    """A measured thickness is not replaced by the usual one."""
    assert said("switch", tab_mm=6.3, tab_thick=0.5)["tab_thick"] == 0.5


def test_unknown_values_are_not_there() -> None:
    """None is not known: it never becomes a value."""
    assert said("fuse", current_a=None) == {}


@pytest.mark.parametrize("family", families())
def test_terms_said_twice_change_nothing(family: str) -> None:
    """The terms of terms are the terms."""
    ratings = {"tab_mm": [4.8, 0.8], "awg": 16, "contact": "SPDT", "reset": "none",
               "open_f": 302, "standard": "EN 60127-2", "series": "G5LE",
               "r25_ohm": 5, "diameter_mm": 9}  # fmt: skip
    once = in_terms(sheet(family), ratings)

    assert in_terms(sheet(family), once) == once


@given(st.text(max_size=30))
def test_tidying_any_text_twice_changes_nothing(text: str) -> None:
    """A tidied value is tidy."""
    assert tidy(tidy(text)) == tidy(text)


def test_sets_come_out_in_one_order() -> None:
    """The order of a set never shows."""
    assert tidy({"Y2", "X1"}) == ["X1", "Y2"]
