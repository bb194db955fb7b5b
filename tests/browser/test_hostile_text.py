"""What a job, its log or the shop says reaches every page as text: it runs, loads and makes nothing.

The demo archive is built twice, once with hostile texts in every field that takes text and once with as many
letters; both must give the same elements. The hostile one is opened from disk and used.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Final

import pytest
from playwright.sync_api import Browser, Page, expect

from generator.__main__ import main
from generator.render.packed import unpacked
from tests.browser.conftest import PATIENCE
from tests.hostile_texts import TEXTS, archive_of, harmless, raw_files

BAD: Final = range(0, 3500, 250)  # which of the files with raw texts stand in the archive
HEARD: Final = """(() => {
    const say = what => console.error('RAN ' + what);
    for (const name of ['alert', 'confirm', 'prompt', 'print', 'open']) window[name] = () => say(name);
    Object.defineProperty(window, 'ran', {get() { say('ran'); return () => 0; }, set() { say('ran'); }});
    document.addEventListener('securitypolicyviolation', one => say(one.violatedDirective));
})()"""
MADE: Final = """html => { // how many elements and attributes there are of each name
    const page = html === undefined ? document : new DOMParser().parseFromString(html, 'text/html');
    const count = {};
    for (const one of page.querySelectorAll('*')) {
        const of = [...one.attributes].map(({name}) => name);
        for (const name of [one.localName, ...of]) count[name] = (count[name] || 0) + 1;
    }
    return count; }"""
LEADS: Final = """html => { // where links and the like lead, but for other pages of the site
    const page = html === undefined ? document : new DOMParser().parseFromString(html, 'text/html');
    return ['href', 'xlink:href', 'src', 'action', 'formaction', 'data', 'poster'].flatMap(name =>
        [...page.querySelectorAll(`[${CSS.escape(name)}]`)].map(one => one.getAttribute(name))
    ).filter(to => new URL(to, 'file:///a/b/c/').protocol !== 'file:' || /^[\\\\/]{2}/.test(to)); }"""
RISKY: Final = (  # what no text may make, on pages where other words may make another number of rows
    "script", "iframe", "frame", "img", "image", "svg", "math", "object", "embed", "link", "meta", "base",
    "style", "form", "video", "audio", "template", "http-equiv", "src", "srcset", "srcdoc", "action",
    "formaction", "data", "autofocus", "background", "ping", "poster",
)


@dataclass
class Pages:
    """A site, and for each folder of a job the texts in it."""

    home: Path
    placed: dict[str, list[str]] = field(default_factory=dict)

    @property
    def site(self) -> Path:
        """Its folder."""
        return self.home / "site"

    def names(self) -> list[str]:
        """Every page."""
        return sorted(path.relative_to(self.site).as_posix() for path in self.site.rglob("*.html"))


def built(home: Path, said: Any) -> Pages:
    pages = Pages(home, archive_of(home, said))
    for at, data in enumerate(raw_files()):
        if at in BAD:
            folder = home / "jobs" / "2024" / f"B-{at}"
            folder.mkdir(parents=True)
            (folder / "job.yml").write_bytes(data)
    assert main(["build", "--jobs", str(home / "jobs"), "--site", str(pages.site)]) == 1  # for the raw files
    return pages


@pytest.fixture(scope="module")
def hostile(tmp_path_factory: pytest.TempPathFactory) -> Pages:
    return built(tmp_path_factory.mktemp("hostile"), lambda text: text)


@pytest.fixture(scope="module")
def plain(tmp_path_factory: pytest.TempPathFactory) -> Pages:
    """The same archive with letters."""
    return built(tmp_path_factory.mktemp("plain"), harmless)


@dataclass
class Watched:
    """A page with all that it did and should not have."""

    page: Page
    did: list[str]

    def open(self, address: str) -> Page:
        """The page, loaded anew even where the address differs after its # only."""
        self.page.goto("about:blank")
        self.page.goto(address)
        return self.page


