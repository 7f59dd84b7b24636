"""Input as an enemy: what is typed or loaded never acts on the terminal, the disk or the shelf."""

from __future__ import annotations

import csv
import gzip
import json
import os
import shutil
import unicodedata
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from inventory.store.check import check
from inventory.store.files import write_csv
from inventory.store.shelf import open_shelf
from tests.cli.calling import Said, call
from tests.trust.places import quick_folder

HOSTILE = {
    "colour": "16A \x1b[31m250V\x1b[0m",
    "title": "16A \x1b]0;owned\x07 250V",
    "link": "\x1b]8;;http://example.org\x1b\\16A\x1b]8;;\x1b\\ 250V",
    "one-sign control": "16A \x9b31m 250V",
    "bell and back": "16A\x07\x08\x08 250V",
    "return": "refused\rfits   250V",
    "newline": "16A\n250V\nLogged lot 99",
    "line separator": "16A\u2028250V\u2029",
    "right to left": "16A \u202e V052 \u202c \u2066x\u2069",
    "no width": "1\u200b6\u2060A\ufeff 250V",
    "look-alikes": "16\u0410 250\u2164 \u0455w",
    "combining": "16A" + "\u0301" * 200,
    "tags": "16A \U000e0041\U000e0042",
    "private": "16A \ue000\U000f0000",
    "half a pair": "16A \udc80\udcff 250V",
    "markup": "16A [no] 250V [/red] [link=http://x]y[/link] :bulb:",
    "formula": "=HYPERLINK(1)",
    "plus": "+1-2",
    "full-width formula": "\uff1d1+1",
    "braces": "{0} %s %(x)s ${HOME} `id`",
    "sql": "'; DROP TABLE lot; --",
    "like": "%_\\%",
    "path": "../../../etc/passwd",
    "option": "--version",
    "long": "16A " * 2_500,
    "digits": "9" * 20_000,
    "brackets": "(" * 5_000 + ")" * 5_000,
    "arabic digits": "\u0661\u0666A \u0662\u0665\u0660V",
}
"""Markings nobody would print, and some that somebody did."""

