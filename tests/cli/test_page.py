"""The morning page: one HTML file with the figures of ``day``, safe to open and to print."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest

from tests.cli.calling import call, demo_file, new_shelf, own_demo, told

__all__ = ["demo_file", "new_shelf", "own_demo"]

DAY = ["day", "--as-of", "2026-10-31"]
BAD = '<script>alert("1")</script>\x1b[31m'


class _Page(HTMLParser):
    """Tags and text of a page; every tag that is opened must be closed."""

    def __init__(self) -> None:
        super().__init__()
        self.seen: list[str] = []
        self.links: list[str] = []
        self.text: list[str] = []
        self._open: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Keep the tag, and what would fetch something."""
        self.seen.append(tag)
        self.links += [value or "" for name, value in attrs if name in ("src", "href")]
        if tag not in ("meta", "rect"):
            self._open.append(tag)
        if tag == "rect":
            self._open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        """The last one opened is the one that is closed."""
        assert self._open.pop() == tag

    def handle_data(self, data: str) -> None:
        """Keep the text."""
        self.text.append(data)

    def close(self) -> None:
        """Nothing is left open."""
        super().close()
        assert self._open == []


def _page(path: Path) -> _Page:
    """A page that was read to its end."""
    read = _Page()
    read.feed(path.read_text(encoding="utf-8"))
    read.close()
    return read


def _rows(found: Any, name: str) -> int:
    """How many rows a list of the JSON has."""
    return len(found[name])


def test_the_page_holds_the_figures_of_the_morning(own_demo: Path) -> None:
    """Every list with its count, every open job with its complaint."""
    path = own_demo.with_name("morning.html")
    said = call(*DAY, "--html", str(path))
    row, page = told(*DAY), _page(path)
    text = "".join(page.text)

    assert (said.code, said.out) == (0, f"Wrote {path}.\n")
    assert "The shelf on 2026-10-31" in text
    assert f"Runs short: {_rows(row, 'short')} part types" in text
    assert f"Jobs open: {_rows(row, 'jobs')}" in text
    assert f"Held for more than a week: {_rows(row, 'old_holds')}" in text
    for job in row["jobs"]:
        assert (job["complaint"] or "") in text
    for line in row["short"]:
        assert line["name"] in text
    assert page.seen.count("rect") == len(row["used"])
    for family, cents in row["value_cents"].items():
        assert f"{family}{cents // 100}.{cents % 100:02d}" in re.sub(r"\s", "", text)


def test_the_page_fetches_nothing_and_runs_nothing(own_demo: Path) -> None:
    """Self-contained: no script, no link, and a policy that forbids both."""
    path = own_demo.with_name("morning.html")
    call(*DAY, "--html", str(path))
    page = _page(path)

    assert page.links == []
    assert "script" not in page.seen
    assert "default-src 'none'" in path.read_text(encoding="utf-8")


def test_what_data_brings_is_text(new_shelf: Path) -> None:
    """A complaint that is a script stands there as it was said; controls are made visible."""
    path = new_shelf.with_name("morning.html")
    call("job", "open", "--kind", f"oven {BAD}", "--complaint", BAD)
    call("log", f"EX-1 {BAD}", "--family", "other", "--state", "good")
    call("keep", "--part", "1", "3")
    said = call("day", "--html", str(path))
    page = _page(path)

    assert said.code == 0, said.err
    assert "script" not in page.seen
    assert '<script>alert("1")</script>\\x1b[31m' in "".join(page.text)
    assert "\x1b" not in path.read_text(encoding="utf-8")


def test_an_empty_shelf_has_a_page_too(new_shelf: Path) -> None:
    """It says that there is nothing, and draws no bar."""
    call("job", "open", "--kind", "oven")
    call("job", "close", "1")
    path = new_shelf.with_name("morning.html")
    assert call("day", "--html", str(path)).code == 0
    text = "".join(_page(path).text)

    assert "Runs short: 0 part types" in text
    assert "Nothing was used yet." in text
    assert "Nothing, so far." in text


@pytest.mark.parametrize("dry", [True, False])
def test_an_older_page_is_replaced_whole_or_stays(own_demo: Path, *, dry: bool) -> None:
    """Beside it nothing is left."""
    path = own_demo.with_name("morning.html")
    path.write_text("yesterday")
    said = call(*DAY, "--html", str(path), *(["--dry-run"] if dry else []))

    assert said.out == f"{'Would write' if dry else 'Wrote'} {path}.\n"
    assert (path.read_text() == "yesterday") == dry
    assert sorted(one.name for one in own_demo.parent.iterdir()) == ["morning.html", "shop.shelf"]
