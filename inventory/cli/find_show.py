"""What a search found, told at a terminal: verdicts, lots, reasons, and what to do next."""

from collections.abc import Iterable
from typing import Any

from inventory.cli import show

WORDS = {"same": "SAME", "fits": "FITS", "ask": "ASK", "refused": "NO"}
"""What stands before a stand-in, so that it reads without colour."""


def tell(found: Any, query: Any) -> None:
    """The answer at a terminal: the best first, with its lots and what speaks for and against."""
    for caution in found.cautions:
        show.caution(caution.text, caution.source)
    for warning in found.reading.warnings if found.reading else ():
        show.warn(warning)
    for said in found.found.said:
        show.warn(said)
    _wanted(found.wanted)
    _look_first(found)
    _stand_ins(found)
    if found.found.more:
        show.note(f"{found.found.more} more; say --limit {query.limit + found.found.more}.")
    if not found.found.stand_ins:
        show.line("Nothing on the shelf can stand in.")
    if found.found.not_here:
        names = [one.part.type_code or one.part.marking for one in found.found.not_here[:6]]
        show.line(f"Known, but none free here: {', '.join(names)}.", "dim")
    _refused(found, query)


def _stand_ins(found: Any) -> None:
    """Every stand-in; what is asked of all of them stands once, above the first."""
    shared = _asked_of_all(found.found.stand_ins)
    asked = False
    for one in found.found.stand_ins:
        if shared and not asked and str(one.verdict) == "ask":
            _tell_shared(one, shared)
            asked = True
        _stand_in(one, found.wear, found.units, shared)


def _refused(found: Any, query: Any) -> None:
    """The refused with their reasons, or how many there are."""
    refused = found.found.refused
    if query.show_all:
        for one in refused[: query.limit]:
            _stand_in(one, {}, found.units)
        if len(refused) > query.limit:
            show.note(f"{len(refused) - query.limit} more are refused.")
    elif refused:
        show.note(f"{len(refused)} refused; --all shows them with the reasons.")


def _wanted(wanted: Any) -> None:
    """What was understood."""
    said = [wanted.type_code, wanted.family]
    if wanted.place:
        said.append(f"at {wanted.place}")
    if wanted.unit:
        said.append(f"in {wanted.unit}")
    show.line("Wanted: " + ", ".join(show.safe(word) for word in said if word), "head")


def _asked_of_all(stand_ins: Any) -> tuple[Any, ...]:
    """Questions that every asking stand-in shares: told once, not under each of them."""
    asking = [one.judgement.asks() for one in stand_ins if str(one.verdict) == "ask"]
    if len(asking) < 2:
        return ()
    others = [{(reason.sentence, reason.source) for reason in asks} for asks in asking[1:]]
    return tuple(
        reason
        for reason in asking[0]
        if all((reason.sentence, reason.source) in other for other in others)
    )


def _tell_shared(one: Any, shared: tuple[Any, ...]) -> None:
    """The shared questions, above the first stand-in they are asked of."""
    show.line()
    show.line("Asked of each one marked ?", "head")
    for reason in shared:
        show.line(f"    ? {reason.sentence} [{reason.source}]")
    for line in _deciding(one, shared):
        show.line(f"    {line}")


def _stand_in(one: Any, wear: Any, labels: Any, shared: tuple[Any, ...] = ()) -> None:
    """One stand-in: verdict and name, lots, then the reasons that count."""
    part = one.part
    verdict = str(one.verdict)
    name = part.marking or part.type_code or part.family
    maker = f", {part.maker}" if part.maker else ""
    show.line()
    show.line(
        f"{show.SIGNS[verdict]} {WORDS[verdict]:<5}{show.safe(name)}{show.safe(maker)}", verdict
    )
    for offer in one.lots[:MOST_LOTS]:
        _lot(offer, labels)
    if len(one.lots) > MOST_LOTS:
        show.line(f"    and {len(one.lots) - MOST_LOTS} more lots of it")
    for road in one.roads:
        if road.name in ("cross-reference", "unit", "past jobs"):
            show.line(f"    by {road.name}: {road.sentence}")
    for line in _telling(one, shared):
        show.line(f"    {line}")
    warned = wear.get(part.id)
    if warned:
        show.line(f"    ! keeps failing: {warned}", "warn")


