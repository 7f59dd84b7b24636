"""Text that came from a scan or a worn label: repairs offered with what was changed.

Nothing is applied: the text stays as typed, every repair is a candidate. Source of the kinds
of damage: the failures listed in the study of scanned service manuals (letters for digits,
lost signs, ohm printed as W, micro lost); the checks are those named beside each rule.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from inventory.markings.damage import DIGIT_FOR, cf_pair
from inventory.markings.scanner import Scanner
from inventory.records import Candidate, Reading
from inventory.units import plain

Repair = tuple[str, tuple[str, ...]]
"""A repaired text, and the phrases that say what was changed; no phrases: nothing was."""

SOURCE = "consistency and plausible range; common practice"
_LONGEST = 2000

_BETWEEN = re.compile(
    r"(?:(?<=[0-9])|(?<=[0-9]\s)|(?<=-)|(?<=[0-9][.,]))[OoIl|]{1,6}"
    r"(?=[0-9A-Z(]|\s[0-9]|-|\.|$|\s?$)(?![a-z])"
    r"|(?<=[0-9][A-Z])[OIl]{1,4}(?=[0-9])|(?<![0-9A-Za-z])[Il|](?=[0-9])"
)
_LAST_O = re.compile(r"(?<=[A-Z])O(?![0-9A-Za-z])")
_CODE = re.compile(r"[A-Z]{2,}[0-9]{2,}[A-Z]{0,6}O")
_SPLIT_NUMBER = re.compile(r"(?<=[0-9])\s(?=[0-9]{1,5}[A-Z(]|[0-9]\()")
_GLUED_WORD = re.compile(r"(?<=CFR)(?=[0-9])")
_OHM = re.compile(r"(?<=[0-9])(\s?)W(?![A-Za-z0-9])")
_OHM_WORDS = re.compile(r"(?i:resistance|ohm|continuity|coil|winding)|[<>≤≥]\s?[0-9]")
_MILLIFARAD = re.compile(r"(?<=[0-9])(\s?)mF(?![A-Za-z0-9])")
_FARAD = re.compile(r"(?:(?<=[0-9])(\s)|(?<=[0-9]\.[0-9]))F(?![A-Za-z0-9(])(?!\s?\()")
_REVERSE = re.compile(r"(?<=[0-9])(\s?)mA(?![A-Za-z0-9])")
_REVERSE_WORDS = re.compile(r"\bI\s?R\b|\(\s?1N[0-9]|(?i:reverse|leakage)")
_PLUS_MINUS = re.compile(r"(?<=[0-9] )(?:z!z|\+!-|\+1-|t!t)(?= ?[0-9])")
_DEGREES = re.compile(r"(?<=[0-9])[Oo](?=[Cc](?![A-Za-z0-9]))")
_SPACED_C = re.compile(r"(?<=[0-9]) [Cc](?![A-Za-z0-9])")
_SQUARE = re.compile(r"(?<=mW/cm)(?:\*|'|\^)?(?=\s|[.,;)]|$)")
_STROKE = re.compile(r"(?P<a>[0-9]{1,3}\.[0-9])\.(?P<b>[0-9]{1,3})(?=\s?(?i:rpm|r/min|W\b))")
_PAIRS = re.compile(r"(?<![0-9.])[0-9] [0-9] [0-9] [0-9](?![0-9.])")
_CELSIUS_PAIR = re.compile(
    r"(?P<f>-?[0-9]{1,3})\s?[°˚º]?\s?F\s?\(\s?(?P<c>-?[0-9]{1,3})\s?[°˚º]?\s?C\s?\)"
)


def read(text: str) -> Reading:
    """The text as typed, all unread, with repairs as candidates, the fullest first."""
    scan = Scanner(text)
    scan.sweep(())
    for repaired, phrases in _repairs(text[:_LONGEST]) if len(text) <= _LONGEST else ():
        scan.candidates.append(Candidate(repaired, "; ".join(phrases), {"repaired": list(phrases)}))
    if scan.candidates:
        scan.say("repaired", scan.candidates[0].ratings["repaired"])
        scan.warn("Repairs are offered, none is applied: compare with the part or the page.")
    return scan.reading("ocr_repair")


def likely(_text: str) -> float:
    """Never chosen by itself: damage is looked for when a person asks."""
    return 0.0


def _repairs(text: str) -> list[Repair]:
    """All rules together, then each alone; equal texts once."""
    steps = [rule(text) for rule in _RULES]
    together = text
    phrases: list[str] = []
    for rule in _RULES:
        together, said = rule(together)
        phrases += said
    found = [(together, tuple(_space_moved(phrases))), *steps]
    unique: dict[str, tuple[str, ...]] = {}
    for repaired, said in found:
        if repaired != text:
            unique.setdefault(repaired, tuple(said))
        if "O -> space" in said:
            degrees = tuple(f"{phrase.replace('space', '°')}" for phrase in said)
            for sign in ("°C", " °C"):
                unique.setdefault(_SPACED_C.sub(sign, repaired), degrees)
    return list(unique.items())


def _space_moved(phrases: list[str]) -> list[str]:
    """A space dropped in one place and set in another was moved."""
    if "space dropped" in phrases and "space added" in phrases:
        kept = [phrase for phrase in phrases if phrase not in {"space dropped", "space added"}]
        return [*kept, "space moved"]
    return phrases


def _digits(text: str) -> Repair:
    """Letters among digits: ``85OA`` is ``850A``, ``R-l 85`` is ``R-1 85``."""
    phrases: list[str] = []

    def digit(found: re.Match[str]) -> str:
        """The digits, noting each kind of change once."""
        for letter in found[0]:
            phrase = f"{letter} -> {DIGIT_FOR[letter]}"
            if phrase not in phrases:
                phrases.append(phrase)
        return "".join(DIGIT_FOR[letter] for letter in found[0])

    return _BETWEEN.sub(digit, text), tuple(phrases)


def _last_letter(text: str) -> Repair:
    """A part number that ends in O: RMOTDA227WREO ends in 0 in its maker's lists."""
    if not _CODE.fullmatch(text.strip()):
        return text, ()
    return _LAST_O.sub("0", text), ("O -> 0",)


