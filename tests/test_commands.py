"""The contract of every command: what it prints, its exit status, and never a traceback."""

from __future__ import annotations

import argparse
import json
import re
import shlex
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import jsonschema
import pytest

from generator.__main__ import main
from generator.command_line import command_parser
from generator.language.spoken import speak
from generator.sheet.explained_at import any_name
from tests.small_shop import ROOT, small_shop

COMMANDS = tuple(
    next(
        action.choices for action in command_parser()._actions
        if isinstance(action, argparse._SubParsersAction)
    )
)
PLACE = re.compile(r"^[^:\n]+:\d+:\d+: ")


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty folder with a copy of the demo archive; the current folder."""
    shutil.copytree(ROOT / "jobs", tmp_path / "jobs")
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture
def few(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The same with two jobs, to build: most of a build's time are its jobs."""
    monkeypatch.chdir(small_shop(tmp_path, ("SW-101-ramp-hinge-pin", "SW-116-coupling-hook")))
    return tmp_path


def job(here: Path, number: str) -> Path:
    (found,) = (here / "jobs").glob(f"*/{number}-*/job.yml")
    return found.relative_to(here)


def spoil(path: Path) -> None:
    path.write_text(path.read_text(encoding="utf-8").replace("title:", "tilte:"), encoding="utf-8")


def run(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str, str]:
    """Exit status, standard output and standard error of one command."""
    try:
        status = main(words)
    except SystemExit as error:
        status = error.code if isinstance(error.code, int) else 1
    said = capsys.readouterr()
    assert "Traceback" not in said.out + said.err
    return status, said.out, said.err


@pytest.mark.parametrize("command", COMMANDS)
def test_help_has_an_example(capsys: pytest.CaptureFixture[str], command: str) -> None:
    """An example that the command itself takes."""
    status, out, _ = run(capsys, command, "--help")
    assert status == 0
    (example,) = re.findall(r"example: python -m generator (.+)", " ".join(out.split()))
    assert example.startswith(command)
    command_parser().parse_args(shlex.split(example))


