"""Type codes of snap switches with a published legend."""

from __future__ import annotations

import re

from inventory.markings.contacts_codes import Legend, Part, kinds, saying, table

_SS = "Omron SS data sheet, model number legend"
_V = "Omron V data sheet, model number legend"
_D3V = "Omron D3V data sheet, model number legend"
_VX = "Omron VX data sheet, model number legend"
_D2SW = "Omron D2SW data sheet, model number legend"
_AM5 = "Panasonic AM5 (QV) data sheet, ordering information"
_K = "Cherry K series data sheet, ordering information"
_D4 = "Cherry D4 data sheet (Sensata), part number breakdown"
_END = r"(?![0-9A-Za-z])"

SIX_LEVERS = saying(
    "actuator",
    none="pin plunger",
    _0="pin plunger",
    _1="short hinge lever",
    _2="hinge lever",
    _3="long hinge lever",
    _4="simulated roller lever",
    _5="short hinge roller lever",
    _6="hinge roller lever",
)
"""Actuator digits of the miniature bodies. Source: Omron V and D3V, Panasonic AM5."""

_SIX_FORMS = table(
    _1=({"contact_form": "SPDT", "com_tab": "bottom"}, "SPDT, common terminal at the bottom"),
    _2=({"contact_form": "SPST-NC", "com_tab": "bottom"}, "SPST-NC, common at the bottom"),
    _3=({"contact_form": "SPST-NO", "com_tab": "bottom"}, "SPST-NO, common at the bottom"),
    _4=({"contact_form": "SPDT", "com_tab": "side"}, "SPDT, common terminal at the side"),
    _5=({"contact_form": "SPST-NC", "com_tab": "side"}, "SPST-NC, common at the side"),
    _6=({"contact_form": "SPST-NO", "com_tab": "side"}, "SPST-NO, common at the side"),
)
_THREE_FORMS = saying("contact_form", none="SPDT", _1="SPDT", _2="SPST-NC", _3="SPST-NO")
_GAP = kinds("contact_gap_mm", none=(1, "contact gap 1 mm"), G=(0.5, "contact gap 0.5 mm"))
_HOLE = kinds("hole_mm", none=(3.1, "mounting hole 3.1 mm"), K=(2.9, "mounting hole 2.9 mm"))
_TERMINALS = kinds(
    "terminal",
    A=("solder", "solder terminals"),
    C2=("qc-4.8", "quick-connect terminals 4.8 mm"),
    C=("qc-6.3", "quick-connect terminals 6.3 mm"),
    B=("screw", "screw terminals"),
    E=("solder", "short solder terminals"),
)
_FORCE = saying("operating_force_n", _7=3.92, _6=3.92, _5=1.96, _4A=1.23, _4=0.98, _3=0.49, _2=0.25)


def _ac(amps: float, volts: int) -> Part:
    """A maker's rating in the code: amperes at an a.c. voltage."""
    return {"maker_rating_a": amps, "volts_ac": [volts]}, f"{amps} A at {volts} V a.c."


def _dc(amps: float, volts: int) -> Part:
    """A maker's rating in the code: amperes at a d.c. voltage."""
    return {"maker_rating_a": amps, "volts_dc": [volts]}, f"{amps} A at {volts} V d.c."


SS = Legend(
    "SS",
    re.compile(
        r"SS-(?P<rating>10|5|01)(?P<actuator>GL111|GL13|GL02|GL2|GL)?(?P<force>-[FE])?"
        rf"(?:-(?P<form>[23]))?(?P<terminal>D[12]?|T)?(?P<heat>-T)?{_END}"
    ),
    {
        "rating": table(_10=_ac(10.1, 250), _5=_ac(5, 125), _01=_dc(0.1, 30)),
        "actuator": saying(
            "actuator",
            none="pin plunger",
            GL="hinge lever",
            GL111="long hinge lever",
            GL13="simulated roller lever",
            GL2="hinge roller lever",
            GL02="hinge roller lever",
        ),
        "force": {
            "": ({}, ""),
            "-F": ({"operating_force_n": 0.49}, "pin plunger force at most 0.49 N"),
            "-E": ({"operating_force_n": 0.25}, "pin plunger force at most 0.25 N"),
        },
        "form": _THREE_FORMS,
        "terminal": table(
            none=({"terminal": "solder"}, "solder terminals"),
            T=({"terminal": "qc-2.8"}, "quick-connect terminals 2.8 mm (#110)"),
            D=({"terminal": "pcb"}, "printed-circuit terminals"),
            D1=({"terminal": "pcb"}, "printed-circuit terminals, angled left"),
            D2=({"terminal": "pcb"}, "printed-circuit terminals, angled right"),
        ),
        "heat": {"": ({}, ""), "-T": ({"ambient_max_c": 120}, "heat-resistant, 120 °C")},
    },
    _SS,
)

