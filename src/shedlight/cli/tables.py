"""Tables for the terminal."""

from collections.abc import Sequence

from rich import box
from rich.console import Console
from rich.markup import escape
from rich.table import Table

from shedlight.checks.assessment import Assessment
from shedlight.checks.check import Check, Question, Verdict
from shedlight.documents.cautions import CAUTIONS
from shedlight.documents.numerals import percent
from shedlight.given.bushing import Installation
from shedlight.given.writing import entries
from shedlight.trace import derivation, out_of_range
from shedlight.units import digits, shown_in
from shedlight.verification import Outcome
from shedlight.workings.day_of_test import DayOfTest

PLAIN_WIDTH = 118
MARKS = {
    Verdict.PASS: ("✓", "green"),
    Verdict.CAUTION: ("!", "yellow"),
    Verdict.FAIL: ("✗", "red bold"),
    Verdict.NOT_ASSESSED: ("?", "cyan"),
}


def console_for_reader() -> Console:
    """Where tables go: as wide as the terminal, or as a page where there is none."""
    console = Console()
    return console if console.is_terminal else Console(width=PLAIN_WIDTH)


def show_assessment(assessment: Assessment) -> None:
    """Every check, worst first, then the overall verdict and what was defaulted."""
    console = console_for_reader()
    console.print(f"[bold]{escape(assessment.installation.name)}[/bold]")
    table = Table(box=box.SIMPLE_HEAD, pad_edge=False)
    for heading, align in (
        ("verdict", "left"),
        ("check", "left"),
        ("demand", "right"),
        ("capability", "right"),
        ("unit", "left"),
        ("margin", "right"),
    ):
        table.add_column(heading, justify=align, no_wrap=heading != "check")  # type: ignore[arg-type]
    for check in assessment.by_urgency:
        table.add_row(*_row(check))
    console.print(table)
    console.print(f"[bold]{assessment.verdict}[/bold]: {assessment.verdict_sentence}.")
    hanging = [check for check in assessment.checks if check.unconfirmed]
    rows = {row for check in hanging for row in check.unconfirmed}
    console.print(
        f"{len(hanging)} verdicts hang on {len(rows)} table rows held from memory or practice; "
        "check --json names them, and --confirmed takes those you checked.",
        markup=False,
    )
    defaulted = sum(entry.defaulted for entry in entries(assessment.installation))
    console.print(f"{defaulted} values were left to defaults; the report lists them and why.")
    console.print(f"{CAUTIONS[0]} {CAUTIONS[-1]}", style="dim")


def _row(check: Check) -> tuple[str, ...]:
    mark, style = MARKS[check.verdict]
    verdict = f"[{style}]{mark} {check.verdict}[/{style}]"
    question = f"{check.id}\n[dim]{escape(check.question.title)}[/dim]"
    if check.demand is None or check.capability is None:
        return verdict, f"{question}\n[dim]{escape(check.reason)}[/dim]", "", "", "", ""
    if check.verdict is not Verdict.PASS:
        question += f"\n[dim]{escape(check.reason)}[/dim]"
    unit = check.question.unit or check.demand.step.label.unit
    return (
        verdict,
        question,
        digits(shown_in(check.demand, unit)),
        digits(shown_in(check.capability, unit)),
        unit,
        percent(check.margin) if check.margin is not None else "",
    )


def show_verification(outcomes: Sequence[Outcome]) -> None:
    """Every reference row: computed beside expected, deviation and source."""
    console = console_for_reader()
    table = Table(box=box.SIMPLE_HEAD, pad_edge=False)
    for heading in (
        "row",
        "kind",
        "expected",
        "computed",
        "unit",
        "deviation",
        "allowed",
        "source",
    ):
        right = heading in ("expected", "computed", "deviation", "allowed")
        table.add_column(heading, justify="right" if right else "left", overflow="fold")
    for outcome in outcomes:
        mark = "" if outcome.ok else "[red bold]✗ [/red bold]"
        table.add_row(
            f"{mark}{outcome.id}",
            str(outcome.kind),
            f"{outcome.expected:.6g}",
            outcome.trouble or f"{outcome.computed:.6g}",
            outcome.unit,
            f"{outcome.deviation:.1e}",
            f"{outcome.tolerance:.0e}",
            escape(f"{outcome.source} ({outcome.basis})"),
        )
    console.print(table)
    agreed = sum(outcome.ok for outcome in outcomes)
    weighty = sum(str(outcome.kind) != "arithmetic" for outcome in outcomes)
    console.print(
        f"{agreed} of {len(outcomes)} rows agree; {weighty} of them are more than arithmetic."
    )


def show_catalogue(questions: Sequence[Question]) -> None:
    """Every question: what is compared, of which part, and what goes wrong if it fails."""
    console = console_for_reader()
    for question in questions:
        console.print(f"[bold]{question.id}[/bold] · {question.part} · {question.title}")
        unit = f" \\[{question.unit}]" if question.unit not in ("", "1") else ""
        console.print(f"  {question.demand} → {question.capability}{unit}")
        console.print(f"  [dim]{question.why}[/dim]\n")
    console.print(f"{len(questions)} questions.")


def show_day(case: Installation, day: DayOfTest, *, steps: bool) -> None:
    """The tests of a day: what is asked at standard atmosphere and what to apply.

    Args:
        case: The installation.
        day: Its tests in the weather of the day.
        steps: Whether to show every step of the calculation.
    """
    console = console_for_reader()
    console.print(f"[bold]{escape(case.name)}[/bold], tests in today's weather")
    console.print(
        f"relative air density {digits(day.density)}, absolute humidity "
        f"{digits(shown_in(day.humidity, 'g/m³'))} g/m³"
    )
    table = Table(box=box.SIMPLE_HEAD, pad_edge=False)
    for heading in ("test", "level, kV", "K_t", "apply today, kV"):
        table.add_column(heading, justify="left" if heading == "test" else "right")
    for test in day.tests:
        level, applied = (digits(shown_in(n, "kV")) for n in (test.level, test.apply))
        table.add_row(test.name, level, digits(test.factor), applied)
    console.print(table)
    expected = digits(shown_in(day.expected, "kV"))
    console.print(f"Mean lightning sparkover of the air end to expect today: {expected} kV peak.")
    if day.reading is not None:
        today, standard = (
            digits(shown_in(n, "kV")) for n in (day.reading.today, day.reading.standard)
        )
        console.print(f"The {today} kV read today are {standard} kV at standard atmosphere.")
    beyond = dict.fromkeys(text for test in day.tests for text in out_of_range(test.apply))
    for remark in (*beyond, *day.notes):
        console.print(f"· {remark}", markup=False)
    if steps:
        _show_steps(console, day)
    console.print(f"{CAUTIONS[0]} {CAUTIONS[-1]}", style="dim")


def _show_steps(console: Console, day: DayOfTest) -> None:
    """Every step behind the voltages to apply, inputs first."""
    table = Table(box=box.SIMPLE_HEAD, pad_edge=False)
    for heading in ("quantity", "value", "unit", "source"):
        table.add_column(heading, justify="right" if heading == "value" else "left")
    read = () if day.reading is None else (day.reading.standard,)
    for step in derivation(*(test.apply for test in day.tests), day.expected, *read):
        unit = step.label.unit
        source = f"{step.citation} ({step.citation.trust})" if step.citation else step.note
        value = digits(shown_in(step.value, unit))
        table.add_row(step.label.name, value, "" if unit == "1" else unit, escape(source))
    console.print(table)
