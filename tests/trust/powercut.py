"""A power cut, rebuilt: what could lie on the disk at any moment of a recorded run.

``record`` lets strace write down every write, truncation, sync and change of name that a real
process does in one folder, and what it said on standard output. ``images`` plays the record and
lays down, for any moment, a folder as a disk could show it after the power went: what was synced
is there; of what was not, nothing, all, a random part, or a random part torn at 512 bytes. A
name (made, moved or removed) is on the disk once its folder was synced; before that, a random
number of the changes, in their order, may have got there. A disk that lies about syncing is
outside the model.
"""

from __future__ import annotations

import random
import re
import shutil
import subprocess
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

SECTOR = 512
"""Bytes a disk writes whole. Source: ATA/ATAPI Command Set, logical sector size."""

MODES = ("dropped", "kept", "random", "torn")
"""What became of the writes that were not synced."""

_CALLS = (
    "openat,open,creat,close,dup,dup2,dup3,lseek,write,writev,pwrite64,pwritev,ftruncate,fsync,"
    "fdatasync,sendfile,unlink,unlinkat,rename,renameat,renameat2,link,linkat"
)
_LINE = re.compile(r"[0-9]+\s+(?P<call>[a-z0-9_]+)\((?P<inside>.*)\)\s+=\s+(?P<result>-?[0-9]+)")
_TEXT = re.compile(r'"((?:\\x[0-9a-f]{2})*)"')


@dataclass(slots=True)
class File:
    """The bytes of one file: those on the disk, and the changes that are only under way."""

    durable: bytearray = field(default_factory=bytearray)
    pending: list[tuple[int, bytes | None]] = field(default_factory=list)  # None: cut off here

    def sync(self) -> None:
        """All changes get to the disk."""
        for offset, data in self.pending:
            _apply(self.durable, offset, data)
        self.pending.clear()

    def size(self) -> int:
        """The size a running process sees."""
        size = len(self.durable)
        for offset, data in self.pending:
            size = offset if data is None else max(size, offset + len(data))
        return size

    def after_cut(self, mode: str, chance: random.Random) -> bytes:
        """What the disk could show after the cut."""
        left = bytearray(self.durable)
        for offset, data in self.pending:
            if mode == "torn" and data is not None:
                _apply_torn(left, offset, data, chance)
            elif mode == "kept" or (mode in ("random", "torn") and chance.random() < 0.5):
                _apply(left, offset, data)
        return bytes(left)


def _apply(target: bytearray, offset: int, data: bytes | None) -> None:
    """Write, with zeros in a gap, or cut off."""
    if data is None:
        del target[offset:]
        target.extend(bytes(max(0, offset - len(target))))
        return
    target.extend(bytes(max(0, offset + len(data) - len(target))))
    target[offset : offset + len(data)] = data


def _apply_torn(target: bytearray, offset: int, data: bytes, chance: random.Random) -> None:
    """Some of the sectors of a write."""
    start = 0
    while start < len(data):
        end = min(len(data), start + SECTOR - (offset + start) % SECTOR)
        if chance.random() < 0.5:
            _apply(target, offset + start, data[start:end])
        start = end


@dataclass(slots=True)
class Disk:
    """One folder with its sub-folders: names on the disk, and changes of names under way."""

    files: dict[str, File] = field(default_factory=dict)  # as a running process sees them
    durable: dict[str, File] = field(default_factory=dict)
    pending: list[tuple[str, str, File | None]] = field(default_factory=list)  # folder, name, file
    said: list[str] = field(default_factory=list)

    @classmethod
    def of(cls, folder: Path) -> Disk:
        """The folder as it lies there, all of it on the disk."""
        disk = cls()
        for path in folder.rglob("*"):
            if path.is_file():
                disk.files[str(path.relative_to(folder))] = File(bytearray(path.read_bytes()))
        disk.durable = dict(disk.files)
        return disk

    def name(self, name: str, file: File | None) -> None:
        """Give a name to a file, or take it away."""
        self.pending.append((str(Path(name).parent), name, file))
        _name(self.files, name, file)

    def sync_folder(self, folder: str) -> None:
        """The names of one folder get to the disk."""
        for one in [change for change in self.pending if change[0] == folder]:
            _name(self.durable, one[1], one[2])
        self.pending = [change for change in self.pending if change[0] != folder]

    def lay_down(self, folder: Path, mode: str, chance: random.Random) -> None:
        """Write what the disk could show after a cut at this moment."""
        names = dict(self.durable)
        reached = {"dropped": 0, "kept": len(self.pending)}.get(
            mode, chance.randint(0, len(self.pending))
        )
        for _, name, file in self.pending[:reached]:
            _name(names, name, file)
        for name, file in names.items():
            target = folder / name
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(file.after_cut(mode, chance))


