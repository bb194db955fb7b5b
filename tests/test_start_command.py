"""The command `start`: an archive in any folder, from answers, options or nothing; from a wheel."""

from __future__ import annotations

import builtins
import io
import json
import os
import random
import signal
import subprocess
import sys
import time
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from generator.intake.lathe_questions import lathe_questions
from generator.job.reading import find_jobs, read_shop
from generator.language.spoken import speak
from generator.site.archive import make_sheet
from generator.start_options import OPTIONS
from tests.job.test_schema import parsed
from tests.small_shop import ROOT, Run, runner

# An invented lathe, question by question.
LATHE = {
    "language": "en", "shop": "Saltmarsh: Works # 2", "units": "inch", "lathe": "L2 Thirteen-inch",
    "swing": "13", "swing_cross": "8", "between_centers": "40", "bore": "1 3/8", "nose": "screwed",
    "speeds": "45 70 115 165 200 270 400", "three_jaw": "1/8 to 6", "four_jaw": "1/2 to 7",
    "top_speed": "2000 rpm", "leadscrew": "8", "thread_dial": "16", "dial_lines": "8", "dial_numbered": "2",
    "gearbox": "4, 4 1/2, 5, 6, 7, 8, 9, 10, 11, 11 1/2, 12, 13", "change_gears": "24, 24, 32, 40, 48, 127",
    "cross_division": "0.001", "cross_reads": "radius", "cross_turn": "0.100", "compound_division": "0.001",
    "compound_reads": "radius", "compound_turn": "0.100", "steady": "1/4 to 4", "follow_rest": "",
    "power": "3 hp",
}


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    monkeypatch.setattr(sys, "stdin", io.StringIO())
    return runner(tmp_path, monkeypatch, capsys, "start")


def names(folder: Path) -> set[str]:
    return {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}


@pytest.mark.parametrize("units", ["inch", "mm"])
def test_with_the_lathe_left_for_later_all_is_there_and_nothing_is_called_known(
    run: Run, tmp_path: Path, units: str
) -> None:
    status, out, err = run("shop", "--later", "--units", units)
    assert (status, err) == (0, "")
    assert "Left for later: 18 questions about the lathe" in out
    jobs = tmp_path / "shop" / "jobs"
    (example,) = find_jobs(jobs)
    sheet = make_sheet(example, read_shop(jobs / "_shop"))
    assert not sheet.ready
    assert not sheet.passes
    (stop,) = (one for one in sheet.findings if one.level == "stop")
    assert stop.text.startswith(
        "Nobody has read the speeds, what the 3-jaw chuck grips, the dial of the cross slide and the dial of "
        "the compound off Lathe 1"
    )
    assert "lathe-size-assumed" in {one.id for one in sheet.findings}
    text = (jobs / "_shop/lathes/lathe-1.yml").read_text("utf-8")
    assert text.count("NOT READ OFF THE LATHE YET") == 6
    assert "# - Power of the motor: The sheet cannot say whether it stalls." in text


