"""Near words are offered for a mistyped one."""

from __future__ import annotations

from inventory.matching.suggest import close_to


def test_the_nearest_choice_comes_first() -> None:
    """Two signs changed over; case does not count."""
    assert close_to("a3-70", ["B1-01", "A3-07", "A3-77"])[0] in {"A3-07", "A3-77"}
    assert close_to("MONITR", ["monitor", "lamp"]) == ["monitor"]


def test_nothing_near_is_no_suggestion() -> None:
    """A wrong guess would mislead."""
    assert close_to("xyz", ["monitor", "lamp"]) == []
    assert close_to("xyz", []) == []