def test_help_and_errors_are_said_in_the_language_of_the_shop(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Nothing but commands, options and places of values stands outside of the marks of the test language."""
    shop = tmp_path / "jobs" / "_shop"
    shop.mkdir(parents=True)
    (shop / "house.yml").write_text("shop: Saltmarsh Works\nlanguage: en-XA\n", encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    try:
        for words in ("check --help", "start --help", "log --help", "chek", "sheet", "sheet 1 --paper A5"):
            with pytest.raises(SystemExit):
                main(words.split())
            captured = capsys.readouterr()
            printed = captured.out + captured.err
            assert "⟦usage: ⟧" in printed
            for _ in range(3):  # marks within marks
                printed = re.sub(r"⟦[^⟦⟧]*⟧", "", printed)
            assert not re.search(r"(?<![\w-])[a-z]{2,} [a-z]{2,} [a-z]{2,}", printed), printed
    finally:
        speak("en")


def test_help_lists_every_command(capsys: pytest.CaptureFixture[str]) -> None:
    status, out, _ = run(capsys, "--help")
    assert status == 0
    for command in COMMANDS:
        assert command in out


@pytest.mark.parametrize("words", [(), ("bild",), ("check", "--fast"), ("figures",), ("thread",)])
def test_wrong_usage_is_status_two(capsys: pytest.CaptureFixture[str], words: tuple[str, ...]) -> None:
    status, _, err = run(capsys, *words)
    assert status == 2
    assert "usage:" in err


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("bild",), 'COMMAND: "bild" is not known here: did you mean build? Write start, new, build, '),
        (("check", "--fast"), "--fast is not taken here: see --help for an example"),
        (("figures",), "JOB is missing: see --help for an example"),
        (("figures", "SW-101", "--jobs"), "--jobs stands without its value: write it behind"),
        (("figures", "SW-101", "--json=2"), "--json takes no value: leave '2' out"),
        (("paper", "SW-101", "--paper", "A5"), '--paper: "A5" is not known here: write A4 or Letter'),
    ],
)
def test_wrong_usage_says_what_to_write(
    capsys: pytest.CaptureFixture[str], words: tuple[str, ...], said: str
) -> None:
    _, _, err = run(capsys, *words)
    assert said in err
    assert "error" not in err


# build


def test_build_makes_the_site_and_says_where_to_open_it(
    few: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    status, out, _ = run(capsys, "build")
    index = few / "site" / "index.html"
    assert status == 0
    assert index.is_file()
    assert str(index) in out
    assert index.as_uri() in out


def test_build_takes_jobs_and_site_from_elsewhere(
    few: Path,
    tmp_path_factory: pytest.TempPathFactory,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path_factory.mktemp("elsewhere"))
    status, _, _ = run(capsys, "build", "--jobs", str(few / "jobs"), "--site", "out/site")
    assert status == 0
    assert Path("out/site/index.html").is_file()
    assert {path.name for path in Path().iterdir()} == {"out"}


def test_build_uses_the_folders_own_mkdocs_yml(few: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (few / "docs").mkdir()
    (few / "docs" / "index.md").write_text("# Our own page\n", encoding="utf-8")
    theme = (ROOT / "site_templates" / "theme").as_posix()
    (few / "mkdocs.yml").write_text(
        f"site_name: Ours\nsite_dir: public\ntheme: {{name: material, custom_dir: {theme}, font: false}}\n"
        "plugins: [setup_sheets]\n",
        encoding="utf-8",
    )
    status, _, _ = run(capsys, "build")
    assert status == 0
    assert "Our own page" in (few / "public" / "index.html").read_text(encoding="utf-8")
    assert list((few / "public" / "sheets").glob("*/*.html"))


def test_build_says_when_mkdocs_yml_is_not_for_sheets(few: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (few / "docs").mkdir()
    (few / "mkdocs.yml").write_text("site_name: Other\n", encoding="utf-8")
    status, _, err = run(capsys, "build")
    assert status == 2
    assert "does not list the plugin setup_sheets" in err
    assert not (few / "site").exists()


def test_build_with_a_bad_job_still_builds_and_is_status_one(
    few: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    spoil(job(few, "SW-101"))
    status, out, err = run(capsys, "build")
    assert status == 1
    assert "1 without a sheet because of errors" in out
    assert re.search(r"^jobs/2026/SW-101-ramp-hinge-pin/job\.yml:\d+:\d+: tilte: ", err, re.MULTILINE)
    assert len(list((few / "site").glob("sheets/*/*.html"))) == len(
        list((few / "jobs").glob("*/*/job.yml"))
    )


def test_build_strict_with_a_bad_job_keeps_the_earlier_site(
    few: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(capsys, "build")[0] == 0
    before = (few / "site" / "find" / "columns.js").read_bytes()
    spoil(job(few, "SW-101"))
    status, _, err = run(capsys, "build", "--strict")
    assert status == 1
    assert "tilte" in err
    assert (few / "site" / "find" / "columns.js").read_bytes() == before


@pytest.mark.parametrize("site", ["jobs", "jobs/site", ".", "mine"])
def test_build_refuses_a_site_folder_that_holds_somebodys_files(
    few: Path, capsys: pytest.CaptureFixture[str], site: str
) -> None:
    (few / "mine").mkdir()
    (few / "mine" / "letter.txt").write_text("dear", encoding="utf-8")
    before = sorted(few.rglob("*"))
    status, _, err = run(capsys, "build", "--site", site)
    assert status == 2
    assert "site" in err
    assert sorted(few.rglob("*")) == before


def test_build_without_a_jobs_folder_is_status_two(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    for words in (("build",), ("build", "--jobs", "nowhere"), ("check",)):
        status, _, err = run(capsys, *words)
        assert status == 2
        assert "no such jobs folder" in err


# check


def test_check_of_the_demo_archive_is_clean_and_shows_findings(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    status, out, err = run(capsys, "check")
    assert status == 0
    lines = out.splitlines()
    assert lines
    assert all(PLACE.match(line) for line in lines)
    assert any(": stop: " in line and "SW-109" in line for line in lines)
    assert f"{len(list((here / 'jobs').glob('*/*/job.yml')))} checked, 0 with errors" in err


def test_check_prints_errors_with_place_and_field_before_findings(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    spoil(job(here, "SW-116"))
    status, out, _ = run(capsys, "check")
    lines = [line for line in out.splitlines() if PLACE.match(line)]
    kinds = [bool(re.match(r"^[^:]+:\d+:\d+: (stop|check|note): ", line)) for line in lines]
    assert status == 1
    assert not kinds[0]
    assert kinds == sorted(kinds)
    assert re.search(r"^jobs/2026/SW-116-coupling-hook/job\.yml:\d+:\d+: tilte: ", out, re.MULTILINE)


@pytest.mark.parametrize("form", ["file", "folder", "number", "name"])
def test_a_job_is_named_by_file_folder_number_or_name(
    here: Path, capsys: pytest.CaptureFixture[str], form: str
) -> None:
    path = job(here, "SW-113")
    words = {"file": str(path), "folder": str(path.parent), "number": "SW-113", "name": path.parent.name}
    status, _, err = run(capsys, "check", words[form])
    assert status == 0
    assert "1 checked" in err


def test_check_of_a_job_that_is_not_there_is_status_two(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    status, _, err = run(capsys, "check", "SW-999")
    assert status == 2
    assert "SW-999" in err


def test_a_number_that_several_jobs_have_is_status_two(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    shutil.copytree(job(here, "SW-113").parent, here / "jobs" / "2025" / "SW-113-earlier")
    status, _, err = run(capsys, "check", "SW-113")
    assert status == 2
    assert "several jobs" in err


def test_check_json_is_one_object(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    spoil(job(here, "SW-116"))
    status, out, _ = run(capsys, "check", "SW-116", "SW-109", "--json")
    bad, not_ready = json.loads(out)["jobs"]
    assert status == 1
    assert bad["errors"][0].keys() == {"path", "line", "column", "field", "message"}
    assert bad["findings"] == []
    assert not_ready["job"] == "SW-109"
    assert not_ready["errors"] == []
    assert not_ready["ready"] is False
    assert "stop" in {finding["level"] for finding in not_ready["findings"]}


def test_findings_do_not_change_the_status(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, out, _ = run(capsys, "check", "SW-109")
    assert status == 0
    assert ": stop: " in out


NO_JOBS = {
    "empty": b"",
    "not text": b"\xff\xfe\x00",
    "deep": b"[" * 5000,
    "alias": b"job: &a [*a]",
    "list": b"- 1\n- 2\n",
    "nul": b"\x00",
    "twice": b"job: 1\njob: 2\n",
    "words": b"just words",
}


def test_a_file_that_is_no_job_is_named_with_its_place(
    few: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    names = [f"SW-{number}-bad" for number in range(300, 300 + len(NO_JOBS))]
    for name, content in zip(names, NO_JOBS.values(), strict=True):
        path = few / "jobs" / "2026" / name / "job.yml"
        path.parent.mkdir()
        path.write_bytes(content)
        for command in (("check",), ("figures", "--json")):
            status, out, err = run(capsys, command[0], name[:6], *command[1:])
            assert status == 1
            assert re.search(rf"{name}/job\.yml:\d+:\d+: ", out + err)
    status, _, err = run(capsys, "build")
    assert status == 1
    for name in names:
        assert re.search(rf"{name}/job\.yml:\d+:\d+: ", err)


# figures


def test_figures_json_keeps_its_contract(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, out, _ = run(capsys, "figures", str(job(here, "SW-101")), "--json")
    record = json.loads(out)
    assert status == 0
    assert record["job"] == "SW-101"
    for name, figure in record["figures"].items():
        assert re.fullmatch(r"[a-z0-9_]+(\.[a-z0-9_]+)+", name)
        assert figure.keys() >= {"value", "unit", "working", "source", "assumed"}
        assert isinstance(figure["assumed"], bool)
        assert figure["source"]
    for finding in record["findings"]:
        assert finding.keys() >= {"id", "level", "text", "where"}
        assert re.fullmatch(r"[\w./-]+\.yml:\d+", finding["where"])
    assert record["passes"]


def test_figures_of_a_sheet_that_is_not_ready_have_no_passes(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    status, out, _ = run(capsys, "figures", "SW-109", "--json")
    record = json.loads(out)
    assert status == 0
    assert record["passes"] == []
    assert "stop" in {finding["level"] for finding in record["findings"]}


def test_every_figure_name_is_documented_on_a_page_of_the_site(
    demo: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(demo)
    page = (demo / "site" / "figures.html").read_text(encoding="utf-8")
    for path in (demo / "jobs").glob("*/*/job.yml"):
        _, out, _ = run(capsys, "figures", str(path), "--json")
        for name in json.loads(out)["figures"]:
            assert f"<code>{any_name(name)}</code>" in page


# thread


def test_thread_prints_one_object_a_line_in_the_order_given(capsys: pytest.CaptureFixture[str]) -> None:
    asked = ["M16x2-6g", "2-8 UN-2A", "1-8 UNC-2A-LH"]
    status, out, _ = run(capsys, "thread", *asked, "--json")
    records = [json.loads(line) for line in out.splitlines()]
    assert status == 0
    assert [record["designation"] for record in records] == asked
    assert [record["unit"] for record in records] == ["mm", "in", "in"] or [
        record["unit"] for record in records
    ] == ["mm", "inch", "inch"]
    assert [record["hand"] for record in records] == ["right", "right", "left"]
    for record in records:
        assert record.keys() >= {
            "designation",
            "family",
            "class",
            "hand",
            "starts",
            "unit",
            "pitch",
            "lead",
            "major",
            "pitch_diameter",
            "minor",
            "lead_angle_deg",
            "wires",
        }
        assert record["wires"].keys() >= {"best", "size", "over_wires"}
        for limits in (
            record["major"],
            record["pitch_diameter"],
            record["minor"],
            record["wires"]["over_wires"],
        ):
            assert limits.keys() == {"max", "min"}


def test_thread_limits_are_those_of_the_printed_table(capsys: pytest.CaptureFixture[str]) -> None:
    """1-8 UNC-2A: ASME B1.1-2003, table 2: major 0.9980 to 0.9830, pitch diameter 0.9168 to 0.9100."""
    _, out, _ = run(capsys, "thread", "1-8 UNC-2A", "--json")
    record = json.loads(out)
    assert record["major"] == {"max": 0.9980, "min": 0.9830}
    assert record["pitch_diameter"] == {"max": 0.9168, "min": 0.9100}


def test_a_thread_that_cannot_be_read_is_named_and_hides_no_other(capsys: pytest.CaptureFixture[str]) -> None:
    status, out, err = run(capsys, "thread", "2-8 UN-2A", "fourteen furlongs", "M16x2-6g", "--json")
    assert status == 1
    assert [json.loads(line)["designation"] for line in out.splitlines()] == ["2-8 UN-2A", "M16x2-6g"]
    assert "fourteen furlongs" in err


def test_an_internal_thread_for_people_has_a_least_major_diameter(capsys: pytest.CaptureFixture[str]) -> None:
    status, out, _ = run(capsys, "thread", "1-8 UNC-2B")
    assert status == 0
    assert "major at least 1.0000 in" in out
    assert "minor 0.8900 to 0.8650 in" in out


def test_thread_without_json_is_a_line_for_people(capsys: pytest.CaptureFixture[str]) -> None:
    status, out, _ = run(capsys, "thread", "1-8 UNC-2A-LH")
    assert status == 0
    assert "left hand" in out
    assert "0.9168" in out
    assert "over wires of 0.0722 in 1.02" in out


def test_a_line_for_people_says_where_a_taper_thread_is_that_size_and_what_is_from_memory(
    capsys: pytest.CaptureFixture[str],
) -> None:
    _, out, _ = run(capsys, "thread", "2 NPT", "3/4 BSW")
    npt, whitworth = out.splitlines()
    assert npt.endswith("at the small end, where the thread starts")
    assert "from memory, check your copy: the formula" in whitworth


# schema


def test_the_schemas_are_written_and_accept_the_demo_archive(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    status, out, _ = run(capsys, "schema", "--out", "schemas")
    written = [Path(line) for line in out.splitlines()]
    assert status == 0
    assert Path("schemas/job.schema.json") in written
    for path in written:
        found = json.loads(path.read_text(encoding="utf-8"))
        jsonschema.validators.validator_for(found).check_schema(found)


def test_schema_prints_the_schema_of_a_job(capsys: pytest.CaptureFixture[str]) -> None:
    status, out, _ = run(capsys, "schema")
    assert status == 0
    assert "operations" in json.loads(out)["properties"]


# the program as a whole


def test_a_reader_that_goes_away_makes_no_traceback(few: Path) -> None:
    command = f'"{sys.executable}" -m generator check | head -n 0'
    ended = subprocess.run(command, shell=True, capture_output=True, text=True, check=False)
    assert "Traceback" not in ended.stderr


def test_a_thread_costs_no_import_of_the_site(here: Path) -> None:
    code = (
        "import sys; from generator.__main__ import main; main(['thread', '2-8 UN-2A']);"
        "print([name for name in ('mkdocs', 'jinja2', 'yaml', 'pydantic') if name in sys.modules])"
    )
    ended = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ended.stdout.splitlines()[-1] == "[]"


def test_the_wheel_carries_the_templates() -> None:
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    assert set(settings["tool"]["hatch"]["build"]["targets"]["wheel"]["packages"]) == {
        "generator",
        "site_templates",
    }
