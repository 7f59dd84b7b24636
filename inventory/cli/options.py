"""Options that many commands share, said once."""

from typing import Annotated

import typer

Shelf = Annotated[
    str | None,
    typer.Option(
        "--shelf",
        metavar="PATH|URL",
        help="Shelf file or database; also SALVAGE_SHELF.",
        show_default=False,
    ),
]
Json = Annotated[bool, typer.Option("--json", help="Print JSON instead of a table.")]
DryRun = Annotated[bool, typer.Option("--dry-run", help="Show what would happen; write nothing.")]
LotNumber = Annotated[int, typer.Argument(metavar="LOT", help="Number of the lot.", min=1)]
Quantity = Annotated[int, typer.Option("--quantity", "-n", help="How many pieces.")]
OnJob = Annotated[int | None, typer.Option("--job", "-j", help="Number of the job.", min=1)]
AtPlace = Annotated[
    str | None, typer.Option("--place", "-p", help="Place in the unit, e.g. monitor.")
]
Family = Annotated[str | None, typer.Option("--family", help="Family of the part, e.g. switch.")]
AsOf = Annotated[str | None, typer.Option("--as-of", help="As the journal had it on that day.")]
