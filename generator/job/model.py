"""A checked job: what the job file may say, key by key.

The reader (`job.reading`) hands these models text with locations; the kinds of field (`job.fields`) read
it. A job never holds a bare number whose unit was guessed. The line under each key is what an editor and
the error messages show for it. In reading order: Section, Chuck, Steady, Holding, Mate, Duty, CrossHole,
Job. The operations are in `job.operations`.
"""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import Discriminator, Field, Tag

from generator.job.fields import (
    Date,
    Force,
    Given,
    Jaws,
    KnownOrUnknown,
    Length,
    Line,
    PictureName,
    Pressure,
    Strict,
    Text,
    Units,
    Unknown,
    Word,
    YesNo,
    length_or,
)
from generator.job.operations import Operation

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
    """The jaws are turned round."""
    soft_jaws: YesNo = False
    """Soft jaws, bored to the work."""


class Steady(Strict):
    """The steady rest."""

    at: Annotated[Given | Literal["auto"], *length_or("auto")]
    """Middle of the steady rest from the chuck face, or auto to have it placed."""


class Holding(Strict):
    """How the work is held."""

    chuck: Chuck
    """The chuck that holds the work."""
    steady: Steady | None = None
    """The steady rest, if one is set up."""
    center: Annotated[Literal["live", "dead"], Word] | None = None
    """The tailstock center, if it supports the work."""
    behind_spindle: Length | None = None
    """Bar standing out of the back of the headstock."""
    follow_rest: YesNo = False
    """A follow rest travels with the tool."""
    hold_back: YesNo = False
    """Something keeps the work from walking out of the chuck."""


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


class Limits(Strict):
    """Limits the customer set."""

    wall: Length | None = None
    """Least wall left at relief and at root."""


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


def _block_or_word(written: Any) -> str:
    return "<word>" if isinstance(written, str) else "<block>"


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
    """Length over all, to check the sections against."""
    holding: Holding
    """How the work is held."""
    cross_holes: list[CrossHole] = Field(default_factory=list)
    """Holes across the work."""
    mate: (
        Annotated[
            Annotated[Mate, Tag("<block>")] | Annotated[Unknown, Tag("<word>")], Discriminator(_block_or_word)
        ]
        | None
    ) = None
    """The part the thread must fit, or unknown."""
    duty: (
        Annotated[
            Annotated[Duty, Tag("<block>")] | Annotated[Unknown, Tag("<word>")], Discriminator(_block_or_word)
        ]
        | None
    ) = None
    """What the part must do, or unknown."""
    limits: Limits = Limits()
    """Limits the customer set."""
    people: Person = Person()
    """Who did what."""
    photos: list[PictureName] = Field(default_factory=list)
    """Picture files beside this file."""
    notes: list[Text] = Field(default_factory=list)
    """Anything else to be said on the sheet."""
    operations: list[Operation] = Field(default_factory=list)
    """What is to be done, in order."""
    order: Annotated[Literal["as written", "propose"], Word] = "as written"
    """The operations are done as written, or in the order that the sheet proposes."""
