"""Every dimension of the work says how it is known, and the archive finds a job by what its file says."""

from __future__ import annotations

import pytest

from generator.sheet.figure import Kind
from generator.si import bar, inch, lbf

SECTION = "{length: 11 5/8, od: 2.75}"
DUTY = "duty: {said: holds a gate, by: customer}"


@pytest.mark.parametrize(
    ("od", "kind", "source"),
    [
        ("2.75", Kind.GIVEN, "given in the file"),
        (
            "{value: 2.75, by: KL, with: micrometer 2-3 in}",
            Kind.MEASURED,
            "measured by KL with micrometer 2-3 in",
        ),
        ("{value: 2.75, assumed: yes}", Kind.ASSUMED, "assumed, as the file says"),
    ],
)
def test_a_dimension_says_how_it_is_known(sheet_of, od, kind, source):
    figure = sheet_of({SECTION: f"{{length: 11 5/8, od: {od}, bore: 1/2}}"}).figures["work.1.od"]
    assert (figure.kind, figure.source) == (kind, source)
    assert figure.value == pytest.approx(2.75 * inch)
    assert figure.text == "2.75 in"


def test_load_pressure_wall_and_cross_holes_stand_as_given(sheet_of):
    figures = sheet_of(
        {
            DUTY: "duty: {said: holds a gate, by: customer, load: 9000 lbf, pressure: 6 bar}\n"
            "limits: {wall: 0.25}\ncross_holes:\n  - {diameter: 3/8, from_end: 3/4}",
        }
    ).figures
    assert figures["job.load"].value == pytest.approx(9000 * lbf)
    assert "not judged here" in figures["job.load"].note
    assert figures["job.pressure"].value == pytest.approx(6 * bar)
    assert figures["job.wall"].value == pytest.approx(0.25 * inch)
    assert figures["work.cross_hole_1.from_end"].value == pytest.approx(0.75 * inch)


def test_the_archive_finds_a_job_by_the_words_of_its_file(sheet_of):
    changes = {
        "length: 2 7/8}\n  - relief": "length: 2 7/8, note: mind the keyway}\n  - relief",
        DUTY: f"{DUTY}\nasked: same as the old one\nnotes: [rusty]\ncustomer: AB-1",
    }
    text = sheet_of(changes).index.text
    for word in ("keyway", "rusty", "same as the old one", "AB-1", "holds a gate", "relief", "2 1/4-8 UN-2B"):
        assert word in text
