"""The archive's row of a job: what it is found by, counted by, compared with and listed under."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import suppress
from types import MappingProxyType
from typing import Final

from generator.errors import BadDesignation
from generator.job.lathe import Lathe
from generator.job.model import Chuck, Duty, Job, Mate
from generator.job.operations import Cut
from generator.job.reading import ReadJob, ReadLog
from generator.language.say import figure, later, say
from generator.sheet.figure import Figure
from generator.sheet.happened import History
from generator.sheet.lines import Finding, OperationLine
from generator.sheet.row import NOT_READY, WHOLE, ArchiveRow, DayRow, MateIs, ThreadRow, TimeRow
from generator.sheet.threading import thread_operation
from generator.threads.registry import Designation, family_of

# Families whose sizes are names and no diameters: ISO 228-1, ISO 7-1, BS 93, DIN 40430.
NAMED: Final = MappingProxyType({"G": "G {}", "R": "R {}", "BA": "{} BA", "PG": "Pg {}"})
STATUSES: Final = MappingProxyType({  # of a job, as the archive has them
    "quoted": later("quoted"), "planned": later("planned"), "in work": later("in work"),
    "stopped": later("stopped"), "done": later("done"), "scrapped": later("scrapped"),
    "superseded": later("superseded"), "not ready to run": later("not ready to run"),
})


def archive_row(
    read: ReadJob,
    lathe: Lathe,
    ready: bool,
    findings: Iterable[Finding],
    history: History | None = None,
    log: ReadLog | None = None,
    lines: tuple[OperationLine, ...] = (),
    whole: tuple[Figure | None, Figure | None] = (None, None),
) -> ArchiveRow:
    """The archive's row of this job.

    Parameters
    ----------
    lines : the operations of its route
    whole : the estimate of the whole job, and what the log adds up to
    """
    job = read.job
    superseded = job.superseded_by not in (None, job.job)
    return ArchiveRow(
        number=job.job,
        title=job.title,
        year=read.path.parent.parent.name,
        status="superseded" if superseded else job.status if ready else NOT_READY.lower(),
        ready=ready,
        thread=_thread(job),
        material=job.material,
        lathe=lathe.name,
        holding=tuple(_holding(job)),
        customer=job.customer or "",
        duty=tuple(_duty(job)),
        mate=_mate(job),
        findings=tuple(sorted({finding.id for finding in findings})),
        days=tuple(_days(job, log)),
        times=tuple(_times(history, log, lines, whole)),
        text=" ".join(word for word in _words(job, lathe, history) if word),
    )


def _words(job: Job, lathe: Lathe, history: History | None) -> Iterator[str | None]:
    yield from (job.customer, job.asked, job.agreed, job.drawing, *job.notes, job.material_known_by)
    yield job.duty.said if isinstance(job.duty, Duty) else None
    yield job.mate.part if isinstance(job.mate, Mate) else None
    yield from (section.name for section in job.work)
    yield lathe.lathe
    yield job.mate.thread if isinstance(job.mate, Mate) else None
    yield from (operation.name.replace("_", " ") for operation in job.operations)
    yield from (operation.given.note for operation in job.operations if isinstance(operation.given, Cut))
    yield from (text for line in (history.lines if history else ()) for _, text in line.said)


def _thread(job: Job) -> ThreadRow | None:
    operation = thread_operation(job)
    if operation is None:
        return None
    with suppress(BadDesignation):
        found = operation.read()
        return ThreadRow(
            designation=operation.designation,
            family=family_of(found).name,
            size=_size(found),
            nominal=found.nominal * found.unit_si,
            pitch=_pitch(found),
            pitch_si=float(found.pitch) * found.unit_si,
            starts=found.starts,
            hand=operation.hand or found.hand,
            side="inside" if found.internal else "outside",
        )
    return None


def _size(found: Designation) -> str:
    if found.family in NAMED:
        return NAMED[found.family].format(found.nominal_text)
    return f"{found.nominal_text} {'in' if found.unit == 'in' else 'mm'}"


def _pitch(found: Designation) -> str:
    if found.tpi is not None:
        return say("{tpi} per inch", tpi=_plain(float(found.tpi)))
    return f"{_plain(float(found.pitch))} {found.unit}"


def _plain(number: float) -> str:
    return figure(number, ".4f").rstrip("0").rstrip(".,")


def _holding(job: Job) -> Iterator[str]:
    """How the work is held and supported, in words that somebody would search for."""
    holding = job.holding
    held = holding.held
    yield held.words
    if isinstance(held, Chuck):
        if held.soft_jaws or held.pie_jaws:
            yield say("pie jaws") if held.pie_jaws else say("soft jaws")
        if held.reversed:
            yield say("reversed jaws")
        if held.inside:
            yield say("gripped from inside")
    if holding.steady:
        yield say("steady rest")
    if holding.follow_rest:
        yield say("follow rest")
    if holding.center:
        yield say("live center") if holding.center == "live" else say("dead center")
    if holding.behind_spindle:
        yield say("through the spindle")


def _duty(job: Job) -> Iterator[str]:
    duty = job.duty
    if not isinstance(duty, Duty):
        yield say("unknown") if duty is not None else say("not said")
        return
    if duty.people:
        yield say("people depend on it")
    if duty.lifting:
        yield say("lifts")
    if duty.brakes:
        yield say("part of a brake")
    if duty.load is not None:
        yield say("carries a load")
    if duty.pressure is not None:
        yield say("holds pressure")
    if not (duty.people or duty.lifting or duty.brakes or duty.load or duty.pressure):
        yield say("said, nothing of these")


def _mate(job: Job) -> MateIs:
    mate = job.mate
    if mate is None:
        return ""
    if not isinstance(mate, Mate):
        return "unknown"
    if mate.on_bench:
        return "on the bench"
    measured = mate.pitch_diameter or mate.major or mate.minor
    return "measured, not here" if measured else "not seen"


def _days(job: Job, log: ReadLog | None) -> Iterator[DayRow]:
    """When the work came in, was stopped, taken up again and done, oldest first."""
    if job.received is not None:
        yield DayRow(str(job.received), "received")
    for one in log.entries if log else ():
        day, entry = str(one.entry.at.day), one.entry
        if entry.taken_up is not None:
            yield DayRow(day, "taken up")
        if entry.stop is not None:
            yield DayRow(day, "stopped")
        if entry.finished and entry.operation is None:
            yield DayRow(day, "done")


def _times(
    history: History | None, log: ReadLog | None, lines: tuple[OperationLine, ...],
    whole: tuple[Figure | None, Figure | None],
) -> Iterator[TimeRow]:
    """The times of the log beside the plan's, by kind of work; of a job that is done the whole, too."""
    names = {line.number: line.name.replace("_", " ") for line in lines}
    for one in history.times if history else ():
        yield TimeRow(names[one.number], one.planned, one.taken)
    planned, taken = (figure.value if figure else None for figure in whole)
    done = any(one.entry.finished and one.entry.operation is None for one in (log.entries if log else ()))
    if done and isinstance(taken, float):
        yield TimeRow(WHOLE, planned if isinstance(planned, float) else None, taken)
