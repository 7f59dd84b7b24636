"""The family is recognised from the text, and the doubt is told with what would decide it."""

from __future__ import annotations

import pytest

from inventory.markings.reader import read
from inventory.markings.recognise import HEAD, ranked
from tests.markings.cases import load


@pytest.mark.parametrize(
    ("text", "family"),
    [
        ("16(4)A 250V~ 25T85 5E4", "switch"),
        ("SS-10-3T", "switch"),
        ("R13-901 6 125 60 GP 6K 55", "switch"),
        ("SRD-12VDC-SL-C", "relay"),
        ("G5LE-1A4-CF", "relay"),
        ("SHA-T90", "relay"),
        ("TYPE NO.V-5220Q FOR MONITOR SWITCH", "interlock_switch"),
        ("T5AL250V", "fuse"),
        ("900mA5KV", "hv_fuse"),
    ],
)
def test_a_marking_is_given_to_its_family(text: str, family: str) -> None:
    """Published strings; 5 kV is the oven's high-voltage fuse and T90 a relay body."""
    assert read(text).family == family


@pytest.mark.parametrize("case", load("switch_markings.jsonl"), ids=lambda case: case["id"])
def test_switch_cases_are_recognised_among_contacts(case: dict[str, str]) -> None:
    """Only the oven label and the relay code of the file belong to a neighbour."""
    family = read(case["text"]).family

    expected = {"sw122": "interlock_switch", "sw128": "relay"}.get(case["id"], "switch")
    assert family == expected


@pytest.mark.parametrize(
    ("text", "other"), [("10A 250V~", "fuse"), ("10A 250VAC", "relay"), ("T90", "relay")]
)
def test_a_near_second_is_named_with_what_would_decide(text: str, other: str) -> None:
    """Amperes and volts alone fit several families, T90 a body style or an ambient mark."""
    reading = read(text)

    assert reading.family == "switch"
    assert other in reading.others
    assert any("could be" in warning for warning in reading.warnings)


def test_only_the_head_of_a_text_is_ranked() -> None:
    """Ranking costs the same for a long text."""
    head = "16(4)A 250V~ ".ljust(HEAD)

    assert ranked(head) == ranked(head + "SRD-12VDC-SL-C " * 1000)
