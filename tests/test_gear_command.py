"""The verb `gears`: leads in, ways to cut them out, and never a traceback."""

from __future__ import annotations

import json
import math
import shutil
from fractions import Fraction
from pathlib import Path

import pytest

from generator.__main__ import main
from generator.calc.gearing import INCH
from generator.errors import BadQuantity, OutsideRange
from generator.gear_command import read_lead

ROOT = Path(__file__).resolve().parent.parent
LATHE = """\
lathe: bench
name: Bench lathe
units: inch
swing: {over_bed: 9}
between_centers: 20
spindle: {speeds: [50, 100]}
chucks: [{jaws: 3, grips: {from: 1/8, to: 4}}]
leadscrew: {tpi: 8}
thread_dial: {teeth: 16, lines: 8, numbered_every: 2}
change_gears: {gears: [20, 30, 40, 50, 63, 80]}
cross_dial: {division: 0.001, turn: 0.100, reads: radius}
compound_dial: {division: 0.001, turn: 0.100, reads: radius}
"""


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with the invented shop and one bench lathe that has change gears only."""
    shutil.copytree(ROOT / "jobs" / "_shop", tmp_path / "jobs" / "_shop")
    (tmp_path / "jobs" / "_shop" / "lathes" / "bench.yml").write_text(LATHE, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def run(capsys, *words):
    try:
        status = main(["gears", *words])
    except SystemExit as error:
        status = error.code
    said = capsys.readouterr()
    assert "Traceback" not in said.out + said.err
    return status, said.out, said.err


@pytest.mark.parametrize(
    ("text", "lead"),
    [
        ("8 tpi", INCH / 8), ("11 1/2 tpi", 2 * INCH / 23), ("8 threads per inch", INCH / 8),
        ("8TPI", INCH / 8), ("1.5 mm", Fraction(3, 2)), ("1/8 in", INCH / 8), ("125 thou", INCH / 8),
        ('1/8"', INCH / 8),
        ("2 mm, 3 starts", Fraction(6)), ("8 tpi 2 starts", INCH / 4), ("1 mm, 1 start", Fraction(1)),
    ],
)
def test_leads_as_they_are_written(text, lead):
    wanted = read_lead(text)
    assert wanted.rational == lead
    assert not wanted.times_pi


@pytest.mark.parametrize(
    ("text", "mm"),
    [("module 1", math.pi), ("1.25 module, 2 starts", 2.5 * math.pi), ("16 DP", 25.4 * math.pi / 16),
     ("DP 16", 25.4 * math.pi / 16), ("16 diametral pitch", 25.4 * math.pi / 16)],
)
def test_worms_have_pi_in_their_lead(text, mm):
    """Axial pitch of a worm: pi times module, or pi over diametral pitch in inches (Machinery's Handbook)."""
    wanted = read_lead(text)
    assert wanted.times_pi
    assert float(wanted.length) == pytest.approx(mm, rel=1e-15)


@pytest.mark.parametrize(
    ("text", "said"),
    [("8", "8 tpi, 1.5 mm"), ("abc", "is not a lead"), ("", "is not a lead"), ("1,5 mm", "decimal comma"),
     ("-2 mm", "has a sign"), ("module x", "not a number"), ("2 kg", "is a mass"), ("mm", "is not a lead"),
     ("1e3 mm", "power of ten"), ("nan mm", "is not a lead")],
)
def test_what_is_no_lead_says_what_would_be(text, said):
    with pytest.raises(BadQuantity, match=said):
        read_lead(text)


@pytest.mark.parametrize("text", ["0 tpi", "8 tpi, 0 starts", "module 0", "0 DP", "90 m"])
def test_leads_out_of_range(text):
    with pytest.raises(OutsideRange):
        read_lead(text)


def test_leads_are_answered_in_the_order_given(here, capsys):
    leads = ["8 tpi", "1.5 mm", "module 1", "16 DP", "10 tpi"]
    status, out, _ = run(capsys, *leads, "--lathe", "bench", "--json")
    records = [json.loads(line) for line in out.splitlines()]
    assert status == 0
    assert [record["lead"] for record in records] == leads
    assert {record["lathe"] for record in records} == {"bench"}
    by_lead = {record["lead"]: record for record in records}
    assert by_lead["10 tpi"]["exact"] is True
    assert by_lead["10 tpi"]["ways"][0]["gears"] == [40, 50]  # 8 over 10
    assert by_lead["10 tpi"]["half_nuts"] == "numbered lines: 1, 2, 3, 4"
    assert by_lead["10 tpi"]["gear_to_buy"] is None
    assert by_lead["1.5 mm"]["exact"] is False
    assert by_lead["1.5 mm"]["gear_to_buy"]["teeth"] == 127
    assert by_lead["1.5 mm"]["half_nuts"] == "keep the half nuts closed"
    for worm in ("module 1", "16 DP"):
        assert by_lead[worm]["exact"] is False
        assert by_lead[worm]["gear_to_buy"] is None
        assert by_lead[worm]["ways"][0]["error_ppm"] != 0


def test_errors_are_summed_over_the_length_asked_for(here, capsys):
    """80 over 63 for 127 over 100 is 125 ppm too short or too long (arithmetic): 0.00125 mm in 10 mm."""
    _, out, _ = run(capsys, "2 mm", "--lathe", "bench", "--over", "10 mm", "--json")
    way = json.loads(out)["ways"][0]
    assert abs(way["error_ppm"]) == pytest.approx(125.0, abs=0.05)
    assert abs(way["error_percent"]) == pytest.approx(0.0125, abs=5e-6)
    assert way["error_over"]["length_mm"] == pytest.approx(10)
    assert abs(way["error_over"]["error_mm"]) == pytest.approx(0.00125, rel=1e-3)


def test_for_people_every_way_is_a_line(here, capsys):
    status, out, _ = run(capsys, "2 mm", "module 1", "--lathe", "bench")
    assert status == 0
    for words in (
        "bench: 2 mm: not exact", "(125 ppm)", "over 25.4 mm", "127 teeth besides: 80 drives 127, exact",
        "half nuts: keep the half nuts closed", "module 1: never exact, it has pi in it",
    ):
        assert words in out, words


def test_without_a_name_every_lathe_answers(here, capsys):
    _, out, _ = run(capsys, "8 tpi", "--json")
    lathes = [json.loads(line)["lathe"] for line in out.splitlines()]
    assert lathes == ["bench", "long-bed", "metric", "thirteen-inch"]


def test_a_bad_lead_costs_only_itself(here, capsys):
    status, out, err = run(capsys, "8 tpi", "8", "10 tpi", "--lathe", "bench", "--json")
    assert status == 1
    assert len(out.splitlines()) == 2
    assert '"8" is not a lead' in err


def test_a_gear_that_is_none_is_named_where_it_stands(here, capsys):
    bench = here / "jobs" / "_shop" / "lathes" / "bench.yml"
    bench.write_text(LATHE.replace("[20, 30", "[20, 0"), encoding="utf-8")
    status, out, err = run(capsys, "8 tpi")
    assert (status, out) == (1, "")
    assert 'bench.yml:10:28: change_gears.gears.1: "0" is zero' in err


def test_gears_of_which_no_two_run_together(here, capsys):
    bench = here / "jobs" / "_shop" / "lathes" / "bench.yml"
    bench.write_text(LATHE.replace("[20, 30, 40, 50, 63, 80]", "[20, 200]"), encoding="utf-8")
    status, out, _ = run(capsys, "8 tpi", "--lathe", "bench")
    assert (status, "no two of its change gears run together" in out) == (0, True)
    _, out, _ = run(capsys, "8 tpi", "--lathe", "bench", "--json")
    assert (json.loads(out)["ways"], json.loads(out)["half_nuts"]) == ([], None)


def test_wrong_usage(here, capsys):
    assert run(capsys)[0] == 2
    status, _, err = run(capsys, "8 tpi", "--lathe", "bensh")
    assert (status, "did you mean bench?" in err) == (2, True)
    assert run(capsys, "8 tpi", "--over", "10")[0] == 2
    assert run(capsys, "8 tpi", "--jobs", "nowhere")[0] == 2


def test_help_has_an_example(capsys):
    status, out, _ = run(capsys, "--help")
    assert status == 0
    assert "example: python -m generator gears" in out


@pytest.mark.parametrize("text", ["0.0000001 mm", "99999999999999999999 tpi", "0.009 mm", "10001 mm"])
def test_a_lead_that_no_lathe_cuts_is_refused(here, capsys, text):
    status, said, wrong = run(capsys, text, "--lathe", "bench")
    assert (status, said) == (1, "")
    assert "out of range: at least 0.01 mm and at most 10000 mm" in wrong
