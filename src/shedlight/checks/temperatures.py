"""Temperatures against their limits: by rise, with what stands beside the deciding one."""

from dataclasses import replace
from typing import TYPE_CHECKING

from shedlight.checks.check import Check, Question, Rival, held, ratio_margin, rise_margin, rival
from shedlight.given.bushing import Installation
from shedlight.physics.heat.tables import TemperatureLimit
from shedlight.sources import cite
from shedlight.trace import Label, Number, looked_up
from shedlight.units import amount
from shedlight.workings.heat import Steady

if TYPE_CHECKING:
    from shedlight.workings.heat.section import SectionHeat

FIRST_MODEL = "First model: still air, no sun, oil at rest, a body without sheds"
ELEMENTS = "Finite elements on the section"
FIN = cite("Carslaw", "steady temperature in a thin rod heated by a current", "exact")


def limit_of(row: TemperatureLimit) -> Number:
    """The limit of a row as a traced number.

    Args:
        row: The row.
    """
    label = Label(f"Limit for {row.part} ({row.finish}, {row.medium})", 'theta_"all"', "°C")
    return looked_up(row.temperature, label, row.citation, row.citation.where)


def by_rise(
    question: Question,
    value: Number,
    row: TemperatureLimit,
    case: Installation,
    place: str,
    rise: Number | None = None,
    rivals: tuple[Rival, ...] = (),
    notes: tuple[str, ...] = (),
) -> Check:
    """Judge a temperature by its rise over air; where the limit has a rise, that holds too.

    The limits' rises are those of a test, which knows no sun: they are held against the rise
    without it.
    """
    air = case.site.hottest_air
    margin = rise_margin(value, row.temperature, air)
    remarks = ["The margin counts the rise over the hottest air.", *notes]
    if row.rise is not None and rise is not None:
        remarks.append(
            f"Rise without sun {amount(rise, 'K')}; limit of the rise {amount(row.rise, 'K')}."
        )
        margin = min(margin, ratio_margin(rise, row.rise))
    return held(
        question,
        value,
        limit_of(row),
        place=place,
        margin=margin,
        rivals=rivals,
        notes=tuple(remarks),
    )


def first_model(
    question: Question, value: Number | None, row: TemperatureLimit, case: Installation
) -> tuple[Rival, ...]:
    """The first model's temperature beside the settled one, its margin by rise too."""
    if value is None:
        return ()
    margin = rise_margin(value, row.temperature, case.site.hottest_air)
    return (replace(rival(question, FIRST_MODEL, value, limit_of(row)), margin=margin),)


def by_elements(
    question: Question,
    found: "SectionHeat | str",
    name: str,
    row: TemperatureLimit,
    case: Installation,
) -> tuple[Rival, ...]:
    """The temperature by finite elements beside the one that decides, where it was solved."""
    if isinstance(found, str):
        return ()
    value: Number = getattr(found, name)
    margin = rise_margin(value, row.temperature, case.site.hottest_air)
    return (replace(rival(question, ELEMENTS, value, limit_of(row)), margin=margin),)


def told_of(steady: Steady, safe: float, mean: float) -> tuple[str, ...]:
    """What belongs beside a settled temperature: the middle, the rounds, what the sources say."""
    state = steady.safe.state
    return (
        f"Safe side of the films' spread; by their middle {celsius(mean)}, here {celsius(safe)}.",
        f"Found in {state.rounds} rounds with properties and losses renewed in each; the last one "
        f"changed no temperature by more than {amount(state.change, 'K')}.",
        *steady.remarks,
    )


def celsius(temperature: float) -> str:
    """A temperature in words.

    Args:
        temperature: Temperature [K].
    """
    return amount(temperature, "°C")
