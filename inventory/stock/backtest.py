"""Replaying a demand history month by month: what a stock rule would have achieved.

Protocol (reference section 5): monthly review R = 1, lead time L, level S_t from the months
before t, one-for-one ordering, full backordering, the first S on the shelf at the start,
expanding history after a warm-up, scored from L months after it. An item-month ends without
shortage when nothing is owed; fill is the share of pieces handed over at once; cost is pieces
on hand + 19 x pieces owed per item-month (critical ratio 0.95).
"""

from __future__ import annotations

import csv
import math
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from inventory.errors import NotFound, WrongInput
from inventory.stock.checks import a_share

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Table = NDArray[np.float64]
    Target = float | Table  # one for all items, or one for each

WARM_UP = 12
"""Months of history before the first level."""

SHORT_COST = 19.0
"""Cost of a piece owed for a month where one lying there costs 1: critical ratio 0.95."""


@dataclass(frozen=True, slots=True)
class Levels:
    """Levels of a rule: one row an item, one column a month from the warm-up on."""

    S: Table  # pieces
    claimed: Table | None = None  # the rule's own P(no shortage) at S; None: it claims nothing


Rule = Callable[["Table", int, int, "Target"], Levels]
"""(demand items x months, warm-up, protection P, target for all or each item) -> levels."""


@dataclass(frozen=True, slots=True)
class Score:
    """What a rule achieved."""

    csl: float  # item-months that ended without shortage
    fill: float  # pieces handed over at once
    on_hand: float  # pieces an item lay there, on average
    backorders: float  # pieces an item was owed, on average
    mean_S: float
    cost: float  # on_hand + 19 x backorders
    claimed: float | None  # the rule's own promise of csl
    item_cost: Table  # cost by item, for paired comparison


def replay(
    demand: Table, levels: Levels, *, L: int = 1, warm_up: int = WARM_UP, start: Table | None = None
) -> Score:
    """Run the levels against the demand.

    demand: items x months [pieces]; L [months]; start: first month of each item that counts
    (for a shelf whose parts came at different times), None: all count.
    """
    import numpy as np

    items, months = demand.shape
    if months <= warm_up + L:
        raise WrongInput(f"A back-test needs more than {warm_up + L} months, not {months}.")
    net = levels.S[:, 0].astype(float)
    coming = [np.zeros(items) for _ in range(L)]
    nets, served = [], []
    for i, t in enumerate(range(warm_up, months)):
        coming.append(np.maximum(levels.S[:, i] - net - sum(coming), 0.0))
        net = net + coming.pop(0)
        served.append(np.minimum(np.maximum(net, 0.0), demand[:, t]))
        net = net - demand[:, t]
        nets.append(net)
    return _score(demand[:, warm_up:], np.array(nets).T, np.array(served).T, levels, L, start)


def _score(
    demand: Table, net: Table, served: Table, levels: Levels, L: int, start: Table | None
) -> Score:
    """Averages over the scored item-months."""
    import numpy as np

    counts = np.ones_like(net, dtype=bool)
    if start is not None:
        counts = np.arange(net.shape[1])[None, :] >= start[:, None]
    counts[:, :L] = False
    if not counts.any():
        raise WrongInput("No month is left to score after the warm-up.")
    on_hand, owed = np.maximum(net, 0.0), np.maximum(-net, 0.0)
    cost = np.where(counts, on_hand + SHORT_COST * owed, 0.0)
    asked = demand[counts].sum()
    return Score(
        float((net[counts] >= 0).mean()),
        float(served[counts].sum() / asked) if asked else 1.0,
        float(on_hand[counts].mean()),
        float(owed[counts].mean()),
        float(levels.S[counts].mean()),
        float(cost.sum() / counts.sum()),
        None if levels.claimed is None else float(levels.claimed[counts].mean()),
        cost.sum(axis=1) / np.maximum(counts.sum(axis=1), 1),
    )


def judge(
    demand: Table,
    rule: Rule,
    *,
    L: int = 1,
    warm_up: int = WARM_UP,
    target: Target = 0.95,
    start: Table | None = None,
) -> Score:
    """Ask a rule for its levels (protection P = L + 1) and replay them."""
    if isinstance(target, float):
        a_share(target=target)
    levels = rule(demand, warm_up, L + 1, target)
    return replay(demand, levels, L=L, warm_up=warm_up, start=start)


@dataclass(frozen=True, slots=True)
class Paired:
    """Mean difference of two rules over the same items, with its 95 % interval."""

    mean: float
    half_width: float  # 1.96 standard errors

    @property
    def sure(self) -> bool:
        """Whether zero lies outside the interval."""
        return abs(self.mean) > self.half_width


def paired(one: Table, other: Table) -> Paired:
    """``one`` minus ``other``, item by item.

    >>> import numpy as np
    >>> paired(np.array([1.0, 2.0, 3.0]), np.array([2.0, 3.0, 4.0]))
    Paired(mean=-1.0, half_width=0.0)
    """
    apart = one - other
    return Paired(float(apart.mean()), float(1.96 * apart.std(ddof=1) / math.sqrt(len(apart))))


def read_wide(path: Path) -> Table:
    """Complete rows of a wide CSV: item name, then one column a month; no blanks."""
    import numpy as np

    if not path.is_file():
        raise NotFound(f"There is no demand file at {path}.")
    with path.open(encoding="utf-8", newline="") as lines:
        rows: list[Any] = list(csv.reader(lines))[1:]
    try:
        return np.array([[float(cell) for cell in row[1:]] for row in rows if all(row[1:])])
    except ValueError as error:
        raise WrongInput(f"{path.name} holds something that is not a number: {error}.") from error
