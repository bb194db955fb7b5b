"""What a search costs in a browser: bytes loaded until the answer stands, time from the last key to it.

    python tests/benchmarks/search_in_browser.py SITE

SITE is a built site. It is served over http and its archive page opened in Chromium. Each query is typed by
the keyboard. The bytes are counted at the server, so that nothing which the browser loads is missed. The
first query is that of somebody who has just opened the page: its bytes are all data that the archive page has
loaded by then, the columns and the rows shown before anything was typed among them; the page itself, its
scripts and its styles are given apart.
"""

from __future__ import annotations

import shutil
import sys
import threading
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any, BinaryIO

from playwright.sync_api import Page, sync_playwright

from generator.setup import BROWSERS

QUERIES = (
    "2-8", "M30x3.5", "1/2", "galled", "Ø63", "0.7854", "thread", "2 1/4-8 UN-2A", "steady rest bronze",
    "spindle",
)  # fmt: skip
DATA = "/find/"
PATIENCE = 60_000  # ms
QUIET = 400  # ms without a change: nothing more is coming
WATCH = """() => {
    window.seen = {key: 0, answer: 0};
    document.getElementById('jobs-words').addEventListener('input', () => { seen.key = performance.now(); });
    new MutationObserver(() => { requestAnimationFrame(() => { seen.answer = performance.now(); }); })
        .observe(document.getElementById('jobs-count'), {childList: true});
}"""
ANSWERED = f"() => seen.answer > seen.key && performance.now() - seen.answer > {QUIET}"


@dataclass(frozen=True)
class Answer:
    """What one query cost: bytes of data, in how many files, ms from the last key; what the page said."""

    query: str
    loaded: int
    files: int
    took: float
    said: str


@dataclass(frozen=True)
class Measured:
    """The page without data, bytes; the first query; those typed after it on the same page."""

    page: int
    first: Answer
    others: tuple[Answer, ...]


class Served:
    """A folder over http, and what was asked of it: address and bytes."""

    def __init__(self) -> None:
        self.sent: list[tuple[str, int]] = []
        self.address = ""

    def data(self) -> tuple[int, int]:
        """Bytes and files of data sent so far."""
        found = [count for path, count in self.sent if path.startswith(DATA)]
        return sum(found), len(found)


@contextmanager
def served(folder: Path) -> Iterator[Served]:
    """Serve a folder, uncompressed, and count."""
    result = Served()

    class Counting(SimpleHTTPRequestHandler):
        def log_message(self, *_: object) -> None:
            """Say nothing."""

        def copyfile(self, source: Any, outputfile: BinaryIO) -> None:
            content = source.read()
            result.sent.append((self.path, len(content)))
            outputfile.write(content)

    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(Counting, directory=str(folder)))
    result.address = f"http://127.0.0.1:{server.server_port}/"
    threading.Thread(target=server.serve_forever, daemon=True).start()
    try:
        yield result
    finally:
        server.shutdown()
        server.server_close()


def measure(site: Path, queries: Sequence[str] = QUERIES) -> Measured:
    """Type every query into the archive page of a built site, the first on a page just opened."""
    found = next((path for name in BROWSERS if (path := shutil.which(name))), None)
    with served(site) as server, sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=found, args=["--no-sandbox"])
        page = browser.new_page(bypass_csp=True)  # to wait for an answer, a function is put into the page
        page.set_default_timeout(PATIENCE)
        page.goto(f"{server.address}index.html")
        page.locator("#jobs-table tbody tr").first.wait_for()
        page.evaluate(WATCH)
        answers = []
        before = 0, 0
        for query in queries:
            took, said = _typed(page, query)
            after = server.data()
            answers.append(Answer(query, after[0] - before[0], after[1] - before[1], took, said))
            before = after
        rest = sum(count for path, count in server.sent if not path.startswith(DATA))
        browser.close()
    return Measured(rest, answers[0], tuple(answers[1:]))


def _typed(page: Page, query: str) -> tuple[float, str]:
    """ms from the last key to the answer, and what the page says of it."""
    box = page.locator("#jobs-words")
    box.focus()
    page.keyboard.press("Control+A")
    page.keyboard.type(query)
    page.wait_for_function(ANSWERED)
    took: float = page.evaluate("seen.answer - seen.key")
    return took, page.locator("#jobs-count").inner_text()


def main(arguments: Sequence[str]) -> int:
    """Print what was measured."""
    if len(arguments) != 1 or not (Path(arguments[0]) / "index.html").is_file():
        print("usage: search_in_browser.py SITE", file=sys.stderr)
        return 2
    found = measure(Path(arguments[0]))
    print(f"page, scripts, styles: {found.page / 1000:.0f} kB")
    for label, answer in (("first", found.first), *(("then", one) for one in found.others)):
        print(
            f"{label:5} {answer.query:20} {answer.loaded / 1000:6.1f} kB in {answer.files:2} files"
            f" {answer.took:5.0f} ms  {answer.said}"
        )
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
