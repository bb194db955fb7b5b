"""The archive page: search and narrowing work from disk and over http, by keyboard, on a phone."""

from __future__ import annotations

import re
import shutil
from collections import Counter
from collections.abc import Callable
from html import unescape
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from generator.archive.blocks import blocks_of
from generator.archive.columns import columns_contents, natural, orders_contents, rows_contents
from generator.archive.listed import Listed
from generator.archive.search_index import segment, shard, shard_name, shard_names, spread
from generator.archive.words import whole_words, words_of
from generator.sheet.row import ArchiveRow
from tests.archive.rows import made_jobs
from tests.barriers import barriers
from tests.browser.rows import show_all

Opener = Callable[..., Any]
COUNT = len(list((Path(__file__).parents[2] / "jobs").glob("*/*/job.yml")))  # of the demo archive
PHONE = {"width": 375, "height": 812}
TYPED = ("2-8", "M30x3.5", "1/2", "galled", "Ø63")
FACTS = {  # made jobs: number -> what its sheet says beside its row
    "A-1": "thread 2-8 UN-2A, the flank was galled",
    "A-2": "M30x3.5-6g, Ø63 h9",
    "A-3": "1/2-13 UNC and Ø630 and 12-8",
    "A-4": "2 1/2 in, nothing galls here",
}
HOSTILE = "<img src=x onerror=\"document.title='owned'\"></script><script>document.title='owned'</script>"


def with_jobs(site: Path, folder: Path, jobs: list[Listed], texts: dict[str, str] | None = None) -> Path:
    """A copy of the site whose archive has these jobs."""
    shutil.copytree(site, folder)
    shutil.rmtree(folder / "find")
    blocks = blocks_of(jobs)
    files = spread(len(blocks))
    made = {
        block.name: segment(
            [words_of((texts or {}).get(job.row.number, ""), job.row) for job in block.jobs], files
        )
        for block in blocks
    }
    contents = [*columns_contents(blocks), *orders_contents(blocks), *rows_contents(blocks)]
    written = {content.name: content.make() for content in contents}
    for name in shard_names(files):
        written[f"find/words/{name}.js"] = shard(name, [(b, m[name]) for b, m in made.items() if name in m])
    for name, text in written.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return folder


@pytest.fixture(scope="module")
def made_site(demo_site: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """An archive of 3,000 made jobs."""
    return with_jobs(demo_site, tmp_path_factory.mktemp("made") / "site", made_jobs(3000))


@pytest.fixture(scope="module")
def few_site(demo_site: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """An archive of the four jobs of `FACTS`."""
    jobs = [Listed(f"{number}.html", ArchiveRow(number, "", "2026", "done"), number) for number in FACTS]
    return with_jobs(demo_site, tmp_path_factory.mktemp("few") / "site", jobs, FACTS)


def numbers(page: Page) -> list[str]:
    """The job numbers that the table shows."""
    return page.locator("#jobs-table tbody td:first-child").all_inner_texts()


def chosen(opened: Any, choice: str) -> Page:
    """The page with a choice in its address."""
    page: Page = opened.page
    address = page.url
    page.goto("about:blank")
    page.goto(address + choice)
    return page


def found(page: Page, expected: list[str]) -> None:
    """Waits until the table shows these jobs."""
    if expected:
        expect(page.locator("#jobs-table tbody td:first-child")).to_have_text(expected)
    else:
        expect(page.locator("#jobs-table")).to_be_hidden()


def unfold(page: Page, name: str) -> Any:
    group = page.locator(f"[data-facet={name}]")
    if group.get_attribute("open") is None:
        group.locator("summary").click()
    return group


def counts(group: Any) -> dict[str, int]:
    """What a group shows: value -> count."""
    lines = group.locator("li label").evaluate_all(
        "all => all.map(one => [...one.querySelectorAll('span')].map(part => part.textContent))"
    )
    return {value: int(count) for value, count in lines}


# -- the search --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("SW-113", ["SW-113"]),
        ("sw-113", ["SW-113"]),
        ("M16x2", ["SW-115"]),  # a thread
        ("1-8 UNC-2A-LH", ["SW-116"]),
        ("bent service", ["SW-101"]),  # two words of the notes, not side by side
        ("turnbuckle thirteen", ["SW-116"]),  # a word of the mate and one of the lathe
        ("  hook   COUPLING ", ["SW-116", "SW-117"]),  # written on the one, said by the other's sheet
        ("nosuchword thread", []),
    ],
)
def test_the_search_finds_the_jobs_that_have_all_the_words(
    open_page: Opener, words: str, expected: list[str]
) -> None:
    page = open_page("index.html").page
    page.get_by_label("Find a job").fill(words)
    found(page, expected)


