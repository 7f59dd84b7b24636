"""Whitworth, BA and pipe threads: known by name and figure, and never taken for ISO threads."""

from __future__ import annotations

from dataclasses import replace

import pytest

from inventory.errors import WrongInput
from inventory.fasteners import answer
from inventory.fasteners.designation import read_screw
from inventory.fasteners.foreign import listed, threads
from inventory.fasteners.holes import HoleKind, Place
from inventory.fasteners.identify import Measured, identify
from inventory.fasteners.mating import Verdict, mate
from inventory.fasteners.shelf import from_ratings, shelf_screw
from inventory.fasteners.thread import INCH, Thread
from inventory.fasteners.threads import limits

# BSW: size, threads per inch, pitch diameter, minor diameter [in]. Source: a fastener
# distributor's table of BSW geometry (trfastenings.com, British Standard Whitworth).
BSW = [
    ("1/16", 60, 0.0518, 0.0413), ("1/8", 40, 0.1090, 0.0930), ("5/32", 32, 0.1362, 0.1162),
    ("3/16", 24, 0.1608, 0.1341), ("7/32", 24, 0.1920, 0.1654), ("1/4", 20, 0.2180, 0.1860),
    ("5/16", 18, 0.2769, 0.2414), ("3/8", 16, 0.3350, 0.2950), ("7/16", 14, 0.3918, 0.3460),
    ("1/2", 12, 0.4467, 0.3933), ("5/8", 11, 0.5668, 0.5086),
]  # fmt: skip


@pytest.mark.parametrize(("size", "tpi", "pitch_diameter", "minor"), BSW)
def test_whitworth_threads_have_the_printed_diameters(
    size: str, tpi: int, pitch_diameter: float, minor: float
) -> None:
    """Depth 0.640327 P, to 0.00015 in: the table rounds twice."""
    thread = read_screw(f"{size} BSW").need_thread()

    assert thread.tpi == tpi
    assert thread.pitch_diameter / INCH == pytest.approx(pitch_diameter, abs=0.00015)
    assert thread.minor / INCH == pytest.approx(minor, abs=0.00015)


# BA: number, diameter [in], threads per inch, diameter at the thread bottom [in]. Source:
# britishfasteners.com, BA thread data. Its 13BA diameter at the bottom is a drill size.
BA = [
    (4, 0.1420, 38.5, 0.1108), (5, 0.126, 43, 0.0981), (6, 0.110, 47.9, 0.0849),
    (7, 0.0982, 52.9, 0.0753), (8, 0.0866, 59.1, 0.0657), (9, 0.075, 65.1, 0.0565),
    (10, 0.067, 72.6, 0.0504), (11, 0.059, 81.9, 0.0443), (12, 0.051, 90.9, 0.0378),
    (14, 0.039, 109.9, 0.028), (15, 0.035, 120.5, 0.025), (16, 0.031, 133.3, 0.022),
]  # fmt: skip


@pytest.mark.parametrize(("number", "major", "tpi", "minor"), BA)
def test_ba_threads_have_the_printed_diameters(
    number: int, major: float, tpi: float, minor: float
) -> None:
    """Pitch 0.9^n mm to two figures, depth 0.6 P."""
    thread = read_screw(f"{number} BA").need_thread()

    assert thread.major / INCH == pytest.approx(major, abs=0.0006)
    assert INCH / thread.pitch == pytest.approx(tpi, rel=0.012)
    assert thread.minor / INCH == pytest.approx(minor, abs=0.0007)


# Source: E. M. G. Stevens, BA thread system (studylib.net 18906762): mm, both figures.
@pytest.mark.parametrize(
    ("number", "major", "pitch"),
    [(0, 6.0, 1.0), (1, 5.3, 0.90), (2, 4.7, 0.81), (3, 4.1, 0.73), (4, 3.6, 0.66),
     (12, 1.3, 0.28)],
)  # fmt: skip
def test_ba_threads_are_metric_inside(number: int, major: float, pitch: float) -> None:
    """Diameter and pitch in mm; the pitch is 0.9 to the power of the number."""
    thread = listed("BA", str(number))

    assert thread is not None
    assert (thread.major, thread.pitch) == (major, pitch)
    assert thread.pitch == pytest.approx(0.9**number, abs=0.005)


