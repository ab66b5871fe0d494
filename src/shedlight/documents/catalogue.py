"""Reference pages in Markdown, written from the code itself: the checks and the formulas."""

import importlib
import pkgutil
from collections.abc import Iterator, Sequence
from itertools import groupby

import shedlight.physics
from shedlight.checks.catalogue import questions
from shedlight.checks.check import Question
from shedlight.documents.numerals import shown, unit_name
from shedlight.trace import FORMULAS, Formula, Label

MADE = (
    "<!-- Made by `python -m shedlight.documents.reference docs/`; change the code, not this. -->"
)
_FLOOR = "shedlight.physics."


def checks_page() -> str:
    """Every question the checks answer, by part."""
    asked = sorted(questions().values(), key=lambda question: question.part)
    lines = [
        "# Catalogue of checks",
        MADE,
        f"{len(asked)} questions a reviewer would ask. What is demanded has to stay at or below "
        "what is there; ids are stable.",
    ]
    for part, found in groupby(asked, key=lambda question: question.part):
        lines.append(f"## {part[0].upper()}{part[1:]}")
        for question in found:
            lines += _question_lines(question)
    return page(lines)


def formulas_page() -> str:
    """Every declared formula of the physics floor, by module, in Typst mathematics."""
    declared = declared_formulas()
    lines = [
        "# Formulas",
        MADE,
        f"{len(declared)} formulas as the calculation prints them, in Typst mathematics. Inside, "
        "all values are SI; the units are those that are printed.",
    ]
    for module, found in groupby(declared.items(), key=lambda item: item[0].rpartition(".")[0]):
        lines.append(f"## {module.removeprefix(_FLOOR)}")
        for name, formula in found:
            lines += _formula_lines(name.rpartition(".")[2], formula)
    return page(lines)


def declared_formulas() -> dict[str, Formula]:
    """Every formula of the physics floor by its full name, module by module."""
    for module in pkgutil.walk_packages(shedlight.physics.__path__, _FLOOR):
        importlib.import_module(module.name)
    names = [name for name in FORMULAS if name.startswith(_FLOOR)]
    # Sorting is stable: within a module formulas keep the order in which it declares them.
    return {
        name: FORMULAS[name] for name in sorted(names, key=lambda name: name.rpartition(".")[0])
    }


def page(blocks: Sequence[str]) -> str:
    """Blocks of Markdown as one page."""
    return "\n\n".join(blocks) + "\n"


def table(heads: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    """A table in Markdown; cells are plain text."""
    lines = [heads, ["---"] * len(heads), *([plain(text) for text in row] for row in rows)]
    return "\n".join(f"| {' | '.join(line)} |" for line in lines)


def plain(text: str) -> str:
    """Plain text that Markdown leaves alone, outside of code."""
    if text.startswith("`"):
        return text.replace("|", "\\|")
    for sign in "\\`*_<>|[]#$":
        text = text.replace(sign, f"\\{sign}")
    return " ".join(text.split())


def _question_lines(question: Question) -> Iterator[str]:
    unit = f" [{question.unit}]" if unit_name(question.unit) else ""
    yield f"### {plain(question.title)}"
    yield f"`{question.id}`: {plain(question.demand)} ≤ {plain(question.capability)}{unit}"
    yield plain(question.why)


def _formula_lines(name: str, formula: Formula) -> Iterator[str]:
    yield f"### {plain(formula.result.name)}: `{name}`"
    yield f"```text\n{formula.result.symbol} = {formula.typeset}\n```"
    named = {"": formula.result, **formula.inputs}
    rows = [
        (
            label.name,
            f"`{label.symbol}`",
            unit_name(label.unit) or "–",
            _range(formula, parameter, label),
        )
        for parameter, label in named.items()
    ]
    yield table(("Quantity", "Symbol", "Unit", "Range of the source"), rows)
    yield f"Source: {plain(str(formula.citation))} ({formula.citation.trust})."
    if formula.note:
        yield plain(formula.note)


def _range(formula: Formula, parameter: str, label: Label) -> str:
    if parameter not in formula.ranges:
        return ""
    low, high = (shown(bound, label.unit) for bound in formula.ranges[parameter])
    return f"{low} to {high}"