@pytest.mark.parametrize("way", ["disk", "http"])
def test_what_a_machinist_types_is_found_from_disk_and_over_http(
    browser: Browser, few_site: Path, served: Callable[[Path], str], way: str
) -> None:
    expected = {
        "2-8": ["A-1"],
        "M30x3.5": ["A-2"],
        "1/2": ["A-3", "A-4"],
        "galled": ["A-1"],
        "Ø63": ["A-2", "A-3"],
        "2 1/2": ["A-4"],
        "63": ["A-2", "A-3"],
    }
    assert set(TYPED) <= set(expected)
    with browser.new_page() as page:
        page.goto((few_site.as_uri() + "/" if way == "disk" else served(few_site)) + "index.html")
        for words, jobs in expected.items():
            page.get_by_label("Find a job").fill(words)
            found(page, jobs)


@pytest.mark.parametrize("words", ["2-8", "1/2", "Ø1", "galled", "0.7854", "wires ferry", "thread 3-jaw"])
def test_on_the_demo_archive_it_finds_what_a_plain_look_at_the_sheets_finds(
    open_page: Opener, demo_site: Path, words: str
) -> None:
    """A plain look: tags off, what is not searched taken out, each word at the beginning of one."""
    left_out = r"<(script|style|template|dialog)\b.*?</\1>|<details class=.working.*?</details>"
    sections = r"<section class=.(?:appendix|other-lathes|plot|lessons)\b.*?</section>"
    expected = []
    for path in sorted(demo_site.glob("sheets/*/*.html")):
        article = path.read_text(encoding="utf-8").partition("<article")[2].rpartition("</article>")[0]
        shown = re.sub(f"{left_out}|{sections}", " ", article, flags=re.DOTALL)
        text = unescape(re.sub("<[^>]*>", " ", shown)).lower()
        if all(re.search(rf"(?<![\w./]){re.escape(word.lower())}", text) for word in words.split()):
            expected.append("-".join(path.stem.split("-")[:2]))
    page = open_page("index.html").page
    page.get_by_label("Sort by").select_option("newest year")
    page.get_by_label("Find a job").fill(words)
    page.wait_for_url("**#find=*")
    expect(page.locator("#jobs-count")).to_have_text(
        re.compile(rf"^{len(expected)}( of \d+)? jobs?\b" if expected else "^No job ")
    )
    if expected:
        show_all(page)
        assert sorted(numbers(page)) == sorted(expected)


def test_the_browser_makes_words_and_file_names_as_the_program_does(open_page: Opener) -> None:
    nasty = [
        "2-8 UN-2A", "2 1/4-8", "2½ in", "½", "Tr40x14(P7)LH", "M30×3,5", "Ø63", "⌀ 63", "1,5", ".0005",
        "Größe ﬁt", "İSTANBUL ΟΔΟΣ", "a\u0301b\u0335", "don't", "e-mail_me", "1:30", "½-13", "3–4", "−0.5",
        "名前 ねじ", "ǅ", "x" * 40, "\U0001f529 bolt", "m²", "½″", "a/b/c.d", "..a..b", "1/2/3", "٣", "①②",
        "12 3/4 x 5/8", "#10-32", "SW-113 1/2", "2-1/4-8", "5'-6\"", "0.0001 0.012 1.234 12.5",
    ]  # fmt: skip
    page = open_page("index.html").page
    words = page.evaluate("all => all.map(one => setupSheet.words.wholeWords(one))", nasty)
    assert words == [whole_words(text) for text in nasty]
    every = sorted({word for found in words for word in found} | {"0.7*", "ø6*", "un*"})
    names = page.evaluate("all => all.map(one => setupSheet.words.fileName(one, 2048))", every)
    assert names == [shard_name(word, 2048) for word in every]


def test_what_somebody_wrote_is_found_by_itself(open_page: Opener) -> None:
    page = open_page("index.html").page
    page.get_by_label("Find a job").fill("thread")
    expect(page.locator("#jobs-count")).to_have_text(re.compile(rf"^{COUNT} jobs; first the \d+ "))
    page.get_by_label("Only in what somebody wrote").check()
    expect(page.locator("#jobs-count")).to_have_text(re.compile(rf"^\d+ of {COUNT} jobs$"))
    assert "in=written" in page.url


