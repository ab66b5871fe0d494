"""The commands that explain: the guided tour and the worked questions."""

from pathlib import Path
from typing import Annotated

import typer

from shedlight.cli.app import Description, app
from shedlight.cli.files import described, folder, write
from shedlight.cli.printing import for_reader

Folder = Annotated[Path, typer.Option("-o", "--output", metavar="DIR", help="Folder to write to.")]
Language = Annotated[str, typer.Option("--language", help="Language of the texts: en or de.")]


@app.command()
def explain(file: Description, output: Folder, language: Language = "en") -> None:
    """Write the guided tour: slides for a class or a customer (HTML) and a handout (PDF).

    Example: [bold]shedlight explain mine.toml -o lesson[/bold]
    """
    from shedlight.checks.assessment import assess
    from shedlight.cli.progress import working
    from shedlight.explain.handout import handout_pdf
    from shedlight.explain.slides import slides_html
    from shedlight.explain.tour import tour
    from shedlight.explain.words import words

    words(language)  # refused before any work is done
    with described(file) as case, working("preparing the tour"):
        told = tour(assess(case), language)
        slides, handout = slides_html(told), handout_pdf(told)
    with for_reader():
        place = folder(output)
        write(place / "tour.html", slides)
        write(place / "handout.pdf", handout)
