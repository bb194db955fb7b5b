"""The shop's own files, in jobs/_shop: lathes/*.yml, materials.yml, tools.yml, house.yml.

In reading order: Lathe and its parts, Material, Tools, House. A missing entry of a lathe costs only the
checks that need it, and the sheet says which checks were not made. The line under each key is what an
editor and the error messages show for it.
"""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from generator.job.fields import (
    Angle,
    AngularStiffness,
    Count,
    CountOrZero,
    Density,
    Jaws,
    Length,
    Line,
    Mass,
    Number,
    NumberOrZero,
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
    refused,
)


class Range(Strict):
    """From the smallest to the largest diameter that fits."""

    from_: Length = Field(alias="from")
    """Smallest diameter that fits."""
    to: Length
    """Largest diameter that fits."""

    @model_validator(mode="after")
    def _rises(self) -> Self:
        if self.from_.si > self.to.si:
            sentence = f'"{self.from_.with_unit}" is larger than to, "{self.to.with_unit}": exchange them'
            raise refused(("from", sentence))
        return self


class Swing(Strict):
    """Largest diameter that turns clear."""

    over_bed: Length
    """Largest diameter that turns clear of the bed."""
    over_cross_slide: Length | None = None
    """Largest diameter that turns clear of the cross slide."""


class Spindle(Strict):
    """Bore, nose and speed steps."""

    speeds: list[SpindleSpeed] = Field(min_length=1)
    """The speed steps, in turns a minute."""
    bore: Length | None = None
    """Bore through the spindle."""
    nose: Annotated[Literal["camlock", "screwed", "bolted", "taper key"], Word] | None = None
    """How the chuck is held on the spindle."""


class LatheChuck(Strict):
    """One chuck that fits this lathe."""

    jaws: Jaws
    """Number of jaws."""
    grips: Range
    """Smallest and largest diameter it grips."""
    length: Length | None = None
    """Spindle nose to jaw face."""
    diameter: Length | None = None
    """Diameter of the chuck body."""
    jaw_length: Length | None = None
    """Length of the jaws along the work."""
    top_speed: SpindleSpeed | None = None
    """Highest speed marked on the chuck."""
    stiffness: AngularStiffness | None = None
    """How much it resists the work tilting."""


class SteadyRest(Range):
    """The steady rest: its range, tips and width."""

    tips: Annotated[Literal["bronze", "brass", "roller", "ball"], Word] | None = None
    """What its jaws bear on the work with."""
    width: Length | None = None
    """Width of its jaws along the work."""
    stiffness: Stiffness | None = None
    """How much it resists being pushed sideways."""


class Leadscrew(Strict):
    """Exactly one of the two."""

    tpi: Number | None = None
    """Threads in one inch of an inch leadscrew."""
    pitch: Length | None = None
    """Pitch of a metric leadscrew."""

    @model_validator(mode="after")
    def _one(self) -> Self:
        if (self.tpi is None) == (self.pitch is None):
            raise refused(("", "needs one key: tpi for an inch leadscrew, or pitch for a metric one"))
        return self


class ThreadDial(Strict):
    """The thread dial."""

    teeth: Count
    """Teeth of the gear that runs on the leadscrew."""
    lines: Count
    """Lines on its face."""
    numbered_every: Count = 1
    """Every how many lines a number stands."""


class Gearbox(Strict):
    """Threads the levers give, as on the plate."""

    tpi: list[Number] = Field(default_factory=list)
    """Threads in one inch, as on the plate."""
    pitches: list[Length] = Field(default_factory=list)
    """Pitches, as on the plate."""
    tpi_with_gears: Text | None = None
    """The change wheels that the tpi entries need, if any."""
    pitches_with_gears: Text | None = None
    """The change wheels that the pitch entries need, if any."""


class Dial(Strict):
    """A slide's dial."""

    division: Length
    """One division, as marked."""
    turn: Length
    """One whole turn, as marked."""
    reads: Annotated[Literal["radius", "diameter"], Word]
    """Whether a division is what the slide moves, or what comes off the diameter."""

    @model_validator(mode="after")
    def _whole_turn(self) -> Self:
        divisions = self.turn.si / self.division.si
        if abs(divisions - round(divisions)) > 1e-6 * divisions:
            sentence = (
                f"{self.turn.with_unit} is not a whole number of divisions of {self.division.with_unit}: "
                "write one turn and one division as the dial is marked"
            )
            raise refused(("turn", sentence))
        return self


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
    cross_dial: Dial
    """Dial of the cross slide."""
    compound_dial: Dial
    """Dial of the compound."""
    steady: SteadyRest | None = None
    """Its steady rest."""
    follow_rest: Range | None = None
    """Its follow rest."""
    leadscrew: Leadscrew | None = None
    """Its leadscrew."""
    thread_dial: ThreadDial | None = None
    """Its thread dial, if one is fitted."""
    gearbox: Gearbox | None = None
    """Threads the levers give."""
    center_length: Length | None = None
    """How much of the bed the tailstock center takes."""
    carriage_left: Length | None = None
    """Carriage and tool holder, from the tool towards the chuck."""
    carriage_right: Length | None = None
    """Carriage and tool holder, from the tool towards the tailstock."""
    power: Power | None = None
    """Power of the motor."""
    hoist: Mass | None = None
    """What the hoist at this lathe may lift."""
    notes: list[Text] = Field(default_factory=list)
    """Anything else to be said of it."""


