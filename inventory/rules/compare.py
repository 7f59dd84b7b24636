"""Comparing one attribute of an offered part with what is wanted.

Each operator a sheet may name is one small function; all have the same shape:
``(attribute, wanted value, offered value) -> (outcome, sentence)``. Unknown values never reach
them: ``compare`` answers those, and ``None`` never matches anything.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from inventory.families.sheet import Attribute
from inventory.records import Outcome, Reason, Value
from inventory.rules.words import SAFETY_SERVES, code_key, flag, form, plain_word, throws
from inventory.units import plain

Said = tuple[Outcome, str]
"""What an operator answers."""

Operator = Callable[[Attribute, Value, Value], Said]

_SLACK = 1e-9  # so that 0.1 + 0.2 is 0.3


def compare(
    attribute: Attribute, wanted: Value, offered: Value, *, settled: bool = False
) -> Reason | None:
    """One attribute judged; None where there is nothing to say.

    ``settled``: the parts are of one type or listed for each other, so that what nobody
    recorded is the same on both, unless the sheet says that a type code does not settle it.
    """
    excused = settled and not attribute.beyond_type
    if attribute.compare == "note" or (wanted is None and (excused or attribute.unsaid != "ask")):
        return None
    if wanted is None:
        return _looked_for(_reason(attribute, *_nobody_said(attribute, offered)))
    if offered is None:
        quiet = excused or _anything_serves(attribute, wanted)
        return None if quiet else _reason(attribute, *_not_known(attribute, wanted))
    return _reason(attribute, *OPERATORS[attribute.compare](attribute, wanted, offered))


def _reason(attribute: Attribute, outcome: Outcome, sentence: str) -> Reason:
    """The answer with its source; a question names what would decide it."""
    decides = attribute.name if outcome is Outcome.ASK else None
    return Reason(
        attribute.name, outcome, sentence, attribute.source, decides, effort=attribute.effort
    )


def _looked_for(reason: Reason) -> Reason:
    """The same question, to be answered from the failed part."""
    return replace(reason, of_wanted=reason.outcome is Outcome.ASK)


def _nobody_said(attribute: Attribute, offered: Value) -> Said:
    """The failed part's own value is missing: look at it, unless the best there is is offered."""
    if attribute.compare == "ranked" and plain_word(offered) == plain_word(attribute.order[-1]):
        sentence = f"{_label(attribute)}: {show(offered)} serves whatever the old part had."
        return Outcome.MET, sentence
    if attribute.name == "contact_form" and form(offered) == "CO":
        sentence = f"Contact form: {show(offered)} serves as normally open or as normally closed"
        return Outcome.MET, f"{sentence}, with the spare tab insulated."
    sentence = f"Nobody has said the {attribute.label} of the failed part"
    known = "" if offered is None else f" (offered: {show(offered, attribute.unit)})"
    return Outcome.ASK, f"{sentence}{known}{_why(attribute)}."


def _anything_serves(attribute: Attribute, wanted: Value) -> bool:
    """Whether the least there is was wanted: not insulated, without a bleeder."""
    if attribute.compare == "ranked":
        return plain_word(wanted) == plain_word(attribute.order[0])
    of_contact = attribute.name == "contact_form"  # there a no is normally open
    return attribute.compare == "includes" and not of_contact and flag(wanted) is False


def _not_known(attribute: Attribute, wanted: Value) -> Said:
    """The offered part's value is missing: never a match."""
    want = f"{_ASKS.get(attribute.compare, '')}{show(wanted, attribute.unit)}"
    words = f"{_label(attribute)}: not known of the offered part, wanted {want}"
    return _unsure(attribute), f"{words}{_why(attribute)}."


_ASKS = {"at-least": "at least ", "at-most": "at most ", "ranked": "no less than "}
"""How a wanted value is spoken of."""


def _why(attribute: Attribute) -> str:
    """Why a value matters, behind a colon."""
    return f": {attribute.reason.rstrip('.')}" if attribute.reason else ""


# operators ---------------------------------------------------------------------


