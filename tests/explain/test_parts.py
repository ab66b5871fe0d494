"""The parts page knows every part, and every part is protected by checks that exist."""

from shedlight.checks.catalogue import questions
from shedlight.explain.parts import parts, parts_page

WHOLE = {"duty", "whole bushing"}


def test_every_part_named_by_a_check_is_on_the_page() -> None:
    asked_about = {question.part for question in questions().values()} - WHOLE
    explained = {name for part in parts() for name in part.checks}

    assert asked_about == explained


def test_every_part_has_checks_and_words() -> None:
    for part in parts():
        assert part.questions, part.key
        for text in (part.name, part.material, part.task, part.failure):
            assert text.strip() == text
            assert text
    assert len({part.key for part in parts()}) == len(parts())


def test_the_page_lists_each_part_once_with_its_checks() -> None:
    page = parts_page()

    for part in parts():
        assert page.count(f"\n## {part.name}") == 1
        for question in part.questions:
            assert f"`{question.id}`" in page
