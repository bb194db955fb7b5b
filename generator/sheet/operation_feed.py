"""Feed of an operation: the job's own, else the lathe's nearest that is not above the table's.

    Feed         roughing and finishing feed that follow
    lay_feed     lays them
    lay_by_hand  the range for a cut that is fed by hand
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from generator.calc import spindle
from generator.job.operations import Cut
from generator.job.written import Given
from generator.language.lists import and_words
from generator.language.say import figure, later, say, say_count
from generator.sheet.figure import Kind, Quantity, System
from generator.sheet.operation_task import PRACTICE, Task
from generator.si import FeedPerRev, Length, inch, mm
from generator.tables.cutting_feeds import FeedRange, feed_range

Way = Literal["along", "across"]
NOT_OF_HOUSE = ("groove", "part off", "knurl")  # the house rules are for turning, facing and boring
BY_HAND = later("by hand")
WORDS = {"along": later("along the bed"), "across": later("across the bed")}


@dataclass(frozen=True)
class Feed:
    """Feeds of a roughing and of a finishing cut, m/rev; `slow` and `fast` bound a feed by hand.

    Force goes by the fast end, time by the middle; with a feed of the lathe all are that feed.
    """

    slow: FeedPerRev
    fast: FeedPerRev
    finish: FeedPerRev | None = None

    @property
    def usual(self) -> FeedPerRev:
        """The middle of a feed by hand, or the feed that is set."""
        return (self.slow + self.fast) / 2

    @property
    def last(self) -> FeedPerRev | None:
        """Feed of the last cut where the levers set one; None for a feed by hand."""
        return (self.finish or self.slow) if self.slow == self.fast else None


def lay_feed(task: Task, way: Way, rough: str, finish: str | None = None) -> Feed | None:
    """Lay the feed of roughing and, where `finish` names one, of the finishing cut.

    Parameters
    ----------
    way : which of the lathe's feeds
    rough, finish : operations as the table of feeds calls them
    """
    given = task.entry.given
    if isinstance(given, Cut) and given.feed is not None:
        return _own(task, way, given.feed, finish is not None)
    table = feed_range(rough, task.tool.steel)
    assert table is not None
    first = _lay(task, "feed", say("feed"), way, _of_house(task, rough, table), table)
    if finish is None or first is None:
        return first
    finer = feed_range(finish, task.tool.steel)
    assert finer is not None
    own = _of_house(task, finish, finer)
    last = _lay(task, "finish_feed", say("feed of the finishing cut"), way, own, finer)
    return Feed(first.slow, first.fast, last.usual if last else None)


def lay_by_hand(task: Task, operation: str, *, diameter: Length | None = None, key: str = "feed") -> Feed:
    """Lay the range of a feed by hand, or the job's own."""
    given = task.entry.given
    if isinstance(given, Cut) and given.feed is not None:
        own = task.given(key, say("feed"), given.feed, "feed", note=BY_HAND)
        return Feed(own, own)
    table = feed_range(operation, task.tool.steel, diameter=diameter)
    assert table is not None
    _lay_range(
        task,
        key,
        say("feed") if key == "feed" else say("feed of reaming"),
        table,
        BY_HAND,
    )
    return Feed(table.low, table.high)


def feed_words(low: FeedPerRev, high: FeedPerRev, system: System) -> str:
    """A range of feeds in one unit, or one feed.

    >>> [feed_words(0.002 * 0.0254, 0.005 * 0.0254, system) for system in ("inch", "mm")]
    ['0.002 to 0.005 in/rev', '0.05 to 0.13 mm/rev']
    >>> feed_words(0.0001, 0.0001, "mm")
    '0.10 mm/rev'
    """
    (size, unit, places) = (inch, "in/rev", 3) if system == "inch" else (mm, "mm/rev", 2)
    least, most = (figure(feed / size, f".{places}f") for feed in (low, high))
    ends = least if low == high else say("{low} to {high}", low=least, high=most)
    return f"{ends} {unit}"


