"""Two records are called twins on evidence, and never against it."""

from __future__ import annotations

import pytest

from inventory.matching.twins import twin
from inventory.records import Part

RATINGS = {"resistive_a": 16, "volts_ac": [250], "contact_form": "SPST-NO"}


def _part(number: int, code: str | None = None, marking: str = "", **more: object) -> Part:
    """A switch with three ratings, or what is said of it."""
    said: dict[str, object] = {"family": "switch", "ratings": RATINGS, **more}
    return Part(marking=marking, type_code=code, id=number, **said)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("one", "other", "words"),
    [
        ("SZM-V16-FA", "SZM V16/FA", "differ in separators only"),
        ("SZM-V16-FA", "SZM-V16-FA", "both are written"),
        ("SZM-V10-FA", "SZM-VIO-FA", "differ in look-alike characters only"),
        ("SZM-V16-FA", "SMZ-V16-FA", "one slip apart"),
        ("SZM-V16-FA", "SZM-V166-FA", "one slip apart"),
        ("SZM-V16-FA", "SZM-V6-FA", "one slip apart"),
    ],
)
def test_writings_of_one_code_are_twins(one: str, other: str, words: str) -> None:
    """With the same ratings on both records."""
    found = twin(_part(1, one), _part(2, other))

    assert found is not None
    assert words in found.evidence[0]
    assert found.evidence[-1] == "3 recorded ratings agree, none differs"


@pytest.mark.parametrize(
    ("one", "other"), [("5230", "5220"), ("VP-533A-0F", "VP-532A-0F"), ("V16-63", "V16-62")]
)
def test_codes_one_real_sign_apart_are_two_parts(one: str, other: str) -> None:
    """Interlock and monitor. Source: LG MB-308DDD unit label (63/62, 533/532, 5230/5220)."""
    assert twin(_part(1, one), _part(2, other)) is None


def test_a_rating_that_differs_rules_twins_out() -> None:
    """Normally open and normally closed are never one, whatever the code says."""
    closed = {**RATINGS, "contact_form": "SPST-NC"}

    assert twin(_part(1, "SZM-V16"), _part(2, "SZM V16", ratings=closed)) is None


def test_other_family_other_maker_and_the_part_itself_are_no_twins() -> None:
    """Two makers may print one code."""
    one = _part(1, "SZM-V16", maker="Haldwick")

    assert twin(one, _part(2, "SZM-V16", maker="Orvane")) is None
    assert twin(one, _part(2, "SZM-V16", family="relay")) is None
    assert twin(one, one) is None
    assert twin(one, _part(2, "SZM-V16", maker="Haldwick Ltd")) is not None


def test_an_alias_makes_twins() -> None:
    """One record carries the other's code."""
    found = twin(_part(1, "SZM-V16", aliases=("DE59-00002A",)), _part(2, "DE5900002A"))

    assert found is not None
    assert "another code of" in found.evidence[0]


def test_a_slip_alone_is_not_enough() -> None:
    """Without ratings that agree, two codes a slip apart may be two parts."""
    assert twin(_part(1, "SZM-V16-FA", ratings={}), _part(2, "SMZ-V16-FA", ratings={})) is None


def test_one_marking_without_codes_makes_twins() -> None:
    """A fuse has no type code: its marking is all there is."""
    one = Part("fuse", "T5AL250V", id=1)

    assert twin(one, Part("fuse", "T 5A L 250V", id=2)) is not None
    assert twin(one, Part("fuse", "F5AL250V", id=2)) is None
    assert twin(one, Part("fuse", "", id=2)) is None


def test_one_marking_on_two_codes_makes_no_twins() -> None:
    """16A 250V~ stands on a thousand types."""
    assert twin(_part(1, "SZM-V16", "16A 250V~"), _part(2, "KW3A", "16A 250V~")) is None


def test_a_record_without_its_code_may_be_the_one_with_it() -> None:
    """The same marking and the same ratings; the fuller record is kept."""
    found = twin(_part(1, None, "16A 250V~"), _part(2, "SZM-V16", "16A 250V~"))

    assert found is not None
    assert (found.keep, found.drop) == (2, 1)
    bare_one = _part(1, None, "16A 250V~", ratings={})
    assert twin(bare_one, _part(2, "SZM-V16", "16A 250V~", ratings={})) is None


def test_short_codes_need_to_be_equal() -> None:
    """D4 and D44 are two parts."""
    assert twin(_part(1, "D4"), _part(2, "D44")) is None
    assert twin(_part(1, "--"), _part(2, "++")) is None


def test_of_equal_records_the_older_is_kept() -> None:
    """Numbers are given in the order records enter the shelf."""
    found = twin(_part(9, "SZM-V16"), _part(3, "SZM V16"))

    assert found is not None
    assert (found.keep, found.drop) == (3, 9)
