"""Cuts straight in: groove, relief, part off."""

from __future__ import annotations

import math

from generator.job.operations import Chamfer, Cut, Relief
from generator.language.say import say
from generator.sheet.figure import Kind
from generator.sheet.operation_cuts import CROSS_SLIDE, lay_dial
from generator.sheet.operation_feed import Feed, lay_feed
from generator.sheet.operation_load import lay_load, lay_plunge
from generator.sheet.operation_result import lay_time
from generator.sheet.operation_speed import lay_speed
from generator.sheet.operation_task import PRACTICE, Done, Task, done
from generator.sheet.operation_turn import off_work
from generator.sheet.wording import length_words
from generator.si import Length, SpindleSpeed, Time

SAME = 1e-6
SAME_CORNER = 0.02   # share within which a nose and a corner are one
PART_NEAR = 1.0      # diameters from the jaws; common practice, no source
SLENDER_BLADE = 8.0  # stick-out over width of a parting blade; common practice, no source


def groove(task: Task) -> Done:
    """Cut a groove, or the thread relief."""
    given, lies, thread = task.entry.given, task.place, task.bench.thread
    assert not isinstance(given, Chamfer)
    inside = lies.inside
    has = task.work.bore(lies.low, lies.high) if inside else task.work.largest(lies.low, lies.high)
    if has is None:
        return off_work(task)
    if isinstance(given, Relief):
        after = given.diameter.si if given.diameter else thread.relief_diameter if thread else None
        if thread is not None and not task.work.touched(lies.low, lies.high):
            has = thread.blank
    else:
        assert isinstance(given, Cut)
        has = given.from_diameter.si if given.from_diameter else has
        after = given.diameter.si if given.diameter else _bottom(task, given, has)
    width = given.width.si if given.width else task.tool.width.si if task.tool.width else None
    depth = _depth(task, has, after, inside)
    plunges = _lay_plunges(task, width, given)
    step = lay_speed(task, "groove", max(has, after or 0.0))
    feed = lay_feed(task, "across", "groove")
    blade = task.tool.width.si if task.tool.width else width
    force = lay_plunge(task, blade, feed.fast if feed else None,
                       say("the width is unknown") if blade is None else say("the feed is unknown"))
    power = lay_load(task, force, max(has, after or 0.0), step)
    time = lay_depth_time(task, depth, feed, step, plunges)
    _check_reach(task, depth)
    _check_nose(task, given)
    work = task.work
    if after is not None and depth:
        work = work.bored(lies.low, lies.high, after) if inside else work.turned(
            lies.low, lies.high, after, after
        )
    return done(
        task, has, after, work, step=step, feed=feed.usual if feed else None,
        depths=(depth,) * (plunges or 1) if depth else (), force=force, power=power, time=time,
    )


