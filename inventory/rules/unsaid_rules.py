"""What must be known of a failed part before anything can be called good for it.

The sheets ask for single attributes. These rules ask where one of several would do, or where
an unknown matters only beside a certain offer.
"""

from __future__ import annotations

from collections.abc import Iterable

from inventory.records import Reason
from inventory.rules.case import Case, ask
from inventory.rules.compare import numbers, show
from inventory.rules.words import flag, plain_word


def coil_of_the_relay_is_known(case: Case) -> Iterable[Reason]:
    """A relay whose coil nobody read: too few volts do not pull it, too many burn it.

    Source: Omron G5RL data sheet: pull-in at most 75 %, at most 110 to 130 % for long.
    """
    if _open(case, "relay") and not any(case.need.get(name) for name in ("coil_vdc", "coil_vac")):
        yield ask(
            "coil-unsaid",
            "Nobody has said the coil voltage of the failed relay: too low burns, too high does"
            " not pull in.",
            "Omron G5RL data sheet, coil ratings",
            "coil_vdc",
            effort=1,
            of_wanted=True,
        )


def sensor_curve_is_known(case: Case) -> Iterable[Reason]:
    """A sensor of one resistance comes in several curves; without both figures nobody can say.

    Source: NTC catalogues, R = R25·exp(B(1/T - 1/298.15)): 10 kΩ with B 3435 read as B 3950
    shows 88 °C at a true 100 °C.
    """
    if not _open(case, "ntc") or "inrush_ohm" in case.need:
        return
    missing = next((name for name in ("r25_ohm", "b_k") if case.need.get(name) is None), None)
    if missing:
        what = "resistance at 25 °C" if missing == "r25_ohm" else "B value"
        yield ask(
            "curve-unsaid",
            f"Nobody has said the {what} of the failed sensor: a wrong curve reads the heat"
            " wrongly and the heater overshoots.",
            "NTC curve R = R25·exp(B(1/T - 1/298.15)), common practice",
            missing,
            effort=5,
            of_wanted=True,
        )


def bearing_is_named_or_measured(case: Case) -> Iterable[Reason]:
    """One bore has several outer diameters and widths: its series says which, or a caliper."""
    sizes = ("outer_mm", "width_mm")
    said = case.need.get("series") or all(case.need.get(name) for name in sizes)
    if _open(case, "bearing") and not said:
        yield ask(
            "size-unsaid",
            "Nobody has said the outer diameter and width of the failed bearing.",
            "ISO 15, dimension series: a bore comes with several outer diameters",
            "outer_mm",
            effort=3,
            of_wanted=True,
        )


POLAR_FROM, POLAR_ALWAYS = 0.1, 100.0
"""Capacitance [µF] from which electrolytics are made, and above which nothing else is met.

Common practice.
"""


def polarity_of_the_failed_part(case: Case) -> Iterable[Reason]:
    """An electrolytic bursts on alternating current: what the failed one was must be known."""
    if not _open(case, "capacitor") or case.need.get("dielectric") is not None:
        return
    value = max(numbers(case.need.get("capacitance_uf", "")), default=0.0)
    kind = plain_word(case.has.get("dielectric", "electrolytic, perhaps"))
    if "electrolytic" in kind and POLAR_FROM <= value < POLAR_ALWAYS:
        yield ask(
            "dielectric-unsaid",
            f"Nobody has said whether the failed {show(value, 'µF')} was an electrolytic: one"
            " bursts where a film capacitor stood on a.c.",
            "common practice",
            "dielectric",
            effort=1,
            of_wanted=True,
        )


def three_cores_want_their_earth(case: Case) -> Iterable[Reason]:
    """Three cores mostly are live, neutral and earth: a cord that says it has none is asked for.

    Source: HD 361: G with, X without a protective core.
    """
    cores = max(numbers(case.need.get("cores", "")), default=0.0)
    silent = _open(case, "cord") and case.need.get("earth") is None
    if silent and cores >= 3 and flag(case.has.get("earth", "")) is False:
        yield ask(
            "earth-unsaid",
            "The offered cord has no earth core; whether the failed one had is not said. A class I"
            " appliance without earth kills at the first fault.",
            "HD 361, G with and X without a protective core",
            "earth",
            effort=1,
            of_wanted=True,
        )


def cavity_lamp_stands_the_heat(case: Case) -> Iterable[Reason]:
    """In a cavity an ordinary lamp's cement fails, so its temperature must be known.

    Source: Mico note on oven lamps (300 °C types).
    """
    hot = case.place is not None and case.place.id == "cavity-lamp"
    if hot and _open(case, "lamp") and case.need.get("temp_c") is None:
        have = show(case.has.get("temp_c", "not known"), "°C" if "temp_c" in case.has else None)
        yield ask(
            "heat-unsaid",
            f"Nobody has said which heat the failed cavity lamp stands (offered: {have}): oven"
            " lamps are 300 °C types.",
            "Mico note on oven lamps: 300 °C types",
            "temp_c",
            effort=1,
            of_wanted=True,
        )


def _open(case: Case, family: str) -> bool:
    """Whether this family is judged, and neither one type nor a list settles it."""
    return case.sheet.id == family and not case.settled
