"""Worked examples of demand: Gamma-Poisson levels, intermittent forecasts, back-tests."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from inventory.errors import WrongInput
from inventory.stock import intermittent
from inventory.stock.answer_names import one
from inventory.stock.backtest import Rule, judge, read_wide
from inventory.stock.compound import JobSize, compound_moments, compound_poisson
from inventory.stock.counts import NegativeBinomial, Poisson, by_moments
from inventory.stock.demand import (
    DISCOUNT,
    PRIOR,
    GammaPoisson,
    discounted,
    gamma_poisson_level,
    plug_in_level,
)
from inventory.stock.pattern import demand_class, demand_label
from inventory.stock.peers import croston_normal, sba_poisson, tsb_poisson
from inventory.stock.policies import (
    empirical,
    fixed,
    gamma_poisson,
    nb_mean_variance,
    normal,
    poisson_mean,
)
from inventory.stock.prior import fit_prior

Given = Mapping[str, Any]

TARGETS = (0.90, 0.95)
"""Targets of an example that names none."""


def prior_of(g: Given) -> GammaPoisson:
    """The prior under any of its names."""
    both = g.get("prior")
    if isinstance(both, Mapping):
        both = (both["a"], both["b"])
    a, b = both or (g.get("a", PRIOR.a), g.get("b", PRIOR.b))
    return GammaPoisson(a, b)


def rate_of(g: Given) -> GammaPoisson:
    """What is known of the rate: given as such, or prior and history."""
    if "post_a" in g:
        return GammaPoisson(g["post_a"], g["post_b"])
    n, T = one(g, "n", "uses"), one(g, "T", "months")
    return prior_of(g).after(n or 0, T or 0)


def _levels(g: Given) -> Any:
    """Levels by prior, P and q, nested as the example asks."""
    q = g.get("q", list(TARGETS))
    priors = [GammaPoisson(a, b) for a, b in g["priors"]] if "priors" in g else None
    if priors is None:
        return _over(rate_of(g), g["P"], q)
    return [_over(prior, g["P"], q) for prior in priors]


def _over(rate: GammaPoisson, P: Any, q: Any) -> Any:
    """One level, or a list for each P and q."""
    if isinstance(P, list):
        return [_over(rate, each, q) for each in P]
    if isinstance(q, list):
        return [_over(rate, P, each) for each in q]
    return gamma_poisson_level(a=rate.a, b=rate.b, P=P, q=q)


def _compared(g: Given) -> dict[str, Any]:
    """Gamma-Poisson level against the plug-in Poisson."""
    n, T, P, q = one(g, "n", "uses"), one(g, "T", "months"), g["P"], g.get("q", 0.95)
    demand = rate_of(g).over(P)
    found = {"S_nb": _over(rate_of(g), P, q), "S_poisson": plug_in_level(n, T, P=P, q=q)}
    shape = demand if isinstance(demand, NegativeBinomial) else NegativeBinomial(1, 1)
    moments = {"r": shape.r, "p": shape.p, "mean": demand.mean, "var": demand.variance}
    return {**found, "S": found["S_nb"], "S_plugin": found["S_poisson"], **moments}


def _fit(g: Given) -> dict[str, Any]:
    """Prior by marginal maximum likelihood."""
    fit = fit_prior(g["n"], g["exposure"], cap=g.get("cap"))
    shrunk = fit.shrunk(g["n"], g["exposure"])
    return {"a": fit.a, "b": fit.b, "loglik": fit.loglik, "shrunk": shrunk}


def _moments(g: Given) -> dict[str, Any]:
    """NB by moments, and its level beside the Poisson one."""
    counts, q = by_moments(g["mean"], g["var"]), g.get("q", 0.95)
    found: dict[str, Any] = {
        "S_nb": counts.quantile(q),
        "S_poisson": Poisson(g["mean"]).quantile(q),
    }
    if isinstance(counts, NegativeBinomial):
        found |= {"r": counts.r, "p": counts.p}
    return found


def _discounted(g: Given) -> dict[str, Any]:
    """Discounted history, and the level that follows."""
    w = one(g, "w", "discount")
    n, T = discounted(g["y"], DISCOUNT if w is None else w)
    rate = prior_of(g).after(n, T)
    found: dict[str, Any] = {"n": n, "T": T, "post_a": rate.a, "post_b": rate.b, "mean": rate.mean}
    if "P" in g:
        found["S"] = _over(rate, g["P"], g.get("q", 0.95))
    return found


def _compound(g: Given) -> dict[str, Any]:
    """Mean, variance and level of a compound Poisson demand."""
    jobs = Poisson(one(g, "lam", "rate") * g.get("P", 1))
    sizes = one(g, "sizes", "size_pmf")
    if sizes is not None:
        pmf = list(sizes.values()) if isinstance(sizes, Mapping) else list(sizes)
        exact = compound_poisson(jobs.mean, pmf)
        mean, variance = exact.mean, exact.variance
        return {"mean": mean, "var": variance, "S": exact.quantile(g.get("q", 0.95))}
    size = JobSize(one(g, "EZ", "mean_size"), one(g, "EZ2", "second_moment"))
    mean, variance = compound_moments(jobs, size)
    level = by_moments(mean, variance).quantile(g.get("q", 0.95))
    return {"mean": mean, "var": variance, "S": level}


_STARTS = {
    "mean": ("mean", "share", "all", "average", "intermittent-forecast", "tsintermittent"),
    "naive": ("naive", "first", "position", "statsforecast", "r forecast", "indicator"),
}
"""Words by which examples name the start of a recursion."""


def _start(what: str) -> str | None:
    """The start that some words name."""
    said = what.casefold()
    return next((init for init, words in _STARTS.items() if any(w in said for w in words)), None)


def _smoothed(method: Callable[..., intermittent.Forecast]) -> Callable[[Given], dict[str, Any]]:
    """A forecast by one method, with its parts and its fitted values."""

    def formula(g: Given) -> dict[str, Any]:
        alpha, init = one(g, "alpha", "a"), _start(str(g.get("init", ""))) or "naive"
        found = method(
            g["y"], intermittent.ALPHA if alpha is None else alpha, one(g, "beta"), init=init
        )
        return {
            "forecast": found.forecast,
            "size": found.size,
            "interval": found.interval,
            "fitted": list(found.fitted),
        }

    return formula


def _all_forecasts(g: Given) -> dict[str, Any]:
    """All four methods on one history."""
    methods = ("croston", "sba", "sbj", "tsb")
    each = {name: _smoothed(getattr(intermittent, name))(g) for name in methods}
    return {**each["croston"], **{name: found["forecast"] for name, found in each.items()}}


def _class(g: Given) -> dict[str, Any]:
    """Spacing, unevenness and class of a history."""
    adi, cv2, label = demand_class(g["y"])
    return {"adi": adi, "cv2": cv2, "class": label, "label": label}


ROADS = (
    (("priors", "P"), (), _levels),
    (("n", "exposure"), (), _fit),
    (("y", "w"), (), _discounted),
    (("y", "discount"), (), _discounted),
    (("y",), ("tsb",), _smoothed(intermittent.tsb)),
    (("y",), ("sba", "syntetos-boylan approx"), _smoothed(intermittent.sba)),
    (("y",), ("sbj",), _smoothed(intermittent.sbj)),
    (("y",), ("adi", "class", "cv"), _class),
    (("y", "alpha"), (), _all_forecasts),
    (("y",), (), _class),
    (("adi", "cv2"), (), lambda g: demand_label(g["adi"], g["cv2"])),
    (("mean", "var"), (), _moments),
    (("sizes",), (), _compound),
    (("size_pmf",), (), _compound),
    (("EZ", "EZ2"), (), _compound),
    (("P", "n", "T"), ("plug",), _compared),
    (("P", "uses", "months"), ("plug",), _compared),
    (("P",), (), _levels),
)
"""Formulas of this module, by the names and words they go by."""

RULES: tuple[tuple[str, Callable[[], Rule]], ...] = (
    ("sba", sba_poisson),
    ("tsb", tsb_poisson),
    ("croston", croston_normal),
    ("last 6", lambda: normal(6)),
    ("normal", normal),
    ("nb", nb_mean_variance),
    ("negative", nb_mean_variance),
    ("empirical", empirical),
    ("poisson, sample", poisson_mean),
    ("poisson sample", poisson_mean),
)
"""Rules of the back-test by the words they go by; Gamma-Poisson and fixed levels are read apart."""


def backtest(what: str, g: Given, demand_file: Path | None) -> dict[str, Any]:
    """A back-test case on its demand file."""
    if demand_file is None:
        raise WrongInput("This example needs the demand file it was computed on.")
    score = judge(
        read_wide(demand_file),
        _rule(what.casefold()),
        L=g["L"],
        warm_up=g["warm_up"],
        target=g.get("target", 0.95),
    )
    found = {"csl": score.csl, "fill": score.fill, "onhand": score.on_hand}
    return {**found, "mean_S": score.mean_S, "cost_h1_b19": score.cost, "claimed": score.claimed}


def _rule(heading: str) -> Rule:
    """The rule a heading names."""
    if "fixed" in heading or "level" in heading:
        return fixed(float(next(c for c in reversed(heading) if c.isdecimal())))
    if "gp" in heading or "gamma" in heading:
        return _gamma_poisson(heading)
    for word, rule in RULES:
        if word in heading:
            return rule()
    raise WrongInput(f"No stock rule goes by {heading!r}.")


def _gamma_poisson(heading: str) -> Rule:
    """Gamma-Poisson with the discount and prior of its heading, as the reference counts age."""
    said = re.search(r"w ?= ?0?(\.[0-9]{1,3})", heading)
    discount = float(said[1]) if said else 1.0
    prior = GammaPoisson(0.5, 1) if "(0.5,1)" in heading or "(.5,1)" in heading else None
    return gamma_poisson(discount, prior, first_age=0)
