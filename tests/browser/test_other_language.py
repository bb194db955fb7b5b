"""A shop with decimal commas, in a language that marks what it says: pages say all of it, and take commas.

What of a page stands outside of the marks ⟦ ⟧ is said in no language; only what the shop's own files say may
stand there.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from playwright.sync_api import Page, expect

from generator.__main__ import main
from generator.language.spoken import MARKS, speak
from tests.small_shop import small_shop

Opener = Callable[..., Any]
THREAD, METRIC = "SW-101", "SW-115"
UNITS = {"in", "mm", "rpm", "deg", "rev", "lbf", "min"}
READ = """area => {
    const read = [], words = ['aria-label', 'placeholder', 'title', 'data-says', 'data-heading'];
    const walker = document.createTreeWalker(area, NodeFilter.SHOW_TEXT | NodeFilter.SHOW_ELEMENT);
    for (let node = area; node; node = walker.nextNode()) {
        if (node.nodeType === Node.TEXT_NODE) {
            if (!node.parentElement.closest('script, style, textarea, code')) read.push(node.data);
        } else {
            for (const name of words) if (node.hasAttribute(name)) read.push(node.getAttribute(name));
        }
    }
    return read.join('\\n');
}"""


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """Two jobs, built for a shop that speaks in marks."""
    (thread, metric) = (
        next(Path(__file__).parents[2].glob(f"jobs/2026/{number}-*")).name for number in (THREAD, METRIC)
    )
    folder = small_shop(tmp_path_factory.mktemp("marked"), (thread, metric))
    house = folder / "jobs" / "_shop" / "house.yml"
    house.write_text(re.sub("(?m)^language: .*$", "language: en-XA", house.read_text("utf-8")), "utf-8")
    assert main(["build", "--jobs", str(folder / "jobs"), "--site", str(folder / "site")]) == 0
    yield folder / "site"
    speak("en")


@pytest.fixture
def sheet(open_page: Opener, site: Path) -> Callable[..., Page]:
    """The sheet of a job, from disk: `sheet(METRIC)`."""

    def opened(number: str = THREAD) -> Page:
        (page,) = site.glob(f"sheets/*/{number}-*.html")
        made: Page = open_page(page.relative_to(site).as_posix(), site=site).page
        return made

    return opened


def outside_of_marks(text: str) -> list[str]:
    """The pieces that are left of a text when all that is said is taken out, from a mark to its own end."""
    inner = re.compile(rf"{MARKS[0]}[^{MARKS[0]}{MARKS[1]}]*{MARKS[1]}")
    while inner.search(text):
        text = inner.sub("\n", text)
    return text.split("\n")


def not_said(page: Page, *areas: str, own: str = "") -> set[str]:
    """Words of the areas that stand outside of marks and in no file of the shop."""
    read = "\n".join(
        text for area in areas for text in page.locator(area).evaluate_all(f"areas => areas.map({READ})")
    )
    assert MARKS[0] in read
    pieces = {piece.strip(" .,:;") for piece in outside_of_marks(read)}
    return {
        piece for piece in pieces
        if set(re.findall(r"[A-Za-z]{2,}", piece)) - UNITS
        and any(re.sub(" (?:in|mm)$", "", part) not in own for part in piece.split(", "))
    }


@pytest.fixture
def own(site: Path) -> str:
    """All that the shop's files say."""
    files = site.parent.glob("jobs/**/*.yml")
    return re.sub(r"\s+", " ", " ".join(path.read_text("utf-8") for path in files))


def log_of(page: Page) -> list[dict[str, Any]]:
    """The piece of log.yml, as PyYAML reads it."""
    if page.locator("details.written").get_attribute("open") is None:
        page.locator("details.written > summary").click()
    return yaml.safe_load(page.locator("#log-piece").input_value()) or []


def as_cut(page: Page, row: int) -> Any:
    return page.locator("table.pass-table td.as-cut input").nth(row - 1)


def measure(page: Page, reads: str) -> str:
    """What the page says to a reading."""
    dialog = page.locator("#measured")
    if not dialog.is_visible():
        page.locator(".at-machine [data-opens=measured]").click()
    dialog.locator("#measured-reads").fill(reads)
    return dialog.locator(".answer").inner_text()


# -- the sheet at the machine ------------------------------------------------------------------------------


@pytest.mark.parametrize("number", [THREAD, METRIC])
def test_nothing_at_the_machine_is_said_in_no_language(
    sheet: Callable[..., Page], own: str, number: str
) -> None:
    page = sheet(number)
    as_cut(page, 1).fill("0,021")
    page.locator(".order input[type=checkbox]").nth(1).check()
    page.locator(".figures a[href^='#w']").first.click()
    page.locator("[data-opens=measured]").first.click()
    for reads in ("", "2", "1,2,3", "2,29", "2,2708", "2,2", "22,708", "58,0", "57,5", "12 turns"):
        measure(page, reads)
        assert not_said(page, ".at-machine", "#measured", own=own) == set(), reads
    page.locator("#measured-what").select_option("fit")
    page.locator("#measured-turns").fill("2,5")
    assert not_said(page, "#measured", own=own) == set()
    page.locator("#measured button[type=submit]").click()
    assert not_said(page, "#measured", "#large-view", ".shown-working", own=own) == set()


def test_what_a_script_counts_has_a_decimal_comma(sheet: Callable[..., Page]) -> None:
    said = measure(sheet(), "2,2812")
    assert "⟦0,0104 in TO COME OFF⟧" in said
    assert "⟦Its limits: 2,2667 in to 2,2747 in.⟧" in said
    assert not re.search(r"[0-9]\.[0-9]", said)


