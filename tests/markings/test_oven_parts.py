"""Trays, rollers and drive couplers: sizes with their names."""

from __future__ import annotations

import pytest

from inventory.markings import drive_coupler, roller, tray


def test_a_size_belongs_to_the_name_beside_it() -> None:
    """284 mm is the tray's, 220 mm the track's, in either order."""
    for text in ("tray 284 mm groove 220 mm", "tray groove 220 mm 284 mm"):
        said = tray.read(text).ratings
        assert (said["diameter_mm"], said["groove_mm"]) == (284, 220), text


@pytest.mark.parametrize(("text", "mm"), [('12 3/4"', 323.85), ("10 inch", 254), ("31,5 cm", 315)])
def test_inches_and_centimetres_become_millimetres(text: str, mm: float) -> None:
    """25.4 mm an inch. Source: NIST SP 811, appendix B.8."""
    assert tray.read(text).ratings["diameter_mm"] == mm


def test_lobes_give_the_tray_its_centre() -> None:
    """Three lobes, a Y, a hexagon."""
    assert tray.read("3 lobes").ratings["coupler"] == "3-lobe"
    assert tray.read("Y centre").ratings["coupler"] == "3-lobe"
    assert tray.read("hex centre").ratings["coupler"] == "hexagon"


def test_a_number_without_a_unit_is_no_size() -> None:
    """284 alone stays unread."""
    assert dict(tray.read("284").ratings) == {}


def test_a_roller_ring_has_a_ring_and_rollers() -> None:
    """Ring, count, roller."""
    said = roller.read("roller ring 220 mm 3 rollers roller 14 mm").ratings

    assert (said["ring_mm"], said["rollers"], said["roller_mm"]) == (220, 3, 14)


def test_a_coupler_has_a_shaft_and_lobes() -> None:
    """A D shaft is not a double D."""
    said = drive_coupler.read("3 lobe D-shaft 7mm height 15 mm 150°C").ratings

    assert (said["shaft"], said["shaft_mm"], said["height_mm"]) == ("D", 7, 15)
    assert drive_coupler.read("double-D shaft 6 mm").ratings["shaft"] == "double D"


def test_words_make_the_family_likely() -> None:
    """A size alone does not."""
    assert min(tray.likely("glass tray"), roller.likely("roller ring")) > 0.5
    assert drive_coupler.likely("turntable coupler") > 0.5
    assert tray.likely("284 mm") == roller.likely("14 mm") == drive_coupler.likely("7 mm") == 0
