"""Limits of size against the published tables: 0.001 mm and 0.0001 in."""

from __future__ import annotations

import pytest

from inventory.errors import WrongInput
from inventory.fasteners.catalogue import metric, plastics_threads
from inventory.fasteners.thread import INCH, Window
from inventory.fasteners.threads import limits, printed_both_ways
from tests.fasteners.published import table, thread

METRIC = table("thread_limits_metric.csv")
INCHES = table("thread_limits_inch.csv")
NAMES = ("d_max", "d_min", "d2_max", "d2_min", "D2_min", "D2_max", "D1_min", "D1_max")


@pytest.mark.parametrize("row", METRIC, ids=[row["thread"] for row in METRIC])
def test_a_metric_row_is_the_published_one(row: dict[str, str]) -> None:
    """All eight limits of 6g and 6H to 0.001 mm."""
    found = limits(thread(row["thread"]), "6g/6H").named()

    for name in NAMES:
        assert found[name] == pytest.approx(float(row[name]), abs=0.0005), name


@pytest.mark.parametrize("row", METRIC, ids=[row["thread"] for row in METRIC])
def test_a_metric_basic_profile_is_the_published_one(row: dict[str, str]) -> None:
    """d2, D1 and the rounded root d3 to 0.001 mm."""
    one = thread(row["thread"])

    assert one.pitch_diameter == pytest.approx(float(row["d2"]), abs=0.00051)
    assert one.minor == pytest.approx(float(row["D1"]), abs=0.00051)
    assert one.root == pytest.approx(float(row["d3"]), abs=0.00051)


@pytest.mark.parametrize("row", INCHES, ids=[row["thread"] for row in INCHES])
def test_an_inch_row_is_the_published_one(row: dict[str, str]) -> None:
    """All eight limits of 2A and 2B to 0.0001 in, and the allowance."""
    one = thread(row["thread"])
    found = limits(one, "2A/2B").named()

    for name in NAMES:
        assert found[name] == pytest.approx(float(row[name]), abs=0.00005), name
    assert one.major / INCH - found["d_max"] == pytest.approx(float(row["allowance"]), abs=1e-9)
    assert one.pitch == pytest.approx(float(row["P_mm"]), abs=0.00006)


# ASME B1.1-2019 tables, from memory; D1 max of #10-32 3B also in many trade tables.
OTHER_INCH_CLASSES = [
    ("1/4-20", "1A", {"d_max": 0.2489, "d_min": 0.2367, "d2_max": 0.2164, "d2_min": 0.2108}),
    ("5/16-18", "1A", {"d2_min": 0.2691, "d_min": 0.2982}),
    ("1/4-20", "3A", {"d_max": 0.2500, "d_min": 0.2419, "d2_max": 0.2175, "d2_min": 0.2147}),
    ("1/4-20", "3B", {"D2_max": 0.2211, "D1_min": 0.1960, "D1_max": 0.2067}),
    ("#10-32", "3B", {"D2_max": 0.1726, "D1_max": 0.1641}),
    ("3/8-16", "3B", {"D2_max": 0.3387, "D1_max": 0.3182}),
    ("1/2-13", "3B", {"D2_max": 0.4548, "D1_max": 0.4284}),
    ("1/4-20", "1B", {"D2_max": 0.2248, "D1_max": 0.2070}),
]


@pytest.mark.parametrize(("name", "fit_class", "printed"), OTHER_INCH_CLASSES)
def test_the_other_inch_classes_are_those_of_the_standard(
    name: str, fit_class: str, printed: dict[str, float]
) -> None:
    """Classes 1 and 3 to 0.0001 in."""
    found = limits(thread(name), fit_class).named()

    assert {key: found[key] for key in printed} == printed


# FED-STD-H28/21B (1984, public domain), worked examples 1 to 3. The printed d2 min of the third is
# a slip (it repeats the minor diameter, 27.619); 28.16010 - 0.08681 = 28.07329.
FEDERAL = [
    (27, 1.5, "4e6g", {"d_max": 26.968, "d_min": 26.732, "d2_max": 25.959, "d2_min": 25.864}),
    (27, 1.5, "6H", {"D2_min": 26.026, "D2_max": 26.226, "D1_min": 25.376, "D1_max": 25.676}),
    (29, 1.25, "4g6h", {"d_max": 29.0, "d_min": 28.788, "d2_max": 28.16, "d2_min": 28.073}),
]


@pytest.mark.parametrize(("major", "pitch", "fit_class", "printed"), FEDERAL)
def test_the_federal_worked_examples_come_out(
    major: float, pitch: float, fit_class: str, printed: dict[str, float]
) -> None:
    """Odd sizes and mixed classes, as the federal metric standard works them."""
    assert limits(metric(major, pitch), fit_class).named() == printed


def test_the_rounding_trap_of_10_24_is_told() -> None:
    """One edition prints .155, FED-STD-H28/2B .156; both are named, the newer is used."""
    found = limits(thread("#10-24"), "2B")

    assert printed_both_ways(found) == (0.155, 0.156)
    assert found.named()["D1_max"] == 0.155


@pytest.mark.parametrize("name", ["#8-32", "#10-32", "1/4-20", "M4x0.7"])
def test_other_threads_have_one_rounding(name: str) -> None:
    """Where the roundings agree nothing is said."""
    assert printed_both_ways(limits(thread(name))) is None


def test_a_screws_class_has_no_two_roundings_of_a_hole() -> None:
    """Class 2A has no hole."""
    assert printed_both_ways(limits(thread("#10-24"), "2A")) is None


def test_inch_limits_come_back_in_mm() -> None:
    """#8-32 2A is 3.990 to 4.143 mm. Source: the published window in mm."""
    window = limits(thread("#8-32"), "2A").screw_mm().major

    assert (round(window.low, 3), round(window.high, 3)) == (3.990, 4.143)


@pytest.mark.parametrize(("fit_class", "asked"), [("6H", "screw"), ("6g", "hole")])
def test_a_holes_class_gives_no_screw(fit_class: str, asked: str) -> None:
    """Asking the wrong side is told, not answered with nothing."""
    found = limits(thread("M4x0.7"), fit_class)

    with pytest.raises(WrongInput, match="not a"):
        found.screw_mm() if asked == "screw" else found.hole_mm()


@pytest.mark.parametrize("fit_class", ["6x", "6gg", "6g6H", "2C", "4A", "6g/6H/6g", "", "6E"])
def test_a_class_that_is_none_is_refused(fit_class: str) -> None:
    """Metric and inch classes that no standard has."""
    name = "#8-32" if fit_class.endswith(("A", "C")) else "M4x0.7"

    with pytest.raises(WrongInput):
        limits(thread(name), fit_class or " ")


def test_a_plastics_screw_has_no_class_of_fit() -> None:
    """Only machine threads have limits of size here."""
    with pytest.raises(WrongInput, match="not a machine thread"):
        limits(plastics_threads()[0])


def test_a_windows_gap_is_how_far_a_reading_lies_outside() -> None:
    """Inside there is none."""
    window = Window(1.0, 2.0)

    assert (window.gap(0.5), window.gap(1.5), window.gap(2.25)) == (0.5, 0.0, 0.25)
    assert window.middle == 1.5
