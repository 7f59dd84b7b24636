"""Limits a repaired appliance must keep, by region, each with its source."""

from __future__ import annotations

import math
from dataclasses import dataclass

from inventory.rules.meter import show_reading

GERMAN = "VDE 0701-0702, as printed in the manual of the Benning ST 755"
BRITISH = "UK in-service testing practice (fslsecurity, patinfo)"
AUSTRALIAN = "AS/NZS 3760, as explained by ABC Test and Tag"
IEC_EARTH = "IEC 60335-1 clause 27.5 (from memory): 0.1 Ω, the cord not counted"
LEAKAGE = {
    "us": "21 CFR 1030.10(c)(1)",
    "ca": "C.R.C. c. 1370, Part III (secondary source)",
}
COPPER = 0.0178
"""Resistivity of copper [ohm mm²/m] at 20 °C. Source: IEC 60028 (0.01724), plus stranding."""


@dataclass(frozen=True, slots=True)
class Limit:
    """Lowest and highest good figure; both None where nobody can say."""

    source: str
    low: float | None = None
    high: float | None = None
    remark: str = ""

    def holds(self, value: float) -> bool:
        """Whether a reading is within; the limit itself is within."""
        low = -math.inf if self.low is None else self.low
        high = math.inf if self.high is None else self.high
        return low * (1 - 1e-9) <= value <= high * (1 + 1e-9)

    def words(self, unit: str) -> str:
        """The limit as a tech says it."""
        if self.low is None and self.high is None:
            return "no limit can be given"
        if self.low is None:
            return f"at most {show_reading(self.high or 0.0, unit)}"
        if self.high is None:
            return f"at least {show_reading(self.low, unit)}"
        return f"{show_reading(self.low)} to {show_reading(self.high, unit)}"


def line_current(rated: float | None, share: float) -> Limit:
    """0.85 to 1.10 of the plate's current, at the measured share of the rated voltage.

    Source: common practice; the IEC 60335-1 clause 10 table was not seen.
    """
    if rated is None:
        return Limit("common practice", remark="The plate's current is not stated.")
    low, high = round(0.85 * rated * share, 3), round(1.10 * rated * share, 3)
    hint = "Very low with lamp and fan running: the high-voltage side is open; double: a short."
    return Limit("common practice", low, high, hint)


def line_power(rated: float | None, share: float) -> Limit:
    """0.85 to 1.10 of the plate's input, at the measured voltage."""
    if rated is None:
        return Limit("common practice", remark="The plate's input is not stated.")
    return Limit("common practice", round(0.85 * rated * share, 1), round(1.10 * rated * share, 1))


def output(rated: float | None) -> Limit:
    """At least 0.85 of the rated output, by the same method.

    Source: Sharp R-21AT service manual (within 15 % of the rating).
    """
    source = "Sharp R-21AT service manual: within 15 % of the rating, by the same method"
    if rated is None:
        return Limit(source, remark="The rated output is not stated.")
    return Limit(source, low=round(0.85 * rated, 1))


def other_method(plate: str, used: str) -> Limit:
    """Two methods are never compared."""
    text = f"The plate is by {plate}, the test by {used}: never compared across methods."
    return Limit("G. Gallawa: 700 W traditional is 750 W JIS and 800 W IEC 705", remark=text)


def leakage(region: str, own: float | None, *, before_sale: bool, loaded: bool) -> Limit:
    """Leakage [mW/cm²] at 5 cm: 5 in use, 1 before sale (US), 1 with load (Canada).

    ``own``: the maker's stricter limit, where the plate or the manual gives one.
    """
    strict = (region == "us" and before_sale) or (region == "ca" and loaded)
    high = min(1.0 if strict else 5.0, own if own is not None else math.inf)
    source = LEAKAGE.get(region, "IEC 60335-2-25: 50 W/m² at 50 mm")
    remark = (
        "Some makers re-adjust the door above 4 mW/cm² (Daewoo service manual); above 5 the"
        " oven must not be used."
    )
    return Limit(source, high=high, remark=remark)


def earth(region: str, cord_m: float | None, cord_mm2: float | None) -> Limit:
    """Protective conductor resistance [ohm], by region and length of cord.

    >>> earth("de", 12.5, None).high, earth("de", 3.0, None).high
    (0.4, 0.3)

    Source: VDE 0701-0702: 0.3 ohm up to 5 m, 0.1 ohm more for each further 7.5 m, at most 1 ohm.
    """
    if region in {"eu", "de"}:
        steps = math.ceil(max(0.0, (cord_m or 0.0) - 5.0) / 7.5 - 1e-9)
        return Limit(GERMAN, high=min(1.0, round(0.3 + 0.1 * steps, 3)))
    if region in {"au", "nz"}:
        return Limit(AUSTRALIAN, high=1.0)
    cord = COPPER * cord_m / cord_mm2 if cord_m and cord_mm2 else 0.0
    source = BRITISH if region == "uk" else IEC_EARTH
    return Limit(source, high=round(0.1 + cord, 3))


INSULATION = {"I": 1.0, "II": 2.0, "III": 0.25}
"""Least insulation [megohm] at 500 V by protection class. Source: VDE 0701-0702."""


def insulation(protection: str | None, *, heating: bool, value: float) -> Limit:
    """Insulation by protection class; heating elements of class I may be down to 0.3 megohm.

    Without the class only what is clear in every class is decided.
    """
    if protection not in INSULATION:
        remark = "The protection class is not stated: 1 MΩ for I, 2 for II, 0.25 for III."
        clear = 2.0 if value >= 2.0 else 0.25 if value < 0.25 else None
        return Limit(GERMAN, low=clear, remark=remark)
    low = 0.3 if heating and protection == "I" else INSULATION[protection]
    return Limit(GERMAN, low=low)


def touch_current(region: str, protection: str | None) -> Limit:
    """Touch current [mA]: 0.5; in the UK 0.25 for class II."""
    if region == "uk" and protection == "II":
        return Limit(BRITISH, high=0.25)
    return Limit(GERMAN, high=0.5)


def protective_current(heating_kw: float | None) -> Limit:
    """Protective conductor current [mA]: 3.5; above 3.5 kW of heating 1 per kW, at most 10."""
    high = min(10.0, heating_kw) if heating_kw and heating_kw > 3.5 else 3.5
    return Limit(GERMAN, high=high)
