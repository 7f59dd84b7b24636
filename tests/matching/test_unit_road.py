"""Parts lists say what goes into a unit; ranges and series sort it out."""

from __future__ import annotations

from inventory.matching.unit_road import listed_for
from inventory.records import Edge


def _entry(code: str, model: str, place: str | None = "monitor", **more: str) -> Edge:
    """One line of a parts list."""
    return Edge(code, model, "fits-unit", "parts list", place=place, **more)  # type: ignore[arg-type]


def test_the_longest_pattern_wins() -> None:
    """An entry for the very model outdoes one for its whole series."""
    entries = [_entry("A1", "HM-20##"), _entry("B1", "HM-2015"), _entry("C1", "HM-*")]

    assert [one.code for one in listed_for("HM-2015", entries, place="monitor")] == ["B1"]


def test_patterns_of_one_length_are_all_shown_with_a_doubt() -> None:
    """Which list is meant only a person can tell."""
    found = listed_for("HM-2015", [_entry("A1", "HM-20#5"), _entry("B1", "HM-2#15")])

    assert [one.code for one in found] == ["A1", "B1"]
    assert "several lists could be meant: HM-2#15, HM-20#5" in found[0].doubts


def test_places_do_not_outdo_each_other() -> None:
    """The longest pattern counts place by place; parts without a place all stay."""
    entries = [
        _entry("A1", "HM-20##", "monitor"),
        _entry("B1", "HM-2015", "lamp"),
        _entry("C1", "HM-*", None),
    ]

    assert {one.code for one in listed_for("HM-2015", entries)} == {"A1", "B1", "C1"}


def test_an_entry_without_a_place_is_a_doubt_for_a_named_place() -> None:
    """The list says that it goes in, not where."""
    (found,) = listed_for("HM-2015", [_entry("A1", "HM-2015", None)], place="monitor")

    assert found.doubts == ("the list names no place",)


def test_an_entry_for_another_place_or_of_another_kind_is_left_out() -> None:
    """Only ``fits-unit`` says what goes in."""
    other = Edge("B1", "HM-2015", "listed-alternate", "label", place="monitor")

    assert listed_for("HM-2015", [_entry("A1", "HM-2015", "lamp"), other], place="monitor") == []


def test_a_serial_number_outside_the_range_rules_an_entry_out() -> None:
    """Inside it stays; without a serial number the range is told."""
    entries = [_entry("A1", "HM-2015", serial_from="100", serial_to="199")]

    assert listed_for("HM-2015", entries, serial="200") == []
    assert listed_for("HM-2015", entries, serial="150")[0].doubts == ()
    assert listed_for("HM-2015", entries)[0].doubts == (
        "it holds for serial numbers from 100 to 199",
    )


def test_of_series_the_nearest_not_above_is_taken() -> None:
    """Series 10, 15 and 25, machine 21: the entry of series 15. Source: parts.md 2.2 [S99d]."""
    entries = [_entry(f"S{start}", "HM-2015", serial_from=start) for start in ("10", "15", "25")]

    assert [one.code for one in listed_for("HM-2015", entries, serial="21")] == ["S15"]


def test_a_serial_that_cannot_be_compared_leaves_every_entry_in_doubt() -> None:
    """Not known is not outside."""
    (found,) = listed_for("HM-2015", [_entry("A1", "HM-2015", serial_from="100")], serial="?")

    assert found.doubts == ("it holds for serial numbers from 100 to the last",)
