"""Three roads to a stand-in, joined: cross-references, text and ratings; then judged, in order.

A stand-in may carry a quite different marking, so no road alone will do. The rules judge every
candidate whatever road it came by; a road's score only orders within a verdict.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from inventory.families.sheet import families, sheet
from inventory.matching.edges import Step, Way, best_steps, follow, spoken
from inventory.matching.keys import bare
from inventory.matching.needs import needs
from inventory.matching.offers import Records, WholeSet, codes_of, stand_in
from inventory.matching.rank import Found, Road, in_order
from inventory.matching.roads import Roads
from inventory.matching.unit_road import Listed, listed_for
from inventory.rules.verdict import Wanted

__all__ = ["Roads", "find"]

LEAST_LIKENESS = 0.6
"""Texts less like the query than this are not what was meant: one slip in two or three signs."""

MOST_BY_TEXT = 50
MOST_BY_RATING = 120


def find(
    wanted: Wanted,
    roads: Roads,
    *,
    serial: str | None = None,
    limit: int = 20,
    near_bin: str | None = None,
) -> Found:
    """Stand-ins for a wanted part, best first, the refused ones, and what is known but not here."""
    wanted = _with_code(wanted, roads)
    steps = _steps(wanted, roads)
    listed = _listed(wanted, roads, serial)
    known = _told(wanted, steps, listed)
    ways = _ways(known, roads, steps, listed)
    parts = roads.parts(ways)
    lots = roads.lots(parts)
    offered = [
        stand_in(known, part, lots.get(number, ()), ways[number], WholeSet(steps, roads))
        for number, part in parts.items()
    ]
    return in_order(offered, limit=limit, near_bin=near_bin, said=_said(steps))


# the roads ------------------------------------------------------------------------


def _with_code(wanted: Wanted, roads: Roads) -> Wanted:
    """A marking that is on record as a code is the wanted part's code."""
    key = bare(wanted.marking)
    if wanted.type_code or not key:
        return wanted
    parts = roads.parts(roads.by_codes([key]).get(key, ())).values()
    known = {code for part in parts for code in (part.type_code, *part.aliases) if code}
    known |= {c for edge in roads.edges_of(wanted.marking) for c in (edge.from_code, edge.to_code)}
    is_code = key in {bare(code) for code in known}
    return replace(wanted, type_code=wanted.marking) if is_code else wanted


def _steps(wanted: Wanted, roads: Roads) -> list[Step]:
    """What the wanted codes lead to, by cross-reference."""
    way = Way(wanted.place, wanted.unit, Records(wanted, roads).disagree)
    found = [step for code in codes_of(wanted) for step in follow(code, roads.edges_of, way)]
    if found or not wanted.type_code:
        return found
    return [
        replace(
            step, doubts=(*step.doubts, f"{near} is only like {wanted.type_code}: read it again")
        )
        for near in roads.near_codes(wanted.type_code)
        for step in follow(near, roads.edges_of, way)
    ]


def _listed(wanted: Wanted, roads: Roads, serial: str | None) -> list[Listed]:
    """What the parts lists name for the unit and place."""
    if not wanted.unit:
        return []
    found = roads.unit_edges(wanted.unit)
    return listed_for(wanted.unit, found, place=wanted.place, serial=serial)


def _told(wanted: Wanted, steps: Iterable[Step], listed: Iterable[Listed]) -> Wanted:
    """The wanted part with the codes that sources list for it.

    A parts list speaks for itself only where nobody knows what sat in the place: two parts that
    both fit a unit do not stand in for each other.
    """
    best = best_steps(steps).values()
    alternates = {step.code for step in best if step.listed and not step.together_with}
    itself = {step.code for step in best if step.itself}
    if wanted.place and not (codes_of(wanted) or wanted.marking):
        alternates |= {one.code for one in listed if not one.doubts}
    return replace(
        wanted,
        alternates=wanted.alternates | alternates,
        own_codes=wanted.own_codes | itself,
    )


def _ways(
    wanted: Wanted, roads: Roads, steps: Sequence[Step], listed: Sequence[Listed]
) -> dict[int, list[Road]]:
    """Every part type that a road leads to, with the roads."""
    ways: dict[int, list[Road]] = {}
    for number, road in (
        *_by_code(wanted, roads, steps, listed),
        *_by_unit(wanted, roads),
        *_by_text(wanted, roads),
        *_by_needs(wanted, roads),
    ):
        ways.setdefault(number, []).append(road)
    return ways


def _by_code(
    wanted: Wanted, roads: Roads, steps: Sequence[Step], listed: Sequence[Listed]
) -> Iterable[tuple[int, Road]]:
    """Part types under the wanted codes, and under those that edges lead to."""
    said = {
        bare(code): Road("code", f"carries {code}", "this shelf", 1.0) for code in codes_of(wanted)
    }
    for one in reversed(listed):
        said[bare(one.code)] = Road("unit", spoken(one.edge), one.edge.source, 1.0)
    for key, step in best_steps(steps).items():
        sentences = "; ".join(spoken(edge) for edge in step.path)
        like = 1.0 if step.listed else 0.5
        said[key] = Road("cross-reference", sentences, step.edge.source, like, step.distance)
    for code in sorted(wanted.alternates):
        said.setdefault(bare(code), Road("cross-reference", f"{code} is listed", "a list", 1.0, 1))
    for code, numbers in roads.by_codes(said).items():
        for number in numbers:
            yield number, said[code]


def _by_unit(wanted: Wanted, roads: Roads) -> Iterable[tuple[int, Road]]:
    """Part types that earlier jobs fitted at the place in such a unit, if they kept working."""
    if not (wanted.unit and wanted.place):
        return
    for number, kept, back in roads.fitted_before(wanted.unit, wanted.place):
        if kept > back:
            words = f"fitted there before: {kept} kept working, {back} came back"
            yield number, Road("past jobs", words, "this shop's jobs", kept / (kept + back))


def _by_text(wanted: Wanted, roads: Roads) -> Iterable[tuple[int, Road]]:
    """Part types whose code or marking is like the wanted one."""
    query = wanted.type_code or wanted.marking
    for family in _families(wanted) if query else ():
        for number, text, like in roads.by_text(query, family, MOST_BY_TEXT):
            if like >= LEAST_LIKENESS:
                words = f"{text} is {round(100 * like)} % like {query}"
                yield number, Road("text", words, "this shelf", like)


def _by_needs(wanted: Wanted, roads: Roads) -> Iterable[tuple[int, Road]]:
    """Part types in stock whose ratings reach what is needed, or may do."""
    if wanted.family not in families():
        return
    asked = needs(wanted, roads.words_of)
    kinds = [family for family in _families(wanted) if family]
    for number, whole in roads.by_needs(kinds, asked, MOST_BY_RATING) if asked else ():
        words = "its ratings reach the needs" if whole else "not all of its ratings are known"
        yield number, Road("ratings", words, "this shelf", 0.0)


def _families(wanted: Wanted) -> list[str | None]:
    """The family, those that may stand in for it, or any."""
    if wanted.family in families():
        return [wanted.family, *sheet(wanted.family or "").stand_in_families]
    return [None]


def _said(steps: Iterable[Step]) -> tuple[str, ...]:
    """What the cross-references say of numbers that are no longer made."""
    return tuple(dict.fromkeys(str(step) for step in steps if step.ends))