@pytest.fixture
def watched(browser: Browser, hostile: Pages) -> Iterator[Watched]:
    """A page that says what runs, complains or asks for anything that is not in the site."""
    with browser.new_context(viewport={"width": 1280, "height": 900}) as context:
        context.set_default_timeout(PATIENCE)
        context.add_init_script(HEARD)
        did: list[str] = []
        page = context.new_page()
        page.on("console", lambda said: None if said.type in {"log", "info"} else did.append(said.text))
        page.on("pageerror", lambda error: did.append(str(error)))
        page.on("dialog", lambda dialog: (did.append(f"dialog {dialog.message}"), dialog.dismiss()))
        own = (hostile.home.as_uri(), "data:", "blob:", "about:")
        page.on("request", lambda one: None if one.url.startswith(own) else did.append(one.url))
        yield Watched(page, did)


def flat(text: str) -> str:
    """Without spaces, without signs that only some call a space, and without those no browser shows."""
    return re.sub(r"[\s\ufeff\x00\ufffd\x1c-\x1f\x85]", "", text)


def test_every_text_stands_in_the_archive(hostile: Pages) -> None:
    placed = {flat(text) for texts in hostile.placed.values() for text in texts}
    assert {flat(text) for text in TEXTS} <= placed
    assert len(hostile.placed) >= 35
    sheets = [name for name in hostile.names() if name.startswith("sheets/")]
    assert len(sheets) == len(hostile.placed) + len(BAD)


def risky(made: dict[str, int]) -> dict[str, int | None]:
    """How much there is of what no text may make."""
    return {name: made.get(name) for name in RISKY}


def test_no_page_has_an_element_or_address_that_a_text_made(
    watched: Watched, hostile: Pages, plain: Pages
) -> None:
    """Parsed by the browser, without the page's own scripts; a list beside the front of all lists."""
    page = watched.page
    twins = dict(zip(sorted(hostile.placed), sorted(plain.placed), strict=True))

    def html(pages: Pages, name: str) -> str:
        return unpacked((pages.site / name).read_text(encoding="utf-8"))  # letters make lighter pages

    def made(pages: Pages, name: str) -> dict[str, int]:
        return page.evaluate(MADE, html(pages, name))  # type: ignore[no-any-return]

    list_has = risky(made(plain, min(name for name in plain.names() if name.startswith("lists/"))))
    for name in hostile.names():
        found = made(hostile, name)
        leads = page.evaluate(LEADS, html(hostile, name))
        assert [one for one in found if one.startswith("on")] == [], name
        assert [to for to in leads if not to.startswith("data:image/")] == [], name
        if name.startswith("lists/"):
            assert risky(found) | {"style": None} == list_has | {"style": None}, name
            assert found.get("style", 0) <= found.get("table", 0), name  # what a phone shows beside the cells
            continue
        path = Path(name)
        twin = made(plain, path.with_stem(twins.get(path.stem, path.stem)).as_posix())
        if name.startswith("sheets/"):
            assert found == twin, name
        else:
            assert risky(found) == risky(twin), name
    assert watched.did == []


def test_sheets_show_them_as_text_and_run_nothing(watched: Watched, hostile: Pages) -> None:
    shown = 0
    for path in sorted(hostile.site.glob("sheets/2026/*.html")):
        page = watched.open(path.as_uri())
        page.evaluate("window.setupSheet && window.setupSheet.unpacked")
        whole = flat(page.evaluate("document.querySelector('article.sheet').textContent"))
        missing = [text for text in hostile.placed[path.stem] if flat(text) not in whole]
        shown += len(hostile.placed[path.stem]) - len(missing)
        assert missing == [], path.name
        for opens in page.locator(".at-machine [data-opens]").all():
            opens.click()
            page.keyboard.press("Escape")
        assert [name for name in page.evaluate(MADE) if name.startswith("on")] == []
        assert (watched.did, page.url) == ([], path.as_uri())
    assert shown >= len(TEXTS)


def test_what_is_written_on_a_hostile_sheet_comes_out_as_text(watched: Watched, hostile: Pages) -> None:
    """The piece of the log, the large view and the browser's store have the job's number and its texts."""
    page = watched.open(next(hostile.site.glob("sheets/2026/SW-101-*.html")).as_uri())
    page.locator("td.as-cut input").nth(0).fill("0.022")
    page.reload()
    assert page.locator("td.as-cut input").nth(0).input_value() == "0.022"
    page.locator("details.written > summary").click()
    page.locator("[data-by]").fill("</textarea><script>ran()</script>")
    page.locator("td.as-cut input").nth(1).fill("0.031")
    assert "<script>" in page.locator("#log-piece").input_value()
    page.get_by_role("button", name="Large figures").click()
    for _ in range(40):
        page.keyboard.press("ArrowRight")
    page.keyboard.press("Escape")
    assert watched.did == []


