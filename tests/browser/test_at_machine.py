"""The sheet used at the machine, from disk and offline: what is written stays, nothing is lost in silence."""

from __future__ import annotations

import json
import random
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from playwright.sync_api import Browser, Page

from generator.__main__ import main
from generator.calc.left_to_cut import Feed, Read, left_to_cut, slip_in
from tests.barriers import barriers
from tests.browser.conftest import PATIENCE
from tests.waiting import wait_until

Opener = Callable[..., Any]
WIDTHS = [360, 820, 1440]
MM = 96 / 25.4  # px, as CSS counts them
WORDS, FIGURES = 5.0, 10.0  # mm of capitals; see site_templates/css/at_machine.css for the sources
TARGET, STEP_TARGET = 19.0, 24.0  # mm
READY, INSIDE, METRIC, NOT_READY, NO_THREAD = "SW-101", "SW-103", "SW-115", "SW-109", "SW-118"
ROOT = Path(__file__).parents[2]


def sheet(site: Path, number: str) -> str:
    """The page of a job, by its number."""
    (page,) = site.glob(f"sheets/*/{number}-*.html")
    return page.relative_to(site).as_posix()


@pytest.fixture
def opened(open_page: Opener, demo_site: Path) -> Callable[..., Page]:
    """A sheet of the demo archive, offline, at a width: `opened(READY, 360)`."""

    def make(number: str = READY, width: int = 820, **named: Any) -> Page:
        size = {"width": width, "height": 780}
        page: Page = open_page(sheet(demo_site, number), viewport=size, **named).page
        page.context.set_offline(True)
        return page

    return make


@pytest.fixture
def archive(tmp_path: Path) -> Callable[..., Path]:
    """One job in an archive of its own, built again after each change: `archive({"old": "new"})`."""
    (folder,) = (ROOT / "jobs").glob(f"*/{READY}-*")
    jobs = tmp_path / "jobs"
    shutil.copytree(ROOT / "jobs" / "_shop", jobs / "_shop")
    shutil.copytree(folder, jobs / "2026" / folder.name)
    job = jobs / "2026" / folder.name / "job.yml"

    def make(changes: dict[str, str] | None = None) -> Path:
        text = job.read_text(encoding="utf-8")
        for old, new in (changes or {}).items():
            assert old in text, f"the job has no {old!r}"
            text = text.replace(old, new, 1)
        job.write_text(text, encoding="utf-8")
        assert main(["build", "--jobs", str(jobs), "--site", str(tmp_path / "site")]) == 0
        (page,) = (tmp_path / "site").glob("sheets/2026/*.html")
        return page

    return make


@pytest.fixture
def context(browser: Browser) -> Iterator[Any]:
    """A browser with a memory of its own, for pages of one's own."""
    made = browser.new_context(viewport={"width": 820, "height": 780}, offline=True)
    yield made
    made.close()


def as_cut(page: Page, row: int) -> Any:
    return page.locator("table.pass-table td.as-cut input").nth(row - 1)


def log_of(page: Page) -> list[dict[str, Any]]:
    """The piece of log.yml, as PyYAML reads it."""
    if page.locator("details.written").get_attribute("open") is None:
        page.locator("details.written > summary").click()
    return yaml.safe_load(page.locator("#log-piece").input_value()) or []


# What is written stays


@pytest.mark.parametrize("width", WIDTHS)
def test_ticks_and_fields_stay_after_a_reload_and_in_a_new_tab(
    opened: Callable[..., Page], width: int
) -> None:
    page = opened(READY, width)
    page.locator(".order input[type=checkbox]").nth(1).check()
    page.locator(".route-table .done input").nth(2).check()
    as_cut(page, 3).fill("0.0385")
    page.locator(".record td.blank input").first.fill("2.2405")
    page.locator("td.took input").first.fill("12")
    page.reload()
    again = page.context.new_page()
    again.goto(page.url)
    page.close()
    assert again.locator(".order input[type=checkbox]").nth(1).is_checked()
    assert again.locator(".route-table .done input").nth(2).is_checked()
    assert again.locator(".order input[type=checkbox]:checked").count() == 2  # the operation is one of them
    assert as_cut(again, 3).input_value() == "0.0385"
    assert [as_cut(again, row).input_value() for row in (2, 4)] == ["", ""]
    assert again.locator(".record td.blank input").first.input_value() == "2.2405"
    log = log_of(again)
    assert {"pass": 3, "dial": "0.0385 in"}.items() <= log[2].items()
    assert [entry.get("finished") for entry in log] == [None, True, None, None, None]
    assert log[-1]["time"] == "12 min"


