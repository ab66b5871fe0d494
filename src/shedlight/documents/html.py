"""The calculation as one HTML file that needs nothing else: no script, no network."""

from collections.abc import Iterable, Iterator
from dataclasses import fields, is_dataclass
from functools import partial
from importlib import resources
from typing import Any

from shedlight.checks.assessment import Assessment
from shedlight.documents import mathematics
from shedlight.documents.calculation import (
    Calculation,
    CalculationSection,
    CheckRow,
    GivenGroup,
    GivenRow,
    RivalRow,
    calculation,
)
from shedlight.documents.citing import Cited, SourceRow
from shedlight.documents.markup import Markup, element
from shedlight.documents.mathematics import MARGIN, SIZE, Drawn, spoken
from shedlight.documents.steps import InputLine, StepLine

POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:"
SHAPES = {
    "fail": '<rect width="16" height="16" rx="2" fill="currentColor"/>'
    '<path d="M5 5l6 6m0-6l-6 6" stroke="#fff" stroke-width="2.2" stroke-linecap="round"/>',
    "caution": '<path d="M8 .5L16 15.5H0z" fill="currentColor"/>'
    '<path d="M8 6v4m0 2.8v.1" stroke="#fff" stroke-width="2" stroke-linecap="round"/>',
    "not assessed": '<circle cx="8" cy="8" r="6.6" fill="none" stroke="currentColor" '
    'stroke-width="2" stroke-dasharray="3.4 1.8"/>',
    "pass": '<circle cx="8" cy="8" r="8" fill="currentColor"/>'
    '<path d="M4.4 8.4l2.5 2.5 4.8-5.6" fill="none" stroke="#fff" stroke-width="2" '
    'stroke-linecap="round" stroke-linejoin="round"/>',
}

p = partial(element, "p")
td = partial(element, "td")
th = partial(element, "th")
tr = partial(element, "tr")
span = partial(element, "span")
small = partial(element, "small")
