"""What a tech types after ``--need`` and ``--measured`` is held against the family's sheet."""

from __future__ import annotations

from typing import Any

import pytest

from inventory.bench.find import Query, find, measured
from inventory.bench.log import Piece, log_pieces
from inventory.bench.ratings_typed import checked, families_of
from inventory.errors import WrongInput
from inventory.records import Verdict
from inventory.store.shelf import Shelf

SLIPS = [
    ("switch", {"resistve_a": 16}, "There is no micro switch rating 'resistve_a'.", "resistive_a"),
    ("switch", {"tabmm": 6.3}, "There is no micro switch rating 'tabmm'.", "tab_mm"),
    ("fuse", {"curent_a": 5}, "There is no cartridge fuse rating 'curent_a'.", "current_a"),
    (None, {"contact_frm": "SPDT"}, "There is no rating 'contact_frm'.", "contact_form"),
]


@pytest.mark.parametrize(("family", "said", "sentence", "near"), SLIPS)
def test_a_slip_in_a_name_is_answered_with_near_ones(
    family: str | None, said: dict[str, Any], sentence: str, near: str
) -> None:
    """One sentence, and the name that was perhaps meant."""
    with pytest.raises(WrongInput) as caught:
        checked(said, family)

    assert str(caught.value).startswith(sentence)
    assert near in str(caught.value)


def test_a_rating_of_another_family_is_no_need_of_this_one() -> None:
    """A fuse has no contact form: the need would change nothing in silence."""
    with pytest.raises(WrongInput, match="no cartridge fuse rating 'contact_form'"):
        checked({"contact_form": "SPDT"}, "fuse")


WRONG_VALUES = [
    ("switch", {"resistive_a": "sixteen"}, "resistive_a wants a figure in A, not 'sixteen'."),
    ("switch", {"volts_ac": "mains"}, "volts_ac wants a figure in V, not 'mains'."),
    ("switch", {"ac15_a": "much"}, "ac15_a wants a figure, not 'much'."),
    ("switch", {"contact_form": "banana"}, "'banana' is no contact form."),
]


@pytest.mark.parametrize(("family", "said", "sentence"), WRONG_VALUES)
def test_a_value_of_the_wrong_kind_is_answered(
    family: str, said: dict[str, Any], sentence: str
) -> None:
    """A word where a figure belongs matches nothing, and says so."""
    with pytest.raises(WrongInput) as caught:
        checked(said, family)

    assert str(caught.value).startswith(sentence)


RIGHT = [
    ("switch", {"resistive_a": 16, "volts_ac": [125, 250], "contact_form": "1 form C"}),
    ("switch", {"tab_width": 6.3, "terminals": "solder", "terminal": "qc-4.8", "dc_a": 2}),
    ("relay", {"coil_v": 12, "tv": "TV-8", "pilot_duty": "B300", "ac15_a": 3}),
    ("thermal_cutout", {"open_f": 302, "reset": "manual"}),
    ("capacitor", {"capacitance_nf": 100}),
    ("gadget", {"resistive_a": 1}),
]


@pytest.mark.parametrize(("family", "said"), RIGHT)
def test_what_is_right_stays_as_it_is(family: str, said: dict[str, Any]) -> None:
    """Other names of a rating and names that are turned into one are known too."""
    assert checked(said, family) == said


def test_half_a_horsepower_is_typed_as_it_is_printed() -> None:
    """``--need hp=1/2``: the values of the command line come as two figures."""
    assert checked({"hp": [1, 2]}, "switch") == {"hp": 0.5}


def test_a_look_is_a_yes_or_a_no() -> None:
    """``needs_review=no`` answers a reading in doubt, in any family."""
    assert checked({"needs_review": "no"}, "fuse") == {"needs_review": False}


def test_needs_name_their_family_where_only_one_knows_them() -> None:
    """A functioning temperature is a thermal link's alone."""
    assert families_of(["tf_c"]) == ("thermal_link",)
    assert set(families_of(["resistive_a"])) == {
        "interlock_switch", "relay", "switch", "thermal_cutout",
    }  # fmt: skip
    assert families_of([]) == ()


def test_needs_of_several_families_ask_for_the_family(shelf: Shelf) -> None:
    """Nothing is searched on a guess."""
    with pytest.raises(WrongInput, match="Say --family too"):
        find(shelf, Query(needs={"resistive_a": 16}))


def test_a_mistyped_need_is_answered_before_anything_is_searched(shelf: Shelf) -> None:
    """The whole way through the search."""
    with pytest.raises(WrongInput, match="Did you mean resistive_a"):
        find(shelf, Query(marking="16(4)A 250V~", family="switch", needs={"resistive": 16}))


BASE = {"contact_form": "SPDT", "body": "miniature v", "actuator": "pin plunger"}


def test_a_rating_printed_on_many_types_names_none(shelf: Shelf) -> None:
    """Two types carry ``16(4)A 250V~``: asking for it takes over neither's code nor its shape."""
    log_pieces(shelf, [
        Piece("16(4)A 250V~", "switch", type_code="ORV-1", state="clicks", ratings=BASE),
        Piece("16(4)A 250V~", "switch", type_code="ORV-2", state="clicks", ratings=BASE),
    ])  # fmt: skip
    answer = find(shelf, Query(marking="16(4)A 250V~", family="switch"))

    assert answer.wanted.type_code is None
    assert "actuator" not in answer.wanted.ratings
    assert {one.verdict for one in answer.stand_ins} == {Verdict.ASK}


def test_records_of_one_code_that_differ_say_only_what_they_share(shelf: Shelf) -> None:
    """Two makers' ``ORV-1``: what one of them lacks or has otherwise is not known."""
    log_pieces(shelf, [
        Piece(type_code="ORV-1", family="switch", maker="Orvane", ratings=BASE),
        Piece(type_code="ORV-1", family="switch", maker="Teldrix",
              ratings={**BASE, "actuator": "lever"}),
    ])  # fmt: skip
    ratings = find(shelf, Query(marking="ORV-1")).wanted.ratings

    assert ratings["contact_form"] == "SPDT"
    assert "actuator" not in ratings


def test_a_label_lists_alternates_for_its_place(shelf: Shelf) -> None:
    """Source: LG MB-308DDD unit label, three types for the monitor place."""
    label = "TYPE NO.SZM-V 16-FA-62 OR VP-532A-OF OR V-5220Q FOR MONITOR SWITCH"
    log_pieces(shelf, [Piece(type_code="VP-532A-OF", family="interlock_switch", state="clicks",
                             ratings={"contact_form": "SPST-NC"}),
                       Piece(type_code="VP-533A-OF", family="interlock_switch", state="clicks",
                             ratings={"contact_form": "SPST-NO"})])  # fmt: skip
    answer = find(shelf, Query(marking=label, family="interlock_switch"))
    verdicts = {one.part.type_code: one.verdict for one in answer.stand_ins}

    assert answer.wanted.place == "monitor"
    assert verdicts.get("VP-532A-OF") is Verdict.SAME
    assert "VP-533A-OF" not in verdicts


def test_a_measured_rating_is_held_against_the_sheet(shelf: Shelf) -> None:
    """A slip in ``--measured`` is not stored."""
    (logged,) = log_pieces(shelf, [Piece("16(4)A 250V~", "switch")])

    with pytest.raises(WrongInput, match="tab_mm"):
        measured(shelf, logged.part.id or 0, {"tab_m": 6.3})
    measured(shelf, logged.part.id or 0, {"needs_review": "no", "tab_width": 6.3})
