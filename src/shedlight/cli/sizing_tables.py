"""Tables of what was decided, for the terminal."""

import math
from collections.abc import Iterator, Sequence

from rich import box
from rich.markup import escape
from rich.table import Table

from shedlight.checks.check import Check, Verdict
from shedlight.cli.tables import console_for_reader
from shedlight.documents.cautions import CAUTIONS
from shedlight.documents.numerals import percent
from shedlight.figures.why import shown
from shedlight.given.bushing import Installation
from shedlight.sizing.comparison import Comparison
from shedlight.sizing.compromise import Front, axis_of
from shedlight.sizing.conflict import WHOLLY, Conflict
from shedlight.sizing.doubt import Doubts
from shedlight.sizing.pool import MARGIN
from shedlight.sizing.reasons import Reason
from shedlight.sizing.sized import Sized
from shedlight.sizing.stock import Offer
from shedlight.units import shown_in
from shedlight.variants.summary import Summary

MOST_SLOPES = 3
MOST_PLACES = 20
MOST_FAILING = 8
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
        table.add_row(name, "does not hold" if short == WHOLLY else f"{-100 * short:.1f} %")
    console.print(table)
    relaxed = _table("if it were", "then", ">worst")
    for item in conflict.relaxations:
        then = "all demands are met" if item.fits else f"{item.worst} is still short"
        relaxed.add_row(item.what, then, "" if item.fits else f"{100 * item.shortfall:.1f} %")
    console.print(relaxed if conflict.relaxations else "No single relaxation helps.")


def show_offers(offers: Sequence[Offer]) -> None:
    """Every offer, the best first: whether it fits and holds, and what is wrong with it.

    Args:
        offers: The offers, ranked.
    """
    console = console_for_reader()
    table = _table(">", "offer", ">price", "fits", "holds", "what is wrong")
    for number, offer in enumerate(offers, start=1):
        price = "" if offer.price is None else f"{offer.price:g}"
        fits, holds = _yes(offer.fits), _yes(offer.holds)
        wrong = offer.trouble or "\n".join(_wrong(offer)) or "nothing"
        table.add_row(f"{number}", escape(offer.name), price, fits, holds, escape(wrong))
    console.print(table)
    console.print(f"{CAUTIONS[0]} {CAUTIONS[-1]}", style="dim")


def _yes(holds: bool) -> str:
    return "✓ yes" if holds else "✗ no"


def _wrong(offer: Offer) -> Iterator[str]:
    for check in (*offer.misfits, *offer.short):
        mark = "✗" if check.verdict is Verdict.FAIL else "!"
        yield f"{mark} {check.id}: {check.reason}"
    yield from (f"≠ {deviation}" for deviation in offer.deviations)


def show_reasons(
    case: Installation, found: Sequence[Reason], comparison: Comparison | None
) -> None:
    """Each main dimension with its reason, then why the air end is the longer one.

    Args:
        case: The installation.
        found: Why each dimension is what it is.
        comparison: Air end against oil end, if known.
    """
    console = console_for_reader()
    console.print(f"[bold]{escape(case.name)}[/bold]: one dimension moved at a time")
    table = _table(
        "dimension", ">value", "governed by", ">would just do", ">slack", "then", "moves"
    )
    for reason in found:
        first, second = reason.governing, reason.next or reason.ceiling
        side = "" if first is None else ("≥ " if first.lower else "≤ ")
        table.add_row(
            reason.name,
            shown(reason.path, reason.value),
            "nothing near" if first is None else first.check,
            "" if first is None else side + shown(reason.path, first.value),
            "" if reason.slack is None else shown(reason.path, reason.slack).replace("-", "−"),
            "" if second is None else f"{second.check} at {shown(reason.path, second.value)}",
            ", ".join(_moves(reason)),
        )
    console.print(table)
    if comparison is not None:
        console.print(comparison.sentence)
    console.print(f"{CAUTIONS[0]} {CAUTIONS[-1]}", style="dim")


def _moves(reason: Reason) -> Iterator[str]:
    """The slopes that soonest bring a margin to zero: per cent of margin for a mm or a shed."""
    per = 1.0 if reason.path.endswith("count") else 1e-3
    unit = "shed" if reason.path.endswith("count") else "mm"
    if reason.path.endswith("slope"):
        per, unit = math.radians(1), "degree"
    for slope in reason.closest(MOST_SLOPES):
        yield f"{slope.check} {percent(slope.per_step * per)}/{unit}"