@pytest.mark.parametrize(
    ("typed", "head"),
    [
        ("2,2812", "0,0104 in TO COME OFF"), ("2.2812", "0,0104 in TO COME OFF"),
        ("57,942 mm", "0,0104 in TO COME OFF"), ("2,270", "INSIDE ITS LIMITS"), ("1,000", "THAT CANNOT BE"),
        ("2,000.5", "NOT A SIZE"), ("2.000,5", "NOT A SIZE"), ("1,2,3", "NOT A SIZE"),
    ],
)  # fmt: skip
def test_a_typed_comma_is_a_decimal_sign_and_never_stands_between_thousands(
    sheet: Callable[..., Page], typed: str, head: str
) -> None:
    assert measure(sheet(), typed).startswith(f"⟦{head}⟧")


def test_one_comma_and_three_noughts_is_one(sheet: Callable[..., Page]) -> None:
    page = sheet()
    typed = ["1,000", "1.000", ",5", "1 1/2", "2,5 mm", "1,000,000", "1.000,5", "0,5 0,25"]
    assert page.evaluate("typed => typed.map(setupSheet.pointed)", typed) == [
        "1.000", "1.000", ".5", "1 1/2", "2.5 mm", "1,000,000", "1.000,5", "0.5 0.25",
    ]
    assert page.evaluate("setupSheet.sums.readSize('1,000', 'in')") == {"size": 1, "text": "1.000 in"}


def test_the_log_always_has_points(sheet: Callable[..., Page]) -> None:
    page = sheet()
    for row, typed in enumerate(("0,0221", "1 turn 0,031", "2,000.5", "1 t, 0,0380 in"), 1):
        as_cut(page, row).fill(typed)
    page.locator("td.took input").first.fill("1,5 h")
    page.locator(".record td.blank input").first.fill("2,2405")
    page.locator(".record td.verdict input").first.fill("by gauge")
    measure(page, "2,2812")
    page.locator("#measured button[type=submit]").click()
    expect(page.locator("#measured .done-word")).to_contain_text("2,2812 in")
    page.locator("#measured [data-closes]").click()
    log = log_of(page)
    assert [entry.get("dial") for entry in log[:4]] == ["0.0221 in", "0.031 in", None, "0.0380 in"]
    assert [entry.get("turns") for entry in log[:4]] == [None, 1, None, 1]
    assert log[2]["note"] == "2,000.5"
    assert log[4]["time"] == "1.5 h"
    assert [list(entry["inspected"][0].values())[1] for entry in log[5:7]] == ["2.2405 in", "gauge"]
    assert log[7]["measured"]["over_wires"] == "2.2812 in"


def test_a_pass_cut_as_planned_is_in_the_log_with_its_turns(sheet: Callable[..., Page]) -> None:
    page = sheet(METRIC)
    planned = page.evaluate("Object.values(setupSheet.page.data.entries).filter(one => one.planned)")
    assert planned
    for at, entry in enumerate(planned, 1):
        as_cut(page, at).fill(entry["planned"])
    for entry, line in zip(planned, log_of(page), strict=True):
        assert (line["pass"], line["turns"]) == (entry["pass"], entry["turns"])
        assert re.fullmatch(r"[0-9]+\.[0-9]+ (in|mm)", line["dial"])
        assert entry["planned"].replace(",", ".").endswith(line["dial"].split(" ")[0])


# -- the archive, and a set ----------------------------------------------------------------------------------


def test_nothing_of_the_archive_page_is_said_in_no_language(
    open_page: Opener, site: Path, own: str
) -> None:
    opened = open_page("index.html", site=site)
    page = opened.page
    expect(page.locator("#jobs-count")).to_have_text("⟦2 jobs⟧")
    for fold in page.locator(".archive-groups details").all():
        fold.evaluate("fold => { fold.open = true; }")
    expect(page.locator(".archive-groups input[type=checkbox]").first).to_be_visible()
    page.locator("#jobs-from").fill("1,5 in")
    page.locator("#jobs-to").fill("wide")
    expect(page.locator("#jobs-sizes")).to_contain_text("1,5 in (38,1 mm)")
    for name in ("kind", "hand", "side", "status"):
        page.locator(f"[data-facet={name}] input[type=checkbox]").first.check()
    page.locator("#jobs-table input").first.check()
    areas = ("#jobs-count", "#jobs-sizes", "#jobs-chips", ".facet-chosen", ".archive-ticks", "#jobs-table")
    left = not_said(page, *areas, ".archive-groups summary", own=f"{own} wide SW {THREAD}")
    assert left == set()
    page.locator("#jobs-words").fill("zzyzx")
    expect(page.locator("#jobs-count")).to_have_text(re.compile("^⟦No job .*⟧$"))
    assert opened.complaints == []


def test_nothing_of_a_set_is_said_in_no_language(open_page: Opener, site: Path, own: str) -> None:
    pages = [path.relative_to(site).as_posix() for path in sorted(site.glob("sheets/*/SW-*.html"))]
    address = "print-set.html"
    page = open_page(address, site=site).page
    expect(page.locator("#set-said")).to_have_text("⟦No sheet is ticked. Tick jobs in the archive first.⟧")
    page.goto(f"{(site / address).as_uri()}?#{'&'.join([*pages, 'sheets/2026/none.html'])}")
    expect(page.locator("#set-said")).to_have_text(f"⟦2 sheets, ready to print: {THREAD}, {METRIC}.⟧")
    assert page.title() == f"⟦Setup sheets {THREAD} {METRIC}⟧"
    assert page.locator(".sheet-set > .sheet").first.get_attribute("aria-label") == f"⟦Sheet of job {THREAD}⟧"
    areas = ("#set-said", ".set-lacking", ".set-tools")
    assert not_said(page, *areas, own=f"{own} sheets/2026/none.html") == set()
