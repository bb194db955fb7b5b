"""The lines of a sheet: what to decide, what can hurt, what to do, what to set, cut, try and measure.

    Finding, Caution, Step     what to decide, what can hurt, what to do
    OperationLine, PassLine    one operation of the route, one pass of the thread
    FitRow, CorrectionTable    what to try, what is still to be cut
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, Literal

from generator.calc.left_to_cut import Feed, Read
from generator.errors import Location
from generator.language.say import later
from generator.sheet.figure import System
from generator.si import Area, Force, Length

Level = Literal["stop", "check", "note"]
Reading = Literal["over wires", "between balls", "pitch diameter"]
Signal = Literal["DANGER", "WARNING", "CAUTION", "NOTICE"]
FitBy = Literal["wires", "plug gauge", "taper gauge", "mate"]
Feels = Literal["does not start", "binds", "tight", "free", "rocks"]
LogMark = Literal["stop", "taken up", "agreed", "finished"]

LEVEL_WORDS: Final[Mapping[Level, str]] = {
    "stop": later("STOP"), "check": later("CHECK"), "note": later("NOTE"),
}  # fmt: skip
SIGNAL_WORDS: Final[Mapping[Signal, str]] = {  # the worst first
    "DANGER": later("DANGER"), "WARNING": later("WARNING"), "CAUTION": later("CAUTION"),
    "NOTICE": later("NOTICE"),
}  # fmt: skip


@dataclass(frozen=True)
class Finding:
    """A sentence a machinist would say, with the limit, the actual number, and what to do.

    `stop`: do not run it as planned; `check`: decide before starting; `note`: worth knowing.
    `asks` is the question to the customer or the office, where the finding is one.
    """

    id: str
    level: Level
    text: str
    where: Location | None = None
    asks: str = ""


@dataclass(frozen=True)
class Caution:
    """A safety note that follows from this very setup; `signal` is an ANSI Z535.6 signal word."""

    id: str
    signal: Signal
    text: str
    because: str
    source: str


@dataclass(frozen=True)
class Step:
    """One line of the order of work, with its check box; `hold` marks a point to stop and measure.

    `figures` names what is set or measured in it, `operation` its number in the route (0: none).
    """

    text: str
    detail: str = ""
    hold: bool = False
    figures: tuple[str, ...] = ()
    operation: int = 0


@dataclass(frozen=True)
class OperationLine:
    """One operation of the route: `figures` names the figure of each column that applies.

    Columns: "tool", "step", "feed", "passes", "depth", "dial", "force", "power", "roughness", "time".
    `hold` says what to measure before going on, `proposed` that the job file does not have it.
    """

    number: int
    name: str
    title: str
    figures: Mapping[str, str]
    detail: str = ""
    hold: str = ""
    proposed: bool = False
    where: Location | None = None


@dataclass(frozen=True)
class PassLine:
    """One pass. Depths are radial; `travel` is what the infeed slide has moved since touch.

    `dial_turns` and `dial_reading` are what that dial shows (whole turns, then the reading in the dial's
    own unit as a SI length, already on radius or diameter as the dial reads). `over_wires` and
    `pitch_diameter` are expected after the pass; `over_wires` is None while the wires would not seat.
    """

    number: int
    depth: Length
    cut: Length
    travel: Length
    dial_turns: int
    dial_reading: Length
    chip_area: Area
    pitch_diameter: Length
    over_wires: Length | None
    force: Force | None
    spring: bool = False
    measure: bool = False
    try_mate: bool = False


@dataclass(frozen=True)
class FitRow:
    """What is felt when the thread is tried, what to look at before cutting more, and what to do then.

    `feels` is the same in one word of the log, `at` where on the thread it is felt.
    """

    felt: str
    look: tuple[str, ...]
    then: str
    feels: Feels = "tight"
    at: str = ""


@dataclass(frozen=True)
class CorrectionRow:
    """A thread that reads `excess` too full on the pitch diameter: the depth still to be cut, radial.

    `compound` and `cross_slide` are what either dial is turned on, as it reads, rounded down to half a
    division (0: less than that); `compound` is None where the cross slide feeds in.
    """

    excess: Length
    depth: Length
    compound: Length | None
    cross_slide: Length


@dataclass(frozen=True)
class CorrectionTable:
    """What is still to be cut, by what the thread reads too full.

    `reading` is what is read, `size` what it should be after the last pass. `compound_reads` and
    `cross_slide_reads` say what each dial shows, `dials` in which unit.
    """

    rows: tuple[CorrectionRow, ...]
    reading: Reading
    size: Length
    compound_reads: Literal["radius", "diameter"]
    cross_slide_reads: Literal["radius", "diameter"]
    dials: System


@dataclass(frozen=True)
class SizeReading:
    """One way of measuring the thread: its `key` in the log, its name, with what, and what it reads (m)."""

    key: Literal["over_wires", "between_balls", "pitch_diameter"]
    label: str
    instrument: str
    read: Read


@dataclass(frozen=True)
class ToSize:
    """How a reading becomes what is left on the dials, in SI. `readings`: the usual one first.

    `slide` feeds in; `feed_dial` and `cross_dial` are one division of its dial and of the cross slide's, as
    they read, in the unit `dials`.
    """

    readings: tuple[SizeReading, ...]
    feed: Feed
    slide: str
    feed_dial: Length
    cross_dial: Length
    dials: System
