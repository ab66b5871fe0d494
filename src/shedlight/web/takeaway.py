"""What can be taken away: calculation, drawing, description, data; each the same as elsewhere."""

import json
import re
from base64 import b64encode
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from shedlight.documents.html import calculation_html
from shedlight.documents.paper import calculation_pdf
from shedlight.documents.pictures import picture_file
from shedlight.errors import InputError
from shedlight.exchange.record import assessment_record
from shedlight.explain.handout import handout_pdf
from shedlight.explain.slides import slides_html
from shedlight.explain.tour import tour
from shedlight.given.amending import amended
from shedlight.given.bushing import Installation
from shedlight.given.writing import to_toml
from shedlight.web.desk import assessed
from shedlight.web.values import installation_of

_STRANGE = re.compile(r"[^\w.-]+")
LONGEST_STEM = 60


@dataclass(frozen=True)
class Kind:
    """One thing to take away: its words, the end of its file name, its type, how it is made."""

    title: str
    group: str
    ending: str
    media: str
    make: Callable[[Installation, bool], str | bytes]


def take(request: dict[str, Any]) -> dict[str, Any]:
    """One file to take away.

    Args:
        request: `values`, the `kind` of file, and whether with the `field`.

    Raises:
        InputError: the values make no bushing, or there is no such kind.
    """
    kind = KINDS.get(str(request.get("kind")))
    if kind is None:
        raise InputError(f"no such file to take away: {str(request.get('kind'))[:40]!r}")
    installation = installation_of(request["values"])
    content = kind.make(installation, bool(request.get("field", False)))
    raw = content.encode("utf-8") if isinstance(content, str) else content
    return {
        "name": f"{stem(installation.name)}-{kind.ending}",
        "media": kind.media,
        "content": b64encode(raw).decode("ascii"),
    }


def text(request: dict[str, Any]) -> dict[str, Any]:
    """The description as it is to be saved: the text it came from, amended.

    Args:
        request: `values`, and the text they came from as `base`, empty for a new file.

    Raises:
        InputError: the values make no bushing.
    """
    installation = installation_of(request["values"])
    base = str(request.get("base", ""))
    return {"text": amended(base, installation) if base else to_toml(installation)}


def stem(name: str) -> str:
    """The beginning of a file's name, from the name of an installation.

    Args:
        name: The installation's name.
    """
    plain = _STRANGE.sub("-", name.lower()).strip("-.")
    return plain[:LONGEST_STEM].strip("-.") or "bushing"


def _drawing(ending: str) -> Callable[[Installation, bool], bytes]:
    return lambda installation, _: picture_file(installation, "section", ending)


def _record(installation: Installation, with_field: bool) -> str:
    record = assessment_record(assessed(installation, with_field=with_field))
    return json.dumps(record, ensure_ascii=False, indent=1, allow_nan=False) + "\n"


def _tour(installation: Installation, with_field: bool) -> str:
    return slides_html(tour(assessed(installation, with_field=with_field)))


def _handout(installation: Installation, with_field: bool) -> bytes:
    return handout_pdf(tour(assessed(installation, with_field=with_field)))


KINDS: dict[str, Kind] = {
    "calculation-pdf": Kind(
        "PDF",
        "Calculation, line by line",
        "calculation.pdf",
        "application/pdf",
        lambda case, field: calculation_pdf(assessed(case, with_field=field)),
    ),
    "calculation-html": Kind(
        "HTML",
        "Calculation, line by line",
        "calculation.html",
        "text/html",
        lambda case, field: calculation_html(assessed(case, with_field=field)),
    ),
    "drawing-pdf": Kind(
        "PDF", "Drawing to scale", "section.pdf", "application/pdf", _drawing("pdf")
    ),
    "drawing-svg": Kind("SVG", "Drawing to scale", "section.svg", "image/svg+xml", _drawing("svg")),
    "drawing-png": Kind("PNG", "Drawing to scale", "section.png", "image/png", _drawing("png")),
    "tour": Kind("HTML", "Guided tour", "tour.html", "text/html", _tour),
    "handout": Kind("PDF", "Guided tour", "handout.pdf", "application/pdf", _handout),
    "description": Kind(
        "TOML", "Description", "description.toml", "application/toml", lambda case, _: to_toml(case)
    ),
    "data": Kind("JSON", "All results as data", "results.json", "application/json", _record),
}
