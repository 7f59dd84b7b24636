"""The shared amounts: units that end where they should, figures that are never torn."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from inventory.markings import amounts
from inventory.markings.amounts import Phrase
from inventory.markings.powers import Powers
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.tables import rows
from inventory.markings.writing import write


def _said(rule: Rule, text: str) -> dict[str, object]:
    """Ratings of one rule tried once at the start."""
    scan = Scanner(text)
    rule(scan)
    return scan.ratings


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("AC220-240V", {"voltage_vac": [220, 240]}),
        ("250V~", {"voltage_vac": 250}),
        ("12 V DC", {"voltage_vdc": 12}),
        ("5kV", {"voltage_v": 5000}),
        ("125/250VAC", {"voltage_vac": [125, 250]}),
        ("2100V.AC", {"voltage_vac": 2100}),
        ("250V10A", {"voltage_v": 250}),
        ("220V-240V", {"voltage_v": [220, 240]}),
    ],
)
def test_volts_in_every_spelling(text: str, expected: dict[str, object]) -> None:
    """The kind of supply is said only where it is printed."""
    assert _said(amounts.volts(), text) == expected


@pytest.mark.parametrize("text", ["250VA", "10V271K", "5,000V", "V250", "250Volvo"])
def test_what_only_looks_like_volts_is_left(text: str) -> None:
    """Volt-amperes, codes and a doubtful comma give no voltage."""
    assert _said(amounts.volts(), text) == {}


@pytest.mark.parametrize(
    ("rule", "text", "expected"),
    [
        (amounts.amps(), "900mA5KV", {"current_a": 0.9}),
        (amounts.amps(), "3,15 A", {"current_a": 3.15}),
        (amounts.watts(), "1.5kW", {"power_w": 1500}),
        (amounts.watts(), "3/2.5Watts", {"power_w": [3, 2.5]}),
        (amounts.hertz, "50/60Hz", {"frequency_hz": [50, 60]}),
        (amounts.hertz, "2450 MHz", {"frequency_mhz": 2450}),
        (amounts.size, "5*20mm", {"size_mm": [5, 20]}),
        (amounts.approvals, "<PSE>", {"approvals": ["PSE"]}),
    ],
)
def test_amounts_with_their_prefixes(rule: Rule, text: str, expected: dict[str, object]) -> None:
    """Milli and kilo are multiplied without binary dust."""
    assert _said(rule, text) == expected


@pytest.mark.parametrize("text", ["EBR-123A", "W12A3", "A2103-5V", "X250V"])
def test_no_figure_is_torn_from_a_code(text: str) -> None:
    """A token nobody knows stays unread as a whole."""
    scan = Scanner(text)
    scan.sweep((amounts.volts(), amounts.amps(), *amounts.GAPS))

    assert scan.ratings == {}
    assert [piece.text for piece in scan.reading("x").unread] == [text]


def test_a_slash_before_an_amount_ends_a_token() -> None:
    """SPT/250V is a name and 250 V."""
    scan = Scanner("SPT/250V")
    scan.sweep((amounts.volts(), *amounts.GAPS))

    assert scan.ratings == {"voltage_v": 250}


def test_phrases_take_whole_words_only() -> None:
    """LED is not taken from LEDGE."""
    rule = amounts.phrases(Phrase("LED", "lamp", {"technology": "LED"}))

    assert _said(rule, "LED 5W") == {"technology": "LED"}
    assert _said(rule, "LEDGE") == {}


def test_mended_puts_the_new_piece_where_the_old_one_stood() -> None:
    """The rest of the marking stays as typed."""
    scan = Scanner("HV 075A 5KV")
    scan.at = 3
    scan.take(amounts._pattern("A"), "rated current", "test")

    assert amounts.mended(scan, "rated current", "0.75A") == "HV 0.75A 5KV"
    assert amounts.mended(scan, "unknown", "0.75A") == "0.75A"


@pytest.mark.parametrize(
    ("met", "named"),
    [
        (["in", [9.0], "out", [1.0]], [("in", [9.0]), ("out", [1.0])]),
        ([[9.0], "in", [1.0], "out"], [("in", [9.0]), ("out", [1.0])]),
        ([[9.0], "out", [1.0]], [(None, [9.0]), ("out", [1.0])]),
        ([[9.0]], [(None, [9.0])]),
    ],
)
def test_words_stand_before_or_behind_but_not_both(
    met: list[str | list[float]], named: list[tuple[str | None, list[float]]]
) -> None:
    """A figure first and a word last means that words stand behind."""
    assert Powers(met).named() == named


@pytest.mark.parametrize(
    ("form", "value", "text"),
    [
        ("{}A", 0.9, "0.9A"),
        ({True: "yes"}, True, "yes"),
        ({True: "yes"}, False, ""),
        ("{}", ["a", "b"], "a b"),
    ],
)
def test_a_rating_is_written_by_its_form(
    form: str | dict[object, str] | Callable[[object], str], value: object, text: str
) -> None:
    """A template, the words of a value, or a function."""
    assert write({"x": value}, ("x", form)) == text


@pytest.mark.parametrize("table", ["fuse_series", "thermal_links"])
def test_every_row_of_a_table_has_a_source(table: str) -> None:
    """A datum without a birth certificate is not kept."""
    assert all(row["source"] for row in rows(table))
