"""Where a call begins: only the room of the command that is asked for is entered."""

import logging
import os
import sys
from collections.abc import Iterable
from importlib import import_module
from typing import Annotated

import typer

from inventory import __version__
from inventory.cli.help import Sections, named
from inventory.errors import InventoryError

EPILOG = (
    "Every command's --help ends in an example. Exit codes: 0 done, 1 nothing found or refused"
    " by a rule, 2 wrong input, 3 the shelf cannot be used."
)

ROOMS = {
    "read": ("read",),
    "find": ("find", "twins"),
    "log": ("log", "strip"),
    "bench": ("bench",),
    "moves": ("hold", "fit", "putback", "scrap", "move", "count"),
    "job": ("job",),
    "xref": ("xref",),
    "stock": ("low", "wear", "order", "receive", "keep", "figure"),
    "worth": ("worth",),
    "day": ("day",),
    "look": ("show", "history", "where"),
    "files": ("load", "dump"),
    "demo": ("demo",),
    "trust": ("backup", "restore", "check", "undo"),
    "screw": ("screw",),
}
"""The modules of this folder and the commands each of them hangs on the app, as ``help`` lists."""


def _version(asked: bool) -> None:
    """Print the version and stop."""
    if asked:
        typer.echo(f"salvage {__version__}")
        raise typer.Exit


def settings(
    shelf: Annotated[
        str | None,
        typer.Option(
            "--shelf", metavar="PATH|URL", help="Shelf for this call; also SALVAGE_SHELF."
        ),
    ] = None,
    bench_name: Annotated[
        str | None,
        typer.Option("--bench", metavar="NAME", help="Who writes; also SALVAGE_BENCH."),
    ] = None,
    version: Annotated[  # noqa: ARG001 - handled by its callback
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Show the version.")
    ] = False,
) -> None:
    """What lies on the shelf, what it is rated for, and what can stand in for what."""
    if shelf:
        os.environ["SALVAGE_SHELF"] = shelf
    if bench_name:
        os.environ["SALVAGE_BENCH"] = bench_name


def app_of(rooms: Iterable[str]) -> typer.Typer:
    """The command with the commands of some rooms."""
    app = typer.Typer(
        name="salvage",
        help="What lies on the shelf, what it is rated for, and what can stand in for what.",
        cls=Sections,
        epilog=EPILOG,
        rich_markup_mode=None,
        pretty_exceptions_enable=False,
        no_args_is_help=True,
        context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 80},
    )
    app.callback()(settings)
    for room in rooms:
        import_module(f"inventory.cli.{room}").attach(app)
    return app


def rooms_for(arguments: list[str]) -> list[str]:
    """The room of the command that is asked for; all of them where that is not plain to see."""
    rest = iter(arguments)
    for word in rest:
        if word in ("--shelf", "--bench"):
            next(rest, None)
        elif not word.startswith(("--shelf=", "--bench=")):
            return [room for room, commands in ROOMS.items() if word in commands] or list(ROOMS)
    return list(ROOMS)


def main() -> None:
    """Run the command line; what a person can cause ends in one sentence and a code."""
    from inventory.cli.encoding import readable, spell_out

    spell_out()
    sys.exit(run([readable(argument) for argument in sys.argv[1:]]))


class _Noted(logging.Handler):
    """Warnings of the rooms below, printed as notes."""

    def emit(self, record: logging.LogRecord) -> None:
        """Print one on stderr."""
        from inventory.cli import show

        show.warn(record.getMessage())


def _hear_warnings() -> None:
    """Let warnings reach the screen, each once, however often this is called."""
    log = logging.getLogger("inventory")
    if not any(isinstance(handler, _Noted) for handler in log.handlers):
        log.addHandler(_Noted(logging.WARNING))
        log.propagate = False


_STOPPED = "Stopped; nothing was left half done."


def run(arguments: list[str]) -> int:
    """Run with arguments; returns the exit code."""
    _hear_warnings()
    try:
        command = named(typer.main.get_command(app_of(rooms_for(arguments))))
        code = command(arguments, standalone_mode=False, prog_name="salvage")
        sys.stdout.flush()
    except InventoryError as error:
        return _say(str(error), error.exit_code)
    except (KeyboardInterrupt, typer.Abort):
        return _say(_STOPPED, 130)
    except (BrokenPipeError, SystemExit) as stopped:
        return _nobody_reads(stopped)
    except MemoryError:
        return _say("That is more than fits into memory; nothing was changed.", 2)
    except Exception as error:
        if hasattr(error, "format_message") and hasattr(error, "exit_code"):
            return _usage(error)
        raise
    return _ended(code)


def _ended(code: object) -> int:
    """The exit code of a command that came to its end, or was stopped while it worked."""
    if code == 130:  # what typer makes of Ctrl-C
        return _say(_STOPPED, 130)
    return code if isinstance(code, int) else 0


def _nobody_reads(stopped: BaseException) -> int:
    """The reader of our output has gone, as ``head`` does; what is left has nowhere to go."""
    if not isinstance(stopped.__context__ or stopped, BrokenPipeError):
        raise stopped
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.__stdout__.fileno())  # type: ignore[union-attr]
    return 0


def _usage(error: Exception) -> int:
    """A mistake in how the command was written: one sentence, or the help that was asked for."""
    message = error.format_message()  # type: ignore[attr-defined]
    if type(error).__name__ == "NoArgsIsHelpError":
        sys.stdout.write(message + "\n")
        return 0
    sentence = message if message.rstrip().endswith((".", "?")) else f"{message.rstrip()}."
    return _say(sentence, int(error.exit_code))  # type: ignore[attr-defined]


def _say(sentence: str, code: int) -> int:
    """One sentence on stderr."""
    from inventory.cli import show

    sys.stdout.flush()
    show.note(" ".join(sentence.split()))
    return code
