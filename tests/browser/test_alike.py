"""The block on a sheet that finds the jobs like it: from disk, on a phone, and not on paper."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

import pytest

from generator.__main__ import main

ROOT = Path(__file__).resolve().parents[2]
PIN = "SW-101-ramp-hinge-pin"

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A site of four jobs: one, its like in all, its like in size, and one of no thread."""
    home = tmp_path_factory.mktemp("alike")
    shutil.copytree(ROOT / "jobs" / "_shop", home / "jobs" / "_shop")
    text = (ROOT / "jobs" / "2026" / PIN / "job.yml").read_text(encoding="utf-8")
    text = text[: text.index("photos:")] + text[text.index("operations:"):]
    for number, year, changes in (
        ("A-1", "2026", {}),
        ("A-2", "2024", {}),
        ("A-3", "2025", {"2 1/4-8 UN-2A": "2 1/4-12 UN-2A", "material: 4140 steel 30 HRC": "material: 1045 steel"}),
    ):
        job = home / "jobs" / year / f"{number}-pin" / "job.yml"
        job.parent.mkdir(parents=True)
        written = text.replace("SW-101", number)
        for old, new in changes.items():
            assert old in written
            written = written.replace(old, new)
        job.write_text(written, encoding="utf-8")
    (home / "jobs" / "2024" / "A-2-pin" / "log.yml").write_text(
        "- {at: 2024-03-05, watch_out: <b>The nut galled.</b>}\n", encoding="utf-8"
    )
    assert main(["build", "--jobs", str(home / "jobs"), "--site", str(home / "site")]) == 0
    return home / "site"


def opened(page: Any, site: Path, name: str) -> Any:
    page.goto((site / "sheets" / name).as_uri())
    block = page.locator(".alike")
    block.locator("summary").click()
    page.wait_for_function("document.querySelector('.alike [role=status]').textContent")
    return block


def test_the_likest_job_stands_first_with_why_and_what_was_learned(site: Path, page: Any) -> None:
    block = opened(page, site, "2026/A-1-pin.html")
    first, second = block.locator("li").all()
    assert "A-2" in first.inner_text()
    assert "same thread, same material, same holding" in first.inner_text()
    assert "<b>The nut galled.</b>" in first.inner_text()  # as text
    assert "A-3" in second.inner_text()
    assert "same size, same holding" in second.inner_text()
    first.locator("a").click()
    page.wait_for_url("**/2024/A-2-pin.html")


def test_without_scripts_a_link_leads_to_the_list_of_the_thread(site: Path, page: Any) -> None:
    page.goto((site / "sheets" / "2026" / "A-1-pin.html").as_uri())
    href = page.locator(".alike a").last.get_attribute("href")
    listed = (site / "sheets" / "2026" / href).resolve()
    assert "A-2" in listed.read_text(encoding="utf-8")


def test_a_script_that_is_not_there_is_said(site: Path, page: Any, tmp_path: Path) -> None:
    copy = tmp_path / "site"
    shutil.copytree(site, copy)
    shutil.rmtree(copy / "alike")
    block = opened(page, copy, "2026/A-1-pin.html")
    assert "could not be loaded" in block.inner_text()


def test_it_fits_a_phone_and_is_not_printed(site: Path, page: Any) -> None:
    page.set_viewport_size({"width": 375, "height": 800})
    block = opened(page, site, "2026/A-1-pin.html")
    assert page.evaluate("document.documentElement.scrollWidth") <= 375
    page.emulate_media(media="print")
    assert not block.is_visible()
