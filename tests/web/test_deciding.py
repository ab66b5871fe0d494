"""Deciding on the page: propose and take over, weigh compromises, ask why, stop, be refused."""

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import FilePayload, Page

from shedlight.sizing.request import request_from
from web.served import Served
from web.watched import Watched

PATIENCE = 480_000  # [ms]; a search takes its time where the machine is busy
FIXED = (
    "bushing.conductor.diameter",
    "bushing.porcelain.bore",
    "bushing.porcelain.wall",
    "bushing.sheds.count",
    "bushing.oil_end.length",
)
AIR = "bushing.porcelain.air_length"
OVERHANG = "bushing.sheds.overhang"


def begin(served: Served, page: Watched, *keep: str, example: str = "quay-24kv") -> Page:
    """The room, with plain sheds and most dimensions kept: a search of seconds."""
    page.open(f"{served.address}/example/{example}")
    page.page.click("a[data-room='/decide']")
    page.settled()
    page.page.set_default_timeout(PATIENCE)
    page.page.select_option("[data-wish=sheds]", "plain")
    for path in keep:
        page.page.check(f"[data-keep='{path}']")
    return page.page


def findings(tab: Page) -> list[str]:
    """What the accessibility scan finds, each with the first place."""
    found = Axe().run(tab).response["violations"]
    return [f"{each['id']}: {each['nodes'][0]['html'][:200]}" for each in found]


def test_a_proposal_is_shown_beside_taken_over_and_taken_back(
    served: Served, page: Watched
) -> None:
    tab = begin(served, page, *FIXED)
    assert findings(tab) == []
    usual = tab.get_attribute("[data-wish=margin]", "placeholder")
    assert float(usual or "nan") == 100 * request_from({}).wishes.margin
    with page.shown():
        tab.click("#propose")
    beside = tab.inner_text("#proposed")
    assert "On the page now" in beside
    assert "Porcelain body: air length" in beside
    assert "Masses" in beside
    assert tab.locator("#proposed .sides svg.figure").count() == 2
    assert findings(tab) == []

    with page.shown():
        tab.click("[data-take=proposal]")
    assert "Took over the proposed bushing" in tab.inner_text("#status")
    assert tab.inner_text(f"[data-now='{AIR}']") != "290 mm"
    tab.click("#status a")
    page.settled()
    assert page.field(AIR).input_value() != "290"
    assert "changes" in tab.inner_text("#show-changes")
    with page.shown():
        tab.click("#undo")
    assert page.field(AIR).input_value() == "290", "a whole bushing is one step"
    assert tab.inner_text("#show-changes") == "No changes"


def test_rods_in_stock_are_what_is_chosen_from(served: Served, page: Watched) -> None:
    rod = "bushing.conductor.diameter"
    tab = begin(served, page, *(path for path in FIXED if path != rod))
    rods: FilePayload = {
        "name": "rods.csv",
        "mimeType": "text/csv",
        "buffer": b"diameter [mm]\n23\n33\n",
    }
    tab.set_input_files("#stock-rods", rods)
    with page.shown():
        tab.click("#propose")
    with page.shown():
        tab.click("[data-take=proposal]")
    assert tab.inner_text(f"[data-now='{rod}']") in ("23 mm", "33 mm")


def test_what_is_taken_over_can_be_taken_back_at_once(served: Served, page: Watched) -> None:
    tab = begin(served, page, *FIXED, OVERHANG)
    with page.shown():
        tab.click("#propose")
    with page.shown():
        tab.click("[data-take=proposal]")
    with page.shown():
        tab.click("#status button:text-is('Undo')")
    assert tab.inner_text(f"[data-now='{AIR}']") == "290 mm"


def test_demands_that_contradict_are_told_with_what_would_help(
    served: Served, page: Watched
) -> None:
    tab = begin(served, page, *FIXED, OVERHANG, AIR)
    tab.fill("[data-wish=largest_height]", "300")
    with page.shown():
        tab.click("#propose")
    assert "Does not hold all that was asked" in tab.inner_text("#proposed")
    demands = tab.inner_text("#conflict")
    assert "largest height" in demands
    assert "Creepage for the dirt of the site" in demands
    assert tab.locator("#relaxing").count() == 1
    assert findings(tab) == []


