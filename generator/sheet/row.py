"""What the archive knows of a job: what it is found by, counted by, compared with and listed under.

ThreadRow, TimeRow, DayRow    parts of it
ArchiveRow                    one job
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Final, Literal

from generator.language.say import later
from generator.si import Length, Time

NOT_READY: Final = later("NOT READY TO RUN")
WHOLE: Final = later("whole job")  # among kinds of work

Event = Literal["received", "stopped", "taken up", "done"]
MateIs = Literal["", "on the bench", "measured, not here", "not seen", "unknown"]


@dataclass(frozen=True)
class ThreadRow:
    """The thread of a job.

    `family` is the name of its family, `size` and `pitch` are in the thread's own words (``2 1/4 in``,
    ``64 mm``; ``8 per inch``, ``2 mm``), `nominal` and `pitch_si` are m.
    """

    designation: str
    family: str
    size: str
    nominal: Length
    pitch: str
    pitch_si: Length
    starts: int
    hand: Literal["right", "left"]
    side: Literal["outside", "inside"]


@dataclass(frozen=True)
class TimeRow:
    """How long one kind of work took, s, as logged; `planned` None where the sheet has no time for it."""

    work: str
    planned: Time | None
    taken: Time


@dataclass(frozen=True)
class DayRow:
    """What happened on a day, ``2026-05-11``."""

    day: str
    what: Event


@dataclass(frozen=True)
class ArchiveRow:
    """One job in the archive.

    `year` is the folder that it lies in. `text` is all that is written in job file and log, for the search;
    `findings` are the ids of the sheet's findings, `learned` the lessons of its own log.
    """

    number: str
    title: str
    year: str
    status: str
    ready: bool = False
    thread: ThreadRow | None = None
    material: str = ""
    lathe: str = ""
    holding: tuple[str, ...] = ()
    customer: str = ""
    duty: tuple[str, ...] = ()
    mate: MateIs = ""
    findings: tuple[str, ...] = ()
    learned: tuple[str, ...] = ()
    days: tuple[DayRow, ...] = ()
    times: tuple[TimeRow, ...] = ()
    text: str = field(default="", repr=False)

    @property
    def designation(self) -> str:
        """The thread as its designation says it, "" without one."""
        return self.thread.designation if self.thread else ""

    @property
    def held(self) -> str:
        """How the work is held and supported, in one line."""
        return ", ".join(self.holding)
