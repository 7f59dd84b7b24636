"""Ambient temperature and disconnection marks of a contact marking."""

from __future__ import annotations

import re

from inventory.markings.contacts_items import Fact, Number, Only
from inventory.markings.contacts_scan import GLUED_CYCLES, ContactScanner

AMBIENT = "IEC 61058-1, T mark (as explained by cxswitch: the figure before T is minus)"
SHEET = "makers' data sheets"
MICRO = "IEC 61058-1, micro-disconnection (as explained by cxswitch)"
ELECTRONIC = "IEC 61058-1, electronic disconnection (from memory; no printed example seen)"

_DEG = r"(?:\s?(?:°\s?[Cc]|℃|(?<=[0-9]{2})[oO]C|(?i:deg)\.?\s?[Cc]|[Cc])(?![A-Za-z0-9]))"
_DEG_F = r"(?:\s?(?:°\s?[Ff]|℉|(?i:deg)\.?\s?[Ff]|[Ff])(?![A-Za-z0-9]))"
_FIG = r"[0-9]{1,3}"

_T_MARK = re.compile(
    rf"(?P<micro>[µuεϵm]\s?)?(?P<sign>[-+]\s?)?(?P<low>{_FIG})?\s?[Tt]\s?(?P<high>{_FIG})"
    rf"(?:\s?/\s?[Tt]?(?P<part>{_FIG}))?(?:\s?°?\s?[Cc](?![A-Za-z])|\s?℃)?"
    rf"(?:(?![0-9A-Za-z])|(?=IP[0-9])|{GLUED_CYCLES})(?!-[0-9]|\s?m?A(?![A-Za-z]))"
)
_MICRO_BEFORE_T = re.compile(rf"[uµεϵm]\s?(?:{_FIG}\s?)?[Tt]\s?{_FIG}")
_RANGE = re.compile(
    rf"\(?(?P<low>[-+]?\s?{_FIG}){_DEG}?\s?(?:(?i:to)|~|\.{{2,3}}|…|-|➞|→)\s?(?P<high>[-+]?\s?{_FIG}){_DEG}\)?"
)
_PLAIN = re.compile(rf"\+?(?P<high>{_FIG}){_DEG}")
_ONE_LETTER = re.compile(r"[0-9][Cc](?![0-9A-Za-z])")
_RANGE_F = re.compile(
    rf"(?P<low>[-+]?\s?{_FIG}){_DEG_F}?\s?(?:(?i:to)|~|\.{{2,3}}|…|-)\s?(?P<high>[-+]?\s?{_FIG}){_DEG_F}"
)
_PLAIN_F = re.compile(rf"\+?(?P<high>{_FIG}){_DEG_F}")
_ONLY = re.compile(
    rf"\(\s?(?:(?P<life>{_FIG})\s?[Kk]\s(?:life|ops|cycles)\s"
    rf"|(?:{_FIG}{_DEG}\s?(?:and|or|,|/)?\s?){{1,3}}|[A-Z][a-z]{{1,9}}\.?\s[a-z]{{3,9}}\s)only\s?\)",
    re.IGNORECASE,
)
_DISCONNECTION = re.compile(r"(?P<kind>micro|full|electronic)[ -]?disconnection", re.IGNORECASE)
_ALONE = re.compile(r"[µεϵ](?![A-Za-z])|u(?![0-9A-Za-z])")


def t_mark(scan: ContactScanner) -> bool:
    """T mark = [micro] [low] "T" high ["/" partial]: ambient limits in degrees Celsius."""
    found = scan.peek(_T_MARK)
    if found is None or (found[0][0] == "t" and scan.glued()):
        return False  # the tail of a word such as ``at125V``
    if found["micro"]:
        _micro(scan, found["micro"].strip(), found.start())
    low = int(found["low"] or 0)
    if (found["sign"] or "").strip() != "+":
        low = -low
    limits: dict[str, Number] = {"ambient_min_c": low, "ambient_max_c": int(found["high"])}
    if found["part"]:
        limits["ambient_partial_max_c"] = int(found["part"])
    scan.items.append(Fact(found.start(), "ambient", limits))
    scan.take(_T_MARK, _ambient_words(limits, micro=bool(found["micro"])), AMBIENT)
    return True


