"""Question and answer sheets as PDF, HTML and Markdown, all from the same records."""

import json
from collections.abc import Callable, Iterator, Mapping
from dataclasses import asdict
from importlib import resources
from typing import Any

from shedlight.documents.cautions import CAUTIONS
from shedlight.documents.markup import NOTHING, Markup, element
from shedlight.documents.mathematics import Formulary
from shedlight.documents.typeset import typeset
from shedlight.explain.questions.sheet import Item, Quantity, Sheet, WorkedStep, sheet_words

LETTERS = "ABCDEF"
CAUTION = CAUTIONS[0]
POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:"


def sheet_pdf(sheet: Sheet, *, answers: bool) -> bytes:
    """A sheet as PDF; the same bytes for the same sheet.

    Args:
        sheet: The questions.
        answers: Whether to print the answers with every step.
    """
    spoken = sheet_words()
    records = {
        **asdict(sheet),
        "items": [_record(item) for item in sheet.items],
        "answers": answers,
        "kind": _kind(answers),
        "caution": CAUTION,
        "words": spoken.chrome,
    }
    template = resources.files("shedlight.explain.questions").joinpath("questions.typ")
    return typeset(template.read_bytes(), json.dumps(records, ensure_ascii=False), sheet.title)


def _kind(answers: bool) -> str:
    return sheet_words().chrome["answers" if answers else "questions"]


def _record(item: Item) -> dict[str, Any]:
    return {
        **asdict(item),
        "given": [_quantity(given) for given in item.given],
        "steps": [
            {
                "result": _quantity(step.result),
                "formula": step.formula,
                "inputs": [_quantity(used) for used in step.inputs],
                "source": step.source,
            }
            for step in item.steps
        ],
    }


def _quantity(quantity: Quantity) -> dict[str, str]:
    return {"name": quantity.name, "symbol": quantity.symbol, "text": quantity.text}


# --- Markdown ---------------------------------------------------------------------------------


def sheet_markdown(sheet: Sheet, *, answers: bool) -> str:
    """A sheet as Markdown; formulas stand in their plain written form.

    Args:
        sheet: The questions.
        answers: Whether to print the answers with every step.
    """
    words = sheet_words().chrome
    lines = [f"# {_kind(answers)}: {_plain(sheet.title)}", "", f"> {CAUTION}"]
    for item in sheet.items:
        lines += ["", *_item_lines(item, answers)]
    return "\n".join([*lines, "", f"{words['seed']} {sheet.seed}.", ""])


def _item_lines(item: Item, answers: bool) -> Iterator[str]:
    words = sheet_words().chrome
    yield f"## {item.number}. {_plain(item.text)}"
    yield ""
    yield f"{item.topic} · {words['level']} {item.level} · {_plain(item.about)}"
    yield ""
    for given in item.given:
        yield f"- {given.name}: {given.text}"
    yield ""
    for place, option in enumerate(item.options):
        letter = LETTERS[place]
        if not answers:
            yield f"- {letter}) {option.text}"
        elif place == item.right:
            yield f"- **{letter}) {option.text}** – {words['right']}"
        else:
            yield f"- {letter}) {option.text} – {option.why_not}"
    if answers:
        for number, step in enumerate(item.steps, start=1):
            yield from ("", *_step_lines(number, step))


def _step_lines(number: int, step: WorkedStep) -> Iterator[str]:
    words = sheet_words().chrome
    yield f"{words['step']} {number}: {step.result.name}"
    yield ""
    yield f"    {step.result.symbol} = {step.formula}"
    yield ""
    for used in step.inputs:
        yield f"- `{used.symbol}` {used.name}: {used.text}"
    yield f"- **`{step.result.symbol}` = {step.result.text}**"
    if step.source:
        yield f"- {words['source']}: {step.source}"


def _plain(text: str) -> str:
    return text.replace("<", "&lt;").replace("\n", " ")


# --- HTML ---------------------------------------------------------------------------------------


