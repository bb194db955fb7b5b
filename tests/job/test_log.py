"""A log: read entry by entry with every problem at its place, and added to without touching what is there."""

from __future__ import annotations

import errno
import multiprocessing
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest
import yaml
from filelock import FileLock
from jsonschema import Draft202012Validator

from generator import in_one_step
from generator.errors import JobProblems
from generator.job.log import Entry, Measured, Stop
from generator.job.log_file import LogNotWritten, append_entries
from generator.job.reading import ReadLog, read_log, read_piece
from generator.job.schema import log_schema
from generator.job.writing import entry_text
from generator.job.written import NOWHERE, Block, Scalar
from generator.si import inch, mm

ROOT = Path(__file__).parents[2]
LOGS = sorted((ROOT / "jobs").glob("*/*/log.yml"))
NOW = "2026-03-05 10:00"
OLD = """\
# the pin
- at: 2026-03-04 14:20
  operation: thread
  pass: 12      # of 21
  dial: 0.077
"""


def log_of(text: str, units="inch", dials="inch") -> ReadLog:
    return read_log(Path("log.yml"), units, dials, text.encode())


def said(text: str) -> list[str]:
    return [str(problem) for problem in log_of(text).problems]


def block(**keys: str) -> Block:
    made = Block(NOWHERE)
    for key, value in keys.items():
        made[key] = Scalar(value, quoted=not value.replace(".", "").isdigit())
    return made


def add(path: Path, *entries: Block, patience: float = 10.0) -> ReadLog:
    return append_entries(path, entries or (block(note="one more"),), "inch", "inch", lambda: NOW, patience)


# -- reading --------------------------------------------------------------------------------------------


def test_an_entry_is_read_with_its_units_and_places() -> None:
    log = log_of(OLD + "  measured: {over_wires: 2.3057, with: micrometer 2-3 in}\n  time: 25 min\n")
    (one,) = log.entries
    assert log.problems == ()
    assert str(one.entry.at) == "2026-03-04 14:20"
    assert one.entry.pass_ == 12
    assert one.entry.measured.over_wires.si == pytest.approx(2.3057 * inch)
    assert (one.where("pass").line, one.where("measured.over_wires").line) == (4, 6)
    assert one.where("fit.turns") == one.where()


def test_a_dial_is_read_in_its_own_unit_and_a_length_in_that_of_the_job() -> None:
    text = "- {at: 2026-03-04, dial: 0.5, measured: {length: 2}, stop: {cross: 0.25, stick_out: 11}}\n"
    (one,) = log_of(text, units="inch", dials="mm").entries
    assert one.entry.dial.si == pytest.approx(0.5 * mm)
    assert one.entry.stop.cross.si == pytest.approx(0.25 * mm)
    assert one.entry.stop.stick_out.si == pytest.approx(11 * inch)
    assert one.entry.measured.length.si == pytest.approx(2 * inch)


def test_without_units_of_the_job_a_bare_length_is_refused_and_a_dial_is_not() -> None:
    log = log_of("- {at: 2026-03-04, dial: 0.5, measured: {length: 2}}\n", units=None, dials="mm")
    assert [str(one) for one in log.problems] == [
        'log.yml:1:50: measured.length: "2" has no unit, and the job file does not say units: write 2 mm '
        "or 2 in"
    ]