def test_two_tabs_at_once_lose_nothing_and_the_last_change_of_a_field_stays(
    opened: Callable[..., Page],
) -> None:
    one = opened()
    other = one.context.new_page()
    other.goto(one.url)
    as_cut(one, 1).fill("0.021")
    as_cut(other, 2).fill("0.030")
    as_cut(other, 1).fill("0.022")
    other.locator(".order input[type=checkbox]").first.check()
    wait_until(one, "document.querySelector('.order input[type=checkbox]').checked", PATIENCE)
    assert [as_cut(one, row).input_value() for row in (1, 2)] == ["0.022", "0.030"]
    as_cut(one, 1).fill("0.023")
    wait_until(other, "document.querySelector('td.as-cut input').value === '0.023'", PATIENCE)
    for page in (one, other):
        page.reload()
        assert [as_cut(page, row).input_value() for row in (1, 2)] == ["0.023", "0.030"]


def test_another_job_has_entries_of_its_own(opened: Callable[..., Page], demo_site: Path) -> None:
    page = opened(READY)
    as_cut(page, 1).fill("0.022")
    page.goto((demo_site / sheet(demo_site, METRIC)).as_uri())
    assert page.locator(".entry").evaluate_all("fields => fields.filter(field => field.value).length") == 0
    assert page.locator("[data-count]").inner_text() == "nothing yet"


def test_a_changed_plan_shows_no_old_value_and_keeps_it_readable(
    archive: Callable[..., Path], context: Any
) -> None:
    page = context.new_page()
    page.goto(archive().as_uri())
    for row in range(1, 6):
        as_cut(page, row).fill(f"0.{row}11")
    page.locator(".order input[type=checkbox]").nth(1).check()  # it stays as it is
    archive({"length: 2 1/2": "length: 2 1/2, first_cut: 0.016"})
    page.reload()
    values = page.locator("td.as-cut input").evaluate_all("fields => fields.map(field => field.value)")
    assert set(values) == {""}
    assert page.locator(".order input[type=checkbox]").nth(1).is_checked()
    assert "The plan has changed" in page.locator(".changed").inner_text()
    log = log_of(page)
    said = page.locator(".earlier li").all_inner_texts()
    assert len(said) == 5
    assert "Pass 3" in said[2]
    assert "0.311" in said[2]
    old = [entry for entry in log if "earlier plan" in entry.get("note", "")]
    assert [entry["dial"] for entry in old] == [f"0.{row}11 in" for row in range(1, 6)]
    assert not any("pass" in entry for entry in old)  # its number means another pass now
    archive({"length: 2 1/2, first_cut: 0.016": "length: 2 1/2"})
    page.reload()
    assert [as_cut(page, row).input_value() for row in (1, 5)] == ["0.111", "0.511"]
    assert not page.locator(".changed").is_visible()


def test_a_new_revision_begins_empty_and_names_the_old_one(
    archive: Callable[..., Path], context: Any
) -> None:
    page = context.new_page()
    page.goto(archive().as_uri())
    as_cut(page, 1).fill("0.022")
    archive({"revision: A": "revision: B"})
    page.reload()
    assert as_cut(page, 1).input_value() == ""
    log_of(page)
    assert "revision A" in page.locator(".earlier li").inner_text()


def test_words_of_a_job_cannot_break_out_of_the_data(archive: Callable[..., Path], context: Any) -> None:
    page, said = context.new_page(), []
    page.on("pageerror", lambda error: said.append(str(error)))
    evil = "</script><script>window.broken = 1</script><!-- ' \\\" & </dialog>"
    page.goto(archive({"title: ": f'title: "{evil}"  # '}).as_uri())
    assert said == []
    assert page.evaluate("window.broken") is None
    as_cut(page, 1).fill("0.022")
    assert log_of(page)[0]["pass"] == 1


# A store that is full or refused


