"""What is worth pulling from a source unit, by what its model gave before."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from inventory.bench import words, yard
from inventory.bench.low import asked
from inventory.bench.moments import moment, on_record
from inventory.errors import NotFound
from inventory.families.sheet import families, sheet
from inventory.matching.keys import bare
from inventory.records import SourceUnit
from inventory.rules.cautions import cautions
from inventory.stock.asked import LowSettings, PartStock
from inventory.stock.need import Shelf as Known
from inventory.stock.need import demand_of, known_shelf
from inventory.stock.worth_report import Carried, WorthReport, WorthSettings, what_is_worth
from inventory.store import sums, units
from inventory.store.shelf import Shelf
from inventory.store.sql import Connection
from inventory.units import cents


@dataclass(frozen=True, slots=True)
class Worth:
    """The pull list of a unit and what it rests on."""

    subject: str
    units_before: int  # units of the same model taken apart before
    report: WorthReport
    label: str | None = None  # of the unit; None where a model was asked about


def worth(shelf: Shelf, said: str, *, as_of: str | None = None) -> Worth:
    """What to pull from a unit (by its label) or from any unit of a model.

    Raises ``NotFound`` where no unit of the model was taken apart before: nothing is invented.
    """
    with shelf.read() as connection:
        at = moment(as_of, connection)
        gave = yard.given(connection, at)
        unit, maker, model = _subject(connection, said)
        carried_before = _given(gave, maker, model)
        if not carried_before:
            raise NotFound(_nothing_known(connection, said, unit))
        stocks, settings = asked(connection, as_of)
        with on_record():
            money = _settings(sums.figures_then(connection, at, units.settings(connection)))
        yields = yard.family_yields(connection, at)
    by_number = {part.part_id: part for part in stocks}
    done = gave.by_unit.get(unit.id, set()) if unit else set()
    known = known_shelf(stocks, settings)
    carried = [
        _carried(by_number[part_id], pieces, known, settings, yields, unit)
        for part_id, (_, pieces) in carried_before.items()
        if part_id in by_number and part_id not in done
    ]
    before = max(count for count, _ in carried_before.values())
    return Worth(said, before, what_is_worth(carried, money), unit.label if unit else None)


def _subject(connection: Connection, said: str) -> tuple[SourceUnit | None, str | None, str]:
    """The unit meant by its label, else the model: its maker where known, and its key."""
    found = units.where(connection, "label = :label", label=said)
    if found:
        return found[0], found[0].maker, bare(found[0].model or "")
    models = {
        (unit.maker, bare(unit.model or ""))
        for unit in units.where(connection, "model_key IS NOT NULL")
    }
    for maker, model in sorted(models, key=str):
        if bare(said) in (model, bare(f"{maker or ''}{model}")):
            return None, maker, model
    words.known(said, units.labels(connection), "unit or model")
    raise NotFound(f"There is no unit or model {said!r}.")


def _given(gave: yard.Given, maker: str | None, model: str) -> dict[int, tuple[int, int]]:
    """Part types units of this model gave: units that gave it, pieces a unit."""
    found: dict[int, tuple[int, int]] = {}
    for of in gave.by_model:
        if of[1] == model and (maker is None or of[0] == maker):
            found |= gave.each(of)
    return found


def _nothing_known(connection: Connection, said: str, unit: SourceUnit | None) -> str:
    """The sentence for a model that was never taken apart."""
    if unit is None:
        return f"No unit of model {said!r} gave a part yet, so nothing is known of its worth."
    same = units.where(connection, "kind = :kind", kind=unit.kind)
    return (
        f"No unit of the model of {said!r} gave a part yet; {len(same)} of its kind are known."
        " Log what you pull with 'salvage strip' and the next one can be judged."
    )


def _settings(said: dict[str, str]) -> WorthSettings:
    """The shop's wage, or the default."""
    if "wage_per_hour" in said:
        return WorthSettings(wage_cents=cents(said["wage_per_hour"]))
    return WorthSettings()


def _carried(
    part: PartStock,
    pieces: int,
    known: Known,
    settings: LowSettings,
    yields: tuple[dict[str, int], dict[str, int]],
    unit: SourceUnit | None,
) -> Carried:
    """One part type of the unit with what the shelf knows of it."""
    good, pulled = yields
    page = sheet(part.family) if part.family in families() else None
    return Carried(
        name=part.name,
        family=part.family,
        rate=demand_of(part, known, settings).as_pieces(),
        part_id=part.part_id,
        pieces=pieces,
        free=part.free + part.on_order,
        untested=part.untested,
        price_cents=part.price_cents,
        good_seen=good.get(part.family, 0),
        pulled_seen=pulled.get(part.family, 0),
        minutes_to_pull=page.minutes_to_pull if page else None,
        minutes_to_test=page.minutes_to_test if page else None,
        policy=part.policy,
        scrap_because=_scrap_because(part.family, unit),
        hazards=tuple(_hazards(part.family)),
    )


def _scrap_because(family: str, unit: SourceUnit | None) -> str | None:
    """What the unit's own history forbids."""
    if unit is None or not unit.why_scrapped:
        return None
    from inventory.rules.places import salvage_stop

    stop = salvage_stop(family, unit.why_scrapped, None)
    return stop.sentence.rstrip(".") if stop else None


def _hazards(family: str) -> Iterator[str]:
    """Cautions before hands go in."""
    for one in cautions(family, "strip", None):
        yield one.text


def as_rows(lines: Iterable[Any]) -> list[dict[str, Any]]:
    """Lines of a pull list as they go to JSON; money in cents."""
    return [
        {
            "part": line.part_id,
            "name": line.name,
            "family": line.family,
            "take": line.take,
            "leave": line.leave,
            "why": line.why,
            "share_good": round(line.share_good, 3),
            "minutes": line.minutes,
            "value_cents": None if line.value is None else round(line.value),
            "per_minute_cents": round(line.per_minute, 1),
            "gain_cents": round(line.gain),
            "policy": line.policy,
        }
        for line in lines
    ]
