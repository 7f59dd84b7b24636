"""Limits of size as further public charts print them: other classes, roots, odd sizes."""

from __future__ import annotations

import pytest

from inventory.fasteners import answer
from inventory.fasteners.catalogue import tapping_threads
from inventory.fasteners.thread import INCH


def limits(thread: str, fit: str, *names: str) -> list[float]:
    """Some limits of a thread in a class of fit [mm]."""
    got = answer("limits", {"thread": thread, "class": fit})
    return [got[name] for name in names]


# thread, class, d max, d min, d2 max, d2 min, d3 min (rounded root). Source: amesweb.info, metric
# external thread chart (ASME B1.13M-2005).
SCREWS = [
    ("M1.6", "6g", 1.581, 1.496, 1.354, 1.291, 1.075),
    ("M1.6", "6h", 1.600, 1.515, 1.373, 1.310, 1.094),
    ("M1.6", "4g6g", 1.581, 1.496, 1.354, 1.314, 1.098),
    ("M2", "6h", 2.000, 1.905, 1.740, 1.673, 1.427),
    ("M2", "4g6g", 1.981, 1.886, 1.721, 1.679, 1.433),
    ("M2.5", "6h", 2.500, 2.400, 2.208, 2.137, 1.860),
    ("M2.5", "4g6g", 2.480, 2.380, 2.188, 2.143, 1.866),
    ("M3", "6g", 2.980, 2.874, 2.655, 2.580, 2.272),
    ("M3", "6h", 3.000, 2.894, 2.675, 2.600, 2.292),
    ("M3", "4g6g", 2.980, 2.874, 2.655, 2.607, 2.299),
    ("M3.5", "6h", 3.500, 3.375, 3.110, 3.025, 2.655),
    ("M3.5", "4g6g", 3.479, 3.354, 3.089, 3.036, 2.666),
    ("M4", "6h", 4.000, 3.860, 3.545, 3.455, 3.024),
    ("M4", "4g6g", 3.978, 3.838, 3.523, 3.467, 3.036),
    ("M5", "6h", 5.000, 4.850, 4.480, 4.385, 3.892),
    ("M5", "4g6g", 4.976, 4.826, 4.456, 4.396, 3.903),
]


@pytest.mark.parametrize(("thread", "fit", "d_max", "d_min", "d2_max", "d2_min", "d3_min"), SCREWS)
def test_a_screw_of_any_class_has_the_charted_limits(
    thread: str, fit: str, d_max: float, d_min: float, d2_max: float, d2_min: float, d3_min: float
) -> None:
    """To 0.001 mm; the charted M4 4g6g root is 0.001 off its neighbours' rule."""
    got = answer("limits", {"thread": thread, "class": fit, "element": "external"})
    names = ("d_max", "d_min", "d2_max", "d2_min", "d3_min")

    assert [got[name] for name in names] == pytest.approx(
        [d_max, d_min, d2_max, d2_min, d3_min], abs=0.0011
    )


# thread, d, d2, d3 and D2, D1 windows as (max, min) of the screw and (min, max) of the hole in the
# class usual for the size. Source: a distributor's sheet of ISO 965-2 (scribd 458030939), which
# says: M1 to M1.4 fit 5H/6h, from M1.6 fit 6H/6g.
USUAL = [
    ("M1", (1.000, 0.933), (0.838, 0.785), (0.693, 0.630), (0.838, 0.894), (0.729, 0.785)),
    ("M1.2", (1.200, 1.133), (1.038, 0.985), (0.893, 0.830), (1.038, 1.094), (0.929, 0.985)),
    ("M1.4", (1.400, 1.325), (1.205, 1.149), (1.032, 0.964), (1.205, 1.265), (1.075, 1.142)),
    ("M1.6", (1.581, 1.496), (1.354, 1.291), (1.152, 1.075), (1.373, 1.458), (1.221, 1.321)),
    ("M1.8", (1.781, 1.696), (1.554, 1.491), (1.352, 1.275), (1.573, 1.658), (1.421, 1.521)),
    ("M2", (1.981, 1.886), (1.721, 1.654), (1.490, 1.407), (1.740, 1.830), (1.567, 1.679)),
    ("M2.2", (2.180, 2.080), (1.888, 1.817), (1.628, 1.540), (1.908, 2.003), (1.713, 1.838)),
    ("M2.5", (2.480, 2.380), (2.188, 2.117), (1.928, 1.840), (2.208, 2.303), (2.013, 2.138)),
    ("M3", (2.980, 2.874), (2.655, 2.580), (2.367, 2.273), (2.675, 2.775), (2.459, 2.599)),
    ("M3.5", (3.479, 3.354), (3.089, 3.004), (2.743, 2.635), (3.110, 3.222), (2.850, 3.010)),
]


