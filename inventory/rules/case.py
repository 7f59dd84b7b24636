"""One offered part beside one wanted part, everything looked up once."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from inventory.families.sheet import Sheet, families, sheet
from inventory.records import Outcome, Part, Reason, Value
from inventory.rules.places import Place, place
from inventory.rules.terms import in_terms
from inventory.rules.verdict import Wanted
from inventory.rules.words import code_key, plain_word


@dataclass(frozen=True, slots=True)
class Case:
    """What the rules look at; ``need`` and ``has`` are under the sheet's names."""

    wanted: Wanted
    offered: Part
    sheet: Sheet
    place: Place | None
    need: Mapping[str, Value]
    stated: Mapping[str, Value]  # of the need, what the tech stated of the place
    has: Mapping[str, Value]
    same_type: bool
    listed: bool

    @property
    def settled(self) -> bool:
        """One type, or listed for each other: what nobody recorded is alike."""
        return self.same_type or self.listed


Rule = Callable[[Case], Iterable[Reason]]
"""A short function that is silent when it does not apply, and otherwise gives reasons."""


def case_of(wanted: Wanted, offered: Part, codes: frozenset[str] | None = None) -> Case:
    """Lay a wanted and an offered part side by side.

    ``codes``: the offered part's codes where the caller folds them its own way; they are folded
    again here, strictly, so that one character apart is never the same.
    """
    used = sheet(_family(wanted, offered))
    theirs = _keys(codes or frozenset(filter(None, (offered.type_code, *offered.aliases))))
    need = _hottest(_need(wanted, used))
    return Case(
        wanted=wanted,
        offered=offered,
        sheet=used,
        place=place(wanted.place) if wanted.place else None,
        need=need,
        stated=in_terms(used, wanted.needs),
        has=_coolest(
            _with_code(_in_terms(used, offered.ratings), used, offered.type_code),
            need.get("ambient_max_c"),
        ),
        same_type=bool(theirs & own_codes(wanted)) and _makers_agree(wanted.maker, offered.maker),
        listed=bool(theirs & _keys(wanted.alternates)),
    )


def own_codes(wanted: Wanted) -> frozenset[str]:
    """The codes that are the wanted part itself, strictly folded."""
    code = (wanted.type_code,) if wanted.type_code else ()
    return _keys(frozenset((*wanted.own_codes, *code)))


def _family(wanted: Wanted, offered: Part) -> str:
    """The family whose sheet judges; a wanted part of no known family is judged as the offered."""
    known = wanted.family in families()
    return wanted.family if known and wanted.family else offered.family


def _need(wanted: Wanted, used: Sheet) -> Mapping[str, Value]:
    """What is wanted: the failed part's own ratings, with what the tech stated on top."""
    assumed = {name: wanted.assumed[name] for name in ("standard",) if name in wanted.assumed}
    read = _as_alternating(used, _in_terms(used, {**assumed, **wanted.ratings}))
    return _with_code({**read, **in_terms(used, wanted.needs)}, used, wanted.type_code)


def _in_terms(used: Sheet, ratings: Mapping[str, Value]) -> dict[str, Any]:
    """Ratings in the sheet's terms, without a contact that is only guessed.

    A bench may take a bare temperature for one that opens, for its readings show if it does not;
    a stand-in may not: one series prints the same figure on both. Source: KSD301 family data
    sheet (normally closed or normally open).
    """
    said = in_terms(used, ratings)
    told = any(said.get(name) is not None for name in ("close_on_rise_c", "reset_c"))
    sure = ratings.get("contact") is not None or told or said.get("reset") in _OPENS
    if used.id == "thermal_cutout" and not sure:
        said.pop("contact", None)
    return said


_OPENS = ("manual", "one-shot")
"""Kinds of reset that only a contact opening on rise can have. Common practice."""


def _as_alternating(used: Sheet, said: dict[str, Any]) -> dict[str, Any]:
    """Plain volts of a failed oven capacitor are a.c.: to ask for more is the safe side.

    The offered part gets no such credit: its d.c. rating would not do.
    """
    volts = said.get("voltage_v")
    needs = used.id == "hv_capacitor" and "voltage_vac" not in said and volts is not None
    return {**said, "voltage_vac": volts} if needs else said


def _ambients(said: Mapping[str, Value]) -> list[float]:
    """Highest ambients that are bound to single ratings of a marking; none where one holds."""
    lists = [said.get(name) for name in ("ratings", "ambients")]
    rows = [row for rows in lists if isinstance(rows, list | tuple) for row in rows]
    figures = [row.get("ambient_max_c") for row in rows if isinstance(row, Mapping)]
    known = [float(figure) for figure in figures if isinstance(figure, int | float)]
    return known if said.get("ambient_max_c") is None else []


def _hottest(need: Mapping[str, Value]) -> Mapping[str, Value]:
    """Of several ambients of the failed part the hottest one is asked for."""
    known = _ambients(need)
    return {**need, "ambient_max_c": max(known)} if known else need


def _coolest(has: Mapping[str, Value], want: Value) -> Mapping[str, Value]:
    """Of several ambients of the offered part only the coolest holds for all its ratings.

    Where the hottest would do and the coolest would not, it stays unknown, which is a question.
    """
    known = _ambients(has)
    if not known or (isinstance(want, int | float) and min(known) < want <= max(known)):
        return has
    return {**has, "ambient_max_c": min(known)}


CODE_IS = {"magnetron": "type", "inverter_board": "board_number", "other": "type"}
"""Families compared by their code, and the attribute that holds it."""


def _with_code(said: dict[str, Any], used: Sheet, code: str | None) -> Mapping[str, Value]:
    """A type code is the type where a family is compared by it."""
    name = CODE_IS.get(used.id)
    held = said.get(name, code) if name else None
    return {**said, name: str(held)} if name and held else said


def _keys(codes: Iterable[str]) -> frozenset[str]:
    """Codes, strictly folded."""
    return frozenset(key for key in map(code_key, codes) if key)


def _makers_agree(mine: str | None, theirs: str | None) -> bool:
    """Whether two makers can be one; an unnamed maker does not part two equal codes."""
    if not mine or not theirs:
        return True
    one, other = plain_word(mine), plain_word(theirs)
    return one.startswith(other) or other.startswith(one)


def met(rule: str, sentence: str, source: str) -> Reason:
    """A rule that is content."""
    return Reason(rule, Outcome.MET, sentence, source)


def note(rule: str, sentence: str, source: str) -> Reason:
    """Something worth saying that decides nothing."""
    return Reason(rule, Outcome.NOTE, sentence, source)


def refuse(rule: str, sentence: str, source: str) -> Reason:
    """A rule that says no."""
    return Reason(rule, Outcome.REFUSED, sentence, source)


def ask(
    rule: str, sentence: str, source: str, decides: str, effort: int = 5, *, of_wanted: bool = False
) -> Reason:
    """A rule that cannot tell; ``decides`` names what would, and on which part it is found."""
    return Reason(rule, Outcome.ASK, sentence, source, decides, effort, of_wanted)
