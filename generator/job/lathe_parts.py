"""The parts of a lathe's record, in jobs/_shop/lathes/NAME.yml.

In reading order: ranges and swing, spindle, chucks and rests, leadscrew and gears, dials, carriage and
tailstock.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise
from typing import Annotated, Any, Literal, Self

from pydantic import (
    AfterValidator,
    BeforeValidator,
    Field,
    WithJsonSchema,
    model_validator,
)

from generator.calc.gear_trains import FEWEST_TEETH, MOST_TEETH
from generator.job.fields import (
    Angle,
    AngularStiffness,
    Count,
    FeedPerRev,
    Force,
    Jaws,
    Length,
    Line,
    Mass,
    Number,
    Power,
    SpindleSpeed,
    Stiffness,
    Strict,
    Text,
    Torque,
    Word,
)
from generator.job.written import Given, refused
from generator.language.say import say


class Range(Strict):
    """From the smallest to the largest diameter that fits."""

    from_: Length = Field(alias="from")
    """Smallest diameter that fits."""
    to: Length
    """Largest diameter that fits."""

    @model_validator(mode="after")
    def _rises(self) -> Self:
        if self.from_.si > self.to.si:
            sentence = say(
                '"{size}" is larger than to, "{other}": swap them',
                size=self.from_.with_unit,
                other=self.to.with_unit,
            )
            raise refused(("from", sentence))
        return self


class Swing(Strict):
    """Largest diameter that turns clear."""

    over_bed: Length
    """Largest diameter that turns clear of the bed."""
    over_cross_slide: Length | None = None
    """Largest diameter that turns clear of the cross slide."""
    in_gap: Length | None = None
    """Largest diameter that turns clear in the gap, with its bridge out."""
    gap_width: Length | None = None
    """How far the gap reaches from the spindle nose along the bed."""

    @model_validator(mode="after")
    def _cross_slide(self) -> Self:
        over = self.over_cross_slide
        if over is not None and over.si > self.over_bed.si:
            sentence = say(
                '"{size}" is larger than over_bed, "{other}": swap them',
                size=over.with_unit,
                other=self.over_bed.with_unit,
            )
            raise refused(("over_cross_slide", sentence))
        return self

    @model_validator(mode="after")
    def _gap(self) -> Self:
        if self.gap_width is not None and self.in_gap is None:
            raise refused(("gap_width", say("stands without in_gap: write what turns clear in the gap, too")))
        if self.in_gap is not None and self.in_gap.si < self.over_bed.si:
            sentence = say(
                '"{size}" is smaller than over_bed, "{other}": the gap is there for larger work',
                size=self.in_gap.with_unit,
                other=self.over_bed.with_unit,
            )
            raise refused(("in_gap", sentence))
        return self


class SpindleStep(Strict):
    """One speed of the spindle: `50`, or `{speed: 50, power: 3 hp, torque: 400 lbf ft}`."""

    speed: SpindleSpeed
    """Turns a minute."""
    power: Power | None = None
    """Power at this step, where the lathe's plate gives one."""
    torque: Torque | None = None
    """Torque at this step, where the lathe's plate gives one."""

    @property
    def si(self) -> float:
        """The speed, rev/s."""
        return self.speed.si


def _bare_step(written: Any) -> Any:
    return {"speed": written} if isinstance(written, str | Given) else written


Step = Annotated[SpindleStep, BeforeValidator(_bare_step, json_schema_input_type=SpindleSpeed | SpindleStep)]


class Spindle(Strict):
    """Bore, nose and speed steps."""

    speeds: list[Step] = Field(min_length=1)
    """The speed steps, rising, in turns a minute; a step may be a block with its power and torque."""
    bore: Length | None = None
    """Bore through the spindle."""
    nose: Annotated[Literal["camlock", "screwed", "bolted", "taper key"], Word] | None = None
    """How the chuck is held on the spindle."""
    index_holes: Count | None = None
    """Holes of the index plate on the spindle, evenly spaced, if it has one."""

    @model_validator(mode="after")
    def _rising(self) -> Self:
        _check_rising("speeds", [step.speed for step in self.speeds])
        return self


def _few(written: object) -> object:
    return int(written) if isinstance(written, str) and written.strip() in ("1", "2", "3") else written


class Head(Strict):
    """What every device on the spindle nose may say."""

    length: Length | None = None
    """Spindle nose to the face that x counts from: jaws, collet, plate, point of the center."""
    diameter: Length | None = None
    """Diameter of its body."""
    top_speed: SpindleSpeed | None = None
    """Highest speed marked on it."""
    stiffness: AngularStiffness | None = None
    """How much it resists the work tilting."""
    mass: Mass | None = None
    """How much it weighs."""


