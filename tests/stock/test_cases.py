"""Published worked examples, each with its source in tests/cases/stock_cases.jsonl."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from inventory.stock.answer import answer
from tests.stock.demand_file import carparts

CASES = [
    json.loads(line)
    for line in (Path(__file__).parents[1] / "cases" / "stock_cases.jsonl")
    .read_text(encoding="utf-8")
    .splitlines()
]


def printed(figure: float) -> float:
    """Half a unit of the last digit, where a source prints six or more; 0 where it prints fewer."""
    decimals = len(str(figure).partition(".")[2])
    return 0.5 * 10**-decimals if decimals >= 6 else 0.0


def agrees(expected: Any, found: Any, tol: float) -> bool:
    """Whether every figure of the example is met within its tolerance, or the digits printed."""
    if isinstance(expected, dict):
        return all(name in found and agrees(v, found[name], tol) for name, v in expected.items())
    if isinstance(expected, list):
        pairs = zip(expected, found, strict=True)
        return all(agrees(want, have, tol) for want, have in pairs)
    return bool(abs(expected - found) <= max(tol, printed(expected)) + 1e-12)


@pytest.mark.parametrize("case", CASES, ids=[case["id"] for case in CASES])
def test_a_published_example_comes_out_as_printed(case: dict[str, Any]) -> None:
    """The formula its figures ask for gives the published answer."""
    demand_file = carparts() if "warm_up" in case["given"] else None

    found = answer(case["what"], case["given"], demand_file)

    assert agrees(case["expect"], found, case["tol"]), found


def test_a_wrong_figure_would_be_noticed() -> None:
    """The comparison itself tells a right answer from one that is off in the last digit."""
    assert agrees({"S": 8, "cost": 3.570107}, {"S": 8, "cost": 3.5701074}, 1e-6)
    assert not agrees({"S": 8}, {"S": 9}, 0)
    assert not agrees([0.5], [0.50001], 1e-6)
