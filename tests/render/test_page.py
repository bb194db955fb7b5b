"""The page of a sheet, and of a job that could not be read."""

from __future__ import annotations

import json
import os
import re
from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise
from math import nan
from pathlib import Path
from typing import Any

import pytest

from generator.errors import Location, Problem
from generator.render.css_words import css_string
from generator.render.page import STANDING_LINE, render_page, render_problem_page
from generator.sheet.figure import Kind
from generator.sheet.lines import Finding
from generator.sheet.model import Section, Sheet, TitleField

ReadPage = Callable[[str], Any]
HOSTILE = (
    """</style><script>alert(1)</script> "q" 'a' \\ {{ 7*7 }} <img src=x onerror=alert(1)> & \n@page{}/*"""
)
GOLDEN = Path(__file__).parent.parent / "golden"
REWRITE = "REWRITE_GOLDEN"  # set it to 1 to write the golden pages anew; review them as a diff


def test_the_page_is_one_article_with_the_job_number(sheet: Sheet, read_page: ReadPage) -> None:
    root = read_page(render_page(sheet))
    assert [(child.tag, child.attributes["data-job"]) for child in root.children] == [("article", "SW-201")]


def test_a_figure_shows_both_units_its_kind_and_its_working(sheet: Sheet, read_page: ReadPage) -> None:
    root = read_page(render_page(sheet))
    row = root.all("tr", id="figure-thread.pitch_diameter.max")[0]
    assert "2.1664 in (55.026 mm)" in row.text
    link = row.all("a")[0]
    assert link.text.startswith("standard")
    (working,) = root.all("li", id=link.attributes["href"].removeprefix("#"))
    assert "= 2.2476 − 0.64951905 × 0.125 = 2.1664 in" in working.text
    assert working.all("small")[0].text == "ASME B1.1"


def test_every_figure_of_the_sheet_leads_to_its_working_and_stands_in_the_appendix(
    sheet: Sheet, read_page: ReadPage
) -> None:
    root = read_page(render_page(sheet))
    shown = {row.attributes.get("id") for row in root.all("tr") if row.all("a")}
    shown |= {one.attributes.get("id") for one in root.all("p", class_="standing")}
    assert {f"figure-{name}" for section in sheet.sections for name in section.figures} <= shown
    ids = [item.attributes["id"] for item in root.all("section", class_="appendix")[0].all("li")]
    assert ids == [f"w{number}" for number in range(1, len(sheet.figures) + 1)]


def test_the_number_beside_a_figure_is_that_of_its_working(sheet: Sheet, read_page: ReadPage) -> None:
    root = read_page(render_page(sheet))
    appendix = root.all("section", class_="appendix")[0].all("li")
    for table in root.all("table", class_="figures"):
        for row in table.all("tbody")[0].all("tr"):
            number = row.all("i")[0].text
            label = row.all("th")[0].words[0]
            assert row.all("a")[0].attributes["href"] == f"#w{number}"
            assert appendix[int(number) - 1].text.partition(label)[0] in ("", f"{row.all('b')[0].text} ")


@pytest.mark.parametrize("kind", list(Kind))
def test_how_a_figure_is_known_is_said_in_a_word(sheet: Sheet, kind: Kind, read_page: ReadPage) -> None:
    changed = replace(
        sheet.figures["thread.depth"],
        kind=kind,
        value=None if kind is Kind.UNKNOWN else 0.002,
        source="measured by M. with a scale",
    )
    root = read_page(render_page(replace(sheet, figures={**sheet.figures, "thread.depth": changed})))
    word = root.all("tr", id="figure-thread.depth")[0].all("a")[0].text.lower()
    assert word.startswith(kind.value.removeprefix("from a "))
    if kind is Kind.MEASURED:
        assert word.count("measured") == 1
        assert "m. with a scale" in word


