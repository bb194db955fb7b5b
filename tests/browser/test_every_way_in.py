"""Every control at 360, 820 and 1440 px, by keyboard alone, offline and from disk; nothing lost in silence.

Single fields, sums and the piece of the log are in test_at_machine.py; here the controls are gone through
as one that stands at the lathe would, with a store that two tabs share, that is full, or that is refused.
"""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Final

import pytest
import yaml
from playwright.sync_api import Browser, BrowserContext, Page, expect

from generator.__main__ import main
from tests.barriers import ALL_BUT_CONTRAST, ONLY_CONTRAST, barriers, shorten
from tests.waiting import wait_until

ROOT: Final = Path(__file__).parents[2]
WIDTHS: Final = [360, 820, 1440]
READY, NOT_READY = "SW-101", "SW-109"
PATIENCE: Final = 120_000  # ms, for a busy machine
MOST_STOPS: Final = 600  # of the tab key; the page has some 430
STOP: Final = """() => { // where the tab key went, and whether it can be seen there
    const at = document.activeElement, box = at.getBoundingClientRect();
    const x = (Math.max(box.left, 0) + Math.min(box.right, innerWidth)) / 2;
    const y = (Math.max(box.top, 0) + Math.min(box.bottom, innerHeight)) / 2;
    const over = document.elementFromPoint(x, y), style = getComputedStyle(at);
    const label = at.labels && at.labels[0];
    return {
        tag: at.tagName, type: at.type || '', of: at.dataset.of || '', text: at.textContent.slice(0, 40),
        seen: !!over && (at.contains(over) || over.contains(at) || !!label && label.contains(over)),
        ringed: style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) > 0,
        entry: ['as-cut', 'took', 'record', 'order', 'done'].find(name => at.closest(`.${name}`)) || '',
    }; }"""
FILL: Final = """() => {
    for (let size = 4 * 1024 * 1024, count = 0; size >= 1; size = Math.floor(size / 2)) {
        try { while (true) localStorage.setItem('ballast' + count++, 'x'.repeat(size)) } catch {}
    } }"""
REFUSE: Final = """for (const name of ['localStorage', 'sessionStorage']) {
    Object.defineProperty(window, name, { get() { throw new DOMException('no', 'SecurityError') }}) }"""
NO_MOTION: Final = "*, *::before, *::after { transition: none !important; animation: none !important }"


def sheet(site: Path, number: str) -> str:
    """The address of a job's page, by its number."""
    (page,) = site.glob(f"sheets/*/{number}-*.html")
    return page.as_uri()


@pytest.fixture
def context(browser: Browser, request: pytest.FixtureRequest) -> Iterator[BrowserContext]:
    """A browser with a memory of its own, offline, as wide as the test says."""
    width = request.node.callspec.params.get("width", 820) if hasattr(request.node, "callspec") else 820
    made = browser.new_context(viewport={"width": width, "height": 780}, offline=True)
    made.set_default_timeout(PATIENCE)
    yield made
    made.close()


@pytest.fixture
def asked(context: BrowserContext) -> list[str]:
    """What pages of the browser ask a network for."""
    found: list[str] = []
    local = ("file:", "data:", "blob:")
    context.on("request", lambda one: None if one.url.startswith(local) else found.append(one.url))
    return found


def log_of(page: Page) -> list[dict[str, Any]]:
    """The piece of log.yml, as PyYAML reads it."""
    if page.locator("details.written").get_attribute("open") is None:
        page.locator("details.written > summary").click()
    return yaml.safe_load(page.locator("#log-piece").input_value()) or []


def tab_until(page: Page, there: str) -> None:
    """Press Tab until the focus is where a sentence of script says."""
    for _ in range(MOST_STOPS):
        if page.evaluate(f"(at => {there})(document.activeElement)"):
            return
        page.keyboard.press("Tab")
    pytest.fail(f"the tab key never comes to where {there}")


# -- by keyboard alone -----------------------------------------------------------------------------


