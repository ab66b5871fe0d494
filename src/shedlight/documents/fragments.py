"""Small pieces of a page: verdict chips, references, quantities, tables."""

from collections.abc import Iterable, Sequence
from functools import partial
from importlib import resources

from shedlight.documents.citing import Cited
from shedlight.documents.markup import NOTHING, Markup, element

# Nothing runs and nothing is fetched, whatever a text in it may try.
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

paragraph = partial(element, "p")
small = partial(element, "small")
strong = partial(element, "strong")
span = partial(element, "span")
cell = partial(element, "td")
row = partial(element, "tr")


def whole_page(title: str, body: Markup) -> str:
    """One HTML file that needs nothing else and fetches nothing.

    Args:
        title: Its title.
        body: Its body.
    """
    style = resources.files("shedlight.documents").joinpath("page.css").read_text("utf-8")
    head = element(
        "head",
        element("meta", charset="utf-8"),
        element("meta", http_equiv="Content-Security-Policy", content=POLICY),
        element("meta", name="viewport", content="width=device-width, initial-scale=1"),
        element("title", title),
        element("style", Markup(style)),
    )
    return f"<!DOCTYPE html>\n{element('html', head, body, lang='en')}\n"


def shape(verdict: str) -> Markup:
    """The shape of a verdict; the word always stands beside it."""
    return element(
        "svg",
        Markup(f'<use href="#shape-{verdict.replace(" ", "-")}"/>'),
        class_="shape",
        viewBox="0 0 16 16",
        aria_hidden="true",
    )


def shape_definitions() -> Markup:
    """The shapes of all verdicts, to be put on the page once."""
    symbols = "".join(
        f'<symbol id="shape-{verdict.replace(" ", "-")}" viewBox="0 0 16 16">{paths}</symbol>'
        for verdict, paths in SHAPES.items()
    )
    return Markup(
        '<svg aria-hidden="true" width="0" height="0" style="position:absolute"><defs>'
        f"{symbols}</defs></svg>"
    )


def verdict_class(verdict: str) -> str:
    """The class that colours something by a verdict."""
    return f"verdict-{verdict.replace(' ', '-')}"


def chip(verdict: str, *after: str) -> Markup:
    """A verdict: shape and word."""
    return span(shape(verdict), verdict, *after, class_=f"chip {verdict_class(verdict)}")


def quantity(value: str, unit: str) -> Markup:
    """A value with its unit, kept on one line."""
    between = "" if unit in ("", "°") else "\N{NO-BREAK SPACE}"
    return span(f"{value}{between}{unit}", class_="quantity")


def check_link(identifier: str) -> Markup:
    """A reference to a check."""
    return element("a", element("code", identifier), href=f"#check-{identifier}")


def check_links(identifiers: Iterable[str]) -> Markup:
    """References to several checks."""
    return Markup.joined([check_link(identifier) for identifier in identifiers], ", ")


def step_link(number: int) -> Markup:
    """A reference to a step."""
    return element("a", str(number), href=f"#step-{number}")


def step_links(numbers: Iterable[int]) -> Markup:
    """References to several steps."""
    return Markup.joined([step_link(number) for number in numbers], ", ")


def step_runs(runs: Iterable[tuple[int, int]]) -> Markup:
    """References to runs of steps."""
    return Markup.joined(
        [
            step_link(first) if first == last else step_link(first) + "–" + step_link(last)
            for first, last in runs
        ],
        ", ",
    )


def source_link(cited: Cited) -> Markup:
    """A reference to the list of sources."""
    return element("a", f"[{cited.number}]", href=f"#source-{cited.number}")


def cited_line(cited: Cited) -> Markup:
    """A source with place and trust."""
    where = f", {cited.where}" if cited.where else ""
    return source_link(cited) + f" {cited.short}{where} ({cited.trust})"


def table(
    caption: str,
    heads: Sequence[str],
    rows: Iterable[Markup],
    *,
    class_: str = "",
    quiet: bool = False,
) -> Markup:
    """A table with a caption and column heads.

    Args:
        caption: What it holds.
        heads: Column heads; a leading ``>`` sets the column's head to the right.
        rows: Its rows.
        class_: Its class.
        quiet: Whether the caption is only for those who listen.
    """
    head = row(*(_head(text) for text in heads))
    return element(
        "div",
        element(
            "table",
            element("caption", caption, class_="unseen" if quiet else ""),
            element("thead", head) if heads else NOTHING,
            element("tbody", *rows),
            class_=class_,
        ),
        class_="wide",
    )


def _head(text: str) -> Markup:
    return element(
        "th", text.removeprefix(">"), scope="col", class_="number" if text.startswith(">") else ""
    )
