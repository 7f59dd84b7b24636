"""The journal's arithmetic: what each kind of event does to the counts, and how they add up.

An event carries what it adds to on hand, to held and to on order. Every count is a sum over
events; undoing writes the opposite event, nothing is ever taken out.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple, Protocol

from inventory.errors import Refused, WrongInput


class Effect(NamedTuple):
    """What an event adds, in pieces; negative takes away."""

    quantity: int = 0  # on hand
    held: int = 0  # of these, promised to a job
    ordered: int = 0  # on order

    def __neg__(self) -> Effect:
        return Effect(-self.quantity, -self.held, -self.ordered)


EFFECTS: dict[str, Effect] = {
    "logged": Effect(quantity=1),  # put on the shelf for the first time
    "held": Effect(held=1),
    "released": Effect(held=-1),
    "fitted": Effect(quantity=-1),  # a held piece is released first, in the same transaction
    "put_back": Effect(quantity=1),  # fitted or taken, and back on the shelf
    "scrapped": Effect(quantity=-1),
    "moved": Effect(),  # another bin
    "benched": Effect(),  # tested; the state may change
    "split_out": Effect(quantity=-1),  # some pieces of a lot become a lot of their own
    "split_in": Effect(quantity=1),
    "ordered": Effect(ordered=1),
    "received": Effect(ordered=-1),  # the pieces themselves are logged
    "cancelled": Effect(ordered=-1),
    "failed": Effect(),  # a fitted piece came back as failed
    "merged": Effect(),  # two part types turned out to be one
    "noted": Effect(),
}
"""What one piece of each kind of event adds. ``counted`` and ``undone`` have their own rule."""

KINDS = (*EFFECTS, "counted", "undone")
"""All kinds of events."""


def effect(kind: str, pieces: int = 1) -> Effect:
    """What an event of this kind with so many pieces adds.

    ``counted`` takes the difference found (negative: fewer than the books say).

    >>> effect("fitted", 2)
    Effect(quantity=-2, held=0, ordered=0)
    >>> effect("counted", -1).quantity
    -1
    """
    if kind == "counted":
        return Effect(quantity=pieces)
    if kind not in EFFECTS:
        raise WrongInput(f"The journal knows no event {kind!r}.")
    if pieces < 0:
        raise WrongInput(f"An event cannot be about {pieces} pieces.")
    one = EFFECTS[kind]
    return Effect(one.quantity * pieces, one.held * pieces, one.ordered * pieces)


class Stated(Protocol):
    """An event as far as sums need it."""

    @property
    def kind(self) -> str:
        """One of ``KINDS``."""

    @property
    def lot_id(self) -> int | None:
        """The lot, where there is one."""

    @property
    def quantity(self) -> int:
        """Added to on hand."""

    @property
    def held(self) -> int:
        """Added to held."""

    @property
    def ordered(self) -> int:
        """Added to on order."""


@dataclass(frozen=True, slots=True)
class Totals:
    """Where the sums stand, of one lot or one part type."""

    on_hand: int = 0
    held: int = 0
    on_order: int = 0

    @property
    def free(self) -> int:
        """On hand and not promised."""
        return self.on_hand - self.held

    def after(self, change: Effect) -> Totals:
        """The sums once an event is added; ``Refused`` where they would not hold."""
        then = Totals(
            self.on_hand + change.quantity, self.held + change.held, self.on_order + change.ordered
        )
        if not then.holds:
            raise Refused(
                f"That cannot be: {then.on_hand} on hand, {then.held} held,"
                f" {then.on_order} on order."
            )
        return then

    @property
    def holds(self) -> bool:
        """0 <= held <= on hand, and nothing negative on order."""
        return 0 <= self.held <= self.on_hand and self.on_order >= 0


def fold(events: Iterable[Stated], *, start: Totals | None = None) -> Totals:
    """The sums over the events of one lot or one part type, in any order.

    >>> fold([Said("logged", 1, quantity=3), Said("held", 1, held=1)])
    Totals(on_hand=3, held=1, on_order=0)
    """
    on_hand, held, on_order = (start.on_hand, start.held, start.on_order) if start else (0, 0, 0)
    for event in events:
        on_hand += event.quantity
        held += event.held
        on_order += event.ordered
    return Totals(on_hand, held, on_order)


def fold_lots(events: Iterable[Stated]) -> dict[int, Totals]:
    """The sums lot by lot; events about no lot are left out."""
    sums: dict[int, list[int]] = {}
    for event in events:
        if event.lot_id is None:
            continue
        three = sums.setdefault(event.lot_id, [0, 0, 0])
        three[0] += event.quantity
        three[1] += event.held
        three[2] += event.ordered
    return {lot: Totals(*three) for lot, three in sums.items()}


@dataclass(frozen=True, slots=True)
class Said:
    """An event in memory: the smallest thing that ``fold`` understands."""

    kind: str
    lot_id: int | None = None
    quantity: int = 0
    held: int = 0
    ordered: int = 0

    @classmethod
    def of(cls, kind: str, lot_id: int | None, pieces: int = 1) -> Said:
        """The event with the effect its kind has."""
        return cls(kind, lot_id, *effect(kind, pieces))


def undone(event: Stated) -> Said:
    """The counter-event: its sum with the event is nothing.

    >>> fitted = Said.of("fitted", 7, 2)
    >>> fold([fitted, undone(fitted)])
    Totals(on_hand=0, held=0, on_order=0)
    """
    if event.kind == "undone":
        raise WrongInput("An undoing is not undone; write the event again instead.")
    return Said("undone", event.lot_id, -event.quantity, -event.held, -event.ordered)