# Source: ISO 228-1 and ISO 7-1 as printed in a mechanical engineer's pocket book (4.1.38) and a
# wall chart of taps (minor diameters of G): mm.
@pytest.mark.parametrize(
    ("name", "tpi", "major", "pitch_diameter", "minor"),
    [
        ("G1/8", 28, 9.728, 9.147, 8.566),
        ("G1/4", 19, 13.157, 12.301, 11.445),
        ("G3/8", 19, 16.662, 15.806, 14.950),
        ("R1/4", 19, 13.157, 12.301, 11.445),
    ],
)
def test_pipe_threads_have_the_printed_diameters(
    name: str, tpi: int, major: float, pitch_diameter: float, minor: float
) -> None:
    """A G1/4 is 13 mm over the thread: the quarter inch is the bore of an old pipe."""
    thread = read_screw(name).need_thread()

    assert (thread.tpi, thread.major) == (tpi, major)
    assert thread.pitch_diameter == pytest.approx(pitch_diameter, abs=0.0015)
    assert thread.minor == pytest.approx(minor, abs=0.0015)


NAMES = [
    ("G1/4", "G1/4"), ("G 1/4 A", "G1/4"), ("1/4 BSP", "G1/4"), ("BSPP 1/4", "G1/4"),
    ("R1/4", "R1/4"), ("Rp 1/4", "R1/4"), ("Rc1/4", "R1/4"), ("PT 1/4", "R1/4"),
    ("1/4 BSPT", "R1/4"), ("G1", "G1"), ("1/4 NPT", "1/4-18 NPT"),
    ("1/4-18 NPT", "1/4-18 NPT"), ("NPT 1/4-18", "1/4-18 NPT"), ("1/8-27 NPTF", "1/8-27 NPT"),
    ("1/4 BSW", "1/4-20 BSW"), ("1/4-20 BSW", "1/4-20 BSW"), ("W1/4", "1/4-20 BSW"),
    ("1/4 W", "1/4-20 BSW"), ("3/16-24 Whitworth", "3/16-24 BSW"), ("1/4-26 BSF", "1/4-26 BSF"),
    ("2BA", "2BA"), ("2 BA x 1/2", "2BA"), ("No. 4 BA", "4BA"), ("4BA x 3/8 cheese", "4BA"),
    ("B.A. 6", "6BA"), ("Whitworth 5/16", "5/16-18 BSW"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "name"), NAMES)
def test_a_name_of_another_form_is_read(text: str, name: str) -> None:
    """Marks of ISO 228-1, ISO 7-1, ASME B1.20.1, BS 84 and BS 93, and of the trade."""
    assert read_screw(text).need_thread().name == name


@pytest.mark.parametrize("thread", threads(), ids=lambda one: one.name)
def test_a_listed_name_is_read_back(thread: Thread) -> None:
    """What one command prints, the next reads."""
    assert read_screw(thread.name).thread == thread


@pytest.mark.parametrize(
    "text", ["1/4-22 BSW", "1/4-20 NPT", "9/32 BSF", "Tr8x1.5", "S4 x 8", "M16xPh3P1.5", "17 BA"]
)
def test_a_thread_this_house_does_not_know_is_not_made_up(text: str) -> None:
    """A count the series lacks, a lead screw, a double start: no thread, and the words are kept."""
    found = read_screw(text)

    assert found.threads == ()
    assert found.unread
    with pytest.raises(WrongInput, match="No thread is known"):
        found.need_thread()


