"""``salvage find`` and ``salvage twins``: what can stand in, and what is there twice."""

from typing import Annotated, Any

import typer

from inventory.cli import options, show
from inventory.cli.waiting import waiting
from inventory.errors import WrongInput


def attach(app: typer.Typer) -> None:
    """Hang the commands of this subject on the app."""
    app.command()(find)
    app.command()(twins)


def find(
    marking: Annotated[str, typer.Argument(help="What can be read on the old part.")] = "",
    place: Annotated[str | None, typer.Option(help="Where it sits, e.g. monitor.")] = None,
    unit: Annotated[str | None, typer.Option(help='The unit, "MAKER MODEL".')] = None,
    serial: Annotated[str | None, typer.Option(help="Serial number of the unit.")] = None,
    family: options.Family = None,
    maker: Annotated[str | None, typer.Option(help="Maker of the part.")] = None,
    need: Annotated[
        list[str] | None, typer.Option("--need", help="name=value; again for each need.")
    ] = None,
    measured: Annotated[
        list[str] | None,
        typer.Option("--measured", help="name=value of an offered part; stored with your name."),
    ] = None,
    part: Annotated[
        int | None, typer.Option("--part", help="Part type that was measured; default: the best.")
    ] = None,
    why: Annotated[
        int | None, typer.Option("--why", metavar="LOT", help="Steps that put this lot there.")
    ] = None,
    everything: Annotated[
        bool, typer.Option("--all", help="Show the refused, with reasons.")
    ] = False,
    near: Annotated[str | None, typer.Option(help="Bin you stand at; near ones first.")] = None,
    limit: Annotated[int, typer.Option(help="At most so many.", min=1)] = 10,
    lines: Annotated[
        str | None, typer.Option("--lines", metavar="FILE|-", help="One query a line; with --json.")
    ] = None,
    dry_run: options.DryRun = False,
    json: options.Json = False,
    shelf: options.Shelf = None,
) -> None:
    """Find what can stand in, with the reason for every yes and no.

    Example: salvage find "16(4)A 250V~ T85" --place primary-interlock --unit "Brenka BK-20M"
    """
    from inventory.bench import find as finding
    from inventory.bench.place import open_for
    from inventory.bench.values import pairs

    query = finding.Query(
        marking=marking,
        family=family,
        maker=maker,
        place=place,
        unit=unit,
        serial=serial,
        needs=pairs(need or [], "resistive_a=16"),
        limit=limit,
        show_all=everything or why is not None,
        near_bin=near,
    )
    opened = open_for(shelf)
    if lines is not None:
        _many(opened, query, lines)
        return
    if measured and part and not (marking or need or unit):
        finding.measured(opened, part, pairs(measured, "tab_mm=6.3"), dry_run=dry_run)
        show.line(f"{'Would write' if dry_run else 'Written'} down for part type {part}.")
        return
    with waiting("Searching"):
        found = finding.find(opened, query)
    if measured:
        target = part or _best_part(found)
        finding.measured(opened, target, pairs(measured, "tab_mm=6.3"), dry_run=dry_run)
        found = finding.find(opened, query)
    if why is not None:
        _why(found, why, near, json=json)
        return
    if json:
        show.as_json(as_json(found))
    else:
        tell(found, query)
    if not found.stand_ins:
        raise typer.Exit(1)


def _best_part(found: Any) -> int:
    """The part type a measurement is of, where none is named: the first that asks."""
    from inventory.records import Verdict

    asking = [one for one in (*found.found.stand_ins, *found.found.not_here)
              if one.verdict is Verdict.ASK]  # fmt: skip
    if not asking:
        raise WrongInput("Nothing is asked of any part; say --part NUMBER.")
    return int(asking[0].part.id)


def _many(opened: Any, query: Any, source: str) -> None:
    """One query a line, one JSON object a line."""
    from inventory.bench import find as finding
    from inventory.cli.read import lines_of

    queries = (finding.refined(query, marking=text) for text in lines_of(source) if text.strip())
    for found in finding.find_many(opened, queries):
        show.as_json_line(as_json(found))