def test_what_is_answered_stands_in_the_file_and_the_example_can_be_run(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    said = iter(LATHE.values())
    monkeypatch.setattr(builtins, "input", lambda prompt: next(said))
    status, _, err = run("shop")
    assert (status, err) == (0, "")
    jobs = tmp_path / "shop" / "jobs"
    shop = read_shop(jobs / "_shop")
    lathe = shop.lathes["l2-thirteen-inch"]
    assert shop.house.shop == "Saltmarsh: Works # 2"
    assert [step.speed.text for step in lathe.spindle.speeds] == LATHE["speeds"].split()
    assert [(one.jaws, one.grips.to.text) for one in lathe.chucks] == [(3, "6"), (4, "7")]
    assert lathe.dial is not None
    assert (lathe.dial.teeth, lathe.dial.lines, lathe.dial.numbered_every) == (16, 8, 2)
    assert "assumed" not in (jobs / "_shop/lathes/l2-thirteen-inch.yml").read_text("utf-8")
    (example,) = find_jobs(jobs)
    sheet = make_sheet(example, shop)
    assert sheet.ready
    assert sheet.passes


def test_options_say_the_same_as_answers(run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    said = iter(LATHE.values())
    monkeypatch.setattr(builtins, "input", lambda prompt: next(said))
    run("asked")
    words = [word for key, value in LATHE.items() if value for word in (f"--{key.replace('_', '-')}", value)]
    assert run("given", "--later", *words)[0] == 0
    for name in names(tmp_path / "asked"):
        assert (tmp_path / "given" / name).read_bytes() == (tmp_path / "asked" / name).read_bytes(), name


@pytest.mark.parametrize(("key", "wrong", "said"), [
    ("swing", "1,5", '"1,5" has a decimal comma: write 1.5, with a point.'),
    ("swing_cross", "15", "is larger than over_bed"),
    ("speeds", "70, 45", '1: "45 rpm" is not above the "70 rpm" before it: write them from low to high.'),
    ("three_jaw", "6 to 1/8", 'from: "6 in" is larger than to, "1/8 in": swap them.'),
    ("three_jaw", "6", "to: is missing"),
    ("gearbox", "4 4 1/2", '0: "4 4 1/2"'),
    ("change_gears", "24, 24, 3", '"3" is not a change gear'),
    ("cross_turn", "0.0995", "is not a whole number of divisions"),
    ("nose", "glue", '"glue" is none of these: camlock, screwed'),
])
def test_a_wrong_answer_gets_the_sentence_of_the_file_and_is_asked_again(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, key: str, wrong: str, said: str
) -> None:
    answers = list(LATHE.values())
    place = list(LATHE).index(key)
    lines = iter([*answers[:place], wrong, *answers[place:]])
    monkeypatch.setattr(builtins, "input", lambda prompt: next(lines))
    status, out, _ = run("shop")
    assert status == 0
    assert said in out
    assert "assumed" not in (tmp_path / "shop/jobs/_shop/lathes/l2-thirteen-inch.yml").read_text("utf-8")


def test_stop_leaves_the_rest_for_later_and_ctrl_c_writes_nothing(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    lines = iter([*list(LATHE.values())[:7], "stop"])
    monkeypatch.setattr(builtins, "input", lambda prompt: next(lines))
    assert run("shop")[0] == 0
    lathe = read_shop(tmp_path / "shop/jobs/_shop").lathes["l2-thirteen-inch"]
    assert lathe.between_centers.text == "40"
    assert lathe.spindle.speeds[0].speed.kind == "assumed"

    def interrupted(prompt: str) -> str:
        raise KeyboardInterrupt

    monkeypatch.setattr(builtins, "input", interrupted)
    assert run("other")[0] == 130
    assert not (tmp_path / "other").exists()


def test_what_is_there_is_never_touched(run: Run, tmp_path: Path) -> None:
    assert run("shop", "--later")[0] == 0
    before = {name: (tmp_path / "shop" / name).read_bytes() for name in names(tmp_path / "shop")}
    status, _, err = run("shop", "--later", "--add")
    assert (status, err) == (2, "shop: has a folder jobs already, and stays as it is; give another folder\n")
    other = tmp_path / "other"
    other.mkdir()
    (other / "READ-ME.txt").write_text("mine")
    status, _, err = run("other", "--later")
    assert status == 2
    assert "has other things in it (READ-ME.txt)" in err
    assert names(other) == {"READ-ME.txt"}
    assert run("other", "--later", "--add")[0] == 0
    assert (other / "READ-ME.txt").read_text() == "mine"
    assert (other / "jobs/_shop/house.yml").is_file()
    assert {name: (tmp_path / "shop" / name).read_bytes() for name in names(tmp_path / "shop")} == before
    (tmp_path / "file").write_text("x")
    assert run("file", "--later")[0] == 2


def test_every_file_names_its_schema_and_follows_it(run: Run, tmp_path: Path) -> None:
    assert run("shop", "--later")[0] == 0
    files = list((tmp_path / "shop/jobs").rglob("*.yml"))
    assert len(files) == 5
    for path in files:
        first = path.read_text("utf-8").splitlines()[0]
        assert first.startswith("# yaml-language-server: $schema=")
        schema = json.loads((path.parent / first.partition("=")[2]).read_text("utf-8"))
        Draft202012Validator(schema).validate(parsed(path.read_text("utf-8")))


def test_killed_at_any_moment_there_is_a_whole_archive_or_none(tmp_path: Path) -> None:
    luck = random.Random(3)
    whole: set[str] = set()
    for turn in range(7):
        folder = tmp_path / str(turn)
        running = subprocess.Popen(
            [sys.executable, "-m", "generator", "start", str(folder), "--later"], cwd=ROOT,
            stdout=subprocess.DEVNULL, env={**os.environ, "PYTHONPATH": str(ROOT)},
        )
        if turn:
            while not folder.exists() and running.poll() is None:
                time.sleep(0.002)
            time.sleep(luck.uniform(0, 0.03))
            running.send_signal(signal.SIGKILL)
        running.wait()
        found = names(folder) if folder.exists() else set()
        there = {name for name in found if not name.startswith(".starting-")}
        whole = whole or there
        assert there in (set(), {"READ-ME.txt"}, whole)
    assert any(name.endswith("job.yml") for name in whole)


def test_every_question_has_an_option_and_every_option_a_question() -> None:
    keys = {one.key for units in ("inch", "mm") for one in lathe_questions({**LATHE, "units": units})}
    assert keys == set(OPTIONS)


def test_it_works_from_what_a_wheel_holds_in_any_folder(tmp_path: Path) -> None:
    """The packages that the wheel takes, laid out as pip does, and no file of the repository beside them."""
    installed = tmp_path / "site-packages"
    wheel = tmp_path / "it.whl"
    with zipfile.ZipFile(wheel, "w") as packed:
        for package in ("generator", "site_templates"):
            for path in (ROOT / package).rglob("*"):
                if path.is_file() and "__pycache__" not in path.parts:
                    packed.write(path, path.relative_to(ROOT))
    with zipfile.ZipFile(wheel) as packed:
        packed.extractall(installed)
    called: Callable[..., subprocess.CompletedProcess[str]] = lambda *words: subprocess.run(  # noqa: E731
        [sys.executable, "-P", "-m", "generator", *words], cwd=tmp_path / "here", text=True,
        capture_output=True, env={**os.environ, "PYTHONPATH": str(installed)}, stdin=subprocess.DEVNULL,
        check=False,
    )
    (tmp_path / "here").mkdir()
    assert called("start", ".").returncode == 0
    made = called(
        "new", "--title", "Pin", "--work", "length=6", "od=1/2", "--held", "chuck", "--jaws", "3",
        "--grip", "1", "--major", "0.489", "--pitch-over-ten", "0.769",
    )
    assert (made.returncode, made.stderr) == (0, "")
    checked = called("check")
    assert checked.returncode == 0, checked.stderr
    assert "2 checked, 0 with errors" in checked.stderr


def test_the_language_of_the_shop_is_asked_for_and_kept(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    said = iter(["english", "en-gb", "Saltmarsh Works", "stop"])
    prompts: list[str] = []
    monkeypatch.setattr(builtins, "input", lambda prompt: prompts.append(prompt) or next(said))
    try:
        status, out, _ = run("shop")
    finally:
        speak("en")
    assert status == 0
    assert prompts[0].endswith("(en, en-GB, de) [en]: ")
    assert '"english" is none of these: en, en-GB, de.' in out
    shop = tmp_path / "shop" / "jobs" / "_shop"
    assert read_shop(shop).house.language == "en-GB"
    assert "Longest work between centres" in (shop / "lathes" / "lathe-1.yml").read_text("utf-8")


def test_a_language_that_nobody_speaks_here_is_refused(run: Run, tmp_path: Path) -> None:
    status, _, err = run("shop", "--later", "--language", "tlh")
    assert (status, err) == (2, '--language: "tlh" is none of these: en, en-GB, de.\n')
    assert not (tmp_path / "shop").exists()
