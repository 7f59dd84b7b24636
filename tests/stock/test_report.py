"""Lines of ``low``, from sums to what to do."""

from __future__ import annotations

import random
from dataclasses import asdict, replace

import pytest

from inventory.errors import WrongInput
from inventory.stock.asked import Donor
from inventory.stock.demand import gamma_poisson_level
from inventory.stock.need import demand_of, known_shelf
from inventory.stock.report import LowLine, _of_hundred, what_runs_short
from tests.stock.parts import SETTINGS, part


def line(**more: object) -> LowLine:
    """The line of one part type alone on its shelf."""
    return what_runs_short([part(**more)], SETTINGS).lines[0]  # type: ignore[arg-type]


def test_the_level_is_the_models() -> None:
    """Lead time one month and review one month: protection two."""
    one = part(jobs=6)
    rate = demand_of(one, known_shelf([one], SETTINGS), SETTINGS).rate
    found = line(jobs=6)

    assert found.keep_at_least == found.order_up_to == found.level_by_model
    assert found.keep_at_least == gamma_poisson_level(a=rate.a, b=rate.b, P=2)


def test_an_order_is_due_when_the_position_falls_below() -> None:
    """At the level nothing is short; one piece below it is."""
    level = line(jobs=6).keep_at_least

    assert not line(jobs=6, good=level).short
    assert line(jobs=6, good=level).actions == ()
    below = line(jobs=6, good=level - 1)
    assert (below.short, below.missing) == (True, 1)


def test_untested_pieces_do_not_hide_a_shortage() -> None:
    """They are shown apart, and benching them is the first thing to do."""
    found = line(jobs=6, untested=9)

    assert (found.short, found.good, found.untested) == (True, 0, 9)
    assert found.actions[0].kind == "bench"
    assert found.p_run_out_with_untested < found.p_run_out


def test_held_pieces_are_gone_and_ordered_ones_on_their_way() -> None:
    """Held lowers the position, on order lifts it, but not what is there before delivery."""
    plain, held = line(jobs=6, good=3), line(jobs=6, good=3, held=1)
    ordered = line(jobs=6, good=3, on_order=2)

    assert (held.position, ordered.position) == (plain.position - 1, plain.position + 2)
    assert held.p_run_out > plain.p_run_out == ordered.p_run_out


def test_the_two_service_figures_differ() -> None:
    """Months without a shortage and requests filled at once, each in its own words."""
    found = line(jobs=6)

    assert found.months_without_shortage != found.filled_at_once
    assert found.months_without_shortage >= found.target
    words = found.service_in_words()
    assert words[0].startswith("months without a shortage:")
    assert words[1].startswith("requests filled at once:")


def test_almost_always_is_not_always() -> None:
    """Rounding never claims 100 of 100."""
    assert _of_hundred(0.9999) == "99 of 100"
    assert _of_hundred(1.0) == "100 of 100"


def test_no_history_says_so() -> None:
    """Prior only: one piece for a month, two for two. Source: reference section 2."""
    found = line(months=0)

    assert found.basis == "no history: prior only"
    assert found.prior_only
    assert found.keep_at_least == 2


def test_a_level_set_by_hand_wins_and_the_models_stands_beside_it() -> None:
    """The person's figure is kept, the model's is shown, and what to do follows the person's."""
    found = line(jobs=6, keep_at_least=9, good=8)

    assert (found.keep_at_least, found.target_from) == (9, "set by hand")
    assert found.level_by_model < 9
    assert [action.pieces for action in found.actions] == [1]


def test_a_hand_set_level_of_nothing_is_never_short() -> None:
    """Zero means: do not keep any."""
    assert not line(jobs=6, keep_at_least=0).short


def test_an_order_cost_makes_lots() -> None:
    """With a price and a cost of ordering, more is ordered at once."""
    settings = replace(SETTINGS, order_cents=600)
    found = what_runs_short([part(jobs=12, price_cents=200)], settings).lines[0]

    assert found.order_up_to > found.keep_at_least
    assert found.actions[-1].pieces == found.order_up_to


def test_months_of_cover_are_free_pieces_over_demand() -> None:
    """Two free pieces at about half a job a month."""
    found = line(jobs=6, good=3, held=1)

    assert found.months_of_cover == pytest.approx(2 / found.per_month)


def test_what_presses_most_comes_first_whatever_the_order_given() -> None:
    """Short and used ones first, then by the chance of running out."""
    parts = [part(i, jobs=i % 7, good=i % 3) for i in range(1, 15)]
    shuffled = list(parts)
    random.Random(4).shuffle(shuffled)

    one, other = (what_runs_short(x, SETTINGS).lines for x in (parts, shuffled))
    assert one == other
    assert [x.short for x in one] == sorted((x.short for x in one), reverse=True)


def test_a_shelf_full_of_equals_is_not_short() -> None:
    """Apart one of the two runs short; counted as a pool neither does."""
    parts = [part(1, jobs=6, good=0), part(2, jobs=1, good=9)]
    apart = what_runs_short(parts, SETTINGS)
    together = what_runs_short(parts, SETTINGS, pools={"16 A relays": [1, 2]})

    assert [x.part_id for x in apart.short()] == [1]
    assert together.short() == ()
    assert together.lines[0].members == (1, 2)


def test_a_pool_needs_less_than_its_members_apart() -> None:
    """Demands that stand in for one another even out."""
    parts = [part(i, jobs=4) for i in (1, 2, 3)]
    apart = sum(x.keep_at_least for x in what_runs_short(parts, SETTINGS).lines)
    together = what_runs_short(parts, SETTINGS, pools={"all": [1, 2, 3]}).lines[0]

    assert together.keep_at_least < apart


def test_a_part_type_is_in_one_pool_only() -> None:
    """Counting it twice would make stock out of nothing; unknown numbers are passed over."""
    parts = [part(1), part(2)]

    with pytest.raises(WrongInput, match="in another pool already"):
        what_runs_short(parts, SETTINGS, pools={"a": [1, 2], "b": [2]})
    assert len(what_runs_short(parts, SETTINGS, pools={"a": [1, 99], "b": [98]}).lines) == 2


def test_own_lead_time_and_review_come_before_the_shops() -> None:
    """A part that takes half a year to come is kept higher."""
    assert line(jobs=6, lead_time=6.0).keep_at_least > line(jobs=6).keep_at_least
    assert line(jobs=6, review=4.0).keep_at_least > line(jobs=6).keep_at_least


def test_a_line_is_plain_values() -> None:
    """It can go to JSON as it is."""
    found = asdict(line(jobs=2, donors=(Donor("U-1", 1, 3),)))

    assert found["actions"][0]["kind"] == "pull"
    assert set(found) >= {"good", "untested", "p_run_out", "basis", "filled_at_once"}


def test_an_empty_shelf_has_no_lines() -> None:
    """Nothing to report is an answer."""
    assert what_runs_short([], SETTINGS).lines == ()
