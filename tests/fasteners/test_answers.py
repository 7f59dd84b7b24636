"""Every published fastener case, each with its own source and tolerance."""

from __future__ import annotations

from typing import Any

import pytest

from inventory.errors import WrongInput
from inventory.fasteners import answer
from tests.fasteners.published import agrees, fastener_cases

CASES = fastener_cases()
IN_WORDS = {"reason"}  # sentences are ours; that there is one is checked


def _label(case: dict[str, Any]) -> str:
    return f"{case['kind']}-{'-'.join(str(value) for value in case['given'].values())}"[:60]


@pytest.mark.parametrize("case", CASES, ids=[_label(case) for case in CASES])
def test_a_published_case_is_answered_within_its_tolerance(case: dict[str, Any]) -> None:
    """Each name in ``expect`` comes back with the published value; ``not`` names are absent."""
    got = answer(case["kind"], case["given"])

    for key, expected in case["expect"].items():
        if key == "not":
            assert not set(expected) & {got["best"], *got["also"]}
        elif key in IN_WORDS:
            assert len(got[key]) > 20
        else:
            assert agrees(case, key, expected, got[key]), (key, expected, got[key])


def test_an_answer_off_by_more_than_the_tolerance_is_noticed() -> None:
    """The comparison itself can fail: null, strings and lists of other lengths included."""
    case = {"tol": 0.001}

    assert agrees(case, "d_max", 2.98, 2.9805)
    assert not agrees(case, "d_max", 2.98, 2.982)
    assert not agrees(case, "n_free", None, 5.0)
    assert not agrees(case, "n_free", [1.0, 2.0], [1.0])
    assert not agrees(case, "ok", expected=True, got=1.0)


def test_an_unknown_kind_of_case_is_refused() -> None:
    """A kind nobody defined ends in one sentence."""
    with pytest.raises(WrongInput, match="no kind of case 'colour'"):
        answer("colour", {})


