"""The shipped tables: each says where it is from, and no row is a stranger to its source."""

from __future__ import annotations

import pytest

from inventory.errors import WrongInput
from inventory.fasteners import tables


@pytest.mark.parametrize("name", tables.names())
def test_every_table_says_where_it_comes_from(name: str) -> None:
    """The first lines give standard or table and how it was read."""
    said = tables.source(name)

    assert len(said) > 60
    assert any(word in said for word in ("ISO", "DIN", "ASME", "FED-STD", "public table", "maker"))


@pytest.mark.parametrize("name", tables.names())
def test_every_row_has_all_its_columns(name: str) -> None:
    """A missing comma would shift a figure under another head."""
    for row in tables.rows(name):
        assert None not in row
        assert None not in row.values()


def test_a_number_size_in_a_row_is_not_taken_for_a_source_line() -> None:
    """Lines of source begin with '# '; '#0,...' is data."""
    assert tables.rows("unified_threads")[0]["size"] == "#0"


def test_an_empty_cell_is_not_zero() -> None:
    """What a table does not say is None."""
    assert tables.number("") is None
    assert tables.number("0.4") == 0.4


def test_an_unknown_table_is_refused() -> None:
    """A table nobody ships ends in one sentence."""
    with pytest.raises(WrongInput, match="no table 'rivets'"):
        tables.rows("rivets")