def equal(attribute: Attribute, wanted: Value, offered: Value) -> Said:
    """Offered equals wanted, after both are written plainly; codes whatever their hyphens."""
    met = _same(wanted, offered)
    if attribute.name in _CODES and not met:
        met = code_key(str(wanted)) == code_key(str(offered))
    return _said(attribute, wanted, offered, met=met)


_CODES = frozenset({"type", "board_number"})
"""Attributes that hold a code."""


def at_least(attribute: Attribute, wanted: Value, offered: Value) -> Said:
    """Offered is not below wanted; of several volts the largest counts.

    Of several figures of any other kind nobody knows which holds where: the least must do.
    """
    want, have = numbers(wanted), numbers(offered)
    if not want or not have:
        return _cannot(attribute, wanted, offered)
    least = max(want) - _SLACK * abs(max(want))
    sure = max(have) if attribute.unit in _VOLTS else min(have)
    near = max(have) >= least
    met = sure >= least or (near and _pairwise(have, want))
    tail = _WHICH if near and not met else ""
    return _said(attribute, wanted, offered, met=met, near=near, tail=tail)


def _pairwise(more: tuple[float, ...], less: tuple[float, ...]) -> bool:
    """Whether figure by figure the first are no smaller: 2.5/3 W at 50/60 Hz on both parts."""
    pairs = zip(more, less, strict=False)
    return len(more) == len(less) and all(a >= b - _SLACK * abs(b) for a, b in pairs)


_VOLTS = frozenset({"V", "kV"})
_WHICH = ", and which of its figures holds here is not known"


def at_most(attribute: Attribute, wanted: Value, offered: Value) -> Said:
    """Offered is not above wanted; of several the largest offered and the least wanted count."""
    want, have = numbers(wanted), numbers(offered)
    if not want or not have:
        return _cannot(attribute, wanted, offered)
    slack = _SLACK * abs(max(want))
    near = max(have) <= max(want) + slack
    met = near and (_pairwise(want, have) or max(have) <= min(want) + slack)
    tail = _WHICH if near and not met else ""
    return _said(attribute, wanted, offered, met=met, near=near, tail=tail)


def within(attribute: Attribute, wanted: Value, offered: Value) -> Said:
    """Offered is within the tolerance of wanted, as a share of wanted.

    Of several figures each must have its like; where only some have, nobody knows which holds.
    """
    gap = deviation(wanted, offered)
    if gap is None:
        return _cannot(attribute, wanted, offered)
    gaps = _gaps(numbers(wanted), numbers(offered))
    met = _in_band(attribute, max(gaps))[0]
    near = any(True in _in_band(attribute, one) for one in gaps)
    if len(gaps) > 1 and not met:
        tail = _WHICH if near else ""
        return _said(attribute, wanted, offered, met=False, near=near, tail=tail)
    band = plain(100 * (attribute.tolerance or 0))
    much = f"{100 * gap:+.0f}" if abs(gap) >= 1 else f"{100 * gap:+.3g}"
    tail = f" ({much} %, allowed ± {band} %)" if gap else ""
    return _said(attribute, wanted, offered, met=met, near=near, tail=tail)


def _gaps(want: tuple[float, ...], have: tuple[float, ...]) -> list[float]:
    """The distance of each figure on either side from its nearest on the other, as a share."""
    mine = [min(abs(other - one) / abs(one or 1.0) for other in have) for one in want]
    theirs = [min(abs(one - other) / abs(one or 1.0) for one in want) for other in have]
    return list(dict.fromkeys((*mine, *theirs)))


WIDE = 1.5
"""From this ratio on two voltages are two windings or two models, no range. Common practice."""


def covers(attribute: Attribute, wanted: Value, offered: Value) -> Said:
    """Offered's range holds the wanted one, each end stretched by the tolerance."""
    want, have = numbers(wanted), numbers(offered)
    if not want or not have or min(want) <= 0 or max(have) <= 0 or min(have) <= 0:
        return _cannot(attribute, wanted, offered)
    gap = max((min(have) - min(want)) / min(want), (max(want) - max(have)) / max(have), 0.0)
    met, near = _in_band(attribute, gap)
    if met and max(have) / min(have) > WIDE * max(want) / min(want):
        return _said(attribute, wanted, offered, met=False, near=True, tail=_WHICH)
    return _said(attribute, wanted, offered, met=met, near=near)


