"""What a stock report starts from: plain sums per part type, as the store adds them up."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple

from inventory.errors import WrongInput
from inventory.stock.checks import a_share, above_zero, not_negative
from inventory.stock.demand import DISCOUNT, GammaPoisson

SALVAGE_POLICIES = frozenset({"same-type-only", "salvage-if-tested", "salvage-if-inspected"})
"""Reuse policies of a family sheet under which a pulled piece may be used at all."""


_MONTH = re.compile(r"([0-9]{4})-(0[1-9]|1[0-2])\b")


class Month(NamedTuple):
    """What one month asked for; months without demand are left out."""

    month: int  # year x 12 + month - 1
    jobs: int  # repairs that used the part
    quantity: int  # pieces they used


class Donor(NamedTuple):
    """A source unit in the yard that still carries the part."""

    unit: str  # its label
    pieces: int = 1
    unit_id: int | None = None


def month_number(date: str) -> int:
    """Number of the month of an ISO date, so that months can be subtracted.

    >>> month_number("2025-03-14") - month_number("2024-12-31")
    3
    """
    found = _MONTH.match(date)
    if found is None:
        raise WrongInput(f"Not a date: {date!r}. Write it like 2025-03-14.")
    return int(found[1]) * 12 + int(found[2]) - 1


@dataclass(frozen=True, slots=True)
class PartStock:
    """One part type (or one pool of stand-ins): its stock and its history."""

    part_id: int
    name: str
    family: str
    first_month: int  # month it entered the shelf: from then on, no use is a zero, not unknown
    history: tuple[Month, ...] = ()
    good: int = 0  # pieces on hand that test good
    held: int = 0  # of these, promised to a job
    on_order: int = 0
    untested: int = 0  # never counted as good
    price_cents: int | None = None  # None: not known
    lead_time: float | None = None  # months; None: the shop's
    review: float | None = None  # months; None: the shop's
    service: float | None = None  # share of months without shortage; None: the shop's
    keep_at_least: int | None = None  # set by hand
    policy: str = "salvage-if-tested"  # reuse policy of the family sheet
    good_seen: int = 0  # pieces of it, or of its family, that tested good after pulling
    pulled_seen: int = 0  # ... of so many pulled
    donors: tuple[Donor, ...] = ()
    members: tuple[int, ...] = ()  # part types of a pool

    @property
    def free(self) -> int:
        """Good pieces nobody holds."""
        return self.good - self.held

    @property
    def position(self) -> int:
        """Good less held plus on order; untested salvage does not count.

        Source: reference section 1, order trigger.
        """
        return self.free + self.on_order

    @property
    def jobs(self) -> int:
        """Repairs that used it, ever."""
        return sum(month.jobs for month in self.history)

    @property
    def pieces(self) -> int:
        """Pieces used, ever."""
        return sum(month.quantity for month in self.history)

    @property
    def salvaged(self) -> bool:
        """Whether a pulled piece may be used at all."""
        return self.policy in SALVAGE_POLICIES


@dataclass(frozen=True, slots=True)
class LowSettings:
    """What the shop has set for its stock report."""

    as_of_month: int  # the month under way
    month_gone: float = 0.0  # share of it that is over
    lead_time: float = 1.0  # months from order to shelf
    review: float = 1.0  # months from one look at the list to the next
    service: float = 0.95  # share of months without shortage
    discount: float = DISCOUNT
    prior: GammaPoisson | None = None  # None: default or fitted, by the size of the shelf
    holding: float = 0.02  # cost of keeping, share of the price a month
    shortage_cents: int | None = None  # cost of one piece short for a month; None: see target_of
    order_cents: int | None = None  # cost of placing an order; None: pieces are ordered singly

    def __post_init__(self) -> None:
        above_zero(review=self.review, holding=self.holding)
        not_negative(lead_time=self.lead_time, month_gone=self.month_gone)
        a_share(service=self.service)


def pool_parts(parts: Iterable[PartStock], name: str) -> PartStock:
    """Part types that stand in for one another, counted as one.

    Stock, demand and yields add up; the dearest thing to do without is bought at the cheapest
    known price; pieces that may not be salvaged bring neither untested stock nor donors.
    """
    group = list(parts)
    if not group:
        raise WrongInput("A pool needs a part type.")
    reusable = [part for part in group if part.salvaged]
    prices = [part.price_cents for part in group if part.price_cents is not None]
    return PartStock(
        part_id=group[0].part_id,
        name=name,
        family=group[0].family,
        first_month=min(part.first_month for part in group),
        history=_together(group),
        good=sum(part.good for part in group),
        held=sum(part.held for part in group),
        on_order=sum(part.on_order for part in group),
        untested=sum(part.untested for part in reusable),
        price_cents=min(prices, default=None),
        lead_time=_least(part.lead_time for part in group),
        review=_least(part.review for part in group),
        service=max((p.service for p in group if p.service is not None), default=None),
        policy=reusable[0].policy if reusable else group[0].policy,
        good_seen=sum(part.good_seen for part in reusable),
        pulled_seen=sum(part.pulled_seen for part in reusable),
        donors=tuple(donor for part in reusable for donor in part.donors),
        members=tuple(part.part_id for part in group),
    )


def _least(figures: Iterable[float | None]) -> float | None:
    """The smallest known figure."""
    return min((figure for figure in figures if figure is not None), default=None)


def _together(parts: Iterable[PartStock]) -> tuple[Month, ...]:
    """Histories added month by month."""
    sums: dict[int, list[int]] = {}
    for part in parts:
        for month in part.history:
            jobs_pieces = sums.setdefault(month.month, [0, 0])
            jobs_pieces[0] += month.jobs
            jobs_pieces[1] += month.quantity
    return tuple(Month(month, *sums[month]) for month in sorted(sums))