ACTING = {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"}
"""Kinds of signs that act instead of show. Source: Unicode Standard, table 4-4."""


def harmless(said: Said) -> Said:
    """Nothing acts on a terminal; a mistake is one sentence without a traceback."""
    for text in (said.out, said.err):
        acting = {sign for sign in text if sign != "\n" and unicodedata.category(sign) in ACTING}
        assert not acting, f"raw {acting} in {text[:200]!r}"
        assert "Traceback" not in text
    assert said.code in (0, 1, 2, 3)
    return said


@pytest.fixture
def shelf(memory: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A shelf with one piece, named for all commands."""
    path = memory / "a.shelf"
    monkeypatch.setenv("SALVAGE_SHELF", str(path))
    monkeypatch.setenv("COLUMNS", "100")
    assert call("log", "EX-1", "--family", "other", "--bin", "A1").code == 0
    return path


@pytest.mark.parametrize("name", HOSTILE)
def test_a_hostile_marking_is_read_without_acting(name: str) -> None:
    """As text, as JSON, and under a family."""
    for words in ((), ("--json",), ("--family", "switch"), ("--family", "fuse", "--json")):
        harmless(call("read", *words, "--", HOSTILE[name]))


@pytest.mark.parametrize("name", HOSTILE)
def test_a_hostile_marking_lies_on_the_shelf_without_acting(shelf: Path, name: str) -> None:
    """Logged under every word there is, looked at by every command, and found whole again."""
    text = HOSTILE[name]
    everything = ("--maker", text, "--type", text, "--description", text, "--note", text)
    logged = harmless(
        call("log", "--family", "switch", "--bin", text, *everything, "--also", text, "--", text)
    )
    for words in (
        ("show", "2"),
        ("show", "2", "--json"),
        ("history", "2"),
        ("where",),
        ("where", "--json"),
        ("low",),
        ("day",),
        ("twins",),
        ("find", "--", text),
        ("find", "--json", "--", text),
        ("where", "--", text),
        ("move", "1", "--", text),
        ("strip", "--kind", text, "--piece", "other|EX-2", "--", text),
        ("show", "--", text),
        ("xref", "add", "--source", text, "--", text, "supersedes", "EX-9"),
        ("xref", "list"),
        ("undo",),
    ):
        harmless(call(*words))
    assert check(open_shelf(str(shelf))) == []
    if logged.code == 0:
        assert json.loads(call("show", "2", "--json").out)["marking"] == text


@pytest.mark.parametrize("name", HOSTILE)
def test_an_export_is_safe_to_open_and_comes_back_the_same(
    shelf: Path, memory: Path, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    """No cell is a formula; loaded into another shelf, the marking is what it was.

    Source: OWASP ASVS 5.0, requirement 1.2.10.
    """
    text = HOSTILE[name]
    if call("log", "--family", "other", "--note", text, "--", text).code:
        return
    harmless(call("dump", str(memory / "out.csv")))
    with (memory / "out.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.reader(file))
    cells = [cell for row in rows for cell in row]
    assert not [cell for cell in cells if cell[:1] in set("=+-@\t\r\uff1d\uff0b\uff0d\uff20")]
    before = _markings(shelf)

    monkeypatch.setenv("SALVAGE_SHELF", str(memory / "b.shelf"))
    assert harmless(call("load", str(memory / "out.csv"))).code == 0
    assert _markings(memory / "b.shelf") == before


def _markings(shelf: Path) -> list[tuple[str, str]]:
    """Markings as they are stored, and notes without blanks around them."""
    with open_shelf(str(shelf)).read() as connection:
        rows = connection.exec_driver_sql(
            "SELECT marking, COALESCE(lot.note, '') FROM lot"
            " JOIN part_type ON part_type.id = lot.part_id ORDER BY lot.id"
        )
        return [(row[0], row[1].strip()) for row in rows]


@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
@given(text=st.text(max_size=60), other=st.text(max_size=20))
def test_any_text_at_all_is_harmless(text: str, other: str) -> None:
    """Typed as a marking and a bin, shown, found; refused in one sentence or kept."""
    folder = quick_folder()
    try:
        _typed_and_looked_at(folder / "a.shelf", text, other)
    finally:
        shutil.rmtree(folder)


def _typed_and_looked_at(shelf: Path, text: str, other: str) -> None:
    """Log it, and look at it by every road."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("SALVAGE_SHELF", str(shelf))
        code = harmless(call("log", "--family", "other", "--bin", other, "--", text)).code
        assert code in (0, 2)
        if code == 0:
            for words in (("show", "1"), ("where", "--", other), ("find", "--", text)):
                harmless(call(*words))


def _zip_bomb(path: Path) -> None:
    """A thousand to one."""
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as bomb:
        bomb.writestr("parts.csv", bytes(20_000_000))


FILES: dict[str, Callable[[Path], object]] = {
    "bomb.csv": _zip_bomb,
    "bomb.json": _zip_bomb,
    "packed.csv": lambda path: path.write_bytes(gzip.compress(bytes(1_000_000))),
    "deep.json": lambda path: path.write_text("[" * 10_000 + "]" * 10_000),
    "deep-objects.json": lambda path: path.write_text('{"a":' * 10_000 + "1" + "}" * 10_000),
    "wide.csv": lambda path: path.write_text(",".join(f"c{n}" for n in range(1_000_000)) + "\n"),
    "wide-row.csv": lambda path: path.write_text("type\nx" + "," * 1_000_000 + "y\n"),
    "long-cell.csv": lambda path: path.write_text("type,note\nx," + "y" * 300_000 + "\n"),
    "long-header.csv": lambda path: path.write_text("t" * 5_000_000),
    "open-quote.csv": lambda path: path.write_text('type,note\nx,"' + "y,\n" * 100_000),
    "zeros.csv": lambda path: path.write_bytes(bytes(1_000_000)),
    "noise.csv": lambda path: path.write_bytes(bytes(range(256)) * 400),
    "noise.json": lambda path: path.write_bytes(bytes(range(256)) * 400),
    "nan.json": lambda path: path.write_text('[{"type": "x", "r.amps": NaN}]'),
    "huge-number.json": lambda path: path.write_text(
        '[{"type":"x","quantity":' + "9" * 5000 + "}]"
    ),
    "huge-float.json": lambda path: path.write_text('[{"type":"x","quantity":1e400}]'),
    "half-a-pair.json": lambda path: path.write_text('[{"type":"\\ud800"}]'),
    "nul.json": lambda path: path.write_text('[{"type":"a\\u0000b"}]'),
    "empty.csv": lambda path: path.write_text(""),
    "empty.json": lambda path: path.write_text(""),
    "only-a-head.csv": lambda path: path.write_text("type,marking\n"),
    "sql.csv": lambda path: path.write_text('type,"x\'); DROP TABLE lot; --"\na,b\n'),
    "dump.json": lambda path: path.write_text(
        '{"salvage_dump": 1, "tables": {"sqlite_master": [{"sql": "DROP TABLE lot"}]}}'
    ),
    "dump-column.json": lambda path: path.write_text(
        '{"salvage_dump": 1, "tables": {"bin": [{"code) VALUES (1); --": "x", "note": null}]}}'
    ),
    "zero.csv": lambda path: path.symlink_to("/dev/zero"),
    "loop.csv": lambda path: path.symlink_to(path),
    "pipe.csv": os.mkfifo,
    "folder.csv": lambda path: path.mkdir(),
    "esc\x1b[2J.csv": lambda path: path.write_text("nonsense\n1\n"),
    "rtl\u202evsc.csv": lambda path: path.write_text("nonsense\n1\n"),
    "new\nline.csv": lambda path: path.write_text("nonsense\n1\n"),
    os.fsdecode(b"latin\xff.csv"): lambda path: path.write_text("nonsense\n1\n"),
}
"""Files nobody should be able to load, by name, and how each is made."""


@pytest.mark.parametrize("name", FILES)
def test_a_hostile_file_is_refused_in_one_sentence(shelf: Path, memory: Path, name: str) -> None:
    """Exit code 2, nothing on stdout, nothing on the shelf, and the last line says why."""
    (memory / "in").mkdir()
    FILES[name](memory / "in" / name)

    fresh = ("--shelf", str(memory / "fresh.shelf")) if name.startswith("dump") else ()

    said = harmless(call("load", *fresh, str(memory / "in" / name)))

    assert (said.code, said.out) == (2, "")
    assert said.err.strip()
    with open_shelf(str(shelf)).read() as connection:
        assert connection.exec_driver_sql("SELECT COUNT(*) FROM journal").scalar() == 1
    assert check(open_shelf(str(shelf))) == []


@pytest.mark.parametrize("name", ["no such file", "\x1b[31m", "nul\0", "x" * 5000, "../" * 2000])
def test_a_file_name_that_leads_nowhere_is_refused(shelf: Path, name: str) -> None:
    """One sentence that acts on no terminal."""
    for words in (("load",), ("restore", "--yes"), ("read", "--lines")):
        said = harmless(call(*words, name))
        assert said.code in (2, 3), said
    assert harmless(call("dump", name + "/out.csv")).code in (2, 3)
    assert check(open_shelf(str(shelf))) == []


@pytest.mark.parametrize(
    "name", ["\x1b[31m.shelf", "rtl\u202e.shelf", "a\nb.shelf", "-x.shelf", "%s"]
)
def test_a_shelf_may_have_any_name(memory: Path, name: str) -> None:
    """It is made, written, backed up and checked, and its name acts on no terminal."""
    path = f"--shelf={memory / name}"

    for words in (("log", "EX-1", "--family", "other"), ("backup",), ("check",)):
        assert harmless(call(path, *words)).code == 0


def test_bad_rows_go_to_a_file_that_is_safe_to_open(shelf: Path, memory: Path) -> None:
    """What is handed back for mending is as harmless as an export."""
    (memory / "in.csv").write_text("type,quantity,note\nEX-1,1,ok\n=2+2,none,@x\n")

    assert call("load", "--keep-good", str(memory / "in.csv")).code == 0

    with (memory / "in.bad.csv").open(newline="") as file:
        cells = [cell for row in csv.reader(file) for cell in row]
    assert "'=2+2" in cells
    assert not [cell for cell in cells if cell[:1] in set("=+-@")]
    assert shelf.exists()


def test_a_head_that_is_a_formula_is_written_as_text(memory: Path) -> None:
    """A column can be named like anything."""
    write_csv(memory / "out.csv", ["=1+1", "type"], [["x", "y"]])

    assert (memory / "out.csv").read_text().splitlines()[0] == "'=1+1,type"


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="no such device here")
def test_a_line_without_end_is_refused() -> None:
    """A device that never ends a line does not fill the memory."""
    assert harmless(call("read", "--lines", "/dev/zero")).code == 2


def test_a_hundred_thousand_signs_in_one_line_are_read(memory: Path) -> None:
    """One answer a line, in time that grows with the line."""
    lines = ["16A 250V~ " * 10_000, "(" * 100_000, "\x1b[31m" * 20_000, "16A 250V~"]
    (memory / "lines").write_text("\n".join(lines) + "\n")

    said = harmless(call("read", "--lines", str(memory / "lines")))

    assert len(said.out.splitlines()) == 4
    assert json.loads(said.out.splitlines()[3])["ratings"]["resistive_a"] == 16
