"""What many cases say together: verdicts, what fails, what each place of an axis needs."""

from collections import Counter, defaultdict
from dataclasses import dataclass

from shedlight.checks.catalogue import questions
from shedlight.variants.keeping import Keeping
from shedlight.variants.working import asked

LENGTHS = ("creepage_needed", "creepage", "arcing_needed", "arcing", "height", "mass")


@dataclass(frozen=True)
class PlaceSummary:
    """What the cases at one place of an axis say.

    Attributes:
        label: Name of the place.
        cases: How many there are.
        fails: In how many a check fails.
        least: Least margin of all.
        means: Mean of each length over the cases [m, kg].
    """

    label: str
    cases: int
    fails: int
    least: float
    means: dict[str, float]


@dataclass(frozen=True)
class Summary:
    """What all cases of a plan say.

    Attributes:
        cases: How many were computed.
        troubles: How many could not be.
        asked: How many questions each was asked, of how many in the catalogue.
        verdicts: How many came to each verdict.
        failing: The checks that fail, and in how many cases, the commonest first.
        axes: For each axis what its places say, in order.
    """

    cases: int
    troubles: int
    asked: tuple[int, int]
    verdicts: dict[str, int]
    failing: tuple[tuple[str, int], ...]
    axes: dict[str, tuple[PlaceSummary, ...]]


def summary_of(keeping: Keeping) -> Summary:
    """The summary of all that is kept; holds sums only, however many cases there are.

    Args:
        keeping: Where the results are.
    """
    names = [axis.name for axis in keeping.plan.axes]
    verdicts, failing = Counter[str](), Counter[str]()
    cases = troubles = 0
    sums: dict[tuple[str, str], dict[str, float]] = defaultdict(lambda: defaultdict(float))
    least: dict[tuple[str, str], float] = {}
    columns = ("case", "trouble", "verdict", "failing", "least_margin", *LENGTHS, *names)
    for row in keeping.rows(*columns):
        cases += 1
        if row["trouble"]:
            troubles += 1
            continue
        verdicts[row["verdict"]] += 1
        failing.update(name for name in row["failing"].split("; ") if name)
        for name in names:
            key = name, row[name]
            sums[key]["cases"] += 1
            sums[key]["fails"] += row["verdict"] == "fail"
            least[key] = min(least.get(key, row["least_margin"]), row["least_margin"])
            for length in LENGTHS:
                sums[key][length] += row[length]
    axes = {
        axis.name: tuple(
            _place(label, sums[axis.name, label], least[axis.name, label])
            for label in dict.fromkeys(axis.labels)
            if (axis.name, label) in sums
        )
        for axis in keeping.plan.axes
    }
    told = len(asked(keeping.plan)), len(questions())
    return Summary(cases, troubles, told, dict(verdicts), tuple(failing.most_common()), axes)


def _place(label: str, sums: dict[str, float], least: float) -> PlaceSummary:
    count = int(sums["cases"])
    means = {name: sums[name] / count for name in LENGTHS}
    return PlaceSummary(label, count, int(sums["fails"]), least, means)