def show_doubts(case: Installation, found: Doubts) -> None:
    """The odds of every check, the least sure first, and what dominates each.

    Args:
        case: The installation.
        found: The odds.
    """
    console = console_for_reader()
    console.print(f"[bold]{escape(case.name)}[/bold]: {found.drawn} bushings drawn")
    table = _table("check", ">margin", ">holds in", ">± (1σ)", ">19 in 20 above", "dominated by")
    for odds in found.odds:
        dominant = ", ".join(f"{name} {100 * share:.0f} %" for name, share in odds.dominant)
        table.add_row(
            odds.check,
            percent(odds.nominal),
            f"{100 * odds.holds:.1f} %",
            f"{100 * odds.error:.1f} %",
            percent(odds.low),
            dominant,
        )
    console.print(table)
    console.print(f"All of these hold together in {100 * found.all_hold:.1f} % of them.")
    if found.impossible:
        console.print(f"{found.impossible} could not be drawn: their tolerances clash.")
    console.print(
        "Tolerances are taken as three standard deviations; their widths and the scatter of "
        "formulas are held from memory or practice."
    )


def show_front(front: Front) -> None:
    """The best compromises, numbered as in the chart.

    Args:
        front: The compromises.
    """
    console = console_for_reader()
    titles = [axis_of(objective) for objective in (front.first, front.second)]
    table = _table(">", *(f">{title}" for title, _ in titles), ">air end", ">oil end", "sheds")
    for number, one in enumerate(front.candidates, start=1):
        values = zip((one.first, one.second), titles, strict=True)
        shown_values = [f"{shown_in(value, unit):.3g} {unit}" for value, (_, unit) in values]
        draft = one.tried.draft
        sheds = f"{draft.count} {draft.form}, {1e3 * draft.overhang:.0f} mm"
        ends = (f"{1e3 * length:.0f} mm" for length in (draft.air, draft.oil))
        table.add_row(f"{number}", *shown_values, *ends, sheds)
    console.print(table if front.candidates else "No bushing holds; size it to see why.")
    for sentence in _counted(front):
        console.print(sentence)


def _counted(front: Front) -> Iterator[str]:
    """Over which demands the least margin is counted, and which are held below the wish."""
    if not front.candidates:
        return
    if MARGIN in (front.first, front.second):
        yield f"The least margin is counted over {', '.join(sorted(front.counted)) or 'nothing'}."
    if front.below:
        held = ", ".join(f"{name} {percent(margin)}" for name, margin in front.below)
        yield f"Held below the margin wished for, as in the first bushing found: {held}."


def show_summary(summary: Summary, computed: int) -> None:
    """What many cases say.

    Args:
        summary: What all results kept say.
        computed: How many were computed now.
    """
    console = console_for_reader()
    console.print(
        f"{summary.cases} cases, {computed} of them computed now, "
        f"{summary.troubles} that could not be computed (column trouble)."
    )
    verdicts = ", ".join(f"{count} {name}" for name, count in summary.verdicts.items())
    few, all_ = summary.asked
    rest = "" if few == all_ else f'; the other {all_ - few} want depth = "full"'
    console.print(f"Verdicts on {few} questions{rest}: {verdicts or 'none'}.")
    for name, places in summary.axes.items():
        table = _table(
            name, ">cases", ">fail", ">least margin", ">creepage needed", ">given",
            ">arcing needed", ">given",
        )  # fmt: skip
        for place in places[:MOST_PLACES]:
            lengths = ("creepage_needed", "creepage", "arcing_needed", "arcing")
            table.add_row(
                escape(place.label),
                f"{place.cases}",
                f"{place.fails}",
                percent(place.least),
                *(f"{1e3 * place.means[length]:.0f} mm" for length in lengths),
            )
        console.print(table)
        if len(places) > MOST_PLACES:
            console.print(f"… and {len(places) - MOST_PLACES} more places.")
    if summary.failing:
        failing = ", ".join(f"{name} ({count})" for name, count in summary.failing[:MOST_FAILING])
        console.print(f"Most often failing: {failing}.")
