"""What goes into which hole: the command's verdicts, hole by hole."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.fasteners import catalogue
from inventory.fasteners.designation import read_screw
from inventory.fasteners.fit import Detail
from inventory.fasteners.holes import HoleKind, Place
from inventory.fasteners.mating import CONTRACT, Mating, Verdict, mate
from inventory.fasteners.thread import Thread

ALL = (
    *catalogue.machine_threads(),
    *catalogue.tapping_threads(),
    *catalogue.forming_threads(),
    *catalogue.plastics_threads(),
)


def _mate(wanted: str, offered: str, kind: HoleKind, **more: float) -> Mating:
    one, other = read_screw(wanted).need_thread(), read_screw(offered).need_thread()
    return mate(one, other, Place(kind, **more))


# wanted, offered, hole, engaged mm, verdict; numbers from the worked pairs of screw_in_hole.csv
PAIRS = [
    ("M4", "M4", HoleKind.NUT, 3.0, Verdict.SAME),
    ("M5", "#10-32", HoleKind.NUT, 4.0, Verdict.RUNS_FREE),
    ("#10-32", "M5", HoleKind.NUT, 4.0, Verdict.BINDS),
    ("#10-32", "M5", HoleKind.EXTRUDED, 4.0, Verdict.FORCES),
    ("#10-32", "M5", HoleKind.EXTRUDED, 2.0, Verdict.FORCES),
    ("#10-32", "M5", HoleKind.NUT, 2.0, Verdict.BINDS),
    ("#8-32", "M4", HoleKind.NUT, 3.0, Verdict.BINDS),
    ("M4", "#8-32", HoleKind.NUT, 3.0, Verdict.NO_ENTRY),
    ("M4", "#8-32", HoleKind.EXTRUDED, 3.0, Verdict.NO_ENTRY),
    ("M4", "#8-32", HoleKind.UNKNOWN, 1.0, Verdict.NO_ENTRY),
    ("#8-32", "#6-32", HoleKind.NUT, 3.0, Verdict.TOO_LOOSE),
    ("M5", "M4", HoleKind.NUT, 3.0, Verdict.SLIPS),
    ("5/16-18", "M8", HoleKind.NUT, 6.0, Verdict.NO_ENTRY),
    ("#3-56", "M2.5", HoleKind.NUT, 2.5, Verdict.RUNS_FREE),
]


@pytest.mark.parametrize(("wanted", "offered", "kind", "engaged", "verdict"), PAIRS)
def test_a_worked_pair_has_its_verdict(
    wanted: str, offered: str, kind: HoleKind, engaged: float, verdict: Verdict
) -> None:
    """The command's verdicts for pairs worked out apart."""
    assert _mate(wanted, offered, kind, engaged=engaged).verdict is verdict


def test_the_trades_8_32_in_m4_sheet_comes_out_as_what_it_is() -> None:
    """Forces a new thread in sheet, holds, one way, not for a hard nut, not for earth.

    Source: common practice of cover repairs; no published source.
    """
    found = _mate("M4x8", "#8-32x3/8", HoleKind.SHEET, sheet=0.8)
    said = " ".join(found.reasons)

    assert found.verdict is Verdict.FORCES
    for words in (
        "Forces a new thread",
        "it holds",
        "One way",
        "Not for a hard nut",
        "Never use it as an earthing screw",
        "common practice, no source",
    ):
        assert words in said
    assert found.strip_ratio is not None
    assert 0.4 < found.strip_ratio < 1.0


@pytest.mark.parametrize("kind", [HoleKind.NUT, HoleKind.UNKNOWN, HoleKind.EXTRUDED])
def test_the_same_screw_is_no_answer_for_any_other_hole(kind: HoleKind) -> None:
    """Only thin sheet forms anew; elsewhere it cross-threads."""
    assert _mate("M4", "#8-32", kind).verdict is Verdict.NO_ENTRY


@pytest.mark.parametrize(
    ("wanted", "offered", "why"),
    [
        ("M4", "#6-32", "bites too little"),
        ("M3.5", "#6-32", "pitches too far apart"),
        ("M4", "M5", "core too thick"),
    ],
)
def test_a_lip_is_not_formed_by_just_any_screw(wanted: str, offered: str, why: str) -> None:
    """The lip rule has three limits, and each of them refuses."""
    assert _mate(wanted, offered, HoleKind.SHEET).verdict is not Verdict.FORCES, why


