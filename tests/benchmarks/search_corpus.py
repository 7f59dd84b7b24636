"""What is searched: invented part markings at any size, and a public list of real ones.

The invented ones follow the shapes met on appliance spares (prefix, series, running number,
suffix), with prefixes drawn by Zipf's law, so that a few prefixes are very common; makers and
prefixes are drawn by a seeded generator and name nobody.
The public list is the names and descriptions in the electronic symbol libraries that Debian
packages as ``kicad-symbols``; the package is unpacked outside the project and never committed.
"""

from __future__ import annotations

import random
import re
from collections.abc import Iterator
from pathlib import Path

SHAPES: tuple[tuple[str, int, int], ...] = (
    # pattern: P the prefix (in front), A a letter, 9 a digit; weight; number of prefixes at most
    ("P-99999A", 14, 90),  # maker's spare number, two letters and two digits in front
    ("P9A9999", 10, 60),
    ("P999999", 10, 12),
    ("P99999999", 8, 6),
    ("PA9A999A", 8, 150),
    ("PAA999WRE0", 6, 40),  # a suffix that all of the series carry
    ("P-A99-AA99", 12, 200),  # type code in three groups
    ("P999-999", 8, 60),
    ("P999-99A", 8, 60),
    ("P-99VDC-SA-A", 3, 120),
    ("P 9/9A 999", 4, 120),
    ("PA99", 5, 400),  # short codes
    ("P9", 2, 900),
)
"""Shapes of the invented markings."""

MAKERS = ("Orvane", "Teldrix", "Kumoro", "Haldwick", "Brenno", "Sunveld", "Quartzline")
"""Invented makers; each invented part has one of them."""

_LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
_SYMBOL = re.compile(
    r'^  \(symbol "([^"]+)"|\(property "ki_description" "((?:[^"\\]|\\.)*)"', re.MULTILINE
)


def invented(count: int, seed: int = 4) -> Iterator[str]:
    """So many different markings; the first n of a larger corpus are not the smaller one."""
    chance = random.Random(seed * 1_000_003 + count)
    pools = [_prefixes(chance, shape, most) for shape, _, most in SHAPES]
    weights = [weight for _, weight, _ in SHAPES]
    seen: set[str] = set()
    while len(seen) < count:
        number = chance.choices(range(len(SHAPES)), weights)[0]
        prefixes = pools[number]
        prefix = prefixes[min(int(chance.paretovariate(0.9)) - 1, len(prefixes) - 1)]
        marking = prefix + _filled(chance, SHAPES[number][0][1:])
        if marking not in seen:
            seen.add(marking)
            yield marking


def _prefixes(chance: random.Random, shape: str, most: int) -> list[str]:
    """The prefixes a shape uses, commonest first."""
    forms = {"P999999": "A9", "P99999999": "99", "P9": "AA", "PA99": "A"}
    form = forms.get(shape) or chance.choice(("AA99", "AAA", "AA9", "9A"))
    return [_filled(chance, form if most < 200 else form + "A") for _ in range(most)]


def _filled(chance: random.Random, pattern: str) -> str:
    """The pattern with its free places drawn."""
    signs = []
    for sign in pattern:
        if sign == "A":
            signs.append(chance.choice(_LETTERS))
        elif sign == "9":
            signs.append(chance.choice("0123456789"))
        else:
            signs.append(sign)
    return "".join(signs)


def public(folder: Path) -> dict[str, str]:
    """Names and descriptions of all symbols under an unpacked ``kicad-symbols`` package."""
    found: dict[str, str] = {}
    for path in sorted(folder.rglob("*.kicad_sym")):
        name = ""
        for match in _SYMBOL.finditer(path.read_text(encoding="utf-8")):
            name = match[1] or name
            found[name] = found.get(name) or (match[2] or "")
    return found
