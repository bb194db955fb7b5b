"""The command `compare`: what it prints, its exit status, and never a traceback."""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from generator.__main__ import main

ROOT = Path(__file__).resolve().parent.parent
SIDE = {
    "type": ["object", "null"],
    "required": ["text", "known", "figures"],
    "additionalProperties": False,
    "properties": {
        "text": {"type": "string", "minLength": 1},
        "known": {"type": "boolean"},
        "figures": {
            "type": "object",
            "propertyNames": {"pattern": "^[a-z0-9_]+(\\.[a-z0-9_]+)*$"},
            "additionalProperties": {
                "type": "object",
                "required": ["value", "unit"],
                "properties": {"value": {"type": ["number", "string", "null"]}, "unit": {"type": "string"}},
            },
        },
    },
}
SCHEMA = {
    "type": "object",
    "required": ["job", "title", "lathe", "best", "ranking", "other_lathes"],
    "additionalProperties": False,
    "properties": {
        "job": {"type": "string"},
        "title": {"type": "string"},
        "lathe": {"type": "object", "required": ["lathe", "name"]},
        "best": {"type": "string"},
        "ranking": {
            "type": "array",
            "minItems": 1,
            "items": {
                "type": "object",
                "required": ["lathe", "name", "place", "reason", "stops", "open"],
                "properties": {"place": {"type": "integer", "minimum": 1}},
            },
        },
        "other_lathes": {
            "type": "array",
            "items": {
                "type": "object",
                "required": ["lathe", "name", "can_be_done", "rows", "let_go"],
                "properties": {
                    "can_be_done": {"type": "boolean"},
                    "rows": {
                        "type": "array",
                        "minItems": 1,
                        "items": {
                            "type": "object",
                            "required": ["id", "group", "label", "verdict", "here", "there", "reason"],
                            "additionalProperties": False,
                            "properties": {
                                "id": {"type": "string", "minLength": 1},
                                "group": {"type": "string", "minLength": 1},
                                "label": {"type": "string", "minLength": 1},
                                "verdict": {"enum": ["stays", "changes", "cannot be done", "not known"]},
                                "here": SIDE,
                                "there": SIDE,
                                "reason": {"type": "string"},
                            },
                        },
                    },
                    "let_go": {
                        "type": "array",
                        "items": {"type": "object", "required": ["field", "written", "line", "text"]},
                    },
                },
            },
        },
    },
}


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty folder with a copy of the demo archive; the current folder."""
    shutil.copytree(ROOT / "jobs", tmp_path / "jobs")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def run(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str, str]:
    """Exit status, standard output and standard error of one command."""
    try:
        status = main(("compare", *words))
    except SystemExit as error:
        status = error.code if isinstance(error.code, int) else 1
    said = capsys.readouterr()
    assert "Traceback" not in said.out + said.err
    return status, said.out, said.err


def record(capsys: pytest.CaptureFixture[str], *words: str) -> dict[str, Any]:
    status, out, _ = run(capsys, *words, "--json")
    assert status == 0
    found: dict[str, Any] = json.loads(out)
    return found


def test_help_has_an_example(capsys: pytest.CaptureFixture[str]) -> None:
    status, out, _ = run(capsys, "--help")
    assert status == 0
    assert "example: python -m generator compare SW-113 --lathe thirteen-inch" in out


@pytest.mark.parametrize("number", ["SW-101", "SW-109", "SW-110", "SW-113", "SW-115", "SW-116"])
def test_the_json_record_keeps_its_contract(
    here: Path, capsys: pytest.CaptureFixture[str], number: str
) -> None:
    found = record(capsys, number)
    jsonschema.validate(found, SCHEMA)
    lathes = {path.stem for path in (here / "jobs" / "_shop" / "lathes").glob("*.yml")}
    assert {one["lathe"] for one in found["other_lathes"]} == lathes - {found["lathe"]["lathe"]}
    assert {one["lathe"] for one in found["ranking"]} == lathes
    assert found["best"] == found["ranking"][0]["lathe"]
    for other in found["other_lathes"]:
        ids = [row["id"] for row in other["rows"]]
        assert len(ids) == len(set(ids))


def test_one_lathe_is_asked_for_and_all_are_ranked(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    found = record(capsys, "SW-113", "--lathe", "metric")
    assert [one["lathe"] for one in found["other_lathes"]] == ["metric"]
    assert len(found["ranking"]) == 3


@pytest.mark.parametrize(
    "words",
    [("--lathe", "thirteen-inch", "metric"), ("--lathe", "thirteen-inch", "--lathe", "metric", "metric")],
)
def test_several_lathes_come_in_the_order_given(
    here: Path, capsys: pytest.CaptureFixture[str], words: tuple[str, ...]
) -> None:
    found = record(capsys, "SW-113", *words)
    assert [one["lathe"] for one in found["other_lathes"]] == ["thirteen-inch", "metric"]


def test_the_text_names_the_best_lathe_and_says_why(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, out, err = run(capsys, "SW-110")
    assert (status, err) == (0, "")
    assert "Best lathe of the shop for this job: L1 Long lathe, the one it is planned for." in out
    assert "L2 Thirteen-inch lathe: it cannot be done there as it is planned" in out
    assert "40 in between centers" in " ".join(out.split())
    assert "safe" not in out.lower()
    assert max(map(len, out.splitlines())) <= 110


def test_the_values_are_those_of_the_figures_command(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The job file is changed to name the other lathe, and `figures` asked."""
    found = record(capsys, "SW-101", "--lathe", "metric")
    path = next((here / "jobs").glob("*/SW-101-*/job.yml"))
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("lathe: long-bed", "lathe: metric"), encoding="utf-8")
    assert main(["figures", "SW-101", "--json"]) == 0
    figures = json.loads(capsys.readouterr().out)["figures"]
    compared = 0
    for row in found["other_lathes"][0]["rows"]:
        for name, figure in ((row["there"] or {}).get("figures") or {}).items():
            if name in figures:
                assert figure == {key: figures[name][key] for key in ("value", "unit")}, name
                compared += 1
    assert compared > 8


