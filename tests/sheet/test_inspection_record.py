"""The inspection record as the log fills it in: inside or outside by printed limits, concessions, open lines.

ASME B1.1: 2 1/4-8 UN-2A has a major diameter of 2.2326 to 2.2476 in, a pitch diameter of 2.1584 to 2.1664 in.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from generator.render.page import render_page
from generator.sheet.model import Inspected, Sheet

Logged = Callable[..., Sheet]


def inspected(text: str, more: str = "") -> str:
    return f"- {{at: 2026-03-04, by: machinist 2, operation: thread, inspected: [{text}]}}\n{more}"


def record(sheet: Sheet) -> dict[str, Inspected]:
    return {one.line.key: one for one in sheet.inspected}


def found(sheet: Sheet, id: str) -> list[str]:
    return [one.text for one in sheet.findings if one.id == id]


def test_without_a_log_every_line_waits_for_its_reading(sheet_of: Callable[..., Sheet]) -> None:
    sheet = sheet_of()
    assert list(record(sheet)) == [
        "major", "over_wires", "pitch_diameter", "relief_diameter", "relief_width", "length"
    ]
    assert {one.verdict for one in sheet.inspected} == {"not measured"}
    assert "not measured yet" not in render_page(sheet)


@pytest.mark.parametrize(
    ("feature", "left", "verdict"),
    [
        ("major", "2.2326", "inside"), ("major", "2.2476", "inside"),
        ("major", "2.2325", "outside"), ("major", "2.2477", "outside"),
        ("major", "57.09 mm", "inside"), ("major", "57.10 mm", "outside"),  # 2.2476 in are 57.089 mm
        ("pitch_diameter", "2.1584", "inside"), ("pitch_diameter", "2.1664", "inside"),
        ("pitch_diameter", "2.1583", "outside"), ("pitch_diameter", "2.1665", "outside"),
        ("relief_diameter", "2.060", "inside"), ("relief_diameter", "2.0605", "outside"),
        ("relief_width", "3/8", "inside"), ("relief_width", "0.372", "outside"),
        ("length", "2.52", "inside"),
    ],
)
def test_a_reading_is_inside_or_outside_by_the_printed_limits(
    logged: Logged, feature: str, left: str, verdict: str
) -> None:
    one = record(logged(inspected(f"{{feature: {feature}, left: {left}, with: micrometer}}")))[feature]
    assert one.verdict == verdict
    assert (one.by, one.at, one.instrument) == ("machinist 2", "2026-03-04", "micrometer")


def test_gauges_and_mate_are_by_going_and_by_turns(logged: Logged) -> None:
    gauge = {"tool: V1": "tool: V1, fit: gauge"}
    says = "{feature: go, goes: yes}, {feature: no_go, turns: 2, accepted: gauge}"
    lines = record(logged(inspected(says), gauge))
    most = lines["no_go"].line.high
    assert most == "measure.gauge.no_go.turns"  # three turns at most, ASME B1.2
    assert (lines["go"].verdict, lines["no_go"].verdict) == ("inside", "inside")
    assert lines["no_go"].left == "2 turns"
    lines = record(logged(inspected("{feature: go, goes: no}, {feature: no_go, turns: 3.5}"), gauge))
    assert (lines["go"].verdict, lines["no_go"].verdict) == ("outside", "outside")
    assert lines["go"].left == "does not go"
    mate = {"tool: V1": "tool: V1, fit: mate"}
    goes = inspected("{feature: mate, turns: 18, goes: yes}")
    assert record(logged(goes, mate))["mate"].verdict == "inside"
    assert record(logged(inspected("{feature: mate, goes: no}"), mate))["mate"].verdict == "outside"


def test_as_it_came_in_is_no_verdict_on_the_work(logged: Logged) -> None:
    one = record(logged(inspected("{feature: major, found: 2.19, with: caliper}")))["major"]
    assert (one.found, one.left, one.verdict) == ("2.19 in", "", "not measured")


def test_the_last_word_counts_and_what_was_found_stays(logged: Logged) -> None:
    more = inspected("{feature: major, left: 2.2400}")
    one = record(logged(inspected("{feature: major, found: 2.19, left: 2.2500}", more)))["major"]
    assert (one.found, one.left, one.verdict) == ("2.19 in", "2.2400 in", "inside")


def test_a_size_of_the_finished_thread_is_a_reading_too_and_one_on_the_way_is_none(logged: Logged) -> None:
    cut = "- {at: 2026-03-04, operation: thread, pass: 21, measured: {over_wires: 2.2709, with: micrometer}"
    assert record(logged(cut + "}\n"))["over_wires"].verdict == "not measured"
    one = record(logged(cut + ", finished: yes}\n"))["over_wires"]
    assert (one.left, one.verdict) == ("2.2709 in", "inside")


def test_the_root_of_a_square_thread_is_read_as_minor(logged: Logged) -> None:
    """2 1/4-4 SQUARE: the core is 2 in, less up to 0.005 in (shop practice, no source)."""
    cut = "- {at: 2026-03-04, operation: thread, measured: {minor: 1.9980}, finished: yes}\n"
    square = {"2 1/4-8 UN-2A": "2 1/4-4 SQUARE", ", thread: 2 1/4-8 UN-2B": ""}
    sheet = logged(cut, square)
    root = record(sheet)["root"]
    assert (root.left, root.verdict) == ("1.9980 in", "inside")
    assert not found(sheet, "log-feature")


def test_outside_without_a_concession_is_asked_about_and_with_one_it_says_so(logged: Logged) -> None:
    out = inspected("{feature: relief_width, left: 0.372, with: caliper}")
    (said,) = found(logged(out), "log-outside")
    assert said.startswith("Relief width: 0.372 in is outside its limits, and the log has no concession")
    concession = (
        "- {at: 2026-03-05, concession: {feature: relief_width, what: 0.372 let pass., by: 'EB-07', "
        "on: 2026-03-05, reference: letter 12}}\n"
    )
    sheet = logged(out + concession)
    assert not found(sheet, "log-outside")
    assert record(sheet)["relief_width"].verdict == "by concession"
    page = render_page(sheet)
    words = "Relief width: 0.372 let pass. Agreed by EB-07 on 2026-03-05, letter 12."
    assert f"<p><strong>Concession.</strong> {words}</p>" in page
    assert "outside, by concession" in page


def test_a_concession_that_nothing_needs_is_asked_about(logged: Logged) -> None:
    concession = "- {at: 2026-03-05, concession: {feature: major, what: over, by: 'EB-07'}}\n"
    assert "nothing was measured of it" in found(logged(concession), "log-concession")[0]
    inside = logged(inspected("{feature: major, left: 2.24}", concession))
    assert "it is not outside its limits" in found(inside, "log-concession")[0]


def test_a_finished_job_names_what_was_not_measured(logged: Logged) -> None:
    done = "- {at: 2026-03-06, finished: yes}\n"
    (said,) = found(logged(inspected("{feature: major, left: 2.24}", done)), "log-unmeasured")
    assert "no reading of: Size over wires; Pitch diameter; Relief diameter" in said
    assert not found(logged(inspected("{feature: major, left: 2.24}")), "log-unmeasured")
    assert not found(logged(done), "log-unmeasured")  # a shop that keeps no record is not nagged


def test_wires_alone_do_not_accept_a_thread_whose_mate_is_on_the_bench(logged: Logged) -> None:
    wires = inspected("{feature: over_wires, left: 2.2709, accepted: wires}")
    assert "its mate is on the bench: try it on" in found(logged(wires), "log-by-wires")[0]
    tried = "- {at: 2026-03-05, fit: {with: nut, turns: 18, feels: free}, operation: thread}\n"
    assert not found(logged(wires + tried), "log-by-wires")


def test_an_instrument_that_cannot_tell_a_tenth_of_the_tolerance_is_noted(logged: Logged) -> None:
    """Common practice, no source: a caliper makes sure of 0.03 mm; the pitch diameter has 0.008 in."""
    coarse = logged(inspected("{feature: pitch_diameter, left: 2.16, with: caliper}"))
    assert "with a caliper 0.0012 in can be made sure of" in found(coarse, "log-coarse")[0]
    fine = logged(inspected("{feature: pitch_diameter, left: 2.16, with: thread micrometer}"))
    assert not found(fine, "log-coarse")


def test_a_slip_of_the_pen_is_asked_about_and_other_words_are_a_line_of_their_own(logged: Logged) -> None:
    sheet = logged(inspected("{feature: over wires, left: 2.27}, {feature: flange face, left: 0.5}"))
    (said,) = found(sheet, "log-feature")
    assert 'no line "over wires"; it has over_wires' in said
    assert record(sheet)["flange face"].verdict == "no limit"
    assert record(sheet)["flange face"].left == "0.5 in"


@pytest.mark.parametrize(
    ("text", "place", "said"),
    [
        ("{feature: major}", ":1:", "says nothing of it: write found, left, turns, goes or accepted"),
        ("{left: 2.24}", ":1:", "feature"),
        ("{feature: major, left: ten}", ":1:", '"ten"'),
        ("{feature: major, left: 2.24, accepted: luck}", ":1:", '"luck"'),
        ("{feature: major, goes: maybe}", ":1:", '"maybe" is neither yes nor no: write one of the two'),
    ],
)
def test_what_cannot_be_read_is_named_with_its_place(
    logged: Logged, text: str, place: str, said: str
) -> None:
    history = logged(inspected(text)).history
    assert history is not None
    (problem,) = history.problems
    assert said in str(problem)
    assert place in str(problem)


def test_words_of_the_log_stay_words_on_the_page(logged: Logged) -> None:
    page = render_page(logged(inspected("{feature: '<b>x</b>', left: 1, with: '<script>alert(1)</script>'}")))
    assert "<script>alert(1)" not in page
    assert "&lt;b&gt;x&lt;/b&gt;" in page


def test_the_record_judges_no_fitness_for_use(sheet_of: Callable[..., Sheet]) -> None:
    assert "It says nothing of strength or of fitness for use." in render_page(sheet_of())
