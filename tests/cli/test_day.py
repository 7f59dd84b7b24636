"""``salvage day`` in the terminal: the same figures as its JSON, cut to what a morning needs."""

from __future__ import annotations

from pathlib import Path

import pytest

from inventory.cli.day import SHOWN
from tests.cli.calling import call, demo_file, new_shelf, own_demo, told

__all__ = ["demo_file", "new_shelf", "own_demo"]

DAY = ["day", "--as-of", "2026-10-31"]


@pytest.mark.usefixtures("own_demo")
def test_the_screen_says_what_the_json_says() -> None:
    """Each list with its count; long ones are cut and the rest counted."""
    row = told(*DAY)
    lines = call(*DAY).out.splitlines()

    assert lines[0] == "The shelf on 2026-10-31"
    assert f"Runs short: {len(row['short'])} part types" in lines
    assert f"Held for more than a week: {len(row['old_holds'])}" in lines
    assert f"Jobs open: {len(row['jobs'])}" in lines
    for name in ("short", "jobs"):
        hidden = len(row[name]) - SHOWN
        assert (f"  ... and {hidden} more" in lines) == (hidden > 0)
    for job in row["jobs"][:SHOWN]:
        assert any(line.startswith(f"  {job['job']} since ") for line in lines)
    for line in row["failing"]:
        assert line.split(":")[0] in "\n".join(lines)


@pytest.mark.usefixtures("new_shelf")
def test_an_empty_morning_is_said_to_be_one() -> None:
    """A shelf with one new part: no failure, nothing used, nothing held."""
    call("log", "EX-1", "--family", "other", "-n", "3")
    said = call("day")

    assert said.code == 0
    assert "Held for more than a week: 0" in said.out
    assert "nothing, as far as the journal can tell" in said.out
    assert "Pieces used a month" not in said.out
    assert "other" in said.out  # in the untested pile


def test_holds_without_a_job_are_told_too(new_shelf: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whom a hold is for is said, also where it is for nobody."""
    from datetime import UTC, datetime

    from inventory.store import journal

    monkeypatch.setattr(journal, "clock", lambda: datetime(2026, 3, 1, 10, tzinfo=UTC))
    call("log", "EX-1", "--family", "other", "--state", "good", "-n", "3")
    call("job", "open", "--kind", "oven")
    call("hold", "1")
    call("hold", "1", "--job", "1")
    monkeypatch.setattr(journal, "clock", lambda: datetime(2026, 4, 1, 10, tzinfo=UTC))
    call("log", "EX-2", "--family", "other")
    out = call("day", "--as-of", "2026-04-01").out

    assert "lot 1 EX-1: 1 for no job since 2026-03-01" in out
    assert "lot 1 EX-1: 1 for job 1 since 2026-03-01" in out
    assert new_shelf.exists()
