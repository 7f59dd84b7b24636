"""Questions at a terminal: what is answered, what ends them, and where nobody is asked."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.calling import Said, call
from tests.cli.terminal import sit, sit_alone


@pytest.fixture
def shelf(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The place of a shelf that is not there yet, named for all commands."""
    path = tmp_path / "shop.shelf"
    monkeypatch.setenv("SALVAGE_SHELF", str(path))
    return path


def _lots(said: Said) -> list[tuple[str, str, str, int]]:
    """Family, bin, state and pieces of the lots a unit's page lists."""
    rows = json.loads(said.out)["lots"]
    return [(row["family"], row["bin"], row["state"], row["on_hand"]) for row in rows]


@pytest.mark.usefixtures("shelf")
def test_strip_asks_for_what_it_was_not_told() -> None:
    """Label, kind, maker, model, then piece after piece until an empty line."""
    keys = "U7\n\nBrenka\nBK-20\nfuse|T5AL250V|A1|good|3\nswitch|16A 250V~\n\n"
    said = sit("strip", keys=keys)

    assert said.code == 0, said.err
    assert "Label of the unit: " in said.err
    assert "Kind of appliance [microwave oven]: " in said.err
    assert "Piece 3: " in said.err
    assert "Logged unit U7 (microwave oven)." in said.err
    page = call("show", "--unit", "U7", "--json")
    assert _lots(page) == [("fuse", "A1", "good", 3), ("switch", None, "untested", 1)]
    unit = json.loads(page.out)["unit"]
    assert (unit["maker"], unit["model"]) == ("Brenka", "BK-20")


@pytest.mark.usefixtures("shelf")
def test_an_answer_that_is_not_understood_is_asked_again() -> None:
    """The sentence says what was expected; the pieces before it are kept."""
    keys = "microwave oven\n\n\nfuse|T5AL250V|A1|good|many\nfuse|T5AL250V|A1|good|2\n\n"
    said = sit("strip", "U7", keys=keys)

    assert said.code == 0, said.err
    assert "Not a quantity: 'many'" in said.err
    assert said.err.count("Piece 1: ") == 2
    assert _lots(call("show", "--unit", "U7", "--json")) == [("fuse", "A1", "good", 2)]


@pytest.mark.usefixtures("shelf")
@pytest.mark.parametrize(
    ("slip", "sentence"),
    [
        ("swich|16A 250V~", "Did you mean switch?"),
        ("fuse|", "Write family|marking|bin|state|quantity."),
        ("fuse|T5AL250V|A1|clicks", "There is no fuse state 'clicks'."),
        ("fuse|T5AL250V|A1|good|1|x", "Write family|marking|bin|state|quantity."),
    ],
)
def test_one_slip_costs_none_of_the_other_pieces(slip: str, sentence: str) -> None:
    """Each piece is checked when it is typed, not after the last one."""
    said = sit("strip", "U7", keys=f"oven\n\n\nfuse|T5AL250V\n{slip}\n16A 250V~ T85\n\n")

    assert said.code == 0, said.err
    assert sentence in " ".join(said.err.split())
    assert len(_lots(call("show", "--unit", "U7", "--json"))) == 2


@pytest.mark.usefixtures("shelf")
def test_a_marking_alone_is_a_piece() -> None:
    """Its family is read from it."""
    assert sit("strip", "U7", keys="oven\n\n\nT5AL250V\n\n").code == 0
    assert [row[0] for row in _lots(call("show", "--unit", "U7", "--json"))] == ["fuse"]


@pytest.mark.usefixtures("shelf")
def test_the_hazard_is_named_before_the_first_piece_is_asked_for() -> None:
    """Whoever opens the unit reads of the charged capacitor first, and once."""
    said = sit("strip", "U7", keys="oven\n\n\nhv_capacitor|1.0uF 2100VAC\n\n")

    assert said.err.index("CAUTION: ") < said.err.index("Piece 1: ")
    assert said.err.lower().count("discharge the capacitor") <= 1


@pytest.mark.usefixtures("shelf")
def test_nothing_but_results_goes_into_the_pipe() -> None:
    """Questions stand on the screen, not even a blank of them in the file."""
    said = sit("strip", "--json", keys="U7\noven\n\n\nfuse|T5AL250V\n\n", piped=True)

    assert said.code == 0, said.err
    assert said.out.startswith("[\n")
    assert json.loads(said.out)[0]["family"] == "fuse"
    assert "Piece 1: " in said.err


@pytest.mark.parametrize("keys", ["\x04", "U7\n\x04", "U7\noven\n\n\nfuse|T5AL250V\n\x04"])
def test_the_end_of_input_stops_and_leaves_nothing(shelf: Path, keys: str) -> None:
    """Ctrl-D at any question: one sentence, no shelf, no half unit."""
    said = sit("strip", keys=keys)

    assert said.code == 130
    assert said.err.endswith("\nStopped; nothing was left half done.\n")
    assert list(shelf.parent.iterdir()) == []


def test_ctrl_c_at_a_question_stops_and_leaves_nothing(shelf: Path) -> None:
    """As a process of its own, with the signal of a real terminal."""
    said = sit_alone("strip", "U7", at="Kind of appliance", keys="\x03")

    assert said.code == 130
    assert "Stopped; nothing was left half done." in said.err
    assert "Traceback" not in said.err
    assert said.out == ""
    assert list(shelf.parent.iterdir()) == []


def test_without_a_terminal_nobody_is_asked(shelf: Path) -> None:
    """A flag for each question: without it, wrong input."""
    said = call("strip")

    assert said.code == 2
    assert said.err.startswith("Say which unit: salvage strip LABEL --kind ")
    assert not shelf.exists()


@pytest.mark.parametrize(
    ("answer", "code", "kept"),
    [("y\n", 0, 1), ("n\n", 1, 2), ("\n", 1, 2), ("\x04", 130, 2), ("perhaps\nno\n", 1, 2)],
)
@pytest.mark.usefixtures("shelf")
def test_two_part_types_become_one_only_on_a_yes(answer: str, code: int, kept: int) -> None:
    """No is the default, and the end of input is no yes."""
    call("log", "EX-1", "--family", "other")
    call("log", "EX-l", "--family", "other")
    said = sit("twins", "--merge", "1", "2", keys=answer)

    assert said.code == code, said.err
    assert "Make them one? [y/N]: " in said.err
    parts = {json.loads(call("show", str(lot), "--json").out)["part"] for lot in (1, 2)}
    assert len(parts) == kept


@pytest.mark.usefixtures("shelf")
def test_a_no_says_how_to_go_ahead() -> None:
    """The flag that answers beforehand is named, and it is not asked then."""
    call("log", "EX-1", "--family", "other")
    call("log", "EX-l", "--family", "other")
    no = sit("twins", "--merge", "1", "2", keys="n\n")
    yes = sit("twins", "--merge", "1", "2", "--yes")

    assert no.err.endswith("Nothing was changed; say --yes to go ahead.\n")
    assert "[y/N]" not in yes.err
    assert "Merged 2 into 1." in yes.err
