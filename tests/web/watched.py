"""A browser tab under watch: what it must never do, and how to wait for it."""

from collections.abc import Iterator
from contextlib import contextmanager
from urllib.parse import urlsplit

from playwright.sync_api import ConsoleMessage, Locator, Page, Request

BROWSER = "/usr/bin/chromium"
PATIENCE = 60_000  # [ms]; generous, since every wait ends with an event
IDLE = "html[data-idle=yes]"


class Watched:
    """A tab that notes every fault, and every request that leaves this machine."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.faults: list[str] = []
        page.set_default_timeout(PATIENCE)
        page.on("pageerror", lambda error: self.faults.append(f"script: {error}"))
        page.on("console", self._said)
        page.on("request", self._asked)

    def _said(self, message: ConsoleMessage) -> None:
        # A refused value comes back as an answer with a status; the browser logs that as an error.
        if message.type in ("error", "warning") and "status of 4" not in message.text:
            self.faults.append(f"console: {message.text}")

    def _asked(self, request: Request) -> None:
        parts = urlsplit(request.url)
        if parts.scheme in ("http", "https", "ws", "wss") and parts.hostname != "127.0.0.1":
            self.faults.append(f"asked elsewhere: {request.url}")

    def open(self, address: str) -> None:
        """Open an address and wait for the page to be ready."""
        self.page.goto(address)
        self.settled()

    def settled(self) -> None:
        """Wait until nothing is under way or waiting."""
        # A selector, since the page's policy lets no text be run as a script.
        self.page.wait_for_selector(IDLE, state="attached")

    @contextmanager
    def shown(self) -> "Iterator[None]":
        """Do something, and wait for the page to show what came of it."""
        before = self.page.locator("html").get_attribute("data-shown")
        yield
        self.page.wait_for_selector(f'{IDLE}:not([data-shown="{before}"])', state="attached")

    def field(self, path: str) -> Locator:
        """The input of a value; its group is opened."""
        found = self.page.locator(f'[data-path="{path}"]')
        found.evaluate("(input) => { input.closest('details').open = true; }")
        return found

    def fill(self, path: str, text: str) -> None:
        """Type a value and wait for what follows."""
        field = self.field(path)
        with self.shown():
            field.fill(text)

    def choose(self, path: str, word: str) -> None:
        """Choose a word and wait for what follows."""
        field = self.field(path)
        with self.shown():
            field.select_option(word)

    def verdict(self, check: str) -> str:
        """The word and margin of a check in the list."""
        return self.page.locator(f'[data-check="{check}"]').inner_text()
