"""Inverter boards: the number with its suffix. The labels are synthetic."""

from __future__ import annotations

from inventory.markings.inverter_board import canonical, likely, read

LABEL = "F1234X56AP inverter REV B AC120V 60Hz 2M236-M42 3 pin"


def test_number_revision_supply_and_pair_are_read() -> None:
    """The suffix belongs to the number."""
    assert read(LABEL).ratings == {
        "board_number": "F1234X56AP", "revision": "B", "voltage_vac": 120, "frequency_hz": 60,
        "magnetron_type": "2M236-M42", "circuits": 3,
    }  # fmt: skip


def test_a_second_code_stays_unread() -> None:
    """Only the first code is the number; another is a matter for a person."""
    reading = read("F1234X56AP LOT98765X")

    assert reading.ratings["board_number"] == "F1234X56AP"
    assert [piece.text for piece in reading.unread] == ["LOT98765X"]


def test_how_strongly_a_text_looks_like_an_inverter_board() -> None:
    """The word claims it."""
    assert likely(LABEL) > 0.8
    assert likely("F1234X56AP") == 0


def test_a_written_out_board_reads_the_same() -> None:
    """Label to label."""
    first = read(LABEL)

    assert read(canonical(first)).ratings == first.ratings
