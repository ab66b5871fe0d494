"""Every formula of the house can be typeset, and is drawn once."""

import re

import pytest

from shedlight.documents import mathematics
from shedlight.documents.catalogue import declared_formulas
from shedlight.documents.mathematics import Formulary, drawn, spoken


def test_every_declared_formula_and_symbol_can_be_drawn() -> None:
    formulas: list[tuple[str, bool]] = []
    for formula in declared_formulas().values():
        formulas.append((f"{formula.result.symbol} = {formula.typeset}", True))
        formulas += [(label.symbol, False) for label in formula.inputs.values()]

    found = drawn(formulas)

    assert len(found) > 200
    assert all(formula.glyphs and formula.width > 0 for formula in found.values())


def test_a_formula_is_drawn_only_once(monkeypatch: pytest.MonkeyPatch) -> None:
    first = drawn([("q_7 + 1", True)])
    monkeypatch.setattr(mathematics, "_pages", lambda formulas: pytest.fail(str(formulas)))

    assert drawn([("q_7 + 1", True)]) == first


def test_a_page_defines_each_glyph_once() -> None:
    formulary = Formulary([("U_m", False), ("U_m / U_m", True)])
    defined = re.findall(r'<symbol id="(\w+)"', formulary.definitions)
    used = re.findall(r'href="#(\w+)"', formulary.inline("U_m") + formulary.display("U_m / U_m"))

    assert len(defined) == len(set(defined))
    assert used
    assert set(used) <= set(defined)


def test_a_picture_says_its_formula() -> None:
    picture = Formulary([('L_"min"', False)]).inline('L_"min"')

    assert 'role="img"' in picture
    assert 'aria-label="L_min"' in picture
    assert "#000000" not in picture


def test_formulas_in_plain_letters() -> None:
    assert spoken('(8 "m") / d, quad d thin "in" upright(cm)') == "(8 m) / d, d in upright(cm)"
