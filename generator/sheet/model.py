"""What a sheet holds, before it is text: figures with their working, findings, cautions, passes, drawings.

Everything is frozen and in SI (see `generator.si`). Words are finished sentences; numbers are not yet
rounded, that is `render.formats`' task. In reading order:

    Kind, Figure, Working     one number and where it comes from
    Finding, Caution, Step    what to decide, what can hurt, what to do
    OperationLine             one operation of the route with its settings
    PassLine                  one line of the pass table
    SetupScene, ThreadScene, DialScene   what the drawings show
    PlotScene                 what a plot shows
    LogLine, PassTaken, TimeTaken, History   what happened at the lathe, beside what was planned
    TakeUpStep, TakeUpCard   how a thread that was stopped is taken up again
    Sheet                     all of it
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Literal

from generator.calc.left_to_cut import Feed, Read
from generator.errors import Location, Problem
from generator.job.beside import JobPicture, Successor
from generator.sheet.row import ArchiveRow
from generator.si import Angle, Area, Force, Length

System = Literal["inch", "mm"]

Quantity = Literal[
    "length",             # m
    "fine_length",        # m, shown one place finer: deflections, wire sizes
    "area",               # m^2
    "angle",              # rad
    "speed",              # m/s: a cutting speed
    "carriage_speed",     # m/s: how fast the carriage moves
    "spindle_speed",      # rev/s
    "force",              # N
    "temperature_rise",   # K: a difference
    "mass",               # kg
    "power",              # W
    "torque",             # N m
    "feed",               # m/rev
    "roughness",          # m, shown in µm and µin
    "money",              # the shop's money
    "time",               # s
    "duration",           # s, shown in minutes: how long a piece of work takes
    "frequency",          # Hz
    "pressure",           # Pa: a specific cutting force or an elastic modulus
    "stiffness",          # N/m
    "angular_stiffness",  # N m/rad
    "second_moment",      # m^4
    "density",            # kg/m^3
    "mass_per_length",    # kg/m
    "ratio",              # 1, a plain number
    "count",              # a whole number
    "tpi",                # threads in one inch
    "text",               # words, not a number
]


class Kind(StrEnum):
    """Where a number comes from; the sheet shows it beside the number."""

    MEASURED = "measured"        # by somebody, with something
    GIVEN = "given"              # written in the job file
    STANDARD = "from a standard"
    COMPUTED = "computed"
    SHOP = "shop's choice"       # from the shop's own files: lathes, tools, house rules
    ASSUMED = "assumed"          # common practice stands in for what nobody said
    UNKNOWN = "unknown"


@dataclass(frozen=True)
class Working:
    """A formula with the numbers put in.

    `formula` names its inputs in braces, as the trade writes them: ``"{d max} − 0.64951905 × {P}"``.
    `put` gives each named input as (SI value, quantity). Shown twice: with names, then with numbers.
    """

    formula: str
    put: Mapping[str, tuple[float, Quantity]] = field(default_factory=dict)


@dataclass(frozen=True)
class Figure:
    """One figure of the sheet.

    `name` is the stable dotted name ("thread.pitch_diameter.max"), `label` what the sheet calls it.
    `value` is SI, or words when `quantity` is "text", or None when unknown. `source` is a published
    source, "common practice, no source", or the file it was written in. `text` keeps a dimension as its
    author wrote it. `system` shows a length in that unit first (None: the job's unit). `rounds` is the
    safe direction when shown.
    """

    name: str
    label: str
    value: float | str | None
    quantity: Quantity
    kind: Kind
    source: str
    working: Working | None = None
    text: str = ""
    note: str = ""
    system: System | None = None
    rounds: Literal["nearest", "up", "down"] = "nearest"
    where: Location | None = None

    @property
    def assumed(self) -> bool:
        """True when nobody said it and common practice stands in."""
        return self.kind is Kind.ASSUMED


Level = Literal["stop", "check", "note"]


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
    signal: Literal["DANGER", "WARNING", "CAUTION", "NOTICE"]
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


Reading = Literal["over wires", "between balls", "pitch diameter"]
FitBy = Literal["wires", "plug gauge", "taper gauge", "mate"]
Feels = Literal["does not start", "binds", "tight", "free", "rocks"]


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


@dataclass(frozen=True)
class Piece:
    """A length of the work as drawn, from `start` to `end` (x from the chuck face, tailstock is +).

    `form` says how to draw it. A thread has its crest diameter in `od_start`/`od_end` and its root in
    `root`. `bore` 0 is solid. `inside` says what the bore is: an internal thread has its crest diameter in
    `bore` and its root in `root`, a recess its diameter in `bore`.
    """

    start: Length
    end: Length
    od_start: Length
    od_end: Length
    bore: Length = 0.0
    form: Literal["plain", "taper", "thread", "relief"] = "plain"
    root: Length | None = None
    inside: Literal["plain", "thread", "relief"] = "plain"


@dataclass(frozen=True)
class ReachScene:
    """Along the bed, the tool where there is least room; x as in SetupScene, all SI, None is not known.

    `nose` is the spindle nose. Carriage, holder, compound, follow rest are where they stand with the tool's
    point at `tool_at`; `fingers` and `base` are the steady rest's, at center height and on the bed. `quill`
    is its nose, `tailstock` the front of the body. From `edge`, of `part`, to `face`, of `obstacle`, is the
    least room, `clearance`, negative when they meet; `cut` names the cut.
    """

    tool_at: Length
    nose: Length | None
    carriage: tuple[Length, Length] | None
    holder: tuple[Length, Length] | None
    compound: tuple[Length, Length] | None
    follow_rest: tuple[Length, Length] | None
    fingers: tuple[Length, Length] | None
    base: tuple[Length, Length] | None
    quill: Length | None
    tailstock: Length | None
    part: str
    obstacle: str
    edge: Length
    face: Length
    clearance: Length
    cut: str


@dataclass(frozen=True)
class SetupScene:
    """The setup seen from above: x runs from the chuck face (0) to the tailstock (+), all SI.

    Pieces start at −grip. `chuck_diameter` and `chuck_length` are outlines only and may be assumed; they are
    those of whatever holds the work on the spindle (`held`). `cut_from`, `cut_to` are where the thread's cut
    begins and ends (the carriage runs that way). `jaw_words` names the jaws, `inside` says that they hold the
    work from its bore. `clamps` press on a circle `clamp_circle` of a faceplate; a driving dog takes the work
    from 0 to `dog`. `follow_rest_at` is where its jaws are drawn.
    """

    pieces: tuple[Piece, ...]
    grip: Length
    jaws: int
    chuck_diameter: Length
    chuck_length: Length
    steady_at: Length | None
    steady_width: Length
    center: Literal["live", "dead"] | None
    cut_from: Length | None
    cut_to: Length | None
    cross_holes: tuple[tuple[Length, Length], ...]  # (x of the axis, diameter)
    designation: str
    system: System
    job: str
    caption: str
    reach: ReachScene | None = None
    held: Literal["chuck", "collet", "faceplate", "centers"] = "chuck"
    jaw_words: str = "jaws"
    inside: bool = False
    clamps: int = 0
    clamp_circle: Length = 0.0
    dog: Length = 0.0
    follow_rest_at: Length | None = None
    follow_rest_width: Length = 0.0


@dataclass(frozen=True)
class ThreadScene:
    """Axial half-section of one thread groove with the passes in it, all SI.

    `crest_diameter` is the turned blank. `flanks` are the angles of the flank towards the headstock and of
    that towards the tailstock from the plane square to the axis; the groove at depth y is y times both
    tangents wider at the crest than `nose_flat` (or than the nose radius' tangent points). `pass_depths` are
    radial, shallow first. An `internal` thread is cut outwards, into the wall on the operator's side of the
    bore.
    """

    pitch: Length
    flanks: tuple[Angle, Angle]
    crest_diameter: Length
    depth: Length
    nose_flat: Length
    nose_radius: Length
    pass_depths: tuple[Length, ...]
    infeed_angle: Angle
    feed_towards: Literal["headstock", "tailstock"]
    designation: str
    system: System
    job: str
    internal: bool = False


Meets = Literal["same start", "other start", "wrong", "changes", "does not close"]


@dataclass(frozen=True)
class DialPlace:
    """One place of the thread dial at the fixed mark, and what the tool meets when the half nuts close there.

    `at` is counted in lines from line 1, below the lines on the dial. A line has a `number` or is plain;
    between two lines `line` is false. `start` counts from 1, and is None where no start is met for sure.
    """

    at: float
    line: bool
    number: str
    meets: Meets
    start: int | None


@dataclass(frozen=True)
class DialRow:
    """The places that do the same, as words; `start` as in `DialPlace`."""

    meets: Meets
    start: int | None
    places: str
    says: str


@dataclass(frozen=True)
class DialScene:
    """The face of the thread dial with line 1 at the fixed mark, for a first pass that began there.

    `places` go once round the dial. `rule` says which lines may be used, `gear` and `leadscrew` what it holds
    for.
    """

    lines: int
    places: tuple[DialPlace, ...]
    rows: tuple[DialRow, ...]
    rule: str
    gear: str
    leadscrew: str
    starts: int
    designation: str
    job: str


@dataclass(frozen=True)
class Curve:
    """One line of a plot: `points` are (x, y) in SI, x rising; a `limit` is drawn thin and dashed."""

    label: str
    points: tuple[tuple[float, float], ...]
    kind: Literal["main", "second", "third", "limit"] = "main"


@dataclass(frozen=True)
class Mark:
    """A place on the x axis of a plot that has a name: the jaw face, the steady rest, the place chosen."""

    label: str
    x: float


@dataclass(frozen=True)
class Barred:
    """A stretch of the x axis where something cannot be, and why."""

    start: float
    end: float
    why: str


@dataclass(frozen=True)
class PlotScene:
    """A plot: what it says, its axes, its curves, and the table that stands beside it.

    `id` makes its name on the page ("deflection"). The quantities decide units and digits. `heads` names the
    table's columns, the first of them words; a row is its word and SI values in the quantities of `columns`,
    None where it is not known. `says` is one sentence that a machinist takes away from it.
    """

    id: str
    title: str
    x_label: str
    x_quantity: Quantity
    y_label: str
    y_quantity: Quantity
    curves: tuple[Curve, ...]
    heads: tuple[str, ...]
    columns: tuple[Quantity, ...]
    rows: tuple[tuple[str, tuple[float | str | None, ...]], ...]
    caption: str
    says: str
    system: System
    job: str
    marks: tuple[Mark, ...] = ()
    barred: tuple[Barred, ...] = ()


@dataclass(frozen=True)
class LeftAs:
    """How work and slides were left at a stop, and how they stood when the thread was taken up again.

    `rows` are what it is, as it was left, and as it was then; empty where it was not written. `taken_up` is
    empty while it is not.
    """

    stopped: str
    taken_up: str
    rows: tuple[tuple[str, str, str], ...]


LogMark = Literal["stop", "taken up", "agreed", "finished"]


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
    thread was taken up, where it counts otherwise than before.
    """

    lines: tuple[LogLine, ...]
    passes: tuple[PassTaken, ...] = ()
    size_by: Literal["over wires", "pitch diameter"] = "over wires"
    times: tuple[TimeTaken, ...] = ()
    says: tuple[str, ...] = ()
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