def test_jobs_where_somebody_wrote_the_words_come_first(
    open_page: Opener, demo_site: Path, tmp_path: Path
) -> None:
    texts = {"A-1": "galled"}
    jobs = [
        Listed(f"{number}.html", ArchiveRow(number, "", "2026", "done", text=text), number)
        for number, text in (("A-1", ""), ("A-2", "the flank galled"))
    ]
    page = open_page("index.html", site=with_jobs(demo_site, tmp_path / "site", jobs, texts)).page
    page.get_by_label("Find a job").fill("galled")
    found(page, ["A-2", "A-1"])
    expect(page.locator("#jobs-count")).to_have_text("2 jobs; first the 1 where somebody wrote it")
    page.get_by_label("Sort by").select_option("newest year")
    found(page, ["A-1", "A-2"])


def test_accents_and_hostile_text_are_only_text(
    open_page: Opener, demo_site: Path, tmp_path: Path
) -> None:
    row = ArchiveRow(
        "X-1", f"Schlüssel {HOSTILE}", HOSTILE, HOSTILE, material=HOSTILE, lathe=HOSTILE,
        holding=(HOSTILE,), customer=HOSTILE, text="Größe",
    )  # fmt: skip
    site = with_jobs(demo_site, tmp_path / "site", [Listed("a.html", row, "")])
    page = open_page("index.html", site=site).page
    for words in ("schlussel", "SCHLÜSSEL", "große x-1"):
        page.get_by_label("Find a job").fill(words)
        found(page, ["X-1"])
    for name in ("customer", "material", "holding", "year", "status"):
        unfold(page, name).locator("input[type=checkbox]").first.check()
    expect(page.locator("#jobs-chips li")).to_have_count(5)
    page.reload()
    found(page, ["X-1"])
    assert page.title() != "owned"
    assert page.locator(".md-content img").count() == 0


# -- the table ---------------------------------------------------------------------------------------------


def test_every_job_has_one_row_and_every_row_opens_its_sheet(open_page: Opener, demo: Path) -> None:
    page = open_page("index.html").page
    jobs = sorted(path.parent.name for path in (demo / "jobs").glob("*/*/job.yml"))
    expect(page.locator("#jobs-count")).to_have_text(f"{len(jobs)} jobs")
    show_all(page)
    expect(page.locator("#jobs-table tbody tr")).to_have_count(len(jobs))
    page.get_by_label("Find a job").fill("SW-101")
    found(page, ["SW-101"])
    page.get_by_role("link", name="SW-101").click()
    expect(page.locator("article.sheet")).to_have_attribute("data-job", "SW-101")


def test_a_row_shows_number_title_thread_material_lathe_holding_year_and_status(open_page: Opener) -> None:
    page = open_page("index.html").page
    page.get_by_label("Find a job").fill("SW-116")
    found(page, ["SW-116"])
    headings = page.locator("#jobs-table thead th").all_inner_texts()
    assert headings == ["Number", "Title", "Thread", "Material", "Lathe", "Holding", "Year", "Status"]
    cells = page.locator("#jobs-table tbody td").all_inner_texts()
    assert cells[:4] == ["SW-116", "Coupling hook, left-hand end", "1-8 UNC-2A-LH", "EN8 steel"]
    assert "4-jaw chuck" in cells[5]
    assert cells[6] == "2026"


def test_three_thousand_jobs_are_shown_a_few_at_a_time(open_page: Opener, made_site: Path) -> None:
    page = open_page("index.html", site=made_site).page
    expect(page.locator("#jobs-count")).to_have_text("3000 jobs")
    shown = len(numbers(page))
    assert shown == 25
    page.get_by_role("button", name="Show more jobs").click()
    expect(page.locator("#jobs-table tbody tr")).to_have_count(2 * shown)
    assert page.evaluate("document.activeElement.closest('tr').rowIndex") == shown + 1
    page.get_by_label("Find a job").fill("SW-870075")
    found(page, ["SW-870075"])


