"""The shop's own files, in jobs/_shop: materials.yml, tools.yml, house.yml; a lathe's is `job.lathe`.

In reading order: Material, the tools, House, and Shop, which is all of them. The line under each key is
what an editor and the error messages show for it.
"""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from generator.job.fields import (
    Angle,
    AngularStiffness,
    CountOrZero,
    Density,
    FeedPerRev,
    Force,
    LanguageCode,
    Length,
    Line,
    Mass,
    Number,
    NumberOrZero,
    Pressure,
    Stiffness,
    Strict,
    SurfaceSpeed,
    Text,
    Time,
    Torque,
    Units,
    Word,
    YesNo,
)
from generator.job.lathe import Lathe
from generator.job.written import refused
from generator.language.say import say

ToolFor = Literal[
    "face", "turn", "taper", "bore", "chamfer", "groove", "relief", "part off", "knurl", "center drill",
    "drill", "ream", "polish",
]


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
    yield_strength: Pressure | None = None
    """Yield strength, from the certificate or the standard of the material."""
    threading_speed: SurfaceSpeed | None = None
    """Surface speed for threading, instead of the table's."""
    turning_speed: SurfaceSpeed | None = None
    """Surface speed for turning with high-speed steel, instead of the table's."""
    carbide_speed: SurfaceSpeed | None = None
    """Surface speed for turning with carbide, instead of the table's."""
    drilling_speed: SurfaceSpeed | None = None
    """Surface speed for drilling with high-speed steel, instead of the table's."""
    specific_force: Pressure | None = None
    """Specific cutting force at 1 mm chip thickness, instead of the table's."""
    force_exponent: Number | None = None
    """Exponent of the chip thickness that goes with it."""
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
    """A single-point threading tool: included angle, and the nose as measured (flat or radius).

    A tool for internal threads also has its bar: how thick it is, and how far it reaches into a bore.
    """

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
    side_clearance: Angle | None = None
    """How far its leading side leans back below the edge, as ground: square to the edge."""
    steel: Annotated[Literal["high-speed steel", "carbide"], Word] = "high-speed steel"
    """What it is made of."""

    inside: YesNo = False
    """It cuts internal threads."""
    bar: Length | None = None
    """Diameter of its bar, for internal threads."""
    reach: Length | None = None
    """How far its bar stands out of the holder: the deepest it goes into a bore."""

    @model_validator(mode="after")
    def _one_nose(self) -> Self:
        if self.nose_flat is not None and self.nose_radius is not None:
            raise refused(("nose_radius", say("stands beside nose_flat: write the one that the nose has")))
        return self


class CuttingTool(Strict):
    """Any other tool: what it does, and the sizes that its figures need."""

    name: Line
    """Name of the tool; jobs use this name."""
    for_: list[Annotated[ToolFor, Word]] = Field(alias="for", min_length=1)
    """The operations it is used for."""
    units: Units | None = None
    """Unit of every length of this tool that is written without one."""
    steel: Annotated[Literal["high-speed steel", "carbide"], Word] = "high-speed steel"
    """What it is made of."""
    nose_radius: Length | None = None
    """Radius at the nose."""
    entering_angle: Angle | None = None
    """Angle of the cutting edge to the feed; 90 degrees cuts a square shoulder."""
    width: Length | None = None
    """Width of a grooving, parting or knurling tool."""
    diameter: Length | None = None
    """Diameter of a drill or reamer."""
    inside: YesNo = False
    """It cuts in bores: a recessing tool; a tool with a bar does so without saying it."""
    bar: Length | None = None
    """Diameter of its bar, of a tool for bores."""
    reach: Length | None = None
    """How deep it goes: a drill, a boring bar, a parting or grooving tool."""


class Tools(Strict):
    """jobs/_shop/tools.yml."""

    units: Units | None = None
    """Unit of every length that is written without one."""
    threading: list[ThreadTool] = Field(default_factory=list)
    """The threading tools."""
    cutting: list[CuttingTool] = Field(default_factory=list)
    """All other tools."""
    wires: list[Length] = Field(default_factory=list)
    """Diameters of the measuring wires."""
    balls: list[Length] = Field(default_factory=list)
    """Diameters of the measuring balls, of which there are two each: they measure internal threads."""

    @model_validator(mode="after")
    def _once(self) -> Self:
        _each_once("threading", [tool.name for tool in self.threading])
        _each_once("cutting", [tool.name for tool in self.cutting])
        return self


class Times(Strict):
    """How long this shop takes for what is not cutting."""

    set_up: Time | None = None
    """Reading the sheet, cleaning, chucking and truing, once for a job."""
    steady: Time | None = None
    """Setting the steady rest."""
    center: Time | None = None
    """Setting the tailstock center."""
    tool: Time | None = None
    """Changing a tool and touching the work."""
    levers: Time | None = None
    """Setting levers, once for each threading operation."""
    gears: Time | None = None
    """Changing gears on the banjo."""
    come_back: Time | None = None
    """Bringing the tool back and closing the half nuts, once for each pass."""
    measure: Time | None = None
    """Measuring once."""
    fit: Time | None = None
    """Trying the mate once."""
    hand_over: Time | None = None
    """Deburring, cleaning, marking."""


class House(Strict):
    """jobs/_shop/house.yml: what this shop does its own way. Every entry has a common-practice default."""

    units: Units | None = None
    """Unit of every length that is written without one."""
    shop: Line
    """Name of the shop, for the title block."""
    language: LanguageCode = "en"
    """Language of sheets, site and messages: en (American words), en-GB (British words) or de (German)."""
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
    turning_thrust_share: NumberOrZero | None = None
    """Radial force over cutting force in turning, boring and facing."""
    feed_force_share: NumberOrZero | None = None
    """Force along the feed over cutting force in turning and boring."""
    center_stiffness: Stiffness | None = None
    """How much quill and center resist being pushed sideways, where the lathe's file does not say."""
    follow_rest_stiffness: Stiffness | None = None
    """How much a follow rest resists being pushed, where the lathe's file does not say."""
    center_push: Force | None = None
    """Push of the tailstock center, where the job does not say."""
    key_torque: Torque | None = None
    """Torque put on a chuck key, where the job does not say."""
    grip_safety: Number | None = None
    """Grip wanted over grip that just holds."""
    lift_alone: Mass | None = None
    """Heaviest work one person lifts."""
    blank_below: Length | None = None
    """How far below the largest major diameter the blank is turned."""
    rough_depth: Length | None = None
    """Largest roughing cut, radial."""
    finish_depth: Length | None = None
    """Finishing cut, radial."""
    rough_feed: FeedPerRev | None = None
    """Roughing feed."""
    finish_feed: FeedPerRev | None = None
    """Finishing feed."""
    efficiency: Number | None = None
    """Share of the motor's power that reaches the tool."""
    rate: Number | None = None
    """What the shop asks for an hour."""
    currency: Line | None = None
    """Money that the rate is in."""
    times: Times = Times()
    """How long this shop takes for what is not cutting."""


class Shop(Strict):
    """All of jobs/_shop, read and checked."""

    house: House
    lathes: dict[str, Lathe]
    materials: dict[str, Material]
    tools: Tools


def _each_once(key: str, names: list[str]) -> None:
    twice = [
        (f"{key}.{place}.name", say('"{name}" is listed twice: take one out', name=name))
        for place, name in enumerate(names)
        if name in names[:place]
    ]
    if twice:
        raise refused(*twice)
