"""Bench tests that hang on a formula or a table: fuses, cut-outs, sensors, diodes, lamps, cords."""

from __future__ import annotations

import math
from collections.abc import Iterable

from inventory.rules.compare import numbers
from inventory.rules.limits import in_words
from inventory.rules.meter import Bench, Check, bad, fine, lacking, show_reading
from inventory.rules.words import flag

# fuses ---------------------------------------------------------------------------

DROP_MV = ((1.0, 250.0), (2.0, 190.0), (3.15, 140.0), (5.0, 100.0), (10.0, 100.0), (16.0, 70.0))
"""Largest drop [mV] at the rated current [A] of T/H 5 x 20 fuses; at 16 A the typical one.

Source: Schurter 0001.2705 data sheet.
"""

_FUSE_SOURCE = "Schurter 0001.2705 data sheet (drop at rated current), twice of it: common practice"
_LEADS_OHM = 0.5
"""What two test leads and their contacts may add to a two-wire reading. Common practice."""


def fuse_limit_ohm(current: float) -> float | None:
    """Largest good cold resistance [ohm] of a fuse: twice its largest drop over its current.

    R = 2 · Vmax / In. Between two figures of the table the larger drop counts; below 1 A there
    is no figure, because small fuses are tens of ohms by design.

    >>> fuse_limit_ohm(5.0), fuse_limit_ohm(0.063)
    (0.04, None)

    Source: Schurter 0001.2705 data sheet; GMA data sheet (63 mA is 15.75 ohm).
    """
    if current < DROP_MV[0][0]:
        return None
    drop = next(mv for amps, mv in reversed(DROP_MV) if amps <= current)
    return round(2 * drop / 1000 / current, 6)


def fuse_checks(bench: Bench) -> Iterable[Check]:
    """The cold resistance of a fuse against what its rating allows."""
    measured = _fuse_ohm(bench)
    if measured is None or measured >= 1e6:
        return
    limit = _fuse_limit(bench)
    if limit is None:
        text = "No limit is published for this fuse: measure a new one beside it (reference_ohm)."
        yield lacking(text, "GMA data sheet", "reference_ohm")
        return
    said = f"Cold resistance {show_reading(measured, 'Ω')}"
    words = f"at most {show_reading(limit, 'Ω')}"
    fine_meter = "cold_ohm" not in bench.readings or bench.readings.get("wires") == 4
    if measured <= limit:
        yield fine(f"{said}: {words}.", _FUSE_SOURCE, "cold_ohm", words)
    elif fine_meter or measured > limit + _LEADS_OHM:
        yield bad(f"{said}: not {words}.", _FUSE_SOURCE, "drifted", "cold_ohm", words)
    else:
        text = f"{said} holds the test leads; {words} cannot be told. Measure the drop at 1 A."
        yield lacking(text, _FUSE_SOURCE, "drop_mv_at_1a", "cold_ohm")


def _fuse_ohm(bench: Bench) -> float | None:
    """The cold resistance, from the best reading there is."""
    for name, factor in (("drop_mv_at_1a", 1e-3), ("cold_mohm", 1e-3), ("cold_ohm", 1.0)):
        if name in bench.readings:
            return bench.readings[name] * factor
    return None


def _fuse_limit(bench: Bench) -> float | None:
    """The limit from a new fuse measured beside it, or from the rating."""
    reference = bench.readings.get("reference_ohm")
    if reference is not None and math.isfinite(reference):
        return 2 * reference
    rated = numbers(bench.part.get("current_a", ""))
    return fuse_limit_ohm(max(rated)) if rated else None


# thermostats -------------------------------------------------------------------------

_CLASSES = "KSD301 family data sheet: tolerance classes ±3, ±5 and ±10 K"
TIGHTEST_K, WIDEST_K, NEVER_K = 3.0, 10.0, 15.0
"""Tolerance classes, and how far above the upper limit a disc that never opens is welded."""


def cut_out_checks(bench: Bench) -> Iterable[Check]:
    """The temperatures of three heatings against the stamp."""
    closes = bench.part.get("contact") == "NO"
    reading, rated = ("closes_at_c", "close_on_rise_c") if closes else ("opens_at_c", "open_c")
    if reading in bench.readings:
        spread = numbers(bench.part.get("open_tol_c", ""))
        yield _at_temperature(bench, reading, rated, max(spread) if spread else None)
    if "resets_at_c" in bench.readings and bench.part.get("reset") != "one-shot":
        spread = numbers(bench.part.get("reset_tol_c", bench.part.get("close_tol_c", "")))
        yield _at_temperature(bench, "resets_at_c", "reset_c", max(spread) if spread else 5.0)


