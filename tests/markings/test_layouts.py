"""One rating in other spellings reads the same; a damaged one is never misread in silence.

Makers print a rating in many ways: units glued or apart, capitals or small letters, a comma for
a point, one line or four. The published contact markings are rewritten in each of them.
"""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest

from inventory.markings.evened import evened
from inventory.markings.reader import read
from inventory.records import Reading
from tests.markings.cases import load
from tests.markings.published import uncovered

_AC = r"(?<=[0-9])\s?(?:VAC|V AC|Vac|V~|V ~)(?![A-Za-z0-9])"
_AC_WITH_FIGURES = rf"(?<![0-9/.-])([0-9]{{2,3}}(?:[/-][0-9]{{2,3}})*)(?:{_AC})"
_DC = r"(?<=[0-9])\s?(?:VDC|V DC|Vdc|V dc)(?![A-Za-z0-9])"
_AMPERE = r"(?<=[0-9)])\s?A(?![A-Za-z0-9(])"
_BETWEEN = r"(?<=[0-9)]A)\s(?=[0-9])"
_CYCLES = r"(?<=[0-9])E(?=[345](?![0-9]))"
_T = r"(?<![A-Za-z0-9])([0-9]{0,2})T([0-9]{2,3})(?![0-9/])"

Layout = Callable[[str], str]


def _each(pattern: str, *spellings: str) -> dict[str, Layout]:
    """One layout a spelling, named by it."""

    def layout(spelling: str) -> Layout:
        """The layout that writes this spelling."""
        return lambda text: re.sub(pattern, spelling, text)

    return {f"{spelling!r} for {pattern[-12:]}": layout(spelling) for spelling in spellings}


LAYOUTS: dict[str, Layout] = {
    "a line each": lambda text: text.replace(" ", "\n"),
    "lines of a typewriter": lambda text: text.replace(" ", "\r\n"),
    "two blanks": lambda text: text.replace(" ", "  "),
    "hard blanks": lambda text: text.replace(" ", "\u00a0"),
    "point without a nought": lambda text: re.sub(r"(?<![0-9.,])0(?=\.[0-9])", "", text),
    "decimal comma": lambda t: re.sub(r"(?<=[0-9])\.(?=[0-9]{1,2}(?![0-9]))", ",", t),
    "unit inside the bracket too": lambda t: re.sub(
        r"([0-9.]+)\s?\(([0-9.]+)\)\s?A(?![a-z])", r"\1A(\2A)", t
    ),
    "fraction slash": lambda text: re.sub(r"(?<=\b1)/(?=[2346]\s?[Hh][Pp])", "⁄", text),
    "approvals before": lambda text: f"UL CSA {text}",
    **_each(_AC, "V~", " V ~", "Vac", "V a.c.", " V AC", "V/AC", "V-AC", " Volts AC", "vac"),
    **_each(_AC_WITH_FIGURES, r"AC\1V", r"AC \1 V", r"~ \1 V"),
    **_each(_DC, "Vdc", " V d.c.", "V⎓", "V=", " V DC", "DCV", " V ⎓", " Volts DC"),
    **_each(_AMPERE, "a", " A", " Amp", "AMP", " amps", " AMPS"),
    **_each(_BETWEEN, "", "/", "-", ", ", " · ", " @ ", " / ", "|"),
    **_each(_CYCLES, "e", " E ", "E+", "x10^", "×10^", "E0"),
    **_each(_T, r"\1 T \2", r"\1T\2°C", r"\1t\2"),
}  # fmt: skip
"""Ways of print, each a rewriting of a marking that changes nothing of what it says."""


def _is_plain(text: str) -> bool:
    """Whether a text is a rating as such: no type code first, no row or label, nothing glued."""
    coded = re.match(r"[A-Z]{1,3}[A-Z0-9]*-|KCD|HF|TYPE|83[0-9]{6}", text)
    rated = re.search(r"[0-9]\s?(?:\([0-9.]+\))?\s?(?:A|GPA)\b|[Hh][Pp]\b", text)
    row = re.search(r"\b60 (?:GP|[0-9]/[0-9]hp)|^- ", text)
    glued = re.search(r"IP[0-9]{3}|[0-9]A[0-9]+/ |[0-9]E[0-9] [0-9]+-|IE4", text)
    return bool(rated) and not coded and not row and not glued


TEXTS = tuple(
    row["text"]
    for name in ("switch_markings", "switch_published", "contact_published")
    for row in load(f"{name}.jsonl")
    if row.get("family", "switch") == "switch" and _is_plain(row["text"])
)


