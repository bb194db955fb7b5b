"""The log of a job, `log.yml` beside `job.yml`: what happened at the lathe, entry by entry, oldest first.

In reading order: what an entry may hold (Measured, Fit, Agreed, Setting, Stop, TakenUp), Entry, LogFile. Bare
lengths are in the unit of the job; what a dial reads is in the unit of that dial. The line under each key is
what an editor and the error messages show for it.
"""

from __future__ import annotations

from typing import Annotated, Any, ClassVar, Final, Literal, Self

from pydantic import BeforeValidator, Field, RootModel, WithJsonSchema, model_validator

from generator.job.fields import (
    Angle,
    Count,
    CountOrZero,
    Date,
    DateAndTime,
    Length,
    LengthOrZero,
    Line,
    NumberOrZero,
    Strict,
    Text,
    Time,
    Word,
    YesNo,
)
from generator.job.inspected import Concession, Inspected
from generator.job.learned import Alike
from generator.job.written import Given, refused
from generator.language.say import say

ON_DIALS: Final = ("dial", "cross")  # read in the unit of the dial
SIZES: Final = (
    "over_wires", "between_balls", "pitch_diameter", "major", "minor", "diameter", "bore", "depth", "length",
    "width", "runout",
)
Feels = Literal["does not start", "binds", "tight", "free", "rocks"]


class Measured(Strict):
    """What was measured: one size or several, each under its own name."""

    over_wires: Length | None = None
    """Size over the wires."""
    between_balls: Length | None = None
    """Size between the balls, inside."""
    pitch_diameter: Length | None = None
    """Pitch diameter."""
    major: Length | None = None
    """Major diameter."""
    minor: Length | None = None
    """Minor diameter."""
    diameter: Length | None = None
    """A turned diameter."""
    bore: Length | None = None
    """A bored diameter."""
    depth: LengthOrZero | None = None
    """A depth."""
    length: Length | None = None
    """A length."""
    width: Length | None = None
    """A width."""
    runout: LengthOrZero | None = None
    """Runout, full reading of the indicator."""
    wire: Length | None = None
    """The wire, where it is not the one of the sheet."""
    with_: Line | None = Field(default=None, alias="with")
    """The instrument."""
    where: Text | None = None
    """Where on the work it was taken."""

    def sizes(self) -> list[tuple[str, Given]]:
        """What was measured, in the order of the keys."""
        return [(name, one) for name in SIZES if (one := getattr(self, name)) is not None]

    @model_validator(mode="after")
    def _something(self) -> Self:
        if not self.sizes():
            raise refused(("", say("measures nothing: write a size, such as over_wires: 2.2847")))
        if self.wire is not None and self.over_wires is None:
            raise refused(("wire", say("stands without over_wires: write the size over the wires beside it")))
        return self


class Fit(Strict):
    """How the mate or a gauge went on."""

    with_: Line | None = Field(default=None, alias="with")
    """What was tried: the mate, a ring or plug gauge."""
    turns: NumberOrZero | None = None
    """Turns that it went on."""
    feels: Annotated[Feels, Word] | None = None
    """How it goes."""
    where: Text | None = None
    """Where it is tight, or where it stopped."""

    @model_validator(mode="after")
    def _something(self) -> Self:
        if self.turns is None and self.feels is None:
            raise refused(("", say("does not say how it went: write turns, or feels")))
        return self


class Agreed(Strict):
    """What was asked and what was agreed while the work was on the lathe."""

    asked: Text | None = None
    """What was asked."""
    agreed: Text
    """What was agreed."""
    on: Date | None = None
    """The day it was agreed."""
    with_: Line | None = Field(default=None, alias="with")
    """Who agreed: a role or a code."""


class Setting(Strict):
    """How work and slides stand; the same again when a thread is taken up."""

    turns: CountOrZero | None = None
    """Whole turns of the dial of the slide that feeds in, from its zero."""
    dial: LengthOrZero | None = None
    """What that dial then reads."""
    cross_turns: CountOrZero | None = None
    """Whole turns of the cross-slide dial, from its zero."""
    cross: LengthOrZero | None = None
    """What the cross-slide dial then reads."""
    jaw_mark: Line | None = None
    """Which jaw stands at which mark of the work."""
    stick_out: Length | None = None
    """How far the work stands out."""
    runout_at_jaws: LengthOrZero | None = None
    """Runout at the jaws, full reading of the indicator."""
    runout_at_end: LengthOrZero | None = None
    """Runout at the far end, full reading of the indicator."""