# More cases of the same shapes, each with the source of its figure.
MORE: list[tuple[str, dict[str, Any], dict[str, Any], float]] = [
    # ISO 898-1:2013 table 3, A_s,nom, as printed in public load tables.
    ("limits", {"quantity": "stress_area_mm2", "thread": "M4"}, {"As_mm2": 8.78}, 0.005),
    # FED-STD-H28/2B table: tensile stress area of 1/4-20.
    ("limits", {"quantity": "stress_area_in2", "thread": "1/4-20"}, {"in2": 0.0318}, 0.00005),
    # Public table of stripping areas (FED-STD-H28 formula 2a), per inch of engagement.
    (
        "limits",
        {"quantity": "shear_area_internal", "thread": "1/4-20"},
        {"AS_n_in2": 0.539, "AS_s_in2": 0.368},
        0.0006,
    ),
    # ISO 273 as printed by a public trade page.
    ("limits", {"quantity": "clearance_hole", "thread": "M4"}, {"medium": 4.5, "fine": 4.3}, 1e-6),
    # Inch drill #18, a normal clearance for #6.
    ("limits", {"quantity": "clearance_hole", "thread": "#6-32"}, {"normal_in": 0.1695}, 1e-6),
    # FED-STD-H28/2B table II.A.1: drill #29. (Its 62 % is of the hole as drilled, oversize.)
    ("limits", {"quantity": "tap_drill", "thread": "#8-32"}, {"in": 0.136}, 1e-6),
    # Published dry torques of 60 ksi machine screws, in lb.
    (
        "limits",
        {"quantity": "max_torque_in_lb", "thread": "#8-32", "grade": "SAE J82 60M"},
        {"in_lb": 11.4},
        0.06,
    ),
    (
        "limits",
        {"quantity": "max_torque_in_lb", "thread": "1/4-20", "grade": "60M"},
        {"in_lb": 39.4},
        0.1,
    ),
    # M4 in 1 mm of 300 MPa sheet strips near 1165 N (computed apart, H28 2a).
    (
        "limits",
        {"quantity": "strip_load_N", "thread": "M4", "engaged_mm": 1.0, "uts_mpa": 300},
        {"N": 1165},
        1.0,
    ),
    (
        "limits",
        {"quantity": "torque_in_sheet", "thread": "M4", "sheet_mm": 1.0},
        {"Nm": 0.56},
        0.01,
    ),
    # SAE J429 grade 5: 85 and 120 ksi on 0.0318 in2.
    (
        "limits",
        {"quantity": "proof_load_lbf", "thread": "1/4-20", "grade": "Gr 5"},
        {"lbf": 2703},
        10,
    ),
    (
        "limits",
        {"quantity": "ultimate_load", "thread": "M10", "property_class": "8.8"},
        {"N": 46400},
        50,
    ),
    # ISO 965-1 table 1: es of position g at 0.7 mm.
    ("limits", {"quantity": "allowance", "thread": "M4", "class": "6g"}, {"um": 22}, 1e-9),
    (
        "limits",
        {
            "quantity": "engagement",
            "thread": "M4",
            "uts_screw_mpa": 420,
            "uts_hole_mpa": 300,
        },
        {"LE_16_mm": 3.16},
        0.01,
    ),
    ("limits", {"quantity": "shear_area", "thread": "M4", "LE_mm": 1.0}, {"AS_n_mm2": 7.77}, 0.005),
    ("drive", {"drive": "cross H2", "quantity": "tamper_class"}, {"tamper_class": 0}, 0),
    ("limits", {"quantity": "allowance", "thread": "#8-32"}, {"in": 0.0009}, 1e-9),
    # Zinc of 5 um: 20 um on the pitch diameter, within the 22 um of M4 6g.
    (
        "limits",
        {"quantity": "coating", "thread": "M4"},
        {"growth_um": 20, "within_allowance": True},
        1e-9,
    ),
    (
        "limits",
        {"quantity": "basic", "thread": "M4"},
        {"d2": 3.545, "D1": 3.242, "d3": 3.141},
        0.0006,
    ),
    # M4 6g/6H: mean 63 %, worst 46 % (FED-STD-H28/2B basis, computed apart).
    (
        "limits",
        {"quantity": "percent_thread_own", "thread": "M4"},
        {"percent_tight_mean_loose": [81.0, 63.2, 45.7]},
        0.6,
    ),
    # ISO basis: 100 % is 0.625 H, so a minimum hole gives 100.
    (
        "limits",
        {"quantity": "percent_thread_0625H", "thread": "M4", "hole_minor_mm": 3.242},
        {"percent": 100.0},
        0.1,
    ),
    # FED-STD-H28/2B (16), class 4.8 into 300 MPa steel: 0.76 to 0.83 d.
    (
        "limits",
        {
            "quantity": "length_of_engagement",
            "thread": "M4",
            "property_class": "4.8",
            "uts_hole_mpa": 300,
        },
        {"LE_16_d": 0.79},
        0.01,
    ),
    ("identify", {"name": "M4x8"}, {"d_mm": 4.0, "P_mm": 0.7, "length_mm": 8.0}, 1e-9),
    ("identify", {"name": "1/4-20"}, {"d_in": 0.25, "P_mm": 1.27}, 1e-9),
    ("identify", {"major_in": 0.1625, "tpi": 32}, {"best": "#8-32"}, 0),
    (
        "identify",
        {"major_mm": 4.1},
        {"ask": "pitch: measure it over ten threads, or lay a thread gauge on"},
        0,
    ),
    # The pair of the hobby machinist's report, one way and the other, over a nut's height.
    (
        "compat",
        {"screw": "#10-32", "hole": "M5x0.8", "engaged_mm": 4},
        {"verdict": "runs_free", "tensile_ratio": 0.92, "core_enters": True},
        0.005,
    ),
    ("compat", {"screw": "M4x0.7", "hole": "boss for K40"}, {"verdict": "no"}, 0),
    ("compat", {"screw": "M4x8", "hole": "M4 DIN 7500"}, {"verdict": "exact"}, 0),
    ("compat", {"screw": "ST4.2", "hole": "formed by ST4.2"}, {"verdict": "exact"}, 0),
    # The trade's habit (common practice, no source): forced in sheet, no entry in a nut.
    (
        "compat",
        {
            "screw": "#8-32",
            "hole": "M4",
            "hole_kind": "plain sheet with formed lip",
            "engaged_mm": 1,
        },
        {"verdict": "forces", "contract_verdict": "forces"},
        0,
    ),
    (
        "compat",
        {"screw": "#8-32", "hole": "M4", "hole_kind": "hard tapped nut", "engaged_mm": 3},
        {"verdict": "no_entry", "contract_verdict": "no-entry"},
        0,
    ),
    # A #10 through an M4 medium hole will not: 4.80 against 4.5 mm.
    (
        "compat",
        {"quantity": "clearance_passes", "screw": "#10-32", "hole_mm": 4.5},
        {"passes": False, "widest_mm": 4.803},
        0.001,
    ),
    (
        "compat",
        {"quantity": "play", "screw": "#10-32", "hole": "M5x0.8", "condition": "tight"},
        {"play_um": 114},
        0.5,
    ),
    (
        "compat",
        {"quantity": "engaged_turns", "thread": "M4", "hole_extrusion_mm": 2.5},
        {"turns": 3.57, "ok": True},
        0.01,
    ),
    (
        "compat",
        {
            "quantity": "substitute_length",
            "original": "M4x8",
            "candidate": "#8-32x3/8",
            "part_stack_mm": 1,
            "hole_extrusion_mm": 2,
        },
        {"ok": False, "reason": "1.5 mm longer: look behind first"},
        0,
    ),
    (
        "compat",
        {
            "quantity": "pilot_hole_fit",
            "hole_mm": 3.7,
            "sheet_mm": 1.0,
            "candidates": ["ST4.2", "ST4.8", "K40"],
        },
        {
            "best": "ST4.8",
            "rejected": {"ST4.2": "needs 3.2-3.5 mm", "K40": "no pilot hole is listed"},
        },
        0,
    ),
    # ISO 7380-2 is a hexagon socket with collar and has no hexalobular size.
    (
        "drive",
        {"standard": "ISO 7380-2", "thread": "M4", "quantity": "hexalobular_size"},
        {"size": None},
        0,
    ),
    (
        "drive",
        {"standard": "ISO 7380-2", "thread": "M4", "quantity": "hex_socket"},
        {"size": 2.5},
        0,
    ),
    (
        "drive",
        {"standard": "ISO 7049", "thread": "ST4.2", "quantity": "cross_recess"},
        {"size": 2},
        0,
    ),
    (
        "drive",
        {"standard": "ASME B18.6.3", "thread": "#8", "quantity": "hex_washer_across_flats"},
        {"size": "1/4", "in": 0.25},
        1e-9,
    ),
    (
        "drive",
        {"standard": "ASME B18.6.3", "thread": "#8", "quantity": "square_size"},
        {"size": 2},
        0,
    ),
    (
        "drive",
        {"standard": "ISO 7045", "thread": "M4", "quantity": "head_dk_max"},
        {"dk_max": 8.0, "k_max_mm": 3.1},
        1e-9,
    ),
    (
        "drive",
        {"standard": "ISO 7045", "thread": "M12", "quantity": "head_dk_max"},
        {"dk_max": None},
        0,
    ),
    (
        "drive",
        {"screw_drive": "hexalobular pin-in 20", "driver": "hollow hexalobular 20"},
        {"turns": True},
        0,
    ),
    (
        "drive",
        {"screw_drive": "hexalobular 20", "driver": "hollow hexalobular 20"},
        {"turns": True},
        0,
    ),
    ("drive", {"screw_drive": "cross Z2", "driver": "cross H2"}, {"turns": True, "badly": True}, 0),
    ("drive", {"screw_drive": "cross H2", "driver": "Z2"}, {"turns": False}, 0),
    ("drive", {"screw_drive": "hexalobular 20", "driver": "flat blade"}, {"turns": "sometimes"}, 0),
    (
        "drive",
        {"original": "hexalobular pin-in 20", "substitute": "hex 3"},
        {"tamper_resistance": "reduced"},
        0,
    ),
    (
        "drive",
        {"original": "hexalobular pin-in 20", "substitute": "triangle 2.3"},
        {"tamper_resistance": "kept, other bit"},
        0,
    ),
    (
        "drive",
        {"original": "hexalobular pin-in 20", "substitute": "one-way slot"},
        {"tamper_resistance": "do not, unserviceable"},
        0,
    ),
    # NEC 250.8(A)(5) and (6): machine or thread-forming machine screws, two threads.
    (
        "drive",
        {"original": "earthing screw M4", "substitute": "sheet-metal screw ST4.2"},
        {"allowed": False},
        0,
    ),
    (
        "drive",
        {"original": "earthing screw M4", "substitute": "M4x8"},
        {"allowed": True, "threads_min": 2},
        0,
    ),
    ("drive", {"original": "M5 8.8", "substitute": "M5 A2-70"}, {"allowed": False}, 0),
    ("drive", {"original": "M5", "substitute": "M5x10"}, {"allowed": True}, 0),
]


