"""What ``salvage screw`` prints: one JSON document a subcommand, and its text."""

from collections.abc import Mapping, Sequence
from typing import Any

from inventory.cli import show
from inventory.fasteners import drives, length, strength, swap, threads
from inventory.fasteners.designation import ScrewName
from inventory.fasteners.holes import HOLE_NAMES
from inventory.fasteners.identify import Identity
from inventory.fasteners.instead import Suggestion
from inventory.fasteners.mating import Mating
from inventory.fasteners.shelf import ShelfScrew, ratings_of
from inventory.fasteners.swap import WantedScrew
from inventory.fasteners.thread import Thread
from inventory.fasteners.weigh import Count
from inventory.records import Verdict

Document = dict[str, Any]


def _places(value: float | None, places: int) -> float | None:
    """A figure rounded for people; None stays None, and so does infinity."""
    return None if value is None or value in (float("inf"), float("-inf")) else round(value, places)


# name ------------------------------------------------------------------------


def named_document(name: ScrewName) -> Document:
    """What a written name says."""
    return {
        "candidates": [_candidate(thread, 0.0) for thread in name.threads],
        "cannot_split": [thread.name for thread in name.threads[1:]],
        "ask": name.ask,
        "split_by": [],
        "reads": ratings_of(name),
        "unread": list(name.unread),
    }


def measured_document(found: Identity, long: float | None) -> Document:
    """What a caliper says."""
    return {
        "candidates": [_candidate(c.thread, c.distance) for c in found.candidates],
        "cannot_split": [thread.name for thread in found.cannot_split],
        "ask": found.ask,
        "split_by": list(found.split_by),
        "reads": {} if long is None else {"length_mm": long},
        "unread": [],
    }


def _candidate(thread: Thread, distance: float) -> Document:
    """One candidate; ``distance`` is 0 inside its windows, else in uncertainties."""
    return {
        "designation": thread.name,
        "major_mm": round(thread.major, 4),
        "pitch_mm": round(thread.pitch, 5),
        "distance": round(distance, 3),
        "kind": thread.form.value,
    }


def name_text(document: Mapping[str, Any]) -> None:
    """Candidates, then what to do about the doubt."""
    if not document["candidates"]:
        show.line("No thread known here has these sizes.")
    else:
        rows = [
            (c["designation"], f"{c['major_mm']:.3f}", f"{c['pitch_mm']:.3f}", f"{c['distance']:g}")
            for c in document["candidates"]
        ]
        show.table(("Screw", "Major mm", "Pitch mm", "Off"), rows, right=(1, 2, 3))
    for label, value in document["reads"].items():
        if label != "thread":
            show.line(f"  {label}: {value}")
    if document["ask"]:
        show.line(f"Find out: {document['ask']}.")
    for sentence in document["split_by"]:
        show.line(f"To split them, {sentence}.")
    if document["unread"]:
        show.warn(f"Not read: {' '.join(document['unread'])}")


# fit ---------------------------------------------------------------------------


def fit_document(mating: Mating, names: tuple[ScrewName, ScrewName]) -> Document:
    """The verdict with its numbers; ``turns_free`` null means no limit or not computed."""
    wanted, offered = names
    return {
        "wanted": mating.wanted.name,
        "offered": mating.offered.name,
        "hole": mating.place.kind.value,
        "verdict": mating.verdict.value,
        "detail": mating.detail.value,
        "turns_free": _places(mating.turns_free, 2),
        "overlap_pct": _places(mating.overlap, 1),
        "strip_ratio": _places(mating.strip_ratio, 3),
        "engaged_mm": round(mating.engaged, 3),
        "engaged_turns": round(mating.engaged / mating.offered.pitch, 2),
        "numbers": _numbers(mating),
        "strength": _strength(mating, wanted, offered),
        "reasons": [*mating.reasons, *_side_notes(mating, wanted, offered)],
    }


