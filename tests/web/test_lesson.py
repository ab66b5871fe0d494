"""A lesson given from the page: turn, predict, change depth, point, take questions away."""

from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser
from pypdf import PdfReader

import shedlight as sl
from edits import example
from shedlight.explain.slides import slides_html
from shedlight.explain.tour import tour
from web.served import Served
from web.watched import Watched

HERE = ".view.here"


def begin(demo: Served, page: Watched) -> None:
    page.open(f"{demo.address}/example/quay-24kv")
    page.settled()
    page.page.click("a[data-room='/explain']")
    page.settled()


def test_a_lesson_is_led_with_the_keyboard_alone(demo: Served, page: Watched) -> None:
    begin(demo, page)
    tab = page.page
    assert "Why not simply a hole?" in tab.inner_text(HERE)

    tab.keyboard.press("ArrowRight")
    assert tab.inner_text(f"{HERE} .place") == "2 of 16"
    tab.keyboard.press("1")
    assert tab.locator(f"{HERE} .depth:visible").get_attribute("data-for") == "operator"
    tab.keyboard.press("3")
    assert "E(r) = U / (ε r S)" in tab.inner_text(HERE)
    assert tab.locator(f"{HERE} .notes").is_hidden()
    tab.keyboard.press("n")
    assert tab.locator(f"{HERE} .notes").is_visible()
    tab.keyboard.press("End")
    assert "Cautions" in tab.inner_text(HERE)
    tab.keyboard.press("Home")
    assert tab.inner_text(f"{HERE} .place") == "1 of 16"


def test_predict_first_then_see_what_was_computed(demo: Served, page: Watched) -> None:
    begin(demo, page)
    tab = page.page
    tab.select_option("#jump", "view-wall-page")
    asked = tab.locator(f"{HERE} .prediction")
    assert asked.locator(".answer").is_hidden()

    asked.locator("label").first.click()
    asked.locator(".reveal").click()
    assert "Not so." in asked.inner_text()
    assert "63.05" in asked.locator(".answer").inner_text()
    asked.locator("label").nth(1).click()
    asked.locator(".reveal").click()
    assert "Right." in asked.inner_text()


def test_two_points_run_the_two_ways(demo: Served, page: Watched) -> None:
    begin(demo, page)
    tab = page.page
    tab.select_option("#jump", "view-surface-page")
    tab.locator("#way").fill("1000")

    assert tab.locator("#along").inner_text() == "606"
    assert tab.locator("#through").inner_text() == "303"
    assert tab.locator(f"{HERE} circle[r='180']").count() == 2


def test_pointing_shows_the_value_large(demo: Served, page: Watched) -> None:
    begin(demo, page)
    tab = page.page
    tab.select_option("#jump", "view-surface-page")
    tab.click("#point")
    box = tab.locator(f"{HERE} svg.figure").first.bounding_box()
    assert box is not None
    tab.mouse.move(box["x"] + 0.55 * box["width"], box["y"] + 0.8 * box["height"])
    tab.wait_for_selector("html[data-read]")

    assert "kV to earth" in tab.inner_text("#reading")
    assert "kV/mm" in tab.inner_text("#reading")
    size = tab.eval_on_selector("#reading", "panel => getComputedStyle(panel).fontSize")
    assert float(size.removesuffix("px")) >= 24


def test_the_tour_speaks_another_language_and_follows_the_edits(
    demo: Served, page: Watched
) -> None:
    page.open(f"{demo.address}/example/quay-24kv")
    page.settled()
    page.fill("transformer.hole_diameter", "74")
    page.page.click("a[data-room='/explain']")
    page.settled()
    assert "74\N{NO-BREAK SPACE}mm" in page.page.inner_text(f"{HERE} .idea")

    page.page.select_option("#language", "de")
    page.page.wait_for_selector("html[data-shown=de]")
    assert "Warum nicht einfach ein Loch?" in page.page.inner_text(HERE)


def test_question_and_answer_sheets_are_taken_away(
    demo: Served, page: Watched, tmp_path: Path
) -> None:
    begin(demo, page)
    page.page.click(".lesson .menu summary")
    page.page.select_option("#topic", "wall")
    page.page.fill("#count", "2")
    with page.page.expect_download() as taken:
        page.page.click("[data-sheet=answers]")
    taken.value.save_as(tmp_path / "answers.pdf")
    text = "".join(sheet.extract_text() for sheet in PdfReader(tmp_path / "answers.pdf").pages)

    assert "Step 1" in text
    assert "The wall" in text


@pytest.mark.parametrize("place", ["view-wall-page", "view-surface-page", "parts-page"])
def test_the_accessibility_scan_of_the_lesson_is_clean(
    demo: Served, page: Watched, place: str
) -> None:
    begin(demo, page)
    page.page.evaluate(f"location.hash = '#{place}'")
    page.page.reload()
    page.settled()
    found = Axe().run(page.page)

    assert found.violations_count == 0, found.generate_report()


def test_the_file_to_take_away_works_offline(browser: Browser, tmp_path: Path) -> None:
    place = tmp_path / "tour.html"
    case = sl.parse(example("inland-12kv"))
    place.write_text(slides_html(tour(sl.assess(case))), encoding="utf-8")
    context = browser.new_context(offline=True)
    watched = Watched(context.new_page())
    watched.page.goto(place.as_uri())
    watched.page.keyboard.press("ArrowRight")

    assert watched.page.inner_text(f"{HERE} .place") == "2 of 16"
    found = Axe().run(watched.page)
    assert found.violations_count == 0, found.generate_report()
    context.close()
    assert not [fault for fault in watched.faults if "file:" not in fault]