def test_the_archive_runs_nothing_while_it_is_searched_and_narrowed(
    watched: Watched, hostile: Pages
) -> None:
    page = watched.open((hostile.site / "index.html").as_uri())
    expect(page.locator("#jobs-table tbody tr").first).to_be_visible()
    for group in page.locator("#jobs-groups details > summary").all():
        group.click()
    for words in ("<script>ran()</script>", '" onmouseover="ran()', "\\", "__proto__", "${ran()}", "%"):
        page.get_by_label("Find a job").fill(words)
        expect(page.locator("#jobs-count")).to_contain_text(" of ")
    page.get_by_label("Find a job").fill("onerror")
    expect(page.locator("#jobs-table tbody tr").first).to_be_visible()
    page.locator("#jobs-groups label:visible").first.click()
    for choice in ("#find=<img src=x onerror=ran()>", "#x=%3Cscript%3Eran()%3C/script%3E", "#__proto__=1"):
        watched.open((hostile.site / "index.html").as_uri() + choice)
        expect(page.locator("#jobs-search")).to_be_visible()
    made = page.evaluate(MADE)
    assert not {"img", "iframe", "style", "object", "onerror", "onload"} & made.keys()
    assert watched.did == []


def test_lists_calendar_and_the_pages_of_bad_files_run_nothing(watched: Watched, hostile: Pages) -> None:
    kinds = ("calendar", "times", "figures", "sources", "lists.", "sheets/2024")
    opened = [name for name in hostile.names() if name.startswith(kinds)]
    for folder in ("lathe", "material", "customer", "thread", "year"):
        opened += [name for name in hostile.names() if name.startswith(f"lists/{folder}")][:3]
    opened += [name for name in hostile.names() if name.startswith("sheets/2025")][::4]
    for name in opened:
        page = watched.open((hostile.site / name).as_uri())
        assert (watched.did, page.url) == ([], (hostile.site / name).as_uri()), name
    assert len(opened) > 30


def test_a_set_of_hostile_sheets_is_put_together_and_nothing_runs(watched: Watched, hostile: Pages) -> None:
    page = watched.open(f"{hostile.site.as_uri()}/index.html")
    addresses = page.evaluate(
        """async () => { const {data} = window.setupSheet, all = await data.archive();
            return (await data.rows([...Array(all.count).keys()])).map(row => row.address); }"""
    )
    chosen = [address for address in addresses if address.startswith(("sheets/2026", "sheets/2025"))][::4]
    page = watched.open(f"{hostile.site.as_uri()}/print-set.html#{'&'.join(chosen)}")
    expect(page.locator("#set-said")).to_contain_text(f"{len(chosen)} sheets, ready to print")
    assert page.locator(".sheet-set > article.sheet").count() == len(chosen)
    assert page.locator(".sheet-set :is(script, iframe, form, object)").count() == 0
    assert watched.did == []


def test_a_set_written_as_one_file_runs_nothing(
    watched: Watched, hostile: Pages, capsys: pytest.CaptureFixture[str]
) -> None:
    jobs = sorted(hostile.home.glob("jobs/202[56]/*"))[::5]
    out = hostile.home / "set.html"
    assert main(["print", *map(str, jobs), "--jobs", str(hostile.home / "jobs"), "--out", str(out)]) == 0
    assert "Traceback" not in capsys.readouterr().err
    page = watched.open(out.as_uri())
    assert page.locator("article.sheet").count() == len(jobs)
    whole = flat(page.evaluate("document.body.textContent"))
    texts = [text for job in jobs for text in hostile.placed[job.name]]
    shown = [text for text in texts if flat(text) in whole]
    assert len(shown) > 0.95 * len(texts)  # a few stand in the views of a sheet's own page only
    assert watched.did == []
