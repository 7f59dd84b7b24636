"""Turntable motors: small synchronous motors with a gear, told by volts, hertz and speed."""

from __future__ import annotations

import re

from inventory.markings import motor_marks
from inventory.markings.amounts import GAPS, Phrase, amps, approvals, listed, phrases, written
from inventory.markings.motor_marks import DIRECTION, Speeds
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.writing import write
from inventory.records import Reading

NAMES = "type names of turntable motors (ST-16: homeownershub.com 3037557), the others from memory"
_TYPE = re.compile(
    r"(?:(?:TYJ|TYC|TYD|TDY)[0-9]{2}|[0-9]{2}(?:K?TYZ|TYJ|TYC|TDY)|(?:GM|ST|SSM|SM|MT|MDS)-?[0-9]{2}|GAL-?[0-9])"
    r"(?:[A-Z0-9]{0,8}(?:-[A-Z0-9]{1,8}){0,3})(?![A-Za-z0-9])"
)


def _type(scan: Scanner) -> bool:
    """Type = a scheme turntable motors carry, with its figures."""
    found = scan.take(_TYPE, "type of a turntable motor", NAMES)
    if found is None:
        return False
    scan.say("type", found.group())
    return True


_WORDS = phrases(
    Phrase(r"(?:turntable|synchronous|syn\.?|geared|gear) ?(?:motor)?|motor", "it is a motor"),
    Phrase(r"AC|model|type|rated|speed|power|made in [a-z]{4,12}", "heading"),
)


def _lines(speeds: Speeds) -> tuple[Rule, ...]:
    """The whole grammar, in order."""
    return (
        _type, *motor_marks.rules(speeds), amps(), DIRECTION, _WORDS, approvals, *GAPS,
    )  # fmt: skip


def read(text: str) -> Reading:
    """Read the plate of a turntable motor."""
    scan = Scanner(text)
    speeds = Speeds()
    scan.sweep(_lines(speeds))
    motor_marks.settle(scan, speeds, slack=0.02)
    return scan.reading("motor_turntable")


_LIKELY = (
    (re.compile(r"turntable|synchronous motor", re.IGNORECASE), 0.95),
    (re.compile(rf"(?:^|\s){_TYPE.pattern}"), 0.85),
    (re.compile(r"(?:^|[^0-9.])[1-9](?:\.[0-9])?(?:[./][0-9.]{1,4})?\s?(?:RPM|rpm|r/min)"), 0.85),
)  # fmt: skip


def likely(text: str) -> float:
    """How strongly a text looks like a turntable motor, 0 to 1."""
    head = text[:400]
    return next((score for pattern, score in _LIKELY if pattern.search(head)), 0.0)


def speed_text(reading: Reading) -> str:
    """Frequency and speed as a plate prints them."""
    said = reading.ratings
    frequency, low, high = (said.get(name) for name in ("frequency_hz", "rpm_50hz", "rpm_60hz"))
    hertz = f"{listed(frequency, '/')}Hz" if frequency is not None else ""
    if low is not None and high is not None:
        return f"{hertz} {written(low)}/{written(high)}rpm".strip()
    single = next((value for value in (low, high, said.get("rpm")) if value is not None), None)
    return f"{hertz} {listed(single, '/')}rpm".strip() if single is not None else hertz


def canonical(reading: Reading) -> str:
    """The marking written out again; reads back to the same ratings."""
    head = write(
        reading.ratings,
        ("type", "{}"),
        ("voltage_vac", "AC{}V"),
        ("voltage_vdc", "{}VDC"),
        ("power_w", lambda v: f"{listed(v, '/')}W"),
        ("power_in_w", "input {}W"),
        ("power_out_w", "output {}W"),
        ("current_a", "{}A"),
        ("direction", "{}"),
        ("insulation_class", "class {}"),
        ("approvals", "{}"),
    )
    return f"{head} {speed_text(reading)}".strip()