V = Legend(
    "V",
    re.compile(
        r"V-(?P<rating>21|16|15|11|10)(?P<gap>G)?(?P<actuator>[1-6])?-(?P<form>[1-6])"
        rf"(?P<terminal>A|C2|C|B|E)(?P<barrier>[RL])?(?P<force>[4-6])(?P<heat>-T)?(?:-(?P<hole>K))?{_END}"
    ),
    {
        "rating": table(
            _21=_ac(21, 250), _16=_ac(16, 250), _15=_ac(15, 250), _11=_ac(11, 250), _10=_ac(10, 250)
        ),
        "gap": _GAP,
        "actuator": SIX_LEVERS,
        "form": _SIX_FORMS,
        "terminal": _TERMINALS,
        "barrier": table(
            none=({}, ""),
            R=({"barrier": "right"}, "insulation barrier on the right"),
            L=({"barrier": "left"}, "insulation barrier on the left"),
        ),
        "force": _FORCE,
        "heat": {"": ({}, ""), "-T": ({"ambient_max_c": 150}, "heat-resistant, 150 °C")},
        "hole": _HOLE,
    },
    _V,
)

D3V = Legend(
    "D3V",
    re.compile(
        r"D3V-(?P<rating>21|16|11|6|01)(?P<gap>G)?(?P<actuator>[1-6])?(?P<hinge>[MK])?"
        r"-(?P<form>[1-3])(?P<terminal>A|C2|C6|C)(?P<force>5|4A|4|3|2)(?:-(?P<case>T|W2)(?![0-9]))?"
        rf"(?:-?(?P<hole>K))?(?:-?(?P<special>[HE]))?{_END}"
    ),
    {
        "rating": table(
            _21=(_ac(20, 250)[0] | {"motor_a": 4}, "20 (4) A at 250 V a.c."),
            _16=(_ac(16, 250)[0] | {"motor_a": 3}, "16 (3) A at 250 V a.c."),
            _11=(_ac(11, 250)[0] | {"motor_a": 3}, "11 (3) A at 250 V a.c."),
            _6=(_ac(6, 250)[0] | {"motor_a": 2}, "6 (2) A at 250 V a.c."),
            _01=_ac(0.1, 125),
        ),
        "gap": _GAP,
        "actuator": SIX_LEVERS,
        "hinge": table(
            none=({}, ""),
            M=({"pivot": "far from the plunger"}, "external lever, hinge far from the plunger"),
            K=({"pivot": "near the plunger"}, "external lever, hinge near the plunger"),
        ),
        "form": _THREE_FORMS,
        "terminal": _TERMINALS
        | {
            "A": ({"terminal": "qc-4.8"}, "4.8 mm tabs, or solder"),
            "C6": ({"terminal": "qc-6.3"}, "6.3 mm tabs for RAST 5 housings"),
        },
        "force": _FORCE,
        "case": table(
            none=({}, ""),
            T=({}, "high-temperature case: 200 °C at 6 and 0.1 A, 155 °C at 11 A"),
            W2=({"pti": 250}, "glow-wire case EN 60695-2-11/-12, PTI 250"),
        ),
        "hole": _HOLE,
        "special": table(
            none=({}, ""),
            H=({"ambient_max_c": 125}, "high temperature, 125 °C"),
            E=({}, "special rating 21 (8) A"),
        ),
    },
    _D3V,
)

VX = Legend(
    "VX",
    re.compile(
        rf"VX-(?P<rating>5|01)(?P<actuator>[1-6])?-(?P<form>[1-3])(?P<terminal>A|C2)(?P<force>[23]){_END}"
    ),
    {
        "rating": table(_5=_ac(5, 250), _01=_dc(0.1, 30)),
        "actuator": SIX_LEVERS,
        "form": _THREE_FORMS,
        "terminal": _TERMINALS,
        "force": _FORCE,
    },
    _VX,
)

