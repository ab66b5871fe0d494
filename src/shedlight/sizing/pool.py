"""All drafts that searches looked at: which of them hold, and what each is worth."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from shedlight.checks.assessment import assess
from shedlight.checks.check import Verdict
from shedlight.sizing.bench import APART, MOST, QUANTITIES, Tried, shape_margins
from shedlight.sizing.draft import Draft
from shedlight.sizing.prices import cost
from shedlight.sizing.request import Objective, Request
from shedlight.sizing.search import HELD, LOSS, Cap, Search, on_steps, weighed
from shedlight.sizing.sized import NEARLY, in_whole_or_none, optimum

MARGIN: Objective = "widest margin"
MOVED = 1e-4  # a margin that differs by less between drafts is moved by no dimension


@dataclass(frozen=True)
class Priced:
    """A draft in whole millimetres, and the request it was looked at for."""

    tried: Tried
    request: Request

    @property
    def key(self) -> tuple[Draft, float]:
        """Draft and margin, from which the whole bushing follows."""
        return self.tried.draft, self.request.wishes.margin


@dataclass
class Pool:
    """Every draft in whole millimetres that was looked at, for one request.

    Demands that the first bushing found has below the margin wished for are held about where it
    has them, and margins that no dimension moves are held too: the least margin is counted over
    the others.

    Attributes:
        request: What is asked.
        drafts: How many drafts were looked at.
        counted: The checks over which the least margin is counted.
        below: The checks that the first bushing has below the margin wished for, its lowest first.
    """

    request: Request
    drafts: int = 0
    counted: frozenset[str] = frozenset()
    below: tuple[str, ...] = ()
    _looked: dict[tuple[Draft, float], Priced] = field(default_factory=dict)
    _floors: dict[str, float] = field(default_factory=dict)
    _proofs: dict[tuple[Draft, float], bool] = field(default_factory=dict)

    def seek(
        self,
        start: Draft,
        objective: Objective,
        *,
        margin: float | None = None,
        cap: Cap | None = None,
    ) -> None:
        """Look for what is best by an objective, and keep all that was looked at on the way.

        Args:
            start: Where to start.
            objective: What is to be best.
            margin: Margin to be held; the one asked for if left out.
            cap: What another objective may come to at most.
        """
        request = self._asking(objective, margin)
        found = optimum(request, start, self._held(), cap)
        seen = None if found is None else found[2].look(found[1])
        if found is None or seen is None:
            return
        _, draft, search = found
        if min(seen[1].values()) >= -NEARLY:
            in_whole_or_none(search, draft)
        else:
            search.look(on_steps(search, draft), whole=True)
        self._take(search, request)

    def holding(self) -> Iterator[Priced]:
        """The drafts that hold what is asked, as far as is known."""
        for key, priced in self._looked.items():
            if self._proofs.get(key, True) and self._holds(priced.tried):
                yield priced

    def proves(self, priced: Priced) -> bool:
        """Whether no check fails, those that take long among them.

        Args:
            priced: One of the drafts.
        """
        if priced.key not in self._proofs:
            checks = assess(priced.tried.case).checks
            fails = any(check.verdict is Verdict.FAIL for check in checks)
            self._proofs[priced.key] = not fails
        return self._proofs[priced.key]

    def best_by(self, objective: Objective) -> Priced | None:
        """The best of those that hold; None where none does.

        Args:
            objective: What it is to be best by.
        """
        sign = -1.0 if objective == MARGIN else 1.0
        ranked = sorted(self.holding(), key=lambda priced: sign * self.worth(priced, objective))
        return next((priced for priced in ranked if self.proves(priced)), None)

    def worth(self, priced: Priced, objective: Objective) -> float:
        """What a draft is worth by an objective, in SI.

        Args:
            priced: The draft.
            objective: Which objective.
        """
        if objective == "cheapest":
            return cost(self.request.prices, priced.tried.work)
        if objective == MARGIN:
            return self._least(priced.tried)
        return QUANTITIES[objective][2](priced.tried.work)

    def _asking(self, objective: Objective, margin: float | None) -> Request:
        wanted = self.request.wishes.margin if margin is None else margin
        return self.request.wishing(objective=objective, margin=wanted)

    def _held(self) -> Mapping[str, float]:
        return {name: low for name, low in self._floors.items() if name not in self.counted}

    def _take(self, search: Search, request: Request) -> None:
        self.drafts += search.evaluations
        wholes = list(search.looked(whole=True))
        if not self._floors and wholes:
            self._settle(search)
        for found, _ in wholes:
            priced = Priced(found, request)
            self._looked.setdefault(priced.key, priced)

    def _settle(self, search: Search) -> None:
        """What counts and what is only held, by the first search."""
        wish = self.request.wishes.margin
        wholes = list(search.looked(whole=True))
        base, _ = min(
            wholes,
            key=lambda seen: weighed({n: m for n, m in seen[1].items() if m < HELD}, seen[0]),
        )
        every = [found.margins for found, _ in (*wholes, *search.looked(whole=False))]
        for name, margin in base.margins.items():
            self._floors[name] = wish if margin >= wish else margin - LOSS
        short = [(m, name) for name, m in base.margins.items() if m < wish - NEARLY]
        self.below = tuple(name for _, name in sorted(short))
        counted = (
            name
            for name, margin in base.margins.items()
            if margin >= wish - NEARLY and not name.startswith(APART)
        )
        self.counted = frozenset(name for name in counted if _differs(name, every))

    def _holds(self, found: Tried) -> bool:
        if found.failed:
            return False
        height = found.work.section.heights.top
        shape = shape_margins(self.request, found.draft, height)
        if min(shape.values()) < HELD:
            return False
        return all(found.margins.get(n, MOST) >= low + HELD for n, low in self._floors.items())

    def _least(self, found: Tried) -> float:
        return min((found.margins.get(name, MOST) for name in self.counted), default=MOST)


def _differs(name: str, every: list[Mapping[str, float]]) -> bool:
    values = [margins[name] for margins in every if name in margins]
    return max(values) - min(values) > MOVED
