"""The tour as one HTML file that needs nothing else: turn pages, choose the depth, predict.

Without its script the file still shows every view, one below the other, and prints as such.
"""

import base64
import hashlib
from collections.abc import Iterator
from importlib import resources

from shedlight.documents.cautions import CAUTIONS
from shedlight.documents.markup import NOTHING, Markup, element
from shedlight.explain.parts import Part, parts
from shedlight.explain.tour import Prediction, Tour, View
from shedlight.explain.what_ifs import WhatIf
from shedlight.explain.words import DEPTHS
from shedlight.figures.painters.svg import paint

TWO_WAYS = "surface"  # the view whose picture has both ways in it


def slides_html(tour: Tour) -> str:
    """The tour as a self-contained page.

    Args:
        tour: What is shown.
    """
    script, style = _file("slides.js"), _file("slides.css")
    digest = base64.b64encode(hashlib.sha256(script.encode("utf-8")).digest()).decode("ascii")
    policy = (
        f"default-src 'none'; style-src 'unsafe-inline'; script-src 'sha256-{digest}'; "
        "img-src data:"
    )
    title = f"{tour.words.chrome['tour']}: {tour.assessment.installation.name}"
    head = element(
        "head",
        element("meta", charset="utf-8"),
        element("meta", http_equiv="Content-Security-Policy", content=policy),
        element("meta", name="viewport", content="width=device-width, initial-scale=1"),
        element("title", title),
        element("style", Markup(style)),
    )
    body = element("body", tour_markup(tour), element("script", Markup(script), type="module"))
    return f"<!DOCTYPE html>\n{element('html', head, body, lang=tour.words.language)}\n"


def tour_markup(tour: Tour, *, landmark: bool = True) -> Markup:
    """The tour itself, for a page that brings its own head.

    Args:
        tour: What is shown.
        landmark: Whether it holds the page's main part, or stands inside of that.
    """
    chrome = tour.words.chrome
    views = [_view(tour, view, number) for number, view in enumerate(tour.views, start=1)]
    return element(
        "div",
        _bar(tour),
        element("main" if landmark else "div", *views, _parts(tour), _cautions(tour), id="views"),
        element("footer", element("p", chrome["keys"]), class_="keys"),
        class_="tour",
        id="tour",
        data_depth="apprentice",
    )


def _file(name: str) -> str:
    return resources.files("shedlight.explain").joinpath(name).read_text("utf-8")


def _bar(tour: Tour) -> Markup:
    chrome = tour.words.chrome
    jumps = (
        element("option", f"{n}. {view.title}", value=f"view-{view.key}-page")
        for n, view in enumerate(tour.views, start=1)
    )
    planned = f"{chrome['planned']} {tour.minutes:g} {chrome['minutes']}"
    return element(
        "header",
        element("h1", tour.assessment.installation.name),
        element(
            "nav",
            element("button", "◀", type="button", id="previous", aria_label=chrome["previous"]),
            element("select", *jumps, id="jump", aria_label=chrome["contents"]),
            element("button", "▶", type="button", id="next", aria_label=chrome["next"]),
            aria_label=chrome["contents"],
        ),
        _depths(tour),
        element("button", chrome["show_notes"], type="button", id="notes", aria_pressed="false"),
        element("button", chrome["full_screen"], type="button", id="full-screen"),
        element(
            "p",
            f"{chrome['time']} ",
            element("output", "0:00", id="clock"),
            f", {planned}",
            class_="clock",
        ),
        class_="tour-bar",
    )


def _depths(tour: Tour) -> Markup:
    chrome = tour.words.chrome
    depths = (
        element(
            "label",
            element("input", type="radio", name="depth", value=depth, checked=depth == DEPTHS[1]),
            chrome[depth],
        )
        for depth in DEPTHS
    )
    return element("fieldset", element("legend", chrome["depth"]), *depths, class_="depths")


def _view(tour: Tour, view: View, number: int) -> Markup:
    chrome = tour.words.chrome
    place = f"{number} {chrome['of']} {len(tour.views)}"
    return element(
        "section",
        element("figure", Markup(paint(view.picture)), element("figcaption", view.caption)),
        element(
            "div",
            element("p", place, class_="place"),
            element("h2", view.title, id=f"view-{view.key}-heading"),
            element("p", view.idea, class_="idea"),
            *(_depth(chrome[depth], depth, view.depths[depth]) for depth in DEPTHS),
            _missing(tour, view),
            _two_ways(tour, view),
            *(_predicted(tour, prediction) for prediction in view.predictions),
            *(_what_if(tour, found) for found in view.what_ifs),
            _notes(tour, view),
            class_="told",
        ),
        class_="view",
        id=f"view-{view.key}-page",
        aria_labelledby=f"view-{view.key}-heading",
        data_minutes=f"{view.minutes:g}",
        tabindex="-1",
    )


