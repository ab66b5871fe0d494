"""Properties of materials, each with where it comes from."""

from collections.abc import Mapping
from types import MappingProxyType

from shedlight import tables
from shedlight.errors import InputError
from shedlight.trace import Label, Number, looked_up


@tables.cached
def _properties() -> Mapping[tuple[str, str], Number]:
    found = {}
    for row in tables.read("given/materials"):
        citation = tables.citation(row)
        name = f"{row['property'].replace('_', ' ')} of {row['material']}"
        label = Label(name[0].upper() + name[1:], row["symbol"], row["unit"])
        key = (row["material"], row["property"])
        found[key] = looked_up(float(row["value"]), label, citation, citation.where)
    return MappingProxyType(found)


def material_property(material: str, name: str) -> Number:
    """One property of a material, in SI, with its source.

    Raises:
        InputError: the table has no such property for this material.
    """
    try:
        return _properties()[material, name]
    except KeyError:
        known = sorted(prop for mat, prop in _properties() if mat == material)
        raise InputError(f"no {name} of {material} in materials.csv; it has {known}") from None
