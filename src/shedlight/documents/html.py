"""The calculation as one HTML file that needs nothing else: no script, no network."""

from collections.abc import Iterator

from shedlight.checks.assessment import Assessment
from shedlight.documents.calculation import (
    Calculation,
    CheckRow,
    Excerpt,
    Summary,
    calculation,
)
from shedlight.documents.citing import SourceRow
from shedlight.documents.drawing import Drawing
from shedlight.documents.fragments import (
    cell,
    check_link,
    check_links,
    chip,
    paragraph,
    row,
    shape,
    shape_definitions,
    small,
    source_link,
    span,
    strong,
    table,
    verdict_class,
    whole_page,
)
from shedlight.documents.html_steps import StepWriter
from shedlight.documents.markup import NOTHING, Markup, element
from shedlight.documents.mathematics import Formulary
from shedlight.documents.measured import GivenGroup
from shedlight.documents.steps import StepLine
from shedlight.documents.wording import wording

WORDS = wording()
DEFAULT = span(WORDS.default, class_="default")


def calculation_html(assessment: Assessment, *, date: str = "") -> str:
    """The calculation of one installation as one self-contained page.

    Args:
        assessment: What is printed.
        date: Date to print, as it should read; none if empty.
    """
    return page(calculation(assessment, date))


def page(document: Calculation) -> str:
    """Set the records of a calculation as HTML."""
    return whole_page(f"{WORDS.kind}: {document.name}", _body(document))


def formulas_of(document: Calculation) -> Iterator[tuple[str, bool]]:
    """Every formula of the document, and whether it stands on a line of its own."""
    for group in (*document.given, *document.measured):
        yield from ((given.symbol, False) for given in group.rows if given.symbol)
    for step in _steps(document):
        yield from _formulas_of_step(step)


def _formulas_of_step(step: StepLine) -> Iterator[tuple[str, bool]]:
    yield step.symbol, False
    if step.formula:
        yield f"{step.symbol} = {step.formula}", True
    yield from ((used.symbol, False) for used in step.inputs)


def excerpt_html(part: Excerpt, page: Formulary | None = None) -> Markup:
    """The calculation of one check, to be set into a page.

    Args:
        part: The check's calculation.
        page: The formulas whose glyphs the page defines already.
    """
    section = part.section
    steps = (*part.starts, *section.steps, *section.rival_steps)
    maths = Formulary(formula for step in steps for formula in _formulas_of_step(step))
    writer = StepWriter(maths)
    starts = table("Starting values", WORDS.heads["starts"], map(writer.start_row, part.starts))
    rows = (line for source in part.sources for line in _source_rows(source))
    sources = table("Sources", WORDS.heads["sources"], rows)
    return Markup.joined(
        [
            maths.definitions_beyond(page),
            writer.calculation(section),
            starts if part.starts else NOTHING,
            sources if part.sources else NOTHING,
        ]
    )


def _steps(document: Calculation) -> Iterator[StepLine]:
    yield from document.starts
    yield from document.shared
    for chapter in document.chapters:
        for section in chapter.sections:
            yield from section.steps
            yield from section.rival_steps


def _body(document: Calculation) -> Markup:
    maths = Formulary(formulas_of(document))
    chapters = list(_chapters(document, maths))
    links = (element("li", element("a", title, href=f"#{_key(title)}")) for title, _ in chapters)
    sections = (
        element("section", element("h2", title), inside, id=_key(title), class_="chapter")
        for title, inside in chapters
    )
    return element(
        "body",
        maths.definitions,
        shape_definitions(),
        element("nav", element("h2", "Contents"), element("ol", *links), aria_label="Contents"),
        element("main", _title(document), *sections, _colophon(document)),
    )


def _key(title: str) -> str:
    return title.lower().replace(" ", "-")


def _chapters(document: Calculation, maths: Formulary) -> Iterator[tuple[str, Markup]]:
    writer = StepWriter(maths)
    title = WORDS.title
    yield title["verdict"], _verdict(document) + _cautions(document)
    yield title["given"], _given(document, maths)
    yield title["measured"], _measured(document, maths)
    yield title["drawing"], _drawing(document.drawing)
    if document.field_pictures:
        yield title["field"], _field(document)
    yield title["surface"], _surface(document)
    yield title["checks"], _checks(document)
    yield title["starts"], _starts(document, writer)
    if document.shared:
        shared = Markup.joined([writer.shared_step(step) for step in document.shared])
        yield title["shared"], shared
    for chapter in document.chapters:
        sections = [writer.calculation(section) for section in chapter.sections]
        yield chapter.title, Markup.joined(sections)
    yield title["sources"], _sources(document)


def _title(document: Calculation) -> Markup:
    return element(
        "header",
        paragraph(WORDS.kind, class_="kicker"),
        element("h1", element("bdi", document.name)),
        paragraph(document.subject, class_="soft"),
        paragraph(element("bdi", document.remark)) if document.remark else NOTHING,
    )


def _colophon(document: Calculation) -> Markup:
    date = f", {document.date}" if document.date else ""
    return element("footer", paragraph(f"Made with shedlight {document.version}{date}."))


