"""The tour on paper: a handout for those who listened, set by Typst."""

import json
from dataclasses import asdict
from importlib import resources
from typing import Any

from shedlight.documents.calculation import subject_of
from shedlight.documents.cautions import CAUTIONS
from shedlight.documents.typeset import typeset
from shedlight.explain.tour import Tour, View
from shedlight.explain.words import DEPTHS
from shedlight.figures.painters.svg import paint


def handout_pdf(tour: Tour) -> bytes:
    """The tour as a printable handout; the same bytes for the same tour.

    Args:
        tour: What is printed.
    """
    chrome, case = tour.words.chrome, tour.assessment.installation
    records = {
        "title": f"{chrome['tour']}: {case.name}",
        "kind": chrome["tour"],
        "name": case.name,
        "subject": subject_of(case),
        "language": tour.words.language,
        "cautions_title": chrome["cautions"],
        "cautions": CAUTIONS,
        "views": [_view(tour, view) for view in tour.views],
        "questions_title": chrome["questions"],
        "answers_title": chrome["answers"],
        "predictions": [asdict(asked) for view in tour.views for asked in view.predictions],
    }
    template = resources.files("shedlight.explain").joinpath("handout.typ").read_bytes()
    return typeset(template, json.dumps(records, ensure_ascii=False), case.name)


def _view(tour: Tour, view: View) -> dict[str, Any]:
    chrome, picture = tour.words.chrome, view.picture
    missing = f"{chrome['not_known']} {', '.join(view.missing)}." if view.missing else ""
    return {
        "title": view.title,
        "idea": view.idea,
        "caption": view.caption,
        "missing": missing,
        "picture": {
            "svg": paint(picture),
            "height": picture.height,
            "title": picture.title,
            "description": picture.description,
        },
        "depths": [
            {"name": chrome[depth], "paragraphs": view.depths[depth]}
            for depth in DEPTHS
            if view.depths[depth]
        ],
        "what_ifs": [
            {"title": f"{chrome['what_if']}: {found.title}", "says": found.says}
            for found in view.what_ifs
        ],
    }
