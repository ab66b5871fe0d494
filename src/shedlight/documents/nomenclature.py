"""The nomenclature page: one name, symbol and unit per quantity, from the code itself."""

from collections.abc import Iterator

from shedlight.documents.catalogue import MADE, declared_formulas, table
from shedlight.documents.fields import records
from shedlight.given.bushing import Installation
from shedlight.given.fields import facts_of
from shedlight.trace import Label

RULES = """\
One name, one symbol and one unit to show for each quantity. Inside, every value is SI; units stand
only where a person reads or writes. Symbols are Typst mathematics, as the calculation prints them.

## What a name must say

- **Which voltage.** `highest_voltage`: rms between phases. `phase_voltage`: rms to earth.
  `lightning_impulse`: peak to earth. `power_frequency_dry`, `power_frequency_wet`: rms to earth.
  Never a bare `voltage` where two could be meant; `voltage_across` is what stands across the thing
  a formula speaks of, and its docstring says rms or peak.
- **Peak or rms.** Test levels of impulses and sparkover of gaps are peaks; power frequency is rms.
- **Which length.** *Creepage* runs along the surface; *arcing distance* is the taut string through
  the air, horns left out; *clearance* is straight air between separate parts. They are never one
  another.
- **Radius or diameter.** Descriptions give diameters, geometry and physics take radii; the name
  says which.
- **Temperature or rise.** Temperatures are kelvin inside and °C outside; a rise is K on both sides.
- **Which altitude factor.** Required withstands count from 1000 m, sparkover at the site from sea
  level (`altitude_factor` and `site_density`).

## Words

| Word | Means |
| --- | --- |
| air end, oil end | the part of the porcelain in air, in the tank's oil |
| body | the porcelain without sheds; *trunk* where sheds stand on it |
| seat | the underside of the collar, on the gasket |
| stem | the conductor inside the oil space |
| demand, capability, margin | what is needed, what is there, capability ÷ demand − 1 |
| pass, caution, fail, not-assessed | the four verdicts; the reason always stands beside them |
"""


def nomenclature_page() -> str:
    """The rules of naming, then every quantity of a description and every computed one."""
    blocks = ["# Nomenclature", MADE, RULES.rstrip()]
    for title, labels in (
        ("Quantities of a description", _described()),
        ("Quantities computed", _computed()),
    ):
        rows = sorted({(label.name, f"`{label.symbol}`", _unit(label.unit)) for label in labels})
        blocks += [f"## {title}", table(("Quantity", "Symbol", "Unit"), rows)]
    return "\n\n".join(blocks) + "\n"


def _unit(unit: str) -> str:
    return "–" if unit == "1" else unit


def _described() -> Iterator[Label]:
    for _, record in records(Installation):
        for name in record.model_fields:
            facts = facts_of(record, name)
            if facts.unit:
                yield Label(facts.sentence.rstrip("."), facts.symbol, facts.unit)


def _computed() -> Iterator[Label]:
    for formula in declared_formulas().values():
        yield formula.result
