"""Output power of a microwave oven by the rise of water, method by method.

The same oven is 700, 750 or 800 W by three methods, so the method is kept with the figure and
never compared with another. Source: G. Gallawa, output power (700 W traditional, 750 W JIS,
800 W IEC 705).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from inventory.errors import WrongInput

HEAT = 4187.0
"""Heat to warm one litre of water by one kelvin [J]. Source: IEC 60705, as in service manuals."""

BOWL = 0.55
"""Heat to warm one gram of glass by one kelvin [J]. Source: LG MS-1949G service manual."""


@dataclass(frozen=True, slots=True)
class Method:
    """One way to measure: litres of water and seconds on; None where the tech gives it."""

    id: str
    name: str
    litres: float
    seconds: float | None
    source: str


METHODS: Mapping[str, Method] = {
    method.id: method
    for method in (
        Method(
            "iec", "IEC 60705, 1000 g from 10 °C, by the time for 10 K", 1.0, None,
            "IEC 60705, as printed in Daewoo KOR-145M0P and Sharp R-21AT service manuals",
        ),
        Method(
            "jis", "JIS, two beakers of 500 ml, 60 s", 1.0, 60.0,
            "JIS method, as printed by Celtek Electronics (factor 70)",
        ),
        Method(
            "1l-2min", "one litre, two minutes", 1.0, 120.0,
            "Histonet archive, June 2004 (factor 35 W/K)",
        ),
        Method(
            "2l-2min", "two litres, two minutes", 2.0, 120.0,
            "Sharp R-8740 service manual (2 litres, 2 minutes)",
        ),
    )
}  # fmt: skip
"""The methods service manuals use."""


def method(name: str) -> Method:
    """The method of a name; an unknown one is the user's mistake."""
    found = METHODS.get(name.strip().casefold().replace(" ", "-"))
    if found is None:
        raise WrongInput(f"There is no water test {name[:40]!r}; use {', '.join(METHODS)}.")
    return found


def output_power(litres: float, rise: float, seconds: float, bowl: float = 0.0) -> float:
    """Power [W] into the water: P = (4187 · litres · rise + bowl) / seconds.

    ``rise`` in kelvin; ``seconds`` of microwaves, without the 2 to 3 s the magnetron warms up;
    ``bowl`` is the heat in the bowl [J].

    >>> round(output_power(1.0, 10.0, 42.0))
    997

    Source: Sharp R-21AT service manual, worked example (11 to 21 °C in 42 s: 1000 W).
    """
    if seconds <= 0:
        raise WrongInput("The water was heated for no time; give water_seconds.")
    return (HEAT * litres * rise + bowl) / seconds


def bowl_heat(grams: float, end: float, start: float) -> float:
    """Heat [J] in a glass bowl of ``grams``, from ``start`` to ``end`` °C.

    >>> round(output_power(1.0, 9.8, 47.0, bowl_heat(600, 19.8, 20.0)))
    872

    Source: LG MS-1949G service manual, worked example.
    """
    return BOWL * grams * (end - start)
