"""Cross-references: what a source says of two numbers, followed forwards.

An edge reads aloud as a sentence: FROM, kind, TO. ``DS-410 supersedes DS-400`` leads from the
old number to the new one and never back; that a part fits a unit never makes it a stand-in.
Rules of following: reference/parts.md 2.1.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from inventory.matching.keys import bare, code_key
from inventory.matching.models import fit
from inventory.records import Edge


@dataclass(frozen=True, slots=True)
class Kind:
    """What an edge of a kind says, and which way a search may go along it."""

    says: str
    forwards: bool = False  # from FROM to TO
    backwards: bool = False  # from TO to FROM
    listed: bool = False  # who follows it has the source's word for the part
    itself: bool = False  # it is the same part under another number


KINDS: Mapping[str, Kind] = {
    "supersedes": Kind("FROM is the new number for TO", backwards=True, listed=True),
    "superseded-by": Kind("TO is the new number for FROM", forwards=True, listed=True),
    "splits-into": Kind("TO is one of the numbers FROM is now sold as", forwards=True),
    "merges-into": Kind("TO now stands for FROM and others", forwards=True, listed=True),
    "part-of-kit": Kind("FROM comes in the kit TO", forwards=True),
    "listed-alternate": Kind("TO is listed for FROM's place in a unit", forwards=True, listed=True),
    "other-number": Kind(
        "FROM and TO are one part, numbered by two makers",
        forwards=True, backwards=True, listed=True, itself=True,
    ),
    "claimed-equal": Kind("a seller says that TO does for FROM", forwards=True),
    "fits-unit": Kind("FROM goes into the unit TO"),
    "discontinued": Kind("FROM is no longer made"),
}  # fmt: skip
"""Kinds of edge. ``listed``: a maker's or a unit's own list, no opinion."""

LOW_CONFIDENCE = 0.5
"""Below this a source's word finds a part but vouches for nothing."""

MOST_STEPS = 500
"""A search along cross-references ends here."""

Lookup = Callable[[str], Iterable[Edge]]
"""Edges that name a code, at either end; look-alike codes may be among them."""

Disagreement = Callable[[str, str], Iterable[str]]
"""What the records of two codes say against each other."""


@dataclass(frozen=True, slots=True)
class Step:
    """One step on from a code; ``path`` holds every edge of the way, this one last."""

    code: str
    distance: int
    path: tuple[Edge, ...]
    doubts: tuple[str, ...] = ()
    together_with: tuple[str, ...] = ()  # the other numbers of a split: all are needed
    ends: bool = False  # the number is no longer made

    @property
    def edge(self) -> Edge:
        """The edge of this step."""
        return self.path[-1]

    @property
    def listed(self) -> bool:
        """True where makers' or unit lists vouch for every step of the way."""
        return not self.doubts and all(_vouches(edge) for edge in self.path)

    @property
    def itself(self) -> bool:
        """True where every step is only another number of the same part."""
        return not self.doubts and all(
            KINDS[edge.kind].itself and _vouches(edge) for edge in self.path
        )

    def __str__(self) -> str:
        if self.ends:
            return f"{self.distance}. {self.edge.from_code} is no longer made ({self.edge.source})"
        text = f"{self.distance}. {self.code}: {spoken(self.edge)}"
        if self.together_with:
            text += f"; only together with {', '.join(self.together_with)}"
        return "; ".join((text, *self.doubts))


def spoken(edge: Edge) -> str:
    """An edge as a sentence with its source."""
    place = f" at {edge.place}" if edge.place else ""
    unit = f" in {edge.unit}" if edge.unit else ""
    when = f", {edge.date}" if edge.date else ""
    words = edge.kind.replace("-", " ")
    return f"{edge.from_code} {words} {edge.to_code}{place}{unit} ({edge.source}{when})"


def _vouches(edge: Edge) -> bool:
    """Whether the source of an edge answers for the part it leads to."""
    sure = edge.confidence is None or edge.confidence >= LOW_CONFIDENCE
    return sure and edge.kind in KINDS and KINDS[edge.kind].listed


@dataclass(frozen=True, slots=True)
class Way:
    """Where a search goes: the place and unit it is for, and how records are held together."""

    place: str | None = None
    unit: str | None = None
    disagreement: Disagreement = field(default=lambda _one, _other: ())