def test_a_thick_sheet_guides_the_screw_and_is_no_lip() -> None:
    """Above two turns the thread leads, so the wrong pitch binds."""
    assert _mate("M4", "#8-32", HoleKind.SHEET, sheet=3.0).verdict is Verdict.NO_ENTRY


# spaced threads ------------------------------------------------------------


def test_a_machine_screw_never_goes_into_a_spaced_thread_lip() -> None:
    """M4 in a hole formed by ST4.2: pitch 0.7 against 1.4. Source: ISO 1478 and ISO 965."""
    found = _mate("ST4.2x9.5", "M4x8", HoleKind.SHEET, engaged=1.0)

    assert found.verdict is Verdict.NO_ENTRY
    assert found.detail is Detail.NO
    assert "3.2 mm hole" in " ".join(found.reasons)


def test_a_lip_with_no_doubt_about_its_bore_says_nothing_of_it() -> None:
    """M3 is well below the hole of ST4.2; the pitch alone refuses."""
    found = _mate("ST4.2", "M3", HoleKind.SHEET)

    assert found.verdict is Verdict.NO_ENTRY
    assert len(found.reasons) == 2


def test_the_same_tapping_screw_is_the_same() -> None:
    """ST4.2 and #8-18 AB are one screw. Source: ISO 1478 and ASME B18.6.4 windows coincide."""
    assert _mate("ST4.2", "#8-18", HoleKind.FORMED).verdict is Verdict.SAME


@pytest.mark.parametrize(
    ("offered", "verdict"),
    [("ST4.8", Verdict.NO_ENTRY), ("ST3.5", Verdict.TOO_LOOSE), ("ST3.9", Verdict.TOO_LOOSE)],
)
def test_another_tapping_size_is_judged_by_its_pilot_hole(offered: str, verdict: Verdict) -> None:
    """ST4.2's hole is 3.2 mm; ST4.8 wants 3.7. Source: ISO 1478 hole table."""
    assert _mate("ST4.2", offered, HoleKind.FORMED).verdict is verdict


def test_a_size_whose_pilot_hole_is_there_forms_its_own_thread() -> None:
    """ST3.5 wants 2.8 mm in 1 mm steel; ST3.3 left 2.7 mm. Source: ISO 1478 and AB tables."""
    assert _mate("ST3.3", "ST3.5", HoleKind.FORMED).verdict is Verdict.FORCES


def test_a_tapping_size_without_a_pilot_hole_is_refused() -> None:
    """Nothing is listed for plastics screws in steel."""
    assert _mate("ST4.2", "K40", HoleKind.FORMED).verdict is Verdict.NO_ENTRY


@pytest.mark.parametrize(
    ("kind", "verdict"),
    [
        (HoleKind.NUT, Verdict.NO_ENTRY),
        (HoleKind.EXTRUDED, Verdict.NO_ENTRY),
        (HoleKind.SHEET, Verdict.FORCES),
    ],
)
def test_a_spaced_thread_cuts_into_sheet_only(kind: HoleKind, verdict: Verdict) -> None:
    """ST4.2 in place of M4: forced into plain sheet, never into a tapped thread."""
    assert _mate("M4", "ST4.2", kind).verdict is verdict


def test_a_spaced_thread_says_what_it_is_not_for() -> None:
    """Not for a cover that is removed (UL 353, 6.3.2), never for earth (NEC 250.8)."""
    said = " ".join(_mate("M4", "ST4.2", HoleKind.SHEET).reasons)

    assert "UL 353" in said
    assert "earth" in said


def test_a_spaced_thread_whose_pilot_is_not_there_is_refused() -> None:
    """ST4.8 wants 3.7 mm; an M4 hole is about 3.3 mm."""
    assert _mate("M4", "ST4.8", HoleKind.SHEET).verdict is Verdict.NO_ENTRY


# lobed screws ----------------------------------------------------------------


def test_an_ordinary_m4_goes_where_a_lobed_one_was() -> None:
    """The formed thread is an ordinary metric one afterwards. Source: DIN 7500-1."""
    found = _mate("DIN 7500 M4x8", "M4x8", HoleKind.SHEET)

    assert found.verdict is Verdict.SAME
    assert "tight at first" in " ".join(found.reasons)


