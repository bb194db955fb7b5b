"""A checked job: what the job file may say, key by key.

The reader (`job.reading`) hands these models text with locations; the kinds of field (`job.fields`) read
it. A job never holds a bare number whose unit was guessed. The line under each key is what an editor and
the error messages show for it. In reading order: Section, what holds the work (Chuck, Collet, Faceplate,
Centers, Steady, Holding), Mate, Duty, Heat, Limits, CrossHole, Photo, Job. The operations are in
`job.operations`.
"""

from __future__ import annotations

from typing import Annotated, ClassVar, Literal, Self

from pydantic import Discriminator, Field, Tag, model_validator

from generator.job.fields import (
    Count,
    Date,
    Force,
    Jaws,
    KnownOrUnknown,
    Length,
    LengthOrZero,
    Line,
    Mass,
    PictureName,
    Pressure,
    Strict,
    TemperatureRise,
    Text,
    Torque,
    Units,
    Unknown,
    Word,
    YesNo,
    block_or_word,
    length_or,
)
from generator.job.found import Found
from generator.job.operations import Operation
from generator.job.written import Given, refused
from generator.language.lists import or_words
from generator.language.say import say

HeldBy = Literal["chuck", "collet", "faceplate", "centers"]
Status = Annotated[Literal["quoted", "planned", "in work", "stopped", "done", "scrapped"], Word]


class Section(Strict):
    """One length of the work, from the chuck end towards the tailstock."""

    length: Length
    """Length of this section along the work."""
    od: Length
    """Outside diameter; at the chuck end where the section is a taper."""
    od_end: Length | None = None
    """Outside diameter at the tailstock end, where the section is a taper."""
    bore: Length | None = None
    """Diameter of the bore through this section."""
    name: Line | None = None
    """What the shop calls this section."""
    surface: Annotated[Literal["turned", "ground", "rough"], Word] | None = None
    """Surface the section has now."""


class Chuck(Strict):
    """The chuck and how much of the work is inside its jaws."""

    jaws: Jaws
    """Number of jaws."""
    grip: Length
    """How much of the work is inside the jaws."""
    reversed: YesNo = False
    """The jaws are turned around."""
    soft_jaws: YesNo = False
    """Soft jaws, bored to the work."""
    pie_jaws: YesNo = False
    """Wide soft jaws that go nearly all the way around the work."""
    inside: YesNo = False
    """The jaws hold the work from inside its bore."""
    plug: YesNo = False
    """A plug or mandrel fills the bore under the jaws."""
    seated: YesNo = False
    """The work bears against the chuck, a step of the jaws or a stop, which takes a push along the lathe."""
    face: Annotated[Literal["smooth", "diamond-cut", "serrated"], Word] | None = None
    """Face of the jaws."""
    key_torque: Torque | None = None
    """Torque on the chuck key."""
    force: Force | None = None
    """Force of all jaws together, measured or from the maker's chart."""
    past_body: Length | None = None
    """How far the jaws stand out past the body of the chuck."""

    kind: ClassVar[HeldBy] = "chuck"

    @property
    def words(self) -> str:
        """What it is called on the sheet."""
        return say("{jaws}-jaw chuck", jaws=self.jaws)


class Collet(Strict):
    """The collet and how much of the work is inside it."""

    grip: Length
    """How much of the work is inside the collet."""
    force: Force | None = None
    """Force of the collet all around the work."""

    kind: ClassVar[HeldBy] = "collet"

    @property
    def words(self) -> str:
        """What it is called on the sheet."""
        return say("collet")


class Faceplate(Strict):
    """Work clamped on the faceplate, or on an angle plate on it; x counts from the face of the plate."""

    clamps: Count
    """Number of clamps."""
    clamp_circle: Length
    """Diameter of the circle on which the clamps press."""
    clamp_force: Force | None = None
    """Force of one clamp."""

    kind: ClassVar[HeldBy] = "faceplate"

    @property
    def words(self) -> str:
        """What it is called on the sheet."""
        return say("faceplate")


class Centers(Strict):
    """Work between the centers of headstock and tailstock; x counts from its end at the headstock."""

    dog: Length
    """How much of the work the dog takes at the headstock end."""

    kind: ClassVar[HeldBy] = "centers"

    @property
    def words(self) -> str:
        """What it is called on the sheet."""
        return say("between centers, driven by a dog")