D2SW = Legend(
    "D2SW",
    re.compile(
        r"D2SW-(?P<rating>P2|P01|3|01)(?P<actuator>L[123])?(?:-(?P<form>[23]))?"
        rf"(?P<terminal>[HDTMB])(?P<approved>S)?(?P<lead>-0)?{_END}"
    ),
    {
        "rating": table(_3=_ac(3, 125), _01=_dc(0.1, 30), P2=_ac(2, 250), P01=_dc(0.1, 30)),
        "actuator": saying(
            "actuator",
            none="pin plunger",
            L1="hinge lever",
            L2="hinge roller lever",
            L3="simulated roller lever",
        ),
        "form": _THREE_FORMS,
        "terminal": table(
            H=({"terminal": "solder"}, "solder terminals"),
            D=({"terminal": "pcb"}, "printed-circuit terminals"),
            B=({"terminal": "pcb"}, "printed-circuit terminals, even pitch"),
            T=({"terminal": "qc-2.8"}, "quick-connect terminals 2.8 mm (#110)"),
            M=({"terminal": "leads"}, "moulded lead wires"),
        ),
        "approved": table(none=({}, ""), S=({}, "UL and CSA approved version")),
        "lead": {"": ({}, ""), "-0": ({}, "leads 1000 mm long")},
    },
    _D2SW,
    {"ip": "IP67"},
)

AM5 = Legend(
    "AM5",
    re.compile(
        r"AM5(?P<rating>00|06|11|16|21)(?P<form>[1-6])(?P<actuator>[0-6])(?P<terminal>[ACD])"
        rf"(?P<force>[1-7])(?P<guard>[RL])?(?P<approval>31|3|4|8|9)?(?P<revision>N?(?:-A)?){_END}"
    ),
    {
        "rating": kinds(
            "maker_rating_a",
            _00=(0.1, "0.1 A, gold"),
            _06=(6, "6 A"),
            _11=(11, "11 A"),
            _16=(16, "16 A"),
            _21=(21, "21 A"),
        ),
        "form": _SIX_FORMS,
        "actuator": SIX_LEVERS,
        "terminal": kinds(
            "terminal",
            A=("qc-4.8", "4.8 mm tab or solder"),
            C=("qc-4.8", "4.8 mm tab"),
            D=("qc-6.3", "6.3 mm tab"),
        ),
        "force": saying(
            "operating_force_n", _1=0.15, _2=0.25, _3=0.49, _4=0.98, _5=1.96, _6=2.94, _7=3.92
        ),
        "guard": table(
            none=({}, ""),
            R=({"barrier": "right"}, "guard on the right"),
            L=({"barrier": "left"}, "guard on the left"),
        ),
        "approval": table(
            none=({}, ""),
            _9=({"endurance_cycles": 6000}, "UL and CSA, 6 000 operations"),
            _4=({"endurance_cycles": 100_000}, "UL and CSA, 100 000 operations"),
            _3=({"endurance_cycles": 6000}, "UL and CSA 6 000 operations, VDE and SEMKO"),
            _31=({"endurance_cycles": 100_000}, "UL and CSA 100 000, VDE and SEMKO"),
            _8=({}, "VDE and SEMKO"),
        ),
        "revision": table(none=({}, ""), N=({}, "revision"), **{"N-A": ({}, "revision")}),
    },
    _AM5,
)

_K_FORCE_CN = {"A": 25, "B": 75, "C": 25, "D": 75, "E": 25, "F": 75, "G": 50, "H": 150}
_K_AMPS = {"C": 1, "D": 1, "E": 3, "F": 3, "G": 5, "H": 5, "J": 10, "K": 10, "L": 15, "M": 15}


def _k_series(letter: str) -> Part:
    """Force and current letter of the Cherry K series."""
    if letter in "AB":
        return {"maker_rating_a": 0.05}, "50 mA"
    amps = 25 if letter == "S" else _K_AMPS[letter]
    return {"maker_rating_a": amps}, f"{amps} A"