@pytest.mark.parametrize(
    ("kind", "verdict"), [(HoleKind.NUT, Verdict.BINDS), (HoleKind.EXTRUDED, Verdict.FORCES)]
)
def test_a_lobed_screw_jams_in_a_tapped_nut(kind: HoleKind, verdict: Verdict) -> None:
    """It is up to 4.07 mm over the lobes. Source: DIN 7500-1 as printed publicly."""
    assert _mate("M4", "DIN 7500 M4", kind).verdict is verdict


def test_a_tapping_screw_in_a_lobed_screws_hole_is_judged_by_its_bore() -> None:
    """The hole is 3.6 mm for a lobed M4, too large for ST4.2 and near enough for ST4.8."""
    assert _mate("DIN 7500 M4", "ST4.2", HoleKind.SHEET).verdict is Verdict.NO_ENTRY
    assert _mate("DIN 7500 M4", "ST4.8", HoleKind.SHEET).verdict is Verdict.FORCES


# plastics ------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("offered", "verdict"),
    [
        ("K40", Verdict.SAME),
        ("K50", Verdict.FORCES),
        ("K35", Verdict.NO_ENTRY),
        ("M4", Verdict.NO_ENTRY),
        ("ST4.2", Verdict.NO_ENTRY),
    ],
)
def test_a_boss_keeps_its_own_thread(offered: str, verdict: Verdict) -> None:
    """Pitch is twice a machine screw's, so no machine screw substitutes. Source: WN 14xx data."""
    assert _mate("K40", offered, HoleKind.BOSS).verdict is verdict


def test_a_plastics_screw_goes_into_no_metal() -> None:
    """30 degree flank, twice the pitch."""
    assert _mate("M4", "K40", HoleKind.NUT).verdict is Verdict.NO_ENTRY


# always --------------------------------------------------------------------------


def test_every_detail_has_a_verdict() -> None:
    """No finer verdict is left without a word of the contract, and ``some_pass`` is no yes."""
    assert set(CONTRACT) == set(Detail)
    assert CONTRACT[Detail.SOME_PASS] is Verdict.BINDS


def test_an_unknown_hole_is_judged_as_a_hard_one_and_says_so() -> None:
    """What is not known is never taken for good."""
    found = _mate("#10-32", "M5", HoleKind.UNKNOWN)

    assert found.verdict is Verdict.BINDS
    assert any("not known" in sentence for sentence in found.reasons)


@given(st.sampled_from(ALL), st.sampled_from(ALL), st.sampled_from(HoleKind))
def test_every_pair_has_a_verdict_with_a_reason(
    wanted: Thread, offered: Thread, kind: HoleKind
) -> None:
    """No pair of known threads in any hole is left without an answer in words."""
    found = mate(wanted, offered, Place(kind))

    assert found.verdict in Verdict
    assert found.reasons
    assert all(len(sentence) > 10 for sentence in found.reasons)


@given(st.sampled_from(ALL), st.sampled_from(ALL))
def test_nothing_is_forced_into_a_nut_or_an_unknown_hole(wanted: Thread, offered: Thread) -> None:
    """Safety: ``forces`` needs a hole that gives way (a boss is formed anew only by its kind)."""
    for kind in (HoleKind.NUT, HoleKind.UNKNOWN):
        found = mate(wanted, offered, Place(kind))
        if wanted.is_machine:
            assert found.verdict is not Verdict.FORCES


@given(st.sampled_from(ALL), st.sampled_from(ALL), st.sampled_from(HoleKind))
def test_only_the_same_thread_is_called_same(
    wanted: Thread, offered: Thread, kind: HoleKind
) -> None:
    """``same`` follows from the thread alone, never from a score."""
    if mate(wanted, offered, Place(kind)).verdict is Verdict.SAME:
        assert offered.same_as(wanted)


def test_turns_free_are_null_without_limit_and_zero_without_entry() -> None:
    """JSON has no infinity; a spaced thread that does not start has no free turns."""
    assert _mate("M4", "M4", HoleKind.NUT).turns_free is None
    assert _mate("M4", "K40", HoleKind.NUT).turns_free == 0.0
    assert _mate("K40", "K40", HoleKind.BOSS).turns_free is None
    assert _mate("K40", "K40", HoleKind.BOSS).overlap is None
