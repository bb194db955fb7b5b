"""One printed page of a job, to hand a setup over on paper.

    paper_page    a sheet and the job file it was made from -> a whole HTML page, nothing beside it

The page has room for one side of A4 or Letter. What may be long is cut short to a number of lines, and the
page says so where it is: the code has all of it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import ceil, floor
from typing import Final

from markupsafe import Markup

from generator.language.say import figure, later, say
from generator.language.spoken import spoken
from generator.render.environment import environment, templates_folder
from generator.render.figure_line import figure_lines
from generator.render.formats import written
from generator.render.page import STANDING_LINE
from generator.render.paper_code import paper_code
from generator.render.pass_table import PassRow
from generator.render.view import Cell, Page, figure_cells, view
from generator.sheet.lines import SIGNAL_WORDS
from generator.sheet.model import Sheet

MARK: Final = "<!-- A setup on one page, written by the command paper, which may replace it. -->"
STYLE: Final = "paper/paper.css"

LATHE: Final = later("Lathe")
FIELDS: Final = (
    later("Legal owner"),
    later("Customer"),
    later("Drawing"),
    later("Revision"),
    later("Status"),
    later("Date of issue"),
    later("Creator"),
    later("Approval person"),
    LATHE,
)
NOTHING: Final = (later("none"), later("unknown"), "________")  # a field that says no more needs no room
THREAD: Final = (
    "thread.major.max", "thread.major.min", "thread.pitch_diameter.max", "thread.pitch_diameter.min",
    "thread.minor.max", "thread.minor.min", "thread.over_wires.max", "thread.over_wires.min",
    "thread.between_balls.max", "thread.between_balls.min", "thread.wire.size", "thread.blank",
    "thread.length", "thread.depth", "relief.width", "relief.diameter",
)
HELD: Final = (
    "job.material", "work.length", "holding.grip", "holding.stick_out", "holding.steady.position",
    "holding.steady.diameter", "holding.weight",
)
SET: Final = (
    "spindle.step", "lathe.gearbox", "lathe.change_gears", "lathe.thread_dial",
    "lathe.thread_dial.next_start", "passes.infeed_angle", "passes.travel",
)

LINE: Final = 122  # characters of 8 pt that fit the width, a little less than fit on the average
ROUTE_LINES: Final = 3
LONGEST_FIELD, LONGEST_TITLE, LONGEST_VALUE, LONGEST_LEFT_OUT = 40, 90, 90, 500
# What takes room on the paper, mm; a little more than it does.
HEIGHTS: Final = {"A4": 276.0, "Letter": 258.0}
HEAD, STOPPED, STANDING, HEADING, TEXT_LINE, ROW, UNDER_CODE = 26.0, 8.0, 6.0, 6.5, 3.6, 4.2, 15.0
COLUMN_LINE, FOOT_LINE = 54, 44  # characters that fit a line of a group, and of the words beside the code
LEAST_LINES: Final = 3  # for findings, however little room is left
MOST_PASSES: Final = 40
ENDS: Final = 3  # passes at the end of a table that is cut short


@dataclass(frozen=True)
class Warned:
    """A finding or caution in brief: its word, what it says, and what to do where there is room."""

    word: str
    text: str
    more: str = ""


@dataclass(frozen=True)
class BriefPass:
    """One pass: number, what the dial shows, and what is done after it."""

    number: str
    reading: str
    marks: str


def paper_page(sheet: Sheet, data: bytes, left_out: Sequence[str], stays: Sequence[str], paper: str) -> str:
    """The page.

    Parameters
    ----------
    sheet : as computed from `data`
    data : the job file that the code holds
    left_out : in words, what is private to the customer and neither on the page nor in the code
    stays : in words, what of the job does not go on paper at all
    paper : "A4" or "Letter"
    """
    page, lines, code = view(sheet), figure_lines(sheet), paper_code(data)
    wanted, empty = set(map(str, FIELDS)), set(map(str, NOTHING))
    fields = [one for one in page.title_block if str(one.label) in wanted and str(one.text) not in empty]
    passes, gap = _passes(page)
    lathe = next((one.text for one in page.title_block if str(one.label) == str(LATHE)), "")

    def cells(names: Sequence[str]) -> list[tuple[str, str, str]]:
        return _cells(figure_cells(sheet, [name for name in names if name in sheet.figures], lines))

    groups = [
        (name, rows)
        for name, rows in (
            (say("Thread"), cells(THREAD)), (say("How it is held"), [*_held(sheet), *cells(HELD)]),
            (say("Settings"), cells(SET)),
        )
        if rows
    ]
    route, left = _route(sheet), _short("; ".join(left_out), LONGEST_LEFT_OUT)
    beside = HEADING + ROW * ceil(len(passes) / 2) + TEXT_LINE * (
        5 + sum(_lines(one, FOOT_LINE) for one in (left, *stays, gap))
    )
    head = HEAD if page.ready else HEAD + STOPPED
    room = HEIGHTS[paper] - head - STANDING - 2 * HEADING - max(beside, code.side + UNDER_CODE) - sum((
        HEADING + ROW * max((_rows(rows) for _, rows in groups), default=0),
        TEXT_LINE * (1 + _lines(" · ".join(route))),
    ))
    findings, more_findings, cautions = _warned(page, sheet, floor(room / TEXT_LINE))
    return (
        environment()
        .get_template("paper/page.html")
        .render(
            mark=Markup(MARK),
            style=Markup((templates_folder() / STYLE).read_text(encoding="utf-8").strip()),
            size=Markup(f"@page {{ size: {paper}; }}"),
            page=page,
            title=_short(page.title, LONGEST_TITLE),
            number=_short(page.job, LONGEST_FIELD),
            thread=_short(page.thread, LONGEST_FIELD),
            fields=[(one.label, _short(one.text, LONGEST_FIELD)) for one in fields],
            findings=findings,
            more_findings=more_findings,
            cautions=cautions,
            groups=groups,
            route=route,
            turned=any("+" in one.reading for one in passes),
            pass_dial=_short(sheet.pass_dial, LINE),
            language=spoken().code,
            passes=passes,
            gap=gap,
            lathe=_short(lathe, LONGEST_FIELD),
            code=code,
            side=f"{code.side:g}mm",
            size_said=say("{count:,} bytes", count=len(data)),
            over=figure(code.over, ","),
            left_out=left,
            stays=stays,
            standing_line=STANDING_LINE,
        )
        + "\n"
    )


def _short(text: str, most: int) -> str:
    line = " ".join(str(text).split())
    return line if len(line) <= most else line[: most - 1].rstrip() + "…"


def _lines(text: str, width: int = LINE) -> int:
    return ceil(len(text) / width) or 1


def _rows(cells: Sequence[tuple[str, str, str]]) -> int:
    """The lines that a group of figures takes."""
    return sum(_lines(" ".join(cell), COLUMN_LINE) for cell in cells)


def _warned(page: Page, sheet: Sheet, room: int) -> tuple[list[Warned], str, list[Warned]]:
    """Findings, the worst first, how many have no room, and cautions, in so many lines of text.

    Every caution stands there with its reason; with what to do where there is room for that, too.
    """
    wanted = [
        Warned(one.word, _short(one.text, LINE * 5))
        for level in ("stop", "check") for one in page.findings if one.level == level
    ]
    cautions = [Warned(str(SIGNAL_WORDS[one.signal]), one.because) for one in sheet.cautions]
    shown = list(wanted)
    while _needed(shown) > max(LEAST_LINES, room - _needed(cautions)):
        shown.pop()
    for place, one in enumerate(sheet.cautions):
        whole = [*cautions[:place], replace(cautions[place], more=one.text), *cautions[place + 1 :]]
        if _needed(shown) + _needed(whole) <= room:
            cautions = whole
    rest = len(wanted) - len(shown)
    more = say("{count} more to decide before starting: compute the sheet.", count=rest) if rest else ""
    return shown, more, cautions


def _needed(warned: Sequence[Warned]) -> int:
    return sum(_lines(f"{one.text} {one.more}") for one in warned)


def _cells(cells: Sequence[Cell]) -> list[tuple[str, str, str]]:
    return [
        (
            _short(one.name, LONGEST_VALUE), _short(one.first, LONGEST_VALUE),
            _short(one.second, LONGEST_VALUE),
        )
        for one in cells
    ]


def _held(sheet: Sheet) -> list[tuple[str, str, str]]:
    """What holds the work, in the words of the setup's drawing."""
    scene = sheet.setup_scene
    if scene is None:
        return []
    return [(say("Held by"), _short(str(scene.caption).partition(": ")[2], 2 * LONGEST_VALUE), "")]


