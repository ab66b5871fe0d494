"""The commands about the field: what-ifs, and a reading at any place."""

import json
from enum import StrEnum
from typing import TYPE_CHECKING, Annotated

import typer

from shedlight.cli.app import Description, app
from shedlight.cli.files import described
from shedlight.cli.printing import for_reader

if TYPE_CHECKING:  # its module opens the solver's libraries
    from shedlight.workings.what_ifs import Supposed

AsJson = Annotated[bool, typer.Option("--json", help="Print everything as JSON.")]
TankLevel = Annotated[
    str | None,
    typer.Option("--tank-level", help='For oil-drained: tank oil over the cover, "-40 mm".'),
]
CavityLevel = Annotated[
    str | None,
    typer.Option("--cavity-level", help='For oil-drained: oil inside the bushing, "100 mm".'),
]


class WhatIfName(StrEnum):
    """What may be supposed."""

    NO_BUSHING = "no-bushing"
    NO_SHEDS = "no-sheds"
    OIL_DRAINED = "oil-drained"
    OFF_CENTRE = "off-centre"


@app.command(name="what-if")
def what_if(
    file: Description,
    name: Annotated[WhatIfName, typer.Argument(help="What is supposed.")],
    tank_level: TankLevel = None,
    cavity_level: CavityLevel = None,
    offset: Annotated[
        str | None,
        typer.Option("--offset", help='For off-centre: from the middle of the bore, "2 mm".'),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Compare the field as it is with the field as it would be, by the numbers that teach.

    Example: [bold]shedlight what-if mine.toml no-bushing[/bold]
    """
    from shedlight.cli.progress import working
    from shedlight.workings import Workings
    from shedlight.workings.what_ifs import what_if as answer

    supposed = supposed_of(tank_level, cavity_level, offset)
    with described(file) as case, working(f"solving {name.value}"):
        found = answer(Workings(case, with_field=True), name.value, supposed)
    with for_reader():
        if as_json:
            from shedlight.exchange.record import what_if_record

            record = what_if_record(found)
            typer.echo(json.dumps(record, ensure_ascii=False, indent=1, allow_nan=False))
        else:
            from shedlight.cli.field_tables import show_what_if

            show_what_if(found)


@app.command()
def reading(
    file: Description,
    radius: Annotated[str, typer.Argument(metavar="RADIUS", help='From the axis, "45 mm".')],
    height: Annotated[
        str, typer.Argument(metavar="HEIGHT", help='Over the top of the cover, "120 mm".')
    ],
    as_json: AsJson = False,
) -> None:
    """Read potential, field and material at a place of the section.

    Example: [bold]shedlight reading mine.toml "45 mm" "120 mm"[/bold]
    """
    from shedlight.cli.progress import working
    from shedlight.exchange.record import reading_record
    from shedlight.units import parse
    from shedlight.workings import Workings
    from shedlight.workings.field_reading import reading_at

    place = parse(radius, "mm"), parse(height, "mm")
    with described(file) as case, working("solving the field"):
        record = reading_record(reading_at(Workings(case), *place))
    with for_reader():
        if as_json:
            typer.echo(json.dumps(record, ensure_ascii=False, indent=1, allow_nan=False))
        else:
            from shedlight.cli.field_tables import show_reading

            show_reading(record)


def supposed_of(
    tank_level: str | None, cavity_level: str | None, offset: str | None = None
) -> "Supposed":
    """What is supposed, from quantities as they were written.

    Args:
        tank_level: Level of the tank's oil over the top of the cover.
        cavity_level: Level of the oil inside the bushing.
        offset: Of the conductor from the middle of its bore.

    Raises:
        UnitError: one is no length.
    """
    from shedlight.units import parse
    from shedlight.workings.what_ifs.record import Supposed

    written = (tank_level, cavity_level, offset)
    return Supposed(*(None if text is None else parse(text, "mm") for text in written))