def test_a_refused_store_says_so_and_everything_can_be_taken_out(
    open_page: Opener, demo_site: Path
) -> None:
    page = open_page("index.html").page
    page.add_init_script(
        """Object.defineProperty(window, 'localStorage', {
            get() { throw new DOMException('no', 'SecurityError') }})"""
    )
    page.goto((demo_site / sheet(demo_site, READY)).as_uri())
    assert "not kept" in page.locator(".not-kept").inner_text()
    as_cut(page, 1).fill("0.022")
    page.locator(".order input[type=checkbox]").nth(1).check()
    assert as_cut(page, 1).input_value() == "0.022"
    assert [entry.get("dial") for entry in log_of(page)] == ["0.022 in", None]
    asked: list[str] = []
    page.on("dialog", lambda dialog: (asked.append(dialog.type), dialog.accept()))
    page.goto("about:blank")  # leaving asks first
    assert asked == ["beforeunload"]


def test_a_full_store_says_so_and_keeps_again_when_there_is_room(opened: Callable[..., Page]) -> None:
    page = opened()
    as_cut(page, 1).fill("0.0221")
    page.evaluate(
        """() => {
            for (let size = 4 * 1024 * 1024, count = 0; size >= 1; size = Math.floor(size / 2)) {
                try { while (true) localStorage.setItem('ballast' + count++, 'x'.repeat(size)) } catch {}
            }
        }"""
    )
    assert not page.locator(".not-kept").is_visible()
    as_cut(page, 2).fill("0.0310")
    assert page.locator(".not-kept").is_visible()
    assert "full" in page.locator(".not-kept").inner_text()
    assert [entry["dial"] for entry in log_of(page)] == ["0.0221 in", "0.0310 in"]
    page.evaluate(
        """() => Object.keys(localStorage).filter(key => key.startsWith('ballast'))
            .forEach(key => localStorage.removeItem(key))"""
    )
    as_cut(page, 3).fill("0.0380")
    assert not page.locator(".not-kept").is_visible()
    page.reload()
    assert [as_cut(page, row).input_value() for row in (1, 2, 3)] == ["0.0221", "0.0310", "0.0380"]


def test_without_script_the_sheet_is_as_on_paper(open_page: Opener, demo_site: Path) -> None:
    page = open_page(sheet(demo_site, READY), scripts=False).page
    assert not page.locator(".at-machine").is_visible()
    assert page.locator("dialog[open], .entry").count() == 0


# The large view

CAPITALS = """view => {
    const canvas = document.createElement('canvas').getContext('2d'), found = [];
    const walker = document.createTreeWalker(view, NodeFilter.SHOW_TEXT);
    while (walker.nextNode()) {
        const node = walker.currentNode, element = node.parentElement;
        if (!node.data.trim() || element.closest('.unseen, option')) continue;
        if (!element.getClientRects().length) continue;
        const style = getComputedStyle(element);
        canvas.font = `${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
        const tall = canvas.measureText('H').actualBoundingBoxAscent;
        const figure = element.closest('dl > div:not(.words) dd') && !element.closest('.unit');
        found.push([node.data.trim(), figure ? 'figure' : 'words', tall]);
    }
    return found;
}"""
TARGETS = """view => [...view.querySelectorAll('button, input, select, label.tick')]
    .filter(e => e.getClientRects().length && !e.closest('label.tick > *')).map(e => {
        const box = e.getBoundingClientRect();
        return [e.outerHTML.slice(0, 80), box.width, box.height];
    })"""


@pytest.mark.parametrize(("number", "width"), [*((READY, width) for width in WIDTHS), (NOT_READY, 360)])
def test_every_card_is_lettered_for_a_metre_and_fits(
    opened: Callable[..., Page], number: str, width: int
) -> None:
    page = opened(number, width)
    page.get_by_role("button", name="Large figures").click()
    view = page.locator("#large-view")
    count = view.locator(".card").count()
    assert count >= 15
    if number == NOT_READY:
        assert view.get_by_text("NOT READY TO RUN").is_visible()
    for _ in range(count):  # what is in each card is looked at in one go
        for text, kind, tall in view.evaluate(CAPITALS):
            assert tall / MM >= (FIGURES if kind == "figure" else WORDS) - 0.3, text  # hinting, whole pixels
        for what, wide, high in view.evaluate(TARGETS):
            assert min(wide, high) >= TARGET * MM - 0.6, what
        over = view.locator(".cards").evaluate("box => box.scrollWidth - box.clientWidth")
        assert over <= 0, view.locator(".card:not([hidden])").inner_text()
        page.keyboard.press("ArrowRight")
    for button in ("Back", "Next"):
        box = view.get_by_role("button", name=button).bounding_box()
        assert box is not None
        assert box["height"] >= STEP_TARGET * MM - 0.6
    assert page.evaluate("document.documentElement.scrollWidth") <= width


