"""The table of what is still to be cut, as it stands beside the passes."""

from __future__ import annotations

from dataclasses import replace

from generator.render.page import render_page


def rows_of(root):
    table = root.all("table", class_="corrections")[0]
    return [[row.all("th")[0].text, *(cell.text for cell in row.all("td"))] for row in table.all("tr")]


def test_one_column_a_step_in_the_dials_own_numbers(sheet, read_page):
    assert rows_of(read_page(render_page(sheet))) == [
        ["Over wires, over by, in", "0.0010", "0.0100"],
        ["Compound on by, in", "0.0005", "0.0055"],
        ["or cross slide on by, in", "a spring pass", "0.0100"],
        ["Depth, radial, in", "0.0005", "0.0050"],
    ]


def test_it_names_the_size_of_the_last_pass_and_how_a_dial_reads(sheet, read_page):
    said = read_page(render_page(sheet)).all("div", class_="still-to-cut")[0].text
    assert "should leave 2.2748 in over wires" in said
    assert "The cross slide dial reads diameter" in said
    assert "compound dial reads" not in said


def test_inside_a_thread_reads_under(sheet, read_page):
    table = replace(sheet.corrections, reading="between balls")
    inside = replace(sheet, internal=True, corrections=table)
    assert rows_of(read_page(render_page(inside)))[0][0] == "Between balls, under by, in"


def test_straight_in_has_one_dial(sheet, read_page):
    rows = tuple(replace(row, compound=None) for row in sheet.corrections.rows)
    straight = replace(sheet, corrections=replace(sheet.corrections, rows=rows))
    assert [row[0] for row in rows_of(read_page(render_page(straight)))][1] == "Cross slide on by, in"


def test_no_table_where_nothing_that_is_read_follows_the_depth(sheet, read_page):
    assert not read_page(render_page(replace(sheet, corrections=None))).all("table", class_="corrections")


def test_what_is_felt_at_the_trial_has_a_row_each(sheet, read_page):
    (table,) = read_page(render_page(sheet)).all("table", class_="trial-fit")
    assert [row.all("th")[0].text for row in table.all("tbody")[0].all("tr")] == [
        one.felt for one in sheet.trial_fit
    ]
    assert "No number alone orders the last cut" in read_page(render_page(sheet)).text
    assert not read_page(render_page(replace(sheet, trial_fit=()))).all("table", class_="trial-fit")
