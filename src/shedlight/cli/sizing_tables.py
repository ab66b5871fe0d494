"""Tables of what was decided, for the terminal."""

from rich import box
from rich.markup import escape
from rich.table import Table

from shedlight.checks.check import Check, Verdict
from shedlight.cli.tables import console_for_reader
from shedlight.documents.cautions import CAUTIONS
from shedlight.documents.numerals import percent
from shedlight.sizing.conflict import Conflict
from shedlight.sizing.sized import Sized

LEAST_SHOWN = 8


def _table(*heads: str) -> Table:
    table = Table(box=box.SIMPLE_HEAD, pad_edge=False)
    for head in heads:
        table.add_column(head.lstrip(">"), justify="right" if head.startswith(">") else "left")
    return table


def show_sized(sized: Sized, body: str) -> None:
    """What was sized: its dimensions, the checks that bind, what a reader should know.

    Args:
        sized: The sized bushing.
        body: Name of the porcelain body taken from stock; empty if none was.
    """
    console = console_for_reader()
    console.print(f"[bold]{escape(sized.case.name)}[/bold]")
    if body:
        console.print(f"Porcelain body: {escape(body)}")
    console.print(_dimensions(sized))
    table = _table("tightest checks", ">margin", "verdict")
    for check in _tightest(sized):
        table.add_row(check.id, percent(check.margin or 0.0), str(check.verdict))
    console.print(table)
    for remark in sized.remarks:
        console.print(escape(remark))
    for check in sized.cautions:
        console.print(f"! {check.id}: {escape(check.reason)}")
    for check in sized.failed:
        console.print(f"✗ {check.id}: {escape(check.reason)}")
    console.print(f"{sized.assessment.verdict}: {sized.assessment.verdict_sentence}.")
    console.print(f"{sized.evaluations} drafts were assessed.")
    console.print(f"{CAUTIONS[0]} {CAUTIONS[-1]}", style="dim")


def _tightest(sized: Sized) -> list[Check]:
    found = [c for c in sized.assessment.checks if c.margin is not None]
    order = sorted(found, key=lambda check: check.margin or 0.0)
    return [c for c in order if c.verdict is not Verdict.FAIL][:LEAST_SHOWN]


def _dimensions(sized: Sized) -> Table:
    bushing, host = sized.case.bushing, sized.case.transformer
    sheds = bushing.sheds
    table = _table("dimension", ">closed form", ">sized")
    start, draft = sized.start, sized.draft
    rows = [
        ("conductor", start.conductor, bushing.conductor.diameter),
        ("bore", start.conductor + 2 * start.gap, bushing.porcelain.bore),
        ("wall", start.wall, bushing.porcelain.wall),
        ("air end", start.air, bushing.porcelain.air_length),
        ("overhang", start.overhang, 0.0 if sheds is None else sheds.overhang),
        ("pitch", start.pitch, 0.0 if sheds is None else sheds.pitch),
        ("oil end", start.oil, bushing.oil_end.length),
        ("hole", host.hole_diameter, host.hole_diameter),
    ]
    for name, first, last in rows:
        table.add_row(name, f"{1e3 * first:.0f} mm", f"{1e3 * last:.1f} mm".replace(".0 ", " "))
    table.add_row("sheds", f"{start.count} {start.form}", f"{draft.count} {draft.form}")
    if bushing.horns is not None:
        table.add_row("horns' gap", "", f"{1e3 * bushing.horns.gap:.0f} mm")
    return table


def show_conflict(conflict: Conflict) -> None:
    """What stands against each other, and what relaxing gives.

    Args:
        conflict: The demands and the relaxations.
    """
    console = console_for_reader()
    table = _table("demands that no shape meets together", ">short of the margin by")
    for name, short in conflict.demands:
        table.add_row(name, f"{-100 * short:.1f} %")
    console.print(table)
    relaxed = _table("if it were", "then", ">worst")
    for item in conflict.relaxations:
        then = "all demands are met" if item.fits else f"{item.worst} is still short"
        relaxed.add_row(item.what, then, "" if item.fits else f"{100 * item.shortfall:.1f} %")
    console.print(relaxed if conflict.relaxations else "No single relaxation helps.")