@pytest.mark.parametrize("width", WIDTHS)
def test_the_large_view_by_keyboard_alone(opened: Callable[..., Page], width: int) -> None:
    page = opened(READY, width)
    door = page.get_by_role("button", name="Large figures")
    door.focus()
    page.keyboard.press("Enter")
    view, says = page.locator("#large-view"), page.locator("#large-view > [role=status]")
    focused = "document.activeElement.textContent"

    def head() -> str:
        return view.locator(".card:not([hidden]) .head").inner_text()

    assert head() == "Step 1 of 19"
    assert page.evaluate(focused) == "Next"
    assert page.evaluate("getComputedStyle(document.activeElement).outlineStyle") == "solid"
    page.keyboard.press("Space")
    assert head() == "Step 2 of 19"
    assert says.inner_text().startswith("Step 2 of 19. Clean ways")
    for key, there in (("ArrowRight", 3), ("ArrowDown", 4), ("ArrowLeft", 3), ("PageUp", 2), ("Home", 1)):
        page.keyboard.press(key)
        assert head() == f"Step {there} of 19"
    page.keyboard.press("ArrowLeft")
    assert head() == "Step 1 of 19"
    for _ in range(12):  # to the tick
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.type") == "checkbox":
            break
    page.keyboard.press("Space")
    assert head() == "Step 1 of 19"
    page.keyboard.press("ArrowRight")
    assert page.evaluate(focused) == "Next"  # the tick went out of sight
    page.keyboard.press("End")
    assert head() == "Step 19 of 19"
    assert view.get_by_role("button", name="Next").get_attribute("aria-disabled") == "true"
    page.keyboard.press("Escape")
    assert not view.is_visible()
    assert page.evaluate(focused) == "Large figures"
    assert page.locator(".order input[type=checkbox]").first.is_checked()
    page.keyboard.press("Enter")
    assert head() == "Step 2 of 19"  # the first that is not done


@pytest.mark.parametrize("width", WIDTHS)
def test_a_pass_is_written_down_by_one_touch(opened: Callable[..., Page], width: int) -> None:
    page = opened(READY, width)
    page.get_by_role("button", name="Large figures").click()
    view = page.locator("#large-view")
    while not view.locator(".card:not([hidden]) .head").inner_text().startswith("Pass 1 "):
        page.keyboard.press("ArrowRight")
    card = view.locator(".card:not([hidden])")
    row = page.locator("table.pass-table tbody tr").first
    turns, dial, cut = (row.locator("td").nth(place).text_content() for place in (0, 1, 2))
    assert card.locator("dd").all_inner_texts()[:3] == [turns, f"{dial} in", f"{cut} in"]
    card.get_by_role("button", name="Cut as planned").click()
    assert card.locator("input").input_value() == dial
    page.keyboard.press("ArrowRight")
    page.keyboard.press("Escape")
    assert as_cut(page, 1).input_value() == dial
    (entry,) = log_of(page)
    assert (entry["pass"], entry["turns"], entry["dial"]) == (1, int(turns or ""), f"{dial} in")
    assert str(entry["operation"]) == "6"


def test_a_reading_is_typed_on_the_card_without_turning_it(opened: Callable[..., Page]) -> None:
    page = opened()
    page.get_by_role("button", name="Large figures").click()
    field = page.locator("#large-view .card:not([hidden]) input[type=text]")
    field.click()
    page.keyboard.type("a b")
    page.keyboard.press("ArrowLeft")
    assert field.input_value() == "a b"
    assert page.locator("#large-view .card:not([hidden]) .head").inner_text() == "Step 1 of 19"


# The sums of the page are those of Python


