"""What the page asks to be worked out: a description in, pieces of the page out."""

import hashlib
import json
from collections import OrderedDict
from dataclasses import asdict, replace
from typing import Any

from shedlight.checks.assessment import Assessment, assess
from shedlight.checks.check import Check, Verdict
from shedlight.documents.calculation import excerpt
from shedlight.documents.html import excerpt_html
from shedlight.documents.pictures import PICTURES
from shedlight.errors import ImpossibleShapeError
from shedlight.figures.painters.svg import paint
from shedlight.figures.scene import Drawn, Layer, Scene
from shedlight.figures.section import Mark, place_names, section_drawing
from shedlight.given.bushing import Installation
from shedlight.given.reading import located, parse
from shedlight.given.writing import to_data
from shedlight.web.form import defaults_of, form_of
from shedlight.web.grips import grips
from shedlight.web.rendering import formulary, ours, render
from shedlight.web.values import installation_of, values_of
from shedlight.web.verdicts import fields_behind, headline_of, row_of, verdict_groups
from shedlight.workings import Workings

Answer = dict[str, Any]

REMEMBERED = 24  # assessments
LEAST_SCALE, LARGEST_SCALE = 5.0, 5000.0  # millimetres on paper per metre
MOST_LIT = 4
ALWAYS_SHOWN = ("colour", "hatching", "outline", "fittings", "marks", "axis", "sheet")
OF_A_SECTION = {"outline", "field"}  # a picture with one of these has layers worth switching
SECTION = "section"
FIGURE_KEY = "figure"

_remembered: OrderedDict[tuple[str, bool], Assessment] = OrderedDict()


def key_of(installation: Installation) -> str:
    """What results of a description are kept under: equal descriptions have equal keys.

    Args:
        installation: The description.
    """
    text = json.dumps(to_data(installation), sort_keys=True, ensure_ascii=False)
    return hashlib.sha256(text.encode("utf-8")).hexdigest()[:24]


def assessed(installation: Installation, *, with_field: bool = False) -> Assessment:
    """The assessment of a description, worked out once as long as it is remembered.

    Args:
        installation: The description.
        with_field: Whether the field is solved too.
    """
    key = key_of(installation), with_field
    if key not in _remembered:
        _remembered[key] = assess(installation, with_field=with_field)
        while len(_remembered) > REMEMBERED:
            _remembered.popitem(last=False)
    _remembered.move_to_end(key)
    return _remembered[key]


def open_(request: Answer) -> Answer:
    """A description's text as the page starts from it: values, form, and all that follows.

    Args:
        request: The `text`, and its `origin` for messages.

    Raises:
        DescriptionError: it cannot be used; carries every problem found, with its line.
    """
    text, origin = str(request["text"]), str(request["origin"])
    installation = parse(text, origin)
    asked = {"values": values_of(installation)}
    try:
        judged = verdicts(asked)
    except ImpossibleShapeError as error:
        raise located(error, origin, text) from None
    lit = [each["place"] for each in judged["lit"]]
    drawn = figure(asked | {"lit": lit})
    parts = judged["parts"] | form(asked | {"defaults": judged["defaults"]})["parts"]
    return drawn | judged | {"parts": parts}


def verdicts(request: Answer) -> Answer:
    """Everything that is judged: the verdicts, one calculation, and the places to light up.

    Args:
        request: `values`, the check `opened`, and whether with the `field`.

    Raises:
        InputError: the values make no bushing; carries every problem found.
    """
    installation = installation_of(request["values"])
    opened = str(request.get("opened", ""))
    found = assessed(installation, with_field=bool(request.get("field", False)))
    listed = {
        "headline": render("headline.html", headline=headline_of(found)),
        "verdicts": render("verdicts.html", groups=verdict_groups(found), opened=opened),
        "calculation": _calculation(found, opened),
    }
    return {
        "key": key_of(installation),
        "values": values_of(installation),
        "defaults": defaults_of(installation),
        "parts": listed,
        "lit": [_lit(check) for check in _pointed_at(found, opened)],
    }


