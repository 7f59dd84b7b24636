"""Places in an appliance: what sits there, and what the place asks beyond the rating."""

from __future__ import annotations

from dataclasses import dataclass

DOOR = ("switch", "interlock_switch")
"""Families that may sit at the door."""


@dataclass(frozen=True, slots=True)
class Place:
    """What a part does in the appliance, and the demands that follow."""

    id: str
    name: str
    families: tuple[str, ...]  # what may sit here
    kind: str = "plain"  # interlock, protective, class-x, class-y, earth, cover, power or plain
    contact: str | None = None  # the throw in use here: "NO" or "NC"
    supply: str | None = None  # "ac" where the mains decides
    also_called: tuple[str, ...] = ()
    source: str = "common practice"


def _door(name: str, contact: str | None, *also: str) -> Place:
    """A switch place at the door of an oven."""
    return Place(
        name, name.replace("-", " "), DOOR, "interlock", contact, "ac", also,
        "continuity tables of Daewoo KOG-3805, LG MB-308DDD and ACP MCS10DS service manuals",
    )  # fmt: skip


_CUTOUT = ("thermal_cutout",)
_MOTOR = ("motor_turntable",)

_ALL = (
    # the door
    _door("primary-interlock", "NO", "primary", "primary switch", "upper latch switch"),
    _door("secondary-interlock", "NO", "secondary", "secondary switch", "lower latch switch"),
    _door("monitor", "NC", "monitor switch", "crowbar", "short switch", "interlock monitor"),
    _door("door-sensing", None, "door sense", "sensing switch", "door switch"),
    Place(
        "interlock-relay", "relay standing in for the secondary interlock", ("relay",),
        "interlock", "NO", "ac", ("secondary relay",),
        "Sharp R-520LK and R-820 service manuals: a relay driven by the sensing switch",
    ),
    Place("monitor-resistor", "monitor resistor", ("resistor", "resistor_fusible"), "protective",
          also_called=("fuse resistor",),
          source="Sharp R-3A88 service manual: 0.8 Ω 20 W in the monitor circuit"),
    # power and control
    Place("power-relay", "power relay", ("relay",), "power", "NO", "ac",
          ("main relay", "heater relay", "magnetron relay"),
          "Sharp R-820BC service manual: identical type"),
    Place("fan-relay", "fan or lamp relay", ("relay",), "plain", None, "ac", ("lamp relay",)),
    Place("control-switch", "switch in a control place", ("switch",), "plain", None, None,
          ("timer switch", "cam switch", "turntable switch", "micro switch place")),
    # heat
    Place("cavity-cutout", "cavity cut-out", _CUTOUT, "protective", None, "ac",
          ("oven cut-out", "cavity thermostat"),
          "Sharp R-1505 service manual: 145 °C, protects against fire in the cavity"),
    Place("magnetron-cutout", "magnetron cut-out", _CUTOUT, "protective", None, "ac",
          ("magnetron thermostat", "TC", "MG thermostat"), "Sharp R-3A88 service manual: 145 °C"),
    Place("safety-cutout", "safety cut-out", _CUTOUT, "protective", None, "ac",
          ("hi-limit", "high limit", "safety thermostat", "limiter"),
          "LG DLE3777W service manual: safety thermostat of a dryer"),
    Place("transformer-cutout", "transformer thermostat", _CUTOUT, "protective", None, "ac",
          ("primary thermostat",), "Sharp R-8000GK service manual: 160 / 105 °C"),
    Place("control-thermostat", "control thermostat", _CUTOUT, "plain", None, "ac",
          ("thermostat", "cycling thermostat", "outlet thermostat")),
    Place("hood-thermostat", "hood thermostat", _CUTOUT, "plain", "NO", "ac",
          ("hood fan thermostat",), "Sharp R-1505 service manual: closes at 60 °C"),
    Place("thermal-link", "thermal link", ("thermal_link",), "protective", None, "ac",
          ("thermal fuse", "one-shot", "thermal cutoff"), "Thermodisc G4A data sheet"),
    # fuses and surges
    Place("line-fuse", "line fuse", ("fuse",), "protective", None, "ac",
          ("mains fuse", "monitor fuse", "oven fuse"), "Sharp R-3A88 and R-1505 service manuals"),
    Place("control-fuse", "fuse on a board", ("fuse",), "protective", also_called=("board fuse",)),
    Place("hv-fuse", "high-voltage fuse", ("hv_fuse",), "protective",
          also_called=("high voltage fuse",), source="hi1718 parts note on 5 kV oven fuses"),
    Place("surge-varistor", "surge varistor", ("mov",), "protective", None, "ac",
          ("mov", "varistor")),
    # high voltage
    Place("hv-capacitor", "high-voltage capacitor", ("hv_capacitor",), "power"),
    Place("hv-diode", "high-voltage diode", ("hv_diode",), "power", also_called=("rectifier",)),
    Place("magnetron", "magnetron", ("magnetron",), "power"),
    Place("hv-transformer", "high-voltage transformer", ("transformer",), "power",
          also_called=("transformer",)),
    Place("inverter", "inverter board", ("inverter_board",), "power"),
    # suppression
    Place("x-capacitor", "across the line (X)", ("capacitor_safety",), "class-x", None, "ac",
          ("x cap", "line capacitor"), "IEC 60384-14, class X"),
    Place("y-capacitor", "line to metal (Y)", ("capacitor_safety",), "class-y", None, "ac",
          ("y cap", "earth capacitor"), "IEC 60384-14, class Y"),
    # moving
    Place("turntable-motor", "turntable motor", _MOTOR, also_called=("tray motor",)),
    Place("stirrer-motor", "stirrer motor", ("motor_turntable", "motor_fan"),
          also_called=("antenna motor",)),
    Place("fan-motor", "fan motor", ("motor_fan",), also_called=("blower motor", "cooling fan")),
    Place("hood-fan-motor", "hood fan motor", ("motor_fan",)),
    Place("drive-belt", "drive belt", ("belt",), also_called=("drum belt", "belt")),
    Place("drum-bearing", "drum or motor bearing", ("bearing",), also_called=("bearing",)),
    Place("turntable-coupler", "turntable coupler", ("drive_coupler",),
          also_called=("tray coupler",)),
    Place("roller-ring", "roller ring", ("roller",)),
    Place("tray", "glass tray", ("tray",), also_called=("turntable", "glass plate")),
    # light and wiring
    Place("cavity-lamp", "cavity lamp", ("lamp",), "plain", None, "ac", ("oven lamp",),
          "Mico note on oven lamps: 300 °C types"),
    Place("hood-lamp", "hood lamp", ("lamp",), "plain", None, "ac", ("cooktop lamp",)),
    Place("mains-cord", "mains cord", ("cord",), "power", None, "ac", ("power cord",)),
    Place("appliance-inlet", "appliance inlet or coupler", ("coupler",), "power", None, "ac",
          ("inlet",)),
    Place("earth-lead", "earth lead", ("wire", "terminal"), "earth",
          also_called=("ground lead", "protective conductor")),
    # screws
    Place("earth-screw", "earthing screw", ("screw",), "earth",
          also_called=("ground screw", "earthing screw"),
          source="IEC 60335-1 clauses 27.4, 28.3 and 28.4; IECEE CTL decision sheet 261"),
    Place("cover-screw", "cover screw", ("screw",), "cover",
          also_called=("cabinet screw", "case screw")),
    Place("plain-screw", "any other screw", ("screw",), also_called=("screw",)),
)  # fmt: skip

PLACES: dict[str, Place] = {place.id: place for place in _ALL}
"""All places, by the name a tech types."""
