"""Numbers read from a solved field, with what they hang on, so that a reader can follow them."""

from dataclasses import dataclass
from typing import Protocol

from shedlight.sources import Citation, cite
from shedlight.trace import Input, Kind, Label, Number, Step
from shedlight.workings.field import Filling


class Filled(Protocol):
    """A field, as far as its numbers hang on what fills its regions."""

    @property
    def fillings(self) -> tuple[Filling, ...]:
        """What fills its regions."""


@dataclass(frozen=True)
class Hangs:
    """What the numbers of a field hang on, where there is no record of the whole field."""

    fillings: tuple[Filling, ...]


SOLVED = cite("first principles", "electro-quasi-static field, solved by finite elements", "exact")


def derived(
    value: float,
    label: Label,
    typeset: str,
    citation: Citation,
    note: str,
    origins: tuple[Number, ...],
) -> Number:
    """A number found on a field, with the numbers it was made of.

    Args:
        value: In SI.
        label: What it is.
        typeset: How it was found, in Typst mathematics.
        citation: By what rule.
        note: Where on the field.
        origins: What went in.
    """
    used = tuple(Input(n.step.label, float(n), (n.step,)) for n in origins)
    return Number(value, Step(Kind.FORMULA, label, value, citation, typeset, used, note))


def at_one_volt(
    value: float, name: str, symbol: str, unit: str, field: Filled, where: str = ""
) -> Number:
    """A reading of the field as it was solved, at one volt.

    Args:
        value: In SI, per volt where it grows with the voltage.
        name: What it is.
        symbol: Typst mathematics.
        unit: To be shown in.
        field: The field.
        where: On the section.
    """
    origins = tuple(filling.permittivity for filling in field.fillings)
    note = f"read from the field solution at 1 V{where and f', {where}'}"
    return derived(value, Label(name, symbol, unit), '"field solution"', SOLVED, note, origins)


def stress(per_volt: float, name: str, field: Filled, voltage: Number, where: str = "") -> Number:
    """A field strength at one volt scaled to a voltage.

    Args:
        per_volt: Field at one volt [1/m].
        name: What it is.
        field: The field.
        voltage: What it is scaled to; rms gives rms.
        where: On the section.
    """
    one = at_one_volt(per_volt, f"{name}, at 1 V", "E_1", "1/m", field, where)
    label = Label(name, "E", "kV/mm")
    how = f"at: {voltage.step.label.name[0].lower()}{voltage.step.label.name[1:]}"
    return derived(per_volt * float(voltage), label, "E_1 U", SOLVED, how, (one, voltage))
