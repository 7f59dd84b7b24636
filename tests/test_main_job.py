"""The main job end to end on published markings: loaded, read, found, judged.

Sources: each case in ``tests/cases`` names its own; which figures may replace which is checked
against the published figures alone (``tests.main_job``), by other code than the rules'.
"""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from inventory.records import Verdict
from inventory.store.shelf import Shelf
from tests.main_job import Figures, ask_for, cases, count, lower, missing, shelf_of
from tests.rules.bench import judged


@pytest.fixture(scope="module")
def bare(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shelf]:
    """A shelf of every marking as printed, and nothing else known of the parts."""
    shelf = shelf_of(tmp_path_factory.mktemp("bare"), shaped=False)
    yield shelf
    shelf.close()


@pytest.fixture(scope="module")
def shaped(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shelf]:
    """The same, with one contact form, body and actuator for all switches."""
    shelf = shelf_of(tmp_path_factory.mktemp("shaped"), shaped=True)
    yield shelf
    shelf.close()


@pytest.fixture(scope="module")
def of_bare(bare: Shelf) -> Figures:
    """Every marking asked for on the bare shelf."""
    return count(bare, shaped=False)


@pytest.fixture(scope="module")
def of_shaped(shaped: Shelf) -> Figures:
    """Every marking asked for on the shelf of one shape."""
    return count(shaped, shaped=True)


def test_every_case_is_asked_for(of_bare: Figures, of_shaped: Figures) -> None:
    """All switch markings and all fuses of the case files."""
    assert of_bare.asked == of_shaped.asked == len(cases()) > 45


def test_nothing_is_read_wrong_in_silence(of_bare: Figures) -> None:
    """What is not decoded as published says so; nine in ten are decoded exactly."""
    exact = of_bare.read["exact"] + of_bare.read["exact with a warning"]

    assert of_bare.silent == []
    assert exact >= 0.95 * of_bare.asked


def test_the_markings_own_part_type_comes_first(of_bare: Figures) -> None:
    """Whoever types what is printed sees the part with that print at the top."""
    assert of_bare.first == of_bare.asked


@pytest.mark.parametrize("figures", ["of_bare", "of_shaped"])
def test_no_part_published_lower_is_offered_as_good(
    figures: str, request: pytest.FixtureRequest
) -> None:
    """In no separate quantity: resistive, motor, horsepower, d.c., volts, ambient, fuse letters."""
    done: Figures = request.getfixturevalue(figures)

    assert done.lower == []


@pytest.mark.parametrize("figures", ["of_bare", "of_shaped"])
def test_no_part_with_an_unpublished_quantity_is_offered_as_good(
    figures: str, request: pytest.FixtureRequest
) -> None:
    """What nobody published of the offered part is at best a question."""
    done: Figures = request.getfixturevalue(figures)

    assert done.unknown == []


@pytest.mark.parametrize("figures", ["of_bare", "of_shaped"])
def test_no_part_that_is_enough_in_everything_is_refused(
    figures: str, request: pytest.FixtureRequest
) -> None:
    """A refusal has a published figure behind it."""
    done: Figures = request.getfixturevalue(figures)

    assert done.refused_though_enough == []


def test_a_rating_alone_is_never_a_fit_for_a_switch(bare: Shelf) -> None:
    """Markings without a type code leave the shape open: at best a question."""
    coded = {"sw083", "sw127", "sw128"}  # their markings are type codes
    fits = [
        case.id
        for case in cases()
        if case.family == "switch" and case.id not in coded
        for one in ask_for(bare, case, shaped=False).stand_ins
        if one.verdict in {Verdict.SAME, Verdict.FITS}
    ]

    assert fits == []


def test_once_the_shape_is_known_the_ratings_decide(of_shaped: Figures) -> None:
    """With form, body and actuator said there are fits, questions and refusals."""
    assert all(of_shaped.verdicts[verdict] > 20 for verdict in ("fits", "ask", "refused"))


def test_every_pair_is_judged_like_that_without_a_shelf_too() -> None:
    """All pairs of published expectations before the judge: none lower or unknown is good."""
    wrong = [
        f"{offered.id} for {wanted.id}"
        for wanted in cases()
        for offered in cases()
        if wanted.family == offered.family
        and (lower(wanted.expect, offered.expect) or missing(wanted.expect, offered.expect))
        and judged(wanted.family, dict(wanted.expect), dict(offered.expect)).verdict
        in {Verdict.FITS, Verdict.SAME}
    ]

    assert wrong == []


def test_the_independent_check_can_find_a_lower_part() -> None:
    """It would see a 10 A switch offered for 16 A, a motor figure, volts, and another letter."""
    at = {"resistive_a": 16, "motor_a": 4, "volts_ac": [250], "ambient_max_c": 85}

    assert lower(at, {**at, "resistive_a": 10}) == ["resistive_a"]
    assert lower(at, {**at, "motor_a": 3}) == ["motor_a"]
    assert lower(at, {**at, "volts_ac": [125]}) == ["resistive_a", "motor_a"]
    assert lower(at, {**at, "ambient_max_c": 55}) == ["ambient_max_c"]
    assert lower({"hp": [{"hp": 0.5, "volts": 125}]}, {"hp": [{"hp": 0.25, "volts": 120}]})
    assert lower({"time_characteristic": "T"}, {"time_characteristic": "F"})
    assert missing(at, {"resistive_a": 16, "volts_ac": [250]}) == ["motor_a", "ambient_max_c"]
