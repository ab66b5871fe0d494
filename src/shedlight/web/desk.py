"""What the page asks to be worked out: a description in, pieces of the page out."""

import hashlib
import json
from collections import OrderedDict
from dataclasses import asdict, dataclass, replace
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

Answer = dict[str, Any]

REMEMBERED = 24  # assessments
LEAST_SCALE, LARGEST_SCALE = 5.0, 5000.0  # millimetres on paper per metre
MOST_LIT = 4
ALWAYS_SHOWN = ("colour", "hatching", "outline", "fittings", "marks", "axis", "sheet")
OF_A_SECTION = {"outline", "field"}  # a picture with one of these has layers worth switching
SECTION = "section"
FIGURE_KEY = "figure"

_remembered: OrderedDict[tuple[str, bool], Assessment] = OrderedDict()


@dataclass(frozen=True)
class View:
    """How the page looks at a description."""

    opened: str = ""
    dimensioned: bool = True
    with_field: bool = False
    scale: float | None = None

    @classmethod
    def of(cls, request: Answer) -> "View":
        """The view a request asks for; what is out of bounds is left out."""
        scale = request.get("scale")
        fitting = isinstance(scale, int | float) and LEAST_SCALE <= scale <= LARGEST_SCALE
        return cls(
            opened=str(request.get("opened", "")),
            dimensioned=bool(request.get("dimensioned", True)),
            with_field=bool(request.get("field", False)),
            scale=float(scale) if fitting and scale else None,
        )


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
    try:
        found = state(request | {"values": values_of(installation)})
    except ImpossibleShapeError as error:
        raise located(error, origin, text) from None
    return found | {"parts": found["parts"] | form(found)["parts"]}


def state(request: Answer) -> Answer:
    """Everything on the page that follows from the values: figure, verdicts, one calculation.

    Args:
        request: `values`, and how they are looked at.

    Raises:
        InputError: the values make no bushing; carries every problem found.
    """
    view = View.of(request)
    installation = installation_of(request["values"])
    found = assessed(installation, with_field=view.with_field)
    defaults = defaults_of(installation)
    return {
        "key": key_of(installation),
        "values": values_of(installation),
        "defaults": defaults,
        "parts": _verdict_parts(found, view) | {"calculation": _calculation(found, view)},
        "figure": figure(found, view),
    }


def figure(found: Assessment, view: View) -> Answer:
    """The half-section with the places of checks lit up, its layers and its grips.

    Args:
        found: What was found.
        view: How it is looked at.
    """
    workings = found.workings
    scene = section_drawing(
        found.installation,
        workings.section,
        workings.measures,
        detail="dimensioned" if view.dimensioned else "plain",
        marks=_marks(found, view.opened),
        scale=view.scale,
        key=FIGURE_KEY,
    )
    if not view.dimensioned:
        scene = replace(scene, layers=tuple(replace(layer, shown=True) for layer in scene.layers))
    held = grips(found.installation, workings.section, scene.placement)
    return _painted(scene) | {
        "picture": SECTION,
        "grips": [asdict(grip) for grip in held],
        "layers": _switches(scene),
        "lit": [_lit(check) for check in _pointed_at(found, view.opened)],
    }


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
    shown = painted | {"picture": name, "grips": [], "layers": _switches(scene), "lit": []}
    return {"key": key_of(installation), "figure": shown}


def form(request: Answer) -> Answer:
    """The form for some values, whether or not they make a bushing yet.

    Args:
        request: `values`, and the `defaults` last known.
    """
    groups = form_of(request["values"], request.get("defaults", {}))
    return {"parts": {"form": render("form.html", groups=groups)}}


def _verdict_parts(found: Assessment, view: View) -> dict[str, str]:
    return {
        "headline": render("headline.html", headline=headline_of(found)),
        "verdicts": render("verdicts.html", groups=verdict_groups(found), opened=view.opened),
    }


def _calculation(found: Assessment, view: View) -> str:
    check = next((check for check in found.checks if check.id == view.opened), None)
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


def _marks(found: Assessment, opened: str) -> tuple[Mark, ...]:
    known = place_names(found.workings.section)
    lit = (check.place for check in _pointed_at(found, opened))
    return tuple(Mark(place) for place in lit if place in known)


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
