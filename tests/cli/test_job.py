"""``salvage job``: a repair from its complaint to what became of it."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.calling import call, events, new_shelf, on_hand, told
from tests.cli.terminal import sit

__all__ = ["new_shelf"]

pytestmark = pytest.mark.usefixtures("shop")

GOOD = ["--reading", "earth_ohm=0.08", "--reading", "leakage_mw_cm2=0.4"]
BEYOND = ["--reading", "leakage_mw_cm2=9"]
"""Above every limit in use: 1 mW/cm2 new, 5 in service. Source: 21 CFR 1030.10(c)(1)."""


@pytest.fixture
def shop(new_shelf: Path) -> Path:
    """Three good switches as lot 1, and job 1 on a customer's oven."""
    call("log", "16(4)A 250V~ T85 5E4", "--family", "switch", "--state", "clicks", "-n", "3")
    call(
        "job", "open", "--kind", "oven", "--maker", "Brenka", "--model", "BK-20M", "--serial",
        "S-7", "--customer", "Mrs Example", "--complaint", "dead, fuse blown",
    )  # fmt: skip
    return new_shelf


def test_a_job_is_opened_with_what_the_customer_said() -> None:
    """The number is told; the plate is kept as figures."""
    said = call("job", "open", "--kind", "kettle", "--plate", "current_a=6.2")

    assert said.out == "Opened job 2: kettle.\n"
    assert told("job", "show", "2")["plate"] == {"current_a": 6.2}
    assert told("job", "open", "--model", "X1")["id"] == 3


def test_the_page_of_a_job_tells_all_of_it() -> None:
    """Who, what, what was fitted and held, what was measured."""
    call("fit", "1", "--job", "1", "--place", "monitor")
    call("hold", "1", "--job", "1")
    call("job", "reading", "1", *GOOD)
    page = call("job", "show", "1").out

    assert page.startswith("Job 1: oven Brenka BK-20M, opened 20")
    assert "Customer: Mrs Example\nComplaint: dead, fuse blown\nSerial: S-7\n" in page
    assert "Fitted: 1 of lot 1, 16(4)A 250V~ T85 5E4 at monitor\n" in page
    assert "Held: 1 of lot 1, 16(4)A 250V~ T85 5E4\n" in page
    assert page.count("  ok   ") == 2


def test_open_jobs_are_listed_and_closed_ones_when_asked_for() -> None:
    """With their outcome in a word."""
    call("job", "open", "--kind", "kettle")
    call("job", "close", "1", "--given-up")
    row = call("job", "list").out.splitlines()[-1]
    both = call("job", "list", "--all").out

    assert row.split()[0] == "2"
    assert row.split()[-1] == "open"
    assert "given-up" in both
    call("job", "close", "2")
    assert call("job", "list").err == "No jobs are open.\n"
    assert "closed" in call("job", "list", "--all").out


def test_readings_are_held_against_their_limits() -> None:
    """Good or not, with the source of the limit; both are kept."""
    said = call("job", "reading", "1", "--reading", "earth_ohm=0.08", *BEYOND)
    rows = told("job", "reading", "1", "--reading", "earth_ohm=0.5")

    assert said.code == 0
    assert [line[2:6] for line in said.out.splitlines() if "[" in line] == ["FAIL", "ok  "]
    assert [(row["name"], row["value"], row["ok"]) for row in rows] == [("earth_ohm", 0.5, False)]
    assert len(told("job", "show", "1")["readings"]) == 3


def test_a_reading_said_twice_is_refused() -> None:
    """A good one must not silently take the place of a bad one."""
    said = call("job", "reading", "1", *BEYOND, *GOOD)

    assert (said.code, said.err) == (2, "leakage_mw_cm2 is said twice; say it once.\n")
    assert told("job", "show", "1")["readings"] == []


def test_a_job_with_a_reading_beyond_its_limit_stays_open() -> None:
    """Exit code 1 says so; a better reading later closes it, and held pieces go back."""
    call("hold", "1", "--job", "1")
    refused = call("job", "close", "1", *BEYOND)
    assert refused.code == 1
    assert refused.err.startswith("Job 1 stays open: ")
    assert told("job", "show", "1")["closed_at"] is None
    assert on_hand(1)[:2] == (3, 1)

    said = call("job", "close", "1", *GOOD, "--note", "new monitor switch")
    assert said.out.endswith("Closed job 1: oven Brenka BK-20M.\n")
    assert on_hand(1)[:2] == (3, 0)
    assert "Note: new monitor switch\n" in call("job", "show", "1").out


