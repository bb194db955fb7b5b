"""The route: every operation of the job in order, with the settings of this lathe.

`route_section` takes the operations as written, proposes what is missing around a thread that stands alone,
puts them in order, and lets each kind of operation lay its figures. What an operation leaves of the work is
what the next one meets.
"""

from __future__ import annotations

from collections.abc import Callable

from generator.errors import OutsideRange
from generator.job.model import Job
from generator.job.operations import Chamfer, Turn
from generator.job.reading import ReadJob
from generator.language.say import say
from generator.sheet.lines import OperationLine
from generator.sheet.operation_chamfer import chamfer
from generator.sheet.operation_drill import center_drill, drill
from generator.sheet.operation_other import knurl, polish, thread
from generator.sheet.operation_places import band_width, place_of
from generator.sheet.operation_plunge import groove, part_off
from generator.sheet.operation_speed import speed_for, speed_words
from generator.sheet.operation_taper import taper
from generator.sheet.operation_task import Bench, Done, Task, done
from generator.sheet.operation_tool import tool_figure, tool_of
from generator.sheet.operation_turn import bore, face, turn
from generator.sheet.operation_words import SCRATCH, title_of, written_words
from generator.sheet.plans import Route
from generator.sheet.route_entries import NAMES, Entry, proposed, with_steady_at, written
from generator.sheet.route_order import Placed, lay_faults, sorted_route
from generator.sheet.wording import length_words
from generator.sheet.work_so_far import WorkSoFar, work_before
from generator.tables.cutting_speeds import TOOL_WORDS

KINDS: dict[str, Callable[[Task], Done]] = {
    "face": face, "center_drill": center_drill, "turn": turn, "taper": taper, "bore": bore, "drill": drill,
    "groove": groove, "relief": groove, "chamfer": chamfer, "knurl": knurl, "part_off": part_off,
    "polish": polish, "thread": thread,
}
EMPTY = Route((), (), ())


def route_section(read: ReadJob, bench: Bench) -> Route:
    """Lay the figures and findings of every operation; return their plans and the lines of the route."""
    placed = _placed(read, bench)
    if not placed:
        return EMPTY
    placed = _ordered(placed, bench)
    _find_unknown_material(placed, bench)
    plans, lines, works, work = [], [], [], work_before(bench.layout)
    for number, one in enumerate(placed, 1):
        task, made = _compute(number, one, work, bench)
        plans.append(made.plan)
        lines.append(_line(task))
        _find_no_wall(task, work, made.work)
        work = made.work
        works.append(work)
    return Route(tuple(plans), tuple(lines), tuple(works))


def _placed(read: ReadJob, bench: Bench) -> tuple[Placed, ...]:
    """The operations with where they lie; the whole sensible route where the thread stands alone."""
    job, lathe, layout, plan = _job(bench), bench.lathe, bench.layout, bench.thread
    own = written(read)
    entries = proposed(job, own, layout, plan, band_width(job, lathe, layout), bench.system)
    added = [entry for entry in entries if entry.proposed]
    if added:
        if job.order == "as written":
            lay_faults(_lying(own, bench), job, bench.desk)
        named = ", ".join(str(NAMES[entry.name]) for entry in added)
        bench.desk.find(
            "route-proposed", "note",
            say(
                "The job file names only the thread and its relief. The sheet proposes the rest of the "
                "route and marks it as proposed: {named}. Write into operations what is to stand.",
                named=named,
            )
            if len(own) > 1
            else say(
                "The job file names only the thread. The sheet proposes the rest of the route and marks it "
                "as proposed: {named}. Write into operations what is to stand.",
                named=named,
            ),
            read.where("operations"),
        )
    return _lying(entries, bench)


def _job(bench: Bench) -> Job:
    """The job, its steady rest where the sheet has placed it: there its band is turned."""
    placed = bench.desk.figures.get("holding.steady.position")
    at = placed.value if placed is not None and isinstance(placed.value, float) else None
    return with_steady_at(bench.job, at, bench.system)


def _lying(entries: tuple[Entry, ...], bench: Bench) -> tuple[Placed, ...]:
    job, lathe, layout, plan = _job(bench), bench.lathe, bench.layout, bench.thread
    return tuple(Placed(entry, place_of(entry, job, lathe, layout, plan)) for entry in entries)


