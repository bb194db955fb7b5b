"""The verb `identify`: readings in, threads out, nearest first, and never a traceback."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from generator.__main__ import main
from generator.threads.registry import parse_designation

ROOT = Path(__file__).resolve().parent.parent
HALF_INCH = ("--major", "12.6mm", "--pitch-over-ten", "19.5mm")
KEEP = "special: keep the measured form"


def run(capsys, *words):
    try:
        status = main(["identify", *words])
    except SystemExit as error:
        status = error.code
    said = capsys.readouterr()
    assert "Traceback" not in said.out + said.err
    return status, said.out, said.err


def record_of(capsys, *words):
    status, out, err = run(capsys, *words, "--json")
    assert (status, err) == (0, "")
    return json.loads(out)


def test_the_half_inch_of_a_caliper_and_ten_pitches(capsys):
    """1/2-13 UNC, 19.538 mm over ten pitches (ASME B1.1); 1/2 BSW has 21.167 mm (BS 84)."""
    status, out, err = run(capsys, *HALF_INCH)
    assert (status, err) == (0, "")
    rows = [line.split() for line in out.splitlines()]
    first = next(row for row in rows if row[:1] == ["1"])
    assert first[1:4] == ["1/2-13", "UNC-2A", "yes"]
    assert "the same thread: 1/2-13 NC-2, 1/2-13 USS" in out
    plain = " ".join(out.split())
    assert (
        "Not to be mistaken for 1/2 in - 12 BSW (medium). Only the ten pitches rule it out: 19.54 mm "
        "(0.7692 in) for 1/2-13 UNC-2A; 21.17 mm (0.8333 in) for 1/2 in - 12 BSW (medium)." in plain
    )
    assert plain.endswith(f"{KEEP}, once measured too: flank angle")


def test_the_example_of_the_readme_is_what_is_printed(capsys):
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    command, answer = readme.partition("python -m generator identify ")[2].split("```", 3)[0:3:2]
    _, out, _ = run(capsys, *command.split())
    lines = [line for line in answer.strip("\n").splitlines() if line and line != "…"]
    assert len(lines) > 5
    assert set(lines) <= set(out.splitlines())


def test_what_is_kept_stands_last_whatever_was_measured(capsys):
    for words in (
        HALF_INCH, ("--pitch", "2mm"), ("--major", "99999mm"), ("--major", "0.01mm"),
        ("--minor", "18.9mm", "--tpi", "14", "--inside"), ("--major", "30mm", "--angle", "0"),
    ):
        status, out, _ = run(capsys, *words)
        assert status == 0
        assert out.rstrip().splitlines()[-1].startswith(KEEP)
        assert record_of(capsys, *words)["special"]["text"].startswith(KEEP)


def test_a_thread_that_is_nothing_standard_can_be_kept_as_it_is(capsys):
    status, out, _ = run(
        capsys, "--major", "23.4mm", "--pitch", "1.8mm ± 0.01mm", "--angle", "60", "--left"
    )
    assert status == 0
    assert "No standard thread fits what was measured. The nearest:" in out
    assert f"{KEEP}: special 23.4x1.8 60deg LH" in out


def test_twins_are_named_with_what_each_would_read(capsys):
    """3/8-16 UNC and 3/8 BSW: 60 and 55 degrees (ASME B1.1, BS 84)."""
    _, out, _ = run(capsys, "--major", "0.374in", "--tpi", "16")
    assert (
        "3/8-16 UNC-2A and 3/8 in - 16 BSW (medium) fit what was measured. Try the angle leaf between the "
        "flanks: 60 degrees for 3/8-16 UNC-2A; 55 degrees for 3/8 in - 16 BSW (medium)."
        in " ".join(out.split())
    )


def test_twins_of_twins_are_told_apart(capsys):
    """14 threads per inch at 20.9 mm: G, R and NPT 1/2 (ISO 228-1, ISO 7-1, ASME B1.20.1).

    1 in 16 over six threads of 14 to the inch is 6/14/16 = 0.0268 in.
    """
    _, out, _ = run(capsys, "--major", "20.9mm", "--tpi", "14")
    plain = " ".join(out.split())
    assert "6 threads apart: alike for G 1/2 A; 0.680 mm (0.0268 in) apart for R 1/2 and 1/2-14 NPT." in plain
    assert (
        "To tell R 1/2 and 1/2-14 NPT apart: try the angle leaf between the flanks: 55 degrees for R 1/2; "
        "60 degrees for 1/2-14 NPT." in plain
    )


def test_wear_is_allowed_for_on_its_own_side_only(capsys):
    """Tr 24x5 is 23.665 to 24 mm over the crests (ISO 2903): 23 mm is worn, 24.5 is another thread."""
    _, out, _ = run(capsys, "--major", "23mm", "--pitch", "5mm", "--angle", "30", "--worn")
    assert "Tr 24x5-7e" in out
    worn = record_of(capsys, "--major", "23mm", "--pitch", "5mm", "--angle", "30", "--worn")["candidates"]
    fits = {one["designation"]: one["fits"] for one in worn}
    assert fits["Tr 24x5-7e"] is True
    over = record_of(capsys, "--major", "24.5mm", "--pitch", "5mm", "--angle", "30", "--worn")["candidates"]
    fits = {one["designation"]: one["fits"] for one in over}
    assert not fits.get("Tr 24x5-7e", False)


def test_a_record_for_other_programs(capsys):
    record = record_of(capsys, *HALF_INCH, "--angle", "60deg ± 1deg", "--left")
    assert record["measured"]["angle"] == {"value": 60.0, "within": 1.0, "unit": "deg"}
    assert (record["hand"], record["inside"], record["worn"]) == ("left", False, False)
    first = record["candidates"][0]
    assert first["designation"] == "1/2-13 UNC-2A-LH"
    assert (first["family"], first["standard"], first["fits"]) == ("UN", "ASME B1.1", True)
    ten = next(one for one in first["distances"] if one["name"] == "pitch_over_ten")
    assert ten["off"] == pytest.approx(19.5 - 254 / 13, abs=1e-5)
    (miss,) = record["near_misses"]  # both readings rule out the 12 threads of 55 degrees, ten pitches best
    assert (miss["second"], miss["against"], miss["alone"]) == (
        "1/2 in - 12 BSW (medium) LH", "pitch_over_ten", False
    )
    (miss,) = record_of(capsys, *HALF_INCH)["near_misses"]
    assert (miss["second"], miss["alone"]) == ("1/2 in - 12 BSW (medium)", True)
    assert record["special"]["designation"] == "special 12.6x1.95 60deg LH"


def test_every_candidate_can_be_asked_for_as_it_is_written(capsys):
    record = record_of(capsys, "--major", "24.6mm", "--pitch", "5mm", "--worn", "--starts", "2", "--all")
    assert len(record["candidates"]) > 50
    for one in record["candidates"]:
        assert parse_designation(one["designation"]).starts == 2


def test_inches_in_front_where_inches_were_given(capsys):
    _, out, _ = run(capsys, "--major", "1/2 in", "--tpi", "13")
    assert "major diameter 0.500 in (12.70 mm)" in out
    _, out, _ = run(capsys, "--major", "12.7mm", "--tpi", "13")
    assert "major diameter 12.70 mm (0.500 in)" in out


def test_uncertainty_of_one_reading_and_of_all(capsys):
    measured = record_of(
        capsys, "--major", "12.6mm ± 0.02mm", "--pitch", "1.95mm", "--within", "0.1mm"
    )["measured"]
    assert (measured["major"]["within"], measured["pitch"]["within"]) == (0.02, 0.1)


def test_readings_that_contradict_each_other_are_said(capsys):
    status, out, _ = run(capsys, *HALF_INCH, "--tpi", "12")
    assert status == 0
    assert "they cannot both be right, measure again" in out


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((), "what was given is neither a diameter nor a pitch to go by: measure over the crests"),
        (("--worn", "--inside"), "neither a diameter nor a pitch to go by: measure the bore"),
        (("--angle", "60"), "neither a diameter nor a pitch"),
        (("--major", "nan"), '--major "nan" is not a length'),
        (("--major", "inf"), "is not a length"),
        (("--major", "12.6"), '--major "12.6" has no unit: write 12.6mm or 12.6in'),
        (("--major", "12,6mm"), "has a decimal comma"),
        (("--major", "12.6kg"), "is a mass"),
        (("--major", "0mm"), "is zero"),
        (("--major", "1e400mm"), "is written with a power of ten"),
        (("--major", "-3mm"), '--major "-3mm" has a sign'),
        (("--pitch", "-.5mm", "--major", "6mm"), '--pitch "-.5mm" has a sign'),
        (("--major", "12mm", "--tpi", "-13"), '--tpi "-13" has a sign'),
        (("--major", ""), "is not a length"),
        (("--major", "12.6mm ± 0.02"), '"0.02" has no unit'),
        (("--major", "12.6mm", "--within", "50mm"), "known no better than its own size"),
        (("--major", "12.6mm", "--tpi", "0"), "is zero"),
        (("--major", "12.6mm", "--angle", "190"), "below 180 degrees"),
        (("--major", "12.6mm", "--angle", "sixty"), "--angle"),
        (("--major", "12.6mm", "--taper", "0.0625"), "write 1:16, 1 in 16 or 3/4 in/ft"),
        (("--major", "12.6mm", "--taper", "1:2"), "steeper than any thread"),
        (("--major", "12.6mm", "--starts", "0"), "write one from 1 to 24"),
        (("--major", "12.6mm", "--starts", "two"), "write one from 1 to 24"),
        (("--major", "12.6mm", "--pitch", "20mm"), "a pitch as large as the thread"),
        (("--major", "12.6mm", "--minor", "13mm"), "is not smaller than major"),
        (("--major", "12.6mm", "--pitch", "1mm", "--lead", "0.5mm"), "is less than the pitch"),
        (("--major", "12.6mm", "--major", "13mm"), "--major is given twice"),
        (("--major",), "--major stands without its value: write it behind"),
        (("--majr", "12mm"), "--majr 12mm is not taken here: see --help"),
        ((*HALF_INCH, "--frobnicate"), "--frobnicate is not taken here"),
        ((*HALF_INCH, "bolt"), "bolt is not taken here"),
        (("--json", "--major", "nan"), "is not a length"),
    ],
)
def test_what_cannot_be_read_gets_a_sentence(capsys, words, said):
    status, out, err = run(capsys, *words)
    assert status == 2
    assert out == ""
    assert said in err


def test_nothing_near_is_said_instead_of_a_silly_neighbour(capsys):
    _, out, _ = run(capsys, "--major", "99999mm")
    assert "No standard thread comes near what was measured: measure again, in the right unit." in out
    assert "BUTT" not in out


def test_help_has_an_example_that_runs(capsys):
    status, out, _ = run(capsys, "--help")
    assert status == 0
    example = " ".join(out.split()).partition("example: python -m generator identify ")[2]
    assert example
    status, _, err = run(capsys, *example.split())
    assert (status, err) == (0, "")
