"""``salvage bench``: what the meter said, and the tested state that follows."""

from typing import Annotated, Any

import typer

from inventory.cli import options, show
from inventory.errors import WrongInput


def attach(app: typer.Typer) -> None:
    """Hang the command on the app."""
    app.command()(bench)


def bench(
    lot: options.LotNumber,
    rest: Annotated[str | None, typer.Option(help="Ohms at rest; OL for open.")] = None,
    pressed: Annotated[str | None, typer.Option(help="Ohms pressed.")] = None,
    released: Annotated[str | None, typer.Option(help="Ohms after letting go.")] = None,
    drop: Annotated[str | None, typer.Option(help="Drop in mV at 1 A, contact closed.")] = None,
    clicks: Annotated[
        bool | None, typer.Option("--clicks/--no-click", help="Whether it clicks both ways.")
    ] = None,
    insulation: Annotated[str | None, typer.Option(help="Insulation in megohms.")] = None,
    reading: Annotated[
        list[str] | None,
        typer.Option("--reading", help="Any other reading, e.g. capacitance_uf=0.97."),
    ] = None,
    state: Annotated[
        str | None, typer.Option(help="State by your own judgement; it is written down as such.")
    ] = None,
    pieces: Annotated[
        int | None,
        typer.Option("--quantity", "-n", metavar="N", help="How many of the lot were tested."),
    ] = None,
    place: options.AtPlace = None,
    instrument: Annotated[str | None, typer.Option(help="Meter used.")] = None,
    note: Annotated[str | None, typer.Option(help="A note on the test.")] = None,
    dry_run: options.DryRun = False,
    json: options.Json = False,
    shelf: options.Shelf = None,
) -> None:
    """Record bench readings; the tested state follows from the limits.

    Example: salvage bench 17 --rest OL --pressed 0.05 --released OL --clicks
    """
    from inventory.bench.find import known_place
    from inventory.bench.place import open_for
    from inventory.bench.testing import bench_test
    from inventory.cli.log import tell_cautions

    readings = _readings(
        reading or [],
        rest_ohm=rest,
        pressed_ohm=pressed,
        released_ohm=released,
        drop_mv_at_1a=drop,
        insulation_mohm=insulation,
    )
    if clicks is not None:
        readings["clicks"] = clicks
    done = bench_test(
        open_for(shelf),
        lot,
        readings,
        state=state,
        pieces=pieces,
        place=known_place(place),
        instrument=instrument,
        note=note,
        dry_run=dry_run,
    )
    tell_cautions({done.part.family}, "bench")
    if dry_run and not json:
        show.line("Would write this down:")
    _tell(done, json=json)


def _readings(others: list[str], **said: str | None) -> dict[str, Any]:
    """Readings by name; ``OL``, ``open`` and ``inf`` are an open circuit."""
    from inventory.bench.values import pairs

    readings = {name: _figure(value) for name, value in said.items() if value is not None}
    for name, value in pairs(others, "capacitance_uf=0.97").items():
        if name in readings:
            raise WrongInput(f"{name} is said twice; say it once.")
        readings[name] = _figure(value) if isinstance(value, str) else value
    return readings


def _figure(text: str) -> Any:
    """A figure, or an open circuit; other words stay words."""
    from inventory.bench.values import value_of

    if text.strip().casefold() in ("ol", "o.l", "open", "inf", "infinite", "∞"):
        return float("inf")
    value = value_of(text.strip())
    if isinstance(value, list):
        raise WrongInput(f"Not a reading: {text!r}.")
    return value


def _tell(done: Any, *, json: bool) -> None:
    """The state and why, in lines or as JSON."""
    finding = done.finding
    if json:
        show.as_json(
            {
                "lot": done.lot.id,
                "state": done.lot.state,
                "judged_by": "limits" if finding else "hand",
                "decided": finding.decided if finding else True,
                "checks": [
                    {
                        "reading": check.reading,
                        "ok": check.ok,
                        "sentence": check.sentence,
                        "source": check.source,
                    }
                    for check in (finding.checks if finding else ())
                ],
                "missing": list(finding.missing) if finding else [],
                "rest_lot": done.rest_lot.id if done.rest_lot else None,
            }
        )
        return
    name = show.safe(done.part.marking or done.part.type_code or done.part.family)
    by = "by hand" if finding is None else "by the limits"
    show.line(f"Lot {done.lot.id} ({name}): {done.lot.state}, {by}.", "head")
    for check in finding.checks if finding else ():
        word = {True: "ok  ", False: "FAIL", None: "    "}[check.ok]
        show.line(f"  {word} {check.sentence} [{check.source}]")
    if finding and not finding.decided:
        show.line("  Not decided; the state stays as it was.")
    for missing in finding.missing if finding else ():
        show.line(f"  Still to measure: {missing}")
    if done.rest_lot:
        show.line(f"  The other {done.rest_lot.on_hand} stay in lot {done.rest_lot.id}.")
