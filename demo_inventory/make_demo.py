"""Makes ``shelf.json``: two years of an invented shop, played through the real bench functions.

Run from a checkout: ``python demo_inventory/make_demo.py``. The same seed gives the same shelf.
"""

from __future__ import annotations

import random
import sys
import tempfile
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent))

from demo_inventory.catalogue import Spec, catalogue  # noqa: E402
from inventory.bench import dumps, jobs, log, moves, orders, testing, xref  # noqa: E402
from inventory.bench.log import Piece  # noqa: E402
from inventory.errors import InventoryError  # noqa: E402
from inventory.families.sheet import sheet  # noqa: E402
from inventory.records import Edge, SourceUnit  # noqa: E402
from inventory.store import journal, lots, units  # noqa: E402
from inventory.store.jobs import Job  # noqa: E402
from inventory.store.shelf import Shelf, open_shelf  # noqa: E402

START = datetime(2024, 10, 14, 8, 0, tzinfo=UTC)
MONTHS = 24
SEED = 20241101
OVENS = (("Brenka", "BK-20M"), ("Brenka", "BK-25G"), ("Ostwick", "OW 820"), ("Tumbrel", "TL700"),
         ("Halvord", "HV-17"))  # fmt: skip
OTHERS = (("dishwasher", "Halvord", "HD-60"), ("washing machine", "Ostwick", "OWM 7"),
          ("dryer", "Tumbrel", "TD800"), ("cooker hood", "Brenka", "BH-2"))  # fmt: skip
WHY = (
    "magnetron worn out",
    "door bent",
    "board burnt",
    "cavity rusted",
    "glass broken",
    "replaced",
)
BENCHES = ("front bench", "back bench")
PULLED = ("interlock_switch", "switch", "hv_capacitor", "hv_diode", "magnetron", "motor_turntable",
          "motor_fan", "lamp", "thermal_cutout", "relay", "screw", "tray", "roller", "bearing",
          "belt", "cord", "terminal", "inverter_board", "capacitor_safety", "ntc")  # fmt: skip


