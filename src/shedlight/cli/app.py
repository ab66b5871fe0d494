"""The command line itself, and the words that many commands share."""

from pathlib import Path
from typing import Annotated

import typer

app = typer.Typer(
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode="rich",
    help="Decide, prove, document, look after and explain the bushings of power transformers.",
)

FAILED = 1
Description = Annotated[Path, typer.Argument(metavar="FILE", help="Description (TOML).")]
Confirmed = Annotated[
    Path | None,
    typer.Option("--confirmed", metavar="ROWS", help="Table rows you checked (TOML overlay)."),
]
WithField = Annotated[
    bool, typer.Option("--field", help="Solve field and section stress too; takes a few seconds.")
]
Output = Annotated[Path, typer.Option("-o", "--output", metavar="PATH", help="File to write.")]
