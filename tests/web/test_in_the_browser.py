"""The page in a real browser: dragging, keyboard, reload, errors, keeping, comparing."""

from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

from web.served import Served
from web.watched import Watched

AIR = "bushing.porcelain.air_length"
OVERHANG = "bushing.sheds.overhang"
CREEPAGE = '.verdict[data-check="surface.creepage"]'


@pytest.fixture
def quay(served: Served, page: Watched) -> Watched:
    """The quay's section, as it comes."""
    page.open(f"{served.address}/example/quay-24kv")
    return page


def middle_of(tab: Page, grip: str) -> tuple[float, float]:
    box = tab.locator(f'[data-grip="{grip}"] .reach').bounding_box()
    assert box is not None
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def test_dragging_follows_and_the_last_place_stays(served: Served, quay: Watched) -> None:
    tab, asked = quay.page, []
    tab.on("request", lambda request: asked.append(request.post_data_json))
    x, y = middle_of(tab, AIR)
    with quay.shown():
        tab.mouse.move(x, y)
        tab.mouse.down()
        for step in range(1, 31):
            tab.mouse.move(x, y - step)
    states = [each for each in asked if each and "lit" in each]  # what the figure was asked of
    assert 1 <= len(states) < 30, "a drag piles nothing up: some of its places are passed over"
    # The grip stays under the pointer while the section is held at its scale.
    assert middle_of(tab, AIR) == pytest.approx((x, y - 30), abs=4)
    with quay.shown():
        tab.mouse.up()
    value = float(quay.field(AIR).input_value())
    assert value > 300
    assert states[-1]["values"][AIR] == f"{value:g} mm"
    # What is shown is what the last values give, not an older answer.
    last = served.post("/ask/verdicts", {"values": states[-1]["values"]}).json()
    margin = tab.locator(f"{CREEPAGE} .margin").inner_text()
    assert margin in last["parts"]["verdicts"]
    assert tab.locator("#undo").is_enabled()
    with quay.shown():
        tab.click("#undo")
    assert quay.field(AIR).input_value() == "290", "a whole drag is one step"


def test_an_edit_is_seen_soon(quay: Watched) -> None:
    """Generous, since test machines are busy; the bench tells what a quiet one needs."""
    field = quay.field(OVERHANG)
    waits = []
    for text in ("39", "40", "41", "42", "43"):
        began = quay.page.evaluate("performance.now()")
        with quay.shown():
            field.fill(text)
        waits.append(quay.page.evaluate("performance.now()") - began)
    assert sorted(waits)[2] < 5000


def test_the_keyboard_alone_is_enough(quay: Watched) -> None:
    tab = quay.page
    keys = tab.keyboard
    focus_on(tab, CREEPAGE)
    with quay.shown():
        keys.press("Enter")
    assert tab.evaluate("document.activeElement.id") == "calculation"
    with quay.shown():
        keys.press("Escape")
    assert tab.evaluate("document.activeElement.dataset.check") == "surface.creepage"
    keys.press("ArrowDown")
    assert tab.evaluate("document.activeElement.dataset.check") != "surface.creepage"
    focus_on(tab, "#field-bushing-sheds-overhang")
    with quay.shown():
        keys.press("ArrowUp")
    assert quay.field(OVERHANG).input_value() == "39"
    focus_on(tab, f'[data-grip="{AIR}"]')
    with quay.shown():
        keys.press("PageUp")
    assert quay.field(AIR).input_value() == "300"
    with quay.shown():
        keys.press("Control+z")
    with quay.shown():
        keys.press("Control+z")
    assert quay.field(OVERHANG).input_value() == "38"
    with quay.shown():
        keys.press("Control+Shift+z")
    assert quay.field(OVERHANG).input_value() == "39"
    focus_on(tab, "#show-changes")
    keys.press("Enter")
    assert tab.locator("#changes").is_visible()
    keys.press("Escape")
    assert tab.locator("#changes").is_hidden()