def includes(attribute: Attribute, wanted: Value, offered: Value) -> Said:
    """Offered's set holds every member of the wanted one."""
    missing = sorted(members(wanted) - served(offered))
    want, have = show(wanted, attribute.unit), show(offered, attribute.unit)
    met = not missing
    if met and want != have and not isinstance(wanted, bool):
        return Outcome.MET, f"{_label(attribute)}: {have} serves as {want}."
    return _said(attribute, wanted, offered, met=met)


def ranked(attribute: Attribute, wanted: Value, offered: Value) -> Said:
    """Offered stands no lower than wanted in the sheet's order."""
    order = [plain_word(step) for step in attribute.order]
    want, have = plain_word(wanted), plain_word(offered)
    if want == have:
        return _said(attribute, wanted, offered, met=True)
    if want not in order or have not in order:
        return _cannot(attribute, wanted, offered)
    met = order.index(have) >= order.index(want)
    return _said(attribute, wanted, offered, met=met)


def fit(attribute: Attribute, wanted: Value, offered: Value) -> Said:
    """Figures agree within the tolerance, each with its own; words must be the same."""
    want, have = numbers(wanted), numbers(offered)
    if not want or not have:
        return _said(attribute, wanted, offered, met=_same(wanted, offered))
    if len(want) != len(have):
        return _cannot(attribute, wanted, offered)
    gap = max(abs(a - b) for a, b in zip(want, have, strict=True))
    met, near = _in_band(attribute, gap)
    return _said(attribute, wanted, offered, met=met, near=near)


OPERATORS: Mapping[str, Operator] = {
    "equal": equal,
    "at-least": at_least,
    "at-most": at_most,
    "within": within,
    "covers": covers,
    "includes": includes,
    "ranked": ranked,
    "fit": fit,
}
"""Every comparison a sheet may name, except ``note``, which compares nothing."""


# what operators share ------------------------------------------------------------


def numbers(value: Value) -> tuple[float, ...]:
    """The figures of a value, in order; empty where it holds anything else.

    >>> numbers([220, 240]), numbers("300/500"), numbers("pin"), numbers(True)
    ((220.0, 240.0), (300.0, 500.0), (), ())
    """
    if isinstance(value, bool):
        return ()
    if isinstance(value, int | float):
        return (float(value),)
    if isinstance(value, list | tuple):
        found = tuple(figure for item in value for figure in numbers(item))
        return found if len(found) == len(value) else ()
    parts = str(value).split("/")
    plain_parts = all(part.strip().replace(".", "", 1).isdecimal() for part in parts)
    return tuple(float(part) for part in parts) if plain_parts else ()


def deviation(wanted: Value, offered: Value) -> float | None:
    """The offered figure's distance from the wanted one, as a share of it; None if no figures.

    >>> deviation(1.2, 1.14)
    -0.05
    """
    want, have = numbers(wanted), numbers(offered)
    if not want or not have:
        return None
    if not max(want):  # a jumper of 0 Ω is like another, and no share away from any other value
        return None if max(have) else 0.0
    return round((max(have) - max(want)) / max(want), 9)


def members(value: Value) -> frozenset[str]:
    """The members of a set as written; a contact form is its throws.

    >>> sorted(members("SPDT")), sorted(members(["X1", "Y2"]))
    (['NC', 'NO'], ['X1', 'Y2'])
    """
    if not isinstance(value, list) and (found := throws(value)):
        return found
    items = value if isinstance(value, list | tuple) else str(value).split("/")
    return frozenset(_member(item) for item in items)


def served(value: Value) -> frozenset[str]:
    """All that a set can serve as: a Y1 capacitor serves as Y2, a yes where a no would do."""
    held = members(value)
    held |= {"NO"} if "YES" in held else set()
    more = {name for member in held for name in SAFETY_SERVES.get(member, ())}
    return held | more


def _member(item: Value) -> str:
    """One member, plainly written: a flag is yes or no, a figure has no trailing zeros."""
    if str(item).casefold() in {"true", "yes"}:
        return "YES"
    if str(item).casefold() in {"false", "no"}:
        return "NO"
    figure = numbers(item)
    return plain(figure[0]) if len(figure) == 1 else plain_word(item).upper()


