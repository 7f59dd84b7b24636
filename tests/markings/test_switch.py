"""Switch markings mark by mark: what each piece means, what is assumed, what is left."""

from __future__ import annotations

import pytest

from inventory.markings import switch
from inventory.records import Reading


def _means(reading: Reading, text: str) -> str:
    """What the mark with this text means."""
    return next(mark.means for mark in reading.marks if mark.text == text)


def test_every_mark_carries_words_and_a_source() -> None:
    """Nothing is read without saying what it means and by which source."""
    reading = switch.read("16(4)A 250V~ 25T85/55 5E4 µ IP40 1/2HP 125VAC UL1054")

    assert all(mark.means and mark.source for mark in reading.marks)
    assert not reading.unread


def test_round_brackets_are_a_motor_current() -> None:
    """16(4)A: 4 A of motor in round brackets. Source: IEC 61058-1 as explained by cxswitch."""
    assert "motor load" in _means(switch.read("16(4)A 250V~"), "16(4)A")


def test_the_figure_before_t_is_minus() -> None:
    """25T85 is -25 to +85 °C. Source: cxswitch."""
    assert _means(switch.read("5A 250V~ 25T85"), "25T85") == "ambient -25 to 85 °C"


@pytest.mark.parametrize(
    "text",
    [
        "250V~",
        "250 V AC",
        "250VAC",
        "250 Vac",
        "250V a.c.",
        "AC250V",
        "AC 250 V",
        "~250V",
        "250V ∼",
    ],
)
def test_alternating_current_is_read_in_every_spelling(text: str) -> None:
    """Spellings met on parts and sheets all give a.c. volts."""
    assert switch.read(f"10A {text}").ratings == {"resistive_a": 10, "volts_ac": [250]}


@pytest.mark.parametrize("text", ["30VDC", "30 V DC", "DC30V", "30Vdc", "30V d.c.", "30V⎓", "30V="])
def test_direct_current_is_read_in_every_spelling(text: str) -> None:
    """Spellings met on parts and sheets all give d.c. volts."""
    assert switch.read(f"4A {text}").ratings == {"dc_a": 4, "volts_dc": [30]}


@pytest.mark.parametrize(
    ("text", "cycles"),
    [
        ("5E4", 50_000),
        ("10E3", 10_000),
        ("25E3", 25_000),
        ("50.000 cycles", 50_000),
        ("50,000", 50_000),
        ("25x103 ops.", 25_000),
        ("1×10⁵", 100_000),
        ("6K", 6_000),
        ("6k life", 6_000),
        ("10000 operations", 10_000),
        ("Ⓛ", 100_000),
    ],
)
def test_endurance_is_read_in_every_spelling(text: str, cycles: int) -> None:
    """5E4 by cxswitch; 25x103 a lost superscript (TE OJT); 6k and the circled L by Cherry D4."""
    assert switch.read(f"10A 250V~ {text}").ratings["endurance_cycles"] == cycles


@pytest.mark.parametrize("sign", ["µ", "μ", "u"])
def test_micro_disconnection_is_read_from_both_mus_and_a_lost_one(sign: str) -> None:
    """U+00B5, U+03BC and the plain letter; the letter is told."""
    reading = switch.read(f"10(3)A 250V~ {sign}T85")

    assert reading.ratings["disconnection"] == "micro"
    assert bool(reading.warnings) == (sign == "u")


def test_no_disconnection_sign_leaves_disconnection_unsaid() -> None:
    """Sheets leave the sign out freely, so its absence says nothing (Omron V, Crouzet 83161)."""
    reading = switch.read("16(4)A 250V~ T85")

    assert "disconnection" not in {**reading.ratings, **reading.assumed}


def test_defaults_of_the_standard_are_assumed_and_named_for_an_iec_group() -> None:
    """0 to 55 °C and 10 000 cycles without a mark. Source: cxswitch."""
    reading = switch.read("16(4)A 250V~")

    assert reading.assumed == {
        "ambient_min_c": 0,
        "ambient_max_c": 55,
        "endurance_cycles": 10_000,
    }
    assert all("IEC 61058-1" in source for source in reading.assumed_from.values())