class LatheChuck(Head):
    """One chuck that fits this lathe."""

    jaws: Jaws
    """Number of jaws."""
    grips: Range
    """Smallest and largest diameter it grips from outside."""
    grips_inside: Range | None = None
    """Smallest and largest bore it grips from inside."""
    jaw_length: Length | None = None
    """Length of the jaws along the work."""
    jaw_width: Length | None = None
    """Width of the face of one jaw."""
    jaw_mass: Mass | None = None
    """How much one jaw weighs, with its slide."""
    jaw_middle: Length | None = None
    """Balance point of one jaw from its gripping face, outwards."""
    key_torque: Torque | None = None
    """Torque on its key that gives grip_force."""
    grip_force: Force | None = None
    """Force of all jaws together at key_torque, clean and greased."""

    @model_validator(mode="after")
    def _force_of_torque(self) -> Self:
        if (self.key_torque is None) != (self.grip_force is None):
            alone, other = ("key_torque", "grip_force") if self.key_torque else ("grip_force", "key_torque")
            raise refused((alone, say("stands without {other}: write both, or take it out", other=other)))
        return self


class LatheCollet(Head):
    """Collets that fit this lathe."""

    grips: Range
    """Smallest and largest diameter of the set."""
    grip_length: Length | None = None
    """Length of the collet along the work."""
    grip_force: Force | None = None
    """Force of the collet all around the work when closed by its drawbar or nut."""


class LatheFaceplate(Head):
    """The faceplate."""

    diameter: Length
    """Its diameter."""
    slots: Count | None = None
    """Slots for the tail of a dog, evenly spaced."""


class LatheCenter(Head):
    """The center in the headstock, with the plate that drives the dog."""

    slots: Count | None = None
    """Slots of the plate for the tail of the dog, evenly spaced."""


class FollowRest(Range):
    """The follow rest: its range and tips."""

    tips: Annotated[Literal["bronze", "brass", "roller", "ball"], Word] | None = None
    """What its jaws bear on the work with."""
    width: Length | None = None
    """Width of its jaws along the work."""
    stiffness: Stiffness | None = None
    """How much it resists being pushed sideways."""


class SteadyRest(FollowRest):
    """The steady rest: its range, tips and width."""

    lower_fingers: Annotated[Literal[1, 2], BeforeValidator(_few)] = 2
    """How many of its three fingers are below: 2, with one above, or 1."""
    finger_load: Force | None = None
    """Largest force on one finger."""
    base_left: Length | None = None
    """Bed its base takes from the middle of its jaws towards the chuck."""
    base_right: Length | None = None
    """Bed its base takes from the middle of its jaws towards the tailstock."""


class Leadscrew(Strict):
    """Exactly one of the two."""

    tpi: Number | None = None
    """Threads in one inch of an inch leadscrew."""
    pitch: Length | None = None
    """Pitch of a metric leadscrew."""

    @model_validator(mode="after")
    def _one(self) -> Self:
        if (self.tpi is None) == (self.pitch is None):
            raise refused(
                ("", say("needs one of two keys: tpi for an inch leadscrew, or pitch for a metric one"))
            )
        return self


def _not_above(most: int) -> AfterValidator:
    def check(count: int) -> int:
        if count > most:
            sentence = say(
                "{count} is more than a thread dial has: write at most {most}", count=count, most=most
            )
            raise refused(("", sentence))
        return count

    return AfterValidator(check)


# Above these it is a slip of the pen: common practice, no source
DialTeeth = Annotated[
    Count, _not_above(200), WithJsonSchema({"type": "integer", "minimum": 1, "maximum": 200})
]
DialLines = Annotated[Count, _not_above(60), WithJsonSchema({"type": "integer", "minimum": 1, "maximum": 60})]


class ThreadDial(Strict):
    """The thread dial."""

    teeth: DialTeeth
    """Teeth of the gear that runs on the leadscrew."""
    lines: DialLines
    """Lines on its face."""
    numbered_every: Count = 1
    """Every how many lines a number stands."""
    more_gears: list[DialTeeth] = Field(default_factory=list)
    """Teeth of the other gears that fit this dial."""

    @model_validator(mode="after")
    def _even(self) -> Self:
        if self.lines % self.numbered_every:
            sentence = say(
                "{numbered_every} does not divide the {lines} lines: write every how many lines a number "
                "stands, all around the dial",
                numbered_every=self.numbered_every,
                lines=self.lines,
            )
            raise refused(("numbered_every", sentence))
        return self


