"""Words on a contact marking: loads, throws, standards, approvals, and what joins them."""

from __future__ import annotations

import re

from inventory.markings.contacts_items import Break, Load, Throw
from inventory.markings.contacts_scan import ContactScanner, any_case, bounded

UL_LOADS = "relay makers' UL legend: R resistive, GP/GU general, I inductive, B ballast (Finder)"
LAMP_LETTERS = "UL lamp letters: T and L tungsten, H resistive (forum answer; agrees with memory)"
UTILISATION = "IEC 60947-5-1, utilization category"
FORMS = "EN 50005 / makers' sheets: form A = NO, B = NC, C = changeover"

_LOAD_PHRASES = (
    (r"gen(?:eral|\.)[ -]?(?:purpose|use)", "general"),
    (r"resistive(?:\sload)?|res\.?(?:\sload)?", "resistive"),
    (r"inductive(?:\sload)?|ind\.?(?:\sload)?", "inductive"),
    (r"motor(?:\sload)?", "motor"),
    (r"(?:incandescent\s)?lamps?(?:\sload)?|tungsten(?:\slamps?)?(?:\sload)?", "lamp"),
    (r"(?:standard\s|electronic\s)?ballast(?:\sload)?|fluorescent(?:\slamps?)?(?:\sload)?",
     "ballast"),
    (r"GPA?|G\.P\.A?\.?|GU|G\.U\.", "general"),
    (r"heater", "resistive"),
)  # fmt: skip
_LOADS = tuple((any_case(pattern), name) for pattern, name in _LOAD_PHRASES)
_GU_R = any_case(r"GU-R|R-GU")
_CATEGORY = re.compile(
    r"(?P<kind>AC|DC)(?:-(?P<figure>12|13|14|15|1|3)|(?P<glued>13|15|1))(?![0-9A-Za-z.])(?!\s?V(?![A-Za-z-]))"
)
_COS = any_case(
    r"(?:cos\s?(?:φ|ϕ|phi|f|ø)?|p\.?f\.?)\s?\.?\s?=?\s?(?P<figure>[01](?:[.,][0-9]{1,2})?)"
)
_TIME_CONSTANT = re.compile(r"L\s?/\s?R\s?=?\s?(?P<ms>[0-9]{1,3})\s?ms(?:ec)?\.?", re.IGNORECASE)
_LETTER = re.compile(r"(?P<letter>[RIBTLH])(?=\s{0,2}(?:$|[),;]|[/.-](?![0-9])|\s))")
_NUMBER_TAIL = re.compile(r"[0-9]-$")
_LETTERS = {
    "R": ("resistive", "resistive load"),
    "I": ("inductive", "inductive load, power factor 0.4"),
    "B": ("ballast", "ballast load"),
    "T": ("lamp", "tungsten lamps, a.c. and d.c."),
    "L": ("lamp", "tungsten lamps, a.c. only"),
    "H": ("resistive", "resistive load"),
}

_THROW = re.compile(
    r"(?P<name>NO\s?(?:/|and)\s?NC|CO\s?/\s?NC|N\.?O\.?|N\.?C\.?|n\.o\.|n\.?c\.?|CO|C/O"
    r"|(?i:normally[ -](?:open|closed)))(?![0-9A-Za-z])"
    r"(?:\s(?i:contacts?|side|type)(?![A-Za-z]))?"
)
_NUMBER_SIGN = re.compile(r"N[Oo]\.(?=\s?[0-9A-Z])(?!\s?(?:AC|DC)\b)")
_FORM = any_case(
    r"(?P<form>[SD1234]P(?:DT|ST(?=[ -]?\(?(?P<side>NO|NC))?))(?:(?<=ST)[ -]?\(?(?:NO|NC)\)?)?"
    r"|(?P<count>[1-4])?\s?form\s?(?P<letter>[ABC])"
)
_CHANGEOVERS = any_case(r"(?P<count>[1-4])\s?(?P<kind>CO|NO|NC)(?:\scontacts?)?")
_POLES = any_case(r"(?P<count>[1-4])[ -]?(?:poles?|P)")

