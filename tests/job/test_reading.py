"""Files become models with every place kept; whatever is thrown at the reader, only JobProblems comes out."""

from __future__ import annotations

import random
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest
import yaml

from generator.errors import JobProblems, Location
from generator.job import source
from generator.job.reading import ReadJob, find_jobs, read_job, read_shop

Reader = Callable[..., ReadJob]
ROOT = Path(__file__).parents[2]
DEMO = find_jobs(ROOT / "jobs")


def test_a_small_job_reads(read: Reader) -> None:
    job = read().job
    assert [section.length.si for section in job.work] == [pytest.approx(0.3556), pytest.approx(0.127)]
    assert job.work[0].od.exact == Fraction(9, 4)
    assert (job.work[0].od.text, job.work[0].od.unit, job.work[0].od.with_unit) == ("2 1/4", "in", "2 1/4 in")
    assert (job.revision, job.status, job.holding.chuck.jaws) == ("A", "planned", 3)
    assert job.operations[1].thread is not None


@pytest.mark.parametrize("path", DEMO, ids=lambda path: path.parent.name)
def test_the_demo_jobs_read(path: Path) -> None:
    assert path.parent.name.startswith(read_job(path).job.job)


def test_the_demo_shop_reads() -> None:
    shop = read_shop(ROOT / "jobs" / "_shop")
    assert set(shop.lathes) == {"long-bed", "metric", "thirteen-inch"}
    assert shop.lathes["metric"].leadscrew is not None
    assert shop.materials["1045 steel"].group == "medium-carbon steel"


def test_every_entry_knows_its_place(read: Reader) -> None:
    """The line and column of each value, and of the key where the value is a block or a list."""
    job = read()
    for field, line, column in [
        ("title", 2, 8),
        ("work", 6, 1),
        ("work.1", 8, 5),
        ("work.1.bore", 8, 30),
        ("holding.chuck.grip", 10, 26),
        ("operations.1.thread.designation", 14, 27),
        ("operations.1.thread", 14, 5),
    ]:
        assert job.where(field) == Location(job.path, line, column), field
    assert job.job.work[1].bore is not None
    assert job.job.work[1].bore.where == job.where("work.1.bore")


def test_an_entry_that_is_not_written_is_placed_at_its_block(read: Reader) -> None:
    job = read()
    assert job.where("operations.1.thread.hand") == job.where("operations.1.thread")
    assert job.where("people.machinist") == Location(job.path, 1, 1)


def test_measured_and_assumed_values_say_so(read: Reader) -> None:
    job = read(
        {
            "od: 2 1/4": "od: {value: 2.2405, by: KL, with: micrometer 2-3 in}",
            "grip: 2}": "grip: {value: 2, assumed: yes}}",
        }
    ).job
    od, grip = job.work[0].od, job.holding.chuck.grip
    assert (od.kind, od.origin, od.text) == ("measured", "measured by KL with micrometer 2-3 in", "2.2405")
    assert (od.by, od.with_) == ("KL", "micrometer 2-3 in")
    assert (grip.kind, job.work[1].od.kind) == ("assumed", "given")


def test_unknown_stays_unknown(read: Reader) -> None:
    job = read(
        {
            "material: 1045 steel": "material: unknown",
            "mate: {part: clamp ring, thread: 2-8 UN-2B}": "mate: unknown\nduty: unknown",
        }
    ).job
    assert (job.material, job.mate, job.duty) == ("unknown", "unknown", "unknown")


def test_bare_lengths_take_the_unit_of_the_file_and_others_their_own(read: Reader) -> None:
    job = read({"length: 14": "length: 355.6 mm", "grip: 2}": "grip: 2000 thou}"}).job
    assert job.work[0].length.si == pytest.approx(0.3556)
    assert job.holding.chuck.grip.si == pytest.approx(0.0508)
    assert job.work[0].length.with_unit == "355.6 mm"


def test_a_metric_thread_in_an_inch_file_takes_its_own_units(read: Reader) -> None:
    """The nearest `units` decides, where it agrees with the designation."""
    thread = "designation: 2-8 UN-2A, length: 1 3/4"
    metric = read({thread: "designation: M50x1.5-6g, length: 30, units: mm"}).job.operations[1].thread
    assert metric is not None
    assert metric.length.si == pytest.approx(0.030)
    with pytest.raises(JobProblems, match="has no unit, and the thread is in mm and the file in inch"):
        read({thread: "designation: M50x1.5-6g, length: 30"})
    with pytest.raises(JobProblems, match="has no unit, and the thread is in mm and the file in inch"):
        read({thread: "designation: M50x1.5-6g, length: 30, units: inch"})
    spelled_out = read({thread: "designation: M50x1.5-6g, length: 30 mm"}).job.operations[1].thread
    assert spelled_out is not None
    assert spelled_out.length.si == pytest.approx(0.030)


