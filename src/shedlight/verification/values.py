"""Turn what a reference row says into a call, and its result into a number."""

import json
import re
from collections.abc import Callable, Mapping
from importlib import import_module
from typing import Any

from shedlight.errors import InputError
from shedlight.trace import FORMULAS, Formula
from shedlight.units import dimension_of, parse

_PHYSICS = "shedlight.physics"
_STARTS_AS_NUMBER = re.compile(r"\s*[+-]?[\d.]")


def unit_of(text: str) -> str:
    """The unit a quantity is written in; "1" where it is a plain number."""
    _, _, unit = text.strip().partition(" ")
    return unit.strip() or "1"


def inputs(text: str) -> dict[str, Any]:
    """Arguments by parameter name, in SI.

    Raises:
        InputError: the text is no JSON object, or a quantity in it cannot be read.
    """
    try:
        written = json.loads(text)
    except json.JSONDecodeError as wrong:
        raise InputError(f"inputs: given {text!r}; expected a JSON object ({wrong})") from None
    if not isinstance(written, dict):
        raise InputError(f"inputs: given {text!r}; expected a JSON object, name to value")
    return {name: _argument(value) for name, value in written.items()}


def _argument(value: Any) -> Any:
    if isinstance(value, list):
        return tuple(_argument(item) for item in value)
    if isinstance(value, str) and _STARTS_AS_NUMBER.match(value):
        return parse(value, unit_of(value))
    return value


def function_at(path: str) -> tuple[Callable[..., Any], list[str]]:
    """The function a row names, and how to open its result.

    Args:
        path: Dotted path under ``shedlight.physics``, then ``:attribute`` or ``:position``.

    Raises:
        InputError: there is no such module or function.
    """
    dotted, *opened = path.split(":")
    module, _, name = dotted.rpartition(".")
    try:
        return getattr(import_module(f"{_PHYSICS}.{module}"), name), opened
    except (ImportError, AttributeError) as wrong:
        raise InputError(f"function: given {path!r}; expected one of physics ({wrong})") from None


def declared(path: str) -> Formula | None:
    """The declaration of a traced function; none for one that does not return one number."""
    return FORMULAS.get(f"{_PHYSICS}.{path}")


def called(function: Callable[..., float], arguments: Mapping[str, Any]) -> float:
    """Run a function by the names of its single arguments, shared ones gathered if it is declared.

    Args:
        function: Any function; one that is declared may take shared arguments.
        arguments: By name.
    """
    declared, left = FORMULAS.get(f"{function.__module__}.{function.__qualname__}"), dict(arguments)
    for name, shared in (declared.shared if declared else {}).items():
        left[name] = shared(**{one: left.pop(one) for one in shared.LABELS if one in left})
    return function(**left)


def opened_by(result: Any, steps: list[str]) -> float:
    """One number out of a result, by attribute or position."""
    for step in steps:
        result = result[int(step)] if step.isdigit() else getattr(result, step)
    return float(result)


def check_dimensions(formula: Formula, written: Mapping[str, Any], expected: str) -> None:
    """Quantities have the dimensions that the formula declares.

    Args:
        formula: The declaration.
        written: Inputs as the row writes them.
        expected: Result as the row writes it.

    Raises:
        InputError: a parameter is unknown, or a dimension differs.
    """
    pairs = [("the result", expected, formula.result.unit)]
    for name, value in written.items():
        if name not in formula.inputs:
            raise InputError(f"inputs: given {name}; expected {', '.join(formula.inputs)}")
        items = value if isinstance(value, list) else [value]
        unit = formula.inputs[name].unit
        pairs += [(name, item, unit) for item in items if isinstance(item, str)]
    for name, text, unit in pairs:
        if dimension_of(unit_of(text)) != dimension_of(unit):
            raise InputError(f"{name}: given {text!r}; expected a {dimension_of(unit)}")
