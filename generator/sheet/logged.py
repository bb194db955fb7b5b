"""A log with the job it belongs to: which operation an entry is about, and what its dials say.

    Logged      the log, and what of the sheet it is read against
    About       the operation of an entry, or why there is none
    lathe_now   the lathe that the work is on
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from generator.calc.dials import Dial, travel_read
from generator.errors import OutsideRange
from generator.job.lathe import Lathe
from generator.job.log import Entry
from generator.job.model import Job
from generator.job.reading import ReadLog
from generator.job.shop import Tools
from generator.job.source import LogEntry
from generator.job.written import Given
from generator.sheet.desk import Desk
from generator.sheet.figure import System
from generator.sheet.infeed import COMPOUND, feeding_dial
from generator.sheet.lines import OperationLine
from generator.sheet.plans import LathePlan, PassPlan, ThreadPlan
from generator.si import Length


@dataclass(frozen=True)
class About:
    """The operation that an entry is about; without one, `twins` are those that its words may mean."""

    line: OperationLine | None
    twins: tuple[OperationLine, ...] = ()


@dataclass(frozen=True)
class Logged:
    """The entries of a log, with the route, the passes and the lathe of the job; plans None where unknown."""

    job: Job
    log: ReadLog
    lathe: Lathe
    thread: ThreadPlan | None
    levers: LathePlan | None
    cuts: PassPlan | None
    lines: tuple[OperationLine, ...]
    desk: Desk
    system: System
    lathes: Mapping[str, Lathe]
    tools: Tools

    @cached_property
    def _at(self) -> dict[int, Lathe | None]:
        places = _lathes_of(self.log, self.lathe, self.lathes)
        return {id(one): lathe for one, lathe in zip(self.log.entries, places, strict=True)}

    def lathe_at(self, one: LogEntry) -> Lathe | None:
        """The lathe that the work was on at an entry; None where it was taken up on one that is not known."""
        return self._at[id(one)]

    @property
    def lathe_now(self) -> Lathe | None:
        """The lathe that the work was last taken up on, at first that of the job; None as in `lathe_at`."""
        return self.lathe_at(self.log.entries[-1]) if self.log.entries else self.lathe

    @cached_property
    def threading(self) -> OperationLine | None:
        """The thread's line of the route."""
        return next((line for line in self.lines if line.name == "thread"), None)

    @property
    def threads(self) -> list[LogEntry]:
        """The entries about the thread."""
        return [
            one for one in self.log.entries
            if self.threading is not None and self.about(one.entry).line == self.threading
        ]

    def infeed_dial(self, lathe: Lathe) -> Dial:
        """The dial of the slide that feeds the thread in, on a lathe."""
        return feeding_dial(lathe, self.infeed_slide)

    @property
    def infeed_slide(self) -> str:
        """What that slide is called."""
        return self.cuts.slide if self.cuts else COMPOUND

    def about(self, entry: Entry) -> About:
        """The operation of an entry: by number, name or title; a pass without one is the thread's."""
        said = entry.operation
        if said is None:
            of_thread = entry.pass_ is not None or entry.stop is not None or entry.taken_up is not None
            return About(self.threading if of_thread else None)
        wanted = " ".join(said.replace("_", " ").lower().split())
        if wanted.isdigit():
            return About(next((line for line in self.lines if line.number == int(wanted)), None))
        found = [
            line for line in self.lines if wanted in (line.name.replace("_", " "), line.title.lower())
        ]
        return About(found[0]) if len(found) == 1 else About(None, tuple(found))

    def travel(
        self, turns: int | None, shown: Given | None, near: Length | None, lathe: Lathe | None
    ) -> Length | None:
        """Travel of the infeed slide of a lathe (m); without turns, the one nearest to `near`.

        None off the dial, and on a lathe that is not known.
        """
        if shown is None or lathe is None:
            return None
        back = self.thread is not None and self.thread.internal
        dial = self.infeed_dial(lathe)
        try:
            travel = travel_read(turns or 0, shown.si, dial, back)
        except OutsideRange:
            return None
        if turns is None and near is not None:
            turn = dial.turn / dial.per_travel
            travel += max(round((near - travel) / turn), 0) * turn
        return travel


def lathe_now(log: ReadLog | None, lathe: Lathe, lathes: Mapping[str, Lathe]) -> Lathe:
    """The lathe whose dials cut what is left: the last that the log takes the work up on, else the job's."""
    known = [one for one in _lathes_of(log, lathe, lathes) if one is not None] if log is not None else []
    return known[-1] if known else lathe


def _lathes_of(log: ReadLog, lathe: Lathe, lathes: Mapping[str, Lathe]) -> list[Lathe | None]:
    """The lathe at each entry."""
    now: Lathe | None = lathe
    found = []
    for one in log.entries:
        back = one.entry.taken_up
        if back is not None and back.lathe is not None:
            now = lathes.get(back.lathe)
        found.append(now)
    return found
