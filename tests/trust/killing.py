"""Killing salvage at a random moment, and looking at what it left.

A child is forked with everything imported, runs real commands through the command line's own
``run``, and says ``ACK n`` after each that ended well. It is killed with SIGKILL, which no
program can catch, after a random time. ``killed_process`` does the same to a process of its own
(``python -m inventory ...``), start-up included.
"""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from unittest import mock

from inventory.cli.main import run
from inventory.store.check import check
from inventory.store.shelf import open_shelf


@dataclass(frozen=True, slots=True)
class Killed:
    """What is known of a child that was killed."""

    acknowledged: int  # commands that were acknowledged before the end
    finished: bool  # it was done before the signal came
    seconds: float = 0.0  # how long it worked


def killed_child(
    shelf: Path, commands: Sequence[Sequence[str]], seconds: float, prepare: Callable[[], None]
) -> Killed:
    """Fork, run commands, kill after some seconds from the first moment of work."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        _work(shelf, commands, writing, prepare)
    os.close(writing)
    os.read(reading, 6)  # READY
    began = time.monotonic()
    finished = _ended(child, seconds)
    worked = time.monotonic() - began
    if not finished:
        os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)
    said = b""
    while chunk := os.read(reading, 65536):
        said += chunk
    os.close(reading)
    return Killed(said.count(b"ACK"), finished or said.endswith(b"END\n"), worked)


def _ended(child: int, seconds: float) -> bool:
    """True where a child ended of itself in time."""
    until = time.monotonic() + seconds
    while (left := until - time.monotonic()) > 0:
        time.sleep(min(0.002, left))
        if os.waitpid(child, os.WNOHANG)[0]:
            return True
    return False


def _work(
    shelf: Path, commands: Sequence[Sequence[str]], writing: int, prepare: Callable[[], None]
) -> None:
    """The child: never comes back."""
    try:
        silence = os.open(os.devnull, os.O_WRONLY)
        os.dup2(silence, 1)
        os.dup2(silence, 2)
        os.environ["SALVAGE_SHELF"] = str(shelf)
        prepare()
        os.write(writing, b"READY\n")
        for command in commands:
            if run(list(command)) == 0:
                os.write(writing, b"ACK\n")
        os.write(writing, b"END\n")
    finally:
        os._exit(0)


def killed_process(shelf: Path, command: Sequence[str], seconds: float) -> Killed:
    """One command in a process of its own, killed after some seconds."""
    with subprocess.Popen(
        [sys.executable, "-m", "inventory", *command],
        env={**os.environ, "SALVAGE_SHELF": str(shelf)},
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
    ) as process:
        try:
            process.wait(seconds)
        except subprocess.TimeoutExpired:
            process.kill()
        code = process.wait()
    return Killed(int(code == 0), finished=code >= 0)


def whole(shelf: Path) -> None:
    """The shelf opens, and checks itself without a finding."""
    opened = open_shelf(str(shelf))
    assert check(opened) == []
    opened.close()


def run_on(shelf: Path, command: Sequence[str]) -> int:
    """Run one command on a shelf in this process; returns its exit code."""
    with mock.patch.dict(os.environ, {"SALVAGE_SHELF": str(shelf)}):
        return run(list(command))


def moments(rounds: int, longest: float, seed: int) -> list[float]:
    """Random times to kill at [s]."""
    chance = random.Random(seed)
    return [longest * chance.random() for _ in range(rounds)]
