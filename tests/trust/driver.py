"""Runs salvage commands one after another in one process, saying which were acknowledged.

Called as ``python -m tests.trust.driver FILE``: each line of the file is a JSON list of
arguments. After each command that ended well, ``ACK n`` goes to standard output. With
``SALVAGE_TEST_SYNC`` the syncs are weakened: a control that shows what damage looks like. With
``SALVAGE_TEST_NEXT`` (a migrations folder) it is the next program, which upgrades the shelf.
"""

from __future__ import annotations

import json
import os
import sys
from pathlib import Path
from typing import Any


def _weaken(how: str) -> None:
    """Replace the durable settings by weaker ones."""
    from inventory.store import connection

    def weak(raw: Any) -> None:
        raw.execute(f"PRAGMA synchronous={how}")

    vars(connection)["_make_durable"] = weak


def main() -> int:
    """Run all; the exit code is that of the first command that failed, else 0."""
    from inventory.cli.main import run

    if how := os.environ.get("SALVAGE_TEST_SYNC"):
        _weaken(how)
    if folder := os.environ.get("SALVAGE_TEST_NEXT"):
        from tests.trust.next_program import become

        become(Path(folder))
    for number, line in enumerate(Path(sys.argv[1]).read_text().splitlines(), start=1):
        code = run(json.loads(line))
        if code:
            return code
        print(f"ACK {number}", flush=True)
    return 0


if __name__ == "__main__":
    sys.exit(main())
