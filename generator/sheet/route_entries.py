"""The operations of a route before they are computed: from the job file, or proposed.

    Entry       one operation and where it is written
    written     those of the job file, in its order
    proposed    a whole route for a job file that has only the thread
    with_steady_at    the job with the place that the sheet gave its steady rest
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.errors import Location
from generator.job.model import Job
from generator.job.operations import THREAD_ALONE, Bore, Chamfer, Cut, Face, Relief, Thread, Turn
from generator.job.reading import ReadJob
from generator.job.written import Given
from generator.language.say import later, say
from generator.sheet.figure import System
from generator.sheet.layout import Layout
from generator.sheet.plans import ThreadPlan
from generator.si import Length, degree, inch, mm

CHAMFER = 45 * degree         # common practice, no source
NAMES = {  # as a list names them, by their keys
    "face": later("face"), "center_drill": later("center drill"), "turn": later("turn"),
    "taper": later("taper"), "bore": later("bore"), "drill": later("drill"), "groove": later("groove"),
    "chamfer": later("chamfer"), "knurl": later("knurl"), "part_off": later("part off"),
    "polish": later("polish"), "relief": later("relief"), "thread": later("thread"),
}
BAND_OVER = {"inch": 1 / 4 * inch, "mm": 6 * mm}  # a band over the fingers' width; common practice
SAME = 1e-6                   # m


@dataclass(frozen=True)
class Entry:
    """One operation: its key in the job file, what stands under it, its place (proposed ones have none)."""

    name: str
    given: Cut | Relief | Thread
    where: Location | None = None
    proposed: bool = False

    @property
    def line(self) -> str:
        """How a sentence names it: "line 24"; a proposed one by its name."""
        return (
            say("line {line}", line=self.where.line)
            if self.where
            else say("the proposed {operation}", operation=NAMES[self.name])
        )


def written(read: ReadJob) -> tuple[Entry, ...]:
    """The operations of the job file, in its order."""
    return tuple(
        Entry(operation.name, operation.given, read.where(f"operations.{place}"))
        for place, operation in enumerate(read.job.operations)
    )


def proposed(
    job: Job, entries: tuple[Entry, ...], layout: Layout, thread: ThreadPlan | None, band: Length | None,
    system: System,
) -> tuple[Entry, ...]:
    """The whole sensible route around a thread that stands alone in the job file; else what was written.

    Parameters
    ----------
    band : width of the band that the steady rest needs, m; None when it needs none
    """
    if thread is None or not entries or any(entry.name not in THREAD_ALONE for entry in entries):
        return entries
    inside = thread.internal
    before: list[Entry] = [_propose("face", Face(end="right"))]
    if job.holding.center is not None:
        before.append(_propose("center_drill", Cut(end="right")))
    if band is not None and job.holding.steady is not None and isinstance(job.holding.steady.at, Given):
        from_end = layout.stick_out - job.holding.steady.at.si - band / 2
        before.append(_propose("turn", Turn(
            band=True, length=_length(band, system), from_end=_length(max(from_end, 0.0), system)
        )))
    before += _blank(thread, layout, inside, system)
    order = {"relief": 0, "thread": 2}
    own = sorted(entries, key=lambda entry: order[entry.name])
    chamfer = _propose("chamfer", Chamfer(
        end="right", inside=inside, angle=Given(CHAMFER, "45", "angle", "assumed", unit="deg", bare=True)
    ))
    at_end = layout.stick_out - thread.start <= SAME
    reliefs = [entry for entry in own if entry.name == "relief"]
    threads = [entry for entry in own if entry.name == "thread"]
    return (*before, *reliefs, *([chamfer] if at_end else []), *threads)


def with_steady_at(job: Job, at: Length | None, system: System) -> Job:
    """The job with the place (m) that the sheet gave its steady rest; as it is where the file has one."""
    steady = job.holding.steady
    if steady is None or at is None or isinstance(steady.at, Given):
        return job
    placed = steady.model_copy(update={"at": _length(at, system)})
    return job.model_copy(update={"holding": job.holding.model_copy(update={"steady": placed})})


def _blank(thread: ThreadPlan, layout: Layout, inside: bool, system: System) -> list[Entry]:
    """Turn or bore to the size before threading, unless the work has that size already.

    Not the blank of a taper thread: it is cut with the thread's own setting, which `taper_thread` says.
    """
    if thread.profile.taper:
        return []
    far = thread.end if thread.relief_end is None else thread.relief_end
    span = layout.span_at((thread.start + thread.end) / 2)
    length, from_end = thread.start - far, layout.stick_out - thread.start
    if span is None or length <= 0 or from_end < 0:
        return []
    has = span.bore if inside else max(span.od_start, span.od_end)
    if abs(has - thread.blank) <= SAME:
        return []
    sizes = {"diameter": _length(thread.blank, system), "length": _length(length, system)}
    if from_end > SAME:
        sizes["from_end"] = _length(from_end, system)
    return [_propose("bore", Bore(**sizes)) if inside else _propose("turn", Turn(**sizes))]


def _propose(name: str, given: Cut) -> Entry:
    return Entry(name, given, proposed=True)


def _length(value: Length, system: System) -> Given:
    """A length that the sheet proposes, as if it had been written."""
    unit, size, places = ("in", inch, 4) if system == "inch" else ("mm", mm, 3)
    text = f"{value / size:.{places}f}".rstrip("0").rstrip(".")
    return Given(value, text, "length", "assumed", unit=unit, bare=True)
