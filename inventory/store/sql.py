"""What the rooms of the store share of SQLAlchemy, fetched when a statement is made.

A search runs on the driver's own connection (``asking``) and never fetches it: importing
SQLAlchemy takes longer than the whole search.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from sqlalchemy import TextClause
    from sqlalchemy.engine import Connection
else:
    Connection = Any

__all__ = ["Connection", "places", "text"]


@lru_cache(maxsize=256)
def text(statement: str) -> TextClause:
    """A statement with its values as ``:name``, for an open connection."""
    from sqlalchemy import text as clause

    return clause(statement)


def places(count: int) -> str:
    """So many ``?`` for the values of an ``IN``.

    >>> places(3)
    '?, ?, ?'
    """
    return ", ".join("?" * count)
