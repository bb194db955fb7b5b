"""The blank of a taper thread, at the end where the thread starts, and what the job says of its taper."""

from __future__ import annotations

from generator.job.model import Job
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.layout import Layout
from generator.sheet.plans import ThreadPlan
from generator.sheet.threading import Threading
from generator.si import Length
from generator.threads.sizes import Range, known

PRACTICE = later("common practice, no source")
SAME_TAPER = 1e-4  # of 1: a section's taper written with three or four decimals


def lay_taper_blank(threading: Threading, desk: Desk) -> Length:
    """The turned or bored diameter at the end where the thread starts (m).

    As measured, else as far from the pitch diameter aimed at as the form wants: three quarters of what the
    truncations of the crest allow, so that it goes with this pitch diameter and not with another turn's.
    """
    inside, unit, sizes = threading.designation.internal, threading.unit, threading.limits
    label = say("Bore at the face, before threading") if inside else say("Blank diameter at the small end")
    if threading.operation.blank is not None:
        note = say("measured at the face") if inside else say("measured at the small end")
        return desk.given("thread.blank", label, threading.operation.blank, "length", note=note)
    effective, crest = sizes.pitch_diameter, sizes.minor if inside else sizes.major
    crests, widths = _both(crest), _both(effective)
    low, high = sorted(abs(one - other) for one, other in zip(crests, widths, strict=True))
    height = (high - (high - low) / 4) * unit
    middle = sum(widths) / 2 * unit
    return desk.computed(
        "thread.blank", label, middle - height if inside else middle + height, "length",
        "({d2 max} + {d2 min}) ÷ 2 " + ("−" if inside else "+") + " {crest height, twice}",
        {
            "d2 max": (widths[0] * unit, "length"),
            "d2 min": (widths[1] * unit, "length"),
            "crest height, twice": (height, "length"),
        },
        PRACTICE, note=say("the crests that go with the pitch diameter aimed at; measure it cold"),
        system=threading.system,
    )


def _both(sizes: Range) -> tuple[float, float]:
    """Largest and smallest; the one that is known for both, where no standard gives the other."""
    one = known(sizes.min if sizes.max is None else sizes.max)
    return (one if sizes.max is None else sizes.max), (one if sizes.min is None else sizes.min)


def taper_is_turned(job: Job, layout: Layout, thread: ThreadPlan) -> bool:
    """Whether the work has the taper before the thread is cut: its section, or an operation that turns it."""
    for operation in job.operations:
        if operation.thread is not None:
            break
        if operation.taper is not None:
            return True
    span = layout.span_at((thread.start + thread.end) / 2)
    if span is None or thread.internal:
        return False
    own = (span.od_start - span.od_end) / (span.end - span.start)
    return abs(own - thread.profile.taper) <= SAME_TAPER
