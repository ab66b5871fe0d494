"""Temperatures that other rooms take from the heat room: settled ones where there are any."""

from dataclasses import dataclass

from shedlight.physics.heat.ends import mean_along, middle_temperature
from shedlight.sources import cite
from shedlight.trace import Label, Number, calculate
from shedlight.workings.heat import Heat
from shedlight.workings.heat.cold import ColdStart
from shedlight.workings.heat.settled import Settled
from shedlight.workings.numbers import Description, modelled

_TOP_OIL = cite("trade", "as hot as the top oil where nothing settles", "practice", "low")
IN_OIL = ("oil end", "hole")


@dataclass(frozen=True, eq=False)
class Warmth:
    """How warm the parts are at rated current [K]: on the hottest day, and in the coldest air.

    Where nothing settles each is as hot as the top oil, and says so.
    """

    conductor: Number  # mean between shield and cap
    porcelain: Number  # mean between shield and cap
    gasket: Number
    oil: Number  # inside, where it is hottest
    behind_cold_wall: Number  # hottest stretch of conductor in the coldest air
    start: ColdStart | str  # load that comes on in the cold
    guessed: str  # why nothing settles; empty if it does


def warmth_of(heat: Heat | str, number: Description) -> Warmth:
    """How warm the parts are, by the heat room where it settles.

    Args:
        heat: Its heat; or in words why it was not asked for.
        number: Hands out the description's numbers.
    """
    steady, cold = (heat, heat) if isinstance(heat, str) else (heat.steady, heat.cold)

    def guess(what: str, why: str) -> Number:
        label = Label(f"Temperature taken for {what}", "theta", "°C")
        top_oil = number("transformer.top_oil_temperature")
        how = "the top oil's, as nothing settles"
        return modelled(float(top_oil), label, _TOP_OIL, how, (top_oil,), (why,))

    behind = guess("the bore", cold) if isinstance(cold, str) else _behind_wall(cold.loaded)
    start = cold if isinstance(cold, str) else cold.start
    if isinstance(steady, str):
        names = ("the conductor", "the porcelain", "the gasket", "the oil inside")
        conductor, porcelain, gasket, oil = (guess(name, steady) for name in names)
        return Warmth(conductor, porcelain, gasket, oil, behind, start, steady)
    conductor, porcelain = _clamped(steady.safe)
    return Warmth(conductor, porcelain, steady.gasket, steady.oil, behind, start, "")


def _clamped(settled: Settled) -> tuple[Number, Number]:
    """Mean temperatures of conductor and porcelain from shield to cap."""
    lengths, metal, walls = [], [], []
    for part, piece in zip(settled.parts, settled.model.pieces, strict=True):
        if part.bore is not None and part.surface is not None:
            lengths.append(piece.length)
            metal.append(part.conductor)
            walls.append(calculate(middle_temperature, part.bore, part.surface))
    long = tuple(lengths)
    return calculate(mean_along, tuple(metal), long), calculate(mean_along, tuple(walls), long)


def _behind_wall(settled: Settled) -> Number:
    """The conductor where it is hottest behind porcelain in air: no bore is hotter."""
    return max(
        part.conductor
        for part in settled.parts
        if part.bore is not None and part.name not in IN_OIL
    )
