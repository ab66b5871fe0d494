"""How a number came about.

A :class:`Number` is a plain float that remembers the :class:`Step` which produced it. Steps
remember the numbers that went in, so a result carries its whole calculation with it:

* :func:`formula` declares what a pure function computes: name, symbol, typeset form, units, source,
* :func:`calculate` runs such a function and returns the value with its step,
* :func:`given`, :func:`measured`, :func:`looked_up` make numbers that start a calculation,
* :func:`derivation` lists all steps behind some numbers, inputs first.

Ordinary arithmetic on a Number gives a plain float: what is to be seen in a document has to be
a declared formula.
"""

import functools
import inspect
import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, fields
from enum import StrEnum
from typing import Any, ParamSpec, Self, TypeVar

from shedlight.errors import CalculationError
from shedlight.sources import Citation

P = ParamSpec("P")
F = TypeVar("F", bound=Callable[..., float])
Value = float | tuple[float, ...]


class Kind(StrEnum):
    """Where a number came from."""

    GIVEN = "given"  # written in the description
    DEFAULT = "default"  # not written; an engineering default with a stated basis
    MEASURED = "measured"  # on the outline
    TABLE = "table"  # looked up
    FORMULA = "formula"  # computed


@dataclass(frozen=True)
class Label:
    """What a quantity is called, how it is typeset (Typst mathematics), the unit it is shown in."""

    name: str
    symbol: str
    unit: str


@dataclass(frozen=True)
class Input:
    """One argument of a formula as it was used, in SI, with the step it came from if known."""

    label: Label
    value: Value
    origins: tuple["Step", ...]


@dataclass(frozen=True)
class Step:
    """One line of a calculation; ``value`` is in SI, ``label.unit`` is the unit to show."""

    kind: Kind
    label: Label
    value: float
    citation: Citation | None = None
    typeset: str = ""
    inputs: tuple[Input, ...] = ()
    note: str = ""
    beyond: tuple[str, ...] = ()
    fingerprint: int | None = field(init=False, repr=False, compare=False, default=None)

    def __hash__(self) -> int:
        """Made once, when first asked: steps share their inputs, and each hash holds all of them.

        Most steps are never asked: many cases are computed and few are printed.
        """
        if self.fingerprint is None:
            parts = (self.kind, self.label, self.value, self.note, self.inputs)
            object.__setattr__(self, "fingerprint", hash(parts))
        return self.fingerprint or 0

    def __eq__(self, other: object) -> bool:
        """Alike in itself, with alike steps behind it by their hashes.

        Two copies of a long calculation share steps many times over: followed step by step,
        comparing them would explode too.
        """
        if not isinstance(other, Step):
            return NotImplemented
        return self is other or (
            self.fingerprint == other.fingerprint and self._own() == other._own()
        )

    def _own(self) -> tuple[Any, ...]:
        behind = tuple((i.label, i.value, tuple(map(hash, i.origins))) for i in self.inputs)
        return self.kind, self.label, self.value, self.citation, self.typeset, self.note, behind

    def __reduce__(self) -> tuple[type["Step"], tuple[Any, ...]]:
        """Made anew when read back: hashes of text differ from process to process."""
        return Step, tuple(getattr(self, item.name) for item in fields(self) if item.init)


class Number(float):
    """A float (SI) that knows the step it came from."""

    __slots__ = ("step",)
    step: Step

    def __new__(cls, value: float, step: Step) -> Self:
        """Bind a value to its step."""
        number = super().__new__(cls, value)
        number.step = step
        return number

    def __getnewargs__(self) -> tuple[float, Step]:  # type: ignore[override]
        """Let copies and pickles keep the step."""
        return float(self), self.step


@dataclass(frozen=True)
class Formula:
    """What a declared function computes; ``ranges`` are SI limits of the source per parameter."""

    result: Label
    typeset: str
    inputs: Mapping[str, Label]
    citation: Citation
    ranges: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    note: str = ""


FORMULAS: dict[str, Formula] = {}


def _qualified(function: Callable[..., Any]) -> str:
    return f"{function.__module__}.{function.__qualname__}"


def formula(
    result: tuple[str, str, str],
    typeset: str,
    inputs: Mapping[str, tuple[str, str, str]],
    citation: Citation,
    *,
    ranges: Mapping[str, tuple[float, float]] | None = None,
    note: str = "",
) -> Callable[[F], F]:
    """Declare what a pure function computes, so that its use can be traced.

    Args:
        result: (name, symbol, unit to show) of the value returned.
        typeset: The formula's right-hand side, in Typst mathematics.
        inputs: (name, symbol, unit to show) for each parameter, by parameter name.
        citation: Where the formula stands.
        ranges: Lowest and highest value [SI] per parameter for which the source vouches.
        note: A standing remark printed with every use.

    Raises:
        CalculationError: the declared inputs are not the function's parameters.
    """

    def declare(function: F) -> F:
        parameters = list(inspect.signature(function).parameters)
        if parameters != list(inputs):
            raise CalculationError(
                f"{_qualified(function)} takes {parameters} but declares {list(inputs)}"
            )
        FORMULAS[_qualified(function)] = Formula(
            Label(*result),
            typeset,
            {name: Label(*label) for name, label in inputs.items()},
            citation,
            dict(ranges or {}),
            note,
        )
        return function

    return declare


