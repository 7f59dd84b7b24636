"""The whole command ``salvage``, with the commands of every room."""

from inventory.cli.start import ROOMS, app_of, main, run

__all__ = ["app", "main", "run"]

app = app_of(ROOMS)
"""For who wants to know all commands: the tests, and programs that write a manual."""
