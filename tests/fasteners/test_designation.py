"""Names of screws in every common form."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.errors import WrongInput
from inventory.fasteners import catalogue
from inventory.fasteners.designation import LONGEST, read_screw
from inventory.fasteners.wording import tidy

ST42 = "ST4.2 / #8-18 AB"

# text, thread, length mm. Forms of ISO 261, ASME B1.1, ISO 1478, ASME B18.6.4, DIN 7500 product
# names and of trade bags.
THREADS = [
    ("M4", "M4x0.7", None),
    ("m4", "M4x0.7", None),
    ("M4x8", "M4x0.7", 8.0),
    ("M4 x 8 mm", "M4x0.7", 8.0),
    ("M4×8", "M4x0.7", 8.0),
    ("M4*8", "M4x0.7", 8.0),
    ("M4-0.7", "M4x0.7", None),
    ("M4x0,7x8", "M4x0.7", 8.0),
    ("M3 x 0.5 x 10 mm", "M3x0.5", 10.0),
    ("M8x1", "M8x1", None),
    ("M8x1x20", "M8x1", 20.0),
    ("M10x1.25x30", "M10x1.25", 30.0),
    ("M4 x 3/8", "M4x0.7", 9.525),
    ("M29x1.25", "M29x1.25", None),
    ("M27x1.5-4e6g", "M27x1.5", None),
    ("８-３２ x 3/8", "#8-32", 9.525),
    ("8-32 x 3/8 pan", "#8-32", 9.525),
    ("8/32 x 3/8", "#8-32", 9.525),
    ("#8-32x3/8", "#8-32", 9.525),
    ('No. 8-32 UNC-2A x 3/8"', "#8-32", 9.525),
    ("#8 32 TPI x 3/8", "#8-32", 9.525),
    ("#8 UNC x 3/8", "#8-32", 9.525),
    ("#8 UNF", "#8-36", None),
    ("10-32", "#10-32", None),
    ("#10-24 x .375", "#10-24", 9.525),
    ("0.164-32", "#8-32", None),
    ("1/4-20 x 1-1/2", "1/4-20", 38.1),
    ('1/4"-20 UNC x 1½″', "1/4-20", 38.1),
    ("¼-20", "1/4-20", None),
    (".250-28", "1/4-28", None),
    ("5/16-18 x 1", "5/16-18", 25.4),
    ("#10-32 x 12 mm", "#10-32", 12.0),
    ("#8-40", "#8-40", None),
    ("ST4.2", ST42, None),
    ("ST4,2×9,5", ST42, 9.5),
    ("ST4.2 / #8-18 AB", ST42, None),
    ("4.2x9.5", ST42, 9.5),
    ("DIN 7981 4.2x9.5", ST42, 9.5),
    ("ISO 7049 - ST4.2 x 13 - C - H", ST42, 13.0),
    ("#8 x 1/2 AB", ST42, 12.7),
    ("#8-18 x 1/2", ST42, 12.7),
    ("#6 sheet metal screw x 1/2", "ST3.5 / #6-20 AB", 12.7),
    ("No 8 self tapper", ST42, None),
    ("1/4-14", "ST6.3 / 1/4-14 AB", None),
    ("4.2 self-tapping", ST42, None),
    ("DIN 7500-CE M4x8", "M4x0.7 trilobular (DIN 7500)", 8.0),
    ("M4x8 thread-forming", "M4x0.7 trilobular (DIN 7500)", 8.0),
    ("M8 DIN 7500", "M8x1.25", None),
    ("4x8 trilobular", "M4x0.7 trilobular (DIN 7500)", 8.0),
    ("K40x12", "K40", 12.0),
    ("PT 40 x 10", "K40", 10.0),
    # forms of ISO 965-1 clause 4 (class, group of engagement, hand), ASME B1.1 section 6
    # (decimal size, gaging size in brackets) and ISO 7049/7050 names; see also test_foreign.py
    ("M4 - 6g", "M4x0.7", None),
    ("M6×0,75 – 5H6H – S – LH", "M6x0.75 LH", None),
    ("M4 - 6g LH", "M4x0.7 LH", None),
    ("M8-LH", "M8x1.25 LH", None),
    ("M20x2-6H/5g6g", "M20x2", None),
    ("1/4-20 UNC-2A-LH", "1/4-20 LH", None),
    (".250-20 UNC-2A", "1/4-20", None),
    (".190-32 UNF-3A", "#10-32", None),
    ("10 (.190)-32 UNF-2A", "#10-32", None),
    ("#10(0.190)-32 x 5/8", "#10-32", 15.875),
    ("7/16-20 UNRF-2A", "7/16-20", None),
    ("1-8 UNC-2A", "1-8", None),
    ("5/8-11 x 2", "5/8-11", 50.8),
    ("1/4 20 x 3/4", "1/4-20", 19.05),
    ("1/2-13 UNC-2A x 2.50", "1/2-13", 63.5),
    ("ISO 4017-M8x20-A2-70", "M8x1.25", 20.0),
    ("ISO 4017 - M12x80 - 8.8", "M12x1.75", 80.0),
    ("ISO 7050 – ST3,5 × 16 – C – H", "ST3.5 / #6-20 AB", 16.0),
    ("DIN7981-C-H 2.9x6.5", "ST2.9 / #4-24 AB", 6.5),
    ("No. 8 x 1/2 type AB", ST42, 12.7),
    ("8G x 1/2 self tapper", ST42, 12.7),
    ("#10 x 3/4 self drilling", "ST4.8 / #10-16 AB", 19.05),
    ("#8 x 1/2 Type A", "#8-15 A", 12.7),
    ("#8-15 x 1/2", "#8-15 A", 12.7),
    ("5mm x 0.8 x 16", "M5x0.8", 16.0),
    ("M5 L=16", "M5x0.8", 16.0),
    ("M3 (0.5) x 8", "M3x0.5", 8.0),
    ("M3 pitch 0.35", "M3x0.35", None),
    ("M3*8*5.5", "M3x0.5", 8.0),
    ("M14", "M14x2", None),
    ("\u041c4\u04458", "M4x0.7", 8.0),  # Cyrillic letters
    ("M4\u2a2f8", "M4x0.7", 8.0),
    ("M4\u200bx\u202f8", "M4x0.7", 8.0),
    ("KA 40 x 10", "K40", 10.0),
    # as parts lists and bags have them
    ("#10-32UNF-2AX1/2 PAN HD PHIL", "#10-32", 12.7),
    ("SCR, MACH, 6-32 X .375, PNH, PHL", "#6-32", 9.525),
    ("1/4-14 x 1 1/2 type AB slotted pan head tapping screw", "ST6.3 / 1/4-14 AB", 38.1),
    ("(4) 8-32 x 3/8", "#8-32", 9.525),
    ("M4 x 8 20 pcs", "M4x0.7", 8.0),
    ("3mm allen M4x12", "M4x0.7", 12.0),
    ("M10x1.25-5g6g-S", "M10x1.25", None),
    ("left hand thread M10 nut", "M10x1.5 LH", None),
    ("ISO 7380-2 - M5×10 - 010.9", "M5x0.8", 10.0),
    ("M5 X 0.8 - 6g X 20", "M5x0.8", 20.0),
]  # fmt: skip


@pytest.mark.parametrize(("text", "name", "length"), THREADS)
def test_a_thread_is_read_in_every_common_form(text: str, name: str, length: float | None) -> None:
    """Thread and length, in mm whatever was written."""
    found = read_screw(text)

    assert found.thread is not None
    assert found.thread.name == name
    assert found.length == (None if length is None else pytest.approx(length))


# text, head, drive, class, finish
WORDS = [
    ("ISO 7045 M4x8", "pan", "cross H2", None, None),
    ("DIN 7985 M3x6", "pan", "cross H1", None, None),
    ("ISO 14583 M4x8", "pan", "hexalobular 20", None, None),
    ("DIN 912 M4x10 12.9", "cap", "hex 3", "12.9", None),
    ("DIN 933 M6x16 8.8 zinc", "hex", "hex washer 10", "8.8", "zinc"),
    ("DIN 965 M3x10 4.8", "countersunk", "cross H1", "4.8", None),
    ("M3x6 button hex 2 A2-70", "button", "hex 2", "A2-70", None),
    ("#10-24 x 3/8 truss phillips #2 zinc plated", "truss", "cross H2", None, "zinc"),
    ("M4x10 T20H", None, "hexalobular pin-in 20", None, None),
    ("M4x8 torx security T20", None, "hexalobular pin-in 20", None, None),
    ("M4x8 TX20", None, "hexalobular 20", None, None),
    ("M4x8 PZ2", None, "cross Z2", None, None),
    ("M4x8 H2", None, "cross H2", None, None),
    ("M4x8 JIS", None, "cross J", None, None),
    ("M4x8 robertson 2", None, "square 2", None, None),
    ("M4x8 slotted round head", "round", "slot", None, None),
    ("M4x8 socket head cap 12.9", "cap", "hex", "12.9", None),
    ("M3 tri-wing", None, "tri-wing", None, None),
    ("M3 snake eye", None, "two-hole", None, None),
    ("M3 triangle 2.3", None, "triangle 2.3", None, None),
    ("M3 one-way slot", None, "one-way", None, None),
    ("M6 shear off", None, "shear", None, None),
    ("#8 x 1/2 hex washer head", "hex", "hex washer", None, None),
    ("#8-32 x 3/8 grade 5 black oxide", None, None, "SAE J429 Gr 5", "black oxide"),
    ("#8-32 60M", None, None, "SAE J82 60M", None),
    ("M4 raised countersunk nickel", "raised countersunk", None, None, "nickel"),
    ("ISO 7049 ST4.2x13 C Z", "pan", "cross Z", None, None),
    ("DIN 7500 M4x8", None, None, None, None),
    ("M4x8 T-20H", None, "hexalobular pin-in 20", None, None),
    ("M4x8 TX15 security", None, "hexalobular pin-in 15", None, None),
    ("M4x8 TX15 sec", None, "hexalobular pin-in 15", None, None),
    ("M4x8 T20 TR", None, "hexalobular pin-in 20", None, None),
    ("M4x8 6-lobe T20 pin", None, "hexalobular pin-in 20", None, None),
    ("M4x8 IPR20", None, "five-lobe 20", None, None),
    ("M4x8 20IPR", None, "five-lobe 20", None, None),
    ("M4x8 PZD2", None, "cross Z2", None, None),
    ("M4x8 #2 phillips", None, "cross H2", None, None),
    ("M4x8 SL/PH2", None, "slot", None, None),
    ("M4x8 TA23 triangle", None, "triangle 2.3", None, None),
    ("M6x20 ISO 4762 10.9 zp", "cap", "hex 5", "10.9", "zinc"),
]


@pytest.mark.parametrize(("text", "head", "drive", "grade", "finish"), WORDS)
def test_head_drive_class_and_finish_are_read(
    text: str, head: str | None, drive: str | None, grade: str | None, finish: str | None
) -> None:
    """In the words of the standards, whatever trade name was typed."""
    found = read_screw(text)

    assert found.head == head
    assert (str(found.drive) if found.drive else None) == drive
    assert (found.grade, found.finish) == (grade, finish)


def test_the_example_of_the_task_is_read_whole() -> None:
    """Security hexalobular 15, M4x8 in sheet: nothing is left over."""
    found = read_screw("security hexalobular 15, M4x8 in sheet")

    assert found.need_thread().name == "M4x0.7"
    assert str(found.drive) == "hexalobular pin-in 15"
    assert (found.length, found.place, found.unread) == (8.0, "sheet", ())


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("M4 in a hard tapped nut", "nut"),
        ("M4 in extruded and tapped sheet", "extruded"),
        ("K40 in plastic boss", "boss"),
        ("M4 in sheet metal", "sheet"),
        ("ST4.2 in a formed hole", "formed"),
        ("M4 in an unknown hole", "unknown"),
        ("M4x8", None),
    ],
)
def test_the_place_is_read(text: str, place: str | None) -> None:
    """The kind of hole, where the sentence names one."""
    assert read_screw(text).place == place


def test_earth_and_high_voltage_are_heard() -> None:
    """Words that turn safety rules on."""
    assert read_screw("earthing screw M4x8 with toothed washer").earth
    assert read_screw("microwave cover screw M4x8").high_voltage
    assert not read_screw("M4x8").earth


@pytest.mark.parametrize(
    ("text", "ask", "count"),
    [
        ("#8", "TPI (32 coarse, 36 fine) or tapping 18", 3),
        ("#10", "TPI (24 coarse, 32 fine) or tapping 16", 3),
        ("#12 x 1/2", "TPI (24 coarse, 28 fine) or tapping 14", 3),
        ("#0", "TPI (80 fine) or tapping 48", 2),
        ("1/4", "TPI (20 coarse, 28 fine) or tapping 14", 3),
        ("#7", "TPI or tapping 19", 1),
        ("4 x 8 mm", "the pitch, or an M before the size", 1),
    ],
)
def test_what_a_name_leaves_open_is_asked(text: str, ask: str, count: int) -> None:
    """The question names the choices, and the candidates are there."""
    found = read_screw(text)

    assert found.ask == ask
    assert len(found.threads) == count


def test_a_fraction_in_lowest_terms_is_no_number_size() -> None:
    """8/32 can only be #8-32; 5/32 might be a length, and 5-32 is in no table."""
    assert read_screw("5/40").size_mm == pytest.approx(3.175)
    assert read_screw("3/56").threads == ()


