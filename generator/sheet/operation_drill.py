"""Center drilling, drilling and reaming from the tailstock; holes across the work go to another machine."""

from __future__ import annotations

import math

from generator.calc.drilling import drilling_thrust, drilling_torque, likely_drilling, point_length
from generator.calc.operation_time import feed_time
from generator.job.operations import Cut, Drill
from generator.language.say import later, say
from generator.sheet.figure import Quantity
from generator.sheet.operation_feed import lay_by_hand
from generator.sheet.operation_load import KIENZLE, NO_MATERIAL, judge_load, lay_motor
from generator.sheet.operation_places import drilled_across
from generator.sheet.operation_result import lay_time
from generator.sheet.operation_speed import lay_speed
from generator.sheet.operation_task import PRACTICE, Done, Task, done
from generator.sheet.operation_turn import off_work
from generator.sheet.wording import length_words
from generator.si import FeedPerRev, Force, Length, Power, SpindleSpeed, Time, inch

SAME = 1e-6
WITHDRAWAL = 6.0          # s, out and in again to clear the chips; common practice, no source
FIRST, EACH = 3.0, 1.0    # diameters drilled before the first withdrawal, and between the others
PILOT_FROM = 1 / 2 * inch  # above this a pilot hole as thick as the web spares the thrust
REAM_STOCK = (0.010 * inch, 0.016 * inch)  # left on the diameter, up to 1/2 in and above
REAM_LARGE = 1 / 2 * inch
LEAST, MOST = likely_drilling(1.0)
AWAY = later("the hole goes across the work: another machine, no settings of this lathe")


def center_drill(task: Task) -> Done:
    """Center drill an end, by the diameter of the pilot."""
    given = task.entry.given
    assert isinstance(given, Cut)
    lies, pilot = task.place, given.diameter or task.tool.diameter
    why = say("neither the job nor the tool's record gives the pilot's diameter")
    step = lay_speed(task, "center drill", pilot.si if pilot else None, why)
    if pilot is None:
        task.unknown("feed", say("feed"), "text", why)
    feed = lay_by_hand(task, "center drill", diameter=pilot.si) if pilot is not None else None
    if lies.length > 0:
        lay_time(task, lies.length, feed, step, 1)
    else:
        task.unknown("time", say("time under the tool"), "duration", say("nobody said how deep"))
    task.remarks.append(say("60 degrees; clean the hole and oil it where a dead center runs in it")
                        if task.bench.job.holding.center == "dead" else say("60 degrees"))
    time = task.desk.figures[task.name("time")].value
    return done(
        task, 0.0, pilot.si if pilot else 0.0, task.work, step=step,
        time=time if isinstance(time, float) else None,
    )


def drill(task: Task) -> Done:
    """Drill along the axis, and ream where the hole is to be reamed."""
    given, lies, system = task.entry.given, task.place, task.bench.system
    assert isinstance(given, Drill)
    if drilled_across(given):
        return _elsewhere(task)
    if task.work.largest(lies.low, lies.high) is None and lies.length > SAME:
        return off_work(task)
    wanted = given.diameter or task.tool.diameter
    size = _drill_size(task, given, wanted.si) if wanted is not None else None
    has = task.work.bore(lies.low, lies.high) if lies.length > SAME else 0.0
    if size is not None and has >= size - SAME:
        task.find(
            "nothing-to-cut", "check",
            say(
                "{opening} wants {size}, and the work has a hole of {has} there already. Check both.",
                opening=task.opening, size=length_words(size, system), has=length_words(has, system),
            ),
            given.diameter.where if given.diameter else None, say("Which diameter is right?"),
        )
        has = 0.0
    why = say("nobody said the drill's diameter")
    step = lay_speed(task, "drill", size, why)
    if size is None:
        task.unknown("feed", say("feed"), "text", why)
        task.unknown("time", say("time under the tool"), "duration", why)
        return done(task, has, has, task.work, step=step)
    feed = lay_by_hand(task, "drill", diameter=size)
    power, thrust = _lay_load(task, size, has, feed.fast, step)
    deep = lies.length
    reaming = _lay_ream(task, given.diameter.si, deep) if given.ream and given.diameter is not None else None
    if deep <= SAME:
        task.unknown("passes", say("pecks"), "count", say("nobody said how deep"))
        task.unknown("time", say("time under the tool"), "duration", say("nobody said how deep"))
        time, clearing = None, 0.0
    else:
        clearing = _lay_pecks(task, deep, size)
        point = point_length(size)
        travel = task.computed(
            "travel",
            say("travel of the drill"),
            deep + (point if given.through else 0.0),
            "length",
            "{depth} + {point}" if given.through else "{depth}",
            {"depth": (deep, "length"), "point": (point, "length")},
            say("geometry, point of 118 degrees"),
            note=say("to the full diameter through")
            if given.through
            else say("to the depth said, point included"),
        )
        also = ("reaming", reaming) if reaming is not None else None
        time = lay_time(task, travel, feed, step, 1, also=also)
    _check(task, deep, size, has)
    reached = given.diameter.si if given.ream and given.diameter is not None else size
    return done(
        task, has, reached, task.work.bored(lies.low, lies.high, reached), step=step, feed=feed.usual,
        force=thrust, power=power, time=time, other_time=clearing or None,
    )


