"""``salvage find`` and ``salvage twins``: what can stand in, and what is there twice."""

from typing import Annotated, Any

import typer

from inventory.cli import options, show
from inventory.cli.find_show import next_step, tell
from inventory.cli.waiting import waiting
from inventory.errors import WrongInput


def attach(app: typer.Typer) -> None:
    """Hang the commands of this subject on the app."""
    app.command()(find)
    app.command()(twins)


Marking = Annotated[str, typer.Argument(help="What can be read on the old part.")]
ForJob = Annotated[int | None, typer.Option("--job", "-j", help="Job whose unit it is for.", min=1)]
Unit = Annotated[str | None, typer.Option("--unit", "-u", help='Or the unit, "MAKER MODEL".')]
Serial = Annotated[str | None, typer.Option(help="Serial number of the unit.")]
Maker = Annotated[str | None, typer.Option(help="Maker of the part.")]
Needs = Annotated[list[str] | None, typer.Option("--need", help="What it must have; repeatable.")]
Measured = Annotated[
    list[str] | None,
    typer.Option("--measured", help="Measured on an offered part; stored with your name."),
]
OfPart = Annotated[
    int | None, typer.Option("--part", help="Part type that was measured; default: the best.")
]
Why = Annotated[
    int | None, typer.Option("--why", metavar="LOT", help="Steps that put this lot there.")
]
Everything = Annotated[bool, typer.Option("--all", help="Show the refused, with reasons.")]
Near = Annotated[str | None, typer.Option(help="Bin you stand at; near ones first.")]
Limit = Annotated[
    int | None, typer.Option(help="At most so many; none said: 5, or 10 as JSON.", min=1)
]
Lines = Annotated[
    str | None, typer.Option("--lines", metavar="FILE|-", help="One query a line; with --json.")
]


def find(
    marking: Marking = "",
    place: options.AtPlace = None,
    job: ForJob = None,
    unit: Unit = None,
    serial: Serial = None,
    family: options.Family = None,
    maker: Maker = None,
    need: Needs = None,
    measured: Measured = None,
    part: OfPart = None,
    why: Why = None,
    everything: Everything = False,
    near: Near = None,
    limit: Limit = None,
    lines: Lines = None,
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

    opened = open_for(shelf)
    if job is not None:
        unit, serial = _unit_of(opened, job, unit, serial)
    query = finding.Query(
        marking=marking,
        family=family,
        maker=maker,
        place=place,
        unit=unit,
        serial=serial,
        needs=pairs(need or [], "resistive_a=16"),
        limit=limit or (10 if json or lines else 5),
        show_all=everything or why is not None,
        near_bin=near,
    )
    if lines is not None:
        _many(opened, query, lines)
        return
    figures = pairs(measured or [], "tab_mm=6.3")
    if figures and part and not (marking or need or unit):
        show.line(_write_down(opened, part, figures, dry_run=dry_run))
        return
    with waiting("Searching"):
        found = finding.find(opened, query)
    if figures:
        show.note(_write_down(opened, part or _best_part(found), figures, dry_run=dry_run))
        found = finding.find(opened, query)
    if why is not None:
        _why(found, why, near, json=json)
        return
    show.as_json(as_json(found)) if json else _told(found, query, job)
    if not found.stand_ins:
        raise typer.Exit(1)


def _write_down(opened: Any, part: int, figures: Any, *, dry_run: bool) -> str:
    """Keep what was measured on a part type; says what was done."""
    from inventory.bench.find import measured

    measured(opened, part, figures, dry_run=dry_run)
    return f"{'Would write' if dry_run else 'Written'} down for part type {part}."


def _told(found: Any, query: Any, job: int | None) -> None:
    """The answer on the screen, with the call that comes next."""
    tell(found, query)
    next_step(found, job)


def _unit_of(
    opened: Any, job: int, unit: str | None, serial: str | None
) -> tuple[str | None, str | None]:
    """The unit and the serial number of a job, unless they were said."""
    from inventory.bench.jobs import job_page

    said = job_page(opened, job).job
    name = " ".join(word for word in (said.maker, said.model) if word)
    return unit or name or None, serial or said.serial


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
