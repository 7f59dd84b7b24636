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
    "put-back": Effect(quantity=1),  # fitted or taken, and back on the shelf
    "scrapped": Effect(quantity=-1),
    "split-off": Effect(quantity=-1),  # some pieces of a lot become a lot of their own
    "split-in": Effect(quantity=1),
    "ordered": Effect(ordered=1),
    "received": Effect(ordered=-1),  # the pieces themselves are logged
    "lacked": Effect(quantity=-1),  # wanted and not there: demand, about no lot
}
"""What one piece of each kind of event adds; a kind that is not here moves no piece.

``counted`` takes the difference found; ``undone-...`` takes the opposite of what it undoes.
"""

WANTED = frozenset({"fitted", "put-back", "lacked"})
"""Kinds that are demand: pieces used, less those that came back, plus those that lacked."""

UNDONE = "undone-"
"""How the kind of a counter-event begins."""


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
    if pieces < 0:
        raise WrongInput(f"An event cannot be about {pieces} pieces.")
    one = EFFECTS.get(kind, Effect())
    return Effect(one.quantity * pieces, one.held * pieces, one.ordered * pieces)


def asked_for(event: Stated) -> int:
    """Pieces of demand in an event; an undone one is taken back.

    >>> asked_for(Said.of("fitted", 7, 2)), asked_for(Said.of("scrapped", 7, 2))
    (2, 0)
    """
    return -event.quantity if event.kind.removeprefix(UNDONE) in WANTED else 0


class Stated(Protocol):
    """An event as far as sums need it."""

    @property
    def kind(self) -> str:
        """What happened."""

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

    Pieces lie in lots: an event about no lot adds to what is on order only.

    >>> fold([Said.of("logged", 1, 3), Said.of("held", 1)])
    Totals(on_hand=3, held=1, on_order=0)
    """
    on_hand, held, on_order = (start.on_hand, start.held, start.on_order) if start else (0, 0, 0)
    for event in events:
        on_order += event.ordered
        if event.lot_id is not None:
            on_hand += event.quantity
            held += event.held
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
    if event.kind.startswith(UNDONE):
        raise WrongInput("An undoing is not undone; write the event again instead.")
    kind = UNDONE + event.kind
    return Said(kind, event.lot_id, -event.quantity, -event.held, -event.ordered)