def _verdict(document: Calculation) -> Markup:
    failing = [check for check in document.checks if check.verdict == "fail"]
    named = (
        element("li", strong(check.title), f": {check.reason}. ", check_link(check.id))
        for check in failing
    )
    what = paragraph(WORDS.fails) + element("ul", *named) if failing else NOTHING
    return _overall(document.summary) + what


def _overall(summary: Summary) -> Markup:
    counts = (element("li", chip(each.verdict), f" {each.number}") for each in summary.counts)
    return element(
        "div",
        paragraph(shape(summary.verdict), summary.verdict.capitalize(), class_="overall"),
        paragraph(f"{summary.sentence}."),
        element("ul", *counts, class_="counts"),
        class_=f"panel {verdict_class(summary.verdict)}",
    )


def _cautions(document: Calculation) -> Markup:
    return element(
        "aside",
        element("h3", shape("caution"), WORDS.cautions, class_="verdict-caution"),
        element("ul", *(element("li", text) for text in document.cautions)),
        class_="cautions",
    )


def _given(document: Calculation, maths: Formulary) -> Markup:
    notes = [
        paragraph(strong(WORDS.note), f" {remark}", class_="note")
        for remark in document.given_remarks
    ]
    rows = (line for group in document.given for line in _given_rows(group, maths))
    intro = paragraph(WORDS.intro["given"])
    heads = WORDS.heads["given"]
    return Markup.joined([intro, *notes, table("The description", heads, rows, class_="given")])


def _measured(document: Calculation, maths: Formulary) -> Markup:
    rows = (line for group in document.measured for line in _given_rows(group, maths))
    intro, heads = paragraph(WORDS.intro["measured"]), WORDS.heads["given"]
    return Markup.joined([intro, table("Measured figures", heads, rows, class_="given")])


def _given_rows(group: GivenGroup, maths: Formulary) -> Iterator[Markup]:
    yield row(element("th", group.title, scope="rowgroup", colspan=4), class_="group")
    for given in group.rows:
        yield row(
            cell(given.sentence, small(given.basis) if given.defaulted else NOTHING),
            cell(maths.inline(given.symbol)) if given.symbol else cell(),
            cell(given.text, class_="number"),
            cell(DEFAULT) if given.defaulted else cell(),
        )


def _drawing(drawing: Drawing) -> Markup:
    caption = element("figcaption", drawing.title)
    return element("figure", Markup(drawing.svg), caption, class_="sheet")


def _surface(document: Calculation) -> Markup:
    pictures = (_drawing(drawing) for drawing in document.surface)
    return Markup.joined([paragraph(WORDS.intro["surface"]), *pictures])


def _field(document: Calculation) -> Markup:
    figures = (
        element("figure", Markup(picture.svg), element("figcaption", picture.title), class_="sheet")
        for picture in document.field_pictures
    )
    return paragraph(WORDS.intro["field"]) + Markup.joined(list(figures))


def _checks(document: Calculation) -> Markup:
    rows = (line for check in document.checks for line in _check_rows(check))
    heads = WORDS.heads["checks"]
    intro = paragraph(WORDS.intro["checks"])
    return intro + table("Table of checks", heads, rows)


def _check_rows(check: CheckRow) -> Iterator[Markup]:
    said_below = bool(check.demand) and check.verdict != "pass"
    source = check.source
    numbers = (
        cell(check.demand, class_="number"),
        cell(check.capability, class_="number"),
        cell(check.unit),
        cell(check.margin, class_="number"),
    )
    yield row(
        element(
            "th",
            element("a", check.title, href=f"#check-{check.id}"),
            small(element("code", check.id), f" · {check.part}"),
            scope="row",
            rowspan=2 if said_below else 1,
        ),
        cell(chip(check.verdict)),
        *(numbers if check.demand else (cell(check.reason, colspan=4),)),
        cell(source_link(source), f" {source.short}", small(source.trust)) if source else cell(),
        class_="said-below" if said_below else "",
    )
    if said_below:
        yield row(cell(small(check.reason), colspan=6))


def _starts(document: Calculation, writer: StepWriter) -> Markup:
    intro = paragraph(WORDS.intro["starts"])
    heads = WORDS.heads["starts"]
    return intro + table("Starting values", heads, map(writer.start_row, document.starts))


def _sources(document: Calculation) -> Markup:
    intro = paragraph(WORDS.intro["sources"])
    unconfirmed = paragraph(
        f"{WORDS.intro['unconfirmed']} ",
        check_links(document.unconfirmed),
        ".",
    )
    rows = (line for source in document.sources for line in _source_rows(source))
    heads = WORDS.heads["sources"]
    listed = table("List of sources", heads, rows)
    return intro + (unconfirmed if document.unconfirmed else NOTHING) + listed


def _source_rows(source: SourceRow) -> Iterator[Markup]:
    number = cell(strong(str(source.number)), class_="number", id=f"source-{source.number}")
    yield row(number, cell(strong(source.title), colspan=3), class_="first")
    for place in source.places:
        yield row(
            cell(),
            cell(place.where or "as a whole"),
            cell(place.trust, NOTHING if place.confirmed else small(WORDS.to_confirm)),
            cell(check_links(place.used_by)),
        )
