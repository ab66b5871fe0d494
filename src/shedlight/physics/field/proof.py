"""The proof that goes with every field: bounds, balances, effort."""

import math
from dataclasses import dataclass
from typing import Any

import numpy as np

from shedlight.physics.field.adapt import Solution
from shedlight.physics.field.domain import VACUUM_PERMITTIVITY, FieldError
from shedlight.physics.field.engine import ng
from shedlight.physics.field.meshing import boundary_of, by_part


@dataclass(frozen=True)
class Proof:
    """How right a field is.

    `capacitance` [F] and loss factor [1] are those of the whole arrangement seen from its only
    driven electrode, as a bridge reads them. The bounds hold for the capacitance in open space
    without losses and films; `capacitance_loss_free` is the middle between them. What losses and
    films add stands apart, since it may be more than the bounds are wide.
    """

    capacitance: float
    capacitance_low: float
    capacitance_high: float
    loss_by_admittance: float
    loss_by_energy: float
    floating_charge: float  # largest net charge of a floating part over the charge driven [1]
    gap: float
    tolerance: float
    order: int
    elements: int
    unknowns: int
    rounds: int

    @property
    def capacitance_loss_free(self) -> float:
        """Capacitance without losses and films [F], right to half the gap."""
        return (self.capacitance_low + self.capacitance_high) / 2

    @property
    def losses_add(self) -> float:
        """Share that losses and films add to the capacitance [1].

        Over the bound from above, which is of the same elements, so that their error cancels.
        """
        return self.capacitance / self.capacitance_high - 1

    @property
    def energy_error(self) -> float:
        """Largest error of the field in the energy norm, relative [1]: sqrt of the gap."""
        return math.sqrt(self.gap)

    @property
    def loss_disagreement(self) -> float:
        """Difference of the two loss factors [1]."""
        return abs(self.loss_by_admittance - self.loss_by_energy)


def proof_of(solution: Solution) -> Proof:
    """The proof of a solution with one driven electrode.

    Args:
        solution: A solved field.

    Raises:
        FieldError: none or several electrodes are driven.

    Source: as :mod:`shedlight.physics.field.bounds`; admittance and power of one terminal —
    basis: exact.
    """
    driven = [name for name, value in solution.problem.potentials.items() if value != 0]
    if len(driven) != 1:
        raise FieldError(", ".join(driven), "a capacitance needs exactly one driven electrode")
    volts = abs(solution.voltages[driven[0]])
    omega = 2 * math.pi * solution.problem.frequency
    currents = currents_of(solution)
    admittance = currents[driven[0]] / solution.voltages[driven[0]]
    active, reactive = powers(solution)
    stray = [abs(currents[name]) for name in solution.problem.floating]
    return Proof(
        capacitance=admittance.imag / omega,
        capacitance_low=2 * solution.bounds.low / volts**2,
        capacitance_high=2 * solution.bounds.high / volts**2,
        loss_by_admittance=admittance.real / admittance.imag,
        loss_by_energy=active / reactive,
        floating_charge=max(stray, default=0.0) / abs(currents[driven[0]]),
        gap=solution.bounds.gap,
        tolerance=solution.tolerance,
        order=solution.order,
        elements=solution.mesh.elements,
        unknowns=solution.unit.unknowns,
        rounds=solution.rounds,
    )


def currents_of(solution: Solution) -> dict[str, complex]:
    """Current into every driven or floating electrode [A], from the equations' residual.

    Args:
        solution: A solved field.

    Source: I = Y U — basis: exact.
    """
    unit = solution.unit
    volts = [solution.voltages[name] for name in unit.electrodes]
    return dict(zip(unit.electrodes, (unit.admittances @ volts).tolist(), strict=True))


def powers(solution: Solution) -> tuple[float, float]:
    """Active and reactive power [W, var] from the field, voltages being rms.

    P = int (sigma + w e0 e tan d) |E|² dV + int s |E_t|² dA,   Q = int w e0 e |E|² dV

    Args:
        solution: A solved field.

    Source: Poynting's theorem, quasi-static — basis: exact.
    """
    omega = 2 * math.pi * solution.problem.frequency
    scale = 2 * math.pi * omega * VACUUM_PERMITTIVITY
    by_region = np.bincount(
        solution.mesh.regions, solution.squares, len(solution.problem.shape.regions)
    )
    media = [solution.problem.media[name] for name in solution.problem.shape.regions]
    epsilons = np.array([m.complex_permittivity(solution.problem.frequency) for m in media])
    reactive = scale * float(epsilons.real @ by_region)
    active = scale * float(-epsilons.imag @ by_region)
    return active + _film_power(solution, 2 * solution.order + 2), reactive


def square_of(vector: Any) -> Any:
    """Squared length of a real or complex vector function.

    Args:
        vector: Function of the library with two components.

    Source: |a|² = a a* — basis: exact.
    """
    if vector.is_complex:
        return sum((c.real * c.real + c.imag * c.imag for c in (vector[0], vector[1])), ng.CF(0))
    return vector * vector


def _film_power(solution: Solution, order: int) -> float:
    sheet = [0.0] * len(solution.mesh.parts)
    for film in solution.problem.films:
        for number, part in enumerate(solution.mesh.parts):
            if part.edge == film.edge and film.low < (part.low + part.high) / 2 < film.high:
                sheet[number] += film.conductance
    wet = [number for number, value in enumerate(sheet) if value > 0]
    if not wet:
        return 0.0
    along = ng.grad(solution.potential).Trace()  # its part along the surface
    power = by_part(solution.mesh.mesh, np.array(sheet)) * square_of(along) * ng.x
    where = boundary_of(solution.mesh.mesh, wet)
    return (
        2 * math.pi * float(ng.Integrate(power, solution.mesh.mesh, definedon=where, order=order))
    )
