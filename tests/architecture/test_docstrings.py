"""The docstring contract of physics and geometry, kept by reading the source.

Every public function has a docstring that names each of its parameters. In a room of physics it
also has a line starting with ``Source:``, and in ``Args:`` a unit in square brackets for every
parameter that is a number, ``[1]`` for pure ratios. Two kinds of function are no formulas and
need only the names: those that return nothing (they refuse meaningless arguments), and those
without a number going in or out that return table rows, if each row carries its ``citation``.
"""

import ast
import re
from collections.abc import Iterable
from pathlib import Path

import pytest

SOURCE = Path(__file__).parents[2] / "src" / "shedlight"

# Modules of physics that hold no formula: tables, whose rows each carry their own citation.
WITHOUT_FORMULAS = ("tables",)

NUMBERS = ("float", "complex", "NDArray", "ArrayLike")

Function = ast.FunctionDef | ast.AsyncFunctionDef


def public_functions(text: str) -> list[Function]:
    """Functions at the top level of a module that other modules may call."""
    return [
        node
        for node in ast.parse(text).body
        if isinstance(node, Function) and not node.name.startswith("_")
    ]


def parameters(function: Function) -> list[ast.arg]:
    arguments = function.args
    starred = [arg for arg in (arguments.vararg, arguments.kwarg) if arg is not None]
    return [*arguments.posonlyargs, *arguments.args, *arguments.kwonlyargs, *starred]


def mentions(annotation: ast.expr | None, names: Iterable[str]) -> bool:
    written = ast.unparse(annotation) if annotation else ""
    return any(re.search(rf"\b{name}\b", written) for name in names)


def cited_rows(text: str) -> set[str]:
    """Classes of a module that have a field called citation."""
    return {
        node.name
        for node in ast.parse(text).body
        if isinstance(node, ast.ClassDef)
        for field in node.body
        if isinstance(field, ast.AnnAssign) and ast.unparse(field.target) == "citation"
    }


def is_formula(function: Function, rows: Iterable[str]) -> bool:
    if isinstance(function.returns, ast.Constant) and function.returns.value is None:
        return False
    annotations = [function.returns, *(arg.annotation for arg in parameters(function))]
    if any(mentions(annotation, NUMBERS) for annotation in annotations):
        return True
    return not mentions(function.returns, rows)


def described(docstring: str) -> dict[str, str]:
    """What the ``Args:`` section says of each parameter, over all its lines."""
    section = re.search(r"^Args:\n((?:[ ]+.*\n?|\n)*)", docstring, flags=re.MULTILINE)
    entries: dict[str, str] = {}
    name = ""
    for line in section.group(1).splitlines() if section else []:
        start = re.match(r" {4}\*{0,2}(\w+):(.*)", line)
        if start:
            name = start.group(1)
            entries[name] = start.group(2)
        elif name:
            entries[name] += line
    return entries


def naming_faults(function: Function) -> list[str]:
    docstring = ast.get_docstring(function)
    if not docstring:
        return [f"{function.name}: no docstring"]
    return [
        f"{function.name}: the docstring does not name {parameter.arg}"
        for parameter in parameters(function)
        if not re.search(rf"\b{parameter.arg}\b", docstring)
    ]


def formula_faults(function: Function) -> list[str]:
    docstring = ast.get_docstring(function) or ""
    faults = []
    if not re.search(r"^Source: \S", docstring, flags=re.MULTILINE):
        faults.append(f"{function.name}: no line 'Source: …'")
    entries = described(docstring)
    faults += [
        f"{function.name}: Args gives no [unit] for {parameter.arg}"
        for parameter in parameters(function)
        if mentions(parameter.annotation, NUMBERS)
        and not re.search(r"\[[^\]]+\]", entries.get(parameter.arg, ""))
    ]
    return faults


def holds_formulas(path: Path) -> bool:
    rooms = path.relative_to(SOURCE).parts
    return rooms[0] == "physics" and path.stem not in WITHOUT_FORMULAS


MODULES = [
    path for floor in ("geometry", "physics") for path in sorted((SOURCE / floor).rglob("*.py"))
]


