"""Tables about the field for the terminal."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from rich import box
from rich.markup import escape
from rich.table import Table

from shedlight.cli.tables import console_for_reader
from shedlight.documents.cautions import CAUTIONS
from shedlight.documents.numerals import percent
from shedlight.units import digits, shown_in

if TYPE_CHECKING:  # its module opens the solver's libraries
    from shedlight.workings.what_ifs import WhatIf


def show_what_if(found: "WhatIf") -> None:
    """Every number as it is and as it would be, what was stated, and what it teaches."""
    console = console_for_reader()
    console.print(f"[bold]{escape(found.title)}[/bold]")
    table = Table(box=box.SIMPLE_HEAD, pad_edge=False)
    for heading in ("", "as it is", "what if", "unit", "change"):
        table.add_column(heading, justify="left" if heading in ("", "unit") else "right")
    for item in found.numbers:
        number = item.after or item.before
        unit = number.step.label.unit if number else ""
        shown = ("–" if n is None else digits(shown_in(n, unit)) for n in (item.before, item.after))
        change = "–" if item.ratio is None else percent(item.ratio - 1)
        table.add_row(item.words, *shown, unit, change)
    console.print(table)
    for sentence in found.stated:
        console.print(escape(sentence), style="dim")
    console.print(escape(found.lesson))
    console.print(f"{CAUTIONS[0]} {CAUTIONS[-1]}", style="dim")


def show_reading(record: Mapping[str, Any]) -> None:
    """Potential, field and material at a place."""
    console = console_for_reader()
    place = " · ".join(
        f"{name} {digits(record[name]['value'])} {record[name]['unit']}"
        for name in ("radius", "height")
    )
    console.print(f"[bold]{place}[/bold]")
    console.print(f"{record['region']}, {record['material']}", markup=False)
    for name in ("potential", "field"):
        console.print(f"{name} {digits(record[name]['value'])} {record[name]['unit']} rms")
    if record["direction"] is not None:
        angle = digits(record["direction"]["value"])
        console.print(f"points {angle}° upwards of straight outwards at positive voltage")
