"""``salvage backup / restore / check / undo``: keeping the shelf worth trusting."""

from pathlib import Path
from typing import Annotated, Any

import typer

from inventory.cli import options, prompts, show
from inventory.cli.waiting import waiting
from inventory.errors import Refused, WrongInput


def attach(app: typer.Typer) -> None:
    """Hang the commands of this subject on the app."""
    for command in (backup, restore, check, undo):
        app.command()(command)


def _file(shelf: str | None) -> Path:
    """The shelf's file; a database server has its own tools."""
    from inventory.bench.place import shelf_path

    where = shelf_path(shelf).removeprefix("sqlite:///")
    if "://" in where:
        raise WrongInput("A database server is backed up with its own tools.")
    return Path(where).expanduser()


def backup(
    to: Annotated[
        Path | None, typer.Option("--to", help="Folder; default: beside the shelf.")
    ] = None,
    keep: Annotated[
        int | None, typer.Option("--keep", help="Keep only the newest so many.", min=1)
    ] = None,
    dry_run: options.DryRun = False,
    json: options.Json = False,
    shelf: options.Shelf = None,
) -> None:
    """Copy the shelf while it is in use; the copy is checked.

    Example: salvage backup --keep 30
    """
    from inventory.bench.place import open_for
    from inventory.store.backup import FOLDER, too_many
    from inventory.store.backup import backup as make

    path = _file(shelf)
    open_for(shelf).close()
    if dry_run:
        going = [str(one) for one in too_many(path, to, keep)]
        folder = to or path.parent / FOLDER
        if json:
            show.as_json({"backup": None, "folder": str(folder), "would_remove": going})
            return
        show.line(f"Would back up {path.stat().st_size} bytes to {show.safe(folder)}.")
        for one in going:
            show.line(f"Would remove {show.safe(one)}.")
        return
    with waiting("Copying"):
        made = make(path, to, keep)
    show.as_json({"backup": str(made)}) if json else show.line(f"Backup: {show.safe(made)}")


def restore(
    source: Annotated[Path, typer.Argument(metavar="BACKUP", help="The backup to bring back.")],
    yes: Annotated[bool, typer.Option("--yes", help="Do not ask.")] = False,
    dry_run: options.DryRun = False,
    shelf: options.Shelf = None,
) -> None:
    """Bring a backup back; the old shelf stays under another name.

    Example: salvage restore backups/bench-2026-03-31T080000Z.backup
    """
    from inventory.store.restore import restore as bring_back

    path = _file(shelf)
    with waiting("Checking the backup"):
        planned = bring_back(path, source, dry_run=True)
    _compare(planned)
    if dry_run:
        return
    if not prompts.sure("Bring it back?", yes=yes):
        raise Refused("Nothing was changed; say --yes to go ahead.")
    with waiting("Bringing it back"):
        done = bring_back(path, source)
    show.line("Restored." + (f" The old shelf is {show.safe(done.kept)}." if done.kept else ""))


def _compare(planned: Any) -> None:
    """Both shelves side by side."""
    if planned.problem:
        show.note(f"The shelf that is there cannot be read: {show.safe(planned.problem)}")
    rows = [
        (
            label,
            getattr(planned.before, name) if planned.before else "-",
            getattr(planned.after, name),
        )
        for label, name in (
            ("Part types", "part_types"),
            ("Lots", "lots"),
            ("Pieces on hand", "on_hand"),
            ("Jobs", "jobs"),
            ("Events", "events"),
            ("Last event", "last_at"),
        )
    ]
    show.table(("", "Now", "After"), rows)


def check(
    repair: Annotated[
        bool, typer.Option("--repair", help="Rebuild what can be rebuilt from the journal.")
    ] = False,
    dry_run: options.DryRun = False,
    json: options.Json = False,
    shelf: options.Shelf = None,
) -> None:
    """Check the whole shelf: file, journal, sums, search index.

    Example: salvage check
    """
    from inventory.bench.place import open_for
    from inventory.store import check as checking

    opened = open_for(shelf)
    with waiting("Checking"):
        mended = checking.repair(opened, dry_run=dry_run) if repair else []
        found = checking.check(opened)
    if json:
        show.as_json(
            {
                "whole": not found,
                "findings": [{"about": one.about, "sentence": one.sentence} for one in found],
                "mended": [one.sentence for one in mended],
            }
        )
    for one in mended:
        show.note(f"{'Would mend' if dry_run else 'Mended'}: {show.safe(one.sentence)}")
    if not found:
        if not json:
            show.line("The shelf is whole.")
        return
    for one in found:
        more = " ('salvage check --repair' mends it)" if one.mendable else ""
        show.note(f"{one.about}: {show.safe(one.sentence)}{more}")
    raise typer.Exit(3)


def undo(
    dry_run: options.DryRun = False,
    json: options.Json = False,
    shelf: options.Shelf = None,
) -> None:
    """Reverse the last thing that was written; nothing is deleted.

    Example: salvage undo --dry-run
    """
    from inventory.bench.place import open_for
    from inventory.bench.undo import undo as reverse

    done = reverse(open_for(shelf), dry_run=dry_run)
    if json:
        show.as_json({"undone": list(done.undone), "sentence": done.sentence})
        return
    show.line(("Would undo: " if dry_run else "Undone: ") + show.safe(done.sentence))
