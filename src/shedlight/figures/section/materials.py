"""How each material is drawn: hatch, tint and the words of the legend.

The hatch alone tells the materials apart, in black and white too; the tint only adds to it.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from shedlight.figures.hatching import Hatch

SOLID = "#2b2b2b"


@dataclass(frozen=True)
class Look:
    """How a material is drawn."""

    words: str
    tint: str | None
    hatch: Hatch | None = None
    solid: bool = False


LOOKS: Mapping[str, Look] = MappingProxyType(
    {
        "porcelain": Look("Porcelain", "#f6ebe2", Hatch(-45.0, 2.1, (0.0, 0.6))),
        "live metal": Look("Metal, live", "#f8e2c8", Hatch(45.0, 0.8)),
        "cover": Look("Metal, earthed: cover", "#e3e8ec", Hatch(-45.0, 1.5)),
        "clamps": Look("Metal, earthed: clamps", "#e3e8ec", Hatch(45.0, 1.5)),
        "gasket": Look("Gasket", SOLID, solid=True),
        "oil": Look("Oil", "#fdf7dc", Hatch(0.0, 1.1, (0.0,), (1.5, 0.9))),
        "tank oil": Look("Oil", None, Hatch(0.0, 2.4, (0.0,), (4.0, 3.0))),
    }
)
GLAZES: Mapping[str, str] = MappingProxyType(
    {"brown": "#ecdfd5", "grey": "#e6e8e9", "white": "#f7f7f4", "none": "#f6ebe2"}
)