def test_nothing_is_assumed_for_a_plain_or_american_rating() -> None:
    """Without a mark of the IEC standard its defaults do not hold."""
    assert not switch.read("10A 250VAC").assumed
    assert not switch.read("5A 125VAC 1/4HP").assumed


def test_a_bare_mains_voltage_is_taken_as_alternating_with_a_warning() -> None:
    """An unmarked 250 V is never read as d.c.; a low one is left open. Common practice."""
    mains, low = switch.read("10A 250V"), switch.read("10A 28V")

    assert mains.ratings == {"resistive_a": 10, "volts_ac": [250]}
    assert mains.warnings
    assert low.ratings == {"amps": 10, "volts": [28]}


def test_a_smaller_figure_behind_the_stroke_is_no_surge() -> None:
    """10/4A is read as motor current, with the doubt told; 8/128A is a peak surge."""
    old = switch.read("10/4A 250V~")

    assert old.ratings["motor_a"] == 4
    assert "little certainty" in old.warnings[0]
    assert switch.read("8/128A 250V~").ratings["inrush_a"] == 128


def test_two_ambient_marks_are_kept_with_their_own_ratings() -> None:
    """UL T105 beside IEC 40T105 (Switech KW3A): reported both, never merged."""
    reading = switch.read("1A125VAC T105 1(0.3)A 125/250VAC 5E4 40T105")

    lows = [row["ambient_min_c"] for row in reading.ratings["ratings"]]
    assert lows == [0, -40]
    assert any("ambient" in warning for warning in reading.warnings)


def test_two_ambient_marks_on_one_rating_are_listed() -> None:
    """With one rating neither mark can be left out."""
    reading = switch.read("16(4)A 250V~ T65 40T85")

    assert reading.ratings["ambients"] == [
        {"ambient_min_c": 0, "ambient_max_c": 65},
        {"ambient_min_c": -40, "ambient_max_c": 85},
    ]
    assert "ambient_max_c" not in reading.ratings


def test_full_load_amperes_are_checked_against_the_code_table() -> None:
    """1/3 hp is 7.2 A at 115 V. Source: NEC table 430.248."""
    assert not switch.read("1/3 Hp (7.2 FLA)").warnings
    assert "0.3333 hp" in switch.read("1/3 Hp (12 FLA)").warnings[0]


def test_a_lost_decimal_point_is_offered_and_not_applied() -> None:
    """105 A on a switch: IEC 61058-1 ends at 63 A."""
    reading = switch.read("105A 250VAC")

    assert reading.ratings["resistive_a"] == 105
    assert [candidate.text for candidate in reading.candidates] == ["10.5A 250VAC", "1.05A 250VAC"]


@pytest.mark.parametrize(
    ("damaged", "repaired"),
    [("1OA 250VAC", "10A 250VAC"), ("10A 25OVAC", "10A 250VAC"), ("l6(4)A 250V~", "16(4)A 250V~")],
)
def test_a_look_alike_is_offered_and_not_applied(damaged: str, repaired: str) -> None:
    """O for 0 and l for 1: the confusable classes of the search study."""
    reading = switch.read(damaged)

    assert reading.unread
    assert repaired in [candidate.text for candidate in reading.candidates]


def test_figures_inside_an_unknown_code_are_never_ratings() -> None:
    """KW3A is no 3 A and VP-532A-OF no 532 A."""
    assert switch.read("KW3A-1ZSW0B-E075A-08").ratings == {"type": "KW3A-1ZSW0B-E075A-08"}
    assert "resistive_a" not in switch.read("SZM V 16 VP-532A-OF").ratings


def test_a_suffix_the_legend_does_not_know_stays_unread() -> None:
    """An unexplained tail is told, never dropped."""
    reading = switch.read("SS-10-3T-XY")

    assert [piece.text for piece in reading.unread] == ["-XY"]
    assert "does not explain" in reading.warnings[0]


def test_a_label_names_the_position_and_its_alternates() -> None:
    """Oven label for the monitor position, with the space inside a code told."""
    reading = switch.read("TYPE NO.SZM-V 16-FA-62 OR VP-532A-OF FOR MONITOR SWITCH")

    assert reading.ratings == {"role": "monitor", "types": ["SZM-V16-FA-62", "VP-532A-OF"]}
    assert reading.warnings


