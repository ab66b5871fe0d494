"""What the page offers to switch to and to take away, from the tables that make it."""

from functools import cache
from itertools import groupby

from shedlight.documents.pictures import PICTURES
from shedlight.explain.questions.asking import TOPICS
from shedlight.explain.questions.sheet import sheet_words
from shedlight.web.takeaway import KINDS

Offers = tuple[tuple[str, str], ...]


@cache
def pictures_offered() -> Offers:
    """Every picture, by its name and the words of its switch."""
    return tuple((name, name.replace("_", " ").replace("-", " ").capitalize()) for name in PICTURES)


@cache
def files_offered() -> tuple[tuple[str, Offers], ...]:
    """Every file to take away, grouped by what it holds: its name, and the words of its switch."""
    grouped = groupby(KINDS.items(), key=lambda item: item[1].group)
    return tuple((group, tuple((key, kind.title) for key, kind in own)) for group, own in grouped)


@cache
def topics() -> Offers:
    """Every topic of worked questions, by its name and its words."""
    spoken = sheet_words().topic
    return tuple((topic, spoken[topic]) for topic in TOPICS)
