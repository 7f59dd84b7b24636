"""Answers to cases of kind ``compat``: one screw in another's hole, lengths, pilot holes."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping
from typing import Any

from inventory.errors import WrongInput
from inventory.fasteners import contact, holes
from inventory.fasteners.contact import Condition
from inventory.fasteners.designation import read_screw
from inventory.fasteners.fit import fit
from inventory.fasteners.holes import HoleKind, Place
from inventory.fasteners.length import Joint, check_length, engaged_turns
from inventory.fasteners.mating import CONTRACT, mate
from inventory.fasteners.thread import INCH, Form, Thread

Given = Mapping[str, Any]
Answer = dict[str, Any]

DEFAULT_DIAMETERS = 0.8
"""Engaged length in diameters where a case gives none: an ordinary nut."""


def compat(given: Given) -> Answer:
    """The pair's numbers and verdict, unless the case names another quantity."""
    quantity = str(given.get("quantity", "")).lower()
    for word, function in QUANTITIES:
        if word in quantity:
            return function(given)
    return pair(given)


def pair(given: Given) -> Answer:
    """A screw in a hole."""
    screw = read_screw(str(given["screw"])).need_thread()
    text = str(given["hole"])
    hole, kind = _hole(text)
    engaged = float(given.get("engaged_mm") or DEFAULT_DIAMETERS * hole.major)
    if given.get("hole_kind") is not None:
        kind = holes.hole_kind(str(given["hole_kind"]))
    plain_pair = screw.is_machine and hole.is_machine and kind is None
    plain_pair = plain_pair and screw.left is hole.left
    if not plain_pair or Form.FORMING in {screw.form, hole.form}:
        return _other(hole, screw, kind or HoleKind.SHEET, engaged)
    return _machine(screw, hole, engaged, ductile=bool(given.get("hole_ductile", False)))


def _hole(text: str) -> tuple[Thread, HoleKind | None]:
    """The thread of a hole, and its kind where the words name one."""
    bare = re.sub(r"\(.{0,60}\)", " ", text)
    spoken = re.sub(r"(?i)\b(?:formed by|hole|boss|plastics?|nut|for)\b", " ", bare)
    kind = None
    if re.search(r"(?i)formed", text):
        kind = HoleKind.FORMED
    elif re.search(r"(?i)boss|plastic", text):
        kind = HoleKind.BOSS
    return read_screw(spoken).need_thread(), kind


def _limit(turns: float) -> float | None:
    """Turns as JSON: null means no limit."""
    return None if math.isinf(turns) else turns


def _machine(screw: Thread, hole: Thread, engaged: float, *, ductile: bool) -> Answer:
    """Two machine threads."""
    result = fit(screw, hole, engaged, ductile=ductile)
    numbers = result.numbers
    return {
        "verdict": result.detail.value,
        "contract_verdict": CONTRACT[result.detail].value,
        "grade": result.grade,
        "n_req": numbers.turns_needed,
        "n_free_tight_mean_loose": [_limit(turns) for turns in numbers.turns_free],
        "n_free": _limit(numbers.turns_free[1]),
        "play_um_tight_mean_loose": [1000 * play for play in numbers.play],
        "percent_thread_mean": numbers.percent,
        "E_rel_mean": numbers.bite[1],
        "E_rel_tight_mean_loose": list(numbers.bite),
        "rho_mean": numbers.pushed_away,
        "shear_ratio_hole": numbers.shear_hole,
        "shear_ratio_screw": numbers.shear_screw,
        "shear_ratio": numbers.strip_ratio,
        "tensile_ratio": numbers.tensile,
        "n_load": result.load_turns,
        "core_enters": numbers.core_enters,
        "crest_touches": numbers.crest_touches,
        "delta_P_um": 1000 * (screw.pitch - hole.pitch),
    }


def _other(hole: Thread, screw: Thread, kind: HoleKind, engaged: float) -> Answer:
    """A pair in which one is no machine thread, or is lobed."""
    mating = mate(hole, screw, Place(kind, engaged=engaged))
    return {
        "verdict": mating.detail.value,
        "contract_verdict": mating.verdict.value,
        "strip_ratio": mating.strip_ratio,
        "reason": " ".join(mating.reasons),
    }


