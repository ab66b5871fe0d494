"""The tour: complete in every language, every number computed, every picture with its words."""

import html
import re
from functools import cache

import pytest

import shedlight as sl
from edits import example
from shedlight.documents.numerals import shown
from shedlight.explain.facts import FACTS, facts_of
from shedlight.explain.handout import handout_pdf
from shedlight.explain.pictures import PICTURES, tightest
from shedlight.explain.slides import slides_html
from shedlight.explain.tour import Tour, tour
from shedlight.explain.what_ifs import CHANGES
from shedlight.explain.words import DEPTHS, Filler, languages, places_in, words
from shedlight.figures.painters.svg import paint

NUMBER = re.compile(r"\d")
NAMED = re.compile(r"IEC (TS )?\d+(-\d+)?|\b1 to 3\b|\b1 bis 3\b|3000 m|PCB|about 4|etwa 4")
OF_A_CHECK = ("demand", "capability", "margin", "verdict", "reason")


@cache
def told(name: str = "quay-24kv", language: str = "en") -> Tour:
    return tour(sl.assess(sl.parse(example(name))), language)


def texts_of(language: str) -> list[str]:
    spoken = words(language)
    found: list[str] = []
    for view in spoken.views:
        found += [view.title, view.idea, view.caption, *view.notes]
        found += [text for depth in DEPTHS for text in getattr(view, depth)]
    for asked in spoken.predictions:
        found += [asked.question, *asked.options, *asked.answer]
    for switch in spoken.what_ifs:
        found += [switch.title, *switch.says]
    return found


# --- texts ----------------------------------------------------------------------------------


def test_there_is_more_than_one_language() -> None:
    assert set(languages()) >= {"de", "en"}


@pytest.mark.parametrize("language", languages())
def test_texts_hold_no_number_of_their_own(language: str) -> None:
    for text in texts_of(language):
        bare = NAMED.sub("", re.sub(r"\{[^}]*\}", "", text))
        assert not NUMBER.search(bare), text


@pytest.mark.parametrize("language", languages())
def test_every_place_in_a_text_names_a_fact_or_a_check(language: str) -> None:
    checks = {check.id for check in told().assessment.checks}
    for text in texts_of(language):
        for name in places_in(text):
            plain = name.removeprefix("then.")
            identifier, _, what = plain.rpartition(".")
            is_check = identifier in checks and what in OF_A_CHECK
            assert plain in FACTS or is_check or plain.startswith("tightest_"), name


def test_every_language_has_the_same_views_questions_and_switches() -> None:
    first, *others = (words(language) for language in languages())
    for other in others:
        assert [view.key for view in other.views] == [view.key for view in first.views]
        assert [view.minutes for view in other.views] == [view.minutes for view in first.views]
        assert {(a.key, a.view, a.right, len(a.options)) for a in other.predictions} == {
            (a.key, a.view, a.right, len(a.options)) for a in first.predictions
        }
        assert {(w.key, w.view) for w in other.what_ifs} == {
            (w.key, w.view) for w in first.what_ifs
        }
        assert other.chrome.keys() == first.chrome.keys()
        assert {k: set(v) for k, v in other.pictures.items()} == {
            k: set(v) for k, v in first.pictures.items()
        }


def test_every_view_has_a_picture_and_every_switch_a_change() -> None:
    spoken = words()
    assert {view.key for view in spoken.views} == set(PICTURES)
    assert {switch.key for switch in spoken.what_ifs} == set(CHANGES)
    assert {asked.view for asked in spoken.predictions} <= set(PICTURES)


def test_an_unknown_language_is_refused_with_those_there_are() -> None:
    with pytest.raises(sl.InputError, match="expected one of de, en"):
        words("xx")


# --- numbers --------------------------------------------------------------------------------


def test_facts_are_the_numbers_of_the_assessment() -> None:
    assessment = told().assessment
    facts = facts_of(assessment)

    assert facts["creepage"] == assessment.workings.surface.creepage
    assert facts["phase_voltage"] == pytest.approx(24e3 / 3**0.5)
    assert facts["hole_in_air"] == pytest.approx(0.020 + 2 * assessment.workings.air.clearance)
    shares = facts["oil_share"] + facts["porcelain_share"] + facts["gap_share"]
    assert shares == pytest.approx(1.0, abs=1e-12)
    assert float(facts["off_field"]) == 0
    assert float(facts["off_loss"]) == 0
    assert facts["oil_field"] > 0
    assert facts["class_e_needs"] == pytest.approx(facts["creepage_needed"])


def test_a_text_prints_its_facts_as_everywhere_else() -> None:
    assessment = told().assessment
    filler = Filler(assessment, facts_of(assessment))
    creepage = shown(float(assessment.workings.surface.creepage), "mm")

    assert filler.line("{creepage}") == f"{creepage}\N{NO-BREAK SPACE}mm"
    in_metres = shown(float(assessment.workings.surface.creepage), "m")
    assert filler.line("{creepage|m}") == f"{in_metres}\N{NO-BREAK SPACE}m"
    assert filler.line("{surface.creepage.verdict}") == "fail"


