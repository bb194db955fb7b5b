"""The built site beside documentation sites that others have built: weight, search, phone, accessibility.

    python tests/benchmarks/beside_model_sites.py NAME=FOLDER [NAME=FOLDER ...]

Each folder is a site of plain files. One with an `archive.html` or a `sheets` folder is ours; another is
searched as the pages of Sphinx are (`search.html?q=WORD`). Printed is a table, a site a column,
everything measured in one run in one Chromium, so that columns can be compared: bytes and files of the
front page and of one long page, time until it is drawn, bytes and time to the first answer of the search
(over http, and whether it answers from disk), words and links of the menu, serious faults that axe finds
on a desk and on a phone, light and dark, places to tap that are smaller than 24 by 24 pixels (WCAG 2.2,
2.5.8), and whether a page is wider than a phone. Not a test: nothing passes or fails.
"""

from __future__ import annotations

import shutil
import sys
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, sync_playwright
from search_in_browser import PATIENCE, Served, served

from generator.setup import BROWSERS

DESK: Final = {"width": 1280, "height": 900}
PHONE: Final = {"width": 375, "height": 812}
SERIOUS: Final = {"serious", "critical"}
SMALL: Final = """() => {
  const places = [...document.querySelectorAll('a[href], button, input, select, summary')]
  return places.filter(one => {
    const box = one.getBoundingClientRect(), line = getComputedStyle(one).display === 'inline'
    return box.width && box.height && !line && (box.width < 24 || box.height < 24)
  }).length
}"""  # a link within a sentence is let off by the guideline
WIDER: Final = "() => document.documentElement.scrollWidth > innerWidth + 1"


@dataclass(frozen=True)
class Site:
    """A built site: its front page, one long page, its search with the word to look for."""

    name: str
    folder: Path
    long: str
    search: str
    box: str
    answer: str

    @classmethod
    def of(cls, said: str) -> Site:
        """From NAME=FOLDER."""
        name, _, where = said.partition("=")
        folder = Path(where)
        sheets = sorted(folder.glob("sheets/*/*.html"), key=lambda page: -page.stat().st_size)
        if sheets:
            long = sheets[0].relative_to(folder).as_posix()
            return cls(name, folder, long, "index.html", "#jobs-words", "#jobs-table tbody tr a")
        pages = sorted(folder.rglob("*.html"), key=lambda page: -page.stat().st_size)
        usual = [page for page in pages if page.name not in ("genindex.html", "search.html")]
        return cls(
            name, folder, usual[len(usual) // 20].relative_to(folder).as_posix(), "search.html",
            "main input[name=q], [role=main] input[name=q], .body input[name=q], input[name=q]",
            "#search-results a, ul.search a",
        )  # fmt: skip


def measured(site: Site, browser: Browser) -> Iterator[tuple[str, str]]:
    """What is measured of a site: words and value, a line each."""
    with served(site.folder) as server:
        for what, name in (("front page", "index.html"), ("a long page", site.long)):
            page = _opened(browser, DESK)
            before = len(server.sent)
            begun = time.perf_counter()
            page.goto(f"{server.address}{name}", wait_until="load")
            took = time.perf_counter() - begun
            sent = server.sent[before:]
            yield f"{what}: bytes, files", f"{sum(count for _, count in sent) / 1000:.0f} kB, {len(sent)}"
            yield f"{what}: until loaded", f"{took * 1000:.0f} ms"
            if what == "front page":
                links = page.evaluate("() => document.querySelectorAll('nav a[href]').length")
                yield "links in its menus", str(links)
            page.context.close()
        yield "search: bytes to the first answer, time", _searched(site, browser, server)
    yield "search from disk", _from_disk(site, browser)
    for what, viewport in (("desk", DESK), ("phone", PHONE)):
        for scheme in ("light", "dark"):
            page = _opened(browser, viewport, scheme)
            page.goto((site.folder / site.long).resolve().as_uri(), wait_until="load")
            found = [one for one in Axe().run(page).response["violations"] if one["impact"] in SERIOUS]
            count = sum(len(one["nodes"]) for one in found)
            names = ", ".join(one["id"] for one in found)
            yield f"{what}, {scheme}: serious faults", f"{count} ({names})" if count else "0"
            if scheme == "light":
                yield f"{what}: places to tap under 24 pixels", str(page.evaluate(SMALL))
                yield f"{what}: wider than the screen", "yes" if page.evaluate(WIDER) else "no"
            page.context.close()


def _opened(browser: Browser, viewport: dict[str, int], scheme: str = "light") -> Page:
    context = browser.new_context(viewport=viewport, color_scheme=scheme, bypass_csp=True)
    context.set_default_timeout(PATIENCE)
    return context.new_page()


def _searched(site: Site, browser: Browser, server: Served) -> str:
    """Bytes and time from an open search page to the first answer."""
    page = _opened(browser, DESK)
    page.goto(f"{server.address}{site.search}", wait_until="networkidle")
    before, begun = len(server.sent), time.perf_counter()
    _ask(page, site)
    took = time.perf_counter() - begun
    count = sum(sent for _, sent in server.sent[before:])
    page.context.close()
    return f"{count / 1000:.0f} kB, {took * 1000:.0f} ms"


def _ask(page: Page, site: Site) -> None:
    box = page.locator(site.box).locator("visible=true").first
    box.fill("thread")
    box.press("Enter")
    page.locator(site.answer).first.wait_for()


def _from_disk(site: Site, browser: Browser) -> str:
    page = _opened(browser, DESK)
    page.set_default_timeout(10_000)
    try:
        page.goto((site.folder / site.search).resolve().as_uri(), wait_until="load")
        _ask(page, site)
    except Exception:  # whatever keeps it from answering, it does not answer
        return "no"
    finally:
        page.context.close()
    return "yes"


def main(arguments: Sequence[str]) -> int:
    """Print the table."""
    sites = [Site.of(one) for one in arguments]
    if not sites or not all((site.folder / "index.html").is_file() for site in sites):
        print("usage: beside_model_sites.py NAME=FOLDER ...", file=sys.stderr)
        return 2
    found = next((path for name in BROWSERS if (path := shutil.which(name))), None)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=found, args=["--no-sandbox"])
        columns = [list(measured(site, browser)) for site in sites]
        browser.close()
    print("| | " + " | ".join(site.name for site in sites) + " |")
    print("|---" * (len(sites) + 1) + "|")
    for rows in zip(*columns, strict=True):
        print(f"| {rows[0][0]} | " + " | ".join(value for _, value in rows) + " |")
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
