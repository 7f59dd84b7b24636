"""What lies under a shelf file: network shares are known by their mount."""

from __future__ import annotations

from pathlib import Path

import pytest

from inventory.store import connection as opening
from inventory.store import drives
from inventory.store.shelf import open_shelf
from tests.store.shelves import stocked

MOUNTS = """\
/dev/sda1 / ext4 rw,relatime 0 0
server:/shop /srv/shop nfs4 rw,vers=4.2 0 0
//server/share /srv/with\\040space cifs rw 0 0
/dev/sdb1 /srv/shop/local ext4 rw 0 0
me@host: /srv/far fuse.sshfs rw 0 0
/dev/sdc1 /media/stick fuseblk rw 0 0
"""
"""A mount table in the form of fstab(5); blanks in a path stand as \\040. Source: proc(5)."""


@pytest.mark.parametrize(
    ("path", "kind"),
    [
        ("/home/a.shelf", None),
        ("/srv/shop/a.shelf", "nfs4"),
        ("/srv/shopping/a.shelf", None),
        ("/srv/shop/local/a.shelf", None),
        ("/srv/with space/a.shelf", "cifs"),
        ("/srv/far/a.shelf", "fuse.sshfs"),
        ("/media/stick/a.shelf", None),
        ("//server/share/a.shelf", "share"),
        (r"\\server\share\a.shelf", "share"),
    ],
)
def test_the_deepest_mount_decides(path: str, kind: str | None) -> None:
    """A local disk inside a share is local, a share inside a disk is not."""
    assert drives.network_type(Path(path), MOUNTS) == kind


def test_a_machine_without_a_mount_table_has_no_network_drives(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where nothing can be read, nothing is claimed."""
    monkeypatch.setattr(drives, "_MOUNTS", tmp_path / "none")

    assert drives.network_type(tmp_path / "a.shelf") is None


def test_a_shelf_on_a_network_drive_is_warned_of_and_keeps_no_write_ahead_log(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Source: sqlite.org, Write-Ahead Logging: all processes must be on the same machine."""
    table = tmp_path / "mounts"
    table.write_text(f"server:/shop {tmp_path} nfs4 rw 0 0\n")
    monkeypatch.setattr(drives, "_MOUNTS", table)

    shelf = stocked(tmp_path / "a.shelf")

    assert not opening.keeps_wal(tmp_path / "a.shelf")
    assert "network drive (nfs4)" in shelf.warnings[0]
    assert open_shelf(str(tmp_path / "a.shelf")).warnings == shelf.warnings


def test_a_shelf_on_a_disk_of_this_machine_is_not_warned_of(tmp_path: Path) -> None:
    """No warning without a reason."""
    assert stocked(tmp_path / "a.shelf").warnings == ()


def test_room_on_a_folder_that_is_gone_is_none(tmp_path: Path) -> None:
    """A drive that was pulled out holds nothing."""
    assert drives.free_bytes(tmp_path / "gone" / "a.shelf") == 0
    assert drives.free_bytes(tmp_path / "a.shelf") > 0