def test_problems_stand_at_their_places_and_hide_no_other_entry() -> None:
    text = (
        OLD + "- at: 2026-3-4\n  paas: 12\n- hello\n-\n- at: 2026-03-04\n- at: 2026-03-04 25:00\n"
        "  note: yes\n- {at: 2026-02-30, measured: {with: m}, fit: {feels: loose}, turns: 1}\n"
        "- {at: 2026-03-06, note: ok}\n"
    )
    log = log_of(text)
    assert [str(one.entry.at) for one in log.entries] == ["2026-03-04 14:20", "2026-03-06"]
    wanted = "write year-month-day, and the time where it is known, such as 2026-03-04 14:20"
    assert [str(one) for one in log.problems] == [
        f'log.yml:6:7: at: "2026-3-4" is not a date: {wanted}',
        'log.yml:7:3: paas: "paas" is not a key that is known here: did you mean pass?',
        'log.yml:8:3: "hello" stands here without a key: write key: value, with keys such as at, by, '
        "operation, pass",
        "log.yml:9:2: is an empty entry: write what happened, or take the dash out",
        "log.yml:10:3: says nothing: write what happened, such as pass, measured or note",
        f'log.yml:11:7: at: "2026-03-04 25:00" has a time that no clock shows: {wanted}',
        'log.yml:12:9: note: "yes" without quotes is taken for yes or no: write it in quotes, \'yes\'',
        f'log.yml:13:8: at: "2026-02-30" is not a day of the calendar: {wanted}',
        "log.yml:13:20: measured: measures nothing: write a size, such as over_wires: 2.2847",
        'log.yml:13:54: fit.feels: "loose" is not known here: write does not start, binds, tight, free or '
        "rocks",
    ]


@pytest.mark.parametrize(
    ("entry", "problem"),
    [
        ("{turns: 1}", "1:27: turns: stands without dial: write what the dial reads, too"),
        ("{fit: {where: mouth}}", "1:20: fit: does not say how it went: write turns, or feels"),
        ("{measured: {wire: 0.0722, depth: 1}}",
         "1:37: measured.wire: stands without over_wires: write the size over the wires beside it"),
        ("{agreed: {asked: x}}", "1:20: agreed.agreed: is missing: write agreed (what was agreed)"),
        ("{pass: 0}", '1:26: pass: "0" is zero: write a whole number from 1 up'),
        ("{finished: no}", "1:3: says nothing: write what happened, such as pass, measured or note"),
        ("{time: 25}", '1:26: time: "25" has no unit: write 1.5 s or 20 min'),
    ],
)
def test_what_cannot_be(entry: str, problem: str) -> None:
    text = f"- {{at: 2026-03-04, {entry[1:]}\n"
    assert [one.removeprefix("log.yml:") for one in said(text)] == [problem]


@pytest.mark.parametrize("text", ["", "# nothing yet\n", "\n\n", "---\n"])
def test_an_empty_log_is_a_log(text: str) -> None:
    log = log_of(text)
    assert (log.entries, log.problems) == ((), ())


@pytest.mark.parametrize(
    ("data", "problem"),
    [
        (b"note: x\n", "log.yml:1:1: is not a list of entries: begin each with a dash"),
        (b"- note: \"x\n", "log.yml:1:9: a quote is opened here"),
        (b"- \xff\n", "log.yml:1:3: byte 0xff is not UTF-8"),
        (b"\xff\xfe-\x00", "log.yml:1:1: is saved as UTF-16"),
        (b"- &a {at: 2026-03-04, note: x}\n- *a\n", "log.yml:1:3: &a marks an entry"),
    ],
)
def test_what_is_no_log_says_so(data: bytes, problem: str) -> None:
    assert str(read_log(Path("log.yml"), "inch", "inch", data).problems[0]).startswith(problem)


def test_a_key_written_twice_is_named_within_its_entry() -> None:
    assert said(OLD + "- {at: 2026-03-05, note: x, note: y}\n") == [
        "log.yml:6:29: note: is written twice, on this line: keep one"
    ]


def test_a_missing_or_unreadable_file_is_a_problem(tmp_path: Path) -> None:
    (tmp_path / "log.yml").mkdir()
    log = read_log(tmp_path / "log.yml", "inch", "inch")
    assert "cannot be read: is a directory" in str(log.problems[0])


@pytest.mark.parametrize(
    ("one", "other", "before"),
    [
        ("2026-03-04", "2026-03-05", True), ("2026-03-04 14:20", "2026-03-04 14:21", True),
        ("2026-03-04", "2026-03-04 00:00", False), ("2026-03-04 9:05", "2026-03-04T10:00:30", True),
        ("2026-03-05", "2026-03-04 14:20", False),
    ],
)
def test_of_one_day_both_times_must_be_known(one: str, other: str, before: bool) -> None:
    first, second = (
        log_of(f"- {{at: {at}, note: x}}\n").entries[0].entry.at for at in (one, other)
    )
    assert first.before(second) is before