class Steady(Strict):
    """The steady rest."""

    at: Annotated[Given | Literal["auto"], *length_or("auto")]
    """Middle of the steady rest from the chuck face, or auto to have it placed."""
    off_axis: Length | None = None
    """How far its fingers hold the work off the spindle's axis, as the indicator showed."""


class Unbalance(Strict):
    """A mass off the axis that turns with the work: a lug, a dog, a counterweight that is missing."""

    mass: Mass
    """How much it weighs."""
    radius: Length
    """How far its own middle is from the axis."""
    at: LengthOrZero | None = None
    """Where it is, from the chuck face; at the far end where not given."""


class Holding(Strict):
    """How the work is held: exactly one of chuck, collet, faceplate, centers; then what supports it."""

    chuck: Chuck | None = None
    """The chuck that holds the work."""
    collet: Collet | None = None
    """The collet that holds the work, instead of a chuck."""
    faceplate: Faceplate | None = None
    """The work is clamped on the faceplate, instead of a chuck."""
    centers: Centers | None = None
    """The work turns between centers, instead of in a chuck."""
    steady: Steady | None = None
    """The steady rest, if one is set up."""
    center: Annotated[Literal["live", "dead"], Word] | None = None
    """The tailstock center, if it supports the work."""
    center_push: Force | None = None
    """Push of the tailstock center."""
    behind_spindle: Length | None = None
    """Bar standing out of the back of the headstock."""
    follow_rest: YesNo = False
    """A follow rest travels with the tool."""
    follow_rest_from_tool: Length | None = None
    """Middle of its jaws from the tool, along the work."""
    hold_back: YesNo = False
    """Something keeps the work from walking out of the chuck."""
    unbalance: Unbalance | None = None
    """A mass off the axis that turns with the work."""

    @property
    def held(self) -> Chuck | Collet | Faceplate | Centers:
        """What holds the work at the headstock."""
        held = self.chuck or self.collet or self.faceplate or self.centers
        assert held is not None  # _one_of_four
        return held

    @property
    def grip(self) -> Given:
        """How much of the work is inside jaws or collet; nothing on a faceplate or between centers.

        Its place is where a finding about the grip points.
        """
        held = self.held
        if isinstance(held, Chuck | Collet):
            return held.grip
        where = held.dog.where if isinstance(held, Centers) else held.clamp_circle.where
        return Given(0.0, "0", "length", where=where)

    @model_validator(mode="after")
    def _one_of_four(self) -> Self:
        kinds = ("chuck", "collet", "faceplate", "centers")
        written = [kind for kind in kinds if getattr(self, kind) is not None]
        if not written:
            sentence = say("does not say what holds the work: write {kinds}", kinds=or_words(kinds))
            raise refused(("", sentence))
        if len(written) > 1:
            sentence = say("stands beside {written}: write the one that holds the work", written=written[0])
            raise refused((written[1], sentence))
        return self

    @model_validator(mode="after")
    def _supports(self) -> Self:
        if self.centers is not None and self.center is None:
            sentence = say("has no tailstock center: write {key}: live or {key}: dead", key="center")
            raise refused(("centers", sentence))
        if self.center_push is not None and self.center is None:
            sentence = say("stands without {key}: write the center that pushes", key="center")
            raise refused(("center_push", sentence))
        if self.follow_rest_from_tool is not None and not self.follow_rest:
            raise refused(
                ("follow_rest_from_tool", say("stands without follow_rest: write follow_rest: yes"))
            )
        return self


class Mate(Strict):
    """The part the thread must fit."""

    part: Text
    """What the part is."""
    thread: Line | None = None
    """Its thread, as far as it is known."""
    engagement: Length | None = None
    """Length of thread that engages."""
    pitch_diameter: Length | None = None
    """Its pitch diameter as measured."""
    major: Length | None = None
    """Its major diameter as measured."""
    minor: Length | None = None
    """Its minor diameter as measured."""
    clearance: LengthOrZero | None = None
    """Play wanted on pitch diameter with the mate as measured: the thread is then cut to it."""
    chamfer: LengthOrZero | None = None
    """Length along the axis that a chamfer takes off each end of its thread."""
    material: Line | None = None
    """A material of the shop's list, where it is known."""
    on_bench: YesNo = False
    """The part is here to try."""
    says: Text | None = None
    """Who said so, when the part was not seen."""


