"""The command `receive`: a setup of another shop becomes a job of this one, and nothing else changes."""

from __future__ import annotations

import hashlib
import random
import re
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
import segno

from generator.__main__ import main
from generator.job.reading import read_job, read_log, read_shop
from generator.job.sender import read_sender, with_sender
from generator.pack.zipped import unzipped, zipped
from generator.site.archive import make_sheet
from tests.pack.hostile_zips import hostile_zips
from tests.small_shop import ROOT, Run

SPINDLE = "SW-113-bollard-spindle"
VALVE = "SW-114-valve-spindle"
HOSTILE = dict(hostile_zips())


def tree(folder: Path) -> dict[str, str]:
    """Every file below the folder, hidden ones too, with what it holds."""
    return {
        path.relative_to(folder).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in folder.rglob("*") if path.is_file()
    }


def sent(run: Run, name: str = SPINDLE, *words: str) -> dict[str, bytes]:
    """The files of a shared job, in x.zip too."""
    status, _, err = run("share", name, "--jobs", "theirs", "-o", "x.zip", *words)
    assert (status, err) == (0, "")
    return unzipped(Path("x.zip").read_bytes())[1]


@pytest.fixture(scope="module")
def spindle(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """The files of the spindle, shared as it is in the demo archive."""
    file = tmp_path_factory.mktemp("shared") / "x.zip"
    assert main(["share", SPINDLE, "--jobs", str(ROOT / "jobs"), "-o", str(file)]) == 0
    return unzipped(file.read_bytes())[1]


def again(files: dict[str, bytes], job: str = "SW-113") -> None:
    """The files as a zip that is right in itself, in x.zip."""
    said = {"job": job, "title": "Spindle", "shop": "Saltmarsh Works", "lathe": "L1", "left_out": ()}
    Path("x.zip").write_bytes(zipped(files, **said))


def added(mine: Path) -> Path:
    """The folder of the only job."""
    (job,) = mine.glob("[12]*/*/job.yml")
    return job.parent


def test_it_is_a_job_of_this_shop_on_a_lathe_of_this_shop(run: Run, theirs: Path, mine: Path) -> None:
    before = tree(mine)
    sent(run)
    status, out, err = run("receive", "x.zip", "--jobs", "mine", "--lathe", "thirteen-inch")
    assert (status, err) == (0, "")
    folder = added(mine)
    assert {name: held for name, held in tree(mine).items() if not name.startswith("20")} == before
    shop = read_shop(mine / "_shop")
    read = read_job(folder / "job.yml")
    assert (read.job.job, read.job.lathe) == ("SW-113", "thirteen-inch")
    sheet = make_sheet(folder / "job.yml", shop)
    assert any("Taken in from Saltmarsh Works, SW-113 there" in note for note in read.job.notes)
    assert sheet.history is not None
    assert not sheet.history.problems
    assert "Spindle step: 50 rpm -> 45 rpm" in out
    assert "Cross dial for 0.010 in off the diameter: 10 divisions of 0.001 in -> 5 divisions" in out
    assert run("check", "--jobs", "mine")[0] == 0


def test_what_is_theirs_stays_apart_under_a_name_that_says_so(run: Run, theirs: Path, mine: Path) -> None:
    sent(run)
    _, out, _ = run("receive", "x.zip", "--jobs", "mine", "--lathe", "thirteen-inch")
    folder = added(mine)
    sender = read_sender(folder)
    assert sender is not None
    assert (sender.shop, sender.job, sender.lathe) == ("Saltmarsh Works", "SW-113", "L1 Long lathe")
    assert [one.name for one in sender.materials] == ["1045 steel (theirs)"]
    own = read_shop(mine / "_shop")
    assert "1045 steel (theirs)" not in own.materials
    assert "1045 steel (theirs)" in with_sender(own, sender).materials
    assert "The job uses their material 1045 steel" in out
    text = (folder / "job.yml").read_text(encoding="utf-8")
    assert "material: 1045 steel (theirs)" in text
    assert "tool: V1}" in text  # the same here and there


def test_what_came_is_kept_as_it_came(run: Run, theirs: Path, mine: Path) -> None:
    files = sent(run)
    run("receive", "x.zip", "--jobs", "mine")
    _, kept = unzipped((added(mine) / "received.zip").read_bytes())
    assert kept == {name: data for name, data in files.items() if name != "sheet.html"}


def test_what_their_dials_read_is_a_note_and_no_reading_of_ours(run: Run, theirs: Path, mine: Path) -> None:
    sent(run)
    run("receive", "x.zip", "--jobs", "mine", "--lathe", "metric")
    log = read_log(added(mine) / "log.yml", "inch", "mm")
    assert not log.problems
    assert all(one.entry.dial is None and one.entry.cross is None for one in log.entries)
    stop = next(one.entry for one in log.entries if one.entry.stop)
    assert stop.stop is not None
    assert stop.stop.levers is None
    assert stop.note is not None
    assert "On their lathe, dials in inch: dial 0.083; stop with turns 0, dial 0.083" in stop.note
    assert "levers 8 threads, right hand" in stop.note
    assert stop.stop.depth_left is not None


def test_a_number_that_is_taken_gets_the_next_letter_and_nothing_is_written_over(
    run: Run, theirs: Path, mine: Path
) -> None:
    sent(run)
    for number in ("SW-113", "SW-113B", "SW-113C"):
        before = tree(mine)
        assert run("receive", "x.zip", "--jobs", "mine")[0] == 0
        assert before.items() <= tree(mine).items()
        (job,) = mine.glob(f"[12]*/{number}-*/job.yml")
        assert read_job(job).job.job == number
        sender = read_sender(job.parent)
        assert sender is not None
        assert sender.job == "SW-113"
    assert run("check", "SW-113", "--jobs", "mine")[0] == 0  # the number still names one job


def test_show_adds_nothing(run: Run, theirs: Path, mine: Path) -> None:
    sent(run)
    before = tree(mine)
    status, out, _ = run("receive", "x.zip", "--jobs", "mine", "--show")
    assert status == 0
    assert "nothing was added" in out
    assert tree(mine) == before


def test_the_lathe_that_suits_best_is_taken_where_none_is_named(run: Run, theirs: Path, mine: Path) -> None:
    sent(run)
    _, out, _ = run("receive", "x.zip", "--jobs", "mine", "--show")
    assert "here for L2 Thirteen-inch lathe" in out


def test_lengths_stand_in_both_units_the_other_one_marked(run: Run, theirs: Path, mine: Path) -> None:
    sent(run)
    _, out, _ = run("receive", "x.zip", "--jobs", "mine", "--show")
    assert "work.0.od: 2 1/4 in = 57.15 mm" in out  # 1 in is 25.4 mm, ISO 31-1
    assert "operations.2.relief.width: 3/16 in ≈ 4.762 mm" in out
    sent(run, "SW-115-gate-stud")
    _, out, _ = run("receive", "x.zip", "--jobs", "mine", "--show")
    assert " mm ≈ " in out


def test_a_step_that_only_their_lathe_has_is_left_to_the_sheet(run: Run, theirs: Path, mine: Path) -> None:
    job = theirs / "2026" / VALVE / "job.yml"
    text = job.read_text(encoding="utf-8")
    assert "  - thread: {" in text
    job.write_text(text.replace("  - thread: {", "  - thread: {spindle: 45 rpm, "), encoding="utf-8")
    sent(run, VALVE)
    _, out, _ = run("receive", "x.zip", "--jobs", "mine", "--lathe", "metric")
    assert "45 rpm is left to the sheet, for it was chosen for their lathe" in out
    assert "spindle:" not in (added(mine) / "job.yml").read_text(encoding="utf-8")


def test_the_built_sheet_is_new_when_what_the_sender_brought_changes(
    run: Run, theirs: Path, mine: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    sent(run)
    run("receive", "x.zip", "--jobs", "mine", "--lathe", "thirteen-inch")
    assert run("build", "--jobs", "mine", "--site", "site")[0] == 0
    (page,) = Path("site/sheets").glob("20*/SW-113*.html")
    assert "1045 steel (theirs)" in page.read_text(encoding="utf-8")
    sender = added(mine) / "sender.yml"
    text = sender.read_text(encoding="utf-8").replace("medium-carbon steel", "austenitic stainless")
    sender.write_text(text, encoding="utf-8")
    before = page.read_text(encoding="utf-8")
    assert run("build", "--jobs", "mine", "--site", "site")[0] == 0
    assert page.read_text(encoding="utf-8") != before
    sender.write_text("shop: [\n", encoding="utf-8")
    status, _, err = run("build", "--jobs", "mine", "--site", "site")
    assert status == 1
    assert "sender.yml:2:1" in err


def test_a_job_file_in_a_code_on_paper_is_taken_in_alone(run: Run, theirs: Path, mine: Path) -> None:
    data = sent(run)["job/job.yml"]
    segno.make(data, error="m", mode="byte").save("photo.png", scale=5, border=4)
    status, out, err = run("receive", "photo.png", "--jobs", "mine", "--lathe", "thirteen-inch")
    assert (status, err) == (0, "")
    folder = added(mine)
    assert unzipped((folder / "received.zip").read_bytes())[1] == {"job/job.yml": data}
    job = read_job(folder / "job.yml").job
    assert (job.job, job.lathe, job.material) == ("SW-113", "thirteen-inch", "unknown")
    assert "find out what it is like" in out
    assert run("check", "--jobs", "mine")[0] == 0
    segno.make("no job").save("photo.png", scale=5)
    before = tree(mine)
    status, _, err = run("receive", "photo.png", "--jobs", "mine")
    assert (status, "photo.png: " in err) == (1, True)
    assert tree(mine) == before


# -- what is not taken -------------------------------------------------------------------------------------


@pytest.mark.parametrize("how", [*HOSTILE][::7])
def test_a_hostile_zip_leaves_the_archive_as_it_was(how: str, run: Run, theirs: Path, mine: Path) -> None:
    files = {"job/job.yml": b"job: SW-1\n", "shop/house.yml": b"shop: S\n"}
    Path("x.zip").write_bytes(HOSTILE[how](files))
    before = tree(mine)
    status, out, err = run("receive", "x.zip", "--jobs", "mine")
    assert (status, out) == (1, "")
    assert "x.zip: is not taken in: " in err
    assert "Nothing was added." in err
    assert tree(mine) == before


def _bomb() -> bytes:
    lines = ["a0: &a0 [x, x, x, x, x, x, x, x, x]"]
    lines += [f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]" for n in range(1, 10)]
    return "\n".join(lines).encode()  # a billion words in few lines (CWE-776)


@pytest.mark.parametrize(
    ("name", "data", "said"),
    [
        ("job/job.yml", b"job: SW-113\ntilte: x\n", r"x\.zip/job/job\.yml:2:1: tilte"),
        ("job/job.yml", _bomb(), r"x\.zip/job/job\.yml:\d+:\d+: "),
        ("job/job.yml", b"job: !!python/object/apply:os.system [id]\n", r"x\.zip/job/job\.yml:1:6: "),
        ("job/job.yml", b"[" * 5000, r"x\.zip/job/job\.yml:1:\d+: "),
        ("job/job.yml", b"job: \x00\n", r"x\.zip/job/job\.yml:1:\d+: "),
        ("job/job.yml", b"\xff\xfe\x00\x00", r"x\.zip/job/job\.yml:1:\d+: "),
        ("job/job.yml", b"", r"x\.zip/job/job\.yml:1:1: "),
        ("job/log.yml", b"- at: never\n", r"x\.zip/job/log\.yml:1:7: at"),
        ("shop/house.yml", b"shop: S\nrun: id\n", r"x\.zip/shop/house\.yml:2:1: run"),
        ("shop/lathes/long-bed.yml", b"lathe: long-bed\n", r"x\.zip/shop/lathes/long-bed\.yml:1:1: "),
        ("shop/tools.yml", b"threading: 7\n", r"x\.zip/shop/tools\.yml:1:12: threading"),
        ("shop/materials.yml", b"materials: [{name: x, group: y}]\n", r"x\.zip/job/job\.yml:7:11: material"),
        ("job/worn-thread.png", b"<svg onload=alert(1)>", r"the picture worn-thread\.png in it "),
        ("job/worn-thread.png", b"\x89PNG\r\n\x1a\n" + bytes(99), r"the picture worn-thread\.png in it "),
        ("job/extra.jpg", b"MZ\x90\x00", r"the picture extra\.jpg in it "),
    ],
)
def test_a_file_that_is_wrong_is_said_with_its_place(
    name: str, data: bytes, said: str, run: Run, spindle: dict[str, bytes], mine: Path
) -> None:
    again({**spindle, name: data})
    before = tree(mine)
    status, out, err = run("receive", "x.zip", "--jobs", "mine")
    assert (status, out) == (1, "")
    assert re.search(said, err), err
    assert "Nothing was added." in err
    assert tree(mine) == before


def test_what_is_missing_or_not_there_is_said(run: Run, theirs: Path, mine: Path) -> None:
    files = sent(run)
    for gone in ("job/job.yml", "shop/house.yml"):
        again({name: data for name, data in files.items() if name != gone})
        status, _, err = run("receive", "x.zip", "--jobs", "mine")
        assert (status, f"holds no {gone}" in err) == (1, True)
    again({name: data for name, data in files.items() if "lathes" not in name})
    assert "no lathe is described here" in run("receive", "x.zip", "--jobs", "mine")[2]
    again(files, job="SW-999")
    assert "names another job" in run("receive", "x.zip", "--jobs", "mine")[2]
    assert "cannot be read: no such file" in run("receive", "nowhere.zip", "--jobs", "mine")[2]
    assert "cannot be read: is a directory" in run("receive", "theirs", "--jobs", "mine")[2]
    status, _, err = run("receive", "x.zip", "--jobs", "mine", "--lathe", "long-bed")
    assert (status, "is not a lathe of this shop: the shop has metric, thirteen-inch" in err) == (2, True)
    assert list(mine.glob("[12]*")) == []


NUMBERS = ("../../../x", "CON", "a/b", "-rf", ".git", "Ünï", "=1+1", "<b>x</b>", "x" * 150)


@pytest.mark.parametrize("number", NUMBERS)
def test_a_number_of_any_signs_makes_a_plain_folder(
    number: str, run: Run, spindle: dict[str, bytes], theirs: Path, mine: Path
) -> None:
    text = spindle["job/job.yml"].decode().replace("job: SW-113", f"job: '{number}'")
    again({**spindle, "job/job.yml": text.encode()}, number)
    before = tree(mine.parent / "theirs")
    assert run("receive", "x.zip", "--jobs", "mine")[0] == 0
    folder = added(mine)
    assert folder.name.replace("-", "").isalnum()
    assert folder.name.isascii()
    assert len(folder.name) < 220
    assert read_job(folder / "job.yml").job.job == number
    assert tree(mine.parent / "theirs") == before


# -- killed ------------------------------------------------------------------------------------------------

PLACING = """
import sys
from pathlib import Path
from generator.pack.placing import place_folder
files = {f"{n}.bin": bytes([n]) * 20_000 for n in range(8)}
print("begun", flush=True)
for n in range(10_000):
    place_folder(Path(sys.argv[1], "2026", f"{sys.argv[2]}-{n}"), files)
"""


def test_a_killed_receive_leaves_whole_jobs_or_none(tmp_path: Path) -> None:
    luck, whole = random.Random(8), {f"{n}.bin": 20_000 for n in range(8)}
    for turn in range(30):
        running = subprocess.Popen(
            [sys.executable, "-c", PLACING, str(tmp_path), str(turn)], stdout=subprocess.PIPE, cwd=ROOT
        )
        assert running.stdout is not None
        assert running.stdout.readline() == b"begun\n"
        time.sleep(luck.uniform(0, 0.3))
        running.send_signal(signal.SIGKILL)
        running.communicate()
    folders = [path for path in (tmp_path / "2026").iterdir() if not path.name.startswith(".")]
    assert len(folders) > 30
    for folder in folders:
        assert {path.name: path.stat().st_size for path in folder.iterdir()} == whole
    shutil.rmtree(tmp_path / "2026")