@pytest.mark.parametrize("number", [READY, INSIDE, METRIC])
def test_a_thousand_readings_come_out_as_in_python(opened: Callable[..., Page], number: str) -> None:
    page = opened(number)
    size = json.loads(page.locator("#at-machine-data").text_content() or "")["size"]
    feed = size["feed"]
    ours = Feed(
        feed["along"], feed["half"], feed["crossHalf"], feed["depth"], feed["first"], feed["small"]
    )
    chance = random.Random(number)
    for way in size["readings"]:
        read = Read(*(way[key] for key in ("aim", "least", "most", "per", "bottom", "top", "inside")))
        span = read.top - read.bottom
        ends = read.bottom - 0.02 * span, read.top + 0.02 * span
        readings = [round(chance.uniform(*ends), 5) for _ in range(700)]
        readings += [round(read.aim + chance.gauss(0, 0.02 * span), 4) for _ in range(250)]
        readings += [chance.uniform(0, 100 * read.top) for _ in range(43)]
        readings += [read.aim, read.least, read.most, read.bottom, read.top, 0.0, 22.7]
        theirs = page.evaluate(
            """([readings, read, feed, inch]) => readings.map(one => [
                setupSheet.sums.leftToCut(one, read, feed), setupSheet.sums.slipIn(one, read, inch)])""",
            [readings, way, feed, size["unit"] == "in"],
        )
        assert len(readings) == 1000
        for reading, (left, slip) in zip(readings, theirs, strict=True):
            mine = left_to_cut(reading, read, ours)
            assert (left["means"], left["over"], left["halves"], left["crossHalves"], left["cuts"]) == (
                mine.means, mine.over, mine.halves, mine.cross_halves, list(mine.cuts)
            ), reading
            assert tuple(slip) == slip_in(reading, read, size["unit"] == "in")


@pytest.mark.parametrize("width", WIDTHS)
def test_a_reading_says_what_is_left_and_never_the_last_cut_alone(
    opened: Callable[..., Page], width: int
) -> None:
    """Aim 2.2708 in; 0.0060 too full is 0.0030 radial, 0.00345 on a compound at 29 1/2 degrees."""
    page = opened(READY, width)
    page.get_by_role("button", name="I measured, or tried").first.click()
    page.locator("#measured-reads").fill("2.2768")
    answer = page.locator("#measured .answer")
    assert "0.0060 in TO COME OFF" in answer.inner_text()
    assert answer.locator("[data-on-slide]").inner_text() == "0.0030 in, 3 divisions"
    assert answer.locator("[data-on-cross]").inner_text() == "0.0060 in, 6 divisions"  # it reads diameter
    lines = answer.locator("ol li").all_inner_texts()
    assert lines[0].startswith("On by")
    assert "Measure again" in lines[1]
    assert lines[2].startswith("Only then")
    assert "spring pass" in lines[-1]
    view = page.locator("#measured")
    for text, _, tall in view.evaluate(CAPITALS):
        assert tall / MM >= WORDS - 0.3, text
    for what, wide, high in view.evaluate(TARGETS):
        assert min(wide, high) >= TARGET * MM - 0.6, what
    assert view.locator(".cards").evaluate("box => box.scrollWidth - box.clientWidth") <= 0


@pytest.mark.parametrize(
    ("typed", "head", "says"),
    [
        ("2.2660", "UNDER SIZE: STOP", "nothing puts metal back"),
        ("2.2720", "INSIDE ITS LIMITS", "try the mate"),
        ("22.768", "THAT CANNOT BE", "Was 2.2768 in meant?"),
        ("57.83", "THAT CANNOT BE", "looks like millimeters: 2.2768 in"),
        ("2,2768", "NOT A SIZE", "2.2768"),
        ("2.27.68", "NOT A SIZE", "one plain number"),
        ("-2.2768", "NOT A SIZE", "one plain number"),
        ("1e9", "NOT A SIZE", "one plain number"),
        ("9" * 400, "THAT CANNOT BE", "type it again"),
        ("57.83 mm", "0.0060 in TO COME OFF", "2.2708 in"),
    ],
)
def test_what_is_typed_wrong_is_named(
    shared: Page, typed: str, head: str, says: str
) -> None:
    shared.locator("#measured-reads").fill("2.2790")  # what it said then is gone
    shared.locator("#measured-reads").fill(typed)
    assert shared.locator("#measured .answer :is(dl, ol)").first.is_visible() == ("COME OFF" in head)
    assert shared.locator("#measured [data-verdict]").inner_text() == head
    assert says in shared.locator("#measured .answer [data-why]").inner_text()
    shared.get_by_role("button", name="Write it down").click()
    refused = head in {"THAT CANNOT BE", "NOT A SIZE"}
    said = shared.locator("#measured .done-word").inner_text()
    assert said.startswith("Not written down" if refused else "Written down")


