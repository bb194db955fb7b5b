"""The log on the page: its entries, what was planned beside what was done; nothing of it without a log."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from generator.errors import Location, Problem
from generator.render.page import render_page
from generator.sheet.drawn import Curve, PlotScene
from generator.sheet.happened import History, LeftAs, LogLine, PassTaken, TimeTaken
from generator.sheet.model import Sheet
from generator.si import inch, minute

ReadPage = Callable[[str], Any]
HERE = Location(Path("log.yml"), 2, 3)
HOSTILE = "<script>alert(1)</script> {{ 7*7 }} & \"q\""


@pytest.fixture
def logged(sheet: Sheet) -> Sheet:
    """The sample with a log: one pass as planned, one over the plan, one more than planned, one stop."""
    first, last = sheet.passes[3], sheet.passes[-1]
    assert last.over_wires is not None
    lines = (
        LogLine("2026-03-04 14:20", "machinist 2", "3 Cut it", 4, (("Dial", "0.044 in"),), (), HERE),
        LogLine("2026-03-04 14:40", "", "3 Cut it", 12, (("Stop", HOSTILE),), ("stop", "agreed"), HERE),
    )
    return replace(sheet, history=History(
        lines=lines,
        passes=(
            PassTaken(first.number, first, "0.044 in", first.depth, None, first.over_wires),
            PassTaken(last.number, last, "", None, last.over_wires + 0.0021 * inch, last.over_wires),
            PassTaken(99, None, "", None, None, None),
        ),
        times=(TimeTaken(1, "Face", 5 * minute, 14 * minute), TimeTaken(2, "Turn", None, 90 * minute)),
        says=(f"Pass 12 read 0.0021 in over the plan. {HOSTILE}",),
        plots=(PlotScene(
            "log-depth", "Depth", "Pass", "count", "Depth, radial", "length",
            (Curve("planned", ((1.0, 0.001), (2.0, 0.002))), Curve("taken", ((1.0, 0.001),), "second")),
            ("Pass",), (), (), "", "It goes to pass 2.", "inch", "SW-201",
        ),),
        problems=(Problem(HERE, "paas", f"is not known {HOSTILE}", "  paas: 3"),),
        left_as=LeftAs("2026-03-04 14:40", "", (("dial", "0 turns, 0.044 in", ""), ("how", "", HOSTILE))),
        moved="The dial reads 0.001 in more.",
    ))


def rows(table: Any) -> list[list[str]]:
    found = table.all("tbody")[0].all("tr")
    return [[cell.text for cell in (*row.all("th"), *row.all("td"))] for row in found]


def test_without_a_log_the_page_has_nothing_of_it(sheet: Sheet, read_page: ReadPage) -> None:
    root = read_page(render_page(sheet))
    assert not root.all("section", class_="log")
    assert all(cell.text == "" for cell in root.all("td", class_="took"))


def test_the_entries_stand_in_order_with_what_they_mark(logged: Sheet, read_page: ReadPage) -> None:
    (table,) = read_page(render_page(logged)).all("table", class_="log-table")
    first, second = rows(table)
    assert first == ["2026-03-04 14:20machinist 2", "3 Cut it, pass 4", "Dial 0.044 in"]
    assert second[2].startswith("STOPPED AGREED Stop <script>")


def test_passes_planned_and_taken_stand_beside_each_other(logged: Sheet, read_page: ReadPage) -> None:
    (table,) = read_page(render_page(logged)).all("table", class_="taken")
    heads = " ".join(head.text for head in table.all("thead")[0].all("th"))
    assert "Depth by the dial, in" in heads
    assert "Over wires, in" in heads
    first, second, third = rows(table)
    depth = f"{logged.passes[3].depth / inch:.4f}"
    assert first[:5] == ["4", "0.044 in", depth, depth, "0.0000"]
    assert second[7] == "+0.0021"
    assert third == ["99", *["–"] * 7]


def test_times_estimated_and_taken(logged: Sheet, read_page: ReadPage) -> None:
    root = read_page(render_page(logged))
    (table,) = root.all("table", class_="times")
    assert rows(table) == [
        ["1 Face", "5.0 min", "14 min", "+9.0 min"], ["2 Turn", "–", "1 h 30 min", "–"],
    ]
    took = [cell.text for cell in root.all("td", class_="took")]
    assert "14 min" in took


def test_what_was_cut_stands_in_the_pass_table_and_how_the_dial_counts_below_it(
    logged: Sheet, read_page: ReadPage
) -> None:
    root = read_page(render_page(logged))
    cells = [cell.text for cell in root.all("td", class_="as-cut")]
    last = logged.passes[-1].over_wires
    assert last is not None
    assert (cells[3], cells[-1]) == ("0.044 in", f"{last / inch + 0.0021:.4f}")
    assert [cell for cell in cells if cell] == [cells[3], cells[-1]]
    assert "The dial reads 0.001 in more." in root.all("section", class_="passes")[0].text


def test_how_it_was_left_has_room_until_it_is_taken_up(logged: Sheet, read_page: ReadPage) -> None:
    def table(sheet: Sheet) -> tuple[str, list[str], bool]:
        (found,) = read_page(render_page(sheet)).all("table", class_="left-as")
        whole = found.parent
        return found.all("thead")[0].text, rows(found)[0], whole.has("class_", "on-screen")

    head, first, hidden = table(logged)
    assert (head.endswith("Now"), first, hidden) == (True, ["dial", "0 turns, 0.044 in", ""], False)
    left = replace(logged.history.left_as, taken_up="2026-03-05")
    head, first, hidden = table(replace(logged, history=replace(logged.history, left_as=left)))
    assert (head.endswith("Taken up, 2026-03-05"), first, hidden) == (
        True, ["dial", "0 turns, 0.044 in", "–"], True
    )


def test_what_cannot_be_read_is_said_and_nothing_written_becomes_markup(
    logged: Sheet, read_page: ReadPage
) -> None:
    html = render_page(logged)
    root = read_page(html)
    assert "<script>" not in html
    (section,) = root.all("section", class_="log")
    assert "log.yml:2:3" in section.text
    assert section.all("pre")[0].text == "paas: 3 ^"
    assert [drawing.tag for drawing in section.all("svg")] == ["svg"]
    assert "7*7" in section.text
