"""Worked examples of failures: intervals, rates, survival, flags."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from inventory.stock.answer_demand import prior_of
from inventory.stock.answer_names import one
from inventory.stock.demand import GammaPoisson
from inventory.stock.intervals import failure_rate, jeffreys, mtbf_interval, wilson
from inventory.stock.survival import Curve, kaplan_meier, kaplan_meier_flags
from inventory.stock.wear import pool_of, wear_rate

Given = Mapping[str, Any]

CENSORED_6MP = (6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35)
"""Weeks of the patients still in remission in the 6-MP arm. Source: Freireich et al. 1963,
Blood 21:699 (as carried by lifelines' load_leukemia, Rx == 0)."""


def _jeffreys(g: Given) -> list[float]:
    """Jeffreys' interval."""
    return list(jeffreys(g["k"], g["n"], g.get("conf"), alpha=g.get("alpha")))


def _wilson(g: Given) -> list[float]:
    """Wilson's interval."""
    return list(wilson(g["k"], g["n"], g.get("conf", 0.95)))


def _life(g: Given) -> Any:
    """Mean time between failures with bounds; one bound where nothing failed."""
    found = mtbf_interval(g["T"], g["r"], g.get("conf", 0.9))
    if found.mtbf is None or found.factors is None:
        return found.lower
    bounds = {"lower": found.lower, "upper": found.upper, "factors": list(found.factors)}
    return {"mtbf": found.mtbf, "mttf": found.mtbf, **bounds}


def _curve(found: Curve) -> dict[str, Any]:
    """The figures of a survival curve."""
    return {"R": found.R, "greenwood_se": found.greenwood_se, "at_risk": found.at_risk}


def _timed(g: Given) -> Any:
    """Survival from one list of ages; the 6-MP data by its name."""
    event = one(g, "event", "events", "status")
    if event is not None:
        return kaplan_meier_flags(g["time"], event).R
    fail = list(g["time"])
    for age in CENSORED_6MP:
        fail.remove(age)
    return kaplan_meier(fail, CENSORED_6MP).R


def _flag(g: Given) -> dict[str, Any]:
    """Rate against its pool."""
    failures, exposure = one(g, "f", "failures", "fails"), one(g, "exposure", "part_months")
    rate = one(g, "pool", "pool_rate", "pooled_rate")
    known = prior_of(g) if {"a", "b", "prior"} & set(g) else None
    if isinstance(rate, (list, tuple)):
        known = GammaPoisson(*rate)
    found = wear_rate(failures, exposure, known or pool_of(rate))
    return {
        "raw": found.raw,
        "shrunk": found.shrunk,
        "lower5": found.lower,
        "p_gt_2x": found.p_above,
        "p_above": found.p_above,
        "flag": found.flag,
    }


ROADS = (
    (("k", "n"), ("jeffreys",), _jeffreys),
    (("k", "n", "alpha"), (), _jeffreys),
    (("k", "n"), (), _wilson),
    (("T", "r"), (), _life),
    (("fail", "censored"), (), lambda g: _curve(kaplan_meier(g["fail"], g["censored"]))),
    (("fail", "alive"), (), lambda g: failure_rate(g["fail"], g["alive"])),
    (("time",), (), _timed),
    (("failures", "exposure"), (), _flag),
    (("fails", "exposure"), (), _flag),
    (("fails", "part_months"), (), _flag),
    (("failures", "part_months"), (), _flag),
    (("f", "exposure"), (), _flag),
)
"""Formulas of this module, by the names and words they go by."""
