"""What to pull from a source unit: hazards first, then the best value per minute."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from inventory.stock.asked import SALVAGE_POLICIES
from inventory.stock.checks import above_zero, not_negative
from inventory.stock.demand import GammaPoisson
from inventory.stock.worth import HORIZON, Money, marginal_value, marginal_value_expected
from inventory.stock.yields import UNKNOWN_YIELD, Yield


@dataclass(frozen=True, slots=True)
class Carried:
    """A part type that a source unit still carries, and what is known of it."""

    name: str
    family: str
    rate: GammaPoisson  # pieces a month, history included: ``Demand.as_pieces()``
    part_id: int | None = None
    place: str | None = None
    pieces: int = 1
    free: int = 0  # good pieces on the shelf that nobody holds, and those on order
    untested: int = 0  # pulled before, not benched yet
    price_cents: int | None = None  # what a new one costs; None: not known
    clean_cents: int = 0  # to clean one when it is used
    scrap_cents: int = 0  # what one brings that is never used
    shelf_cents: float = 0.0  # to keep one for a month
    good_seen: int = 0  # of its family, of pulled_seen
    pulled_seen: int = 0
    minutes_to_pull: float | None = None
    minutes_to_test: float | None = None
    policy: str = "salvage-if-tested"
    scrap_because: str | None = None  # what the unit's own history forbids
    remaining_months: float | None = None  # of the part's life; None: no end in sight
    hazards: tuple[str, ...] = ()  # what must be done before hands go in


@dataclass(frozen=True, slots=True)
class WorthSettings:
    """What the shop has set for pulling."""

    wage_cents: int = 3000  # an hour at the bench; the shop's own figure replaces it
    horizon: float = HORIZON  # months
    minutes_to_pull: float = 10.0  # where the family sheet says nothing
    minutes_to_test: float = 5.0

    def __post_init__(self) -> None:
        above_zero(horizon=self.horizon, minutes_to_pull=self.minutes_to_pull)
        not_negative(wage=self.wage_cents, minutes_to_test=self.minutes_to_test)


@dataclass(frozen=True, slots=True)
class WorthLine:
    """One part type of the unit: how many to pull, or why none. Money in cents."""

    name: str
    family: str
    part_id: int | None
    place: str | None
    take: int  # pieces to pull
    leave: int  # pieces to leave
    why: str  # one sentence
    share_good: float  # q: expected share of good ones
    minutes: float  # to pull and test one
    value: float | None  # q MV of the first piece; None: no price known
    per_minute: float  # q MV / minutes of the first piece; 0 where nothing is pulled
    gain: float  # over all pieces taken, wage paid
    policy: str


@dataclass(frozen=True, slots=True)
class WorthReport:
    """The checklist of a unit."""

    hazards: tuple[str, ...]  # first of all
    pulls: tuple[WorthLine, ...]  # best value per minute first
    skipped: tuple[WorthLine, ...]
    minutes: float  # to pull and test all of it
    gain: float  # cents, wage paid


def what_is_worth(carried: Iterable[Carried], settings: WorthSettings) -> WorthReport:
    """The pull list of a unit with what is skipped and why.

    Source: reference section 3, pull rule q MV(s) > wage (t_pull + t_test).
    """
    parts = list(carried)
    lines = [_line(part, settings) for part in parts]
    pulls = sorted((x for x in lines if x.take), key=lambda x: (-x.per_minute, x.name))
    skipped = sorted((x for x in lines if not x.take), key=lambda x: x.name)
    return WorthReport(
        tuple(dict.fromkeys(hazard for part in parts for hazard in part.hazards)),
        tuple(pulls),
        tuple(skipped),
        math.fsum(x.take * x.minutes for x in pulls),
        math.fsum(x.gain for x in pulls),
    )


def _line(part: Carried, settings: WorthSettings) -> WorthLine:
    """Refusals first; then the money."""
    refusal = _refusal(part)
    if refusal is not None:
        return _result(part, settings, [], None, refusal)
    values = _values(part, settings)
    cost = settings.wage_cents * _minutes(part, settings) / 60
    paying = [value for value in values if value > cost]
    return _result(part, settings, [v - cost for v in paying], values[0], _why(values, cost))


def _refusal(part: Carried) -> str | None:
    """Why it is not pulled whatever it is worth; None where it may be."""
    if part.scrap_because:
        return f"Scrap: {part.scrap_because}."
    if part.policy not in SALVAGE_POLICIES:
        return f"Not reused: the family sheet says {part.policy}."
    if part.price_cents is None:
        return "No price known, so its worth cannot be told."
    return None


def _minutes(part: Carried, settings: WorthSettings) -> float:
    """To pull and test one piece."""
    pull, test = part.minutes_to_pull, part.minutes_to_test
    return (settings.minutes_to_pull if pull is None else pull) + (
        settings.minutes_to_test if test is None else test
    )


def _known(part: Carried) -> Yield:
    """The good-yield of its family."""
    return UNKNOWN_YIELD.after(part.good_seen, part.pulled_seen)


def _values(part: Carried, settings: WorthSettings) -> list[float]:
    """The value of pulling the first, second, ... piece: q MV(s), q MV(s+1), ... [cents].

    MV is averaged over what the pieces pulled before, but not benched yet, may turn out to be.
    """
    price = part.price_cents or 0
    money = Money(price - part.clean_cents, part.scrap_cents, part.shelf_cents)
    life = math.inf if part.remaining_months is None else part.remaining_months
    horizon = min(settings.horizon, life)
    known, start = _known(part), max(0, part.free)
    if horizon <= 0:
        return [known.share * part.scrap_cents] * part.pieces
    if not part.untested:
        return [
            known.share * marginal_value(start + nth, part.rate, money, horizon)
            for nth in range(part.pieces)
        ]
    pmf = known.of(part.untested)
    return [
        known.share * marginal_value_expected(start + nth, part.rate, money, pmf, horizon)
        for nth in range(part.pieces)
    ]


def _why(values: list[float], cost: float) -> str:
    """The reason in one sentence, in money."""
    paying = sum(value > cost for value in values)
    if paying == 0:
        return f"Worth {_money(values[0])}, takes {_money(cost)} of bench time."
    if paying < len(values):
        return f"The next one is worth {_money(values[paying])} only: enough lie there then."
    return f"Worth {_money(values[0])} for {_money(cost)} of bench time."


def _money(cents: float) -> str:
    """Cents as money.

    >>> _money(1250)
    '12.50'
    """
    return f"{cents / 100:.2f}"


def _result(
    part: Carried, settings: WorthSettings, gains: list[float], value: float | None, why: str
) -> WorthLine:
    """The finished line."""
    minutes = _minutes(part, settings)
    take = len(gains)
    return WorthLine(
        name=part.name,
        family=part.family,
        part_id=part.part_id,
        place=part.place,
        take=take,
        leave=part.pieces - take,
        why=why,
        share_good=_known(part).share,
        minutes=minutes,
        value=value,
        per_minute=value / minutes if take and value is not None else 0.0,
        gain=math.fsum(gains),
        policy=part.policy,
    )