@pytest.fixture(scope="module")
def shared(browser: Browser, demo_site: Path) -> Iterator[Page]:
    """One page with the form for readings open, for tests that leave it as it is."""
    made = browser.new_context(viewport={"width": 820, "height": 1100}, offline=True)
    page = made.new_page()
    page.goto((demo_site / sheet(demo_site, READY)).as_uri())
    page.locator(".at-machine [data-opens=measured]").click()
    yield page
    made.close()


def test_readings_and_trials_go_into_the_log(opened: Callable[..., Page]) -> None:
    page = opened()
    page.locator("details.written > summary").click()
    page.locator("[data-by]").fill("machinist 2")
    page.locator(".at-machine [data-opens=measured]").click()
    page.locator("#measured-pass").select_option("19")
    page.locator("#measured-reads").fill("2.2768")
    page.locator("#measured-with").fill('micrometer "2-3 in": set at 68 °F')
    page.keyboard.press("Enter")
    page.keyboard.press("Enter")  # touched twice
    page.locator("#measured-what").select_option("fit")
    assert not page.locator("#measured .answer :is(dl, ol)").first.is_visible()
    page.locator("#measured-feels").select_option(label="Tight, and shines at the crest only")
    page.locator("#measured-turns").fill("3.5")
    assert "3.5 turns are 0.44 in of thread" in page.locator("#measured .answer").inner_text()  # of 1/8 in
    assert "No more than" not in page.locator("#measured [data-fit]:visible").inner_text()
    page.get_by_role("button", name="Write it down").click()
    page.keyboard.press("Escape")
    measured, tried = log_of(page)
    assert measured["measured"] == {"over_wires": "2.2768 in", "with": 'micrometer "2-3 in": set at 68 °F'}
    assert (measured["pass"], measured["by"], str(measured["operation"])) == (19, "machinist 2", "6")
    assert tried["fit"] == {"turns": 3.5, "feels": "tight", "where": "crest"}


def test_a_job_without_a_thread_has_steps_and_no_readings(opened: Callable[..., Page]) -> None:
    page = opened(NO_THREAD)
    assert page.get_by_role("button", name="Large figures").is_visible()
    assert page.locator("[data-opens=measured]").count() == 0


# The piece of log.yml

TYPED = [
    "0.046", "yes", "no", "007", "0.0", "~", "null", "1_000", "0x1F", "1:30", "2026-03-04", "a: b",
    "- a", "# no", "'", '"', "''", "\\", "\\n", "{a: 1}", "[1]", "&x", "*x", "!!python/object", "%TAG",
    "@", "`", "|", ">", "? x", "end:", " leading", "trailing ", "ä Ø ½ …", "🔧 tight 👍🏽",
    "\u202eright to left", "\xa0", "\xad", "<script>", "\x7f", "\u2028", "\u2029", "\x85", "\ufeff",
    "\ufffe", "\uffff", "tab\there", "---", "...", "=", "<<", "1e3", ".inf",
]


def test_what_was_typed_is_read_back_exactly(opened: Callable[..., Page]) -> None:
    page = opened()
    rows = page.locator("td.as-cut input").count()
    for start in range(0, len(TYPED), rows):
        typed = TYPED[start : start + rows]
        for row, text in enumerate(typed, 1):
            as_cut(page, row).fill(text)
        kept = [as_cut(page, row).input_value() for row in range(1, len(typed) + 1)]
        log = {entry["pass"]: entry for entry in log_of(page)}
        for row, text in enumerate(kept, 1):
            if not text.strip("\ufeff\u2028\u2029\u00a0 "):
                continue  # blanks say nothing
            entry = log[row]
            if "dial" in entry:
                assert entry["dial"] == f"{text.strip()} in"
                assert text in {"0.046", "0.0"}
            else:
                assert entry["note"] == text


