"""The commands that explain: the guided tour and the worked questions."""

from pathlib import Path
from typing import Annotated

import typer

from shedlight.cli.app import Description, app
from shedlight.cli.files import described, folder, write
from shedlight.cli.printing import for_reader

Topics = Annotated[
    list[str] | None,
    typer.Option("--topic", help="voltage, wall, surface, air, oil, heat or seal; may repeat."),
]
Levels = Annotated[
    list[int] | None, typer.Option("--level", help="1 one step, 2 a few, 3 many; may repeat.")
]
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


@app.command()
def questions(
    file: Description,
    output: Folder,
    topic: Topics = None,
    level: Levels = None,
    number: Annotated[int, typer.Option("--number", help="How many questions.")] = 10,
    seed: Annotated[int, typer.Option("--seed", help="The same seed asks the same.")] = 1,
    vary: Annotated[
        bool, typer.Option("--vary", help="Another plausible installation for every question.")
    ] = False,
) -> None:
    """Write worked questions: a sheet to hand out and one with every step of the answers.

    Example: [bold]shedlight questions mine.toml -o lesson --topic wall --seed 7[/bold]
    """
    from shedlight.cli.progress import working
    from shedlight.explain.questions.printing import sheet_file
    from shedlight.explain.questions.sheet import Wish, refuse_unknown, sheet

    wish = Wish(tuple(topic or ()), tuple(level or ()), number, seed, vary)
    refuse_unknown(wish)  # before any work is done
    with described(file) as case, working("asking questions"):
        made = sheet(case, wish)
        files = {
            f"{name}.{kind}": sheet_file(made, kind, answers=name == "answers")
            for name in ("questions", "answers")
            for kind in ("pdf", "html", "md")
        }
    with for_reader():
        place = folder(output)
        for name, content in files.items():
            write(place / name, content)