def test_a_word_is_not_cut_in_two() -> None:
    """A starter is no star drive."""
    found = read_screw("starter M4x8")

    assert (found.drive, found.unread) == (None, ("starter",))


def test_security_said_apart_still_pins_the_drive() -> None:
    """The word may stand anywhere in the sentence."""
    assert str(read_screw("security screw, M4x8, hexalobular 20").drive) == "hexalobular pin-in 20"
    assert read_screw("security screw M4x8").secure


def test_a_combined_drive_keeps_the_first_kind() -> None:
    """Slot and cross in one head: the household blade is what counts."""
    assert str(read_screw("M4x8 slotted phillips").drive) == "slot"


def test_words_nobody_knows_are_kept() -> None:
    """Nothing vanishes."""
    assert read_screw("M4x8 chocolate flavour").unread == ("chocolate", "flavour")
    assert read_screw("chocolate").threads == ()


def test_a_class_keeps_its_capitals() -> None:
    """6H is a nut's class and 6h a screw's; a pair is one class."""
    assert read_screw("M4x0.7 6H").fit_class == "6H"
    assert read_screw("M20x2-6H/5g6g").fit_class == "6H/5g6g"
    assert read_screw("M6×0,75 – 5H6H – LH").fit_class == "5H6H"
    assert read_screw("M4 - 6g LH").length is None