# -- schema ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize("path", LOGS, ids=lambda path: path.parent.name)
def test_the_demo_logs_are_taken(path: Path) -> None:
    assert read_log(path, "inch", "inch").problems == ()
    tree = yaml.load(path.read_text("utf-8"), yaml.BaseLoader)
    Draft202012Validator(log_schema()).validate(tree_of(tree))


def tree_of(node: object) -> object:
    """As an editor sees it: whole numbers and decimals are numbers."""
    if isinstance(node, dict):
        return {key: tree_of(value) for key, value in node.items()}
    if isinstance(node, list):
        return [tree_of(value) for value in node]
    text = str(node)
    if text.isdigit():
        return int(text)
    return float(text) if text.replace(".", "", 1).isdigit() else text


@pytest.mark.parametrize(
    "entry",
    ["{at: 2026-03-04}", "{note: x}", "{at: x, note: y}", "{at: 2026-03-04, turns: 1}",
     "{at: 2026-03-04, paas: 1}", "{at: 2026-03-04, measured: {with: m}}",
     "{at: 2026-03-04, fit: {with: m}}"],
)
def test_the_schema_refuses_what_the_reader_refuses(entry: str) -> None:
    tree = yaml.load(f"- {entry}", yaml.BaseLoader)
    assert said(f"- {entry}\n")
    assert not Draft202012Validator(log_schema()).is_valid(tree_of(tree))


def test_a_stop_or_a_taking_up_may_be_the_fact_alone() -> None:
    (one,) = log_of("- {at: 2026-03-04, stop: yes, taken_up: yes}\n").entries
    assert one.entry.stop == Stop()
    Draft202012Validator(log_schema()).validate([{"at": "2026-03-04", "stop": True, "taken_up": "yes"}])


# -- writing --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "text",
    ["plain", "yes", "null", "12", "012", "1:16", "a: b", "a # b", "- x", "{x", "it's", '"', "", "two\nlines",
     "trailing ", "é ±", "@x", "%", "2026-03-04", "?", "&a", "*a", "!x", "\\", "a, b]"],
)
def test_text_is_read_back_as_it_was(text: str) -> None:
    inner = Block(NOWHERE)
    inner["where"] = Scalar(text, quoted=True)
    entry = Block(NOWHERE)
    entry.update(note=Scalar(text, quoted=True), fit=inner)
    tree = log_of(entry_text(entry)).tree
    assert [str(tree[0]["note"]).rstrip("\n"), str(tree[0]["fit"]["where"])] == [text, text]


def test_every_size_and_every_key_of_a_stop_can_be_written() -> None:
    assert set(Measured.model_fields) >= {name for name, _ in Measured(depth="1 mm").sizes()}
    assert {
        "dial", "cross", "depth_left", "over_wires", "levers", "gears", "dial_line", "compound_angle",
        "compound_towards", "tool", "flat", "jaw_mark", "stick_out", "runout_at_jaws", "runout_at_end",
        "steady_at", "steady_diameter", "band", "rust",
    } <= set(Stop.model_fields)
    assert "pass" in {field.alias or name for name, field in Entry.model_fields.items()}


def test_a_piece_may_be_one_entry_or_several_and_is_checked() -> None:
    for text, count in (("note: x", 1), ("- note: x\n- {at: 2026-03-04, pass: 3}", 2)):
        assert len(read_piece(Path("p.yml"), text.encode(), "inch", "inch", NOW)) == count
    for text in ("", "hello", "[]", "- x", "note: x\nfit: {}"):
        with pytest.raises(JobProblems) as caught:
            read_piece(Path("p.yml"), text.encode(), "inch", "inch", NOW)
        assert str(caught.value).startswith("p.yml:")


# -- adding to a file -----------------------------------------------------------------------------------

