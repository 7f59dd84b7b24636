"""Close-out readings of a repair: line current, output power, leakage, earth, insulation.

Each reading is held against its limit for the region; the limit, the method and the source are
kept with it. What has no limit, or hangs on something not stated, is neither passed nor failed.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace

from inventory.errors import WrongInput
from inventory.records import Value
from inventory.rules import electrical_limits as limits
from inventory.rules.meter import Typed, read_meter, show_reading
from inventory.rules.terms import tidy
from inventory.rules.water import bowl_heat, method, output_power
from inventory.rules.words import flag

REGIONS = ("us", "ca", "eu", "de", "uk", "au", "nz")
"""Regions whose limits are known; ``eu`` and ``de`` share the German tests."""

_WORDS = frozenset({"water_method", "protection_class"})
_AIDS = frozenset(
    {
        "line_voltage_v", "cord_m", "cord_mm2", "water_start_c", "water_end_c", "water_seconds",
        "water_ml", "bowl_g", "ambient_c", "leakage_load", "before_sale", "hand_held",
    }
)  # fmt: skip
"""Readings that only help to judge another one."""


@dataclass(frozen=True, slots=True)
class CheckedReading:
    """One reading with its limit; ``ok`` is None where nobody can say."""

    name: str
    value: float
    unit: str | None
    ok: bool | None
    sentence: str
    source: str
    limit: str | None = None
    method: str | None = None


@dataclass(frozen=True, slots=True)
class Job:
    """The readings of a repair, the rating plate and the region."""

    readings: Mapping[str, float]
    words: Mapping[str, str]
    plate: Mapping[str, Value]
    region: str

    def rated(self, *names: str) -> float | None:
        """The first of several plate figures that is there."""
        for name in names:
            value = tidy(self.plate.get(name))
            if isinstance(value, int | float) and not isinstance(value, bool):
                return float(value)
        return None

    def protection_class(self) -> str | None:
        """Protection class ``I``, ``II`` or ``III``; None where nobody said."""
        said = self.words.get("protection_class") or self.plate.get("protection_class")
        word = str(said or "").strip().upper().removeprefix("CLASS").strip()
        return {"1": "I", "2": "II", "3": "III"}.get(word, word) or None


def judge_closeout(
    readings: Mapping[str, Typed], plate: Mapping[str, Value], region: str
) -> tuple[CheckedReading, ...]:
    """Every close-out reading held against its limit.

    ``plate``: figures of the rating plate (``current_a``, ``power_w``, ``voltage_v``,
    ``output_w``, ``output_method``, ``protection_class``, ``heating``, ``leakage_mw_cm2``).
    Raises ``WrongInput`` for a region, a method or a reading nobody knows how to take.
    """
    where = region.strip().casefold()
    if where not in REGIONS:
        raise WrongInput(f"There is no region {region[:40]!r}; use {', '.join(REGIONS)}.")
    figures = {n: read_meter(n, v) for n, v in readings.items() if n not in _WORDS}
    job = Job(figures, {n: str(v) for n, v in readings.items() if n in _WORDS}, plate, where)
    checked = [one for check in CHECKS for one in check(job)]
    return (*checked, *_unknown(job, {one.name for one in checked}))


def _unknown(job: Job, known: set[str]) -> Iterable[CheckedReading]:
    """Readings no limit is known for: kept, and said to decide nothing."""
    for name, value in job.readings.items():
        if name not in known | _AIDS:
            text = f"No limit is known for {name}: recorded, decides nothing."
            yield CheckedReading(name, value, None, None, text, "no source")


def _judged(
    name: str, job: Job, unit: str, limit: limits.Limit, how: str | None = None
) -> CheckedReading:
    """One reading against one limit; a limit without figures decides nothing."""
    value = job.readings[name]
    ok = None if limit.low is None and limit.high is None else limit.holds(value)
    said, words = f"{name}: {show_reading(value, unit)}", limit.words(unit)
    text = {True: f"{said}, good ({words}).", False: f"{said}, not {words}.",
            None: f"{said}, cannot be judged."}[ok]  # fmt: skip
    tail = f" {limit.remark}" if limit.remark else ""
    return CheckedReading(name, value, unit, ok, text + tail, limit.source, words, how)


# checks ----------------------------------------------------------------------------


def line_current(job: Job) -> Iterable[CheckedReading]:
    """Line current at full power, corrected to the plate's voltage."""
    if "line_current_a" in job.readings:
        share = _voltage_share(job)
        limit = limits.line_current(job.rated("current_a", "line_current_a"), share)
        how = "full power, 1 litre of water, after a minute"
        yield _judged("line_current_a", job, "A", limit, how)


