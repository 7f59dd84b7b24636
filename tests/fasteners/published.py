"""Published figures the tests share: readers of the case files, and a comparison with tolerance."""

from __future__ import annotations

import csv
import json
import math
from pathlib import Path
from typing import Any

from inventory.fasteners.catalogue import machine_threads
from inventory.fasteners.thread import Thread

CASES = Path(__file__).resolve().parent.parent / "cases"


def table(name: str) -> list[dict[str, str]]:
    """The rows of a published table kept with the tests; lines of source start with '# '."""
    lines = (CASES / name).read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("# ")))


def fastener_cases() -> list[dict[str, Any]]:
    """The published check cases, one JSON object a line, each with its source."""
    text = (CASES / "fastener_cases.jsonl").read_text(encoding="utf-8")
    return [json.loads(line) for line in text.splitlines() if line.strip()]


def thread(name: str) -> Thread:
    """A listed machine thread by its exact name."""
    return next(one for one in machine_threads() if one.name == name)


def tolerance(case: dict[str, Any], key: str, expected: float) -> float:
    """How far a figure may lie off: as the case says, with half a digit where it says nothing."""
    said = case.get("tol")
    if isinstance(said, dict):
        return float(said["n_free"] if key.startswith("n_") else said["ratio"])
    if case.get("tol_kind") == "relative":
        return float(case["tol"]) * abs(expected)
    return 0.005 if said is None else float(said) + 1e-9


def agrees(case: dict[str, Any], key: str, expected: Any, got: Any) -> bool:
    """True when an answer is the published one within its tolerance; null only equals null."""
    if isinstance(expected, list) and isinstance(got, list):
        pairs = zip(expected, got, strict=False)
        return len(expected) == len(got) and all(agrees(case, key, e, g) for e, g in pairs)
    if isinstance(expected, bool) or isinstance(got, bool):
        return expected is got
    if isinstance(expected, int | float) and isinstance(got, int | float):
        return math.isfinite(got) and abs(expected - got) <= tolerance(case, key, expected)
    return bool(expected == got)
