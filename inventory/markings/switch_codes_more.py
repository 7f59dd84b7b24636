"""Type codes of door-interlock and subminiature switches with a published legend."""

from __future__ import annotations

import re

from inventory.markings.contacts_codes import Legend, Part, kinds, saying, table

_D2D = "Omron D2D data sheet, model number legend (dtsheet.com/doc/684282 and 1565494)"
_AV1 = "maker-P AV1 (GW) data sheet, ordering information (xonelec av16653f)"
_SSP = "Omron SS-P data sheet, model number legend (dtsheet.com/doc/383330)"
_DB = "Cherry DB data sheet, part number breakdown (pdf.elecfans.com 7230405)"
_END = r"(?![0-9A-Za-z])"


def _rated(amps: float, volts: int, gap: float) -> Part:
    """A maker's rating at an a.c. voltage, with the contact gap of the construction."""
    ratings = {"maker_rating_a": amps, "volts_ac": [volts], "contact_gap_mm": gap}
    return ratings, f"{amps} A at {volts} V a.c., contact gap {gap} mm"


D2D = Legend(
    "D2D",
    re.compile(rf"D2D-(?P<body>[123])(?P<mount>[01])(?P<form>0[0-4]){_END}"),
    {
        "body": table(_1=_rated(16, 250, 3), _2=_rated(10, 250, 1), _3=_rated(16, 250, 3)),
        "mount": kinds("mount", _0=("screw", "screw mounting"), _1=("panel", "snaps into a panel")),
        "form": saying(
            "contact_form",
            _00="SPST-NO+SPST-NC",
            _01="SPST-NO",
            _02="SPST-NC",
            _03="DPST-NO+SPST-NC",
            _04="DPST-NO",
        ),
    },
    _D2D,
    {"actuator": "pin plunger"},
)
"""Ratings are the sheet's resistive ones: 16 A, and 10 A for the pull-on lock type 2."""

AV1 = Legend(
    "AV1",
    re.compile(rf"AV1(?P<form>[1-6])(?P<mount>[678])(?P<five>5)(?P<approval>3)(?P<free>F)?{_END}"),
    {
        "form": table(
            _1=({"contact_form": "3PST-NO", "contact_gap_mm": 8}, "3 form A, gap 8 mm"),
            _2=({"contact_form": "DPST-NO", "contact_gap_mm": 8}, "2 form A, gap 8 mm"),
            _3=({"contact_form": "DPST-NO", "contact_gap_mm": 6}, "2 form A, gap 6 mm"),
            _4=({"contact_form": "SPST-NO+SPST-NC"}, "1 form A and 1 form B, gap below 3 mm"),
            _5=({"contact_form": "SPST-NC", "contact_gap_mm": 3}, "1 form B, gap 3 mm"),
            _6=({"contact_form": "SPST-NO", "contact_gap_mm": 6}, "1 form A, gap 6 mm"),
        ),
        "mount": kinds(
            "mount",
            _6=("screw", "screw mounting"),
            _7=("panel", "snaps into a panel"),
            _8=("panel", "snaps into a panel, with button guard"),
        ),
        "five": table(_5=({}, "fixed figure of the code")),
        "approval": table(_3=({}, "approval group of the sheet")),
        "free": table(none=({}, ""), F=({}, "cadmium-free contacts")),
    },
    _AV1,
    {"maker_rating_a": 10.1, "volts_ac": [250], "terminal": "qc-6.3", "actuator": "pin plunger"},
)

SSP = Legend(
    "SS",
    re.compile(
        rf"SS-(?P<rating>3|01)(?P<gap>G)(?P<actuator>L13|L)?(?P<p>P)(?P<terminal>[TDB])?{_END}"
    ),
    {
        "rating": table(
            _3=({"maker_rating_a": 3, "volts_ac": [125]}, "3 A at 125 V a.c."),
            _01=({"maker_rating_a": 0.1, "volts_dc": [30]}, "0.1 A at 30 V d.c."),
        ),
        "gap": table(G=({"contact_gap_mm": 0.5}, "contact gap 0.5 mm")),
        "actuator": saying(
            "actuator", none="pin plunger", L="hinge lever", L13="simulated roller lever"
        ),
        "p": table(P=({}, "simplified series")),
        "terminal": table(
            none=({"terminal": "solder"}, "solder terminals"),
            T=({"terminal": "qc-2.8"}, "quick-connect terminals 2.8 mm (#110)"),
            D=({"terminal": "pcb"}, "printed-circuit terminals, uneven pitch"),
            B=({"terminal": "pcb"}, "printed-circuit terminals, even pitch"),
        ),
    },
    _SSP,
    {"contact_form": "SPDT"},
)

_DB_FORMS = {
    "A": "SPST-NO",
    "B": "SPST-NC",
    "C": "SPDT",
    "E": "SPST-NO",
    "F": "SPST-NC",
    "G": "SPDT",
}
_PCB = "printed-circuit terminals"


def _db_form(letter: str) -> Part:
    """Contact letter of the DB series; R stands in an older sheet without its meaning."""
    form = _DB_FORMS.get(letter)
    if form is None:
        return {}, "contact letter the legend seen does not explain"
    hot = {} if letter in "ABC" else {"ambient_max_c": 85}
    return {"contact_form": form} | hot, form + (", 85 °C" if hot else "")


DB = Legend(
    "DB",
    re.compile(
        rf"DB(?P<rating>[123567])(?P<form>[ABCEFGR])-?(?P<terminal>[A-D][1-5])(?P<actuator>[A-Z]{{2}}){_END}"
    ),
    {
        "rating": saying("maker_rating_a", _1=5, _2=10.1, _3=0.1, _5=1, _6=5, _7=10.1),
        "form": _db_form,
        "terminal": {
            "A1": ({"terminal": "solder"}, "short solder terminals"),
            "B1": ({"terminal": "qc-2.8", "tab_thick": 0.5}, "2.8 x 0.5 mm tabs"),
            **{code: ({"terminal": "pcb"}, _PCB) for code in ("C1", "D1", "D2", "D3", "D4", "D5")},
        },
        "actuator": {
            "AA": ({"actuator": "pin plunger"}, "round plunger, no lever"),
            "BA": ({"actuator": "pin plunger"}, "radiused plunger, no lever"),
        },
    },
    _DB,
)

MORE = (D2D, AV1, SSP, DB)
"""Legends tried behind those of the miniature bodies."""
