"""``salvage low / worth / wear / day`` and what feeds them: order, receive, keep, figure."""

from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Annotated, Any

import typer

from inventory.cli import options, show
from inventory.cli.waiting import waiting
from inventory.errors import WrongInput


def attach(app: typer.Typer) -> None:
    """Hang the commands of this subject on the app."""
    for command in (low, wear, order, receive, keep, figure):
        app.command()(command)


def low(
    everything: Annotated[bool, typer.Option("--all", help="What does not run short too.")] = False,
    pooled: Annotated[
        bool,
        typer.Option("--pooled", help="Count part types that stand in for one another as one."),
    ] = False,
    backtest: Annotated[
        bool, typer.Option("--backtest", help="What the rule would have achieved here.")
    ] = False,
    family: options.Family = None,
    limit: Annotated[int, typer.Option("--limit", help="At most so many lines.", min=1)] = 15,
    as_of: options.AsOf = None,
    json: options.Json = False,
    shelf: options.Shelf = None,
) -> None:
    """Show what runs short, and what to do: bench, pull, buy.

    Example: salvage low --family switch
    """
    from inventory.bench import words
    from inventory.bench.low import low as report_low
    from inventory.bench.place import open_for

    opened = open_for(shelf)
    if backtest:
        _backtest(opened, as_of, json=json)
        return
    wanted = words.family(family) if family else None
    pools = None
    if pooled:
        from inventory.bench.pools import pools_of

        with waiting("Judging equals"):
            pools = pools_of(opened)
    with waiting("Adding up the journal"):
        report = report_low(opened, as_of=as_of, pools=pools)
    lines = [
        line
        for line in (report.lines if everything else report.short())
        if wanted in (None, line.family)
    ]
    if json:
        show.as_json({"prior": report.prior_from, "lines": [_low_row(line) for line in lines]})
        return
    if not lines:
        show.note("Nothing runs short.")
        return
    _tell_lines(lines, report, limit)


def tell_low(report: Any, limit: int) -> None:
    """What runs short, at most so many lines."""
    _tell_lines(list(report.short()), report, limit)


def _tell_lines(lines: list[Any], report: Any, limit: int) -> None:
    """Lines as a table, what to do under it, and what the figures rest on."""
    _low_table(lines[:limit])
    if len(lines) > limit:
        show.note(f"{len(lines) - limit} more; say --limit {len(lines)}.")
    show.note(
        "Due: on order. Keep, To: keep at least, order up to. Out: chance of running out before"
        f" the next delivery. Prior: {report.prior_from}. Untested pieces are never counted."
    )


def _low_row(line: Any) -> dict[str, Any]:
    """A line as it goes to JSON."""
    from dataclasses import asdict

    months, filled = line.service_in_words()
    return {
        **asdict(line),
        "short": line.short,
        "missing": line.missing,
        "in_words": [months, filled],
    }


def _low_table(lines: list[Any]) -> None:
    """Lines as a table with what to do under each."""
    heads = ("No", "Part", "Good", "Held", "Due", "Untested", "A month", "Keep", "To", "Out")
    rows = [
        (
            line.part_id,
            line.name,
            line.good,
            line.held,
            line.on_order,
            line.untested,
            f"{line.per_month:.2f}±{line.per_month_sd:.2f}",
            line.keep_at_least,
            line.order_up_to,
            f"{line.p_run_out:.0%}",
        )
        for line in lines
    ]
    show.table(heads, rows, right=(0, 2, 3, 4, 5, 6, 7, 8, 9))
    show.line()
    for line in lines:
        todo = "; ".join(_sentence(action) for action in line.actions)
        show.line(f"{line.part_id} {line.name}: {todo or 'nothing to do'}")
        months, filled = line.service_in_words()
        cover = "over 99" if line.months_of_cover > 99 else f"{line.months_of_cover:.1f}"
        show.line(f"    {line.basis}; {cover} months of cover; kept so: {months}, {filled}")


def _sentence(action: Any) -> str:
    """What to do, as it fits into a line."""
    return str(action.sentence).rstrip(".")


def _backtest(opened: Any, as_of: str | None, *, json: bool) -> None:
    """Claim and outcome over this shop's own journal."""
    from dataclasses import asdict

    from inventory.bench.low import asked
    from inventory.stock.achieved import own_backtest

    with waiting("Playing the journal again"):
        with opened.read() as connection:
            stocks, settings = asked(connection, as_of)
        found = own_backtest(stocks, settings)
    show.as_json(asdict(found)) if json else show.line(found.sentence())


def wear(
    by: Annotated[str, typer.Option("--by", help="part, maker or unit.")] = "part",
    everything: Annotated[bool, typer.Option("--all", help="What is not flagged too.")] = False,
    plot: Annotated[bool, typer.Option("--plot", help="Draw survival curves here.")] = False,
    to: Annotated[
        Path | None, typer.Option("--to", help="Write the first curve as .svg or .png.")
    ] = None,
    as_of: options.AsOf = None,
    dry_run: options.DryRun = False,
    json: options.Json = False,
    shelf: options.Shelf = None,
) -> None:
    """Show what fails more than its kind, where the evidence holds.

    Example: salvage wear --plot
    """
    from inventory.bench.place import open_for
    from inventory.bench.wear import wear as report_wear

    with waiting("Adding up the journal"):
        report = report_wear(open_for(shelf), by, as_of=as_of)
    lines = list(report.lines if everything else report.flagged())
    if to is not None:
        _write_curve(lines or list(report.lines), to, dry_run=dry_run)
    if json:
        show.as_json([_wear_row(line) for line in lines])
        return
    if not lines:
        show.line("Nothing fails more than its kind, as far as the journal can tell.")
        return
    rows = [
        (
            ("! " if line.flag else "") + line.name,
            line.kind,
            f"{line.failures}/{line.pieces}",
            f"{line.share[0]:.0%}-{line.share[1]:.0%}",
            f"{line.rate.shrunk:.3f}",
            f"{line.rate.shrunk / line.rate.pool:.1f}",
        )
        for line in lines
    ]
    heads = ("What", "Kind", "Failed", "Share 95 %", "A month", "x kind")
    show.table(heads, rows, right=(2, 3, 4, 5))
    if plot:
        _plot(lines[:3])


