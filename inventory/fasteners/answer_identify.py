"""Answers to cases of kind ``identify``: a name read, or a screw measured."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from inventory.errors import WrongInput
from inventory.fasteners.designation import ScrewName, read_screw
from inventory.fasteners.identify import CALIPER, Identity, Measured, identify, pitch_of
from inventory.fasteners.thread import INCH

Given = Mapping[str, Any]
Answer = dict[str, Any]


def identify_answer(given: Given) -> Answer:
    """The screw a name or a measurement means."""
    if "name" in given:
        return name_answer(read_screw(str(given["name"])))
    if given.get("major_mm") is None and given.get("major_in") is None:
        raise WrongInput("A name or a measured major diameter is needed.")
    return measured_answer(identify(measured_of(given)))


def measured_of(given: Given) -> Measured:
    """Readings as a case gives them."""
    major = given.get("major_mm")
    pitch = given.get("pitch_mm")
    if pitch is None and given.get("tpi") is not None:
        pitch = pitch_of(float(given["tpi"]))
    return Measured(
        float(major) if major is not None else float(given["major_in"]) * INCH,
        float(pitch) if pitch is not None else None,
        float(given.get("u_major_mm", CALIPER)),
        float(given["u_pitch_mm"]) if given.get("u_pitch_mm") is not None else None,
        int(given.get("gaps", 1)),
    )


def measured_answer(found: Identity) -> Answer:
    """Best, the others the readings leave open, and what would split them."""
    return {
        "best": found.best.name if found.best else None,
        "also": [thread.name for thread in found.cannot_split],
        "candidates": [candidate.thread.name for candidate in found.candidates],
        "ask": found.ask,
        "split_by": list(found.split_by),
    }


def name_answer(name: ScrewName) -> Answer:
    """What a name says; the pitch only where it says one thread."""
    thread = name.thread
    major = thread.major if thread else name.size_mm
    found: Answer = {
        "best": thread.name if thread else None,
        "designation": thread.name if thread else None,
        "candidates": [one.name for one in name.threads],
        "d_mm": major,
        "d_in": major / INCH if major is not None else None,
        "P_mm": thread.pitch if thread else None,
        "tpi": thread.tpi if thread else None,
        "ask": name.ask,
        "also": [],
    }
    found |= {
        "length_mm": name.length,
        "length_in": name.length / INCH if name.length is not None else None,
        "head": name.head,
        "drive": str(name.drive) if name.drive else None,
        "property_class": name.grade,
        "class": name.fit_class,
        "finish": name.finish,
        "unread": list(name.unread),
    }
    return {key: value for key, value in found.items() if value is not None}
