"""The content security policy: on every page, everything of ours works under it, and nothing else runs.

From disk, over http, and while the site is served; a complaint of the browser about anything fails the test.
"""

from __future__ import annotations

import hashlib
import os
import re
import shutil
import signal
import socket
import subprocess
import sys
from base64 import b64encode
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Final

import pytest
from playwright.sync_api import Browser, Page, expect

from generator.__main__ import main
from tests.browser.conftest import PATIENCE, Opened, Opener

ROOT: Final = Path(__file__).parents[2]
ELEMENT: Final = re.compile(r'<head>\s*<meta http-equiv="Content-Security-Policy" content="([^"]*)">')
INLINE: Final = re.compile(r"<script>(.*?)</script>", re.DOTALL)
HARM: Final = {  # what a page might be made to hold -> the directive that refuses it
    "<script>ran()</script>": "script-src-elem",
    "<script src='https://hostile.invalid/x.js'></script>": "script-src-elem",
    "<script src='data:text/javascript,ran()'></script>": "script-src-elem",
    "<img src=x onerror=ran()>": "script-src-attr",
    "<svg onload=ran()></svg>": "script-src-attr",
    "<embed src='https://hostile.invalid/x'>": "object-src",
    "<base href='https://hostile.invalid/'>": "base-uri",
    "<link rel=stylesheet href='https://hostile.invalid/x.css'>": "style-src-elem",
    "<style>@import 'https://hostile.invalid/x.css';</style>": "style-src-elem",
    "<style>@font-face {font-family: x; src: url(https://hostile.invalid/x)} main {font-family: x}</style>":
        "font-src",
    "<p style='background: url(https://hostile.invalid/x)'>x</p>": "img-src",
    "<img src='https://hostile.invalid/x'>": "img-src",
    "<video src='https://hostile.invalid/x'></video>": "media-src",
}
SAID: Final = "addEventListener('securitypolicyviolation', one => console.error(one.violatedDirective))"
HEARD: Final = """window.ran = () => console.log('heard ran');
    addEventListener('securitypolicyviolation', one => console.log('heard ' + one.effectiveDirective));"""