def sheet_html(sheet: Sheet, *, answers: bool) -> str:
    """A sheet as one HTML file that needs nothing else.

    Args:
        sheet: The questions.
        answers: Whether to print the answers with every step.
    """
    style = resources.files("shedlight.documents").joinpath("page.css").read_text("utf-8")
    title = f"{_kind(answers)}: {sheet.title}"
    head = element(
        "head",
        element("meta", charset="utf-8"),
        element("meta", http_equiv="Content-Security-Policy", content=POLICY),
        element("meta", name="viewport", content="width=device-width, initial-scale=1"),
        element("title", title),
        element("style", Markup(style)),
    )
    maths = Formulary(_formulas(sheet, answers))
    items = (_item_markup(item, maths, answers) for item in sheet.items)
    seed = element("footer", element("p", f"{sheet_words().chrome['seed']} {sheet.seed}."))
    caution = element("aside", element("p", CAUTION), class_="cautions")
    main = element("main", element("h1", title), caution, *items, seed)
    body = element("body", maths.definitions, main)
    return f"<!DOCTYPE html>\n{element('html', head, body, lang='en')}\n"


def _formulas(sheet: Sheet, answers: bool) -> Iterator[tuple[str, bool]]:
    for item in sheet.items:
        yield from ((given.symbol, False) for given in item.given)
        if answers:
            for step in item.steps:
                yield f"{step.result.symbol} = {step.formula}", True
                yield step.result.symbol, False
                yield from ((used.symbol, False) for used in step.inputs)


def _item_markup(item: Item, maths: Formulary, answers: bool) -> Markup:
    words = sheet_words().chrome
    about = f"{item.topic} · {words['level']} {item.level} · {item.about}"
    options = (element("li", _option(item, place, answers)) for place in range(len(item.options)))
    steps = (_step_markup(n, step, maths) for n, step in enumerate(item.steps, start=1))
    return element(
        "section",
        element("h3", f"{item.number}. {item.text}"),
        element("p", about, class_="soft"),
        _table(item.given, maths),
        element("ol", *options, type="A"),
        *(steps if answers else ()),
        class_="calculation",
    )


def _option(item: Item, place: int, answers: bool) -> Markup:
    words, option = sheet_words().chrome, item.options[place]
    if not answers:
        return element("span", option.text)
    if place == item.right:
        return element("strong", f"{option.text} – {words['right']}")
    return element("span", f"{option.text} – {option.why_not}")


def _step_markup(number: int, step: WorkedStep, maths: Formulary) -> Markup:
    words = sheet_words().chrome
    formula = maths.display(f"{step.result.symbol} = {step.formula}")
    source = element("small", f"{words['source']}: {step.source}") if step.source else NOTHING
    return element(
        "div",
        element("h4", f"{words['step']} {number}: {step.result.name}"),
        element("p", formula, class_="formula"),
        _table(step.inputs, maths),
        element("p", maths.inline(step.result.symbol), " = ", element("strong", step.result.text)),
        source,
        class_="step",
    )


def _table(quantities: tuple[Quantity, ...], maths: Formulary) -> Markup:
    if not quantities:
        return NOTHING
    rows = (
        element(
            "tr",
            element("td", maths.inline(quantity.symbol)),
            element("td", quantity.name),
            element("td", quantity.text, class_="number"),
        )
        for quantity in quantities
    )
    return element("table", element("tbody", *rows), class_="inputs")


def sheet_file(sheet: Sheet, kind: str, *, answers: bool) -> str | bytes:
    """A sheet as a file's content.

    Args:
        sheet: The questions.
        kind: "pdf", "html" or "md".
        answers: Whether to print the answers with every step.
    """
    printers: Mapping[str, Callable[..., str | bytes]] = {
        "pdf": sheet_pdf,
        "html": sheet_html,
        "md": sheet_markdown,
    }
    return printers[kind](sheet, answers=answers)
