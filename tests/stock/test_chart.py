"""Charts as lines of text."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.stock.chart import WIDTH, bars, spark, survival_chart
from inventory.stock.survival import kaplan_meier

ROWS = st.lists(
    st.tuples(st.text(st.characters(categories=["L", "N"]), max_size=60), st.floats(0, 1e6)),
    max_size=12,
)
CURVE = kaplan_meier([6, 6, 6, 7, 10, 13, 16, 22, 23], [6, 9, 10, 11, 17, 19, 20, 25, 32, 35])


@given(ROWS, st.booleans())
def test_bars_fit_the_terminal(rows: list[tuple[str, float]], ascii_only: bool) -> None:  # noqa: FBT001
    """One line a row, none wider than 78 columns."""
    lines = bars(rows, ascii_only=ascii_only)

    assert len(lines) == len(rows)
    assert all(len(line) <= WIDTH for line in lines)


def test_the_longest_bar_is_the_largest_value() -> None:
    """Half the value is half the bar."""
    lines = bars([("a", 10), ("b", 5), ("c", 0)], ascii_only=True)

    assert lines[0].count("#") // 2 == lines[1].count("#")
    assert "#" not in lines[2]


def test_plain_ascii_where_asked() -> None:
    """No character beyond ASCII in any chart."""
    lines = [
        *bars([("a", 3.3)], ascii_only=True),
        spark([1, 2], ascii_only=True),
        *survival_chart(CURVE, ascii_only=True),
    ]

    assert all(line.isascii() for line in lines)


def test_eighths_where_the_font_has_them() -> None:
    """A third of the width ends in a part of a block."""
    assert bars([("a", 3), ("b", 1)], width=20)[1].strip("b 1")[-1] in "▏▎▍▌▋▊▉█"


def test_a_gap_is_a_gap() -> None:
    """Not known is not zero."""
    assert spark([0, None, 4]) == "▁ █"
    assert spark([]) == ""
    assert spark([0, 0]) == "▁▁"


@pytest.mark.parametrize("ascii_only", [True, False])
def test_a_survival_curve_steps_down(ascii_only: bool) -> None:  # noqa: FBT001
    """From 100 at the left to 45 at the right: each column one level or a drop."""
    lines = survival_chart(CURVE, ascii_only=ascii_only, unit="weeks")
    marks = "-|" if ascii_only else "─│"
    body = [line[6:] for line in lines[:-2]]
    columns = ["".join(row[i : i + 1] for row in body) for i in range(WIDTH - 6)]

    assert all(len(line) <= WIDTH for line in lines)
    assert all(set(column.strip()) <= set(marks) and column.strip() for column in columns)
    assert body[0].startswith(marks[0])
    assert lines[-1].strip().startswith("0")
    assert lines[-1].endswith("35 weeks")


def test_no_pieces_no_curve() -> None:
    """One sentence in place of an empty frame."""
    assert survival_chart(kaplan_meier([])) == ["no pieces in service yet"]


def test_no_rows_no_bars() -> None:
    """Nothing to show is no line."""
    assert bars([]) == []


def test_the_age_at_the_end_is_rounded() -> None:
    """Three figures: nobody's piece lasted 23.4896 months."""
    assert survival_chart(kaplan_meier([1.0], [23.4896]))[-1].endswith(" 23.5 months")
