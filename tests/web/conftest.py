"""A served page and a browser for the tests of this folder."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, sync_playwright

from web.served import Served, serving
from web.watched import BROWSER, Watched


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    """One browser for a file of tests; each test has a context of its own.

    Its driver bends the interpreter's stack as long as it runs, so it does not outlive the file.
    """
    with sync_playwright() as driver:
        chromium = driver.chromium.launch(executable_path=BROWSER, args=["--no-sandbox"])
        yield chromium
        chromium.close()


@pytest.fixture(scope="session")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """The page on a working folder, for all tests; each uses file names of its own."""
    place = tmp_path_factory.mktemp("page") / "bushings"
    place.mkdir()
    with serving(place) as started:
        yield started


@pytest.fixture(scope="session")
def demo(served: Served) -> Served:
    """The same page, for tests that only look at the examples."""
    return served


@pytest.fixture
def page(browser: Browser) -> Iterator[Watched]:
    """A tab that fails its test when the page reports a fault or asks another host."""
    context = browser.new_context(viewport={"width": 1280, "height": 800}, accept_downloads=True)
    watched = Watched(context.new_page())
    yield watched
    context.close()
    assert not watched.faults