def focus_on(tab: Page, selector: str) -> None:
    """Press Tab until something has the focus, as someone without a mouse does."""
    for _ in range(250):
        if tab.evaluate("(selector) => document.activeElement.matches(selector)", selector):
            return
        tab.keyboard.press("Tab")
    raise AssertionError(f"{selector} is not reached with Tab")


def findings(tab: Page) -> list[str]:
    """What the accessibility scan finds, each with the first place."""
    found = Axe().run(tab).response["violations"]
    return [f"{each['id']}: {each['nodes'][0]['html'][:200]}" for each in found]


def test_every_state_is_accessible(served: Served, quay: Watched) -> None:
    tab = quay.page
    assert findings(tab) == []
    with quay.shown():
        tab.click(CREEPAGE)
    assert findings(tab) == []
    quay.fill(OVERHANG, "38 kg")
    assert findings(tab) == []
    quay.fill(OVERHANG, "40")
    tab.click("#show-changes")
    assert findings(tab) == []
    tab.keyboard.press("Escape")
    tab.click("#save")
    assert findings(tab) == []
    for room in ("/open", "/compare", "/file/nothing.toml"):
        quay.open(f"{served.address}{room}")
        assert findings(tab) == [], room


def test_wrong_input_is_told_beside_its_field_and_nothing_is_lost(quay: Watched) -> None:
    tab = quay.page
    before = tab.inner_html("#picture")
    quay.fill(OVERHANG, "38 kg")
    wrong = tab.locator(f'[data-field="{OVERHANG}"] .wrong')
    assert "expected a length from 3 mm to 300 mm" in wrong.inner_text()
    assert quay.field(OVERHANG).get_attribute("aria-invalid") == "true"
    assert tab.inner_html("#picture") == before
    assert "last values that could be used" in tab.inner_text("#stale-note")
    # A shape that no body can have is told at the value that asks for it.
    quay.fill(OVERHANG, "38")
    quay.fill("bushing.porcelain.bore", "10")
    assert tab.locator('[data-field^="bushing."] .wrong:visible').count() == 1
    quay.fill("bushing.porcelain.bore", "36")
    assert tab.locator(".wrong:visible").count() == 0
    assert tab.inner_text("#show-changes") == "No changes"


def test_a_reload_loses_nothing(quay: Watched) -> None:
    tab = quay.page
    quay.fill(OVERHANG, "44")
    quay.fill("bushing.sheds.count", "")
    with quay.shown():
        tab.click(CREEPAGE)
    tab.reload()
    quay.settled()
    assert quay.field(OVERHANG).input_value() == "44"
    assert quay.field("bushing.sheds.count").input_value() == ""
    assert tab.locator('[data-field="bushing.sheds.count"] .wrong').is_visible()
    with quay.shown():
        tab.click("#undo")
    assert quay.field("bushing.sheds.count").input_value() == "5"
    assert tab.locator("#calculation .step").count() > 0, "the open check stays open"
    with quay.shown():
        tab.click("#undo")
    assert quay.field(OVERHANG).input_value() == "38"


def test_layers_are_switched_and_stay_so(quay: Watched) -> None:
    tab = quay.page
    path = tab.locator('[data-layer="creepage path"]')
    assert path.is_visible()
    tab.uncheck('[data-layer-switch="creepage path"]')
    assert path.get_attribute("display") == "none"
    quay.fill(OVERHANG, "40")
    assert path.get_attribute("display") == "none"
    with quay.shown():
        tab.uncheck('[data-layer-switch="dimensions"]')
    assert tab.locator('[data-layer="dimensions"]').count() == 0


def test_other_pictures_come_and_can_be_stopped(quay: Watched) -> None:
    tab = quay.page
    with quay.shown():
        tab.select_option("#picture-choice", "field")
    assert tab.locator("#picture svg title").first.text_content() != ""
    assert tab.locator('[data-layer="equipotentials"]').count() == 1
    tab.route("**/ask/picture", lambda route: None)  # a solve that hangs
    tab.select_option("#picture-choice", "stress")
    tab.click("#status button:text-is('Stop')")
    tab.wait_for_selector("#status button:text-is('Try again')")
    assert "stopped" in tab.inner_text("#status")
    with quay.shown():
        tab.select_option("#picture-choice", "section")
    assert tab.locator("[data-grip]").count() > 3