@pytest.mark.parametrize("width", WIDTHS)
def test_ticks_and_fields_by_keyboard_are_seen_and_stay_in_a_closed_tab(
    context: BrowserContext, demo_site: Path, asked: list[str], width: int
) -> None:
    """One walk with the tab key over the whole sheet, writing into every kind of field on the way."""
    page = context.new_page()
    page.goto(sheet(demo_site, READY))
    page.evaluate(
        "[...document.querySelectorAll('.sections .figures a')].slice(5).forEach(e => e.remove())"
    )
    page.locator("h1").click()  # where reading begins
    typed = {"as-cut": "0.0385", "took": "12", "record": "2.2405"}
    wrote: dict[str, str] = {}
    stops: list[dict[str, Any]] = []
    for _ in range(MOST_STOPS):
        page.keyboard.press("Tab")
        stop = page.evaluate(STOP)
        if stop["tag"] == "BODY":
            break
        stops.append(stop)
        kind = stop["entry"]
        if not kind or kind in wrote or not stop["of"]:
            continue
        wrote[kind] = stop["of"]
        if stop["type"] == "checkbox":
            page.keyboard.press("Space")
        else:
            page.keyboard.type(typed[kind])
    ours = [stop for stop in stops if stop["of"] or stop["tag"] in ("BUTTON", "SELECT", "SUMMARY")]
    assert [stop for stop in ours if not stop["seen"]] == []
    assert [stop for stop in ours if not stop["ringed"]] == []
    assert set(wrote) == {*typed, "order", "done"}
    assert len({stop["of"] for stop in ours if stop["of"]}) > 60  # every field is a stop
    page.close()
    again = context.new_page()
    again.goto(sheet(demo_site, READY))
    for kind, text in typed.items():
        assert again.locator(f"[data-of='{wrote[kind]}']").first.input_value() == text
    for kind in ("order", "done"):
        assert again.locator(f"[data-of='{wrote[kind]}']").first.is_checked()
    assert asked == []


@pytest.mark.parametrize("width", WIDTHS)
def test_a_reading_and_a_trial_by_keyboard_and_out_as_a_file(
    context: BrowserContext, demo_site: Path, asked: list[str], width: int
) -> None:
    page = context.new_page()
    page.goto(sheet(demo_site, READY))
    tab_until(page, "at.dataset.opens === 'measured'")
    page.keyboard.press("Enter")
    tab_until(page, "at.id === 'measured-reads'")
    page.keyboard.type("2.2768")
    assert "0.0060 in TO COME OFF" in page.locator("#measured .answer").inner_text()
    page.keyboard.press("Enter")
    tab_until(page, "at.id === 'measured-what'")
    page.keyboard.press("End")  # the last of what can be said: the mate was tried
    tab_until(page, "at.id === 'measured-feels'")
    page.keyboard.type("Tight, and")
    tab_until(page, "at.id === 'measured-turns'")
    page.keyboard.type("3.5")
    tab_until(page, "at.type === 'submit' && !!at.closest('#measured')")
    page.keyboard.press("Space")
    assert page.locator("#measured .done-word").inner_text().startswith("Written down: Tried")
    page.keyboard.press("Escape")
    assert page.evaluate("document.activeElement.dataset.opens") == "measured"
    tab_until(page, "at.matches('.written > summary')")
    page.keyboard.press("Enter")
    tab_until(page, "'save' in at.dataset")
    with page.expect_download() as saved:
        page.keyboard.press("Enter")
    entries = yaml.safe_load(Path(saved.value.path()).read_text(encoding="utf-8"))
    assert entries[0]["measured"]["over_wires"] == "2.2768 in"
    assert entries[1]["fit"] == {"turns": 3.5, "feels": "tight", "where": "crest"}
    context.grant_permissions(["clipboard-read", "clipboard-write"])
    page.locator("[data-all]").focus()
    page.keyboard.press("Space")
    tab_until(page, "'copy' in at.dataset")
    page.keyboard.press("Enter")
    expect(page.locator(".at-machine .done-word")).to_have_text("Copied.")
    assert yaml.safe_load(page.evaluate("navigator.clipboard.readText()")) == entries
    tab_until(page, "'clear' in at.dataset")
    page.keyboard.press("Enter")
    assert page.evaluate("'clearNo' in document.activeElement.dataset")  # the harmless answer comes first
    page.keyboard.press("Enter")
    assert page.evaluate("'clear' in document.activeElement.dataset")
    assert len(log_of(page)) == 2
    assert asked == []


