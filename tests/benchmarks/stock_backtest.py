"""The back-test of our stock rule beside its peers, in one run, on public demand data.

Usage: python -m tests.benchmarks.stock_backtest [FILE] [--lead 0|1|2]

FILE is the wide CSV of 2,674 car parts x 51 months (2,509 complete), from the R package
expsmooth (GPL-3; the same data as Zenodo 4656021); SALVAGE_CARPARTS names it otherwise. It is
not part of this repository. Protocol: module ``inventory.stock.backtest``.
"""

from __future__ import annotations

import argparse
import os
from pathlib import Path
from typing import TYPE_CHECKING

from inventory.stock.backtest import Rule, Score, judge, paired, read_wide
from inventory.stock.chosen import gamma_poisson_chosen
from inventory.stock.demand import GammaPoisson
from inventory.stock.lumpy import busy_months, compound_by_moments, compound_exact
from inventory.stock.peers import croston_normal, sba_poisson, tsb_poisson
from inventory.stock.policies import (
    empirical,
    fixed,
    gamma_poisson,
    nb_mean_variance,
    normal,
    poisson_mean,
)

if TYPE_CHECKING:
    from inventory.stock.backtest import Table

DEFAULT = "Gamma-Poisson .95 (our default)"
"""The rule all others are compared with."""

RULES: dict[str, Rule] = {
    "fixed level 2": fixed(2),
    "fixed level 3": fixed(3),
    "fixed level 4": fixed(4),
    "normal": normal(),
    "normal, last 6 months": normal(6),
    "Croston + normal": croston_normal(),
    "SBA + Poisson": sba_poisson(),
    "TSB + Poisson": tsb_poisson(),
    "Poisson, sample mean": poisson_mean(),
    "NB, sample mean and variance": nb_mean_variance(),
    "empirical quantile": empirical(),
    "Gamma-Poisson, no discount": gamma_poisson(1.0),
    DEFAULT: gamma_poisson(),
    "  prior Gamma(.5, 2), unfitted": gamma_poisson(0.95, GammaPoisson(0.5, 2)),
    "  prior Gamma(.5, 1), unfitted": gamma_poisson(0.95, GammaPoisson(0.5, 1)),
    "  discount .90": gamma_poisson(0.90),
    "  discount .85": gamma_poisson(0.85),
    "  discount chosen by the shelf": gamma_poisson_chosen(),
    "compound by moments .95": compound_by_moments(),
    "compound, Poisson jobs .95": compound_exact(),
    "compound, busy months .95": busy_months(),
    "compound, busy months .90": busy_months(0.90),
}
"""What is compared, all at a target of .95."""


def line(name: str, score: Score, against: Score) -> str:
    """One row of the table."""
    claimed = "    -" if score.claimed is None else f"{score.claimed:5.3f}"
    figures = f"{score.csl:5.3f} {claimed} {score.fill:5.3f} {score.on_hand:7.2f} {score.cost:6.3f}"
    if score is against:
        return f"{name:<32} {figures}"
    apart = paired(score.item_cost, against.item_cost)
    return f"{name:<32} {figures} {apart.mean:+7.3f} ± {apart.half_width:.3f}"


def pooled(demand: Table, together: int, L: int, apart: Score) -> str:
    """Items counted as stand-ins for one another, so many at a time in the file's order."""
    groups = len(demand) // together
    kept = demand[: groups * together]
    score = judge(kept.reshape(groups, together, -1).sum(axis=1), gamma_poisson(), L=L)
    one_by_one = apart.item_cost[: groups * together].reshape(groups, together).sum(axis=1)
    change = paired(score.item_cost, one_by_one)
    return (
        f"{f'pools of {together}':<32} {score.csl:5.3f} {score.claimed or 0:5.3f} {score.fill:5.3f}"
        f" {score.on_hand / together:7.2f} {score.cost / together:6.3f}"
        f" {change.mean / together:+7.3f} ± {change.half_width / together:.3f}"
    )


def main() -> None:
    """Print the table."""
    beside = Path(__file__).resolve().parents[3] / "shared" / "data" / "carparts_wide.csv"
    reader = argparse.ArgumentParser(description=__doc__)
    default = Path(os.environ.get("SALVAGE_CARPARTS", beside))
    reader.add_argument("file", nargs="?", type=Path, default=default)
    reader.add_argument("--lead", type=int, default=1, help="lead time in months")
    asked = reader.parse_args()
    demand = read_wide(asked.file)
    print(f"{len(demand)} items x {demand.shape[1]} months, L = {asked.lead}, target .95")
    print(f"{'rule':<32} {'CSL':>5} {'claim':>5} {'fill':>5} {'on hand':>7} {'cost':>6}")
    scores = {name: judge(demand, rule, L=asked.lead) for name, rule in RULES.items()}
    for name, score in scores.items():
        print(line(name, score, scores[DEFAULT]))
    print("\nthe default, items pooled as if they stood in for one another (per item):")
    for together in (2, 4):
        print(pooled(demand, together, asked.lead, scores[DEFAULT]))
    print("\nlast column: cost less the default's, paired by item, 95 % interval")


if __name__ == "__main__":
    main()
