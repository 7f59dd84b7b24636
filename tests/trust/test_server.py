"""A shelf on a database server under strain: races, waits, kills, a server that goes away."""

from __future__ import annotations

import subprocess
import sys
from functools import partial
from pathlib import Path
from random import Random

import pytest
from sqlalchemy.exc import IntegrityError

from inventory.bench import moves
from inventory.bench.log import Piece, log_pieces
from inventory.errors import Refused, StoreUnusable, WrongInput
from inventory.store import connection as opening
from inventory.store.check import check
from inventory.store.journal import broken_link
from inventory.store.shelf import Shelf, open_shelf
from inventory.store.trouble import Busy
from tests.store.throwaway import address, at_once, say, server_address, stocked
from tests.trust.test_race import BENCHES, race

__all__ = ["address", "server_address", "stocked"]


def test_the_journal_only_grows(stocked: Shelf) -> None:
    """Whoever asks, in whatever way."""
    for statement in ("UPDATE journal SET bench = 'x'", "DELETE FROM journal", "TRUNCATE journal"):
        with pytest.raises(IntegrityError, match="only grows"), stocked.write() as connection:
            connection.exec_driver_sql(statement)
    with stocked.read() as connection:
        assert broken_link(connection) is None


def test_the_last_piece_is_taken_once(stocked: Shelf, address: str) -> None:
    """Five pieces, four benches at once, five times over: each piece goes out once."""
    benches = [open_shelf(address, bench=f"bench{n}") for n in range(4)]
    refused = [
        error
        for _ in range(5)
        for error in at_once(*(partial(moves.fit, bench, 1) for bench in benches))
    ]

    assert len(refused) == 5 * 4 - 5
    assert all("cannot give that: 0 on hand" in str(error) for error in refused)
    assert check(stocked) == []


@pytest.mark.slow
@pytest.mark.parametrize("command", ["fit", "hold"])
def test_the_last_piece_is_taken_once_in_many_races(
    address: str, tmp_path: Path, command: str
) -> None:
    """Four processes; the losers hear why, and the chain is whole."""
    rounds = 300 if command == "fit" else 50
    told = race(address, tmp_path, rounds, command)

    assert len(told) == rounds * (BENCHES - 1)
    assert all("cannot give that" in line and "0 free" in line for line in told)


def test_a_bench_that_holds_the_shelf_too_long_is_named(
    stocked: Shelf, address: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """After the stated wait one sentence; to look at the shelf nobody waits."""
    monkeypatch.setattr(opening, "WAIT_SECONDS", 0.2)
    other = open_shelf(address, bench="south")
    with stocked.write() as connection:
        connection.exec_driver_sql("UPDATE lot SET on_hand = 0")
        with pytest.raises(Busy, match="please try again"):
            moves.fit(other, 1)
        with other.read() as looked:
            assert looked.exec_driver_sql("SELECT on_hand FROM lot").scalar() == 5


def test_a_look_sees_one_moment(stocked: Shelf, address: str) -> None:
    """What another bench commits meanwhile is seen by the next one."""
    with stocked.read() as connection:
        before = connection.exec_driver_sql("SELECT on_hand FROM lot").scalar()
        moves.fit(open_shelf(address), 1)
        assert connection.exec_driver_sql("SELECT on_hand FROM lot").scalar() == before == 5
    with stocked.read() as connection:
        assert connection.exec_driver_sql("SELECT on_hand FROM lot").scalar() == 4


_HANG_UP = (
    "SELECT pg_terminate_backend(pid) FROM pg_stat_activity"
    " WHERE pid <> pg_backend_pid() AND state = 'idle in transaction'"
)


@pytest.mark.parametrize("when", ["before the last word", "at the last word"])
def test_a_server_that_goes_away_is_told_of_and_nothing_is_half_there(
    stocked: Shelf, address: str, when: str
) -> None:
    """Whether the last word was heard nobody can know, and nobody claims to."""
    known = "not known" if when == "at the last word" else "nothing was changed"

    def fit_and_lose() -> None:
        with stocked.write() as connection:
            connection.exec_driver_sql("UPDATE lot SET on_hand = 0")
            say(address, _HANG_UP)
            if when == "before the last word":
                connection.exec_driver_sql("UPDATE lot SET on_hand = 1")

    with pytest.raises(StoreUnusable, match=known):
        fit_and_lose()
    assert check(open_shelf(address)) == []


def test_a_killed_bench_leaves_nothing_behind(stocked: Shelf, address: str) -> None:
    """Its lock goes with it."""
    program = (
        "import os, sys\nfrom inventory.store.shelf import open_shelf\n"
        "with open_shelf(sys.argv[1]).write() as connection:\n"
        "    connection.exec_driver_sql('UPDATE lot SET on_hand = 0')\n"
        "    os._exit(9)\n"
    )
    done = subprocess.run([sys.executable, "-c", program, address], check=False)

    assert done.returncode == 9
    assert moves.fit(stocked, 1).lot.on_hand == 4
    assert check(stocked) == []


def test_what_no_server_keeps_is_refused_in_a_sentence(stocked: Shelf, address: str) -> None:
    """A NUL, a broken sign, a number beyond 64 bits, a code too long to be filed."""
    for word in ("EX\0", "EX\udc80"):
        with pytest.raises((WrongInput, Refused)):
            log_pieces(stocked, [Piece(word, family="other")])
        with pytest.raises(WrongInput, match="cannot be stored"), stocked.read() as connection:
            connection.exec_driver_sql("SELECT %s::text", (word,))
    with pytest.raises(WrongInput, match="cannot be stored"), stocked.write() as connection:
        connection.exec_driver_sql("UPDATE lot SET price_cents = %s", (2**63,))
    endless = "".join(Random(1).choices("ABCDEFGHJKLMNPQRSTUVWXYZ23456789", k=3990))
    with pytest.raises(WrongInput, match="longer than the server"):
        log_pieces(stocked, [Piece("", type_code=endless, family="other")])
    assert check(open_shelf(address)) == []


def test_a_read_only_server_can_be_looked_at(stocked: Shelf, address: str) -> None:
    """Every write is one sentence."""
    only = open_shelf(f"{address}%20-cdefault_transaction_read_only%3Don")
    with only.read() as connection:
        assert connection.exec_driver_sql("SELECT COUNT(*) FROM lot").scalar() == 1
    with pytest.raises(StoreUnusable, match="read-only"):
        moves.fit(only, 1)
    assert moves.fit(stocked, 1).lot.on_hand == 4


def test_a_bench_without_rights_is_told_so(stocked: Shelf, address: str) -> None:
    """It may look where it was let, and write where it was let."""
    with stocked.read() as connection:
        schema = connection.exec_driver_sql("SELECT current_schema()").scalar()
    say(
        address,
        "CREATE ROLE looker LOGIN",
        f"GRANT USAGE ON SCHEMA {schema} TO looker",
        f"GRANT SELECT ON ALL TABLES IN SCHEMA {schema} TO looker",
    )
    looker = open_shelf(address.replace("//shop@", "//looker@"))

    assert check(looker) == []
    with pytest.raises(StoreUnusable, match="does not let this bench"):
        moves.fit(looker, 1)
