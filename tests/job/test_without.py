"""A file without its private entries: what is left is what was there, and nothing of them is in it."""

from __future__ import annotations

from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.errors import JobProblems
from generator.job.reading import find_jobs, read_job, read_log, read_tree
from generator.job.without import REMARKS, still_named, without
from generator.job.writing import file_text
from generator.job.written import NOWHERE, Block, Listing, Scalar

JOBS = Path(__file__).resolve().parents[2] / "jobs"
HERE = Path("job.yml")
EVERYTHING = {"customer": True, "photos": True, "times": True, "people": True}


def block(**entries: Any) -> Block:
    made = Block(NOWHERE)
    made.update(entries)
    return made


WORDS = st.one_of(
    st.text(max_size=40),
    st.text("#:-{}[]'\"\\|>&*!%@` \n\t?,=~yesno0123.", max_size=12),
    st.sampled_from(["yes", "010", "12:30", "1e3", "null", "~", "", " a", "- a", "a: b", "a #b", "\x85"]),
)
SCALARS = WORDS.map(lambda text: Scalar(text, quoted=True))
KEYS = st.sampled_from(["title", "notes", "duty", "said", "by", "time", "work", "it's", "yes", "1", "#"])


def listing(entries: list[Any]) -> Listing:
    made = Listing(NOWHERE)
    made.extend(entries)
    return made


TREES = st.dictionaries(
    st.sampled_from(["job", "customer", "asked", "agreed", "duty", "mate", "operations", "people", "notes"]),
    st.recursive(
        SCALARS,
        lambda inner: st.lists(inner, max_size=3).map(listing)
        | st.dictionaries(KEYS, inner, max_size=3).map(lambda entries: block(**entries)),
        max_leaves=8,
    ),
    max_size=6,
).map(lambda entries: block(**entries))


@settings(max_examples=150, deadline=None)
@given(TREES)
def test_any_tree_reads_back_from_its_text(tree: Block) -> None:
    assert read_tree(HERE, file_text(tree).encode()) == tree


@settings(max_examples=60, deadline=None)
@given(TREES)
def test_what_remains_is_the_same_tree_without_those_keys(tree: Block) -> None:
    before = deepcopy(dict(tree))
    data, _ = without(file_text(tree), HERE, customer=True)
    for key in ("customer", "drawing", "asked", "agreed"):
        before.pop(key, None)
    for key, private in (("duty", "by"), ("mate", "says")):
        if isinstance(before.get(key), dict):
            before[key].pop(private, None)
    assert read_tree(HERE, data) == before


@pytest.mark.parametrize("path", find_jobs(JOBS), ids=lambda path: path.parent.name)
def test_a_demo_job_without_everything_private_is_still_a_good_job(
    path: Path, tmp_path: Path
) -> None:
    data, left_out = without(path.read_bytes(), path, **EVERYTHING)
    whole = read_tree(path)
    assert isinstance(whole, Block)
    assert left_out
    left = read_tree(path, data)
    assert isinstance(left, Block)
    gone = {"customer", "drawing", "asked", "agreed", "photos", "people"}
    assert set(left) == set(whole) - gone
    kept = [key for key in left if key not in ("duty", "mate", "operations")]
    assert {key: left[key] for key in kept} == {key: whole[key] for key in kept}
    assert b"#" not in data
    assert still_named(path.read_bytes(), data, path) == []
    copy = tmp_path / "job.yml"
    copy.write_bytes(data)
    assert read_job(copy).job.customer is None


@pytest.mark.parametrize("path", sorted(JOBS.glob("*/*/log.yml")), ids=lambda path: path.parent.name)
def test_a_demo_log_without_everything_private_is_still_a_good_log(path: Path) -> None:
    data, left_out = without(path.read_bytes(), path, **EVERYTHING)
    assert left_out
    log = read_log(path, "inch", "inch", data)
    assert log.problems == ()
    whole = read_log(path, "inch", "inch")
    assert [one.entry.at for one in log.entries] == [
        one.entry.at for one in whole.entries
        if one.entry.model_fields_set - {"at", "by", "operation", "agreed", "concession", "time"}
    ]
    assert not any(one.entry.agreed or one.entry.concession or one.entry.time for one in log.entries)


def test_an_entry_that_says_nothing_else_goes_whole_and_that_is_said() -> None:
    log = """\
- {at: 2026-03-04, by: foreman, agreed: {agreed: Half the length.}}
- {at: 2026-03-05, operation: turn, finished: no, time: 5 min}
- {at: 2026-03-06, note: Cut., time: 5 min}
"""
    data, left_out = without(log, Path("log.yml"), customer=True, times=True)
    assert data == b"- at: 2026-03-06\n  note: Cut.\n"
    assert left_out == [
        "what was agreed with the customer (agreed)", "the time that it took (time), 2 times",
        "2 of the entries, which said nothing else",
    ]


def test_nothing_to_leave_out_leaves_the_file_byte_by_byte() -> None:
    data = "\ufeffjob:   SW-1\r\ntitle: 'Pin  #3'\r\n".encode()
    assert without(data, HERE, customer=True) == (data, [])
    remark = b"job: SW-1  # for Anna\n"
    assert without(remark, HERE, times=True) == (remark, [])
    assert without(remark, HERE, customer=True) == (b"job: SW-1\n", [REMARKS])


def test_no_remark_hides_behind_an_escaped_sign() -> None:
    data, _ = without(b'job: "\\x23"  # for Anna\n', HERE, customer=True)
    assert b"Anna" not in data
    assert read_tree(HERE, data) == {"job": "#"}


def test_a_remark_beside_a_block_of_lines_goes_too() -> None:
    data, left_out = without(b"notes:\n- |  # Anna said\n  One.\n  Two.\n", HERE, customer=True)
    assert (b"Anna" in data, left_out) == (False, [REMARKS])
    assert read_tree(HERE, data) == {"notes": ["One.\nTwo.\n"]}


def test_a_size_keeps_who_measured_it() -> None:
    data, left_out = without(
        b"people: {machinist: M 2}\nwork: [{od: {value: 2, by: M 2, with: caliper}}]\n", HERE, people=True
    )
    assert data == b"work:\n- od: {value: 2, by: M 2, with: caliper}\n"
    assert left_out == ["who did what (people)"]


def test_who_is_still_named_in_words_is_told() -> None:
    job = b"customer: SM-114\nnotes: [For sm-114, by rail., For SM-1145.]\ntitle: Pin\n"
    data, _ = without(job, HERE, customer=True)
    assert still_named(job, data, HERE) == ["notes.0"]
    assert still_named(b"customer: [a]\n", data, HERE) == []


def test_what_is_no_file_of_the_archive_is_refused_where_it_goes_wrong() -> None:
    with pytest.raises(JobProblems, match=r"^job\.yml:2:4: .*repeats another entry"):
        without(b"a: 1\nb: *a\n", HERE, customer=True)
    with pytest.raises(JobProblems, match="list of keys and values"):
        without(b"just words", HERE, customer=True)
