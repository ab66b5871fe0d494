"""The command that opens the page in the browser."""

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
    from shedlight.web.serving import serve as serve_page

    def say(address: str) -> None:
        typer.echo(f"The page is at {address} (this machine only). End it with Ctrl+C.")

    serve_page(folder, say, port=port)