@pytest.mark.parametrize("width", WIDTHS)
def test_a_job_is_found_and_a_print_chosen_by_keyboard(
    context: BrowserContext, demo_site: Path, asked: list[str], width: int
) -> None:
    page = context.new_page()
    page.goto((demo_site / "index.html").as_uri())
    tab_until(page, "at.id === 'jobs-words'")
    assert page.evaluate(STOP)["seen"]
    page.keyboard.type("bollard")
    expect(page.locator("#jobs-count")).to_contain_text(" of ")
    expect(page.locator("#jobs-table tbody tr")).to_have_count(1)
    expect(page.locator("#jobs-table tbody a")).to_have_text("SW-113")
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    tab_until(page, "at.matches('#jobs-table tbody a')")
    assert page.evaluate(STOP)["seen"]
    page.keyboard.press("Enter")
    expect(page.locator("article.sheet")).to_have_attribute("data-job", "SW-113")
    page.evaluate("window.print = () => { window.printed = document.querySelector('.sheet').className }")
    tab_until(page, "at.id === 'print-choice'")
    page.keyboard.press("End")
    page.keyboard.press("Tab")
    assert page.evaluate(STOP)["seen"]
    page.keyboard.press("Enter")
    assert "print-customer" in page.evaluate("window.printed").split()
    assert asked == []


# -- two tabs, a full store, a refused one ---------------------------------------------------------


def measure(page: Page, reads: str) -> str:
    """Write a reading down in the form, which stays open; what is said about it."""
    if not page.locator("#measured").is_visible():
        page.locator(".at-machine [data-opens=measured]").click()
    page.locator("#measured-reads").fill(reads)
    page.get_by_role("button", name="Write it down").click()
    return page.locator("#measured .done-word").inner_text()


def readings(page: Page) -> list[str]:
    """What the piece of the log has of sizes over wires."""
    return [entry["measured"]["over_wires"] for entry in log_of(page) if "measured" in entry]


def test_two_tabs_write_readings_and_cards_and_both_have_all(
    context: BrowserContext, demo_site: Path
) -> None:
    one, other = context.new_page(), context.new_page()
    for page in (one, other):
        page.goto(sheet(demo_site, READY))

    def until(page: Page, there: str) -> None:
        page.bring_to_front()  # a tab behind another is hardly given time
        wait_until(page, there, PATIENCE)

    one.bring_to_front()
    one.get_by_role("button", name="Large figures").click()
    other.bring_to_front()
    measure(other, "2.2768")
    other.keyboard.press("Escape")
    one.bring_to_front()
    one.locator("#large-view .card:not([hidden]) input[type=checkbox]").check()
    until(other, "document.querySelector('.order input[type=checkbox]').checked")
    other.locator(".order input[type=checkbox]").first.uncheck()  # the last change stays, in both
    until(one, "!document.querySelector('#large-view .card:not([hidden]) input').checked")
    one.keyboard.press("Escape")
    measure(one, "2.2760")
    one.keyboard.press("Escape")
    until(other, "document.querySelector('[data-count]').textContent.startsWith('2 entries')")
    assert readings(other) == ["2.2768 in", "2.2760 in"]
    one.bring_to_front()
    assert readings(one) == ["2.2768 in", "2.2760 in"]
    one.get_by_role("button", name="Save it as a file").click()  # taken out here; not what comes afterwards
    other.bring_to_front()
    measure(other, "2.2752")
    other.keyboard.press("Escape")
    until(one, "document.querySelector('[data-count]').textContent.startsWith('3 entries')")
    assert readings(one) == ["2.2752 in"]
    one.get_by_role("button", name="Take all entries").click()
    one.get_by_role("button", name="Yes, take them off").click()
    until(other, "document.querySelector('[data-count]').textContent === 'nothing yet'")


