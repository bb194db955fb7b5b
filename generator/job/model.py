"""A checked job: what the job file may say, key by key.

The reader (`job.reading`) hands these models text with locations; the kinds of field (`job.fields`) read
it. A job never holds a bare number whose unit was guessed. In reading order: Section, Chuck, Steady,
Holding, Mate, Duty, CrossHole, the operations, Job.
"""

from __future__ import annotations

import datetime
from typing import Literal

from generator.job.fields import (
    Angle,
    Choice,
    Count,
    Force,
    KnownOrUnknown,
    Length,
    LengthOrZero,
    Pressure,
    SpindleSpeed,
    Strict,
    SurfaceSpeed,
    Text,
    YesNo,
)

Status = Literal["quoted", "planned", "in work", "stopped", "done", "scrapped"]


class Section(Strict):
    """One length of the work, from the chuck end towards the tailstock."""

    length: Length
    od: Length
    od_end: Length | None = None          # a taper runs from od to od_end
    bore: Length | None = None
    name: Text | None = None
    surface: Literal["turned", "ground", "rough"] | None = None


class Chuck(Strict):
    """The chuck and how much of the work is inside its jaws."""

    jaws: Literal[3, 4, 6]
    grip: Length
    reversed: YesNo = False
    soft_jaws: YesNo = False


class Steady(Strict):
    """The steady rest; `at` is its middle, measured from the chuck face, or `auto`."""

    at: Length | Literal["auto"]


class Holding(Strict):
    """How the work is held."""

    chuck: Chuck
    steady: Steady | None = None
    center: Literal["live", "dead"] | None = None
    behind_spindle: Length | None = None  # bar standing out of the back of the headstock
    hold_back: YesNo = False              # something keeps the work from walking out of the chuck


class Mate(Strict):
    """The part the thread must fit."""

    part: Text
    thread: Text | None = None
    engagement: Length | None = None
    pitch_diameter: Length | None = None
    on_bench: YesNo = False
    says: Text | None = None              # who said so, when the mate was not seen


class Duty(Strict):
    """What the part must do, as the customer said; nothing here is judged."""

    said: Text
    by: Text | None = None
    people: YesNo = False
    lifting: YesNo = False
    brakes: YesNo = False
    load: Force | None = None
    pressure: Pressure | None = None


class Limits(Strict):
    """Limits the customer set."""

    wall: Length | None = None            # least wall left at relief and at root


class CrossHole(Strict):
    """A hole across the work; `from_end` is its axis, measured from the tailstock end."""

    diameter: Length
    from_end: Length


class Person(Strict):
    """Who did what; roles, not names, where the sheet is shared."""

    drawn_by: Text | None = None
    checked_by: Text | None = None
    machinist: Text | None = None


class Infeed(Strict):
    """How the tool goes in: straight, or along the compound set over from the cross-slide direction."""

    method: Literal["compound", "plunge"] = "compound"
    angle: Angle | None = None


class Thread(Strict):
    """Cut a thread. Hand, pitch, tpi, class, starts given beside the designation are checked against it."""

    designation: Text
    length: Length
    from_end: LengthOrZero | None = None  # where it starts, from the tailstock end of the work
    fit: Literal["wires", "mate", "gauge"] = "wires"
    hand: Literal["right", "left"] | None = None
    pitch: Length | None = None
    tpi: Count | None = None
    class_: Text | None = None            # written `class` in the file
    starts: Count | None = None
    units: Literal["inch", "mm"] | None = None
    engagement: Length | None = None
    blank: Length | None = None           # the diameter as measured before threading
    infeed: Infeed = Infeed()
    first_cut: Length | None = None
    last_cut: Length | None = None
    spring_passes: Count | None = None
    tool: Text | None = None              # a name in jobs/_shop/tools.yml
    wire: Length | None = None
    spindle: SpindleSpeed | None = None   # a step of the lathe, chosen by the shop
    speed: SurfaceSpeed | None = None


class Relief(Strict):
    """Cut the thread relief, next to the thread on its chuck side."""

    width: Length
    diameter: Length | None = None
    radius: LengthOrZero | None = None


class Cut(Strict):
    """Any other operation, listed in the order of work as it was given."""

    end: Literal["left", "right"] | None = None
    length: Length | None = None
    diameter: Length | None = None
    depth: Length | None = None
    width: Length | None = None
    from_end: LengthOrZero | None = None
    angle: Angle | None = None
    note: Text | None = None


class Operation(Strict):
    """One entry of `operations`: exactly one of these keys."""

    face: Cut | None = None
    center_drill: Cut | None = None
    turn: Cut | None = None
    taper: Cut | None = None
    bore: Cut | None = None
    drill: Cut | None = None
    groove: Cut | None = None
    chamfer: Cut | None = None
    knurl: Cut | None = None
    part_off: Cut | None = None
    polish: Cut | None = None
    relief: Relief | None = None
    thread: Thread | None = None


class Job(Strict):
    """One job file, checked."""

    job: Text
    title: Text
    customer: Text | None = None
    received: datetime.date | None = None
    issued: datetime.date | None = None
    revision: Text = "A"
    status: Status = "planned"
    units: Choice["inch", "mm"] | None = None
    lathe: Text
    material: KnownOrUnknown
    material_known_by: Text | None = None  # certificate, stamp, word, guess
    drawing: Text | None = None
    asked: Text | None = None              # what the customer asked
    agreed: Text | None = None             # what was agreed instead, with the date
    work: list[Section]
    total_length: Length | None = None
    holding: Holding
    cross_holes: list[CrossHole] = []
    mate: Mate | KnownOrUnknown | None = None
    duty: Duty | KnownOrUnknown | None = None
    limits: Limits = Limits()
    people: Person = Person()
    photos: list[Text] = []
    notes: list[Text] = []
    operations: list[Operation] = []
