"""Two variants side by side: both figures at one scale, and a table of only what differs."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from shedlight.checks.assessment import Assessment
from shedlight.documents.measured import measured_groups
from shedlight.documents.numerals import in_print
from shedlight.figures.painters.svg import paint
from shedlight.figures.scene import Scene
from shedlight.figures.section import section_drawing
from shedlight.given.writing import entries
from shedlight.web.desk import assessed
from shedlight.web.form import form_of
from shedlight.web.rendering import ours, render
from shedlight.web.values import installation_of, values_of
from shedlight.web.verdicts import VerdictRow, headline_of, row_of

TALLEST = 150.0  # the taller of the two, on paper [mm]
NOT_THERE = "–"
MASSES = "Masses"


@dataclass(frozen=True)
class Difference:
    """One line of the table: what differs, and what it is on either side."""

    name: str
    left: str
    right: str


@dataclass(frozen=True)
class VerdictPair:
    """One check whose answer differs."""

    title: str
    left: VerdictRow
    right: VerdictRow

    @property
    def changes(self) -> bool:
        """Whether the verdict itself is another, not its margin alone."""
        return self.left.word != self.right.word


def compare(request: dict[str, Any]) -> dict[str, Any]:
    """Two descriptions beside each other.

    Args:
        request: The values of both, `left` and `right`, and their `titles`; whether `brief`, with
            what changes most in front and the rest folded away.

    Raises:
        InputError: one of them makes no bushing.
    """
    pair = [assessed(installation_of(request[side], side)) for side in ("left", "right")]
    titles = [str(title)[:200] for title in request.get("titles", ("", ""))]
    left, right = pair
    scenes = _figures(left, right)
    highest = max(scene.height for scene in scenes)
    measured = list(_measured(left, right))
    body = render(
        "compared.html",
        sides=[
            {
                "title": title,
                "headline": headline_of(found),
                "svg": ours(paint(scene)),
                "share": f"{scene.height / highest:.4f}",
            }
            for title, found, scene in zip(titles, pair, scenes, strict=True)
        ],
        titles=titles,
        values=list(_values(left, right)),
        masses=[row for row in measured if row.name.startswith(MASSES)],
        measured=[row for row in measured if not row.name.startswith(MASSES)],
        brief=request.get("brief") is True,
        verdicts=list(_verdicts(left, right)),
    )
    return {"parts": {"compared": body}}


def _figures(left: Assessment, right: Assessment) -> list[Scene]:
    """Both at the scale at which the taller one fits."""
    highest = max(_height(left), _height(right))
    found_scenes = []
    for side, found in (("left", left), ("right", right)):
        scene = section_drawing(
            found.installation,
            found.workings.section,
            found.workings.measures,
            detail="plain",
            scale=TALLEST / highest,
            key=f"compared-{side}",
        )
        layers = tuple(replace(layer, shown=True) for layer in scene.layers)
        found_scenes.append(replace(scene, layers=layers))
    return found_scenes


def _height(found: Assessment) -> float:
    heights = found.workings.section.heights
    return heights.top - heights.bottom


def _values(left: Assessment, right: Assessment) -> Iterator[Difference]:
    names = _names(left) | _names(right)
    one, other = (
        {entry.path: in_print(entry.text) for entry in entries(found.installation)}
        for found in (left, right)
    )
    yield from _differing(one, other, names)


def _names(found: Assessment) -> dict[str, str]:
    return {
        field.path: f"{group.title}: {field.label.lower()}"
        for group in form_of(values_of(found.installation), {})
        for field in group.fields
    }


def _measured(left: Assessment, right: Assessment) -> Iterator[Difference]:
    one, other = (
        {
            f"{group.title}: {row.sentence}": row.text
            for group in measured_groups(found.workings)
            for row in group.rows
        }
        for found in (left, right)
    )
    yield from _differing(one, other, {})


def _differing(
    left: Mapping[str, str], right: Mapping[str, str], names: Mapping[str, str]
) -> Iterator[Difference]:
    for key in dict.fromkeys((*left, *right)):
        pair = left.get(key, NOT_THERE), right.get(key, NOT_THERE)
        if pair[0] != pair[1]:
            yield Difference(names.get(key, key), *pair)


def _verdicts(left: Assessment, right: Assessment) -> Iterator[VerdictPair]:
    """Checks whose verdict or margin differs, the most urgent of either side first."""
    rights = {check.id: check for check in right.checks}
    pairs = [(check, rights[check.id]) for check in left.checks if check.id in rights]
    pairs.sort(key=lambda both: min(check.urgency for check in both))
    for a, b in pairs:
        one, other = row_of(a), row_of(b)
        if (one.word, one.margin, one.reason) != (other.word, other.margin, other.reason):
            yield VerdictPair(one.title, one, other)
