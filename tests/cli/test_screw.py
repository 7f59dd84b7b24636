"""``salvage screw`` at the command line: text, JSON against its schema, drawings, mistakes."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any
from xml.etree import ElementTree as ET

import pytest
from jsonschema import Draft202012Validator
from typer.testing import CliRunner, Result

from inventory.bench.log import Piece, log_pieces
from inventory.bench.moves import hold
from inventory.cli import screw
from inventory.errors import InventoryError
from inventory.fasteners.shelf import offers_from
from inventory.resources import shipped
from inventory.store.shelf import Shelf
from tests.fasteners.published import agrees, fastener_cases

WIDE = {"COLUMNS": "80", "NO_COLOR": "1"}


def _run(*arguments: str) -> Result:
    return CliRunner().invoke(screw.app, list(arguments), env=WIDE)


def _document(schema: str, *arguments: str) -> dict[str, Any]:
    """The JSON of a call, once it is valid by its schema."""
    result = _run(*arguments, "--json")
    document: dict[str, Any] = json.loads(result.stdout)
    rules = json.loads((shipped("schemas") / f"screw-{schema}.schema.json").read_text("utf-8"))
    Draft202012Validator.check_schema(rules)
    Draft202012Validator(rules).validate(document)
    return document


# JSON by its schema ----------------------------------------------------------------

FITS = [
    ("M4x8", "M4x8", "nut"),
    ("M4x8 pan 8.8", "#8-32x3/8 pan", "sheet"),
    ("#10-32", "M5", "hard tapped nut"),
    ("M5", "#10-32", "nut"),
    ("ST4.2", "M4", "thread formed by a tapping screw"),
    ("K40", "K50", "plastic boss"),
    ("M4", "M3", "unknown"),
    ("M4", "DIN 7500 M4", "extruded and tapped sheet"),
    ("M3.5", "M3", "nut"),
]


@pytest.mark.parametrize(("wanted", "offered", "hole"), FITS)
def test_fit_prints_what_its_schema_says(wanted: str, offered: str, hole: str) -> None:
    """Every kind of hole and pair."""
    document = _document("fit", "fit", wanted, offered, "--in", hole)

    assert document["reasons"]


@pytest.mark.parametrize(
    "arguments",
    [
        ("name", "8-32 x 3/8 pan"),
        ("name", "#8"),
        ("name", "chocolate"),
        ("name", "--major", "4.12", "--pitch", "0.79"),
        ("name", "--major", "4.1"),
        ("name", "--major", "4.815", "--tpi", "32", "--over", "5", "--length", "9.5"),
    ],
)
def test_name_prints_what_its_schema_says(arguments: tuple[str, ...]) -> None:
    """Read, measured, open, and nothing at all."""
    assert "candidates" in _document("name", *arguments)


@pytest.mark.parametrize(
    ("thread", "fit_class"),
    [("M4x0.7", "6g"), ("#10-24", "2B"), ("M10x1.25", "6g/6H"), ("M4", "4h")],
)
def test_limits_prints_what_its_schema_says(thread: str, fit_class: str) -> None:
    """Screw, hole, both."""
    assert _document("limits", "limits", thread, "--class", fit_class)["class"] == fit_class


def test_instead_and_weigh_print_what_their_schemas_say() -> None:
    """The offers of the example, and the heap of the example."""
    found = _document(
        "instead",
        "instead",
        "security hexalobular 15, M4x8 in sheet",
        "--from",
        "M4x8, #8-32x3/8, ST4.2x9.5, M5x8",
    )

    assert [one["screw"] for one in found["suggestions"]] == ["M4x8", "#8-32x3/8", "ST4.2x9.5"]
    assert [one["screw"] for one in found["refused"]] == ["M5x8"]
    assert _document("weigh", "weigh", "--weigh", "38g", "--ten", "6.2g")["count"] == 61


# the published cases through the command ---------------------------------------------

CASES = fastener_cases()
LIMITS = [c for c in CASES if c["kind"] == "limits" and "quantity" not in c["given"]]
MEASURED = [c for c in CASES if c["kind"] == "identify" and "major_mm" in c["given"]]


@pytest.mark.parametrize(
    "case", LIMITS, ids=lambda c: f"{c['given']['thread']} {c['given']['class']}"
)
def test_limits_are_printed_under_the_names_of_the_cases(case: dict[str, Any]) -> None:
    """``salvage screw limits THREAD --class CLASS --json`` gives the published figures."""
    given = case["given"]

    document = _document("limits", "limits", given["thread"], "--class", given["class"])

    assert document["unit"] == case["unit"]
    for key, expected in case["expect"].items():
        assert agrees(case, key, expected, document[key])


@pytest.mark.parametrize("case", MEASURED, ids=lambda c: str(c["given"]["major_mm"]))
def test_a_measured_screw_is_named_as_published(case: dict[str, Any]) -> None:
    """Best first, the inseparable beside it, and none that must not be there."""
    given, expect = case["given"], case["expect"]
    document = _document(
        "name", "name", "--major", str(given["major_mm"]), "--pitch", str(given["pitch_mm"]),
        "--u-major", str(given["u_major_mm"]), "--u-pitch", str(given["u_pitch_mm"]),
    )  # fmt: skip

    names = [one["designation"] for one in document["candidates"]]
    assert names[0] == expect["best"]
    assert document["cannot_split"] == expect["also"]
    assert not set(names) & set(expect["not"])


VERDICTS = [
    (("fit", "M4x8", "M4x8", "--in", "nut"), "same"),
    (("fit", "M5", "#10-32", "--in", "nut", "--engaged", "4"), "runs-free"),
    (("fit", "M4x8", "#8-32x3/8", "--in", "sheet"), "forces"),
    (("fit", "#10-32", "M5", "--in", "nut", "--engaged", "4"), "binds"),
    (("fit", "M4x8", "#8-32x3/8", "--in", "nut"), "no-entry"),
    (("fit", "#8-32", "#6-32", "--in", "nut"), "too-loose"),
    (("fit", "M5", "M4", "--in", "nut"), "slips"),
    (("fit", "M4x8 in a hard nut", "#8-32x3/8"), "no-entry"),
]


@pytest.mark.parametrize(("arguments", "verdict"), VERDICTS)
def test_each_verdict_of_the_contract_comes_out(arguments: tuple[str, ...], verdict: str) -> None:
    """The seven verdicts, from worked pairs; the hole may stand in the sentence."""
    assert _document("fit", *arguments)["verdict"] == verdict


def test_fit_tells_length_head_class_and_turns() -> None:
    """Everything the two names say is compared."""
    said = " ".join(
        _document("fit", "fit", "M4x8 csk 8.8", "#8-32x3/8 pan", "--in", "sheet")["reasons"]
    )

    assert "1.5 mm longer" in said
    assert "does not sit where a countersunk head was" in said
    assert "weaker than the original" in said
    assert "two full threads are the rule" in said


# text -----------------------------------------------------------------------------------

TEXTS = [
    ("name", "8-32 x 3/8 pan"),
    ("name", "--major", "4.815", "--pitch", "0.797"),
    ("name", "#8 chocolate"),
    ("fit", "M4x8", "#8-32x3/8", "--in", "sheet", "--draw"),
    ("fit", "ST4.2", "M4"),
    ("instead", "security hexalobular 15, M4x8 in sheet", "--from", "M4x8, #8-32x3/8", "--all"),
    ("limits", "#10-24"),
    ("limits", "M4"),
    ("weigh", "--weigh", "38g", "--ten", "6.2g"),
    ("weigh", "--weigh", "35g", "--ten", "50g", "--step", "0.01g"),
]


@pytest.mark.parametrize("arguments", TEXTS, ids=" ".join)
def test_text_fits_80_columns_without_colour(arguments: tuple[str, ...]) -> None:
    """No escape sequence, no line wider than the terminal, and something said."""
    result = _run(*arguments)

    assert result.exit_code == 0
    assert result.stdout.strip()
    assert "\x1b" not in result.output
    assert max(len(line) for line in result.output.splitlines()) <= 80


def test_the_text_says_what_the_json_says() -> None:
    """Verdict, driver, tamper resistance and cautions, in words."""
    said = _run(
        "instead", "security hexalobular 15, M4x8 in sheet", "--from", "#8-32x3/8 pan cross H2"
    ).stdout

    for words in ("ask:", "thread forces", "driver: cross H2", "resistance lost", "One way"):
        assert words in said


def test_control_characters_are_shown_and_do_nothing() -> None:
    """A name with an escape sequence cannot move the cursor or change a colour."""
    for arguments in (
        ("name", "M4\x1b[31m\u202e"),
        ("instead", "M4x8\x1b[2J in sheet", "--from", "M4x8\x1b]0;x\x07"),
    ):
        result = _run(*arguments)
        assert "\x1b" not in result.output
        assert "\u202e" not in result.output
        assert "\x07" not in result.output


def test_a_narrow_terminal_is_not_overrun() -> None:
    """The drawing shrinks with the screen."""
    result = CliRunner().invoke(
        screw.app, ["fit", "M4", "#8-32", "--draw"], env={"COLUMNS": "50", "NO_COLOR": "1"}
    )

    assert max(len(line) for line in result.output.splitlines()) <= 50


# drawings ----------------------------------------------------------------------------------


def test_the_svg_is_written_to_the_file(tmp_path: Path) -> None:
    """And standard output stays free for the JSON."""
    path = tmp_path / "pair.svg"

    document = _document("fit", "fit", "M4", "#8-32", "--in", "sheet", "--svg", str(path))

    assert document["verdict"] == "forces"
    assert ET.parse(path).getroot().tag.endswith("svg")  # noqa: S314 - our own file


def test_a_drawing_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    """One sentence, and it names the file."""
    result = _run("fit", "M4", "#8-32", "--svg", str(tmp_path / "none" / "pair.svg"))

    assert isinstance(result.exception, InventoryError)
    assert "Cannot write" in str(result.exception)


def test_only_machine_threads_can_be_drawn() -> None:
    """A spaced thread has no 60 degree profile in these tables."""
    result = _run("fit", "ST4.2", "M4", "--draw")

    assert "Only two machine threads" in str(result.exception)


# the shelf ------------------------------------------------------------------------------------


def test_offers_come_from_the_shelf_when_none_are_typed(monkeypatch: pytest.MonkeyPatch) -> None:
    """The one function that asks the shelf is asked with the shelf that was named."""
    asked: list[str | None] = []

    def lots(shelf: str | None) -> list[object]:
        asked.append(shelf)
        return list(offers_from("M4x8 hexalobular pin-in 20"))

    monkeypatch.setattr(screw, "shelf_screws", lots)

    result = _run("instead", "security hexalobular 15, M4x8 in sheet", "--shelf", "my.shelf")

    assert asked == ["my.shelf"]
    assert "fits: M4x8 hexalobular pin-in 20" in result.stdout


def test_logged_screws_are_offered_with_lot_bin_and_count(
    shelf: Shelf, capsys: pytest.CaptureFixture[str]
) -> None:
    """Records of family screw; held pieces are not counted; an open size is told and left out."""
    log_pieces(
        shelf,
        [
            Piece(
                marking="M4 x 8 pan hexalobular pin-in 20", family="screw", quantity=12, bin="A3"
            ),
            Piece(marking="#8 screw", family="screw", quantity=40),
        ],
    )
    hold(shelf, 1, quantity=2)

    found = screw.shelf_screws(str(shelf.path))

    assert [(one.lot, one.bin, one.on_hand, one.thread.name) for one in found] == [
        (1, "A3", 10, "M4x0.7")
    ]
    assert str(found[0].drive) == "hexalobular pin-in 20"
    assert found[0].state == "untested"
    assert "Lot 2 names no single thread" in capsys.readouterr().err


def test_nothing_on_hand_ends_with_code_1(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing found is told by the exit code as well."""
    monkeypatch.setattr(screw, "shelf_screws", lambda _shelf: [])

    result = _run("instead", "M4x8 in sheet")

    assert result.exit_code == 1
    assert "Nothing on hand" in result.stdout


