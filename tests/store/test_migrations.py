"""Migrations: every released schema comes up to date, whole, with a backup made first."""

from __future__ import annotations

import re
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import create_engine
from sqlmodel import SQLModel

from inventory.bench import moves
from inventory.errors import StoreUnusable
from inventory.store import connection as opening
from inventory.store import migrate, search_tables, tables
from inventory.store.backup import backups_of, verify
from inventory.store.check import check
from inventory.store.contents import contents_of
from inventory.store.release import SCHEMA_VERSION
from inventory.store.shelf import open_shelf
from tests.store.shelves import on_hand, stocked
from tests.trust import next_program

RELEASED = Path(__file__).parent / "released"
"""One dump in SQL of a shelf of every released schema, as that release wrote it."""

MODELS = (tables, search_tables)
"""Modules whose classes are the tables."""


def _without_blanks(sql: str | None) -> str:
    """A statement as it can be compared."""
    return re.sub(r"\s+", " ", sql or "")


def _statements(path: Path) -> set[str]:
    """All statements that make up a database file; not those of the tool that made it."""
    with closing(sqlite3.connect(path)) as raw:
        rows = raw.execute("SELECT name, sql FROM sqlite_master WHERE sql IS NOT NULL").fetchall()
    return {
        _without_blanks(sql)
        for name, sql in rows
        if "alembic" not in name and not name.startswith("journal_keeps")
    }


def test_the_migrations_make_what_the_models_say(tmp_path: Path) -> None:
    """Statement for statement; a change of the models without a migration fails here."""
    open_shelf(str(tmp_path / "a.shelf"), create=True).close()
    engine = create_engine(f"sqlite:///{tmp_path / 'models.db'}")
    SQLModel.metadata.create_all(engine)
    engine.dispose()

    assert _statements(tmp_path / "a.shelf") == _statements(tmp_path / "models.db")


def test_alembic_finds_nothing_to_migrate(tmp_path: Path) -> None:
    """The tool's own comparison, types included."""
    shelf = open_shelf(str(tmp_path / "a.shelf"), create=True)
    with shelf.read() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": True})
        assert compare_metadata(context, SQLModel.metadata) == []


def test_the_version_in_the_file_is_that_of_the_newest_migration(tmp_path: Path) -> None:
    """``user_version``, Alembic's own row and the number of migrations agree."""
    open_shelf(str(tmp_path / "a.shelf"), create=True).close()
    there = Path(migrate.__file__).parent / "migrations" / "versions"

    assert opening.head_of(tmp_path / "a.shelf") == (opening.APPLICATION_ID, SCHEMA_VERSION)
    assert len(list(there.glob("[0-9]*.py"))) == SCHEMA_VERSION
    with closing(sqlite3.connect(tmp_path / "a.shelf")) as raw:
        (revision,) = raw.execute("SELECT version_num FROM alembic_version").fetchone()
    assert revision == f"{SCHEMA_VERSION:04}"


def _released(path: Path, schema: int) -> Path:
    """A shelf file of a released schema."""
    with closing(sqlite3.connect(path)) as raw:
        raw.executescript((RELEASED / f"schema{schema}.sql").read_text(encoding="utf-8"))
        raw.execute(f"PRAGMA application_id={opening.APPLICATION_ID}")
        raw.execute(f"PRAGMA user_version={schema}")
        raw.commit()
    return path


@pytest.mark.parametrize("schema", range(1, SCHEMA_VERSION + 1))
def test_a_shelf_of_every_released_schema_is_brought_up_to_date(
    tmp_path: Path, schema: int
) -> None:
    """It is whole, holds what it held, and takes events again."""
    path = _released(tmp_path / "a.shelf", schema)

    shelf = open_shelf(str(path))

    assert check(shelf) == []
    held = contents_of(path)
    assert (held.part_types, held.lots, held.on_hand, held.held, held.jobs) == (3, 4, 14, 1, 1)
    assert moves.fit(shelf, 1).events == (held.events + 1,)
    assert bool(list(tmp_path.glob("backups/*"))) == (schema < SCHEMA_VERSION)


def test_an_older_shelf_is_upgraded_with_a_backup_first(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The backup is of the old schema, whole, and is not counted among the usual ones."""
    stocked(tmp_path / "a.shelf").close()
    next_program.become(next_program.write_migrations(tmp_path / "next"), patch=monkeypatch)

    shelf = open_shelf(str(tmp_path / "a.shelf"))

    assert on_hand(shelf) == 5
    assert opening.head_of(tmp_path / "a.shelf")[1] == next_program.NEXT
    (made,) = (tmp_path / "backups").glob("*.backup")
    assert made.name.startswith(f"a-schema{SCHEMA_VERSION}-")
    assert opening.head_of(made)[1] == SCHEMA_VERSION
    verify(made)
    assert backups_of(tmp_path / "a.shelf") == []


def test_an_upgrade_that_fails_leaves_the_shelf_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """No half-made table stays in the way of the next try."""
    stocked(tmp_path / "a.shelf").close()
    there = next_program.write_migrations(tmp_path / "next")
    (broken,) = (there / "versions").glob("*_colour.py")
    good = broken.read_text()
    broken.write_text(good + "    raise RuntimeError('the lights went out')\n")
    with monkeypatch.context() as patch:
        next_program.become(there, patch=patch)
        with pytest.raises(RuntimeError):
            open_shelf(str(tmp_path / "a.shelf"))

    assert on_hand(open_shelf(str(tmp_path / "a.shelf"))) == 5
    broken.write_text(good)
    next_program.become(there, patch=monkeypatch)
    assert on_hand(open_shelf(str(tmp_path / "a.shelf"))) == 5
    with closing(sqlite3.connect(tmp_path / "a.shelf")) as raw:
        assert raw.execute("SELECT colour FROM part_type").fetchall() == [("grey",)]


def test_an_upgrade_that_would_lose_a_reference_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Foreign keys are off while tables are rebuilt, so they are checked before the commit."""
    stocked(tmp_path / "a.shelf").close()
    there = next_program.write_migrations(tmp_path / "next")
    (lossy,) = (there / "versions").glob("*_colour.py")
    lossy.write_text(lossy.read_text() + '    op.execute("DELETE FROM bin")\n')  # noqa: S608
    with monkeypatch.context() as patch:
        next_program.become(there, patch=patch)
        with pytest.raises(StoreUnusable, match="was not upgraded"):
            open_shelf(str(tmp_path / "a.shelf"))

    assert on_hand(open_shelf(str(tmp_path / "a.shelf"))) == 5


def test_a_program_that_is_older_than_the_file_writes_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """After the next program was there, this one refuses and leaves the bytes as they are."""
    stocked(tmp_path / "a.shelf").close()
    with monkeypatch.context() as patch:
        next_program.become(next_program.write_migrations(tmp_path / "next"), patch=patch)
        open_shelf(str(tmp_path / "a.shelf")).close()
    before = (tmp_path / "a.shelf").read_bytes()

    with pytest.raises(StoreUnusable, match="newer program"):
        open_shelf(str(tmp_path / "a.shelf"))
    assert (tmp_path / "a.shelf").read_bytes() == before
