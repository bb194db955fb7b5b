"""What a sheet holds, before it is text.

Everything is frozen and in SI (see `generator.si`). Words are finished sentences; numbers are not yet
rounded, that is `render.formats`' task. In reading order:

    TitleField, Section     the title block, figures under a heading
    Inspected, Conceded     the inspection record
    Sheet                   all of it

Its parts: `sheet.figure` (a number and where it comes from), `sheet.lines` (findings, cautions, operations,
passes), `sheet.drawn` (drawings and plots), `sheet.happened` (the log beside the plan, taking up again, what
was learned).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from generator.job.beside import JobPicture, Successor
from generator.sheet.drawn import DialScene, PlotScene, SetupScene, ThreadScene
from generator.sheet.figure import Figure, System
from generator.sheet.happened import History, LearnedHere, TakeUpCard
from generator.sheet.lines import (
    Caution,
    CorrectionTable,
    Finding,
    FitRow,
    OperationLine,
    PassLine,
    Step,
    ToSize,
)
from generator.sheet.row import ArchiveRow


@dataclass(frozen=True)
class TitleField:
    """One field of the title block (ISO 7200), or of the shop's own."""

    label: str
    text: str


@dataclass(frozen=True)
class Section:
    """A block of figures under one heading, in the order the job is done."""

    id: str
    title: str
    figures: tuple[str, ...]
    remarks: tuple[str, ...] = ()


@dataclass(frozen=True)
class InspectionLine:
    """One line of the inspection record: what to measure, its limits (figure names), with what.

    `key` is its short name in the log, `takes` what is written for it.
    """

    key: str
    feature: str
    low: str
    high: str
    instrument: str
    takes: Literal["size", "turns", "goes"] = "size"


Verdict = Literal["inside", "outside", "by concession", "no limit", "not measured"]


@dataclass(frozen=True)
class Inspected:
    """A line of the inspection record as it was filled in; words as they were written, "" where nothing was.

    `verdict` is by the limits on the sheet and says nothing of fitness for use.
    """

    line: InspectionLine
    found: str = ""
    left: str = ""
    instrument: str = ""
    where: str = ""
    accepted: str = ""
    by: str = ""
    at: str = ""
    verdict: Verdict = "not measured"


@dataclass(frozen=True)
class Conceded:
    """What the customer lets pass outside its limits; "" where it is not said."""

    feature: str
    what: str
    by: str
    on: str = ""
    reference: str = ""


@dataclass(frozen=True)
class Sheet:
    """The whole sheet. `figures` keeps the order in which they were computed.

    `internal` says that the thread is an inside one.
    """

    job: str
    title: str
    slug: str
    year: int
    system: System
    title_block: tuple[TitleField, ...]
    ready: bool
    status: str
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    figures: Mapping[str, Figure]
    sections: tuple[Section, ...]
    steps: tuple[Step, ...]
    passes: tuple[PassLine, ...]
    pass_dial: str
    pass_remarks: tuple[str, ...]
    inspected: tuple[Inspected, ...]
    setup_scene: SetupScene | None
    thread_scene: ThreadScene | None
    index: ArchiveRow
    key_figures: tuple[str, ...] = ()
    dial_scene: DialScene | None = None
    pictures: tuple[JobPicture, ...] = ()
    operations: tuple[OperationLine, ...] = ()
    plots: tuple[PlotScene, ...] = ()
    corrections: CorrectionTable | None = None
    trial_fit: tuple[FitRow, ...] = ()
    internal: bool = False
    to_size: ToSize | None = None
    revision: str = ""
    shop: str = ""
    history: History | None = None
    take_up: TakeUpCard | None = None
    successor: Successor | None = None
    conceded: tuple[Conceded, ...] = ()
    learned: LearnedHere = field(default_factory=LearnedHere)
    for_use: tuple[Caution, ...] = ()  # for whoever takes the part back

    @property
    def inspection(self) -> tuple[InspectionLine, ...]:
        """What to measure and to write down."""
        return tuple(one.line for one in self.inspected)