class Duty(Strict):
    """What the part must do, as the customer said; nothing here is judged."""

    said: Text
    """What was said about its work."""
    by: Text | None = None
    """Who said it."""
    people: YesNo = False
    """People depend on it."""
    lifting: YesNo = False
    """It lifts something."""
    brakes: YesNo = False
    """It is part of a brake."""
    load: Force | None = None
    """The load it must carry."""
    pressure: Pressure | None = None
    """The pressure it must hold."""
    seal_diameter: Length | None = None
    """Diameter on which the pressure pushes along the part; the bore where not given."""


class Heat(Strict):
    """How much warmer the work is than the room, or than its mate."""

    cutting: TemperatureRise | None = None
    """How much warmer it gets between chuck and center while it is cut."""
    measuring: TemperatureRise | None = None
    """How much warmer it is when it is measured."""


class Limits(Strict):
    """Limits the customer set."""

    wall: Length | None = None
    """Least wall left at relief and at root."""
    diameter: Length | None = None
    """Tolerance on the turned or bored diameters: largest less smallest."""
    round: Length | None = None
    """Out-of-round that may be left: largest less smallest radius."""


class CrossHole(Strict):
    """A hole across the work."""

    diameter: Length
    """Diameter of the hole."""
    from_end: Length
    """Its axis, measured from the tailstock end of the work."""


class Person(Strict):
    """Who did what; roles, not names, where the sheet is shared."""

    drawn_by: Line | None = None
    """Who wrote the job down."""
    checked_by: Line | None = None
    """Who checked it."""
    machinist: Line | None = None
    """Who runs it."""


class Photo(Strict):
    """A picture beside the job file: a photo, or a sketch."""

    file: PictureName
    """Name of the file."""
    caption: Line | None = None
    """What it shows."""


class Job(Strict):
    """One job file, checked."""

    job: Line
    """Job number."""
    title: Line
    """What the job is, in a few words."""
    customer: Line | None = None
    """Customer, best as a code."""
    received: Date | None = None
    """Day the work came in."""
    issued: Date | None = None
    """Day this sheet was issued; otherwise the day the work came in stands in the title block."""
    revision: Line = "A"
    """Revision of the sheet."""
    status: Status = "planned"
    """Where the job stands."""
    units: Units | None = None
    """Unit of every length that is written without one."""
    lathe: Line
    """A lathe of the shop: the name of its file."""
    material: KnownOrUnknown
    """A material of the shop's list, or unknown."""
    material_known_by: Line | None = None
    """How the material is known: certificate, stamp, word, guess."""
    drawing: Line | None = None
    """Number of the drawing or sketch."""
    asked: Text | None = None
    """What the customer asked."""
    agreed: Text | None = None
    """What was agreed instead, with the date."""
    work: list[Section] = Field(min_length=1)
    """The work, section by section, from the chuck end towards the tailstock."""
    total_length: Length | None = None
    """Overall length, to check the sections against."""
    holding: Holding
    """How the work is held."""
    cross_holes: list[CrossHole] = Field(default_factory=list)
    """Holes across the work."""
    mate: (
        Annotated[
            Annotated[Mate, Tag("<block>")] | Annotated[Unknown, Tag("<word>")], Discriminator(block_or_word)
        ]
        | None
    ) = None
    """The part the thread must fit, or unknown."""
    found: Found | None = None
    """What was measured on the thread that came in, to tell what thread it is."""
    duty: (
        Annotated[
            Annotated[Duty, Tag("<block>")] | Annotated[Unknown, Tag("<word>")], Discriminator(block_or_word)
        ]
        | None
    ) = None
    """What the part must do, or unknown."""
    limits: Limits = Limits()
    """Limits the customer set."""
    heat: Heat = Heat()
    """How warm the work is while it is cut and measured."""
    people: Person = Person()
    """Who did what."""
    superseded_by: Line | None = None
    """Number of the job whose sheet takes the place of this one."""
    photos: list[
        Annotated[
            Annotated[Photo, Tag("<block>")] | Annotated[PictureName, Tag("<word>")],
            Discriminator(block_or_word),
        ]
    ] = Field(default_factory=list)
    """Pictures beside this file: names, or blocks of file and caption."""
    notes: list[Text] = Field(default_factory=list)
    """Anything else to be said on the sheet."""
    operations: list[Operation] = Field(default_factory=list)
    """What is to be done, in order."""
    order: Annotated[Literal["as written", "propose"], Word] = "as written"
    """The operations are done as written, or in the order that the sheet proposes."""

    @property
    def pictures(self) -> tuple[Photo, ...]:
        """The pictures named, each as a block."""
        return tuple(one if isinstance(one, Photo) else Photo(file=one) for one in self.photos)
