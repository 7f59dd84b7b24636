"""What runs short: from sums per part type to lines a tech can act on."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from inventory.errors import WrongInput
from inventory.stock.asked import LowSettings, PartStock, pool_parts
from inventory.stock.demand import GammaPoisson
from inventory.stock.fill import fill_between
from inventory.stock.lots import economic_lot
from inventory.stock.need import Demand, Shelf, demand_of, known_shelf, target_of
from inventory.stock.plan import Action, plan
from inventory.stock.yields import UNKNOWN_YIELD
from inventory.stock.yields import stockout_with_donors as short_with_untested


@dataclass(frozen=True, slots=True)
class LowLine:
    """One part type or pool: what is there, what is asked for, what to do."""

    part_id: int
    name: str
    family: str
    members: tuple[int, ...]  # part types of a pool, else empty
    good: int  # on hand that tests good
    held: int
    on_order: int
    untested: int  # shown apart, never counted
    position: int  # good - held + on order
    per_month: float  # pieces
    per_month_sd: float  # standard deviation of one month's pieces
    per_month_low: float  # 5 % bound of the true mean
    per_month_high: float  # 95 % bound
    keep_at_least: int  # order as soon as the position is below
    order_up_to: int
    level_by_model: int  # what the model would keep where a person has set the level
    months_of_cover: float  # free good pieces / demand per month
    p_run_out: float  # before what is ordered today is there
    p_run_out_with_untested: float  # the same if the untested were benched today
    months_without_shortage: float  # share, claimed at order_up_to
    filled_at_once: float  # share of pieces, claimed at order_up_to
    target: float
    target_from: str
    jobs_seen: int
    basis: str  # "9 jobs in 24 months" or "no history: prior only"
    actions: tuple[Action, ...]

    @property
    def short(self) -> bool:
        """Whether the position is below what is kept at least."""
        return self.position < self.keep_at_least

    @property
    def missing(self) -> int:
        """Pieces up to the order level, where short."""
        return max(0, self.order_up_to - self.position) if self.short else 0

    @property
    def prior_only(self) -> bool:
        """Whether no use was ever seen: the figures are the prior's, not the part's."""
        return self.jobs_seen == 0

    def service_in_words(self) -> tuple[str, str]:
        """The two figures, in words that cannot be taken for one another."""
        return (
            f"months without a shortage: {_of_hundred(self.months_without_shortage)}",
            f"requests filled at once: {_of_hundred(self.filled_at_once)}",
        )


def _of_hundred(share: float) -> str:
    """A share as so many of a hundred, never rounded up to all of them.

    >>> _of_hundred(0.999)
    '99 of 100'
    """
    return f"{min(99, round(share * 100)) if share < 1 else 100} of 100"


@dataclass(frozen=True, slots=True)
class LowReport:
    """All lines, the most pressing first, with what they rest on."""

    lines: tuple[LowLine, ...]
    prior: GammaPoisson
    prior_from: str

    def short(self) -> tuple[LowLine, ...]:
        """Only what runs short."""
        return tuple(line for line in self.lines if line.short)


def what_runs_short(
    parts: Iterable[PartStock],
    settings: LowSettings,
    *,
    pools: Mapping[str, Sequence[int]] | None = None,
) -> LowReport:
    """A line for every part type; part types of a pool share one line.

    pools: name -> part numbers that stand in for one another (verdict same or fits). A part
    type belongs to one pool at most. The prior is learned from the part types one by one.
    """
    singles = list(parts)
    shelf = known_shelf(singles, settings)
    lines = [low_line(part, shelf, settings) for part in _grouped(singles, pools or {})]
    lines.sort(key=_most_pressing)
    return LowReport(tuple(lines), shelf.prior, shelf.prior_from)


def _most_pressing(line: LowLine) -> tuple[bool, bool, float, float, int]:
    """Short ones first, those never used last of them; then by the chance of running out."""
    return (not line.short, line.prior_only, -line.p_run_out, -line.per_month, line.part_id)


def _grouped(parts: Sequence[PartStock], pools: Mapping[str, Sequence[int]]) -> Iterable[PartStock]:
    """Pools first, then whatever is in none of them."""
    by_id = {part.part_id: part for part in parts}
    pooled: set[int] = set()
    for name, numbers in pools.items():
        members = [by_id[number] for number in dict.fromkeys(numbers) if number in by_id]
        if pooled & {part.part_id for part in members}:
            raise WrongInput(f"A part type of pool {name!r} is in another pool already.")
        pooled |= {part.part_id for part in members}
        if members:
            yield pool_parts(members, name)
    yield from (part for part in parts if part.part_id not in pooled)


def low_line(part: PartStock, shelf: Shelf, settings: LowSettings) -> LowLine:
    """The line of one part type."""
    demand = demand_of(part, shelf, settings)
    lead = settings.lead_time if part.lead_time is None else part.lead_time
    review = settings.review if part.review is None else part.review
    waiting, protected = demand.over(lead), demand.over(lead + review)
    target, target_from = target_of(part, shelf, settings)
    model = protected.quantile(target)
    keep = model if part.keep_at_least is None else part.keep_at_least
    up_to = max(keep, keep - 1 + _lot(part, demand, settings))
    by_hand = part.keep_at_least is not None
    goal = protected.cdf(keep) if by_hand else target
    low, high = demand.between()
    known = UNKNOWN_YIELD.after(part.good_seen, part.pulled_seen)
    hopeful = known.of(part.untested if part.salvaged else 0)
    return LowLine(
        part_id=part.part_id,
        name=part.name,
        family=part.family,
        members=part.members,
        good=part.good,
        held=part.held,
        on_order=part.on_order,
        untested=part.untested,
        position=part.position,
        per_month=demand.per_month,
        per_month_sd=demand.spread,
        per_month_low=low,
        per_month_high=high,
        keep_at_least=keep,
        order_up_to=up_to,
        level_by_model=model,
        months_of_cover=max(0, part.free) / demand.per_month,
        p_run_out=waiting.tail(part.free),
        p_run_out_with_untested=short_with_untested(part.free, waiting, hopeful),
        months_without_shortage=protected.cdf(up_to),
        filled_at_once=fill_between(waiting, protected, up_to),
        target=target,
        target_from="set by hand" if by_hand else target_from,
        jobs_seen=demand.jobs,
        basis=demand.basis,
        actions=plan(part, protected, target=goal, keep=keep, up_to=up_to)
        if part.position < keep
        else (),
    )


def _lot(part: PartStock, demand: Demand, settings: LowSettings) -> int:
    """Pieces to order at once: the economic lot where order cost and price are known."""
    if settings.order_cents is None or not part.price_cents:
        return 1
    return economic_lot(demand.per_month, settings.order_cents, part.price_cents * settings.holding)
