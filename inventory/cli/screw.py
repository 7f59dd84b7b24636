"""``salvage screw``: what a screw is, what goes in instead, its limits, how many there are."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from inventory.cli import options, show
from inventory.errors import InventoryError, WrongInput

if TYPE_CHECKING:
    from inventory.fasteners.holes import Place
    from inventory.fasteners.shelf import ShelfScrew

app = typer.Typer(
    name="screw",
    help="Name a screw, try it in a hole, find one to go in instead.",
    no_args_is_help=True,
    rich_markup_mode=None,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 80},
)


def attach(main: typer.Typer) -> None:
    """Hang the group on the app."""
    main.add_typer(app, name="screw")


HoleOption = Annotated[
    str | None,
    typer.Option(
        "--in",
        metavar="HOLE",
        help="nut, sheet, extruded, formed, boss or unknown; also in words.",
    ),
]
Sheet = Annotated[float | None, typer.Option("--sheet", help="Thickness of the sheet, mm.")]
Engaged = Annotated[float | None, typer.Option("--engaged", help="Thread in mesh, mm.")]
Draw = Annotated[bool, typer.Option("--draw", help="Draw the two profiles at the terminal.")]
SvgFile = Annotated[
    Path | None, typer.Option("--svg", metavar="FILE", help="Write the drawing as SVG.")
]


@app.command()
def name(
    designation: Annotated[
        str | None, typer.Argument(help='As written, e.g. "8-32 x 3/8 pan".')
    ] = None,
    major: Annotated[float | None, typer.Option(help="Measured over the thread, mm.")] = None,
    pitch: Annotated[float | None, typer.Option(help="Measured pitch, mm.")] = None,
    tpi: Annotated[float | None, typer.Option(help="Threads per inch, instead of a pitch.")] = None,
    over: Annotated[int, typer.Option(help="Pitches the pitch was measured over.", min=1)] = 1,
    length: Annotated[float | None, typer.Option(help="Measured length, mm.")] = None,
    u_major: Annotated[float, typer.Option(help="Caliper uncertainty, mm.")] = 0.03,
    u_pitch: Annotated[
        float | None, typer.Option(help="Uncertainty of the pitch, mm.", show_default=False)
    ] = None,
    json: options.Json = False,
) -> None:
    """Say what a screw is, from its name or from a caliper.

    Example: salvage screw name --major 4.12 --pitch 0.79
    """
    from inventory.cli import screw_show
    from inventory.fasteners import identify
    from inventory.fasteners.designation import read_screw

    if (designation is None) == (major is None):
        raise WrongInput('Give either a name, e.g. "8-32 x 3/8 pan", or --major with a pitch.')
    if designation is not None:
        said = read_screw(designation)
        document = screw_show.named_document(said)
    else:
        assert major is not None  # noqa: S101 - settled above
        along = identify.pitch_of(tpi) if tpi is not None else pitch
        _positive(u_major=u_major, u_pitch=u_pitch, length=length)
        measured = identify.Measured(major, along, u_major, u_pitch, over)
        document = screw_show.measured_document(identify.identify(measured), length)
    if json:
        show.as_json(document)
    else:
        screw_show.name_text(document)
    if not document["candidates"]:
        raise typer.Exit(1)


def _positive(**figures: float | None) -> None:
    """Figures that must be above zero."""
    for option, figure in figures.items():
        if figure is not None and not 0 < figure < 1000:
            raise WrongInput(f"--{option.replace('_', '-')} is a length in mm above zero.")


def _place(hole: str | None, sheet: float | None, engaged: float | None) -> "Place":
    """The hole as said on the command line."""
    from inventory.fasteners.holes import Place, hole_kind

    _positive(sheet=sheet, engaged=engaged)
    return Place(hole_kind(hole or "unknown"), sheet, engaged)


@app.command()
def fit(
    wanted: Annotated[str, typer.Argument(help="The screw that came out, e.g. M4x8.")],
    offered: Annotated[str, typer.Argument(help='The screw to go in, e.g. "#8-32x3/8".')],
    hole: HoleOption = None,
    sheet: Sheet = None,
    engaged: Engaged = None,
    json: options.Json = False,
    draw: Draw = False,
    svg: SvgFile = None,
    dry_run: options.DryRun = False,
) -> None:
    """Say what one screw does in another's hole.

    Example: salvage screw fit M4x8 "#8-32x3/8" --in sheet --draw
    """
    from inventory.cli import screw_show
    from inventory.fasteners.designation import read_screw
    from inventory.fasteners.mating import mate

    names = read_screw(wanted), read_screw(offered)
    threads = names[0].need_thread(), names[1].need_thread()
    place = _place(hole or names[0].place, sheet, engaged)
    mating = mate(threads[0], threads[1], place)
    if json:
        show.as_json(screw_show.fit_document(mating, names))
    else:
        screw_show.fit_text(mating, names)
    _drawings(mating.thread_fit, draw=draw and not json, svg=svg, dry_run=dry_run)


def _drawings(thread_fit: object, *, draw: bool, svg: Path | None, dry_run: bool) -> None:
    """The drawing at the terminal, to a file, or both."""
    from inventory.fasteners import drawing
    from inventory.fasteners.fit import ThreadFit

    if not draw and svg is None:
        return
    if not isinstance(thread_fit, ThreadFit):
        raise WrongInput("Only two machine threads can be drawn over each other.")
    drawn = drawing.section(thread_fit.screw, thread_fit.hole, thread_fit.engaged)
    if draw:
        for row in drawing.as_text(drawn, min(drawing.WIDTH, show.width() - 4)).splitlines():
            show.line(row)
    if svg is not None:
        _write(svg, drawing.as_svg(drawn), dry_run=dry_run)


def _write(path: Path, document: str, *, dry_run: bool) -> None:
    """A file written, or a sentence why not."""
    if dry_run:
        show.note(f"Would write the drawing to {path}.")
        return
    try:
        path.write_text(document, encoding="utf-8")
    except OSError as error:
        raise WrongInput(f"Cannot write {path}: {error.strerror}.") from error
    show.note(f"Drawing written to {path}.")


@app.command()
def instead(
    wanted: Annotated[str, typer.Argument(help='e.g. "security hexalobular 15, M4x8 in sheet".')],
    hole: HoleOption = None,
    sheet: Sheet = None,
    engaged: Engaged = None,
    stack: Annotated[float | None, typer.Option(help="Parts under the head, mm.")] = None,
    earth: Annotated[bool, typer.Option("--earth", help="It is an earthing screw.")] = False,
    high_voltage: Annotated[
        bool | None,
        typer.Option("--hv/--no-hv", help="Does the cover enclose stored high voltage?"),
    ] = None,
    lower_tamper: Annotated[
        bool, typer.Option("--lower-tamper", help="Ask for an ordinary tool on an HV cover.")
    ] = False,
    back_clear: Annotated[
        bool, typer.Option("--back-clear", help="Somebody looked behind the hole.")
    ] = False,
    offers: Annotated[
        str | None,
        typer.Option("--from", metavar="LIST", help='Offers typed here: "M4x8, ST4.2x9.5".'),
    ] = None,
    refused: Annotated[bool, typer.Option("--all", help="Show the refused ones too.")] = False,
    limit: Annotated[int, typer.Option(help="Lots to show; JSON has them all.", min=1)] = 5,
    json: options.Json = False,
    shelf: options.Shelf = None,
) -> None:
    """Find what goes in instead of a lost or locked screw, best first.

    Example: salvage screw instead "security hexalobular 15, M4x8 in sheet"
    """
    from dataclasses import replace

    from inventory.cli import screw_show
    from inventory.fasteners import instead as room
    from inventory.fasteners.shelf import offers_from
    from inventory.records import Verdict

    _positive(stack=stack)
    asked = room.wanted_screw(wanted, _place(hole, sheet, engaged))
    asked = replace(
        asked,
        earth=asked.earth or earth,
        high_voltage=asked.high_voltage if high_voltage is None else high_voltage,
        stack=stack,
        back_is_clear=back_clear,
        lower_tamper=lower_tamper,
    )
    lots = offers_from(offers) if offers is not None else shelf_screws(shelf)
    found = room.instead(asked, lots)
    if json:
        show.as_json(screw_show.instead_document(asked, found))
    else:
        screw_show.instead_text(asked, found, refused=refused, limit=limit)
    if not any(one.verdict is not Verdict.REFUSED for one in found):
        raise typer.Exit(1)


def shelf_screws(shelf: str | None) -> "list[ShelfScrew]":
    """Every lot of screws on hand, as offers; a record that names no single thread is left out.

    The only place where this command asks the shelf.
    """
    from inventory.bench.look import lots_of_family
    from inventory.bench.place import open_for
    from inventory.fasteners.shelf import from_ratings

    found = []
    for part, lot in lots_of_family(open_for(shelf), "screw"):
        offer = from_ratings(
            part.marking,
            part.ratings,
            lot=lot.id,
            bin_=lot.bin,
            on_hand=lot.on_hand - lot.held,
            state=lot.state,
            origin=lot.origin,
        )
        if offer is None:
            show.warn(f"Lot {lot.id} names no single thread: {part.marking}")
        else:
            found.append(offer)
    return found


@app.command()
def limits(
    thread: Annotated[str, typer.Argument(help='e.g. M4x0.7, "#8-32", 1/4-20.')],
    fit_class: Annotated[
        str | None,
        typer.Option("--class", metavar="CLASS", help="6g, 6H, 4g6h, 2A, 3B, 6g/6H."),
    ] = None,
    json: options.Json = False,
) -> None:
    """Print a thread's limits of size in the unit of its standard.

    Example: salvage screw limits "M4x0.7" --class 6g
    """
    from inventory.cli import screw_show
    from inventory.fasteners.designation import read_screw

    name_read = read_screw(thread)
    document = screw_show.limits_document(name_read.need_thread(), fit_class or name_read.fit_class)
    if json:
        show.as_json(document)
    else:
        screw_show.limits_text(document)


@app.command()
def weigh(
    weight: Annotated[str, typer.Option("--weigh", help="Weight of the heap, e.g. 38g.")],
    ten: Annotated[str, typer.Option("--ten", help="Weight of the sample, e.g. 6.2g.")],
    sample: Annotated[int, typer.Option(help="Pieces in the sample.", min=1)] = 10,
    step: Annotated[str, typer.Option(help="Smallest step of the scale.")] = "0.1g",
    json: options.Json = False,
) -> None:
    """Count screws on a scale, with the uncertainty of the count.

    Example: salvage screw weigh --weigh 38g --ten 6.2g
    """
    from inventory.cli import screw_show
    from inventory.fasteners.weigh import count_by_weight, grams

    try:
        heap, tenth, least = (grams(text) for text in (weight, ten, step))
    except InventoryError as error:
        raise WrongInput(str(error)) from error
    found = count_by_weight(heap, tenth, sample_pieces=sample, step=least)
    if json:
        show.as_json(screw_show.weigh_document(found))
    else:
        screw_show.weigh_text(found)
