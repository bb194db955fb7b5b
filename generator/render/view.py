"""A sheet as finished strings, in the order of the page: what the templates get, and all they get.

Cell                      a figure to be set at the machine
Page                      all of it
view                      Sheet -> Page
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from urllib.parse import quote

from generator.language.say import first_large, later, say
from generator.render.alike_block import AlikeBlock, alike_block
from generator.render.at_machine import AtMachine, at_machine
from generator.render.compare_table import CompareTable, compare_table
from generator.render.correction_table import CorrectionBlock, correction_block
from generator.render.customer_page import CustomerPage, customer_page
from generator.render.figure_line import FigureLine, figure_lines
from generator.render.formats import Written, limits_written, written
from generator.render.inspection_rows import InspectionRow, inspection_rows
from generator.render.lesson_rows import LessonBlock, lesson_block
from generator.render.log_view import LogBlock, log_block
from generator.render.not_said import AssumedLine, assumed_lines, missing_lines
from generator.render.pass_table import PassTable, dial_system, pass_table, size_system
from generator.render.route_table import RouteTable, route_table
from generator.render.step_rows import StepRow, step_rows
from generator.sheet.explained_at import finding_place
from generator.sheet.figure import Kind
from generator.sheet.happened import TakeUpCard
from generator.sheet.lines import LEVEL_WORDS, SIGNAL_WORDS, Caution, Finding, FitRow
from generator.sheet.model import Conceded, Section, Sheet, TitleField
from generator.sheet.other_lathes import Comparison, NotCompared
from generator.sheet.take_up_elsewhere import CHANGES, Elsewhere, elsewhere

NOT_READY = later("NOT READY TO RUN")
REVISION = later("Revision")  # the field of the title block that stands on every page, too
WIDE_TEXT = 18  # characters at 4 mm capitals that fit one of three columns
SET_FIRST = ("lathe", "relief")  # sections that stand before the pass table
HOLDING = ("holding", "grip", "give", "thin", "handling", "heat", "strength")  # as the work is held, then cut
CUTTING = ("passes", "thread")
LAST_SECTION = "job"
LOG = "log"  # its figures stand with the log

TOP = "../../"  # from a sheet to the top of the site


@dataclass(frozen=True)
class Cell:
    """A figure to be set at the machine, or two limits of one size; `wide` where it needs two columns.

    `name` is its label without the word that it has two limits.
    """

    name: str
    label: str
    first: str
    second: str
    note: str
    wide: bool
    lines: tuple[FigureLine, ...]


@dataclass(frozen=True)
class FindingLine:
    """A finding with its level as a word, the line of the file that it points at, and its explanation."""

    level: str
    word: str
    text: str
    where: str
    asks: str
    explained: str


@dataclass(frozen=True)
class Block:
    """A section of figures; `caution`, its figure of that name, is what must be read before them."""

    id: str
    title: str
    lines: tuple[FigureLine, ...]
    remarks: tuple[str, ...]
    caution: str = ""


@dataclass(frozen=True)
class PictureLine:
    """A picture with its address beside the page, what it shows, and its pixels."""

    address: str
    caption: str
    width: int
    height: int


@dataclass(frozen=True)
class Page:
    """The whole page as finished strings and flags; `explained` leads to where the site explains figures."""

    job: str
    revision: str
    title: str
    thread: str
    hand: str
    left_hand: bool
    ready: bool
    title_block: tuple[TitleField, ...]
    summary: str
    findings: tuple[FindingLine, ...]
    questions: tuple[str, ...]
    cautions: tuple[Caution, ...]
    missing: tuple[str, ...]
    assumed: tuple[AssumedLine, ...]
    cells: tuple[Cell, ...]
    route: RouteTable | None
    set_first: tuple[Block, ...]
    blocks: tuple[Block, ...]
    passes: PassTable | None
    no_passes_because: tuple[str, ...]
    steps: tuple[StepRow, ...]
    pictures: tuple[PictureLine, ...]
    superseded_by: str
    superseded_link: str
    for_customer: CustomerPage
    inspection: tuple[InspectionRow, ...]
    over_wires: str
    corrections: CorrectionBlock | None
    trial_fit: tuple[FitRow, ...]
    at_machine: AtMachine = field(repr=False)
    appendix: tuple[FigureLine, ...] = field(repr=False)
    other_lathes: CompareTable | None = None
    not_compared: tuple[str, ...] = ()
    log: LogBlock | None = None
    log_figures: Block | None = None
    conceded: tuple[Conceded, ...] = ()
    lessons: LessonBlock = field(default_factory=LessonBlock)
    take_up: TakeUpCard | None = None
    take_up_elsewhere: tuple[Elsewhere, ...] = ()
    take_up_changes: str = ""
    alike: AlikeBlock | None = None
    explained: str = ""


def may_run(sheet: Sheet) -> bool:
    """True when the sheet is ready and nothing on it says stop."""
    return sheet.ready and not any(finding.level == "stop" for finding in sheet.findings)


def view(sheet: Sheet, compared: Comparison | NotCompared | None = None) -> Page:
    """Turn a sheet, and what was found on the other lathes, into the strings and flags of its page."""
    ready = may_run(sheet)
    lines = figure_lines(sheet)
    blocks = {section.id: _block(section, lines) for section in sheet.sections}
    ordered = sorted(blocks, key=_section_rank)
    stops = tuple(finding.text for finding in sheet.findings if finding.level == "stop")
    hand = _hand(sheet)
    route = route_table(sheet, lines)
    passes = pass_table(sheet) if ready and sheet.passes else None
    steps = step_rows(sheet, {row.number: row.done for row in route.rows} if route else {})
    record = inspection_rows(sheet)
    others = elsewhere(sheet, compared) if isinstance(compared, Comparison) else ()
    return Page(
        job=sheet.job,
        revision=next((field.text for field in sheet.title_block if str(field.label) == str(REVISION)), ""),
        title=sheet.title,
        thread=_text_of(sheet, "thread.designation"),
        hand=hand,
        left_hand=_is_left(sheet),
        ready=ready,
        title_block=sheet.title_block,
        summary=_summary(sheet),
        findings=tuple(_finding_line(finding) for finding in sheet.findings),
        questions=tuple(finding.asks for finding in sheet.findings if finding.asks),
        cautions=sheet.cautions,
        missing=missing_lines(sheet),
        assumed=assumed_lines(sheet, lines),
        cells=figure_cells(sheet, sheet.key_figures, lines),
        route=route,
        set_first=tuple(blocks[id] for id in ordered if id in SET_FIRST),
        blocks=tuple(blocks[id] for id in ordered if id not in (*SET_FIRST, LOG)),
        passes=passes,
        no_passes_because=stops or (say("The job cuts no thread."),),
        steps=steps,
        pictures=tuple(_picture_lines(sheet)),
        superseded_by=sheet.successor.number if sheet.successor else "",
        superseded_link=_successor_link(sheet),
        for_customer=customer_page(sheet),
        inspection=record,
        over_wires=_over_wires(sheet),
        corrections=correction_block(sheet) if ready else None,
        trial_fit=sheet.trial_fit,
        at_machine=at_machine(sheet, lines, steps, route, passes, record),
        appendix=tuple(lines.values()),
        other_lathes=compare_table(compared) if isinstance(compared, Comparison) else None,
        not_compared=tuple(map(first_large, compared.reasons)) if isinstance(compared, NotCompared) else (),
        log=log_block(sheet, dial_system(sheet), size_system(sheet)),
        log_figures=blocks.get(LOG),
        conceded=sheet.conceded,
        lessons=lesson_block(sheet),
        take_up=sheet.take_up,
        take_up_elsewhere=others,
        take_up_changes=CHANGES if any(one.may for one in others) else "",
        alike=alike_block(sheet.index),
        explained=TOP,
    )


def _picture_lines(sheet: Sheet) -> Iterable[PictureLine]:
    """The pictures; one without a caption is called by its name."""
    for picture in sheet.pictures:
        caption = picture.caption or picture.path.name
        yield PictureLine(quote(f"{sheet.slug}/{picture.name}"), caption, picture.width, picture.height)


def _successor_link(sheet: Sheet) -> str:
    """The page of the sheet that supersedes this one, from this one; empty where there is none."""
    newer = sheet.successor
    return quote(f"../{newer.year}/{newer.folder}.html") if newer and newer.folder else ""


def finding_where(finding: Finding, fallback: str = "") -> str:
    """The file and line that a finding points at, as ``job.yml:21``."""
    if finding.where is None:
        return fallback
    return f"{finding.where.path.name}:{finding.where.line}"


def _section_rank(id: str) -> int:
    order = (*SET_FIRST, *HOLDING, *CUTTING)
    return order.index(id) if id in order else len(order) + (id == LAST_SECTION)


def _hand(sheet: Sheet) -> str:
    """The hand of the thread; in question where the job file contradicts itself."""
    figure = sheet.figures.get("thread.hand")
    if figure is not None and figure.kind is Kind.UNKNOWN:
        return say("hand in question")
    return _text_of(sheet, "thread.hand")


def _is_left(sheet: Sheet) -> bool:
    """True for a left-hand thread; not where its hand is in question."""
    figure, thread = sheet.figures.get("thread.hand"), sheet.index.thread
    return figure is not None and figure.value is not None and thread is not None and thread.hand == "left"


def _text_of(sheet: Sheet, name: str) -> str:
    figure = sheet.figures.get(name)
    return "" if figure is None else written(figure, sheet.system).text


def _block(section: Section, lines: dict[str, FigureLine]) -> Block:
    title = str(section.title)
    if section.id == "passes":
        title = say("{title}: how they were found", title=title)
    first = f"{section.id}.caution"
    figures = tuple(lines[name] for name in section.figures if name != first)
    caution = lines[first].first if first in section.figures else ""
    return Block(section.id, title, figures, section.remarks, first_large(caution))


def _finding_line(finding: Finding) -> FindingLine:
    return FindingLine(
        finding.level, str(LEVEL_WORDS[finding.level]), finding.text, finding_where(finding), finding.asks,
        TOP + finding_place(finding.id),
    )


def _summary(sheet: Sheet) -> str:
    """What stands under "Before starting", counted, for the first page."""
    levels = Counter(finding.level for finding in sheet.findings)
    signals = Counter(caution.signal for caution in sheet.cautions)
    counts = [f"{levels[level]} {word}" for level, word in LEVEL_WORDS.items() if levels[level]]
    counts += [f"{signals[signal]} {word}" for signal, word in SIGNAL_WORDS.items() if signals[signal]]
    return ", ".join(counts) if counts else say("nothing found")


def figure_cells(
    sheet: Sheet, names: Sequence[str], lines: dict[str, FigureLine]
) -> tuple[Cell, ...]:
    """Figures by name, each in a cell; a maximum and minimum of one size share one."""
    cells: list[Cell] = []
    paired: set[str] = set()
    for name in names:
        if name in paired:
            continue
        stem, _, end = name.rpartition(".")
        partner = {"max": f"{stem}.min", "min": f"{stem}.max"}.get(end, "")
        if partner in names and _is_number(sheet, name) and _is_number(sheet, partner):
            paired.update((name, partner))
            shown = limits_written(sheet.figures[f"{stem}.min"], sheet.figures[f"{stem}.max"], sheet.system)
            size = _without_end(lines[name].label)
            both = (lines[f"{stem}.min"], lines[f"{stem}.max"])
            cells.append(_cell(size, say("{size}, min – max", size=size), shown, both))
        else:
            shown = written(sheet.figures[name], sheet.system)
            cells.append(_cell(lines[name].label, lines[name].label, shown, (lines[name],)))
    return tuple(cells)


def _without_end(label: str) -> str:
    """The name of a maximum or minimum without that word, which stands behind its last comma."""
    return label.rpartition(",")[0] or label


def _is_number(sheet: Sheet, name: str) -> bool:
    return isinstance(sheet.figures[name].value, int | float)


def _cell(name: str, label: str, shown: Written, lines: tuple[FigureLine, ...]) -> Cell:
    notes = dict.fromkeys(line.note for line in lines if line.note)
    return Cell(name, label, shown.first, shown.second, "; ".join(notes), len(shown.first) > WIDE_TEXT, lines)


def _over_wires(sheet: Sheet) -> str:
    names = ("thread.over_wires.min", "thread.over_wires.max")
    if not all(name in sheet.figures and _is_number(sheet, name) for name in names):
        return ""
    return limits_written(sheet.figures[names[0]], sheet.figures[names[1]], sheet.system).text
