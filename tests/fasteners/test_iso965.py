"""ISO 965-1: every tabulated grade, the formulas behind them, and the classes' grammar."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.errors import WrongInput
from inventory.fasteners import iso965, tables

# ISO 965-1 tables 3 to 6, µm, as read in a public code base that cites them (with two of its
# typing slips put right from the R40 series); rows: pitch, grades in order.
TD1 = {  # grades 4 to 8
    0.2: (38,), 0.25: (45, 56),
    0.35: (63, 80, 100), 0.5: (90, 112, 140, 180), 0.7: (112, 140, 180, 224),
    0.8: (125, 160, 200, 250, 315), 1.0: (150, 190, 236, 300, 375),
    1.25: (170, 212, 265, 335, 425), 1.5: (190, 236, 300, 375, 475),
    1.75: (212, 265, 335, 425, 530),
}  # fmt: skip
TD = {  # grades 4, 6, 8
    0.35: (53, 85), 0.5: (67, 106), 0.7: (90, 140), 0.8: (95, 150, 236), 1.0: (112, 180, 280),
    1.25: (132, 212, 335), 1.5: (150, 236, 375), 1.75: (170, 265, 425),
}  # fmt: skip
TD2_SCREW = {  # (diameter, pitch): grades 3 to 9
    (2, 0.4): (34, 42, 53, 67, 85), (2.5, 0.45): (36, 45, 56, 71, 90),
    (3, 0.5): (38, 48, 60, 75, 95), (3.5, 0.6): (42, 53, 67, 85, 106),
    (4, 0.7): (45, 56, 71, 90, 112), (5, 0.8): (48, 60, 75, 95, 118, 150, 190),
    (6, 1.0): (56, 71, 90, 112, 140, 180, 224), (8, 1.25): (60, 75, 95, 118, 150, 190, 236),
    (10, 1.5): (67, 85, 106, 132, 170, 212, 265), (12, 1.75): (75, 95, 118, 150, 190, 236, 300),
}  # fmt: skip
TD2_HOLE = {  # (diameter, pitch): grades 4 to 8
    (1.2, 0.25): (45, 56),
    (2, 0.4): (56, 71, 90), (3, 0.5): (63, 80, 100, 125), (4, 0.7): (75, 95, 118, 150),
    (5, 0.8): (80, 100, 125, 160, 200), (6, 1.0): (95, 118, 150, 190, 236),
    (8, 1.25): (100, 125, 160, 200, 250), (10, 1.5): (112, 140, 180, 224, 280),
    (12, 1.75): (125, 160, 200, 250, 315),
}  # fmt: skip


@pytest.mark.parametrize(("pitch", "printed"), TD1.items())
def test_minor_diameter_tolerances_are_the_printed_ones(
    pitch: float, printed: tuple[int, ...]
) -> None:
    """Table 3, grades 4 upwards."""
    grades = range(4, 4 + len(printed))

    found = [iso965.crest_tolerance(pitch, grade, internal=True) for grade in grades]

    assert found == list(printed)


@pytest.mark.parametrize(("pitch", "printed"), TD.items())
def test_major_diameter_tolerances_are_the_printed_ones(
    pitch: float, printed: tuple[int, ...]
) -> None:
    """Table 4, grades 4, 6 and 8."""
    found = [iso965.crest_tolerance(pitch, g, internal=False) for g in (4, 6, 8)[: len(printed)]]

    assert found == list(printed)


@pytest.mark.parametrize(("pair", "printed"), TD2_SCREW.items())
def test_screw_pitch_diameter_tolerances_are_the_printed_ones(
    pair: tuple[float, float], printed: tuple[int, ...]
) -> None:
    """Table 6, grades 3 upwards."""
    grades = range(3, 3 + len(printed))

    found = [iso965.pitch_tolerance(*pair, grade, internal=False) for grade in grades]

    assert found == list(printed)


@pytest.mark.parametrize(("pair", "printed"), TD2_HOLE.items())
def test_hole_pitch_diameter_tolerances_are_the_printed_ones(
    pair: tuple[float, float], printed: tuple[int, ...]
) -> None:
    """Table 5, grades 4 upwards."""
    grades = range(4, 4 + len(printed))

    found = [iso965.pitch_tolerance(*pair, grade, internal=True) for grade in grades]

    assert found == list(printed)


@pytest.mark.parametrize("row", tables.rows("iso_965_pitch_diameter"))
def test_the_formula_is_within_6_per_cent_of_the_table(row: tables.Row) -> None:
    """Td2(6) = 90 P^0.4 d^0.1, d the geometric mean of the range. Source: clause 13.4."""
    middle = math.sqrt(float(row["over"]) * float(row["upto"]))
    screw = 90 * float(row["pitch"]) ** 0.4 * middle**0.1

    assert float(row["td2"]) == pytest.approx(screw, rel=0.06)
    if row["tD2"]:
        assert float(row["tD2"]) == pytest.approx(1.32 * screw, rel=0.06)


@pytest.mark.parametrize("row", [r for r in tables.rows("iso_965_pitch") if r["td1"]])
def test_the_crest_formulas_are_within_6_per_cent_of_the_table(row: tables.Row) -> None:
    """Td(6) and TD1(6). Source: clause 13.3."""
    pitch = float(row["pitch"])
    hole = 433 * pitch - 190 * pitch**1.22 if pitch < 1 else 230 * pitch**0.7

    assert float(row["td"]) == pytest.approx(180 * pitch ** (2 / 3) - 3.15 / pitch**0.5, rel=0.06)
    assert float(row["td1"]) == pytest.approx(hole, rel=0.06)  # 0.2 to 3 mm


def test_a_pitch_no_table_lists_takes_the_formula() -> None:
    """0.9 mm (an old M5): Td by the formula, TD1 between its neighbours 0.8 and 1.0."""
    assert iso965.crest_tolerance(0.9, 6, internal=False) == pytest.approx(164.5, abs=0.5)
    assert 200 < iso965.crest_tolerance(0.9, 6, internal=True) < 236
    assert iso965.crest_tolerance(1.1, 6, internal=True) == pytest.approx(245.9, abs=0.5)


@pytest.mark.parametrize(
    ("pitch", "position", "printed"),
    [(0.7, "g", 22), (0.7, "G", 22), (0.7, "h", 0), (0.7, "H", 0), (1.5, "e", 67), (1, "f", 40)],
)
def test_fundamental_deviations_are_the_printed_ones(
    pitch: float, position: str, printed: float
) -> None:
    """Table 1. e at 1.5 mm also in the federal worked example 1."""
    assert iso965.deviation(pitch, position) == printed


def test_a_deviation_the_table_leaves_out_takes_the_formula() -> None:
    """es(e) = 50 + 11 P, here at 0.35 mm where the table has no e. Source: clause 13.1."""
    assert iso965.deviation(0.35, "e") == 54
    assert iso965.deviation(0.9, "g") == 25


@pytest.mark.parametrize("position", ["E", "F", "k", "z"])
def test_positions_outside_the_standard_are_refused(position: str) -> None:
    """Holes have G and H only."""
    with pytest.raises(WrongInput, match="no tolerance position"):
        iso965.deviation(0.7, position)


def test_a_grade_outside_the_standard_is_refused() -> None:
    """Holes have no grade 3 or 9."""
    with pytest.raises(WrongInput, match="no pitch diameter grade 9"):
        iso965.pitch_tolerance(4, 0.7, 9, internal=True)


def test_a_mixed_class_names_the_pitch_diameter_first() -> None:
    """4g6h: grade 4 g for the pitch, 6 h for the major diameter. Source: ISO 965-1 clause 5."""
    mixed = iso965.ToleranceClass("4g6h")

    assert (mixed.pitch_grade, mixed.pitch_position) == (4, "g")
    assert (mixed.crest_grade, mixed.crest_position) == (6, "h")
    assert not mixed.is_internal


@given(st.sampled_from(iso965.R40), st.integers(-16, 16))
def test_steps_along_the_series_come_back(value: int, steps: int) -> None:
    """Up and down again is where one was, as long as three figures are kept."""
    away = iso965.step(value, abs(steps))

    assert iso965.step(away, -abs(steps)) == pytest.approx(value)
