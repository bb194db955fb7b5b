"""What is not known and what is assumed, gathered for "Before starting"."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from generator.render.figure_line import figure_lines
from generator.render.not_said import assumed_lines, missing_lines
from generator.render.page import render_page
from generator.sheet.figure import Figure, Kind
from generator.sheet.model import Sheet

TURN = "3 Turn to the blank, Ø 2.2476 in, over 2 7/8 in"


def unknown(sheet: Sheet, **reasons: str) -> Sheet:
    """The sheet with figures of its third operation unknown, each for its reason."""
    changed = {
        f"operation.3.{key}": replace(
            sheet.figures[f"operation.3.{key}"], value=None, kind=Kind.UNKNOWN, note=reason
        )
        for key, reason in reasons.items()
    }
    return replace(sheet, figures={**sheet.figures, **changed})


def test_a_figure_that_is_not_known_stands_with_its_reason(sheet: Sheet) -> None:
    assert missing_lines(sheet)[0] == "Duty: nobody said what the part must do"


def test_of_an_operation_the_first_reason_stands_and_how_many_figures_more(sheet: Sheet) -> None:
    one = unknown(sheet, passes="nobody said how much comes off")
    assert f"{TURN}: cuts: nobody said how much comes off" in missing_lines(one)
    several = unknown(
        sheet, passes="nobody said how much comes off", depth="the same", force="the depth is unknown"
    )
    said = [line for line in missing_lines(several) if line.startswith("3 ")]
    assert said == [f"{TURN}: cuts: nobody said how much comes off; with it 2 more figures of the route"]
    two = missing_lines(unknown(sheet, passes="x", depth="y"))
    assert f"{TURN}: cuts: x; with it 1 more figure of the route" in two


def test_nothing_unknown_is_left_out_of_the_count(sheet: Sheet) -> None:
    """Every figure without a value is a line of its own, or one of those that a line counts."""
    several = unknown(sheet, passes="a", depth="b", force="c", power="d")
    lines = missing_lines(several)
    counted = sum(int(line.partition("with it ")[2].partition(" ")[0] or 0) for line in lines)
    assert len(lines) + counted == sum(figure.value is None for figure in several.figures.values())


def test_what_is_assumed_of_one_operation_stands_in_one_line(sheet: Sheet) -> None:
    feed = replace(sheet.figures["operation.3.feed"], kind=Kind.ASSUMED)
    changed = replace(sheet, figures={**sheet.figures, feed.name: feed})
    lines = assumed_lines(changed, figure_lines(changed))
    assert [line.label for line in lines] == ["Steady rest from the jaw face", "Compound set over", TURN]
    assert lines[0].values == (("", "7.25 in", "184.15 mm"),)
    assert lines[2].values == (
        ("feed", "0.0050 in/rev", "0.127 mm/rev"), ("largest cut", "0.0800 in", "2.032 mm"),
    )  # fmt: skip


def test_assumed_times_stand_in_one_line(sheet: Sheet, read_page: Callable[[str], Any]) -> None:
    times = {
        name: Figure(name, f"Time for {words}", 60.0 * minutes, "duration", Kind.ASSUMED, "common practice")
        for name, words, minutes in (("time.allowed.fit", "a trial", 2), ("time.allowed.tool", "a tool", 3))
    }
    changed = replace(sheet, figures={**sheet.figures, **times})
    text = read_page(render_page(changed)).all("ul", class_="assumed")[0].all("li")[-1].text
    assert text == "Times: a trial 2.0 min; a tool 3.0 min"
