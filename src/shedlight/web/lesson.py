"""What the room of explanations asks for: the tour, a reading at a place, sheets of questions."""

import math
from base64 import b64encode
from typing import Any

from shedlight.errors import CalculationError, RequestError
from shedlight.explain.questions.printing import sheet_file
from shedlight.explain.questions.sheet import Wish, refuse_unknown, sheet
from shedlight.explain.slides import tour_markup
from shedlight.explain.tour import tour
from shedlight.explain.words import in_words
from shedlight.web.desk import assessed, key_of
from shedlight.web.takeaway import stem
from shedlight.web.values import installation_of
from shedlight.workings.field_reading import PlaceReading, reading_at

Answer = dict[str, Any]
MEDIA = {"pdf": "application/pdf", "html": "text/html", "md": "text/markdown"}


def guided(request: Answer) -> Answer:
    """The tour of a description.

    Args:
        request: `values`, and the `language`.

    Raises:
        InputError: the values make no bushing, or there are no texts in that language.
    """
    installation = installation_of(request["values"])
    told = tour(assessed(installation), str(request.get("language", "en")))
    markup = tour_markup(told, landmark=False)
    return {"key": key_of(installation), "parts": {"tour": str(markup)}}


def reading(request: Answer) -> Answer:
    """Potential, field and material at a place of the section.

    Args:
        request: `values`, radius `r` and height `z` in metres.

    Raises:
        InputError: the values make no bushing.
    """
    installation = installation_of(request["values"])
    place = [float(request[name]) for name in ("r", "z")]
    if not all(math.isfinite(length) for length in place):
        return {"said": []}
    try:
        found = reading_at(assessed(installation).workings, *place)
    except RequestError:
        return {"said": []}
    except CalculationError as error:  # no field of the wanted accuracy: said, never guessed
        return {"said": [], "fault": str(error)}
    return {
        "said": [f"{in_words(found.potential)} to earth", in_words(found.field)],
        "where": found.region if found.region == found.material else _where(found),
    }


def _where(found: PlaceReading) -> str:
    return f"{found.region} ({found.material})"


def questions(request: Answer) -> Answer:
    """A sheet of worked questions to take away.

    Args:
        request: `values`; `topics`, `levels`, `count` and `seed` of the sheet; whether to `vary`
            the installation; `answers` or not; `kind` of file.

    Raises:
        InputError: the values make no bushing, or no question fits the wish.
    """
    wish = Wish(
        topics=tuple(str(topic) for topic in request.get("topics", ())),
        levels=tuple(int(level) for level in request.get("levels", ())),
        count=int(request.get("count", 10)),
        seed=int(request.get("seed", 1)),
        random_installations=bool(request.get("vary", False)),
    )
    refuse_unknown(wish)
    kind = str(request.get("kind", "pdf"))
    installation = installation_of(request["values"])
    answers = bool(request.get("answers", False))
    content = sheet_file(sheet(installation, wish), kind, answers=answers)
    raw = content.encode("utf-8") if isinstance(content, str) else content
    name = "answers" if answers else "questions"
    return {
        "name": f"{stem(installation.name)}-{name}.{kind}",
        "media": MEDIA[kind],
        "content": b64encode(raw).decode("ascii"),
    }
