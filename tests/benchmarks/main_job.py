"""The main job on published markings: how they are read, found and judged, as a table.

Usage: python -m tests.benchmarks.main_job

Every published switch and fuse marking is loaded as one lot that tested good, then asked for. On
the bare shelf nothing but the print is known; on the shaped one all switches have one contact
form, body and actuator, and the tech says so, so that the ratings alone decide. "Lower" is an
offer called good though published lower in any quantity; the check is not the rules' own code.
Nothing is asserted here; ``tests/test_main_job.py`` does.
"""

from __future__ import annotations

import tempfile
import time
from pathlib import Path

from tests.main_job import Figures, count, shelf_of

ROWS = (
    ("markings asked for", lambda f: f.asked),
    ("decoded exactly", lambda f: f.read["exact"]),
    ("decoded exactly, with a warning", lambda f: f.read["exact with a warning"]),
    ("not decoded, with a warning", lambda f: f.read["warned"]),
    ("wrong in silence", lambda f: len(f.silent)),
    ("own part type at rank 1", lambda f: f.first),
    ("offers: same", lambda f: f.verdicts["same"]),
    ("offers: fits", lambda f: f.verdicts["fits"]),
    ("offers: ask", lambda f: f.verdicts["ask"]),
    ("offers: refused", lambda f: f.verdicts["refused"]),
    ("called good though published lower", lambda f: len(f.lower)),
    ("called good with a quantity unpublished", lambda f: len(f.unknown)),
    ("refused though enough in everything", lambda f: len(f.refused_though_enough)),
)


def measured(*, shaped: bool) -> tuple[Figures, float]:
    """The figures of one shelf, and milliseconds a search."""
    with tempfile.TemporaryDirectory() as folder:
        shelf = shelf_of(Path(folder), shaped=shaped)
        start = time.perf_counter()
        done = count(shelf, shaped=shaped)
        took = (time.perf_counter() - start) * 1000 / done.asked
        shelf.close()
    return done, took


def main() -> None:
    """Print the table."""
    bare, bare_ms = measured(shaped=False)
    shaped, shaped_ms = measured(shaped=True)
    print(f"{'':42}{'bare':>8}{'shaped':>8}")
    for name, figure in ROWS:
        print(f"{name:42}{figure(bare):>8}{figure(shaped):>8}")
    print(f"{'milliseconds a search':42}{bare_ms:>8.1f}{shaped_ms:>8.1f}")


if __name__ == "__main__":
    main()
