"""Pages of the built site, opened from disk in a real Chromium."""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

PATIENCE = 120_000  # ms, for a busy machine
expect.set_options(timeout=PATIENCE)
DESKTOP, PHONE = {"width": 1280, "height": 900}, {"width": 375, "height": 812}


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Every test of this folder carries the marker `browser`."""
    here = Path(__file__).parent
    for item in items:
        if item.path.is_relative_to(here):
            item.add_marker(pytest.mark.browser)


@dataclass
class Opened:
    """A page with what it complained about and what it asked a network for."""

    page: Page
    complaints: list[str] = field(default_factory=list)
    requests: list[str] = field(default_factory=list)


Opener = Callable[..., Opened]


@pytest.fixture
def open_page(browser: Browser, demo_site: Path) -> Iterator[Opener]:
    """Opens a page of the demo site from disk: `open_page("index.html", viewport=PHONE, scheme="dark")`."""
    contexts = []

    def opened(
        name: str,
        *,
        viewport: dict[str, int] = DESKTOP,
        scheme: str = "light",
        scripts: bool = True,
        site: Path = demo_site,
    ) -> Opened:
        context = browser.new_context(viewport=viewport, color_scheme=scheme, java_script_enabled=scripts)
        context.set_default_timeout(PATIENCE)
        contexts.append(context)
        result = Opened(context.new_page())
        result.page.on(
            "console",
            lambda said: result.complaints.append(said.text) if said.type in {"error", "warning"} else None,
        )
        result.page.on("pageerror", lambda error: result.complaints.append(str(error)))
        result.page.on(
            "request",
            lambda asked: (
                None
                if asked.url.startswith(("file:", "data:", "blob:"))
                else result.requests.append(asked.url)
            ),
        )
        result.page.goto((site / name).as_uri(), wait_until="load")
        return result

    yield opened
    for context in contexts:
        context.close()


class Quiet(SimpleHTTPRequestHandler):
    def log_message(self, *_: object) -> None:
        """Say nothing."""


@pytest.fixture
def served() -> Iterator[Callable[[Path], str]]:
    """Gives a folder over http: its address."""
    servers = []

    def serve(folder: Path) -> str:
        server = ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(folder)))
        threading.Thread(target=server.serve_forever, daemon=True).start()
        servers.append(server)
        return f"http://127.0.0.1:{server.server_port}/"

    yield serve
    for server in servers:
        server.shutdown()
        server.server_close()
