"""Drafts: built beside their place, moved there whole."""

from __future__ import annotations

import os
import time
from pathlib import Path

import pytest

from inventory.store import drafts
from inventory.store.drafts import draft_of, settle, settle_new


def test_a_draft_that_was_not_settled_leaves_nothing(tmp_path: Path) -> None:
    """Neither the draft nor what SQLite lays beside it."""
    with draft_of(tmp_path / "a") as draft:
        for ending in ("", *drafts.COMPANIONS):
            Path(f"{draft}{ending}").write_text("half")

    assert list(tmp_path.iterdir()) == []


def test_a_settled_draft_replaces_the_file(tmp_path: Path) -> None:
    """The old file is there until the new one is."""
    (tmp_path / "a").write_text("old")
    with draft_of(tmp_path / "a") as draft:
        draft.write_text("new")
        assert (tmp_path / "a").read_text() == "old"
        settle(draft, tmp_path / "a")

    assert [one.read_text() for one in tmp_path.iterdir()] == ["new"]


@pytest.mark.parametrize("links", [True, False])
def test_the_first_of_two_new_files_stays(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, *, links: bool
) -> None:
    """Also on a stick whose file system knows no hard links."""
    if not links:
        monkeypatch.setattr(os, "link", _no_links)
    with draft_of(tmp_path / "a") as draft:
        draft.write_text("first")
        assert settle_new(draft, tmp_path / "a")
    with draft_of(tmp_path / "a") as draft:
        draft.write_text("second")
        assert not settle_new(draft, tmp_path / "a")

    assert (tmp_path / "a").read_text() == "first"


def _no_links(source: Path, target: Path) -> None:
    """A file system without hard links."""
    if target.exists():
        raise FileExistsError(str(target))
    raise PermissionError(1, "Operation not permitted", str(source))


def test_an_old_draft_goes_even_if_its_process_number_lives_on(tmp_path: Path) -> None:
    """Process numbers are given again; a day later it is somebody else's."""
    draft = tmp_path / f".a.{os.getppid()}.salvage-draft"
    draft.write_text("half")
    yesterday = time.time() - 90_000
    os.utime(draft, (yesterday, yesterday))

    drafts.clean(tmp_path)

    assert not draft.exists()


def test_files_that_are_not_ours_stay(tmp_path: Path) -> None:
    """Only names in the form of a draft are touched."""
    for name in (".a.999999999.draft", "a.999999999.salvage-draft", ".a.x.salvage-draft"):
        (tmp_path / name).write_text("theirs")

    drafts.clean(tmp_path)

    assert len(list(tmp_path.iterdir())) == 3