def test_text_may_be_quoted_folded_or_in_any_script(read: Reader) -> None:
    job = read({"title: Bollard spindle": 'title: "No. 2: Welle für Poller, ½ größer"'}).job
    assert job.title == "No. 2: Welle für Poller, ½ größer"
    job = read({"units: inch": "units: inch\nasked: >\n  one line\n  and the next"}).job
    assert job.asked == "one line and the next"


def test_a_byte_order_mark_and_foreign_line_ends_are_taken(tmp_path: Path, small_job: str) -> None:
    path = tmp_path / "job.yml"
    path.write_bytes(b"\xef\xbb\xbf" + small_job.replace("\n", "\r\n").encode())
    assert read_job(path).where("title") == Location(path, 2, 8)
    path.write_bytes(small_job.replace("length: 5", "length: 5,5").replace("\n", "\r\n").encode())
    with pytest.raises(JobProblems) as caught:
        read_job(path)
    assert caught.value.problems[0].location.line == 8


def test_a_problem_shows_its_line_with_a_caret(read: Reader) -> None:
    with pytest.raises(JobProblems) as caught:
        read({"grip: 2}": "grip: 2 kg}"})
    assert caught.value.problems[0].with_caret().splitlines()[1:] == [
        "      chuck: {jaws: 3, grip: 2 kg}",
        "                             ^",
    ]


def test_all_problems_of_a_file_come_at_once(read: Reader) -> None:
    with pytest.raises(JobProblems) as caught:
        read(
            {
                "length: 14": "length: 1,4",
                "grip: 2}": "grip: 2, grip: 3}",
                "lathe:": "lahte:",
                "title: B": "title: &b B",
            }
        )
    assert [problem.field for problem in caught.value.problems] == [
        "lathe",
        "title",
        "lahte",
        "work.0.4",
        "holding.chuck.grip",
    ]


def test_all_problems_of_all_shop_files_come_at_once(tmp_path: Path) -> None:
    (tmp_path / "lathes").mkdir()
    (tmp_path / "lathes" / "a.yml").write_text("lathe: b\n")
    (tmp_path / "lathes" / "b.yml").write_text("[")
    (tmp_path / "tools.yml").write_text("wires: [2]\n")
    (tmp_path / "materials.yml").write_bytes(b"\xff")
    with pytest.raises(JobProblems) as caught:
        read_shop(tmp_path)
    assert {problem.location.path.name for problem in caught.value.problems} == {
        "a.yml",
        "b.yml",
        "tools.yml",
        "materials.yml",
        "house.yml",
    }


def test_a_lathe_is_named_as_its_file(tmp_path: Path) -> None:
    lathe = (ROOT / "jobs" / "_shop" / "lathes" / "metric.yml").read_text("utf-8")
    (tmp_path / "lathes").mkdir()
    path = tmp_path / "lathes" / "other.yml"
    path.write_text(lathe, "utf-8")
    (tmp_path / "house.yml").write_text("shop: Saltmarsh Works\n")
    with pytest.raises(JobProblems) as caught:
        read_shop(tmp_path)
    assert str(caught.value) == (
        f'{path.as_posix()}:2:8: lathe: "metric" is not the name of the file: write '
        "lathe: other, or name the file "
        "metric.yml"
    )


def test_a_shop_without_lathes_is_refused(tmp_path: Path) -> None:
    (tmp_path / "house.yml").write_text("shop: Saltmarsh Works\n")
    with pytest.raises(JobProblems, match="no lathe is described here"):
        read_shop(tmp_path)


@pytest.mark.parametrize("make", [lambda path: None, lambda path: path.mkdir()], ids=["missing", "a folder"])
def test_a_file_that_cannot_be_opened_is_a_problem(tmp_path: Path, make: object) -> None:
    path = tmp_path / "job.yml"
    make(path)  # type: ignore[operator]
    with pytest.raises(JobProblems, match="cannot be read"):
        read_job(path)


def test_a_file_that_is_too_large_is_a_problem(tmp_path: Path) -> None:
    path = tmp_path / "job.yml"
    path.write_text("# remark\n" * 200_000)
    with pytest.raises(JobProblems, match="is larger than 1000 kB"):
        read_job(path)


def test_jobs_are_found_in_order_and_the_shop_is_not_one(tmp_path: Path) -> None:
    for name in ("2026/b", "2025/z", "2026/a", "_shop/x", "2026/_draft", ".git/x", "2026/a/deeper"):
        (tmp_path / name).mkdir(parents=True)
        (tmp_path / name / "job.yml").touch()
    (tmp_path / "2026" / "empty").mkdir()
    assert [path.relative_to(tmp_path).as_posix() for path in find_jobs(tmp_path)] == [
        "2025/z/job.yml",
        "2026/a/job.yml",
        "2026/b/job.yml",
    ]
    assert find_jobs(tmp_path / "nowhere") == []


