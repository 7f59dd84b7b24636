"""The whole shelf against a model in memory: any actions, in any order, by two benches.

After every action the lots, holds and fitted pieces are those of the model, and the shelf checks
itself without a finding. An undo of the very last write gives exactly what was there before it.
"""

from __future__ import annotations

import shutil
from collections.abc import Callable
from copy import deepcopy
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    RuleBasedStateMachine,
    initialize,
    invariant,
    precondition,
    rule,
    run_state_machine_as_test,
)

from inventory.bench import jobs as repairs
from inventory.bench import moves
from inventory.bench.log import Piece, log_pieces
from inventory.bench.merging import merge
from inventory.bench.testing import bench_test
from inventory.bench.undo import undo
from inventory.errors import InventoryError
from inventory.store import journal, lots
from inventory.store.check import check
from inventory.store.jobs import Job
from inventory.store.shelf import Shelf, open_shelf
from tests.trust.model import Holder, Model, back_to
from tests.trust.places import quick_folder

PIECES = st.integers(1, 4)
WHICH = st.integers(0, 7)
BENCH = st.sampled_from(["north", "south"])
STATES = st.sampled_from(["good", "bad", "untested"])
MARKINGS = ("EX-1 alpha", "EX-2 beta", "EX-3 gamma")


class ShelfMachine(RuleBasedStateMachine):
    """Every action is tried on the shelf and foretold by the model."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = quick_folder()
        self.model = Model()
        # bench and model before each write; None once an undo reached past others
        self.before: list[tuple[str, Model | None]] = []

    @initialize()
    def open(self) -> None:
        """Two benches at one shelf."""
        path = str(self.folder / "a.shelf")
        self.shelves: dict[str, Shelf] = {
            "north": open_shelf(path, bench="north", create=True),
            "south": open_shelf(path, bench="south"),
        }

    def teardown(self) -> None:
        """Take the shelf away."""
        shutil.rmtree(self.folder, ignore_errors=True)

    def _lot(self, which: int) -> int:
        """One of the lots."""
        return sorted(self.model.lots)[which % len(self.model.lots)]

    def _job(self, which: int) -> int:
        """One of the jobs, or 0 for none."""
        return sorted([0, *self.model.jobs])[which % (len(self.model.jobs) + 1)]

    def _try(
        self, bench: str, act: Callable[[Shelf], Any], then: Callable[[Model], None], *, ok: bool
    ) -> None:
        """Do it; it must succeed exactly where the model allows it."""
        said = self._refusal(lambda: act(self.shelves[bench]))
        assert (said is None) == ok, said or "done although the model forbids it"
        if ok:
            self.before.append((bench, deepcopy(self.model)))
            then(self.model)

    def _refusal(self, act: Callable[[], Any]) -> str | None:
        """The sentence of a refusal; None where it was done."""
        try:
            act()
        except InventoryError as error:
            return str(error)
        return None

    @rule(bench=BENCH, marking=st.sampled_from(MARKINGS), pieces=PIECES, state=STATES)
    def log(self, bench: str, marking: str, pieces: int, state: str) -> None:
        """A lot comes in."""
        piece = Piece(marking=marking, family="other", quantity=pieces, state=state, bin="A1")

        known = [
            self.model.merged.get(number, number)  # what was merged goes by what it became
            for number, other in self.model.parts.items()
            if other == marking
        ]
        part = min(known, default=1 + max(self.model.parts, default=0))

        def then(model: Model) -> None:
            model.parts.setdefault(part, marking)
            model.lots[max(model.lots, default=0) + 1] = [part, pieces, state, "A1"]

        self._try(bench, lambda shelf: log_pieces(shelf, [piece]), then, ok=True)

    @precondition(lambda self: self.model.lots)
    @rule(bench=BENCH, which=WHICH, pieces=PIECES, job=WHICH)
    def hold(self, bench: str, which: int, pieces: int, job: int) -> None:
        """Pieces are kept for a job or for nobody in particular."""
        lot, number = self._lot(which), self._job(job)
        allowed = (
            self.model.free(lot) >= pieces
            and self.model.lots[lot][2] != "bad"
            and self.model.jobs.get(number, True)
        )
        self._try(
            bench,
            lambda shelf: moves.hold(shelf, lot, quantity=pieces, job=number or None),
            lambda model: model.add(model.held, lot, number, pieces),
            ok=allowed,
        )

    @precondition(lambda self: self.model.lots)
    @rule(bench=BENCH, which=WHICH, pieces=PIECES, job=WHICH)
    def release(self, bench: str, which: int, pieces: int, job: int) -> None:
        """Held pieces are let go."""
        lot, number = self._lot(which), self._job(job)
        self._try(
            bench,
            lambda shelf: moves.release(shelf, lot, quantity=pieces, job=number or None),
            lambda model: model.add(model.held, lot, number, -pieces),
            ok=self.model.held.get((lot, number), 0) >= pieces,
        )

    @precondition(lambda self: self.model.lots)
    @rule(bench=BENCH, which=WHICH, pieces=PIECES, job=WHICH)
    def fit(self, bench: str, which: int, pieces: int, job: int) -> None:
        """Pieces go into a unit; those held for the job first."""
        lot, number = self._lot(which), self._job(job)
        freed = min(pieces, self.model.held.get((lot, number), 0))
        allowed = (
            self.model.free(lot) + freed >= pieces
            and self.model.lots[lot][2] != "bad"
            and self.model.jobs.get(number, True)
        )

        def then(model: Model) -> None:
            model.add(model.held, lot, number, -freed)
            model.add(model.out, lot, number, pieces)
            model.lots[lot][1] -= pieces

        self._try(
            bench,
            lambda shelf: moves.fit(shelf, lot, quantity=pieces, job=number or None, untested=True),
            then,
            ok=allowed,
        )

    @precondition(lambda self: self.model.lots)
    @rule(bench=BENCH, which=WHICH, pieces=PIECES, job=WHICH, powered=st.booleans())
    def put_back(self, *, bench: str, which: int, pieces: int, job: int, powered: bool) -> None:
        """Fitted pieces come back; a powered one is untested again."""
        lot, number = self._lot(which), self._job(job)
        owner = self.model.whose(lot, number)

        def then(model: Model) -> None:
            model.add(model.out, lot, owner, -pieces)
            model.lots[lot][1] += pieces
            if not powered or model.lots[lot][2] == "untested":
                return
            if model.lots[lot][1] == pieces:
                model.lots[lot][2] = "untested"
            else:
                model.split(lot, pieces, state="untested")

        self._try(
            bench,
            lambda shelf: moves.put_back(
                shelf, lot, quantity=pieces, job=number or None, never_powered=not powered
            ),
            then,
            ok=self.model.out.get((lot, owner), 0) >= pieces,
        )

    @precondition(lambda self: self.model.lots)
    @rule(bench=BENCH, which=WHICH, pieces=PIECES)
    def scrap(self, bench: str, which: int, pieces: int) -> None:
        """Free pieces are thrown away."""
        lot = self._lot(which)

        def then(model: Model) -> None:
            model.lots[lot][1] -= pieces

        self._try(
            bench,
            lambda shelf: moves.scrap(shelf, lot, quantity=pieces, reason="worn"),
            then,
            ok=self.model.free(lot) >= pieces,
        )

    @precondition(lambda self: self.model.lots)
    @rule(bench=BENCH, which=WHICH, counted=st.integers(0, 6))
    def count(self, bench: str, which: int, counted: int) -> None:
        """What is counted is what is there."""
        lot = self._lot(which)

        def then(model: Model) -> None:
            model.lots[lot][1] = counted

        self._try(
            bench,
            lambda shelf: moves.count(shelf, lot, counted),
            then,
            ok=counted >= self.model.held_of(lot),
        )

    @precondition(lambda self: self.model.lots)
    @rule(bench=BENCH, which=WHICH, bin_code=st.sampled_from(["A1", "B2"]), pieces=PIECES)
    def move(self, bench: str, which: int, bin_code: str, pieces: int) -> None:
        """A lot, or some free pieces of it, lie elsewhere."""
        lot = self._lot(which)
        whole = self.model.lots[lot][1] == pieces

        def then(model: Model) -> None:
            if whole:
                model.lots[lot][3] = bin_code
            else:
                model.split(lot, pieces, bin=bin_code)

        self._try(
            bench,
            lambda shelf: moves.move(shelf, lot, bin_code, quantity=pieces),
            then,
            ok=whole or self.model.free(lot) >= pieces,
        )

    @precondition(lambda self: self.model.lots)
    @rule(bench=BENCH, which=WHICH, state=STATES, pieces=PIECES)
    def test(self, bench: str, which: int, state: str, pieces: int) -> None:
        """Some pieces are tested; they become a lot of their own where others remain."""
        lot = self._lot(which)
        there = self.model.lots[lot][1]

        def then(model: Model) -> None:
            if pieces == there:
                model.lots[lot][2] = state
            else:
                model.split(lot, pieces, state=state)

        self._try(
            bench,
            lambda shelf: bench_test(shelf, lot, {}, state=state, pieces=pieces),
            then,
            ok=pieces == there or self.model.free(lot) >= pieces,
        )

    @rule(bench=BENCH)
    def open_job(self, bench: str) -> None:
        """A unit comes in for repair."""
        job = Job(0, "", kind="microwave oven")

        def then(model: Model) -> None:
            model.jobs[max(model.jobs, default=0) + 1] = True

        self._try(bench, lambda shelf: repairs.open_job(shelf, job), then, ok=True)

    @precondition(lambda self: self.model.jobs)
    @rule(bench=BENCH, which=WHICH)
    def close_job(self, bench: str, which: int) -> None:
        """The repair ends; what was held for it is free."""
        number = sorted(self.model.jobs)[which % len(self.model.jobs)]

        def then(model: Model) -> None:
            model.jobs[number] = False
            model.held = {key: n for key, n in model.held.items() if key[1] != number}

        self._try(
            bench,
            lambda shelf: repairs.close_job(shelf, number, {}, "eu", given_up=True),
            then,
            ok=self.model.jobs[number],
        )

    @precondition(lambda self: len(self.model.parts) > 1)
    @rule(bench=BENCH, keep=WHICH, drop=WHICH)
    def merge(self, bench: str, keep: int, drop: int) -> None:
        """Two part types turn out to be one."""
        numbers = sorted(self.model.parts)
        kept, dropped = numbers[keep % len(numbers)], numbers[drop % len(numbers)]

        def then(model: Model) -> None:
            for row in model.lots.values():
                if row[0] == dropped:
                    row[0] = kept
            model.merged[dropped] = kept
            model.merged |= {a: kept for a, b in model.merged.items() if b == dropped}

        allowed = kept != dropped and not {kept, dropped} & set(self.model.merged)
        self._try(bench, lambda shelf: merge(shelf, kept, dropped), then, ok=allowed)

    @rule(bench=BENCH)
    def undo(self, bench: str) -> None:
        """The last write of the bench is taken back; if it was the very last, exactly.

        Where others wrote since, the shelf may refuse; if it does not, what is there now is
        taken over, and the invariants hold it in check.
        """
        mine = [index for index, (who, _) in enumerate(self.before) if who == bench]
        said = self._refusal(lambda: undo(self.shelves[bench]))
        if said is not None:
            assert not mine or mine[-1] != len(self.before) - 1, said
            return
        _, was = self.before.pop(mine[-1])
        if was is not None and mine[-1] == len(self.before):
            self.model = back_to(was, self.model)
            return
        seen = self._on_the_shelf()
        now = Model(self._all_lots(), seen["held"], seen["out"], self._jobs(), self._merged())
        self.model = replace(now, parts=self.model.parts)
        self.before = [(who, None) for who, _ in self.before]

    def _all_lots(self) -> dict[int, list[Any]]:
        """All lots of the shelf."""
        with self.shelves["north"].read() as connection:
            return {
                lot.id: [lot.part_id, lot.on_hand, lot.state, lot.bin]
                for lot in lots.where(connection)
            }

    def _jobs(self) -> dict[int, bool]:
        """All jobs of the shelf, open or not."""
        return {
            job.id: job.closed_at is None
            for job in repairs.list_jobs(self.shelves["north"], all_jobs=True)
        }

    def _merged(self) -> dict[int, int]:
        """Part types that became another one."""
        with self.shelves["north"].read() as connection:
            rows = connection.exec_driver_sql(
                "SELECT id, merged_into FROM part_type WHERE merged_into IS NOT NULL"
            )
            return {row[0]: row[1] for row in rows}

    def _on_the_shelf(self) -> dict[str, Any]:
        """What the shelf says, in the words of the model."""
        held: dict[Holder, int] = {}
        out: dict[Holder, int] = {}
        with self.shelves["north"].read() as connection:
            for event in journal.events(connection, "lot_id IS NOT NULL"):
                key = (event.lot_id or 0, event.job_id or 0)
                held[key] = held.get(key, 0) + event.held
                if event.kind.removeprefix("undone-") in ("fitted", "put-back"):
                    out[key] = out.get(key, 0) - event.quantity
        return Model(self._all_lots(), held, out, self._jobs()).seen()

    @invariant()
    def the_shelf_is_what_the_model_says(self) -> None:
        """Lots, holds, fitted pieces and jobs, one by one."""
        if hasattr(self, "shelves"):
            assert self._on_the_shelf() == self.model.seen()

    @invariant()
    def the_shelf_is_whole(self) -> None:
        """Sums, holds, references, ratings, search index, times and the chain."""
        if hasattr(self, "shelves"):
            assert check(self.shelves["north"]) == []


def _days(how_many: int, actions: int) -> settings:
    """So many days of so many actions each; no time limit, since the disk sets the pace."""
    return settings(
        max_examples=how_many,
        stateful_step_count=actions,
        deadline=None,
        suppress_health_check=list(HealthCheck),
    )


def test_any_actions_in_any_order_leave_the_shelf_whole() -> None:
    """Stock is never negative, sums are those of the journal, nothing is held twice."""
    run_state_machine_as_test(ShelfMachine, settings=_days(15, 20))


@pytest.mark.slow
def test_many_long_days_leave_the_shelf_whole() -> None:
    """The same, far more often and twice as long."""
    run_state_machine_as_test(ShelfMachine, settings=_days(400, 40))
