"""Contact ratings written out in one spelling that reads back to the same ratings."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import Any

from inventory.markings.contacts_ratings import AC_NAMES
from inventory.markings.contacts_words import TAB_MM
from inventory.markings.writing import Line, write
from inventory.records import Reading
from inventory.units import plain

Ratings = Mapping[str, Any]

_BRACKETS = {"motor_a": "({})", "lamp_inrush_a": "[{}]", "inductive_a": "«{}»"}
_LOAD_WORDS = {
    "gp_a": "GP",
    "inductive_a": "(I)",
    "motor_a": "motor",
    "lamp_a": "lamp",
    "ballast_a": "ballast",
    "dc_inductive_a": "inductive",
    "dc_motor_a": "motor",
    "dc_lamp_a": "lamp",
}


def code_text(reading: Reading) -> str:
    """The type codes of a marking as printed, joined by spaces; empty where there is none."""
    spans: list[list[int]] = []
    source = ""
    for mark in reading.marks:
        if mark.means.startswith("type code"):
            spans.append([mark.start, mark.end])
            source = mark.source
        elif spans and mark.start == spans[-1][1] and mark.source == source:
            spans[-1][1] = mark.end
    return " ".join(reading.text[start:end] for start, end in spans)


def write_contacts(
    reading: Reading, read: Callable[[str], Reading], more: Callable[[Ratings], str] | None = None
) -> str:
    """The whole marking: type code, ``more`` of the family, amperes, horsepower, facts."""
    code = code_text(reading)
    coded = read(code).ratings if code else {}
    said = {
        name: value
        for name, value in reading.ratings.items()
        if name not in coded or coded[name] != value
    }
    own = more(said) if more else ""
    pieces = [code, own, _label(said), *_currents(said), *_motors(said), _facts(said)]
    return " ".join(piece for piece in pieces if piece)


def _label(said: Ratings) -> str:
    """An oven's service label."""
    if "types" not in said:
        return ""
    role = said.get("role", [])
    roles = " AND ".join([role] if isinstance(role, str) else role).upper()
    return f"TYPE NO.{' OR '.join(said['types'])} FOR {roles or 'DOOR'} SWITCH"


def _currents(said: Ratings) -> list[str]:
    """Ampere groups; those without volts stand last, or a later voltage would be theirs."""
    if "ratings" not in said:
        return sorted(_row(said), key=lambda piece: not _HAS_VOLTS.search(piece))
    rows = [row for row in said["ratings"] if "maker_rating_a" not in row]
    return [f"{piece} {_bonds(row, rows)}".strip() for row in rows for piece in _row(row)]


_HAS_VOLTS = re.compile("[0-9]V")


def _row(row: Ratings) -> list[str]:
    """One rating row as its ampere groups, each with volts and load."""
    ac, dc = _volts(row, "volts_ac", "V~"), _volts(row, "volts_dc", "V DC")
    pieces = [f"{text} {ac}{load}" for text, load in _ac_groups(row)]
    pieces += [f"{text} {dc}{load}" for text, load in _dc_groups(row)]
    if "amps" in row:
        pieces.append(f"{plain(row['amps'])}A {_volts(row, 'volts', 'V') or ac}")
    if not pieces:
        pieces = [ac, dc]
    return [" ".join(piece.split()) for piece in pieces if piece.strip()]


def _volts(row: Ratings, name: str, unit: str) -> str:
    """Voltages in one spelling; nothing where none are said."""
    return "/".join(plain(value) for value in row[name]) + unit if name in row else ""


def _ac_groups(row: Ratings) -> list[tuple[str, str]]:
    """A.c. figures: the bracketed group first, then each load for itself."""
    groups: list[tuple[str, str]] = []
    in_group: set[str] = set()
    if "resistive_a" in row:
        in_group = {"resistive_a", "motor_a", "inrush_a", "lamp_inrush_a", "inductive_a"}
        groups.append((_bracketed(row), ""))
    groups += [
        (f"{plain(row[name])}A", f" {_load_word(name)}")
        for name in (*AC_NAMES.values(), *_categories(row, "ac"))
        if name in row and name not in in_group
    ]
    if "inrush_a" in row and "inrush_a" not in in_group:
        groups.append((f"{row.get('tv', 'TV-5')} {plain(row['inrush_a'])}A", ""))
    return groups


def _bracketed(row: Ratings) -> str:
    """16(4)A, 8/128A, 6[60]A."""
    text = plain(row["resistive_a"])
    if "inrush_a" in row:
        text += f"/{plain(row['inrush_a'])}"
    if "locked_rotor_a" in row:
        return f"{text}({plain(row['locked_rotor_a'])};{plain(row.get('motor_a', 0))})A"
    for name, form in _BRACKETS.items():
        if name in row:
            text += form.format(plain(row[name]))
    return f"{text}A"


