"""A database server that lives as long as the tests that need it."""

from __future__ import annotations

import hashlib
import os
import shutil
import subprocess
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from urllib.parse import quote

import pytest

from inventory.bench.log import Piece, log_pieces
from inventory.errors import InventoryError
from inventory.store.server import server_at
from inventory.store.shelf import Shelf, open_shelf
from tests.store.shelves import in_schema
from tests.trust.places import quick_folder

_USUAL = Path("/usr/lib/postgresql")
"""Where Debian keeps programs of the server that are not for everybody."""


def _programs() -> Path | None:
    """The folder of the server's programs."""
    found = shutil.which("initdb")
    if found:
        return Path(found).resolve().parent
    return next((one.parent for one in sorted(_USUAL.glob("*/bin/initdb"), reverse=True)), None)


def _run(*words: str | Path) -> None:
    """Run a program of the server, which refuses to be run by root."""
    who = "nobody" if os.name == "posix" and os.geteuid() == 0 else None
    done = subprocess.run(words, user=who, cwd="/", capture_output=True, text=True, check=False)
    if done.returncode:
        pytest.skip(f"no server can be started here: {(done.stderr or done.stdout).strip()[-300:]}")


@contextmanager
def server() -> Iterator[str]:
    """The address of a new server with one database, which sorts texts as people do.

    The test is skipped where the machine has no such server, or none can be started.
    """
    pytest.importorskip("psycopg", reason="the 'server' extra is not installed")
    programs = _programs()
    if programs is None:
        pytest.skip("no initdb on this machine")
    folder = quick_folder()
    if os.geteuid() == 0:
        shutil.chown(folder, "nobody")
    data = folder / "data"
    try:
        _run(programs / "initdb", "-D", data, "-U", "shop", "-A", "trust", "-E", "UTF8",
             "--no-sync", "--no-instructions", "--locale=C")  # fmt: skip
        settings = f"-c listen_addresses= -c unix_socket_directories={folder} -c fsync=off"
        _run(programs / "pg_ctl", "-D", data, "-l", folder / "log", "-o", settings, "-w", "start")
        try:
            yield _address(folder)
        finally:
            _run(programs / "pg_ctl", "-D", data, "-m", "immediate", "stop")
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def _address(folder: Path) -> str:
    """Make the database; its own order of texts is not that of their code points."""
    import psycopg

    with psycopg.connect(host=str(folder), user="shop", dbname="postgres", autocommit=True) as db:
        try:
            db.execute(
                "CREATE DATABASE shelf TEMPLATE template0 LOCALE_PROVIDER icu ICU_LOCALE 'en'"
            )
        except psycopg.Error:  # a server without that library, or older than 15
            db.execute("CREATE DATABASE shelf")
    return f"postgresql://shop@/shelf?host={quote(str(folder), safe='')}"


@pytest.fixture(scope="session")
def server_address() -> Iterator[str]:
    """A server for all tests that need one."""
    with server() as found:
        yield found


@pytest.fixture
def address(server_address: str, request: pytest.FixtureRequest) -> str:
    """An empty schema on it, for one test."""
    schema = f"t{hashlib.sha256(request.node.nodeid.encode()).hexdigest()[:16]}"
    say(server_address, f"CREATE SCHEMA {schema}")
    return in_schema(server_address, schema)


@pytest.fixture
def stocked(address: str) -> Shelf:
    """A shelf with five good pieces as lot 1."""
    shelf = open_shelf(address, bench="north", create=True)
    log_pieces(shelf, [Piece("EX-1", family="other", quantity=5, state="good")])
    return shelf


def say(address: str, *statements: str) -> None:
    """Statements past the shelf, each for itself."""
    engine = server_at(address).engine.execution_options(isolation_level="AUTOCOMMIT")
    with engine.connect() as connection:
        for statement in statements:
            connection.exec_driver_sql(statement)


def at_once(*works: Callable[[], object]) -> list[InventoryError]:
    """Do some works at the same time; returns what some of them were refused with."""
    refused = list[InventoryError]()

    def tried(work: Callable[[], object]) -> None:
        try:
            work()
        except InventoryError as error:
            refused.append(error)

    together = [threading.Thread(target=tried, args=(work,)) for work in works]
    for one in together:
        one.start()
    for one in together:
        one.join()
    return refused
