"""Knurling, polishing, and the thread, whose settings are those of its own sections."""

from __future__ import annotations

from generator.calc.knurling import FORCE_UNKNOWN, blanks, raised, teeth_around
from generator.calc.slenderness import ALONE
from generator.job.operations import Cut, Knurl, Thread
from generator.language.say import later, say
from generator.sheet.head import FACE_WORDS
from generator.sheet.operation_feed import lay_feed
from generator.sheet.operation_result import lay_time
from generator.sheet.operation_speed import lay_speed
from generator.sheet.operation_task import Done, Task, done
from generator.sheet.operation_turn import off_work
from generator.sheet.threading import thread_operation
from generator.sheet.wording import fine_words, length_words
from generator.si import Length

OF_THREAD = {
    "step": "spindle.step",
    "feed": "thread.lead",
    "passes": "passes.count",
    "depth": "passes.first_cut",
    "dial": "passes.travel",
    "force": "passes.largest_force",
    "power": "passes.power",
}
SECOND = later("a sheet works out one thread: write a job of its own for this one")
RAISED = later(
    "a knurling-tool maker's instructions, half the pitch; a textbook of technical drawing, the pitch"
)
NEAR_WHOLE = 0.05  # of a tooth: near enough for the rollers to track


def knurl(task: Task) -> Done:
    """Knurl a length: does its pitch go round the blank in whole teeth."""
    given, lies, system = task.entry.given, task.place, task.bench.system
    assert isinstance(given, Knurl)
    has = task.work.largest(lies.low, lies.high)
    if has is None:
        return off_work(task)
    size = given.from_diameter.si if given.from_diameter else has
    if given.pitch is None:
        task.unknown("teeth", say("teeth around"), "ratio", say("nobody said the pitch of the knurl"))
    else:
        teeth = task.computed(
            "teeth", say("teeth around"), teeth_around(size, given.pitch.si), "ratio", "π × {d} ÷ {pitch}",
            {"d": (size, "length"), "pitch": (given.pitch.si, "length")}, say("geometry"),
        )
        below, above = blanks(size, given.pitch.si)
        if abs(teeth - round(teeth)) > NEAR_WHOLE:
            smaller = say("{below} or ", below=fine_words(below, system)) if below > 0 else ""
            task.find(
                "knurl-pitch", "note",
                say(
                    "A pitch of {pitch} goes {teeth:.2f} times around {size} in {what}. For whole teeth "
                    "turn the blank to {smaller}{above}.",
                    pitch=given.pitch.with_unit, teeth=teeth, size=fine_words(size, system), what=task.what,
                    smaller=smaller, above=fine_words(above, system),
                ),
                given.pitch.where,
            )
        low, high = raised(size, given.pitch.si)
        task.computed(
            "over_knurl",
            say("diameter over the knurl, at most"),
            high,
            "length",
            "{d} + {pitch}",
            {"d": (size, "length"), "pitch": (given.pitch.si, "length")},
            RAISED,
            rounds="up",
            note=say(
                "at least {low}, by how deep the rollers go: measure a trial length",
                low=fine_words(low, system),
            ),
        )
    _check_support(task, lies.high, size)
    step = lay_speed(task, "knurl", size)
    feed = lay_feed(task, "along", "knurl")
    task.unknown("force", say("force of the rollers"), "force", FORCE_UNKNOWN)
    time = lay_time(task, lies.length, feed, step, 1)
    task.remarks.append(
        say("oil it well; look at the track after one turn before feeding on; the blank swells")
    )
    return done(task, size, size, task.work, step=step, feed=feed.usual if feed else None, time=time)


def _check_support(task: Task, far: Length, size: Length) -> None:
    """The rollers press sideways harder than a cutting tool: work with no support beyond them bends."""
    bench = task.bench
    if bench.job.holding.center is not None:
        return
    placed = bench.desk.figures.get("holding.steady.position")
    steady = placed.value if placed is not None and isinstance(placed.value, float) else 0.0
    out, own = far - (steady if steady < far else 0.0), bench.house.stick_out_check
    limit = own.si if own is not None else ALONE
    if out <= limit * size * (1 + 1e-9):
        return
    since = (
        say("the steady rest")
        if 0 < steady < far
        else say("the {face_word}", face_word=FACE_WORDS[bench.job.holding.held.kind])
    )
    task.find(
        "knurl-springs", "check",
        say(
            "{opening} goes to {out} from {since}, {ratio:.1f} diameters; over {limit:g} the pressure of "
            "the rollers bends the work, and may bend it out of what holds it. Bring up a center, knurl it "
            "nearer to a support, or take a tool whose rollers squeeze from both sides.",
            opening=task.opening, out=length_words(out, bench.system), since=since, ratio=out / size,
            limit=limit,
        ),
    )


def polish(task: Task) -> Done:
    """Polish a length: speed, and what never to do."""
    given, lies = task.entry.given, task.place
    assert isinstance(given, Cut)
    has = task.work.largest(lies.low, lies.high)
    if has is None:
        return off_work(task)
    step = lay_speed(task, "polish", has)
    task.unknown("time", say("time under the tool"), "duration", say("polishing goes by eye"))
    task.remarks.append(
        say("cloth on a backing board or in a holder, never in the hand; keep grit off the ways")
    )
    return done(task, has, has, task.work, step=step)


def thread(task: Task) -> Done:
    """The thread: its figures stand in the sections of thread, lathe settings and passes."""
    given, plan, bench = task.entry.given, task.bench.thread, task.bench
    assert isinstance(given, Thread)
    if given is not thread_operation(bench.job):
        task.unknown("time", say("time under the tool"), "duration", SECOND)
        task.remarks.append(SECOND)
        return done(task, None, None, task.work)
    for column, figure in OF_THREAD.items():
        if figure in task.desk.figures:
            task.column(column, figure)
    if plan is None:
        return done(task, None, None, task.work)
    levers, cuts = bench.levers, bench.cuts
    power = task.desk.figures.get("passes.power")
    step = levers.spindle_speed if levers else None
    lines = [line for line in cuts.passes if not line.spring] if cuts else []
    time = None
    if step is not None and cuts is not None:
        each = task.computed(
            "time_each", say("time of one pass"), task.place.length / (plan.lead * step), "duration",
            "{length} ÷ ({lead} × {n})",
            {
                "length": (task.place.length, "length"), "lead": (plan.lead, "fine_length"),
                "n": (step, "spindle_speed"),
            },
            say("arithmetic of the leadscrew"),
        )
        count = len(cuts.passes) * plan.designation.starts
        time = task.computed(
            "time", say("time under the tool"), each * count, "duration", "{passes} × {one pass}",
            {"passes": (float(count), "count"), "one pass": (each, "duration")}, say("arithmetic"),
            note=say("spring passes and all starts counted"),
        )
    else:
        missing = say("the spindle step is unknown") if step is None else say("there are no passes")
        task.unknown("time", say("time under the tool"), "duration", missing)
    task.remarks.append(say("levers, dial, passes: see their own sections"))
    root = plan.root_diameter
    work = task.work.bored(plan.end, plan.start, plan.blank) if plan.internal else task.work.turned(
        plan.end, plan.start, plan.blank, plan.blank
    )
    return done(
        task, plan.blank, root, work, step=step, feed=plan.lead, depths=tuple(line.cut for line in lines),
        force=cuts.largest_force if cuts else None,
        power=power.value if power is not None and isinstance(power.value, float) else None, time=time,
    )
