"""What happened at the lathe, beside what was planned; how a stopped thread is taken up; what was learned.

    History       the log beside the plan, with LogLine, PassTaken, TimeTaken
    TakeUpCard    how a thread that was stopped is taken up again
    LearnedHere   lessons of this job and of others
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from generator.errors import Location, Problem
from generator.sheet.drawn import PlotScene
from generator.sheet.figure import System
from generator.sheet.lines import Caution, LogMark, PassLine
from generator.si import Length


@dataclass(frozen=True)
class LeftAs:
    """How work and slides were left at a stop, and how they stood when the thread was taken up again.

    `rows` are what it is, as it was left, and as it was then; empty where it was not written. `taken_up` is
    empty while it is not.
    """

    stopped: str
    taken_up: str
    rows: tuple[tuple[str, str, str], ...]


@dataclass(frozen=True)
class LogLine:
    """One entry of the log: `operation` is its number and title, or as it was written; `said` are pairs of
    what it is about and its words. `pass_number` is None where it is about no pass."""

    at: str
    by: str
    operation: str
    pass_number: int | None
    said: tuple[tuple[str, str], ...]
    marks: tuple[LogMark, ...]
    where: Location


@dataclass(frozen=True)
class SizeTaken:
    """A further size of the thread at a pass, m: what it is, as measured, as planned, what it is known to."""

    name: str
    size: Length
    expected: Length
    known_to: Length

    @property
    def differs(self) -> bool:
        """True when it is further off the plan than it can be read."""
        return abs(self.size - self.expected) > self.known_to


@dataclass(frozen=True)
class LeftOnDial:
    """The passes that are left, as the infeed dial of another lathe reads them since the work is on it.

    `rows` are number of the pass, radial depth, whole turns and the reading (m, as that dial reads).
    """

    lathe: str
    slide: str
    dials: System
    rows: tuple[tuple[int, Length, int, Length], ...]


@dataclass(frozen=True)
class PassTaken:
    """One pass as it was taken. `plan` is None beyond the pass table.

    `depth` is radial, from the readings of the infeed dial; `size` is measured, `expected` the same of the
    plan, both over the wires of the sheet or on the pitch diameter. `dial` is what was written of the dial.
    None is not known. `reads_to` is half a graduation of that dial, as depth; `start` is that of a thread of
    several starts, where the log says it; `others` are further sizes that were measured at this pass.
    """

    number: int
    plan: PassLine | None
    dial: str
    depth: Length | None
    size: Length | None
    expected: Length | None
    reads_to: Length = 0.0
    start: int | None = None
    others: tuple[SizeTaken, ...] = ()


@dataclass(frozen=True)
class TimeTaken:
    """How long one operation took, s; `planned` None where the sheet has no time for it."""

    number: int
    title: str
    planned: float | None
    taken: float


@dataclass(frozen=True)
class History:
    """What the log says, beside the plan; `size_by` is what the sizes of its passes are.

    `says` are sentences about what differs. `problems` are what could not be read of the log, `stop_wants`
    what an open stop does not say (keys, and what they mean), `moved` how the infeed dial counts since the
    thread was taken up, where it counts otherwise than before. `of_passes` are those of `says` that are about
    a pass, with its number; `of_thread` those about how the thread goes on.
    """

    lines: tuple[LogLine, ...]
    passes: tuple[PassTaken, ...] = ()
    size_by: Literal["over wires", "pitch diameter"] = "over wires"
    times: tuple[TimeTaken, ...] = ()
    says: tuple[str, ...] = ()
    of_passes: tuple[tuple[int, str], ...] = ()
    of_thread: tuple[str, ...] = ()
    plots: tuple[PlotScene, ...] = ()
    problems: tuple[Problem, ...] = ()
    stop_wants: tuple[tuple[str, str], ...] = ()
    left_as: LeftAs | None = None
    moved: str = ""
    left_on_dial: LeftOnDial | None = None


@dataclass(frozen=True)
class TakeUpStep:
    """One step of taking a thread up: what to do, then its numbers.

    `values` are what it is, how it was left ("": the log does not say), and whether it is written anew.
    """

    title: str
    text: str
    values: tuple[tuple[str, str, bool], ...] = ()


@dataclass(frozen=True)
class TakeUpCard:
    """How the work that was stopped last is taken up: for half a page, in the order in which it is done.

    `after` says how far it was cut. `numbers` are those wanted first, as pairs; "" is room to write one.
    `finished` says why nothing may be cut any more, where that is so. `reground` and `never` are sentences:
    what a tool ground anew changes, and when it must not be taken up. `thread` is false for other cuts.
    """

    stopped: str
    why: str
    after: str
    numbers: tuple[tuple[str, str], ...]
    steps: tuple[TakeUpStep, ...]
    reground: tuple[str, ...]
    never: tuple[str, ...]
    caution: Caution
    finished: str = ""
    thread: bool = True
    designation: str = ""


@dataclass(frozen=True)
class LessonLine:
    """One lesson: kind, words and day; `why` it stands here and its job are empty for the sheet's own."""

    kind: str
    words: str
    at: str
    why: str = ""
    number: str = ""
    year: str = ""
    folder: str = ""


@dataclass(frozen=True)
class LearnedHere:
    """The lessons of a sheet, its own first; `more` of other jobs are left out.

    `search` says what those share with this job, and the words that the archive finds such jobs by.
    """

    lines: tuple[LessonLine, ...] = ()
    more: int = 0
    search: tuple[tuple[str, str], ...] = ()
