"""What the drawings and plots show, before anything is drawn.

    SetupScene     the work in its holding on the lathe, with ReachScene
    ThreadScene    the profile with its passes
    DialScene      the thread dial
    PlotScene      curves over one another
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from generator.calc.thread_dial import DialRule
from generator.sheet.figure import Quantity, System
from generator.si import Angle, Length

Meets = Literal["same start", "other start", "wrong", "changes", "does not close"]


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

    `places` go once round the dial. `closing` is where the half nuts may close, `rule` says it in words,
    `gear` and `leadscrew` what it holds for.
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
    closing: DialRule | None = None


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
