"""Every declared formula can be printed: units known, mathematics that Typst sets, a source."""

import pkgutil
from importlib import import_module

import pytest
import typst

import shedlight.physics as floor
from shedlight.trace import FORMULAS, Formula
from shedlight.units import dimension_of

for found in pkgutil.walk_packages(floor.__path__, f"{floor.__name__}."):
    import_module(found.name)

PHYSICS = {name: formula for name, formula in FORMULAS.items() if name.startswith(floor.__name__)}


def typeset(formulas: list[Formula]) -> bytes:
    """A page with every formula and every symbol, as a calculation would print them."""
    lines = []
    for formula in formulas:
        symbols = ", ".join(f"${label.symbol}$" for label in formula.inputs.values())
        lines.append(f"$ {formula.result.symbol} = {formula.typeset} $ {symbols}")
    page = typst.compile("\n\n".join(lines).encode(), format="pdf")
    assert isinstance(page, bytes)
    return page


def test_formulas_were_found() -> None:
    assert len(PHYSICS) > 150
    rooms = {name.split(".")[2] for name in PHYSICS}
    assert {"air", "heat", "oil", "radial", "strength", "surface"} <= rooms


def test_typst_sets_every_formula_and_symbol() -> None:
    assert typeset(list(PHYSICS.values())).startswith(b"%PDF")


@pytest.mark.parametrize("name", sorted(PHYSICS))
def test_declaration_is_complete(name: str) -> None:
    formula = PHYSICS[name]
    for label in (formula.result, *formula.inputs.values()):
        assert label.name[0].isupper(), label.name
        assert dimension_of(label.unit)
    for parameter, (low, high) in formula.ranges.items():
        assert parameter in formula.inputs
        assert low < high
    assert formula.citation.source.title
    assert formula.citation.where


def test_a_formula_typst_cannot_set_is_found() -> None:
    (first, *_) = PHYSICS.values()
    broken = Formula(first.result, "kilovolt / (2", first.inputs, first.citation)
    with pytest.raises(typst.TypstError):
        typeset([broken])
