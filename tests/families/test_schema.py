"""Every sheet keeps to its schema, and the schema keeps to the records."""

from __future__ import annotations

import copy
import json
import tomllib
from dataclasses import fields
from typing import Any

import pytest
from jsonschema import Draft202012Validator, ValidationError

from inventory.families import sheet as sheets
from inventory.resources import shipped

SCHEMA: dict[str, Any] = json.loads(
    (shipped("schemas") / "family-sheet.schema.json").read_text(encoding="utf-8")
)


def check(data: dict[str, Any]) -> None:
    """Hold one sheet against the schema."""
    Draft202012Validator(SCHEMA).validate(data)


@pytest.mark.parametrize("family", sheets.families())
def test_a_sheet_keeps_to_its_schema(family: str) -> None:
    """Each file can be checked by anyone with the published schema."""
    check(sheets.written(family))


def test_the_schema_is_a_schema() -> None:
    """The schema itself is well formed."""
    Draft202012Validator.check_schema(SCHEMA)


@pytest.mark.parametrize(
    ("record", "name"),
    [(sheets.Attribute, "attribute"), (sheets.State, "state"), (sheets.Limit, "limit"),
     (sheets.Caution, "caution")],
)  # fmt: skip
def test_the_schema_names_the_fields_of_the_record(record: type, name: str) -> None:
    """A field added to a record is added to the schema, and the other way round."""
    assert set(SCHEMA["$defs"][name]["properties"]) == {one.name for one in fields(record)}


def test_the_schema_names_the_fields_of_the_sheet() -> None:
    """Rows stand in the file under their own names."""
    rows = {"attributes": "attribute", "states": "state", "limits": "limit", "cautions": "caution"}
    named = {rows.get(one.name, one.name) for one in fields(sheets.Sheet)} | {"shared_cautions"}

    assert set(SCHEMA["properties"]) == named


def test_the_schema_allows_what_the_rules_know() -> None:
    """Policies, comparisons and outcomes are the same words in both."""
    attribute = SCHEMA["$defs"]["attribute"]["properties"]

    assert tuple(SCHEMA["properties"]["policy"]["enum"]) == sheets.POLICIES
    assert tuple(attribute["compare"]["enum"]) == sheets.COMPARISONS
    assert tuple(attribute["misfit"]["enum"]) == sheets.MISFITS
    assert tuple(attribute["unsaid"]["enum"]) == sheets.UNSAID


BROKEN: dict[str, tuple[str, ...]] = {
    "a comparison nobody knows": ("attribute", "compare", "like"),
    "an effort between the steps": ("attribute", "effort", "2"),
    "a policy nobody knows": ("", "policy", "perhaps"),
    "a limit without a figure": ("limit", "at_most", ""),
    "a state without a meaning": ("state", "means", ""),
}


@pytest.mark.parametrize("what", BROKEN)
def test_a_broken_sheet_is_caught(what: str) -> None:
    """What a tired person writes into a sheet does not get through."""
    row, name, value = BROKEN[what]
    data = copy.deepcopy(sheets.written("fuse"))
    where = data[row][0] if row else data
    if value:
        where[name] = int(value) if value.isdigit() else value
    else:
        where.pop(name)

    with pytest.raises(ValidationError):
        check(data)


def test_the_shared_cautions_keep_to_the_schema() -> None:
    """They are cautions like those of a sheet."""
    path = sheets._FOLDER / "shared" / "cautions.toml"
    caution = {**SCHEMA["$defs"]["caution"], "$defs": SCHEMA["$defs"]}
    for row in tomllib.loads(path.read_text(encoding="utf-8")).values():
        Draft202012Validator(caution).validate(row)
