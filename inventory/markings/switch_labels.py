"""Interlock switch types that a published oven label lists by position.

The types of two positions differ by one character, and the wrong one inverts the safety
circuit; so the position is told with the type, and never turned into a rating.
"""

from __future__ import annotations

import re

from inventory.markings.contacts_scan import ContactScanner

SOURCE = "service label of an LG oven: alternates by position, https://manualsdump.com (85729, 18)"

_LISTED = {
    "SZM-V16-FA-63": ("primary and secondary", "SZM-V16-FA-62"),
    "SZM-V16-FA-62": ("monitor", "SZM-V16-FA-63"),
    "VP-533A-OF": ("primary and secondary", "VP-532A-OF"),
    "VP-532A-OF": ("monitor", "VP-533A-OF"),
    "V-5230Q": ("primary and secondary", "V-5220Q"),
    "V-5220Q": ("monitor", "V-5230Q"),
}
"""Type: the position it is listed for, and its neighbour for the other position."""

_TYPE = re.compile(r"(?:SZM-V\s?16-FA-6[23]|VP-53[23]A-OF|V-52[23]0Q)(?![0-9A-Za-z])")


def listed_type(scan: ContactScanner) -> bool:
    """A type of the label, standing alone."""
    found = None if scan.glued() or scan.codes else scan.peek(_TYPE)
    if found is None:
        return False
    code = found[0].replace(" ", "")
    position, neighbour = _LISTED[code]
    scan.take(_TYPE, f"type code, listed for the {position} position of an oven", SOURCE)
    scan.codes.append(found.span())
    scan.say("type", code)
    scan.warn(
        f"{code} is listed for the {position} position; {neighbour}, one character away, is for"
        f" the {'interlock' if position == 'monitor' else 'monitor'} position."
    )
    return True
