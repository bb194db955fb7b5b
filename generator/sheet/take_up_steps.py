"""The steps of taking a stopped work up, in the order in which they are done."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from generator.job.model import Centers, Job
from generator.language.say import later, say, say_count
from generator.sheet.happened import TakeUpStep
from generator.sheet.log_passes import size_by_wires
from generator.sheet.take_up_left import ENTRIES, Left
from generator.sheet.wording import fine_words, one_unit_words
from generator.si import Length

PRACTICE: Final = later("common practice, no source")
HELD: Final = {
    "chuck": later("The same jaw at the same mark."),
    "collet": later("The same collet, clean, its mark as it was."),
    "faceplate": later("The same clamps at the same marks."),
}
RUNOUTS: Final = ("runout at jaws", "runout at end")


def cutting_steps(left: Left) -> Iterator[TakeUpStep]:
    """The steps from the levers to the least cut."""
    yield from _lead_steps(left)
    yield from _groove_steps(left)


def finished_steps(left: Left) -> Iterator[TakeUpStep]:
    """In place of every cut, where none may be taken."""
    mate = say(" and try the mate") if left.logged.job.mate else ""
    yield TakeUpStep(
        say("Measure"),
        say("Cut nothing: measure the thread{mate}, and decide by that.", mate=mate),
        _measured(left),
    )


def _measured(left: Left) -> tuple[tuple[str, str, bool], ...]:
    """Room for the size that is measured next."""
    return ((ENTRIES["over wires" if size_by_wires(left.logged) else "measured"], "", True),)


def holding_steps(left: Left, runout: Length | None) -> Iterator[TakeUpStep]:
    """Work clean, held as it was, true."""
    job = left.logged.job
    yield TakeUpStep(
        say("Clean it"), say("Thread, band and seats, free of what kept them from rusting."),
        left.values("rust"),
    )
    if isinstance(job.holding.held, Centers):
        yield TakeUpStep(
            say("Between the same centers"),
            say("The dog in the same slot; centers clean.{carried}", carried=_carried(job)),
            left.values("jaw mark"),
        )
    else:
        yield TakeUpStep(
            say("Hold it as it was"), f"{HELD[job.holding.held.kind]}{_carried(job)}",
            left.values("jaw mark", "stick out", anew=("stick out",)),
        )
    if job.holding.steady is not None:
        yield TakeUpStep(
            say("Steady rest"), say("On its band again; fingers touch, do not push; oil, top locked."),
            left.values("steady at", "steady diameter"),
        )
    text = say("Indicate on the band, by hand; true it until it reads as it did.")
    if runout is not None:
        most = one_unit_words(runout, left.logged.lathe.units)
        text += say(" Over {most} the cuts left do not clean up all around.", most=most)
    yield TakeUpStep(
        say("True"), text, left.values("band", *RUNOUTS, anew=RUNOUTS)
    )


def _carried(job: Job) -> str:
    """What else carries the work, apart from the steady rest."""
    between = isinstance(job.holding.held, Centers)
    center = (
        say(" The tailstock center in its hole, clean, as tight as it was.") if job.holding.center else ""
    )
    follow = say(" Follow rest on a clean surface.") if job.holding.follow_rest else ""
    return ("" if between else center) + follow


def _lead_steps(left: Left) -> Iterator[TakeUpStep]:
    """Levers and tool as they were."""
    logged = left.logged
    text = say("As they stood; turned by hand, the carriage goes the right way.")
    yield TakeUpStep(say("Levers and gears"), text, left.values("levers", "gears"))
    thread = logged.thread
    if thread is not None and thread.profile.taper:
        yield TakeUpStep(
            say("Taper"), say("Set as it was, and its slack taken up before the thread begins."),
            ((ENTRIES["set to"], "", True),),
        )
    tool = say("Center height, square by the gauge; slack out of both slides as they feed.")
    if thread is not None and thread.internal:
        tool = say(
            "Center height, square by the gauge, bar clear of the bore; slack out of both slides towards "
            "you, the other way than outside."
        )
    flat = ("flat",) if "flat" in left.said or "flat" in left.wanted else ()
    yield TakeUpStep(
        say("Tool to the gauge"), tool,
        left.values("tool", "flat", "compound angle", "compound towards", anew=flat),
    )


def _groove_steps(left: Left) -> Iterator[TakeUpStep]:
    """Half nuts closed, into the groove, new zero, dry run, the least cut."""
    logged = left.logged
    thread, cuts = logged.thread, logged.cuts
    assert thread is not None
    levers = logged.levers
    closed = levers is None or levers.keep_half_nuts_closed
    yield TakeUpStep(
        say("Half nuts closed"),
        say(
            "Closed once, and not opened again to the end. Tool clear. Turn the spindle forward only, a few "
            "turns, to take the slack out; stop over the thread, and turn nothing back."
        )
        if closed
        else say(
            "Tool clear. Turn the spindle forward only, a few turns, to take the slack out; stop over the "
            "thread, and turn nothing back."
        ),
        left.values("dial line"),
    )
    lies = say("evenly on both flanks")
    if thread.flanks.square:
        lies = say("in the middle of the groove, free on both sides")
    slides = say("both slides")
    if cuts is not None and cuts.slide == "cross slide":
        slides = say("the cross slide, and the compound along the work,")
    starts = thread.designation.starts
    yield TakeUpStep(
        say("Find the groove"),
        say(
            "Spindle still; move {slides} until the point lies {lies}, seen over paper against a light.",
            slides=slides, lies=lies,
        )
        + (
            say(
                " Of {starts} starts, the one that was cut last; the others are divided from it.",
                starts=starts,
            )
            if starts > 1
            else ""
        ),
        ((ENTRIES["start"], "", True),) if starts > 1 else (),
    )
    slide = cuts.slide if cuts is not None else say("compound")
    names = ("dial",) if slide == "cross slide" else ("dial", "cross slide")
    yield TakeUpStep(
        say("New zero"),
        say(
            "Set both dials to what they read, or write what they read now. The {slide} feeds, towards you.",
            slide=slide,
        )
        if thread.internal
        else say(
            "Set both dials to what they read, or write what they read now. The {slide} feeds.",
            slide=slide,
        ),
        left.values(*names, anew=names),
    )
    yield TakeUpStep(
        say("Dry run"),
        say(
            "Clear of the work, no further from you than the bar has room, slowly, the whole length. Where "
            "the point drifts from the groove, stop."
        )
        if thread.internal
        else say(
            "Clear of the work, slowly, the whole length. Where the point drifts from the groove, stop."
        ),
    )
    yield TakeUpStep(
        say("The least cut"),
        say(
            "{least_cut}; then try the mate or measure before the next. The last cut is by the fit, never "
            "by number alone.",
            least_cut=_least_cut(left),
        )
        if logged.job.mate
        else say(
            "{least_cut}; then measure before the next. The last cut is by the fit, never by number alone.",
            least_cut=_least_cut(left),
        ),
        _measured(left),
    )


def _least_cut(left: Left) -> str:
    """The smallest cut of the pass table on the dial of the slide that feeds, where the work is now."""
    figure, lathe = left.logged.desk.figures.get("passes.last_cut"), left.logged.lathe_now
    if left.logged.cuts is None or lathe is None or figure is None or not isinstance(figure.value, float):
        return say("As little as the tool will cut")
    dial, cuts = left.logged.infeed_dial(lathe), left.logged.cuts
    travel = figure.value / (cuts.depth(1.0))
    divisions = max(round(travel / dial.graduation), 1)
    left.logged.desk.computed(
        "take_up.least_cut",
        say("First cut after taking it up, travel of the slide"),
        divisions * dial.graduation,
        "fine_length",
        "{divisions} × {slide travel of one}",
        {"divisions": (divisions, "count"), "slide travel of one": (dial.graduation, "fine_length")},
        PRACTICE,
        system=lathe.units,
        note=say(
            "the smallest cut, {cut} radial, in whole divisions of the {slide} dial",
            cut=fine_words(figure.value, lathe.units), slide=cuts.slide,
        ),
    )
    return say_count(
        "{count} division of the {slide} dial, {reading} by it",
        "{count} divisions of the {slide} dial, {reading} by it",
        divisions, slide=cuts.slide, reading=one_unit_words(divisions * dial.division, lathe.units),
    )
