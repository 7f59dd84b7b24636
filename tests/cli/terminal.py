"""Sitting at a terminal: a real pseudo-terminal, with somebody who types."""

from __future__ import annotations

import fcntl
import io
import os
import pty
import struct
import subprocess
import sys
import termios
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, redirect_stderr, redirect_stdout, suppress
from threading import Thread
from typing import Literal, TextIO
from unittest.mock import patch

from inventory.cli.start import run
from tests.cli.calling import Said

_OWN_TERMINAL = """
import os, signal, sys
os.close(os.open(os.ttyname(0), os.O_RDWR))
signal.signal(signal.SIGINT, signal.default_int_handler)
from inventory.cli.start import main
main()
"""
"""The first terminal a new session opens is the one its Ctrl-C comes from. Source: tty_ioctl(4).
Where the tests run in the background, Ctrl-C is ignored by all their children unless they say so.
Source: POSIX shell, asynchronous lists."""

PLAIN = {"TERM": "xterm", "NO_COLOR": "1", "COLUMNS": "80"}
"""A terminal of 80 columns that is asked for no colour."""


class Screen:
    """What a terminal has shown; it is read while the program runs, as a person would."""

    def __init__(self) -> None:
        self.ours, self.theirs = pty.openpty()
        fcntl.ioctl(self.theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
        self._silence()
        self._seen: list[bytes] = []
        self._reader = Thread(target=self._read, daemon=True)
        self._reader.start()

    def _silence(self) -> None:
        """Keys that are pressed do not come back: only what the program writes is seen."""
        settings = termios.tcgetattr(self.theirs)
        settings[3] &= ~termios.ECHO
        termios.tcsetattr(self.theirs, termios.TCSANOW, settings)

    def _read(self) -> None:
        """Take what comes until the other end is closed."""
        with suppress(OSError):
            while some := os.read(self.ours, 65536):
                self._seen.append(some)

    def press(self, keys: str) -> None:
        r"""Press keys; ``\x03`` is Ctrl-C, ``\x04`` Ctrl-D."""
        os.write(self.ours, keys.encode())

    def text(self) -> str:
        """All that was shown so far, lines ended as in a file."""
        return b"".join(self._seen).decode("utf-8", "replace").replace("\r\n", "\n")

    def wait_for(self, words: str, seconds: float = 30) -> None:
        """Wait until words are on the screen."""
        until = time.monotonic() + seconds
        while words not in self.text():
            if time.monotonic() > until:
                raise AssertionError(f"{words!r} never came; shown was {self.text()!r}")
            time.sleep(0.01)

    def open(self, mode: Literal["r", "w"]) -> TextIO:
        """The program's end, as a stream."""
        return open(os.dup(self.theirs), mode, encoding="utf-8")  # noqa: PTH123 - a number

    def close(self) -> None:
        """Let go of the program's end; what is still on its way is read."""
        os.close(self.theirs)
        self._reader.join(10)
        os.close(self.ours)


@contextmanager
def screen() -> Iterator[Screen]:
    """A terminal that is there for a while."""
    made = Screen()
    try:
        yield made
    finally:
        made.close()


def sit(
    *words: str, keys: str = "", piped: bool = False, settings: Mapping[str, str] = PLAIN
) -> Said:
    """Run ``salvage`` in this process at a terminal, the keys pressed before it asks.

    ``err`` is what was on the screen; ``out`` is the same, or what went into the pipe.
    """
    shown = Screen()
    shown.press(keys)
    with (
        patch.dict(os.environ, {**PLAIN, **settings}),
        shown.open("r") as typed,
        shown.open("w") as err,
    ):
        out = io.StringIO() if piped else err
        with patch.object(sys, "stdin", typed), redirect_stderr(err), redirect_stdout(out):
            code = run(list(words))
    shown.close()
    return Said(
        code, out.getvalue() if isinstance(out, io.StringIO) else shown.text(), shown.text()
    )


def sit_alone(*words: str, at: str, keys: str) -> Said:
    """Run ``salvage`` as a process whose terminal this is; keys are pressed at some words."""
    with screen() as shown:
        process = subprocess.Popen(
            [sys.executable, "-c", _OWN_TERMINAL, *words],
            stdin=shown.theirs, stdout=subprocess.PIPE, stderr=shown.theirs, text=True,
            env={**os.environ, **PLAIN}, start_new_session=True,
        )  # fmt: skip
        with process:
            try:
                shown.wait_for(at)
                shown.press(keys)
                out, _ = process.communicate(timeout=60)
            except BaseException:
                process.kill()
                raise
    return Said(process.returncode, out, shown.text())
