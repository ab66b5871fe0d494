"""Records and a template set on paper by Typst: tagged PDF, the same bytes for the same input."""

from functools import cache
from importlib import resources

import typst

from shedlight.figures import lettering
from shedlight.figures.painters.svg import unfitted

# Nothing of the clock goes into the file, so that equal input gives equal bytes.
TIMESTAMP = 0


def typeset(template: bytes, records: str, texts: str) -> bytes:
    """Set records on paper.

    The shipped typeface serves alone, so that pages are the same on every machine. Only a name in
    a script it lacks borrows from the machine's own; a sign that no typeface has keeps the file
    from being certified as accessible (PDF/UA), not from being made.

    Args:
        template: The template; it reads the records from ``sys.inputs.records``.
        records: What it sets, as JSON.
        texts: What people wrote and may need other typefaces.
    """
    try:
        return _set(template, records, own=lettering.covered(texts), accessible=True)
    except typst.TypstError:
        return _set(template, records, own=False, accessible=False)


def _set(template: bytes, records: str, *, own: bool, accessible: bool) -> bytes:
    return typst.compile(
        template,
        format="pdf",
        sys_inputs={"records": unfitted(records)},
        font_paths=_typefaces(own),
        ignore_system_fonts=own,
        pdf_standards="ua-1" if accessible else None,
        timestamp=TIMESTAMP,
    )


@cache
def _typefaces(own: bool) -> typst.Fonts:
    """The shipped typeface with those of Typst, and the machine's too unless only `own` ones."""
    with resources.as_file(resources.files("shedlight.figures").joinpath("fonts")) as shipped:
        return typst.Fonts(include_system_fonts=not own, font_paths=[str(shipped)])