def test_modules_were_found() -> None:
    assert MODULES
    assert sum(len(public_functions(path.read_text(encoding="utf-8"))) for path in MODULES) > 10


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(SOURCE)))
def test_public_functions_keep_the_contract(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    functions = public_functions(text)
    faults = [fault for function in functions for fault in naming_faults(function)]
    if holds_formulas(path):
        formulas = [found for found in functions if is_formula(found, cited_rows(text))]
        faults += [fault for formula in formulas for fault in formula_faults(formula)]
    assert not faults, "\n".join(faults)


# --- proof that the contract can be broken -------------------------------------------------

GOOD = '''
def gap(distance: float, kind: str, *, density: float = 1.0) -> float:
    """Strength of a gap.

    Args:
        distance: Between the rods,
            counted straight [m].
        kind: Which stress.
        density: Relative air density [1].

    Source: Author, Title, eq. 3 — basis: memory.
    """
'''


def only(text: str) -> Function:
    (function,) = public_functions(text)
    return function


def test_a_kept_contract_has_no_faults() -> None:
    assert not naming_faults(only(GOOD))
    assert not formula_faults(only(GOOD))


def test_a_missing_docstring_is_found() -> None:
    assert naming_faults(only("def gap(): ...")) == ["gap: no docstring"]


def test_a_parameter_not_named_is_found() -> None:
    renamed = GOOD.replace("kind: str", "stress: str").replace("Which stress", "Which")
    assert naming_faults(only(renamed)) == ["gap: the docstring does not name stress"]
    longer = GOOD.replace("kind: str", "kin: str")
    assert naming_faults(only(longer)) == ["gap: the docstring does not name kin"]


def test_starred_parameters_have_to_be_named_too() -> None:
    text = 'def gap(*rods: float, **rest: float):\n    """Of rods."""'
    assert naming_faults(only(text)) == ["gap: the docstring does not name rest"]


@pytest.mark.parametrize("source", ["", "Source:", "See the source: a book."])
def test_a_missing_source_is_found(source: str) -> None:
    text = GOOD.replace("Source: Author, Title, eq. 3 — basis: memory.", source)
    assert formula_faults(only(text)) == ["gap: no line 'Source: …'"]


@pytest.mark.parametrize("annotation", ["float", "float | None", "NDArray[np.float64]", "complex"])
def test_a_missing_unit_is_found(annotation: str) -> None:
    text = GOOD.replace("straight [m]", "straight").replace(
        "distance: float", f"distance: {annotation}"
    )
    assert formula_faults(only(text)) == ["gap: Args gives no [unit] for distance"]


def test_a_unit_elsewhere_does_not_count() -> None:
    text = GOOD.replace("air density [1]", "air density").replace("of a gap.", "of a gap [V].")
    assert formula_faults(only(text)) == ["gap: Args gives no [unit] for density"]


def test_texts_and_private_functions_need_no_unit() -> None:
    assert not formula_faults(only(GOOD.replace("kind: str", "kind: Kind")))
    assert not public_functions("def _hidden(x: float): ...")


def test_a_refusal_is_no_formula() -> None:
    refusal = "def positive(value: float) -> None: ..."
    assert not is_formula(only(refusal), ())
    assert is_formula(only(refusal.replace("None", "bool")), ())


def test_only_rows_with_their_own_citation_need_no_source() -> None:
    text = """
class Cited:
    gap: float
    citation: Citation

class Bare:
    gap: float

def cited(name: str) -> tuple[Cited, ...]: ...
def bare(name: str) -> tuple[Bare, ...]: ...
def chosen(gap: float) -> Cited: ...
"""
    rows = cited_rows(text)
    assert rows == {"Cited"}
    assert [is_formula(found, rows) for found in public_functions(text)] == [False, True, True]


def test_where_formulas_are_expected() -> None:
    assert holds_formulas(SOURCE / "physics" / "air" / "gaps.py")
    assert not holds_formulas(SOURCE / "physics" / "air" / "tables.py")
    assert not holds_formulas(SOURCE / "geometry" / "curves.py")
