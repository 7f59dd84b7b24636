"""An oracle for stand-ins that uses no rule and no sheet: which way is safe, from a table.

``safe_ways.csv`` says for each attribute of each family which way a stand-in may differ, with
its source. The oracle knows three answers: fine, wrong (refused or asked, never good), and
open (the sources leave it to judgement, and so does the test).
"""

from __future__ import annotations

import csv
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

Answer = bool | None
"""Fine, wrong, or open."""

IMPULSE_KV = {"X1": 4.0, "X2": 2.5, "Y1": 8.0, "Y2": 5.0, "Y4": 2.5}
"""Peak impulse voltage by class. Source: IEC 60384-14, up to 1 µF."""

THROWS = {"SPST-NO": {"NO"}, "SPST-NC": {"NC"}, "SPDT": {"NO", "NC"}}
"""Throws of a contact form. Source: IEC 61810-1."""


@dataclass(frozen=True, slots=True)
class Way:
    """Which way one attribute may differ, and values it is met with."""

    family: str
    attribute: str
    safe: str
    slack: float
    must_be_said: bool
    values: tuple[Any, ...]
    source: str

    def answer(self, want: Any, have: Any) -> Answer:
        """What the source says of an offered value; of one nobody knows: wrong.

        Only where the least there is was wanted is an unknown left to judgement.
        """
        if have is None:
            least = self.safe == "rank" and want == self.values[0]
            return None if least or (self.safe == "has" and want == "no") else False
        return ORACLES[self.attribute if self.attribute in ORACLES else self.safe](self, want, have)


def _share(way: Way, want: Any, have: Any) -> Answer:
    """A tolerance of the wanted figure; up to two and a half times that is a person's."""
    gap = abs(have - want) / want
    return True if gap <= way.slack else None if gap <= 2.5 * way.slack else False


def _span(way: Way, want: Any, have: Any) -> Answer:
    """A tolerance in the figure's own unit."""
    return bool(abs(have - want) <= way.slack + 1e-9)


def _has(_: Way, want: Any, have: Any) -> Answer:
    """Every wanted member is there; a yes serves where a no would do."""
    if "no" in _members(want) and "yes" in _members(have):
        return True
    return _members(want) <= _members(have)


def _over(way: Way, want: Any, have: Any) -> Answer:
    """The offered voltage is the wanted one, within the mains' own tolerance."""
    gap = abs(have - want) / want
    return True if gap <= way.slack else None if gap <= 2.5 * way.slack else False


def _rank(way: Way, want: Any, have: Any) -> Answer:
    """No lower in the order of the table."""
    return way.values.index(have) >= way.values.index(want)


def _class(way: Way, want: Any, have: Any) -> Answer:
    """Each wanted class is held by one of its letter and at least its impulse voltage.

    A Y capacitor in an X place is good by its voltage, and left to judgement here.
    """
    if way.family != "capacitor_safety":
        return bool(want == have)
    each = [_holds(one, have) for one in _members(want)]
    return False if False in each else None if None in each else True


def _holds(one: str, have: Any) -> Answer:
    """Whether a class is held by one of some others."""
    good = [other for other in _members(have) if IMPULSE_KV[other] >= IMPULSE_KV[one]]
    if any(other[0] == one[0] for other in good):
        return True
    return None if good and one[0] == "X" else False


def _throws(_: Way, want: Any, have: Any) -> Answer:
    """The wanted throws are there."""
    return THROWS[want] <= THROWS[have]


ORACLES: Mapping[str, Callable[[Way, Any, Any], Answer]] = {
    "same": lambda _, want, have: bool(want == have),
    "more": lambda _, want, have: bool(have >= want),
    "less": lambda _, want, have: bool(have <= want),
    "share": _share,
    "span": _span,
    "has": _has,
    "over": _over,
    "rank": _rank,
    "class": _class,
    "contact_form": _throws,
}


def _members(value: Any) -> set[str]:
    """A set of classes, frequencies or protections."""
    return {str(item) for item in (value if isinstance(value, list) else [value])}


def _value(text: str) -> Any:
    """A figure, a list of them, or a word."""
    if "+" in text:
        return [_value(part) for part in text.split("+")]
    try:
        number = float(text)
    except ValueError:
        return text
    return int(number) if number.is_integer() else number


def _ways() -> list[Way]:
    """The table."""
    lines = (Path(__file__).parent / "safe_ways.csv").read_text("utf-8").splitlines()
    rows = csv.DictReader(line for line in lines if not line.startswith("#"))
    return [
        Way(
            row["family"],
            row["attribute"],
            row["safe"],
            float(row["slack"] or 0),
            row["say"] == "ask",
            tuple(map(_value, row["values"].split("|"))),
            row["source"],
        )
        for row in rows
    ]


WAYS = _ways()
"""Every line of the table."""

FAMILIES = {way.family: [w for w in WAYS if w.family == way.family] for way in WAYS}
"""The lines of each family."""


DERIVED = {("cord", "voltage_v"): "service", ("switch", "poles"): "contact_form",
           ("thermal_cutout", "contact"): "reset_c"}  # fmt: skip
"""What follows from another attribute, and is unknown only together with it."""


def told(way: Way, said: Mapping[str, Any]) -> bool:
    """Whether a part says an attribute, or another one from which it follows."""
    origin = DERIVED.get((way.family, way.attribute), way.attribute)
    return said.get(way.attribute) is not None or said.get(origin) is not None


def serves_any(way: Way, have: Any) -> bool:
    """Whether an offered value is good whatever the failed part had: the best there is."""
    best = way.safe == "rank" or way.attribute == "contact_form"
    return best and have == way.values[-1]


def together(family: str, want: Mapping[str, Any], have: Mapping[str, Any]) -> Answer:
    """A whole pair: one wrong is wrong, one open is open."""
    each = [
        way.answer(want[way.attribute], have.get(way.attribute))
        for way in FAMILIES[family]
        if want.get(way.attribute) is not None
        and (have.get(way.attribute) is not None or not told(way, have))
    ]
    unsaid = any(
        way.must_be_said and not told(way, want) and not serves_any(way, have.get(way.attribute))
        for way in FAMILIES[family]
    )
    if False in each or unsaid or (family == "capacitor_safety" and _leaks_more(want, have)):
        return False
    return None if None in each else True


def _leaks_more(want: Mapping[str, Any], have: Mapping[str, Any]) -> bool:
    """Whether a Y capacitor is larger than the failed one, or smaller: it is kept.

    Source: IEC 60335-1 clause 13.2, leakage current.
    """
    of_class_y = any(name.startswith("Y") for name in _members(want.get("class")))
    return of_class_y and want.get("capacitance_uf") != have.get("capacitance_uf")
