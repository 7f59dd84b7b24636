"""Watts with a word that says which: before the figure or behind it, never half of each."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import partial

from inventory.markings.amounts import END, NUM, PRACTICE, SI, SPAN, amount_words, plain_number
from inventory.markings.scanner import Rule, Scanner

_WATTS = re.compile(
    rf"(?P<a>{NUM})(?:\s?(?:W(?:atts?)?)?{SPAN}(?P<b>{NUM}))?\s?(?P<k>k?)W(?:atts?)?{END}",
    re.IGNORECASE,
)


@dataclass(slots=True)
class Powers:
    """Words and watts in the order of the text: a name, or the figures of one power."""

    met: list[str | list[float]] = field(default_factory=list)

    def named(self) -> list[tuple[str | None, list[float]]]:
        """Each power with its word; words stand behind if the first piece is a figure
        and the last a word, else before.
        """
        met = self.met
        behind = bool(met) and isinstance(met[0], list) and isinstance(met[-1], str)
        step = 1 if behind else -1
        pairs: list[tuple[str | None, list[float]]] = []
        for at, piece in enumerate(met):
            if isinstance(piece, str):
                continue
            near = met[at + step] if 0 <= at + step < len(met) else None
            pairs.append((near if isinstance(near, str) else None, piece))
        return pairs


def role_pattern(roles: Mapping[str, str]) -> re.Pattern[str]:
    """One pattern of all the words, each group named after its rating."""
    words = "|".join(f"(?P<{name}>{pattern})" for name, pattern in roles.items())
    tail = r"(?:\s?(?:power|capacity))?(?:\s?\((?:microwave|IEC[ -]?(?:60)?705|input|output)\))?"
    return re.compile(rf"(?:{words}){tail}\s?[:=]?(?![A-Za-z])", re.IGNORECASE)


def _role(powers: Powers, pattern: re.Pattern[str], scan: Scanner) -> bool:
    """Role = a word such as "input", "output", "grill"."""
    found = scan.take(pattern, "which power the figure beside it is", PRACTICE)
    if found is None or found.lastgroup is None:
        return False
    powers.met.append(found.lastgroup)
    return True


def _watt_words(found: re.Match[str]) -> str:
    """The figures of a power."""
    between = "and" if "/" in found.group() else "to"
    factor = "1000" if found["k"] else "1"
    return f"power {amount_words((found['a'], found['b']), 'W', factor, between)}"


def _watts(powers: Powers, scan: Scanner) -> bool:
    """Power = figure (span figure)? "k"? "W"."""
    found = scan.take(_WATTS, _watt_words, SI)
    if found is None:
        return False
    factor = "1000" if found["k"] else "1"
    powers.met.append([plain_number(found[n], factor) for n in ("a", "b") if found[n]])
    return True


def rules(powers: Powers, roles: Mapping[str, str]) -> tuple[Rule, ...]:
    """The grammar lines of power, filling this collection."""
    return (partial(_watts, powers), partial(_role, powers, role_pattern(roles)))


def settle(scan: Scanner, powers: Powers) -> None:
    """Say each power under its name; several without a word are one rising list."""
    plain: list[float] = []
    for name, figures in powers.named():
        if name is None:
            plain += figures
        else:
            scan.say(name, figures if len(figures) > 1 else figures[0])
    values = sorted(set(plain))
    if values:
        scan.say("power_w", values if len(values) > 1 else values[0])
