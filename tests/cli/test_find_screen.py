"""What a search prints: the next step, shared questions once, no more than a screen needs."""

from __future__ import annotations

import json
from pathlib import Path

from tests.cli.calling import call, demo_file

__all__ = ["demo_file"]

PLACE_QUESTION = "An interlock place takes only the same type or one listed"


def test_a_job_says_which_unit_it_is_for(demo_file: Path) -> None:
    """``--job`` spares typing the maker and model again."""
    shelf = ("--shelf", str(demo_file))
    with_job = call(*shelf, "find", "NFD-V16-63", "-j", "470", "-p", "primary", "--json")
    with_unit = call(
        *shelf, "find", "NFD-V16-63", "-u", "Brenka BK-20M", "-p", "primary", "--json"
    )  # fmt: skip
    assert json.loads(with_job.out) == json.loads(with_unit.out)


def test_a_unit_that_is_said_goes_before_the_job(demo_file: Path) -> None:
    """What is typed now is what is meant."""
    said = call(
        "--shelf", str(demo_file), "find", "DT50-1", "--job", "470", "--unit", "Tumbrel TL700",
        "--json",
    )  # fmt: skip
    assert json.loads(said.out)["wanted"]["unit"] == "Tumbrel TL700"


def test_the_call_that_fits_the_best_one_is_named(demo_file: Path) -> None:
    """A yes ends in the words to type next; they go beside the result."""
    said = call("--shelf", str(demo_file), "find", "NFD-V16-63", "-j", "470", "-p", "primary")
    assert "Next: salvage fit 684 --job 470 --place primary-interlock" in said.err
    assert "Next:" not in said.out


def test_a_question_is_no_next_step(demo_file: Path) -> None:
    """Where the best is only asked about, nobody is told to fit it."""
    said = call("--shelf", str(demo_file), "find", "16(4)A 250V~", "--place", "primary")
    assert "? ASK" in said.out
    assert "Next: salvage fit" not in said.err


def test_an_untested_lot_is_to_be_tested_first(demo_file: Path) -> None:
    """The next step of a part that fits and is not known to be good is the bench."""
    said = call("--shelf", str(demo_file), "find", "GT-01")
    assert "= SAME 2.8x0.5" in said.out
    assert "Next: salvage bench " in said.err


def test_what_is_asked_of_all_is_asked_once(demo_file: Path) -> None:
    """Ten stand-ins with one and the same question make one paragraph, not ten."""
    said = call("--shelf", str(demo_file), "find", "16(4)A 250V~", "-p", "primary")
    assert said.out.count("? ASK") == 5
    assert " ".join(said.out.split()).count(PLACE_QUESTION) == 1


def test_the_only_one_asked_about_keeps_its_question(demo_file: Path) -> None:
    """With a single stand-in nothing is lifted above it."""
    said = call("--shelf", str(demo_file), "find", "16(4)A 250V~", "-p", "primary", "--limit", "1")
    assert "Asked of each" not in said.out
    assert PLACE_QUESTION in " ".join(said.out.split())


def test_json_still_holds_ten(demo_file: Path) -> None:
    """The shorter screen changes nothing for other programs."""
    said = call("--shelf", str(demo_file), "find", "16(4)A 250V~", "-p", "primary", "--json")
    assert len(json.loads(said.out)["stand_ins"]) == 10


def test_many_lots_of_one_part_are_counted_not_listed(demo_file: Path) -> None:
    """Six lots are enough to choose from; the rest is a number."""
    said = call("--shelf", str(demo_file), "find", "DT50-1", "--limit", "1")
    assert said.out.count("    lot ") == 6
    assert "more lots of it" in said.out


def test_what_keeps_failing_is_not_recommended(demo_file: Path) -> None:
    """A warning of the journal and a call to fit it do not stand on one screen."""
    said = call("--shelf", str(demo_file), "find", "DT50-1")
    assert "! keeps failing" in said.out
    assert "Next:" not in said.err