@pytest.mark.parametrize("by", ["number", "title", "size", "pitch", "material", "lathe", "customer"])
def test_the_jobs_are_sorted(open_page: Opener, made_site: Path, by: str) -> None:
    rows = {job.row.number: job.row for job in made_jobs(3000)}
    keys = {
        "number": lambda row: row.number,
        "title": lambda row: row.title.casefold(),
        "size": lambda row: row.thread.nominal if row.thread else 9.0,
        "pitch": lambda row: row.thread.pitch_si if row.thread else 9.0,
        "material": lambda row: [(not figures, *rest) for figures, *rest in natural(row.material)],
        "lathe": lambda row: row.lathe,
        "customer": lambda row: row.customer,
    }
    page = open_page("index.html", site=made_site).page
    expect(page.locator("#jobs-count")).to_have_text("3000 jobs")
    first = numbers(page)
    page.get_by_label("Sort by").select_option(by)
    page.wait_for_url(f"**#sort={by}")
    expect(page.locator("#jobs-table tbody td:first-child").first).not_to_have_text(first[0] if first else "")
    key = keys[by]
    shown = [key(rows[number]) for number in numbers(page)]
    assert shown == sorted(map(key, rows.values()))[: len(shown)]


# -- narrowing ---------------------------------------------------------------------------------------------


def test_counts_agree_with_a_plain_count_under_the_other_choices(
    open_page: Opener, made_site: Path
) -> None:
    rows = [job.row for job in made_jobs(3000)]
    page = open_page("index.html", site=made_site).page
    lathe, holding, pitch = (unfold(page, name) for name in ("lathe", "holding", "pitch"))
    expect(lathe.locator("li")).to_have_count(4)
    assert counts(lathe) == Counter(row.lathe for row in rows)
    assert counts(holding) == dict(Counter(one for row in rows for one in row.holding).most_common(8))
    lathe.get_by_label("L2 Thirteen-inch lathe").check()
    lathe.get_by_label("L4 Bench lathe").check()
    holding.get_by_label("steady rest").check()
    lathes = {"L2 Thirteen-inch lathe", "L4 Bench lathe"}
    left = [row for row in rows if row.lathe in lathes and "steady rest" in row.holding]
    expect(page.locator("#jobs-count")).to_have_text(f"{len(left)} of 3000 jobs")
    assert counts(lathe) == Counter(row.lathe for row in rows if "steady rest" in row.holding)
    by_holding = Counter(one for row in rows if row.lathe in lathes for one in row.holding)
    assert counts(holding) == dict(by_holding.most_common(8))
    by_pitch = Counter(row.thread.pitch for row in left if row.thread)
    shown = counts(pitch)
    assert len(shown) == 8
    assert list(shown.values()) == sorted(by_pitch.values(), reverse=True)[:8]
    assert all(by_pitch[value] == count for value, count in shown.items())
    pitch.get_by_role("button", name="more").click()
    assert counts(pitch) == by_pitch


@pytest.mark.parametrize(
    ("low", "high"),
    [("2 1/8 in", "53.975 mm"), ("1 1/2", "50 mm"), ("M30", ""), ("", '3/8"'), ("2-1/4 in", "3 in")],
)
def test_a_range_of_sizes_is_typed_in_either_unit(
    open_page: Opener, made_site: Path, low: str, high: str
) -> None:
    mm = {
        "2 1/8 in": 53.975, "53.975 mm": 53.975, "1 1/2": 38.1, "50 mm": 50, "M30": 30, '3/8"': 9.525,
        "2-1/4 in": 57.15, "3 in": 76.2,
    }  # fmt: skip
    sizes = [job.row.thread.nominal * 1000 for job in made_jobs(3000) if job.row.thread]
    left = [size for size in sizes if mm.get(low, 0) - 1e-3 <= size <= mm.get(high, 1e9) + 1e-3]
    page = open_page("index.html", site=made_site).page
    page.get_by_label("from", exact=True).fill(low)
    page.get_by_label("to", exact=True).fill(high)
    expect(page.locator("#jobs-count")).to_have_text(f"{len(left)} of 3000 jobs")
    assert " mm)" in page.locator("#jobs-sizes").inner_text()
    assert " in (" in page.locator("#jobs-sizes").inner_text()


def test_a_size_without_a_unit_is_asked_for_and_narrows_nothing(open_page: Opener) -> None:
    page = open_page("index.html").page
    page.get_by_label("from", exact=True).fill("50")
    expect(page.locator("#jobs-sizes")).to_contain_text("write 2 in, 1 1/2 or 50 mm")
    expect(page.get_by_label("from", exact=True)).to_have_attribute("aria-invalid", "true")
    expect(page.locator("#jobs-count")).to_have_text(f"{COUNT} jobs")