def test_in_a_full_store_the_open_view_says_so_and_all_comes_out(
    context: BrowserContext, demo_site: Path
) -> None:
    """An open view covers the page, so it is said there; in a second tab, too, as soon as it writes."""
    page = context.new_page()
    page.goto(sheet(demo_site, READY))
    measure(page, "2.2790")
    assert not page.locator("#measured .not-kept-here").is_visible()
    page.evaluate(FILL)
    assert measure(page, "2.2768").startswith("Written down")
    notice = page.locator("#measured .not-kept-here")
    assert notice.is_visible()
    assert "NOT KEPT. The browser's store is full" in notice.inner_text()
    page.keyboard.press("Escape")
    page.get_by_role("button", name="Large figures").click()
    view = page.locator("#large-view")
    while not view.locator(".card:not([hidden]) [data-planned]").count():
        page.keyboard.press("ArrowRight")
    view.get_by_role("button", name="Cut as planned").click()
    assert view.locator(".not-kept-here").is_visible()
    page.keyboard.press("Escape")
    other = context.new_page()
    other.goto(page.url)  # full before it was opened: said at once, and what was kept is there
    assert "full" in other.locator(".not-kept").inner_text()
    assert readings(other) == ["2.2790 in"]
    other.locator("td.as-cut input").nth(1).fill("0.031")
    assert [entry.get("dial") for entry in log_of(other)] == [None, "0.031 in"]
    page.bring_to_front()
    log_of(page)
    with page.expect_download() as saved:
        page.get_by_role("button", name="Save it as a file").click()
    entries = yaml.safe_load(Path(saved.value.path()).read_text(encoding="utf-8"))
    assert readings(page)[-1] == "2.2768 in"  # until there is room it is in every piece
    sizes = [entry.get("measured", {}).get("over_wires") for entry in entries]
    assert sizes == ["2.2790 in", "2.2768 in", None]
    assert entries[2]["pass"] == 1
    leaving: list[str] = []
    for tab in (page, other):
        tab.on("dialog", lambda dialog: (leaving.append(dialog.type), dialog.accept()))
        tab.close(run_before_unload=True)
        tab.wait_for_event("close")
    assert leaving == ["beforeunload"] * 2  # closing asks first


@pytest.mark.parametrize("width", WIDTHS)
def test_with_a_refused_store_everything_works_and_says_that_nothing_stays(
    context: BrowserContext, demo_site: Path, width: int
) -> None:
    context.add_init_script(REFUSE)
    page = context.new_page()
    page.goto((demo_site / "index.html").as_uri())
    page.get_by_label("Find a job").fill(READY)
    expect(page.locator("#jobs-count")).to_contain_text("1 of ")
    page.get_by_role("link", name=READY).click()
    expect(page.locator(".not-kept")).to_contain_text("keeps nothing")
    measure(page, "2.2768")
    assert "keeps nothing" in page.locator("#measured .not-kept-here").inner_text()
    assert page.evaluate("document.querySelector('#measured .cards').scrollWidth") <= width
    page.keyboard.press("Escape")
    page.locator("td.as-cut input").nth(1).fill("0.031")
    page.get_by_label("Print", exact=True).select_option("print-machine")
    assert "print-machine" in (page.locator("article.sheet").get_attribute("class") or "").split()
    assert readings(page) == ["2.2768 in"]
    with page.expect_download() as saved:
        page.get_by_role("button", name="Save it as a file").click()
    assert len(yaml.safe_load(Path(saved.value.path()).read_text(encoding="utf-8"))) == 2
    assert len(log_of(page)) == 2  # it is nowhere else: taking it out does not take it away


