"""The route on the page, from operations made by hand."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from generator.render.figure_line import figure_lines
from generator.render.page import render_page
from generator.render.route_table import COLUMNS, ESTIMATE, HOLD, PROPOSED, RouteTable, Setting, route_table
from generator.sheet.figure import Kind
from generator.sheet.model import Sheet

ReadPage = Callable[[str], Any]
HOSTILE = "</td><script>alert(1)</script> {{ 7*7 }} & \"'"


def made(sheet: Sheet) -> RouteTable:
    table = route_table(sheet, figure_lines(sheet))
    assert table is not None
    return table


def shown(setting: Setting) -> str:
    words = [f"{part.value} {part.unit}".strip() for part in setting.parts]
    return f"{setting.between} ".join(words) or "–"


def test_an_operation_shows_each_setting_that_it_has_in_the_column_for_it(sheet: Sheet) -> None:
    turn = made(sheet).rows[2]
    assert [setting.name for setting in turn.settings] == [name for name, _, _ in COLUMNS]
    assert [shown(setting) for setting in turn.settings] == [
        "T1", "125 rpm", "0.0050 in/rev", "4, up to 0.0800 in", "0.480, 1 turn and 0.080", "389 lbf 0.90 hp",
        "63 µin",
    ]  # fmt: skip
    assert shown(turn.time) == "25 min"


def test_a_column_that_does_not_apply_has_a_dash_and_what_is_unknown_says_so(
    sheet: Sheet, read_page: ReadPage
) -> None:
    drill, thread = made(sheet).rows[1], made(sheet).rows[5]
    assert [shown(setting) for setting in drill.settings[2:]] == ["–"] * 5
    assert shown(thread.time) == "unknown"
    cells = read_page(render_page(sheet)).all("tr", class_="settings")[1].all("td")
    assert [cell.text for cell in cells[2:]] == ["–"] * 5


def test_one_cut_is_so_deep_and_several_are_up_to_it(sheet: Sheet) -> None:
    cells = [row.settings[3] for row in made(sheet).rows[2:4]]
    assert [shown(cell) for cell in cells] == ["4, up to 0.0800 in", "1 × 0.0833 in"]


def test_what_is_unknown_in_all_parts_of_a_cell_is_said_once(sheet: Sheet) -> None:
    names = ("operation.3.passes", "operation.3.depth")
    unknown = {name: replace(sheet.figures[name], value=None, kind=Kind.UNKNOWN) for name in names}
    cell = made(replace(sheet, figures={**sheet.figures, **unknown})).rows[2].settings[3]
    assert shown(cell) == "unknown"
    assert len(cell.parts[0].numbers) == 2


def test_hours_and_minutes_stay_together(sheet: Sheet) -> None:
    (total,) = made(sheet).after[-1].time.parts
    assert (total.value, total.unit) == ("1 h 21 min", "")
    assert made(sheet).after[-1].label == "Time for the job, at least"


def test_an_assumed_setting_says_so_beside_it(sheet: Sheet) -> None:
    (count, depth) = made(sheet).rows[2].settings[3].parts
    assert (count.kind, depth.kind) == ("", "ASSUMED")


def test_a_setting_that_the_job_gives_says_so(sheet: Sheet) -> None:
    given = replace(sheet.figures["operation.3.step"], kind=Kind.GIVEN)
    table = made(replace(sheet, figures={**sheet.figures, given.name: given}))
    assert table.rows[2].settings[1].parts[0].kind == "given"


def test_each_figure_in_the_route_has_the_number_of_its_working(sheet: Sheet, read_page: ReadPage) -> None:
    root = read_page(render_page(sheet))
    appendix = [item.text for item in root.all("section", class_="appendix")[0].all("li")]
    keys = root.all("table", class_="route-table")[0].all("i")
    placed = sum(len(operation.figures) for operation in sheet.operations) + 3
    assert len(keys) == placed
    for row in made(sheet).rows:
        for setting in (*row.settings, row.time):
            for part in setting.parts:
                for number in part.numbers:
                    assert row.title in appendix[int(number) - 1]


def lines_of(root: Any) -> list[list[str]]:
    """What opens in each row of the route: lines of the appendix."""
    said = {item.attributes["id"]: item.text for item in root.all("section", class_="appendix")[0].all("li")}
    links = root.all("table", class_="route-table")[0].all("a")
    return [[said[f"w{number}"] for number in link.attributes["data-lines"].split()] for link in links]


def test_the_working_of_an_operation_opens_in_its_row_and_holds_all_its_figures(
    sheet: Sheet, read_page: ReadPage
) -> None:
    opened = lines_of(read_page(render_page(sheet)))
    assert len(opened) == len(sheet.operations)
    for number, lines in enumerate(opened, 1):
        own = [figure for name, figure in sheet.figures.items() if name.startswith(f"operation.{number}.")]
        assert len(lines) == len(own)
        for figure, line in zip(own, lines, strict=True):
            assert figure.label in line
    assert opened[0][0].startswith("T1 1 Face the right end: tool")
    assert "time = cutting + tool = 1.2 + 3 = 4.2 min" in opened[0][-1]


def test_a_figure_that_another_section_has_opens_in_the_row_too(sheet: Sheet, read_page: ReadPage) -> None:
    line = sheet.operations[5]
    thread = replace(line, figures={**line.figures, "step": "spindle.step"})
    root = read_page(render_page(replace(sheet, operations=(*sheet.operations[:5], thread))))
    opened = lines_of(root)[5]
    assert any(line.startswith("32 rpm Spindle speed") and "long-bed.yml" in line for line in opened)


def test_there_is_a_box_to_tick_and_room_for_the_time_it_took(sheet: Sheet, read_page: ReadPage) -> None:
    table = read_page(render_page(sheet)).all("table", class_="route-table")[0]
    boxes = table.all("input", type="checkbox")
    assert len(boxes) == len(sheet.operations)
    assert [label.text for label in table.all("label")] == [
        f"{number} operation {number} done" for number in range(1, 7)
    ]
    took = table.all("td", class_="took")
    assert len(took) == len(sheet.operations) + 3  # set up, hand over, the whole job
    assert {cell.text for cell in took} == {""}


def test_a_hold_point_stands_last_and_a_proposed_operation_is_marked(
    sheet: Sheet, read_page: ReadPage
) -> None:
    root = read_page(render_page(sheet))
    bodies = root.all("tbody", class_="operation")
    assert bodies[3].all("tr")[-1].text == "HOLD. measure the wall left"
    assert [len(body.all("tr")) for body in bodies] == [2, 2, 2, 3, 2, 3]
    assert [bool(body.all("span", class_="proposed")) for body in bodies] == [False] * 4 + [True, False]
    remarks = root.all("section", class_="route")[0].text
    for remark in (HOLD, PROPOSED, ESTIMATE):
        assert remark in remarks


def test_remarks_stand_only_where_they_are_needed(sheet: Sheet) -> None:
    plain = replace(
        sheet,
        operations=tuple(replace(line, hold="", proposed=False) for line in sheet.operations),
        figures={name: figure for name, figure in sheet.figures.items() if not name.startswith("time.")},
    )
    table = made(plain)
    assert table.remarks == ()
    assert table.before == table.after == ()


def test_the_route_stands_before_the_pass_table_and_says_so_where_the_sheet_is_stopped(
    sheet: Sheet, stopped: Sheet, read_page: ReadPage
) -> None:
    for page, title in ((sheet, "Route"), (stopped, "Route: known so far, not ready to run")):
        order = [heading.text for heading in read_page(render_page(page)).all("h2")]
        assert order.index(title) < order.index("Passes")


def test_a_job_without_operations_has_no_route(sheet: Sheet) -> None:
    bare = replace(sheet, operations=())
    assert route_table(bare, figure_lines(bare)) is None
    assert 'class="route"' not in render_page(bare)


def test_head_cells_say_what_they_are_for(sheet: Sheet, read_page: ReadPage) -> None:
    table = read_page(render_page(sheet)).all("table", class_="route-table")[0]
    assert "SW-201" in table.all("caption")[0].text
    heads = table.all("thead")[0].all("th")
    assert [head.attributes["scope"] for head in heads] == ["col", "colgroup", *["col"] * 9]
    rows = table.all("tbody", class_="operation")
    assert {head.attributes["scope"] for body in rows for head in body.all("th")} == {"rowgroup"}
    width = len(table.all("col"))
    for row in table.all("tr", class_="what"):
        assert sum(int(cell.attributes.get("colspan", 1)) for cell in row.children) == width


def test_hostile_words_stay_words(sheet: Sheet, read_page: ReadPage) -> None:
    evil = replace(
        sheet,
        operations=tuple(
            replace(line, title=HOSTILE, detail=HOSTILE, hold=HOSTILE) for line in sheet.operations
        ),
        figures={
            name: replace(figure, label=HOSTILE, value=HOSTILE if figure.quantity == "text" else figure.value)
            for name, figure in sheet.figures.items()
        },
    )
    root = read_page(render_page(evil))
    assert [one.attributes["type"] for one in root.all("script")] == ["application/json"]
    assert root.all("span", class_="title")[1].text.startswith("</td><script>")
