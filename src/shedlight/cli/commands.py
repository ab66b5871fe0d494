"""The commands; each reads, asks a lower floor, and shows or writes what comes back."""

import json
from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from shedlight.cli.app import FAILED, Confirmed, Description, Output, WithField, app
from shedlight.cli.field import CavityLevel, TankLevel, WhatIfName, supposed_of
from shedlight.cli.files import described, ending, folder, overlay, write
from shedlight.cli.printing import for_reader


class Example(StrEnum):
    """The starting descriptions that come with the tool."""

    INLAND = "inland-12kv"
    QUAY = "quay-24kv"
    QUAY_CURED = "quay-24kv-cured"
    QUARRY = "quarry-36kv"
    QUARRY_CURED = "quarry-36kv-cured"


class Picture(StrEnum):
    """What can be drawn."""

    SECTION = "section"
    FIELD = "field"
    STRESS = "stress"
    SURFACE_VOLTAGE = "surface-voltage"
    SURFACE_FIELD = "surface-field"
    RAIN = "rain"
    RAIN_ANGLE = "rain-angle"
    WETTING = "wetting"
    WAYS = "ways"
    LEAKAGE = "leakage"
    FLASHOVER = "flashover"
    SEASON = "season"
    TEMPERATURE = "temperature"
    CONDUCTOR = "conductor"
    DAY_LOAD = "day-load"
    HEAT = "heat"
    DRYING = "drying"
    AIR = "air"
    ALTITUDE = "altitude"
    HORNS = "horns"
    ODDS = "odds"
    STRESS_HEIGHT = "stress-height"
    STRESS_SECTION = "stress-section"
    OIL_LEVEL = "oil-level"


class Sheet(StrEnum):
    """What a report is about."""

    CALCULATION = "calculation"
    TESTS = "tests"


class Shades(StrEnum):
    """How the shades of a field step."""

    LOG = "log"
    LINEAR = "linear"


class Wetting(StrEnum):
    """What wets the surface in the picture of drying."""

    FOG = "fog"
    RAIN = "rain"


@app.command()
def example(
    name: Annotated[Example, typer.Argument(help="Which one.")],
    output: Annotated[
        Path | None, typer.Option("-o", "--output", metavar="PATH", help="File to write.")
    ] = None,
) -> None:
    """Write a starting description.

    Example: [bold]shedlight example quay-24kv -o mine.toml[/bold]
    """
    from shedlight.exchange.examples import example_text

    text = example_text(name.value)
    with for_reader():
        if output is None:
            typer.echo(text, nl=False)
        else:
            write(output, text, replace=False)


@app.command()
def check(
    file: Description,
    as_json: Annotated[bool, typer.Option("--json", help="Print everything as JSON.")] = False,
    confirmed: Confirmed = None,
    with_field: WithField = False,
) -> int:
    """Answer every question of the catalogue. Leaves with 1 if a check fails.

    Example: [bold]shedlight check mine.toml[/bold]
    """
    from shedlight.checks.assessment import assess

    with described(file) as case:
        assessment = assess(case, overlay(confirmed), with_field=with_field, apart=True)
    with for_reader():
        if as_json:
            from shedlight.exchange.record import assessment_record

            record = assessment_record(assessment)
            typer.echo(json.dumps(record, ensure_ascii=False, indent=1, allow_nan=False))
        else:
            from shedlight.cli.tables import show_assessment

            show_assessment(assessment)
    return FAILED if assessment.verdict == "fail" else 0


@app.command()
def draw(
    file: Description,
    output: Output,
    show: Annotated[Picture, typer.Option("--show", help="Which picture.")] = Picture.SECTION,
    wetting: Annotated[
        Wetting, typer.Option("--weather", help="For drying: what wets the surface.")
    ] = Wetting.FOG,
    minutes: Annotated[
        float, typer.Option("--minutes", min=0.5, max=120, help="For drying: how long.")
    ] = 10.0,
    scale: Annotated[
        Shades, typer.Option("--scale", help="For field: how the shades step.")
    ] = Shades.LOG,
    what_if: Annotated[
        WhatIfName | None, typer.Option("--what-if", help="For field: what is supposed.")
    ] = None,
    tank_level: TankLevel = None,
    cavity_level: CavityLevel = None,
) -> None:
    """Draw the section to scale, or its field; the file's ending (svg, png, pdf) says how.

    Example: [bold]shedlight draw mine.toml -o section.pdf[/bold], or with
    [bold]--show field[/bold]
    """
    from shedlight.cli.progress import working
    from shedlight.documents.pictures import picture_file
    from shedlight.documents.weather_pictures import Weather

    kind, view = ending(output, ("svg", "png", "pdf")), None
    if show is Picture.FIELD:
        from shedlight.documents.field_pictures import FieldView

        supposed = supposed_of(tank_level, cavity_level)
        view = FieldView(scale.value, what_if.value if what_if else "", supposed)
    with described(file) as case, working(f"drawing {output.name}"):
        content = picture_file(case, show, kind, Weather(wetting.value, minutes), view)
    with for_reader():
        write(output, content)


@app.command()
def report(
    file: Description,
    output: Output,
    confirmed: Confirmed = None,
    with_field: WithField = False,
    sheet: Annotated[
        Sheet, typer.Option("--sheet", help="The calculation, or one page for the test bay.")
    ] = Sheet.CALCULATION,
) -> None:
    """Write the calculation, line by line; the file's ending (pdf, html) says how.

    Example: [bold]shedlight report mine.toml -o calculation.pdf[/bold], or with
    [bold]--sheet tests[/bold] what to apply, expect and accept in the test bay
    """
    from shedlight.checks.assessment import assess
    from shedlight.cli.progress import working

    kind = ending(output, ("pdf", "html"))
    with described(file) as case, working(f"writing {output.name}"):
        assessment = assess(case, overlay(confirmed), with_field=with_field, apart=True)
        content: str | bytes
        if sheet is Sheet.TESTS:
            from shedlight.documents.proof_sheet import proof_sheet_html, proof_sheet_pdf

            content = (proof_sheet_pdf if kind == "pdf" else proof_sheet_html)(assessment)
        elif kind == "pdf":
            from shedlight.documents.paper import calculation_pdf

            content = calculation_pdf(assessment)
        else:
            from shedlight.documents.html import calculation_html

            content = calculation_html(assessment)
    with for_reader():
        write(output, content)


@app.command()
def verify(
    figures: Annotated[
        Path | None,
        typer.Option(
            "--figures", metavar="DIR", help="Folder for published curves drawn beside ours."
        ),
    ] = None,
) -> int:
    """Run every reference case on this machine: computed beside published.

    Example: [bold]shedlight verify[/bold], or with [bold]--figures curves[/bold]
    """
    from shedlight.cli.progress import working
    from shedlight.cli.tables import show_verification
    from shedlight.verification import outcomes

    with working("running the reference cases"):
        found = outcomes()
    with for_reader():
        show_verification(found)
        if figures is not None:
            from shedlight.documents.published_pictures import published_files

            for name, content in published_files():
                write(folder(figures) / name, content)
    return 0 if all(outcome.ok for outcome in found) else FAILED


@app.command()
def catalogue() -> None:
    """Print every question the checks answer, and why it matters.

    Example: [bold]shedlight catalogue[/bold]
    """
    from shedlight.checks.catalogue import questions
    from shedlight.cli.tables import show_catalogue

    with for_reader():
        show_catalogue(tuple(questions().values()))
