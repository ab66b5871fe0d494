"""The commands that decide: size a bushing, choose one, say why, weigh doubt, run many cases."""

from pathlib import Path
from typing import Annotated, cast

import typer

from shedlight.cli.app import FAILED, Description, app
from shedlight.cli.files import described, ending, write
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
    from shedlight.sizing.prices import prices_of
    from shedlight.sizing.request import read_request
    from shedlight.sizing.rows import conductors_of

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


@app.command()
def choose(
    file: Open,
    stock: Annotated[
        Path, typer.Argument(metavar="STOCK", help="Offers: a CSV table or a spreadsheet.")
    ],
    output: Annotated[
        Path | None,
        typer.Option("-o", "--output", metavar="NEW", help="TOML to write the best offer to."),
    ] = None,
) -> int:
    """Judge offers for a transformer: which fit, which hold, what deviates. 1 if none holds.

    What FILE fixes of the bushing is what is asked for.
    Example: [bold]shedlight choose duty.toml stock.csv[/bold]
    """
    from shedlight.cli.progress import working
    from shedlight.cli.sizing_tables import show_offers
    from shedlight.given.writing import to_toml
    from shedlight.sizing.request import read_request
    from shedlight.sizing.rows import rows_of
    from shedlight.sizing.stock import choose as judge

    if output is not None:
        ending(output, ("toml",))
    request = read_request(file)
    with working("judging the offers"):
        offers = judge(request, rows_of(stock))
    with for_reader():
        show_offers(offers)
        if output is not None and offers[0].case is not None:
            write(output, to_toml(offers[0].case))
    return 0 if offers[0].holds else FAILED


@app.command()
def why(
    file: Description,
    output: Annotated[
        Path | None,
        typer.Option("-o", "--output", metavar="PATH", help="Page to draw (svg, png, pdf)."),
    ] = None,
) -> None:
    """Say of each main dimension what governs it, what would just do, what gives way next.

    Example: [bold]shedlight why mine.toml -o why.pdf[/bold]
    """
    from shedlight.cli.progress import working
    from shedlight.cli.sizing_tables import show_reasons
    from shedlight.documents.reasons import why_page
    from shedlight.sizing.comparison import air_against_oil
    from shedlight.sizing.reasons import reasons

    kind = None if output is None else ending(output, ("svg", "png", "pdf"))
    with described(file) as case, working("asking why"):
        found = reasons(case)
        comparison = air_against_oil(case, found)
        page = None if kind is None else why_page(case, found, comparison, kind)
    with for_reader():
        show_reasons(case, found, comparison)
        if output is not None and page is not None:
            write(output, page)


@app.command()
def doubt(
    file: Description,
    drawn: Annotated[
        int, typer.Option("--drawn", min=32, max=65536, help="How many bushings are drawn.")
    ] = 128,
) -> None:
    """Say how surely each check holds, with tolerances and scatter, and what dominates.

    Example: [bold]shedlight doubt mine.toml[/bold]
    """
    from shedlight.cli.progress import working
    from shedlight.cli.sizing_tables import show_doubts
    from shedlight.sizing.doubt import doubts_of

    with described(file) as case, working("drawing bushings"):
        found = doubts_of(case, drawn)
    with for_reader():
        show_doubts(case, found)


@app.command()
def compromises(
    file: Open,
    output: Annotated[
        Path, typer.Option("-o", "--output", metavar="PATH", help="Chart (svg, png, pdf).")
    ],
    first: Annotated[str, typer.Option(help="One objective.")] = "shortest",
    second: Annotated[str, typer.Option(help="The other.")] = "widest margin",
    prices: Annotated[Table, typer.Option(metavar="TABLE", help="Item, unit, price.")] = None,
    count: Annotated[int, typer.Option(min=3, max=30, help="How many are sought.")] = 7,
) -> None:
    """Draw the best compromises between two objectives.

    Example: [bold]shedlight compromises duty.toml -o front.pdf --second "least oil"[/bold]
    """
    from shedlight.cli.progress import working
    from shedlight.cli.sizing_tables import show_front
    from shedlight.documents.reasons import front_page
    from shedlight.sizing.compromise import compromises as seek

    kind = ending(output, ("svg", "png", "pdf"))
    pair = _objective(first), _objective(second)
    if pair[0] == pair[1]:
        raise typer.BadParameter(f"second: given {second!r} twice; expected two objectives.")
    request = _request(file, None, None, prices, None)
    with working("seeking compromises"):
        *_, front = seek(request, *pair, count)
    with for_reader():
        show_front(front)
        if front.candidates:
            name = str(request.tables.get("name", file.stem))
            write(output, front_page(front, name, kind))


@app.command()
def variants(
    plan: Annotated[Path, typer.Argument(metavar="PLAN", help="Plan (TOML).")],
    output: Annotated[
        Path, typer.Option("-o", "--output", metavar="DIR", help="Folder for the results.")
    ],
    workers: Annotated[
        int | None, typer.Option(min=1, max=256, help="Processes; all cores if left out.")
    ] = None,
    scheduler: Annotated[
        str | None, typer.Option(metavar="ADDRESS", help="A Dask scheduler to use instead.")
    ] = None,
) -> None:
    """Check every combination of duties, sites and shapes; a killed run goes on where it was.

    Example: [bold]shedlight variants plan.toml -o results[/bold]
    """
    from shedlight.cli.progress import counting
    from shedlight.cli.sizing_tables import show_summary
    from shedlight.documents.variants import summary_files
    from shedlight.variants.keeping import Keeping
    from shedlight.variants.plan import read_plan
    from shedlight.variants.running import run_plan
    from shedlight.variants.summary import summary_of

    keeping = Keeping(read_plan(plan), output)
    with counting("checking cases") as told:
        computed = run_plan(keeping, workers=workers, scheduler=scheduler, progress=told)
    keeping.collect()
    summary = summary_of(keeping)
    written = summary_files(keeping, summary)
    with for_reader():
        show_summary(summary, computed)
        for path in written:
            typer.echo(f"wrote {path}")