def test_a_group_of_many_values_has_a_box_to_find_one(open_page: Opener, made_site: Path) -> None:
    page = open_page("index.html", site=made_site).page
    customer = unfold(page, "customer")
    box = customer.get_by_label("Find a value of Customer")
    expect(customer.locator("li")).to_have_count(8)
    wanted = made_jobs(3000)[1234].row.customer
    box.fill(wanted.lower())
    customer.get_by_label(wanted).check()
    many = sum(job.row.customer == wanted for job in made_jobs(3000))
    expect(page.locator("#jobs-count")).to_have_text(f"{many} of 3000 jobs")
    assert page.evaluate("document.activeElement.value") == wanted  # the tick keeps the focus
    expect(page.locator("#jobs-chips")).to_have_text(f"Customer: {wanted}")


def test_what_is_chosen_is_in_the_address_and_comes_off(open_page: Opener, made_site: Path) -> None:
    page = open_page("index.html", site=made_site).page
    unfold(page, "lathe").get_by_label("L3 Metric lathe").check()
    unfold(page, "duty").get_by_label("lifts").check()
    page.get_by_label("from", exact=True).fill("1/2 in")
    page.get_by_label("Find a job").fill("new")
    page.get_by_label("Sort by").select_option("size")
    page.wait_for_url("**#find=new&lathe=L3%20Metric%20lathe&duty=lifts&size=1%2F2%20in..&sort=size")
    other = page.context.new_page()
    other.goto(page.url)
    expect(other.locator("#jobs-count")).to_have_text(re.compile(r"^9 of 3000 jobs"))
    expect(page.locator("#jobs-count")).to_have_text(re.compile(r"^9 of 3000 jobs"))
    count, shown = page.locator("#jobs-count").inner_text(), numbers(page)
    assert shown
    assert other.locator("#jobs-count").inner_text() == count
    assert numbers(other) == shown
    other.get_by_role("button", name="Take off: Lathe: L3 Metric lathe").click()
    expect(other.locator("#jobs-chips li")).to_have_count(2)
    other.get_by_role("button", name="Take off: Size: 1/2 in to any").click()
    other.get_by_role("button", name="Take everything off").click()
    expect(other.locator("#jobs-count")).to_have_text("3000 jobs")
    assert "#" not in other.url


def test_the_address_is_copied(browser: Browser, demo_site: Path, served: Callable[[Path], str]) -> None:
    with browser.new_context() as context:
        context.grant_permissions(["clipboard-read", "clipboard-write"])
        page = context.new_page()
        page.goto(served(demo_site) + "index.html#find=bollard")
        page.get_by_role("button", name="Copy the address of this choice").click()
        expect(page.locator("#jobs-copied")).to_have_text("Copied.")
        assert page.evaluate("navigator.clipboard.readText()") == page.url


def test_where_the_clipboard_is_refused_the_address_stands_there(browser: Browser, demo_site: Path) -> None:
    with browser.new_context() as context:
        context.add_init_script("Object.defineProperty(navigator, 'clipboard', {value: undefined})")
        page = context.new_page()
        page.goto((demo_site / "index.html").as_uri() + "#find=bollard")
        page.get_by_role("button", name="Copy the address of this choice").click()
        expect(page.get_by_label("Address of this choice")).to_have_value(page.url)


def test_another_address_is_obeyed_and_a_spoilt_one_changes_nothing(open_page: Opener) -> None:
    opened = open_page("index.html")
    page = chosen(opened, "#find=SW-113&kind=no%20such&sort=nothing&what=ever")
    found(page, [])
    page.evaluate("location.hash = '#find=SW-101'")
    found(page, ["SW-101"])
    page.evaluate("location.hash = '#find=%'")
    expect(page.get_by_label("Find a job")).to_have_value("SW-101")
    found(page, ["SW-101"])
    assert opened.complaints == []


def test_going_back_from_a_sheet_finds_the_choice_as_it_was(open_page: Opener) -> None:
    page = open_page("index.html").page
    page.get_by_label("Find a job").fill("bollard")
    unfold(page, "status").get_by_label("in work").check()
    found(page, ["SW-113"])
    page.get_by_role("link", name="SW-113").click()
    page.go_back()
    found(page, ["SW-113"])
    page.get_by_role("link", name="SW-113").click()
    page.get_by_role("link", name="All jobs", exact=True).click()
    found(page, ["SW-113"])
    expect(page.locator("#jobs-chips li")).to_have_count(1)


# -- ways of working ---------------------------------------------------------------------------------------


