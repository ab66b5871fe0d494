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
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, fields
from enum import StrEnum
from typing import Any, ClassVar, ParamSpec, Self, TypeVar

from shedlight.errors import CalculationError
from shedlight.sources import Backing, Citation

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
    """A float (SI) that knows the step it came from.

    What a formula gave keeps its arguments, and makes the step of them when one asks: of many
    cases hardly any is printed, and a step takes longer than its formula.
    """

    __slots__ = ("made",)
    made: "Step | Used"

    def __new__(cls, value: float, made: "Step | Used") -> Self:
        """Bind a value to its step, or to the formula and arguments that it is made from."""
        number = super().__new__(cls, value)
        number.made = made
        return number

    @property
    def step(self) -> Step:
        """How it came about."""
        made = self.made
        if isinstance(made, tuple):
            made = self.made = _step_of(float(self), *made)
        return made

    def __reduce__(self) -> tuple[type["Number"], tuple[float, Step]]:
        """Let copies and pickles keep the step."""
        return Number, (float(self), self.step)


class Shared:
    """Arguments that several formulas take, declared once: base of frozen dataclasses.

    A formula takes the whole; its declaration and every use list the single arguments.
    """

    LABELS: ClassVar[Mapping[str, tuple[str, str, str]]]


@dataclass(frozen=True)
class Formula:
    """What a declared function computes; ``ranges`` are SI limits of the source per parameter."""

    result: Label
    typeset: str
    inputs: Mapping[str, Label]
    citation: Citation
    ranges: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    note: str = ""
    shared: Mapping[str, type[Shared]] = field(default_factory=dict)


FORMULAS: dict[str, Formula] = {}
Used = tuple[Formula, Sequence[Any], tuple[str, ...]]


def _qualified(function: Callable[..., Any]) -> str:
    return f"{function.__module__}.{function.__qualname__}"


def formula(
    result: tuple[str, str, str],
    typeset: str,
    inputs: Mapping[str, tuple[str, str, str] | type[Shared]],
    citation: Citation,
    *,
    ranges: Mapping[str, tuple[float, float]] | None = None,
    note: str = "",
) -> Callable[[F], F]:
    """Declare what a pure function computes, so that its use can be traced.

    Args:
        result: (name, symbol, unit to show) of the value returned.
        typeset: The formula's right-hand side, in Typst mathematics.
        inputs: (name, symbol, unit to show) for each parameter, by parameter name; a class of
            shared arguments stands for all that it declares.
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
            _labels(inputs),
            citation,
            dict(ranges or {}),
            note,
            {name: one for name, one in inputs.items() if isinstance(one, type)},
        )
        return function

    return declare


def _labels(inputs: Mapping[str, tuple[str, str, str] | type[Shared]]) -> dict[str, Label]:
    found: dict[str, Label] = {}
    for name, one in inputs.items():
        single = one.LABELS if isinstance(one, type) else {name: one}
        found |= {single_name: Label(*label) for single_name, label in single.items()}
    return found


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
    if kwargs or declared.shared or len(args) != len(declared.inputs):
        arguments = _all_arguments(function, args, kwargs)
    if not math.isfinite(value):
        named = dict(zip(declared.inputs, arguments, strict=True))
        raise CalculationError(f"{_qualified(function)} gave {value} for {named}")
    beyond = _all_beyond(declared, arguments) if declared.ranges else ()
    return Number(value, (declared, [_kept(one) for one in arguments], beyond))


def _kept(given: Any) -> Any:
    """An argument as it stands now, whatever becomes of a list later."""
    return tuple(given) if type(given) is list else given


def _step_of(
    value: float, declared: Formula, arguments: Sequence[Any], beyond: tuple[str, ...]
) -> Step:
    labels = declared.inputs.values()
    used = tuple([_input(label, given) for label, given in zip(labels, arguments, strict=True)])
    made = declared.result, value, declared.citation, declared.typeset
    return Step(Kind.FORMULA, *made, used, declared.note, beyond)


def _numbers_in(arguments: Sequence[Any]) -> Iterator[Number]:
    for one in arguments:
        if isinstance(one, Number):
            yield one
        elif isinstance(one, tuple):
            yield from (item for item in one if isinstance(item, Number))


def _all_arguments(
    function: Callable[..., float], args: tuple[Any, ...], kwargs: Mapping[str, Any]
) -> tuple[Any, ...]:
    """What each parameter was given, defaults included, in the order of the parameters."""
    bound = _signature(function).bind(*args, **kwargs)
    bound.apply_defaults()
    found: list[Any] = []
    for value in bound.arguments.values():
        shared = isinstance(value, Shared)
        found += [getattr(value, name) for name in value.LABELS] if shared else [value]
    return tuple(found)


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
    return behind(*numbers).citations


def out_of_range(*numbers: float) -> tuple[str, ...]:
    """Why some numbers lie outside what their sources vouch for; empty if they do not."""
    return behind(*numbers).beyond


def behind(*numbers: float) -> Backing:
    """What some numbers rest on together: their sources, and why they may not be trusted."""
    cited: dict[Citation, None] = {}
    remarks: dict[str, None] = {}
    seen: set[int] = set()

    def visit(made: Step | Used) -> None:
        if id(made) in seen:
            return
        seen.add(id(made))
        if isinstance(made, tuple):
            declared, arguments, beyond = made
            for number in _numbers_in(arguments):
                visit(number.made)
            cited[declared.citation] = None
        else:
            beyond = made.beyond
            for used in made.inputs:
                for origin in used.origins:
                    visit(origin)
            if made.citation is not None:
                cited[made.citation] = None
        for remark in beyond:
            remarks[remark] = None

    for number in numbers:
        if isinstance(number, Number):
            visit(number.made)
    return Backing(tuple(cited), tuple(remarks))
