"""Entries of the log that contradict the job, the lathe or each other: findings, each with its question.

    check_log        lays them
    left_out         what a stop does not say of what is needed to pick the thread up
    open_stop        the stop that nothing has taken up yet
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from generator.job.described import described
from generator.job.lathe import Lathe
from generator.job.log import Entry, Setting, Stop
from generator.job.model import Centers, Job
from generator.job.source import LogEntry
from generator.job.written import Given
from generator.language.lists import and_words
from generator.language.say import first_small, say, say_count
from generator.sheet.infeed import CROSS_SLIDE, feeding_dial
from generator.sheet.log_passes import by_words, measured_size, off_the_thread, size_by_wires
from generator.sheet.logged import Logged
from generator.sheet.wording import fine_words
from generator.si import Length, inch, mm

SAME = 1e-9  # m


def check_log(logged: Logged) -> None:
    """Lay what is wrong with the log as a whole, then what is wrong with each entry."""
    log, desk = logged.log, logged.desk
    if log.problems:
        desk.find(
            "log-unread", "check",
            say_count(
                "One entry or line of the log cannot be read and is left out; the part The log says where. "
                "Put it right before going by it.",
                "{count} entries or lines of the log cannot be read and are left out; the part The log says "
                "where. Put it right before going by it.",
                len(log.problems),
            ),
            log.problems[0].location,
        )
    _check_order(logged)
    for one in log.entries:
        _check_operation(one, logged)
        _check_pass(one, logged)
        _check_dials(one, logged)
        _check_measured(one, logged)
    _check_size(logged)
    _check_stops(logged)
    _check_status(logged)


def _check_order(logged: Logged) -> None:
    """Oldest first, and nothing before the work came in."""
    for before, after in pairwise(logged.log.entries):
        if after.entry.at.before(before.entry.at):
            logged.desk.find(
                "log-order", "check",
                say(
                    "The entry of {at} (line {line}) stands after that of {other} (line {other_line}).",
                    at=after.entry.at, line=after.where().line, other=before.entry.at,
                    other_line=before.where().line,
                ),
                after.where("at"), say("Which of the two dates is right?"),
            )
    received = logged.job.received
    first = next((one for one in logged.log.entries if received and one.entry.at.day < received), None)
    if first is not None:
        logged.desk.find(
            "log-received", "check",
            say(
                "The entry of {at} is older than the job: the work came in on {received}.",
                at=first.entry.at, received=received,
            ),
            first.where("at"), say("Which date is right?"),
        )


def _check_operation(one: LogEntry, logged: Logged) -> None:
    said, about = one.entry.operation, logged.about(one.entry)
    if said is None or about.line is not None:
        return
    if about.twins:
        which = and_words(f"{line.number} ({line.title})" for line in about.twins)
        text = say('"{said}" is the name of several operations: {which}.', said=said, which=which)
    else:
        known = ", ".join(f"{line.number} {line.name.replace('_', ' ')}" for line in logged.lines)
        text = (
            say('The job has no operation "{said}": it has {known}.', said=said, known=known) if known
            else say('The job has no operation "{said}": it has none.', said=said)
        )
    logged.desk.find("log-operation", "check", text, one.where("operation"), say("Which operation was it?"))


def _check_pass(one: LogEntry, logged: Logged) -> None:
    number, line = one.entry.pass_, logged.about(one.entry).line
    if number is None:
        return
    if (line is not None and line.name != "thread") or logged.threading is None:
        logged.desk.find(
            "log-pass", "check",
            say(
                "Pass {number} is one of the pass table, but operation {operation} ({title}) cuts no thread.",
                number=number, operation=line.number, title=line.title,
            )
            if line
            else say("Pass {number} is one of the pass table, but this job cuts no thread.", number=number),
            one.where("pass"), say("Which operation was it, or which cut?"),
        )
    elif logged.cuts is not None and number > len(logged.cuts.passes):
        logged.desk.find(
            "log-pass", "check",
            say(
                "The log has a pass {number}; the pass table ends with pass {last}.",
                number=number, last=len(logged.cuts.passes),
            ),
            one.where("pass"), say("Was it one more than planned, and why was it wanted?"),
        )


def _check_dials(one: LogEntry, logged: Logged) -> None:
    """Readings that cannot stand on their dial."""
    entry, line, lathe = one.entry, logged.about(one.entry).line, logged.lathe_at(one)
    if lathe is None:
        return
    blocks: list[tuple[str, Entry | Setting]] = [("", entry)]
    blocks += [(key, block) for key, block in (("stop", entry.stop), ("taken_up", entry.taken_up)) if block]
    for key, block in blocks:
        where = f"{key}." if key else ""
        if line is not None and line.name == "thread":
            _check_reading(block.dial, lathe, logged.infeed_slide, one, f"{where}dial", logged)
        _check_reading(block.cross, lathe, CROSS_SLIDE, one, f"{where}cross", logged)


def _check_reading(
    given: Given | None, lathe: Lathe, slide: str, one: LogEntry, field: str, logged: Logged
) -> None:
    dial = feeding_dial(lathe, slide)
    if given is None or given.si < dial.turn - SAME:
        return
    unit, name = (inch, "in") if lathe.units == "inch" else (mm, "mm")
    turns = "cross_turns" if field.endswith("cross") else "turns"
    logged.desk.find(
        "log-dial", "check",
        say(
            "The {slide} dial goes from 0 to {turn:g} {unit} and begins again; {given} does not stand on "
            "it. Whole turns go under {turns}.",
            slide=slide, turn=dial.turn / unit, unit=name, given=given.with_unit, turns=turns,
        ),
        one.where(field), say("How many whole turns, and what did it read?"),
    )


def _check_measured(one: LogEntry, logged: Logged) -> None:
    """A size of the thread that it cannot have."""
    line, measured = logged.about(one.entry).line, one.entry.measured
    if measured is None or line is None or line.name != "thread":
        return
    off = off_the_thread(measured, logged)
    if off is not None:
        name, given = off
        words = {"over_wires": say("over wires"), "between_balls": say("between balls")}.get(
            name, say("on pitch diameter")
        )
        logged.desk.find(
            "log-measured", "check",
            say(
                "{given} {words} cannot be measured on this thread, neither before nor after its last pass; "
                "it is left out.",
                given=given.with_unit, words=words,
            ),
            one.where(f"measured.{name}"), say("What was measured, and what did it read?"),
        )


def _check_size(logged: Logged) -> None:
    """A thread that measures past its limit where no metal can be put back."""
    name = "thread.over_wires" if size_by_wires(logged) else "thread.pitch_diameter"
    inside = logged.thread is not None and logged.thread.internal
    figure = logged.desk.figures.get(f"{name}.{'max' if inside else 'min'}")
    if figure is None or not isinstance(figure.value, float):
        return
    for one in reversed(logged.threads):
        size = measured_size(one.entry.measured, logged)
        if size is None:
            continue
        past = size - figure.value if inside else figure.value - size
        if past > SAME:
            parts = {
                "size": fine_words(size, logged.system), "by": by_words(logged),
                "past": fine_words(past, logged.system),
            }
            logged.desk.find(
                "log-size", "check",
                say(
                    "The thread last measured {size} {by}, {past} over its largest size. Nothing puts metal "
                    "back: ask before it leaves the lathe.",
                    **parts,
                )
                if inside
                else say(
                    "The thread last measured {size} {by}, {past} under its smallest size. Nothing puts "
                    "metal back: ask before it leaves the lathe.",
                    **parts,
                ),
                one.where("measured"), say("May it be used with the play it has?"),
            )
        return


# -- stops ----------------------------------------------------------------------------------------------


def open_stop(logged: Logged) -> LogEntry | None:
    """The last stop, where the log does not go on after it."""
    left = None
    for one in logged.log.entries:
        if one.entry.taken_up is not None or one.entry.finished or one.entry.pass_ is not None:
            left = None
        if one.entry.stop is not None:
            left = one
    return left


def _check_stops(logged: Logged) -> None:
    stopped = False
    for one in logged.log.entries:
        if one.entry.taken_up is not None and not stopped:
            logged.desk.find(
                "log-taken-up", "check",
                say("The work is taken up on {at}, and the log has no stop before it.", at=one.entry.at),
                one.where("taken_up"), say("When was it stopped, and how were both dials left?"),
            )
        stopped = one.entry.stop is not None or (stopped and one.entry.taken_up is None)
    left = open_stop(logged)
    wanted = left_out(left.entry, logged) if left else []
    if left:
        logged.desk.find(
            "log-stopped", "note",
            say(
                "The work was stopped on {at}. The log says how it was left: set everything the same, and "
                "bring the tool into the groove before it cuts.",
                at=left.entry.at,
            )
            if left.entry.pass_ is None
            else say(
                "The work was stopped on {at} after pass {number}. The log says how it was left: set "
                "everything the same, and bring the tool into the groove before it cuts.",
                at=left.entry.at, number=left.entry.pass_,
            ),
            left.where("stop"),
        )
    if left and wanted:
        logged.desk.find(
            "log-stop", "check",
            say(
                "The work was stopped on {at}, and the log does not say all that is needed to take it up: "
                "{wanted}. Write it down while it can still be read.",
                at=left.entry.at, wanted="; ".join(words for _, words in wanted),
            ),
            left.where("stop"), say("What are they: {keys}?", keys=", ".join(key for key, _ in wanted)),
        )


def left_out(entry: Entry, logged: Logged) -> list[tuple[str, str]]:
    """What the stop of an entry does not say: keys of `stop`, each with what it means."""
    stop = entry.stop
    if stop is None:
        return []
    line = logged.about(entry).line
    of_thread = line is not None and line.name == "thread"
    said = {
        "dial": entry.dial, "cross": entry.cross,
        "over_wires": entry.measured.over_wires if entry.measured else None,
    }
    return [
        (key, words) for key, words in _wanted(logged, of_thread)
        if getattr(stop, key) is None and said.get(key) is None
    ]


def _wanted(logged: Logged, of_thread: bool) -> Iterator[tuple[str, str]]:
    """What a stop has to say on this lathe with this job, in the order of the keys."""
    keys = [*_of_setup(logged.job), *(_of_thread(logged) if of_thread else ())]
    means = described(Stop)
    for name in Stop.model_fields:
        if name in keys:
            words = means.get(name, name).rstrip(".")
            yield name, first_small(words)


def _of_setup(job: Job) -> Iterator[str]:
    """What is the same for any cut."""
    yield from ("jaw_mark", "runout_at_jaws", "runout_at_end", "band", "rust")
    if not isinstance(job.holding.held, Centers):
        yield "stick_out"
    if job.holding.steady is not None:
        yield from ("steady_at", "steady_diameter")


def _of_thread(logged: Logged) -> Iterator[str]:
    """What brings the tool back into the groove."""
    yield from ("dial", "cross", "depth_left", "tool")
    if logged.thread is not None and logged.thread.nose_flat > 0:
        yield "flat"
    if size_by_wires(logged):
        yield "over_wires"
    lathe, levers = logged.lathe, logged.levers
    if lathe.gearbox is not None:
        yield "levers"
    if lathe.change_gears is not None:
        yield "gears"
    if lathe.dial is not None and levers is not None and not levers.keep_half_nuts_closed:
        yield "dial_line"
    if logged.cuts is not None and logged.cuts.infeed_angle > 0:
        yield from ("compound_angle", "compound_towards")


def _check_status(logged: Logged) -> None:
    """The job file and the log say where the job stands; they should say the same."""
    if not logged.log.entries:
        return
    status, last, left = logged.job.status, logged.log.entries[-1], open_stop(logged)
    if left is not None and status not in ("stopped", "scrapped"):
        text = say(
            "The job file says status: {status}; the log says that the work was stopped on {at} and not "
            "taken up since.",
            status=status, at=left.entry.at,
        )
    elif left is None and status == "stopped":
        text = say(
            "The job file says status: {status}; the log says that the work is not stopped.", status=status
        )
    elif last.entry.finished and last.entry.operation is None and status not in ("done", "scrapped"):
        text = say(
            "The job file says status: {status}; the log says that the job was finished on {at}.",
            status=status, at=last.entry.at,
        )
    elif status in ("quoted", "planned"):
        text = say(
            "The job file says status: {status}; the log says that work began on {at}.",
            status=status, at=logged.log.entries[0].entry.at,
        )
    else:
        return
    asks = say("Where does the job stand?")
    logged.desk.find("log-status", "note", text, (left or last).where(), asks)


def size_limits(logged: Logged) -> tuple[Length, Length] | None:
    """Smallest and largest size of the thread, as its passes are measured (m)."""
    name = "thread.over_wires" if size_by_wires(logged) else "thread.pitch_diameter"
    ends = [logged.desk.figures.get(f"{name}.{end}") for end in ("min", "max")]
    values = [one.value for one in ends if one is not None and isinstance(one.value, float)]
    return (values[0], values[1]) if len(values) == 2 else None
