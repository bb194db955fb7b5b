"""The record of one lathe, in jobs/_shop/lathes/NAME.yml.

Its parts: `job.lathe_parts`. Only what the first sheet needs is asked for; a missing entry costs only the
checks that need it, and the sheet says which checks were not made. The line under each key is what an
editor and the error messages show for it.
"""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import (
    Discriminator,
    Field,
    Tag,
    model_validator,
)

from generator.job.fields import (
    Length,
    Line,
    Mass,
    NotFitted,
    Power,
    Strict,
    Text,
    Units,
    Word,
    YesNo,
    block_or_word,
)
from generator.job.lathe_parts import (
    ChangeGears,
    Dial,
    Feeds,
    FollowRest,
    Gearbox,
    LatheCenter,
    LatheChuck,
    LatheCollet,
    LatheFaceplate,
    Leadscrew,
    Spindle,
    SteadyRest,
    Swing,
    Tailstock,
    TaperAttachment,
    ThreadDial,
    TurnedDial,
)
from generator.job.written import refused
from generator.language.say import say


class Lathe(Strict):
    """One lathe, as it stands."""

    lathe: Line
    """Name of the lathe, the same as the name of this file."""
    name: Line
    """What the shop calls it."""
    units: Units
    """Unit of every length that is written without one."""
    swing: Swing
    """Largest diameter that turns clear."""
    between_centers: Length
    """Longest work between centers, nothing else mounted."""
    spindle: Spindle
    """Bore, nose and speed steps."""
    chucks: list[LatheChuck] = Field(min_length=1)
    """The chucks that fit it."""
    collets: list[LatheCollet] = Field(default_factory=list)
    """The collets that fit it."""
    headstock_center: LatheCenter | None = None
    """The center in the headstock, for work between centers."""
    cross_dial: Dial
    """Dial of the cross slide."""
    compound_dial: Dial
    """Dial of the compound."""
    carriage_dial: TurnedDial | None = None
    """Dial of the carriage handwheel."""
    compound_zero: Annotated[Literal["across", "along"], Word] | None = None
    """Where the compound points when its scale reads 0: across the bed, or along it."""
    cross_travel: Length | None = None
    """Travel of the cross slide."""
    compound_travel: Length | None = None
    """Travel of the compound."""
    faceplate: LatheFaceplate | None = None
    """Its faceplate."""
    steady: SteadyRest | None = None
    """Its steady rest."""
    follow_rest: FollowRest | None = None
    """Its follow rest."""
    leadscrew: Leadscrew | None = None
    """Its leadscrew."""
    leadscrew_reverse: YesNo | None = None
    """A lever reverses the leadscrew for left-hand threads."""
    thread_dial: (
        Annotated[
            Annotated[ThreadDial, Tag("<block>")] | Annotated[NotFitted, Tag("<word>")],
            Discriminator(block_or_word),
        ]
        | None
    ) = None
    """Its thread dial, or none when it has none."""
    gearbox: Gearbox | None = None
    """Threads the levers give."""
    change_gears: ChangeGears | None = None
    """The change gears."""
    feeds: Feeds | None = None
    """Power feeds the levers give."""
    center_length: Length | None = None
    """How much of the bed the tailstock center takes."""
    tailstock: Tailstock | None = None
    """Its tailstock."""
    taper_attachment: TaperAttachment | None = None
    """Its taper attachment, if one is fitted."""
    carriage_left: Length | None = None
    """Carriage and tool holder, from the tool towards the chuck."""
    carriage_right: Length | None = None
    """Carriage and tool holder, from the tool towards the tailstock."""
    tool_left: Length | None = None
    """Tool and holder at center height, from the point of the tool towards the chuck."""
    compound_right: Length | None = None
    """Compound at center height, from the point of the tool towards the tailstock."""
    power: Power | None = None
    """Power of the motor."""
    hoist: Mass | None = None
    """What the hoist at this lathe may lift."""
    notes: list[Text] = Field(default_factory=list)
    """Anything else to be said of it."""

    @property
    def dial(self) -> ThreadDial | None:
        """The thread dial on record."""
        return self.thread_dial if isinstance(self.thread_dial, ThreadDial) else None

    @property
    def has_no_dial(self) -> bool:
        """True when the record says that no thread dial is fitted; False when it says nothing of one."""
        return self.thread_dial == "none"

    @model_validator(mode="after")
    def _mounted_work_turns(self) -> Self:
        largest = self.swing.in_gap or self.swing.over_bed
        mounted = [(f"chucks.{place}.diameter", chuck.diameter) for place, chuck in enumerate(self.chucks)]
        mounted.append(("faceplate.diameter", self.faceplate.diameter if self.faceplate else None))
        if self.headstock_center is not None:
            mounted.append(("headstock_center.diameter", self.headstock_center.diameter))
        too_large = [
            (
                key,
                say(
                    '"{size}" does not turn clear of the bed, which leaves "{bed}"',
                    size=size.with_unit,
                    bed=largest.with_unit,
                ),
            )
            for key, size in mounted
            if size is not None and size.si > largest.si
        ]
        if too_large:
            raise refused(*too_large)
        return self