def micro_before_t(scan: ContactScanner) -> bool:
    """``µ25T125``, ``uT85``: the disconnection sign glued to a T mark."""
    return bool(scan.peek(_MICRO_BEFORE_T)) and t_mark(scan)


def _ambient_words(limits: dict[str, Number], *, micro: bool) -> str:
    """A T mark in plain words."""
    words = f"ambient {limits['ambient_min_c']} to {limits['ambient_max_c']} °C"
    if "ambient_partial_max_c" in limits:
        words += f", the part the hand touches to {limits['ambient_partial_max_c']} °C"
    return ("micro-disconnection; " if micro else "") + words


def _micro(scan: ContactScanner, sign: str, start: int) -> None:
    """Note which disconnection a sign stands for; a doubtful letter is told."""
    if sign in "εϵ":
        scan.items.append(Fact(start, "disconnection", "electronic"))
        return
    if sign in "um":
        scan.warn(f"The letter {sign!r} is read as µ (micro-disconnection): the sign was lost.")
    scan.items.append(Fact(start, "disconnection", "micro"))


def disconnection(scan: ContactScanner) -> bool:
    """µ, u or ε standing alone, or the words."""
    found = scan.take(_DISCONNECTION, "type of disconnection, in words", MICRO)
    if found:
        scan.fact("disconnection", found["kind"].lower())
        return True
    found = scan.peek(_ALONE)
    if found is None:
        return False
    _micro(scan, found[0], found.start())
    electronic = found[0] in "εϵ"
    scan.take(
        _ALONE,
        "electronic disconnection" if electronic else "micro-disconnection",
        ELECTRONIC if electronic else MICRO,
    )
    return True


def temperature(scan: ContactScanner) -> bool:
    """A temperature or a range written out, in Celsius or Fahrenheit."""
    found = scan.peek(_RANGE)
    if found:
        low, high = (int(found[name].replace(" ", "")) for name in ("low", "high"))
        limits = {"ambient_min_c": low, "ambient_max_c": high}
        scan.items.append(Fact(found.start(), "ambient", limits))
        return bool(scan.take(_RANGE, f"ambient {low} to {high} °C", SHEET))
    found = scan.peek(_PLAIN)
    if found and not scan.peek(_ONE_LETTER):
        scan.items.append(Fact(found.start(), "ambient", {"ambient_max_c": int(found["high"])}))
        return bool(scan.take(_PLAIN, f"ambient up to {found['high']} °C", "maker's data sheet"))
    return _fahrenheit(scan)


def _fahrenheit(scan: ContactScanner) -> bool:
    """Ambient in Fahrenheit: kept as printed, under names of their own."""
    for pattern in (_RANGE_F, _PLAIN_F):
        found = scan.peek(pattern)
        if found:
            figures = {
                f"ambient_{name}_f": int(text.replace(" ", ""))
                for name, text in zip(("min", "max"), _low_high(found), strict=True)
                if text
            }
            scan.items.append(Fact(found.start(), "ambient_f", figures))
            return bool(scan.take(pattern, _fahrenheit_words(figures), "maker's data sheet"))
    return False


def _fahrenheit_words(figures: dict[str, int]) -> str:
    """Ambient limits in °F."""
    low = f"{figures['ambient_min_f']} to " if "ambient_min_f" in figures else "up to "
    return f"ambient {low}{figures['ambient_max_f']} °F"


def _low_high(found: re.Match[str]) -> tuple[str | None, str]:
    """Low and high figure of a range, or None and the one figure."""
    return found.groupdict().get("low"), found["high"]


def only(scan: ContactScanner) -> bool:
    """``(6k life only)``, ``(85C only)``: binds the rating before it."""
    found = scan.peek(_ONLY)
    if found is None:
        return False
    if found["life"]:
        scan.items.append(Only(found.start(), int(found["life"]) * 1000))
    else:
        scan.items.append(Only(found.start()))
        scan.warn(f"{found[0]}: the rating before it holds for that version only.")
    life = f"{found['life']} 000 operating cycles" if found["life"] else found[0].strip("() ")
    means = f"{life}: holds for the rating before it"
    scan.take(_ONLY, means, "Cherry D4 and K data sheets")
    return True