def test_limits_stand_together_among_the_figures_for_the_machine(sheet: Sheet, read_page: ReadPage) -> None:
    values = [cell.text for cell in read_page(render_page(sheet)).all("p", class_="value")]
    assert "2.2667 – 2.2747 in" in values
    assert "2.2326 – 2.2476 in" in values
    assert {"32 rpm", "8 tpi", "any line", "29.5°", "5.6 s"} <= set(values)


# The pass table


def test_the_pass_table_has_a_row_for_each_pass_and_room_for_what_was_cut(
    sheet: Sheet, read_page: ReadPage
) -> None:
    rows = read_page(render_page(sheet)).all("table", class_="pass-table")[0].all("tbody")[0].all("tr")
    assert [row.all("th")[0].text for row in rows] == [str(number) for number in range(1, 13)]
    assert all(row.all("td")[-1].text == "" for row in rows)
    assert [row.all("td", class_="marks")[0].text for row in rows[-3:]] == [
        "MEASURE", "MEASURE TRY THE MATE", "spring MEASURE",
    ]  # fmt: skip


def test_over_wires_is_a_dash_while_the_wires_do_not_seat(sheet: Sheet, read_page: ReadPage) -> None:
    rows = read_page(render_page(sheet)).all("table", class_="pass-table")[0].all("tbody")[0].all("tr")
    assert [row.all("td")[4].text for row in (rows[0], rows[-1])] == ["–", "2.2748"]


def test_only_a_long_pass_table_may_be_split(
    sheet: Sheet, with_passes: Callable[[Sheet, int], Sheet], read_page: ReadPage
) -> None:
    for count, long in ((26, False), (27, True)):
        root = read_page(render_page(with_passes(sheet, count)))
        assert bool(root.all("section", class_="long")) is long


# How the work is held


def test_a_plot_has_its_sentence_and_a_table_of_its_values(sheet: Sheet, read_page: ReadPage) -> None:
    root = read_page(render_page(sheet))
    shown = root.all("section", class_="plot")
    assert [plot.all("h3")[0].text for plot in shown] == [scene.title for scene in sheet.plots]
    for plot, scene in zip(shown, sheet.plots, strict=True):
        assert len(plot.all("svg")) == 1
        assert plot.all("p", class_="says")[0].text == scene.says
        table = plot.all("table")[0]
        assert [row.all("th")[0].text for row in table.all("tbody")[0].all("tr")] == [
            word for word, _ in scene.rows
        ]
        assert len(table.all("thead")[0].all("th")) == len(scene.heads)


def test_a_plot_without_a_known_point_is_left_out(sheet: Sheet, read_page: ReadPage) -> None:
    unknown = replace(sheet.plots[0], curves=(replace(sheet.plots[0].curves[0], points=((nan, nan),)),))
    assert not read_page(render_page(replace(sheet, plots=(unknown,)))).all("section", class_="plots")
    assert not read_page(render_page(replace(sheet, plots=()))).all("section", class_="plots")


def test_the_caution_on_strength_stands_before_its_figures(sheet: Sheet, read_page: ReadPage) -> None:
    block = read_page(render_page(sheet)).all("section", aria_labelledby="section-strength")[0]
    order = [child.tag for child in block.children]
    assert order == ["h2", "p", "table", "ul"]
    said = "Not a design check: a competent person decides."
    assert block.all("p", id="figure-strength.caution")[0].text == said
    rows = block.all("tbody")[0].all("tr")
    assert [row.attributes["id"] for row in rows] == ["figure-strength.wall.relief"]


# Not ready


def test_a_sheet_with_a_stop_says_not_ready_in_its_title_block_and_prints_no_passes(
    stopped: Sheet, read_page: ReadPage
) -> None:
    root = read_page(render_page(stopped))
    assert "NOT READY TO RUN" in root.all("header", class_="title-block")[0].text
    assert not root.all("table", class_="pass-table")
    passes = root.all("section", class_="passes")[0].text
    assert "No pass table." in passes
    assert "The wall left at the relief is 0.201 in" in passes
    assert "NOT\\20 READY" in root.all("style")[0].text or "NOT READY TO RUN" in root.all("style")[0].text


