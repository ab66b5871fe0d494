"""What the field room is given: regions, edges between them, electrodes, conductive films.

A :class:`Shape` is geometry alone and is what meshes are kept by. Media, films and potentials
come with each solution, so that one mesh serves every voltage and every state of the surfaces.
"""

import itertools
import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from types import MappingProxyType

from shedlight.errors import CalculationError, InputError
from shedlight.geometry.curves import Arc, Curve, Piece, Point
from shedlight.physics.domain import not_negative, positive

VACUUM_PERMITTIVITY = 8.8541878e-12
ON_AXIS = 1e-9
GRID = 1e8  # of places that count as one [1/m]
OFF_GRID = 0.3819660112501051  # irrational: no dimension that people write stands on the grid
Key = tuple[int, int]
_QUARTER = math.pi / 2


class FieldError(CalculationError):
    """No field of the wanted accuracy came out; says where and why."""

    def __init__(self, place: str, reason: str) -> None:
        """Keep the place and the reason, so that a finding can be made of them."""
        self.place = place
        self.reason = reason
        super().__init__(f"field, {place}: {reason}")


class CancelledError(FieldError):
    """It took too long; what would be tried next would take as long."""


@dataclass(frozen=True)
class Medium:
    """What fills a region: relative permittivity, loss factor [1] and conductivity [S/m]."""

    permittivity: float
    loss_factor: float = 0.0
    conductivity: float = 0.0

    def __post_init__(self) -> None:
        """Refuse what no medium has."""
        positive(permittivity=self.permittivity)
        not_negative(loss_factor=self.loss_factor, conductivity=self.conductivity)

    @property
    def is_lossy(self) -> bool:
        """Whether any current flows in phase with the voltage."""
        return self.loss_factor > 0 or self.conductivity > 0

    def complex_permittivity(self, frequency: float) -> complex:
        """Relative permittivity with losses, e (1 - j tan d) - j sigma / (w e0)."""
        omega = 2 * math.pi * frequency
        loss = self.permittivity * self.loss_factor
        loss += self.conductivity / (omega * VACUUM_PERMITTIVITY)
        return complex(self.permittivity, -loss)


@dataclass(frozen=True)
class Side:
    """One edge of the section: a named curve, and the regions left and right of it as walked.

    A region that is None is not solved for: metal, or what lies beyond the section. An edge on
    metal names its electrode. An open edge stands for what lies very far away.
    """

    name: str
    curve: Curve
    left: str | None
    right: str | None
    electrode: str | None = None
    is_open: bool = False


@dataclass(frozen=True)
class Film:
    """A thin conducting layer on a stretch of an edge: dirt, water, glaze, coating.

    Lengths along the edge [m], sheet conductance [S] (siemens per square).
    """

    edge: str
    low: float
    high: float
    conductance: float

    def __post_init__(self) -> None:
        """Refuse films without length and negative conductances."""
        not_negative(low=self.low, conductance=self.conductance)
        if not self.low < self.high:
            raise InputError(f"film on {self.edge}: given {self.low:g} to {self.high:g} m")


@dataclass(frozen=True)
class Part:
    """One straight or circular piece of an edge, at most a quarter of a circle."""

    edge: str
    number: int
    piece: Piece
    low: float
    high: float
    left: str | None
    right: str | None
    electrode: str | None
    is_open: bool

    @property
    def label(self) -> str:
        """Name of this part in the mesh."""
        return f"{self.edge}#{self.number}"


