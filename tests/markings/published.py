"""Published cases as the tests use them: loaded, compared with a reading, explained when missed."""

from __future__ import annotations

import json
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from inventory.markings.fold import fold
from inventory.records import Reading

_FOLDER = Path(__file__).resolve().parent.parent / "cases"


@dataclass(frozen=True)
class Case:
    """One published marking with what it says; ``id`` and ``source`` are in its row."""

    id: str
    family: str
    text: str
    expect: dict[str, Any]
    must_not: dict[str, Any]
    assumed: dict[str, Any]
    source: str

    def __str__(self) -> str:
        return f"{self.id} {self.family}"


@cache
def cases(name: str) -> tuple[Case, ...]:
    """All rows of one case file."""
    lines = (_FOLDER / f"{name}.jsonl").read_text(encoding="utf-8").splitlines()
    rows = (json.loads(line) for line in lines)
    return tuple(
        Case(
            row["id"], row["family"], row["text"], row["expect"], row.get("must_not", {}),
            row.get("assumed", {}), row["source"],
        )
        for row in rows
    )  # fmt: skip


def wrong(case: Case, reading: Reading) -> dict[str, Any]:
    """Every expected key that does not equal, and every answer that must not be given."""
    found = {key: reading.ratings.get(key) for key in case.expect if key != "candidates_include"}
    missed = {key: value for key, value in found.items() if value != case.expect[key]}
    if "candidates_include" in case.expect:
        offered = [candidate.text for candidate in reading.candidates]
        if case.expect["candidates_include"] not in offered:
            missed["candidates_include"] = offered
    for key, value in case.assumed.items():
        if reading.assumed.get(key) != value:
            missed[f"assumed {key}"] = reading.assumed.get(key)
    for key, value in case.must_not.items():
        said = reading.family if key == "family" else reading.ratings.get(key, ...)
        if said == value:
            missed[f"must not {key}"] = value
    return missed


def uncovered(reading: Reading) -> list[int]:
    """Positions of the text that are not in exactly one mark or unread piece."""
    times = [0] * len(reading.text)
    pieces = [(mark.text, mark.start, mark.end) for mark in reading.marks]
    pieces += [(piece.text, piece.start, piece.end) for piece in reading.unread]
    for text, start, end in pieces:
        assert text == reading.text[start:end]
        for at in range(start, end):
            times[at] += 1
    view = fold(reading.text)
    return [
        at for at, count in enumerate(times) if count > 1 or (count == 0 and not view[at].isspace())
    ]
