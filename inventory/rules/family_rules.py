"""Rules of single families that one attribute alone cannot say."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from inventory.records import Reason, Value
from inventory.rules.case import Case, ask, refuse
from inventory.rules.compare import deviation, members, numbers, served, show
from inventory.rules.loads import duties
from inventory.rules.words import flag, plain_word


def latching_never_for_plain(case: Case) -> Iterable[Reason]:
    """A latching relay stays closed without supply; one unread code is not a plain relay.

    Where both are known the sheet compares them.
    Source: Omron G5RL data sheet, latching types U and K.
    """
    known = case.sheet.id != "relay" or case.need.get("latching") is not None or case.settled
    if not known and _latches(case.has.get("latching")):
        yield ask(
            "latching",
            "The offered relay latches; whether the failed one did is not known.",
            "Omron G5RL data sheet, latching types U and K",
            "latching",
            effort=9,
        )


def _latches(value: object) -> bool:
    """Whether a value says that the relay latches: a yes, or the kind of winding."""
    known = flag(value) if value is not None else None
    return known if known is not None else value is not None


def coil_kind_is_kept(case: Case) -> Iterable[Reason]:
    """An a.c. coil is no d.c. coil, whatever the volts."""
    if case.sheet.id != "relay":
        return
    for mine, theirs in (("coil_vdc", "coil_vac"), ("coil_vac", "coil_vdc")):
        lacks = theirs not in case.need and mine not in case.has
        if mine in case.need and theirs in case.has and lacks:
            yield refuse(
                "coil-kind",
                "An a.c. coil and a d.c. coil do not replace each other.",
                "Omron G5RL data sheet (a.c. and d.c. coil tables)",
            )


def y_capacitance_never_grows(case: Case) -> Iterable[Reason]:
    """A larger Y capacitor is a larger leakage current through whoever touches the metal."""
    if case.sheet.id != "capacitor_safety":
        return
    names = members(case.need.get("class", []))
    in_y = bool(case.place and case.place.kind == "class-y")
    gap = deviation(case.need.get("capacitance_uf"), case.has.get("capacitance_uf"))
    if gap is None or not (in_y or any(name.startswith("Y") for name in names)):
        return
    source = "IEC 60335-1 clause 13.2, leakage current; common practice"
    if gap > 1e-6:
        yield refuse(
            "y-capacitance", "A larger Y capacitor leaks more current to touchable metal.", source
        )
    elif gap < -1e-6:
        sentence = "A smaller Y capacitor filters less than the failed one."
        yield ask("y-capacitance", sentence, source, "capacitance_uf", effort=9)


def electrolytic_keeps_its_farads(case: Case) -> Iterable[Reason]:
    """An electrolytic in a filter may be larger, not smaller.

    Source: common practice (-0/+50 %).
    """
    kind = plain_word(case.need.get("dielectric", ""))
    gap = deviation(case.need.get("capacitance_uf"), case.has.get("capacitance_uf"))
    if case.sheet.id == "capacitor" and "electrolytic" in kind and gap is not None and gap < -0.05:
        yield refuse(
            "filter-capacitance",
            "A smaller electrolytic lets more ripple through: -0/+50 % is the practice.",
            "common practice",
        )


def iron_keeps_its_frequency(case: Case) -> Iterable[Reason]:
    """Iron wound for 60 Hz saturates on 50 Hz."""
    if case.sheet.id not in {"transformer", "motor_fan"}:
        return
    want, have = (
        numbers(case.need.get("frequency_hz", "")),
        numbers(case.has.get("frequency_hz", "")),
    )
    if want and have and min(want) <= 50 < min(have):
        yield refuse(
            "iron-frequency", "Iron for 60 Hz saturates and burns on 50 Hz.", "from memory"
        )


def contact_seals_drag(case: Case) -> Iterable[Reason]:
    """Contact seals in place of shields: for slow shafts only."""
    want, have = plain_word(case.need.get("seals", "")), plain_word(case.has.get("seals", ""))
    if case.sheet.id == "bearing" and "shield" in want and "contact" in have:
        yield ask(
            "seal-drag",
            "Contact seals drag and warm a fast shaft; at low speed they may replace shields.",
            "LFD and PTI Latam bearing designations; common practice",
            "shaft speed",
            effort=1,
        )


def more_ribs_need_room(case: Case) -> Iterable[Reason]:
    """A belt with more ribs needs a pulley with room for them."""
    want, have = numbers(case.need.get("ribs", "")), numbers(case.has.get("ribs", ""))
    if case.sheet.id == "belt" and want and have and max(have) > max(want):
        yield ask(
            "more-ribs",
            f"{max(have):.0f} ribs in place of {max(want):.0f}: only if both pulleys have room.",
            "common practice",
            "pulley ribs",
            effort=1,
        )


def hot_coupler_shape(case: Case) -> Iterable[Reason]:
    """A hot coupler may also enter a cooler inlet; another shape must be tried by a person."""
    want, have = str(case.need.get("sheet", "")).upper(), str(case.has.get("sheet", "")).upper()
    if case.sheet.id == "coupler" and (want, have) in {("C15", "C13"), ("C16", "C14")}:
        yield refuse(
            "coupler-heat",
            "A 70 °C coupler melts on an appliance that wants a 120 °C one.",
            "IEC 60320-1 (2cit): C13 70 °C, C15 120 °C",
        )


def supply_kind_is_kept(case: Case) -> Iterable[Reason]:
    """A part made for direct current never stands on the mains, nor the other way round."""
    if case.sheet.id not in {"motor_fan", "motor_turntable", "lamp", "inverter_board"}:
        return
    for mine, theirs in ((_ALTERNATING, _DIRECT), (_DIRECT, _ALTERNATING)):
        asks = any(case.need.get(name) is not None for name in mine)
        both = any(case.need.get(name) is not None for name in theirs)
        gives = any(case.has.get(name) is not None for name in theirs)
        lacks = all(case.has.get(name) is None for name in (*mine, "voltage_v"))
        if asks and not both and gives and lacks:
            yield refuse(
                "supply-kind",
                "A d.c. part and an a.c. part do not replace each other.",
                "common practice",
            )


_ALTERNATING = ("voltage_vac", "volts_ac")
_DIRECT = ("voltage_vdc", "voltage_dc_v", "volts_dc")


def class_voltages_are_held(case: Case) -> Iterable[Reason]:
    """A capacitor of two classes has a voltage for each: each wanted one is held.

    Source: IEC 60384-14, rated voltage by class.
    """
    if case.sheet.id != "capacitor_safety" or "voltage_vac_by_class" not in case.need:
        return
    for name, volts in sorted(_by_class(case.need).items()):
        held = [have for other, have in _by_class(case.has).items() if name in served([other])]
        if held and max(held) < volts:
            yield refuse(
                "class-voltage",
                f"As class {name} it is rated {show(max(held), 'V')}, wanted {show(volts, 'V')}.",
                "IEC 60384-14, rated voltage by class",
            )


def _by_class(said: Mapping[str, Value]) -> Mapping[str, float]:
    """The a.c. voltage of each safety class."""
    listed = said.get("voltage_vac_by_class")
    if isinstance(listed, Mapping):
        return {str(name).upper(): float(volts) for name, volts in listed.items()}
    volts = max(numbers(said.get("voltage_vac", "")), default=None)
    return {} if volts is None else dict.fromkeys(members(said.get("class", [])), volts)


def bleeder_of_the_failed_part(case: Case) -> Iterable[Reason]:
    """Without its bleeder a capacitor stays charged: what the failed one had must be known.

    Source: Daewoo KOG-3667OS service manual (about 9 MΩ).
    """
    silent = case.need.get("bleeder") is None and not case.settled
    if case.sheet.id == "hv_capacitor" and silent and flag(case.has.get("bleeder", "")) is False:
        yield ask(
            "bleeder",
            "The offered capacitor has no discharge resistor; whether the failed one had is not"
            " said. Without it the charge waits for a hand.",
            "Daewoo KOG-3667OS service manual (about 9 MΩ)",
            "bleeder",
            of_wanted=True,
        )


def small_loads_want_a_small_contact(case: Case) -> Iterable[Reason]:
    """A contact made for amperes may not close a circuit of milliamperes.

    Source: Omron SS data sheet, micro-load types SS-01 beside SS-5 and SS-10.
    """
    if case.settled or case.sheet.id not in {"switch", "interlock_switch", "relay"}:
        return
    want = [d.amount for d in duties(case.need) if d.load in _THROUGH]
    have = [d.amount for d in duties(case.has) if d.load in _THROUGH]
    if want and have and max(want) <= 0.5 and min(have) >= 3:
        yield ask(
            "small-load",
            f"The failed contact was made for {show(max(want), 'A')}: one made for"
            f" {show(min(have), 'A')} may not close a circuit of milliamperes. Does it switch"
            " a board's signal?",
            "Omron SS data sheet, micro-load types",
            "contact_material",
            effort=9,
        )


_THROUGH = ("resistive_a", "gp_a", "dc_a")
"""Currents a contact carries through."""
