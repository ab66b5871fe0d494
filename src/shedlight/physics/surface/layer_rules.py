"""Which layer conductivity a site stands for: rival rules from deposit or salinity.

Three rules lead from a salt deposit to the conductivity of its wet layer and differ up to fourfold
and more. The default is the equivalence of the artificial tests of IEC 815:1986. Three published
facts that know nothing of each other speak for it: it is a table of a standard; with an arc model
whose voltage falls as the layer's conductivity to the power 0.40 it makes flashover fall with the
deposit to the power 0.18, as tests on housings do (0.20 to 0.25; a rule in proportion to the
deposit makes that 0.40); and with that model it asks for the creepage that the site classes ask.
The rule for full wetting agrees with it on light deposits and lies at twice its value at
0.2 mg/cm²: the more cautious rival. The field rule means the layer as found in service.
"""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from shedlight.physics.domain import positive
from shedlight.physics.surface.layer import (
    layer_conductivity_field_rule,
    layer_conductivity_wetted_rule,
)
from shedlight.sources import cite
from shedlight.trace import formula

_LAYER = ("Layer conductivity at 20 °C", "kappa_20", "µS")
_EQUAL = cite(
    "IEC 815",
    "annex, artificial tests of equal severity; power law through the ends of levels I and II",
    "memory",
    "medium",
)


@formula(
    _LAYER,
    '15 thin "µS" (S_"DD" / (0.03 thin "mg/cm²"))^0.447',
    {"deposit": ("Equivalent salt deposit", 'S_"DD"', "mg/cm²")},
    _EQUAL,
    ranges={"deposit": (0.01e-2, 0.6e-2)},
)
def layer_conductivity_equal_deposit(deposit: float) -> float:
    """Layer conductivity of the artificial test that is as severe as a deposit.

    kappa = 15 µS (S_DD/0.03 mg/cm²)^0.447: 15 µS at 0.03 and 35 µS at 0.20 mg/cm²

    Args:
        deposit: Equivalent salt deposit density [kg/m²].

    Returns:
        Layer conductivity at 20 °C [S].

    Raises:
        InputError: deposit not above zero.

    Source: IEC 815:1986, equivalence of the artificial tests — basis: memory, medium
    confidence; the law is ours and stays within 8 % of the table's levels I and II.
    Valid for: 0.03 to 0.6 mg/cm²; level III gives a lower bound only. Carried on to 0.01, where it
    lies above the rule for full wetting and so on the safe side.
    """
    positive(deposit=deposit)
    return float(15e-6 * (deposit / 0.03e-2) ** 0.447)


@formula(
    _LAYER,
    '15 thin "µS" (S_a / (5 thin "kg/m³"))^0.407',
    {"salinity": ("Site salinity", "S_a", "kg/m³")},
    _EQUAL,
    ranges={"salinity": (2.5, 112.0)},
)
def layer_conductivity_equal_salinity(salinity: float) -> float:
    """Layer conductivity of the artificial test that is as severe as a salt fog.

    kappa = 15 µS (S_a/5 kg/m³)^0.407: 15 µS at 5 and 35 µS at 40 kg/m³

    Args:
        salinity: Site equivalent salinity [kg/m³].

    Returns:
        Layer conductivity at 20 °C [S].

    Raises:
        InputError: salinity not above zero.

    Source: IEC 815:1986, equivalence of the artificial tests — basis: memory, medium
    confidence; the law is ours and stays within 14 % of the table, which jumps by a fifth
    between its levels I and II.
    Valid for: 5 to 112 kg/m³, carried on to 2.5; level III gives a lower bound only.
    """
    positive(salinity=salinity)
    return float(15e-6 * (salinity / 5.0) ** 0.407)


@formula(
    ("Deposit of the same severity", 'S_"DD"', "mg/cm²"),
    '0.03 thin "mg/cm²" (S_a / (5 thin "kg/m³"))^0.94',
    {"salinity": ("Site salinity", "S_a", "kg/m³")},
    _EQUAL,
    ranges={"salinity": (2.5, 112.0)},
)
def deposit_of_equal_severity(salinity: float) -> float:
    """Deposit whose artificial test is as severe as a salt fog.

    S_DD = 0.03 mg/cm² (S_a/5 kg/m³)^0.94

    Args:
        salinity: Site equivalent salinity [kg/m³].

    Returns:
        Equivalent salt deposit density [kg/m²].

    Raises:
        InputError: salinity not above zero.

    Source: IEC 815:1986, equivalence of the artificial tests: 0.03 beside 5, 0.20 beside 40, 0.60
    beside 112 — basis: memory, medium confidence; the law is ours, within 8 % of these.
    Valid for: 5 to 112 kg/m³, carried on to 2.5.
    """
    positive(salinity=salinity)
    return float(0.03e-2 * (salinity / 5.0) ** 0.94)


LAYER_CONDUCTIVITY_RULES: Mapping[str, Callable[[float], float]] = MappingProxyType(
    {
        "equal severity": layer_conductivity_equal_deposit,
        "wetted": layer_conductivity_wetted_rule,
        "field": layer_conductivity_field_rule,
    }
)
"""The rival rules from a deposit by name, the default first."""
