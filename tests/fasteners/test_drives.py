"""Drive sizes, what turns what, and tamper classes."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.fasteners import drives, heads
from inventory.fasteners.answer_drive import read_drive, read_driver
from inventory.fasteners.catalogue import metric, unified
from inventory.fasteners.drives import Drive, Kind, Tamper

# Point-to-point A [mm] of ISO 10664 as two public data sets agree.
ISO_10664 = {6: 1.75, 8: 2.40, 10: 2.80, 15: 3.35, 20: 3.95, 25: 4.50, 30: 5.60, 40: 6.75,
             45: 7.93, 50: 8.95, 55: 11.35, 60: 13.45}  # fmt: skip


@pytest.mark.parametrize(("size", "across"), ISO_10664.items())
def test_hexalobular_sizes_are_the_printed_ones(size: int, across: float) -> None:
    """A of the standard; B is not kept, for the sources disagree on it."""
    assert drives.points_across(str(size)) == across
    assert drives.hexalobular_from(across)[0] == str(size)


def test_a_size_the_standard_lacks_has_no_dimension() -> None:
    """27 is a maker's size; 3 mm lies between 10 and 15."""
    assert drives.points_across("27") is None
    assert drives.hexalobular_from(3.07) == ()


# Hexalobular size by thread: ISO 14583 pan and 14581 countersunk agree; DIN 7500 type CE.
PAN = {"M2": 6, "M2.5": 8, "M3": 10, "M3.5": 15, "M4": 20, "M5": 25, "M6": 30, "M8": 45, "M10": 50}


@pytest.mark.parametrize("standard", ["ISO 14583", "ISO 14581:2013", "iso14583"])
@pytest.mark.parametrize(("size", "number"), PAN.items())
def test_hexalobular_size_by_thread(standard: str, size: str, number: int) -> None:
    """M3.5 is 15: one public table prints 10 beside A = 3.35, which is 15."""
    row = drives.standard_size(standard, size, "hexalobular")

    assert row is not None
    assert int(row["size"]) == number


# Cross recess: ISO 7045, ISO 7049, ASME B18.6.3 pan (three public pages).
CROSS = [
    ("ISO 7045", "M3", "1"), ("ISO 7045", "M4", "2"), ("ISO 7045", "M6", "3"),
    ("ISO 7049", "ST2.2", "0"), ("DIN 7981", "ST2.2", "1"), ("ISO 7049", "ST4.2", "2"),
    ("ASME B18.6.3", "#4", "1"), ("ASME B18.6.3", "#8", "2"), ("ASME B18.6.3", "#12", "3"),
]  # fmt: skip


@pytest.mark.parametrize(("standard", "size", "number"), CROSS)
def test_cross_recess_by_thread(standard: str, size: str, number: str) -> None:
    """DIN 7981 and ISO 7049 differ for ST2.2, and both are kept."""
    row = drives.standard_size(standard, size, "cross")

    assert row is not None
    assert row["size"] == number


@pytest.mark.parametrize(
    ("standard", "size", "kind"),
    [
        ("ISO 7380-2", "M4", "hexalobular"),
        ("ISO 14583", "M7", "hexalobular"),
        ("ISO 1", "M4", "hex"),
    ],
)
def test_a_size_no_standard_gives_is_none(standard: str, size: str, kind: str) -> None:
    """ISO 7380-2 is a hexagon socket with collar; it has no hexalobular size."""
    assert drives.standard_size(standard, size, kind) is None


# Which driver turns what. Source: trade pages on security fasteners; H in Z from memory.
TURNS = [
    ("hexalobular 20", "hexalobular 20", True),
    ("hexalobular 20", "hollow hexalobular 20", True),
    ("hexalobular 20", "hexalobular 25", False),
    ("hexalobular pin-in 20", "hollow hexalobular 20", True),
    ("hexalobular pin-in 20", "solid hexalobular 20", False),
    ("hex pin-in 3", "hex key 3 solid", False),
    ("hex pin-in 3", "hollow hex key 3", True),
    ("hex 3", "hex key 3", True),
    ("cross H2", "cross H2", True),
    ("cross H2", "J2", True),
    ("cross H2", "cross Z2", False),
    ("cross H2", "cross H1", False),
    ("cross Z2", "cross H2", True),
    ("cross H2", "hexalobular 20", False),
    ("slot", "flat blade", True),
    ("cross H2", "flat blade", False),
    ("hexalobular 20", "flat blade", None),
    ("hexalobular pin-in 20", "flat blade", False),
    ("square 2", "square 2", True),
    ("triangle 2.3", "cross H1", False),
    ("tri-wing", "hexalobular 20", False),
    ("tri-wing", "tri-wing", None),
    ("one-way", "flat blade", False),
    ("shear", "hex 5", False),
    ("hexalobular", "hexalobular 20", None),
    ("cross H", "cross H2", None),
]