def test_a_class_of_fit_is_read() -> None:
    """6g and 2A, behind a dash or apart."""
    assert read_screw("M4x0.7-6g").fit_class == "6g"
    assert read_screw("#8-32 UNC-2a").fit_class == "2A"
    assert read_screw("M4x8 4g6h").fit_class == "4g6h"


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("#8", "give TPI"),
        ("chocolate", "No thread is known"),
        ("M4x0", "no|No thread has a pitch of 0"),
        ("M4 pitch 3", "M4 has no pitch of 3 mm"),
    ],
)
def test_a_name_without_one_thread_is_refused_where_one_is_needed(text: str, sentence: str) -> None:
    """With what to give instead."""
    with pytest.raises(WrongInput, match=sentence):
        read_screw(text).need_thread()


def test_a_very_long_name_is_refused() -> None:
    """A marking may be anything; a screw's name is short."""
    with pytest.raises(WrongInput, match=f"at most {LONGEST}"):
        read_screw("M4 " * 100)


def _has_sound_threads(text: str) -> bool:
    """True when a text is refused, or read with threads that have a size."""
    try:
        found = read_screw(text)
    except WrongInput:
        return True
    return all(one.major >= 0 and one.pitch > 0 for one in found.threads)


@given(st.text(max_size=LONGEST))
def test_any_text_is_read_or_refused(text: str) -> None:
    """No input makes the reader fail in another way; a thread that comes out has a size."""
    assert _has_sound_threads(text)