def line_power(job: Job) -> Iterable[CheckedReading]:
    """Power input at full power; it goes with the square of the voltage."""
    if "line_power_w" in job.readings:
        limit = limits.line_power(job.rated("power_w", "input_w"), _voltage_share(job) ** 2)
        yield _judged("line_power_w", job, "W", limit, "full power, 1 litre of water")


def _voltage_share(job: Job) -> float:
    """Measured over rated line voltage; 1 where either is not known."""
    rated, measured = job.rated("voltage_v"), job.readings.get("line_voltage_v")
    return measured / rated if rated and measured else 1.0


def output(job: Job) -> Iterable[CheckedReading]:
    """Output power by the water's rise, or as measured elsewhere by a named method."""
    how = job.words.get("water_method")
    if "output_w" in job.readings:
        yield _against_plate(job, job.readings["output_w"], how)
    elif "water_end_c" in job.readings:
        if how is None:
            raise WrongInput("Say how the water test was made: water_method=iec, jis, 1l-2min ...")
        yield _against_plate(job, _measured_power(job, how), method(how).id)


def _measured_power(job: Job, how: str) -> float:
    """The power of a water test [W]; readings that are missing are the user's mistake."""
    way = method(how)
    start, end = (_needed(job, name) for name in ("water_start_c", "water_end_c"))
    seconds = job.readings.get("water_seconds", way.seconds)
    if seconds is None:
        raise WrongInput(f"The method {way.id} needs water_seconds.")
    litres = job.readings.get("water_ml", way.litres * 1000) / 1000
    grams = job.readings.get("bowl_g", 0.0)
    bowl = bowl_heat(grams, end, _needed(job, "ambient_c")) if grams else 0.0
    return output_power(litres, end - start, seconds, bowl)


def _needed(job: Job, name: str) -> float:
    """A reading that must be there."""
    if name not in job.readings:
        raise WrongInput(f"The water test needs {name}.")
    return job.readings[name]


def _against_plate(job: Job, watts: float, how: str | None) -> CheckedReading:
    """Output power against the plate, by the plate's own method only."""
    stated = str(job.plate.get("output_method") or "").strip().casefold()
    other = bool(stated and how and method(stated).id != how)
    limit = limits.output(None if other else job.rated("output_w"))
    if other:
        limit = limits.other_method(stated, how or "")
    measured = replace(job, readings={"output_w": round(watts, 1)})
    return _judged("output_w", measured, "W", limit, how)


def leakage(job: Job) -> Iterable[CheckedReading]:
    """Microwave leakage at 5 cm, for the region, or the maker's stricter limit."""
    if "leakage_mw_cm2" in job.readings:
        new = bool(job.readings.get("before_sale", 0.0))
        loaded = bool(job.readings.get("leakage_load", 1.0))
        own = job.rated("leakage_mw_cm2")
        limit = limits.leakage(job.region, own, before_sale=new, loaded=loaded)
        how = "275 ml of water, probe at 5 cm, slowly round door, vents and seams"
        yield _judged("leakage_mw_cm2", job, "mW/cm²", limit, how)


def earth(job: Job) -> Iterable[CheckedReading]:
    """Protective conductor, plug pin to bare metal."""
    if "earth_ohm" in job.readings:
        cord = job.readings.get("cord_m"), job.readings.get("cord_mm2")
        yield _judged("earth_ohm", job, "Ω", limits.earth(job.region, *cord), "plug pin to metal")


def insulation(job: Job) -> Iterable[CheckedReading]:
    """Insulation, live parts together to metal."""
    if "insulation_mohm" in job.readings:
        heating = flag(job.plate.get("heating", "")) is True
        value = job.readings["insulation_mohm"]
        limit = limits.insulation(job.protection_class(), heating=heating, value=value)
        yield _judged("insulation_mohm", job, "MΩ", limit, "500 V d.c.; 250 V where a MOV sits")


def touch_current(job: Job) -> Iterable[CheckedReading]:
    """Touch current of metal that is not earthed."""
    if "touch_current_ma" in job.readings:
        limit = limits.touch_current(job.region, job.protection_class())
        yield _judged("touch_current_ma", job, "mA", limit)


def protective_current(job: Job) -> Iterable[CheckedReading]:
    """Current in the protective conductor."""
    if "protective_current_ma" in job.readings:
        limit = limits.protective_current(job.rated("heating_kw"))
        yield _judged("protective_current_ma", job, "mA", limit)


CHECKS: tuple[Callable[[Job], Iterable[CheckedReading]], ...] = (
    line_current,
    line_power,
    output,
    leakage,
    earth,
    insulation,
    touch_current,
    protective_current,
)
"""All checks, in the order a repair is closed."""