@pytest.mark.parametrize(("kind", "given", "expect", "tol"), MORE)
def test_cases_of_the_same_shapes_are_answered(
    kind: str, given: dict[str, Any], expect: dict[str, Any], tol: float
) -> None:
    """The door answers the analogous quantities of the reference, not only the listed cases."""
    got = answer(kind, given)

    for key, value in expect.items():
        assert agrees({"tol": tol}, key, value, got[key]), (key, value, got[key])


@pytest.mark.parametrize(
    ("kind", "given", "sentence"),
    [
        ("limits", {"thread": "M4", "quantity": "colour"}, "no quantity 'colour'"),
        ("limits", {"thread": "M4", "quantity": "percent_thread"}, "hole's minor diameter"),
        ("limits", {"thread": "M27x1.5", "quantity": "clearance"}, "No clearance hole"),
        ("limits", {"thread": "5/16-20", "quantity": "tap_drill"}, "No tap drill"),
        ("identify", {"pitch_mm": 0.7}, "name or a measured major"),
        ("compat", {"quantity": "engaged_turns", "thread": "M4"}, "height of the thread"),
        (
            "compat",
            {"quantity": "substitute_length", "original": "M4", "candidate": "M4x6"},
            "need a length",
        ),
        ("compat", {"quantity": "clearance_passes", "screw": "M4"}, "plain hole's diameter"),
        ("drive", {}, "names a standard"),
        ("drive", {"screw_drive": "M4", "driver": "H2"}, "No drive is known"),
    ],
)
def test_a_case_that_lacks_a_fact_is_refused(
    kind: str, given: dict[str, Any], sentence: str
) -> None:
    """What is missing is named; nothing is guessed."""
    with pytest.raises(WrongInput, match=sentence):
        answer(kind, given)
