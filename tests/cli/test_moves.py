"""``salvage hold / fit / putback / scrap / move / count`` as a tech types them."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.calling import call, events, new_shelf, on_hand, told

__all__ = ["new_shelf"]

pytestmark = pytest.mark.usefixtures("shop")


@pytest.fixture
def shop(new_shelf: Path) -> Path:
    """Six switches that click as lot 1 in A1, one untested as lot 2, and job 1."""
    switch = ["16(4)A 250V~ T85 5E4", "--family", "switch"]
    call("log", *switch, "--state", "clicks", "--bin", "A1", "-n", "6")
    call("log", *switch, "--bin", "A2")
    call("job", "open", "--maker", "Brenka", "--model", "BK-20M")
    return new_shelf


def test_a_hold_is_told_and_lies_in_the_journal() -> None:
    """One line on stdout; the pieces stay on hand."""
    said = call("hold", "1", "--job", "1", "-n", "2")

    assert (said.code, said.err) == (0, "Next: salvage fit 1 --job 1\n")
    told_of = "lot 1 (16(4)A 250V~ T85 5E4), bin A1; 6 on hand, 2 held."
    assert " ".join(said.out.split()) == f"Held for job 1: {told_of}"
    assert on_hand(1) == (6, 2, "clicks", "A1")
    assert events()[-1] == ("held", 1)


def test_held_pieces_are_let_go_again() -> None:
    """All that was held for the job and no more than that."""
    call("hold", "1", "--job", "1", "-n", "2")
    too_many = call("hold", "1", "--job", "1", "-n", "3", "--release")
    said = call("hold", "1", "--job", "1", "-n", "2", "--release")

    assert too_many.code == 1
    assert said.out.startswith("Released for job 1: lot 1 ")
    assert on_hand(1) == (6, 0, "clicks", "A1")


def test_a_fitted_piece_leaves_the_shelf_and_closes_its_hold() -> None:
    """For the job it was held for; the place stands on the job's page."""
    call("hold", "1", "--job", "1")
    said = call("fit", "1", "--job", "1", "--place", "monitor")
    fitted = told("job", "show", "1")["fitted"]

    assert said.code == 0, said.err
    assert said.out.startswith("Fitted for job 1 at monitor: lot 1 ")
    assert on_hand(1) == (5, 0, "clicks", "A1")
    assert [(row["lot"], row["pieces"], row["place"]) for row in fitted] == [(1, 1, "monitor")]


def test_an_untested_piece_is_fitted_only_when_that_is_said() -> None:
    """The refusal names the way out; nothing was changed by it."""
    refused = call("fit", "2", "--job", "1")
    assert refused.code == 1
    assert on_hand(2) == (1, 0, "untested", "A2")

    assert call("fit", "2", "--job", "1", "--untested").code == 0
    assert on_hand(2)[0] == 0


def test_a_piece_that_comes_back_counts_as_untested() -> None:
    """It lies in a lot of its own; one never under power keeps its state."""
    call("fit", "1", "-n", "2")
    said = told("putback", "1")
    other = said["other_lot"]
    back = on_hand(other or said["lot"])
    assert (back[0], back[2]) == (1, "untested")

    assert call("putback", "1", "--never-powered").code == 0
    assert on_hand(1) == (5, 0, "clicks", "A1")


def test_what_is_thrown_away_says_why_in_the_journal() -> None:
    """The pieces are gone; the reason stays."""
    said = call("scrap", "1", "-n", "4", "--why", "contacts welded")

    assert said.out == "Scrapped: lot 1 (16(4)A 250V~ T85 5E4), bin A1; 2 on hand, 0 held.\n"
    (event,) = [row for row in told("history", "1") if row["kind"] == "scrapped"]
    assert (event["quantity"], event["detail"]["reason"]) == (-4, "contacts welded")


def test_some_pieces_move_as_a_lot_of_their_own() -> None:
    """Both lots are told; the whole lot moves as it is."""
    part = call("move", "1", "B2-01", "-n", "2")
    whole = call("move", "2", "B2-02")

    assert part.code == whole.code == 0
    assert "now in lot 3" in part.out
    assert on_hand(1) == (4, 0, "clicks", "A1")
    assert on_hand(3) == (2, 0, "clicks", "B2-01")
    assert whole.out.startswith("Moved: lot 2 ")
    assert on_hand(2) == (1, 0, "untested", "B2-02")


def test_a_count_writes_down_the_difference() -> None:
    """A stock-take is an event, not an overwriting."""
    said = call("count", "1", "4")

    assert said.out == "Counted: lot 1 (16(4)A 250V~ T85 5E4), bin A1; 4 on hand, 0 held.\n"
    last = told("history", "1")[-1]
    assert (last["kind"], last["quantity"]) == ("counted", -2)


def test_pieces_are_counted_on_a_scale() -> None:
    """As the help shows it: ten weigh 6.2 g, so 12.4 g are twenty."""
    call("log", "M4x8", "--family", "screw", "-n", "19")
    said = call("count", "3", "--weigh", "12.4g", "--ten", "6.2g")

    assert "--weigh 12.4g --ten 6.2g" in call("count", "--help").out
    assert said.code == 0, said.err
    assert on_hand(3)[0] == 20


@pytest.mark.parametrize(
    ("weight", "sentence"),
    [
        (["--weigh", "38g"], "Say how many there are, or --weigh and --ten."),
        (["--weigh", "38g", "--ten", "6.2g"], "The scale leaves it open between "),
    ],
)
def test_a_count_the_scale_leaves_open_is_refused(weight: list[str], sentence: str) -> None:
    """No guess gets into the journal."""
    said = call("count", "1", *weight)

    assert said.code == 2
    assert sentence in said.err
    assert on_hand(1)[0] == 6


@pytest.mark.parametrize(
    ("words", "lot"),
    [
        ("hold 1 --job 1", 1), ("fit 1", 1), ("scrap 2", 2), ("count 1 4", 1), ("move 1 B2", 1),
        ("move 1 B2 -n 2", 1),
    ],
)  # fmt: skip
def test_a_dry_run_says_what_would_be_and_leaves_it(words: str, lot: int) -> None:
    """In a line and as JSON, which then names no event."""
    before, journal = on_hand(lot), events()
    said = call(*words.split(), "--dry-run")
    row = told(*words.split(), "--dry-run")

    assert said.out.startswith("Would have ")
    assert row["lot"] == lot
    assert row["events"] == []
    assert (on_hand(lot), events()) == (before, journal)


def test_json_names_the_events_that_were_written() -> None:
    """Other programs follow them into the journal."""
    row = json.loads(call("fit", "1", "--job", "1", "--json").out)

    assert (row["lot"], row["on_hand"], row["held"], row["state"]) == (1, 5, 0, "clicks")
    assert row["events"] == [told("history", "1")[-1]["seq"]]


@pytest.mark.parametrize("words", ["hold 1 -n 7", "fit 1 -n 7", "scrap 1 -n 7", "putback 1"])
def test_what_is_not_there_is_not_taken(words: str) -> None:
    """Exit code 1, one sentence, the shelf as it was."""
    said = call(*words.split())

    assert (said.code, said.out) == (1, "")
    assert len(said.err.splitlines()) == 1
    assert on_hand(1) == (6, 0, "clicks", "A1")
