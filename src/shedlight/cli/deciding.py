"""The commands that decide: size a bushing, choose one, say why, weigh doubt, run many cases."""

from pathlib import Path
from typing import Annotated, cast

import typer

from shedlight.cli.app import FAILED, app
from shedlight.cli.files import ending, write
from shedlight.cli.printing import for_reader
from shedlight.sizing.request import Objective, Request

OBJECTIVES = ("shortest", "lightest", "least oil", "widest margin", "cheapest")
Open = Annotated[Path, typer.Argument(metavar="FILE", help="Duty, site, transformer, wishes.")]
Table = Path | None


def _request(
    file: Path, objective: str | None, margin: str | None, prices: Table, conductors: Table
) -> Request:
    from dataclasses import replace

    from shedlight import units
    from shedlight.sizing.request import read_request
    from shedlight.sizing.rows import conductors_of, prices_of

    request = read_request(file)
    if objective is not None:
        request = request.wishing(objective=_objective(objective))
    if margin is not None:
        request = request.wishing(margin=units.parse(margin, "%"))
    if prices is not None:
        request = replace(request, prices=prices_of(prices))
    if conductors is not None:
        request = replace(request, conductors=conductors_of(conductors))
    return request


def _objective(text: str) -> Objective:
    if text not in OBJECTIVES:
        raise typer.BadParameter(f"objective: given {text!r}; expected {', '.join(OBJECTIVES)}.")
    return cast(Objective, text)


@app.command()
def size(
    file: Open,
    output: Annotated[Path, typer.Option("-o", "--output", metavar="NEW", help="TOML to write.")],
    objective: Annotated[
        str | None, typer.Option(help=f"What is to be best: {', '.join(OBJECTIVES)}.")
    ] = None,
    margin: Annotated[
        str | None, typer.Option(help='Margin of every check, such as "5 %".')
    ] = None,
    prices: Annotated[Table, typer.Option(metavar="TABLE", help="Item, unit, price.")] = None,
    bodies: Annotated[
        Table, typer.Option(metavar="TABLE", help="Porcelain bodies in stock; one is taken.")
    ] = None,
    conductors: Annotated[
        Table, typer.Option(metavar="TABLE", help="Diameters of rods in stock.")
    ] = None,
) -> int:
    """Size a bushing for duty, site and transformer. Leaves with 1 if nothing fits.

    What of the bushing stands in FILE is kept; a table [sizing] holds the wishes.
    Example: [bold]shedlight size duty.toml -o sized.toml --objective lightest[/bold]
    """
    from shedlight.cli.progress import working
    from shedlight.cli.sizing_tables import show_conflict, show_sized
    from shedlight.given.writing import to_toml
    from shedlight.sizing.conflict import conflict_of
    from shedlight.sizing.stock import size_from_bodies

    ending(output, ("toml",))
    request = _request(file, objective, margin, prices, conductors)
    with working("sizing"):
        sized, body = size_from_bodies(request, bodies)
        conflict = conflict_of(request, sized) if sized.short else None
    with for_reader():
        show_sized(sized, body)
        if conflict is not None:
            show_conflict(conflict)
        write(output, to_toml(sized.case))
    return 0 if sized.holds else FAILED
