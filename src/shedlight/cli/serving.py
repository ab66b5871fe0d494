"""The command that opens the page in the browser."""

import os
import sys
from pathlib import Path
from typing import Annotated

import typer

from shedlight.cli.app import app

USUAL_PORT = 8470


@app.command()
def serve(
    folder: Annotated[
        Path | None,
        typer.Argument(
            metavar="[FOLDER]", help="Working folder; left out, the page opens on the demo."
        ),
    ] = None,
    port: Annotated[
        int, typer.Option(help="Where to listen; 0 takes any port that is free.", min=0, max=65535)
    ] = USUAL_PORT,
) -> None:
    """Open the page: see a bushing, change it, judge it. For the browser of this machine only.

    Example: [bold]shedlight serve my-bushings[/bold]
    """
    # The other door is a process of its own: doors do not open into one another.
    place = [str(folder)] if folder is not None else []
    program = [sys.executable, "-m", "shedlight.web", "--port", str(port), "--", *place]
    os.execv(sys.executable, program)
