"""``salvage backup / restore / check / undo`` as a person meets them."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.calling import call


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with a shelf of five good pieces, named for all commands."""
    monkeypatch.setenv("SALVAGE_SHELF", str(tmp_path / "shop.shelf"))
    monkeypatch.setenv("COLUMNS", "200")
    call("log", "EX-1", "--family", "other", "--state", "good", "--bin", "A1", "-n", "5")
    return tmp_path


def _backup(folder: Path) -> Path:
    """The only backup in the usual place."""
    (made,) = (folder / "backups").glob("*.backup")
    return made


def test_backup_restore_and_check_bring_a_shop_back(folder: Path) -> None:
    """Backed up, emptied by mistake, brought back; the old shelf stays."""
    assert call("backup").out.startswith("Backup: ")
    call("scrap", "1", "-n", "5")

    said = call("restore", str(_backup(folder)), "--yes")

    assert said.code == 0
    assert "Pieces on hand" in said.out
    assert "The old shelf is" in said.out
    assert "5 on hand" in call("show", "1").out or '"on_hand": 5' in call("show", "1", "--json").out
    assert call("check").out == "The shelf is whole.\n"


def test_restore_asks_before_it_changes_anything(folder: Path) -> None:
    """Without a terminal there is nobody to ask, so nothing happens."""
    call("backup")

    said = call("restore", str(_backup(folder)))

    assert said.code == 1
    assert "Nothing was changed" in said.err


def test_a_damaged_backup_is_refused(folder: Path) -> None:
    """Exit code 3 and one sentence."""
    call("backup")
    made = _backup(folder)
    made.write_bytes(made.read_bytes()[:-100])

    said = call("restore", str(made), "--yes")

    assert (said.code, said.out) == (3, "")
    assert "SHA-256 differs" in said.err


def test_check_names_what_is_wrong_and_mends_what_it_can(folder: Path) -> None:
    """Exit code 3 with findings, also as JSON; 0 once they are mended."""
    from inventory.store.shelf import open_shelf

    with open_shelf(str(folder / "shop.shelf")).write() as connection:
        connection.exec_driver_sql("UPDATE lot SET on_hand = 9")

    found = call("check", "--json")
    assert found.code == 3
    assert json.loads(found.out)["findings"][0]["about"] == "sums"
    mended = call("check", "--repair")
    assert mended.code == 0
    assert "Mended: Lot 1 says 9 on hand" in mended.err
    assert call("check").code == 0


def test_undo_says_what_it_took_back(folder: Path) -> None:
    """Dry first, then for real, then there is nothing left of this bench."""
    call("fit", "1")

    assert "Would undo: event 2, fitted, 1 piece, lot 1" in call("undo", "--dry-run").out
    assert json.loads(call("undo", "--json").out)["undone"] == [2]
    assert call("undo").code == 0
    nothing = call("undo")
    assert nothing.code == 1
    assert "nothing of 'bench' to undo" in nothing.err
    assert (folder / "shop.shelf").exists()


def test_undo_leaves_what_another_bench_wrote(folder: Path) -> None:
    """Each bench takes back its own."""
    call("--bench", "south", "fit", "1")

    said = call("--bench", "north", "undo")

    assert said.code == 1
    assert "nothing of 'north'" in said.err
    assert (folder / "shop.shelf").exists()


def test_a_dry_backup_says_where_it_would_go_and_what_would_go_for_it(folder: Path) -> None:
    """In lines and as JSON; nothing is copied and nothing removed."""
    call("backup")
    call("fit", "1")
    before = sorted((folder / "backups").iterdir())
    said = call("backup", "--keep", "1", "--dry-run")
    row = json.loads(call("backup", "--keep", "1", "--dry-run", "--json").out)

    assert said.out.startswith("Would back up ")
    assert f"to {folder / 'backups'}." in said.out
    assert said.out.count("Would remove ") == len(row["would_remove"]) == 1
    assert row["backup"] is None
    assert sorted((folder / "backups").iterdir()) == before


def test_a_database_server_is_not_backed_up_as_a_file() -> None:
    """It has tools of its own."""
    said = call("--shelf", "postgresql://nobody@localhost/none", "backup")

    assert said.code == 2
    assert said.err == "A database server is backed up with its own tools.\n"


def test_a_shelf_that_cannot_be_read_is_said_before_it_is_replaced(folder: Path) -> None:
    """The backup's side of the table stands alone."""
    call("backup")
    (folder / "shop.shelf").write_bytes(b"SQLite format 3\0" + b"\xff" * 8000)
    said = call("restore", str(_backup(folder)), "--dry-run")

    assert said.code == 0, said.err
    assert "The shelf that is there cannot be read: " in said.err
    assert any(line.split()[:2] == ["Lots", "-"] for line in said.out.splitlines())


def test_what_a_repair_would_mend_is_said_dry(folder: Path) -> None:
    """And is still there afterwards."""
    from inventory.store.shelf import open_shelf

    with open_shelf(str(folder / "shop.shelf")).write() as connection:
        connection.exec_driver_sql("UPDATE lot SET on_hand = 9")
    said = call("check", "--repair", "--dry-run")

    assert said.code == 3
    assert "Would mend: Lot 1 says 9 on hand" in said.err
    assert "('salvage check --repair' mends it)" in call("check").err
