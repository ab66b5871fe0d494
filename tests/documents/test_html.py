"""The page: complete, self-contained, safe, readable by all."""

import re
from html.parser import HTMLParser
from importlib import resources

import pytest

from documents.subjects import DEMOS, HOSTILE, HTML, assessed
from shedlight.checks.check import Verdict
from shedlight.documents.html import calculation_html

VOID = ("br", "meta", "hr", "img")


class Reader(HTMLParser):
    """Reads a page: its text, ids, links and tags; complains about tags left open."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.texts: list[str] = []
        self.ids: list[str] = []
        self.links: list[str] = []
        self.tags: list[str] = []
        self.attributes: list[tuple[str, dict[str, str | None]]] = []
        self.open: list[str] = []
        self.feed(page)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_startendtag(tag, attrs)
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.attributes.append((tag, dict(attrs)))
        for name, value in attrs:
            if name == "id":
                self.ids.append(value or "")
            if name in ("href", "xlink:href"):
                self.links.append(value or "")

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        if not self.open or self.open[-1] != "style":
            self.texts.append(data)

    @property
    def text(self) -> str:
        return " ".join("".join(self.texts).split())


@pytest.fixture(scope="module", params=DEMOS)
def name(request: pytest.FixtureRequest) -> str:
    return str(request.param)


def test_tags_close_ids_are_unique_and_links_lead_somewhere(name: str) -> None:
    page = Reader(calculation_html(assessed(name)))

    assert page.open == []
    assert len(page.ids) == len(set(page.ids))
    assert page.links
    assert {link.removeprefix("#") for link in page.links} <= set(page.ids)


def test_every_check_source_and_reason_is_there(name: str) -> None:
    assessment = assessed(name)
    page = Reader(calculation_html(assessment))

    assert assessment.verdict_sentence in page.text
    for check in assessment.checks:
        assert f"check-{check.id}" in page.ids
        assert check.question.why in page.text
        if check.verdict is not Verdict.PASS or check.demand is None:
            assert check.reason in page.text
        for citation in check.cited:
            assert citation.source.title in page.text
            assert citation.where in page.text
        for note in check.notes:
            assert note in page.text


def test_nothing_is_fetched_and_nothing_runs() -> None:
    text = calculation_html(assessed())
    page = Reader(text)

    assert "script" not in page.tags
    assert 'http-equiv="Content-Security-Policy" content="default-src &#x27;none&#x27;' in text
    assert not re.search(r"(?:src|href)=\"(?!#)", text)
    assert "url(" not in text
    assert not [name for _, attrs in page.attributes for name in attrs if name.startswith("on")]


@pytest.mark.parametrize("called", HOSTILE)
def test_a_name_stays_a_name(called: str) -> None:
    plain = Reader(calculation_html(assessed(called="plain", remark="plain")))
    page = Reader(calculation_html(assessed(called=called, remark=called)))

    assert page.text.count(" ".join(called.split())) >= 2
    assert page.open == []
    assert set(page.tags) == set(plain.tags)


def test_hostile_text_is_escaped() -> None:
    text = calculation_html(assessed(called=HTML, remark=HTML))

    assert HTML not in text
    assert "<script" not in text
    assert "<img" not in text


def test_pictures_and_tables_have_words() -> None:
    page = Reader(calculation_html(assessed()))
    pictures = [attrs for tag, attrs in page.attributes if tag == "svg"]
    named = ("aria-label", "aria-labelledby", "aria-hidden")

    assert len(pictures) > 100
    assert all(any(attrs.get(name) for name in named) for attrs in pictures)
    assert page.tags.count("caption") == page.tags.count("table")
    assert page.tags.count("h1") == 1


def test_headings_go_down_one_by_one() -> None:
    page = Reader(calculation_html(assessed()))
    levels = [int(tag[1]) for tag in page.tags if re.fullmatch(r"h[1-6]", tag)]

    first = levels.index(1)
    assert all(
        after <= before + 1
        for before, after in zip(levels[first:], levels[first + 1 :], strict=False)
    )


def test_a_verdict_is_a_word_with_a_shape() -> None:
    text = calculation_html(assessed())
    chips = re.findall(r'<span class="chip verdict-[a-z-]+">(.*?)</span>', text)

    assert len(chips) > 100
    assert all(
        re.fullmatch(r"<svg class=\"shape\".*</svg>(fail|caution|not assessed|pass)", chip)
        for chip in chips
    )


def test_equal_input_gives_equal_pages() -> None:
    assert calculation_html(assessed()) == calculation_html(assessed())


def test_the_date_stands_only_where_given() -> None:
    assert "3 May 2031" in calculation_html(assessed(), date="3 May 2031")


def luminance(colour: str) -> float:
    parts = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    red, green, blue = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours (WCAG 2.1, definition of contrast ratio)."""
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_contrast_is_computed_as_defined() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.01)


@pytest.mark.parametrize("background", ["#ffffff", "#f3f6f8", "#fff6d9"])
def test_every_colour_of_letters_can_be_read(background: str) -> None:
    style = resources.files("shedlight.documents").joinpath("page.css").read_text("utf-8")
    colours = dict(re.findall(r"--(\w+): (#[0-9a-f]{6})", style))

    for used in ("ink", "soft", "accent", "fail", "caution", "open", "pass"):
        assert contrast(colours[used], background) >= 4.5, used