@pytest.mark.parametrize("row", USUAL, ids=lambda row: row[0])
def test_without_a_class_the_usual_one_is_meant(
    row: tuple[str, *tuple[tuple[float, float], ...]],
) -> None:
    """Screw, root and hole to 0.001 mm, M1 to M1.4 in 5H/6h."""
    got = answer("limits", {"thread": row[0]})
    screw = ("d_max", "d_min", "d2_max", "d2_min", "d3_max", "d3_min")
    names = (*screw, "D2_min", "D2_max", "D1_min", "D1_max")

    assert [got[name] for name in names] == pytest.approx(
        [figure for pair in row[1:] for figure in pair], abs=0.0011
    )


# D1 min, D1 max, D2 min, D2 max of 6H. Source: engineersedge.com, metric internal threads M9 to
# M24 (ANSI/ASME B1.13M-1995). Its M9x1 and M11x1.5 D2 max (8.498, 10.196) are left out: M10x1 of
# the same chart and a tap maker's guide (ISO 6H M11: 10.206) show them to be slips.
HOLES = [
    ("M9x1.25", 7.647, 7.912, 8.188, 8.348), ("M9x0.75", 8.188, 8.378, 8.513, 8.645),
    ("M9x0.5", 8.459, 8.599, 8.675, 8.787), ("M10x0.75", 9.188, 9.378, 9.513, 9.645),
    ("M10x0.5", 9.459, 9.599, 9.675, 9.787), ("M11x1", 9.917, 10.153, 10.350, 10.500),
    ("M11x0.75", 10.188, 10.378, 10.513, 10.645), ("M12x1", 10.917, 11.153, 11.350, 11.510),
    ("M12x0.75", 11.188, 11.378, 11.513, 11.653), ("M14x2", 11.835, 12.210, 12.701, 12.913),
    ("M14x1.5", 12.376, 12.676, 13.026, 13.216),
]  # fmt: skip


@pytest.mark.parametrize(("thread", "d1_min", "d1_max", "d2_min", "d2_max"), HOLES)
def test_a_fine_hole_has_the_charted_limits(
    thread: str, d1_min: float, d1_max: float, d2_min: float, d2_max: float
) -> None:
    """Pitches and sizes beyond the coarse series."""
    found = limits(thread, "6H", "D1_min", "D1_max", "D2_min", "D2_max")

    assert found == pytest.approx([d1_min, d1_max, d2_min, d2_max], abs=0.0011)


# d2 (basic), d3, D1, 6H window of D2. Source: a tap maker's user guide (ISCAR 2022, page 56).
TAP_GUIDE = [
    ("M7", 6.350, 5.773, 5.917, 6.500), ("M9x1.25", 8.188, 7.466, 7.647, 8.348),
    ("M11x1.5", 10.026, 9.160, 9.376, 10.206), ("M14", 12.701, 11.546, 11.835, 12.913),
    ("M16", 14.701, 13.546, 13.835, 14.913), ("M18", 16.376, 14.933, 15.294, 16.600),
]  # fmt: skip


