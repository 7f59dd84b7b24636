"""Bytes turned into documents of the right shape, so that a fuzzer gets past the parser."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from inventory.bench.dumps import MARK
from inventory.bench.files import COLUMNS
from inventory.store.release import SCHEMA_VERSION
from inventory.store.whole import TABLES

_WORDS = (
    "", " ", "x", "16(4)A 250V~ T85", "untested", "clicks", "salvaged", "switch", "other", "1,234",
    "2.5", "-1", "1e5", "=1+1", "'=1", "\x1b[31m", "\u202e", "\x00", "\ud800", "\u0661", "9" * 30,
    "x" * 300, "{}", "[]", "null", "2026-01-01T00:00:00+00:00", "held", "0" * 64,
)  # fmt: skip
_NUMBERS = (0, 1, -1, 2, 10**6, 2**31, 2**63 - 1, 2**63, -(2**63), 10**400, 0.5, -0.0, 1e308)
_KEYS = (*COLUMNS, "r.body", "r.", "ratings", "r.ratings", "QUANTITY", "\x00", "nonsense")
_ROW_KEYS = (
    "id", "code", "note", "label", "kind", "part_id", "lot_id", "on_hand", "held", "state", "seq",
    "at", "bench", "quantity", "ordered", "detail", "undoes", "act", "hash", "name", "value",
)  # fmt: skip


def _value(data: Iterator[int], depth: int = 0) -> Any:
    """One value; the bytes say which. Where they end, it is null."""
    choice = next(data, 0)
    if choice < 96:
        return _WORDS[choice % len(_WORDS)]
    if choice < 160:
        return _NUMBERS[choice % len(_NUMBERS)]
    if choice < 190:
        return (None, True, False)[choice % 3]
    if depth > 3:
        return None
    if choice < 220:
        return [_value(data, depth + 1) for _ in range(choice % 4)]
    return {_KEYS[next(data, 0) % len(_KEYS)]: _value(data, depth + 1) for _ in range(choice % 4)}


def parts_list(data: bytes) -> Any:
    """A list of rows, or something near it."""
    source = iter(data)
    if next(source, 1) % 16 == 0:
        return _value(source)
    return [_row(source, _KEYS) for _ in range(next(source, 0) % 5)]


def _row(data: Iterator[int], keys: tuple[str, ...]) -> dict[str, Any]:
    """A row with some of the columns."""
    return {keys[next(data, 0) % len(keys)]: _value(data) for _ in range(next(data, 0) % 8)}


def dump(data: bytes) -> Any:
    """A dump of a shelf, or something near it."""
    source = iter(data)
    version = SCHEMA_VERSION if next(source, 1) % 16 else _value(source)
    tables = {
        TABLES[next(source, 0) % len(TABLES)]: [
            _row(source, _ROW_KEYS) for _ in range(next(source, 0) % 3)
        ]
        for _ in range(next(source, 0) % 5)
    }
    return {MARK: version, "tables": tables if next(source, 1) % 16 else _value(source)}