K = Legend(
    "KW",
    re.compile(
        r"KW(?P<series>[A-HJ-MS])(?P<heat>[A-E])(?P<terminal>[P-TVW])(?P<hole>[AB])(?P<form>[ABC])"
        rf"(?P<actuator>[A-GJMQTWY]){_END}"
    ),
    {
        "series": _k_series,
        "heat": saying("ambient_max_c", A=85, B=150, C=200, D=85, E=150),
        "terminal": table(
            P=({"terminal": "pcb"}, "printed-circuit terminals"),
            Q=({"terminal": "qc-4.8", "tab_thick": 0.5}, "4.8 x 0.5 mm tabs, straight"),
            R=({"terminal": "qc-4.8", "tab_thick": 0.5}, "4.8 x 0.5 mm tabs, dog leg"),
            S=({"terminal": "qc-4.8", "tab_thick": 0.8}, "4.8 x 0.8 mm tabs, straight"),
            T=({"terminal": "qc-4.8", "tab_thick": 0.8}, "4.8 x 0.8 mm tabs, dog leg"),
            V=({"terminal": "qc-6.3", "tab_thick": 0.8}, "6.3 x 0.8 mm tabs, straight"),
            W=({"terminal": "qc-6.3", "tab_thick": 0.8}, "6.3 x 0.8 mm tabs, dog leg"),
        ),
        "hole": kinds("hole_mm", A=(2.9, "U.S. holes"), B=(3.1, "metric holes")),
        "form": saying("contact_form", A="SPST-NO", B="SPST-NC", C="SPDT"),
        "actuator": {
            "A": ({"actuator": "pin plunger"}, "button"),
            **{
                letter: ({"actuator": "hinge lever"}, "straight lever, length by letter")
                for letter in "BCDEFG"
            },
            **{
                letter: ({"actuator": "simulated roller lever"}, "simulated roller lever")
                for letter in "JM"
            },
            **{
                letter: ({"actuator": "hinge roller lever"}, "roller lever, length by letter")
                for letter in "YQWT"
            },
        },
    },
    _K,
)

_D4_AMPS = saying("maker_rating_a", _1=0.1, _2=3, _3=5, _4=10, _5=15, _8=21)
D4 = Legend(
    "D4",
    re.compile(
        rf"D4(?P<rating>[123458])(?P<form>[123789GHMNPRSTU])-(?P<terminal>[A-Z][0-9])(?P<actuator>[A-Z]{{2}})"
        rf"(?P<revision>-G2)?{_END}"
    ),
    {
        "rating": _D4_AMPS,
        "form": {
            **{
                letter: ({"contact_form": form}, form)
                for letters, form in (
                    ("17GNS", "SPST-NO"),
                    ("28HPT", "SPST-NC"),
                    ("39MRU", "SPDT"),
                )
                for letter in letters
            }
        },
        "terminal": {
            "A1": ({"terminal": "weld"}, "welding terminals"),
            "B8": ({"terminal": "solder"}, "short solder terminals"),
            "C1": ({"terminal": "qc-2.8", "tab_thick": 0.8}, "2.8 x 0.8 mm tabs"),
            "Q3": ({"terminal": "qc-4.8", "tab_thick": 0.8}, "4.8 x 0.8 mm tabs, dog leg"),
            "R1": ({"terminal": "qc-4.8", "tab_thick": 0.5}, "4.8 x 0.5 mm tabs, straight"),
        },
        "actuator": lambda text: ({}, f"actuator {text}, not explained in the part seen"),
        "revision": {"": ({}, ""), "-G2": ({}, "generation")},
    },
    _D4,
)
D4_OLD = Legend(
    "D4",
    re.compile(r"D4(?P<rating>[123458])(?P<force>[XY])?(?P<rest>[CL]R1[A-Z]{2})?(?![0-9A-Za-z-])"),
    {
        "rating": _D4_AMPS,
        "force": table(none=({}, ""), X=({}, "light force"), Y=({}, "standard force")),
        "rest": lambda text: ({}, f"{text}: not explained in the part of the legend seen"),
    },
    "Cherry D4 data sheet, UL 1054 ratings by series",
)

LEGENDS = (SS, V, D3V, VX, D2SW, AM5, K, D4, D4_OLD)
"""Switch legends in the order they are tried."""
