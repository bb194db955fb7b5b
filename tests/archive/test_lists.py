"""Plain lists: every job in each, no page too large, names that no other value has, words as words."""

from __future__ import annotations

import re
from copy import deepcopy
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.archive.listed import Listed
from generator.archive.lists import KINDS, MOST, Laid, list_pages, lists_front, split
from generator.sheet.row import ArchiveRow, ThreadRow
from generator.sheet.row_names import list_address, pitched, safe_name
from generator.si import inch
from tests.archive.rows import made_jobs

MANY = 20_000
PAGE = 230_000  # bytes of a body; the frame of the theme takes less than 20 kB of 250
RESERVED = {"con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in range(10))}
HOSTILE = "</td><script>alert('1')</script> & \"q\" {{ 7*7 }}"


@pytest.fixture(scope="module")
def many() -> list[Listed]:
    return made_jobs(MANY)


@pytest.fixture(scope="module")
def pages(many: list[Listed]) -> list[tuple[str, str]]:
    """Name and text of every page."""
    return [(page.name, page.make()) for page in list_pages(many)]


def a_thread(size: str, nominal: float, **said: object) -> ThreadRow:
    made = ThreadRow("x", "Unified", size, nominal, "12 per inch", inch / 12, 1, "right", "outside")
    return replace(made, **said)


def a_job(number: str, **said: object) -> Listed:
    row = replace(ArchiveRow(number, "Pin", "2026", "done", True), **said)
    return Listed(f"sheets/2026/{number}.html", row, repr(row))


def links(body: str) -> list[str]:
    return re.findall(r'<td><a href="\.\./\.\./([^"]+)"', body)


def test_no_page_is_too_large_and_every_job_stands_once_in_each_kind_of_list(
    many: list[Listed], pages: list[tuple[str, str]]
) -> None:
    found: dict[str, list[str]] = {kind.word: [] for kind in KINDS}
    for name, body in pages:
        assert len(body.encode()) < PAGE, name
        rows = links(body)
        assert len(rows) <= MOST
        found[name.split("/")[1]] += rows
    every = sorted(job.link for job in many)
    for kind, rows in found.items():
        assert sorted(rows) == every, kind


def test_all_links_between_lists_lead_somewhere(many: list[Listed], pages: list[tuple[str, str]]) -> None:
    names = {name for name, _ in pages}
    assert len(names) == len(pages) == len({name.lower() for name in names})
    for name, body in pages:
        for link in re.findall(r'href="\.\./\.\./(lists/[^"]+)"', body):
            assert link in names, (name, link)
    front = lists_front(many)
    assert set(re.findall(r'href="([^"]+)"', front)) <= names
    assert len(front.encode()) < PAGE


def test_the_front_page_stays_small_whatever_the_number_of_customers_and_threads() -> None:
    jobs = [
        a_job(f"J-{n}", customer=f"C & {n}", thread=a_thread("1 in", (1 + n % 800 / 100) * inch))
        for n in range(6000)
    ]
    front = lists_front(jobs)
    assert len(front.encode()) < PAGE
    pages = {page.name: page for page in list_pages(jobs)}
    apart = re.findall(r'href="(lists/customer/all\.\d+\.html)"', front)
    named = [link for name in apart for link in re.findall(r'href="\.\./\.\./(lists/customer/[^"]+)"',
                                                           pages[name].make())]  # fmt: skip
    assert len(set(named)) == 6000
    assert all(len(pages[name].make().encode()) < PAGE for name in apart)


def test_long_titles_make_pages_of_fewer_jobs() -> None:
    jobs = [a_job(f"J-{n:04}", title="<&>" * 100) for n in range(900)]
    found = [page for page in list_pages(jobs) if page.name.startswith("lists/year/")]
    assert len(found) > 1
    assert all(len(page.make().encode()) < PAGE for page in found)
    assert sum(len(links(page.make())) for page in found) == 900
    titles = [page.title for page in found]
    assert titles[-1].startswith("Year 2026, J-0000 to J-")
    assert len(set(titles)) == len(titles)


def test_a_new_job_leaves_the_pages_of_earlier_years_as_they_were(many: list[Listed]) -> None:
    new = a_job("SW-269999", lathe="L1 Long lathe", material="1045 steel", thread=many[0].row.thread)
    end = sum(job.row.year == "2026" for job in many)
    before = {page.name: page.key for page in list_pages(many)}
    after = {page.name: page.key for page in list_pages([*many[:end], new, *many[end:]])}
    changed = {name for name in after if before.get(name) != after[name]}
    assert {name.split("/")[1] for name in changed} == {kind.word for kind in KINDS}
    assert not [name for name in changed if re.search(r"_[a-z2-7]{12}\.\d+\.html$", name)]
    assert len(changed) < 12


def test_the_same_jobs_give_the_same_keys_and_another_word_another_key() -> None:
    jobs = made_jobs(400)
    keys = {page.name: page.key for page in list_pages(jobs)}
    assert keys == {page.name: page.key for page in list_pages(deepcopy(jobs))}
    jobs[7] = replace(jobs[7], word="another")
    after = {page.name: page.key for page in list_pages(jobs)}
    changed = {name for name, key in keys.items() if key != after[name]}
    assert {name.split("/")[1] for name in changed} == {kind.word for kind in KINDS}
    assert len(changed) == len(KINDS)


def test_a_thread_stands_in_one_list_however_its_size_is_spelt() -> None:
    jobs = [
        a_job("A", thread=a_thread("1 1/2 in", 1.5 * inch, designation="1 1/2-12 UNF-2A")),
        a_job("B", thread=a_thread("1.500 in", 38.1e-3, designation="1.500-12 UN-3B", side="inside")),
        a_job("C", thread=a_thread("1 1/2 in", 1.5 * inch, hand="left")),
        a_job("D", thread=a_thread("1 1/2 in", 1.5 * inch, starts=2)),
        a_job("E"),
    ]
    found = [page for page in list_pages(jobs) if page.name.startswith("lists/thread/")]
    assert [page.title for page in found] == [
        "Unified, 1 1/2 in, 12 per inch, left hand",
        "Unified, 1 1/2 in, 12 per inch",
        "Unified, 1 1/2 in, 12 per inch, 2 starts",
        "No thread",
    ]
    body = found[1].make()
    assert links(body) == ["sheets/2026/A.html", "sheets/2026/B.html"]
    assert "1.500-12 UN-3B" in body
    assert jobs[0].row.thread is not None
    assert found[1].name == list_address("thread", pitched(jobs[0].row.thread).name)


def test_what_a_job_says_stays_words() -> None:
    thread = a_thread(HOSTILE, inch, designation=HOSTILE, family=HOSTILE)
    job = a_job("A", title=HOSTILE, customer=HOSTILE, material=HOSTILE, lathe=HOSTILE, thread=thread)
    for text in (lists_front([job]), *(page.make() for page in list_pages([job]))):
        assert "<script" not in text
        assert "alert(&#39;1&#39;)" in text or "Year" in text


def test_no_jobs_make_no_lists() -> None:
    assert list(list_pages([])) == []
    assert "0 threads" in lists_front([])


@given(st.lists(st.tuples(st.integers(0, 5), st.integers(0, 30_000)), max_size=400))
def test_a_list_is_split_without_losing_or_moving_a_job(made: list[tuple[int, int]]) -> None:
    jobs = [
        a_job(f"{place}", year=str(2026 - year), title="x" * long)
        for place, (year, long) in enumerate(sorted(made))
    ]
    pages = split(range(len(jobs)), Laid(jobs))
    assert [place for page in reversed(pages) for place in page] == list(range(len(jobs)))


@given(st.lists(st.text(), unique=True))
def test_no_two_texts_have_the_same_file_name_on_any_system(texts: list[str]) -> None:
    names = [safe_name(text) for text in texts]
    assert len({name.lower() for name in names}) == len(texts)
    for name in names:
        assert re.fullmatch(r"[a-z0-9-]*_[a-z2-7]{12}", name)
        assert name not in RESERVED


@pytest.mark.parametrize(
    "pair", [("SM-114", "sm-114"), ("1 1/2-12", "1-1-2-12"), ("Ø", ""), ("a" * 500, "a" * 501)]
)
def test_names_that_look_alike_are_told_apart(pair: tuple[str, str]) -> None:
    one, other = map(safe_name, pair)
    assert one != other
    assert max(len(one), len(other)) < 40


@pytest.mark.parametrize("text", ["../..", "CON", "nul", "a/b\\c:d*e?", ".hidden", "x" * 10_000, "\ud800"])
def test_a_name_is_safe(text: str) -> None:
    assert re.fullmatch(r"[a-z0-9-]{0,24}_[a-z2-7]{12}", safe_name(text))
