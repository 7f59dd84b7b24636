"""The shelf is locked only while rows are written; reading them disturbs nobody."""

from __future__ import annotations

import tempfile
from pathlib import Path

import pytest

from inventory.bench import loading
from inventory.bench.files import LoadRefused, rows_in
from inventory.errors import Refused, StoreUnusable
from inventory.store import connection as opening
from inventory.store import loaded, lots
from inventory.store.files import digest_of
from inventory.store.shelf import Shelf, open_shelf
from tests.store.shelves import place


def _file(folder: Path, rows: int) -> Path:
    """A parts file with so many fuses."""
    path = folder / "parts.csv"
    lines = [f"T{n % 30 + 1}AL250V,fuse,{n % 5 + 1},B{n % 9}\n" for n in range(rows)]
    path.write_text("marking,family,quantity,bin\n" + "".join(lines), encoding="utf-8")
    return path


def _stock(shelf: Shelf) -> list[tuple[int, int, str | None]]:
    """Part type, pieces and bin of every lot."""
    with shelf.read() as connection:
        return [(lot.part_id, lot.on_hand, lot.bin) for lot in lots.where(connection)]


def test_another_bench_writes_while_a_file_is_read(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The lock is not held yet when the rows are understood."""
    monkeypatch.setattr(opening, "WAIT_SECONDS", 0.1)
    shelf = open_shelf(place(tmp_path / "a.shelf"), create=True)
    other = open_shelf(place(tmp_path / "a.shelf"), bench="south")
    written = list[str]()

    def rows_beside_a_bench(path: Path, encoding: str | None = None) -> object:
        for row in rows_in(path, encoding):
            with other.write() as connection:
                lots.know_bins(connection, [f"S{row.line}"])
            written.append(f"S{row.line}")
            yield row

    monkeypatch.setattr(loading, "rows_in", rows_beside_a_bench)
    done = loading.load(shelf, _file(tmp_path, 5))

    assert len(written) == 5
    assert done.lots == 5


def test_a_file_with_bad_rows_is_refused_while_another_bench_writes(tmp_path: Path) -> None:
    """Nothing of it goes in, so nobody is waited for."""
    shelf = open_shelf(place(tmp_path / "a.shelf"), create=True)
    other = open_shelf(place(tmp_path / "a.shelf"), bench="south")
    path = _file(tmp_path, 3)
    path.write_text(path.read_text() + "x,fuse,-1,B1\n", encoding="utf-8")

    with other.write(), pytest.raises(LoadRefused, match="1 row is not understood"):
        loading.load(shelf, path)


def test_a_file_another_bench_loads_meanwhile_is_not_loaded_twice(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It is looked up again once the shelf is locked."""
    shelf = open_shelf(place(tmp_path / "a.shelf"), create=True)
    other = open_shelf(place(tmp_path / "a.shelf"), bench="south")
    path = _file(tmp_path, 3)

    def rows_loaded_elsewhere(path: Path, encoding: str | None = None) -> object:
        monkeypatch.undo()
        loading.load(other, path)
        yield from rows_in(path, encoding)

    monkeypatch.setattr(loading, "rows_in", rows_loaded_elsewhere)
    with pytest.raises(Refused, match="was loaded already"):
        loading.load(shelf, path)
    assert len(_stock(shelf)) == 3


@pytest.mark.parametrize("memory", [0, loading.KEPT_IN_MEMORY])
def test_rows_that_wait_in_a_file_arrive_as_those_in_memory(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, memory: int
) -> None:
    """Chunk after chunk, in the order of the file, each row once."""
    monkeypatch.setattr(loading, "KEPT_IN_MEMORY", memory)
    monkeypatch.setattr(loading, "CHUNK", 7)
    shelf = open_shelf(place(tmp_path / "a.shelf"), create=True)
    told = list[int]()

    done = loading.load(shelf, _file(tmp_path, 50), progress=told.append)

    assert (done.lots, done.first_lot) == (50, 1)
    assert _stock(shelf) == [(n % 30 + 1, n % 5 + 1, f"B{n % 9}") for n in range(50)]
    assert told == sorted(told)
    assert told[-1] == 50


def test_a_full_temporary_folder_is_said_and_nothing_is_loaded(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The sentence names the folder; the file may be loaded again."""
    shelf = open_shelf(place(tmp_path / "a.shelf"), create=True)
    monkeypatch.setattr(loading, "KEPT_IN_MEMORY", 1)
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path / "gone"))
    path = _file(tmp_path, 3)

    with pytest.raises(StoreUnusable, match="temporary folder"):
        loading.load(shelf, path)
    assert _stock(shelf) == []
    with shelf.read() as connection:
        assert loaded.when(connection, digest_of(path)) is None