@pytest.fixture(scope="module")
def site(demo_site: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo site; in it also the page of a job that cannot be read, and a set written as one file."""
    home = tmp_path_factory.mktemp("policy")
    shutil.copytree(ROOT / "jobs" / "_shop", home / "jobs" / "_shop")
    job = home / "jobs" / "2026" / "SW-115-gate-stud" / "job.yml"
    job.parent.mkdir(parents=True)
    job.write_text("colour: <script>ran()</script>\n", encoding="utf-8")
    assert main(["build", "--jobs", str(home / "jobs"), "--site", str(home / "other")]) == 1
    shutil.copytree(demo_site, home / "site")
    (bad,) = home.glob("other/sheets/2026/SW-115-*.html")
    shutil.copy(bad, home / "site" / "sheets" / "2026" / "problems.html")
    jobs = [str(path) for path in (ROOT / "jobs").glob("2026/SW-10[19]-*")]
    assert main(["print", *jobs, "--jobs", str(ROOT / "jobs"), "--out", str(home / "site" / "set.html")]) == 0
    return home / "site"


def policy_of(page: str) -> dict[str, list[str]]:
    """What the policy of a page allows; it stands before anything else in the head."""
    found = ELEMENT.search(page)
    assert found
    return {name: allowed for name, *allowed in (one.split() for one in found[1].split("; "))}


def test_every_page_has_one_and_it_names_the_scripts_of_the_theme(site: Path) -> None:
    pages = sorted(site.rglob("*.html"))
    assert len(pages) > 40
    for path in pages:
        page = path.read_text(encoding="utf-8")
        allowed = policy_of(page)
        alone, frames = path.name == "set.html", path.name == "print-set.html"
        hashes = [
            f"'sha256-{b64encode(hashlib.sha256(script.encode()).digest()).decode()}'"
            for script in dict.fromkeys(INLINE.findall(page))
        ]
        own = [] if alone else ["'self'", "file:"]
        assert allowed == {
            "default-src": ["'none'"],
            "script-src": own + hashes,
            "style-src": [*own, "'unsafe-inline'"],
            "img-src": [*own, "data:"],
            "frame-src": own if frames else ["'none'"],
            "base-uri": ["'none'"],
            "form-action": ["'none'"],
        }, path
        assert len(hashes) == (2 if alone else 3), path  # more than that nobody has looked at
        assert 0 < page.encode().find(b'<meta charset="utf-8">') < 1024 - 22  # as HTML wants it


# -- ours works --------------------------------------------------------------------------------------------


def archive(page: Page) -> None:
    page.get_by_label("Find a job").fill("bollard")
    expect(page.locator("#jobs-table tbody tr")).to_have_count(1)
    for group in page.locator("#jobs-groups details > summary").all():
        group.click()
    page.get_by_label("Tick SW-113 to print it").check()
    expect(page.locator("#jobs-ticked")).to_contain_text("1")


def sheet(page: Page) -> None:
    for opens in ("large-view", "measured"):
        page.locator(f".at-machine [data-opens={opens}]").click()
        expect(page.locator(f"#{opens}")).to_be_visible()
        page.keyboard.press("Escape")
    page.locator("td.as-cut input").nth(0).fill("0.022")
    page.locator("details.written > summary").click()
    assert "dial" in page.locator("#log-piece").input_value()
    with page.expect_download():
        page.get_by_role("button", name="Save it as a file").click()
    page.locator(".sections .figures a").first.click()
    page.evaluate("window.print = () => {}")
    page.get_by_label("Print", exact=True).select_option("print-machine")
    page.get_by_role("button", name="Print …").click()
    assert "print-machine" in (page.locator("article.sheet").get_attribute("class") or "").split()


def dark(page: Page) -> None:
    before = page.evaluate("document.body.getAttribute('data-md-color-scheme')")
    page.locator("form[data-md-component=palette] label:visible").click()
    after = page.evaluate("document.body.getAttribute('data-md-color-scheme')")
    assert {before, after} == {"default", "slate"}
    page.reload()  # the theme's inline script brings it back
    assert page.evaluate("document.body.getAttribute('data-md-color-scheme')") == after


def whole_set(page: Page) -> None:
    expect(page.locator("#set-said")).to_contain_text("2 sheets, ready to print")
    expect(page.locator(".sheet-set > article.sheet img").first).to_be_visible()


def document(page: Page) -> None:
    page.get_by_label("Print", exact=True).select_option("print-customer")
    assert page.locator("article.sheet.print-customer").count() == 2
    assert page.evaluate("[...document.images].every(one => one.complete && one.naturalWidth > 0)")


def drawn(page: Page) -> None:
    """Style sheets are there, and every picture."""
    assert page.evaluate("[...document.images].every(one => one.complete && one.naturalWidth > 0)")
    assert page.evaluate("getComputedStyle(document.querySelector('.md-header')).position") == "sticky"


def kinds(site: Path) -> dict[str, Callable[[Page], None]]:
    """Each kind of page with what is done on it."""
    address = {
        number: next(site.glob(f"sheets/2026/{number}-*.html")).relative_to(site).as_posix()
        for number in ("SW-101", "SW-109", "SW-113")
    }
    pages = {path.name: drawn for path in site.glob("*.html") if path.name not in ("404.html", "set.html")}
    parts = [min(site.glob(f"lists/{folder}/*.html")) for folder in ("calendar", "thread", "lathe")]
    return {
        **pages,
        **{path.relative_to(site).as_posix(): drawn for path in parts},
        "sheets/2026/problems.html": drawn,
        address["SW-109"]: drawn,
        "index.html": archive,
        "safety.html": dark,
        address["SW-101"]: sheet,
        f"print-set.html#{address['SW-101']}&{address['SW-113']}": whole_set,
        "set.html": document,
    }


@pytest.mark.parametrize("way", ["disk", "server"])
def test_all_of_ours_works_under_it_without_a_complaint(
    open_page: Opener, site: Path, served: Callable[[Path], str], way: str
) -> None:
    opened: Opened = open_page("words.html", site=site)
    page, base = opened.page, f"{site.as_uri()}/" if way == "disk" else served(site)
    page.add_init_script(SAID)
    for name, does in kinds(site).items():
        page.goto("about:blank")
        page.goto(base + name)
        does(page)
        assert opened.complaints == [], name
    if way == "server":
        page.goto(base + "404.html")
        drawn(page)
        assert opened.complaints == []


@pytest.fixture
def serving(tmp_path: Path) -> Iterator[tuple[Path, str]]:
    """One job, and the address at which `serve` shows it."""
    shutil.copytree(ROOT / "jobs" / "_shop", tmp_path / "jobs" / "_shop")
    name = "2026/SW-115-gate-stud"
    shutil.copytree(ROOT / "jobs" / name, tmp_path / "jobs" / name)
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        address = f"127.0.0.1:{free.getsockname()[1]}"
    command = [sys.executable, "-m", "generator", "serve", "--addr", address]
    environment = {**os.environ, "PYTHONPATH": str(ROOT), "PYTHONUNBUFFERED": "1"}
    said = tmp_path / "said"
    with said.open("wb") as file, subprocess.Popen(
        command, cwd=tmp_path, stdout=file, stderr=subprocess.STDOUT, env=environment
    ) as server:
        try:
            yield tmp_path, f"http://{address}/"
        finally:
            server.send_signal(signal.SIGINT if os.name != "nt" else signal.SIGTERM)
            server.wait(timeout=30)


def test_a_served_page_still_reloads_when_its_job_changes(
    open_page: Opener, site: Path, serving: tuple[Path, str]
) -> None:
    home, address = serving
    opened: Opened = open_page("words.html", site=site)
    page = opened.page
    for _ in range(600):
        with socket.socket() as there:
            if there.connect_ex(("127.0.0.1", int(address.rstrip("/").rpartition(":")[2]))) == 0:
                break
        page.wait_for_timeout(100)
    page.goto(f"{address}sheets/2026/SW-115-gate-stud.html")
    title = page.locator("h1")
    before = title.inner_text()
    job = home / "jobs" / "2026" / "SW-115-gate-stud" / "job.yml"
    text = job.read_text(encoding="utf-8")
    changed = re.sub(r"(?m)^title: .*$", "title: Sluice stud", text)
    assert changed != text
    job.write_text(changed, encoding="utf-8")
    expect(title).to_contain_text("Sluice stud", timeout=PATIENCE)
    assert "Sluice stud" not in before
    assert opened.complaints == []
    page.goto(f"{address}nowhere.html")
    assert "404" in page.locator("body").inner_text()


# -- nothing else does -------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["sheets/2026/problems.html", "print-set.html", "set.html"])
def test_what_is_put_into_a_page_does_not_run(
    browser: Browser, site: Path, tmp_path: Path, name: str
) -> None:
    """Without the policy some of it runs, so that this test could see it."""
    page = (site / name).read_text(encoding="utf-8")
    element = ELEMENT.search(page)
    assert element
    harmed = page.replace("</main>", f"{''.join(HARM)}</main>")
    (tmp_path / "with.html").write_text(harmed, encoding="utf-8")
    (tmp_path / "without.html").write_text(harmed.replace(element[0], "<head>"), encoding="utf-8")
    heard: dict[str, list[str]] = {}
    with browser.new_context(offline=True) as context:
        context.add_init_script(HEARD)
        for file in ("with.html", "without.html"):
            said = heard.setdefault(file, [])
            with context.new_page() as opened:
                opened.on("console", lambda one, said=said: said.append(one.text.removeprefix("heard ")))
                opened.goto((tmp_path / file).as_uri(), wait_until="domcontentloaded")
                opened.wait_for_timeout(300)
    assert "ran" not in heard["with.html"]
    assert set(HARM.values()) <= set(heard["with.html"])
    assert heard["without.html"].count("ran") >= 4
