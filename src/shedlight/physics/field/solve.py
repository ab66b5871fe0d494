"""Solve for the potential: one factorisation, one column for every electrode that matters.

    int e grad u . grad v r dr dz  -  j/(w e0) int s du/dl dv/dl r dl  =  0      for every v

with e the complex relative permittivity, s the conductance of films per square; u is 1 on one
electrode and 0 on all others and infinitely far away. Every state of voltages is a sum of these
columns, so that other voltages cost nothing. The matrix is symmetric, not Hermitian. Other media
and films on the same mesh keep its order of elimination.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np
from numpy.typing import NDArray

from shedlight.errors import InputError
from shedlight.physics.field.domain import (
    VACUUM_PERMITTIVITY,
    FieldError,
    Film,
    Medium,
    Part,
    Problem,
)
from shedlight.physics.field.engine import ng
from shedlight.physics.field.factors import potential_factors
from shedlight.physics.field.kept import kept
from shedlight.physics.field.meshing import FieldMesh, boundary_of, by_part

Complex = NDArray[np.complex128]
_MOST_KEPT = 400_000  # unknowns, with the meshes they hang on


@dataclass(frozen=True, eq=False)
class Columns:
    """Unit solutions of one mesh with its media and films."""

    mesh: FieldMesh
    order: int
    frequency: float
    permittivity: Any
    electrodes: tuple[str, ...]
    vectors: Mapping[str, Any]
    residuals: Mapping[str, Complex]
    lifts: Mapping[str, NDArray[np.int64]]
    space: Any
    unknowns: int

    @cached_property
    def admittances(self) -> Complex:
        """Current into electrode i for 1 V on electrode j, others and infinity at 0 [S]."""
        scale = 2j * math.pi * 2 * math.pi * self.frequency * VACUUM_PERMITTIVITY
        rows = [
            [self.residuals[j][self.lifts[i]].sum() for j in self.electrodes]
            for i in self.electrodes
        ]
        return np.array(rows, dtype=complex) * scale

    def column(self, weights: Mapping[str, complex]) -> Any:
        """The potential for given voltages of the electrodes."""
        potential = ng.GridFunction(self.space)
        for name, weight in weights.items():
            if weight != 0:
                value = complex(weight) if self.space.is_complex else complex(weight).real
                potential.vec.data += value * self.vectors[name]
        return potential

    def parts(self, weights: Mapping[str, complex]) -> tuple[Any, ...]:
        """The potential as one real function, or two where it turns."""
        whole = self.column(weights)
        if not self.space.is_complex:
            return (whole,)
        values = np.array(whole.vec.FV().NumPy())
        space = ng.H1(self.mesh.mesh, order=self.order)
        found = []
        for part in (values.real, values.imag):
            function = ng.GridFunction(space)
            function.vec.FV().NumPy()[:] = part
            found.append(function)
        return tuple(found)


def columns(mesh: FieldMesh, problem: Problem, order: int) -> Columns:
    """Unit solutions for all electrodes that are driven or float; the last few are kept.

    Args:
        mesh: The mesh.
        problem: What fills it; its potentials only say which electrodes are needed.
        order: Degree of the elements.

    Raises:
        FieldError: too many unknowns, or no finite solution.

    Source: Galerkin's method, electro-quasi-static — basis: exact.
    """
    needed = tuple(
        name
        for name in problem.shape.electrodes
        if name in problem.floating or problem.potentials[name] != 0
    )
    media = tuple((name, problem.media[name]) for name in problem.shape.regions)
    films = tuple(f for f in problem.films if f.conductance > 0)
    return _columns(mesh, media, films, problem.frequency, order, needed)


@kept(lambda unit: unit.unknowns, _MOST_KEPT)
def _columns(
    mesh: FieldMesh,
    media: tuple[tuple[str, Medium], ...],
    films: tuple[Film, ...],
    frequency: float,
    order: int,
    needed: tuple[str, ...],
) -> Columns:
    lossy = bool(films) or any(medium.is_lossy for _, medium in media)
    factors = potential_factors(mesh, order, is_complex=lossy)
    space = factors.space
    permittivity = _permittivity(media, frequency, complex_=lossy)
    form = _form(space, permittivity, _sheet(mesh, films, frequency))
    form.Assemble()
    inverse = factors.of(form.mat)
    vectors, residuals, lifts = {}, {}, {}
    for name in mesh.shape.electrodes:
        lifts[name] = mesh.vertices(lambda part, name=name: part.electrode == name)  # type: ignore[misc]
    for name in needed:
        vectors[name], residuals[name] = _unit_solution(space, form, inverse, lifts[name])
        if not np.isfinite(residuals[name]).all():
            raise FieldError(name, "the equations have no finite solution")
    return Columns(
        mesh,
        order,
        frequency,
        permittivity,
        needed,
        vectors,
        residuals,
        lifts,
        space,
        int(space.ndof),
    )


def _permittivity(
    media: tuple[tuple[str, Medium], ...], frequency: float, *, complex_: bool
) -> Any:
    if complex_:
        return ng.CoefficientFunction([m.complex_permittivity(frequency) for _, m in media])
    return ng.CoefficientFunction([m.permittivity for _, m in media])


def _sheet(mesh: FieldMesh, films: tuple[Film, ...], frequency: float) -> list[float]:
    """Conductance of every part over w e0 [m]; films that overlap add up."""
    sheet = [0.0] * len(mesh.parts)
    for film in films:
        parts = [(n, p) for n, p in enumerate(mesh.parts) if p.edge == film.edge]
        covered = [n for n, p in parts if film.low < (p.low + p.high) / 2 < film.high]
        _refuse_ragged(film, [p for _, p in parts])
        for number in covered:
            sheet[number] += film.conductance / (2 * math.pi * frequency * VACUUM_PERMITTIVITY)
    return sheet


def _refuse_ragged(film: Film, parts: list[Part]) -> None:
    ends = {round(end, 7) for part in parts for end in (part.low, part.high)}
    length = max(ends, default=0.0)
    for end in (film.low, min(film.high, length)):
        if min((abs(end - known) for known in ends), default=1.0) > 2e-6:
            raise InputError(
                f"film on {film.edge}: given an end at {end:g} m; expected an edge of the shape "
                "parted there. Add it to the shape's cuts."
            )


def _form(space: Any, permittivity: Any, sheet: list[float]) -> Any:
    u, v = space.TnT()
    r = ng.x
    form = ng.BilinearForm(space, symmetric=True, condense=True)
    form += permittivity * r * ng.grad(u) * ng.grad(v) * ng.dx(bonus_intorder=1)
    wet = [number for number, value in enumerate(sheet) if value > 0]
    if wet:
        film = -1j * by_part(space.mesh, np.array(sheet))
        along = ng.grad(u).Trace() * ng.grad(v).Trace()
        form += film * r * along * ng.ds(definedon=boundary_of(space.mesh, wet), bonus_intorder=2)
    return form


def _unit_solution(
    space: Any, form: Any, inverse: Any, lift: NDArray[np.int64]
) -> tuple[Any, Complex]:
    """Potential for 1 on one electrode, and the current leaving every node."""
    potential, residual = (form.mat.CreateColVector() for _ in range(2))
    potential[:] = 0
    potential.FV().NumPy()[lift] = 1.0
    residual.data = form.mat * potential
    correction = form.mat.CreateColVector()
    correction.data = inverse * residual
    potential.data -= correction
    residual.data = form.mat * potential
    currents = np.array(residual.FV().NumPy(), dtype=complex)
    potential.data += form.harmonic_extension * potential
    del space
    return potential, currents


def potential_with(mesh: FieldMesh, problem: Problem, order: int, given: Mapping[str, Any]) -> Any:
    """The potential of a problem with potentials that vary along some edges, for benchmarks.

    Args:
        mesh: The mesh.
        problem: What fills it, with its films; all metal is earthed.
        order: Degree of the elements.
        given: Potential along edges, as functions of the library [V].

    Source: Galerkin's method, electro-quasi-static — basis: exact.
    """
    media = [problem.media[name] for name in problem.shape.regions]
    factors = potential_factors(mesh, order, is_complex=True)
    permittivity = ng.CF([medium.complex_permittivity(problem.frequency) for medium in media])
    form = _form(factors.space, permittivity, _sheet(mesh, problem.films, problem.frequency))
    form.Assemble()
    potential = ng.GridFunction(factors.space)
    for edge, value in given.items():
        where = mesh.boundary(lambda part, edge=edge: part.edge == edge)  # type: ignore[misc]
        potential.Set(value, definedon=where)
    residual = form.mat.CreateColVector()
    residual.data = form.mat * potential.vec
    potential.vec.data -= factors.of(form.mat) * residual
    potential.vec.data += form.harmonic_extension * potential.vec
    return potential


def voltages(unit: Columns, problem: Problem) -> dict[str, complex]:
    """Voltage of every electrode; those that float get the one at which they hold no charge.

    Args:
        unit: The unit solutions.
        problem: Voltages given.

    Raises:
        FieldError: a floating electrode is not held by any field.

    Source: No net charge on a floating part: Y U = 0 in its row — basis: exact.
    """
    found = {name: complex(value) for name, value in problem.potentials.items()}
    floating = [name for name in unit.electrodes if name in problem.floating]
    if floating:
        y = unit.admittances
        at = {name: number for number, name in enumerate(unit.electrodes)}
        rows = [at[name] for name in floating]
        driven = sum(
            (y[rows, at[name]] * value for name, value in found.items() if name in at),
            np.zeros(len(rows), dtype=complex),
        )
        solved = np.linalg.solve(y[np.ix_(rows, rows)], -driven)
        if not np.isfinite(solved).all():
            raise FieldError(", ".join(floating), "no potential can be found for it")
        found.update(zip(floating, solved.tolist(), strict=True))
    return found
