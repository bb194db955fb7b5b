"""The verb `log`: an entry from options or a piece of YAML, checked first, answered with what differs."""

from __future__ import annotations

import io
import os
import random
import re
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from generator import in_one_step, log_command
from generator.__main__ import main
from generator.job.reading import read_log

ROOT = Path(__file__).resolve().parent.parent
SEVERAL = 5  # processes at once
PASS = ("--operation", "thread", "--pass", "12", "--dial", "0.077", "--at", "2026-06-01 14:20")


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with the shop and the main job, without its log; the current folder."""
    shutil.copytree(ROOT / "jobs" / "_shop", tmp_path / "jobs" / "_shop")
    for folder in (ROOT / "jobs" / "2026").glob("SW-113-*"):
        shutil.copytree(folder, tmp_path / "jobs" / "2026" / folder.name)
    (log_of(tmp_path)).unlink()
    monkeypatch.chdir(tmp_path)
    return tmp_path


def log_of(here: Path) -> Path:
    return here / "jobs" / "2026" / "SW-113-bollard-spindle" / "log.yml"


class Pipe(io.TextIOWrapper):
    """Standard input with something in it."""

    def __init__(self, text: str) -> None:
        super().__init__(io.BytesIO(text.encode()), encoding="utf-8")


def run(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, *words: str, piped: str = ""
) -> tuple[int, str, str]:
    monkeypatch.setattr(sys, "stdin", Pipe(piped))
    try:
        status = main(["log", *words])
    except SystemExit as error:
        status = error.code if isinstance(error.code, int) else 1
    said = capsys.readouterr()
    assert "Traceback" not in said.out + said.err
    return status, said.out, said.err


def test_options_become_an_entry_and_the_answer_says_what_differs(here, capsys, monkeypatch) -> None:
    words = [
        "--by", "machinist 1", "--turns", "0", "--over-wires", "2.0578", "--with", "micrometer 2-3 in",
        "--tried", "clamp ring", "--fit-turns", "3", "--feels", "tight", "--note", "yes: tight # at 2",
        "--time", "25 min", "--finished",
    ]
    status, out, err = run(capsys, monkeypatch, "SW-113", *PASS, *words)
    assert (status, err) == (0, "")
    assert log_of(here).read_text("utf-8") == (
        "# yaml-language-server: $schema=../../_shop/schemas/log.schema.json\n"
        "- at: 2026-06-01 14:20\n  by: machinist 1\n  operation: thread\n  pass: 12\n  turns: 0\n"
        "  dial: 0.077\n  measured: {over_wires: 2.0578, with: micrometer 2-3 in}\n"
        "  fit: {with: clamp ring, turns: 3, feels: tight}\n  note: 'yes: tight # at 2'\n  time: 25 min\n"
        "  finished: yes\n"
    )
    assert out.startswith("Written to jobs/2026/SW-113-bollard-spindle/log.yml: one entry.\n")
    assert "Pass 12 read 0.0021 in (0.053 mm) over the plan: 2.0578 in" in out


def test_a_reading_for_the_record_takes_instrument_place_and_turns_along(here, capsys, monkeypatch) -> None:
    words = [
        "--operation", "thread", "--feature", "no_go", "--fit-turns", "1", "--with", "no-go ring", "--where",
        "free end", "--accepted", "gauge",
    ]
    status, _, err = run(capsys, monkeypatch, "SW-113", *words)
    assert (status, err) == (0, "")
    text = log_of(here).read_text("utf-8")
    assert text.endswith(
        "  inspected: [{feature: no_go, accepted: gauge, with: no-go ring, where: free end, turns: 1}]\n"
    )
    status, _, err = run(capsys, monkeypatch, "SW-113", "--feature", "major", "--left", "ten")
    assert status == 1
    assert err.startswith('--left: "ten"')


def test_every_option_is_a_key_of_an_entry(here, capsys, monkeypatch) -> None:
    """Each one alone, with a value of its kind, gets into the log and is read back."""
    day = "2026-06-01"
    values = {"at": day, "agreed_on": day, "feels": "free", "time": "25 min", "operation": "3", "start": "1"}
    beside = {"turns": ["--dial", "0.1"], "cross_turns": ["--cross", "0.1"], "wire": ["--over-wires", "2.02"]}
    beside |= {name: ["--depth", "0.1"] for name in ("with", "where")}
    beside |= {name: ["--feels", "free"] for name in ("tried", "tight_at")}
    beside |= {name: ["--agreed", "x"] for name in ("asked", "agreed_on", "agreed_with")}
    values |= {"goes": "yes", "accepted": "gauge", "concession_on": day}
    beside["feature"] = ["--left", "0.1"]
    values["lesson_for"], beside["lesson_for"] = "thread, lathe", ["--watch-out", "x"]
    beside |= {name: ["--feature", "major"] for name in ("found", "left", "goes", "accepted")}
    conceded = {"concession": "over", "concession-for": "major", "concession-by": "EB-07"}
    for name in (key for key in log_command.OPTIONS if key.startswith("concession")):
        others = {key: value for key, value in conceded.items() if key != name.replace("_", "-")}
        beside[name] = [word for key, value in others.items() for word in (f"--{key}", value)]
    # one log for all of them: written without the sheet, which other tests are about
    monkeypatch.setattr(log_command, "_about", lambda *_: log_command._About())
    for count, name in enumerate(log_command.OPTIONS, 1):
        words = [f"--{name.replace('_', '-')}", values.get(name, "2"), *beside.get(name, [])]
        status, _, err = run(capsys, monkeypatch, "SW-113", "--finished", *words)
        assert (status, err) == (0, ""), name
        log = read_log(log_of(here), "inch", "inch")
        assert log.problems == ()
        assert len(log.entries) == count


@pytest.mark.parametrize(
    ("piece", "count"),
    [("note: from a pipe", 1), ("- {at: 2026-06-01, note: x}\n- {at: 2026-06-02, stop: yes}\n", 2)],
)
def test_a_piece_comes_from_standard_input_or_a_file(
    here, capsys, monkeypatch, piece: str, count: int
) -> None:
    Path("piece.yml").write_text(piece, "utf-8")
    for words, piped in (((), piece), (("--from", "-"), piece), (("--from", "piece.yml"), "")):
        assert run(capsys, monkeypatch, "SW-113", *words, piped=piped)[0] == 0
    assert len(read_log(log_of(here), "inch", "inch").entries) == 3 * count


@pytest.mark.parametrize(
    ("words", "piped", "said"),
    [
        (("--dial", "0.2.1"), "", '--dial: "0.2.1" has two points in it'),
        (("--pass", "twelve"), "", '--pass: "twelve" is not a whole number'),
        (("--note", "x", "--at", "yesterday"), "", '--at: "yesterday" is not a date'),
        (("--fit-turns", "3", "--feels", "snug"), "", '--feels: "snug" is not known here'),
        (("--with", "micrometer"), "", "--measured: measures nothing"),
        (("--stop", "jawmark=1"), "",
         '--stop jawmark: "jawmark" is not a key that is known here: did you mean jaw_mark?'),
        (("--by", "KL", "--operation", "thread"), "", "The entry says nothing"),
        ((), "note: x\nfit: {}", "standard input:2:1: fit: does not say how it went"),
        ((), '"', "standard input:1:1: a quote is opened here"),
        ((), "hello", "standard input:1:1: is not a list of entries"),
    ],
)
def test_a_bad_entry_is_refused_and_the_file_is_as_it_was(
    here, capsys, monkeypatch, words: tuple[str, ...], piped: str, said: str
) -> None:
    log_of(here).write_bytes(b"# mine\n- {at: 2026-05-30, note: x}")
    status, out, err = run(capsys, monkeypatch, "SW-113", *words, piped=piped)
    assert (status, out) == (1, "")
    assert said in err
    assert "Nothing was written." in err
    assert log_of(here).read_bytes() == b"# mine\n- {at: 2026-05-30, note: x}"


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--operation", "thrad", "--note", "x"), 'The job has no operation "thrad"'),
        (("--operation", "thread", "--pass", "3", "--dial", "0.2"), "0.2 in does not stand on it"),
        (("--pass", "13", "--over-wires", "20.57"), "20.57 in over wires cannot be measured"),
    ],
)
def test_a_slip_of_the_pen_is_asked_about_before_it_is_written(
    here, capsys, monkeypatch, words: tuple[str, ...], said: str
) -> None:
    status, _, err = run(capsys, monkeypatch, "SW-113", *words)
    assert status == 1
    assert said in err
    assert "--anyway" in err
    assert not log_of(here).exists()
    status, out, _ = run(capsys, monkeypatch, "SW-113", *words, "--anyway")
    assert status == 0
    assert said in out
    assert log_of(here).exists()


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("SW-999", "--note", "x"), "there is no such job"),
        (("SW-113",), "there is nothing in it to write"),
        (("SW-113", "--note", "x", "--from", "piece.yml"), "not both"),
        (("SW-113", "--stop", "jaw mark"), "is not a key and a value: write --stop stick_out=11.5"),
        ((), "usage:"),
    ],
)
def test_wrong_usage_is_status_two(here, capsys, monkeypatch, words: tuple[str, ...], said: str) -> None:
    status, _, err = run(capsys, monkeypatch, *words)
    assert status == 2
    assert said in err
    assert not log_of(here).exists()


def test_a_job_that_cannot_be_read_or_a_missing_piece_is_said(here, capsys, monkeypatch) -> None:
    status, _, err = run(capsys, monkeypatch, "SW-113", "--from", "nowhere.yml")
    assert (status, err) == (1, "nowhere.yml: No such file or directory\n")
    job = log_of(here).with_name("job.yml")
    job.write_text(job.read_text("utf-8").replace("title:", "tilte:"), "utf-8")
    status, _, err = run(capsys, monkeypatch, "SW-113", "--note", "x")
    assert status == 1
    assert "tilte" in err


def test_what_cannot_be_written_is_printed(here, capsys, monkeypatch) -> None:
    log_of(here).write_bytes(b"[{at: 2026-05-30, note: x}]\n")
    status, _, err = run(capsys, monkeypatch, "SW-113", *PASS)
    assert status == 1
    assert "does not take an entry at its end" in err
    assert "- at: 2026-06-01 14:20\n  operation: thread\n  pass: 12\n  dial: 0.077\n" in err
    log_of(here).write_bytes(b"")

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(in_one_step.os, "fsync", full)
    status, _, err = run(capsys, monkeypatch, "SW-113", *PASS)
    assert status == 1
    assert "cannot be written: no space left on device" in err
    assert "  pass: 12\n" in err
    assert log_of(here).read_bytes() == b""


def test_an_older_entry_that_cannot_be_read_does_not_keep_a_new_one_out(here, capsys, monkeypatch) -> None:
    log_of(here).write_bytes(b"- {at: 2026-5-30, note: x}\n")
    status, _, err = run(capsys, monkeypatch, "SW-113", *PASS)
    assert status == 0
    place = "jobs/2026/SW-113-bollard-spindle/log.yml:1:8"
    assert f'An older entry cannot be read: {place}: at: "2026-5-30"' in err


def test_a_stop_on_a_terminal_asks_for_what_is_left_out(here, capsys, monkeypatch) -> None:
    answers = iter(["x", "0.2", "jaw 1", "", "0.001", "0.002", "12 thou"])
    asked: list[str] = []

    def answer(prompt: str) -> str:
        asked.append(re.findall(r"\[(.+)\]", prompt)[0])
        try:
            return next(answers)
        except StopIteration:
            raise EOFError from None

    monkeypatch.setattr("builtins.input", answer)
    monkeypatch.setattr(log_command, "_at_a_terminal", lambda asked: True)
    monkeypatch.setattr(log_command.asked_for, "__defaults__", (answer,))
    status, out, _ = run(capsys, monkeypatch, "SW-113", *PASS, "--stop", "why=dinner")
    assert status == 0
    assert asked[:4] == ["cross", "cross", "jaw_mark", "stick_out"]
    assert "    \"x\" is not a length" in out
    (one,) = read_log(log_of(here), "inch", "inch").entries
    stop = one.entry.stop
    assert (stop.why, stop.cross.text, stop.jaw_mark, stop.stick_out) == ("dinner", "0.2", "jaw 1", None)
    assert (stop.runout_at_end.text, stop.depth_left.text) == ("0.002", "12 thou")
    assert "the log does not say all that is needed to take it up: how far the work stands out; " in out


def test_several_at_once_from_the_command_line_all_get_in(here) -> None:
    command = [sys.executable, "-m", "generator", "log", "SW-113", "--note"]
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    processes = [
        subprocess.Popen(
            [*command, f"entry {number}"], stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
            stderr=subprocess.PIPE, text=True, env=environment,
        )
        for number in range(SEVERAL)
    ]
    said = [process.communicate() for process in processes]
    assert [process.returncode for process in processes] == [0] * SEVERAL, said
    log = read_log(log_of(here), "inch", "inch")
    assert {one.entry.note for one in log.entries} == {f"entry {number}" for number in range(SEVERAL)}


# -- a bad log and the other commands -------------------------------------------------------------------


def test_check_says_what_is_wrong_with_a_log_and_is_status_one(here, capsys) -> None:
    log_of(here).write_bytes(b"- {at: 2026-06-01, paas: 3}\n- {at: 2026-06-01, note: fine}\n")
    assert main(["check", "SW-113"]) == 1
    said = capsys.readouterr()
    assert 'jobs/2026/SW-113-bollard-spindle/log.yml:1:20: paas: "paas" is not a key' in said.out
    assert "log.yml:1:20: check: One entry or line of the log cannot be read" in said.out
    assert "1 checked, 1 with errors" in said.err


def test_a_bad_log_never_hides_the_job(here, capsys) -> None:
    log_of(here).write_bytes(b"- {at: 2026-06-01, paas: 3}\n- {at: 2026-06-01, note: 'fine <b>'}\n")
    main(["build"])
    (page,) = Path("site").glob("sheets/2026/SW-113-*.html")
    text = page.read_text("utf-8")
    assert "Not all of the log can be read." in text
    assert "log.yml:1:20" in text
    assert "fine &lt;b&gt;" in text
    assert 'class="pass-table"' in text
    assert "log.yml:1:20: paas" in capsys.readouterr().err


def test_a_fault_in_the_log_leaves_the_sheet(here, capsys, monkeypatch) -> None:
    log_of(here).write_bytes(b"- {at: 2026-06-01, note: x}\n")

    def fail(*_: object) -> None:
        raise ZeroDivisionError("a fault")

    monkeypatch.setattr("generator.sheet.history.check_log", fail)
    assert main(["check", "SW-113"]) == 1
    said = capsys.readouterr()
    assert "log.yml:1:1: the log is left out, by a fault of this program (ZeroDivisionError" in said.out
    assert "[deflection]" in said.out


def test_the_log_is_no_reason_for_another_lathe(here) -> None:
    """What the log says of this lathe does not count against it where lathes are compared."""
    from generator.site.archive import make_entry, try_shop

    shop, job = try_shop(Path("jobs/_shop")), log_of(here).with_name("job.yml")
    ranking = re.compile(r'<ol class="ranking">.*?</ol>', re.DOTALL)
    plain = ranking.findall(make_entry(job, shop).body)
    log_of(here).write_bytes(b"- {at: 2026-06-01, operation: thread, pass: 12, dial: 0.2, stop: yes}\n")
    assert ranking.findall(make_entry(job, shop).body) == plain
    assert plain


# -- killed, crowded, full ------------------------------------------------------------------------------

ROUNDS = 3
SMALL = 600  # bytes a file may grow to in the run below: less than the log with one entry more


def started(words: list[str], **more: object) -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, "-m", "generator", "log", "SW-113", *words], stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
        env={**os.environ, "PYTHONPATH": str(ROOT)}, **more,
    )


def test_killed_at_any_moment_the_log_is_the_old_or_the_new_one(here) -> None:
    """Killed at moments over the whole run: never less than was there, and every state can be read."""
    log_of(here).write_bytes(b"# mine\r\n- {at: 2026-05-30, note: x}  # kept\r\n")
    begun = time.monotonic()
    whole = started(["--note", "whole"])
    assert (whole.communicate()[1], whole.returncode) == ("", 0)
    lasts, chance = time.monotonic() - begun, random.Random(113)
    for number in range(ROUNDS):
        old = log_of(here).read_bytes()
        process = started(["--note", f"round {number}"])
        time.sleep(lasts * (0.5 + 0.6 * chance.random()))
        process.kill()
        process.communicate()
        new = log_of(here).read_bytes()
        assert new.startswith(old)
        log = read_log(log_of(here), "inch", "inch")
        assert log.problems == ()
        assert new == old or log.entries[-1].entry.note == f"round {number}"
    process = started(["--note", "after all"])
    assert (process.communicate()[1], process.returncode) == ("", 0)
    assert sorted(one.name for one in log_of(here).parent.glob(".log.yml*")) in ([], [".log.yml.lock"])
    assert log_of(here).read_bytes().startswith(b"# mine\r\n- {at: 2026-05-30, note: x}  # kept\r\n")


def test_a_full_disk_for_real_prints_the_entry_and_leaves_the_log(here) -> None:
    """The system itself refuses to write on: a limit to the size of a file, as a disk that fills up."""
    resource = pytest.importorskip("resource")
    old = f"# {'x' * SMALL}\n- {{at: 2026-05-30, note: x}}\n".encode()
    log_of(here).write_bytes(old)

    def small() -> None:
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (SMALL, SMALL))

    process = started(["--note", "only here"], preexec_fn=small)
    _, err = process.communicate()
    assert process.returncode == 1
    assert "Traceback" not in err
    assert "cannot be written: file too large" in err
    assert "note: only here" in err
    assert log_of(here).read_bytes() == old
    assert not list(log_of(here).parent.glob("*.tmp"))


def test_a_log_edited_by_hand_in_between_keeps_the_edit(here, capsys, monkeypatch) -> None:
    """Whoever saves the log while the entry is being checked finds both in it."""
    log_of(here).write_bytes(b"\xef\xbb\xbf- {at: 2026-05-30, note: x}\r\n")
    about = log_command._about

    def edited(*words: object) -> object:
        said = about(*words)
        log_of(here).write_bytes(log_of(here).read_bytes() + b"- {at: 2026-05-31, note: by hand}  # me\r\n")
        return said

    monkeypatch.setattr(log_command, "_about", edited)
    status, _, _ = run(capsys, monkeypatch, "SW-113", *PASS)
    assert status == 0
    data = log_of(here).read_bytes()
    both = b"- {at: 2026-05-30, note: x}\r\n- {at: 2026-05-31, note: by hand}  # me\r\n"
    assert data.startswith(b"\xef\xbb\xbf" + both + b"- at: 2026-06-01")
    assert data.count(b"\n") == data.count(b"\r\n")


def test_a_time_is_shown_as_it_is_written(here, capsys, monkeypatch) -> None:
    for time_, seconds in (("1 h 20 min", 4800), ("45 min", 2700), ("1.5 h", 5400)):
        assert run(capsys, monkeypatch, "SW-113", "--operation", "thread", "--time", time_)[0] == 0
        entry = read_log(log_of(here), "inch", "inch").entries[-1].entry
        assert (entry.time.si, entry.time.with_unit) == (seconds, time_)
    status, _, err = run(capsys, monkeypatch, "SW-113", "--operation", "thread", "--time", "1 h 70 min")
    assert status == 1
    assert '--time: "1 h 70 min" has 60 minutes or more beside hours' in err


def test_another_lathe_or_tool_goes_by_its_name(here, capsys, monkeypatch) -> None:
    status, _, err = run(capsys, monkeypatch, "SW-113", "--taken-up", "lathe=metrix", "tool=V1")
    assert status == 1
    assert '--taken-up lathe: "metrix" is not a lathe of this shop: did you mean metric?' in err
    assert run(capsys, monkeypatch, "SW-113", "--taken-up", "lathe=metric", "dial=1.2")[0] == 0
    assert run(capsys, monkeypatch, "SW-113", *PASS[:4], "--dial", "1.3")[0] == 0