def test_the_search_works_by_keyboard_alone(open_page: Opener) -> None:
    page = open_page("index.html").page
    for _ in range(20):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.id") == "jobs-words":
            break
    page.keyboard.type("bollard SW-113")
    page.keyboard.press("Enter")
    expect(page.locator("article.sheet")).to_have_attribute("data-job", "SW-113")


def test_a_value_is_chosen_by_keyboard_and_keeps_the_focus(open_page: Opener) -> None:
    page = open_page("index.html").page
    page.locator("[data-facet=status] > summary").focus()
    page.keyboard.press("Enter")
    expect(page.locator("[data-facet=status] li")).not_to_have_count(0)
    page.keyboard.press("Tab")
    value = page.evaluate("document.activeElement.value")
    page.keyboard.press("Space")
    expect(page.locator("#jobs-chips")).to_have_text(f"Status: {value}")
    assert page.evaluate("document.activeElement.value") == value


def test_without_scripts_the_page_says_where_the_lists_are(open_page: Opener) -> None:
    page = open_page("index.html", scripts=False).page
    link = page.locator("noscript a")
    assert link.get_attribute("href") == "lists.html"
    expect(page.locator("#jobs-search")).to_be_hidden()


def test_an_old_browser_is_told_why_and_where_to_look(browser: Browser, demo_site: Path) -> None:
    with browser.new_context() as context:
        context.add_init_script("delete window.DecompressionStream")
        page = context.new_page()
        page.goto((demo_site / "index.html").as_uri())
        expect(page.locator("#jobs-count")).to_contain_text("cannot unpack the list of jobs")


def test_a_file_that_is_missing_is_named_and_asked_for_again(
    open_page: Opener, few_site: Path, tmp_path: Path
) -> None:
    site = tmp_path / "site"
    shutil.copytree(few_site, site)
    (site / "find" / "rows").rename(site / "find" / "away")
    page = open_page("index.html", site=site).page
    expect(page.locator("#jobs-count")).to_have_text("find/rows/2026-1.0.js could not be loaded.")
    (site / "find" / "away").rename(site / "find" / "rows")
    page.get_by_label("Find a job").fill("galled")
    found(page, ["A-1"])


def test_on_a_phone_rows_become_cards_and_the_groups_are_folded(open_page: Opener) -> None:
    page = open_page("index.html", viewport=PHONE).page
    first = page.locator("#jobs-table tbody td").first
    content = page.evaluate("cell => getComputedStyle(cell, '::before').content", first.element_handle())
    assert content == '"Number"'
    expect(page.locator("#jobs-groups")).to_be_hidden()
    page.locator("#jobs-narrow > summary").click()
    unfold(page, "lathe").locator("input[type=checkbox]").first.check()
    expect(page.locator("#jobs-chips li")).to_have_count(1)
    assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]


def test_on_a_phone_the_menu_opens_and_an_empty_result_shows_no_table(open_page: Opener) -> None:
    page = open_page("index.html", viewport=PHONE).page
    page.get_by_label("Find a job").fill("nosuchword")
    expect(page.locator("#jobs-table")).to_be_hidden()
    page.locator("label.md-header__button[for=__drawer]").click()
    page.locator(".md-sidebar--primary a", has_text="Safety").click()
    expect(page.locator("h1")).to_have_text("Safety")


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_no_serious_barrier_with_groups_open_and_a_choice(open_page: Opener, scheme: str) -> None:
    opened = open_page("index.html", scheme=scheme)
    page = chosen(opened, "#find=thread&lathe=L1%20Long%20lathe&size=1%20in..")
    for name in ("material", "customer"):
        unfold(page, name)
    page.locator(".archive-help summary").click()
    expect(page.locator("[data-facet=customer] li")).not_to_have_count(0)
    assert barriers(page, ".md-content") == []


def test_an_archive_without_a_job_says_so(open_page: Opener, demo_site: Path, tmp_path: Path) -> None:
    opened = open_page("index.html", site=with_jobs(demo_site, tmp_path / "site", []))
    chosen(opened, "#find=bolt&sort=number")
    expect(opened.page.locator("#jobs-count")).to_have_text("There are no jobs yet.")
    assert opened.complaints == []


def test_only_the_page_that_is_open_is_marked_in_the_tabs(open_page: Opener) -> None:
    page = open_page("words.html").page
    marked = page.evaluate(
        """[...document.querySelectorAll('.md-tabs__link')]
            .filter(link => getComputedStyle(link).textDecorationLine === 'underline')
            .map(link => link.textContent.trim())"""
    )
    assert marked == ["Help"]