class Gearbox(Strict):
    """Threads the levers give, as on the plate."""

    tpi: list[Number] = Field(default_factory=list)
    """Threads in one inch, as on the plate."""
    pitches: list[Length] = Field(default_factory=list)
    """Pitches, as on the plate."""
    tpi_with_gears: Text | None = None
    """The change gears that the tpi entries need, if any."""
    pitches_with_gears: Text | None = None
    """The change gears that the pitch entries need, if any."""

    @model_validator(mode="after")
    def _gears_of_something(self) -> Self:
        for key in ("tpi", "pitches"):
            if getattr(self, f"{key}_with_gears") is not None and not getattr(self, key):
                raise refused(
                    (f"{key}_with_gears", say("stands without {key}: write the threads they give", key=key))
                )
        return self


def _gear(teeth: int) -> int:
    if not FEWEST_TEETH <= teeth <= MOST_TEETH:
        sentence = say(
            '"{teeth}" is not a change gear: write its teeth, {fewest_teeth} to {most_teeth}',
            teeth=teeth,
            fewest_teeth=FEWEST_TEETH,
            most_teeth=MOST_TEETH,
        )
        raise refused(("", sentence))
    return teeth


class ChangeGears(Strict):
    """The change gears and the banjo they hang on."""

    gears: list[Annotated[Count, AfterValidator(_gear)]] = Field(min_length=2)
    """Teeth of every gear the shop owns; a gear owned twice stands twice."""
    stud_ratio: Number | None = None
    """Turns of the stud that carries the first driver, in one turn of the spindle; 1 where not given."""
    most_pairs: Annotated[Literal[1, 2, 3], BeforeValidator(_few)] = 2
    """Pairs of gears the banjo takes: 1, 2 (one compound stud) or 3 (two compound studs)."""
    clearance: Count = 15
    """Teeth by which a pair must reach past the next stud."""
    plate_ratio: Number | None = None
    """Drivers over driven with which the gearbox plate is right; 1 where not given."""

    @property
    def stud(self) -> Fraction:
        """Turns of the stud in one turn of the spindle, exactly."""
        return self.stud_ratio.exact if self.stud_ratio else Fraction(1)

    @property
    def of_plate(self) -> Fraction:
        """Drivers over driven with which the plate is right, exactly."""
        return self.plate_ratio.exact if self.plate_ratio else Fraction(1)


class Feeds(Strict):
    """The power feeds the levers give."""

    along: list[FeedPerRev] = Field(default_factory=list)
    """Feeds along the bed, rising."""
    across: list[FeedPerRev] = Field(default_factory=list)
    """Feeds across the bed, rising."""

    @model_validator(mode="after")
    def _rising(self) -> Self:
        _check_rising("along", self.along)
        _check_rising("across", self.across)
        return self


class TurnedDial(Strict):
    """A dial on a handwheel."""

    division: Length
    """One division, as marked."""
    turn: Length
    """One whole turn, as marked."""

    @model_validator(mode="after")
    def _whole_turn(self) -> Self:
        divisions = self.turn.si / self.division.si
        if abs(divisions - round(divisions)) > 1e-6 * divisions:
            sentence = say(
                "{size} is not a whole number of divisions of {other}: "
                "write one turn and one division as the dial is marked",
                size=self.turn.with_unit,
                other=self.division.with_unit,
            )
            raise refused(("turn", sentence))
        return self


class Dial(TurnedDial):
    """A slide's dial."""

    reads: Annotated[Literal["radius", "diameter"], Word]
    """Whether a division is what the slide moves, or what comes off the diameter."""


class Tailstock(Strict):
    """The tailstock."""

    quill_travel: Length | None = None
    """How far the quill comes out."""
    quill_diameter: Length | None = None
    """Diameter of the quill."""
    taper: Line | None = None
    """Taper in the quill, such as Morse 3."""
    length: Length | None = None
    """Bed the tailstock takes."""
    offset: Length | None = None
    """How far it sets over, each way."""
    center_load: Force | None = None
    """Largest force across the live center, from its maker."""
    stiffness: Stiffness | None = None
    """How much quill and center resist being pushed sideways."""


class TaperAttachment(Strict):
    """The taper attachment."""

    length: Length
    """Longest taper in one setting."""
    steepest: Angle
    """Steepest taper, as the half angle."""
    scale: Annotated[Literal["half angle", "included angle", "per foot"], Word] | None = None
    """What its scale reads."""


def _check_rising(key: str, steps: Sequence[Given]) -> None:
    for place, (before, after) in enumerate(pairwise(steps), 1):
        if after.si <= before.si:
            sentence = say(
                '"{size}" is not above the "{other}" before it: write them from low to high',
                size=after.with_unit,
                other=before.with_unit,
            )
            raise refused((f"{key}.{place}", sentence))
