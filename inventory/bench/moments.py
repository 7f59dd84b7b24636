"""Days and moments as the journal writes them, and what is none though it stands there."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime

from inventory.errors import WrongInput
from inventory.store import journal
from inventory.store.sql import Connection
from inventory.store.trouble import Damaged


def moment(as_of: str | None, connection: Connection) -> str:
    """The end of a day as the journal writes it; where none is said, now.

    A journal's times never go back: where the clock does, now is the time of the last event.
    Raises ``WrongInput`` for what is no day, and for a day before the journal begins: that
    nothing is known of it must not read as that nothing was there.
    """
    if as_of is None:
        return max(journal.now(), journal.latest(connection))
    try:
        day = datetime.fromisoformat(as_of).date()
    except ValueError as error:
        raise WrongInput(f"Not a date: {as_of!r}. Write it like 2026-03-31.") from error
    end = datetime(day.year, day.month, day.day, 23, 59, 59, 999999, UTC)
    at = end.isoformat(timespec="microseconds")
    begun = journal.earliest(connection)
    if at < begun:
        raise WrongInput(
            f"Nothing is known of {day.isoformat()}: the journal begins on {begun[:10]}."
        )
    return at


@contextmanager
def on_record() -> Iterator[None]:
    """What stands on the shelf and makes no sense is damage, not a slip of the fingers."""
    try:
        yield
    except WrongInput as error:
        what = str(error).partition(". ")[0].rstrip(".")
        raise Damaged(
            f"The shelf is damaged and was left as it is ({what[:1].lower()}{what[1:]});"
            " 'salvage check' says where, 'salvage restore' brings back a backup."
        ) from error
