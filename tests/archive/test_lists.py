"""Plain lists: every job stands once in each, no page is heavy, and no two lists share a file."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace
from html import unescape

import pytest

from generator.archive.listed import Content, Listed
from generator.archive.lists import list_pages, lists_front
from generator.sheet.row import ArchiveRow, ThreadRow
from generator.si import inch

HEAVIEST = 235_000  # bytes of a body; the frame of the theme is some 15 kB, and 250 kB the limit
KINDS = ("thread", "lathe", "material", "customer", "year")
MARK = '<img src=x onerror="alert(1)">'


@pytest.fixture(scope="module")
def pages(many_jobs: list[Listed]) -> list[tuple[Content, str]]:
    return [(content, content.make()) for content in list_pages(many_jobs)]


def jobs_on(page: str) -> list[str]:
    """The addresses of the sheets that a page lists."""
    return [unescape(link) for link in re.findall(r'href="\.\./\.\./(sheets[^"]*)"', page)]


def test_every_job_stands_once_in_the_lists_of_each_kind(
    many_jobs: list[Listed], pages: list[tuple[Content, str]]
) -> None:
    expected = Counter(job.link for job in many_jobs)
    for kind in KINDS:
        found = Counter(
            link for content, page in pages if content.name.startswith(f"lists/{kind}/")
            for link in jobs_on(page)
        )
        assert found == expected, kind


def test_no_page_is_heavy_and_a_long_list_is_several(
    many_jobs: list[Listed], pages: list[tuple[Content, str]]
) -> None:
    heaviest = max(len(page.encode()) for _, page in pages)
    assert heaviest <= HEAVIEST
    assert len(lists_front(many_jobs).encode()) <= HEAVIEST
    lathe = Counter(job.row.lathe for job in many_jobs).most_common(1)[0][1]
    assert lathe > 800
    assert sum(content.name.startswith("lists/lathe/") for content, _ in pages) > 4


def test_a_page_has_a_title_two_folders_and_a_name_of_its_own(pages: list[tuple[Content, str]]) -> None:
    names = [content.name for content, _ in pages]
    assert len({name.lower() for name in names}) == len(names)
    for content, _ in pages:
        assert re.fullmatch(r"lists/[a-z]+/[a-z0-9_.-]+\.html", content.name), content.name
        assert content.title


def test_links_between_lists_lead_to_lists(many_jobs: list[Listed], pages: list[tuple[Content, str]]) -> None:
    names = {content.name for content, _ in pages} | {"lists.html", "index.html"}
    for content, page in pages:
        for link in re.findall(r'href="([^"#]*)[^"]*"', page):
            target = unescape(link)
            if target.startswith("../../sheets"):
                continue
            where = content.name.rsplit("/", 1)[0]
            path = target.removeprefix("../../") if target.startswith("../../") else f"{where}/{target}"
            assert path in names, (content.name, link)
    for link in re.findall(r'href="(lists/[^"#]*)"', lists_front(many_jobs)):
        assert unescape(link) in names


def test_one_changed_job_changes_few_pages(many_jobs: list[Listed]) -> None:
    before = {content.name: content.key for content in list_pages(many_jobs)}
    middle = len(many_jobs) // 2
    changed = [*many_jobs]
    changed[middle] = replace(changed[middle], word="another")
    after = {content.name: content.key for content in list_pages(changed)}
    assert before.keys() == after.keys()
    assert 0 < sum(before[name] != after[name] for name in before) <= 2 * len(KINDS)


def test_a_thread_is_one_list_however_it_is_spelt_and_another_hand_another() -> None:
    def job(number: int, designation: str, hand: str = "right") -> Listed:
        thread = ThreadRow(designation, "Unified", "2 in", 2 * inch, "8 per inch", inch / 8, 1, hand, "outside")
        row = ArchiveRow(f"J-{number}", "Pin", "2026", "done", thread=thread)
        return Listed(f"sheets/2026/J-{number}.html", row, f"{number}")

    jobs = [job(1, "2-8 UN-2A"), job(2, "2-8UN-3A"), job(3, "2-8 UN-2A-LH", "left")]
    threads = [content for content in list_pages(jobs) if content.name.startswith("lists/thread/")]
    assert sorted(len(jobs_on(content.make())) for content in threads) == [1, 2]


def test_what_a_job_says_stays_text() -> None:
    row = ArchiveRow(
        MARK, MARK, "2026", "done", material=MARK, lathe=MARK, customer=MARK, holding=(MARK,),
        thread=ThreadRow(MARK, MARK, MARK, 0.05, MARK, 0.003, 1, "right", "outside"),
    )
    jobs = [Listed("sheets/2026/x.html", row, "1")]
    for page in (*(content.make() for content in list_pages(jobs)), lists_front(jobs)):
        assert "<img" not in page


def test_an_empty_archive_has_a_front_page() -> None:
    assert list(list_pages([])) == []
    assert lists_front([])
