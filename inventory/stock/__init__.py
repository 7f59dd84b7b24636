"""Stock arithmetic: demand, reorder levels, what to pull, what wears.

Formulas: ``counts``, ``loss``, ``demand``, ``prior``, ``compound``, ``intermittent``,
``pattern``, ``reorder``, ``lots``, ``fill``, ``greedy``, ``yields``, ``worth``, ``intervals``,
``survival``, ``weibull``, ``exact``, ``wear``, ``waiting``, ``economic``. Reports from plain
sums: ``asked`` and ``need`` to ``report`` (what runs short), ``worth_report``, ``wear_report``.
Checks: ``backtest`` with its rules in ``policies``, ``peers``, ``lumpy`` and ``chosen``;
``achieved`` for a shop's own journal; ``answer`` for worked examples. ``journal`` holds what each
stock event adds to the counts.

Where a docstring names a source as "reference", it is the project's collection of stock
formulas; "S" and a number is a worked example, many of them in tests/cases/stock_cases.jsonl.

Every name below is fetched when it is first asked for, so that importing this package costs
nothing; scipy, numpy and matplotlib are loaded by the few functions that need them.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from inventory.stock.achieved import Achieved as Achieved
    from inventory.stock.achieved import own_backtest as own_backtest
    from inventory.stock.asked import Donor as Donor
    from inventory.stock.asked import LowSettings as LowSettings
    from inventory.stock.asked import Month as Month
    from inventory.stock.asked import PartStock as PartStock
    from inventory.stock.asked import month_number as month_number
    from inventory.stock.asked import pool_parts as pool_parts
    from inventory.stock.chart import bars as bars
    from inventory.stock.chart import spark as spark
    from inventory.stock.chart import survival_chart as survival_chart
    from inventory.stock.compound import compound_counts as compound_counts
    from inventory.stock.compound import compound_level as compound_level
    from inventory.stock.compound import compound_poisson as compound_poisson
    from inventory.stock.counts import NegativeBinomial as NegativeBinomial
    from inventory.stock.counts import Poisson as Poisson
    from inventory.stock.counts import by_moments as by_moments
    from inventory.stock.demand import GammaPoisson as GammaPoisson
    from inventory.stock.demand import discounted as discounted
    from inventory.stock.demand import gamma_poisson_level as gamma_poisson_level
    from inventory.stock.demand import plug_in_level as plug_in_level
    from inventory.stock.economic import economic_batch as economic_batch
    from inventory.stock.economic import economic_order as economic_order
    from inventory.stock.economic import normal_fill as normal_fill
    from inventory.stock.economic import reorder_point as reorder_point
    from inventory.stock.exact import agresti_coull as agresti_coull
    from inventory.stock.exact import clopper_pearson as clopper_pearson
    from inventory.stock.exact import none_failed as none_failed
    from inventory.stock.exact import pieces_to_test as pieces_to_test
    from inventory.stock.exact import poisson_interval as poisson_interval
    from inventory.stock.exact import rule_of_three as rule_of_three
    from inventory.stock.figure import survival_figure as survival_figure
    from inventory.stock.fill import expected_backorders as expected_backorders
    from inventory.stock.fill import expected_on_hand as expected_on_hand
    from inventory.stock.fill import fill_one_for_one as fill_one_for_one
    from inventory.stock.fill import fill_periodic as fill_periodic
    from inventory.stock.fill import fill_rq as fill_rq
    from inventory.stock.fill import smallest_r as smallest_r
    from inventory.stock.greedy import greedy_levels as greedy_levels
    from inventory.stock.intermittent import croston as croston
    from inventory.stock.intermittent import sba as sba
    from inventory.stock.intermittent import sbj as sbj
    from inventory.stock.intermittent import tsb as tsb
    from inventory.stock.intervals import Interval as Interval
    from inventory.stock.intervals import failure_rate as failure_rate
    from inventory.stock.intervals import jeffreys as jeffreys
    from inventory.stock.intervals import mtbf_interval as mtbf_interval
    from inventory.stock.intervals import wilson as wilson
    from inventory.stock.journal import effect as effect
    from inventory.stock.journal import fold as fold
    from inventory.stock.journal import fold_lots as fold_lots
    from inventory.stock.journal import undone as undone
    from inventory.stock.loss import nb_loss as nb_loss
    from inventory.stock.loss import normal_loss as normal_loss
    from inventory.stock.loss import poisson_loss as poisson_loss
    from inventory.stock.lots import rq_cost as rq_cost
    from inventory.stock.lots import rq_policy as rq_policy
    from inventory.stock.lots import ss_policy as ss_policy
    from inventory.stock.need import Demand as Demand
    from inventory.stock.need import demand_of as demand_of
    from inventory.stock.need import known_shelf as known_shelf
    from inventory.stock.pattern import demand_class as demand_class
    from inventory.stock.pattern import demand_label as demand_label
    from inventory.stock.plan import Action as Action
    from inventory.stock.prior import fit_prior as fit_prior
    from inventory.stock.prior import shelf_prior as shelf_prior
    from inventory.stock.reorder import base_stock as base_stock
    from inventory.stock.reorder import critical_ratio as critical_ratio
    from inventory.stock.reorder import normal_newsvendor as normal_newsvendor
    from inventory.stock.reorder import poisson_newsvendor as poisson_newsvendor
    from inventory.stock.report import LowLine as LowLine
    from inventory.stock.report import LowReport as LowReport
    from inventory.stock.report import what_runs_short as what_runs_short
    from inventory.stock.survival import Curve as Curve
    from inventory.stock.survival import kaplan_meier as kaplan_meier
    from inventory.stock.survival import kaplan_meier_flags as kaplan_meier_flags
    from inventory.stock.waiting import erlang_b as erlang_b
    from inventory.stock.waiting import erlang_c as erlang_c
    from inventory.stock.wear import pooled as pooled
    from inventory.stock.wear import wear_rate as wear_rate
    from inventory.stock.wear_report import Fitted as Fitted
    from inventory.stock.wear_report import WearLine as WearLine
    from inventory.stock.wear_report import WearReport as WearReport
    from inventory.stock.wear_report import what_wears as what_wears
    from inventory.stock.weibull import Weibull as Weibull
    from inventory.stock.weibull import weibull_fit as weibull_fit
    from inventory.stock.worth import Money as Money
    from inventory.stock.worth import keep_max as keep_max
    from inventory.stock.worth import marginal_value as marginal_value
    from inventory.stock.worth import pull_list as pull_list
    from inventory.stock.worth import pull_until as pull_until
    from inventory.stock.worth import pull_value as pull_value
    from inventory.stock.worth import waiting_time as waiting_time
    from inventory.stock.worth_report import Carried as Carried
    from inventory.stock.worth_report import WorthLine as WorthLine
    from inventory.stock.worth_report import WorthReport as WorthReport
    from inventory.stock.worth_report import WorthSettings as WorthSettings
    from inventory.stock.worth_report import what_is_worth as what_is_worth
    from inventory.stock.yields import Yield as Yield
    from inventory.stock.yields import beta_binomial_yield as beta_binomial_yield
    from inventory.stock.yields import family_yields as family_yields
    from inventory.stock.yields import fit_yield as fit_yield
    from inventory.stock.yields import stockout_with_donors as stockout_with_donors

_HOME = {
    "Achieved": "achieved",
    "Action": "plan",
    "Carried": "worth_report",
    "Curve": "survival",
    "Demand": "need",
    "Donor": "asked",
    "Fitted": "wear_report",
    "GammaPoisson": "demand",
    "Interval": "intervals",
    "LowLine": "report",
    "LowReport": "report",
    "LowSettings": "asked",
    "Money": "worth",
    "Month": "asked",
    "NegativeBinomial": "counts",
    "PartStock": "asked",
    "Poisson": "counts",
    "WearLine": "wear_report",
    "WearReport": "wear_report",
    "Weibull": "weibull",
    "WorthLine": "worth_report",
    "WorthReport": "worth_report",
    "WorthSettings": "worth_report",
    "Yield": "yields",
    "agresti_coull": "exact",
    "bars": "chart",
    "base_stock": "reorder",
    "beta_binomial_yield": "yields",
    "by_moments": "counts",
    "clopper_pearson": "exact",
    "compound_counts": "compound",
    "compound_level": "compound",
    "compound_poisson": "compound",
    "critical_ratio": "reorder",
    "croston": "intermittent",
    "demand_class": "pattern",
    "demand_label": "pattern",
    "demand_of": "need",
    "discounted": "demand",
    "economic_batch": "economic",
    "economic_order": "economic",
    "effect": "journal",
    "erlang_b": "waiting",
    "erlang_c": "waiting",
    "expected_backorders": "fill",
    "expected_on_hand": "fill",
    "failure_rate": "intervals",
    "family_yields": "yields",
    "fill_one_for_one": "fill",
    "fill_periodic": "fill",
    "fill_rq": "fill",
    "fit_prior": "prior",
    "fit_yield": "yields",
    "fold": "journal",
    "fold_lots": "journal",
    "gamma_poisson_level": "demand",
    "greedy_levels": "greedy",
    "jeffreys": "intervals",
    "kaplan_meier": "survival",
    "kaplan_meier_flags": "survival",
    "keep_max": "worth",
    "known_shelf": "need",
    "marginal_value": "worth",
    "month_number": "asked",
    "mtbf_interval": "intervals",
    "nb_loss": "loss",
    "none_failed": "exact",
    "normal_fill": "economic",
    "normal_loss": "loss",
    "normal_newsvendor": "reorder",
    "own_backtest": "achieved",
    "pieces_to_test": "exact",
    "plug_in_level": "demand",
    "poisson_interval": "exact",
    "poisson_loss": "loss",
    "poisson_newsvendor": "reorder",
    "pool_parts": "asked",
    "pooled": "wear",
    "pull_list": "worth",
    "pull_until": "worth",
    "pull_value": "worth",
    "reorder_point": "economic",
    "rq_cost": "lots",
    "rq_policy": "lots",
    "rule_of_three": "exact",
    "sba": "intermittent",
    "sbj": "intermittent",
    "shelf_prior": "prior",
    "smallest_r": "fill",
    "spark": "chart",
    "ss_policy": "lots",
    "stockout_with_donors": "yields",
    "survival_chart": "chart",
    "survival_figure": "figure",
    "tsb": "intermittent",
    "undone": "journal",
    "waiting_time": "worth",
    "wear_rate": "wear",
    "weibull_fit": "weibull",
    "what_is_worth": "worth_report",
    "what_runs_short": "report",
    "what_wears": "wear_report",
    "wilson": "intervals",
}
"""Public name -> module of this package."""


def __getattr__(name: str) -> Any:
    """Fetch a public name from its module."""
    if name not in _HOME:
        message = f"module {__name__!r} has no attribute {name!r}"
        raise AttributeError(message)
    return getattr(import_module(f"{__name__}.{_HOME[name]}"), name)


def __dir__() -> list[str]:
    """The public names."""
    return sorted(_HOME)
