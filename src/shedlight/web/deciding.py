"""What the room of decisions asks for: a proposal, compromises, and why each dimension."""

from collections.abc import Callable
from dataclasses import asdict, replace
from typing import Any, cast

from shedlight.documents.numerals import percent
from shedlight.errors import InputError
from shedlight.figures.compromises import front_picture
from shedlight.figures.painters.svg import paint
from shedlight.figures.section.picture import Subject
from shedlight.figures.why import why_picture
from shedlight.given.bushing import Installation
from shedlight.sizing.comparison import air_against_oil
from shedlight.sizing.compromise import Candidate, Front, axis_of, compromises, finished
from shedlight.sizing.conflict import conflict_of
from shedlight.sizing.draft import GASKETS, Draft, palms
from shedlight.sizing.pool import MARGIN
from shedlight.sizing.reasons import Reason, each_reason
from shedlight.sizing.request import Objective, Request
from shedlight.sizing.sized import Sized
from shedlight.sizing.stock import size_from_bodies
from shedlight.units import shown_in
from shedlight.web.asking import OBJECTIVES, asked_of, taken_over
from shedlight.web.reasoned import reasoned, title_of
from shedlight.web.rendering import ours, render
from shedlight.web.values import installation_of, values_of
from shedlight.web.variants_beside import compare
from shedlight.web.verdicts import headline_of, row_of
from shedlight.workings import Workings

Answer = dict[str, Any]
Tell = Callable[[Answer], None]
NOW, PROPOSED = "On the page now", "Proposed"
WANTED = 7
LENGTHS = ("conductor", "gap", "wall", "air", "overhang", "oil", "cap_edge")
LONGEST, MOST_SHEDS = 3.0, 100


def propose(request: Answer, tell: Tell) -> Answer:
    """The best bushing for the duty and site of the values, beside the one that is there.

    Args:
        request: What is asked: see the form.
        tell: Is told how far the search is.

    Raises:
        InputError: the duty, the site or what is kept cannot be used.
    """
    with asked_of(request) as (asked, bodies):
        tell({"said": "Searching by each kind and number of sheds …"})
        sized, body = size_from_bodies(asked, bodies)
        answer = _proposed(request, asked, sized, body)
        if sized.short:
            tell(
                answer | {"said": "Not every demand is met; trying what relaxing each would give …"}
            )
            answer["parts"] |= {"conflict": _conflict(asked, sized)}
    return answer


def _proposed(request: Answer, asked: Request, sized: Sized, body: str) -> Answer:
    """The proposal beside what is there."""
    markup = render(
        "proposed.html",
        sized=sized,
        objective=asked.wishes.objective,
        body=body,
        headline=headline_of(sized.assessment),
        cautions=[row_of(check) for check in (*sized.failed, *sized.cautions)],
        beside=_beside(request["values"], sized.case, PROPOSED),
    )
    changes = taken_over(sized.case, request["values"])
    return {"parts": {"proposed": markup}, "changes": changes, "holds": sized.holds}


def _conflict(asked: Request, sized: Sized) -> str:
    """Which demands stand against each other, and what relaxing each would give."""
    found = conflict_of(asked, sized)
    if found is None:
        return ""
    return render(
        "conflict.html",
        demands=[(title_of(name), percent(short)) for name, short in found.demands],
        relaxations=[
            (item.what, item.fits, title_of(item.worst), percent(item.shortfall))
            for item in found.relaxations
        ],
    )


def weigh(request: Answer, tell: Tell) -> Answer:
    """The best compromises between two objectives, told as they are found.

    Args:
        request: What is asked, and the objectives `first` and `second`.
        tell: Is told every front that is better than the one before.

    Raises:
        InputError: what is asked cannot be used.
    """
    first, second = _objective(request.get("first")), _objective(request.get("second"))
    if first == second:
        raise InputError("two different objectives are weighed against each other")
    name = str(request["values"].get("name", ""))
    with asked_of(request) as (asked, _):
        seen: tuple[tuple[float, float], ...] | None = None
        for front in compromises(asked, first, second, WANTED):
            places = tuple((one.first, one.second) for one in front.candidates)
            tell({"drafts": front.drafts} if places == seen else _shown(front, name))
            seen = places
        return _shown(front, name) | {"done": True}


