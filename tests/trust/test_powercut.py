"""The power goes at any moment: no acknowledged event lost, no damaged shelf.

Each run is recorded once and rebuilt at every step that may matter, in four modes (see
``powercut``). Controls with weaker syncs show that the rebuilding can find damage and loss.
"""

from __future__ import annotations

import json
import os
import shutil
import sqlite3
import sys
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path

import pytest

from inventory.bench import moves
from inventory.bench.log import Piece, log_pieces
from inventory.errors import InventoryError
from inventory.store.backup import backup, verify
from inventory.store.check import check
from inventory.store.connection import head_of, sqlite_module, wal_is_safe
from inventory.store.contents import contents_of
from inventory.store.release import SCHEMA_VERSION
from inventory.store.shelf import open_shelf
from tests.trust import next_program, powercut
from tests.trust.places import quick_folder
from tests.trust.powercut import Image

pytestmark = pytest.mark.skipif(
    not powercut.can_record(), reason="strace is not installed, or may not trace here"
)

LIBRARIES = ("", "stdlib")
"""The newer SQLite where it is installed (write-ahead log), and Python's own."""

TAKES = 8
ROWS = 60


def _stocked(folder: Path) -> Path:
    """A shelf with a hundred good pieces as lot 1."""
    shelf = open_shelf(str(folder / "a.shelf"), create=True)
    log_pieces(shelf, [Piece("EX-1", family="other", quantity=100, state="good")])
    shelf.close()
    return folder / "a.shelf"


def _backed_up(folder: Path) -> None:
    """The same, backed up; then a piece was taken."""
    path = _stocked(folder)
    backup(path).replace(folder / "old.backup")
    shelf = open_shelf(str(path))
    moves.fit(shelf, 1)
    shelf.close()


class Recorded:
    """A run of the real program, under strace, in a folder that holds a shelf or nothing."""

    def __init__(
        self,
        folder: Path,
        commands: list[list[str]],
        env: dict[str, str],
        prepare: Callable[[Path], object] = _stocked,
    ) -> None:
        self.folder = folder
        self.run = folder / "run"
        self.run.mkdir()
        prepare(self.run)
        shutil.copytree(self.run, folder / "before")
        (folder / "commands").write_text("\n".join(map(json.dumps, commands)) + "\n")
        code = powercut.record(
            [sys.executable, "-m", "tests.trust.driver", str(folder / "commands")],
            folder / "trace",
            {**os.environ, "SALVAGE_SHELF": str(self.run / "a.shelf"), **env},
        )
        assert code == 0
        assert powercut.is_complete(folder / "before", self.run, folder / "trace")

    def images(self, most: int) -> Iterator[Image]:
        """What the disk could show, at every step or at so many of them."""
        into = quick_folder()
        try:
            yield from powercut.images(
                self.folder / "before", self.run, self.folder / "trace", into / "image", most
            )
        finally:
            shutil.rmtree(into, ignore_errors=True)


def _acknowledged(image: Image) -> int:
    """Commands that had been acknowledged before the cut."""
    return sum(line.startswith("ACK") for line in image.said)


def _taken(image: Image) -> str:
    """A shelf on which pieces were taken one by one."""
    shelf = image.folder / "a.shelf"
    if found := check(open_shelf(str(shelf))):
        return f"damaged: {found[0].sentence}"
    events = contents_of(shelf).events - 1
    if events > _acknowledged(image) + 1:
        return "more than was said"
    return "lost" if events < _acknowledged(image) else "whole"


def _logged(image: Image) -> str:
    """A shelf that was made by the first part that was logged."""
    shelf = image.folder / "a.shelf"
    if not shelf.exists():
        return "lost" if _acknowledged(image) else "whole"
    if found := check(open_shelf(str(shelf))):
        return f"damaged: {found[0].sentence}"
    return "lost" if contents_of(shelf).lots < _acknowledged(image) else "whole"


def _loaded(image: Image) -> str:
    """A shelf into which a file was loaded: all of it or nothing."""
    shelf = image.folder / "a.shelf"
    if found := check(open_shelf(str(shelf))):
        return f"damaged: {found[0].sentence}"
    lots = contents_of(shelf).lots - 1
    if lots not in (0, ROWS):
        return f"half: {lots}"
    return "lost" if _acknowledged(image) and not lots else "whole"


def _brought_back(image: Image) -> str:
    """A shelf in whose place a backup was put: one of the two, and the old one is kept."""
    shelf = image.folder / "a.shelf"
    if found := check(open_shelf(str(shelf))):
        return f"damaged: {found[0].sentence}"
    events, done = contents_of(shelf).events, _acknowledged(image)
    kept = list(image.folder.glob("a-before-*.shelf"))
    if events == 1 and not (kept and contents_of(kept[0]).events == 2):
        return "lost"
    if done and not kept:
        return "lost"
    return "lost" if done == 2 and events != 2 else "whole"


