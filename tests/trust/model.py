"""What should lie on a shelf: the model the stateful test holds the shelf against."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Any

Holder = tuple[int, int]  # lot and job; job 0 is none in particular


@dataclass
class Model:
    """What should lie on the shelf."""

    lots: dict[int, list[Any]] = field(default_factory=dict)  # part, on hand, state, bin
    held: dict[Holder, int] = field(default_factory=dict)
    out: dict[Holder, int] = field(default_factory=dict)
    jobs: dict[int, bool] = field(default_factory=dict)  # open?
    merged: dict[int, int] = field(default_factory=dict)
    parts: dict[int, str] = field(default_factory=dict)  # number and marking

    def held_of(self, lot: int) -> int:
        """Pieces of a lot that are held."""
        return sum(pieces for (other, _), pieces in self.held.items() if other == lot)

    def free(self, lot: int) -> int:
        """Pieces nobody has a claim on."""
        return int(self.lots[lot][1]) - self.held_of(lot)

    def whose(self, lot: int, job: int) -> int:
        """The job pieces come back from: the one named, or the only one that has some."""
        having = [of for (other, of), pieces in self.out.items() if other == lot and pieces]
        return having[0] if not job and len(having) == 1 else job

    def add(self, where: dict[Holder, int], lot: int, job: int, pieces: int) -> None:
        """More or fewer pieces held or out."""
        where[lot, job] = where.get((lot, job), 0) + pieces

    def split(self, lot: int, pieces: int, **changes: Any) -> None:
        """Some pieces become a lot of their own."""
        part, _, state, bin_code = self.lots[lot]
        self.lots[lot][1] -= pieces
        fresh = {"part": part, "on_hand": pieces, "state": state, "bin": bin_code, **changes}
        self.lots[max(self.lots) + 1] = list(fresh.values())

    def seen(self) -> dict[str, Any]:
        """What can be compared: empty holds and empty lots say nothing."""
        return {
            "lots": {number: row for number, row in self.lots.items() if row[1]},
            "held": {key: pieces for key, pieces in self.held.items() if pieces},
            "out": {key: pieces for key, pieces in self.out.items() if pieces},
            "jobs": {number for number, is_open in self.jobs.items() if is_open},
        }


def back_to(was: Model, now: Model) -> Model:
    """The model as it was; what was made since stays as an empty lot or a closed job."""
    empty = {number: [row[0], 0, *row[2:]] for number, row in now.lots.items()}
    closed = dict.fromkeys(now.jobs, False)
    return replace(was, parts=now.parts, lots={**empty, **was.lots}, jobs={**closed, **was.jobs})