def _elsewhere(task: Task) -> Done:
    task.remarks.append(say("across the work, at another machine: no settings of this lathe"))
    task.unknown("time", say("time under the tool"), "duration", AWAY)
    return done(task, None, None, task.work)


def _drill_size(task: Task, given: Drill, wanted: Length) -> Length:
    """The drill: under the reamer where the hole is reamed."""
    if not given.ream:
        return wanted
    stock = REAM_STOCK[wanted > REAM_LARGE]
    return task.computed(
        "drill",
        say("drill before the reamer"),
        max(wanted - stock, wanted / 2),
        "length",
        "{D} − {stock}",
        {"D": (wanted, "length"), "stock": (stock, "length")},
        PRACTICE,
        note=say("take the drill next below"),
        rounds="down",
    )


def _lay_load(
    task: Task, size: Length, has: Length, feed: FeedPerRev, step: SpindleSpeed | None
) -> tuple[Power | None, Force | None]:
    """Thrust, torque and power of the drill at the fast end of its feed."""
    material = task.bench.material
    words = {"force": say("thrust of the drill"), "power": say("power of the motor")}
    if material is None:
        task.unknown("force", words["force"], "force", NO_MATERIAL)
        task.unknown("power", words["power"], "power", NO_MATERIAL)
        return None, None
    k, m = material.k_c11, material.m_c
    put: dict[str, tuple[float, Quantity]] = {
        "kc1.1": (k, "pressure"), "mc": (m, "ratio"), "d": (size, "length"), "hole": (has, "length"),
        "f": (feed, "feed"),
    }
    thickness = "({f in mm} ÷ 2 × sin 59°)^(−{mc})"
    put["f in mm"] = (feed * 1000, "ratio")
    twice = "" if has else "2 × "
    thrust = task.computed(
        "force",
        words["force"],
        drilling_thrust(k, m, size, feed, bore=has),
        "force",
        f"{twice}0.5 × {{kc1.1}} × {thickness} × {{f}} × ({{d}} − {{hole}}) ÷ 2 × sin 59°",
        put,
        say(
            "{kienzle}: {force_source}; {practice} for the shares",
            kienzle=KIENZLE, force_source=material.force_source, practice=PRACTICE,
        ),
        rounds="up",
        note=say("{likely}; at the fast end of the feed", likely=_likely()),
    )
    torque = task.computed(
        "torque", say("torque of the drill"), drilling_torque(k, m, size, feed, bore=has), "torque",
        f"{{kc1.1}} × {thickness} × {{f}} × ({{d}}² − {{hole}}²) ÷ 8", put,
        f"{KIENZLE}: {material.force_source}", rounds="up", note=_likely(),
    )
    if step is None:
        task.unknown("power", words["power"], "power", say("the spindle step is unknown"))
        return None, thrust
    power = lay_motor(
        task, 2 * math.pi * torque * step, "2 × π × {M} × {n} ÷ {share that arrives}",
        {"M": (torque, "torque"), "n": (step, "spindle_speed")},
    )
    judge_load(task, torque, power, step, MOST)
    return power, thrust


def _likely() -> str:
    return say(
        "of the lips alone: likely {least:g} to {most:g} times it with web, margins and wear",
        least=LEAST, most=MOST,
    )


def _lay_pecks(task: Task, deep: Length, size: Length) -> Time:
    """How often the drill goes in: three diameters, then out after each further one; time of going out."""
    more = max(math.ceil((deep - FIRST * size) / (EACH * size) - SAME), 0)
    task.computed(
        "passes",
        say("pecks"),
        1.0 + more,
        "count",
        say("1 + ({{depth}} − {first:g} × {{d}}) ÷ {{d}}, rounded up", first=FIRST),
        {"depth": (deep, "length"), "d": (size, "length")},
        PRACTICE,
        note=say(
            "{first:g} diameters, then right out to clear the chips after each further one",
            first=FIRST,
        ),
    )
    return WITHDRAWAL * more


def _check(task: Task, deep: Length, size: Length, has: Length) -> None:
    reach = task.tool.reach
    if reach is not None and reach.si < deep - SAME:
        task.find(
            "tool-short", "stop",
            say(
                "Drill {tool} reaches {reach}, and {what} is {deep} deep. Take a longer one, or drill from "
                "both ends.",
                tool=task.tool.name, reach=reach.with_unit, what=task.what,
                deep=length_words(deep, task.bench.system),
            ),
        )
    if size > PILOT_FROM and has == 0:
        task.remarks.append(say("drill a pilot first, as thick as the web of the drill"))


def _lay_ream(task: Task, size: Length, deep: Length) -> Time | None:
    """Speed and feed of the reamer; its time under the tool."""
    step = lay_speed(task, "ream", size, key="ream_")
    feed = lay_by_hand(task, "ream", diameter=size, key="ream_feed")
    task.remarks.append(say("ream slowly, plenty of oil, never turn backwards"))
    return feed_time(deep, feed.usual, step) if step is not None else None
