"""The archive's row of a job: the words and marks that it is found by."""

from __future__ import annotations

from collections.abc import Iterator

from generator.job.lathe import Lathe
from generator.job.model import Chuck, Duty, Job, Mate
from generator.job.operations import Cut
from generator.job.reading import ReadJob
from generator.sheet.model import History
from generator.sheet.threading import thread_operation

NOT_READY = "NOT READY TO RUN"


def archive_row(
    job: Job, lathe: Lathe, status: str, ready: bool, read: ReadJob, findings: tuple[object, ...],
    history: History | None = None,
) -> dict[str, str]:
    """The archive's row of this job; `text` is all that is written in job file and log, for the search."""
    thread = thread_operation(job)
    holding = list(_holding(job))
    superseded = job.superseded_by not in (None, job.job)
    words = [
        job.customer,
        job.asked,
        job.agreed,
        job.drawing,
        *job.notes,
        job.material_known_by,
        job.duty.said if isinstance(job.duty, Duty) else None,
        job.mate.part if isinstance(job.mate, Mate) else None,
        *(section.name for section in job.work),
        lathe.lathe,
        job.mate.thread if isinstance(job.mate, Mate) else None,
        *(operation.name.replace("_", " ") for operation in job.operations),
        *(operation.given.note for operation in job.operations if isinstance(operation.given, Cut)),
        *(text for line in (history.lines if history else ()) for _, text in line.said),
    ]
    return {
        "number": job.job,
        "title": job.title,
        "thread": thread.designation if thread else "",
        "material": job.material,
        "lathe": lathe.name,
        "holding": ", ".join(holding),
        "year": read.path.parent.parent.name,
        "status": "superseded" if superseded else job.status if ready else NOT_READY.lower(),
        "customer": job.customer or "",
        "ready": "yes" if ready else "no",
        "text": " ".join(word for word in words if word),
    }


def _holding(job: Job) -> Iterator[str]:
    """How the work is held and supported, in words that somebody would search for."""
    holding = job.holding
    held = holding.held
    yield held.words
    if isinstance(held, Chuck):
        if held.soft_jaws or held.pie_jaws:
            yield "pie jaws" if held.pie_jaws else "soft jaws"
        if held.reversed:
            yield "reversed jaws"
        if held.inside:
            yield "gripped from inside"
    if holding.steady:
        yield "steady rest"
    if holding.follow_rest:
        yield "follow rest"
    if holding.center:
        yield f"{holding.center} center"
    if holding.behind_spindle:
        yield "through the spindle"
