"""The command `export`: what a spreadsheet opens is what the sheets say, and no job's words run in it."""

from __future__ import annotations

import csv
import json
import os
import re
from pathlib import Path

import pytest

from tests.small_shop import Run, runner, small_shop

JOBS = ("SW-109-brake-pull-rod", "SW-113-bollard-spindle", "SW-118-pump-lug")


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """A folder with a small archive."""
    return small_shop(tmp_path, JOBS)


@pytest.fixture
def run(shop: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    return runner(shop, monkeypatch, capsys)


def rows_of(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8-sig", newline="") as file:
        return list(csv.DictReader(file, strict=True))


def change(shop: Path, name: str, pattern: str, new: str) -> None:
    file = shop / "jobs" / "2026" / name / "job.yml"
    file.write_text(re.sub(pattern, lambda _: new, file.read_text(encoding="utf-8")), encoding="utf-8")


def test_the_rows_are_the_figures_of_each_job_in_the_order_asked_for(run: Run, shop: Path) -> None:
    status, out, err = run("export", "SW-118", "SW-113", "SW-118", "-o", "f.csv")
    assert (status, err) == (0, "")
    rows, passes = rows_of(shop / "f.csv"), rows_of(shop / "f-passes.csv")
    for number in ("SW-118", "SW-113"):
        record = json.loads(run("figures", number, "--json")[1])
        mine = [row for row in rows if row["job"] == number]
        assert [row["name"] for row in mine] == list(record["figures"])
        for row, figure in zip(mine, record["figures"].values(), strict=True):
            number_ = isinstance(figure["value"], int | float)
            assert (float(row["value"]) if number_ else row["value"] or None) == figure["value"]
            assert (row["unit"], row["text"]) == (figure["unit"], figure["text"])
            assert row["assumed"] == ("yes" if figure["assumed"] else "no")
        assert [float(row["dial"]) for row in passes if row["job"] == number] == [
            one["dial"] for one in record["passes"]
        ]
    assert list(dict.fromkeys(row["job"] for row in rows)) == ["SW-118", "SW-113"]
    assert f"Written {len(rows)} figures of 2 jobs: {shop / 'f.csv'}" in out
    assert f"Written {len(passes)} passes of 2 jobs: {shop / 'f-passes.csv'}" in out


def test_spreadsheets_see_the_signs(run: Run, shop: Path) -> None:
    run("export", "SW-113", "-o", "f.csv")
    data = (shop / "f.csv").read_bytes()
    assert data.startswith(b"\xef\xbb\xbf")
    assert data.count(b"\n") == data.count(b"\r\n")
    assert "lbf·ft" in data.decode("utf-8-sig")


@pytest.mark.parametrize(("what", "column"), [("figures", "name"), ("passes", "dial_turns")])
def test_one_of_both_is_written_to_the_file_itself(run: Run, shop: Path, what: str, column: str) -> None:
    assert run("export", "--all", "--what", what, "-o", "one.csv")[0] == 0
    assert column in rows_of(shop / "one.csv")[0]
    assert not (shop / "one-passes.csv").exists()


def test_json_is_a_list_of_the_records_of_the_command_figures(run: Run, shop: Path) -> None:
    assert run("export", "SW-113", "SW-118", "-o", "f.JSON")[0] == 0
    records = json.loads((shop / "f.JSON").read_text(encoding="utf-8"))
    assert records == [json.loads(run("figures", job, "--json")[1]) for job in ("SW-113", "SW-118")]


@pytest.mark.parametrize(
    "title",
    ['=HYPERLINK("a.example")', " +1+1", "@SUM(A1)", "'-1", "＝1+1", "\t=1+1", "a;=cmd|' /C calc'!A0"],
)
def test_no_words_of_a_job_become_a_formula(run: Run, shop: Path, title: str) -> None:
    change(shop, "SW-113-bollard-spindle", "(?m)^title: .*", f"title: {json.dumps(title)}")
    change(shop, "SW-113-bollard-spindle", "known_by: stamp", f"known_by: {json.dumps(title)}")
    assert run("export", "SW-113", "-o", "f.csv")[0] == 0
    rows = [*rows_of(shop / "f.csv"), *rows_of(shop / "f-passes.csv")]
    assert rows[0]["title"].replace("'", "").strip() == title.replace("'", "").strip()
    for row in rows:
        for name, cell in row.items():
            if not re.fullmatch(r"-?\d+(\.\d+)?(e-?\d+)?", cell):
                assert not re.match(r"[\s\"]*[=+\-@＝]", cell), name
                assert not re.search(r";\s*[=+\-@]", cell), name


def test_a_job_with_errors_is_said_and_the_others_are_written(run: Run, shop: Path) -> None:
    change(shop, "SW-113-bollard-spindle", "(?m)^lathe: .*", "lathe: nowhere")
    status, out, err = run("export", "--all", "-o", "f.csv")
    assert status == 1
    assert re.search(r"job\.yml:\d+:\d+: lathe: ", err)
    assert "Left out because of errors: SW-113-bollard-spindle" in err
    assert "of 2 jobs" in out
    assert {row["job"] for row in rows_of(shop / "f.csv")} == {"SW-109", "SW-118"}


def test_where_every_job_has_errors_nothing_is_written(run: Run, shop: Path) -> None:
    change(shop, "SW-113-bollard-spindle", "(?m)^lathe: .*", "lathe: nowhere")
    status, out, err = run("export", "SW-113", "-o", "f.csv")
    assert (status, out) == (1, "")
    assert err.endswith("Nothing was written: there is no job to write.\n")
    assert not (shop / "f.csv").exists()


@pytest.mark.parametrize("name", ["f.csv", "f-passes.csv"])
def test_what_is_there_stays_unless_it_is_to_be_replaced(run: Run, shop: Path, name: str) -> None:
    (shop / name).write_text("mine", encoding="utf-8")
    status, out, err = run("export", "SW-118", "-o", "f.csv")
    assert (status, out) == (2, "")
    assert f"{name}: is there already, so it stays as it is; give another -o, or --force" in err
    assert (shop / name).read_text(encoding="utf-8") == "mine"
    assert run("export", "SW-118", "-o", "f.csv", "--force")[0] == 0
    assert (shop / name).read_bytes().startswith(b"\xef\xbb\xbf")


def test_a_write_that_fails_leaves_what_was_there(
    run: Run, shop: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (shop / "f.csv").write_text("mine", encoding="utf-8")

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device", "f.csv")

    monkeypatch.setattr(os, "fsync", full)
    status, _, err = run("export", "SW-118", "-o", "f.csv", "--force")
    assert (status, err) == (1, "f.csv: No space left on device\n")
    assert (shop / "f.csv").read_text(encoding="utf-8") == "mine"
    assert [path.name for path in shop.iterdir() if path.name.startswith(".")] == []


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("SW-118", "-o", "f.txt"), "f.txt: end the name in .csv"),
        (("SW-118", "-o", "f"), "f: end the name in .csv"),
        (("-o", "f.csv"), "name the jobs to be written, or give --all"),
        (("SW-118", "--all", "-o", "f.csv"), "name the jobs to be written, or give --all"),
        (("SW-118", "-o", "f.csv", "--what", "cuts"), "--what 'cuts': write figures, passes"),
        (("SW-118", "-o", "f.json", "--what", "passes"), "--what: a JSON file holds"),
        (("SW-999", "-o", "f.csv"), "SW-999: there is no such job"),
        (("SW-118", "-o", "jobs/f.csv"), "lies in the jobs folder"),
        (("SW-118", "-o", "nowhere/f.csv"), "there is no folder"),
        (("--all", "--jobs", "nowhere", "-o", "f.csv"), "there is no such jobs folder"),
    ],
)
def test_wrong_usage_says_what_would_do(run: Run, shop: Path, words: tuple[str, ...], said: str) -> None:
    before = sorted(shop.rglob("*"))
    status, out, err = run("export", *words)
    assert (status, out) == (2, "")
    assert said in err
    assert sorted(shop.rglob("*")) == before


def test_the_help_has_an_example(run: Run) -> None:
    assert "example: python -m generator export SW-113 SW-116 -o figures.csv" in run("export", "--help")[1]
