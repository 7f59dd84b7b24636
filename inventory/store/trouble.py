"""What a database or a disk says when it cannot go on, as one sentence a person can act on."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from inventory.errors import InventoryError, StoreUnusable, WrongInput
from inventory.store import connection as opening
from inventory.store.drives import free_bytes


class Busy(StoreUnusable):
    """Another bench holds the shelf; trying again helps."""


class Damaged(StoreUnusable):
    """What is in the file cannot be right."""


NEARLY_FULL = 1_000_000
"""Bytes. With less than this left, a failed write is put down to the full disk."""


@contextmanager
def explaining(path: Path | None) -> Iterator[None]:
    """Turn what fails inside into an ``InventoryError``; defects of ours stay what they are."""
    try:
        yield
    except InventoryError:
        raise
    except _wrapped("IntegrityError"):
        raise
    except _wrapped("DBAPIError") as error:
        if path is None:
            from inventory.store import server_trouble

            raise server_trouble.explained(error) from error  # type: ignore[arg-type]
        raise explained(str(getattr(error, "orig", error)), path) from error
    except opening.driver_errors() as error:
        raise explained(str(error), path) from error
    except (json.JSONDecodeError, UnicodeDecodeError) as error:
        raise _damaged(path) from error
    except (UnicodeEncodeError, OverflowError) as error:
        raise WrongInput(
            "The input holds signs or numbers that cannot be stored; nothing was changed."
        ) from error
    except (TypeError, ValueError, KeyError) as error:
        # a flipped bit inside a record can make nonsense of it; only proven damage is called so
        from inventory.store.contents import is_damaged

        if path is not None and path.exists() and is_damaged(path):
            raise _damaged(path) from error
        raise


def _wrapped(name: str) -> tuple[type[Exception], ...]:
    """An error class of SQLAlchemy's; none where it was not needed, so that it raised nothing."""
    known = sys.modules.get("sqlalchemy.exc")
    return (getattr(known, name),) if known else ()


def explained(message: str, path: Path | None) -> InventoryError:
    """The sentence for a message of the database."""
    low = message.lower()
    for words, sentence in _SENTENCES:
        if any(word in low for word in words):
            return sentence(path, message)
    return StoreUnusable(f"{_where(path)} cannot be used: {message}.")


def _where(path: Path | None) -> str:
    """The shelf as it is called in a sentence."""
    return str(path) if path else "the shelf"


def _busy(path: Path | None, _message: str) -> InventoryError:
    """Another bench holds the shelf."""
    return Busy(
        f"Another bench has been writing to {_where(path)} for {opening.WAIT_SECONDS} s;"
        " nothing was changed here, please try again."
    )


def _full(path: Path | None, _message: str) -> InventoryError:
    """No room is left."""
    left = "" if path is None else f" ({free_bytes(path)} bytes left)"
    return StoreUnusable(
        f"The disk of {_where(path)} is full{left}; nothing was changed."
        " Make room and say it again."
    )


def _damaged(path: Path | None, _message: str = "") -> InventoryError:
    """What is in the file cannot be right."""
    return Damaged(
        f"{_where(path)} is damaged; it was left as it is. 'salvage check' says where,"
        " 'salvage restore' brings back a backup."
    )


def _unwritable(path: Path | None, message: str) -> InventoryError:
    """The file cannot be opened or written: gone, read-only, or out of room."""
    if path is not None and not path.parent.is_dir():
        return StoreUnusable(
            f"The folder {path.parent} is no longer there (was a drive pulled out?);"
            " nothing was changed."
        )
    if path is not None and not path.exists():
        return StoreUnusable(f"{path} is no longer there; nothing was changed.")
    if "readonly" in message.lower() or "read-only" in message.lower():
        return StoreUnusable(
            f"{_where(path)} cannot be written to (read-only); nothing was changed."
        )
    if path is not None and free_bytes(path) < NEARLY_FULL:
        return _full(path, message)
    return StoreUnusable(
        f"{_where(path)} cannot be read or written ({message}); nothing was changed."
    )


_SENTENCES: tuple[tuple[tuple[str, ...], Callable[[Path | None, str], InventoryError]], ...] = (
    (("locked", "busy"), _busy),
    (("disk is full", "database or disk is full"), _full),
    (("malformed", "not a database", "corrupt", "could not decode"), _damaged),
    (("readonly", "read-only", "unable to open", "disk i/o"), _unwritable),
)
"""Words in the messages of SQLite and what they mean. Source: sqlite.org, Result Codes."""