def _depth(name: str, depth: str, paragraphs: tuple[str, ...]) -> Markup:
    told = (element("p", text) for text in paragraphs)
    return element("div", element("h3", name), *told, class_="depth", data_for=depth)


def _missing(tour: Tour, view: View) -> Markup:
    if not view.missing:
        return NOTHING
    what = ", ".join(view.missing)
    return element("p", f"{tour.words.chrome['not_known']} {what}.", class_="missing")


def _two_ways(tour: Tour, view: View) -> Markup:
    """A slider that moves a point along each of the two ways at once."""
    if view.key != TWO_WAYS:
        return NOTHING
    chrome, measures = tour.words.chrome, tour.assessment.workings.measures
    return element(
        "div",
        element("label", chrome["two_ways"], for_="way"),
        element("input", type="range", id="way", min="0", max="1000", value="0"),
        element("p", f"{chrome['along']}: ", element("output", "0", id="along"), " mm"),
        element("p", f"{chrome['through']}: ", element("output", "0", id="through"), " mm"),
        class_="ways",
        data_along=repr(1e3 * measures.creepage_length),
        data_through=repr(1e3 * measures.arcing.length),
    )


def _predicted(tour: Tour, prediction: Prediction) -> Markup:
    chrome, name = tour.words.chrome, f"predict-{prediction.key}"
    options = (
        element(
            "label",
            element("input", type="radio", name=name, value=str(index)),
            option,
            class_="option",
        )
        for index, option in enumerate(prediction.options)
    )
    answer = element(
        "div",
        element("p", chrome["right"], class_="was-right"),
        element("p", chrome["not_quite"], class_="was-wrong"),
        element("p", element("strong", prediction.options[prediction.right])),
        *(element("p", text) for text in prediction.answer),
        class_="answer",
        aria_live="polite",
    )
    return element(
        "fieldset",
        element("legend", chrome["predict"]),
        element("p", prediction.question, class_="question"),
        *options,
        element("button", chrome["show_answer"], type="button", class_="reveal"),
        answer,
        class_="prediction",
        data_right=str(prediction.right),
    )


def _what_if(tour: Tour, found: WhatIf) -> Markup:
    chrome = tour.words.chrome
    turned = element("ul", *(element("li", text) for text in found.turned))
    return element(
        "details",
        element("summary", f"{chrome['what_if']}: {found.title}"),
        *(element("p", text) for text in found.says),
        element("figure", Markup(paint(found.picture))) if found.picture else NOTHING,
        *_verdicts(tour, found),
        element("p", f"{chrome['changed']}:") + turned if found.turned else NOTHING,
        class_="what-if",
    )


def _verdicts(tour: Tour, found: WhatIf) -> Iterator[Markup]:
    chrome = tour.words.chrome
    if found.before:
        yield element("p", f"{chrome['verdict_before']}: {found.before}.")
        yield element("p", f"{chrome['verdict_after']}: {found.after}.")


def _notes(tour: Tour, view: View) -> Markup:
    minutes = f"{view.minutes:g} {tour.words.chrome['minutes']}"
    return element(
        "aside",
        element("h3", f"{tour.words.chrome['notes']} ({minutes})"),
        *(element("p", text) for text in view.notes),
        class_="notes",
    )


def _parts(tour: Tour) -> Markup:
    chrome = tour.words.chrome
    told = Markup.joined([_part(tour, part) for part in parts()])
    return element(
        "section",
        element("div", element("h2", chrome["parts"], id="parts-heading"), told, class_="told"),
        class_="view parts",
        id="parts-page",
        aria_labelledby="parts-heading",
        tabindex="-1",
    )


def _part(tour: Tour, part: Part) -> Markup:
    return element("div", *_part_lines(tour, part), class_="part")


def _part_lines(tour: Tour, part: Part) -> Iterator[Markup]:
    chrome = tour.words.chrome
    also = f" ({chrome['also']}: {', '.join(part.also)})" if part.also else ""
    yield element("h3", part.name + also)
    for word, text in (
        ("made_of", part.material),
        ("task", part.task),
        ("failure", part.failure),
        ("protected_by", "; ".join(question.title for question in part.questions)),
    ):
        yield element("p", element("strong", f"{chrome[word]}: "), text)


def _cautions(tour: Tour) -> Markup:
    said = (element("li", text) for text in CAUTIONS)
    heading = element("h2", tour.words.chrome["cautions"], id="cautions-heading")
    return element(
        "section",
        element("div", heading, element("ul", *said), class_="told"),
        class_="view cautions",
        id="cautions-page",
        aria_labelledby="cautions-heading",
        tabindex="-1",
    )
