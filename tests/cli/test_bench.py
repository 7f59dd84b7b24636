"""``salvage bench``: what the meter said, and what follows from it."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.calling import call, new_shelf, on_hand, told

__all__ = ["new_shelf"]

pytestmark = pytest.mark.usefixtures("shop")

CLICKS = ["--rest", "OL", "--pressed", "0.05", "--released", "OL", "--clicks"]
"""A good normally open contact."""


@pytest.fixture
def shop(new_shelf: Path) -> Path:
    """Five untested switches of a known contact form as lot 1."""
    switch = ["16(4)A 250V~ T85 5E4", "--family", "switch", "--rating", "contact_form=SPST-NO"]
    call("log", *switch, "--bin", "A1", "-n", "5")
    return new_shelf


def test_good_readings_make_it_good_by_the_limits() -> None:
    """Each limit is shown with its source; the caution comes before, on stderr."""
    said = call("bench", "1", "-n", "5", *CLICKS)

    assert said.code == 0, said.err
    assert said.out.startswith("Lot 1 (16(4)A 250V~ T85 5E4): clicks, by the limits.\n")
    assert said.out.count("  ok   ") == 3
    assert "CAUTION: A normally closed contact conducts at rest" in said.err
    assert on_hand(1) == (5, 0, "clicks", "A1")


def test_some_of_a_lot_are_tested_apart() -> None:
    """The rest stays as it was, in the lot it was in."""
    said = call("bench", "1", "-n", "2", *CLICKS)

    assert "The other 3 stay in lot 1." in said.out
    assert on_hand(1) == (3, 0, "untested", "A1")
    assert on_hand(2) == (2, 0, "clicks", "A1")


@pytest.mark.parametrize(
    ("readings", "state"),
    [
        (["--rest", "0.1", "--pressed", "0.05", "--released", "0.1"], "welded"),
        (["--rest", "OL", "--pressed", "OL", "--released", "OL"], "open"),
        (["--rest", "inf", "--pressed", "o.l", "--released", "open"], "open"),
    ],
)
def test_bad_readings_name_what_is_wrong(readings: list[str], state: str) -> None:
    """A contact that never opens is welded, one that never closes is open."""
    row = told("bench", "1", "-n", "5", *readings)

    assert (row["state"], row["judged_by"], row["decided"]) == (state, "limits", True)
    assert any(check["ok"] is False for check in row["checks"])
    assert on_hand(1)[2] == state


def test_readings_that_decide_nothing_leave_the_state() -> None:
    """What is still to be measured is said."""
    said = call("bench", "1", "-n", "5", "--rest", "OL")

    assert said.code == 0
    assert "  Not decided; the state stays as it was.\n" in said.out
    assert "  Still to measure: pressed_ohm\n" in said.out
    assert on_hand(1)[2] == "untested"


def test_a_state_by_hand_is_written_down_as_such() -> None:
    """With whoever looked at it, and how."""
    row = told(
        "bench", "1", "-n", "5", "--state", "weak", "--instrument", "M-1", "--note", "pitted"
    )
    page = call("show", "1").out

    assert (row["state"], row["judged_by"], row["checks"]) == ("weak", "hand", [])
    assert "weak by hand" in page


def test_other_readings_are_kept_by_name() -> None:
    """A figure, and a word where there is none; each on the lot's page."""
    call("log", "0.97uF 2100VAC", "--family", "hv_capacitor")
    said = call("bench", "2", "--reading", "capacitance_uf=0.97", "--insulation", "OL")
    (test,) = told("show", "2")["tests"]

    assert said.code == 0, said.err
    assert {row["name"]: row["number"] for row in test["readings"]}["capacitance_uf"] == 0.97


def test_a_dry_run_judges_and_writes_nothing() -> None:
    """It says that it would."""
    said = call("bench", "1", "-n", "5", *CLICKS, "--dry-run")

    assert said.out.startswith("Would write this down:\nLot 1 (")
    assert ": clicks, by the limits." in said.out
    assert on_hand(1)[2] == "untested"
    assert told("show", "1")["tests"] == []


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (["--rest", "[1,2]"], "give a figure, OL, yes or no."),
        (["--rest", "1/2"], "Not a reading: '1/2'."),
        (["--rest", "-3"], "give a figure from 0 up, or OL."),
        (["--reading", "capacitance_uf"], "Write it like capacitance_uf=0.97."),
        (["--rest", "OL", "--reading", "rest_ohm=3"], "rest_ohm is said twice; say it once."),
        (["--state", "shiny"], "shiny"),
        (["--place", "moniter", "--rest", "OL"], "Did you mean 'monitor'?"),
        ([], "."),
    ],
)
def test_what_cannot_be_a_reading_is_refused(words: list[str], sentence: str) -> None:
    """Exit code 2, and no test is written."""
    said = call("bench", "1", *words)

    assert said.code == 2
    assert sentence in said.err
    assert told("show", "1")["tests"] == []
