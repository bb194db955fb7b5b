"""How the work that was stopped last is taken up again: the card for half a page, in the order it is done.

    take_up_card     the card with its figures; None where nothing is stopped

Order of the steps and what the old record must say: common practice, no source (general workshop texts on
picking up a thread). Each number on the card is one of the stop or of the pass table, or a figure with its
working.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from generator.language.say import later, say
from generator.sheet.happened import TakeUpCard, TakeUpStep
from generator.sheet.lines import Caution
from generator.sheet.log_checks import open_stop, size_limits
from generator.sheet.log_passes import measured_size, size_by_wires
from generator.sheet.logged import Logged
from generator.sheet.take_up_figures import WIDER, lay_depth_left, lay_rests_higher, lay_runout
from generator.sheet.take_up_left import ENTRIES, Left, left_of
from generator.sheet.take_up_steps import cutting_steps, finished_steps, holding_steps
from generator.sheet.wording import fine_words, one_unit_words
from generator.si import Length

PRACTICE: Final = later("common practice, no source")
DUST: Final = 1e-9  # m
CAUTION: Final = Caution(
    "take-up",
    "WARNING",
    later(
        "Chuck key out, hands and rags clear before the spindle turns: with the half nuts closed the "
        "carriage moves at once."
    ),
    later("The half nuts are closed while the tool stands in the work."),
    PRACTICE,
)
CAUTION_OTHER: Final = Caution(
    "take-up", "WARNING",
    later("Chuck key out, hands clear, and the work tight again before the spindle turns."),
    later("The work was out of the lathe, or its jaws were let go."),
    PRACTICE,
)


def take_up_card(logged: Logged | None) -> TakeUpCard | None:
    """Lay the figures for taking the work up, and return the card; None where nothing is stopped."""
    one = open_stop(logged) if logged is not None else None
    if logged is None or one is None or one.entry.stop is None or logged.job.status == "scrapped":
        return None
    left = left_of(one, logged)
    return _thread_card(left) if left.of_thread else _other_card(left)


# -- a thread ---------------------------------------------------------------------------------------------


def _thread_card(left: Left) -> TakeUpCard:
    logged = left.logged
    depth_left = lay_depth_left(left)
    runout = lay_runout(depth_left, left)
    higher = lay_rests_higher(left)
    finished = _finished(left, depth_left)
    then = finished_steps(left) if finished else cutting_steps(left)
    return TakeUpCard(
        stopped=str(left.entry.at),
        why=left.stop.why or "",
        after=_after(left),
        numbers=tuple(_numbers(left, depth_left)),
        steps=(*holding_steps(left, runout), *then),
        reground=() if finished else tuple(_reground(left, higher)),
        never=() if finished else tuple(_never(left, runout)),
        caution=CAUTION_OTHER if finished else CAUTION,
        finished=finished,
        thread=True,
        designation=logged.thread.designation.text if logged.thread else "",
    )


def _after(left: Left) -> str:
    passes = left.logged.cuts.passes if left.logged.cuts else ()
    if left.entry.pass_ is None:
        return say("the log does not say after which pass")
    return say("after pass {pass_} of {passes}", pass_=left.entry.pass_, passes=len(passes))


def _numbers(left: Left, depth_left: Length | None) -> Iterator[tuple[str, str]]:
    """What is wanted first: how far it is, and what it must come to."""
    logged = left.logged
    in_words = "" if depth_left is None else fine_words(depth_left, logged.lathe.units)
    yield say("depth left, radial"), in_words
    if size_by_wires(logged):
        yield say("over wires, as left"), left.said.get("over wires", "")
    else:
        measured = left.entry.measured
        given = measured.pitch_diameter if measured else None
        yield say("pitch diameter, as left"), given.with_unit if given else ""
    limits = size_limits(logged)
    if limits is not None:
        system = logged.thread.system if logged.thread else logged.system
        low, high = (one_unit_words(limit, system) for limit in limits)
        yield (
            say("over wires, limits") if size_by_wires(logged) else say("pitch diameter, limits"),
            say("{low} to {high}", low=low, high=high),
        )


# -- what changes, and when not ---------------------------------------------------------------------------


def _reground(left: Left, higher: Length | None) -> Iterator[str]:
    """What a tool that was ground anew changes."""
    logged, thread = left.logged, left.logged.thread
    assert thread is not None
    check = say("the size over wires") if size_by_wires(logged) else say("the measured size")
    if thread.flanks.square:
        yield say(
            "Measure its width. A wider tool does not go into a square groove: do not force it. A narrower "
            "one leaves a ridge: shift it and cut one side, then the other."
        )
    elif higher is not None:
        units = logged.lathe.units
        yield say(
            "For each {wider} that the flat is wider the point rests {higher} higher, and the root comes "
            "out as much less deep: take the new zero where it lies, and go by {check} and the mate, not by "
            "the old dial. A narrower flat reaches both flanks only below the old root: do not cut with it.",
            wider=one_unit_words(WIDER[units], units), higher=one_unit_words(higher, units), check=check,
        )
    else:
        yield say(
            "A larger radius rests higher on both flanks: take the new zero where it lies, and go by "
            "{check} and the mate, not by the old dial.",
            check=check,
        )


def _never(left: Left, runout: Length | None) -> Iterator[str]:
    """When it must not be taken up."""
    thread = left.logged.thread
    assert thread is not None
    if runout is not None:
        most = one_unit_words(runout, left.logged.lathe.units)
        yield say("it cannot be trued as it was, and never with more runout than {most}", most=most)
    else:
        yield say("nobody knows how much is left to cut")
    yield say("the tool has another angle, or does not lie on both sides of the groove alike")
    yield say("the dry run drifts")


def _finished(left: Left, depth_left: Length | None) -> str:
    """Why nothing may be cut any more; empty while something may."""
    logged, limits = left.logged, size_limits(left.logged)
    assert logged.thread is not None
    size = left.stop.over_wires.si if left.stop.over_wires else measured_size(left.entry.measured, logged)
    if limits is not None and size is not None:
        inside = logged.thread.internal
        end = limits[1] if inside else limits[0]
        if (size - end if inside else end - size) >= -DUST:
            said = fine_words(size, logged.thread.system)
            return (
                say(
                    "It measured {said} when it was left: at its largest size or past it. Nothing may be "
                    "cut.",
                    said=said,
                )
                if inside
                else say(
                    "It measured {said} when it was left: at its smallest size or past it. Nothing may be "
                    "cut.",
                    said=said,
                )
            )
    if depth_left is not None and depth_left <= DUST:
        return say("Nothing is left to cut by the stop: try the mate, and cut no more by number.")
    return ""


# -- other cuts -------------------------------------------------------------------------------------------


def _other_card(left: Left) -> TakeUpCard:
    """A cut without a lead: held as it was, true, touched anew."""
    line = left.line
    what = (
        say("operation {number}, {title}", number=line.number, title=line.title)
        if line
        else say("the operation is not said")
    )
    dials = tuple(name for name in ("dial", "cross slide") if name in left.said) or ("dial",)
    steps = (
        *holding_steps(left, None),
        TakeUpStep(
            say("Touch off again"),
            say("Touch the surface cut last, spindle turning, and take the dials from there."),
            left.values("tool", *dials, anew=dials),
        ),
        TakeUpStep(
            say("A light cut"),
            say("Cut a little, measure, and only then go by the plan."),
            ((ENTRIES["measured"], "", True),),
        ),
    )
    never = (say("it cannot be trued as it was: what is cut from now on is then off the old axis"),)
    return TakeUpCard(
        str(left.entry.at), left.stop.why or "", what, (), steps, (), never, CAUTION_OTHER, thread=False
    )