def test_a_wish_that_means_nothing_is_told_and_nothing_is_lost(
    served: Served, page: Watched
) -> None:
    tab = begin(served, page)
    tab.fill("[data-wish=margin]", "5 mm")
    with page.shown():
        tab.click("#propose")
    assert "margin: Given" in tab.inner_text("#status")
    tab.reload()
    page.settled()
    assert tab.input_value("[data-wish=margin]") == "5 mm"
    tab.select_option("#second", "lightest")
    tab.fill("[data-wish=margin]", "")
    with page.shown():
        tab.click("#weigh")
    assert "two different objectives" in tab.inner_text("#status")


def test_compromises_fill_in_and_are_chosen_by_pointer_and_keyboard(
    served: Served, page: Watched
) -> None:
    tab = begin(served, page, *FIXED, example="inland-12kv")
    with page.shown():
        tab.click("#weigh")
        tab.wait_for_selector("[data-choice]")
        assert "drafts looked at" in tab.inner_text("#status"), "the first come before the last"
    places = tab.locator("#front [data-choice]")
    number = places.count()
    assert number >= 3
    assert tab.locator("#candidates li").count() == number
    assert "The least margin is counted over" in tab.inner_text("#counted")

    places.nth(1).click()
    tab.wait_for_selector("html[data-chosen='1']")
    assert "Compromise 2" in tab.inner_text("#chosen-title")
    assert tab.locator("#candidate .sides svg.figure").count() == 2
    assert findings(tab) == []

    places.nth(1).focus()
    tab.keyboard.press("ArrowRight")
    tab.keyboard.press("Enter")
    tab.wait_for_selector("html[data-chosen='2']")
    assert "Compromise 3" in tab.inner_text("#chosen-title")
    assert places.nth(2).get_attribute("aria-pressed") == "true"
    with page.shown():
        tab.click("[data-take=candidate]")
    assert "Took over compromise 3" in tab.inner_text("#status")


def test_why_is_told_dimension_by_dimension_and_in_the_picture(
    served: Served, page: Watched
) -> None:
    tab = begin(served, page, example="inland-12kv")
    with page.shown():
        tab.click("#why")
    assert tab.locator("[data-reason]").count() >= 14
    assert "1.8 times the oil end" in tab.inner_text("#air-oil")

    note = tab.locator(f"#why-picture [data-choice='{AIR}']")
    note.click()
    told = tab.locator(f"[data-reason='{AIR}']")
    assert told.get_attribute("open") is not None
    assert "Would just do with" in told.inner_text()
    assert "one millimetre more" in told.inner_text()
    tab.locator("#why-picture [data-choice='bushing.oil_end.length']").focus()
    tab.keyboard.press("Enter")
    assert told.get_attribute("open") is None
    assert "Creep along the oil-side surface" in tab.inner_text("[data-reason][open]")
    assert findings(tab) == []


def test_long_work_is_stopped_and_keeps_nothing_else_waiting(served: Served, page: Watched) -> None:
    tab = begin(served, page)
    tab.select_option("[data-wish=sheds]", "any")
    tab.click("#propose")
    tab.wait_for_selector("#stop-row:visible")
    values = served.post("/description", {"origin": "example", "name": "quay-24kv"}).json()
    assert "headline" in served.post("/ask/verdicts", {"values": values["values"]}).json()["parts"]
    with page.shown():
        tab.click("#stop")
    assert "Stopped before it was done" in tab.inner_text("#status")
    assert tab.locator("#stop-row").is_hidden()


def test_a_compromise_that_is_none_is_refused_in_words(served: Served) -> None:
    values = served.post("/description", {"origin": "example", "name": "quay-24kv"}).json()
    whole = {
        "form": "plain", "count": 5, "palm": 1, "gasket": "nitrile",
        "conductor": 0.02, "gap": 0.008, "wall": 0.016, "air": 0.29, "overhang": 0.038,
        "oil": 0.15, "cap_edge": 0.003,
    }  # fmt: skip
    for draft in (
        None,
        {},
        whole | {"count": 10**9},
        whole | {"air": "1e999"},
        whole | {"palm": -1},
    ):
        asked = {"values": values["values"], "draft": draft, "margin": 0.05}
        answer = served.post("/ask/candidate", asked).json()
        assert "no compromise" in answer["problems"][0]["said"], draft