def _spaces(text: str) -> Repair:
    """A space inside a number goes; one between CFR and its number comes back."""
    joined, dropped = _SPLIT_NUMBER.subn("", text)
    spaced, added = _GLUED_WORD.subn(" ", joined)
    phrases = ("space dropped",) * bool(dropped) + ("space added",) * bool(added)
    return spaced, phrases


def _plain_swap(
    pattern: re.Pattern[str], instead: str, phrase: str, needs: re.Pattern[str] | None = None
) -> Callable[[str], Repair]:
    """A rule that swaps one thing for another where a second pattern agrees."""

    def rule(text: str) -> Repair:
        """The swapped text with its phrase, or the text alone."""
        if needs is not None and not needs.search(text):
            return text, ()
        swapped, count = pattern.subn(instead, text)
        return swapped, (phrase,) if count else ()

    return rule


def _decimal_pairs(text: str) -> Repair:
    """``1 0 9 5``: two figures whose points were lost, 1.0 and 9.5."""
    repaired, count = _PAIRS.subn(lambda m: f"{m[0][0]}.{m[0][2]} {m[0][4]}.{m[0][6]}", text)
    return repaired, ("decimal point restored",) if count else ()


def _temperature_pair(text: str) -> Repair:
    """Fahrenheit and Celsius that disagree: the repair that makes them agree.

    Source: NIST SP 811, appendix B.8.
    """
    found = _CELSIUS_PAIR.search(text)
    if found is None:
        return text, ()
    check = cf_pair(float(found["c"]), float(found["f"]))
    if check.consistent or not check.repairs:
        return text, ()
    celsius, fahrenheit, what = check.repairs[0]
    at_f, at_c = found.span("f"), found.span("c")
    pieces = (text[: at_f[0]], plain(fahrenheit), text[at_f[1] : at_c[0]], plain(celsius))
    return "".join((*pieces, text[at_c[1] :])), (what,)


_RULES: tuple[Callable[[str], Repair], ...] = (
    _plain_swap(_PLUS_MINUS, "±", "z!z -> ±"),
    _plain_swap(_DEGREES, " ", "O -> space"),
    _digits,
    _last_letter,
    _spaces,
    _plain_swap(_OHM, r"\1Ω", "W -> Ω", _OHM_WORDS),
    _plain_swap(_MILLIFARAD, r"\1µF", "m -> µ"),
    _plain_swap(_FARAD, r"\1uF", "u restored"),
    _plain_swap(_REVERSE, r"\1µA", "m -> µ", _REVERSE_WORDS),
    _plain_swap(_SQUARE, "2", "2 restored"),
    _plain_swap(_STROKE, r"\g<a>/\g<b>", ". -> /"),
    _decimal_pairs,
    _temperature_pair,
)
"""Rules in the order they are applied together."""


def canonical(reading: Reading) -> str:
    """The text itself: nothing is applied."""
    return reading.text
