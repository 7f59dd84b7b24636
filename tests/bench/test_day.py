"""The shop's morning: figures worked by hand, and a page that is whole, escaped and on its own."""

from __future__ import annotations

from html.parser import HTMLParser
from pathlib import Path

import pytest

from inventory.bench import jobs, moves
from inventory.bench.day import Day, day
from inventory.bench.log import Piece
from inventory.bench.merging import merge
from inventory.bench.undo import undo
from inventory.cli.page import page, write_page
from inventory.errors import WrongInput
from inventory.store.shelf import Shelf
from tests.bench.shop import SWITCH, job, lot, on, repair, unit

EVIL = "<script src=//x.example>'\"&\x1b[31m"
"""What must never stand in a page as it is."""


def test_the_morning_adds_up(shelf: Shelf) -> None:
    """Good pieces at the last known price, the held among them; untested ones apart."""
    with on("2025-05-05"):
        switches = lot(shelf, quantity=6, price_cents=300)
        lot(shelf, quantity=2, price_cents=450)  # the last known price of the same part type
        lot(shelf, quantity=4, state="untested")
        lot(shelf, quantity=9, state="welded")
        lot(shelf, "230V 25W", family="lamp", state="good", quantity=2)  # no price known
        repair(shelf, switches, 2)
        moves.hold(shelf, switches, job=job(shelf, complaint="dead"))
    with on("2025-06-02"):
        repair(shelf, switches)
        moves.hold(shelf, switches)
        moves.scrap(shelf, switches)

    found = day(shelf, as_of="2025-06-03")

    # 6 - 2 - 1 - 1 and 2 of the second lot, at 4.50 each
    assert found.value == (("switch", (2 + 2) * 450),)
    assert found.untested == (("switch", 4),)
    assert found.used == (("2025-05", 2), ("2025-06", 1))
    assert [(one["job"], one["complaint"]) for one in found.jobs] == [(2, "dead")]
    assert [(one["lot"], one["job"], one["pieces"], one["since"][:10]) for one in found.holds] == [
        (1, 2, 1, "2025-05-05")
    ]


def test_a_hold_is_old_after_a_week(shelf: Shelf) -> None:
    """Asked about on the eighth day; released or fitted it is no hold. Common practice."""
    with on("2025-05-01"):
        held = lot(shelf, quantity=3)
        moves.hold(shelf, held, quantity=2)
    assert day(shelf, as_of="2025-05-07").holds == ()
    assert [one["pieces"] for one in day(shelf, as_of="2025-05-09").holds] == [2]
    with on("2025-05-09"):
        moves.fit(shelf, held)
    assert [one["pieces"] for one in day(shelf, as_of="2025-05-09").holds] == [1]
    with on("2025-05-10"):
        moves.release(shelf, held)
        assert day(shelf).holds == ()
        undo(shelf)
        assert [one["pieces"] for one in day(shelf).holds] == [1]


def test_what_was_put_back_was_not_used(shelf: Shelf) -> None:
    """Nor what was undone; nothing is counted twice after a merge."""
    with on("2025-05-05"):
        one = lot(shelf, quantity=4, type_code="AX-1", price_cents=100)
        two = lot(shelf, quantity=4, type_code="BX-1", price_cents=100)
        repair(shelf, one, 3)
        number = job(shelf)
        moves.fit(shelf, two, job=number, quantity=2)
        moves.put_back(shelf, two, job=number)
        moves.fit(shelf, two)
        undo(shelf)
    before = day(shelf, as_of="2025-05-05")
    assert (before.used, before.untested, before.value) == (
        (("2025-05", 3 + 1),),
        (("switch", 1),),
        (("switch", 100 + 200),),
    )
    with on("2025-05-06"):
        merge(shelf, 1, 2)
    after = day(shelf, as_of="2025-05-06")
    assert (after.used, after.untested, after.value) == (
        before.used, before.untested, before.value
    )  # fmt: skip


def test_an_empty_shelf_has_an_empty_morning(shelf: Shelf) -> None:
    """Nothing short, held, untested, open, failing, worth or used."""
    found = day(shelf)
    assert not any((found.short, found.holds, found.untested, found.jobs, found.failing,
                    found.value, found.used))  # fmt: skip
    with pytest.raises(WrongInput):
        day(shelf, as_of="yesterday")


# the page -----------------------------------------------------------------------------------


