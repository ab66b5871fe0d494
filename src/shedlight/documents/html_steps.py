"""The line-by-line part of the page: starting values, steps, and the calculation of each check."""

from shedlight.documents.calculation import CalculationSection, RivalRow
from shedlight.documents.fragments import (
    cell,
    check_links,
    chip,
    cited_line,
    paragraph,
    quantity,
    row,
    shape,
    small,
    span,
    step_link,
    step_links,
    step_runs,
    strong,
    table,
)
from shedlight.documents.markup import NOTHING, Markup, element
from shedlight.documents.mathematics import Formulary
from shedlight.documents.steps import InputLine, StepLine
from shedlight.documents.wording import wording

WORDS = wording()


class StepWriter:
    """Writes steps and calculations with the formulas of one page."""

    def __init__(self, maths: Formulary) -> None:
        """Keep the formulas."""
        self._maths = maths

    def start_row(self, step: StepLine) -> Markup:
        """A starting value as a row of its table."""
        source = small(cited_line(step.source)) if step.source else NOTHING
        return row(
            cell(strong(str(step.number)), class_="number", id=f"step-{step.number}"),
            cell(step.name, small(step.note), source),
            cell(self._maths.inline(step.symbol)),
            cell(quantity(step.value, step.unit), class_="number"),
            cell(step.origin),
        )

    def shared_step(self, step: StepLine) -> Markup:
        """A step of several checks, with their names."""
        return self._step(step, "h3", small("Used by: ", check_links(step.used_by)))

    def calculation(self, section: CalculationSection) -> Markup:
        """One check from its question to its sources."""
        check = section.row
        cited = Markup.joined([cited_line(each) for each in section.cited], "; ")
        return element(
            "section",
            element("h3", check.title),
            _under_title(section),
            paragraph(section.why, class_="why"),
            _comparison(section) if check.demand else NOTHING,
            paragraph(strong(WORDS.finding), f" {check.reason}."),
            *(paragraph(f"Note: {note}") for note in section.notes),
            small("Source: ", cited) if cited and not check.demand else NOTHING,
            small(WORDS.rows_to_confirm, " ", "; ".join(section.rows_to_confirm))
            if section.rows_to_confirm
            else NOTHING,
            small("Rests on shared steps ", step_runs(section.rests_on))
            if section.rests_on
            else NOTHING,
            *(self._step(step) for step in section.steps),
            self._rivals(section) if section.rivals else NOTHING,
            id=f"check-{check.id}",
            class_="calculation",
        )

    def _step(self, step: StepLine, heading: str = "h4", after: Markup = NOTHING) -> Markup:
        return element(
            "div",
            element(heading, self._head(step), class_="step-head"),
            self._formula(step) if step.formula else NOTHING,
            self._inputs(step) if step.inputs else NOTHING,
            small(step.note) if step.note else NOTHING,
            *(_out_of_range(remark) for remark in step.remarks),
            small("Source: ", cited_line(step.source)) if step.source else NOTHING,
            after,
            class_="step",
            id=f"step-{step.number}",
        )

    def _head(self, step: StepLine) -> Markup:
        origin = NOTHING if step.formula else small(f" · from a {step.origin}")
        result = self._maths.inline(step.symbol) + " = " + strong(quantity(step.value, step.unit))
        named = span(span(str(step.number), class_="count"), step.name, origin)
        return named + span(result, class_="result")

    def _formula(self, step: StepLine) -> Markup:
        return paragraph(self._maths.display(f"{step.symbol} = {step.formula}"), class_="formula")

    def _inputs(self, step: StepLine) -> Markup:
        rows = map(self._input_row, step.inputs)
        return table(f"Inputs of step {step.number}", (), rows, class_="inputs", quiet=True)

    def _input_row(self, used: InputLine) -> Markup:
        origin = Markup(", step ") + step_links(used.steps) if used.steps else NOTHING
        return row(
            cell(self._maths.inline(used.symbol)),
            cell(used.name),
            cell(quantity(used.value, used.unit), class_="number"),
            cell(used.origin, origin),
        )

    def _rivals(self, section: CalculationSection) -> Markup:
        caption = f"Other answers beside {section.row.id}"
        return Markup.joined(
            [
                element("h4", WORDS.rivals),
                table(caption, WORDS.heads["rivals"], map(_rival_row, section.rivals), quiet=True),
                *(self._step(step) for step in section.rival_steps),
            ]
        )


def _under_title(section: CalculationSection) -> Markup:
    check = section.row
    place = f" · bites at: {section.place}" if section.place else ""
    return paragraph(
        chip(check.verdict), " ", element("code", check.id), small(f" · {check.part}{place}")
    )


def _out_of_range(remark: str) -> Markup:
    return paragraph(shape("caution"), f"{WORDS.out_of_range} {remark}.", class_="verdict-caution")


def _comparison(section: CalculationSection) -> Markup:
    check = section.row
    demand = quantity(check.demand, check.unit)
    capability = quantity(check.capability, check.unit)
    rows = (
        _compared("Demand", section.demand_words, demand, section.demand_step),
        _compared("Capability", section.capability_words, capability, section.capability_step),
        _compared("Margin", section.margin_rule, quantity(check.margin, ""), 0),
    )
    return table(f"Demand and capability of {check.id}", (), rows, class_="inputs", quiet=True)


def _compared(name: str, words: str, value: Markup, step: int) -> Markup:
    return row(
        element("th", name, scope="row"),
        cell(words),
        cell(strong(value), class_="number"),
        cell("step ", step_link(step)) if step else cell(),
    )


def _rival_row(rival: RivalRow) -> Markup:
    return row(
        cell(rival.title),
        _rival_number(rival.demand, rival.unit, rival.demand_step),
        _rival_number(rival.capability, rival.unit, rival.capability_step),
        cell(rival.margin, class_="number"),
        cell(rival.uses_more, class_="number"),
        cell(rival.why_not),
    )


def _rival_number(value: str, unit: str, step: int) -> Markup:
    return cell(quantity(value, unit), small("step ", step_link(step)), class_="number")
