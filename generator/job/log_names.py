"""Names and numbers in a log that point at the shop and the job: lathes, tools, starts of the thread.

    LogNames     what there is
    log_names    of a job in its shop
    unknown_in   what an entry names that there is not
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from generator.errors import BadDesignation
from generator.job.log import Entry
from generator.job.model import Job
from generator.job.shop import Shop
from generator.job.written import System
from generator.language.say import say, say_count
from generator.units import nearest, quoted


@dataclass(frozen=True)
class LogNames:
    """The lathes with the unit of their dials, the tools, and how many starts the thread has.

    `starts` is None where the job cuts no thread, or none that can be read.
    """

    lathes: Mapping[str, System]
    tools: tuple[str, ...] = ()
    starts: int | None = None


def log_names(job: Job, shop: Shop) -> LogNames:
    """What the log of a job may name."""
    tools = *(one.name for one in shop.tools.threading), *(one.name for one in shop.tools.cutting)
    return LogNames({name: lathe.units for name, lathe in shop.lathes.items()}, tools, _starts(job))


def _starts(job: Job) -> int | None:
    thread = next((one.thread for one in job.operations if one.thread is not None), None)
    try:
        return thread.read().starts if thread is not None else None
    except BadDesignation:
        return None  # the job's own problem


def unknown_in(entry: Entry, names: LogNames) -> Iterator[tuple[str, str]]:
    """Field and sentence for each name, and for a start, that there is not."""
    back = entry.taken_up
    if back is not None and back.lathe is not None and back.lathe not in names.lathes:
        sentence = say("{quoted} is not a lathe of this shop", quoted=quoted(back.lathe))
        yield "taken_up.lathe", _with_hint(sentence, back.lathe, list(names.lathes))
    if back is not None and back.tool is not None and back.tool not in names.tools:
        sentence = say("{quoted} is not a tool of this shop", quoted=quoted(back.tool))
        yield "taken_up.tool", _with_hint(sentence, back.tool, list(names.tools))
    if entry.start is not None and names.starts is not None and entry.start > names.starts:
        yield (
            "start",
            say_count(
                '"{start}" is not a start of this thread, which has one start: leave start out',
                '"{start}" is not a start of this thread, which has {count} starts: write 1 to {count}',
                names.starts,
                start=entry.start,
            ),
        )


def _with_hint(sentence: str, name: str, known: list[str]) -> str:
    if near := nearest(name, known):
        return say(
            "{sentence}: did you mean {near}? The shop has {known}",
            sentence=sentence,
            near=near,
            known=", ".join(known),
        )
    return say("{sentence}: the shop has {known}", sentence=sentence, known=", ".join(known))