parts = st.sampled_from(
    ["M4", "#8", "8-32", "x", "3/8", "0/0", "1/0", "-", "ST", "4.2", "T20", "hex", "in", "sheet",
     "M0", "99", "60M", "ISO", "7380-2", "A2-70", "6g", "security", ",", "½", "K40", "in nut"]
)  # fmt: skip


@given(st.lists(parts, max_size=8), st.sampled_from(["", " "]))
def test_any_jumble_of_known_pieces_is_read_or_refused(words: list[str], gap: str) -> None:
    """Pieces the grammar knows, in any order and run together."""
    assert _has_sound_threads(gap.join(words))


@pytest.mark.parametrize(
    "thread", [*catalogue.machine_threads(), *catalogue.tapping_threads(),
               *catalogue.forming_threads(), *catalogue.plastics_threads()],
    ids=lambda one: one.name,
)  # fmt: skip
def test_every_name_this_house_prints_is_read_back(thread: object) -> None:
    """What comes out of one command goes into the next."""
    assert read_screw(thread.name).thread == thread  # type: ignore[attr-defined]


@pytest.mark.parametrize(
    ("typed", "plain"),
    [("ST4,2 × 9,5", "st4.2 x 9.5"), ("1½″", '1-1/2"'), ("M4 – 0.7", "m4 - 0.7"), ("Ø4", "4")],
)
def test_look_alikes_are_folded(typed: str, plain: str) -> None:
    """Dashes, crosses, inch marks, fractions and the decimal comma."""
    assert tidy(typed) == plain
