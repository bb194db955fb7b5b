"""What stands behind the end of the thread, towards the chuck: a shoulder, a bore's floor, or nothing."""

from __future__ import annotations

from generator.job.model import Job
from generator.job.operations import Bore, Turn
from generator.sheet.layout import Layout, lay_out
from generator.sheet.plans import ThreadPlan
from generator.si import Length

SAME = 1e-9  # m: two sizes closer than this are one


def room_behind(job: Job, thread: ThreadPlan) -> Length | None:
    """How far the work stays as it is behind the thread, until something is in the way (m); None: nothing is.

    Outside that is a larger diameter, by the work's sections or where turning stops; inside a narrower bore,
    or the floor of a blind one.
    """
    layout = lay_out(job)
    walls = _sections(layout, thread) + _ends_of_cuts(job, layout, thread)
    behind = [thread.end - wall for wall in walls if wall <= thread.end + SAME]
    return max(min(behind), 0.0) if behind else None


def _sections(layout: Layout, thread: ThreadPlan) -> list[Length]:
    """Where a section begins, seen from the thread, that is in the way (m)."""
    own = next((span for span in layout.spans if span.start - SAME <= thread.end < span.end - SAME), None)
    if own is None:
        return []
    found = []
    for span in layout.spans:
        if span.end > own.start + SAME:
            continue
        larger = max(span.od_start, span.od_end) > own.od_start + SAME
        if span.bore < own.bore - SAME if thread.internal else larger:
            found.append(span.end)
    return found


def _ends_of_cuts(job: Job, layout: Layout, thread: ThreadPlan) -> list[Length]:
    """Where turning or boring for the thread stops short of the section's own size (m)."""
    own = layout.span_at(max(thread.end - SAME, layout.spans[0].start)) if layout.spans else None
    found = []
    for operation in job.operations:
        given = operation.given
        if operation.thread is not None:
            break
        if not isinstance(given, Bore if thread.internal else Turn) or own is None:
            continue
        if given.length is None or given.diameter is None or given.end == "left":
            continue
        stops = layout.stick_out - (given.from_end.si if given.from_end else 0.0) - given.length.si
        larger = own.od_at(max(thread.end, own.start)) > given.diameter.si + SAME
        left = own.bore < given.diameter.si - SAME if thread.internal else larger
        if left and own.start + SAME < stops:
            found.append(stops)
    return found