def _turns_free(given: Given) -> Answer:
    """Free turns at one condition, with and without the end correction."""
    screw = read_screw(str(given["screw"])).need_thread()
    hole, _ = _hole(str(given["hole"]))
    if screw.left is not hole.left:
        return {"n_free": 0.0, "naive_without_correction": 0.0, "why": "one is left-hand"}
    condition = Condition(str(given.get("condition", "mean")))
    a, b = contact.screw_at(screw, condition), contact.hole_at(hole, condition)
    drift = abs(a.pitch - b.pitch)
    naive = max(0.0, contact.play(a, b)) / drift if drift > 1e-6 else math.inf
    return {
        "n_free": _limit(contact.free_turns(a, b)),
        "naive_without_correction": _limit(naive),
        "play_um": 1000 * contact.play(a, b),
        "percent": contact.percent_thread(a, b),
        "percent_thread": contact.percent_thread(a, b),
    }


def _pilot(given: Given) -> Answer:
    """Which of the candidates a plain hole in sheet is right for, and what the others need."""
    hole, sheet = float(given["hole_mm"]), float(given.get("sheet_mm", holes.SHEET_MM))
    fitting: list[tuple[float, str]] = []
    rejected: dict[str, str] = {}
    for name in given["candidates"]:
        needs = holes.pilot(read_screw(str(name)).need_thread(), sheet)
        if needs is None:
            rejected[name] = "no pilot hole is listed"
        elif needs.takes(hole, sheet):
            fitting.append((abs(needs.hole - hole), name))
        else:
            rejected[name] = needs.says(sheet)
    fitting.sort()
    best = fitting[0][1] if fitting else None
    return {"best": best, "rejected": rejected, "also": [name for _, name in fitting[1:]]}


def _engaged(given: Given) -> Answer:
    """Turns in a sheet or an extrusion, against the two-thread rule."""
    thread = read_screw(str(given["thread"])).need_thread()
    heights = ("plain_sheet_mm", "sheet_mm", "hole_extrusion_mm", "engaged_mm")
    height = next((float(given[name]) for name in heights if name in given), None)
    if height is None:
        raise WrongInput("The height of the thread in the metal is needed.")
    found = engaged_turns(thread, height)
    return {"turns": found.turns, "ok": found.enough, "engaged_mm": found.length}


def _length(given: Given) -> Answer:
    """Whether another length will do."""
    original, candidate = (read_screw(str(given[name])) for name in ("original", "candidate"))
    if original.length is None or candidate.length is None:
        raise WrongInput("Both screws need a length, e.g. M4x8.")
    height = given.get("hole_extrusion_mm", given.get("plain_sheet_mm", given.get("sheet_mm")))
    joint = Joint(
        float(given.get("part_stack_mm", 0.0)),
        float(height if height is not None else math.inf),
        float(given.get("chamfer_loss_mm", 0.0)),
        bool(given.get("back_is_clear", given.get("back_clear", False))),
    )
    check = check_length(
        (original.need_thread(), original.length),
        (candidate.need_thread(), candidate.length),
        joint,
    )
    return {
        "engaged_mm_original": check.original,
        "engaged_mm_candidate": check.candidate,
        "turns": check.turns,
        "longer_by_mm": check.longer_by,
        "ok": check.ok,
        "reason": " and ".join(check.reasons),
    }


def _clearance(given: Given) -> Answer:
    """Whether a screw passes a plain hole in the part above."""
    thread = read_screw(str(given["screw"])).threads[0]
    hole = given.get("hole_mm", given.get("clearance_mm"))
    if hole is None:
        raise WrongInput("The plain hole's diameter is needed.")
    widest = holes.widest(thread)
    passes = widest < float(hole)
    return {"passes": passes, "ok": passes, "widest_mm": widest, "widest_in": widest / INCH}


QUANTITIES: tuple[tuple[str, Callable[[Given], Answer]], ...] = (
    ("n_free", _turns_free),
    ("play", _turns_free),
    ("percent", _turns_free),
    ("pilot", _pilot),
    ("engaged_turns", _engaged),
    ("turns", _engaged),
    ("length", _length),
    ("clearance", _clearance),
    ("pass", _clearance),
)
"""Words in the name of a quantity, and what computes it."""
