"""``salvage log`` and ``salvage strip`` with flags: what lands on the shelf, what is said."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.calling import call, events, new_shelf, on_hand, told

__all__ = ["new_shelf"]

pytestmark = pytest.mark.usefixtures("new_shelf")

SWITCH = ["log", "16(4)A 250V~ T85 5E4", "--family", "switch"]


def test_a_part_is_logged_with_all_that_was_said() -> None:
    """Every flag is found again on the lot's page."""
    said = call(
        *SWITCH, "--maker", "Brenka", "--bin", "A3-07", "--state", "clicks", "-n", "4",
        "--price", "4,50", "--supplier-no", "S-1", "--note", "from the fair",
        "--rating", "contact_form=SPST-NO", "--also", "BK-9", "--description", "long lever",
    )  # fmt: skip
    row, part = told("show", "1"), told("show", "--part", "1")["part"]

    assert said.code == 0, said.err
    assert said.out == "Logged lot 1: 4 x switch 16(4)A 250V~ T85 5E4 in A3-07, clicks.\n"
    assert (row["price_cents"], row["note"], row["origin"]) == (450, "from the fair", "new")
    assert row["ratings"]["contact_form"] == "SPST-NO"
    assert row["ratings"]["resistive_a"] == 16
    assert (part["maker"], part["aliases"], part["description"]) == (
        "Brenka", ["BK-9"], "long lever",
    )  # fmt: skip


def test_a_part_type_that_is_known_is_said_to_be() -> None:
    """A second lot of the same type; the number of the type is the same."""
    call(*SWITCH)
    said = call(*SWITCH, "-n", "2")
    (row,) = told(*SWITCH)

    assert "Logged lot 2: 2 x switch " in said.out
    assert said.out.endswith(", a part type already known.\n")
    assert (row["lot"], row["part"], row["known_before"]) == (3, 1, True)


def test_a_doubt_about_the_marking_is_told_beside_the_result() -> None:
    """On stderr with the number of the lot; in JSON as a list."""
    said = call("log", "16(4)A 250V~ T85 T105", "--family", "switch")
    (row,) = told("log", "16(4)A 250V~ T85 T105", "--family", "switch")

    assert "Note: lot 1: Two different ambient marks" in said.err
    assert "ambient" not in said.out
    assert any("Two different ambient marks" in text for text in row["warnings"])


def test_a_dry_log_names_the_lot_it_would_be() -> None:
    """Nothing stands in the journal afterwards."""
    call(*SWITCH)
    said = call(*SWITCH, "--dry-run")

    assert said.out.startswith("Would log lot 2: 1 x switch ")
    assert len(events()) == 1


def test_a_unit_is_stripped_in_one_go() -> None:
    """The pieces are salvaged, untested unless said, and know where they came from."""
    said = call(
        "strip", "U12", "--kind", "microwave oven", "--maker", "Brenka", "--model", "BK-20",
        "--revision", "/01", "--serial", "S1", "--why", "door bent", "--arrived", "2026-03-31",
        "--piece", "switch|16(4)A 250V~ T85|A3-07", "--piece", "fuse|T5AL250V|A1|good|3", "--gone",
    )  # fmt: skip
    unit = told("show", "--unit", "U12")["unit"]

    assert said.code == 0, said.err
    assert said.out.splitlines()[0] == "Logged unit U12 (microwave oven)."
    assert said.out.splitlines()[2].startswith("Logged lot 2: 3 x fuse T5AL250V in A1, good")
    assert (unit["why_scrapped"], unit["arrived"], unit["in_yard"]) == (
        "door bent", "2026-03-31", False,
    )  # fmt: skip
    row = told("show", "2")
    assert (row["unit"], row["origin"], row["on_hand"]) == ("U12", "salvaged", 3)


def test_the_capacitor_is_warned_of_though_no_piece_is_named() -> None:
    """Whoever opens the unit must discharge it. Source: the sheet of hv_capacitor."""
    said = call("strip", "U12", "--kind", "microwave oven")

    assert said.code == 0
    assert "CAUTION: " in said.err
    assert "ischarge" in said.err


def test_a_fault_that_spoils_parts_goes_with_them() -> None:
    """Why it was scrapped in other words stays as a note on the unit."""
    said = call(
        "strip", "U13", "--kind", "microwave oven", "--fault", "monitor-blew-fuse",
        "--why", "dead since Friday", "--piece", "interlock_switch|16A 250V~|A1|clicks",
    )  # fmt: skip
    unit = told("show", "--unit", "U13")["unit"]

    assert said.code == 0, said.err
    assert (unit["why_scrapped"], unit["note"]) == ("monitor-blew-fuse", "dead since Friday")
    assert told("show", "1")["history"] == "fuse-blown-by-monitor"


def test_pieces_come_from_a_file_too(tmp_path: Path) -> None:
    """With the columns of a parts file; JSON lists one object a piece."""
    file = tmp_path / "pieces.csv"
    file.write_text("family,marking,bin\nfuse,T5AL250V,A1\nlamp,25W 240V,A2\n", encoding="utf-8")
    rows = told("strip", "U14", "--kind", "oven", "--pieces", str(file))

    assert [(row["lot"], row["family"]) for row in rows] == [(1, "fuse"), (2, "lamp")]
    assert on_hand(2) == (1, 0, "untested", "A2")


def test_a_unit_that_is_known_is_stripped_further() -> None:
    """Its record stays; the new piece is of it."""
    call("strip", "U15", "--kind", "oven", "--maker", "Brenka")
    call("strip", "U15", "--kind", "kettle", "--piece", "fuse|T5AL250V")

    page = told("show", "--unit", "U15")
    assert (page["unit"]["kind"], page["unit"]["maker"]) == ("oven", "Brenka")
    assert len(page["lots"]) == 1


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (["--piece", "|"], "Write family|marking|bin|state|quantity."),
        (["--piece", "a|b|c|d|1|f|g"], "Write family|marking|bin|state|quantity."),
        (["--piece", "fuse|T5A|A1|good|٣"], "Not a quantity: '٣'"),
        (["--arrived", "31.3.2026"], "Write it like 2026-03-31."),
        (["--piece", "fuse|T5A", "--piece", "fuze|T5A"], "Did you mean fuse?"),
    ],
)
def test_one_bad_piece_keeps_the_unit_out(words: list[str], sentence: str) -> None:
    """All or nothing: the good pieces before it neither."""
    call(*SWITCH)
    said = call("strip", "U16", *words)

    assert said.code == 2
    assert sentence in said.err
    assert call("show", "--unit", "U16").code == 2
    assert len(events()) == 1


def test_a_dry_strip_shows_all_and_writes_nothing() -> None:
    """Neither the unit nor its pieces."""
    call(*SWITCH)
    said = call("strip", "U17", "--kind", "oven", "--piece", "fuse|T5AL250V", "--dry-run")

    assert said.out.splitlines()[0] == "Would log unit U17 (oven)."
    assert said.out.splitlines()[1].startswith("Would log lot 2: 1 x fuse T5AL250V")
    assert len(events()) == 1
