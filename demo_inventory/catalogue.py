"""The invented part types of the demo shop: invented makers, codes of our own making.

Markings are written in the forms the standards print; every code, maker and price is made up.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

MICRO = {"body": "miniature", "hole_pitch_mm": [22.2, 10.3], "tab_mm": 6.3, "tab_thick": 0.8}
"""The miniature snap-switch body. Source of the sizes: NSN 5930-00-588-9880."""


@dataclass(frozen=True, slots=True)
class Spec:
    """One part type of the demo: what it is, how often it is needed, how well it salvages."""

    family: str
    maker: str
    type_code: str
    marking: str
    price: int  # cents
    need: float  # requests a month
    shelf: str  # bins start with this
    good: float = 0.75  # share of salvaged pieces that test good
    fails: float = 0.004  # failures a month once fitted
    ratings: dict[str, Any] = field(default_factory=dict)


def catalogue() -> list[Spec]:
    """All part types, in a fixed order."""
    return [*_switches(), *_interlocks(), *_power(), *_heat(), *_fuses(), *_motors(), *_rest()]


def _switches() -> Iterator[Spec]:
    """Micro switches of two makers."""
    for amps, motor, heat in ((5, 3, 85), (10, 3, 85), (16, 4, 85), (16, 4, 125), (21, 8, 105)):
        for number, form in ((1, "SPDT"), (2, "SPST-NC"), (3, "SPST-NO")):
            for suffix, actuator in (("P", "pin plunger"), ("L", "hinge lever")):
                code = f"KST-{amps}{suffix}{heat // 5}{number}"
                marking = f"{code} {amps}({motor})A 250V~ μT{heat} 5E4"
                extra = MICRO | {"contact_form": form, "actuator": actuator}
                need = {16: 0.5, 10: 0.3}.get(amps, 0.12) * (1.4 if suffix == "P" else 0.5)
                yield Spec(
                    "switch", "Kestwin", code, marking, 240 + amps * 12, need, "A1", ratings=extra
                )
    for amps, horse in ((5, "1/4"), (10, "1/2"), (15, "1/2")):
        for form, digit in (("SPDT", 0), ("SPST-NC", 2), ("SPST-NO", 3)):
            code = f"NF-{amps}V{digit}"
            marking = f"{code} {amps}A 125/250VAC {horse}HP"
            extra = MICRO | {"contact_form": form, "actuator": "pin plunger"}
            yield Spec("switch", "Norrafel", code, marking, 310, 0.15, "A1", ratings=extra)


def _interlocks() -> Iterator[Spec]:
    """Door-interlock switches; NO and NC differ by one sign."""
    for maker, stem in (("Norrafel", "NFD"), ("Kestwin", "KSD"), ("Pellworth", "PW")):
        for amps in (10, 16):
            for form, digit in (("SPST-NO", 63), ("SPST-NC", 62)):
                code = f"{stem}-V{amps}-{digit}"
                marking = f"{code} {amps}(4)A 250V~ T105 1E5"
                extra = MICRO | {"contact_form": form, "actuator": "pin plunger"}
                yield Spec(
                    "interlock_switch", maker, code, marking, 980, 0.9 if amps == 16 else 0.2,
                    "A2", good=0.62, ratings=extra,
                )  # fmt: skip


def _power() -> Iterator[Spec]:
    """High-voltage parts and relays."""
    for hundredths in (70, 75, 80, 86, 90, 95, 100, 105, 110, 114):
        text = f"{hundredths / 100:.2f}"
        yield Spec("hv_capacitor", "Rondal", f"RC21-{hundredths:03d}",
                   f"RC21-{hundredths:03d} {text}µF 2100V~ 50/60Hz", 1450, 0.15, "C2", good=0.85,
                   ratings={"bleeder": True, "no_pcbs": True})  # fmt: skip
    for kilovolts, milliamps in ((9, 350), (12, 350), (12, 500), (14, 500)):
        code = f"RD{kilovolts:02d}-{milliamps // 10}"
        yield Spec("hv_diode", "Rondal", code, f"{code} {kilovolts}kV {milliamps}mA", 390, 0.35,
                   "C3", good=0.7)  # fmt: skip
    for number in range(1, 9):
        code = f"OM-M{20 + number}A"
        yield Spec("magnetron", "Omvari", code, code, 6900, 0.3, "C1", good=0.55, fails=0.01)
    for volts in (5, 12, 24):
        for amps in (5, 10, 16):
            code = f"OMR-{volts:02d}-{amps}"
            yield Spec("relay", "Omvari", code, f"{code} {amps}A 250VAC coil {volts}VDC", 420, 0.12,
                       "B1", ratings={"coil_vdc": volts, "contact_form": "SPST-NO"})  # fmt: skip


def _heat() -> Iterator[Spec]:
    """Thermal cut-outs and links."""
    for celsius in range(60, 170, 5):
        code = f"FT-N{celsius}"
        need = 0.4 if celsius in (85, 125, 145) else 0.06
        yield Spec("thermal_cutout", "Feltrax", code, f"{code} {celsius}°C 250V 10A", 330, need,
                   "B2", ratings={"contact": "NC", "reset": "auto"})  # fmt: skip
    for celsius in (77, 99, 121, 142, 167, 184, 192, 216, 228, 240):
        code = f"FL{celsius}"
        yield Spec(
            "thermal_link", "Feltrax", code, f"{code} Tf {celsius}°C 10A 250V", 110, 0.2, "B3"
        )


def _fuses() -> Iterator[Spec]:
    """Cartridge fuses of both sizes and oven high-voltage fuses."""
    for speed in ("T", "F"):
        for amps in ("1", "2", "3.15", "5", "6.3", "8", "10", "12.5"):
            for letter in ("L", "H"):
                code = f"FX{speed}{letter}-{amps}"
                need = 0.8 if (speed, letter, amps) == ("T", "H", "10") else 0.1
                yield Spec(
                    "fuse", "Feltrax", code, f"{speed}{amps}A{letter}250V 5x20mm", 60, need, "B4"
                )
    for milliamps in (600, 650, 700, 750, 800, 900):
        yield Spec("hv_fuse", "Feltrax", f"FHV-{milliamps}", f"{milliamps}mA5KV", 280, 0.15, "B5")


def _motors() -> Iterator[Spec]:
    """Turntable and fan motors; one of them wears out early."""
    for number, volts in enumerate(("AC220-240V", "AC21V", "AC120V", "AC30V")):
        for maker, stem in (("Dursten", "DT"), ("Omvari", "OT")):
            code = f"{stem}50-{number + 1}"
            early = 0.3 if code == "DT50-1" else 0.004
            need = (4.5 if stem == "DT" else 11) if number == 0 else 0.3
            marking = f"{code} {volts} 50/60Hz 2.5/3RPM 3W"
            yield Spec("motor_turntable", maker, code, marking, 890, need, "D1", fails=early)
    for watts in (14, 18, 22, 30, 35):
        code = f"DF-{watts}"
        yield Spec(
            "motor_fan", "Dursten", code, f"{code} 230V 50Hz {watts}W 2200rpm", 1250, 0.15, "D2"
        )


def _rest() -> Iterator[Spec]:
    """Screws, and everything that comes in a plain list of markings."""
    for length in ('1/4"', '3/8"', '1/2"'):
        marking = f"#8-32 x {length} pan cross H2"
        yield Spec("screw", "Grennock", marking, marking, 6, 0.4, "F1", good=0.95)
    for thread, lengths in (("M3", (5, 6, 8, 10)), ("M4", (6, 8, 10, 12)), ("M5", (8, 10, 16)),
                            ("ST4.2", (9.5, 13)), ("ST3.5", (9.5, 13))):  # fmt: skip
        for length in lengths:
            for drive in ("cross H2", "hexalobular 20", "security hexalobular 20"):
                code = f"{thread}x{length} {drive}"
                marking = f"{thread}x{length} pan {drive}"
                yield Spec("screw", "Grennock", code, marking, 8, 0.4, "F1", good=0.95)
    for family, maker, stem, price, need, shelf, good, markings in PLAIN:
        for number, marking in enumerate(markings, start=1):
            code = f"{stem}-{number:02d}"
            yield Spec(family, maker, code, marking, price, need, shelf, good)


PLAIN: tuple[tuple[str, str, str, int, float, str, float, tuple[str, ...]], ...] = (
    ("lamp", "Lumbrick", "LU", 260, 0.3, "D3", 0.75, tuple(
        f"230V {watts}W {base} 300°C" for watts in (15, 20, 25, 40)
        for base in ("E14", "E17", "BA15d"))),
    ("capacitor_safety", "Rondal", "RX", 90, 0.08, "E1", 0.75, tuple(
        f"X2 {nano}nF K 275V~ 40/100/21" for nano in (10, 22, 47, 100, 220, 330, 470, 680))),
    ("mov", "Rondal", "RV", 70, 0.05, "E2", 0.75,
     ("7D471K", "10D471K", "14D471K", "14D561K", "20D471K", "10D391K")),
    ("resistor", "Rondal", "RR", 40, 0.06, "E3", 0.9,
     ("0.8Ω 20W", "4R7 5W", "10R 5W", "47K 0.5W", "100R 2W", "1K5 1W")),
    ("bearing", "Grennock", "GB", 380, 0.08, "F2", 0.6,
     ("608ZZ", "6000-2RS", "6200-2RS", "6201-2RS", "6202-2RS", "6203-2RS/C3", "6204-ZZ")),
    ("belt", "Grennock", "GV", 990, 0.1, "F3", 0.5,
     ("5PJ1270", "6PJ1192", "4PHE1975", "6PK1200", "7PJ1956")),
    ("terminal", "Grennock", "GT", 12, 0.5, "F4", 0.98,
     ("2.8x0.5", "4.8x0.5", "4.8x0.8", "6.3x0.8")),
    ("cord", "Grennock", "GC", 640, 0.12, "F5", 0.8,
     ("H05VV-F 3G0.75", "H05VV-F 3G1.0", "H05VV-F 3G1.5", "H03VVH2-F 2X0.75")),
    ("tray", "Halvord", "HT", 1400, 0.15, "G1", 0.8, tuple(
        f"glass tray {size} mm" for size in (245, 255, 270, 284, 315, 345))),
    ("roller", "Halvord", "HR", 700, 0.1, "G1", 0.8, tuple(
        f"roller ring {size} mm" for size in (180, 203, 220))),
    ("ntc", "Rondal", "RN", 120, 0.05, "E4", 0.85,
     ("MF52 103F3950", "MF52 503F3950", "MF52 104F3950")),
    ("triac", "Omvari", "OTA", 160, 0.05, "E5", 0.8, ("BTA16-600B", "BTA12-800B", "BTA08-600C")),
    ("capacitor", "Rondal", "RE", 45, 0.2, "E6", 0.7,
     ("470µF 25V 105°C", "1000µF 16V 105°C", "2200µF 25V 105°C", "10µF 400V 105°C")),
    ("inverter_board", "Omvari", "OMI", 8800, 0.08, "C4", 0.5, tuple(
        f"OMI-{number}00-A" for number in range(1, 7))),
)  # fmt: skip
"""Families whose part types are a list: family, maker, code stem, cents, requests a month,
shelf, share that tests good, markings."""