def as_json(found: Any) -> dict[str, Any]:
    """The answer in the shape that other programs rely on; see schemas/find.schema.json."""
    wanted = found.wanted
    return {
        "wanted": {
            "text": wanted.marking,
            "family": wanted.family,
            "type": wanted.type_code,
            "ratings": {**wanted.ratings, **wanted.needs},
            "assumed": dict(wanted.assumed),
            "unit": wanted.unit,
            "warnings": list(found.reading.warnings) if found.reading else [],
        },
        "place": wanted.place,
        "stand_ins": [_row(one, found.units) for one in found.found.stand_ins],
        "refused": [_row(one, found.units) for one in found.found.refused],
        "not_here": [_row(one, found.units) for one in found.found.not_here],
        "cautions": [{"text": one.text, "source": one.source} for one in found.cautions],
        "wear": dict(found.wear),
        "said": list(found.found.said),
        "more": found.found.more,
    }


def _row(one: Any, labels: Any) -> dict[str, Any]:
    """One stand-in."""
    part = one.part
    return {
        "part": {
            "id": part.id,
            "family": part.family,
            "maker": part.maker,
            "type": part.type_code,
            "marking": part.marking,
        },
        "verdict": str(one.verdict),
        "score": one.score,
        "reasons": [
            {
                "rule": reason.rule,
                "outcome": str(reason.outcome),
                "sentence": reason.sentence,
                "source": reason.source,
            }
            for reason in one.judgement.reasons
        ],
        "lots": [
            {
                "lot": offer.lot.id,
                "bin": offer.lot.bin,
                "on_hand": offer.lot.on_hand,
                "held": offer.lot.held,
                "state": offer.lot.state,
                "origin": offer.lot.origin,
                "source_unit": labels.get(offer.lot.source_unit),
            }
            for offer in one.lots
        ],
    }


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
    for one in found.found.stand_ins:
        _stand_in(one, found.wear, found.units)
    if found.found.more:
        show.note(f"{found.found.more} more; say --limit {query.limit + found.found.more}.")
    if not found.found.stand_ins:
        show.line("Nothing on the shelf can stand in.")
    if found.found.not_here:
        names = [one.part.type_code or one.part.marking for one in found.found.not_here[:6]]
        show.line(f"Known, but none free here: {', '.join(names)}.", "dim")
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


def _stand_in(one: Any, wear: Any, labels: Any) -> None:
    """One stand-in: verdict and name, lots, then the reasons that count."""
    part = one.part
    verdict = str(one.verdict)
    name = part.marking or part.type_code or part.family
    maker = f", {part.maker}" if part.maker else ""
    show.line()
    show.line(
        f"{show.SIGNS[verdict]} {WORDS[verdict]:<5}{show.safe(name)}{show.safe(maker)}", verdict
    )
    for offer in one.lots:
        lot = offer.lot
        free = lot.on_hand - lot.held
        first = f" ({offer.reason.sentence.rstrip('.')})" if offer.reason else ""
        came = show.safe(labels.get(lot.source_unit) or lot.origin)
        show.line(
            f"    lot {lot.id} in {show.safe(lot.bin or 'no bin')}: {free} free,"
            f" {show.safe(lot.state)}, {came}{show.safe(first)}"
        )
    for road in one.roads:
        if road.name in ("cross-reference", "unit", "past jobs"):
            show.line(f"    by {road.name}: {road.sentence}")
    for line in _telling(one):
        show.line(f"    {line}")
    warned = wear.get(part.id)
    if warned:
        show.line(f"    ! keeps failing: {warned}", "warn")


MOST_ASKED = 4
"""So many questions are shown of one stand-in, those of the least effort first."""


