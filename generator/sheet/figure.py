"""A number on the sheet, and where it comes from.

    Kind       who or what says so
    Working    formula, and the numbers that were put in
    Figure     the number, its quantity, its source
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Literal

from generator.errors import Location

System = Literal["inch", "mm"]
Quantity = Literal[
    "length",             # m
    "fine_length",        # m, shown one place finer: deflections, wire sizes
    "area",               # m^2
    "angle",              # rad
    "speed",              # m/s: a cutting speed
    "carriage_speed",     # m/s: how fast the carriage moves
    "spindle_speed",      # rev/s
    "force",              # N
    "temperature_rise",   # K: a difference
    "mass",               # kg
    "power",              # W
    "torque",             # N m
    "feed",               # m/rev
    "roughness",          # m, shown in µm and µin
    "money",              # the shop's money
    "time",               # s
    "duration",           # s, shown in minutes: how long a piece of work takes
    "frequency",          # Hz
    "pressure",           # Pa: a specific cutting force or an elastic modulus
    "stiffness",          # N/m
    "angular_stiffness",  # N m/rad
    "second_moment",      # m^4
    "density",            # kg/m^3
    "mass_per_length",    # kg/m
    "ratio",              # 1, a plain number
    "count",              # a whole number
    "tpi",                # threads in one inch
    "text",               # words, not a number
]


class Kind(StrEnum):
    """Where a number comes from; the sheet shows it beside the number."""

    MEASURED = "measured"        # by somebody, with something
    GIVEN = "given"              # written in the job file
    STANDARD = "from a standard"
    COMPUTED = "computed"
    SHOP = "shop's choice"       # from the shop's own files: lathes, tools, house rules
    ASSUMED = "assumed"          # common practice stands in for what nobody said
    UNKNOWN = "unknown"


@dataclass(frozen=True)
class Working:
    """A formula with the numbers put in.

    `formula` names its inputs in braces, as the trade writes them: ``"{d max} − 0.64951905 × {P}"``.
    `put` gives each named input as (SI value, quantity). Shown twice: with names, then with numbers.
    """

    formula: str
    put: Mapping[str, tuple[float, Quantity]] = field(default_factory=dict)


@dataclass(frozen=True)
class Figure:
    """One figure of the sheet.

    `name` is the stable dotted name ("thread.pitch_diameter.max"), `label` what the sheet calls it.
    `value` is SI, or words when `quantity` is "text", or None when unknown. `source` is a published
    source, "common practice, no source", or the file it was written in. `text` keeps a dimension as its
    author wrote it. `system` shows a length in that unit first (None: the job's unit). `rounds` is the
    safe direction when shown.
    """

    name: str
    label: str
    value: float | str | None
    quantity: Quantity
    kind: Kind
    source: str
    working: Working | None = None
    text: str = ""
    note: str = ""
    system: System | None = None
    rounds: Literal["nearest", "up", "down"] = "nearest"
    where: Location | None = None

    @property
    def assumed(self) -> bool:
        """True when nobody said it and common practice stands in."""
        return self.kind is Kind.ASSUMED