def test_a_damaged_entry_of_the_store_stops_nothing(context: BrowserContext, demo_site: Path) -> None:
    page = context.new_page()
    page.goto(sheet(demo_site, READY))
    fields = page.locator("td.as-cut input")
    fields.nth(0).fill("0.022")
    fields.nth(1).fill("0.031")
    page.evaluate(
        """key => { for (const name of Object.keys(localStorage).filter(name => name.endsWith(key))) {
            localStorage.setItem(name, '{"value": "0.0') } }""",
        fields.nth(0).get_attribute("data-of"),
    )
    page.reload()
    assert [fields.nth(place).input_value() for place in (0, 1)] == ["", "0.031"]
    fields.nth(0).fill("0.023")
    assert [entry["dial"] for entry in log_of(page)] == ["0.031 in", "0.023 in"]


# -- barriers --------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def broken_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """An archive with a job that cannot be read."""
    folder = tmp_path_factory.mktemp("broken")
    shutil.copytree(ROOT / "jobs" / "_shop", folder / "jobs" / "_shop")
    job = folder / "jobs" / "2026" / "SW-115-gate-stud" / "job.yml"
    shutil.copytree(ROOT / "jobs" / "2026" / "SW-115-gate-stud", job.parent)
    job.write_text(job.read_text(encoding="utf-8") + "colour: red\nlathe: {\n", encoding="utf-8")
    main(["build", "--jobs", str(folder / "jobs"), "--site", str(folder / "site")])
    return folder / "site"


ONLY_DIALOGS: Final = (
    "document.querySelectorAll('.sheet > :not(dialog, .at-machine, style)').forEach(e => e.remove())"
)


@pytest.fixture(params=["light", "dark"])
def scheme(request: pytest.FixtureRequest) -> str:
    return str(request.param)


@pytest.fixture
def lit(scheme: str, browser: Browser) -> Iterator[BrowserContext]:
    """A browser that shows light or dark pages, and nothing on its way from one to the other."""
    made = browser.new_context(color_scheme=scheme, offline=True)
    made.set_default_timeout(PATIENCE)
    yield made
    made.close()


def at_every_width(page: Page, scheme: str, within: str | None = None) -> list[Any]:
    """What shuts somebody out, with its width. Contrast: on the narrowest; in dark, only that."""
    page.add_style_tag(content=NO_MOTION)
    found: list[Any] = []
    for width in WIDTHS:
        page.set_viewport_size({"width": width, "height": 780})
        if page.evaluate("document.documentElement.scrollWidth") > width:
            found.append((width, "wider than the window"))
        if width == WIDTHS[0]:
            found += [(width, one) for one in barriers(page, within, ONLY_CONTRAST)]
        if scheme == "light":
            found += [(width, one) for one in barriers(page, within, ALL_BUT_CONTRAST)]
    return found


@pytest.mark.parametrize("kind", ["done", "not ready", "problems", "archive"])
def test_no_page_has_a_serious_barrier_at_any_width(
    lit: BrowserContext, scheme: str, demo_site: Path, broken_site: Path, kind: str
) -> None:
    """Of what is made alike two are looked at; the whole is in test_pages.py."""
    page = lit.new_page()
    page.goto({
        "done": lambda: sheet(demo_site, READY),
        "not ready": lambda: sheet(demo_site, NOT_READY),
        "problems": lambda: sheet(broken_site, "SW-115"),
        "archive": lambda: (demo_site / "index.html").as_uri(),
    }[kind]())
    if kind == "problems":
        assert page.locator("ol.problems li").count() >= 1
    shorten(page)
    assert at_every_width(page, scheme) == []


def test_no_open_view_has_a_serious_barrier_at_any_width(
    lit: BrowserContext, scheme: str, demo_site: Path
) -> None:
    """With the notice that nothing is kept, and with what a reading says."""
    lit.add_init_script(REFUSE)
    page = lit.new_page()
    page.goto(sheet(demo_site, NOT_READY))
    page.get_by_role("button", name="Large figures").click()
    assert page.locator("#large-view .not-kept-here").is_visible()
    page.evaluate(ONLY_DIALOGS)
    found = at_every_width(page, scheme, "#large-view")
    page.goto(sheet(demo_site, READY))
    measure(page, "2.2768")
    page.evaluate(ONLY_DIALOGS)
    assert found + at_every_width(page, scheme, "#measured") == []
