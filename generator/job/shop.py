"""The shop's own files, in jobs/_shop: lathes/*.yml, materials.yml, tools.yml, house.yml.

In reading order: Lathe and its parts, Material, Tools, House. A missing entry of a lathe costs only the
checks that need it, and the sheet says which checks were not made.
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from generator.job.fields import (
    AngularStiffness,
    Count,
    Density,
    Jaws,
    Length,
    Line,
    Mass,
    Number,
    Power,
    Pressure,
    SpindleSpeed,
    Stiffness,
    Strict,
    SurfaceSpeed,
    Text,
    Time,
    Units,
    Word,
    YesNo,
)


class Range(Strict):
    """From the smallest to the largest diameter that fits."""

    from_: Length = Field(alias="from")
    """Smallest diameter that fits."""
    to: Length


class Swing(Strict):
    """Largest diameter that turns clear."""

    over_bed: Length
    over_cross_slide: Length | None = None


class Spindle(Strict):
    """Bore, nose and speed steps."""

    speeds: list[SpindleSpeed]
    bore: Length | None = None
    nose: Annotated[Literal["camlock", "screwed", "bolted", "taper key"], Word] | None = None


class LatheChuck(Strict):
    """One chuck that fits this lathe."""

    jaws: Jaws
    grips: Range
    length: Length | None = None
    """Spindle nose to jaw face."""
    diameter: Length | None = None
    jaw_length: Length | None = None
    top_speed: SpindleSpeed | None = None
    stiffness: AngularStiffness | None = None


class SteadyRest(Range):
    """The steady rest: its range, tips and width."""

    tips: Annotated[Literal["bronze", "brass", "roller", "ball"], Word] | None = None
    width: Length | None = None
    stiffness: Stiffness | None = None


class Leadscrew(Strict):
    """Exactly one of the two."""

    tpi: Number | None = None
    pitch: Length | None = None


class ThreadDial(Strict):
    """The thread dial: teeth of its gear, lines on its face, every how many lines a number stands."""

    teeth: Count
    lines: Count
    numbered_every: Count = 1


class Gearbox(Strict):
    """Threads the levers give. `tpi` and `pitches` as on the plate; `with_gears` where wheels are changed first."""

    tpi: list[Number] = []
    pitches: list[Length] = []
    tpi_with_gears: Text | None = None
    """The change wheels that the tpi entries need, if any."""
    pitches_with_gears: Text | None = None


class Dial(Strict):
    """A slide's dial: one division, one turn, and whether it reads radius or diameter."""

    division: Length
    turn: Length
    reads: Annotated[Literal["radius", "diameter"], Word]


class Lathe(Strict):
    """One lathe, as it stands."""

    lathe: Text
    name: Text
    units: Units
    swing: Swing
    between_centers: Length
    spindle: Spindle
    chucks: list[LatheChuck]
    cross_dial: Dial
    compound_dial: Dial
    steady: SteadyRest | None = None
    follow_rest: Range | None = None
    leadscrew: Leadscrew | None = None
    thread_dial: ThreadDial | None = None
    gearbox: Gearbox | None = None
    center_length: Length | None = None
    """How much of the bed the tailstock center takes."""
    carriage_left: Length | None = None
    """Carriage and tool holder, from the tool towards the chuck."""
    carriage_right: Length | None = None
    power: Power | None = None
    hoist: Mass | None = None
    notes: list[Text] = []


class Material(Strict):
    """A material as the shop calls it; `group` is a row of the published table, the rest overrides it."""

    name: Text
    group: Text
    hardness: Text | None = None
    density: Density | None = None
    elastic_modulus: Pressure | None = None
    threading_speed: SurfaceSpeed | None = None
    galls: YesNo | None = None
    source: Text | None = None


class Materials(Strict):
    """jobs/_shop/materials.yml."""

    materials: list[Material]


class ThreadTool(Strict):
    """A single-point threading tool: included angle, and the nose as measured (flat or radius)."""

    name: Text
    angle: Number
    units: Units | None = None
    nose_flat: Length | None = None
    nose_radius: Length | None = None
    width: Length | None = None
    """How far the tool reaches ahead of its point."""
    steel: Annotated[Literal["high-speed steel", "carbide"], Word] = "high-speed steel"


class Tools(Strict):
    """jobs/_shop/tools.yml."""

    units: Units | None = None
    threading: list[ThreadTool] = []
    wires: list[Length] = []


class House(Strict):
    """jobs/_shop/house.yml: what this shop does its own way. Every entry has a common-practice default."""

    units: Units | None = None
    shop: Text
    language: Text = "en"
    first_cut: Length | None = None
    """Radial, largest first cut."""
    last_cut: Length | None = None
    """Radial, smallest cut that still cuts."""
    spring_passes: Count | None = None
    compound_angle: Number | None = None
    """Degrees from the cross-slide direction."""
    try_mate_above: Length | None = None
    """On pitch diameter, above the largest allowed."""
    relief_time_check: Time | None = None
    relief_time_stop: Time | None = None
    stick_out_check: Number | None = None
    """Times the diameter."""
    speed_share_of_critical: Number | None = None
    chuck_stiffness: AngularStiffness | None = None
    steady_stiffness: Stiffness | None = None
    thrust_share: Number | None = None
    """Radial force over cutting force in threading."""
    lift_alone: Mass | None = None
    blank_below: Length | None = None


class Shop(Strict):
    """All of jobs/_shop, read and checked."""

    house: House
    lathes: dict[str, Lathe]
    materials: dict[str, Material]
    tools: Tools
