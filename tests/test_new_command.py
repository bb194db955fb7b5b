"""The command `new`: a job from answers, what follows at once, left and taken up, copied, killed, hostile."""

from __future__ import annotations

import builtins
import io
import os
import random
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.intake.drafts import Draft, Keeper, draft_files, read_draft
from generator.intake.job_file import job_text, job_tree
from generator.intake.job_questions import Known, job_questions
from generator.intake.question import Question
from generator.job.model import Mate
from generator.job.reading import read_block, read_job, read_shop
from generator.new_options import OPTIONS
from tests.small_shop import ROOT, Run, runner, small_shop

BOLLARD = "SW-113-bollard-spindle"
# A worn stud: 12.42 mm over the crests, 19.53 mm over ten. 1/2-13 UNC has 12.7 mm and 19.54 mm (ASME B1.1),
# 1/2 BSW 12.7 mm and 21.17 mm (BS 84). The answers, question by question.
STUD = {
    "title": "Gate stud", "customer": "WM-01", "job": "", "received": "2026-11-02", "units": "inch",
    "lathe": "thirteen-inch", "material": "1018 steel", "material_known_by": "guess", "asked": "one like it",
    "inside": "", "by": "machinist 1", "major": "0.489", "major_with": "micrometer 0-1 in",
    "pitch_over_ten": "0.769 in", "pitch_over_ten_with": "rule", "angle": "60", "hand": "", "starts": "",
    "worn": "y", "mate_part": "nut", "on_bench": "yes", "mate_minor": "0.425", "mate_with": "caliper",
    "designation": "1", "thread_length": "1 1/4", "fit": "mate", "length_1": "6", "od_1": "1/2", "bore_1": "",
    "length_2": "", "held": "chuck", "jaws": "3", "grip": "1-1/2", "center": "live", "steady": "",
    "follow_rest": "", "duty_said": "holds a gate", "duty_by": "customer", "people": "no", "lifting": "",
    "brakes": "", "load": "500 lbf", "pressure": "",
}
FILE = """\
# Which job this is. All of this file can be changed; check it with: python -m generator check
job: SW-114
title: Gate stud
customer: WM-01
received: 2026-11-02

# A bare number below is in this unit; 12 mm, 3 1/2 in, 20 thou always work.
units: inch

# The lathe it is run on, by the name of its file in _shop/lathes.
lathe: thirteen-inch

# A name in _shop/materials.yml, or unknown.
material: 1018 steel
material_known_by: guess
asked: one like it

# The work, section by section, from the chuck end towards the tailstock.
work:
  - {length: 6, od: 1/2}

# How it is held; chuck, collet, faceplate or centers, then what supports it.
holding:
  chuck: {jaws: 3, grip: 1-1/2}
  center: live

# The part that the thread must fit.
mate:
  part: nut
  on_bench: yes
  minor: {value: 0.425, by: machinist 1, with: caliper}

# The thread that came in, as it was measured: the sheet compares it with the one to be cut.
# 1/2-13 UNC-2A was chosen from these; no other standard thread fits them.
# Not to be mistaken for 1/2 in - 12 BSW (medium). The ten pitches rule it out best: 0.7692 in (19.54 mm) for
# 1/2-13 UNC-2A; 0.8333 in (21.17 mm) for 1/2 in - 12 BSW (medium).
found:
  major: {value: 0.489, by: machinist 1, with: micrometer 0-1 in}
  pitch_over_ten: {value: 0.769 in, by: machinist 1, with: rule}
  angle: {value: 60, by: machinist 1, with: angle leaf}
  worn: yes

# What the part must do, as somebody said; nobody has judged it.
duty: {said: holds a gate, by: customer, load: 500 lbf}

# What is done, in order. Where only the thread is written the sheet proposes the rest of the route.
operations:
  - thread: {designation: 1/2-13 UNC-2A, length: 1 1/4, fit: mate}
"""


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    return small_shop(tmp_path, [BOLLARD])