def test_only_refused_offers_end_with_code_1() -> None:
    """Refused by a rule; the reasons come with --all."""
    plain = _run("instead", "earth screw M4x8 in sheet", "--from", "ST4.2x9.5")
    full = _run("instead", "earth screw M4x8 in sheet", "--from", "ST4.2x9.5", "--all")

    assert plain.exit_code == full.exit_code == 1
    assert "refused; --all" in plain.output
    assert "never makes an earth" in " ".join(full.stdout.split())


def test_the_first_lots_are_shown_and_the_rest_counted() -> None:
    """Five blocks are read at a bench; the number of the others is told."""
    result = _run("instead", "M4x8 in sheet", "--from", "M4x8, M4x10, M4x12", "--limit", "2")

    assert result.stdout.count("M4x1") == 1
    assert "1 more; say --limit 3." in result.output


@pytest.mark.parametrize(
    ("flag", "verdict"),
    [("--hv", "refused"), ("--no-hv", "fits")],
)
def test_high_voltage_may_be_said_either_way(flag: str, verdict: str) -> None:
    """A household drive on a high-voltage cover is refused; on another it is noted."""
    document = _document(
        "instead", "instead", "security hexalobular 15, M4x8 in sheet", flag,
        "--from", "M4x8 cross H2",
    )  # fmt: skip
    found = document["suggestions"] + document["refused"]

    assert [one["verdict"] for one in found] == [verdict]


