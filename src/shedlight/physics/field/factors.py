"""Factorisations kept with their mesh: other media and films renew only the numbers in them.

Finding the order of elimination takes as long as eliminating; it depends on the mesh alone.
"""

from dataclasses import dataclass
from typing import Any

import numpy as np

from shedlight.physics.field.domain import FieldError, Part
from shedlight.physics.field.engine import ng
from shedlight.physics.field.kept import kept
from shedlight.physics.field.meshing import FieldMesh

MOST_UNKNOWNS = 600_000  # some 1.5 GB
_MOST_KEPT = 120_000  # unknowns, some 1 kB each: a larger one is let go after its solution


@dataclass(eq=False)
class Factors:
    """Space of one mesh with its factorisation."""

    space: Any
    matrix: Any = None
    inverse: Any = None

    def of(self, matrix: Any) -> Any:
        """The inverse of a matrix on the free unknowns; holds until the next one is asked for."""
        if self.inverse is None or self.matrix.nze != matrix.nze:
            self.matrix = matrix
            self.inverse = matrix.Inverse(self.space.FreeDofs(True), inverse="sparsecholesky")
        else:
            self.matrix.AsVector().data = matrix.AsVector()
            self.inverse.Update()
        return self.inverse


def potential_factors(mesh: FieldMesh, order: int, *, is_complex: bool) -> Factors:
    """Space of potentials that vanish on electrodes and in the open.

    Args:
        mesh: The mesh.
        order: Degree of the elements.
        is_complex: Whether they turn.

    Raises:
        FieldError: too many unknowns.

    Source: Bookkeeping of the mesh — basis: exact.
    """
    return _factors(mesh, order, is_complex, is_flux=False)


def flux_factors(mesh: FieldMesh, order: int) -> Factors:
    """Space of flux functions that vanish where no flux goes through.

    Args:
        mesh: The mesh.
        order: Degree of the elements.

    Raises:
        FieldError: too many unknowns.

    Source: Bookkeeping of the mesh — basis: exact.
    """
    return _factors(mesh, order, is_complex=False, is_flux=True)


@kept(lambda factors: float(factors.space.ndof), _MOST_KEPT, newest=False)
def _factors(mesh: FieldMesh, order: int, is_complex: bool, is_flux: bool) -> Factors:
    fixed = mesh.boundary(_is_still if is_flux else _is_given)
    space = ng.H1(mesh.mesh, order=order, complex=is_complex, dirichlet=fixed)
    if space.ndof > MOST_UNKNOWNS:
        crowded = mesh.shape.regions[int(np.bincount(mesh.regions).argmax())]
        raise FieldError(f"mesh of {crowded}", f"{space.ndof} unknowns, more than {MOST_UNKNOWNS}")
    return Factors(space)


def _is_given(part: Part) -> bool:
    """The potential is known: metal and the open."""
    return part.electrode is not None or part.is_open


def _is_still(part: Part) -> bool:
    """No flux through: the axis, open space, the end of what is looked at."""
    return part.electrode is None and None in (part.left, part.right)
