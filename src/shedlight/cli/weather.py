"""The command for the weather of the day in the test hall."""

import json
from typing import Annotated

import typer

from shedlight.cli.app import Description, app
from shedlight.cli.files import described
from shedlight.cli.printing import for_reader
from shedlight.errors import DescriptionError, Problem, UnitError
from shedlight.units import parse


@app.command("test-day")
def hall(
    file: Description,
    pressure: Annotated[
        str, typer.Option("--pressure", metavar="P", help='Pressure of the place: "95 kPa".')
    ],
    temperature: Annotated[
        str, typer.Option("--temperature", metavar="T", help='Air temperature: "25 °C".')
    ],
    humidity: Annotated[
        str, typer.Option("--humidity", metavar="R", help='Relative humidity: "60 %".')
    ],
    measured: Annotated[
        str | None,
        typer.Option(
            "--measured", metavar="U", help='50 % lightning sparkover read today: "160 kV".'
        ),
    ] = None,
    steps: Annotated[bool, typer.Option("--steps", help="Show every step.")] = False,
    as_json: Annotated[bool, typer.Option("--json", help="Print everything as JSON.")] = False,
) -> None:
    """What to apply in each test in today's weather, and what a reading of today is worth.

    Example: [bold]shedlight test-day mine.toml --pressure "95 kPa" --temperature "25 °C"
    --humidity "60 %"[/bold]
    """
    from shedlight.workings import Workings
    from shedlight.workings.day_of_test import day_of_test

    weather = (
        _read("--pressure", pressure, "kPa"),
        _read("--temperature", temperature, "°C"),
        _read("--humidity", humidity, "%"),
    )
    sparked = None if measured is None else _read("--measured", measured, "kV")
    with described(file) as case:
        work = Workings(case)
        _ = work.air, work.voltages  # what is impossible in the description is told as such
    day = day_of_test(work, *weather, sparked)
    with for_reader():
        if as_json:
            from shedlight.exchange.record import day_record

            typer.echo(json.dumps(day_record(day), ensure_ascii=False, indent=1))
        else:
            from shedlight.cli.tables import show_day

            show_day(case, day, steps=steps)


def _read(option: str, text: str, like: str) -> float:
    try:
        return parse(text, like)
    except UnitError as error:
        problem = Problem(option, error.given, error.expected, error.cure)
        raise DescriptionError("command line", (problem,)) from None