@functools.cache
def formula_of(function: Callable[..., float]) -> Formula:
    """The declaration of a traced function."""
    try:
        return FORMULAS[_qualified(function)]
    except KeyError:
        raise CalculationError(f"{_qualified(function)} is not declared as a formula") from None


def calculate(function: Callable[P, float], /, *args: P.args, **kwargs: P.kwargs) -> Number:
    """Run a declared formula and keep how the value came about.

    Args:
        function: A function declared with :func:`formula`.
        *args: Its arguments; Numbers keep the link to their own steps.
        **kwargs: The same by name.

    Raises:
        CalculationError: the result is not a finite number.
    """
    declared = formula_of(function)
    value = float(function(*args, **kwargs))
    arguments: Sequence[Any] = args
    if kwargs or len(args) != len(declared.inputs):
        arguments = _all_arguments(function, args, kwargs)
    if not math.isfinite(value):
        named = dict(zip(declared.inputs, arguments, strict=True))
        raise CalculationError(f"{_qualified(function)} gave {value} for {named}")
    labels = declared.inputs.values()
    used = tuple([_input(label, given) for label, given in zip(labels, arguments, strict=True)])
    beyond = _all_beyond(declared, arguments) if declared.ranges else ()
    step = Step(
        Kind.FORMULA,
        declared.result,
        value,
        declared.citation,
        declared.typeset,
        used,
        declared.note,
        beyond,
    )
    return Number(value, step)


def _all_arguments(
    function: Callable[..., float], args: tuple[Any, ...], kwargs: Mapping[str, Any]
) -> tuple[Any, ...]:
    """What each parameter was given, defaults included, in the order of the parameters."""
    bound = _signature(function).bind(*args, **kwargs)
    bound.apply_defaults()
    return tuple(bound.arguments.values())


def _all_beyond(declared: Formula, arguments: Sequence[Any]) -> tuple[str, ...]:
    named = dict(zip(declared.inputs, arguments, strict=True))
    return tuple(
        remark for name in declared.ranges if (remark := _beyond(declared, name, named[name]))
    )


@functools.cache
def _signature(function: Callable[..., float]) -> inspect.Signature:
    return inspect.signature(function)


def _input(label: Label, given: Any) -> Input:
    if isinstance(given, Number):
        return Input(label, float(given), (given.step,))
    if isinstance(given, Sequence):
        origins = tuple(item.step for item in given if isinstance(item, Number))
        return Input(label, tuple(float(item) for item in given), origins)
    return Input(label, float(given), ())


def _beyond(declared: Formula, name: str, given: Any) -> str:
    low, high = declared.ranges[name]
    items = (given,) if isinstance(given, float) else given
    if not isinstance(items, Sequence):
        items = (items,)
    if all(low <= float(item) <= high for item in items):
        return ""
    return f"{declared.inputs[name].name} lies outside the range of the source"


def given(
    value: float,
    label: Label,
    note: str,
    *,
    default: bool = False,
    citation: Citation | None = None,
) -> Number:
    """A number of the description: as written, or a default with the basis told in `note`."""
    kind = Kind.DEFAULT if default else Kind.GIVEN
    return Number(value, Step(kind, label, float(value), citation, note=note))


def measured(value: float, label: Label, note: str) -> Number:
    """A number measured on the outline; `note` says how."""
    return Number(value, Step(Kind.MEASURED, label, float(value), note=note))


def looked_up(
    value: float,
    label: Label,
    citation: Citation,
    note: str,
    origins: tuple[Number, ...] = (),
    beyond: tuple[str, ...] = (),
) -> Number:
    """A number read from a table; `note` names the row, `origins` what the row was chosen by."""
    used = tuple(Input(n.step.label, float(n), (n.step,)) for n in origins)
    return Number(value, Step(Kind.TABLE, label, float(value), citation, "", used, note, beyond))


def derivation(*numbers: float) -> tuple[Step, ...]:
    """All steps behind some numbers, each once, inputs before what uses them."""
    ordered: dict[Step, None] = {}

    def visit(step: Step) -> None:
        if step in ordered:
            return
        for used in step.inputs:
            for origin in used.origins:
                visit(origin)
        ordered[step] = None

    for number in numbers:
        if isinstance(number, Number):
            visit(number.step)
    return tuple(ordered)


def citations(*numbers: float) -> tuple[Citation, ...]:
    """Every source that some numbers rest on, in order of first use."""
    steps = _behind(*numbers)
    return tuple(dict.fromkeys(step.citation for step in steps if step.citation is not None))


def out_of_range(*numbers: float) -> tuple[str, ...]:
    """Why some numbers lie outside what their sources vouch for; empty if they do not."""
    return tuple(dict.fromkeys(remark for step in _behind(*numbers) for remark in step.beyond))


def _behind(*numbers: float) -> list[Step]:
    """The steps of a derivation, where it does not matter that equal ones may come twice."""
    ordered: list[Step] = []
    seen: set[int] = set()

    def visit(step: Step) -> None:
        if id(step) in seen:
            return
        seen.add(id(step))
        for used in step.inputs:
            for origin in used.origins:
                visit(origin)
        ordered.append(step)

    for number in numbers:
        if isinstance(number, Number):
            visit(number.step)
    return ordered
