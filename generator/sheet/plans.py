"""What one section of the sheet hands to the next; all SI, all frozen.

Order: ThreadPlan (what the thread is) -> LathePlan (levers and speed) -> PassPlan (the cuts) ->
HoldingPlan (how the work stands up to them) -> ReachPlan (what stands in the tool's way) -> OperationPlan
(each operation of the route).
Positions are x from the chuck face towards the tailstock.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from generator.calc.flanks import Flanks
from generator.calc.form_tool import Side
from generator.calc.reach import Meeting, Obstacle, Part
from generator.errors import Location
from generator.language.say import first_small, say
from generator.sheet.drawn import PlotScene
from generator.sheet.figure import System
from generator.sheet.layout import Way
from generator.sheet.lines import CorrectionTable, FitBy, FitRow, OperationLine, PassLine, ToSize
from generator.sheet.work_so_far import WorkSoFar
from generator.si import Angle, FeedPerRev, Force, Length, Power, Speed, SpindleSpeed, Time
from generator.threads.profile import Profile
from generator.threads.registry import Designation, ThreadLimits


@dataclass(frozen=True)
class ThreadPlan:
    """The thread to cut: its limits, where it lies, the tool's nose and the depth that follows.

    For an internal thread (`internal`) `blank` is the bore before threading, `root_diameter` is larger than
    it, `relief_diameter` is a recess, two balls measure it instead of wires, `bar` is the diameter of
    the tool's bar and `bar_out` how far it stands out of its holder, where they are known.

    `start` is the end nearer the tailstock, `end` the end nearer the chuck; a right-hand thread is cut
    from `start` to `end`. `relief_start`..`relief_end` follows `end` towards the chuck (None: no relief).
    `blank` is the diameter the thread is cut into, `target` the pitch diameter aimed at. `run_out` is how far
    the thread fades out past `end`, where it has no relief.
    """

    designation: Designation
    limits: ThreadLimits
    system: System
    pitch: Length
    lead: Length
    profile: Profile
    start: Length
    end: Length
    blank: Length
    target: Length
    pitch_diameter_max: Length
    pitch_diameter_min: Length
    root_diameter: Length
    nose_flat: Length
    nose_radius: Length
    depth: Length
    wire: Length | None
    ball: Length | None
    bore: Length
    relief_start: Length | None = None
    relief_end: Length | None = None
    relief_diameter: Length | None = None
    internal: bool = False
    bar: Length | None = None
    bar_out: Length | None = None
    run_out: Length = 0.0

    @property
    def flanks(self) -> Flanks:
        """Both flanks of the groove (rad)."""
        return self.profile.flanks

    @property
    def half_angle(self) -> Angle:
        """Half angle of the groove (rad); of a buttress thread, that of the groove that widens as fast."""
        return self.profile.half_angle

    @property
    def fit_by(self) -> FitBy:
        """What the thread is tried and measured with while it is cut."""
        if self.profile.taper:
            return "taper gauge"
        if self.flanks.square:
            return "mate"
        return "plug gauge" if self.internal else "wires"

    @property
    def cutting_diameter(self) -> Length:
        """Largest diameter in the cut: the blank outside, the root inside (m)."""
        return self.root_diameter if self.internal else self.blank


@dataclass(frozen=True)
class LathePlan:
    """Levers and speed; None where it is unknown or cannot be had on this lathe."""

    lead: Fraction | None
    spindle_speed: SpindleSpeed | None
    carriage_speed: Speed | None
    relief_time: Time | None
    keep_half_nuts_closed: bool


@dataclass(frozen=True)
class PassPlan:
    """The cuts, and the largest and last cutting force (None when the material is unknown).

    `towards` is the end of the lathe that the tool also goes towards as it is fed in, `slide` the one that
    feeds it (compound or cross slide). `corrections`, `trial_fit` and `to_size` are worked out with the
    passes.
    """

    passes: tuple[PassLine, ...]
    dial: str
    remarks: tuple[str, ...]
    infeed_angle: Angle
    largest_force: Force | None
    last_force: Force | None
    towards: Side
    slide: str
    corrections: CorrectionTable | None = None
    trial_fit: tuple[FitRow, ...] = ()
    to_size: ToSize | None = None

    def depth(self, travel: Length) -> Length:
        """Radial depth of a travel of the slide that feeds."""
        return travel * math.cos(self.infeed_angle)


@dataclass(frozen=True)
class HoldingPlan:
    """Where the work stands; `steady_at` None: no steady rest. `unchecked`: what the record does not say.

    `plots` are those that the page shows, in its order.
    """

    stick_out: Length
    grip: Length
    steady_at: Length | None
    weight_kg: float | None
    unchecked: tuple[str, ...] = ()
    plots: tuple[PlotScene, ...] = ()


@dataclass(frozen=True)
class ReachPlan:
    """What travels and what stands beside the cut that comes nearest to anything.

    `tightest` is that place and `tool_at` where the tool's point stands then (None: nothing stands near any
    cut, or the record does not say). `quill_out` is how far the quill must come out at least.
    """

    parts: tuple[Part, ...]
    obstacles: tuple[Obstacle, ...]
    tightest: Meeting | None
    tool_at: Length | None
    cut: str = ""
    quill_out: Length = 0.0


@dataclass(frozen=True)
class OperationPlan:
    """One operation of the route, as it is to be run on this lathe.

    `name` is its key in the job file, `number` its place in the route. The tool goes along x from `start`
    to `end` (equal for a cut straight in) and from `from_diameter` to `to_diameter`. `depths` are the
    radial cuts in order; `finish_feed` is that of the last one, where it differs. `force` is the cutting
    force of the largest cut, of a drill its thrust. A tool `inside` the work reaches `tool_reach` into it.
    `band` is one that the steady rest is to run on. None is not known or does not apply.
    """

    number: int
    name: str
    start: Length
    end: Length
    from_diameter: Length
    to_diameter: Length
    spindle_speed: SpindleSpeed | None = None
    feed: FeedPerRev | None = None
    finish_feed: FeedPerRev | None = None
    depths: tuple[Length, ...] = ()
    force: Force | None = None
    power: Power | None = None
    cut_time: Time | None = None
    other_time: Time | None = None
    inside: bool = False
    tool_reach: Length | None = None
    band: bool = False
    where: Location | None = None


@dataclass(frozen=True)
class Route:
    """The operations in order: their plans, the lines that the sheet shows, and the work after each."""

    plans: tuple[OperationPlan, ...]
    lines: tuple[OperationLine, ...]
    works: tuple[WorkSoFar, ...]


@dataclass(frozen=True)
class Forces:
    """Force of a tool at the front on the work (N).

    `main` acts along the cutting speed and lifts the work, `radial` pushes it away from the tool, `feed`
    along the lathe, + towards the chuck.
    """

    main: Force
    radial: Force
    feed: Force


@dataclass(frozen=True)
class CutLoad(Way):
    """One cut of the route as the work feels it.

    `number`, `name` and `title` are the operation's. The tool goes from `start` to `end`; the force acts at
    `diameter`. `heaviest` and `last` are the forces of the largest and of the last cut. `tolerance` is what
    the diameter it leaves may vary, where that is known. `work` is the work after it. `steady`, `center` and
    `follow` say which supports bear during it.
    """

    number: int
    name: str
    title: str
    start: Length
    end: Length
    diameter: Length
    heaviest: Forces
    last: Forces
    tolerance: Length | None
    spindle_speed: SpindleSpeed | None
    work: WorkSoFar
    inside: bool = False
    steady: bool = False
    center: bool = False
    follow: bool = False
    where: Location | None = None

    @property
    def what(self) -> str:
        """How a sentence names it."""
        return say("operation {number} ({title})", number=self.number, title=first_small(self.title))