def _numbers(mating: Mating) -> Document | None:
    """The geometry behind the verdict; null where the two are not both machine threads."""
    if mating.thread_fit is None:
        return None
    numbers = mating.thread_fit.numbers
    return {
        "turns_needed": round(numbers.turns_needed, 2),
        "turns_free_tight_mean_loose": [_places(turns, 2) for turns in numbers.turns_free],
        "play_um_tight_mean_loose": [round(1000 * play) for play in numbers.play],
        "bite_of_right_screw": round(numbers.bite[1], 3),
        "grade": mating.thread_fit.grade,
        "pushed_away": round(numbers.pushed_away, 3),
        "shear_ratio_hole": round(numbers.shear_hole, 3),
        "shear_ratio_screw": round(numbers.shear_screw, 3),
        "tensile_ratio": round(numbers.tensile, 3),
        "load_turns": round(mating.thread_fit.load_turns, 2),
        "core_enters": numbers.core_enters,
    }


def _strength(mating: Mating, wanted: ScrewName, offered: ScrewName) -> Document:
    """Property classes, as said, and the torque ceiling in thin sheet."""
    ceiling = None
    if mating.thread_fit is not None and mating.place.ductile and mating.strip_ratio:
        own = strength.sheet_torque(mating.wanted, mating.wanted, mating.engaged)
        ceiling = round(own * min(1.0, mating.strip_ratio), 2)
    return {
        "class_wanted": wanted.grade,
        "class_offered": offered.grade,
        "torque_ceiling_nm": ceiling,
    }


def _side_notes(mating: Mating, wanted: ScrewName, offered: ScrewName) -> list[str]:
    """Turns engaged, length, part above, head and property class, as far as they are said."""
    turns = mating.engaged / mating.offered.pitch
    notes = []
    if turns < length.LEAST_TURNS:
        notes.append(f"Only {turns:.1f} turns engage; two full threads are the rule.")
    screw = ShelfScrew(
        offered.text,
        mating.offered,
        length=offered.length,
        head=offered.head,
        drive=offered.drive,
        grade=offered.grade,
    )
    offer = swap.Offer(screw, mating, drives.tamper(wanted.drive, offered.drive))
    rules = [swap.passes_the_part_above, swap.head_bears, swap.class_is_kept]
    if wanted.length is not None and offered.length is not None:
        rules.append(swap.length_is_right)
    reasons = (rule(WantedScrew(wanted, mating.place), offer) for rule in rules)
    return notes + [reason.sentence for reason in reasons if reason is not None]


def fit_text(mating: Mating, names: tuple[ScrewName, ScrewName]) -> None:
    """The verdict, its numbers and its reasons."""
    document = fit_document(mating, names)
    show.line(
        f"{mating.offered.name} in place of {mating.wanted.name},"
        f" {HOLE_NAMES[mating.place.kind]}: {mating.verdict.value}",
        "head",
    )
    for label, value in (
        ("free turns", document["turns_free"]),
        ("per cent of thread", document["overlap_pct"]),
        ("strip strength over the original's", document["strip_ratio"]),
        ("torque ceiling, N m", document["strength"]["torque_ceiling_nm"]),
    ):
        if value is not None:
            show.line(f"  {label}: {value:g}")
    for sentence in document["reasons"]:
        show.line(f"  - {sentence}")


# instead -------------------------------------------------------------------------


def instead_document(wanted: WantedScrew, found: Sequence[Suggestion]) -> Document:
    """Suggestions best first, the refused apart."""
    return {
        "wanted": {
            "text": wanted.name.text,
            "thread": wanted.thread.name,
            "length_mm": _places(wanted.name.length, 3),
            "drive": str(wanted.name.drive) if wanted.name.drive else None,
            "hole": wanted.place.kind.value,
            "earth": wanted.earth,
            "high_voltage": wanted.high_voltage,
        },
        "suggestions": [_suggestion(s) for s in found if s.verdict is not Verdict.REFUSED],
        "refused": [_suggestion(s) for s in found if s.verdict is Verdict.REFUSED],
    }


def _suggestion(suggestion: Suggestion) -> Document:
    """One lot."""
    screw, mating = suggestion.screw, suggestion.offer.mating
    return {
        "screw": screw.text,
        "thread": screw.thread.name,
        "lot": screw.lot,
        "bin": screw.bin,
        "on_hand": screw.on_hand,
        "verdict": suggestion.verdict.value,
        "fit": mating.verdict.value,
        "turns_free": _places(mating.turns_free, 2),
        "strip_ratio": _places(mating.strip_ratio, 3),
        "driver": suggestion.driver,
        "tamper": suggestion.tamper,
        "cautions": list(suggestion.cautions),
        "reasons": [
            {
                "rule": reason.rule,
                "outcome": reason.outcome.value,
                "sentence": reason.sentence,
                "source": reason.source,
            }
            for reason in suggestion.reasons
        ],
    }