_NO_RATING = r"(?!\s?(?:[VvAaW~°℃(\[/]|mA|GP|[Hh][Pp]|Hz|[TE][0-9]|at\s|x\s?[0-9]))"
_STANDARD = re.compile(
    r"(?P<body>UL|EN|IEC|VDE|GB|CSA|BS|DIN|ISO)(?:/(?:EN|IEC|UL))?[ -]?"
    r"(?:C?22\.2\s?(?:No\.?|-)\s?(?P<short>[0-9]{1,3}(?:[-.][0-9]{1,3}){0,2})"
    r"|(?P<number>[0-9]{3,6}(?:[-.][0-9]{1,3}){0,3}))"
    rf"(?![0-9A-Za-z]|[.,][0-9]){_NO_RATING}"
)
"""A number of three digits or more, which no unit follows: ``VDE 16(4)A`` names no standard."""
_DUTY_FACTOR = any_case(
    r"DF\s?[0-9]{1,3}|[0-9]{1,4}\s?min-1|[0-9]{1,4}\s?/\s?(?:min|h)"
    r"|[0-9]{1,4} times ?/ ?min\.?|[0-9]{1,2}s ?on ?[0-9]{1,2}s ?off"
)
_NO_LOAD = re.compile(r"when (?:there is )?no load (?:is )?on \(?N\.?C\.?\)?", re.IGNORECASE)
_FILE = re.compile(r"E[0-9]{5,6}(?![0-9A-Za-z])")
_TABS = re.compile(r"#\s?(?P<size>110|125|187|205|250|375)(?![0-9])")
_MATERIAL = bounded(r"Ag(?:Cd|Sn|Ni|Ce|Zn|W|Cu|Pd)(?:O2?|In|[0-9]{1,2}(?:/[0-9]{1,2})?)?(?:In2O3)?")
_WORD = re.compile(r"[A-Za-z]{1,16}")

APPROVALS = {
    **{name.lower(): name for name in ("UL", "cUL", "VDE", "ENEC", "CQC", "CCC", "KC", "CE", "CB")},
    **{name.lower(): name for name in ("SEMKO", "NEMKO", "DEMKO", "FIMKO", "CSA", "KTL", "EK")},
    **{name.lower(): name for name in ("KEMA", "SEV", "IMQ", "BEAB", "ASTA", "PSE", "EAC", "NF")},
    "tuv": "TÜV",
    "tüv": "TÜV",
    "culus": "cULus",
    "curus": "cURus",
    "cru": "cRU",
    "rohs": "RoHS",
}
"""Approval marks as they are printed in letters, and the form they are kept in."""

_CASED = frozenset({"ce", "cb", "ek", "kc", "nf", "ul"})
"""Short ones count only in capitals: ``ce`` in a sentence is not a mark."""

_JOINING = frozenset(
    re.findall(
        "[a-z]+",
        "at and or max min only rated rating ratings load contact contacts switch micro microswitch"
        " snap action ambient temp temperature up to with for approved nominal per each pilot duty"
        " the on is of switching rocker toggle mini relay model type series mark life resist",
    )
)
_SEPARATOR = re.compile(r"[-,:/.&|+()•·@*%]|\[|\]")
_BREAK = re.compile(r"[;|\n]")


def load(scan: ContactScanner) -> bool:
    """Load = a word, a UL code, a utilization category or a power factor."""
    if scan.take(_GU_R, "general use and resistive", UL_LOADS):
        start = scan.marks[-1].start
        scan.items += [Load(start, "general"), Load(start, "resistive")]
        return True
    for pattern, name in _LOADS:
        found = scan.take(pattern, f"{name} load", UL_LOADS)
        if found:
            scan.items.append(Load(found.start(), name))
            return True
    return _category(scan) or _power_factor(scan)


_CATEGORIES = {
    "ac1": "resistive a.c. load",
    "ac3": "squirrel-cage motors",
    "ac12": "resistive and solid-state a.c. loads",
    "ac14": "small a.c. coils",
    "ac15": "a.c. coils above 72 VA",
    "dc1": "resistive d.c. load",
    "dc12": "resistive and solid-state d.c. loads",
    "dc13": "d.c. coils",
}
"""What a utilization category stands for. Source: IEC 60947-4-1 and IEC 60947-5-1."""


def _category_words(found: re.Match[str]) -> str:
    """A utilization category in words."""
    name = f"{found['kind'].lower()}{found['figure'] or found['glued']}"
    return f"utilization category: {_CATEGORIES.get(name, 'not explained here')}"