def test_a_stop_finding_stops_the_sheet_whatever_else_it_claims(sheet: Sheet, read_page: ReadPage) -> None:
    claimed = replace(sheet, findings=(Finding("x", "stop", "Do not run it."),))
    root = read_page(render_page(claimed))
    assert "NOT READY TO RUN" in root.all("header")[0].text
    assert not root.all("table", class_="pass-table")


def test_a_ready_sheet_does_not_say_not_ready(sheet: Sheet) -> None:
    assert "NOT READY" not in render_page(sheet)


# Before starting, safety


def test_findings_carry_their_level_as_a_word_and_questions_have_room_for_an_answer(
    stopped: Sheet, read_page: ReadPage
) -> None:
    root = read_page(render_page(stopped))
    levels = [level.text for level in root.all("strong", class_="level")]
    assert levels == ["STOP", "CHECK", "NOTE"]
    questions = root.all("table", class_="questions")[0].all("tbody")[0].all("tr")
    assert [row.all("td")[0].text for row in questions] == ["", ""]


def test_cautions_have_a_signal_word_and_the_alert_symbol_is_for_people_only(
    sheet: Sheet, read_page: ReadPage
) -> None:
    root = read_page(render_page(sheet))
    assert [panel.text for panel in root.all("p", class_="signal")] == ["WARNING", "WARNING", "NOTICE"]
    css = (Path(__file__).parents[2] / "site_templates/css/sheet.css").read_text(encoding="utf-8")
    assert ".sheet .caution.notice .alert { display: none; }" in css


def test_every_page_says_that_it_is_no_certificate(sheet: Sheet, stopped: Sheet) -> None:
    standing = STANDING_LINE.replace("'", "&#39;")
    for page in (render_page(sheet), render_page(stopped), render_problem_page("X", [])):
        assert standing in page


# Form


def test_headings_are_in_order_ids_single_and_tables_labelled(
    stopped: Sheet, sheet: Sheet, read_page: ReadPage
) -> None:
    for page in (sheet, stopped):
        root = read_page(render_page(page))
        levels = [int(element.tag[1]) for element in root.all() if re.fullmatch(r"h[1-6]", element.tag)]
        assert levels[0] == 1
        assert levels.count(1) == 1
        assert all(after <= before + 1 for before, after in pairwise(levels))
        ids = [element.attributes["id"] for element in root.all() if "id" in element.attributes]
        assert len(ids) == len(set(ids))
        for element in root.all():
            for target in element.attributes.get("aria-labelledby", "").split():
                assert target in ids
            if element.tag == "a" and not element.attributes["href"].startswith("../../"):
                assert element.attributes["href"].removeprefix("#") in ids
        for table in root.all("table"):
            assert table.all("caption")[0].text
            rows = [row.all("th") for body in table.all("tbody") for row in body.all("tr")]
            first = [id(heads[0]) for heads in rows if len(heads) == 1]  # HTML, 4.9.12.2: the head of its row
            assert all("scope" in head.attributes or id(head) in first for head in table.all("th"))


def test_hostile_words_stay_words(sheet: Sheet, read_page: ReadPage) -> None:
    figures = {
        name: replace(figure, label=HOSTILE, note=HOSTILE, source=HOSTILE)
        for name, figure in sheet.figures.items()
    }
    figures["thread.designation"] = replace(figures["thread.designation"], value=HOSTILE)
    evil = replace(
        sheet, job=HOSTILE, title=HOSTILE, figures=figures, pass_dial=HOSTILE, pass_remarks=(HOSTILE,),
        title_block=(TitleField(HOSTILE, HOSTILE),),
        findings=(Finding("x", "check", HOSTILE, asks=HOSTILE),),
        sections=(*sheet.sections, Section("extra", HOSTILE, (), (HOSTILE,))),
    )  # fmt: skip
    page = render_page(evil)
    root = read_page(page)
    (data,) = root.all("script")  # figures for the page's own scripts, not a script
    assert data.attributes["type"] == "application/json"
    assert not set("<>&\u2028\u2029") & set("".join(data.words))
    assert json.loads("".join(data.words))["job"] == HOSTILE
    assert not root.all("img")
    assert len(root.all("style")) == 1
    assert root.all("article")[0].attributes["data-job"].split() == HOSTILE.split()
    assert "49" not in root.all("h1")[0].text
    assert (
        render_problem_page(HOSTILE, [Problem(Location(Path(HOSTILE)), HOSTILE, HOSTILE, HOSTILE)]).count(
            "<style>"
        )
        == 1
    )