def test_what_a_bushing_lacks_is_left_out_and_said() -> None:
    case = sl.changed(sl.parse(example("quay-24kv")), bushing__horns=None)
    view = next(v for v in tour(sl.assess(case), with_what_ifs=False).views if v.key == "horns")

    assert "gap of the horns" in view.missing
    assert view.idea == ""
    assert "{" not in "".join(text for texts in view.depths.values() for text in texts)


def test_the_tightest_check_is_the_failing_one_with_the_least_margin() -> None:
    checks = tightest(told().assessment)
    failed = [c for c in checks if c.verdict is sl.Verdict.FAIL]
    others = checks[len(failed) :]

    assert list(checks[: len(failed)]) == failed
    for group in (failed, others):
        assert [c.margin for c in group] == sorted(c.margin for c in group if c.margin is not None)
    assert checks[0].id == "surface.creepage"


# --- what if --------------------------------------------------------------------------------


def test_what_ifs_tell_both_sides_from_two_computations() -> None:
    view = next(view for view in told().views if view.key == "surface")
    bare = next(found for found in view.what_ifs if found.key == "no-sheds")
    smooth = sl.assess(sl.changed(told().assessment.installation, bushing__sheds=None))
    length = shown(float(smooth.workings.surface.creepage), "mm")

    assert f"{length}\N{NO-BREAK SPACE}mm" in bare.says[0]
    assert bare.picture is not None
    assert paint(bare.picture) != paint(view.picture)  # drawn anew, without sheds
    assert bare.before == told().assessment.verdict_sentence
    assert bare.after == smooth.verdict_sentence


def test_longer_sheds_cure_the_quay() -> None:
    view = next(view for view in told().views if view.key == "surface")
    longer = next(found for found in view.what_ifs if found.key == "longer-sheds")

    assert "Creepage for the dirt of the site: fail → pass" in longer.turned


def test_field_follows_voltage_and_loss_follows_current() -> None:
    view = next(view for view in told().views if view.key == "heat")
    switches = {found.key: found for found in view.what_ifs}
    facts = facts_of(told().assessment)
    field = f"{shown(float(facts['oil_field']), 'kV/mm')}\N{NO-BREAK SPACE}kV/mm"

    assert f"stays at {field}" in switches["no-load"].says[0]
    assert f"stays at {field}" in switches["double-current"].says[0]
    assert "falls to 0\N{NO-BREAK SPACE}kV/mm" in switches["de-energised"].says[0]
    assert switches["no-load"].before == ""  # nothing else of the bushing changes


def test_no_question_is_put_whose_answer_the_computation_does_not_give() -> None:
    quay = told().assessment.installation
    thin_oil = sl.changed(quay, bushing__conductor__diameter="34 mm")
    shares = facts_of(sl.assess(thin_oil))
    assert shares["oil_share"] < shares["porcelain_share"]  # here the text's answer would be wrong
    asked = [
        p.key for v in tour(sl.assess(thin_oil), with_what_ifs=False).views for p in v.predictions
    ]

    assert "better-insulator" not in asked
    assert "better-insulator" in [p.key for v in told().views for p in v.predictions]


def test_a_switch_without_meaning_is_not_offered() -> None:
    quay = next(view for view in told().views if view.key == "dirt")
    inland = next(view for view in told("inland-12kv").views if view.key == "dirt")

    assert "dirtier" not in {found.key for found in quay.what_ifs}  # it has that class already
    assert "dirtier" in {found.key for found in inland.what_ifs}


# --- slides and handout -----------------------------------------------------------------------


@pytest.mark.parametrize("language", languages())
@pytest.mark.parametrize("name", ["inland-12kv", "quay-24kv", "quarry-36kv-cured"])
def test_slides_stand_alone(name: str, language: str) -> None:
    page = html.unescape(slides_html(told(name, language)))

    assert 'http-equiv="Content-Security-Policy"' in page
    assert "default-src 'none'" in page
    fetched = re.findall(r'(?:src|href)="(?!#)[^"]*"', page)
    assert fetched == []
    assert page.count('class="view"') == len(words(language).views)
    assert "{" not in re.sub(r"<(style|script).*?</\1>", "", page, flags=re.DOTALL)


def test_slides_show_the_name_as_text() -> None:
    case = sl.changed(told().assessment.installation, name="<script>alert(1)</script>")
    page = slides_html(tour(sl.assess(case), with_what_ifs=False))

    assert "<script>alert" not in page
    assert "&lt;script&gt;alert" in page


@pytest.mark.parametrize("language", languages())
def test_the_handout_is_a_pdf_and_always_the_same(language: str) -> None:
    first = handout_pdf(told("inland-12kv", language))

    assert first.startswith(b"%PDF")
    assert first == handout_pdf(told("inland-12kv", language))


def test_pictures_stay_small_and_tell_themselves() -> None:
    for view in told().views:
        assert len(paint(view.picture)) < 200_000
        assert view.picture.title
        assert view.picture.description
