"""What to do about a shortage."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.stock.asked import Donor
from inventory.stock.counts import Poisson
from inventory.stock.plan import Action, plan
from tests.stock.parts import part

DEMAND = Poisson(1.3)  # F(3) = .957
DONORS = (Donor("U-07", 1, 7), Donor("U-12", 2, 12))


def steps(actions: tuple[Action, ...]) -> list[tuple[str, int, str | None]]:
    """Kind, pieces and unit of each action."""
    return [(action.kind, action.pieces, action.unit) for action in actions]


def test_benching_comes_before_pulling_and_pulling_before_buying() -> None:
    """One untested and three to be had are not enough for seven: the rest is bought."""
    one = part(untested=1, donors=DONORS, good_seen=99, pulled_seen=99)
    found = plan(one, Poisson(5), target=0.95, keep=9, up_to=9)

    assert [kind for kind, _, _ in steps(found)] == ["bench", "pull", "pull", "buy"]
    assert found[1].sentence == "Pull 1 from U-07: about 1.0 good."
    assert (found[1].unit_id, found[2].unit_id) == (7, 12)


def test_no_more_is_pulled_than_reaches_the_target() -> None:
    """With sure yields three pieces are taken for three missing: one benched, two pulled."""
    one = part(untested=1, donors=DONORS, good_seen=10**6, pulled_seen=10**6)

    assert steps(plan(one, DEMAND, target=0.95, keep=3, up_to=3)) == [
        ("bench", 1, None),
        ("pull", 1, "U-07"),
        ("pull", 1, "U-12"),
    ]


def test_doubtful_yields_ask_for_more_pulls() -> None:
    """Half of them good: three pulls are not trusted to bring three."""
    one = part(donors=DONORS, good_seen=10, pulled_seen=20)
    found = plan(one, DEMAND, target=0.95, keep=3, up_to=3)

    assert steps(found)[-1][0] == "buy"
    assert found[0].expected_good == pytest.approx(0.5)


@pytest.mark.parametrize("policy", ["new-only"])
def test_a_new_only_part_is_bought(policy: str) -> None:
    """Neither benched nor pulled, whatever lies there. Source: design section 4."""
    one = part(policy=policy, untested=5, donors=DONORS)

    assert steps(plan(one, DEMAND, target=0.95, keep=3, up_to=3)) == [("buy", 3, None)]


def test_a_part_the_sheet_forbids_is_not_kept() -> None:
    """One sentence, nothing to buy."""
    found = plan(part(policy="never"), DEMAND, target=0.95, keep=3, up_to=3)

    assert steps(found) == [("none", 0, None)]
    assert "never" in found[0].sentence


def test_lots_are_bought_up_to_their_level() -> None:
    """With nothing else to be had the order goes up to the order level."""
    assert steps(plan(part(good=1), DEMAND, target=0.95, keep=3, up_to=7)) == [("buy", 6, None)]


@given(st.integers(0, 4), st.integers(0, 4), st.integers(0, 30), st.floats(0.5, 0.998))
def test_the_plan_reaches_its_target(untested: int, donors: int, good: int, target: float) -> None:
    """Sum over the yield's chances: what will be there covers the demand often enough."""
    keep = DEMAND.quantile(target)
    one = part(untested=untested, donors=(Donor("U-1", donors),), good_seen=good, pulled_seen=30)
    found = plan(one, DEMAND, target=target, keep=keep, up_to=keep)
    tried = sum(a.pieces for a in found if a.kind in {"bench", "pull"})
    bought = sum(a.pieces for a in found if a.kind == "buy")

    from inventory.stock.yields import UNKNOWN_YIELD, stockout_with_donors

    pmf = UNKNOWN_YIELD.after(good, 30).of(tried)
    assert 1 - stockout_with_donors(bought, DEMAND, pmf) >= target - 1e-9
