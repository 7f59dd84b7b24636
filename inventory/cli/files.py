"""``salvage load / dump``: CSV and JSON in and out."""

import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from functools import partial
from pathlib import Path
from typing import Annotated, Any

import typer

from inventory.cli import options, show
from inventory.cli.waiting import waiting
from inventory.errors import InventoryError

SHOWN = 50
"""So many bad rows are listed; the rest is counted."""


def attach(app: typer.Typer) -> None:
    """Hang the commands of this subject on the app."""
    app.command()(load)
    app.command()(dump)


@contextmanager
def told_troubles() -> Iterator[None]:
    """List the bad rows of a refused file on stderr before its one sentence."""
    from inventory.bench.files import LoadRefused

    try:
        yield
    except LoadRefused as refused:
        _list_troubles(refused.troubles)
        raise


def _list_troubles(troubles: Sequence[object]) -> None:
    """Bad rows with what was expected, the first of them."""
    for trouble in troubles[:SHOWN]:
        show.note(show.safe(trouble))
    if len(troubles) > SHOWN:
        show.note(f"... and {len(troubles) - SHOWN} more")


def load(
    file: Annotated[Path, typer.Argument(help="CSV or JSON with a row a lot, or a JSON dump.")],
    keep_good: Annotated[
        bool, typer.Option("--keep-good", help="Load the good rows, write the bad to a file.")
    ] = False,
    again: Annotated[bool, typer.Option("--again", help="Though it was loaded before.")] = False,
    encoding: Annotated[str | None, typer.Option(help="If it is neither UTF-8 nor 1252.")] = None,
    dry_run: options.DryRun = False,
    json: options.Json = False,
    shelf: options.Shelf = None,
) -> None:
    """Load parts from a file: the whole file goes in, or nothing does.

    Example: salvage load parts.csv
    """
    from inventory.bench.dumps import is_dump, load_dump
    from inventory.bench.loading import load as load_file
    from inventory.bench.place import write_on

    would = "Would load" if dry_run else "Loaded"
    if is_dump(file):
        with waiting("Loading the dump"):
            counted = write_on(
                shelf, partial(load_dump, path=file, dry_run=dry_run), dry_run=dry_run
            )
        show.as_json(counted) if json else show.line(f"{would} the dump {show.safe(file)}.")
        return
    with told_troubles(), waiting("Loading", _rows_in(file)) as report:
        asked = partial(
            load_file,
            path=file,
            keep_good=keep_good,
            encoding=encoding,
            again=again,
            dry_run=dry_run,
            progress=report,
        )
        done = write_on(shelf, asked, dry_run=dry_run)
    bad = _write_bad(file, done) if done.bad_rows and not dry_run else None
    if json:
        show.as_json(
            {
                "lots": done.lots,
                "first_lot": done.first_lot,
                "bad_rows": len(done.troubles),
                "bad_file": str(bad) if bad else None,
                "with_warnings": done.warnings,
                "new_units": list(done.new_units),
            }
        )
        return
    show.line(f"{would} {show.counted(done.lots, 'lot')} from {show.safe(file)}.")
    if done.warnings:
        doubtful = show.counted(done.warnings, "marking")
        show.note(f"Read with a warning: {doubtful}; 'salvage show LOT' tells.")
    if done.new_units:
        show.note(f"New source units: {show.safe(', '.join(done.new_units))}.")
    if bad:
        rows = show.counted(len(done.troubles), "bad row")
        show.note(f"Written to {show.safe(bad)}: {rows}.")
    elif done.troubles and dry_run:
        rows = show.counted(len(done.troubles), "bad row")
        show.note(f"Would write to {show.safe(_bad_place(file))}: {rows}.")


def _rows_in(file: Path) -> int | None:
    """About how many rows a table has; asked only where somebody watches the bar."""
    if not sys.stderr.isatty() or file.suffix.lower() == ".json":
        return None
    from inventory.store.files import lines_in

    return lines_in(file)


def _bad_place(file: Path) -> Path:
    """Where the bad rows of a file go: beside it."""
    return file.with_name(f"{file.stem}.bad.csv")


def _write_bad(file: Path, done: Any) -> Path | None:
    """Bad rows go to a file of their own with what was expected; where none can be written: None.

    The good rows are on the shelf by then, so that is no reason to fail: the bad are listed.
    """
    from inventory.store.files import write_csv

    names = list(dict.fromkeys(name for row in done.bad_rows for name in row if name != "\0"))
    listed = [
        [*(row.get(name, "") for name in names), str(why)]
        for row, why in zip(done.bad_rows, done.troubles, strict=True)
    ]
    try:
        write_csv(_bad_place(file), [*names, "expected"], listed)
    except InventoryError as error:
        _list_troubles(done.troubles)
        show.warn(error)
        return None
    return _bad_place(file)


def dump(
    file: Annotated[
        Path, typer.Argument(help="Where to: .csv for a table of lots, .json for all.")
    ],
    dry_run: options.DryRun = False,
    shelf: options.Shelf = None,
) -> None:
    """Write the shelf out: lots as CSV, or everything as JSON.

    Example: salvage dump shelf.json
    """
    from inventory.bench.dumps import dump_csv, dump_json, size
    from inventory.bench.place import open_for
    from inventory.errors import WrongInput

    opened = open_for(shelf)
    wrote = "Would write" if dry_run else "Wrote"
    if file.suffix.lower() == ".csv":
        with waiting("Writing"):
            count = dump_csv(opened, file, dry_run=dry_run)
        show.line(f"{wrote} {show.counted(count, 'lot')} to {show.safe(file)}.")
    elif file.suffix.lower() == ".json":
        with waiting("Writing", size(opened)) as report:
            count = dump_json(opened, file, dry_run=dry_run, progress=report)
        show.line(f"{wrote} the whole shelf ({show.counted(count, 'row')}) to {show.safe(file)}.")
    else:
        raise WrongInput("Name the file with .csv or .json at the end.")
