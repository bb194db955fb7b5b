"""How the work that was stopped last is taken up again: the card for half a page, in the order it is done.

    take_up_card     the card with its figures; None where nothing is stopped

Order of the steps and what the old record must say: common practice, no source (general workshop texts on
picking up a thread). Each number on the card is one of the stop or of the pass table, or a figure with its
working.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from generator.calc.take_up import rests_higher, runout_cleaned_up
from generator.job.log import Entry, Stop
from generator.job.model import Centers, Job
from generator.job.source import LogEntry
from generator.language.say import later, say, say_count
from generator.sheet.figure import Quantity
from generator.sheet.happened import TakeUpCard, TakeUpStep
from generator.sheet.lines import Caution, OperationLine
from generator.sheet.log_checks import left_out, open_stop, size_limits
from generator.sheet.log_passes import infeed_travels, measured_size, size_by_wires
from generator.sheet.log_words import settings
from generator.sheet.logged import Logged
from generator.sheet.wording import fine_words, one_unit_words
from generator.si import Length, inch, mm

PRACTICE: Final = later("common practice, no source")
GEOMETRY: Final = later("geometry")
WIDER: Final = {"inch": 0.005 * inch, "mm": 0.1 * mm}  # of the flat, as the card reckons for
HELD: Final = {
    "chuck": later("The same jaw at the same mark."),
    "collet": later("The same collet, clean, its mark as it was."),
    "faceplate": later("The same clamps at the same marks."),
}
RUNOUTS: Final = ("runout at jaws", "runout at end")
ENTRIES: Final[Mapping[str, str]] = {  # of a stop or the card, as the page calls them
    name: name
    for name in (
        later("dial"),
        later("cross slide"),
        later("jaw mark"),
        later("stick out"),
        later("steady at"),
        later("steady diameter"),
        later("rust"),
        later("band"),
        later("runout at jaws"),
        later("runout at end"),
        later("levers"),
        later("gears"),
        later("tool"),
        later("flat"),
        later("compound angle"),
        later("compound towards"),
        later("dial line"),
        later("over wires"),
        later("start"),
        later("measured"),
        later("set to"),
    )
}
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


@dataclass(frozen=True)
class _Left:
    """A stop as it was left: its words by name; what of it the log does not say; the numbers it leads to."""

    logged: Logged
    entry: Entry
    stop: Stop
    line: OperationLine | None
    said: Mapping[str, str]
    wanted: frozenset[str]

    @property
    def of_thread(self) -> bool:
        """True where a thread was stopped."""
        return self.line is not None and self.line.name == "thread" and self.logged.thread is not None

    def values(self, *names: str, anew: tuple[str, ...] = ()) -> tuple[tuple[str, str, bool], ...]:
        """These entries of the stop that are said, or that ought to be; those to be written `anew` always."""
        known = [name for name in names if name in self.said or name in self.wanted or name in anew]
        return tuple((ENTRIES[name], self.said.get(name, ""), name in anew) for name in known)


def take_up_card(logged: Logged | None) -> TakeUpCard | None:
    """Lay the figures for taking the work up, and return the card; None where nothing is stopped."""
    one = open_stop(logged) if logged is not None else None
    if logged is None or one is None or one.entry.stop is None or logged.job.status == "scrapped":
        return None
    left = _left(one, logged)
    return _thread_card(left) if left.of_thread else _other_card(left)


def _left(one: LogEntry, logged: Logged) -> _Left:
    stop = one.entry.stop
    assert stop is not None
    wanted = frozenset(_name(key) for key, _ in left_out(one.entry, logged))
    said = {**settings(one.entry), **settings(stop)}
    return _Left(logged, one.entry, stop, logged.about(one.entry).line, said, wanted)


def _name(key: str) -> str:
    """An entry of a stop as the page calls it."""
    return "cross slide" if key == "cross" else key.replace("_", " ")


# -- a thread ---------------------------------------------------------------------------------------------


def _thread_card(left: _Left) -> TakeUpCard:
    logged = left.logged
    depth_left = _lay_depth_left(left)
    runout = _lay_runout(depth_left, left)
    higher = _lay_rests_higher(left)
    finished = _finished(left, depth_left)
    then = _finished_steps(left) if finished else _cutting_steps(left)
    return TakeUpCard(
        stopped=str(left.entry.at),
        why=left.stop.why or "",
        after=_after(left),
        numbers=tuple(_numbers(left, depth_left)),
        steps=(*_holding_steps(left, runout), *then),
        reground=() if finished else tuple(_reground(left, higher)),
        never=() if finished else tuple(_never(left, runout)),
        caution=CAUTION_OTHER if finished else CAUTION,
        finished=finished,
        thread=True,
        designation=logged.thread.designation.text if logged.thread else "",
    )


def _after(left: _Left) -> str:
    passes = left.logged.cuts.passes if left.logged.cuts else ()
    if left.entry.pass_ is None:
        return say("the log does not say after which pass")
    return say("after pass {pass_} of {passes}", pass_=left.entry.pass_, passes=len(passes))


def _numbers(left: _Left, depth_left: Length | None) -> Iterator[tuple[str, str]]:
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


def _cutting_steps(left: _Left) -> Iterator[TakeUpStep]:
    yield from _lead_steps(left)
    yield from _groove_steps(left)


def _finished_steps(left: _Left) -> Iterator[TakeUpStep]:
    """In place of every cut, where none may be taken."""
    mate = say(" and try the mate") if left.logged.job.mate else ""
    yield TakeUpStep(
        say("Measure"),
        say("Cut nothing: measure the thread{mate}, and decide by that.", mate=mate),
        _measured(left),
    )


def _measured(left: _Left) -> tuple[tuple[str, str, bool], ...]:
    """Room for the size that is measured next."""
    return ((ENTRIES["over wires" if size_by_wires(left.logged) else "measured"], "", True),)


def _holding_steps(left: _Left, runout: Length | None) -> Iterator[TakeUpStep]:
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


def _lead_steps(left: _Left) -> Iterator[TakeUpStep]:
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


def _groove_steps(left: _Left) -> Iterator[TakeUpStep]:
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


def _least_cut(left: _Left) -> str:
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


# -- figures ----------------------------------------------------------------------------------------------


def _lay_depth_left(left: _Left) -> Length | None:
    """What is still to be cut, as the stop says, else by the pass table and the dial (m, radial)."""
    logged, name, label = left.logged, "take_up.depth_left", say("Still to be cut, radial")
    given = left.stop.depth_left
    if given is not None:
        return logged.desk.given(name, label, given, "length")
    cuts = logged.cuts
    travels = [
        travel for one, travel in zip(logged.threads, infeed_travels(logged).at, strict=True)
        if travel is not None and not left.entry.at.before(one.entry.at)
    ]
    if cuts is None or not travels:
        return None
    end, reached = cuts.passes[-1].depth, cuts.depth(travels[-1])
    return logged.desk.computed(
        name,
        label,
        max(end - reached, 0.0),
        "length",
        "{depth of the last pass} − {depth by the dial}",
        {"depth of the last pass": (end, "length"), "depth by the dial": (reached, "length")},
        say("arithmetic; nothing less than 0"),
        system=logged.lathe.units,
        note=say("the stop does not say it"),
    )


def _lay_runout(depth_left: Length | None, left: _Left) -> Length | None:
    """The most runout that what is left still cleans up (m, full reading)."""
    if not depth_left:
        return None
    return left.logged.desk.computed(
        "take_up.runout", say("Runout that the cuts left clean up, not over"), runout_cleaned_up(depth_left),
        "length", "2 × {still to be cut}", {"still to be cut": (depth_left, "length")}, GEOMETRY,
        system=left.logged.lathe.units, rounds="down", note=say("full reading of the indicator"),
    )


def _lay_rests_higher(left: _Left) -> Length | None:
    """How much higher the point rests for so much more of flat (m); None in a square groove, or if round."""
    logged, thread = left.logged, left.logged.thread
    if thread is None or thread.flanks.square or thread.nose_flat <= 0:
        return None
    wider, flanks = WIDER[logged.lathe.units], thread.flanks
    put: dict[str, tuple[float, Quantity]] = {
        "wider": (wider, "fine_length"),
        "one flank": (flanks.load, "angle"), "other flank": (flanks.clearance, "angle"),
    }
    return logged.desk.computed(
        "take_up.rests_higher",
        say("A wider flat rests higher by"),
        rests_higher(wider, flanks),
        "fine_length",
        "{wider} ÷ (tan {one flank} + tan {other flank})",
        put,
        GEOMETRY,
        system=logged.lathe.units,
        note=say("the point on both flanks, radial"),
    )


# -- what changes, and when not ---------------------------------------------------------------------------


def _reground(left: _Left, higher: Length | None) -> Iterator[str]:
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


def _never(left: _Left, runout: Length | None) -> Iterator[str]:
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


def _finished(left: _Left, depth_left: Length | None) -> str:
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


def _other_card(left: _Left) -> TakeUpCard:
    """A cut without a lead: held as it was, true, touched anew."""
    line = left.line
    what = (
        say("operation {number}, {title}", number=line.number, title=line.title)
        if line
        else say("the operation is not said")
    )
    dials = tuple(name for name in ("dial", "cross slide") if name in left.said) or ("dial",)
    steps = (
        *_holding_steps(left, None),
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