def _of_house(task: Task, operation: str, table: FeedRange) -> Given | None:
    """The shop's own feed for an operation; none where it is above what the table has for it."""
    house = task.bench.house
    own = house.finish_feed if operation == "turn finish" else house.rough_feed
    if own is None or operation in NOT_OF_HOUSE:
        return None
    return own if operation == "turn rough" or own.si <= table.high else None


def _own(task: Task, way: Way, given: Given, finishing: bool) -> Feed:
    """The job's own feed, against those of the lathe."""
    feed, lathe = task.given("feed", say("feed"), given, "feed"), task.bench.lathe
    steps = _steps(task, way)
    near = spindle.neighbors(steps, feed)
    if steps and not any(spindle.same(step, feed) for step in near):
        task.find(
            "operation-feed", "check",
            say_count(
                "{lathe} has no feed of {given} {way}; next to it is {near}. Write the one to set.",
                "{lathe} has no feed of {given} {way}; next to it are {near}. Write the one to set.",
                len(near), lathe=lathe.name, given=given.with_unit, way=WORDS[way],
                near=and_words(map(_one, near)),
            ),
            given.where, say("Which feed is it to be?"),
        )
    return Feed(feed, feed, feed if finishing else None)


def _lay(
    task: Task, key: str, words: str, way: Way, own: Given | None, table: FeedRange
) -> Feed | None:
    steps, lathe = _steps(task, way), task.bench.lathe
    if not steps:
        if own is not None:
            house = say("as the levers give, or by hand")
            task.given(key, words, own, "feed", note=house)
            return Feed(own.si, own.si)
        _lay_range(task, key, words, table, say("by hand or as the levers give"))
        return Feed(table.low, table.high)
    wanted = own.si if own is not None else table.high
    step = spindle.highest_step(steps, wanted)
    source = say("the house rules") if own is not None else table.source
    if step is None:
        task.unknown(
            key, words, "feed", say("no feed of {lathe} {way} is as fine", lathe=lathe.name, way=WORDS[way])
        )
        task.find(
            "operation-feed-coarse", "check",
            say(
                "The finest feed of {lathe} {way} is {finest}, and {what} wants {wanted} at most "
                "({source}). Feed by hand, or decide whether the coarser one serves.",
                lathe=lathe.name, way=WORDS[way], finest=_one(min(steps)), what=task.what,
                wanted=_one(wanted), source=source,
            ),
        )
        return None
    put: dict[str, tuple[float, Quantity]] = {"f": (wanted, "feed")}
    feed = task.computed(
        key,
        words,
        step,
        "feed",
        say("the lathe's feed along the bed next below {f}") if way == "along"
        else say("the lathe's feed across the bed next below {f}"),
        put,
        say("{source}; feeds from jobs/_shop/lathes/{lathe}.yml", source=source, lathe=lathe.lathe),
        note=table.note if own is None else "",
    )
    return Feed(feed, feed)


def _lay_range(task: Task, key: str, words: str, table: FeedRange, how: str) -> None:
    """A range in words, where no single feed can be set."""
    kind = Kind.ASSUMED if table.source == PRACTICE else Kind.STANDARD
    first = task.bench.system
    other: System = "mm" if first == "inch" else "inch"
    note = "; ".join(str(part) for part in (
        feed_words(table.low, table.high, other), table.note if table.note != how else "",
        say("from memory, check your copy") if table.from_memory else "",
    ) if part)
    said = f"{how}, {feed_words(table.low, table.high, first)}"
    task.chosen(key, words, said, "text", kind, table.source, note=note)


def _steps(task: Task, way: Way) -> list[FeedPerRev]:
    feeds = task.bench.lathe.feeds
    return [] if feeds is None else [step.si for step in getattr(feeds, way)]


def _one(feed: FeedPerRev) -> str:
    return say("{feed:.4f} in/rev ({feed_mm:.3f} mm/rev)", feed=feed / inch, feed_mm=feed / mm)

