"""Fan and stirrer motors: shaded-pole plates, and the table row whose points were lost."""

from __future__ import annotations

import re

from inventory.markings import motor_marks
from inventory.markings.amounts import (
    GAPS,
    Phrase,
    amps,
    approvals,
    listed,
    phrases,
    review,
)
from inventory.markings.motor_marks import DIRECTION, Speeds
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.writing import write
from inventory.records import Reading

TABLE = "shaded pole motors EM 21 table, placenose22.gitlab.io (points lost)"
_TYPE = re.compile(
    r"(?P<type>(?:EM|SP|YJ|YJF|SM|MDT|OEM|GAL|SMF|FM|YZF)\s?-?[0-9]{2,5}[A-Z0-9-]{0,8})(?![A-Za-z0-9])"
)
_ROW = re.compile(
    r"(?:EM|em)\s?(?P<frame>21[0-9]{2})\s(?P<out>[0-9]\s[0-9])\s(?P<into>[0-9]{1,2}\s[0-9])\s"
    r"(?P<volts>1[0-9]{2}|2[0-9]{2})\s(?P<hertz>50|60)\s(?P<rpm>[0-9]{4})\s(?P<ma>[0-9]{2,3})"
    r"(?P<rest>(?:\s[0-9]{1,3}){0,8})(?![0-9])"
)


def _row(scan: Scanner) -> bool:
    """TableRow = type W-out W-in V Hz r/min mA ..., with spaces where the points were."""
    found = scan.take(_ROW, "table row whose decimal points are lost", TABLE)
    if found is None:
        return False
    scan.say("type", f"EM{found['frame']}")
    out, into = (float(found[name].replace(" ", ".")) for name in ("out", "into"))
    volts, amps_said = int(found["volts"]), int(found["ma"]) / 1000
    review(scan, "The decimal points of this table row are lost; no figure of it is read.")
    if out < into <= volts * amps_said:
        _offer(scan, found, out, into)
    return True


def _offer(scan: Scanner, found: re.Match[str], out: float, into: float) -> None:
    """The row with its points back: more goes in than comes out, and no more than V times A."""
    scan.propose(
        f"EM{found['frame']} {out}W out {into}W in {found['volts']}V {found['hertz']}Hz"
        f" {found['rpm']} rpm {found['ma']}mA",
        "decimal points lost: watts in exceed watts out and stay below volts times amperes",
        power_out_w=out,
        power_in_w=into,
        voltage_vac=int(found["volts"]),
        frequency_hz=int(found["hertz"]),
        rpm=int(found["rpm"]),
        current_a=int(found["ma"]) / 1000,
    )


def _type(scan: Scanner) -> bool:
    """Type = a scheme fan motors carry, with its figures."""
    found = scan.take(_TYPE, "type of a fan motor", TABLE)
    if found is None:
        return False
    scan.say("type", re.sub(r"\s", "", found["type"]))
    return True


_WORDS = phrases(
    Phrase(r"Z\.?P\.?|impedance[ -]protected|imp\.? prot\.?", "impedance protected",
           {"protection": ["impedance"]}, "UL 2111 mark, from memory"),
    Phrase(r"T\.?P\.?|thermally protected|therm\.? prot\.?|thermal protector",
           "thermally protected",
           {"protection": ["thermal"]}, "UL 2111 mark, from memory"),
    Phrase(r"(?:shaded[ -]pole|fan|cooling|stirrer|blower|convection) ?(?:fan )?(?:motor)?|motor",
           "it is a motor"),
    Phrase(r"AC|model|type|rated|speed|power|current|frame", "heading"),
    Phrase(r"[24][ -]?poles?", "poles of the motor"),
)  # fmt: skip


def _lines(speeds: Speeds) -> tuple[Rule, ...]:
    """The whole grammar, in order."""
    return (
        _row, _type, *motor_marks.rules(speeds), amps(), DIRECTION, _WORDS, approvals, *GAPS,
    )  # fmt: skip


def read(text: str) -> Reading:
    """Read the plate of a fan or stirrer motor."""
    scan = Scanner(text)
    speeds = Speeds()
    scan.sweep(_lines(speeds))
    motor_marks.settle(scan, speeds, slack=0.15)
    _one_speed(scan)
    return scan.reading("motor_fan")


def _one_speed(scan: Scanner) -> None:
    """A fan with one frequency has one speed; its direction is called rotation."""
    said = scan.ratings
    named = [name for name in said if name.startswith("rpm_")]
    if len(named) == 1:
        scan.say("rpm", said.pop(named[0]))
    if "direction" in said:
        scan.say("rotation", said.pop("direction"))


_LIKELY = (
    (re.compile(r"(?:fan|stirrer|blower|shaded[ -]pole)[ -]?motor", re.IGNORECASE), 0.95),
    (re.compile(r"(?:^|\s)(?:EM|em)\s?21[0-9]{2}\b"), 0.95),
    (re.compile(r"\b[1-3][0-9]{3}\s?(?:rpm|r/min|min-1)", re.IGNORECASE), 0.8),
    (re.compile(r"\bZ\.P\.|impedance protected", re.IGNORECASE), 0.8),
)


def likely(text: str) -> float:
    """How strongly a text looks like a fan motor, 0 to 1."""
    head = text[:400]
    return next((score for pattern, score in _LIKELY if pattern.search(head)), 0.0)


_PROTECTION = {"impedance": "Z.P.", "thermal": "thermally protected"}


def canonical(reading: Reading) -> str:
    """The marking written out again; reads back to the same ratings."""
    said = reading.ratings
    speeds = [said[name] for name in ("rpm_50hz", "rpm_60hz") if name in said]
    return write(
        {**said, "speeds": speeds} if speeds else said,
        ("type", "{}"),
        ("voltage_vac", "AC{}V"),
        ("voltage_vdc", "{}VDC"),
        ("frequency_hz", lambda v: f"{listed(v, '/')}Hz"),
        ("power_w", lambda v: f"{listed(v, '/')}W"),
        ("power_in_w", "input {}W"),
        ("power_out_w", "output {}W"),
        ("current_a", "{}A"),
        ("rpm", lambda v: f"{listed(v, '/')}rpm"),
        ("speeds", lambda v: f"{listed(v, '/')}rpm"),
        ("rotation", "{}"),
        ("insulation_class", "class {}"),
        ("protection", lambda v: " ".join(_PROTECTION.get(word, "") for word in v)),
        ("approvals", "{}"),
    )
