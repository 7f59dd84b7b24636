"""What every family sheet promises, and what single ones must say."""

from __future__ import annotations

import time

import pytest

from inventory.errors import WrongInput
from inventory.families.sheet import Sheet, families, from_toml, shared_cautions, sheet, written

IN_SCOPE = {
    "switch", "interlock_switch", "relay", "thermal_cutout", "fuse", "hv_fuse", "thermal_link",
    "mov", "hv_capacitor", "hv_diode", "magnetron", "transformer", "inverter_board",
    "capacitor_safety", "capacitor", "resistor", "resistor_fusible", "ntc", "diode", "triac",
    "motor_turntable", "motor_fan", "belt", "bearing", "drive_coupler", "roller", "tray",
    "terminal", "connector", "cord", "wire", "coupler", "lamp", "screw", "other",
}  # fmt: skip
"""Source: design section 4."""

EVERY = [pytest.param(sheet(family), id=family) for family in families()]


def test_every_family_in_scope_has_a_sheet() -> None:
    """Nothing on a bench is refused a record."""
    assert set(families()) == IN_SCOPE


def test_an_unknown_family_is_the_users_mistake() -> None:
    """One sentence names it."""
    with pytest.raises(WrongInput, match="There is no family 'toaster'"):
        sheet("toaster")


@pytest.mark.parametrize("one", EVERY)
def test_a_sheet_has_its_files_name(one: Sheet) -> None:
    """The identifier in the file is the one it is asked for by."""
    assert sheet(one.id) is one


@pytest.mark.parametrize("one", EVERY)
def test_every_comparison_has_a_reason_and_a_source(one: Sheet) -> None:
    """Published, common practice or from memory: but never nothing."""
    bare = [a.name for a in one.attributes if not (a.reason and a.source)]

    assert not bare


@pytest.mark.parametrize("one", EVERY)
def test_attribute_names_are_one_each(one: Sheet) -> None:
    """No two lines of a sheet speak of the same rating."""
    names = [name for a in one.attributes for name in (a.name, *a.also_named)]

    assert len(names) == len(set(names))


@pytest.mark.parametrize("one", EVERY)
def test_there_is_one_good_state_and_some_bad_ones(one: Sheet) -> None:
    """A test can say yes in one way only."""
    assert len(one.good_states()) == 1
    assert any(not state.good for state in one.states)
    assert one.state_names()[0] == "untested"


@pytest.mark.parametrize("one", EVERY)
def test_a_broken_limit_leads_to_a_bad_state_of_the_family(one: Sheet) -> None:
    """No limit names a state the sheet does not have, or a good one."""
    bad = {state.name for state in one.states if not state.good}

    assert {limit.state for limit in one.limits} <= bad


@pytest.mark.parametrize("one", EVERY)
def test_every_limit_has_a_source(one: Sheet) -> None:
    """A figure without an origin is not a limit."""
    assert all(limit.source for limit in one.limits)


@pytest.mark.parametrize("one", EVERY)
def test_stand_ins_are_families(one: Sheet) -> None:
    """A family named as stand-in exists."""
    assert set(one.stand_in_families) <= set(families())


@pytest.mark.parametrize("one", EVERY)
def test_what_good_needs_has_a_limit_or_is_a_help(one: Sheet) -> None:
    """A reading that is asked for can also be judged."""
    contacts = {"rest_ohm", "pressed_ohm", "at_c", "cold_mohm", "drop_mv_at_1a"}
    known = {limit.reading for limit in one.limits} | contacts

    assert all(set(need.split("|")) & known for need in one.good_needs)


CONTACTS = ("switch", "interlock_switch", "relay")


@pytest.mark.parametrize("family", CONTACTS)
def test_contacts_click_or_are_open_welded_or_weak(family: str) -> None:
    """Source: design section 1, tested states."""
    assert set(sheet(family).state_names()) == {"untested", "clicks", "open", "welded", "weak"}


def test_every_contact_family_asks_for_its_current() -> None:
    """Where contact ratings are compared, one of them must be said."""
    rated = [one for one in map(sheet, families()) if any(a.load for a in one.attributes)]

    assert len(rated) == 4
    assert all(any(a.load and a.unsaid == "ask" for a in one.attributes) for one in rated)


POLICIES = {
    "thermal_link": "new-only", "mov": "new-only", "hv_fuse": "new-only",
    "resistor_fusible": "new-only", "inverter_board": "same-type-only",
    "interlock_switch": "same-type-only", "hv_capacitor": "salvage-if-tested",
    "magnetron": "salvage-if-tested", "tray": "salvage-if-inspected",
    "belt": "salvage-if-inspected",
}  # fmt: skip
"""Source: common practice, with the makers' service manuals named on the sheets."""


@pytest.mark.parametrize(("family", "policy"), POLICIES.items())
def test_the_reuse_policy_is_the_trades(family: str, policy: str) -> None:
    """What may come out of a scrapped unit at all."""
    assert sheet(family).policy == policy


HIGH_VOLTAGE = (
    "hv_capacitor", "hv_diode", "hv_fuse", "magnetron", "transformer", "inverter_board",
    "interlock_switch",
)  # fmt: skip


@pytest.mark.parametrize("family", HIGH_VOLTAGE)
def test_work_beside_the_capacitor_warns_of_it(family: str) -> None:
    """Source: Samsung MD1200WD service manual, precautions: discharge first."""
    warned = shared_cautions()["hv-discharge"]

    assert warned in sheet(family).cautions
    assert {"strip", "fit"} <= set(warned.when)


def test_a_sheet_is_read_from_its_rows() -> None:
    """Rows become records, lists become tuples, absent figures stay unknown."""
    read = from_toml(written("hv_capacitor"))
    attribute = read.attribute("capacitance_uf")

    assert attribute is not None
    assert (attribute.tolerance, attribute.ask_tolerance) == (0.05, 0.1)
    assert attribute.order == ()
    assert read.attribute("colour") is None


def test_reading_all_sheets_is_quick() -> None:
    """A find must not wait for its sheets: all of them take under a second of work."""
    start = time.process_time()
    for family in families():
        from_toml(written(family))

    assert time.process_time() - start < 1.0
