"""The look of the help pages: commands by who needs them, the same word for the same value."""

from typing import Any

import typer
from typer.core import TyperGroup

SECTIONS = {
    "At the bench": ("job", "read", "find", "hold", "fit", "putback", "bench", "screw"),
    "In the yard": ("worth", "strip", "log", "move", "count", "scrap"),
    "In the shop": ("day", "low", "wear", "order", "receive", "keep", "figure"),
    "Looking": ("show", "where", "history", "xref", "twins"),
    "The shelf itself": ("demo", "load", "dump", "backup", "restore", "check", "undo"),
}
"""Every command under the person who needs it most; each stands once."""

_WORDS = {
    "as_of": "DATE", "arrived": "DATE",
    "bin_code": "BIN", "near": "BIN",
    "candidate": "N",
    "code": "CODE", "type_code": "CODE", "also": "CODE", "supplier_no": "CODE",
    "family": "FAMILY", "place": "PLACE", "maker": "MAKER", "model": "MODEL",
    "need": "NAME=VALUE", "measured": "NAME=VALUE", "reading": "NAME=VALUE",
    "rating": "NAME=VALUE", "plate": "NAME=VALUE",
    "job": "JOB", "number": "JOB", "part": "PART", "failed": "LOT",
    "price": "MONEY",
    "rest": "OHM", "pressed": "OHM", "released": "OHM", "insulation": "MOHM", "drop": "MV",
    "serial": "SERIAL", "state": "STATE", "region": "REGION", "outcome": "OUTCOME",
    "source_unit": "UNIT", "unit": "UNIT",
    "to": "FILE", "pieces": "FILE", "file": "FILE",
    "major": "MM", "pitch": "MM", "length": "MM", "u_major": "MM", "u_pitch": "MM", "sheet": "MM",
    "engaged": "MM", "stack": "MM",
    "weigh": "GRAMS", "ten": "GRAMS", "weight": "GRAMS", "step": "GRAMS",
    "wanted": "SCREW", "offered": "SCREW", "designation": "SCREW", "thread": "THREAD",
    "marking": "MARKING",
}  # fmt: skip
"""What the value of an option or argument is called, by the name of its parameter."""

_PLAIN = {"int": "N", "float": "N", "path": "FILE"}


class Sections(TyperGroup):
    """The commands of ``salvage`` in sections instead of one long list."""

    def format_commands(self, ctx: Any, formatter: Any) -> None:  # noqa: ARG002 - as called
        """Write a section for each user, with one short sentence a command."""
        for title, names in SECTIONS.items():
            rows = [
                (f"{name:<8}", self.commands[name].get_short_help_str(formatter.width - 12))
                for name in names
                if name in self.commands
            ]
            if rows:
                with formatter.section(title):
                    formatter.write_dl(rows)


def named(command: Any) -> Any:
    """The command with a word of the trade for each value in place of a Python type."""
    for param in command.params:
        if getattr(param, "metavar", None) is None and not getattr(param, "is_flag", False):
            kind = str(param.display_type(typer.Context(command))).strip("<>").split()[0]
            plain = _PLAIN.get(kind.removeprefix("list[").removesuffix("]"), "TEXT")
            param.metavar = _WORDS.get(param.name, plain)
        if param.param_type_name == "argument":
            param.display_type = _said_already
    for below in getattr(command, "commands", {}).values():
        named(below)
    return command


def _said_already(_context: object) -> str:
    """No type behind an argument: its name is the word."""
    return ""