@pytest.mark.parametrize(
    "bomb", ["[" * 5000, "{a: " * 5000, "- " * 5000, "? " * 5000, "a: &a [*a, *a]\n" * 2000]
)
def test_bombs_are_refused(tmp_path: Path, bomb: str) -> None:
    path = tmp_path / "job.yml"
    path.write_text(f"job: {bomb}" if bomb[0] in "[{" else bomb)
    with pytest.raises(JobProblems):
        read_job(path)


def test_both_loaders_of_the_yaml_library_come_to_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    """The one in C may be missing from an installation; places and words stay the same."""
    monkeypatch.setattr(source, "_LOADER", yaml.SafeLoader)
    for path in sorted((Path(__file__).parent / "bad").glob("[!lmth]*.yml")):
        with pytest.raises(JobProblems) as caught:
            read_job(path)
        said = "".join(
            f"{str(problem).removeprefix(f'{path.as_posix()}:')}\n" for problem in caught.value.problems
        )
        assert said == path.with_suffix(".txt").read_text("utf-8")


def test_nothing_but_problems_comes_out_of_damaged_files(tmp_path: Path, small_job: str) -> None:
    """Bytes and tokens put in, taken out and turned round in demo jobs: each reads or says what is wrong."""
    random_ = random.Random(2026)
    path = tmp_path / "job.yml"
    tokens = [
        b"{",
        b"}",
        b"[",
        b"]",
        b": ",
        b"- ",
        b"\n",
        b"\t",
        b"#",
        b"&a",
        b"*a",
        b"!!int",
        b"'",
        b'"',
        b"|",
        b">",
        b"%",
        b"@",
        b"`",
        b"\x00",
        b"\xff",
        b"\xe2\x80\xa8",
        b"\xc2\x85",
        b"\r",
        b"---",
        b"...",
        b"~",
        b"010",
        b"1:30",
        b"<<: *a",
        b"1,5",
        b"nan",
        b"9" * 5000,
        b"? ",
        b"\xef\xbb\xbf",
        b"\xf0\x9f\x94\xa9",
    ]
    originals = [demo.read_bytes() for demo in DEMO] + [small_job.encode()]
    for _ in range(500):
        data = bytearray(random_.choice(originals))
        for _ in range(random_.randint(1, 4)):
            place = random_.randrange(len(data))
            match random_.randrange(4):
                case 0:
                    data[place:place] = random_.choice(tokens)
                case 1:
                    del data[place : place + random_.randint(1, 30)]
                case 2:
                    data[place] = random_.randrange(256)
                case _:
                    lines = data.splitlines(keepends=True)
                    random_.shuffle(lines)
                    data = bytearray(b"".join(lines))
        path.write_bytes(data)
        try:
            read_job(path)
            continue
        except JobProblems as caught:
            problems = caught.problems
        lines_there = (
            data.count(b"\n") + data.count(b"\r") + data.count(b"\xc2\x85") + data.count(b"\xe2\x80") + 2
        )
        for problem in problems:
            assert 1 <= problem.location.line <= lines_there
            assert "Input should" not in problem.message
            assert "cannot be read here" not in problem.message


def test_nothing_but_problems_comes_out_of_random_trees(tmp_path: Path) -> None:
    """Known keys with values of every shape in every place."""
    random_ = random.Random(8)
    keys = [
        "job",
        "title",
        "units",
        "work",
        "length",
        "od",
        "holding",
        "chuck",
        "grip",
        "operations",
        "thread",
        "designation",
        "mate",
        "steady",
        "at",
        "value",
        "by",
        "with",
        "assumed",
        "face",
        "infeed",
        "photos",
        "received",
        "x",
        "5",
        "on",
    ]
    values = [
        "",
        "1",
        "1 1/2 in",
        "mm",
        "inch",
        "M10",
        "2-8 UN-2A",
        "auto",
        "unknown",
        "yes",
        "~",
        "2026-03-02",
        "[]",
        "{}",
    ]

    def tree(depth: int) -> str:
        kind = random_.randrange(4) if depth else 3
        if kind == 0:
            return "[" + ", ".join(tree(depth - 1) for _ in range(random_.randint(0, 3))) + "]"
        if kind in (1, 2):
            chosen = random_.sample(keys, random_.randint(0, 5))
            return "{" + ", ".join(f"{key}: {tree(depth - 1)}" for key in chosen) + "}"
        return random_.choice(values)

    path = tmp_path / "job.yml"
    for _ in range(500):
        chosen = random_.sample(keys, random_.randint(1, 12))
        path.write_text("".join(f"{key}: {tree(4)}\n" for key in chosen))
        with pytest.raises(JobProblems) as caught:
            read_job(path)
        for problem in caught.value.problems:
            assert "Input should" not in problem.message
            assert "cannot be read here" not in problem.message
