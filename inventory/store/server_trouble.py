"""What a database server says when it cannot go on, as one sentence a person can act on.

The five signs it puts before its message say what is the matter; the message may be in any
language. Source: postgresql.org, Appendix A, PostgreSQL Error Codes.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.errors import InventoryError, StoreUnusable, WrongInput

if TYPE_CHECKING:
    from sqlalchemy.exc import DBAPIError

_KINDS: tuple[tuple[tuple[str, ...], type[InventoryError] | None, str], ...] = (
    (
        ("55P03", "40001", "40P01"),
        None,
        "Another bench has been writing to the shelf for {wait} s; nothing was changed here,"
        " please try again.",
    ),
    (
        ("53100",),
        StoreUnusable,
        "The server's disk is full; nothing was changed. Make room and say it again.",
    ),
    (
        ("53",),
        StoreUnusable,
        "The server is at its limits ({said}); nothing was changed, please try again.",
    ),
    (
        ("25006",),
        StoreUnusable,
        "The shelf cannot be written to (read-only); nothing was changed.",
    ),
    (
        ("42501",),
        StoreUnusable,
        "The server does not let this bench do that ({said}); nothing was changed.",
    ),
    (
        ("54000",),
        WrongInput,
        "A text in the input is longer than the server can file; nothing was changed.",
    ),
    (
        ("22",),
        WrongInput,
        "The input holds signs or numbers that cannot be stored; nothing was changed.",
    ),
    (
        ("XX001", "XX002"),
        StoreUnusable,
        "The shelf is damaged ({said}); it was left as it is. Bring back a backup with the"
        " server's own tools.",
    ),
)
"""How an error code begins, and what it means."""


def explained(error: DBAPIError) -> InventoryError:
    """The sentence for an error of a server."""
    from inventory.store.connection import WAIT_SECONDS
    from inventory.store.trouble import Busy

    said, code = _said(error), str(getattr(error.orig, "sqlstate", None) or "")
    if error.connection_invalidated or not code:
        return _lost(error, said)
    for begins, kind, sentence in _KINDS:
        if code.startswith(begins):
            return (kind or Busy)(sentence.format(said=said, wait=WAIT_SECONDS))
    return StoreUnusable(f"The shelf cannot be used: {said}.")


def _said(error: DBAPIError) -> str:
    """The first line of what the server said: the others repeat the statement."""
    lines = str(error.orig).strip().splitlines() or ["no reason given"]
    return lines[0].strip().rstrip(".")


def _lost(error: DBAPIError, said: str) -> InventoryError:
    """The server was never reached, or went away; what it did not confirm may yet be kept."""
    from sqlalchemy.exc import DataError

    if isinstance(error, DataError):  # refused by the driver, before the server saw it
        return WrongInput(
            "The input holds signs or numbers that cannot be stored; nothing was changed."
        )
    if error.statement is None and error.connection_invalidated:
        return StoreUnusable(
            f"The server went away at the last step ({said}), so it is not known whether this was"
            " written; look before you say it again."
        )
    return StoreUnusable(f"The server cannot be reached ({said}); nothing was changed.")
