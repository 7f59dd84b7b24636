"""Which volts belong to which amperes: items in, rating groups out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from inventory.markings.contacts_items import (
    Aside,
    Break,
    Current,
    Horse,
    Item,
    Load,
    Nature,
    Only,
    Supply,
    Throw,
    Volts,
)


@dataclass(slots=True)
class Group:
    """One ampere figure with everything that belongs to it."""

    current: Current
    volts: list[Volts] = field(default_factory=list)
    loads: list[str] = field(default_factory=list)
    throw: str | None = None
    only_cycles: int | None = None  # ``(6k life only)``: bound to this rating alone
    bound: dict[str, int] = field(default_factory=dict)  # ambient or cycles of its own segment
    nature: Nature | None = None  # a ~ or DC standing beside the figures
    borrowed: bool = False  # its volts stand behind a later horsepower

    @property
    def start(self) -> int:
        """Where its amperes stand."""
        return self.current.start


@dataclass(slots=True)
class Motor:
    """One horsepower figure with its volts."""

    horse: Horse
    volts: list[Volts] = field(default_factory=list)


@dataclass(slots=True)
class Beside:
    """The volts of a rating that is told by another figure than amperes."""

    volts: list[Volts] = field(default_factory=list)


@dataclass(slots=True)
class Groups:
    """All ratings of a marking, in the order of the text."""

    currents: list[Group] = field(default_factory=list)
    motors: list[Motor] = field(default_factory=list)
    throws: list[str] = field(default_factory=list)
    stray_volts: list[Volts] = field(default_factory=list)
    stray_loads: list[str] = field(default_factory=list)


def group(items: Sequence[Item]) -> Groups:
    """Pair amperes, horsepower and volts of one marking."""
    builder = _Builder(
        volts_first=_volts_first(items),
        throw_first=_throw_first(items),
        common_load=_common_load(items),
    )
    for item in items:
        builder.take(item)
    return builder.finish()


def _volts_first(items: Sequence[Item]) -> bool:
    """True for ``125 VAC 5 A``: the figures run volts, amperes, volts, amperes."""
    rated = (Current, Horse, Aside, Volts)
    volts = [isinstance(i, Volts) for i in items if isinstance(i, rated)]
    if all(volts) or not volts[0]:
        return False
    before = sum(a and not b for a, b in pairwise(volts))
    behind = sum(b and not a for a, b in pairwise(volts))
    return not volts[-1] or before > behind


def _throw_first(items: Sequence[Item]) -> bool:
    """True for ``NO 10A NC 6A``: the contact is named before its figures."""
    kinds = [type(item) for item in items if isinstance(item, (Current, Horse, Throw))]
    return bool(kinds) and kinds[0] is Throw


def _common_load(items: Sequence[Item]) -> str | None:
    """The one load that stands before all figures: it holds for every one of them."""
    named = [item for item in items if isinstance(item, (Current, Load))]
    loads = {item.name for item in named if isinstance(item, Load)}
    return loads.pop() if len(loads) == 1 and isinstance(named[0], Load) else None


class _Builder:
    """Takes the items one by one and keeps what is open."""

    def __init__(self, *, volts_first: bool, throw_first: bool, common_load: str | None) -> None:
        self.done = Groups()
        self.volts_first = volts_first
        self.throw_first = throw_first
        self.common_load = common_load
        self.standing: list[Volts] = []  # volts waiting for amperes
        self.used = False  # whether the standing volts already have amperes
        self.pending: list[str] = []  # loads named before their amperes
        self.throw: str | None = None
        self.nature: Nature | None = None
        self.last: Group | Motor | Beside | None = None
        self.beside: list[Beside] = []
        self.after_break = False

    def take(self, item: Item) -> None:
        """Put one item where it belongs."""
        if isinstance(item, Current):
            self._current(item)
        elif isinstance(item, Horse):
            self._horse(item)
        elif isinstance(item, Aside):
            self._aside()
        elif isinstance(item, Volts):
            self._volts(item)
        elif isinstance(item, Load):
            self._load(item.name)
        elif isinstance(item, (Throw, Only, Supply)):
            self._condition(item)
        self.after_break = isinstance(item, Break)

    def _current(self, item: Current) -> None:
        """A new ampere figure opens a group."""
        group_ = Group(item, loads=self.pending, nature=self.nature)
        self.pending, self.nature = [], None
        if self.common_load:
            group_.loads = [self.common_load]
        if self.throw_first:
            group_.throw = self.throw
        if self.volts_first:
            group_.volts = list(self.standing)
            self.used = True
        self.done.currents.append(group_)
        self.last = group_

    def _horse(self, item: Horse) -> None:
        """A horsepower figure; in volts-first order it takes the volts standing."""
        motor = Motor(item)
        if self.volts_first:
            motor.volts = list(self.standing)
            self.used = True
        self.done.motors.append(motor)
        self.last = motor

    def _aside(self) -> None:
        """A rating without amperes takes the volts standing, or the next ones."""
        beside = Beside(list(self.standing) if self.volts_first else [])
        self.used = self.used or self.volts_first
        self.beside.append(beside)
        self.last = beside

    def _volts(self, item: Volts) -> None:
        """Volts go to what is open; amperes waiting without volts share them."""
        if self.volts_first:
            if self.used:
                self.standing, self.used = [], False
            self.standing.append(item)
            return
        if self.last is None:
            self.done.stray_volts.append(item)
            return
        self.last.volts.append(item)
        for waiting in self._waiting():
            waiting.volts.append(item)

    def _waiting(self) -> list[Group]:
        """Amperes that have no volts of their own; only the newest shares a motor's volts."""
        waiting = []
        for age, group_ in enumerate(reversed(self.done.currents)):
            if group_ is self.last:
                continue
            if group_.volts and not (age == 0 and group_.borrowed):
                break
            group_.borrowed = isinstance(self.last, Motor)
            waiting.append(group_)
            if len(group_.volts) > 0:
                break
        return waiting

    def _load(self, name: str) -> None:
        """A load goes to the open group; one that has its load already waits for the next."""
        open_group = self.done.currents[-1] if self.done.currents else None
        if open_group is None or self.after_break:
            self.pending.append(name)
        elif not open_group.loads or self._same_spot(open_group, name):
            open_group.loads.append(name)
        else:
            self.pending.append(name)

    def _same_spot(self, group_: Group, name: str) -> bool:
        """General use and resistive may both be said of one figure (GU-R)."""
        return {name, *group_.loads} == {"general", "resistive"}

    def _condition(self, item: Throw | Only | Supply) -> None:
        """A throw, a bracketed condition or a sign of supply."""
        if isinstance(item, Only):
            if self.done.currents and item.cycles:
                self.done.currents[-1].only_cycles = item.cycles
        elif isinstance(item, Supply):
            self._supply(item.nature)
        else:
            self._throw(item.contact)

    def _supply(self, nature: Nature) -> None:
        """A sign beside the figures: to the open group, or to the one that follows."""
        open_group = self.done.currents[-1] if self.done.currents else None
        if open_group is None:
            self.nature = nature
        elif open_group.nature is None:
            open_group.nature = nature

    def _throw(self, contact: str) -> None:
        """A contact named behind its figures goes to all groups that have none yet."""
        if contact not in self.done.throws:
            self.done.throws.append(contact)
        if self.throw_first:
            self.throw = contact
            return
        for group_ in reversed(self.done.currents):
            if group_.throw is not None:
                break
            group_.throw = contact

    def finish(self) -> Groups:
        """The groups; volts that never met amperes are kept as stray."""
        if self.volts_first and self.standing and not self.used:
            self.done.stray_volts += self.standing
        if not self.done.currents and not self.done.motors:
            self.done.stray_volts += [volts for beside in self.beside for volts in beside.volts]
        self.pending = self._respectively(self.pending)
        self.done.stray_loads = [] if self.common_load else self.pending
        return self.done

    def _respectively(self, pending: list[str]) -> list[str]:
        """``5 A / 2 A, 250 VAC, resistive, motor``: two figures, then their two loads in order."""
        pair = self.done.currents[-2:]
        if len(pair) < 2 or len(pending) != 1 or pair[0].loads or len(pair[1].loads) != 1:
            return pending
        if pair[0].volts != pair[1].volts:
            return pending
        pair[0].loads, pair[1].loads = pair[1].loads, pending
        return []