@pytest.mark.parametrize("kind", HoleKind)
@pytest.mark.parametrize(
    ("wanted", "offered"),
    [("1/4-20", "1/4 BSW"), ("1/4 BSW", "1/4-20"), ("M6", "0BA"), ("#10-32", "2BA"),
     ("ST4.2", "3BA"), ("K40", "3BA"), ("G1/4", "R1/4"), ("R1/4", "G1/4")],
)  # fmt: skip
def test_another_form_never_goes_in(wanted: str, offered: str, kind: HoleKind) -> None:
    """55 and 47.5 degree flanks against 60: nothing is computed, nothing is offered."""
    found = mate(read_screw(wanted).need_thread(), read_screw(offered).need_thread(), Place(kind))

    assert found.verdict is Verdict.NO_ENTRY
    assert "degree flanks" in found.reasons[0]


@pytest.mark.parametrize("name", ["1/4 BSW", "2BA", "G1/4", "M8 LH", "1/4-20 LH"])
def test_a_form_goes_into_its_own(name: str) -> None:
    """The same thread is the same, of whatever form or hand."""
    thread = read_screw(name).need_thread()

    assert mate(thread, thread, Place(HoleKind.NUT)).verdict is Verdict.SAME


@pytest.mark.parametrize(("wanted", "offered"), [("M8", "M8 LH"), ("M8 LH", "M8")])
def test_a_left_hand_screw_never_stands_in_for_a_right_hand_one(wanted: str, offered: str) -> None:
    """And the other way; both verdicts say why."""
    pair = read_screw(wanted).need_thread(), read_screw(offered).need_thread()

    assert mate(*pair, Place(HoleKind.NUT)).verdict is Verdict.NO_ENTRY
    assert "-hand screw does not turn into" in mate(*pair, Place(HoleKind.SHEET)).reasons[0]
    assert answer("compat", {"screw": offered, "hole": wanted})["verdict"] == "no"
    turns = {"quantity": "n_free", "screw": offered, "hole": wanted}
    assert answer("compat", turns)["n_free"] == 0.0


def test_a_measured_british_screw_is_named_where_no_living_thread_is_near() -> None:
    """4BA: 3.60 mm by 0.66 mm lies between M3.5x0.6 and M4x0.7. Source: BS 93 figures above."""
    found = identify(Measured(3.58, 0.66))

    assert found.best == listed("BA", "4")


def test_a_british_look_alike_is_hinted_at() -> None:
    """2BA (4.7 x 0.81) lies inside the window of #10-32 (0.794): a thread gauge tells."""
    found = identify(Measured(4.70, 0.81))

    assert found.best is not None
    assert found.best.name == "#10-32"
    assert any("2BA reads alike" in said for said in found.split_by)
    assert not any("BA" in said for said in identify(Measured(4.70, 0.794)).split_by)


def test_a_shelf_record_keeps_hand_and_form_of_its_marking() -> None:
    """A record agreed on as M8 whose marking says LH is left-hand."""
    left = from_ratings("M8x20 LH", {"thread": "M8x1.25"})
    british = from_ratings("1/4-20 BSW x 1", {"thread": "1/4-20"})

    assert left is not None
    assert left.thread.left
    assert british is not None
    assert british.thread == listed("BSW", "1/4")
    assert shelf_screw("M8x20 LH").thread == replace(left.thread)


def test_a_class_of_fit_is_refused_where_there_is_none() -> None:
    """The sentence says why: other flanks, or a spaced thread."""
    with pytest.raises(WrongInput, match="55 degree flanks; only metric and unified"):
        limits(read_screw("1/4 BSW").need_thread())
    with pytest.raises(WrongInput, match="no classes of fit"):
        limits(read_screw("ST4.2").need_thread())


def test_sizes_of_threads_without_classes_are_the_printed_ones() -> None:
    """ISO 1478 limits under the standard's own names; BSW basic sizes."""
    st = answer("limits", {"thread": "ST4.2"})
    bsw = answer("limits", {"thread": "1/4 BSW"})

    assert (st["d1_max"], st["d1_min"], st["d2_max"], st["d2_min"]) == (4.22, 4.04, 3.10, 2.95)
    assert bsw["d2"] / INCH == pytest.approx(0.2180, abs=0.0001)