def candidate(request: Answer) -> Answer:
    """One compromise, whole, beside the bushing that is there.

    Args:
        request: What was asked, and the `draft` and `margin` of the compromise.

    Raises:
        InputError: it makes no bushing.
    """
    with asked_of(request) as (asked, _):
        draft, margin = _draft(request)
        case = finished(asked.wishing(margin=margin), draft)
    title = str(request.get("title", "Compromise"))[:80]
    beside = _beside(request["values"], case, title)
    changes = taken_over(case, request["values"])
    return {"parts": {"candidate": beside}, "changes": changes}


def _draft(request: Answer) -> tuple[Draft, float]:
    """The draft of a compromise and its margin, as they were sent to the page before."""
    sent: Any = request.get("draft")
    try:
        draft = Draft(
            form="alternating" if sent["form"] == "alternating" else "plain",
            count=int(sent["count"]),
            palm=int(sent["palm"]),
            gasket=str(sent["gasket"]),
            **{name: float(sent[name]) for name in LENGTHS},
        )
        margin = float(request["margin"])
    except (KeyError, TypeError, ValueError, OverflowError):
        raise InputError("this is no compromise of the page's own") from None
    lengths = [getattr(draft, name) for name in LENGTHS]
    known = draft.gasket in GASKETS and 0 <= draft.palm < len(palms())
    if not (known and all(0 < each < LONGEST for each in (*lengths, draft.count / MOST_SHEDS))):
        raise InputError("this is no compromise of the page's own")
    return draft, min(max(margin, 0.0), LONGEST)


def why(request: Answer, tell: Tell) -> Answer:
    """Why each main dimension is what it is, told one by one, with the picture at last.

    Args:
        request: The `values`.
        tell: Is told every reason as it is found.

    Raises:
        InputError: the values make no bushing.
    """
    case = installation_of(request["values"])
    found: list[Reason] = []
    for reason in each_reason(case):
        found.append(reason)
        tell({"reason": render("reason.html", reason=reasoned(reason)), "said": reason.name})
    work = Workings(case)
    comparison = air_against_oil(case, tuple(found))
    subject = Subject(case, work.section, work.measures)
    scene = replace(why_picture(subject, found, comparison), key="why")
    markup = render("why.html", comparison=comparison, svg=ours(paint(scene)))
    return {"parts": {"why": markup}}


def _objective(word: Any) -> Objective:
    if word not in OBJECTIVES:
        raise InputError(f"no such objective: {str(word)[:40]!r}; known: {', '.join(OBJECTIVES)}")
    return cast(Objective, word)


def _shown(front: Front, name: str) -> Answer:
    """A front as a picture and as rows."""
    if not front.candidates:
        return {"drafts": front.drafts, "front": "", "counted": "", "candidates": []}
    scene = replace(front_picture(front, name), key="front")
    rows = [_row(front, one) for one in front.candidates]
    markup = render(
        "counted.html",
        counted=sorted(map(title_of, front.counted))
        if MARGIN in (front.first, front.second)
        else None,
        below=[(title_of(name), percent(margin)) for name, margin in front.below],
    )
    shown = {"front": paint(scene), "counted": markup, "candidates": rows}
    return {"drafts": front.drafts, **shown}


def _row(front: Front, one: Candidate) -> Answer:
    pair = zip((front.first, front.second), (one.first, one.second), strict=True)
    draft = one.tried.draft
    return {
        "worth": [_worth(objective, value) for objective, value in pair],
        "words": f"{draft.count} {draft.form} sheds of {1e3 * draft.overhang:.0f} mm, air end "
        f"{1e3 * draft.air:.0f} mm, oil end {1e3 * draft.oil:.0f} mm",
        "draft": asdict(draft),
        "margin": one.request.wishes.margin,
    }


def _worth(objective: Objective, value: float) -> str:
    title, unit = axis_of(objective)
    if unit == "%":
        return f"{title} {percent(value)}"
    return f"{title} {shown_in(value, unit):.4g} {unit}".removesuffix(" 1")


def _beside(values: dict[str, str], case: Installation, title: str) -> Any:
    """Both side by side; only words where the values make no bushing yet."""
    try:
        installation_of(values)
        both = {"left": values, "right": values_of(case), "titles": [NOW, title], "brief": True}
        return ours(compare(both)["parts"]["compared"])
    except InputError:
        return "What is on the page now makes no bushing yet, so nothing stands beside this one."