def _dc_groups(row: Ratings) -> list[tuple[str, str]]:
    """D.c. figures, each with its load."""
    names = ("dc_a", "dc_inductive_a", "dc_motor_a", "dc_lamp_a", *_categories(row, "dc"))
    return [
        (f"{plain(row[name])}A{'' if 'volts_dc' in row else ' DC,'}", f" {_load_word(name)}")
        for name in names
        if name in row
    ]


def _categories(row: Ratings, nature: str) -> list[str]:
    """Names such as ``ac15_a``."""
    return [name for name in row if name.startswith(nature) and name[2:-2].isdigit()]


def _load_word(name: str) -> str:
    """The word behind a figure; plain resistive and d.c. figures need none."""
    if name[2:-2].isdigit():
        return f"{name[:2].upper()}-{name[2:-2]}"
    return _LOAD_WORDS.get(name, "")


def _bonds(row: Ratings, rows: list[Ratings]) -> str:
    """What binds one row alone: its throw, its life, its ambient."""
    pieces = [f"({row['contact']})"] if "contact" in row else []
    if "endurance_cycles" in row:
        cycles = row["endurance_cycles"]
        bare = any("amps" in other and "volts_ac" in other for other in rows)
        lives = {other.get("endurance_cycles") for other in rows} - {None}
        alone = bare or len(lives) == 1
        pieces.append(f"({cycles // 1000}k life only)" if alone else cycles_text(cycles))
    return " ".join([*pieces, t_text(row)]).strip()


def _motors(said: Ratings) -> list[str]:
    """Horsepower rows; their volts stand in brackets, so that none goes astray."""
    return [_motor(row) for row in said.get("hp", ())]


def _motor(row: Ratings) -> str:
    """One horsepower with its volts and full-load amperes."""
    volts = f" ({plain(row['volts'])}V)" if row["volts"] is not None else ""
    fla = "".join(f" ({plain(row[name])} {name.upper()})" for name in ("fla", "lra") if name in row)
    return f"{horse_text(row['hp'])}HP{volts}{fla}"


def horse_text(hp: float) -> str:
    """Horsepower as a fraction where it is one.

    >>> horse_text(0.1667), horse_text(1.5), horse_text(2)
    ('1/6', '1 1/2', '2')
    """
    part = Fraction(hp % 1).limit_denominator(20)
    if hp % 1 and abs(float(part) - hp % 1) < 0.0001:
        whole = f"{int(hp)} " if hp >= 1 else ""
        return f"{whole}{part.numerator}/{part.denominator}"
    return plain(hp)


def cycles_text(cycles: int) -> str:
    """Endurance in scientific notation.

    >>> cycles_text(50000), cycles_text(6000), cycles_text(1200)
    ('5E4', '6E3', '12E2')
    """
    power = 0
    while cycles % 10 == 0 and cycles and power < 7:
        cycles, power = cycles // 10, power + 1
    return f"{cycles}E{power}" if power else f"{cycles} cycles"


def t_text(row: Ratings) -> str:
    """An ambient as a T mark, or in degrees where no lower figure is said."""
    if "ambient_max_c" not in row:
        return ""
    if "ambient_min_c" not in row:
        return f"{row['ambient_max_c']}°C"
    low = row["ambient_min_c"]
    sign = "" if low == 0 else f"{-low}" if low < 0 else f"+{low}"
    part = f"/{row['ambient_partial_max_c']}" if "ambient_partial_max_c" in row else ""
    return f"{sign}T{row['ambient_max_c']}{part}"


_TAB_NAMES = {f"qc-{size}": name for name, size in TAB_MM.items()}
_FACTS: tuple[Line, ...] = (
    ("contact_form", "{}"),
    ("poles", "{} pole"),
    ("contact", "{} contact"),
    ("tv", "{}"),
    ("pilot_duty", "{}"),
    ("lamp_w", "{}W lamp"),
    ("specific_load", "{}"),
    ("motor_kw", "{}kW"),
    ("motor_fla_a", "{} FLA"),
    ("motor_lra_a", "{} LRA"),
    ("disconnection", {"micro": "µ", "electronic": "ε", "full": "full disconnection"}),
    ("endurance_cycles", cycles_text),
    ("frequency_hz", lambda hz: "-".join(str(figure) for figure in hz) + "Hz"),
    ("ip", "{}"),
    ("glow_wire_c", "GWT {}"),
    ("pti", "PTI {}"),
    ("pollution_degree", "PD{}"),
    ("protection_class", "class {}"),
    ("contact_gap_mm", "contact gap {} mm"),
    ("contact_material", "{}"),
    ("terminal", lambda name: f"#{_TAB_NAMES[name]}" if name in _TAB_NAMES else ""),
    ("standard", "{}"),
    ("approvals", "{}"),
)


def _facts(said: Ratings) -> str:
    """All that is said once for the whole part."""
    ambients = " ".join(t_text(row) for row in (said, *said.get("ambients", ())))
    return " ".join(f"{ambients} {write(said, *_FACTS)}".split())
