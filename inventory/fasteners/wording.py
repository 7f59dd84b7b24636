"""The words of screw names: drives, heads, classes, finishes and places, one pattern each.

Trade names of drives are here as people type them; what goes out uses the standards' words.
"""

from __future__ import annotations

import re
import unicodedata

from inventory.fasteners.drives import Drive, Kind

_FRACTIONS = re.compile(r"([0-9])?([\u00bc-\u00be\u2150-\u215e])")
_FOLD = str.maketrans(
    {
        **dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2212", "-"),
        **dict.fromkeys("\u00d7\u2715\u2716\u2a2f\u0445\u0425\u03c7\u03a7*", "x"),
        **dict.fromkeys("\u041c\u043c\u039c", "M"),
        **dict.fromkeys("\u200b\u200c\u200d\u200e\u200f\u2060\ufeff\u00ad", ""),
        **dict.fromkeys("\u2033\u201d\u201c\u201e", '"'),
        **dict.fromkeys("\u2019\u2018`\u00b4", "'"),
        "\u2044": "/",
        "\u00d8": " ",
        "\u00f8": " ",
        "\u2300": " ",
    }
)


def tidy(text: str) -> str:
    """Look-alike characters folded, decimal commas made points, lower case, single spaces.

    >>> tidy("ST4,2 × 9,5"), tidy("1½″")
    ('st4.2 x 9.5', '1-1/2"')
    """
    return fold(text).lower()


def fold(text: str) -> str:
    """The same with its capitals."""
    split = _FRACTIONS.sub(lambda m: (m[1] + "-" if m[1] else "") + m[2], text)
    # before NFKC, which would take an inch mark apart into two primes
    folded = unicodedata.normalize("NFKC", split.translate(_FOLD)).translate(_FOLD)
    points = re.sub(r"(?<=[0-9]),(?=[0-9])", ".", folded)
    points = re.sub(r"(?<=[1-3][ABab])(?=[xX][0-9.])", " ", points)  # 2AX1/2
    return " ".join(points.split())


_SECURE = r"(?:(?:security|tamper[- ]?(?:proof|resistant)?|pin(?:[- ]?in)?|pinned|hollow)[ -]?)"
_PIN = r"(?:[ -]?(?P<pin>pin[- ]?in|pinned|security))?"
_SIZE = r"(?:[ -]?(?:#|no\.? ?|size )?(?P<size>[0-9]{1,2}(?:\.[0-9])?)(?![0-9./x]|-[0-9]))?"

_DRIVES: tuple[tuple[Kind, str], ...] = (
    (
        Kind.FIVE_LOBE,
        rf"(?:five|5)[- ]?lobe|ipr{_SIZE}|(?P<size2>[0-9]{{1,2}})ipr\b",
    ),
    (
        Kind.HEXALOBULAR,
        (
            rf"{_SECURE}?(?:hexalobular|hexalobe|(?:six|6)[- ]?lobe|torx|star"
            r"|(?:tx|tr|ip)(?=[ -]?[0-9])|t(?=-?[0-9]))"
            rf"(?:[ -]?(?:socket|internal))?{_PIN}{_SIZE}"
            r"(?P<hole>(?<=[0-9])h\b)?"
        ),
    ),
    (
        Kind.HEX_WASHER,
        r"hex(?:agon)?[ -]?(?:washer|flange)(?:[ -]?head)?|hwh\b|hex(?:agon)?[ -]head",
    ),
    (
        Kind.HEX,
        (
            rf"{_SECURE}?(?:hex(?:agon)?[ -]?(?:socket|key)|allen(?:[ -]key)?|inbus|"
            rf"socket(?:[ -]head)?|hex(?:agon)?){_PIN}{_SIZE}"
        ),
    ),
    (
        Kind.CROSS_Z,
        rf"(?:cross(?:[ -]?recess)?[ -]?z|pozi(?:driv|drive)?|supadriv|pzd?|z(?=[0-4]\b)){_SIZE}",
    ),
    (Kind.CROSS_J, rf"(?:cross[ -]?j|jis|j(?=[0-4]\b)){_SIZE}"),
    (
        Kind.CROSS_H,
        (
            rf"(?:cross(?:[ -]?(?:recess(?:ed)?|head))?(?:[ -]?h\b|[ -]?h(?=[0-4]))?"
            rf"|phil+ips|phi?l\b|ph|h(?=[0-4]\b)|type 1(?: recess)?){_SIZE}"
        ),
    ),
    (Kind.SQUARE, rf"(?:square|robertson|sq|r(?=[0-4]\b)){_SIZE}"),
    (Kind.SLOT, r"slot(?:ted)?\b|sl\b|flat[ -]?blade|straight slot"),
    (Kind.TRIANGLE, rf"(?:triangle|triangular|ta(?=[ 0-9])){_SIZE}"),
    (Kind.TRI_WING, rf"tri[- ]?wing{_SIZE}"),
    (Kind.TWO_HOLE, r"(?:two|2)[- ]?hole|snake[- ]?eyes?|spanner head"),
    (Kind.ONE_WAY, r"one[- ]?way(?: slot)?"),
    (Kind.SHEAR, r"shear(?:[- ]?(?:off|head|nut))?|snap[- ]?off"),
)