def _wear_row(line: Any) -> dict[str, Any]:
    """A line as it goes to JSON."""
    return {
        "name": line.name,
        "kind": line.kind,
        "pieces": line.pieces,
        "failures": line.failures,
        "share_95": list(line.share),
        "share_by": line.share_by,
        "rate_per_month": line.rate.shrunk,
        "pool_per_month": line.rate.pool,
        "flag": line.flag,
        "sentence": line.sentence(),
    }


def _plot(lines: list[Any]) -> None:
    """Survival curves in the terminal."""
    import sys

    from inventory.stock.chart import survival_chart

    plain = "utf" not in (sys.stdout.encoding or "").lower()
    for line in lines:
        show.line()
        show.line(line.sentence(), "head")
        for row in survival_chart(line.curve, width=min(78, show.width() - 2), ascii_only=plain):
            show.line(row)


def _write_curve(lines: list[Any], to: Path, *, dry_run: bool) -> None:
    """The curve of the line with the strongest evidence, as a drawing."""
    from inventory.stock.figure import survival_figure
    from inventory.store.files import folder_is_there

    if not lines:
        raise WrongInput("There is no failure to draw yet.")
    folder_is_there(to)
    try:
        with TemporaryDirectory() as aside:
            place = Path(aside) / to.name if dry_run else to
            survival_figure(lines[0].curve, place, title=show.safe(lines[0].name))
    except OSError as error:
        raise WrongInput(f"Cannot write {to}: {error.strerror}.") from error
    show.note(f"{'Would write' if dry_run else 'Wrote'} {show.safe(to)}.")


Part = Annotated[int, typer.Option("--part", help="Number of the part type.", min=1)]


def order(
    part: Part,
    quantity: options.Quantity = 1,
    note: Annotated[str | None, typer.Option(help="Supplier, order number.")] = None,
    dry_run: options.DryRun = False,
    shelf: options.Shelf = None,
) -> None:
    """Write down that pieces were ordered.

    Example: salvage order --part 12 -n 5
    """
    from inventory.bench.orders import order as write_order
    from inventory.bench.place import open_for

    awaited = write_order(open_for(shelf), part, quantity, note=note, dry_run=dry_run)
    would = "Would order; part type" if dry_run else "Part type"
    show.line(f"{would} {part}: {awaited} on order.")


def receive(
    part: Part,
    quantity: options.Quantity = 1,
    bin_code: Annotated[str | None, typer.Option("--bin", help="Where it lies.")] = None,
    price: Annotated[str | None, typer.Option(help="Price of one.")] = None,
    state: Annotated[str, typer.Option(help="Tested state.")] = "untested",
    dry_run: options.DryRun = False,
    shelf: options.Shelf = None,
) -> None:
    """Put ordered pieces on the shelf as a new lot.

    Example: salvage receive --part 12 -n 5 --bin A1-02 --price 4.50
    """
    from inventory.bench.orders import receive as take_in
    from inventory.bench.place import open_for
    from inventory.units import cents

    done = take_in(
        open_for(shelf),
        part,
        quantity,
        bin_code=bin_code,
        price_cents=cents(price) if price else None,
        state=state,
        dry_run=dry_run,
    )
    would = "Would receive lot" if dry_run else "Lot"
    show.line(f"{would} {done.lot.id}: {done.lot.on_hand} of part type {part}, {done.lot.state}.")


def keep(
    part: Part,
    level: Annotated[
        int | None, typer.Argument(help="Keep at least so many; none: by the arithmetic.", min=0)
    ] = None,
    dry_run: options.DryRun = False,
    shelf: options.Shelf = None,
) -> None:
    """Set by hand how many of a part type the shop keeps at least.

    Example: salvage keep --part 12 3
    """
    from inventory.bench.orders import keep_at_least
    from inventory.bench.place import open_for

    keep_at_least(open_for(shelf), part, level, dry_run=dry_run)
    would = "Would keep part type" if dry_run else "Part type"
    show.line(f"{would} {part}: " + (f"at least {level}." if level is not None else "by demand."))


def figure(
    name: Annotated[str | None, typer.Argument(help="Which figure; none: list them.")] = None,
    value: Annotated[str | None, typer.Argument(help="Its value.")] = None,
    dry_run: options.DryRun = False,
    json: options.Json = False,
    shelf: options.Shelf = None,
) -> None:
    """List or set the shop's figures: lead time, wage and more.

    Example: salvage figure lead_time_months 0.5
    """
    from inventory.bench.low import FIGURES, figures, set_figure
    from inventory.bench.place import open_for, write_on

    if name is None:
        said = figures(open_for(shelf))
    elif value is None:
        raise WrongInput(f"Say the value: salvage figure {name} VALUE.")
    else:
        asked = partial(set_figure, name=name, value=value, dry_run=dry_run)
        said = write_on(shelf, asked, dry_run=dry_run)
    if json:
        show.as_json({key: said.get(key) for key in FIGURES})
        return
    if dry_run and name:
        show.line("Would be so:")
    rows = [(key, said.get(key, "-"), means) for key, means in FIGURES.items()]
    show.table(("Figure", "Value", "Means"), rows)
