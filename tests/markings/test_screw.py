"""Screws as printed on bags and drawings."""

from __future__ import annotations

import pytest

from inventory.errors import WrongInput
from inventory.markings import screw
from inventory.markings.screw import likely, read


def test_a_metric_screw_with_all_its_words() -> None:
    """Thread, length, head, drive, class, finish."""
    said = read("M5x0.8x12 pan head phillips PH2 zinc 8.8").ratings

    assert (said["thread"], said["length_mm"], said["head"]) == ("M5x0.8", 12, "pan")
    assert (said["drive"], said["property_class"], said["finish"]) == ("cross H2", "8.8", "zinc")


@pytest.mark.parametrize("text", ["#8-32 x 3/8", "8-32x3/8", "No. 8-32 x 3/8"])
def test_inch_screws_in_many_spellings(text: str) -> None:
    """Number 8, 32 threads, 3/8 inch. Source: ASME B1.1, 25.4 mm an inch."""
    said = read(text).ratings

    assert (said["thread"], said["length_mm"]) == ("#8-32", 9.525)


def test_a_number_without_threads_is_a_question() -> None:
    """#8 is 32, 36 or tapping 18 to the inch: offered, none set."""
    reading = read("#8")

    assert "thread" not in reading.ratings
    assert {"#8-32", "#8-36"} <= {c.ratings["thread"] for c in reading.candidates}
    assert "find out" in reading.warnings[0]


def test_a_tapping_screw_is_not_a_machine_screw() -> None:
    """ST4.2 has a spaced thread. Source: ISO 1478."""
    assert read("ST4.2x13").ratings["thread_kind"] == "tapping"
    assert read("M4x13").ratings["thread_kind"] == "machine"


@pytest.mark.parametrize("text", ["hello", "250V", "10A", "9.7", ""])
def test_other_texts_have_no_thread(text: str) -> None:
    """No thread, no length."""
    assert "thread" not in read(text).ratings


def test_impossible_fractions_do_not_stop_the_reading() -> None:
    """A length over zero stays unread."""
    assert [u.text for u in read("M4x1/0").unread] == ["0"]


@pytest.mark.parametrize(
    ("text", "thread"),
    [
        ("M8x20 LH", "M8x1.25 LH"),
        ("M8x1.25-LH", "M8x1.25 LH"),
        ("1/4-20 BSW", "1/4-20 BSW"),
        ("1/4-26 BSF", "1/4-26 BSF"),
        ("1/4-18 NPT", "1/4-18 NPT"),
    ],
)
def test_another_hand_or_form_is_another_thread(text: str, thread: str) -> None:
    """Never recorded as the right-hand or unified one. Source: ISO 965-1; BS 84; ASME B1.20.1."""
    assert read(text).ratings["thread"] == thread


def test_likely() -> None:
    """A size with a length is sure, a bare size is not."""
    assert likely("M4x8") > 0.8 > likely("M4") > 0.3
    assert likely("MF52") == 0


def test_sizes_that_contradict_each_other_are_warned_of(monkeypatch: pytest.MonkeyPatch) -> None:
    """When the fasteners' grammar refuses, the pieces stay marked and a person is asked."""

    def refuse(_: str) -> None:
        message = "no such screw"
        raise WrongInput(message)

    monkeypatch.setattr(screw, "read_screw", refuse)
    reading = screw.read("M4x8")

    assert dict(reading.ratings) == {}
    assert "do not fit together" in reading.warnings[0]
