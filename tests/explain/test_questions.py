"""Worked questions: right answers are the computation's own, wrong ones are explained slips."""

import re
from functools import cache
from pathlib import Path

import pytest

import shedlight as sl
from edits import EXAMPLES, NAMES, example
from shedlight.cli.entry import run
from shedlight.explain.questions.asking import QUESTIONS, TOPICS, Asked, asked_of
from shedlight.explain.questions.plausible import plausible
from shedlight.explain.questions.printing import sheet_file, sheet_html, sheet_markdown, sheet_pdf
from shedlight.explain.questions.sheet import LEVELS, Sheet, Wish, sheet, sheet_words
from shedlight.explain.words import places_in
from shedlight.trace import derivation

DIGIT = re.compile(r"\d")
NAMED = re.compile(r"√[23]|[23]π|1000 m|factor 3|273\.15|I²R|by 3|by 2|2π")


@cache
def every(name: str) -> tuple[Asked, ...]:
    return asked_of(sl.assess(sl.parse(example(name))))


@cache
def made(seed: int = 1) -> Sheet:
    return sheet(sl.parse(example("quarry-36kv")), Wish(count=18, seed=seed))


# --- what is asked ----------------------------------------------------------------------------


@pytest.mark.parametrize("name", NAMES)
def test_answers_come_from_the_computation_with_their_steps(name: str) -> None:
    for asked in every(name):
        assert derivation(asked.answer)[-1] == asked.answer.step
        assert asked.level in LEVELS


def test_every_question_is_asked_of_some_example_and_has_its_words() -> None:
    seen = {asked.key for name in NAMES for asked in every(name)}
    spoken = sheet_words()

    assert seen == set(QUESTIONS) == set(spoken.question)
    assert set(spoken.topic) == set(TOPICS)
    slips = {slip for name in NAMES for asked in every(name) for slip in asked.slips}
    assert slips == set(spoken.slip)


def test_words_hold_no_computed_number() -> None:
    spoken = sheet_words()
    for text in (*spoken.question.values(), *spoken.slip.values()):
        assert not DIGIT.search(NAMED.sub("", re.sub(r"\{[^}]*\}", "", text))), text
    for text in spoken.slip.values():
        assert places_in(text) == ()


def test_slips_are_what_they_say() -> None:
    asked = {item.key: item for item in every("quarry-36kv")}
    to_earth = asked["voltage to earth"]
    assert to_earth.slips["between phases"] == pytest.approx(36e3)
    assert to_earth.slips["peak"] == pytest.approx(36e3 / 3**0.5 * 2**0.5)
    field = asked["field in the oil"]
    assert field.slips["diameter for radius"] == pytest.approx(field.answer / 2)
    density = asked["current density"]
    assert density.slips["diameter for radius"] == pytest.approx(density.answer / 4)
    # The circumference in millimetres in place of the area in square millimetres.
    assert density.slips["circumference"] == pytest.approx(1e6 * 1000 / (3.141592653589793 * 30))


def test_no_level_at_height_is_asked_where_no_height_counts() -> None:
    assert "level at height" not in {asked.key for asked in every("quay-24kv")}
    assert "level at height" in {asked.key for asked in every("quarry-36kv")}


# --- sheets -------------------------------------------------------------------------------------


def test_one_option_is_right_and_all_can_be_told_apart() -> None:
    for item in made().items:
        texts = [option.text for option in item.options]
        assert len(set(texts)) == len(texts) >= 3
        assert [n for n, option in enumerate(item.options) if not option.why_not] == [item.right]
        assert item.options[item.right].text == item.answer.text
        assert item.steps


def test_a_seed_gives_the_same_sheet_and_another_one_another() -> None:
    quarry = sl.parse(example("quarry-36kv"))

    assert sheet(quarry, Wish(count=18, seed=1)) == made()
    assert [item.text for item in made(2).items] != [item.text for item in made().items]


def test_the_right_answer_does_not_keep_one_letter() -> None:
    assert len({item.right for item in made().items}) > 1


@pytest.mark.parametrize("topic", TOPICS)
def test_topics_can_be_chosen(topic: str) -> None:
    found = sheet(sl.parse(example("quarry-36kv")), Wish(topics=(topic,), count=3))

    assert {item.topic for item in found.items} == {sheet_words().topic[topic]}


def test_levels_can_be_chosen() -> None:
    found = sheet(sl.parse(example("quarry-36kv")), Wish(levels=(1,), count=5))

    assert {item.level for item in found.items} == {1}
    assert all(len(item.steps) == 1 for item in found.items)


@pytest.mark.parametrize(
    ("wish", "said"),
    [
        (Wish(topics=("colour",)), "topic: given 'colour'"),
        (Wish(levels=(4,)), "level: given 4"),
        (Wish(count=0), "number: given 0"),
        (Wish(topics=("seal",), levels=(3,)), "no question of these topics and levels"),
    ],
)
def test_wishes_that_cannot_be_met_are_refused(wish: Wish, said: str) -> None:
    with pytest.raises(sl.InputError, match=re.escape(said)):
        sheet(sl.parse(example("quay-24kv")), wish)


def test_every_pupil_gets_numbers_of_their_own() -> None:
    found = sheet(
        sl.parse(example("quarry-36kv")),
        Wish(topics=("heat",), count=6, seed=5, random_installations=True),
    )

    assert len(found.items) == 6
    assert len({item.answer.text for item in found.items}) > 2


def test_random_installations_repeat_with_their_seed() -> None:
    quay = sl.parse(example("quay-24kv"))
    first, again = (next(plausible(quay, 9)).installation for _ in range(2))

    assert first == again
    assert first != quay


# --- on paper -------------------------------------------------------------------------------------


def test_sheets_without_answers_give_nothing_away() -> None:
    page, text = sheet_html(made(), answers=False), sheet_markdown(made(), answers=False)
    for item in made().items:
        for option in item.options:
            if option.why_not:
                assert option.why_not not in page
                assert option.why_not not in text
    assert 'class="step"' not in page


def test_answers_show_every_step_and_its_source() -> None:
    text = sheet_markdown(made(), answers=True)
    for item in made().items:
        for step in item.steps:
            assert step.formula in text
            assert step.source in text


def test_pdfs_are_always_the_same() -> None:
    first = sheet_pdf(made(), answers=True)

    assert first.startswith(b"%PDF")
    assert first == sheet_pdf(made(), answers=True)


def test_names_are_text_on_every_sheet() -> None:
    case = sl.changed(sl.parse(example("quay-24kv")), name="<b>bold</b> $x$ #x")
    named = sheet(case, Wish(count=1))

    assert "<b>" not in sheet_html(named, answers=True)
    assert "<b>" not in sheet_markdown(named, answers=True)
    assert sheet_file(named, "pdf", answers=True)


def test_the_command_writes_all_sheets(tmp_path: Path) -> None:
    lesson = tmp_path / "lesson"
    status = run(["questions", str(EXAMPLES / "quay-24kv.toml"), "-o", str(lesson)])

    assert status == 0
    names = {path.name for path in lesson.iterdir()}
    assert names == {f"{n}.{k}" for n in ("questions", "answers") for k in ("pdf", "html", "md")}