def part_off(task: Task) -> Done:
    """Part off: the blade, how far it stands out, and what holds the part."""
    given, lies, system = task.entry.given, task.place, task.bench.system
    assert isinstance(given, Cut)
    od = task.work.largest(lies.low, lies.high)
    if od is None:
        return off_work(task)
    inner = task.work.bore(lies.low, lies.high)
    if od <= inner + SAME:
        return _nothing_to_part(task, od, inner)
    depth = (od - inner) / 2
    if lies.why:
        task.find("part-off-place", "check", say(
            "Nobody said where {what} cuts: write from_end.",
            what=task.what,
        ),
                  asks=say("How long is the part that is cut off?"))
    width = given.width.si if given.width else task.tool.width.si if task.tool.width else None
    if width is None:
        task.unknown(
            "width", say("width of the blade"), "length", say("neither job nor tool record gives it")
        )
    elif given.width is not None:
        task.given("width", say("width of the blade"), given.width, "length")
    else:
        task.chosen("width", say("width of the blade"), width, "length", Kind.SHOP, "jobs/_shop/tools.yml")
    stands = task.computed(
        "blade_out", say("the blade stands out at least"), depth, "length", "({D} − {d}) ÷ 2",
        {"D": (od, "length"), "d": (inner, "length")}, say("geometry"), rounds="up",
    )
    lay_dial(task, depth, task.bench.lathe.cross_dial, CROSS_SLIDE)
    step = lay_speed(task, "part off", od)
    feed = lay_feed(task, "across", "part off")
    force = lay_plunge(
        task,
        width,
        feed.fast if feed else None,
        say("the width of the blade is unknown") if width is None else say("the feed is unknown"),
    )
    power = lay_load(task, force, od, step)
    time = lay_time(task, depth, feed, step, 1)
    _check_reach(task, depth)
    if width is not None and stands > SLENDER_BLADE * width:
        task.find(
            "blade-slender", "check",
            say(
                "For {what} the blade stands out {stands}, {ratio:.0f} times its width; over "
                "{slender_blade:g} it wanders and digs in ({practice}). Take a wider blade, or saw the last "
                "of it.",
                what=task.what, stands=length_words(stands, system), ratio=stands / width,
                slender_blade=SLENDER_BLADE, practice=PRACTICE,
            ),
        )
    _check_center(task)
    _check_overhang(task, od)
    return done(
        task, od, inner, task.work, step=step, feed=feed.usual if feed else None, depths=(depth,),
        force=force, power=power, time=time,
    )


def _bottom(task: Task, given: Cut, has: Length) -> Length | None:
    """Diameter at the bottom of a groove of the depth given; None where that is past the center."""
    if given.depth is None:
        return None
    after = has - 2 * given.depth.si
    if after > SAME:
        return after
    task.find(
        "groove-deep", "stop",
        say(
            "{opening} is to be {depth} deep, and the work there is {has}: that cuts it through. Check both.",
            opening=task.opening, depth=given.depth.with_unit, has=length_words(has, task.bench.system),
        ),
        given.depth.where, say("How deep is the groove?"),
    )
    return None


# -- groove and blade -----------------------------------------------------------------------------------


def _depth(task: Task, has: Length, after: Length | None, inside: bool) -> Length | None:
    """Radial depth of a groove, with the dial."""
    words, system = say("depth, radial"), task.bench.system
    if after is None or (has == 0 and inside):
        why = say("nobody said how deep") if after is None else say("there is no bore to cut it in")
        task.unknown("depth", words, "length", why)
        task.unknown("dial", say("cross slide dial at the bottom"), "text", why)
        return None
    depth = (after - has) / 2 if inside else (has - after) / 2
    if depth <= SAME:
        task.unknown("depth", words, "length", say("there is nothing to cut there"))
        task.find(
            "nothing-to-cut", "check",
            say(
                "{opening} wants {after}, and the work there is {has}: there is nothing to cut. Check both.",
                opening=task.opening, after=length_words(after, system), has=length_words(has, system),
            ),
            asks=say("Which diameter is right?"),
        )
        return None
    put = {"before": (has, "length"), "after": (after, "length")}
    formula = "({after} − {before}) ÷ 2" if inside else "({before} − {after}) ÷ 2"
    task.computed("depth", words, depth, "length", formula, put, say("geometry"))  # type: ignore[arg-type]
    lay_dial(task, depth, task.bench.lathe.cross_dial, CROSS_SLIDE)
    return depth


def _lay_plunges(task: Task, width: Length | None, given: Cut | Relief) -> int | None:
    """How often the tool goes in beside itself."""
    blade, words, system = task.tool.width, say("cuts beside each other"), task.bench.system
    if width is None or blade is None:
        why = say("the width of the tool is not on record") if blade is None else say("nobody said how wide")
        task.unknown("passes", words, "count", why)
        return None
    if blade.si > width + SAME:
        task.find(
            "tool-wide", "stop",
            say(
                "Tool {tool} is {blade} wide, and {what} is only {width}. Take a narrower tool.",
                tool=task.tool.name, blade=blade.with_unit, what=task.what, width=length_words(width, system),
            ),
            given.width.where if given.width else None,
        )
    count = max(math.ceil(width / blade.si - SAME), 1)
    task.computed(
        "passes", words, float(count), "count", say("{width} ÷ {tool}, rounded up"),
        {"width": (width, "length"), "tool": (blade.si, "length")}, PRACTICE,
    )
    return count


