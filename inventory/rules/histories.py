"""What a source unit's history does to the pieces pulled from it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from inventory.records import Outcome, Reason
from inventory.rules.place_list import PLACES
from inventory.rules.words import plain_word

_DOOR_PARTS = frozenset({"switch", "interlock_switch"})
_SOAKED = frozenset(
    {
        "switch", "interlock_switch", "relay", "thermal_cutout", "transformer", "inverter_board",
        "motor_turntable", "motor_fan", "connector", "cord", "coupler", "bearing", "magnetron",
        "capacitor_safety", "capacitor", "fuse", "hv_fuse",
    }
)  # fmt: skip
_HEATED = _SOAKED | {"terminal", "wire", "lamp", "belt", "hv_capacitor", "hv_diode", "triac"}


@dataclass(frozen=True, slots=True)
class History:
    """One kind of past, the families it ends, and why."""

    id: str
    families: frozenset[str]
    why: str
    source: str
    words: tuple[str, ...] = ()  # how people write it
    at: frozenset[str] = frozenset()  # place kinds it ends; empty: any


HISTORIES: Mapping[str, History] = {
    history.id: history
    for history in (
        History(
            "fuse-blown-by-monitor",
            _DOOR_PARTS | {"fuse"},
            "it stood in the fault current when the monitor blew the fuse: scrap",
            "Sharp R-200BW training notes: the fault current damages all three; Daewoo KOG-131A9A"
            " service manual: replace all with the fuse",
            ("monitor blew", "blown by monitor", "blown by the monitor", "monitor switch blew",
             "fuse blew at the door"),
            frozenset({"interlock", "protective"}),
        ),
        History(
            "conducted-fault",
            _DOOR_PARTS | {"relay", "fuse"},
            "it conducted a fault current: scrap",
            "Sharp R-200BW training notes",
            ("fault current", "short circuit"),
        ),
        History(
            "fire",
            _HEATED,
            "it has been in a fire: insulation and springs are gone",
            "common practice",
            ("caught fire", "burnt down", "heavy smoke"),
        ),
        History(
            "flood",
            _SOAKED,
            "water or food got into a mains part",
            "common practice",
            ("flooded", "water ingress", "water damage", "food ingress", "soaked", "drowned"),
        ),
        History(
            "grease",
            frozenset({"thermal_cutout"}),
            "a grease soak moves the calibration",
            "common practice",
            ("grease",),
        ),
        History(
            "tripped",
            frozenset({"thermal_cutout", "thermal_link"}),
            "it has tripped in a fault",
            "common practice",
            ("tripped", "cut out in a fault"),
        ),
        History(
            "surge",
            frozenset({"mov", "fuse", "capacitor_safety", "resistor_fusible", "inverter_board"}),
            "it has taken a surge, and such damage does not show",
            "common practice",
            ("surge", "lightning"),
        ),
        History(
            "blown",
            frozenset({"fuse", "hv_fuse", "resistor_fusible"}),
            "it has blown or been overloaded",
            "common practice",
            ("blown", "overloaded"),
        ),
    )
}  # fmt: skip
"""Histories that end a piece, by name."""


def history_of(text: str | None) -> str | None:
    """The history a remark tells of, or None where it tells of none known.

    >>> history_of("Monitor blew the fuse"), history_of("dead magnetron")
    ('fuse-blown-by-monitor', None)
    """
    if not text:
        return None
    words = f" {plain_word(text)} "
    for history in HISTORIES.values():
        names = (plain_word(history.id), *history.words)
        if any(f" {name} " in words for name in names):
            return history.id
    return None


def salvage_stop(family: str, history: str | None, place: str | None) -> Reason | None:
    """Why a piece with this past is scrap, or None.

    ``place``: where the piece sat in its unit; unknown counts as the worst place.
    """
    known = HISTORIES.get(history_of(history) or "")
    if known is None or family not in known.families:
        return None
    if known.at and place in PLACES and PLACES[place].kind not in known.at:
        return None
    return Reason("history", Outcome.REFUSED, f"Not for use: {known.why}.", known.source)
