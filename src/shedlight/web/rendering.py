"""Templates into HTML; every text is escaped unless this house has made it markup."""

from collections.abc import Mapping
from functools import cache
from importlib import metadata
from typing import Any

import jinja2
from markupsafe import Markup

from shedlight.documents import fragments
from shedlight.documents.cautions import CAUTIONS
from shedlight.documents.mathematics import Formulary
from shedlight.web.form import symbols


def render(template: str, **names: Any) -> str:
    """A template filled in.

    Args:
        template: Its file name.
        **names: What it speaks of.
    """
    return _templates().get_template(template).render(**names)


@cache
def formulary() -> Formulary:
    """The symbols of all fields, drawn once; the page defines their glyphs."""
    return Formulary((symbol, False) for symbol in symbols())


def ours(markup: str) -> Markup:
    """Markup that this house made, not to be escaped again.

    Args:
        markup: What a painter or the documents wrote.
    """
    return Markup(markup)


@cache
def _templates() -> jinja2.Environment:
    environment = jinja2.Environment(
        loader=jinja2.PackageLoader("shedlight.web"),
        autoescape=True,
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.globals.update(_globals())
    return environment


def _globals() -> Mapping[str, Any]:
    return {
        "symbol": lambda source: ours(formulary().inline(source)),
        "glyphs": lambda: ours(formulary().definitions),
        "shapes": lambda: ours(fragments.shape_definitions()),
        "cautions": (CAUTIONS[0], CAUTIONS[1], CAUTIONS[-1]),
        "version": metadata.version("shedlight"),
    }