@pytest.mark.parametrize(("drive", "driver", "turns"), TURNS)
def test_a_driver_turns_what_it_turns(drive: str, driver: str, turns: bool | None) -> None:  # noqa: FBT001
    """None where the size is not known or it only sometimes works."""
    found = drives.turning(read_drive(drive), read_driver(driver))

    assert found.turns is turns
    assert found.why


def test_an_h_driver_in_a_z_recess_turns_badly() -> None:
    """It cams out, and the answer says so."""
    assert drives.turning(read_drive("cross Z2"), read_driver("cross H2")).why.startswith("badly")


@pytest.mark.parametrize(
    ("drive", "driver"),
    [
        (Drive(Kind.HEXALOBULAR, "15", pin=True), "hollow hexalobular 15 (security bit)"),
        (Drive(Kind.HEX, None, pin=True), "hollow hex (security bit)"),
        (Drive(Kind.CROSS_H, "2"), "cross H2"),
        (Drive(Kind.SLOT), "flat blade"),
        (Drive(Kind.HEX_WASHER, "1/4"), "1/4 nut driver"),
        (Drive(Kind.HEX_WASHER), "matching nut driver"),
        (Drive(Kind.ONE_WAY), "none takes it out"),
        (Drive(Kind.SQUARE, "2"), "square 2"),
        (None, "not known: look at the head"),
    ],
)
def test_the_driver_is_named(drive: Drive | None, driver: str) -> None:
    """What to fetch, in words."""
    assert drives.driver_for(drive) == driver


# Tamper resistance of a swap (classes proposed in the reference, section 5.3).
SWAPS = [
    ("hexalobular pin-in 20", "hexalobular pin-in 20", Tamper.KEPT),
    ("hexalobular pin-in 20", "hexalobular pin-in 15", Tamper.KEPT_OTHER_BIT),
    ("hexalobular pin-in 20", "hex 3", Tamper.REDUCED),
    ("hexalobular pin-in 20", "cross H2", Tamper.LOST),
    ("hexalobular 20", "slot", Tamper.LOST),
    ("cross H2", "hexalobular pin-in 20", Tamper.RAISED),
    ("hexalobular pin-in 20", "one-way", Tamper.UNSERVICEABLE),
    ("one-way", "tri-wing", Tamper.REDUCED),
]


@pytest.mark.parametrize(("original", "substitute", "what"), SWAPS)
def test_a_swap_keeps_lowers_or_loses_the_tamper_class(
    original: str, substitute: str, what: Tamper
) -> None:
    """2 to 1 is reduced, to 0 is lost, to 3 is not to be done."""
    assert drives.tamper(read_drive(original), read_drive(substitute)) is what


def test_an_unknown_drive_is_not_taken_for_the_same() -> None:
    """None is not known: never a match."""
    known = Drive(Kind.HEXALOBULAR, "20", pin=True)

    assert drives.tamper(known, None) is Tamper.UNKNOWN
    assert drives.tamper(None, known) is Tamper.UNKNOWN
    assert not drives.same_bit(Drive(Kind.TRI_WING), Drive(Kind.TRI_WING))


anything = st.builds(Drive, st.sampled_from(Kind), st.sampled_from([None, "1", "2", "20"]))


@given(anything, anything)
def test_a_lower_class_is_never_called_kept(original: Drive, substitute: Drive) -> None:
    """Kept needs at least the class of the original."""
    lower = drives.tamper_class(substitute) < drives.tamper_class(original)

    assert (drives.tamper(original, substitute) in {Tamper.REDUCED, Tamper.LOST}) is lower


@given(anything)
def test_a_pin_is_always_tamper_resistant(drive: Drive) -> None:
    """Whatever the recess, a pin in it makes class 2."""
    assert drives.tamper_class(Drive(drive.kind, drive.size, pin=True)) == 2


def test_drives_are_written_as_the_cases_write_them() -> None:
    """``hexalobular pin-in 20``, ``cross H2``."""
    assert str(Drive(Kind.HEXALOBULAR, "20", pin=True)) == "hexalobular pin-in 20"
    assert str(Drive(Kind.CROSS_H, "2")) == "cross H2"
    assert str(Drive(Kind.SLOT)) == "slot"
    assert drives.size_text("1/4") == "1/4"


# Pan heads: ISO 7045 dk max [mm], ASME B18.6.3 [in], two public pages.
def test_pan_heads_are_the_printed_ones() -> None:
    """M4 8.0 mm, #8 .322 in."""
    assert heads.diameter(metric(4, 0.7), "pan") == 8.0
    assert heads.diameter(unified("#8", 0.164, 32), "pan") == pytest.approx(0.322 * 25.4)
    assert heads.diameter(metric(4, 0.7), "truss") is None


def test_the_bearing_share_of_an_unlisted_head_is_not_known() -> None:
    """None, not 1."""
    m4, m3 = metric(4, 0.7), metric(3, 0.5)

    assert heads.bearing_share(m4, m3, "pan", "pan") == pytest.approx(0.7)
    assert heads.bearing_share(m4, m3, "pan", "truss") is None
