"""What goes in instead: the whole answer, its order, and that no score outvotes a refusal."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.errors import WrongInput
from inventory.fasteners.holes import HoleKind, Place
from inventory.fasteners.instead import Suggestion, instead, judge, wanted_screw
from inventory.fasteners.mating import Verdict as ThreadVerdict
from inventory.fasteners.shelf import ShelfScrew, offers_from, shelf_screw
from inventory.fasteners.swap import WantedScrew
from inventory.records import Outcome, Verdict

LOCKED = "security hexalobular 15, M4x8 in sheet"


def _only(wanted: WantedScrew, offered: str) -> Suggestion:
    return judge(wanted, shelf_screw(offered))


def test_the_same_screw_is_the_same() -> None:
    """Thread, length, head and drive alike, and all of them known."""
    found = _only(
        wanted_screw("M4x8 pan hexalobular pin-in 15 in sheet"), "M4x8 pan hexalobular pin-in 15"
    )

    assert found.verdict is Verdict.SAME
    assert found.tamper == "kept"
    assert found.driver == "hollow hexalobular 15 (security bit)"
    assert found.cautions == ()


def test_another_security_bit_fits() -> None:
    """The tamper class is kept, with another bit."""
    found = _only(wanted_screw(LOCKED), "M4x8 hexalobular pin-in 20")

    assert found.verdict is Verdict.FITS
    assert found.tamper == "kept, other bit"


def test_a_drive_nobody_named_is_asked_for() -> None:
    """An M4x8 of unknown drive may be a household screw."""
    found = _only(wanted_screw(LOCKED), "M4x8")

    assert found.verdict is Verdict.ASK
    assert found.tamper == "unknown"
    assert "Look at its drive" in found.cautions[0]


def test_the_trades_habit_comes_out_as_what_it_is() -> None:
    """#8-32 in M4 cover sheet: forces, holds, one way, not for a nut, not for earth; longer too.

    Source: common practice of cover repairs; no published source.
    """
    found = _only(wanted_screw(LOCKED), "#8-32x3/8 hexalobular pin-in 20")
    said = " ".join(found.cautions)

    assert found.verdict is Verdict.ASK
    assert found.offer.mating.verdict is ThreadVerdict.FORCES
    for words in (
        "Forces a new thread",
        "it holds",
        "One way",
        "Not for a hard nut",
        "Never use it as an earthing screw",
        "look behind first",
    ):
        assert words in said


def test_the_trades_habit_is_refused_in_a_nut_and_for_earth() -> None:
    """The two places it is not for."""
    nut = wanted_screw(LOCKED, Place(HoleKind.NUT))
    earth = wanted_screw("earthing screw M4x8 in sheet")

    assert _only(nut, "#8-32x5/16 hexalobular pin-in 20").verdict is Verdict.REFUSED
    assert _only(earth, "#8-32x5/16").verdict is Verdict.REFUSED


@pytest.mark.parametrize("offered", ["ST4.2x8", "ST4.2x9.5 hexalobular pin-in 15", "#8-18 x 3/8"])
def test_a_spaced_thread_never_earths(offered: str) -> None:
    """Whatever else speaks for it, even where a spaced thread came out."""
    assert _only(wanted_screw("earth screw M4x8 in sheet"), offered).verdict is Verdict.REFUSED
    assert _only(wanted_screw("earth screw ST4.2x8 in sheet"), offered).verdict is Verdict.REFUSED


def test_a_security_screw_without_a_named_drive_keeps_its_class() -> None:
    """The word alone is some tamper-resistant drive: an ordinary one lowers it."""
    wanted = replace(wanted_screw("security screw M4x8 in sheet"), high_voltage=True)

    assert _only(wanted, "M4x8 hexalobular 20").verdict is Verdict.REFUSED
    assert _only(wanted, "M4x8 tri-wing").verdict is Verdict.FITS


def test_the_order_is_verdict_thread_questions_length() -> None:
    """The best first; refused last; a near length before a far one."""
    shelf = offers_from(
        "M5x8, #8-32x3/8, M4x8 hexalobular pin-in 20, ST4.2x9.5, M4x10 hexalobular pin-in 15,"
        " M4x8 hexalobular pin-in 15"
    )

    names = [one.screw.text for one in instead(wanted_screw(LOCKED), shelf)]

    assert names == [
        "M4x8 hexalobular pin-in 15",
        "M4x8 hexalobular pin-in 20",
        "M4x10 hexalobular pin-in 15",
        "#8-32x3/8",
        "ST4.2x9.5",
        "M5x8",
    ]


SHELF = [
    replace(screw, lot=number)
    for number, screw in enumerate(
        offers_from(
            "M4x8, M4x8, #8-32x3/8, ST4.2x9.5, M4x10 T20, M4x8 T20H, M5x8, M4x6, #6-32x1/4, K40x10"
        ),
        start=1,
    )
]


@given(st.permutations(SHELF), st.sampled_from([LOCKED, "M4x8", "earth M4x8 in extruded sheet"]))
def test_the_order_of_the_shelf_never_matters(shelf: list[ShelfScrew], wanted: str) -> None:
    """Same lots, same answer."""
    asked = wanted_screw(wanted)

    found = [one.screw.lot for one in instead(asked, shelf)]

    assert found == [one.screw.lot for one in instead(asked, SHELF)]


@given(
    st.sampled_from(
        [LOCKED, "M4x8 pan 8.8", "earth M4x8 in sheet", "microwave cover M4x8 in sheet"]
    ),
    st.sampled_from(SHELF),
    st.sampled_from(HoleKind),
    st.sampled_from([None, True, False]),
)
def test_one_refusal_refuses_and_one_question_asks(
    wanted: str,
    screw: ShelfScrew,
    kind: HoleKind,
    high_voltage: bool | None,  # noqa: FBT001
) -> None:
    """The verdict follows from the worst reason, in any place."""
    asked = replace(wanted_screw(wanted, Place(kind)), high_voltage=high_voltage)
    found = judge(asked, screw)
    outcomes = {reason.outcome for reason in found.reasons}

    if Outcome.REFUSED in outcomes:
        assert found.verdict is Verdict.REFUSED
    elif Outcome.ASK in outcomes:
        assert found.verdict is Verdict.ASK
    else:
        assert found.verdict in {Verdict.SAME, Verdict.FITS}


@given(st.sampled_from(SHELF), st.sampled_from(HoleKind))
def test_a_spaced_thread_is_never_offered_for_earth(screw: ShelfScrew, kind: HoleKind) -> None:
    """In any hole: a property of the answer, not of one rule."""
    found = judge(wanted_screw("earth screw M4x8", Place(kind)), screw)

    if screw.thread.form.value in {"tapping", "plastics"}:
        assert found.verdict is Verdict.REFUSED


@given(st.sampled_from(SHELF), st.sampled_from(HoleKind))
def test_a_longer_screw_is_never_simply_offered(screw: ShelfScrew, kind: HoleKind) -> None:
    """Without looking behind it is at best a question."""
    found = judge(wanted_screw("M4x8", Place(kind)), screw)

    if screw.length is not None and screw.length > 8.05:
        assert found.verdict in {Verdict.ASK, Verdict.REFUSED}


def test_an_empty_lot_is_not_offered() -> None:
    """Nothing on hand, nothing to judge; an uncounted offer is judged."""
    empty, full = shelf_screw("M4x8", on_hand=0), shelf_screw("M4x8", on_hand=3)

    found = instead(wanted_screw("M4x8 in sheet"), [empty, full])

    assert [one.screw for one in found] == [full]


def test_the_place_beside_the_sentence_wins() -> None:
    """But a measured sheet alone does not forget the place that was spoken."""
    assert wanted_screw(LOCKED, Place(HoleKind.NUT)).place.kind is HoleKind.NUT
    kept = wanted_screw(LOCKED, Place(HoleKind.UNKNOWN, sheet=0.7)).place
    assert (kept.kind, kept.sheet) == (HoleKind.SHEET, 0.7)


def test_a_sentence_without_a_thread_is_refused() -> None:
    """With what to give."""
    with pytest.raises(WrongInput, match="give TPI"):
        wanted_screw("security screw #8")
