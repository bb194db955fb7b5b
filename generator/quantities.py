"""The kinds of quantity that a file may have: the units each takes, the range in which a shop could mean it.

`QUANTITIES` by name; `RATIO` is a number that has no unit. `generator.units` reads what is written by them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Final

from generator.language.say import later


@dataclass(frozen=True)
class Quantity:
    """One kind of quantity: the units it takes, and the range in which a shop could mean it.

    `units` maps each accepted spelling to a name of the unit library, or to a factor where that library is
    not to be asked. `low` and `high` are SI; `low` itself is allowed only where `zero` is. `bare` is the
    unit of a number without one. `examples` finish the sentence "write ...".
    """

    name: str
    a: str
    si: str
    units: Mapping[str, str | Fraction]
    examples: str
    high: float
    high_text: str
    zero: bool = False
    bare: str | None = None
    refused: Mapping[str, str] = field(default_factory=dict)


_LENGTHS: Final = {
    "in": "inch", "inch": "inch", "inches": "inch", '"': "inch", "″": "inch", "”": "inch",
    "mm": "mm", "millimeter": "mm", "millimeters": "mm", "millimetre": "mm", "millimetres": "mm",
    "cm": "cm", "m": "m", "um": "um", "µm": "um", "μm": "um", "thou": "thou",
    "ft": "foot", "foot": "foot", "feet": "foot", "'": "foot", "′": "foot",
}
_MINUTE: Final = Fraction(1, 60)

QUANTITIES: Final[Mapping[str, Quantity]] = {
    quantity.name: quantity
    for quantity in (
        Quantity(
            "length",
            later("a length"),
            "m",
            _LENGTHS,
            later("2.5 in or 64 mm"),
            100.0,
            "100 m",
            refused={
                "mil": later(
                    "mil is a thousandth of an inch to one and a millimeter to another: write thou or mm"
                ),
                "mils": later(
                    "mil is a thousandth of an inch to one and a millimeter to another: write thou or mm"
                ),
            },
        ),
        Quantity(
            "speed",
            later("a surface speed"),
            "m/s",
            {"ft/min": "foot/min", "fpm": "foot/min", "sfm": "foot/min", "m/min": "m/min", "m/s": "m/s"},
            later("100 ft/min or 30 m/min"),
            50.0,
            "3000 m/min",
        ),
        Quantity(
            "spindle_speed",
            later("a spindle speed"),
            "rev/s",
            {"rpm": _MINUTE, "rev/min": _MINUTE, "r/min": _MINUTE, "1/min": _MINUTE, "rev/s": Fraction(1)},
            "210 rpm",
            20000 / 60,
            "20000 rpm",
            bare="rpm",
        ),
        Quantity(
            "feed",
            later("a feed per revolution"),
            "m/rev",
            {"in/rev": "inch", "ipr": "inch", "thou/rev": "thou", "mm/rev": "mm", "mm/r": "mm"},
            later("0.005 in/rev or 0.12 mm/rev"),
            0.1,
            "100 mm/rev",
        ),
        Quantity(
            "force",
            later("a force"),
            "N",
            {"N": "N", "kN": "kN", "MN": "MN", "lbf": "lbf", "kgf": "kgf"},
            later("500 lbf or 2.2 kN"),
            1e8,
            "100 MN",
            refused={
                "lb": later("lb is a mass: write lbf for the force"),
                "lbs": later("lbs is a mass: write lbf for the force"),
                "kg": later("kg is a mass: write kgf for the force, or N"),
                "ton": later("a ton may be 2000 lb, 2240 lb or 1000 kg: write lbf or kN"),
                "tons": later("a ton may be 2000 lb, 2240 lb or 1000 kg: write lbf or kN"),
            },
        ),
        Quantity(
            "pressure",
            later("a pressure"),
            "Pa",
            {
                "psi": "psi",
                "ksi": "ksi",
                "bar": "bar",
                "Pa": "Pa",
                "kPa": "kPa",
                "MPa": "MPa",
                "GPa": "GPa",
                "N/mm^2": "N/mm**2",
                "N/mm²": "N/mm**2",
            },
            later("150 psi or 10 bar"),
            2e12,
            "2000 GPa",
        ),
        Quantity(
            "mass",
            later("a mass"),
            "kg",
            {"kg": "kg", "g": "g", "t": "tonne", "tonne": "tonne", "lb": "lb", "lbs": "lb", "oz": "oz"},
            later("40 lb or 18 kg"),
            1e5,
            "100 t",
            refused={
                "ton": later("a ton may be 2000 lb, 2240 lb or 1000 kg: write lb, kg or t"),
                "tons": later("a ton may be 2000 lb, 2240 lb or 1000 kg: write lb, kg or t"),
            },
        ),
        Quantity(
            "angle",
            later("an angle"),
            "rad",
            {"deg": "degree", "degree": "degree", "degrees": "degree", "°": "degree", "rad": "radian"},
            later("29.5 deg or 29°30'"),
            3.14159,
            later("180 degrees"),
            zero=True,
            bare="deg",
        ),
        Quantity(
            "time",
            later("a time"),
            "s",
            {
                "s": "s",
                "sec": "s",
                "second": "s",
                "seconds": "s",
                "min": "min",
                "minute": "min",
                "minutes": "min",
                "h": "hour",
                "hour": "hour",
                "hours": "hour",
            },
            later("1.5 s or 20 min"),
            3.2e7,
            later("one year"),
        ),
        Quantity(
            "temperature_rise",
            later("a difference of temperature"),
            "K",
            {"C": "delta_degC", "°C": "delta_degC", "K": "kelvin", "F": "delta_degF", "°F": "delta_degF"},
            later("15 °C or 27 °F"),
            1000.0,
            "1000 °C",
        ),
        Quantity(
            "power",
            later("a power"),
            "W",
            {"W": "W", "kW": "kW", "hp": "hp"},
            later("7.5 hp or 5.5 kW"),
            1e7,
            "10 MW",
        ),
        Quantity(
            "torque",
            later("a torque"),
            "N m",
            {
                "N m": "N*m",
                "Nm": "N*m",
                "N*m": "N*m",
                "kN m": "kN*m",
                "lbf ft": "lbf*foot",
                "lbf in": "lbf*inch",
            },
            later("40 N m or 30 lbf ft"),
            1e7,
            "10 MN m",
        ),
        Quantity(
            "density",
            later("a density"),
            "kg/m^3",
            {
                "kg/m^3": "kg/m**3",
                "kg/m³": "kg/m**3",
                "g/cm^3": "g/cm**3",
                "g/cm³": "g/cm**3",
                "lb/in^3": "lb/inch**3",
                "lb/in³": "lb/inch**3",
            },
            later("7850 kg/m^3 or 0.284 lb/in^3"),
            3e4,
            "30000 kg/m^3",
        ),
        Quantity(
            "stiffness",
            later("a stiffness"),
            "N/m",
            {
                "N/m": "N/m",
                "N/mm": "N/mm",
                "kN/mm": "kN/mm",
                "N/um": "N/um",
                "N/µm": "N/um",
                "N/μm": "N/um",
                "lbf/in": "lbf/inch",
            },
            later("50 N/um or 280000 lbf/in"),
            1e12,
            "10^12 N/m",
        ),
        Quantity(
            "angular_stiffness",
            later("an angular stiffness"),
            "N m/rad",
            {
                "N m/rad": "N*m/radian",
                "Nm/rad": "N*m/radian",
                "N*m/rad": "N*m/radian",
                "kN m/rad": "kN*m/radian",
                "N mm/rad": "N*mm/radian",
                "lbf in/rad": "lbf*inch/radian",
            },
            "200000 N m/rad",
            1e15,
            "10^15 N m/rad",
        ),
    )
}
RATIO: Final = Quantity("ratio", later("a plain number"), "1", {}, "11 1/2", 1e9, "10^9")
