"""The command `share`: what goes to another shop, what stays, and that the sheet in it is the sheet."""

from __future__ import annotations

import json
import re
import shutil
import zipfile
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from generator.job.reading import read_job, read_shop
from generator.pack.placing import lay_out
from generator.pack.zipped import unzipped
from generator.render.figures_json import figures_record
from generator.site.archive import make_sheet
from tests.small_shop import ROOT, Run

JOBS = sorted(path.name for path in (ROOT / "jobs" / "2026").iterdir())
SPINDLE = "SW-113-bollard-spindle"


def shared(run: Run, name: str, *words: str) -> dict[str, bytes]:
    status, _, err = run("share", name, "--jobs", "theirs", "-o", "x.zip", *words)
    assert (status, err) == (0, "")
    return unzipped(Path("x.zip").read_bytes())[1]


@pytest.mark.parametrize("name", JOBS[::2])
def test_what_goes_gives_the_same_figures_as_here(name: str, run: Run, theirs: Path, tmp_path: Path) -> None:
    files = shared(run, name, "--with", "customer")
    path = lay_out(files, tmp_path / "laid", "2026", name)
    there = figures_record(make_sheet(path, read_shop(tmp_path / "laid" / "_shop")), path)
    own = theirs / "2026" / name / "job.yml"
    here = figures_record(make_sheet(own, read_shop(theirs / "_shop")), own)
    prices = {"time.rate", "time.price"}
    assert {name: _said(one) for name, one in there["figures"].items()} == {
        name: _said(one) for name, one in here["figures"].items() if name not in prices
    }
    assert there["passes"] == here["passes"]


def _said(figure: dict[str, object]) -> tuple[object, ...]:
    """A figure without the line of the file in which it is written."""
    return figure["value"], figure["text"], re.sub(r"line \d+", "line", str(figure["working"]))


@pytest.mark.parametrize("name", JOBS)
def test_the_customer_is_named_nowhere(name: str, run: Run, theirs: Path) -> None:
    job = read_job(theirs / "2026" / name / "job.yml").job
    _, out, _ = run("share", name, "--jobs", "theirs", "-o", "x.zip")
    told = "still names the customer" in out
    assert told == (name == "SW-101-ramp-hinge-pin")  # in what is written under a picture
    files = unzipped(Path("x.zip").read_bytes())[1]
    texts = {inside: data.decode("utf-8", "replace") for inside, data in files.items()}
    for private in filter(None, (job.customer, job.asked, job.agreed)):
        found = [inside for inside, text in texts.items() if re.search(rf"\b{re.escape(private)}", text)]
        assert found == [] or told
    assert "rate:" not in texts["shop/house.yml"]


def test_where_words_of_the_job_name_the_customer_it_is_said_before_it_goes(run: Run, theirs: Path) -> None:
    job = theirs / "2026" / SPINDLE / "job.yml"
    text = job.read_text(encoding="utf-8")
    code = str(read_job(job).job.customer)
    job.write_text(text.replace("title: ", f"title: {code}, "), encoding="utf-8")
    _, out, _ = run("share", SPINDLE, "--jobs", "theirs")
    assert "Look at this before it goes: job.yml: title still names the customer" in out


def test_the_customer_goes_along_where_it_is_asked_for(run: Run, theirs: Path) -> None:
    own = (theirs / "2026" / SPINDLE / "job.yml").read_bytes()
    assert shared(run, SPINDLE, "--with", "customer")["job/job.yml"] == own


def test_the_same_job_gives_the_same_bytes(run: Run, theirs: Path, tmp_path: Path) -> None:
    shared(run, SPINDLE)
    first = Path("x.zip").read_bytes()
    shutil.move(theirs, tmp_path / "elsewhere")
    shutil.copytree(tmp_path / "elsewhere", theirs)
    shared(run, SPINDLE)
    assert Path("x.zip").read_bytes() == first


