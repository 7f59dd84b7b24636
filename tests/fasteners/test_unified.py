"""ASME B1.1 against a library that carries the tables of its 2019 edition."""

from __future__ import annotations

from dataclasses import replace

import pytest
from screw_thread_lib.data import ASME_UN_2A2B_dict

from inventory.errors import WrongInput
from inventory.fasteners import unified as b1_1
from inventory.fasteners.catalogue import metric, unified
from inventory.fasteners.thread import Thread
from inventory.fasteners.threads import limits

# Names of the library's columns under ours. Source: screw_thread_lib 0.0.6 (MIT), which states
# ASME B1.1-2019. It is a test oracle only; nothing of it ships.
COLUMNS = {
    "d_max": "dmax",
    "d_min": "dmin",
    "d2_max": "d2max",
    "d2_min": "d2min",
    "D2_min": "D2min",
    "D2_max": "D2max",
    "D1_min": "D1min",
    "D1_max": "D1max",
}


def _named(name: str) -> Thread:
    """The library's thread in our words; sizes above 1/2 are not listed here, so say the series."""
    row = ASME_UN_2A2B_dict[name]
    size = name.rsplit("-", 1)[0]
    made = unified(f"#{size}" if size == "10" else size, row["dbsc"], row["n"])
    return replace(made, series=row["series"])


@pytest.mark.parametrize("name", [n for n in ASME_UN_2A2B_dict if n != "1-14"])
def test_2a_and_2b_are_those_of_the_2019_edition(name: str) -> None:
    """To the last digit up to 1/2 in; above, within 0.0001 in (1-8 falls on a half digit)."""
    row = ASME_UN_2A2B_dict[name]

    found = limits(_named(name), "2A/2B").named()

    near = 1e-9 if row["dbsc"] <= 0.5 else 0.00011
    for ours, theirs in COLUMNS.items():
        assert found[ours] == pytest.approx(row[theirs], abs=near), ours


def test_a_special_series_counts_nine_pitches_of_engagement() -> None:
    """1-14 UNS, pitch diameters. Source: screw_thread_lib 0.0.6; ASME B1.1-2019 clause 5.8."""
    row = ASME_UN_2A2B_dict["1-14"]

    found = limits(unified("1", 1.0, 14), "2A/2B").named()

    assert found["d2_min"] == pytest.approx(row["d2min"], abs=0.0001)
    assert found["D2_max"] == pytest.approx(row["D2max"], abs=0.0001)


def test_a_coarse_special_has_the_wide_minor_tolerance() -> None:
    """Under 4 threads per inch TD1 is 0.15 P. Source: ASME B1.1 clause 5.8.2(c)."""
    window = b1_1.internal(unified("4", 4.0, 3), "2B")[1]

    assert window.high - window.low == pytest.approx(0.15 / 3, abs=0.0011)


def test_a_metric_thread_has_no_inch_limits() -> None:
    """Asking for them is a mistake, not a conversion."""
    with pytest.raises(WrongInput, match="not a unified thread"):
        b1_1.external(metric(4, 0.7), "2A")