def follow(code: str, lookup: Lookup, way: Way = Way()) -> Iterator[Step]:
    """Every number a code leads to, the nearest first; a circle is entered once.

    A number comes again where a longer way to it can be trusted more. A number that only looks
    like the code (0 for O) is followed with a doubt.
    """
    trusted = {bare(code): 3}
    waiting = deque([Step(code, 0, ())])
    steps = 0
    while waiting and steps < MOST_STEPS:
        here = waiting.popleft()
        for step in _steps(here, list(lookup(here.code)), way):
            steps += 1
            if step.ends:
                yield step
            elif _trust(step) > trusted.get(bare(step.code), -1):
                trusted[bare(step.code)] = _trust(step)
                yield step
                waiting.append(step)


def best_steps(steps: Iterable[Step]) -> dict[str, Step]:
    """For each number the step to trust most, then the nearest; numbers in ``bare`` form."""
    best: dict[str, Step] = {}
    for step in steps:
        known = best.get(bare(step.code))
        if not step.ends and (known is None or _trust(step) > _trust(known)):
            best[bare(step.code)] = step
    return best


def _trust(step: Step) -> int:
    """2 for the part itself, 1 for a listed one, 0 for a hint."""
    return 2 if step.itself else int(step.listed)


def _steps(here: Step, edges: list[Edge], way: Way) -> Iterator[Step]:
    """The steps that lead on from a code, in an order that is not the edges' own."""
    path = here.path
    for edge in sorted(edges, key=_order):
        for start, end in ways(edge):
            if bare(start) != bare(here.code) and not _looks_like(start, here.code):
                continue
            doubts = (*here.doubts, *_doubts(edge, start, end, here.code, way))
            others = _others(edge, edges)
            yield Step(
                end, here.distance + 1, (*path, edge), doubts, (*here.together_with, *others),
                ends=edge.kind == "discontinued",
            )  # fmt: skip


def _order(edge: Edge) -> tuple[str, ...]:
    """One order for edges whatever order they come in."""
    return (edge.kind, bare(edge.to_code), bare(edge.from_code), edge.source, edge.date or "")


def ways(edge: Edge) -> Iterator[tuple[str, str]]:
    """The ways an edge may be gone: from, to."""
    kind = KINDS.get(edge.kind, Kind(""))
    if kind.forwards or edge.kind == "discontinued":
        yield edge.from_code, edge.to_code
    if kind.backwards:
        yield edge.to_code, edge.from_code


def _looks_like(one: str, other: str) -> bool:
    """Whether two codes differ in look-alike characters only."""
    return bool(code_key(one)) and code_key(one) == code_key(other)


def _doubts(edge: Edge, start: str, end: str, code: str, way: Way) -> Iterator[str]:
    """What speaks against taking the step on trust."""
    if bare(start) != bare(code):
        yield f"{start} only looks like {code}: read it again"
    if edge.confidence is not None and edge.confidence < LOW_CONFIDENCE:
        yield f"{edge.source} is not sure of it"
    if edge.kind == "part-of-kit":
        yield f"{end} is a kit that holds it"
    if edge.kind == "listed-alternate":
        yield from _elsewhere(edge, way)
    for said in way.disagreement(start, end):
        yield f"the records disagree: {said}"


def _elsewhere(edge: Edge, way: Way) -> Iterator[str]:
    """An alternate is listed for one place in one unit; anywhere else it is a hint."""
    if edge.place and edge.place != way.place:
        yield f"listed for {edge.place} only"
    if edge.unit:
        found = fit(edge.unit, way.unit) if way.unit else None
        if found is None:
            yield f"listed for {edge.unit} only"
        else:
            yield from found.doubts
    elif way.place and not edge.place:
        yield f"listed for no place by name, not for {way.place}"


def _others(edge: Edge, edges: Iterable[Edge]) -> tuple[str, ...]:
    """The other numbers that one number is now sold as: by the same source, on the same date."""
    if edge.kind != "splits-into":
        return ()
    same = {
        other.to_code
        for other in edges
        if other.kind == edge.kind
        and bare(other.from_code) == bare(edge.from_code)
        and other.source == edge.source
        and other.date == edge.date
        and bare(other.to_code) != bare(edge.to_code)
    }
    return tuple(sorted(same))