def _telling(one: Any) -> list[str]:
    """The reasons that count: what refuses, what is asked, else what speaks for it."""
    from inventory.records import Outcome
    from inventory.rules.loads import LOADS

    reasons = one.judgement.reasons
    refusing = [r for r in reasons if r.outcome is Outcome.REFUSED]
    asking = one.judgement.asks()
    if refusing:
        return [f"no: {r.sentence} [{r.source}]" for r in refusing[:4]]
    lines = [f"? {r.sentence} [{r.source}]" for r in asking[:MOST_ASKED]]
    if len(asking) > MOST_ASKED:
        lines.append(f"? and {len(asking) - MOST_ASKED} more, which take longer")
    lines += _deciding(one)
    shown = [r for r in reasons if r.outcome in (Outcome.NOTE, Outcome.MET)]
    shown.sort(key=lambda r: (r.outcome is Outcome.MET, r.rule not in LOADS))
    return lines + [f"- {r.sentence} [{r.source}]" for r in shown[: 4 if not asking else 2]]


def _deciding(one: Any) -> list[str]:
    """What would decide of the offered part, the least effort first, and how to answer."""
    from inventory.families.sheet import families
    from inventory.rules.vocabulary import TRUST, rating_names

    asks = [reason for reason in one.judgement.asks() if not reason.of_wanted]
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


def _why(found: Any, lot: int, near: str | None, *, json: bool) -> None:
    """The steps that put one lot's part type where it stands."""
    from inventory.matching.rank import steps

    every = (*found.found.stand_ins, *found.found.refused, *found.found.not_here)
    one = next((s for s in every if any(offer.lot.id == lot for offer in s.lots)), None)
    if one is None:
        raise WrongInput(f"Lot {lot} did not come up in this search.")
    told = steps(one, near)
    if json:
        show.as_json({"lot": lot, "steps": list(told)})
        return
    for number, step in enumerate(told, start=1):
        show.line(f"{number}. {step}")


def twins(
    merge: Annotated[
        tuple[int, int] | None,
        typer.Option("--merge", metavar="KEEP DROP", help="Merge part type DROP into KEEP."),
    ] = None,
    yes: Annotated[bool, typer.Option("--yes", help="Do not ask.")] = False,
    limit: Annotated[int, typer.Option(help="At most so many.", min=1)] = 20,
    dry_run: options.DryRun = False,
    json: options.Json = False,
    shelf: options.Shelf = None,
) -> None:
    """List part types that look like one; merge two on your word.

    Example: salvage twins --merge 12 48
    """
    from inventory.bench import twins as pairs
    from inventory.bench.place import open_for

    opened = open_for(shelf)
    if merge is not None:
        _merge(opened, merge, yes=yes, dry_run=dry_run)
        return
    with waiting("Comparing part types"):
        found = pairs.twins(opened, limit)
    if json:
        show.as_json(
            [{"keep": t.keep, "drop": t.drop, "evidence": list(t.evidence)} for t in found]
        )
        return
    if not found:
        show.line("No part type looks like another one.")
    for twin in found:
        names = pairs.names(opened, (twin.keep, twin.drop))
        show.line(f"{twin.keep} {names[twin.keep]}", "head")
        show.line(f"{twin.drop} {names[twin.drop]}", "head")
        for evidence in twin.evidence:
            show.line(f"    {evidence}")


def _merge(opened: Any, merge: tuple[int, int], *, yes: bool, dry_run: bool) -> None:
    """Merge two on the person's word."""
    from inventory.bench import twins as pairs
    from inventory.cli import prompts
    from inventory.errors import Refused

    keep, drop = merge
    names = pairs.names(opened, merge)
    show.line(f"Keep {keep}: {names.get(keep, '?')}")
    show.line(f"Drop {drop}: {names.get(drop, '?')}")
    if not dry_run and not prompts.sure("Make them one?", yes=yes):
        raise Refused("Nothing was changed; say --yes to go ahead.")
    pairs.merge(opened, keep, drop, dry_run=dry_run)
    show.line(f"{'Would merge' if dry_run else 'Merged'} {drop} into {keep}.")
