"""Screws as offers: from a line, from a name, from the ratings of a record."""

from __future__ import annotations

import pytest

from inventory.errors import WrongInput
from inventory.fasteners.designation import read_screw
from inventory.fasteners.shelf import from_ratings, offers_from, ratings_of, shelf_screw


def test_a_line_of_offers_is_taken_apart_at_its_commas() -> None:
    """A comma between digits is a decimal comma; a semicolon parts too."""
    names = [offer.text for offer in offers_from("M4x8, #8-32x3/8; ST4,2x9,5")]

    assert names == ["M4x8", "#8-32x3/8", "ST4,2x9,5"]


@pytest.mark.parametrize("line", ["", " , ", "chocolate", "M4x8, #8"])
def test_a_line_that_names_no_thread_is_refused(line: str) -> None:
    """An offer must say which thread it is."""
    with pytest.raises(WrongInput):
        offers_from(line)


def test_an_offer_keeps_what_its_name_says() -> None:
    """Length, head, drive and class."""
    offer = shelf_screw("M4x8 pan hexalobular 20 8.8", lot=7, bin_="A3-07", on_hand=12)

    assert (offer.length, offer.head, str(offer.drive), offer.grade) == (
        8.0,
        "pan",
        "hexalobular 20",
        "8.8",
    )
    assert (offer.lot, offer.bin, offer.on_hand) == (7, "A3-07", 12)


def test_a_record_says_more_than_its_marking() -> None:
    """Agreed ratings win over what the marking reads."""
    offer = from_ratings(
        "M4",
        {"thread": "M4x0.7", "length_mm": 8, "drive": "hexalobular pin-in 20", "head": "pan",
         "property_class": "4.8", "earth_suited": True},
        lot=3, on_hand=5, state="good",
    )  # fmt: skip

    assert offer is not None
    assert (offer.thread.name, offer.length, str(offer.drive)) == (
        "M4x0.7",
        8.0,
        "hexalobular pin-in 20",
    )
    assert (offer.earth_suited, offer.state, offer.grade) == (True, "good", "4.8")


def test_a_record_falls_back_on_its_marking() -> None:
    """A record logged by its bag alone."""
    offer = from_ratings("8-32 x 3/8 pan", {})

    assert offer is not None
    assert (offer.thread.name, offer.head) == ("#8-32", "pan")


@pytest.mark.parametrize(
    ("agreed", "drive"),
    [
        (None, "hexalobular pin-in 20"),
        ("hexalobular", "hexalobular pin-in 20"),
        ("hexalobular 20", "hexalobular 20"),
        ("cross H2", "cross H2"),
        ("slot", "slot"),
    ],
)
def test_a_drive_agreed_by_kind_only_is_completed_from_the_marking(
    agreed: str | None, drive: str
) -> None:
    """What a person agreed wins; a bare kind does not drop the pin that is printed."""
    offer = from_ratings("M4x8 hexalobular pin-in 20", {"drive": agreed})

    assert offer is not None
    assert str(offer.drive) == drive


@pytest.mark.parametrize("marking", ["", "#8", "chocolate", "M4x0", "x" * 500])
def test_a_record_without_one_thread_is_no_offer(marking: str) -> None:
    """None, so that the caller can say so; never a guess."""
    assert from_ratings(marking, {}) is None


def test_the_ratings_of_a_name_hold_only_what_it_says() -> None:
    """A key that is absent was not said."""
    assert ratings_of(read_screw("M4x8")) == {"thread": "M4x0.7", "length_mm": 8.0}
    assert ratings_of(read_screw("#8")) == {}


def test_ratings_make_the_same_offer_again() -> None:
    """Out to a record and back."""
    first = shelf_screw("M4x8 pan hexalobular pin-in 20 8.8 zinc")
    again = from_ratings(first.text, ratings_of(read_screw(first.text)))

    assert again == first