def test_a_newer_file_is_not_overwritten_unseen(served: Served, page: Watched) -> None:
    path = served.put("shared.toml")
    tab = page.page
    page.open(f"{served.address}/file/shared.toml")
    page.fill(OVERHANG, "40")
    path.write_text(path.read_text(encoding="utf-8") + "# by another hand\n", encoding="utf-8")
    tab.click("#save")
    tab.wait_for_selector("#saving-wrong:visible")
    assert "changed by something else" in tab.inner_text("#saving-wrong")
    assert path.read_text(encoding="utf-8").endswith("# by another hand\n")
    assert 'overhang = "38 mm"' in path.read_text(encoding="utf-8")
    tab.click("#save-over")
    tab.wait_for_selector("#status:has-text('Saved as shared.toml')")
    assert 'overhang = "40 mm"' in path.read_text(encoding="utf-8")


def test_two_variants_beside_each_other(served: Served, quay: Watched) -> None:
    tab = quay.page
    quay.fill(OVERHANG, "44")
    quay.open(f"{served.address}/compare")
    assert tab.locator(".sides svg.figure").count() == 2
    scales = tab.locator(".sides svg.figure").evaluate_all(
        "(all) => all.map((svg) => svg.dataset.scale / svg.viewBox.baseVal.height "
        "* svg.getBoundingClientRect().height)"
    )
    assert scales[0] == pytest.approx(scales[1], rel=0.01), "both are drawn at one scale"
    values = tab.locator("table", has_text="Values that differ").inner_text()
    assert "Sheds: overhang" in values
    assert "38 mm" in values
    assert "44 mm" in values
    assert "Bore" not in values
    with quay.shown():
        tab.select_option("#right", "own:saved")
    assert "nothing differs" in tab.inner_text("#compared")


def test_everything_can_be_taken_away(quay: Watched, tmp_path: Path) -> None:
    tab = quay.page
    begins = {
        "calculation-html": b"<!DOCTYPE html>",
        "drawing-pdf": b"%PDF",
        "drawing-svg": b"<svg",
        "drawing-png": b"\x89PNG",
        "description": b"name = ",
        "data": b"{",
    }
    for kind, begin in begins.items():
        tab.locator("#take").evaluate("(menu) => { menu.open = true; }")
        with tab.expect_download() as taken:
            tab.click(f'[data-take="{kind}"]')
        taken.value.save_as(tmp_path / kind)
        assert (tmp_path / kind).read_bytes().startswith(begin), kind


def test_a_server_that_is_gone_is_told(quay: Watched) -> None:
    tab = quay.page
    tab.route("**/ask/verdicts", lambda route: route.abort())
    quay.fill(OVERHANG, "41")
    assert "does not answer" in tab.inner_text("#status")
    tab.unroute("**/ask/verdicts")
    with quay.shown():
        tab.click("#status button:text-is('Try again')")
    assert tab.inner_text("#status") == ""
    assert quay.field(OVERHANG).input_value() == "41"
    quay.faults = [fault for fault in quay.faults if "ERR_FAILED" not in fault]


@pytest.mark.parametrize(("width", "height"), [(1280, 800), (1920, 1080)])
def test_it_fits_the_screen(quay: Watched, width: int, height: int) -> None:
    tab = quay.page
    tab.set_viewport_size({"width": width, "height": height})
    for opened in (False, True):
        if opened:
            with quay.shown():
                tab.click(CREEPAGE)
        sizes = "[document.documentElement.scrollWidth, document.documentElement.scrollHeight]"
        assert tab.evaluate(sizes) == [width, height]
        box = tab.locator("#picture svg").bounding_box()
        assert box is not None
        assert box["height"] > 0.55 * height
    wide = tab.locator(".judge").evaluate("(column) => column.scrollWidth - column.clientWidth")
    assert wide <= 0
