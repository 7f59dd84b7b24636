"""Worked examples of failures: intervals, rates, survival, flags."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from inventory.stock.answer_demand import prior_of
from inventory.stock.answer_names import one
from inventory.stock.demand import GammaPoisson
from inventory.stock.exact import (
    agresti_coull,
    clopper_pearson,
    none_failed,
    pieces_to_test,
    poisson_interval,
    rule_of_three,
)
from inventory.stock.intervals import Interval, failure_rate, jeffreys, mtbf_interval, wilson
from inventory.stock.survival import Curve, kaplan_meier, kaplan_meier_flags
from inventory.stock.wear import pool_of, wear_rate
from inventory.stock.weibull import Weibull, weibull_fit

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


def _life(g: Given, *, ended_by_failure: bool = False) -> Any:
    """Mean time between failures with bounds; one bound where nothing failed."""
    conf = g.get("conf", 0.9)
    found = mtbf_interval(g["T"], g["r"], conf, ended_by_failure=ended_by_failure)
    if found.mtbf is None or found.factors is None:
        return found.lower
    bounds = {"lower": found.lower, "upper": found.upper, "factors": list(found.factors)}
    if conf > 0.5:
        one = mtbf_interval(g["T"], g["r"], 2 * conf - 1, ended_by_failure=ended_by_failure)
        bounds |= {"lower_one_sided": one.lower, "upper_one_sided": one.upper}
    return {"mtbf": found.mtbf, "mttf": found.mtbf, **bounds}


def _share(g: Given, interval: Callable[[int, int, float], Interval]) -> list[float]:
    """An interval for a share by one method."""
    return list(interval(g["k"], g["n"], g.get("conf", 0.95)))


def _at_most(g: Given) -> float:
    """The one-sided upper bound of a share."""
    conf = g.get("conf", 0.95)
    if g["k"] == 0:
        return none_failed(g["n"], conf)
    return clopper_pearson(g["k"], g["n"], 2 * conf - 1).upper


def _exact_count(g: Given) -> list[float]:
    """Garwood's interval."""
    return list(poisson_interval(int(one(g, "count", "k")), g.get("conf", 0.95)))


def _weibull(g: Given) -> dict[str, Any]:
    """A fitted Weibull curve under the names books use."""
    fail, alive = one(g, "fail", "time"), one(g, "censored", "alive") or ()
    event = one(g, "event", "events", "status")
    if event is not None:
        pairs = list(zip(fail, event, strict=True))
        fail, alive = [t for t, e in pairs if e], [t for t, e in pairs if not e]
    return _curve_names(weibull_fit(fail, alive))


def _curve_names(found: Weibull) -> dict[str, Any]:
    """Shape, scale, mean and spread."""
    named: dict[str, Any] = {"beta": found.beta, "shape": found.beta, "eta": found.eta}
    named |= {"alpha": found.eta, "scale": found.eta, "mean": found.mean, "sd": found.sd}
    return named if found.loglik is None else named | {"loglik": found.loglik}


def _weibull_figures(g: Given) -> dict[str, Any]:
    """Reliability at an age, B-life of a share, and the mean of a given curve."""
    curve = Weibull(one(g, "beta", "shape"), one(g, "eta", "scale"))
    found = {**_curve_names(curve), "B10": curve.life(0.10)}
    if (age := one(g, "t", "age")) is not None:
        good = curve.reliability(age)
        found |= {"R": good, "F": 1 - good}
    if (share := one(g, "share", "failed_share")) is not None:
        found["life"] = curve.life(share)
    return found


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


_BY_FAILURE = ("failure-truncated", "failure truncated", "failure-censored", "type ii", "type 2")
_NONE = ("zero fail", "zero-fail", "no failure", "none failed", "upper bound", "one-sided")

ROADS = (
    (("k", "n"), ("clopper", "exact"), lambda g: _share(g, clopper_pearson)),
    (("k", "n"), ("agresti",), lambda g: _share(g, agresti_coull)),
    (("n",), ("rule of three", "rule of 3"), lambda g: rule_of_three(g["n"])),
    (("k", "n"), _NONE, _at_most),
    (("count",), (), _exact_count),
    (("k",), ("garwood", "poisson"), _exact_count),
    (("fail",), ("weibull",), _weibull),
    (("time",), ("weibull",), _weibull),
    (("beta", "eta"), (), _weibull_figures),
    (("shape", "scale"), ("weibull",), _weibull_figures),
    (("reliability", "conf"), (), lambda g: pieces_to_test(g["reliability"], g["conf"])),
    (("T", "r"), _BY_FAILURE, lambda g: _life(g, ended_by_failure=True)),
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