@pytest.mark.parametrize(
    "text", ['a"b', "a\\", "</style>", "a\nb", "<!--", "ä Ø 2½ …", "{}", "\x00", "a\\22 "]
)
def test_a_css_string_can_end_neither_itself_nor_the_style(text: str) -> None:
    inside = css_string(text)[1:-1]
    assert not set(inside) & set('"<>\n\r{}')
    assert re.fullmatch(r"(?:[^\\]|\\[0-9a-f]+ )*", inside)


def test_long_words_are_cut_to_fit_the_margin() -> None:
    assert len(css_string("x" * 500)) < 80


# Files that could not be read


def test_a_problem_shows_where_what_and_the_line_with_a_caret(read_page: ReadPage) -> None:
    line = "  - thread: {length: 30}"
    problem = Problem(Location(Path("jobs/x/job.yml"), 17, 22), "operations.2.thread.length",
                      "“30” has no unit; write 30 mm or 30 in", line)  # fmt: skip
    root = read_page(
        render_problem_page("SW-9", [problem, Problem(Location(Path("jobs/x/job.yml")), "", "empty")])
    )
    first, second = root.all("ol")[0].all("li")
    assert "jobs/x/job.yml:17:22" in first.text
    assert "operations.2.thread.length: “30” has no unit; write 30 mm or 30 in" in first.text
    shown, caret = "".join(first.all("pre")[0].words).split("\n")
    assert shown == line
    assert shown[len(caret) - 1 :] == "30}"
    assert not second.all("pre")
    assert "NOT READY TO RUN" in root.text
    assert "2 things to put right" in root.text


def test_a_caret_stays_under_its_column_behind_a_tab(read_page: ReadPage) -> None:
    problem = Problem(Location(Path("job.yml"), 1, 3), "", "a tab", "\t\tx: 1")
    pre = read_page(render_problem_page("SW-9", [problem])).all("pre")[0]
    assert "".join(pre.words).split("\n") == ["\t\tx: 1", "\t\t^"]


# Whole pages


@pytest.mark.parametrize("name", ["ready", "stopped", "problems"])
def test_the_page_is_as_it_was(name: str, sheet: Sheet, stopped: Sheet) -> None:
    problem = Problem(Location(Path("jobs/x/job.yml"), 3, 8), "received",
                      "“1:30” is no date; write 2026-05-11", "received: 1:30")  # fmt: skip
    pages = {
        "ready": lambda: render_page(sheet),
        "stopped": lambda: render_page(stopped),
        "problems": lambda: render_problem_page("SW-9", [problem]),
    }
    made = pages[name]() + "\n"
    golden = GOLDEN / f"page-{name}.html"
    if os.environ.get(REWRITE):
        golden.parent.mkdir(exist_ok=True)
        golden.write_text(made, encoding="utf-8", newline="\n")
    assert golden.read_text(encoding="utf-8") == made


def test_the_same_sheet_gives_the_same_bytes(sheet: Sheet) -> None:
    assert render_page(sheet) == render_page(sheet)


def test_a_page_that_stands_alone_leads_to_no_explanation(sheet: Sheet, stopped: Sheet) -> None:
    for page in (sheet, stopped):
        pictures = {one.name: "data:," for one in page.pictures}
        of_site, alone = render_page(page), render_page(page, alone=pictures)
        assert 'class="explains" href="../../help/findings/' in of_site
        assert 'data-explained="../../"' in of_site
        assert "../../" not in alone
        assert "explains" not in alone