def _upgraded(image: Image) -> str:
    """A shelf that was being upgraded: the old schema or the new one, and its backups."""
    shelf = image.folder / "a.shelf"
    for one in (image.folder / "backups").glob("*.backup"):
        verify(one)
    _, version = head_of(shelf)
    if version == SCHEMA_VERSION:
        if found := check(open_shelf(str(shelf))):
            return f"damaged: {found[0].sentence}"
        return "lost" if _acknowledged(image) else "whole"
    with closing(sqlite_module().connect(str(shelf))) as raw:
        if raw.execute("PRAGMA integrity_check").fetchone() != ("ok",):
            return "damaged"
        grey = raw.execute("SELECT COUNT(*) FROM part_type WHERE colour = 'grey'").fetchone()
    return "whole" if grey == (1,) and backups_of_upgrade(image) else "half"


def backups_of_upgrade(image: Image) -> list[Path]:
    """The backup that was made before the upgrade; it must be on the disk first."""
    return list((image.folder / "backups").glob(f"a-schema{SCHEMA_VERSION}-*.backup"))


def _verdicts(images: Iterator[Image], look: Callable[[Image], str]) -> Counter[str]:
    """What was found, and how often."""
    found: Counter[str] = Counter()
    for image in images:
        try:
            verdict = look(image)
        except InventoryError as error:
            verdict = f"damaged: {error}"
        found[verdict.split(":")[0]] += 1
        found["images"] += 1
    return found


def takes(folder: Path, most: int, **env: str) -> Counter[str]:
    """Pieces taken one by one."""
    return _verdicts(Recorded(folder, [["fit", "1"]] * TAKES, env).images(most), _taken)


def load(folder: Path, most: int, **env: str) -> Counter[str]:
    """A parts file loaded."""
    rows = "".join(f"other,EX-{n},1,B{n % 9}\n" for n in range(ROWS))
    (folder / "parts.csv").write_text("family,type,quantity,bin\n" + rows)
    commands = [["load", str(folder / "parts.csv")]]
    return _verdicts(Recorded(folder, commands, env).images(most), _loaded)


def first(folder: Path, most: int, **env: str) -> Counter[str]:
    """The first parts of a shop: the first one makes the shelf."""
    logs = [["log", f"EX-{n}", "--family", "other"] for n in range(3)]
    recorded = Recorded(folder, logs, env, prepare=lambda _folder: None)
    return _verdicts(recorded.images(most), _logged)


def bring_back(folder: Path, most: int, **env: str) -> Counter[str]:
    """A backup brought back, and a piece taken after it."""
    words = [["restore", str(folder / "run" / "old.backup"), "--yes"], ["fit", "1"]]
    return _verdicts(Recorded(folder, words, env, prepare=_backed_up).images(most), _brought_back)


def upgrade(folder: Path, most: int, **env: str) -> Counter[str]:
    """A shelf upgraded by the next program, with the backup it makes first."""
    there = next_program.write_migrations(folder)
    recorded = Recorded(folder, [["where"]], {"SALVAGE_TEST_NEXT": str(there), **env})
    return _verdicts(recorded.images(most), _upgraded)


RUNS: dict[str, Callable[..., Counter[str]]] = {
    "takes": takes,
    "first": first,
    "load": load,
    "upgrade": upgrade,
    "bring back": bring_back,
}


@pytest.fixture(params=LIBRARIES, ids=["newer", "stdlib"])
def library(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    """Each SQLite in turn, for this process and for the recorded one."""
    monkeypatch.setenv("SALVAGE_SQLITE", request.param)
    return str(request.param)


@pytest.mark.usefixtures("library")
def test_a_power_cut_between_takes_loses_nothing(tmp_path: Path) -> None:
    """Sixty moments: every image is whole and holds what was acknowledged."""
    assert takes(tmp_path, 60) == {"whole": 60, "images": 60}


def test_a_power_cut_during_an_upgrade_loses_nothing(tmp_path: Path) -> None:
    """Sixty moments: the old schema or the new one, and the backup is there before the new one."""
    assert upgrade(tmp_path, 60) == {"whole": 60, "images": 60}


@pytest.mark.slow
@pytest.mark.usefixtures("library")
@pytest.mark.parametrize("run", RUNS)
def test_a_power_cut_at_any_moment_loses_nothing(tmp_path: Path, run: str) -> None:
    """Every step of each run."""
    found = RUNS[run](tmp_path, 4000)

    assert found["images"] > 200
    assert found["whole"] == found["images"], found


def test_without_syncs_the_images_are_damaged(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The control: the rebuilding finds damage where there must be some.

    Source: sqlite.org, PRAGMA synchronous: OFF may corrupt the database at a power loss.
    """
    monkeypatch.setenv("SALVAGE_SQLITE", "stdlib")

    found = takes(tmp_path, 60, SALVAGE_TEST_SYNC="OFF")

    assert found["damaged"] > 10
    assert found["lost"] > 10


@pytest.mark.slow
@pytest.mark.skipif(wal_is_safe(sqlite3.sqlite_version_info), reason="keeps a write-ahead log")
def test_with_full_instead_of_extra_the_last_one_can_be_lost(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The second control, and why a rollback journal is kept with EXTRA.

    Source: sqlite.org, PRAGMA synchronous: EXTRA syncs the folder after the journal is removed.
    """
    monkeypatch.setenv("SALVAGE_SQLITE", "stdlib")

    found = takes(tmp_path, 60, SALVAGE_TEST_SYNC="FULL")

    assert found["lost"] > 5
    assert found["damaged"] == 0