def show(value: Value, unit: str | None = None) -> str:
    """A value as a tech writes it.

    >>> show([125, 250], "V"), show(True), show([6.3, 0.8])
    ('125/250 V', 'yes', '6.3/0.8')
    >>> show([5, 20], "mm"), show(0.0022, "µF"), show(47300, "Ω")
    ('5 x 20 mm', '2.2 nF', '47.3 kΩ')
    """
    if isinstance(value, bool):
        return "yes" if value else "no"
    if unit and unit in _SCALES and isinstance(value, int | float):
        value, unit = _scaled(float(value), unit)
    if isinstance(value, list | tuple):
        text = (" x " if unit == "mm" else "/").join(show(item) for item in value)
    else:
        text = plain(value) if isinstance(value, int | float) else str(value)
    return f"{text} {unit}" if unit else text


_SCALES: Mapping[str, tuple[tuple[float, float, str], ...]] = {
    "µF": ((1e-3, 1e6, "pF"), (1e-1, 1e3, "nF")),
    "Ω": ((1e3, 1, "Ω"), (1e6, 1e-3, "kΩ"), (1e12, 1e-6, "MΩ")),
}
"""Figures below the first are multiplied by the second and take the unit behind it."""


def _scaled(value: float, unit: str) -> tuple[float, str]:
    """A figure with the prefix a tech would use: 2.2 nF, not 0.0022 µF."""
    for below, factor, name in _SCALES[unit]:
        if 0 < abs(value) < below:
            return round(value * factor, 6), name
    return value, unit


def _same(wanted: Value, offered: Value) -> bool:
    """Whether two values say the same, however they are written."""
    if isinstance(wanted, bool) or isinstance(offered, bool):
        return flag(wanted) is not None and flag(wanted) == flag(offered)
    want, have = numbers(wanted), numbers(offered)
    if want and have:
        return len(want) == len(have) and all(
            abs(a - b) <= _SLACK * max(abs(a), 1.0) for a, b in zip(want, have, strict=True)
        )
    if isinstance(wanted, list | tuple) or isinstance(offered, list | tuple):
        return members(wanted) == members(offered)
    return plain_word(wanted) == plain_word(offered)


def _in_band(attribute: Attribute, gap: float) -> tuple[bool, bool]:
    """Whether a gap is within the tolerance, and whether within the wider one a person judges."""
    tolerance = attribute.tolerance or 0.0
    wider = attribute.ask_tolerance or 0.0
    return gap <= tolerance + _SLACK, gap <= wider + _SLACK and wider > 0


def _said(
    attribute: Attribute,
    wanted: Value,
    offered: Value,
    *,
    met: bool,
    tail: str = "",
    near: bool = False,
) -> Said:
    """The outcome, and both values in a sentence; a miss gives the reason why it matters."""
    want, have = show(wanted, attribute.unit), show(offered, attribute.unit)
    outcome = Outcome.MET if met else Outcome.ASK if near else Outcome(attribute.misfit)
    why = "" if met else _why(attribute)
    asks = _ASKS.get(attribute.compare, "")
    if met and (attribute.name in _CODES or plain_word(want) == plain_word(have)):
        return outcome, f"{_label(attribute)}: {have}, as wanted."
    return outcome, f"{_label(attribute)}: {have}, wanted {asks}{want}{tail}{why}."


def _cannot(attribute: Attribute, wanted: Value, offered: Value) -> Said:
    """Two values that cannot be set side by side are a question, never a match."""
    want, have = show(wanted, attribute.unit), show(offered, attribute.unit)
    return (
        _unsure(attribute),
        f"{_label(attribute)}: {have} cannot be compared with the wanted {want}.",
    )


def _unsure(attribute: Attribute) -> Outcome:
    """What not knowing comes to: a question, unless even a known misfit is only a remark.

    A value nobody recorded is never better than the worst it could be.
    """
    return Outcome.ASK if attribute.must or attribute.misfit != "note" else Outcome.NOTE


def _label(attribute: Attribute) -> str:
    """The attribute's name at the head of a sentence."""
    return attribute.label[:1].upper() + attribute.label[1:]
