"""Every job a worker may be asked for, by name."""

from collections.abc import Callable
from typing import Any

from shedlight.web import deciding, desk, lesson, takeaway, variants_beside

JOBS: dict[str, Callable[[dict[str, Any]], dict[str, Any]]] = {
    "open": desk.open_,
    "figure": desk.figure,
    "verdicts": desk.verdicts,
    "picture": desk.picture,
    "form": desk.form,
    "compare": variants_beside.compare,
    "take": takeaway.take,
    "text": takeaway.text,
    "tour": lesson.guided,
    "reading": lesson.reading,
    "questions": lesson.questions,
    "candidate": deciding.candidate,
}

# Those that take long: each is given what to tell as it goes on.
FOLLOWED: dict[str, Callable[..., dict[str, Any]]] = {
    "propose": deciding.propose,
    "weigh": deciding.weigh,
    "why": deciding.why,
}