def test_an_unknown_lathe_is_status_two_and_the_nearest_is_named(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    status, out, err = run(capsys, "SW-113", "--lathe", "thirteen-inhc")
    assert (status, out) == (2, "")
    assert err.strip() == "thirteen-inhc: is not a lathe of this shop: did you mean thirteen-inch?"
    status, _, err = run(capsys, "SW-113", "--lathe", "xyz")
    assert status == 2
    assert "the shop has long-bed, metric, thirteen-inch" in err


def test_its_own_lathe_is_no_other_one(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, _, err = run(capsys, "SW-113", "--lathe", "long-bed")
    assert status == 2
    assert "is the lathe that the job is planned for" in err


@pytest.mark.parametrize("words", [(), ("SW-113", "--lathe"), ("SW-999",), ("SW-113", "--quick")])
def test_wrong_usage_is_status_two(
    here: Path, capsys: pytest.CaptureFixture[str], words: tuple[str, ...]
) -> None:
    status, out, err = run(capsys, *words)
    assert (status, out) == (2, "")
    assert err


def test_errors_in_the_job_file_are_named_with_their_place(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = next((here / "jobs").glob("*/SW-101-*/job.yml"))
    path.write_text(path.read_text(encoding="utf-8").replace("title:", "tilte:"), encoding="utf-8")
    status, out, err = run(capsys, "SW-101")
    assert (status, out) == (1, "")
    assert "job.yml:3:1: tilte: " in err


def test_a_job_on_a_lathe_that_the_shop_does_not_have_is_an_error(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = next((here / "jobs").glob("*/SW-101-*/job.yml"))
    path.write_text(path.read_text(encoding="utf-8").replace("long-bed", "lnog-bed"), encoding="utf-8")
    status, _, err = run(capsys, "SW-101")
    assert status == 1
    assert "did you mean long-bed?" in err


def test_a_broken_file_of_another_lathe_is_an_error_with_its_place(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = here / "jobs" / "_shop" / "lathes" / "metric.yml"
    path.write_text(path.read_text(encoding="utf-8").replace("swing:", "swnig:"), encoding="utf-8")
    status, _, err = run(capsys, "SW-101")
    assert status == 1
    assert "metric.yml:" in err


def test_it_works_from_any_folder(
    here: Path,
    tmp_path_factory: pytest.TempPathFactory,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path_factory.mktemp("elsewhere"))
    assert record(capsys, "SW-113", "--jobs", str(here / "jobs"))["job"] == "SW-113"


def test_a_shop_with_one_lathe_has_nothing_to_compare(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    for name in ("metric", "thirteen-inch"):
        (here / "jobs" / "_shop" / "lathes" / f"{name}.yml").unlink()
    status, out, _ = run(capsys, "SW-113")
    assert status == 0
    assert "The only lathe of the shop." in out
    assert record(capsys, "SW-113")["other_lathes"] == []


def test_the_job_folder_is_left_as_it_was(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = {path: path.read_bytes() for path in here.rglob("*") if path.is_file()}
    run(capsys, "SW-113")
    assert {path: path.read_bytes() for path in here.rglob("*") if path.is_file()} == before
