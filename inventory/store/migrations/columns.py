"""Kinds of columns that answer alike in every database.

A text is compared byte by byte, whatever language the server was set up for, as SQLite does;
a whole number has 64 bits. On SQLite they are its plain ``VARCHAR`` and ``INTEGER``.
"""

from __future__ import annotations

from sqlalchemy import BigInteger, Integer, String

TEXT = String().with_variant(String(collation="C"), "postgresql")
"""A text in the order of its code points. Source: postgresql.org, Collation Support, 24.2.2.1."""

WHOLE = Integer().with_variant(BigInteger(), "postgresql")
"""A whole number of 64 bits."""