def _said(text: str) -> dict[str, object]:
    """What a text says of a switch, marks of approval left out."""
    return {k: v for k, v in read(text, "switch").ratings.items() if k != "approvals"}


@pytest.mark.parametrize("name", LAYOUTS)
def test_another_layout_says_the_same(name: str) -> None:
    """Every published rating that the layout changes reads as before."""
    rewritten = [(t, new) for t in TEXTS if (new := LAYOUTS[name](t)) != t]

    assert rewritten
    assert [new for old, new in rewritten if _said(new) != _said(old)] == []


def test_there_are_many_texts_and_layouts() -> None:
    """The rewriting is not of a handful."""
    assert len(TEXTS) >= 140
    assert len(LAYOUTS) >= 45


DAMAGED = {
    "05A 125VDC": ("dc_a", 5),
    "1(03)A 250V~": ("motor_a", 3),
    "15A 125/250VAC.5A 125VDC": ("dc_a", 5),
    "I/2HP 120VAC": ("hp", [{"hp": 2, "volts": 120}]),
    "15A 2A0VAC": ("volts_ac", [0]),
    "VDE 16(4)A 250V~": ("standard", "VDE 16"),
    "UL CSA 10.1A 125VAC": ("resistive_a", 1),
    "1HP 120VAC TV-8 125VAC": ("hp", [{"hp": 1, "volts": 120}, {"hp": 1, "volts": 125}]),
    "16A 250VAC 720VA PILOT DUTY": ("volts_ac", [250, 720]),
    "16A 277VAC 60LRA/10FLA 240VAC": ("volts_ac", [277, 240]),
}
"""Markings, damaged or crowded, with what they once read as and must not. Synthetic."""


@pytest.mark.parametrize("text", DAMAGED)
def test_a_trap_is_not_fallen_into(text: str) -> None:
    """The plausible and wrong figure is not read, at the top or in a row."""
    name, never = DAMAGED[text]
    said = read(text, "switch").ratings
    rows = [dict(said), *said.get("ratings", ())]

    assert all(row.get(name) != never for row in rows)


@pytest.mark.parametrize(
    ("text", "offered"),
    [
        ("05A 125VDC", "0.5A 125VDC"),
        ("12HP 250VAC", "1/2HP 250VAC"),
        ("15A 125/250VAC.5A 125VDC", "15A 125/250VAC 0.5A 125VDC"),
    ],
)
def test_the_likely_repair_is_offered_and_not_applied(text: str, offered: str) -> None:
    """A lost point or stroke is put back in a candidate, with a warning."""
    reading = read(text, "switch")

    assert offered in [candidate.text for candidate in reading.candidates]
    assert reading.warnings


def test_many_lost_points_cost_no_candidates() -> None:
    """A long text of them is read without a copy of itself for each."""
    assert read("250VAC.5A" * 300, "switch").candidates == ()


@pytest.mark.parametrize(
    "text",
    ["104/240VAC 10A", "12HP 250VAC", "10(15)A 400V~", "16A 250VAC 851E4", "2A 250V- "],
)
def test_what_is_improbable_is_said_so(text: str) -> None:
    """A figure that damage makes more likely than the maker is read, and told."""
    assert read(text, "switch").warnings


@pytest.mark.parametrize("family", ["switch", "relay", "fuse", "hv_fuse", "thermal_link",
                                    "thermal_cutout"])  # fmt: skip
@pytest.mark.parametrize("figure", [".5A", ".75A", "0.5A", ".5 A"])
def test_a_point_without_a_nought_is_a_tenth_in_every_family(family: str, figure: str) -> None:
    """.5 A was once read as 5 A in all of them."""
    reading = read(f"{figure} 250V", family)
    amperes = [v for v in _flat(reading) if v < 100]

    assert set(amperes) == {float(figure.rstrip(" A"))}


def _flat(reading: Reading) -> list[float]:
    """All plain figures of a reading."""
    return [
        float(value) for value in reading.ratings.values()
        if isinstance(value, int | float) and not isinstance(value, bool)
    ]  # fmt: skip


@pytest.mark.parametrize("text", [" .5A", "(.5) A", "a\r\n.5A\t\tb", "..5", ".", ".5.5", "5.  .5A"])
def test_what_was_made_even_is_laid_back_on_the_text_typed(text: str) -> None:
    """Each mark is a piece of the text as typed, and none is lost or twice there."""
    even = evened(text)

    assert len(even.places) == len(even.text)
    for family in ("switch", "fuse", "resistor", None):
        reading = read(text, family)
        assert reading.text == text
        assert uncovered(reading) == []