@pytest.mark.parametrize(("thread", "d2", "d3", "d1", "high"), TAP_GUIDE)
def test_basic_sizes_and_the_hole_are_those_of_the_tap_guide(
    thread: str, d2: float, d3: float, d1: float, high: float
) -> None:
    """Basic profile of ISO 724, D2 max of 6H."""
    basic = answer("limits", {"thread": thread, "quantity": "basic"})

    assert [basic["d2"], basic["d3"], basic["D1"]] == pytest.approx([d2, d3, d1], abs=0.0011)
    assert answer("limits", {"thread": thread, "class": "6H"})["D2_max"] == pytest.approx(high)


# d max, d min, d2 max, d2 min of 6g, from memory of ISO 965-2.
LARGE = [
    ("M14", 13.962, 13.682, 12.663, 12.503), ("M16", 15.962, 15.682, 14.663, 14.503),
    ("M20", 19.958, 19.623, 18.334, 18.164), ("M24", 23.952, 23.577, 22.003, 21.803),
    ("M30", 29.947, 29.522, 27.674, 27.462), ("M36", 35.940, 35.465, 33.342, 33.118),
]  # fmt: skip


@pytest.mark.parametrize(("thread", "d_max", "d_min", "d2_max", "d2_min"), LARGE)
def test_a_large_screw_has_its_limits(
    thread: str, d_max: float, d_min: float, d2_max: float, d2_min: float
) -> None:
    """Door hinges and motor mounts."""
    found = limits(thread, "6g", "d_max", "d_min", "d2_max", "d2_min")

    assert found == pytest.approx([d_max, d_min, d2_max, d2_min], abs=0.0011)


# 5/8-11 UNC: d max, d min of 1A, 2A, 3A and D1 of 1B, 3B as a transcript of ASME B1.1 table 2A
# prints them (huatuo6.cn); pitch diameters from memory of the same table.
def test_a_five_eighths_coarse_thread_has_its_limits() -> None:
    """All six classes to 0.0001 in."""
    got = {c: answer("limits", {"thread": "5/8-11", "class": c})
           for c in ("1A", "2A", "3A", "1B", "2B", "3B")}  # fmt: skip
    screws = [(got[c]["d_max"], got[c]["d_min"]) for c in ("1A", "2A", "3A")]
    flanks = [(got[c]["d2_max"], got[c]["d2_min"]) for c in ("1A", "2A", "3A")]

    assert screws == [(0.6234, 0.6052), (0.6234, 0.6113), (0.6250, 0.6129)]
    assert flanks == [(0.5644, 0.5561), (0.5644, 0.5589), (0.5660, 0.5619)]
    assert [got[c]["D1_max"] for c in ("1B", "2B", "3B")] == [0.546, 0.546, 0.5391]
    assert [got[c]["D2_max"] for c in ("1B", "2B", "3B")] == [0.5767, 0.5732, 0.5714]


# Type AB: threads per inch, major max and min, minor max and min [in]. Source: engineersedge.com,
# sheet metal thread dimensions (ANSI B18.6.4).
AB = {
    "#0": (48, 0.060, 0.054, 0.036, 0.033), "#1": (42, 0.075, 0.069, 0.049, 0.046),
    "#2": (32, 0.088, 0.082, 0.064, 0.060), "#3": (28, 0.101, 0.095, 0.075, 0.071),
    "#4": (24, 0.114, 0.108, 0.086, 0.082), "#5": (20, 0.130, 0.123, 0.094, 0.090),
    "#6": (20, 0.139, 0.132, 0.104, 0.099),
}  # fmt: skip


@pytest.mark.parametrize(("size", "row"), AB.items())
def test_a_tapping_thread_has_the_inch_limits_too(size: str, row: tuple[float, ...]) -> None:
    """The mm table of ISO 1478 is the inch table to a thousandth."""
    thread = next(t for t in tapping_threads() if f"/ {size}-{row[0]} " in t.name)
    core, crest = thread.core, thread.crest

    assert core is not None
    assert crest is not None
    found = [crest.high / INCH, crest.low / INCH, core.high / INCH, core.low / INCH]
    assert found == pytest.approx(list(row[1:]), abs=0.001)