class Stop(Setting):
    """Where the thread was left, and all that is needed to pick it up again."""

    why: Text | None = None
    """Why it was stopped."""
    depth_left: LengthOrZero | None = None
    """Radial depth that is still to be cut."""
    over_wires: Length | None = None
    """Size over the wires as it was left."""
    levers: Line | None = None
    """How the levers of the gearbox stand."""
    gears: Line | None = None
    """The change gears that are on."""
    dial_line: Line | None = None
    """The line of the thread dial at which the half nuts were closed."""
    compound_angle: Angle | None = None
    """Angle of the compound from the cross-slide direction."""
    compound_towards: Annotated[Literal["chuck", "tailstock"], Word] | None = None
    """End of the lathe that the tool also goes towards as the compound feeds in."""
    tool: Line | None = None
    """The tool."""
    flat: LengthOrZero | None = None
    """Flat on the point of the tool, as measured."""
    steady_at: Length | None = None
    """Middle of the steady rest from the chuck face."""
    steady_diameter: Length | None = None
    """Diameter on which the steady rest runs."""
    band: Text | None = None
    """The band to true the work up on: where it is, and its diameter."""
    rust: Text | None = None
    """What keeps the thread from rusting while it waits."""


class TakenUp(Setting):
    """The thread is cut on after a stop; `dial` is read with the tool in the groove, as deep as it was."""

    how: Text | None = None
    """How the tool was brought into the groove, and how that was checked."""
    lathe: Line | None = None
    """The lathe it is taken up on, where that is another one; dials are those of this lathe from here on."""
    tool: Line | None = None
    """The tool it is cut on with, where that is another one or ground anew: its name in the shop's list."""
    flat: LengthOrZero | None = None
    """Flat on the point of that tool, as measured."""


def _bare(written: Any) -> Any:
    """`stop: yes` is the fact alone."""
    return {} if isinstance(written, str) and written.strip().lower() in ("yes", "true") else written


_Yes = Annotated[bool, WithJsonSchema({"enum": [True, "yes", "true"]})]


class Entry(Strict):
    """One entry of the log: when, and whatever there is to say."""

    at: DateAndTime
    """When it was, the time of day where it is known."""
    by: Line | None = None
    """Who, as a role."""
    operation: Line | None = None
    """Operation of the job: its name, or its number in the route."""
    pass_: Count | None = Field(default=None, alias="pass")
    """Pass of the pass table."""
    start: Count | None = None
    """Which start of a thread of several, counted from 1."""
    turns: CountOrZero | None = None
    """Whole turns of the dial of the slide that feeds in, from its zero."""
    dial: LengthOrZero | None = None
    """What that dial then reads."""
    cross_turns: CountOrZero | None = None
    """Whole turns of the cross-slide dial, from its zero."""
    cross: LengthOrZero | None = None
    """What the cross-slide dial then reads."""
    measured: Measured | None = None
    """What was measured."""
    fit: Fit | None = None
    """How the mate or a gauge went on."""
    inspected: tuple[Inspected, ...] = ()
    """Readings for the inspection record."""
    concession: Concession | None = None
    """What the customer lets pass outside its limits."""
    note: Text | None = None
    """Anything to be said."""
    agreed: Agreed | None = None
    """What was asked and agreed."""
    stop: Annotated[Stop, BeforeValidator(_bare, json_schema_input_type=Stop | _Yes)] | None = None
    """Where the work was left: what is needed to pick the thread up."""
    taken_up: Annotated[TakenUp, BeforeValidator(_bare, json_schema_input_type=TakenUp | _Yes)] | None = None
    """The work is back on the lathe, and the thread picked up."""
    finished: YesNo = False
    """The operation is done; without one, the job."""
    time: Time | None = None
    """Time that it took."""
    do_differently: Text | None = None
    """What is to be done differently next time."""
    watch_out: Text | None = None
    """What to watch out for next time."""
    lesson_for: tuple[Annotated[Alike, Word], ...] = ()
    """Which other jobs these two are for: with the same part, thread, lathe or material."""

    ABOUT: ClassVar = frozenset({"at", "by", "operation", "start", "pass_"})

    @model_validator(mode="after")
    def _something(self) -> Self:
        said = self.model_fields_set - (self.ABOUT - {"pass_"})
        if not said or (said == {"finished"} and not self.finished):
            raise refused(("", say("says nothing: write what happened, such as pass, measured or note")))
        if self.lesson_for and not (self.watch_out or self.do_differently):
            raise refused(("lesson_for", say("stands without a lesson: write watch_out or do_differently")))
        for turns, dial in (("turns", self.dial), ("cross_turns", self.cross)):
            if getattr(self, turns) is not None and dial is None:
                other = "dial" if turns == "turns" else "cross"
                raise refused(
                    (turns, say("stands without {other}: write what the dial reads, too", other=other))
                )
        return self


class LogFile(RootModel[list[Entry]]):
    """The entries, oldest first; each begins with a dash."""