def test_any_text_at_all_is_read_back_exactly(shared: Page) -> None:
    """Line ends, control characters and signs beyond the first plane, too, and halves of such signs."""
    chance = random.Random(11)
    signs = [*range(0x250), 0x2028, 0x2029, 0xFEFF, 0xFFFD, 0xFFFE, 0xFFFF, 0x1F527, 0x10FFFF, 0xD800, 0xDFFF]
    texts = [
        "".join(chr(chance.choice(signs)) for _ in range(chance.randint(1, 40))) for _ in range(400)
    ]
    codes = [[ord(sign) for sign in text] for text in texts]
    piece = shared.evaluate(
        """codes => setupSheet.log.text(codes.map((code, number) => ({
            id: `x${number}`, value: String.fromCodePoint(...code), time: 1e12 + number * 6e4, by: '',
            what: {takes: 'dial', unit: 'in', planned: '', turns: 0, operation: '6', pass: number + 1}})))""",
        codes,
    )
    read = {entry["pass"]: entry for entry in yaml.safe_load(piece)}
    for number, text in enumerate(texts, 1):
        if number in read and "note" in read[number]:
            joined = text.encode("utf-16", "surrogatepass").decode("utf-16", "surrogatepass")
            assert read[number]["note"] == joined
    assert len(read) >= 390  # those of blanks alone say nothing


def test_the_piece_is_saved_and_copied_and_afterwards_only_what_is_new(opened: Callable[..., Page]) -> None:
    page = opened()
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    as_cut(page, 1).fill("0.022")
    piece = log_of(page)
    with page.expect_download() as saved:
        page.get_by_role("button", name="Save it as a file").click()
    assert saved.value.suggested_filename == "SW-101-log.yml"
    assert yaml.safe_load(Path(saved.value.path()).read_text(encoding="utf-8")) == piece
    page.reload()
    assert log_of(page) == []
    page.wait_for_timeout(5)
    as_cut(page, 2).fill("0.031")
    assert [entry["pass"] for entry in log_of(page)] == [2]
    page.locator("[data-all]").check()
    assert [entry["pass"] for entry in log_of(page)] == [1, 2]
    page.get_by_role("button", name="Copy it").click()
    wait_until(page, "document.querySelector('.at-machine .done-word').textContent === 'Copied.'", PATIENCE)
    copied = yaml.safe_load(page.evaluate("navigator.clipboard.readText()"))
    assert [entry["pass"] for entry in copied] == [1, 2]


def test_entries_go_only_when_it_is_said_twice(opened: Callable[..., Page]) -> None:
    page = opened()
    as_cut(page, 1).fill("0.022")
    log_of(page)
    page.get_by_role("button", name="Take all entries").click()
    page.get_by_role("button", name="Keep them").click()
    assert as_cut(page, 1).input_value() == "0.022"
    page.get_by_role("button", name="Take all entries").click()
    page.get_by_role("button", name="Yes, take them off").click()
    assert as_cut(page, 1).input_value() == ""
    page.reload()
    assert as_cut(page, 1).input_value() == ""


# Barriers, paper


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_no_serious_barrier_in_any_view(opened: Callable[..., Page], scheme: str) -> None:
    """The sheet at rest is checked in test_pages.py."""
    page = opened(READY, 360, scheme=scheme)
    page.locator("details.written > summary").click()
    found = []
    page.evaluate(  # the sheet itself is looked at elsewhere, and takes axe long
        "document.querySelectorAll('.sheet > :not(dialog, .at-machine, style)').forEach(one => one.remove())"
    )

    def look(where: str) -> None:
        found.extend((where, one) for one in barriers(page, where))

    look(".at-machine")
    page.get_by_role("button", name="Large figures").click()
    while not page.locator("#large-view .card:not([hidden]) [data-opens]").count():
        page.keyboard.press("ArrowRight")
    look("#large-view")
    page.locator("#large-view .card:not([hidden]) [data-opens]").click()
    page.locator("#measured-reads").fill("2.2768")
    look("#measured")
    assert found == []


def test_on_paper_there_is_no_control_and_what_was_written_stands_there(opened: Callable[..., Page]) -> None:
    page = opened()
    as_cut(page, 1).fill("0.022")
    page.emulate_media(media="print")
    assert not page.locator(".at-machine").is_visible()
    field = as_cut(page, 1).evaluate("field => [getComputedStyle(field).borderTopWidth, field.value]")
    assert field == ["0px", "0.022"]
    assert not as_cut(page, 2).is_visible()  # an empty field leaves the cell as it is
