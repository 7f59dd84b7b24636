"""Oven high-voltage fuses. Source of the steps: m.hi1718.com/baike/view/4751.html."""

from __future__ import annotations

import pytest

from inventory.markings import fuse, hv_fuse
from inventory.markings.hv_fuse import likely, read
from inventory.markings.reader import read as read_any

STEPS_MA = (500, 600, 650, 700, 750, 800, 850, 900, 950)


@pytest.mark.parametrize("milliamps", STEPS_MA)
@pytest.mark.parametrize("shape", ["{}mA5KV", "5KV {}mA", "HV FUSE {}mA/5kV"])
def test_every_step_of_the_list_is_read_in_every_order(milliamps: int, shape: str) -> None:
    """Current first or volts first, glued or not."""
    ratings = read(shape.format(milliamps)).ratings

    assert (ratings["current_a"], ratings["voltage_v"]) == (milliamps / 1000, 5000)


def test_it_is_never_taken_for_a_mains_cartridge() -> None:
    """Without a family the kilovolts decide."""
    assert read_any("900mA5KV").family == "hv_fuse"
    assert likely("900mA5KV") > fuse.likely("900mA5KV")


@pytest.mark.parametrize(("text", "offered"), [("075A 5KV", 0.75), ("900A5KV", 0.9)])
def test_a_current_no_oven_asks_for_is_offered_repaired(text: str, offered: float) -> None:
    """A lost point or m is a candidate with the whole marking mended, not a rating."""
    reading = read(text)

    assert "current_a" not in reading.ratings
    assert [candidate.ratings for candidate in reading.candidates] == [{"current_a": offered}]
    assert reading.candidates[0].text.endswith("5KV")


def test_a_mains_voltage_is_refused_as_high_voltage() -> None:
    """250 V in this family needs a person: the wrong fuse does not put the arc out."""
    assert read("0.9A 250V").ratings["needs_review"]


def test_size_spring_and_holder_are_read() -> None:
    """6.5 x 40 mm glass with a spring, usually in a sleeve."""
    ratings = read("0.8A 5KV 6.5x40mm glass spring loaded with holder").ratings

    assert ratings["size_mm"] == [6.5, 40]
    assert (ratings["body"], ratings["spring_loaded"], ratings["holder"]) == ("glass", True, True)


def test_another_high_voltage_part_claims_its_own_text() -> None:
    """A diode's 12 kV 350 mA is no fuse."""
    assert hv_fuse.likely("CL01-12 12kV 350mA") < 0.5
