"""A bar on stderr while something takes longer than a second; at a terminal only."""

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from threading import Lock, Timer
from typing import TYPE_CHECKING

from inventory.cli import show

if TYPE_CHECKING:
    from rich.progress import Progress, ProgressColumn, TaskID

PATIENCE = 1.0
"""Seconds before a bar shows; what is done sooner needs none."""


@contextmanager
def waiting(what: str, total: int | None = None) -> Iterator[Callable[[int], None]]:
    """Show what is going on, and how far it is where that is told to the function it yields.

    ``total`` is how many there are to do; None: not known.
    """
    if not sys.stderr.isatty():
        yield lambda _count: None
        return
    bar = _Bar(what, total)
    try:
        yield bar.tell
    finally:
        bar.stop()


class _Bar:
    """A bar that comes up after a while, unless it is over by then."""

    def __init__(self, what: str, total: int | None) -> None:
        self.what = what
        self.total = total
        self._done = 0
        self._shown: tuple[Progress, TaskID] | None = None
        self._busy = Lock()
        self._timer = Timer(PATIENCE, self._show)
        self._timer.daemon = True
        self._timer.start()

    def _show(self) -> None:
        """Come up."""
        from rich.progress import Progress

        with self._busy:
            made = Progress(
                *self._columns(),
                console=show.console(sys.stderr),
                transient=True,
                redirect_stdout=False,
                redirect_stderr=True,  # a note goes above the bar, not into it
            )
            made.start()
            task = made.add_task(self.what, total=self.total)
            self._shown = made, task
            made.update(task, completed=self._done)  # what was told before there was a bar

    def _columns(self) -> "list[str | ProgressColumn]":
        """What the bar shows: a share only where the whole is known."""
        from rich.progress import BarColumn, TaskProgressColumn, TextColumn, TimeElapsedColumn

        shown: list[str | ProgressColumn] = [TextColumn("{task.description}"), BarColumn(24)]
        if self.total:
            shown += [TaskProgressColumn(), TextColumn("{task.completed:,.0f}")]
        return [*shown, TimeElapsedColumn()]

    def tell(self, count: int) -> None:
        """So many are done."""
        self._done = count
        if self._shown:
            bar, task = self._shown
            bar.update(task, completed=count)

    def stop(self) -> None:
        """Go, leaving no trace."""
        self._timer.cancel()
        self._timer.join()
        with self._busy:
            if self._shown:
                self._shown[0].stop()
