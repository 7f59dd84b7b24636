"""Which contact the points of a cut-out make it, and what goes into its ratings."""

from __future__ import annotations

from inventory.markings.amounts import listed, review
from inventory.markings.cutout_points import Point
from inventory.markings.scanner import Scanner
from inventory.markings.temperatures import Temperature, usable

RANGE_C = (-60, 400)
"""Points beyond these are damage. Source: KSD301(H31) page gives -10 to 300 °C; the rest margin."""

ONE_SHOT_C = -20
"""A reset point below any room an appliance works in: the contact never closes again by itself."""


def settle(scan: Scanner, met: list[Point]) -> None:
    """Doubtful pairs are set aside, then the two points together say which contact it is."""
    for point in met:
        _check(scan, point)
    good = [point for point in met if _possible(scan, point)]
    _name_bare(scan, good)
    if sum(p.does is None for p in good) > 1:
        _no_words(scan, good)
        return
    closes = next((p for p in good if p.does in ("close", "on")), None)
    opens = next((p for p in good if p.does in ("open", "off", None)), None)
    reset = next((p for p in good if p.does == "reset"), None)
    if closes and _closes_on_rise(closes, opens):
        _contact_is(scan, "NO")
        _say_point(scan, "close_on_rise", closes.at)
        if opens:
            _say_point(scan, "open_on_fall", opens.at)
        return
    if opens:
        _say_point(scan, "open", opens.at)
    if opens and (closes or reset):
        _contact_is(scan, "NC")
    if closes:
        _say_point(scan, "close", closes.at)
    _say_reset(scan, reset or (closes if opens else None), opens)


def _possible(scan: Scanner, point: Point) -> bool:
    """Whether a point may be read: its scales agree and a snap disc can stand there."""
    c = point.at.in_c()
    if c is None:
        return False
    if RANGE_C[0] <= c <= RANGE_C[1]:
        return True
    review(scan, f"{point.at.text} is no temperature a snap disc is made for.")
    return False


def _name_bare(scan: Scanner, good: list[Point]) -> None:
    """A figure without a verb is where a closed contact opens, and an open one closes, on rise."""
    normally_open = scan.ratings.get("contact") == "NO"
    for point in good:
        if point.does == "back":
            point.does = "off" if normally_open else "reset"
        elif point.does is None and normally_open and point.way is None:
            point.does, point.way = "close", "rise"
    if normally_open and not any(point.does in ("open", "off", None) for point in good):
        for point in good:
            point.way = point.way or "rise"


def _contact_is(scan: Scanner, form: str) -> None:
    """The points say the contact form; a printed one that differs is a matter for a person."""
    printed = scan.ratings.get("contact")
    if printed is None:
        scan.say("contact", form)
    elif printed != form:
        review(scan, f"{printed} is printed, but the points are those of an {form} contact.")


def _no_words(scan: Scanner, good: list[Point]) -> None:
    """Several temperatures and no word which is which: none is read."""
    review(scan, "Several temperatures and no word says which opens and which resets.")
    figures = sorted({c for p in good if (c := p.at.in_c()) is not None}, reverse=True)
    if len(figures) == 2:
        text = f"opens at {listed(figures[0])} C, resets at {listed(figures[1])} C"
        scan.propose(text, "the higher one opens", open_c=figures[0], reset_c=figures[1])


def _closes_on_rise(closes: Point, opens: Point | None) -> bool:
    """Said in words, or the closing point lies above the opening one."""
    if closes.way == "rise" or (opens is not None and opens.way == "fall"):
        return True
    high, low = closes.at.in_c(), opens.at.in_c() if opens else None
    return high is not None and low is not None and high > low


def _say_point(scan: Scanner, name: str, at: Temperature) -> None:
    """One point in °C, in °F where printed, with its tolerance."""
    figures = {"c": at.in_c(), "f": at.f, "tol_c": at.tol_c, "tol_f": at.tol_f}
    for tail, value in figures.items():
        if value is not None:
            scan.say(f"{name}_{tail}", value)


def _say_reset(scan: Scanner, reset: Point | None, opens: Point | None) -> None:
    """A printed reset point closes the contact by itself, unless a hand or the cold has to."""
    if reset is None:
        return
    _say_point(scan, "reset", reset.at)
    back = reset.at.in_c()
    if back is not None and back <= ONE_SHOT_C:
        scan.ratings["reset"] = "one-shot"
        scan.warn(f"It resets only at {listed(back)} °C: in a house it opens once.")
    elif "reset" not in scan.ratings:
        scan.say("reset", "auto")
    hot = opens.at.in_c() if opens else None
    if hot is not None and back is not None and back >= hot:
        review(scan, "The reset point is not below the opening point; a figure is wrong.")


_RATING = {"reset": "reset", "close": "close", "on": "close"}
"""Which rating a point would be; every other point is where the contact opens."""


def _check(scan: Scanner, point: Point) -> None:
    """A pair must agree; one that does not is offered repaired, never read."""
    if usable(scan, point.at, _RATING.get(point.does or "", "open")):
        return
    if scan.ratings.get("reset") == "auto":
        del scan.ratings["reset"]  # a lost minus sign makes a one-shot look self-resetting