HANDS = {
    "as we write it": OLD.encode(),
    "no line end at the end": OLD.encode().rstrip(b"\n"),
    "a comment at the end": OLD.encode() + b"# to be continued",
    "line ends of another system": OLD.replace("\n", "\r\n").encode(),
    "a mark at the beginning": b"\xef\xbb\xbf" + OLD.encode(),
    "only a mark": b"\xef\xbb\xbf",
    "set in": b"  - {at: 2026-03-04, note: x}   # mine\n\n\n",
    "a text at the end": b"- at: 2026-03-04\n  note: |\n    one\n    two",
    "a folded text at the end": b"---\n- at: 2026-03-04\n  note: >-\n    one\n\n    two\n\n",
    "only a comment": b"# nothing yet",
    "empty": b"",
    "an entry that cannot be read": b"- at: 2026-3-4\n  note: x\n",
}


@pytest.mark.parametrize("old", HANDS.values(), ids=HANDS)
def test_what_stands_there_stays_byte_by_byte(tmp_path: Path, old: bytes) -> None:
    path = tmp_path / "log.yml"
    path.write_bytes(old)
    before = read_log(path, "inch", "inch")
    for count in (1, 2):
        after = add(path, block(note="one more", by="machinist 2"))
        assert path.read_bytes().startswith(old)
        assert len(after.tree) == len(before.tree) + count
        assert len(after.entries) == len(before.entries) + count
    if b"\r\n" in old:
        assert path.read_bytes().count(b"\n") == path.read_bytes().count(b"\r\n")
    assert sorted(one.name for one in tmp_path.iterdir()) in (["log.yml"], [".log.yml.lock", "log.yml"])


@pytest.mark.parametrize(
    "old",
    [b"[{at: 2026-03-04, note: x}]\n", b"- at: 2026-03-04\n  note: x\n...\n", b"- note: \"x\n",
     b"note: x\n", b"- \xff", b"- {at: 2026-03-04,\n"],
)
def test_a_log_that_cannot_take_an_entry_stays_as_it_is(tmp_path: Path, old: bytes) -> None:
    path = tmp_path / "log.yml"
    path.write_bytes(old)
    with pytest.raises(LogNotWritten):
        add(path)
    assert path.read_bytes() == old


def test_a_bad_entry_is_refused_before_anything_is_written(tmp_path: Path) -> None:
    path = tmp_path / "log.yml"
    path.write_bytes(OLD.encode())
    for bad in (block(paas="3"), block(note="x", dial="x"), block(by="nobody")):
        with pytest.raises(LogNotWritten, match="The entry cannot be read") as caught:
            add(path, block(note="good"), bad)
        assert caught.value.problems
        assert path.read_bytes() == OLD.encode()


def test_a_new_log_is_made_and_a_link_stays_a_link(tmp_path: Path) -> None:
    real = tmp_path / "elsewhere"
    real.mkdir()
    (tmp_path / "log.yml").symlink_to(real / "log.yml")
    add(tmp_path / "log.yml")
    add(tmp_path / "log.yml")
    assert (tmp_path / "log.yml").is_symlink()
    assert len(read_log(real / "log.yml", "inch", "inch").entries) == 2


def test_the_file_keeps_its_rights(tmp_path: Path) -> None:
    path = tmp_path / "log.yml"
    path.write_bytes(OLD.encode())
    path.chmod(0o664)
    add(path)
    assert path.stat().st_mode & 0o777 == 0o664


@pytest.mark.parametrize("call", ["replace", "fsync", "fdopen"])
@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EIO, errno.EACCES])
def test_a_full_disk_or_a_fault_loses_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, call: str, number: int
) -> None:
    path = tmp_path / "log.yml"
    path.write_bytes(OLD.encode())

    def fail(*_: object) -> None:
        raise OSError(number, os.strerror(number))

    with monkeypatch.context() as patch:
        patch.setattr(in_one_step.os, call, fail)
        with pytest.raises(LogNotWritten, match=os.strerror(number).lower()):
            add(path)
    assert path.read_bytes() == OLD.encode()
    add(path)  # and the next one gets in, with nothing left over
    assert not list(tmp_path.glob("*.tmp")) + list(tmp_path.glob(".*.tmp"))


