"""What-ifs: the same installation with one thing changed, computed anew, told side by side."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from shedlight.checks.assessment import Assessment, assess
from shedlight.documents.calculation import word_of
from shedlight.errors import InputError
from shedlight.explain.facts import facts_of
from shedlight.explain.pictures import PICTURES, Sight
from shedlight.explain.words import Filler, WhatIfText
from shedlight.figures.scene import Scene
from shedlight.given.bushing import Installation
from shedlight.given.changing import changed
from shedlight.trace import Number

Change = Callable[[Installation], Mapping[str, Any] | None]
LOW_OIL = 0.02  # above the cover [m]


@dataclass(frozen=True)
class WhatIf:
    """One switch: what it is called, what follows, and how the verdicts stand then.

    Where the change leaves the bushing as it is, such as a line without load, verdicts are empty
    and there is no other picture.
    """

    key: str
    title: str
    says: tuple[str, ...]
    before: str
    after: str
    turned: tuple[str, ...]
    picture: Scene | None = None


def what_if(
    before: Assessment,
    facts: Mapping[str, Number],
    text: WhatIfText,
    change: Change,
    words: Mapping[str, str],
) -> WhatIf | None:
    """What follows from a change; None where the change has no meaning for this bushing.

    Args:
        before: The installation as it is.
        facts: Its facts.
        text: What to say.
        change: What to change.
        words: Of the view's picture, which is drawn anew.
    """
    paths = change(before.installation)
    if paths is None:
        return None
    if not paths:
        told = Filler(before, facts).fill(text.says)
        return None if told.missing else WhatIf(text.key, text.title, told.paragraphs, "", "", ())
    try:
        after = assess(changed(before.installation, **paths))
    except InputError:
        return None
    changed_facts = facts_of(after)
    then = {f"then.{name}": number for name, number in changed_facts.items()}
    filler = _Both(before, after, {**facts, **then})
    said = filler.fill(text.says)
    if said.missing:
        return None
    return WhatIf(
        text.key,
        text.title,
        said.paragraphs,
        before.verdict_sentence,
        after.verdict_sentence,
        turned(before, after),
        PICTURES[text.view](Sight(after, changed_facts, words, f"what-if-{text.key}")),
    )


def turned(before: Assessment, after: Assessment) -> tuple[str, ...]:
    """The checks whose verdict a change turned, in words.

    Args:
        before: The installation as it is.
        after: The changed one.
    """
    found = []
    for old, new in zip(before.checks, after.checks, strict=True):
        if old.verdict is not new.verdict:
            words = f"{word_of(old.verdict)} → {word_of(new.verdict)}"
            found.append(f"{new.question.title}: {words}")
    return tuple(found)


class _Both(Filler):
    """Names without a prefix mean before, with ``then.`` after the change."""

    def __init__(self, before: Assessment, after: Assessment, facts: Mapping[str, Number]) -> None:
        super().__init__(before, facts)
        self._after = Filler(after, {})

    def value(self, name: str, unit: str = "") -> str | None:
        found = super().value(name, unit)
        if found is None and name.startswith("then."):
            return self._after.value(name.removeprefix("then."), unit)
        return found


def _no_sheds(case: Installation) -> Mapping[str, Any] | None:
    return {"bushing__sheds": None} if case.bushing.sheds else None


def _longer_sheds(case: Installation) -> Mapping[str, Any] | None:
    sheds = case.bushing.sheds
    if sheds is None:
        return None
    return {"bushing__sheds__overhang": 1.5 * sheds.overhang}


def _dirtier(case: Installation) -> Mapping[str, Any] | None:
    return None if case.site.pollution_class == "e" else {"site__pollution_class": "e"}


def _oil_low(case: Installation) -> Mapping[str, Any] | None:
    return {"transformer__lowest_oil_level": LOW_OIL}


CHANGES: Mapping[str, Change] = {
    "no-bushing": lambda _: {},
    "de-energised": lambda _: {},
    "no-load": lambda _: {},
    "no-sheds": _no_sheds,
    "longer-sheds": _longer_sheds,
    "side-rain": lambda _: {"site__rain_angle": "80 °"},
    "dirtier": _dirtier,
    "fault-stands": lambda _: {"duty__earth_fault_duration": "8 h"},
    "oil-low": _oil_low,
    "high-up": lambda _: {"site__altitude": "3000 m"},
    "double-current": lambda case: {"duty__rated_current": 2 * case.duty.rated_current},
}