def _at_temperature(bench: Bench, reading: str, rated: str, spread: float | None) -> Check:
    """One switching point; without a printed tolerance only the clear cases are decided."""
    value, nominal = bench.readings[reading], numbers(bench.part.get(rated, ""))
    if math.isinf(value):
        text = f"It never moved, {NEVER_K:.0f} K above its upper limit: welded."
        return bad(text, "common practice", "welded", reading)
    if not nominal:
        text = f"{reading} cannot be judged: {rated} of the part is not known."
        return lacking(text, _CLASSES, rated, reading)
    off = abs(value - max(nominal))
    said = f"{reading} {show_reading(value, '°C')}, stamped {show_reading(max(nominal), '°C')}"
    if off <= (TIGHTEST_K if spread is None else spread):
        return fine(f"{said}: within tolerance.", _CLASSES, reading)
    if off > (WIDEST_K if spread is None else spread):
        return bad(f"{said}: outside its tolerance.", _CLASSES, "drifted", reading)
    text = f"{said}: its tolerance class is not known."
    return lacking(text, _CLASSES, "open_tol_c", reading)


# sensors ---------------------------------------------------------------------------

KELVIN = 273.15


def ntc_ohm(r25: float, b: float, celsius: float) -> float:
    """Resistance [ohm] of an NTC: R = R25 · exp(B · (1/T - 1/298.15)), T in kelvin.

    ``r25`` in ohm, ``b`` in kelvin, ``celsius`` in °C.

    >>> round(ntc_ohm(100e3, 3950, 50) / 1000, 1)
    35.9

    Source: the B-parameter equation, as MF52 and AVX ND03 data sheets define B.
    """
    return r25 * math.exp(b * (1 / (celsius + KELVIN) - 1 / (25 + KELVIN)))


def sensor_checks(bench: Bench) -> Iterable[Check]:
    """A reading at a known temperature against the curve, with 1 K for the thermometer."""
    if "ohm" not in bench.readings or "at_c" not in bench.readings:
        return
    source = "R = R25 exp(B (1/T - 1/298.15)); tolerance of the part and 1 K: common practice"
    rated = numbers(bench.part.get("r25_ohm", bench.part.get("inrush_ohm", "")))
    b = numbers(bench.part.get("b_k", ""))
    at = bench.readings["at_c"]
    name = "r25_ohm" if not rated else "b_k" if not b and abs(at - 25) > 1 else None
    if name:
        yield lacking(f"It cannot be judged: {name} of the part is not known.", source, name)
        return
    spread = numbers(bench.part.get("tolerance_pct", ""))
    share = (max(spread) if spread else 20 if "inrush_ohm" in bench.part else 5) / 100
    slope = max(b) if b else 4000.0  # a usual B, for a kelvin of error near 25 °C only
    low = ntc_ohm(max(rated), slope, at + 1) * (1 - share)
    high = ntc_ohm(max(rated), slope, at - 1) * (1 + share)
    said = f"{show_reading(bench.readings['ohm'], 'Ω')} at {show_reading(at, '°C')}"
    words = in_words((round(low, 2), round(high, 2)), "Ω")
    if low <= bench.readings["ohm"] <= high:
        yield fine(f"{said}: on its curve, {words}.", source, "ohm", words)
    else:
        yield bad(f"{said}: off its curve, {words}.", source, "drifted", "ohm", words)


# the rest --------------------------------------------------------------------------


def high_voltage_diode_checks(bench: Bench) -> Iterable[Check]:
    """OL forwards means open only where the meter had the volts to open the stack."""
    forward = bench.readings.get("forward_ohm")
    if forward is None or math.isfinite(forward):
        return
    source = "Sharp R-4G75M and R-21AT service manuals: a meter with at least 6 V"
    if bench.readings.get("battery_v", 0.0) >= 6:
        yield bad("It does not conduct forwards.", source, "open", "forward_ohm")
    else:
        text = "OL forwards says nothing on a meter below 6 V: give battery_v or forward_drop_v."
        yield lacking(text, source, "battery_v", "forward_ohm")


def lamp_checks(bench: Bench) -> Iterable[Check]:
    """A cold filament shows a tenth to a fifteenth of its hot resistance V²/W."""
    volts, watts = (numbers(bench.part.get(name, "")) for name in ("voltage_v", "power_w"))
    if "cold_ohm" in bench.readings and volts and watts and max(watts) > 0:
        hot = max(volts) ** 2 / max(watts)
        words = in_words((round(hot / 15, 1), round(hot / 10, 1)), "Ω")
        yield Check(f"A filament of this lamp shows about {words} cold.", "common practice")


def cord_checks(bench: Bench) -> Iterable[Check]:
    """A cord with an earth core, or one nobody looked at, needs its earth measured."""
    if flag(bench.part.get("earth", "")) is not False and "earth_ohm" not in bench.readings:
        source = "VDE 0701-0702, as printed in the manual of the Benning ST 755"
        yield lacking("earth_ohm was not measured.", source, "earth_ohm")
