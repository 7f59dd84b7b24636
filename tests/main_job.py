"""The main job on published markings: a shelf made of them, every one asked for, and counted.

Shared by ``tests/test_main_job.py`` and ``tests/benchmarks/main_job.py``. What is published of a
marking is its ``expect`` object; nothing here looks at what our own reader or rules made of it.
"""

from __future__ import annotations

import csv
import json
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from inventory.bench.find import Answer, Query, find
from inventory.bench.loading import load
from inventory.records import Part, Reading, Verdict
from inventory.store.shelf import Shelf, open_shelf

CASES = Path(__file__).parent / "cases"
GOOD = {"switch": "clicks", "fuse": "good", "hv_fuse": "good"}
SHAPE = {"contact_form": "SPDT", "body": "miniature v", "actuator": "pin plunger"}
"""One shape for all switches of the second shelf, so that only the ratings decide."""

Expect = Mapping[str, Any]


@dataclass(frozen=True)
class Case:
    """One published marking with what it says."""

    id: str
    family: str
    text: str
    expect: Expect
    must_not: Expect


def cases() -> list[Case]:
    """All switch markings, and the fuses of the part markings."""
    return [
        Case(row["id"], row.get("family", "switch"), row["text"], row["expect"],
             row.get("must_not", {}))
        for name in ("switch_markings", "part_markings")
        for row in map(json.loads, (CASES / f"{name}.jsonl").read_text("utf-8").splitlines())
        if row.get("family", "switch") in GOOD
    ]  # fmt: skip


def shelf_of(folder: Path, *, shaped: bool) -> Shelf:
    """Every case loaded through a parts file as one lot that tested good."""
    folder.mkdir(parents=True, exist_ok=True)
    columns = ["family", "marking", "quantity", "bin", "state", "origin"]
    with (folder / "parts.csv").open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file)
        writer.writerow([*columns, "contact_form", "r.body", "r.actuator"])
        for number, case in enumerate(cases()):
            shape = list(SHAPE.values()) if shaped and case.family == "switch" else [""] * 3
            row = [case.family, case.text, 1, f"A{number // 10}-{number % 10}"]
            writer.writerow([*row, GOOD[case.family], "new", *shape])
    shelf = open_shelf(str(folder / "cases.shelf"), bench="main job", create=True)
    load(shelf, folder / "parts.csv")
    return shelf


def ask_for(shelf: Shelf, case: Case, *, shaped: bool) -> Answer:
    """One marking asked for as a tech would."""
    needs = SHAPE if shaped and case.family == "switch" else {}
    return find(shelf, Query(case.text, case.family, needs=needs, limit=1_000))


# how it was read -------------------------------------------------------------------


def read_as(case: Case, reading: Reading) -> str:
    """``exact``, ``warned`` (not exact, or in doubt, and it says so) or ``wrong in silence``."""
    expected = {name: value for name, value in case.expect.items() if value is not None}
    said = dict(reading.ratings)
    missed = any(said.get(name) != value and reading.assumed.get(name) != value
                 for name, value in expected.items())  # fmt: skip
    absent = [name for name, value in case.expect.items() if value is None]
    invented = set(said) - set(expected) if case.family == "switch" else set(said) & set(absent)
    forbidden = any(said.get(name, ...) == value for name, value in case.must_not.items())
    if missed or invented or forbidden:
        return "warned" if reading.warnings else "wrong in silence"
    return "exact with a warning" if reading.warnings else "exact"


# what may replace what, by the published figures alone --------------------------------

AC = ("resistive_a", "gp_a", "motor_a", "lamp_a", "ballast_a", "inrush_a", "amps")
"""Quantities on a.c.; each is compared with itself only. Source: design section 5."""

ANY_MAINS = 240
"""A rating whose voltage is not published is wanted on any household mains."""


def figures(expect: Expect) -> dict[str, list[tuple[float, float | None]]]:
    """Every quantity with its (amount, volts) pairs; volts are None where none are printed.

    A maker's own unbracketed figure is resistive, as an unbracketed a.c. figure is.
    """
    found: dict[str, list[tuple[float, float | None]]] = {}
    for row in (expect, *expect.get("ratings", ())):
        said = {"resistive_a": row["maker_rating_a"], **row} if "maker_rating_a" in row else row
        for name in (*AC, "dc_a"):
            if name in said:
                volts = said.get("volts_dc" if name == "dc_a" else "volts_ac")
                found.setdefault(name, []).append((said[name], max(volts) if volts else None))
    for horse in expect.get("hp", ()):
        for mains in _mains(horse["volts"]):
            found.setdefault(f"hp at {mains}", []).append((horse["hp"], mains))
    return found


