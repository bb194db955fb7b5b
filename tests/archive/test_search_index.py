"""The index of the search finds every word of every job, in small files that a change leaves alone."""

from __future__ import annotations

import random
import re
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.archive.search_index import read_segment, segment, shard, shard_name, spread
from generator.archive.words import WRITTEN

FILES = 2048
LARGEST = 100_000  # bytes of a file of the index
FEW_TENS = 50_000_000  # bytes of the whole index
LETTERS = st.text(alphabet="abcxyz0123456789.-/+ø", min_size=1, max_size=12)


def found(segments: dict[str, str], typed: str, files: int, *, written: bool = False) -> set[int]:
    """The jobs that one typed word finds, as the browser looks for it: in one file."""
    for asked, prefix in ((f"{typed}*", False), (typed, len(typed) > 1)):
        entries = read_segment(segments.get(shard_name(asked, files), ""))
        hits = [
            jobs for word, jobs in entries.items() if word == asked or (prefix and word.startswith(typed))
        ]
        if hits:
            return {number for jobs in hits for number in jobs[written]}
    return set()


@given(st.lists(st.sets(LETTERS, max_size=8), max_size=40), st.sampled_from([64, FILES]))
@settings(max_examples=200, deadline=None)
def test_every_word_and_every_beginning_of_it_finds_its_jobs_and_no_other(
    jobs: list[set[str]], files: int
) -> None:
    segments = segment(jobs, files)
    words = {word for job in jobs for word in job}
    for word in words:
        exact = {number for number, job in enumerate(jobs) if word in job}
        if len(word) == 1:
            assert found(segments, word, files) == exact
        for length in range(2, len(word) + 1):
            typed = word[:length]
            expected = {
                number for number, job in enumerate(jobs) if any(one.startswith(typed) for one in job)
            }
            assert found(segments, typed, files) == expected, typed


@given(st.lists(st.tuples(st.sets(LETTERS), st.sets(LETTERS)), max_size=20))
@settings(max_examples=100, deadline=None)
def test_what_somebody_wrote_is_found_by_itself(jobs: list[tuple[set[str], set[str]]]) -> None:
    segments = segment([own | page | {WRITTEN + word for word in own} for own, page in jobs], FILES)
    for word in {word for own, _ in jobs for word in own}:
        expected = {
            number
            for number, (own, _) in enumerate(jobs)
            if any(one == word or (len(word) > 1 and one.startswith(word)) for one in own)
        }
        assert found(segments, word, FILES, written=True) == expected


def test_a_word_on_every_sheet_of_a_block_costs_a_few_signs() -> None:
    segments = segment([("thread",)] * 250, FILES)
    assert len(segments[shard_name("thread", FILES)]) <= len("0thread") + 5


def test_the_same_words_give_the_same_text_in_whatever_order_they_come() -> None:
    jobs = [{f"word{number % 7}", "0.785", f"{number}"} for number in range(250)]
    orders = [[sorted(job, reverse=back) for job in jobs] for back in (False, True)]
    assert segment(orders[0], FILES) == segment(orders[1], FILES)


@given(st.sets(st.integers(0, 249)), st.sets(st.integers(0, 249)))
def test_any_jobs_of_a_block_are_read_as_they_were_written(jobs: set[int], wrote: set[int]) -> None:
    wrote &= jobs
    words = [
        (["thread"] if number in jobs else []) + ([f"{WRITTEN}thread"] if number in wrote else [])
        for number in range(250)
    ]
    read = read_segment(segment(words, FILES).get(shard_name("thread", FILES), ""))
    assert read.get("thread", ([], [])) == (sorted(jobs), sorted(wrote))


def test_the_name_of_a_file_is_safe_on_every_system() -> None:
    words = ["a/b", "..", "con", "aux*", "nul", "ø63", "½", "名前", "'galled", "a" * 33, "\U0001f529"]
    assert all(
        re.fullmatch("[0-9a-f]{3}", shard_name(word, files)) for word in words for files in (64, FILES)
    )


def test_a_file_of_the_index_ends_no_script_element() -> None:
    assert "<" not in shard("000", [("</script>", "0</script>A")])


@pytest.mark.parametrize("blocks", [0, 1, 2, 3, 8, 9, 32, 33, 1000])
def test_a_small_archive_has_few_files(blocks: int) -> None:
    assert spread(blocks) in {64, 256, 1024, FILES}
    assert spread(blocks) <= 128 * max(blocks, 1)


def test_forty_years_of_varied_sheets_make_small_files() -> None:
    """One block in the size it has on real sheets, times the blocks of 20,000 jobs.

    A job of the demo archive has 800 to 1,600 words, some 600 of them on most sheets, and some 250 numbers
    that hardly any other has.
    """
    choose = random.Random(3)
    syllables = ["".join(pair) for pair in product("bdgklmnprst", "aeiou")]
    prose = ["".join(choose.choices(syllables, k=choose.randint(1, 4))) for _ in range(12_000)]
    jobs = []
    for _ in range(250):
        words = set(prose[:600])
        words.update(prose[int(len(prose) * choose.random() ** 3)] for _ in range(400))
        words.update(
            f"{choose.random() * 10 ** choose.randint(0, 2):.{choose.randint(1, 4)}f}" for _ in range(350)
        )
        own = {prose[int(len(prose) * choose.random() ** 3)] for _ in range(120)}
        jobs.append(words | own | {WRITTEN + word for word in own})
    blocks = 80
    sizes = [len(text.encode()) + len('["2026-1",""],') for text in segment(jobs, spread(blocks)).values()]
    assert blocks * sum(sizes) < FEW_TENS
    assert blocks * max(sizes) < LARGEST
