"""The inspection record at the machine: written on the page, kept, taken out, and into the log by command."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page

from generator.__main__ import main
from generator.job.reading import read_job, read_log, read_shop
from generator.sheet.compute import compute_sheet

Opener = Callable[..., Any]
ROOT = Path(__file__).parents[2]
JOB = "SW-115-gate-stud"  # no log yet; M16x2-6g: 15.682 to 15.962 over the crests (ISO 965-2), by gauges


def cells(page: Page, key: str) -> Any:
    """The fields of one line of the record, by its short name."""
    return page.locator(".record tr", has=page.locator(f"code:text-is('{key}')")).locator("td.blank input")


@pytest.mark.parametrize("width", [360, 820, 1440])
def test_readings_stay_and_come_back_into_the_log(
    width: int, open_page: Opener, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    page: Page = open_page(f"sheets/2026/{JOB}.html", viewport={"width": width, "height": 780}).page
    page.context.set_offline(True)
    keys = page.locator(".record code").all_inner_texts()
    assert keys[0] == "major"
    assert {"go", "no_go"} <= set(keys)
    first = cells(page, "major").first
    first.focus()
    page.keyboard.type("15.6")  # by keyboard alone: as it came in, as it leaves, accepted how, by whom
    page.keyboard.press("Tab")
    page.keyboard.type("15.90")
    page.keyboard.press("Tab")
    page.keyboard.type("size")
    page.keyboard.press("Tab")
    page.keyboard.type("inspector")
    cells(page, "go").first.fill("yes")
    row = page.locator(".record tr", has=page.locator("code:text-is('go')"))
    row.locator("td.verdict input").fill("by gauge")
    cells(page, "no_go").first.fill("1")
    cells(page, "pitch_diameter").nth(1).fill("about right")
    page.reload()
    kept = [cells(page, "major").nth(place).input_value() for place in range(3)]
    assert kept == ["15.6", "15.90", "inspector"]
    page.locator("details.written > summary").click()
    with page.expect_download() as saved:
        page.locator("[data-save]").click()
    piece = tmp_path / "piece.yml"
    saved.value.save_as(piece)

    jobs = tmp_path / "jobs"
    shutil.copytree(ROOT / "jobs" / "_shop", jobs / "_shop")
    shutil.copytree(ROOT / "jobs" / "2026" / JOB, jobs / "2026" / JOB)
    assert main(["log", "SW-115", "--jobs", str(jobs), "--from", str(piece)]) == 0, capsys.readouterr().err
    shop = read_shop(jobs / "_shop")
    read = read_job(jobs / "2026" / JOB / "job.yml", shop)
    log = read_log(read.path.with_name("log.yml"), read.job.units, "mm")
    assert log.problems == ()
    lines = {one.line.key: one for one in compute_sheet(read, shop, log).inspected}
    major = lines["major"]
    assert (major.found, major.left, major.by) == ("15.6 mm", "15.90 mm", "inspector")
    assert (major.verdict, major.accepted) == ("inside", "size")
    go = lines["go"]
    assert (go.left, go.verdict, go.accepted) == ("goes", "inside", "gauge")
    assert (lines["no_go"].left, lines["no_go"].verdict) == ("1 turn", "inside")
    assert lines["pitch_diameter"].verdict == "not measured"
    assert any("about right" in (one.entry.note or "") for one in log.entries)


def test_the_filled_record_shows_verdicts_on_every_screen(open_page: Opener) -> None:
    for width in (360, 820, 1440):
        page: Page = open_page(
            "sheets/2026/SW-101-ramp-hinge-pin.html", viewport={"width": width, "height": 780}
        ).page
        row = page.locator(".record tr.outside")
        assert "outside, by concession" in row.inner_text()
        assert "Relief width" in row.inner_text()
        assert page.get_by_text("Agreed by MF-07, engineer on 2026-03-04").is_visible()
        assert page.evaluate("document.documentElement.scrollWidth") <= width