@pytest.fixture
def run(shop: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    monkeypatch.setattr(sys, "stdin", io.StringIO())
    return runner(shop, monkeypatch, capsys, "new")


@pytest.fixture
def answer(monkeypatch: pytest.MonkeyPatch) -> Callable[..., list[str]]:
    """Lets lines be typed; what was asked is in the list."""

    def typed(*lines: str) -> list[str]:
        asked: list[str] = []
        left = iter(lines)

        def ask(prompt: str = "") -> str:
            asked.append(prompt)
            for line in left:
                if line == "^C":
                    raise KeyboardInterrupt
                return line
            raise EOFError

        monkeypatch.setattr(builtins, "input", ask)
        return asked

    return typed


def drafts(jobs: Path) -> list[Draft]:
    return [read_draft(path) for path in draft_files(jobs)]


def the_job(folder: Path, number: str = "SW-114") -> Path:
    (path,) = folder.glob(f"jobs/2*/{number}-*/job.yml")
    return path


def files(folder: Path) -> dict[str, bytes]:
    return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_a_thread_is_told_from_its_twin_and_the_job_is_written(
    run: Run, shop: Path, answer: Callable[..., list[str]]
) -> None:
    asked = answer(*STUD.values())
    status, out, err = run()
    assert (status, err) == (0, "")
    assert len(asked) == len(STUD)
    assert "  1  1/2-13 UNC-2A" in out
    assert "Not to be mistaken for 1/2 in - 12 BSW (medium)." in out
    assert "1/2-13 UNC-2A: right hand, major 0.4985 to 0.4876 in" in out  # ASME B1.1, table 2
    assert "Stick-out from the jaws: 4.5 in" in out
    assert out.index("1  1/2-13") < out.index("major 0.4985") < out.index("Stick-out") < out.index("Written:")
    assert "check: There is no relief" in out
    assert out.count("check: There is no relief") == 1
    assert the_job(shop).read_text("utf-8") == FILE
    assert not (shop / "jobs" / "_drafts").exists()
    assert "The sheet is ready to run: 0 stop, " in out


def test_options_say_the_same_as_answers(run: Run, shop: Path) -> None:
    words = [
        word for key, said in {**STUD, "designation": "1/2-13 UNC-2A"}.items() if said and key[-2] != "_"
        for word in (f"--{key.replace('_', '-')}", said)
    ]
    status, _, err = run("--no-questions", *words, "--work", "length=6", "od=1/2")
    assert (status, err) == (0, "")
    assert the_job(shop).read_text("utf-8") == FILE


def test_what_is_given_is_not_asked_and_fractions_are_taken(
    run: Run, shop: Path, answer: Callable[..., list[str]]
) -> None:
    given_ = {"title": "Pin", "lathe": "long-bed", "units": "inch"}
    left = {key: said for key, said in STUD.items() if key not in given_}
    answer(*{**left, "length_1": "14 1/2", "od_1": "2-1/4", "designation": "2 1/4-8 UN-2A", "major": "2 1/4",
             "pitch_over_ten": "1 1/4", "mate_minor": "2 1/8"}.values())
    status, _, err = run(*(word for key, said in given_.items() for word in (f"--{key}", said)))
    assert (status, err) == (0, "")
    text = the_job(shop).read_text("utf-8")
    assert "- {length: 14 1/2, od: 2-1/4}" in text
    assert "major: {value: 2 1/4, by: machinist 1" in text


def test_a_wrong_answer_gets_the_sentence_of_the_file_and_is_asked_again(
    run: Run, shop: Path, answer: Callable[..., list[str]]
) -> None:
    asked = answer(
        "", "Pin", "", "SW-113", "", "2026-02-30", "2026-02-03", "furlong", "inch",
        "thirteen", "thirteen-inch",
        "1045 stele", "unknown", "", "no", "KL", "1,5", "2 1/2 1/2", "2.0", "stop",
    )
    status, out, _ = run()
    assert status == 0
    assert asked[-1].startswith("  Measured with")
    for sentence in (
        "This is needed: such as Gate stud, new thread.",
        "SW-113 is taken: SW-113B is free.",
        '"2026-02-30" is not a day of the calendar: write year-month-day, such as 2026-03-02.',
        '"furlong" is none of these: inch, mm.',
        '"1045 stele" is not a material of this shop: did you mean 1045 steel? Otherwise',
        '"1,5" has a decimal comma: write 1.5, with a point.',
        '"2 1/2 1/2" has two fractions in it: write one, such as 3 1/2.',
    ):
        assert sentence in out


def test_back_takes_the_last_answer_again(run: Run, shop: Path, answer: Callable[..., list[str]]) -> None:
    asked = answer("back", "Pin", "WM-1", "back", "WM-2", "stop")
    run()
    assert [line.split("(")[0].strip(" :") for line in asked[1:5]] == [
        "What is the job, in a few words", "Whose is it", "Job number [SW-114]", "Whose is it",
    ]
    (draft,) = drafts(shop / "jobs")
    assert draft.answers["customer"] == "WM-2"


@pytest.mark.parametrize(("leave", "at"), [("stop", 1), ("^C", 14), (None, 24), ("stop", len(STUD) - 1)])
def test_it_can_be_left_anywhere_and_taken_up(
    run: Run, shop: Path, answer: Callable[..., list[str]], at: int, leave: str | None
) -> None:
    before = files(shop)
    lines = list(STUD.values())
    answer(*lines[:at], *([leave] if leave else []))
    status, out, _ = run()
    assert status == 0
    assert "Go on with: python -m generator new --resume gate-stud" in out
    now = files(shop)
    assert now.pop("jobs/_drafts/gate-stud.yml")
    assert now == before
    asked = answer(*lines[at:])
    status, _, err = run("--resume", "gate-stud")
    assert (status, err) == (0, "")
    assert len(asked) == len(lines) - at
    assert the_job(shop).read_text("utf-8") == FILE
    assert not (shop / "jobs" / "_drafts").exists()


def test_nothing_is_asked_where_nobody_answers_and_what_is_missing_is_said(run: Run, shop: Path) -> None:
    before = files(shop)
    status, _, err = run()
    assert status == 2
    assert "There is nothing to write" in err
    assert files(shop) == before
    status, _, err = run("--title", "Pin", "--lathe", "metric")
    assert status == 1
    assert "--work  length at the chuck end" in err
    assert "--held  what holds it" in err
    assert drafts(shop / "jobs")[0].answers == {"title": "Pin", "lathe": "metric"}


def test_wrong_options_are_refused_and_nothing_is_written(run: Run, shop: Path) -> None:
    before = files(shop)
    for words, said in [
        (["--title", "Pin", "--major", "1,5"], '--major: "1,5" has a decimal comma'),
        (["--title", "Pin", "--held", "magnet"], '--held: "magnet" is none of these: chuck, collet'),
        (["--title", "Pin", "--work", "14"], '--work "14" is not a size of a section'),
        (["--resume", "x"], "--resume x: there is no such draft"),
        (["--like", "SW-999"], "SW-999: there is no such job"),
        (["--like", "SW-113", "--grip", "3"], "--grip: comes from the job that is copied"),
    ]:
        status, _, err = run("--no-questions", *words)
        assert status == 2, words
        assert err.startswith(said), err
    assert files(shop) == before


def test_a_number_follows_the_newest_and_is_never_taken_twice(run: Run, shop: Path) -> None:
    words = ["--no-questions", "--lathe", "metric", "--units", "mm", "--work", "length=50", "od=20", "--held",
             "collet", "--grip", "20"]
    for number in ("SW-114", "SW-115"):
        assert run("--title", "Pin", *words)[0] == 0
        assert read_job(the_job(shop, number)).job.job == number
    status, _, err = run("--title", "Pin", "--job", "SW-115", *words)
    assert status == 2
    assert err == "--job: SW-115 is taken: SW-115B is free.\n"


# -- a copy ------------------------------------------------------------------------------------------------


def test_a_copy_never_looks_measured(run: Run, shop: Path) -> None:
    earlier = shop / "jobs/2026" / BOLLARD / "job.yml"
    text = earlier.read_text("utf-8")
    text = text.replace("od: 2, bore: 1 1/8}", "od: {value: 2.0005, by: KL, with: micrometer}, bore: 1 1/8}")
    text = text.replace("on_bench: yes}", "on_bench: yes, minor: {value: 1.87, by: KL, with: caliper}}")
    text = text.replace("fit: wires,", "fit: wires, blank: {value: 1.994, by: KL, with: micrometer},")
    text += "found: {worn: yes, major: {value: 1.97, by: KL, with: caliper}}\nagreed: as it was, 2026-05-01\n"
    earlier.write_text(text, "utf-8")
    words = ["--like", "SW-113", "--customer", "SM-200", "--received", "2026-11-02"]
    status, _, err = run("--no-questions", *words)
    assert (status, err) == (0, "")
    path = the_job(shop)
    new, read = path.read_text("utf-8"), read_job(path, read_shop(shop / "jobs/_shop"))
    assert " with: " not in new
    assert "by: KL" not in new
    assert "od: {value: 2.0005, assumed: yes}" in new
    assert "# Measure these anew, they are marked as not measured: work: od 2.0005." in new
    assert "steady: {at: 11}            # distance from the chuck face" in new  # its remarks stay
    for key in ("status", "revision", "agreed", "found", "photos", "duty: {", "minor", "blank"):
        assert f"\n{key}" not in new
        assert f" {key}:" not in new
    assert read.job.customer == "SM-200"
    assert read.job.duty == "unknown"
    assert isinstance(read.job.mate, Mate)
    assert (read.job.mate.part, read.job.mate.on_bench) == ("clamp ring", False)
    assert [one.name for one in read.job.operations] == ["face", "turn", "relief", "chamfer", "thread"]
    assert sorted(one.name for one in path.parent.iterdir()) == ["job.yml"]  # no log, no picture


def test_a_copy_of_what_new_wrote_says_nothing_of_the_earlier_measurements(
    run: Run, shop: Path, answer: Callable[..., list[str]]
) -> None:
    answer(*STUD.values())
    run()
    left = ("customer", "job", "received", "asked", "inside", "by", "major", "pitch_over_ten", "tpi",
            "mate_part", "duty_said")
    asked = answer(*("" for _ in left))
    status, _, err = run("--like", "SW-114")
    assert (status, err, len(asked)) == (0, "", len(left))
    text = the_job(shop, "SW-115").read_text("utf-8")
    assert "was chosen from these" not in text
    assert "Not to be mistaken" not in text
    assert "found:" not in text
    assert "thread: {designation: 1/2-13 UNC-2A, length: 1 1/4, fit: mate}" in text
    assert "\n\n# The work, section by section" in text


# -- hostile -----------------------------------------------------------------------------------------------

SIGNS = "\x00\x07\x1b[31m", "a\nlathe: other", "\u202etxt", "x\u2028y", "\ud800"
WORDS = [
    ("yes", "12:30", "0x1F", "{a: b}", "- x", "# remark"),
    ("a # b", "&a *a", "!!python/object:os", "'\"", "~", "1e3"),
    ("x: y", "%YAML 1.1", "@home", "`tick`", "| block", "null"),
]


@pytest.mark.parametrize("words", WORDS)
def test_an_answer_stays_the_words_it_is(
    run: Run, shop: Path, answer: Callable[..., list[str]], words: tuple[str, ...]
) -> None:
    keys = ("title", "customer", "asked", "by", "major_with", "mate_part")
    answer(*{**STUD, **dict(zip(keys, words, strict=True))}.values())
    status, _, err = run()
    assert (status, err) == (0, "")
    job = read_job(the_job(shop)).job
    assert job.found is not None
    assert job.found.major is not None
    assert isinstance(job.mate, Mate)
    read = job.title, job.customer, job.asked, job.found.major.by, job.found.major.with_, job.mate.part
    assert read == words


@pytest.mark.parametrize("word", SIGNS)
def test_signs_that_cannot_be_printed_are_asked_again(
    run: Run, shop: Path, answer: Callable[..., list[str]], word: str
) -> None:
    before = files(shop)
    answer(word)
    status, out, _ = run()
    assert status == 2
    assert "There is a sign in it that cannot be printed" in out
    assert files(shop) == before


@settings(max_examples=150, deadline=None)
@given(st.text(max_size=60), st.text(max_size=60))
def test_no_remark_and_no_text_gets_out_of_its_place(said: str, words: str) -> None:
    words = "".join(sign for sign in words if sign.isprintable()).strip() or "x"
    answers = {"job": "T-1", "title": words, "lathe": "metric", "material": "unknown", "length_1": "5 in",
               "od_1": "1 in", "length_2": "", "held": "collet", "grip": "1 in", "units": "inch"}
    text = job_text(job_tree(answers), {"work": [said], "job": [said]}, [said])
    assert list(read_block(Path("x"), text.encode())) == [
        "job", "title", "units", "lathe", "material", "work", "holding",
    ]


def test_a_draft_that_was_spoilt_is_said_and_stays(run: Run, shop: Path) -> None:
    folder = shop / "jobs" / "_drafts"
    folder.mkdir()
    (folder / "x.yml").write_text("title: [1\n", "utf-8")
    status, _, err = run("--resume", "x")
    assert status == 1
    assert "jobs/_drafts/x.yml:" in err
    assert (folder / "x.yml").exists()
    assert run("--no-questions", "--title", "Pin", "--customer", "WM-1")[0] == 1  # it is in nobody's way
    assert (folder / "pin.yml").exists()


# -- questions and options ---------------------------------------------------------------------------------


def every_question() -> Iterator[Question]:
    known = Known(("a", "b"), ("steel",), "inch", "T-1", "2026-01-01")
    base = {key: said or "x" for key, said in STUD.items()} | {"tpi": "13"}
    for held in ("chuck", "collet", "centers", "faceplate"):
        for inside in ("yes", "no"):
            more = dict.fromkeys(("pitch_diameter", "pitch", "lead", "taper", "minor", "mate_major"), "1")
            yield from job_questions(known, {**base, **more, "held": held, "inside": inside})
            yield from job_questions(known, {**base, "pitch_over_ten": "", "held": held, "inside": inside})


def test_every_question_has_an_option_and_every_option_a_question() -> None:
    keys = {one.key for one in every_question() if not one.key[-1].isdigit()}
    assert keys == {name for options in OPTIONS.values() for name in options}


def test_no_question_has_two_places_and_each_is_a_sentence_of_the_trade() -> None:
    for one in every_question():
        assert one.text[0].isupper()
        assert not one.text.endswith((".", ":", "?"))
        assert not one.costs or one.costs.endswith(".")


# -- killed ------------------------------------------------------------------------------------------------

WRITING = """
import sys
from pathlib import Path
from generator.intake.drafts import Keeper
from generator.pack.placing import place_folder
jobs = Path(sys.argv[1])
print("begun", flush=True)
for n in range(10_000):
    keeper = Keeper(jobs)
    for k in range(4):
        keeper.keep({"title": f"t {sys.argv[2]}-{n}", **{f"a{i}": "x" * 3000 for i in range(k)}})
    place_folder(jobs / "2026" / f"{sys.argv[2]}-{n}", {"job.yml": b"x" * 9000})
    keeper.remove()
"""


def test_killed_at_any_moment_the_archive_is_whole_and_the_draft_whole_or_not_there(tmp_path: Path) -> None:
    luck = random.Random(5)
    for turn in range(6):
        running = subprocess.Popen(
            [sys.executable, "-c", WRITING, str(tmp_path), str(turn)], stdout=subprocess.PIPE, cwd=ROOT
        )
        assert running.stdout is not None
        assert running.stdout.readline() == b"begun\n"
        time.sleep(luck.uniform(0.05, 0.7))
        running.send_signal(signal.SIGKILL)
        running.communicate()
        for draft in drafts(tmp_path):
            assert len(draft.answers) in (1, 2, 3, 4)
            assert all(len(said) == 3000 for key, said in draft.answers.items() if key != "title")
    jobs = [path for path in (tmp_path / "2026").iterdir() if not path.name.startswith(".")]
    assert len(jobs) > 6
    assert all((path / "job.yml").stat().st_size == 9000 for path in jobs)


def test_a_draft_that_outlived_its_job_makes_no_second_one(
    run: Run, shop: Path, answer: Callable[..., list[str]]
) -> None:
    """Killed between the job's place in the archive and the end of the draft."""
    answer(*STUD.values())
    assert run()[0] == 0
    said = {**STUD, "job": "SW-114", "inside": "no", "worn": "yes", "designation": "1/2-13 UNC-2A",
            "hand": "right", "lifting": "no", "brakes": "no", "follow_rest": "no"}
    Keeper(shop / "jobs").keep(said)
    before = files(shop)
    status, out, _ = run("--resume", "gate-stud")
    assert status == 0
    assert out.startswith("It is written already")
    before.pop("jobs/_drafts/gate-stud.yml")
    assert files(shop) == before


def test_a_real_one_killed_between_two_answers_is_taken_up(shop: Path) -> None:
    """The program itself, its answers through a pipe that somebody pulls."""
    before = files(shop)
    running = subprocess.Popen(
        [sys.executable, "-m", "generator", "new"], cwd=shop, stdin=subprocess.PIPE, stdout=subprocess.PIPE,
        env={**os.environ, "PYTHONPATH": str(ROOT)}, text=True, bufsize=0,
    )
    assert running.stdin is not None
    assert running.stdout is not None
    for line in list(STUD.values())[:12]:
        running.stdin.write(f"{line}\n")
    seen = ""
    while "Measured with" not in seen:
        sign = running.stdout.read(1)
        assert sign, seen
        seen += sign
    running.send_signal(signal.SIGKILL)
    running.communicate()
    now = files(shop)
    assert now.pop("jobs/_drafts/gate-stud.yml")
    assert now == before
    (draft,) = drafts(shop / "jobs")
    assert draft.answers == {
        key: {"job": "SW-114", "inside": "no"}.get(key, said) for key, said in list(STUD.items())[:12]
    }


def test_a_keeper_without_answers_writes_nothing(tmp_path: Path) -> None:
    Keeper(tmp_path).keep({"title": ""})
    assert list(tmp_path.iterdir()) == []