def _category(scan: ContactScanner) -> bool:
    """AC-15, DC13."""
    found = scan.take(_CATEGORY, _category_words, UTILISATION)
    if found:
        name = f"{found['kind'].lower()}{found['figure'] or found['glued']}"
        scan.items.append(Load(found.start(), "resistive" if name in {"ac1", "dc1"} else name))
    return bool(found)


def _time_words(found: re.Match[str]) -> str:
    """The time constant of a d.c. load with a coil."""
    return f"inductive d.c. load, time constant {found['ms']} ms"


def _power_factor(scan: ContactScanner) -> bool:
    """cosφ=0.4, p.f. 1, L/R=7ms."""
    if scan.take(_TIME_CONSTANT, _time_words, UTILISATION):
        scan.items.append(Load(scan.marks[-1].start, "inductive"))
        return True
    found = scan.take(
        _COS, lambda m: f"power factor {m['figure']}", "maker's data sheet, contact ratings"
    )
    if found:
        figure = float(found["figure"].replace(",", "."))
        scan.items.append(Load(found.start(), "resistive" if figure > 0.95 else "inductive"))
    return bool(found)


def load_letter(scan: ContactScanner) -> bool:
    """R, I, B, T, L, H in a bracket or right behind the volts."""
    found = scan.peek(_LETTER)
    if found is None or scan.glued():
        return False
    before = scan.before()
    glued_to = scan.view[max(0, scan.at - 2) : scan.at]
    if before not in "(-V~Cc/;" or _NUMBER_TAIL.match(glued_to):
        return False
    name, means = _LETTERS[found["letter"]]
    scan.items.append(Load(found.start(), name))
    source = UL_LOADS if found["letter"] in "RIB" else LAMP_LETTERS
    return bool(scan.take(_LETTER, means, source))


_THROWS = {"NO": "make contact (NO)", "NC": "break contact (NC)", "CO": "changeover contact"}


def _throw_name(found: re.Match[str]) -> str:
    """The contact named: NO, NC, CO or NO/NC."""
    if found["name"][:8].lower() == "normally":
        return "NO" if found["name"].lower().endswith("open") else "NC"
    name = found["name"].replace(".", "").replace(" and ", "/").replace(" ", "").upper()
    return "CO" if name == "C/O" else name


def _throw_words(found: re.Match[str]) -> str:
    """Which contact a rating holds for, in words."""
    name = _throw_name(found)
    return f"the rating holds for the {_THROWS.get(name, f'{name} contacts')}"


def throw(scan: ContactScanner) -> bool:
    """NO, NC, CO, NO/NC: the contact a rating holds for."""
    if scan.glued():
        return False
    if scan.take(_NUMBER_SIGN, "number", "abbreviation"):
        return True
    found = scan.take(_THROW, _throw_words, FORMS)
    if found is None:
        return False
    scan.items.append(Throw(found.start(), _throw_name(found)))
    return True


def form(scan: ContactScanner) -> bool:
    """SPDT, SPST-NO, 1 Form C."""
    found = scan.take(_FORM, "contact form", FORMS)
    if found is None:
        return False
    if found["letter"]:
        name = contact_form(found["letter"].upper(), int(found["count"] or 1))
    else:
        name = (found["form"] + (f"-{found['side']}" if found["side"] else "")).upper()
    scan.fact("contact_form", name)
    return True


def contact_form(letter: str, poles: int = 1) -> str:
    """The contact form of a form letter (A, B or C; also H, D, Z as relay makers print).

    >>> contact_form("C"), contact_form("A", 2)
    ('SPDT', 'DPST-NO')
    """
    prefix = {1: "SP", 2: "DP", 3: "3P", 4: "4P"}[poles]
    return {"A": f"{prefix}ST-NO", "B": f"{prefix}ST-NC", "C": f"{prefix}DT"}[letter]


def _changeover_words(found: re.Match[str]) -> str:
    """How many contacts of which kind."""
    kinds = {"CO": "changeover", "NO": "normally open", "NC": "normally closed"}
    return f"number of {kinds[found['kind'].upper()]} contacts: {found['count']}"


