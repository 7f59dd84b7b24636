"""One way in: the family asked for, or the family recognised, and pipes of lines."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest

from inventory.errors import WrongInput
from inventory.markings import grammars
from inventory.markings.out import as_json
from inventory.markings.reader import read, read_line, type_code
from tests.markings.cases import load

SCHEMA = json.loads(
    (Path(__file__).resolve().parents[2] / "schemas" / "reading.schema.json").read_text("utf-8")
)


def test_the_family_asked_for_is_the_family_of_the_reading() -> None:
    """Interlock switches share the switch grammar and keep their own name."""
    assert read("16(4)A 250V~", "interlock_switch").family == "interlock_switch"


def test_an_unknown_family_is_refused_in_one_sentence() -> None:
    """A typing mistake is the user's, with exit code 2."""
    with pytest.raises(WrongInput, match="no family 'swich'"):
        read("16A", "swich")


def test_a_line_may_name_its_family_before_a_tab() -> None:
    """``family<TAB>marking`` as the pipe gives it."""
    assert read_line("relay\tSRD-05VDC-SL-C\n").ratings["coil_vdc"] == 5
    assert read_line("16(4)A 250V~\n").family == "switch"


def test_a_line_with_an_unknown_family_is_refused() -> None:
    """The word before the tab must be a family."""
    with pytest.raises(WrongInput, match="before the tab"):
        read_line("widget\t16A")


def test_text_of_no_family_is_kept_whole() -> None:
    """Nothing is dropped where nothing is recognised."""
    reading = read("hello world")

    assert reading.family == "other"
    assert [piece.text for piece in reading.unread] == ["hello", "world"]


def test_a_family_without_a_grammar_names_a_lone_type_code() -> None:
    """The plain grammar: a code is a type, all else stays unread."""
    assert read("AC-1234X", "other").ratings == {"type": "AC-1234X"}
    assert read("grey plastic", "other").ratings == {}


def test_a_family_whose_module_is_missing_is_read_plainly(monkeypatch: pytest.MonkeyPatch) -> None:
    """A grammar that is not there yet is no error."""
    monkeypatch.setattr(grammars, "find_spec", lambda _: None)
    grammars.grammar.cache_clear()
    try:
        assert grammars.grammar("belt") is None
    finally:
        grammars.grammar.cache_clear()


@pytest.mark.parametrize("case", load("switch_markings.jsonl"), ids=lambda case: case["id"])
def test_what_leaves_the_house_keeps_the_schema(case: dict[str, str]) -> None:
    """One JSON object of the published shape, and plain JSON inside."""
    out = as_json(read(case["text"]))

    jsonschema.validate(out, SCHEMA)
    assert json.loads(json.dumps(out)) == out


def test_a_damaged_text_of_no_family_is_offered_as_it_may_have_been() -> None:
    """1OA 250VAC is no family's text; with one letter put right it is a switch's."""
    reading = read("1OA 250VAC")

    assert reading.family == "other"
    assert reading.candidates[0].text == "10A 250VAC"
    assert reading.candidates[0].ratings == {"resistive_a": 10, "volts_ac": [250]}


def test_candidates_leave_with_their_reason() -> None:
    """A repair in JSON says what it would read as and why."""
    out = as_json(read("1OA 250VAC", "switch"))

    jsonschema.validate(out, SCHEMA)
    assert out["candidates"][0]["text"] == "10A 250VAC"


def test_the_type_code_is_found_by_legend_or_as_printed() -> None:
    """The code is what the shelf matches on, whoever explained it."""
    assert type_code(read("SS-10-3T", "switch")) == "SS-10-3T"
    assert type_code(read("KCD4 16(4)A 250VAC", "switch")) == "KCD4"
    assert type_code(read("16(4)A 250VAC", "switch")) is None