def _check_reach(task: Task, depth: Length | None) -> None:
    """A blade reaches into the work, a bar into the bore as far as the groove lies in it."""
    reach = task.tool.reach
    if task.place.inside:
        depth = task.bench.layout.stick_out - task.place.low
    if depth is not None and reach is not None and reach.si < depth - SAME:
        task.find(
            "tool-short", "stop",
            say(
                "Tool {tool} reaches {reach}, and {what} is {depth} deep. Take one that stands out further.",
                tool=task.tool.name, reach=reach.with_unit, what=task.what,
                depth=length_words(depth, task.bench.system),
            ),
        )


def _check_nose(task: Task, given: Cut | Relief) -> None:
    """A tool cannot leave a corner sharper than its own nose."""
    nose, corner = task.tool.nose_radius, given.radius if isinstance(given, Relief) else None
    if nose is not None and corner is not None and nose.si > corner.si * (1 + SAME_CORNER):
        task.find(
            "tool-nose", "check",
            say(
                "Tool {tool} has a nose radius of {nose}, and {what} is to have corners of {corner}. Take a "
                "tool with a smaller nose.",
                tool=task.tool.name, nose=nose.with_unit, what=task.what, corner=corner.with_unit,
            ),
            corner.where,
        )


def _nothing_to_part(task: Task, od: Length, inner: Length) -> Done:
    """The work has no wall there, by the cuts before or by the job file."""
    system, why = task.bench.system, say("there is no wall to part")
    task.unknown("step", say("spindle step"), "spindle_speed", why)
    task.unknown("time", say("time under the tool"), "duration", why)
    task.find(
        "nothing-to-cut", "check",
        say(
            "{opening} meets {od} outside and a hole of {inner}: there is nothing to part. Check both, and "
            "the cuts before it.",
            opening=task.opening, od=length_words(max(od, 0.0), system), inner=length_words(inner, system),
        ),
        asks=say("Which diameter is right?"),
    )
    return done(task, None, None, task.work)


def _check_center(task: Task) -> None:
    """With the center in the work the part jams as it comes off."""
    if task.bench.job.holding.center is not None:
        task.find(
            "part-off-center", "check",
            say(
                "{opening} with the center in the work: the part climbs on the blade when the last of it "
                "breaks. Part nearly through, stop, take the center away and saw or break it off.",
                opening=task.opening,
            ),
        )


def _check_overhang(task: Task, od: Length) -> None:
    """A blade far from the jaws: the work springs, climbs on the blade and is thrown."""
    lies, holding = task.place, task.bench.job.holding
    if lies.why or holding.steady is not None or lies.low <= PART_NEAR * od + SAME:
        return
    task.find(
        "part-off-far", "check",
        say(
            "{opening} is {distance} from the jaws, {ratio:.1f} diameters; over {part_near:g} the work "
            "springs, climbs on the blade and can be thrown ({practice}). Grip it nearer to the cut, or saw "
            "it off.",
            opening=task.opening, distance=length_words(lies.low, task.bench.system), ratio=lies.low / od,
            part_near=PART_NEAR, practice=PRACTICE,
        ),
    )


def lay_depth_time(
    task: Task, depth: Length | None, feed: Feed | None, step: SpindleSpeed | None, cuts: int | None
) -> Time | None:
    """Lay the time of going in so deep, so many times; unknown for want of a depth."""
    if not depth:
        task.unknown("time", say("time under the tool"), "duration", say("the depth is unknown"))
        return None
    return lay_time(task, depth, feed, step, cuts)