def test_flags_reach_the_rules() -> None:
    """Earth, stack, clear back and a lower tamper class by request."""
    wanted = "security hexalobular 15, M4x8 in sheet"
    longer = _document("instead", "instead", wanted, "--back-clear", "--from", "M4x10 T15H")
    lower = _document("instead", "instead", wanted, "--hv", "--lower-tamper", "--from", "M4x8 T15")
    earth = _document("instead", "instead", "M4x8 in sheet", "--earth", "--from", "ST4.2x8")
    short = _document("instead", "instead", wanted, "--stack", "1", "--from", "M4x6 T15H")

    assert longer["suggestions"][0]["verdict"] == "fits"
    assert lower["suggestions"][0]["verdict"] == "ask"
    assert earth["suggestions"] == []
    assert short["suggestions"][0]["verdict"] == "fits"


# mistakes --------------------------------------------------------------------------------------

MISTAKES = [
    (("name",), "Give either a name"),
    (("name", "M4", "--major", "4"), "Give either a name"),
    (("name", "--major", "4", "--tpi", "2"), "from 4 to 120"),
    (("name", "--major", "4", "--u-major", "0"), "--u-major"),
    (("fit", "M4", "chocolate"), "No thread is known"),
    (("fit", "#8", "M4"), "give TPI"),
    (("fit", "M4", "M4", "--in", "chocolate"), "No kind of hole"),
    (("fit", "M4", "M4", "--engaged", "-1"), "--engaged"),
    (("instead", "M4", "--from", ","), "No screw is named"),
    (("limits", "ST4.2"), "not a machine thread"),
    (("limits", "M4", "--class", "2A"), "Not a metric tolerance class"),
    (("weigh", "--weigh", "38 V", "--ten", "6 g"), "in grams"),
    (("weigh", "--weigh", "heavy", "--ten", "6 g"), "Not a quantity"),
]


@pytest.mark.parametrize(("arguments", "sentence"), MISTAKES, ids=lambda value: str(value)[:40])
def test_a_mistake_is_one_sentence_and_code_2(arguments: tuple[str, ...], sentence: str) -> None:
    """Wrong input is told, whatever the subcommand."""
    error = _run(*arguments).exception

    assert isinstance(error, InventoryError)
    assert sentence in str(error)
    assert error.exit_code == 2


def test_a_screw_no_table_knows_ends_with_code_1() -> None:
    """Nothing found."""
    result = _run("name", "--major", "9.0")

    assert result.exit_code == 1
    assert "No thread known here" in result.stdout


@pytest.mark.parametrize("command", ["name", "fit", "instead", "limits", "weigh"])
def test_every_subcommand_has_help_with_an_example(command: str) -> None:
    """And offers JSON."""
    said = _run(command, "--help").stdout

    assert "Example: salvage screw" in said
    assert "--json" in said