def _lot(offer: Any, labels: Any) -> None:
    """One lot: where it lies, how many are free, and what must be done first."""
    lot = offer.lot
    free = lot.on_hand - lot.held
    first = f" ({offer.reason.sentence.rstrip('.')})" if offer.reason else ""
    came = show.safe(labels.get(lot.source_unit) or lot.origin)
    show.line(
        f"    lot {lot.id} in {show.safe(lot.bin or 'no bin')}: {free} free,"
        f" {show.safe(lot.state)}, {came}{show.safe(first)}"
    )


MOST_LOTS = 6
"""So many lots are shown of one stand-in, the nearest to a yes first."""

MOST_ASKED = 4
"""So many questions are shown of one stand-in, those of the least effort first."""


def _telling(one: Any, shared: tuple[Any, ...]) -> list[str]:
    """The reasons that count: what refuses, what is asked, else what speaks for it."""
    from inventory.records import Outcome
    from inventory.rules.loads import LOADS

    reasons = one.judgement.reasons
    refusing = [r for r in reasons if r.outcome is Outcome.REFUSED]
    said = {(reason.sentence, reason.source) for reason in shared}
    asking = [r for r in one.judgement.asks() if (r.sentence, r.source) not in said]
    if refusing:
        return [f"no: {r.sentence} [{r.source}]" for r in refusing[:4]]
    lines = [f"? {r.sentence} [{r.source}]" for r in asking[:MOST_ASKED]]
    if len(asking) > MOST_ASKED:
        lines.append(f"? and {len(asking) - MOST_ASKED} more, which take longer")
    lines += _deciding(one, asking)
    shown = [r for r in reasons if r.outcome in (Outcome.NOTE, Outcome.MET)]
    shown.sort(key=lambda r: (r.outcome is Outcome.MET, r.rule not in LOADS))
    return lines + [f"- {r.sentence} [{r.source}]" for r in shown[: 2 if asking or shared else 4]]


def _deciding(one: Any, questions: Iterable[Any]) -> list[str]:
    """What would decide of the offered part, the least effort first, and how to answer."""
    from inventory.families.sheet import families
    from inventory.rules.vocabulary import TRUST, rating_names

    asks = [reason for reason in questions if not reason.of_wanted]
    if not asks:
        return []
    first = asks[0].decides or ""
    names = rating_names(one.part.family) if one.part.family in families() else frozenset()
    if first in TRUST:
        return [f"once looked at: --measured {first}=no --part {one.part.id}"]
    if first in names:
        return [f"would decide: --measured {first}=... --part {one.part.id}"]
    return [f"would decide: {_OTHERWISE.get(first, first)}"]


_OTHERWISE = {
    "type_code": "the same type code, or a list that names this one (salvage xref add)",
    "listed alternate": "the unit's own list (salvage xref add ... listed-alternate ...)",
    "family": "what kind of part it is (--family)",
    "bench test": "salvage bench LOT",
}
"""What decides where no single figure does."""


def _look_first(found: Any) -> None:
    """What is to be looked at on the failed part itself, once for all stand-ins."""
    asked: dict[str, int] = {}
    for one in found.found.stand_ins:
        for reason in one.judgement.asks():
            if reason.of_wanted and reason.decides:
                asked[reason.decides] = asked.get(reason.decides, 0) + 1
    names = sorted(asked, key=lambda name: -asked[name])[:MOST_ASKED]
    if names:
        said = ", ".join(f"--need {name}=..." for name in names)
        show.line(f"Look at the failed part first; each answer narrows this down: {said}")


def next_step(found: Any, job: int | None) -> None:
    """The call that takes the best one, where nothing is left to ask of it."""
    best = found.stand_ins[0] if found.stand_ins else None
    if best is None or str(best.verdict) not in ("same", "fits") or not best.lots:
        return
    if best.part.id in found.wear:
        return
    lot = best.lots[0].lot
    if best.lots[0].reason:
        show.note(f"Next: salvage bench {lot.id} ...; it is not known to be good.")
        return
    place = f" --place {found.wanted.place}" if found.wanted.place else ""
    show.note(f"Next: salvage fit {lot.id} --job {job or 'JOB'}{place}")