def _mains(volts: float | None) -> tuple[int, ...]:
    """The mains a horsepower voltage stands for; of none printed it may be either."""
    if volts is None:
        return (120, 240)
    return (120,) if volts <= 130 else (240,)


def lower(wanted: Expect, offered: Expect) -> list[str]:
    """Quantities in which the offered part is published lower than the wanted one, by name."""
    have = figures(offered)
    short = [
        name
        for name, pairs in figures(wanted).items()
        if name in have
        for amount, volts in pairs
        if not any(a >= amount and (v or 0) >= (volts or ANY_MAINS) for a, v in have[name])
    ]
    if wanted.get("coil_volts_dc") != offered.get("coil_volts_dc"):
        short.append("coil")
    short += [name for name in ("ambient_max_c", "voltage_v")
              if _both(name, wanted, offered) and offered[name] < wanted[name]]  # fmt: skip
    short += [name for name in ("current_a", "time_characteristic", "standard")
              if _both(name, wanted, offered) and offered[name] != wanted[name]]  # fmt: skip
    if wanted.get("breaking_class") == "H" and offered.get("breaking_class") == "L":
        short.append("breaking_class")
    return short


def _both(name: str, wanted: Expect, offered: Expect) -> bool:
    """Whether a figure is published of both."""
    return wanted.get(name) is not None and offered.get(name) is not None


def missing(wanted: Expect, offered: Expect) -> list[str]:
    """Published quantities of the wanted part of which nothing is published of the offered one."""
    have = figures(offered)
    gone = [name for name in figures(wanted) if name not in have]
    plain = ("ambient_max_c", "voltage_v", "current_a", "time_characteristic", "breaking_class")
    return gone + [n for n in plain if wanted.get(n) is not None and offered.get(n) is None]


@dataclass
class Figures:
    """What came of asking for every marking."""

    read: Counter[str] = field(default_factory=Counter)
    verdicts: Counter[str] = field(default_factory=Counter)
    first: int = 0  # markings whose own part type came first
    asked: int = 0
    lower: list[str] = field(default_factory=list)  # offered as good, published lower
    unknown: list[str] = field(default_factory=list)  # offered as good, a quantity unpublished
    refused_though_enough: list[str] = field(default_factory=list)
    silent: list[str] = field(default_factory=list)  # read wrong without a warning


def count(shelf: Shelf, *, shaped: bool) -> Figures:
    """Every marking asked for, every answer held against the published figures."""
    every = {case.text: case for case in cases()}
    done = Figures()
    for case in every.values():
        answer = ask_for(shelf, case, shaped=shaped)
        done.asked += 1
        if answer.reading is not None:
            how = read_as(case, answer.reading)
            done.read[how] += 1
            done.silent += [case.id] if how == "wrong in silence" else []
        best = answer.stand_ins[0].part if answer.stand_ins else Part("other")
        done.first += best.marking == case.text
        for part, verdict in _judged(answer):
            done.verdicts[str(verdict)] += 1
            _hold(done, case, every[part.marking], verdict)
    return done


def _judged(answer: Answer) -> Iterator[tuple[Part, Verdict]]:
    """Every part type that came up, with its verdict."""
    for one in (*answer.stand_ins, *answer.found.refused):
        yield one.part, one.verdict


def _hold(done: Figures, wanted: Case, offered: Case, verdict: Verdict) -> None:
    """One answer against what is published of the two."""
    pair = f"{offered.id} for {wanted.id}"
    short = lower(wanted.expect, offered.expect)
    gaps = missing(wanted.expect, offered.expect)
    if verdict in {Verdict.FITS, Verdict.SAME} and wanted.id != offered.id:
        done.lower += [f"{pair}: {', '.join(short)}"] if short else []
        done.unknown += [f"{pair}: {', '.join(gaps)}"] if gaps else []
    if verdict is Verdict.REFUSED and not (short or gaps) and wanted.family == offered.family:
        done.refused_though_enough.append(pair)
