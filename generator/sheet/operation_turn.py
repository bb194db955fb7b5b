"""Face, turn and bore: stock taken off in passes along or across the bed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from generator.job.operations import Bore, Cut, Face, Turn
from generator.language.say import figure, later, say
from generator.sheet.operation_cuts import CROSS_SLIDE, Stock, cut_words, dial_words, lay_no_stock, lay_stock
from generator.sheet.operation_feed import Feed, feed_words, lay_feed
from generator.sheet.operation_load import lay_force, lay_load
from generator.sheet.operation_result import lay_roughness, lay_time
from generator.sheet.operation_speed import lay_speed
from generator.sheet.operation_task import PRACTICE, Done, Task, done
from generator.sheet.wording import length_words
from generator.sheet.work_so_far import WorkSoFar
from generator.si import Length

SAME = 1e-6          # m: two diameters closer than this are one
SLENDER_BAR = 4.0    # reach over diameter of a steel boring bar; common practice, no source
ALREADY = later(
    "the work in the job file has this diameter already: write from_diameter to have cuts worked out"
)


@dataclass(frozen=True)
class Cutting:
    """How stock is taken off; `finish` is the kind of the finishing cut, `diameter` the largest (m)."""

    operation: str
    way: Literal["along", "across"]
    finish: str | None
    diameter: Length | None
    length: Length


def turn(task: Task) -> Done:
    """Turn a diameter, or the band for the steady rest."""
    given, lies = task.entry.given, task.place
    assert isinstance(given, Turn)
    has = task.work.largest(lies.low, lies.high)
    if has is None:
        return off_work(task)
    after = _turned_to(task, given, given.from_diameter.si if given.from_diameter else has)
    before, why = _stock_before(task, given, has, after)
    depth = (before - after) / 2 if before is not None and after is not None else None
    stock = _lay_stock(task, depth, why, "turn")
    finishing_only = stock is not None and stock.finishing and len(stock.depths) == 1
    operation = "turn finish" if finishing_only else "turn rough"
    diameter = before if before is not None else max(has, after or 0.0)
    both = not finishing_only and (stock is None or stock.finishing)
    size = after if after is not None else has
    how = Cutting(operation, "along", "turn finish" if both else None, diameter, lies.length)
    work = task.work.turned(lies.low, lies.high, size, size)
    return _cut(task, stock, how, (before, after), work, _travel_words(task))


def face(task: Task) -> Done:
    """Face an end."""
    given, lies = task.entry.given, task.place
    assert isinstance(given, Face)
    if given.end == "left":
        task.find(
            "end-in-chuck", "check",
            say(
                "The left end is inside the jaws, so {what} cannot be done in this setup. Turn the work end "
                "for end, or write it as a job of its own.",
                what=task.what,
            ),
        )
    high = lies.high + SAME if given.end == "left" else lies.high
    outer, inner = task.work.largest(lies.low, high), task.work.bore(lies.low, high)
    if outer is None:
        return off_work(task)
    off = given.stock or given.depth
    stock = None
    if off is not None:
        stock = lay_stock(task, off.si, "face", task.bench.lathe.carriage_dial, say("carriage"), radial=False)
    else:
        lay_no_stock(task, say("nobody said how much comes off the end (stock)"))
    pip = inner == 0 and task.bench.job.holding.center is None
    how = Cutting("face", "across", "turn finish", outer, (outer - inner) / 2)
    remark = say("tool exactly at center height, or it leaves a pip") if pip else ""
    return _cut(task, stock, how, (outer, inner), task.work, remark)


def bore(task: Task) -> Done:
    """Bore to a diameter."""
    given, lies = task.entry.given, task.place
    assert isinstance(given, Bore)
    outer, has = task.work.smallest(lies.low, lies.high), task.work.bore(lies.low, lies.high)
    if outer is None:
        return off_work(task)
    start = given.from_diameter.si if given.from_diameter else has
    after = _bored_to(task, given, start)
    if after is not None and after >= outer - SAME:
        task.find(
            "operation-no-wall", "stop",
            say(
                "The bore of {after} in {what} leaves no wall: the work there is {outer} outside.",
                after=length_words(after, task.bench.system), what=task.what,
                outer=length_words(outer, task.bench.system),
            ),
            given.diameter.where if given.diameter else None, say("What diameter should the bore have?"),
        )
    before, why = _hole_before(task, given, start, after)
    depth = (after - before) / 2 if before is not None and after is not None else None
    stock = _lay_stock(task, depth, why, "bore")
    diameter = after if after is not None else (has or None)
    how = Cutting("bore", "along", "turn finish", diameter, lies.length)
    work = task.work.bored(lies.low, lies.high, after or 0.0)
    made = _cut(task, stock, how, (before, after), work, _travel_words(task))
    _check_bar(task, before)
    return made


def _cut(
    task: Task, stock: Stock | None, how: Cutting, sizes: tuple[Length | None, Length | None],
    work: WorkSoFar, remark: str,
) -> Done:
    """Lay speed, feed, force, power, roughness and time of a cut that leaves the work so."""
    step = lay_speed(task, how.operation, how.diameter)
    feed = lay_feed(task, how.way, how.operation, how.finish)
    force = lay_force(task, stock.largest if stock else None, feed.fast if feed else None,
                      say("the depth of cut is unknown") if feed else say("the feed is unknown"))
    power = lay_load(task, force, how.diameter, step)
    lay_roughness(task, feed.last if feed else None)
    time = lay_time(task, how.length, feed, step, len(stock.depths) if stock else None,
                    finishing=stock is not None and stock.finishing)
    say_last(task, stock, feed)
    if remark:
        task.remarks.append(remark)
    return done(
        task, *sizes, work, step=step, feed=feed.usual if feed else None,
        depths=stock.depths if stock else (), force=force, power=power, time=time,
        finish_feed=feed.finish if feed else None,
    )


def say_last(task: Task, stock: Stock | None, feed: Feed | None) -> None:
    """The finishing cut, where it differs from the others."""
    if stock is None or feed is None or feed.finish is None or not stock.finishing or len(stock.depths) == 1:
        return
    depth, at = cut_words(stock.depths[-1], task.bench.system), feed_words(
        feed.finish, feed.finish, task.bench.system
    )
    task.remarks.append(say("last cut {depth} at {at}", depth=depth, at=at))


def off_work(task: Task) -> Done:
    """What to say of a cut that lies beside the work."""
    lies, system = task.place, task.bench.system
    place, stick_out = length_words(abs(lies.high), system), length_words(task.bench.layout.stick_out, system)
    task.find(
        "operation-off-work", "stop",
        (
            say(
                "{opening} would lie {place} before the chuck face, where there is no work ({stick_out} "
                "stand out). Check from_end and length.",
                opening=task.opening, place=place, stick_out=stick_out,
            ) if lies.high >= 0
            else say(
                "{opening} would lie {place} behind the chuck face, where there is no work ({stick_out} "
                "stand out). Check from_end and length.",
                opening=task.opening, place=place, stick_out=stick_out,
            )
        ),
        asks=say("Where is this cut?"),
    )
    return done(task, None, None, task.work)


# -- diameters and stock --------------------------------------------------------------------------------


def _turned_to(task: Task, given: Turn, start: Length) -> Length | None:
    """The diameter it is turned to; for the nominal size of a thread its blank, where the cut is for it."""
    if given.diameter is not None:
        return _blank(task, given.diameter.si)
    if given.depth is not None:
        return start - 2 * given.depth.si if start > 2 * given.depth.si else None
    thread = task.bench.thread
    if thread is not None and not thread.internal and _meets(task, thread.end, thread.start):
        return thread.blank
    return None


def _blank(task: Task, written: Length) -> Length:
    """The blank where the nominal size of the thread is written for its own length; else what was written."""
    thread, lies = task.bench.thread, task.place
    if thread is None or thread.internal or not _meets(task, thread.end, thread.start):
        return written
    major, unit = thread.limits.major, thread.designation.unit_si
    if major.max is None or not major.max * unit + SAME < written <= thread.designation.nominal * unit + SAME:
        return written
    inch_thread = thread.system == "inch"
    places, name = (4, "in") if inch_thread else (3, "mm")
    limits = f"{figure(major.max, f'.{places}f')} {name}"
    limits = (
        say("{min:.{places}f} to {limits}", min=major.min, places=places, limits=limits)
        if major.min is not None
        else say("at most {limits}", limits=limits)
    )
    far = thread.end if thread.relief_end is None else thread.relief_end
    if abs(lies.low - far) > SAME or abs(lies.high - thread.start) > SAME:
        task.remarks.append(say("over the thread further down, to the blank: {limits}", limits=limits))
        return written
    task.remarks.append(
        say("to the blank of the thread, {limits}; what is written is its nominal size", limits=limits)
    )
    return task.computed(
        "size",
        say("diameter to turn to"),
        thread.blank,
        "length",
        "{blank}",
        {"blank": (thread.blank, "length")},
        say("the blank of the thread"),
        note=say("limits {limits}", limits=limits),
    )


def _bored_to(task: Task, given: Bore, start: Length) -> Length | None:
    if given.diameter is not None:
        return given.diameter.si
    thread = task.bench.thread
    if thread is not None and thread.internal and _meets(task, thread.end, thread.start):
        return thread.blank
    return start + 2 * given.depth.si if given.depth is not None and given.length is not None else None


def _meets(task: Task, low: Length, high: Length) -> bool:
    return task.place.low < high - SAME and low < task.place.high - SAME


def _stock_before(task: Task, given: Turn, has: Length, after: Length | None) -> tuple[Length | None, str]:
    """The diameter before the cut, or why it is not known."""
    if after is None:
        known = given.from_diameter.si if given.from_diameter else None
        return known, say("nobody said to what diameter: clean up only as far as it takes")
    if given.from_diameter is not None:
        if given.from_diameter.si < after - SAME:
            _find_nothing(task, given.from_diameter.si, after, given)
            return None, say("there is nothing to take off")
        return given.from_diameter.si, ALREADY
    if has > after + SAME:
        return has, ""
    if has < after - SAME:
        _find_nothing(task, has, after, given)
        return None, say("there is nothing to take off")
    return None, ALREADY


def _find_nothing(task: Task, has: Length, after: Length, given: Cut) -> None:
    system = task.bench.system
    task.find(
        "nothing-to-cut", "check",
        say(
            "{opening} wants {after}, and the work there is {has}: there is nothing to take off. Check both.",
            opening=task.opening, after=length_words(after, system), has=length_words(has, system),
        ),
        given.diameter.where if given.diameter else None, say("Which diameter is right?"),
    )


def _hole_before(task: Task, given: Bore, start: Length, after: Length | None) -> tuple[Length | None, str]:
    if start == 0:
        task.find(
            "bore-no-hole", "check",
            say(
                "There is no hole for {what} to go into: drill first, or write the bore in the work.",
                what=task.what,
            ),
        )
        return None, say("there is no hole to bore out")
    if after is None:
        return start, say("nobody said to what diameter")
    if start > after + SAME:
        _find_nothing(task, start, after, given)
        return None, say("there is nothing to take out")
    return (start, "") if start < after - SAME else (None, ALREADY)


def _lay_stock(task: Task, depth: Length | None, why: str, kind: str) -> Stock | None:
    if depth is None or depth <= SAME / 2:
        lay_no_stock(task, why or ALREADY)
        return None
    return lay_stock(task, depth, kind, task.bench.lathe.cross_dial, CROSS_SLIDE)


def _travel_words(task: Task) -> str:
    record = task.bench.lathe.carriage_dial
    if record is None or task.place.length <= SAME:
        return ""
    return say(
        "carriage dial at the end of the cut: {length} from its start",
        length=dial_words(task.place.length, record),
    )


def _check_bar(task: Task, before: Length | None) -> None:
    """The boring bar: long enough, thin enough to go in, not too slender."""
    bar, reach, system = task.tool.bar, task.tool.reach, task.bench.system
    deep = task.bench.layout.stick_out - task.place.low  # a bar goes in from the open end
    if reach is not None and reach.si < deep - SAME:
        task.find(
            "tool-short", "stop",
            say(
                "Boring tool {tool} reaches {reach}, and {what} is {deep} deep. Take a longer bar.",
                tool=task.tool.name, reach=reach.with_unit, what=task.what, deep=length_words(deep, system),
            ),
        )
    if bar is None:
        return
    if before is not None and bar.si >= before - SAME:
        task.find(
            "bar-thick", "stop",
            say(
                "The bar of {tool} is {bar} thick and does not go into the hole of {before}. Take a thinner "
                "bar, or drill larger.",
                tool=task.tool.name, bar=bar.with_unit, before=length_words(before, system),
            ),
        )
    if deep > SLENDER_BAR * bar.si:
        task.find(
            "bar-slender", "check",
            say(
                "For {what} the bar of {bar} stands out {deep:.1f} of its diameters; over {slender_bar:g} a "
                "steel bar chatters ({practice}). Take a thicker one, or lighter cuts and a lower step.",
                what=task.what, bar=bar.with_unit, deep=deep / bar.si, slender_bar=SLENDER_BAR,
                practice=PRACTICE,
            ),
        )