def instead_text(
    wanted: WantedScrew, found: Sequence[Suggestion], *, refused: bool, limit: int
) -> None:
    """One block a lot: verdict, where it lies, driver, tamper resistance, cautions."""
    good = [s for s in found if refused or s.verdict is not Verdict.REFUSED]
    show.line(f"Instead of {wanted.name.text} ({HOLE_NAMES[wanted.place.kind]}):", "head")
    for suggestion in good[:limit]:
        _block(suggestion)
    if not good:
        show.line("Nothing on hand goes in there.")
    if len(good) > limit:
        show.note(f"{len(good) - limit} more; say --limit {len(good)}.")
    if len(found) > len(good):
        show.note(f"{len(found) - len(good)} refused; --all shows why.")


def _block(suggestion: Suggestion) -> None:
    """One lot at the terminal."""
    screw, verdict = suggestion.screw, suggestion.verdict.value
    where = f"  lot {screw.lot}" if screw.lot is not None else ""
    where += f", bin {screw.bin}" if screw.bin else ""
    where += f", {screw.on_hand} on hand" if screw.on_hand is not None else ""
    style = verdict if verdict in show.SIGNS else ""
    show.line(f"{show.SIGNS.get(verdict, '-')} {verdict}: {screw.text}{where}", style)
    show.line(f"    thread {suggestion.offer.mating.verdict.value}; driver: {suggestion.driver};")
    show.line(f"    tamper resistance {suggestion.tamper}")
    for caution in suggestion.cautions:
        show.line(f"    ! {caution}")


# limits and weigh ------------------------------------------------------------------


def limits_document(thread: Thread, fit_class: str | None) -> Document:
    """Limits under their standard names, flat, with thread, class and unit."""
    found = threads.limits(thread, fit_class)
    document: Document = {"thread": thread.name, "class": found.fit_class, "unit": found.unit}
    document |= found.named()
    both = threads.printed_both_ways(found)
    if both is not None:
        document["D1_max_any_of"] = list(both)
    document["As_mm2"] = round(strength.stress_area(thread), 3)
    return document


_MEANS = {
    "d_max": "screw, major diameter, largest",
    "d_min": "screw, major diameter, smallest",
    "d2_max": "screw, pitch diameter, largest",
    "d2_min": "screw, pitch diameter, smallest",
    "D2_min": "hole, pitch diameter, smallest",
    "D2_max": "hole, pitch diameter, largest",
    "D1_min": "hole, minor diameter, smallest",
    "D1_max": "hole, minor diameter, largest",
}


def limits_text(document: Mapping[str, Any]) -> None:
    """The limits, one a line."""
    show.line(f"{document['thread']} {document['class']}, {document['unit']}", "head")
    places = 4 if document["unit"] == "in" else 3
    rows = [
        (key, f"{document[key]:.{places}f}", means)
        for key, means in _MEANS.items()
        if key in document
    ]
    show.table(("", document["unit"], ""), rows, right=(1,))
    if "D1_max_any_of" in document:
        low, high = document["D1_max_any_of"]
        show.line(f"Editions of the standard print D1 max as {low} or {high}.")


def weigh_document(found: Count) -> Document:
    """A count by weight."""
    return {
        "count": found.pieces,
        "low": found.low,
        "high": found.high,
        "piece_g": round(found.piece, 4),
        "sure": found.is_sure,
        "advice": found.advice,
    }


def weigh_text(found: Count) -> None:
    """A count by weight, with its uncertainty."""
    if found.is_sure:
        show.line(f"{found.pieces} pieces ({found.piece:.3g} g each).")
        return
    show.line(
        f"{found.pieces} pieces, {found.low} to {found.high} possible ({found.piece:.3g} g each)."
    )
    show.line(f"To be sure, {found.advice}.")
