"""A damaged shelf file: recognised, explained, and never believed about stock."""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from inventory.bench import moves
from inventory.bench.log import Piece, log_pieces
from inventory.errors import InventoryError
from inventory.store.check import check
from inventory.store.connection import sqlite_module
from inventory.store.shelf import open_shelf
from inventory.store.whole import TABLES
from tests.trust.killing import run_on

COMMANDS = (["show", "1"], ["where"], ["history", "1"], ["low"], ["check"], ["find", "16A 250V"])
"""What a person may try on a damaged shelf."""

Damage = Callable[[bytearray, random.Random], None]


def _one_bit(data: bytearray, chance: random.Random) -> None:
    """A bit flips."""
    data[chance.randrange(100, len(data))] ^= 1 << chance.randrange(8)


def _sixteen_bytes(data: bytearray, chance: random.Random) -> None:
    """A few bytes become others."""
    start = chance.randrange(100, len(data) - 16)
    data[start : start + 16] = chance.randbytes(16)


def _a_page(data: bytearray, chance: random.Random) -> None:
    """A page becomes nothing."""
    start = 4096 * chance.randrange(len(data) // 4096)
    data[start : start + 4096] = bytes(4096)


def _another_page(data: bytearray, chance: random.Random) -> None:
    """A page becomes another one."""
    one, other = (4096 * chance.randrange(1, len(data) // 4096) for _ in range(2))
    data[one : one + 4096] = data[other : other + 4096]


def _cut_off(data: bytearray, chance: random.Random) -> None:
    """The end is missing."""
    del data[chance.randrange(len(data)) :]


KINDS: dict[str, Damage] = {
    "one bit": _one_bit,
    "16 bytes": _sixteen_bytes,
    "a page": _a_page,
    "another page": _another_page,
    "cut off": _cut_off,
}


FOUND_OF_A_HUNDRED = {
    "one bit": 15,
    "16 bytes": 15,
    "a page": 90,
    "another page": 60,
    "cut off": 95,
}
"""At least so many must be seen; the rest hit room that nothing stands on."""


def _stocked(path: Path) -> bytes:
    """The bytes of a shelf with some lots and events, closed and without a journal."""
    shelf = open_shelf(str(path), create=True)
    pieces = [
        Piece(f"16({n})A 250V~ T85", family="switch", quantity=9, state="clicks", bin=f"A{n}")
        for n in range(1, 80)
    ]
    log_pieces(shelf, pieces)
    for n in range(160):
        moves.fit(shelf, 1 + n % 79, place="secondary-interlock" if n % 3 else None)
    shelf.close()
    return path.read_bytes()


def _stock(path: Path) -> Any:
    """All events and all counts, as they stand in the file; and then all else."""
    with closing(sqlite_module().connect(str(path))) as raw:
        stock = (
            raw.execute("SELECT * FROM journal ORDER BY seq").fetchall(),
            raw.execute("SELECT id, on_hand, held FROM lot ORDER BY id").fetchall(),
        )
        rest = [raw.execute(f"SELECT * FROM {table} ORDER BY 1").fetchall() for table in TABLES]  # noqa: S608
    return stock, rest


def _verdict(path: Path, before: Any) -> str:
    """Whether the damage is seen, and if it is not, whether it touched the stock."""
    try:
        if check(open_shelf(str(path))):
            return "found"
    except InventoryError:
        return "found"
    stock, rest = _stock(path)
    if stock != before[0]:
        return "believed"
    return "harmless" if rest == before[1] else "a word changed"


def damage(folder: Path, kind: str, rounds: int, seed: int) -> Counter[str]:
    """Damage a shelf so often; returns what the check made of it."""
    path = folder / "a.shelf"
    whole = _stocked(path)
    before = _stock(path)
    chance = random.Random(seed)
    seen: Counter[str] = Counter()
    for _ in range(rounds):
        data = bytearray(whole)
        KINDS[kind](data, chance)
        for left in folder.glob("a.shelf*"):
            left.unlink()
        path.write_bytes(data)
        seen[_verdict(path, before)] += 1
        path.write_bytes(data)
        for command in COMMANDS:
            assert run_on(path, command) in (0, 1, 2, 3)
    return seen


@pytest.mark.parametrize("kind", KINDS)
def test_damage_is_never_believed_about_stock(memory: Path, kind: str) -> None:
    """It is found, or no event and no count is other than it was; no command breaks off."""
    seen = damage(memory, kind, 3, seed=5)

    assert seen["believed"] == 0
    assert seen.total() == 3


@pytest.mark.slow
@pytest.mark.parametrize("kind", KINDS)
def test_much_damage_is_never_believed_about_stock(memory: Path, kind: str) -> None:
    """The same a hundred times."""
    seen = damage(memory, kind, 100, seed=6)

    assert seen["believed"] == 0
    assert seen["found"] >= FOUND_OF_A_HUNDRED[kind]


def test_a_damaged_shelf_is_explained(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The sentence names the file, says that it was left alone, and what helps."""
    path = tmp_path / "a.shelf"
    whole = bytearray(_stocked(path))
    whole[4096:] = bytes(len(whole) - 4096)
    path.write_bytes(whole)

    code = run_on(path, ["show", "1"])

    said = " ".join(capsys.readouterr().err.split())
    assert code == 3
    assert "is damaged; it was left as it is" in said
    assert "'salvage restore' brings back a backup" in said
    assert path.read_bytes() == whole
