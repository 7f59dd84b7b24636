"""Outer diameter and width of the common deep groove series, by bore.

Source: bearing size chart, scribd 248707361 (6000 and 6200 series); 63 and the small sizes from
memory of ISO 15, and marked so.
"""

from __future__ import annotations

CHART = "ISO 15 dimensions, as in the bearing size chart scribd 248707361"
MEMORY = "ISO 15 dimensions, from memory"

_CHART = {
    "60": "10/26/8 12/28/8 15/32/9 17/35/10 20/42/12 25/47/12 30/55/13 35/62/14 40/68/15"
    " 45/75/16 50/80/16 55/90/18 60/95/18",
    "62": "10/30/9 12/32/10 15/35/11 17/40/12 20/47/14 25/52/15 30/62/16 35/72/17 40/80/18"
    " 45/85/19 50/90/20 55/100/21 60/110/22",
}
_MEMORY = {
    "60": "6/17/6 7/19/6 8/22/7 9/24/7",
    "62": "5/16/5 6/19/6 7/22/7 8/24/8 9/26/8",
    "63": "10/35/11 12/37/12 15/42/13 17/47/14 20/52/15 25/62/17 30/72/19 35/80/21 40/90/23",
    "618": "8/16/4 10/19/5 12/21/5 15/24/5 17/26/5 20/32/7 25/37/7",
}


def _rows(table: dict[str, str], source: str) -> dict[tuple[str, float], tuple[int, int, str]]:
    """Bore/outer/width triples of a table, keyed by series and bore."""
    rows = {}
    for series, triples in table.items():
        for triple in triples.split():
            bore, outer, width = map(int, triple.split("/"))
            rows[series, float(bore)] = (outer, width, source)
    return rows


_OUTLINES = _rows(_MEMORY, MEMORY) | _rows(_CHART, CHART)


def outline(series: str, bore: float) -> tuple[int, int, str] | None:
    """Outer diameter and width in mm with their source; None where the table has no row.

    >>> outline("62", 25)
    (52, 15, 'ISO 15 dimensions, as in the bearing size chart scribd 248707361')
    """
    return _OUTLINES.get((series, float(bore)))
