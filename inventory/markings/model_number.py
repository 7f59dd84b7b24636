"""Model numbers of appliances: base and revision.

Two revisions of one model do not share all parts, so a missing revision is a question, and two
model numbers are never called the same on their base alone.
"""

from __future__ import annotations

import re

from inventory.markings.amounts import PRACTICE
from inventory.markings.passive_marks import ANY_CASE, legend
from inventory.markings.scanner import Scanner
from inventory.markings.writing import faithful
from inventory.records import Reading

SEARS = "searspartsdirect.com: LMXS27626D/00 and /01 do not share all parts"
SERVICEMAG = "servicemag.org: WRF535SWHZ00 and 01 may differ in board, gasket or motor"

_SLASH = re.compile(
    r"(?P<base>[0-9A-Z][0-9A-Z.*#_-]{2,20}(?:/[A-Z]{2,3})?)(?P<join>[/-])"
    r"(?P<revision>[0-9]{2})(?![0-9A-Z])"
)
_TAIL = re.compile(
    r"(?P<base>[A-Z]{2,5}[0-9]{2,5}[A-Z]{1,6})(?P<revision>[0-9]{1,2})(?![0-9A-Z/-])"
)
_DOTTED = re.compile(r"(?P<base>[0-9]{3}\.[0-9]{5,8})(?:\.(?P<revision>[0-9]{3}))?(?![0-9A-Z.])")
_BARE = re.compile(
    r"(?P<base>[0-9A-Z*#_]{1,6}(?:-[0-9A-Z*#_]{1,12}){0,2}|[0-9A-Z*#_]{3,20})(?![0-9A-Z*#_-])"
)
_WILD = re.compile(r"[*#_]|\.{2}")


def model(scan: Scanner) -> bool:
    """Model = base ("/" | "-") two digits | letters digits letters digits | base."""
    if "base" in scan.ratings:
        return False
    for pattern, source in (
        (_DOTTED, SEARS),
        (_SLASH, SEARS),
        (_TAIL, SERVICEMAG),
        (_BARE, PRACTICE),
    ):
        found = scan.peek(pattern)
        if found is not None and re.search(r"[0-9]", found["base"]):
            return _say(scan, found, source)
    return False


def _say(scan: Scanner, found: re.Match[str], source: str) -> bool:
    """Set base and revision; without one it is asked for."""
    scan.say("base", found["base"])
    revision = found.groupdict().get("revision")
    if revision:
        scan.say("revision", revision)
    else:
        scan.warn("No revision is read: parts may differ between revisions; read the plate again.")
    if _WILD.search(found["base"]):
        scan.say("wildcard", value=True)
        scan.warn("This is a pattern for several models: it never proves that one part fits.")
    means = {"base": ("model without its revision", source)}
    if "revision" in found.groupdict():
        means["revision"] = ("revision of the model", source)
    return legend(scan, found, means)


_REV = re.compile(
    r"rev(?:ision)?\.?\s?[:#]?\s?(?P<revision>[A-Z0-9]{1,3})(?![0-9A-Za-z])", ANY_CASE
)
_LABEL = re.compile(
    r"(?:model|mod|mfg|type|run|style|e-?nr|service code|b/m|product)\.?(?:\s?(?:no|nr|number))?"
    r"\.?\s?[:#]?(?=\s|$)",
    ANY_CASE,
)


def revision_word(scan: Scanner) -> bool:
    """Revision = "rev" letter or number."""
    found = scan.peek(_REV)
    if found is None:
        return False
    scan.say("revision", found["revision"].upper())
    return legend(scan, found, {"revision": ("revision of the model", PRACTICE)})


def label(scan: Scanner) -> bool:
    """Label = "model" | "Mod. No." | "E-Nr" | ...: what follows is the number."""
    return scan.take(_LABEL, "the model follows", PRACTICE) is not None


RULES = (label, revision_word, model)


def read(text: str) -> Reading:
    """Read an appliance's model number."""
    scan = Scanner(text)
    scan.view = scan.view.upper() if len(scan.view.upper()) == len(scan.view) else scan.view
    scan.sweep(RULES)
    return scan.reading("model_number")


def likely(text: str) -> float:
    """How strongly a text looks like this family, 0 to 1."""
    bare = text.strip().upper()
    if len(bare) > 40:
        return 0.0
    if re.match(r"MODEL|MOD\.|E-?NR", bare):
        return 0.9
    if _SLASH.fullmatch(bare) and re.search(r"[A-Z]", bare):
        return 0.7
    return 0.6 if _TAIL.fullmatch(bare) and len(bare) > 8 else 0.0


def canonical(reading: Reading) -> str:
    """Base and revision with a slash."""
    return faithful(reading, _written(reading), read)


def _written(reading: Reading) -> str:
    """The ratings written out."""
    said = reading.ratings
    revision = f"/{said['revision']}" if "revision" in said else ""
    return f"{said.get('base', '')}{revision}"