class Shop:
    """The shop as it is played: a clock, a die and the real shelf."""

    def __init__(self, shelf: Shelf) -> None:
        self.shelf = shelf
        self.die = random.Random(SEED)  # noqa: S311 - a game, not a secret
        self.clock = START
        self.specs = catalogue()
        self.by_code = {spec.type_code: spec for spec in self.specs}
        self.part_ids: dict[str, int] = {}
        self.units = 0
        self.closed: list[tuple[int, int, Spec, datetime]] = []  # job, lot, what, when fitted

    def now(self) -> datetime:
        """The time of the game; it moves on a little with every look."""
        self.clock += timedelta(seconds=self.die.randint(40, 400))
        return self.clock

    def as_bench(self) -> Shelf:
        """The shelf as one of the two benches sees it."""
        return replace(self.shelf, bench=self.die.choice(BENCHES))

    # what happens ----------------------------------------------------------

    def buy(self, spec: Spec, pieces: int) -> None:
        """A box of new spares comes in."""
        lot = self.log(spec, pieces, "new", None, "untested")
        good = next(iter(sorted(sheet(spec.family).good_states())), None)
        if good and spec.family not in ("fuse", "hv_fuse", "thermal_link"):
            testing.bench_test(self.as_bench(), lot, {}, state=good)
        elif good:
            testing.bench_test(self.as_bench(), lot, {}, state=good, note="new, sealed bag")

    def log(self, spec: Spec, pieces: int, origin: str, unit: str | None, state: str) -> int:
        """One lot comes on the shelf; returns its number."""
        piece = self.piece(spec, pieces, origin, unit, state)
        done = log.log_pieces(self.as_bench(), [piece])[0]
        self.part_ids[spec.type_code] = done.lot.part_id
        return done.lot.id

    def piece(
        self, spec: Spec, pieces: int, origin: str, unit: str | None, state: str = "untested"
    ) -> Piece:
        """A piece of a part type in one of its bins."""
        return Piece(
            marking=spec.marking,
            family=spec.family,
            maker=spec.maker,
            type_code=spec.type_code,
            quantity=pieces,
            bin=f"{spec.shelf}-{self.die.randint(1, 12):02d}",
            state=state,
            origin=origin,
            source_unit=unit,
            price_cents=spec.price if origin == "new" else None,
            ratings=spec.ratings,
        )

    def strip(self) -> None:
        """A scrapped unit is taken apart and most of its pieces are tested."""
        self.units += 1
        if self.die.random() < 0.7:
            kind, (maker, model) = "microwave oven", self.die.choice(OVENS)
        else:
            kind, maker, model = self.die.choice(OTHERS)
        unit = SourceUnit(0, f"U{self.units:02d}", kind, maker, model,
                          serial=f"{self.die.randint(10**6, 10**7 - 1)}",
                          why_scrapped=self.die.choice(WHY),
                          arrived=self.clock.date().isoformat(),
                          in_yard=self.units > 50)  # fmt: skip
        pool = [spec for spec in self.specs if spec.family in PULLED]
        chosen = self.die.choices(pool, weights=[s.need * s.price**0.5 for s in pool], k=6)
        distinct = {spec.type_code: spec for spec in chosen}.values()
        pieces = [self.piece(spec, 1, "salvaged", None) for spec in distinct]
        _, done = log.strip_unit(self.as_bench(), unit, pieces)
        for one in done:
            spec = self.by_code[one.part.type_code or ""]
            self.part_ids[spec.type_code] = one.lot.part_id
            if self.die.random() < 0.8:
                self.test(one.lot.id, spec)

    def test(self, lot: int, spec: Spec) -> None:
        """A piece goes over the bench."""
        page = sheet(spec.family)
        good = sorted(page.good_states())
        bad = [state.name for state in page.states if not state.good]
        state = (
            self.die.choice(good)
            if good and self.die.random() < spec.good
            else self.die.choice(bad)
        )
        testing.bench_test(self.as_bench(), lot, {}, state=state)
        if state not in good and self.die.random() < 0.7:
            moves.scrap(self.as_bench(), lot, reason=state)

    def repair(self) -> None:
        """A customer's unit is repaired with what the shelf has."""
        spec = self.die.choices(self.specs, weights=[s.need for s in self.specs])[0]
        kind, (maker, model) = "microwave oven", self.die.choice(OVENS)
        bench = self.as_bench()
        job = jobs.open_job(
            bench, Job(0, "", kind, maker, model, complaint=f"{spec.family} failed")
        )
        lot = self.good_lot(spec)
        if lot is None:
            if spec.type_code in self.part_ids:
                orders.lacked(bench, self.part_ids[spec.type_code], job=job.id)
            self.restock(spec)
            jobs.close_job(bench, job.id, {}, "us", given_up=self.die.random() < 0.5)
            return
        moves.hold(bench, lot, job=job.id)
        self.clock += timedelta(hours=self.die.randint(1, 20))
        place = "primary-interlock" if spec.family == "interlock_switch" else None
        moves.fit(bench, lot, job=job.id, place=place)
        readings = {"leakage_mw_cm2": round(self.die.uniform(0.1, 0.8), 2), "earth_ohm": 0.08}
        jobs.close_job(bench, job.id, readings, "us")
        self.closed.append((job.id, lot, spec, self.clock))

    def good_lot(self, spec: Spec) -> int | None:
        """A lot of the part type with a free, good piece."""
        if spec.type_code not in self.part_ids:
            return None
        good = sheet(spec.family).good_states()
        with self.shelf.read() as connection:
            there = lots.where(connection, "part_id = :id", id=self.part_ids[spec.type_code])
        free = [lot.id for lot in there if lot.state in good and lot.on_hand > lot.held]
        return free[0] if free else None

    def restock(self, spec: Spec) -> None:
        """What ran out is bought, sooner or later."""
        if self.die.random() < 0.75:
            self.buy(spec, self.die.choice((2, 3, 5, 10) if spec.price < 1000 else (1, 2)))

    def look_back(self) -> None:
        """Fitted pieces fail by their rate; the others keep working."""
        for entry in list(self.closed):
            job, lot, spec, fitted = entry
            age = (self.clock - fitted).days / 30.4
            if age < 1 or self.die.random() > 0.12 + 2 * spec.fails:
                continue
            failed = self.die.random() < 1 - (1 - spec.fails) ** age
            outcome = "came-back" if failed else "kept-working"
            try:
                jobs.set_outcome(self.as_bench(), job, outcome, failed_lot=lot if failed else None)
            except InventoryError:
                continue
            self.closed.remove(entry)

    # the two years ---------------------------------------------------------

    def play(self) -> None:
        """Opening stock, 24 months, and the shelf as the tour finds it."""
        for spec in self.specs:
            if self.die.random() < 0.8:
                self.buy(spec, max(1, round(spec.need * self.die.uniform(2, 8))))
            else:
                self.log(spec, 1, "salvaged", None, "untested")
        for month in range(MONTHS):
            self.clock = START + timedelta(days=30.4 * month + 1)
            for _ in range((2, 3)[month % 2]):
                self.strip()
            for _ in range(self.die.randint(16, 24)):
                self.clock = max(
                    self.clock, START + timedelta(days=30.4 * month + self.die.uniform(1, 29))
                )
                self.repair()
            self.look_back()
        self.forgotten_hold()
        self.set_the_scene()

    def forgotten_hold(self) -> None:
        """A fuse is held for a job, and a fortnight later it still is."""
        self.clock = max(self.clock, START + timedelta(days=30.4 * MONTHS + 1))
        bench = self.as_bench()
        unit = Job(0, "", "microwave oven", "Tumbrel", "TL700", complaint="blows its fuse")
        job = jobs.open_job(bench, unit)
        moves.hold(bench, self.good_lot(self.by_code["FXTH-10"]) or 1, job=job.id)
        self.clock += timedelta(days=14)

    def set_the_scene(self) -> None:
        """The interlock search of the tour: one that clicks no more, one too weak, one right."""
        label = {"unit": "Brenka BK-20M", "date": "2021-03-01"}
        inside = "label inside the Brenka BK-20M"
        primary, monitor = "primary-interlock", "monitor"
        edges = [
            Edge("NFD-V16-63", "KSD-V16-63", "listed-alternate", inside, place=primary, **label),
            Edge("NFD-V16-63", "PW-V16-63", "listed-alternate", inside, place=primary, **label),
            Edge("NFD-V16-62", "KSD-V16-62", "listed-alternate", inside, place=monitor, **label),
            Edge("NFD-V16-63", "NFD-V10-63", "supersedes", "maker's notice 7/2023"),
            Edge("OM-M21A", "Brenka BK-2#*", "fits-unit", "maker's parts list 2023"),
        ]
        xref.add_edges(self.as_bench(), edges)
        self.empty("NFD-V16-63")
        for code in ("KSD-V16-63", "PW-V16-63"):
            self.empty(code)
        dead = self.log(self.by_code["KSD-V16-63"], 1, "salvaged", "U58", "untested")
        readings = {"rest_ohm": float("inf"), "pressed_ohm": float("inf"),
                    "released_ohm": float("inf"), "clicks": False}  # fmt: skip
        testing.bench_test(self.as_bench(), dead, readings)
        right = self.log(self.by_code["PW-V16-63"], 1, "salvaged", "U55", "untested")
        readings = {"rest_ohm": float("inf"), "pressed_ohm": 0.04, "drop_mv_at_1a": 32,
                    "released_ohm": float("inf"), "clicks": True,
                    "insulation_mohm": 500}  # fmt: skip
        testing.bench_test(self.as_bench(), right, readings)
        waiting = Job(0, "", "microwave oven", "Brenka", "BK-20M", complaint="dead, door closed")
        jobs.open_job(self.as_bench(), waiting)

    def empty(self, code: str) -> None:
        """Nothing of a part type is left on the shelf."""
        with self.shelf.read() as connection:
            there = lots.where(connection, "part_id = :id", id=self.part_ids[code])
        for lot in there:
            if lot.on_hand:
                moves.scrap(
                    self.as_bench(), lot.id, quantity=lot.on_hand, reason="sold with a unit"
                )


def main() -> None:
    """Play the shop and write it out."""
    with tempfile.TemporaryDirectory() as folder:
        shelf = open_shelf(str(Path(folder) / "demo.shelf"), bench="front bench", create=True)
        shop = Shop(shelf)
        journal.clock = shop.now
        shop.play()
        with shelf.write() as connection:
            for name, value in (("lead_time_months", "0.5"), ("review_months", "0.5"),
                                ("service_level", "0.95"), ("wage_per_hour", "24")):  # fmt: skip
                units.set_setting(connection, name, value)
        rows = dumps.dump_json(shelf, HERE / "shelf.json")
        shelf.close()
    print(f"{rows} rows, {shop.units} units, {len(shop.specs)} part types")  # noqa: T201


if __name__ == "__main__":
    main()