def _ordered(placed: tuple[Placed, ...], bench: Bench) -> tuple[Placed, ...]:
    """The order as written with what is wrong in it, or the sensible one where the job asks for it."""
    if bench.job.order == "as written":
        lay_faults(placed, bench.job, bench.desk)
        return placed
    better = sorted_route(placed)
    if better != placed:
        bench.desk.find(
            "order-proposed", "note",
            say(
                "The operations stand in the order that the sheet proposes, not in that of the job file: "
                "{operations}.",
                operations=", ".join(one.words for one in better),
            ),
            placed[0].entry.where,
        )
    return better


def _find_unknown_material(placed: tuple[Placed, ...], bench: Bench) -> None:
    """One question about speeds for the whole route."""
    other = ("thread", "center_drill")
    turned = next((one for one in placed if one.name not in other and not one.away), None)
    if bench.material is not None or turned is None:
        return
    task = _task(1, turned, work_before(bench.layout), bench)
    found = speed_for(task, "turn rough")
    bench.desk.find(
        "speed-unknown-material", "check",
        say(
            "The material is unknown: with {steel} materials are turned at {range}. The speeds of the route "
            "are for the hardest to cut. Start there, and go up only when the chips show that it may.",
            steel=TOOL_WORDS[task.tool.steel], range=speed_words(found.low, found.high),
        ),
        turned.entry.where, say("What material is it?"),
    )


def _task(number: int, one: Placed, work: WorkSoFar, bench: Bench) -> Task:
    entry = one.entry
    tool = tool_of(entry, bench.tools, one.place, work, bench.layout.stick_out)
    return Task(number, entry, title_of(entry), one.place, tool, work, bench)


def _compute(number: int, one: Placed, work: WorkSoFar, bench: Bench) -> tuple[Task, Done]:
    """One operation; where a formula does not hold for it, the reason instead."""
    task = _task(number, one, work, bench)
    if not one.away and (one.name != "polish" or task.tool.name):
        task.column("tool")
        bench.desk.lay(tool_figure(task.name("tool"), task.label(say("tool")), task.tool, task.entry))
    try:
        return task, KINDS[one.name](task)
    except OutsideRange as error:
        task.find(
            "operation-range", "check", say(
                "The settings of {what} cannot be worked out: {error}.",
                what=task.what, error=error,
            ),
        )
        return task, done(task, None, None, work)


def _find_no_wall(task: Task, before: WorkSoFar, after: WorkSoFar) -> None:
    """An operation that cuts through to the hole, or through from it."""
    thin = after.cut_through()
    if thin is None or before.cut_through() is not None:
        return
    system = task.bench.system
    task.find(
        "no-wall", "stop",
        say(
            "{opening} leaves no wall: {outside} outside and a hole of {bore} there. Look at both sizes and "
            "where they lie.",
            opening=task.opening, outside=length_words(min(thin.od_low, thin.od_high), system),
            bore=length_words(thin.bore, system),
        ),
        asks=say("Which diameter, which hole, and where?"),
    )


def _line(task: Task) -> OperationLine:
    entry = task.entry
    about = [written_words(entry.given), *task.remarks]
    figures = {key: name for key, name in task.columns.items() if name in task.desk.figures}
    return OperationLine(
        task.number, entry.name, task.title, figures, "; ".join(part for part in about if part),
        _hold(task), entry.proposed, entry.where,
    )


def _hold(task: Task) -> str:
    """The hold point that the job gives, else the usual one of this operation."""
    given, plan, lies = task.entry.given, task.bench.thread, task.place
    if given.hold:
        return given.hold
    if isinstance(given, Turn) and given.band:
        return say("Band round and true: write its runout here: ______")
    if task.entry.name == "relief":
        return say("Width, diameter and corner as in the relief figures")
    if isinstance(given, Chamfer) and given.lead_in:
        return say("The ring goes over it by hand, nothing catches")
    if plan is None:
        return ""
    if task.entry.name in ("turn", "bore") and lies.inside == plan.internal and (
        lies.low < plan.start and plan.end < lies.high
    ):
        return say("Size before threading within its limits, measured cold")
    return SCRATCH if task.entry.name == "thread" else ""
