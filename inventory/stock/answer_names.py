"""Names that worked examples use for the same figure."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

_SAME = {
    "base_stock_level": "S",
    "holding_cost": "h",
    "stockout_cost": "p",
    "fixed_cost": "K",
    "order_cost": "K",
    "demand_rate": "D",
    "annual_demand": "D",
    "demand_mean": "mean",
    "demand_sd": "sd",
    "sigma": "sd",
    "confidence": "conf",
    "total_time": "T",
    "series": "y",
    "history": "y",
    "demand": "y",
    "a_post": "post_a",
    "b_post": "post_b",
}


def tidy(given: Mapping[str, Any]) -> dict[str, Any]:
    """The figures under our names; what was given under ours already stays.

    >>> tidy({"base_stock_level": 5})
    {'S': 5}
    """
    return {**{_SAME.get(name, name): value for name, value in given.items()}}


def one(given: Mapping[str, Any], *names: str) -> Any:
    """The first of these names that is given; None where none is."""
    return next((given[name] for name in names if name in given), None)