class Material(Strict):
    """A material as the shop calls it; `group` is a row of the published table, the rest overrides it."""

    name: Line
    """What the shop calls it; jobs use this name."""
    group: Line
    """Row of the published table it is worked as."""
    hardness: Line | None = None
    """Hardness, as known."""
    density: Density | None = None
    """Density, instead of the table's."""
    elastic_modulus: Pressure | None = None
    """Elastic modulus, instead of the table's."""
    threading_speed: SurfaceSpeed | None = None
    """Surface speed for threading, instead of the table's."""
    galls: YesNo | None = None
    """Its threads seize when fitted dry."""
    source: Text | None = None
    """Where these figures come from."""


class Materials(Strict):
    """jobs/_shop/materials.yml."""

    materials: list[Material]
    """The materials of the shop."""

    @model_validator(mode="after")
    def _once(self) -> Self:
        _each_once("materials", [material.name for material in self.materials])
        return self


class ThreadTool(Strict):
    """A single-point threading tool: included angle, and the nose as measured (flat or radius)."""

    name: Line
    """Name of the tool; jobs use this name."""
    angle: Angle
    """Included angle."""
    units: Units | None = None
    """Unit of every length of this tool that is written without one."""
    nose_flat: Length | None = None
    """Flat at the nose, as measured."""
    nose_radius: Length | None = None
    """Radius at the nose, as measured."""
    width: Length | None = None
    """How far the tool reaches ahead of its point."""
    steel: Annotated[Literal["high-speed steel", "carbide"], Word] = "high-speed steel"
    """What it is made of."""

    @model_validator(mode="after")
    def _one_nose(self) -> Self:
        if self.nose_flat is not None and self.nose_radius is not None:
            raise refused(("nose_radius", "stands beside nose_flat: write the one that the nose has"))
        return self


class Tools(Strict):
    """jobs/_shop/tools.yml."""

    units: Units | None = None
    """Unit of every length that is written without one."""
    threading: list[ThreadTool] = Field(default_factory=list)
    """The threading tools."""
    wires: list[Length] = Field(default_factory=list)
    """Diameters of the measuring wires."""

    @model_validator(mode="after")
    def _once(self) -> Self:
        _each_once("threading", [tool.name for tool in self.threading])
        return self


class House(Strict):
    """jobs/_shop/house.yml: what this shop does its own way. Every entry has a common-practice default."""

    units: Units | None = None
    """Unit of every length that is written without one."""
    shop: Line
    """Name of the shop, for the title block."""
    language: Line = "en"
    """Language of the sheets, as a two-letter code."""
    first_cut: Length | None = None
    """Largest first cut, radial."""
    last_cut: Length | None = None
    """Smallest cut that still cuts, radial."""
    spring_passes: CountOrZero | None = None
    """Passes without new depth at the end."""
    compound_angle: Angle | None = None
    """Compound angle from the cross-slide direction."""
    try_mate_above: Length | None = None
    """How far above the largest pitch diameter the mate is first tried."""
    relief_time_check: Time | None = None
    """Time in the relief under which to decide before starting."""
    relief_time_stop: Time | None = None
    """Time in the relief under which the job is not run as planned."""
    stick_out_check: Number | None = None
    """Stick-out, in diameters, above which a center or steady rest is asked for."""
    speed_share_of_critical: Number | None = None
    """Largest share of the first bending frequency to run at."""
    chuck_stiffness: AngularStiffness | None = None
    """How much a chuck resists the work tilting, where the lathe's file does not say."""
    steady_stiffness: Stiffness | None = None
    """How much a steady rest resists being pushed, where the lathe's file does not say."""
    thrust_share: NumberOrZero | None = None
    """Radial force over cutting force in threading."""
    lift_alone: Mass | None = None
    """Heaviest work one person lifts."""
    blank_below: Length | None = None
    """How far below the largest major diameter the blank is turned."""


class Shop(Strict):
    """All of jobs/_shop, read and checked."""

    house: House
    lathes: dict[str, Lathe]
    materials: dict[str, Material]
    tools: Tools


def _each_once(key: str, names: list[str]) -> None:
    twice = [
        (f"{key}.{place}.name", f'"{name}" is listed twice: take one out')
        for place, name in enumerate(names)
        if name in names[:place]
    ]
    if twice:
        raise refused(*twice)
