"""Part numbers of appliance makers: the search key, the base, the suffix.

A suffix may be a revision, a colour, a market or a lead-free mark: it is kept apart and its
meaning is never guessed. Leading zeros count.
"""

from __future__ import annotations

import re
import unicodedata

from inventory.markings.amounts import PRACTICE
from inventory.markings.passive_marks import ANY_CASE, legend
from inventory.markings.scanner import Scanner
from inventory.markings.writing import faithful
from inventory.records import Reading

SHAPES = "makers' number shapes, from memory; only the shape is used, never a meaning"
"""The doubt behind every prefix here."""

_MAKERS = (
    re.compile(r"[A-Z]{2}[0-9]{2}-[0-9]{5}[A-Z]?"),  # DE59-00002A
    re.compile(r"W(?:P?W)?[0-9]{8}|WP[0-9A-Z]{5,9}"),  # W11175370, WPW10185982, WP3387747
    re.compile(r"W[A-Z][0-9]{2}[XKM][0-9]{4,5}"),  # WB27X11214
    re.compile(r"[0-9]{10}"),  # 5304468869
    re.compile(r"(?:EBR|EAU|MJX|ABQ|AGB|COV)[0-9]{8}"),
    re.compile(r"[0-9]{4}[A-Z][0-9A-Z]{2}[0-9]{3}[A-Z]?"),  # 6871W1N012B
    re.compile(r"[A-Z]{4}[-A-Z0-9]{5,7}W?RE[0-9]"),  # RMOTDA227WRE0
)
"""Number shapes met on spares. Source: as ``SHAPES``."""

_NUMBER = re.compile(
    r"(?P<base>[0-9A-Z]{2,6}(?:-[0-9A-Z]{2,12})?|[0-9A-Z]{3,20})"
    r"(?P<join>[ -])?(?P<suffix>REV\.?\s?[A-Z0-9]{1,2})?"
    r"(?=\s|$|[,;])"
)
_TRAILING = re.compile(r"(?P<base>.{0,39}[0-9])(?P<suffix>[A-Z]{1,2})")


def normalise(number: str) -> str:
    """The search key: upper case, no spaces, hyphens, dots or slashes; leading zeros stay.

    >>> normalise("de59-00002a"), normalise("005.12/3")
    ('DE5900002A', '005123')
    """
    folded = unicodedata.normalize("NFKC", number).upper()
    return re.sub(r"[\s./-]", "", folded)


def keys(number: str) -> tuple[str, ...]:
    """All search keys of a number: with and without the WP of a renumbering.

    >>> keys("WP3387747")
    ('WP3387747', '3387747')
    """
    key = normalise(number)
    return (key, key[2:]) if re.fullmatch(r"WP[0-9W][0-9A-Z]{4,10}", key) else (key,)


def number_line(scan: Scanner) -> bool:
    """Number = base ("-" "REV" letter | letters)?; the first number of the text counts."""
    found = scan.peek(_NUMBER)
    if found is None or "normalized" in scan.ratings or not re.search(r"[0-9]", found["base"]):
        return False
    scan.say("normalized", normalise(found[0]))
    if len(keys(found[0])) > 1:
        scan.say("without_prefix", keys(found[0])[1])
    if found["suffix"]:
        return _with_revision(scan, found)
    split = _TRAILING.fullmatch(found["base"])
    if split is None or len(found["base"]) < 6:
        scan.say("base", found["base"])
        return legend(scan, found, {"base": ("the whole number, no suffix seen", PRACTICE)})
    return _with_letters(scan, found, split)


def _with_revision(scan: Scanner, found: re.Match[str]) -> bool:
    """A revision in words behind the number."""
    scan.say("base", found["base"])
    scan.say("suffix", re.sub(r"[.\s]", "", found["suffix"]))
    scan.say("revision", found["suffix"][3:].strip(". "))
    scan.warn("The revision may be that of a sheet or of the part: never the same part unasked.")
    means = {
        "base": ("the number itself", PRACTICE),
        "suffix": ("revision", "appliancetechmanuals.com, W11175370-REVA: revision of the sheet"),
    }
    return legend(scan, found, means)


def _with_letters(scan: Scanner, found: re.Match[str], split: re.Match[str]) -> bool:
    """Trailing letters are a suffix; what they mean is not said."""
    base, suffix = split["base"], split["suffix"]
    scan.say("base", base)
    scan.say("suffix", suffix)
    scan.warn(f"The suffix {suffix} may be a revision or a variant: never the same part unasked.")
    middle = found.start() + len(base)
    scan.mark(found.start(), middle, "the number itself", SHAPES)
    scan.mark(middle, found.end("base"), "suffix, meaning not stated", SHAPES)
    scan.at = found.end("base")  # a hyphen behind it is left as unread, not lost
    return True


_LABEL = re.compile(
    r"(?:part|parts?\s?(?:no|number)|p/?n|oem|no|number|code)\.?\s?[:#]?(?=\s|$)", ANY_CASE
)


def label(scan: Scanner) -> bool:
    """Label = "part no." | "P/N" | ...: what follows is the number."""
    return scan.take(_LABEL, "the number follows", PRACTICE) is not None


RULES = (label, number_line)


def read(text: str) -> Reading:
    """Read one maker's part number; its meaning beyond base and suffix is not decoded."""
    scan = Scanner(text)
    scan.view = scan.view.upper() if len(scan.view.upper()) == len(scan.view) else scan.view
    scan.sweep(RULES)
    return scan.reading("oem_number")


def likely(text: str) -> float:
    """How strongly a text looks like this family, 0 to 1."""
    bare = text.strip().upper()
    if len(bare) > 40:
        return 0.0
    head = re.sub(r"[ -]REV\.?\s?[A-Z0-9]{1,2}$", "", bare)
    return 0.75 if any(shape.fullmatch(head) for shape in _MAKERS) else 0.0


def canonical(reading: Reading) -> str:
    """Base and suffix as they were printed."""
    return faithful(reading, _written(reading), read)


def _written(reading: Reading) -> str:
    """The ratings written out."""
    said = reading.ratings
    if "revision" in said:
        return f"{said['base']}-{said['suffix']}"
    return f"{said.get('base', '')}{said.get('suffix', '')}"
