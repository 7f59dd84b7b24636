"""Figures that circulate in public and are wrong: none of them may come out of this house."""

from __future__ import annotations

import pytest

from inventory.fasteners import drives, fit, holes, strength
from inventory.fasteners.catalogue import metric
from inventory.fasteners.thread import INCH
from inventory.fasteners.threads import limits
from tests.fasteners.published import thread


def test_8_32_2a_is_not_the_chart_without_allowance() -> None:
    """Two suppliers' charts print d max .1640, d min .1478; ASME B1.1 2A is .1631 to .1571."""
    found = limits(thread("#8-32"), "2A").named()

    assert found["d_max"] != 0.1640
    assert found["d_min"] != 0.1478
    assert (found["d_max"], found["d_min"]) == (0.1631, 0.1571)


def test_4_40_2b_has_not_the_charts_pitch_diameter() -> None:
    """The same charts print 0.1013; ASME B1.1 2B is .0958 to .0991."""
    found = limits(thread("#4-40"), "2B").named()

    assert found["D2_max"] < 0.1013
    assert (found["D2_min"], found["D2_max"]) == (0.0958, 0.0991)


def test_the_2b_minor_diameter_is_not_the_screws_root() -> None:
    """One chart prints the screw's root as minor diameter of 2B: 1/4-20 .1887 for .1960."""
    found = limits(thread("1/4-20"), "2B").named()

    assert found["D1_min"] == 0.1960
    assert thread("1/4-20").root / INCH == pytest.approx(0.1887, abs=0.0001)


def test_clearance_of_m12_is_that_of_iso_273() -> None:
    """One data set has 13, 14, 15; the standard 13, 13.5, 14.5."""
    assert holes.clearance(thread("M12x1.75")) == {"fine": 13.0, "medium": 13.5, "coarse": 14.5}


def test_m3_5_countersunk_hexalobular_is_15() -> None:
    """One data set says 10 beside A = 3.35, which is 15."""
    row = drives.standard_size("ISO 14581", "M3.5", "hexalobular")

    assert row is not None
    assert row["size"] == "15"
    assert drives.points_across("15") == 3.35


def test_m4_10_9_breaks_at_9130_n() -> None:
    """One table prints 91130."""
    assert strength.ultimate_load(thread("M4x0.7"), "10.9") == 9130


@pytest.mark.parametrize(
    ("name", "key", "wrong", "right"),
    [
        ("#2-56", "D1_min", 0.667, 0.0667),
        ("#3-48", "D2_max", 0.0855, 0.0885),
        ("1/2-13", "D1_min", 0.4700, 0.4170),
    ],
)
def test_typing_errors_of_a_2b_sheet_are_not_ours(
    name: str, key: str, wrong: float, right: float
) -> None:
    """A public sheet of UNC 2B limits with three slips."""
    found = limits(thread(name), "2B").named()[key]

    assert found != wrong
    assert found == right


def test_the_federal_slip_is_not_repeated() -> None:
    """FED-STD-H28/21B example 3 prints the minor diameter, 27.619, as d2 min; 28.073 is right."""
    assert limits(metric(29, 1.25), "4g6h").named()["d2_min"] == 28.073
    assert metric(29, 1.25).minor == pytest.approx(27.647, abs=0.001)


def test_a_number_6_is_0_138_in() -> None:
    """One drill chart gives .136."""
    assert thread("#6-32").major / INCH == pytest.approx(0.138)


def test_m12_is_not_rounded_to_a_hundredth() -> None:
    """A thread library rounds from M11 up: d2 min 10.68 for 10.679."""
    assert limits(thread("M12x1.75"), "6g").named()["d2_min"] == 10.679


def test_5_44_is_not_m3() -> None:
    """A forum calls #5-44 and M3x0.5 equal; they part by 77 micrometres a turn."""
    found = fit.fit(thread("M3x0.5"), thread("#5-44"), 2.0, ductile=True)

    assert 1000 * abs(found.screw.pitch - found.hole.pitch) == pytest.approx(77, abs=0.5)
    assert found.detail is fit.Detail.BINDS_AFTER


@pytest.mark.parametrize("name", ["#5-40", "#8-32", "#10-24"])
def test_a_minor_diameter_formula_with_misplaced_brackets_is_not_used(name: str) -> None:
    """One package has max(tol, P/4 - 2 P²)/5 where the standard has P/4 - 2 P²/5."""
    one = thread(name)
    pitch = one.pitch / INCH
    window = limits(one, "2B").hole
    assert window is not None

    assert window.minor.high - window.minor.low > 1.5 * (pitch / 4 - 2 * pitch**2) / 5