def figure(request: Answer) -> Answer:
    """The half-section with places lit up, its layers and its grips; nothing is judged for it.

    Args:
        request: `values`; the places `lit`; whether `dimensioned`; the `scale` to be kept.

    Raises:
        InputError: the values make no bushing; carries every problem found.
    """
    installation = installation_of(request["values"])
    workings = Workings(installation)
    dimensioned = bool(request.get("dimensioned", True))
    scene = section_drawing(
        installation,
        workings.section,
        workings.measures,
        detail="dimensioned" if dimensioned else "plain",
        marks=_marks(request.get("lit"), workings),
        scale=_scale(request.get("scale")),
        key=FIGURE_KEY,
    )
    if not dimensioned:
        scene = replace(scene, layers=tuple(replace(layer, shown=True) for layer in scene.layers))
    held = grips(installation, workings.section, scene.placement)
    drawn = {
        "picture": SECTION,
        "grips": [asdict(grip) for grip in held],
        "layers": _switches(scene),
    }
    return {"key": key_of(installation), "figure": _painted(scene) | drawn}


def picture(request: Answer) -> Answer:
    """One of the other pictures: a field, a chart, whatever the documents offer.

    Args:
        request: `values`, and the name of the `picture`.

    Raises:
        InputError: the values make no bushing, or it has no such picture.
    """
    installation = installation_of(request["values"])
    name = str(request.get("picture", SECTION))
    scene = PICTURES[name](installation)
    painted = _painted(replace(scene, key=FIGURE_KEY))
    shown = painted | {"picture": name, "grips": [], "layers": _switches(scene)}
    return {"key": key_of(installation), "figure": shown}


def form(request: Answer) -> Answer:
    """The form for some values, whether or not they make a bushing yet.

    Args:
        request: `values`, and the `defaults` last known.
    """
    groups = form_of(request["values"], request.get("defaults", {}))
    return {"parts": {"form": render("form.html", groups=groups)}}


def _calculation(found: Assessment, opened: str) -> str:
    check = next((check for check in found.checks if check.id == opened), None)
    if check is None:
        return ""
    values = form_of(values_of(found.installation), {})
    return render(
        "calculation.html",
        row=row_of(check),
        body=ours(excerpt_html(excerpt(check), formulary())),
        behind=list(fields_behind(check, values)),
    )


def _pointed_at(found: Assessment, opened: str) -> list[Check]:
    """The check that is open; else those that fail."""
    if opened:
        return [check for check in found.checks if check.id == opened and check.place]
    failing = [check for check in found.by_urgency if check.verdict is Verdict.FAIL]
    places = {check.place: check for check in reversed(failing) if check.place}
    return list(reversed(places.values()))[:MOST_LIT]


def _marks(lit: Any, workings: Workings) -> tuple[Mark, ...]:
    known = place_names(workings.section)
    wanted = lit if isinstance(lit, list) else []
    return tuple(Mark(place) for place in wanted[:MOST_LIT] if place in known)


def _scale(wanted: Any) -> float | None:
    """A scale to be kept; what is out of bounds is left out."""
    fitting = isinstance(wanted, int | float) and LEAST_SCALE <= wanted <= LARGEST_SCALE
    return float(wanted) if fitting else None


def _lit(check: Check) -> Answer:
    row = row_of(check)
    return {"title": row.title, "place": check.place, "reason": row.reason, "tone": row.tone}


def _painted(scene: Scene) -> Answer:
    place = scene.placement
    return {
        "svg": paint(scene),
        "title": scene.title,
        "paper": [scene.width, scene.height],
        "axis": place.axis,
        "coverTop": place.cover_top,
        "scale": place.scale,
    }


def _switches(scene: Scene) -> list[Answer]:
    """What can be switched on and off in a picture; the parts of a chart cannot."""
    if not OF_A_SECTION & {layer.name for layer in scene.layers}:
        return []
    return [_layer(layer) for layer in scene.layers if layer.name not in ALWAYS_SHOWN]


def _layer(layer: Layer) -> Answer:
    """A layer's switch, with a sample of the line it is drawn with."""
    pens = (item.pen for item in layer.items if isinstance(item, Drawn) and item.pen)
    pen = next(pens, None)
    return {
        "name": layer.name,
        "title": layer.title,
        "colour": pen.colour if pen else "",
        "dashes": " ".join(f"{dash:g}" for dash in pen.dashes) if pen else "",
    }
