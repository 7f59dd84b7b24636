"""Warnings come once and when they matter.

Sources: Samsung MD1200WD service manual (discharge), Daewoo KOG-131A9A service manual (the set),
LG MB-308DDD service manual (continuity check), 21 CFR 1030.10 (leakage).
"""

from __future__ import annotations

import pytest

from inventory.errors import WrongInput
from inventory.families.sheet import families, shared_cautions
from inventory.rules.cautions import AT_PLACE, AT_PLACE_KIND, cautions

DISCHARGE = shared_cautions()["hv-discharge"]
SET = shared_cautions()["monitor-set"]
LEAK = shared_cautions()["leak-survey"]


def test_a_harmless_family_brings_no_warning() -> None:
    """A tray is a tray."""
    assert cautions("tray", "find") == ()


@pytest.mark.parametrize("when", ["strip", "bench", "fit"])
def test_the_high_voltage_warns_before_hands_go_in(when: str) -> None:
    """Discharge first, when stripping, testing and fitting."""
    assert DISCHARGE in cautions("hv_capacitor", when)
    assert DISCHARGE not in cautions("hv_capacitor", "find")


def test_a_warning_comes_once() -> None:
    """Family and place both name the set; it is said once."""
    found = cautions("interlock_switch", "find", "monitor")

    assert found.count(SET) == 1


def test_an_interlock_place_brings_its_warnings_to_any_switch() -> None:
    """A plain micro switch at the door: discharge, the set, continuity and the leak survey."""
    found = cautions("switch", "fit", "primary-interlock")

    assert {DISCHARGE, SET, LEAK} <= set(found)
    assert any("continuity" in caution.text for caution in found)


def test_a_line_fuse_brings_the_set() -> None:
    """Three switches and the fuse. Source: Daewoo KOG-131A9A service manual."""
    assert SET in cautions("fuse", "find", "line-fuse")
    assert SET not in cautions("fuse", "find", "control-fuse")


def test_a_place_alone_warns_too() -> None:
    """Before the family is known."""
    assert SET in cautions(None, "find", "crowbar")


def test_the_makers_service_sheet_leads() -> None:
    """The tool's own words do not replace it."""
    assert "service sheet leads" in DISCHARGE.text


@pytest.mark.parametrize("family", families())
@pytest.mark.parametrize("when", ["find", "strip", "bench", "fit", "log"])
def test_no_family_repeats_a_warning(family: str, when: str) -> None:
    """Once and brief."""
    texts = [caution.text for caution in cautions(family, when)]

    assert len(texts) == len(set(texts))
    assert all(len(text) <= 300 for text in texts)


def test_every_warning_of_a_place_exists() -> None:
    """No place names a caution nobody wrote."""
    named = {name for names in (*AT_PLACE.values(), *AT_PLACE_KIND.values()) for name in names}

    assert named <= set(shared_cautions())


def test_an_unknown_place_is_the_users_mistake() -> None:
    """One sentence."""
    with pytest.raises(WrongInput, match="There is no place"):
        cautions("switch", "find", "attic")