@dataclass(frozen=True)
class Shape:
    """A section as the solver wants it. `cuts` are lengths at which an edge is parted for films."""

    sides: tuple[Side, ...]
    cuts: tuple[tuple[str, float], ...] = ()

    def __post_init__(self) -> None:
        """Refuse edges that stand twice or lie beyond the axis."""
        names = [side.name for side in self.sides]
        if len(set(names)) != len(names):
            raise InputError(f"edges: given {sorted(names)}; expected every name once")
        for side in self.sides:
            if any(point.r < -ON_AXIS for point in side.curve.points(1e-4)):
                raise InputError(f"edge {side.name}: reaches beyond the axis; expected r >= 0")

    @cached_property
    def parts(self) -> tuple[Part, ...]:
        """Every edge parted into pieces."""
        return tuple(part for side in self.sides for part in _parts(side, self._cuts(side.name)))

    @cached_property
    def regions(self) -> tuple[str, ...]:
        """Names of the regions solved for."""
        found = {name for side in self.sides for name in (side.left, side.right) if name}
        return tuple(sorted(found))

    @cached_property
    def electrodes(self) -> tuple[str, ...]:
        """Names of the electrodes."""
        return tuple(sorted({side.electrode for side in self.sides if side.electrode}))

    def side(self, name: str) -> Side:
        """The edge of a name.

        Raises:
            InputError: there is none.
        """
        for side in self.sides:
            if side.name == name:
                return side
        known = ", ".join(side.name for side in self.sides)
        raise InputError(f"edge: given {name}; expected one of {known}")

    def _cuts(self, name: str) -> tuple[float, ...]:
        return tuple(sorted({length for edge, length in self.cuts if edge == name}))


@dataclass(frozen=True)
class Problem:
    """A shape with what fills it, the films on its edges and its potentials.

    Electrodes without a potential float: they hold no net charge.
    """

    shape: Shape
    media: Mapping[str, Medium] = field(hash=False)
    potentials: Mapping[str, complex] = field(hash=False)
    films: tuple[Film, ...] = ()
    frequency: float = 50.0

    def __post_init__(self) -> None:
        """Refuse regions without medium and potentials of unknown electrodes."""
        positive(frequency=self.frequency)
        missing = set(self.shape.regions) - set(self.media)
        if missing:
            raise InputError(f"media: given {sorted(self.media)}; missing {sorted(missing)}")
        unknown = set(self.potentials) - set(self.shape.electrodes)
        if unknown:
            raise InputError(
                f"potentials: given {sorted(unknown)}; expected of {self.shape.electrodes}"
            )
        if not self.potentials:
            raise InputError("potentials: given none; expected at least one electrode")
        object.__setattr__(self, "media", MappingProxyType(dict(self.media)))
        object.__setattr__(self, "potentials", MappingProxyType(dict(self.potentials)))

    @property
    def floating(self) -> tuple[str, ...]:
        """Electrodes left to float."""
        return tuple(name for name in self.shape.electrodes if name not in self.potentials)

    @property
    def is_lossy(self) -> bool:
        """Whether the field has to be solved in complex numbers."""
        wet = any(film.conductance > 0 for film in self.films)
        turned = any(complex(value).imag != 0 for value in self.potentials.values())
        lossy = any(self.media[name].is_lossy for name in self.shape.regions)
        return wet or turned or lossy


def place_key(point: Point) -> Key:
    """Points nearer than a hundredth of a micrometre are one.

    Args:
        point: A place [m].

    Source: Rounding — basis: exact.
    """
    return math.floor(point.r * GRID + OFF_GRID), math.floor(point.z * GRID + OFF_GRID)


def _parts(side: Side, cuts: tuple[float, ...]) -> list[Part]:
    found: list[Part] = []
    walked = 0.0
    for whole in side.curve.pieces:
        if whole.length < 1 / GRID and place_key(whole.start) == place_key(whole.end):
            continue  # both its ends count as one place
        for low, high in _shares(whole, walked, cuts):
            length = whole.length
            found.append(
                Part(
                    side.name,
                    len(found),
                    whole if (low, high) == (0.0, 1.0) else whole.cut(low, high),
                    walked + low * length,
                    walked + high * length,
                    side.left,
                    side.right,
                    side.electrode,
                    side.is_open,
                )
            )
        walked += whole.length
    return found


def _shares(piece: Piece, walked: float, cuts: tuple[float, ...]) -> list[tuple[float, float]]:
    """Where a piece is parted: at the cuts, and every quarter of a circle."""
    length = piece.length
    inside = [(cut - walked) / length for cut in cuts]
    marks = [0.0, *(share for share in inside if 1e-6 < share < 1 - 1e-6), 1.0]
    if isinstance(piece, Arc):
        count = math.ceil(abs(piece.sweep) / _QUARTER - 1e-9)
        marks += [k / count for k in range(1, count)]
    marks = sorted(set(marks))
    return list(itertools.pairwise(marks))
