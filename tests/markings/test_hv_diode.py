"""Oven diodes: the type always, kilovolts only where a sheet or the print says them."""

from __future__ import annotations

import pytest

from inventory.markings.hv_diode import canonical, likely, read


@pytest.mark.parametrize("text", ["HVM12", "T3512", "2X062H", "UX-F5B", "HV03-12", "RG405"])
def test_the_type_is_kept_and_no_kilovolts_are_read_into_it(text: str) -> None:
    """Figures in these names are from memory at best."""
    assert read(text).ratings == {"type": text}


@pytest.mark.parametrize("text", ["HVM12", "T3512", "HV03-12"])
def test_what_the_name_may_mean_is_offered(text: str) -> None:
    """Twelve kilovolts is a candidate, with the doubt in its reason."""
    (candidate,) = read(text).candidates

    assert candidate.ratings == {"vrrm_kv": 12}
    assert "from memory" in candidate.reason


def test_the_figure_behind_the_dash_of_cl_types_is_kilovolts() -> None:
    """CL01-12: 12 kV (published text)."""
    assert read("CL01-12").ratings == {"type": "CL01-12", "vrrm_kv": 12}


def test_printed_figures_beat_the_name() -> None:
    """With kilovolts in print nothing is offered."""
    reading = read("T3512 12kV 350mA IFSM 30A IR 5uA trr 100ns")

    assert reading.candidates == ()
    assert reading.ratings == {
        "type": "T3512", "vrrm_kv": 12, "if_ma": 350, "ifsm_a": 30, "ir_ua": 5, "trr_ns": 100,
    }  # fmt: skip


def test_the_protector_is_its_own_part() -> None:
    """An asymmetric rectifier reads open both ways when good; it must not pass as a plain diode."""
    assert read("asymmetric rectifier").ratings == {"protector": True}


def test_how_strongly_a_text_looks_like_an_oven_diode() -> None:
    """Types claim it, small-signal diodes do not."""
    assert likely("CL01-12") > 0.9
    assert likely("1N4007") == 0


def test_a_written_out_diode_reads_the_same() -> None:
    """Type and figures survive."""
    first = read("CL01-12 350mA fast recovery")

    assert read(canonical(first)).ratings == first.ratings