def test_a_listed_interlock_type_tells_its_position_and_its_neighbour() -> None:
    """63 and 62 differ by one character and serve opposite positions (LG oven label)."""
    reading = switch.read("SZM-V16-FA-62")

    assert reading.ratings == {"type": "SZM-V16-FA-62"}
    assert "monitor" in reading.warnings[0]
    assert "SZM-V16-FA-63" in reading.warnings[0]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        # basic switches list volts with words and amperes as fractions: common practice
        (
            "15A 125, 250 or 480 VAC 1/8HP 125VAC 1/4HP 250VAC 1/2A 125VDC 1/4A 250VDC",
            {
                "ratings": [
                    {"resistive_a": 15, "volts_ac": [125, 250, 480]},
                    {"dc_a": 0.5, "volts_dc": [125]},
                    {"dc_a": 0.25, "volts_dc": [250]},
                ],
                "hp": [{"hp": 0.125, "volts": 125}, {"hp": 0.25, "volts": 250}],
            },
        ),
        (
            "15A-1/2HP-125-250VAC",
            {
                "resistive_a": 15,
                "volts_ac": [125, 250],
                "hp": [{"hp": 0.5, "volts": 125}, {"hp": 0.5, "volts": 250}],
            },
        ),
        (
            "125VAC 1/4HP 250VAC 1/2HP",
            {"hp": [{"hp": 0.25, "volts": 125}, {"hp": 0.5, "volts": 250}]},
        ),
        (
            "16(4)A250V~T85µ5E4",
            {
                "resistive_a": 16,
                "motor_a": 4,
                "volts_ac": [250],
                "ambient_min_c": 0,
                "ambient_max_c": 85,
                "disconnection": "micro",
                "endurance_cycles": 50_000,
            },
        ),
        (
            "AC 250V/3A DC 30V/3A",
            {"resistive_a": 3, "volts_ac": [250], "dc_a": 3, "volts_dc": [30]},
        ),
        ("1,5(0,5)A 250V~", {"resistive_a": 1.5, "motor_a": 0.5, "volts_ac": [250]}),
    ],
)
def test_printing_habits_are_read(text: str, expected: dict[str, object]) -> None:
    """Order, glue and separators as they are met on parts. Common practice."""
    assert switch.read(text).ratings == expected


def test_a_lost_minus_at_the_lower_ambient_is_offered() -> None:
    """No switch is limited to +25 °C downwards; makers print 0 to -60 °C."""
    reading = switch.read("25 to 85°C")

    assert reading.ratings["ambient_min_c"] == 25
    assert reading.candidates[0].text == "-25 to 85°C"


def test_a_printed_rating_is_not_mixed_with_the_codes_own() -> None:
    """15 A at 250 V by the code and 10 A at 125 V by print are two ratings."""
    reading = switch.read("V-15-1C5 10A 125VAC")

    assert reading.ratings["ratings"] == [
        {"maker_rating_a": 15, "volts_ac": [250]},
        {"resistive_a": 10, "volts_ac": [125]},
    ]


def test_fahrenheit_beside_celsius_is_checked() -> None:
    """NTE: -13 °F to +176 °F (-25 °C to +80 °C) agree; a lost sign does not."""
    agreeing = switch.read("-13°F to +176°F (-25°C to +80°C)")
    damaged = switch.read("13°F to +176°F (-25°C to +80°C)")

    assert agreeing.ratings == {"ambient_min_c": -25, "ambient_max_c": 80}
    assert not agreeing.warnings
    assert "minus sign lost" in damaged.warnings[0]


@pytest.mark.parametrize("code", ["NF-5V0", "NF-15V3", "KC-10V3"])
def test_letters_of_a_mark_at_the_head_of_a_code_are_no_approval(code: str) -> None:
    """An invented NF-5V0 is a type code: no approval, and no 5 V."""
    ratings = switch.read(f"{code} 5A 125/250VAC").ratings

    assert ratings == {"type": code, "resistive_a": 5, "volts_ac": [125, 250]}


def test_a_mark_of_approval_before_a_rating_is_one() -> None:
    """A mark by itself is one."""
    assert switch.read("UL 5A 250VAC").ratings["approvals"] == ["UL"]
    assert switch.read("NF 5A 250VAC").ratings["approvals"] == ["NF"]
