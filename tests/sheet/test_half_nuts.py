"""Half nuts on the sheet: the rule, the gear of the dial, the way to the next start, the dial's face."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from generator.errors import JobProblems, Location
from generator.job.lathe import Lathe
from generator.job.reading import read_checked
from generator.sheet.desk import Desk
from generator.sheet.dial_face import dial_scene
from generator.sheet.dial_words import DialFace, spaces_words
from generator.sheet.figure import Kind
from generator.sheet.half_nuts import lay_thread_dial
from generator.threads.registry import parse_designation

INCH = Fraction(127, 5)
GEARS = "[14, 15, 20, 21, 28]"
RECORD = """\
lathe: bench
name: L9 Bench lathe
units: inch
swing: {over_bed: 13}
between_centers: 40
spindle: {speeds: [45, 70]}
chucks: [{jaws: 3, grips: {from: 1/2, to: 6}}]
cross_dial: {division: 0.001, turn: 0.100, reads: radius}
compound_dial: {division: 0.001, turn: 0.100, reads: radius}
"""
FOUR = "leadscrew: {tpi: 4}\nthread_dial: {teeth: 16, lines: 8, numbered_every: 2}\n"
EIGHT = FOUR.replace("tpi: 4", "tpi: 8")
METRIC = f"leadscrew: {{pitch: 6 mm}}\nthread_dial: {{teeth: 16, lines: 8, more_gears: {GEARS}}}\n"
WHERE = Location(Path("job.yml"), 7)


@pytest.fixture
def lathe_of(tmp_path):
    def make(entries) -> Lathe:
        path = tmp_path / "bench.yml"
        path.write_text(RECORD + entries, "utf-8")
        return read_checked(path, Lathe)

    return make


@pytest.fixture
def laid(lathe_of):
    """`laid(entries, lead, starts)`: figures by the end of their names, findings by id, and the rule."""

    def make(entries, lead, starts=1):
        desk = Desk()
        rule = lay_thread_dial(lathe_of(entries), Fraction(lead), starts, WHERE, desk)
        figures = {
            name[len("lathe.thread_dial."):]: one
            for name, one in desk.figures.items() if name.startswith("lathe.thread_dial")
        }
        return figures, {finding.id: finding for finding in desk.findings}, rule

    return make


@pytest.fixture
def face_of(lathe_of):
    def make(entries, lead, starts=1):
        thread = replace(parse_designation("1-8 UN-2A"), starts=starts)
        return dial_scene(lathe_of(entries), thread, Fraction(lead), "T-1")

    return make


def test_two_starts_on_four_threads_per_inch(laid):
    """1/2 in of lead: a line is 1/2 in, one leadscrew thread is 1/4 in, the pitch (arithmetic)."""
    figures, findings, _ = laid(FOUR, INCH / 2, 2)
    assert figures[""].value == "any line"
    said = figures["next_start"]
    assert said.value == "start 2: half nuts one leadscrew thread (1/4 in) off a line of the first"
    assert said.note == "start 2 is 1/4 in past the first, one pitch of 1/4 in"
    assert said.kind is Kind.COMPUTED
    assert "TM 1-420" in said.source
    assert "2 starts of 1/4 in pitch count by the lead" in figures["rule"].value
    assert "one lead of 1/2 in" in figures["rule"].value
    text = findings["dial-starts"].text
    for words in ("2 starts", "tells them apart", "any line", "one leadscrew thread (1/4 in) off a line"):
        assert words in text
    assert findings["dial-starts"].level == "note"
    assert findings["dial-starts"].where == WHERE


def test_two_starts_on_eight_threads_per_inch(laid):
    figures, _, _ = laid(EIGHT, INCH / 2, 2)
    assert figures[""].value == "numbered lines: 1, 2, 3, 4"
    assert figures["next_start"].value == "start 2: any plain line"


def test_starts_indexed_by_the_compound_are_held_to_its_travel(lathe_of):
    """Four starts of 1/8 in, the fourth three pitches on: 3/8 in (arithmetic)."""
    for travel, short in (("1/4", True), ("1/2", False)):
        desk = Desk()
        lay_thread_dial(lathe_of(f"{FOUR}compound_travel: {travel}\n"), INCH / 2, 4, WHERE, desk)
        assert desk.figures["lathe.index_travel"].value == pytest.approx(3 / 8 * 25.4e-3)
        found = [finding for finding in desk.findings if finding.id == "index-travel"]
        assert bool(found) == short
        if found:
            assert "start 4 takes 0.375 in" in found[0].text
            assert "travels 1/4 in" in found[0].text


def test_without_a_dial_every_start_is_indexed(lathe_of):
    """Two starts of 1/8 in on a lathe without a dial: one pitch (arithmetic)."""
    desk = Desk()
    lay_thread_dial(lathe_of("leadscrew: {tpi: 3}\n"), INCH / 4, 2, WHERE, desk)
    assert desk.figures["lathe.index_travel"].value == pytest.approx(25.4e-3 / 8)


def test_a_job_of_two_starts_gets_figure_finding_and_face(sheet_of):
    """Two starts of 1/4 in pitch on the long lathe: 4 threads per inch, 16 teeth, 8 lines."""
    sheet = sheet_of({
        "2 1/4-8 UN-2A": "2 1/4-0.25P-0.5L UN-2A", "2 1/4-8 UN-2B": "2 1/4-0.25P-0.5L UN-2B",
        "2.060": "1.900",
    })
    assert sheet.figures["lathe.thread_dial"].value == "any line"
    assert "one leadscrew thread (1/4 in) off a line" in sheet.figures["lathe.thread_dial.next_start"].value
    assert "dial-starts" in {finding.id for finding in sheet.findings}
    assert sheet.dial_scene is not None
    assert sheet.dial_scene.starts == 2
    assert {place.start for place in sheet.dial_scene.places} == {1, 2}
    assert "next_start" in " ".join(next(one for one in sheet.sections if one.id == "lathe").figures)


def test_a_start_that_the_dial_does_not_lead_to_is_indexed(laid):
    """Four starts of 1/8 in on 4 threads per inch: a leadscrew thread is two pitches (arithmetic)."""
    figures, findings, _ = laid(FOUR, INCH / 2, 4)
    assert figures["next_start"].value == (
        "start 3: half nuts one leadscrew thread (1/4 in) past a line of the first; "
        "starts 2 and 4: not by the dial, index by the compound or the driving plate"
    )
    assert "Index to starts 2 and 4 by the compound" in findings["dial-starts"].text


@pytest.mark.parametrize("entries", [FOUR, "leadscrew: {tpi: 4}\n"], ids=["dial", "no dial"])
def test_where_every_closing_keeps_the_start_the_next_one_is_indexed(laid, entries):
    figures, findings, _ = laid(entries, INCH / 4, 2)
    assert figures[""].value == "any place"
    assert figures["next_start"].value == "not by the dial: index by the compound or the driving plate"
    assert "back into the same start" in findings["dial-starts"].text


def test_one_start_has_nothing_to_say_of_the_next(laid):
    figures, findings, _ = laid(FOUR, INCH / 7)
    assert set(figures) == {"", "rule"}
    assert findings == {}


@pytest.mark.parametrize("starts", [1, 2])
@pytest.mark.parametrize(("entries", "lead"), [(EIGHT, "4"), (METRIC, INCH / 8)], ids=["metric", "inch"])
def test_where_metric_meets_inch_the_half_nuts_stay_closed(laid, face_of, entries, lead, starts):
    """The 127 in 25.4 never goes away on a dial: common practice, and arithmetic."""
    figures, findings, rule = laid(entries, lead, starts)
    assert rule.keep_half_nuts_closed
    assert figures[""].value == "keep the half nuts closed"
    assert "reversing the spindle" in findings["half-nuts-closed"].text
    if starts > 1:
        assert figures["next_start"].value.startswith("not by the dial")
        assert "does not lead from one start to the next" in findings["dial-starts"].text
    scene = face_of(entries, lead, starts)
    assert [(row.places, row.meets) for row in scene.rows] == [("any place", "changes")]
    assert {place.meets for place in scene.places} <= {"changes", "wrong", "does not close"}


def test_the_sentence_says_when_metric_and_inch_come_together(laid):
    """25.4/8 over 2 is 127/80: 80 leadscrew threads (arithmetic)."""
    assert "only after 80 leadscrew threads" in laid(EIGHT, "2")[0]["rule"].value


def test_the_lead_that_is_cut_decides_not_the_one_on_the_drawing(laid):
    """Gears of 37 and 47 teeth for 100 and 127 cut 2.9994 mm instead of 3: it is that thread which is met."""
    nearly = INCH / 8 * Fraction(37, 47) * Fraction(6, 5)
    assert abs(nearly - 3) < Fraction(1, 1000)
    assert laid(EIGHT, nearly)[2].keep_half_nuts_closed
    simple = INCH / 8 * Fraction(15, 16)  # cut instead of 3 mm: the leadscrew comes round after 15 threads
    fifteen = EIGHT.replace("teeth: 16", "teeth: 15").replace("lines: 8, numbered_every: 2", "lines: 5")
    assert laid(fifteen, simple)[0][""].value == "the same line only"
    assert laid(fifteen, "3")[2].keep_half_nuts_closed


# -- gears of the dial ----------------------------------------------------------------------------------


def test_the_gear_with_the_fewest_restrictions_is_asked_for(laid):
    """1.25 mm on 6 mm: multiples of 5 teeth; 20 on 8 lines allows four of them, 15 only one (arithmetic)."""
    figures, findings, _ = laid(METRIC, "1.25")
    assert figures["gear"].value == "20 teeth"
    assert figures[""].value == "gear of 20 teeth, lines of one set only: 1, 3, 5 and 7; or 2, 4, 6 and 8"
    for words in ("20 × 6 mm = 120 mm is 96 leads", "15 teeth: the same line only", "16 teeth (fitted)"):
        assert words in figures["gear"].note
    text = findings["dial-gear"].text
    assert "Put the gear of 20 teeth on" in text
    assert "The one of 16 teeth would not find this lead again" in text
    assert "20 × 6 mm ÷ 8" in figures["rule"].value


def test_a_fitted_gear_that_serves_less_well_is_said_to(laid):
    figures, findings, _ = laid(METRIC.replace("teeth: 16", "teeth: 15"), "1.25")
    assert figures["gear"].value == "20 teeth"
    assert "The one of 15 teeth would allow the same line only" in findings["dial-gear"].text


def test_a_fitted_gear_that_serves_best_stays(laid):
    figures, findings, _ = laid(METRIC, "0.8")
    assert figures["gear"].value == "16 teeth (fitted)"
    assert not figures[""].value.startswith("gear")
    assert "dial-gear" not in findings


def test_no_gear_is_wanted_where_the_dial_need_not_be_watched(laid):
    figures, findings, _ = laid(METRIC, "1.5")
    assert figures[""].value == "any place"
    assert figures["gear"].value == "any: the dial need not be watched"
    assert "dial-gear" not in findings


def test_when_no_gear_serves_it_says_which_would(laid):
    """5.5 mm on 6 mm: 12/11, so multiples of 11 teeth (arithmetic)."""
    figures, findings, _ = laid(METRIC, "5.5")
    assert figures["gear"].value == "none serves of 14, 15, 16, 20, 21 and 28 teeth"
    assert "a multiple of 11 teeth" in figures["gear"].note
    assert figures[""].value == "keep the half nuts closed"
    assert "half-nuts-closed" in findings
    assert "dial-gear" not in findings


def test_one_gear_has_no_figure_of_its_own(laid):
    assert "gear" not in laid(FOUR, INCH / 7)[0]
    assert "gear" not in laid(FOUR.replace("lines: 8", "lines: 8, more_gears: [16]"), INCH / 7)[0]


@pytest.mark.parametrize(
    ("entries", "lacks"),
    [("leadscrew: {tpi: 4}\n", "thread dial"), ("thread_dial: {teeth: 16, lines: 8}\n", "leadscrew")],
)
def test_what_the_record_lacks_stays_unknown_for_all_of_it(laid, face_of, entries, lacks):
    figures, findings, rule = laid(entries, INCH / 7, 2)
    assert rule is None
    start = figures.pop("next_start")
    assert start.value == f"no {lacks} on record: index by the compound or the driving plate"
    assert set(figures) == {"", "rule"}
    assert {one.kind for one in figures.values()} == {Kind.UNKNOWN}
    assert {one.note for one in figures.values()} == {f"not computed: the lathe record has no {lacks}"}
    assert "thread-dial-unknown" in findings
    assert face_of(entries, INCH / 7, 2) is None


# -- the dial's face ------------------------------------------------------------------------------------


def rows(scene):
    return [(row.places, row.meets, row.start) for row in scene.rows]


def test_the_table_beside_the_face(face_of):
    assert rows(face_of(FOUR, INCH / 2, 2)) == [
        ("any line", "same start", 1), ("halfway between the lines", "other start", 2),
    ]
    assert rows(face_of(EIGHT, INCH / 2, 2)) == [
        ("1, 2, 3 and 4", "same start", 1), ("any plain line", "other start", 2),
        ("between the lines", "wrong", None),
    ]
    assert rows(face_of(EIGHT, INCH / 7)) == [
        ("1 and 3", "same start", 1), ("the other lines; between the lines", "wrong", None),
    ]
    assert rows(face_of(FOUR, INCH / 8)) == [("any place", "same start", 1)]
    assert rows(face_of(METRIC, "1.25")) == [
        ("1, 3, 5 and 7", "same start", 1), ("between the lines", "wrong", None),
        ("2, 4, 6 and 8", "does not close", None),
    ]
    assert rows(face_of(EIGHT.replace("teeth: 16", "teeth: 8"), INCH / 7)) == [
        ("1", "same start", 1), ("the other lines", "wrong", None),
        ("between the lines", "does not close", None),
    ]


def test_the_face_agrees_with_the_figures_in_gear_and_rule(face_of, laid):
    for entries, lead, starts in ((METRIC, "1.25", 1), (METRIC, "1.5", 2), (FOUR, INCH / 7, 1)):
        rule = laid(entries, lead, starts)[2]
        scene = face_of(entries, lead, starts)
        assert scene.rule.endswith(rule.describe())
    assert face_of(METRIC, "1.25").rule.startswith("gear of 20 teeth: lines of one set only")
    assert face_of(FOUR, INCH / 2, 2).rule == "to keep the start, any line"
    assert face_of(METRIC, "1.25").gear == "dial gear of 20 teeth"
    assert face_of(FOUR, INCH / 7).leadscrew == "leadscrew of 1/4 in lead"


def test_places_of_the_face_have_their_numbers(face_of):
    scene = face_of(FOUR, INCH / 7)
    assert [place.number for place in scene.places if place.line] == ["1", "", "2", "", "3", "", "4", ""]
    assert not any(place.number for place in scene.places if not place.line)
    assert [place.at for place in scene.places] == [half / 2 for half in range(16)]


@pytest.mark.parametrize(
    ("face", "lines", "said"),
    [
        (DialFace(8, 1), (0, 4), "1 and 5"),
        (DialFace(8, 2), (1,), "the plain line after 1"),
        (DialFace(8, 2), (0, 1), "1, and the plain line after 1"),
        (DialFace(12, 3), (1, 4, 8), "the first plain line after 1 and 2 and the second plain line after 3"),
        (DialFace(8, 8), (1, 2, 3, 4, 5, 6, 7), "any plain line"),
    ],
)
def test_lines_in_words(face, lines, said):
    assert face.lines_words(lines) == said


def test_spaces_in_words():
    assert spaces_words([Fraction(1, 3), Fraction(4, 3)], DialFace(4)) == "1/3 of a space past 1 and 2"


# A lathe without a thread dial, and a record that says nothing of one


@pytest.mark.parametrize(
    ("lead", "starts", "says"),
    [
        (INCH / 8, 1, "any place"),  # a leadscrew of 4 threads cuts 8 wherever the half nuts close
        (INCH / 7, 1, "keep the half nuts closed"),
        (Fraction("1.25"), 1, "keep the half nuts closed"),
        (INCH / 7, 2, "keep the half nuts closed"),
    ],
)
def test_a_lathe_without_a_thread_dial_keeps_them_closed(laid, face_of, lead, starts, says):
    """Common practice, no source: reversing the spindle brings the carriage back in the same groove."""
    none = "leadscrew: {tpi: 4}\nthread_dial: none\n"
    figures, findings, rule = laid(none, lead, starts)
    assert rule.describe() == figures[""].value == says
    assert figures[""].kind is Kind.COMPUTED
    assert face_of(none, lead, starts) is None
    assert "thread-dial-unknown" not in findings
    if rule.keep_half_nuts_closed:
        said = findings["half-nuts-closed"].text
        assert "L9 Bench lathe has no thread dial" in said
        assert "reversing the spindle" in said
        assert "withdraw first, then stop" in said
        assert "no thread dial is fitted" in figures["rule"].value
    assert ("dial-starts" in findings) is (starts > 1)
    if starts > 1:
        assert findings["dial-starts"].text.startswith("No thread dial leads")


def test_a_record_that_says_nothing_of_a_dial_leaves_it_unknown(laid):
    figures, findings, rule = laid("leadscrew: {tpi: 4}\n", INCH / 7)
    assert rule is None
    assert figures[""].value is None
    assert "thread-dial-unknown" in findings


@pytest.mark.parametrize("written", ["no", "missing", "None", "{teeth: 16}"])
def test_anything_else_in_the_place_of_a_dial_is_refused_with_its_place(lathe_of, written):
    with pytest.raises(JobProblems) as refused:
        lathe_of(f"leadscrew: {{tpi: 4}}\nthread_dial: {written}\n")
    (problem,) = refused.value.problems
    assert problem.location.line == 11
    assert "thread_dial" in str(problem)
    if written[0] != "{":
        assert "none" in str(problem)