def counted_contacts(scan: ContactScanner) -> bool:
    """2 CO, 1NO, 2 pole: contacts by number."""
    found = scan.take(_CHANGEOVERS, _changeover_words, FORMS)
    if found:
        letter = {"CO": "C", "NO": "A", "NC": "B"}[found["kind"].upper()]
        scan.fact("contact_form", contact_form(letter, int(found["count"])))
        return True
    found = scan.take(_POLES, lambda m: f"number of poles: {m['count']}", FORMS)
    if found:
        scan.fact("poles", int(found["count"]))
    return bool(found)


def standard(scan: ContactScanner) -> bool:
    """UL508, EN 61058-1, CSA C22.2 No.55; a UL file number is marked only."""
    found = scan.take(_STANDARD, lambda m: f"approved to {m[0]}", "the standard named")
    if found:
        scan.fact("standard", found[0])
        return True
    return bool(scan.take(_FILE, "file number of an approval", "UL component directory"))


def switching_rate(scan: ContactScanner) -> bool:
    """DF 10%, 30min-1: how often the rating was tested; no rating of the part."""
    return bool(scan.take(_DUTY_FACTOR, "duty factor or rate of the test", "maker's data sheet"))


def idle_throw(scan: ContactScanner) -> bool:
    """``when there is no load on (NC)``: a condition, no second contact."""
    found = scan.take(_NO_LOAD, "a condition on the rating before it", "Omron G5RL data sheet")
    if found:
        scan.warn("The rating holds only while the NC contact carries no load.")
    return bool(found)


def tabs_and_metal(scan: ContactScanner) -> bool:
    """#187 tabs; AgSnO2 contacts."""
    found = scan.take(_TABS, lambda m: f"quick-connect tabs {TAB_MM[m['size']]} mm wide", "UL 310")
    if found:
        scan.fact("terminal", f"qc-{TAB_MM[found['size']]}")
        return True
    found = scan.take(_MATERIAL, lambda m: f"contacts of {m[0]}", "makers' data sheets")
    if found:
        scan.fact("contact_material", found[0])
    return bool(found)


TAB_MM = {"110": 2.8, "125": 3.2, "187": 4.8, "205": 5.2, "250": 6.3, "375": 9.5}
"""Nominal tab widths in mm by their inch name. Source: UL 310 and IEC 61210."""


def word(scan: ContactScanner) -> bool:
    """An approval mark or a joining word."""
    found = scan.peek(_WORD)
    if found is None or (scan.glued() and scan.view[scan.at - 1].isalpha()):
        return False
    text = found[0]
    name = text.lower()
    if scan.view.startswith(("ÜV", "üv"), found.end()) and text in "Tt":
        return _tuv(scan)
    if name in APPROVALS and (name not in _CASED or text.isupper()) and _ends(scan, found):
        scan.fact_at(found.start(), "approvals", APPROVALS[name])
        return bool(scan.take(_WORD, "approval mark", "mark of the certifying body"))
    if name in _JOINING and _ends(scan, found):
        return bool(scan.take(_WORD, "a word; it carries no figure", "plain language"))
    return False


_TUV = re.compile(r"[Tt][Üü][Vv]")


def _tuv(scan: ContactScanner) -> bool:
    """TÜV: the one approval mark with an umlaut."""
    found = scan.take(_TUV, "approval mark", "mark of the certifying body")
    if found:
        scan.fact_at(found.start(), "approvals", "TÜV")
    return bool(found)


def _ends(scan: ContactScanner, found: re.Match[str]) -> bool:
    """True when the word is not the head of something longer, such as a type code NF-5V0."""
    after = scan.view[found.end() : found.end() + 1]
    coded = scan.at == 0 and _CODE_BEHIND.match(scan.view, found.end())
    return not after.isalnum() and not coded


_CODE_BEHIND = re.compile(r"-(?=[0-9A-Z]{0,8}[0-9])[0-9A-Z]{1,9}(?![0-9A-Za-z])")


def separator(scan: ContactScanner) -> bool:
    """Punctuation between two readable pieces; a semicolon starts another rating."""
    found = scan.peek(_BREAK)
    if found:
        scan.items.append(Break(found.start()))
        return bool(scan.take(_BREAK, "another rating follows", "punctuation"))
    return bool(scan.take(_SEPARATOR, "separator", "punctuation"))
