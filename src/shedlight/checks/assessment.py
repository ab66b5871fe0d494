"""All checks of one installation, with the workings they came from."""

from collections import Counter
from collections.abc import Collection
from dataclasses import dataclass

from shedlight.checks import (
    air,
    coordination,
    field,
    fit,
    flashover,
    heat,
    horns,
    odds,
    oil,
    profile,
    rings,
    sealing,
    strength,
    surface,
    terminal,
    wall,
)
from shedlight.checks.catalogue import ANSWERS, questions
from shedlight.checks.check import Check, Verdict
from shedlight.given.bushing import Installation
from shedlight.tables import Confirmation, confirmed
from shedlight.workings import Workings, work_out

ROOMS = (
    fit,
    field,
    wall,
    surface,
    flashover,
    profile,
    rings,
    air,
    horns,
    odds,
    oil,
    coordination,
    heat,
    terminal,
    strength,
    sealing,
)


@dataclass(frozen=True)
class Assessment:
    """One installation, what was computed for it, and every question answered."""

    installation: Installation
    workings: Workings
    checks: tuple[Check, ...]

    @property
    def by_urgency(self) -> tuple[Check, ...]:
        """The checks, worst first, least margin first."""
        return tuple(sorted(self.checks, key=lambda check: check.urgency))

    @property
    def counts(self) -> dict[Verdict, int]:
        """How many checks came to each verdict."""
        found = Counter(check.verdict for check in self.checks)
        return {verdict: found[verdict] for verdict in Verdict}

    @property
    def verdict(self) -> Verdict:
        """Fail if one check fails, else caution if one does, else pass."""
        for verdict in (Verdict.FAIL, Verdict.CAUTION):
            if self.counts[verdict]:
                return verdict
        return Verdict.PASS

    @property
    def verdict_sentence(self) -> str:
        """The overall verdict in words; never a pass without what was not assessed."""
        n = self.counts
        total = len(self.checks)
        says = f"{n[Verdict.PASS]} of {total} checks pass"
        if n[Verdict.FAIL]:
            says += f", {n[Verdict.FAIL]} fail"
        if n[Verdict.CAUTION]:
            says += f", {n[Verdict.CAUTION]} caution"
        return f"{says}, {n[Verdict.NOT_ASSESSED]} not assessed"

    def check(self, identifier: str) -> Check:
        """One check by its id."""
        return next(check for check in self.checks if check.id == identifier)


def assess(
    installation: Installation,
    confirmations: tuple[Confirmation, ...] = (),
    *,
    with_field: bool = False,
    with_sections: bool = True,
    settled: bool = True,
    apart: bool = False,
    only: Collection[str] | None = None,
) -> Assessment:
    """Compute an installation and answer every question of the catalogue, or some.

    Args:
        installation: What is to be assessed.
        confirmations: Table rows that the user has checked against their publication.
        with_field: Whether to solve the field and the stress of the section too: a second or two.
        with_sections: Whether the field alone is not enough: heat and stress are solved with it.
        settled: Whether parts are as warm as they settle to; drafts are tried as warm as the oil.
        apart: Whether that may be done in processes of its own, which share the processor's cores
            and are ended when they are stuck; only where the caller owns the process.
        only: Ids of the questions to answer, where not all are wanted: what they do not need is
            not computed.

    Raises:
        InputError: the description makes no body, or lies outside every formula.
    """
    with confirmed(confirmations):
        if only is None:
            workings = work_out(installation, with_field=with_field, apart=apart)
        else:
            workings = Workings(
                installation,
                with_field=with_field,
                with_sections=with_sections,
                settled=settled,
            )
        answered = tuple(
            ANSWERS[question.id](question, installation, workings)
            for question in questions().values()
            if only is None or question.id in only
        )
    return Assessment(installation, workings, answered)