def test_the_manifest_is_as_its_schema_has_it(run: Run, theirs: Path) -> None:
    shared(run, SPINDLE)
    with zipfile.ZipFile("x.zip") as whole:
        manifest = json.loads(whole.read("manifest.json"))
    assert run("schema", "--out", "schemas")[0] == 0
    schema = json.loads(Path("schemas/manifest.schema.json").read_text(encoding="utf-8"))
    Draft202012Validator.check_schema(schema)
    Draft202012Validator(schema).validate(manifest)
    assert Path("schemas/sender.schema.json").is_file()


def test_the_sheet_needs_no_other_file_and_tells_no_path(run: Run, theirs: Path, tmp_path: Path) -> None:
    page = shared(run, SPINDLE)["sheet.html"].decode()
    assert 'data-job="SW-113"' in page
    assert "data:image/" in page
    page = re.sub(r"<script>.*?</script>", "", page, flags=re.DOTALL)
    assert re.findall(r'(?:src|srcset|poster)="(?!data:)[^"]*"|<link |url\((?!["\']?(?:data:|#))', page) == []
    assert str(tmp_path.parent) not in page
    assert "setup-" not in re.sub(r'"[^"]*"|[.#][\w-]+', "", page)


@pytest.mark.parametrize(
    ("words", "gone", "said"),
    [
        (["--without", "log"], "job/log.yml", "Left out: the log"),
        (["--without", "photos"], "job/worn-thread.png", "the pictures"),
        (["--without", "photos,log"], "job/log.yml", "the pictures"),
    ],
)
def test_what_stays_here_is_said(words: list[str], gone: str, said: str, run: Run, theirs: Path) -> None:
    assert gone in shared(run, SPINDLE)
    _, out, _ = run("share", SPINDLE, "--jobs", "theirs", "-o", "y.zip", *words)
    manifest, files = unzipped(Path("y.zip").read_bytes())
    assert gone not in files
    assert said in out
    assert any(said.removeprefix("Left out: ") in one for one in manifest.left_out)
    assert all(f"Left out: {one}" in out for one in manifest.left_out)


def test_times_stay_where_they_are_not_to_go(run: Run, theirs: Path) -> None:
    assert b"time: 34 min" in shared(run, SPINDLE)["job/log.yml"]
    assert b"time:" not in shared(run, SPINDLE, "--without", "times")["job/log.yml"]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--without", "prices"], "prices: cannot be left out: write "),
        (["--without", "customer", "--with", "customer"], "take one out"),
        (["-o", "theirs/x.zip"], "lies in the jobs folder"),
        (["-o", "nowhere/x.zip"], "there is no folder"),
        (["-o", "theirs"], "is a folder"),
        (["-o", "mine.txt"], "was not written by this command, so it stays as it is"),
    ],
)
def test_a_wrong_word_writes_nothing(words: list[str], said: str, run: Run, theirs: Path) -> None:
    Path("mine.txt").write_text("mine", encoding="utf-8")
    status, out, err = run("share", SPINDLE, "--jobs", "theirs", *words)
    assert (status, out) == (2, "")
    assert said in err
    assert Path("mine.txt").read_text(encoding="utf-8") == "mine"
    assert not list(Path().glob("*.zip"))


def test_a_job_with_errors_is_not_handed_over(run: Run, theirs: Path) -> None:
    (theirs / "2026" / SPINDLE / "job.yml").write_text("job: [\n", encoding="utf-8")
    status, _, err = run("share", SPINDLE, "--jobs", "theirs")
    assert status == 1
    assert "nothing was written" in err
    assert "job.yml:2:1" in err
    assert not list(Path().glob("*.zip"))


def test_a_picture_with_a_name_of_its_own_goes_under_a_plain_one(run: Run, theirs: Path) -> None:
    folder = theirs / "2026" / SPINDLE
    (folder / "worn-thread.png").rename(folder / "con.png")
    text = (folder / "job.yml").read_text(encoding="utf-8")
    text = text.replace("file: worn-thread.png", "file: 'con.png'")
    (folder / "job.yml").write_text(text, encoding="utf-8")
    files = shared(run, SPINDLE)
    assert "job/picture 1.png" in files
    assert b"picture 1.png" in files["job/job.yml"]
