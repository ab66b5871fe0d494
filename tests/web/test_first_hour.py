"""A newcomer's first hour, as one story in a real browser."""

from pathlib import Path

from pypdf import PdfReader

from web.served import Served
from web.watched import Watched

CURE = {
    "bushing.porcelain.air_length": "330",
    "bushing.sheds.count": "7",
    "bushing.sheds.overhang": "46",
    "bushing.sheds.pitch": "41",
    "bushing.sheds.first_tip": "40",
}
CREEPAGE = '[data-check="surface.creepage"]'


def test_the_quay_falls_short_and_is_cured(served: Served, page: Watched, tmp_path: Path) -> None:
    open_the_quay(served, page)
    see_what_fails(page)
    read_the_calculation(page)
    cure_it(page)
    save_it(served, page)
    take_the_calculation_away(page, tmp_path)


def open_the_quay(served: Served, page: Watched) -> None:
    page.open(served.address)
    assert "In the folder bushings" in page.page.inner_text("main")
    page.page.click("a:text-is('quay-24kv')")
    page.page.wait_for_url("**/example/quay-24kv")
    page.settled()


def see_what_fails(page: Watched) -> None:
    """It stands first, is told in words, and its place is lit up."""
    tab = page.page
    assert tab.inner_text("#headline .overall") == "Fail"
    first = tab.locator(".verdict").first
    assert first.get_attribute("data-check") == "surface.creepage"
    assert "−18.5" in first.inner_text()
    assert "fail" in first.inner_text()
    assert "Creepage for the dirt of the site: short by 18.5%" in tab.inner_text("#caption")
    assert tab.locator('[data-layer="marks"] path').count() > 0


def read_the_calculation(page: Watched) -> None:
    """Choosing it opens the calculation, line by line, with its sources."""
    with page.shown():
        page.page.click(CREEPAGE)
    lines = page.page.inner_text("#calculation")
    assert "744.1" in lines
    assert "606.3" in lines
    assert "IEC 60815-1" in lines
    assert page.page.locator("#calculation .step").count() >= 5


def cure_it(page: Watched) -> None:
    """More and alternating sheds on a taller body; what is still missing is told at its place."""
    tab = page.page
    page.choose("bushing.sheds.form", "alternating")
    assert "cannot be used" in tab.inner_text("#status")
    assert tab.locator('[data-field="bushing.sheds.short_overhang"] .wrong').is_visible()
    assert tab.locator("#stale-note").is_visible()
    page.fill("bushing.sheds.short_overhang", "30")
    for path, text in CURE.items():
        page.fill(path, text)
    assert tab.locator("#stale-note").is_hidden()
    assert tab.locator("#calculation .chip").first.inner_text() == "pass"
    assert "pass" in page.verdict("surface.creepage")


def save_it(served: Served, page: Watched) -> None:
    """What changed is told, and kept under a name of one's own, remarks included."""
    tab = page.page
    assert tab.inner_text("#show-changes") == "7 changes"
    tab.click("#save")
    tab.fill("#save-name", "cured.toml")
    tab.click("#save-now")
    tab.wait_for_selector("#kept:text-is('cured.toml')")
    text = (served.folder / "cured.toml").read_text(encoding="utf-8")
    assert 'form = "alternating"' in text
    assert "# top of the clamps to the underside of the cap" in text
    assert tab.inner_text("#show-changes") == "No changes"


def take_the_calculation_away(page: Watched, place: Path) -> None:
    page.page.click("#take summary")
    with page.page.expect_download() as taken:
        page.page.click('[data-take="calculation-pdf"]')
    taken.value.save_as(place / "taken.pdf")
    sheets = [sheet.extract_text() for sheet in PdfReader(place / "taken.pdf").pages]
    assert any("Creepage for the dirt of the site" in sheet for sheet in sheets)
    assert taken.value.suggested_filename.endswith("calculation.pdf")
