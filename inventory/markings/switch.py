"""Micro switches and door-interlock switches: contact ratings, maker's type codes, labels.

Sources: IEC 61058-1 marking (explained by cxswitch and standard123), UL 1054, UL 61058-1 and
UL 508 ratings, and the makers' data sheets named beside each mark.
"""

from __future__ import annotations

import re

from inventory.markings.contacts import lex
from inventory.markings.contacts_checks import propose_repairs
from inventory.markings.contacts_codes import code_line
from inventory.markings.contacts_rows import directory_row, service_label
from inventory.markings.contacts_scan import ContactScanner
from inventory.markings.contacts_settle import settle
from inventory.markings.contacts_write import write_contacts
from inventory.markings.relay_codes import OMRON, SONGLE
from inventory.markings.relay_codes_europe import LEGENDS as EUROPEAN
from inventory.markings.switch_codes import LEGENDS
from inventory.markings.switch_codes_more import MORE
from inventory.markings.switch_crouzet import CROUZET
from inventory.markings.switch_labels import listed_type
from inventory.records import Reading, Value

HIGHEST_A = 63
"""IEC 61058-1 covers switches up to 480 V and 63 A."""

_codes = code_line((*LEGENDS, *MORE, CROUZET))


def _relay_shape(ratings: dict[str, Value]) -> dict[str, Value]:
    """A relay code under the names a contact marking uses."""
    shape: dict[str, Value] = {}
    if "coil_vdc" in ratings:
        shape["coil_volts_dc"] = ratings["coil_vdc"]
    if "enclosure" in ratings:
        shape["sealed"] = ratings["enclosure"] == "sealed"
    if "contact" in ratings:
        shape["contact_form"] = ratings["contact"]
    return shape


_relay_codes = code_line((*OMRON, *SONGLE, *EUROPEAN), _relay_shape)


def _code(scan: ContactScanner) -> bool:
    """Whole lines first, then type codes of switches, then of relays."""
    return any(line(scan) for line in _CODE_LINES)


_CODE_LINES = (directory_row, service_label, listed_type, _codes, _relay_codes)


def read(text: str) -> Reading:
    """Read a switch marking; what is not understood is kept as unread."""
    scan = _scan(text)
    propose_repairs(scan, lambda repaired: _scan(repaired).reading("switch"))
    return scan.reading("switch")


def _scan(text: str) -> ContactScanner:
    """Lex and settle one text."""
    scan = lex(text, _code)
    settle(scan, highest_a=HIGHEST_A)
    return scan


def canonical(reading: Reading) -> str:
    """The marking in one spelling; it reads back to the same ratings."""
    return write_contacts(reading, read)


_SURE = re.compile(
    r"[0-9]\s?\([0-9.,]{1,5}A?\)\s?A?|[0-9]{1,2}E[345](?![0-9])|[0-9µμ]\s?T[0-9]{2,3}"
    r"|T[0-9]{2,3}/[0-9]{2}|^T ?[0-9]{2,3}\s?(?:$|\()|[0-9]GPA|[0-9½¼¾⅓⅙]\s?[hH][pP]\b"
    r"|\b[SD]P[SD]T\b|[0-9]\s?/[0-9]{2,3}A\b|\b[0-9]{1,3}[kK] life|FOR [A-Z ]{4,24}SWITCH"
    r"|\b[12][0-9]{2} [56]0 (?:GP|R|L|T|[0-9]/[0-9]{1,2}\s?hp) "
    r"|[0-9]\s?\[[0-9]{1,3}\]\s?A|\b[Pp]ilot [Dd]uty|^\s*[A-ENPQR](?:150|300|600)\b"
    r"|(?<![A-Za-z])(?:FLA|LRA)\b|[Cc]ontact [Gg]ap|[0-9] (?:make-and-break |operating )?cycles\b"
    r"|^\s*[0-9]{1,2}(?:[.,][0-9])?\s?(?:\([0-9.,]{1,5}\))?\s?/\s?[1-4][0-9]{2}\s?~"
    r"|[0-9]AX\b|^\s*[µμu]?\s?[0-9]{1,2} ?T ?[0-9]{2,3}\s*$"
)
_T_ALONE = re.compile(r"^\s*[µμu]?[0-9]{0,2}T[0-9]{2,3}/T?[0-9]{2}\s?(?:°?C)?\s*$")
"""A T mark with its second figure and nothing else; no model number begins so."""

_CODED = re.compile(
    r"\bSS-(?:10|5|01)|\bV-(?:21|16|15|11|10)G?[0-9]?-|\bD3V-|\bVX-|\bD2SW-|\bAM5[0-9]{2}"
    r"|\bKW[A-S][A-E]|\b831[0-9]{5}\b|\bSZM-|\bVP-53[0-9]A|\bV-52[23]0Q|\bD4[1-8][0-9A-Z]-"
    r"|\bD2D-[123][01]0[0-4]|\bAV1[1-6][678][35]|\bDB[1-7][A-GR]-|\bSS-(?:3|01)GL?"
)
_AMPS = re.compile(
    r"(?:(?<![0-9A-Za-z.-])|(?<=[1-4]x))[0-9]{1,2}(?:[.,][0-9]{1,2})?\s?(?:\([0-9.,]{1,5}\))?"
    r"\s?(?:m?A|GPA|(?i:amps?))(?![A-Za-z])"
    r"|(?<![0-9A-Za-z.-])[1-9][0-9]{2}\s?mA(?![A-Za-z])"
)
_MAINS = re.compile(r"[0-9]\s?V\s?(?:~|AC|ac|a\.c|DC|dc)?|AC\s?[0-9]")


def likely(text: str) -> float:
    """How strongly a text looks like a switch marking, 0 to 1."""
    head = text[:400]
    if _CODED.search(head) or _T_ALONE.match(head):
        return 0.95
    score = 0.0
    if _AMPS.search(head):
        score = 0.55 if _MAINS.search(head) else 0.3
    if _SURE.search(head):
        score = max(score + 0.3, 0.6)
    return min(score, 0.95)