def _name(names: dict[str, File], name: str, file: File | None) -> None:
    """One change of names."""
    if file is None:
        names.pop(name, None)
    else:
        names[name] = file


@dataclass(frozen=True, slots=True)
class Image:
    """A folder after a cut."""

    folder: Path
    step: int
    mode: str
    said: tuple[str, ...]  # lines the process had printed before the cut


def record(command: Sequence[str], trace: Path, env: dict[str, str]) -> int:
    """Run a command under strace; returns how it ended."""
    watched = ["strace", "-f", "-qq", "--seccomp-bpf", "-xx", "-s", "100000000"]
    done = subprocess.run(
        [*watched, "-e", f"trace={_CALLS}", "-o", str(trace), *command], env=env, check=False
    )
    return done.returncode


def can_record() -> bool:
    """True where strace is installed and may trace."""
    if shutil.which("strace") is None:
        return False
    tried = subprocess.run(["strace", "-qq", "-o", "/dev/null", "true"], check=False)
    return tried.returncode == 0


@dataclass(slots=True)
class Replay:
    """The calls of a recorded process, played on a disk."""

    disk: Disk
    folder: Path
    handles: dict[int, str] = field(default_factory=dict)
    opened: dict[int, File] = field(default_factory=dict)
    places: dict[int, int] = field(default_factory=dict)
    half_line: str = ""

    def play(self, line: str) -> bool:
        """Play one line; True where it may change what a cut leaves."""
        found = _LINE.match(line)
        if found is None or int(found["result"]) < 0:
            if "unfinished" in line:
                raise ValueError(f"the recorded process has more than one thread: {line[:80]}")
            return False
        act = getattr(self, f"_{_SAME.get(found['call'], found['call'])}")
        return bool(act(found["inside"], int(found["result"])))

    def _inside(self, text: str) -> str | None:
        """A path of the call, relative to the folder; None for one outside."""
        path = Path(text)
        whole = path if path.is_absolute() else Path.cwd() / path
        return str(whole.relative_to(self.folder)) if whole.is_relative_to(self.folder) else None

    def _openat(self, inside: str, handle: int) -> bool:
        name = self._inside(_texts(inside)[0])
        self.opened.pop(handle, None)
        if name is None:
            return False
        self.handles[handle], self.places[handle] = name, 0
        if "O_DIRECTORY" in inside or (self.folder / name).is_dir() or name == ".":
            return False
        fresh = name not in self.disk.files and "O_CREAT" in inside
        if fresh:
            self.disk.name(name, File())
        if name in self.disk.files:
            self.opened[handle] = self.disk.files[name]
            if "O_TRUNC" in inside and not fresh:
                self.opened[handle].pending.append((0, None))
        return fresh or "O_TRUNC" in inside

    def _close(self, inside: str, _result: int) -> bool:
        handle = _number(inside, 0)
        self.opened.pop(handle, None)
        self.handles.pop(handle, None)
        return False

    def _dup(self, inside: str, result: int) -> bool:
        if _number(inside, 0) in self.opened:
            raise ValueError("a file of the folder has two handles; the replay knows only one")
        self.opened.pop(result, None)
        return False

    def _lseek(self, inside: str, result: int) -> bool:
        self.places[_number(inside, 0)] = result
        return False

    def _write(self, inside: str, result: int) -> bool:
        handle, data = _number(inside, 0), b"".join(_data(inside))[:result]
        if handle == 1:
            *lines, self.half_line = (self.half_line + data.decode(errors="replace")).split("\n")
            self.disk.said += lines
            return bool(lines)
        file = self.opened.get(handle)
        if file is None:
            return False
        place = self.places.get(handle, 0)
        file.pending.append((place, data))
        self.places[handle] = place + result
        return True

    def _pwrite64(self, inside: str, result: int) -> bool:
        file = self.opened.get(_number(inside, 0))
        if file is None:
            return False
        file.pending.append((_number(inside, -1), b"".join(_data(inside))[:result]))
        return True

    def _sendfile(self, inside: str, result: int) -> bool:
        """One file copied into another by the system: sendfile(to, from, [offset] => ..., n)."""
        target, source, offset = (int(found) for found in re.findall(r"[0-9]+", inside)[:3])
        file = self.opened.get(target)
        if file is None:
            return False
        if source not in self.opened:
            raise ValueError("bytes came from outside the folder; the replay cannot know them")
        data = self.opened[source].after_cut("kept", random.Random(0))[offset : offset + result]
        place = self.places.get(target, 0)
        file.pending.append((place, data))
        self.places[target] = place + result
        return True

    def _ftruncate(self, inside: str, _result: int) -> bool:
        file = self.opened.get(_number(inside, 0))
        if file is None:
            return False
        file.pending.append((_number(inside, -1), None))
        return True

    def _fsync(self, inside: str, _result: int) -> bool:
        handle = _number(inside, 0)
        if handle in self.opened:
            self.opened[handle].sync()
        elif handle in self.handles:
            self.disk.sync_folder(self.handles[handle])
        return handle in self.handles

    def _unlink(self, inside: str, _result: int) -> bool:
        name = self._inside(_texts(inside)[0])
        if name is None or name not in self.disk.files:
            return False
        self.disk.name(name, None)
        return True

    def _rename(self, inside: str, _result: int) -> bool:
        source, target = (self._inside(text) for text in _texts(inside))
        if source is None or target is None:
            return False
        self.disk.name(target, self.disk.files[source])
        self.disk.name(source, None)
        return True

    def _link(self, inside: str, _result: int) -> bool:
        source, target = (self._inside(text) for text in _texts(inside))
        if source is None or target is None:
            return False
        self.disk.name(target, self.disk.files[source])
        return True


