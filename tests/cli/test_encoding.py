"""Screens without the signs of the trade, and readers that go away early."""

from __future__ import annotations

import io
import os
import subprocess
import sys
from pathlib import Path

import pytest

from inventory.cli.encoding import readable
from inventory.cli.start import main
from tests.cli.calling import demo_file

__all__ = ["demo_file"]


def _salvage(
    *words: str | bytes, shelf: Path | None = None, **environment: str
) -> subprocess.CompletedProcess[bytes]:
    """The command as a process of its own, with settings of its own."""
    told = {**os.environ, "COLUMNS": "80", **environment}
    if shelf is not None:
        told["SALVAGE_SHELF"] = str(shelf)
    call = [sys.executable, "-m", "inventory", *words]
    return subprocess.run(call, capture_output=True, check=False, env=told)


@pytest.mark.parametrize("words", ["low --limit 3", "day", "show 684", "worth U51", "wear --plot"])
def test_an_ascii_screen_gets_signs_spelled(words: str, demo_file: Path) -> None:
    """A plus-minus or an ohm the screen has not never stops a report."""
    said = _salvage(*words.split(), shelf=demo_file, PYTHONIOENCODING="ascii")
    assert said.returncode == 0, said.stderr
    assert said.stdout.isascii()
    assert b"Traceback" not in said.stderr


def test_an_ohm_is_spelled_on_an_ascii_screen() -> None:
    """Units stay readable; a sign without a spelling becomes its number."""
    said = _salvage("read", "4.7 Ω Ж", PYTHONIOENCODING="ascii")
    assert said.stdout.startswith(b"4.7 ohm \\u0416")


def test_a_marking_typed_under_the_c_locale_is_read() -> None:
    """Bytes the locale does not know are UTF-8 all the same."""
    said = _salvage(
        "read", "--family", "switch", "16A μT85".encode(),
        LC_ALL="C", PYTHONUTF8="0", PYTHONCOERCECLOCALE="0",
    )  # fmt: skip
    assert said.returncode == 0, said.stderr
    assert b"uT85" in said.stdout


def test_bytes_that_are_no_text_stay_as_they_are() -> None:
    """What is not UTF-8 is left to be refused by name."""
    assert readable("16 \udcff") == "16 \udcff"


def test_a_reader_that_goes_away_is_no_failure(demo_file: Path) -> None:
    """``salvage ... | head -1`` ends with 0 and says nothing."""
    told = {**os.environ, "SALVAGE_SHELF": str(demo_file)}
    call = [sys.executable, "-m", "inventory", "history", "--limit", "3000"]
    with subprocess.Popen(
        call, stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=told
    ) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.readline()
        process.stdout.close()
        assert process.stderr.read() == b""
        assert process.wait() == 0


def _ends_with(words: list[str], monkeypatch: pytest.MonkeyPatch) -> tuple[int, str, str]:
    """Code and both streams of ``main`` on a screen and a keyboard that know ASCII only."""
    ends = [io.TextIOWrapper(io.BytesIO(), encoding="ascii") for _ in range(3)]
    for name, stream in zip(("stdin", "stdout", "stderr"), ends, strict=True):
        monkeypatch.setattr(sys, name, stream)
    monkeypatch.setattr(sys, "argv", ["salvage", *words])
    with pytest.raises(SystemExit) as ended:
        main()
    for stream in ends[1:]:
        stream.flush()
    assert ends[0].encoding == "utf-8"
    out, err = (stream.buffer.getvalue().decode() for stream in ends[1:])
    return int(str(ended.value.code)), out, err


def test_the_whole_command_spells_what_a_screen_has_not(monkeypatch: pytest.MonkeyPatch) -> None:
    """The result, and a sentence about what was mistyped."""
    code, out, err = _ends_with(["read", "4.7 Ω", "--family", "resistor"], monkeypatch)
    assert (code, err) == (0, "")
    assert "resistance 4.7 ohm" in out

    code, out, err = _ends_with(["read", "x", "--family", "±"], monkeypatch)
    assert (code, out) == (2, "")
    assert "'+/-'" in err


def test_an_argument_of_other_bytes_stays_as_it_came(monkeypatch: pytest.MonkeyPatch) -> None:
    """Neither ASCII nor UTF-8: shown by its numbers, and no traceback."""
    assert readable("4\udcff7") == "4\udcff7"
    code, out, _ = _ends_with(["read", "4\udcff7"], monkeypatch)
    assert code == 0
    assert "\\udcff" in out