class _Page(HTMLParser):
    """Reads a page strictly: what is opened is closed, in order, and all text is kept."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.open: list[str] = []
        self.tags: set[str] = set()
        self.names: set[str] = set()
        self.values: list[str] = []
        self.text: list[str] = []
        self.rows: list[int] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note a tag and what it says."""
        self.tags.add(tag)
        self.names |= {name for name, _ in attrs}
        self.values += [value or "" for _, value in attrs]
        if tag == "tr":
            self.rows.append(0)
        if tag in ("td", "th"):
            self.rows[-1] += 1
        if tag != "meta":
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        """It closes what was opened last."""
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        """Keep the text."""
        self.text.append(data)


def _read(html: str) -> _Page:
    """A page read to its end, everything closed."""
    reader = _Page()
    reader.feed(html)
    reader.close()
    assert reader.open == []
    return reader


def _evil_day(shelf: Shelf) -> Day:
    """A morning in which every text a person can type is hostile, and every list has a line."""
    with on("2025-01-02"):
        taken = lot(shelf, EVIL, family="other", state="good", quantity=40, bin=f"B{EVIL}"[:30],
                    type_code=f"T{EVIL}", price_cents=100)  # fmt: skip
        sound = lot(shelf, "S-1", family="other", state="good", quantity=40)
        lot(shelf, "U-1", family="other", state="untested")
        unit(shelf, EVIL, Piece("S-1", family="other"), maker=EVIL, model=EVIL)
        moves.hold(shelf, taken, job=job(shelf, maker=EVIL, model=EVIL, complaint=EVIL))
        repair(shelf, sound, 30)
        numbers = [repair(shelf, taken) for _ in range(8)]
    with on("2025-02-02"):
        for number in numbers[:6]:
            jobs.set_outcome(shelf, number, "came-back", failed_lot=taken)
        moves.scrap(shelf, taken, quantity=28)
    with on("2025-12-01"):
        return day(shelf)


def test_the_page_is_whole_and_says_it_all(shelf: Shelf) -> None:
    """Every tag closed in order, every table as wide as its head, every list there."""
    found = _evil_day(shelf)
    for part in (found.short, found.holds, found.untested, found.jobs, found.failing, found.value):
        assert part
    read = _read(page(found))
    text = " ".join(read.text)
    assert "The shelf on 2025-12-01" in text
    assert "Held for more than a week: 1" in text
    assert "Jobs open: 1" in text
    assert "6 of 8 failed" in text
    assert "2025-01: 38" in text
    assert set(read.rows) == {3, 4, 6, 7}
    assert {"html", "head", "title", "body", "table", "svg"} <= read.tags


def test_nothing_a_person_typed_is_markup(shelf: Shelf) -> None:
    """Shown letter by letter, the escape sign made visible; no script, no foreign attribute."""
    html = page(_evil_day(shelf))
    read = _read(html)
    assert "script" not in read.tags
    assert "\x1b" not in html
    assert any("<script src=//x.example>'\"&" in text for text in read.text)
    known = {"lang", "charset", "name", "content", "http-equiv", "class", "style", "role", "x", "y",
             "aria-label", "width", "height", "fill"}  # fmt: skip
    assert read.names <= known


def test_the_page_fetches_nothing(shelf: Shelf) -> None:
    """No link, image, import or address anywhere, and a policy that would forbid them."""
    read = _read(page(_evil_day(shelf)))
    assert not read.tags & {"a", "link", "img", "script", "iframe", "object", "form", "base"}
    outside = [value for value in read.values if "//" in value or "url(" in value]
    assert outside == []
    assert any(value.startswith("default-src 'none'") for value in read.values)
    style = read.text[read.text.index(next(text for text in read.text if "--ink" in text))]
    assert "url(" not in style
    assert "@import" not in style


def test_an_empty_morning_is_a_page_too(shelf: Shelf, tmp_path: Path) -> None:
    """Written beside its place first; in a folder that is not there nothing is."""
    write_page(day(shelf), tmp_path / "day.html")
    read = _read((tmp_path / "day.html").read_text(encoding="utf-8"))
    assert "Nothing was used yet." in read.text
    assert [one.name for one in tmp_path.iterdir() if one.suffix == ".html"] == ["day.html"]
    with pytest.raises(WrongInput, match="no folder"):
        write_page(day(shelf), tmp_path / "none" / "day.html")


def test_a_switch_is_named_as_it_is_printed(shelf: Shelf) -> None:
    """Signs of the trade are not mangled by the escaping."""
    lot(shelf, SWITCH, quantity=1)
    assert SWITCH in _read(page(day(shelf))).text
