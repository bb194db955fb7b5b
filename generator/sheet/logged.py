"""A log with the job it belongs to: which operation an entry is about, and what its dials say.

    Logged      the log, and what of the sheet it is read against
    About       the operation of an entry, or why there is none
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from generator.calc.dials import Dial, travel_read
from generator.errors import OutsideRange
from generator.job.fields import Given
from generator.job.lathe import Lathe
from generator.job.log import Entry
from generator.job.model import Job
from generator.job.reading import LogEntry, ReadLog
from generator.sheet.desk import Desk
from generator.sheet.infeed import feeding_dial, slide_dial
from generator.sheet.model import OperationLine, System
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

    @cached_property
    def infeed_dial(self) -> Dial:
        """The dial of the slide that feeds the thread in."""
        return feeding_dial(self.lathe, self.infeed_slide)

    @property
    def infeed_slide(self) -> str:
        """What that slide is called."""
        return self.cuts.slide if self.cuts else "compound"

    @cached_property
    def cross_dial(self) -> Dial:
        """The dial of the cross slide."""
        return slide_dial(self.lathe.cross_dial)

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

    def travel(self, turns: int | None, shown: Given | None, near: Length | None) -> Length | None:
        """Travel of the infeed slide (m); without turns, the one nearest to `near`. None off the dial."""
        if shown is None:
            return None
        back = self.thread is not None and self.thread.internal
        dial = self.infeed_dial
        try:
            travel = travel_read(turns or 0, shown.si, dial, back)
        except OutsideRange:
            return None
        if turns is None and near is not None:
            turn = dial.turn / dial.per_travel
            travel += max(round((near - travel) / turn), 0) * turn
        return travel