def test_an_interruption_by_hand_loses_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "log.yml"
    path.write_bytes(OLD.encode())

    def interrupt(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(in_one_step.os, "replace", interrupt)
    with pytest.raises(KeyboardInterrupt):
        add(path)
    assert path.read_bytes() == OLD.encode()
    assert not list(tmp_path.glob(".*.tmp"))


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write into a read-only folder")
def test_a_read_only_folder(tmp_path: Path) -> None:
    tmp_path.chmod(0o555)
    try:
        with pytest.raises(LogNotWritten, match="permission denied"):
            add(tmp_path / "log.yml")
    finally:
        tmp_path.chmod(0o755)


def test_a_folder_that_may_not_be_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """As above for a user whom no folder refuses."""

    def refuse(*_: object, **__: object) -> None:
        raise PermissionError(errno.EACCES, "Permission denied")

    monkeypatch.setattr(in_one_step.tempfile, "mkstemp", refuse)
    with pytest.raises(LogNotWritten, match="cannot be written: permission denied"):
        add(tmp_path / "log.yml")
    assert not (tmp_path / "log.yml").exists()


def test_a_lock_that_another_holds_is_said_after_a_while(tmp_path: Path) -> None:
    path = tmp_path / "log.yml"
    path.write_bytes(OLD.encode())
    with FileLock(tmp_path / ".log.yml.lock"), pytest.raises(LogNotWritten, match="somebody else"):
        add(path, patience=0.1)
    assert path.read_bytes() == OLD.encode()


HELD = """\
import sys, time
from pathlib import Path
from generator import in_one_step
from generator.job import log_file
from generator.job.written import NOWHERE, Block, Scalar

def hang(*_):
    print("ready", flush=True)
    time.sleep(60)

in_one_step.os.{call} = hang
entry = Block(NOWHERE)
entry["note"] = Scalar("never in it", quoted=True)
log_file.append_entries(Path(sys.argv[1]), [entry], "inch", "inch", lambda: "2026-03-05")
"""


@pytest.mark.parametrize("call", ["replace", "fsync"])
def test_a_run_that_is_killed_loses_nothing_and_blocks_nobody(tmp_path: Path, call: str) -> None:
    path = tmp_path / "log.yml"
    path.write_bytes(OLD.encode())
    command = [sys.executable, "-c", HELD.format(call=call), str(path)]
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, text=True, env={**os.environ, "PYTHONPATH": str(ROOT)}
    ) as process:
        assert process.stdout.readline() == "ready\n"
        process.send_signal(signal.SIGKILL)
        process.wait()
    assert path.read_bytes() == OLD.encode()
    after = add(path, patience=2.0)
    assert len(after.entries) == 2
    assert not list(tmp_path.glob(".*.tmp"))


def _one_of_many(path: Path, number: int, start: float) -> None:
    time.sleep(max(start - time.time(), 0))
    entry = Block(NOWHERE)
    entry["note"] = Scalar(f"entry {number}", quoted=True)
    append_entries(path, [entry], "inch", "inch", lambda: NOW, 60.0)


def test_twenty_at_once_all_get_in(tmp_path: Path) -> None:
    path = tmp_path / "log.yml"
    path.write_bytes(OLD.encode())
    start, context = time.time() + 1.0, multiprocessing.get_context("fork")
    processes = [context.Process(target=_one_of_many, args=(path, number, start)) for number in range(20)]
    for process in processes:
        process.start()
    for process in processes:
        process.join()
    assert [process.exitcode for process in processes] == [0] * 20
    log = read_log(path, "inch", "inch")
    assert path.read_bytes().startswith(OLD.encode())
    assert {one.entry.note for one in log.entries[1:]} == {f"entry {number}" for number in range(20)}
    assert len(log.entries) == 21


def test_the_time_is_that_of_writing(tmp_path: Path) -> None:
    times: Callable[[], str] = iter(["2026-03-05 10:00", "2026-03-05 10:01"]).__next__
    for _ in range(2):
        append_entries(tmp_path / "log.yml", [block(note="x")], "inch", "inch", times)
    log = read_log(tmp_path / "log.yml", "inch", "inch")
    assert [str(one.entry.at) for one in log.entries] == ["2026-03-05 10:00", "2026-03-05 10:01"]
