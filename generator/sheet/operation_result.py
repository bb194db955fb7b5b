"""What comes out of an operation: surface roughness of the finishing feed, and time under the tool."""

from __future__ import annotations

from generator.calc.finish import roughness_mean
from generator.calc.operation_time import feed_time
from generator.language.say import later, say
from generator.sheet.figure import Quantity
from generator.sheet.operation_feed import Feed
from generator.sheet.operation_task import Task
from generator.si import FeedPerRev, Length, SpindleSpeed, Time
from generator.tables.cutting_speeds import CARBIDE, HIGH_SPEED_STEEL

PARABOLA = later("geometry; Shaw, Metal Cutting Principles (from memory)")
MACHINING_TIME = later("Krar, Technology of Machine Tools, machining time (from memory)")
WORSE = {  # than the tool's geometry makes it
    HIGH_SPEED_STEEL: later(
        "from the tool's geometry; with a built-up edge (low speed, soft steel) 1.5 to 3 times as rough"
    ),
    CARBIDE: later("from the tool's geometry; 1.5 to 3 times as rough in practice"),
}


def lay_roughness(task: Task, feed: FeedPerRev | None) -> None:
    """Lay the mean roughness where the feed and the nose radius make one; nothing where no feed makes it."""
    nose, words = task.tool.nose_radius, say("surface roughness Ra at best")
    if feed is None:
        task.unknown("roughness", words, "roughness", say("it is fed by hand, or the feed is unknown"))
        return
    if nose is None:
        task.unknown("roughness", words, "roughness", say("the nose radius of the tool is not on record"))
        return
    if feed > nose.si:
        task.unknown(
            "roughness", words, "roughness", say("the feed is above the nose radius: it leaves a thread")
        )
        return
    task.computed(
        "roughness", words, roughness_mean(feed, nose.si), "roughness", "{f}² ÷ (18 × √3 × {r})",
        {"f": (feed, "feed"), "r": (nose.si, "fine_length")}, PARABOLA,
        note=WORSE[task.tool.steel], rounds="up",
    )


def lay_time(
    task: Task, length: Length, feed: Feed | None, step: SpindleSpeed | None, cuts: int | None,
    *, finishing: bool = False, also: tuple[str, Time] | None = None,
) -> Time | None:
    """Lay the time of one cut, and of all of them; None when something is missing.

    Parameters
    ----------
    length : of one cut, m
    cuts : how many; None when it is not known
    finishing : the last one runs at the finishing feed
    also : what comes to it, in words, and its time
    """
    if feed is None or step is None:
        task.unknown("time", say("time under the tool"), "duration",
                     say("the feed is unknown") if feed is None else say("the spindle step is unknown"))
        return None
    put: dict[str, tuple[float, Quantity]] = {
        "length": (length, "length"), "f": (feed.usual, "feed"), "n": (step, "spindle_speed"),
    }
    note = "" if feed.slow == feed.fast else say("at the middle of the feed by hand")
    one = task.computed(
        "time_each", say("time of one cut"), feed_time(length, feed.usual, step), "duration",
        "{length} ÷ ({f} × {n})", put, MACHINING_TIME, note=note,
    )
    if cuts is None:
        task.unknown("time", say("time under the tool"), "duration", say("the number of cuts is unknown"))
        return None
    last = feed_time(length, feed.finish, step) if finishing and feed.finish else one
    formula, put = "{cuts} × {one cut}", {"cuts": (float(cuts), "count"), "one cut": (one, "duration")}
    if last != one:
        formula = "({cuts} − 1) × {one cut} + {last cut}"
        put["last cut"] = (last, "duration")
    if also is not None:
        formula, put[also[0]] = f"{formula} + {{{also[0]}}}", (also[1], "duration")
    whole = (cuts - 1) * one + last + (also[1] if also is not None else 0.0)
    return task.computed(
        "time", say("time under the tool"), whole, "duration", formula, put, MACHINING_TIME,
        note=note,
    )