def test_work_on_the_door_goes_out_only_with_its_leakage() -> None:
    """As JSON once it is closed. Source: 21 CFR 1030.10(c)."""
    call("fit", "1", "--job", "1", "--place", "monitor")
    refused = call("job", "close", "1", "--reading", "earth_ohm=0.08")
    row = told("job", "close", "1", *GOOD, "--outcome", "kept-working")

    assert refused.code == 1
    assert "leakage must be measured" in refused.err
    assert row["outcome"] == "kept-working"
    assert len(row["readings"]) == 2


def test_what_became_of_a_repair_is_written_down_later() -> None:
    """With the piece that failed, which counts in the wear of its kind."""
    call("fit", "1", "--job", "1")
    early = call("job", "outcome", "1", "came-back")
    call("job", "close", "1")
    said = call("job", "outcome", "1", "came-back", "--failed", "1")

    assert early.code == 1
    assert said.out == "Job 1: came-back.\n"
    assert told("job", "show", "1")["outcome"] == "came-back"
    assert ("failed", 1) in events()


def test_what_a_job_lacked_counts_as_demand() -> None:
    """It stands in the journal of the part type."""
    said = call("job", "lacks", "1", "--part", "1", "-n", "2")

    assert said.out == "Job 1 lacked 2 of part type 1.\n"
    assert told("history", "--part", "1")[-1]["kind"] == "lacked"


@pytest.mark.parametrize(
    ("words", "would"),
    [
        ("job open --kind kettle", "Would open job 2: kettle.\n"),
        ("job reading 1 --reading earth_ohm=0.08", "Would write this down for job 1.\n"),
        ("job close 1 --given-up", "Would close job 1: oven Brenka BK-20M.\n"),
        ("job lacks 1 --part 1", "Would write down: job 1 lacked 1 of part type 1.\n"),
        ("job outcome 2 kept-working", "Would say of job 2: kept-working.\n"),
    ],
)
def test_a_dry_run_says_what_would_be(words: str, would: str) -> None:
    """And nothing of it is there afterwards."""
    if "job 2" in would and "outcome" in words:
        call("job", "open", "--kind", "kettle")
        call("job", "close", "2")
    before, jobs = events(), told("job", "list", "--all")
    said = call(*words.split(), "--dry-run")

    assert said.code == 0, said.err
    assert said.out.endswith(would)
    assert (events(), told("job", "list", "--all")) == (before, jobs)
    assert told("job", "show", "1")["readings"] == []


def test_the_region_may_stand_in_the_environment(monkeypatch: pytest.MonkeyPatch) -> None:
    """Whose limits hold; an unknown one is refused."""
    monkeypatch.setenv("SALVAGE_REGION", "mars")
    said = call("job", "reading", "1", *GOOD)

    assert said.code == 2
    assert "mars" in said.err


def test_a_unit_is_named_in_one_word_group() -> None:
    """Maker first, the rest is the model; one word alone is a model; a flag goes before."""
    call("job", "open", "Tumbrel TL 700", "-c", "sparks")
    call("job", "open", "TL700")
    call("job", "open", "Van Brenk X1", "--maker", "Van Brenk", "--model", "X1")
    rows = [told("job", "show", str(number)) for number in (2, 3, 4)]
    assert [(row["maker"], row["model"]) for row in rows] == [
        ("Tumbrel", "TL 700"), (None, "TL700"), ("Van Brenk", "X1"),
    ]  # fmt: skip


def test_the_next_call_is_named_beside_the_result() -> None:
    """After opening comes the search, after the fit the close-out."""
    assert call("job", "open", "X1").err == "Next: salvage find MARKING --job 2 --place PLACE\n"
    assert call("fit", "1", "--job", "2").err.endswith("Next: salvage job close 2\n")
    assert call("fit", "1", "--job", "2", "--dry-run").err.count("Next:") == 0


def test_a_close_out_asks_for_its_readings_at_a_terminal() -> None:
    """Four answers, two of them taken; an empty one is no reading."""
    said = sit("job", "close", "1", keys="0.4\n0.08\n\n\n")
    assert said.code == 0, said.err
    names = [row["name"] for row in told("job", "show", "1")["readings"]]
    assert sorted(names) == ["earth_ohm", "leakage_mw_cm2"]


def test_a_reading_beyond_its_limit_typed_at_a_terminal_keeps_the_job_open() -> None:
    """Asking changes nothing about the rule."""
    assert sit("job", "close", "1", keys="9\n\n\n\n").code == 1
    assert told("job", "show", "1")["closed_at"] is None


def test_a_close_without_a_reading_says_so() -> None:
    """It is closed, and the person knows what is not proven."""
    assert "no reading was taken" in call("job", "close", "1").err
    assert call("job", "open", "X1").code == 0
    assert call("job", "close", "2", "--given-up").err == ""
