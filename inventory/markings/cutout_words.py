"""Words around the figures of a cut-out: where it sits, what it is, how it is built."""

from __future__ import annotations

from inventory.markings.amounts import Phrase, phrases

SHARP = "oven service manuals: THERMAL CUT-OUT TC 145 °C (MG), (HOOD), (OVEN), (CAVITY)"
PLACES = phrases(
    Phrase(
        r"\(\s?MG\s?\)|MG(?=\))|magnetron",
        "sits at the magnetron",
        {"location": "magnetron"},
        SHARP,
    ),
    Phrase(r"\(?\s?hood\s?\)?", "sits in the hood", {"location": "hood"}, SHARP),
    Phrase(r"\(\s?oven\s?\)", "sits at the oven", {"location": "oven"}, SHARP),
    Phrase(r"\(?\s?(?:oven )?cavity\s?\)?", "sits at the cavity", {"location": "cavity"}, SHARP),
    Phrase(
        r"\(?\s?top[ -]heater\s?\)?", "sits at the top heater", {"location": "top heater"}, SHARP
    ),
    Phrase(
        r"\(?\s?side[ -]heater\s?\)?", "sits at the side heater", {"location": "side heater"}, SHARP
    ),
    Phrase(
        r"\(?\s?(?:grill|grill heater)\s?\)?", "sits at the grill", {"location": "grill"}, SHARP
    ),
    Phrase(
        r"HV transformer primary|(?:transformer[ -])?primary(?:[ -](?:coil|winding))?"
        r"|transformer",
        "sits in the primary of the high-voltage transformer",
        {"location": "HV transformer primary"},
        SHARP,
    ),
    Phrase(r"hi(?:gh)?[ -]limit", "limits the heater", {"location": "hi-limit"}),
    Phrase(r"outlet|exhaust", "sits in the outlet", {"location": "outlet"}),
    Phrase(r"safety", "safety cut-out", {"location": "safety"}),
)
WORDS = phrases(
    Phrase(
        r"thermal (?:cut[ -]?(?:outs?|off)|protector|switch|limiter)|cut-?outs?"
        r"|TCO?(?: ?[0-9])?(?![0-9])",
        "it is a thermal cut-out",
    ),
    Phrase(r"thermostats?|thermodisc|bimetal|snap[ -]?(?:action|disc)", "it is a thermostat"),
    Phrase(
        r"(?:check )?top marking|temp(?:erature)?\.?(?: (?:switch|rating))?|rating|electrical"
        r"|type|model|rated",
        "heading",
    ),
    Phrase(
        r"approx(?:imately|\.)?|about|around|at|will|causing|the|and|then|when|if|to|or|is|of"
        r"|on|it|from|again|temperature",
        "joining word",
    ),
    Phrase(r"resistive(?: load)?", "of a resistive load"),
    Phrase(r"ceramic(?: (?:body|housing))?", "ceramic body", {"body": "ceramic"}),
    Phrase(
        r"(?:plastic|bakelite|phenolic|PPS)(?: (?:body|housing))?",
        "plastic body",
        {"body": "plastic"},
    ),
    Phrase(
        r"movable (?:flange|bracket)|loose (?:flange|bracket)",
        "movable flange",
        {"flange": "movable"},
    ),
    Phrase(
        r"fixed (?:flange|bracket)|(?:immovable) (?:flange|bracket)",
        "fixed flange",
        {"flange": "fixed"},
    ),
)