def _route(sheet: Sheet) -> list[str]:
    """The operations in order, each with its spindle step, and how many more where there is no room."""
    said: list[str] = []
    for line in sheet.operations:
        step = sheet.figures.get(line.figures.get("step", ""))
        at = f", {written(step, sheet.system).first}" if step and step.value is not None else ""
        said.append(f"{line.number} {_short(line.title, LONGEST_VALUE)}{at}")
    shown = list(said)
    while shown and _lines(" · ".join(shown)) > ROUTE_LINES:
        shown.pop()
    rest = len(said) - len(shown)
    return [*shown, say("and {count} more, in the code", count=rest)] if rest else shown


def _passes(page: Page) -> tuple[list[BriefPass], str]:
    """The readings of the passes; where they are too many, the first and the last, and which are not here."""
    rows = [row for part in page.passes.parts for row in part.rows] if page.passes else []
    turned = any(row.turns != "0" for row in rows)
    brief = [
        BriefPass(row.number, f"{row.turns} + {row.dial}" if turned else row.dial, _brief(row))
        for row in rows
    ]
    if len(brief) <= MOST_PASSES:
        return brief, ""
    first = MOST_PASSES - ENDS
    gap = say(
        "Passes {first} to {last} have no room here: compute the sheet.",
        first=brief[first].number, last=brief[-ENDS - 1].number,
    )
    return [*brief[:first], *brief[-ENDS:]], gap


def _brief(row: PassRow) -> str:
    """What is done after a pass, in small letters."""
    said = (
        (row.spring, say("spring")), (row.measure, say("measure")), (row.try_mate, say("try the mate")),
    )
    return ", ".join(words for flag, words in said if flag)