_SAME = {
    "open": "openat",
    "creat": "openat",
    "fdatasync": "fsync",
    "pwritev": "pwrite64",
    "writev": "write",
    "unlinkat": "unlink",
    "renameat": "rename",
    "renameat2": "rename",
    "linkat": "link",
    "dup2": "dup",
    "dup3": "dup",
}
"""Calls that are played alike."""


def _data(inside: str) -> list[bytes]:
    """The byte strings of a call."""
    return [bytes.fromhex(found.replace("\\x", "")) for found in _TEXT.findall(inside)]


def _texts(inside: str) -> list[str]:
    """The paths of a call."""
    return [data.decode(errors="surrogateescape") for data in _data(inside)]


def _number(inside: str, position: int) -> int:
    """A whole-number argument of a call: the first or the last."""
    return int(inside.split(",", maxsplit=1)[0] if position == 0 else inside.rsplit(",", 1)[1])


def steps(before: Path, folder: Path, trace: Path) -> Iterator[Disk]:
    """The disk after every step that may matter; ``before`` is the folder as it was at first."""
    replay = Replay(Disk.of(before), folder)
    with trace.open() as lines:
        for line in lines:
            if replay.play(line):
                yield replay.disk


def is_complete(before: Path, folder: Path, trace: Path) -> bool:
    """Whether the record, played to its end, gives the folder as it is now: no call was missed."""
    disk = Disk.of(before)
    for disk in steps(before, folder, trace):  # noqa: B007 - the last one is wanted
        pass
    left = {
        name: file.after_cut("kept", random.Random(0))
        for name, file in disk.files.items()
        if not name.endswith("-shm")  # written through memory; never read after a crash
    }
    return left == {
        str(path.relative_to(folder)): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
    }


def images(
    before: Path, folder: Path, trace: Path, into: Path, most: int, seed: int = 1
) -> Iterator[Image]:
    """Images at every step, in every mode; thinned out evenly where there would be too many."""
    chance = random.Random(seed)
    total = sum(1 for _ in steps(before, folder, trace)) * len(MODES)
    wanted = set(chosen(total, most))
    number = 0
    for step, disk in enumerate(steps(before, folder, trace)):
        for mode in MODES:
            if number in wanted:
                shutil.rmtree(into, ignore_errors=True)
                into.mkdir(parents=True)
                disk.lay_down(into, mode, chance)
                yield Image(into, step, mode, tuple(disk.said))
            number += 1


def chosen(total: int, most: int) -> Iterable[int]:
    """At most so many of the numbers below ``total``, spread evenly."""
    if total <= most:
        return range(total)
    return (round(index * (total - 1) / (most - 1)) for index in range(most))