DRIVES = tuple((kind, re.compile(pattern)) for kind, pattern in _DRIVES)
"""Drives as people type them, the longer names first."""

SECURITY = re.compile(
    r"security|sec\b\.?|tamper(?:[- ]?(?:proof|resistant))?|anti[- ]?tamper|with pin|pin[- ]in"
    r"|pin(?:ned)?\b|tr\b"
)
"""Words that say a pin, or a special drive, without naming which."""

SIZE_FIRST = re.compile(
    r"(?:#|no\.?\s?|nr\.?\s?)(?P<size>[0-9]{1,2})\s?"
    r"(?=phil|pozi|pzd?\b|ph\b|cross|square|robertson|torx|hexalob|recess)"
    r"|(?P<mm>[1-9][0-9]?(?:\.[0-9])?)\s?mm\s?(?=allen|hex(?:agon)?[ -]?(?:key|socket))"
)
"""The size of a drive before its kind: #2 Phillips."""


def drive_of(kind: Kind, found: re.Match[str]) -> Drive:
    """The drive a match of one of ``DRIVES`` names."""
    groups = found.groupdict()
    text = found.group()
    pinned = bool(groups.get("pin") or groups.get("hole"))
    pinned = pinned or bool(re.match(_SECURE, text)) or text.startswith("tr")
    can_be_pinned = kind in {Kind.HEXALOBULAR, Kind.HEX}
    size = groups.get("size") or groups.get("size2")
    if kind is Kind.TRIANGLE and size is not None and re.fullmatch(r"[0-9]{2}", size):
        size = f"{size[0]}.{size[1]}"  # TA23 is 2.3 mm
    return Drive(kind, size, can_be_pinned and pinned)


HEADS = (
    ("raised countersunk", r"raised[ -]?(?:countersunk|csk)|oval(?: head)?"),
    ("countersunk", r"counter[- ]?sunk|csk|flat[- ]?head|flat\b|fh\b"),
    ("button collar", r"button(?: head)?[ -](?:with )?(?:collar|flange)"),
    ("button", r"button(?:[- ]head)?|bh\b"),
    ("pan collar", r"pan(?: head)?[ -](?:with )?(?:collar|washer)|pan washer"),
    ("pan", r"pan(?:[- ]?head)?\b|ph head"),
    ("cheese", r"cheese(?:[- ]head)?|fillister"),
    ("cap", r"cap(?:[- ]head)?\b|shcs"),
    ("truss", r"truss|mushroom|wafer"),
    ("hex", r"hex(?:agon)?[- ]?(?:head|washer|flange)"),
    ("round", r"round(?:[- ]head)?|binding"),
)
"""Heads and the words for them."""

FINISHES = (
    ("zinc", r"zinc(?:[- ]plated)?|zp\b|galv(?:anised|anized)?|bzp"),
    ("black oxide", r"black(?:[- ]oxide)?|blackened"),
    ("nickel", r"nickel(?:[- ]plated)?"),
    ("stainless", r"stainless(?: steel)?|inox|18-8"),
    ("brass", r"brass"),
    ("painted", r"painted|lacquered|powder[- ]coated"),
    ("plain", r"plain steel|unplated|self[- ]colou?r"),
)
"""Finishes and the words for them."""

PLACES = (
    ("nut", r"(?:in|into) (?:an? )?(?:hard )?(?:tapped |cage |weld )?(?:nut|insert)"),
    (
        "extruded",
        r"(?:in|into) (?:an? )?(?:extruded|plunged|tapped)(?: and tapped)?(?: sheet| hole)?",
    ),
    ("boss", r"(?:in|into) (?:an? )?(?:plastics?|boss)(?: boss)?"),
    (
        "sheet",
        r"(?:in|into) (?:an? )?(?:thin |plain |steel ){0,3}(?:sheet|lip|cabinet)(?: metal| steel)?",
    ),
    ("formed", r"(?:in|into) (?:an? )?(?:formed|self[- ]tapped)(?: hole| thread)?"),
    ("unknown", r"(?:in|into) (?:an? )?unknown(?: hole)?"),
)
"""Holes named in a sentence about a screw."""

EARTH = re.compile(r"earth(?:ing)?|ground(?:ing)?|bonding|protective conductor")
HIGH_VOLTAGE = re.compile(
    r"high[- ]?voltage(?: cover)?|hv(?: cover)?\b|microwave(?: oven)?(?: cover)?"
    r"|(?:magnetron|inverter) cover"
)

WASHER = re.compile(r"(?:toothed|star|lock|spring|serrated)(?: lock)?[ -]washers?|washers?")
"""Washers named beside a screw; read and passed over."""

NOISE = re.compile(
    r"(?:machine |cover |cabinet |case |self[- ]?)?(?:screws?|bolts?)|metric|inch|coarse|fine"
    r"|thread(?:ed)?|cover|head|with|from|and|the|for|type|steel|long|length|recess|drive|bit"
    r"|class|of|an?\b|in\b|,|;|:|\.|\(|\)|x\b"
)
"""Words that say nothing more."""
