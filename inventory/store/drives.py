"""What lies under a shelf file: a network share, a read-only place, how much room is left."""

from __future__ import annotations

import os
import re
import shutil
from pathlib import Path

from inventory.errors import StoreUnusable

NETWORK_TYPES = frozenset(
    (
        "nfs",
        "nfs4",
        "cifs",
        "smb",
        "smb3",
        "smbfs",
        "9p",
        "afs",
        "ceph",
        "glusterfs",
        "lustre",
        "davfs",
        "ocfs2",
        "gfs2",
        "beegfs",
    )
)
"""File system types of other machines' disks. Source: Linux mount(8), filesystems(5)."""

_MOUNTS = Path("/proc/self/mounts")
_ESCAPED = re.compile(r"\\([0-7]{3})")


def free_bytes(path: Path) -> int:
    """Room left for a file [bytes]; 0 where its folder is gone."""
    try:
        return shutil.disk_usage(path if path.is_dir() else path.parent).free
    except OSError:
        return 0


def enough_room(needed: int, folder: Path) -> None:
    """Refuse before writing what cannot fit [bytes]."""
    left = free_bytes(folder)
    if left < needed:
        raise StoreUnusable(
            f"The disk of {folder} is full: {needed} bytes are needed, {left} are left."
        )


def network_type(path: Path, mounts: str | None = None) -> str | None:
    """The type of the network file system a path lies on; None where it is a disk of this machine.

    ``mounts`` is the text of a mount table; None reads this machine's.
    """
    if str(path).startswith(("\\\\", "//")):
        return "share"
    table = mounts if mounts is not None else _read_mounts()
    whole = path.absolute().resolve()
    best, kind = "", ""
    for line in table.splitlines():
        words = line.split(" ")
        if len(words) < 3:
            continue
        place = _ESCAPED.sub(lambda found: chr(int(found[1], 8)), words[1])
        if len(place) >= len(best) and whole.is_relative_to(place):
            best, kind = place, words[2]
    return kind if _is_network(kind) else None


def _is_network(kind: str) -> bool:
    """True for a file system of another machine; FUSE ones are taken for such but for disks."""
    if kind in NETWORK_TYPES:
        return True
    return kind.startswith("fuse.") and kind.removeprefix("fuse.") not in {"fuseblk", "lxcfs"}


def _read_mounts() -> str:
    """This machine's mount table; empty where there is none to read."""
    try:
        return _MOUNTS.read_text(errors="surrogateescape")
    except OSError:
        return ""


def network_warning(path: Path) -> str | None:
    """A sentence for a shelf on a network drive; None for one on this machine."""
    kind = network_type(path)
    if kind is None:
        return None
    return (
        f"{path} lies on a network drive ({kind}): its locks may not hold between machines, so let"
        " only one machine use it, or keep the shelf on a disk of its own."
    )


def can_write_beside(path: Path) -> bool:
    """True where the file and its folder can be written: SQLite needs both."""
    return os.access(path, os.W_OK) and os.access(path.parent, os.W_OK)
