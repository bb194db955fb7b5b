"""How a number is shown: unit, digits, the other unit in brackets, and the safe way to round.

One table, `UNITS`, decides for every quantity. In reading order:

    Unit, Row, UNITS          the table
    digits                    a number in its unit, rounded
    written, Written          a figure as the sheet shows it, in both units
    limits_written            two limits as one line
    places_needed             one number of decimals for a whole column

Directions: a limit of size shown in the other unit rounds into the tolerance zone (its figure says `down` for
a maximum, `up` for a minimum). Otherwise the quantity's own direction in the table holds: what may be used or
relied on goes down (cutting speed, spindle speed, time to react, natural frequency), what must be borne goes
up (force, mass, carriage speed). The choice of direction is common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_UP, Context, Decimal
from fractions import Fraction
from math import floor, isfinite, log10
from typing import Final, Literal

from generator.language.say import later, say
from generator.language.spoken import once_a_language, spoken
from generator.sheet.figure import Figure, Quantity, System
from generator.si import (
    MPa,
    degree,
    ft,
    ft_per_min,
    hp,
    inch,
    kW,
    lb,
    lbf,
    m_per_min,
    minute,
    mm,
    psi,
    rev_per_min,
    um,
)

Rounds = Literal["nearest", "up", "down"]

_MODES: Final = {"nearest": ROUND_HALF_UP, "up": ROUND_CEILING, "down": ROUND_FLOOR}
_WIDE: Final = Context(prec=400)  # digits: more than any float has before and behind its point
_DUST: Final = 6  # decimals past the last one shown; beyond them a difference is float dust
_WHOLE: Final = {"inch": inch / 64, "mm": 0.05 * mm}  # sizes on this grid need no trailing zeros
UNKNOWN: Final = later("unknown")


@dataclass(frozen=True)
class Unit:
    """A unit as it is shown: `si` is its multiplier, and either `places` or `figures` its digits.

    `places` are decimals, `figures` are significant figures. `sign` is how it is set behind a number
    (`name` with a space in front, unless said otherwise).
    """

    name: str
    si: float
    places: int | None = None
    figures: int | None = None
    sign: str | None = None

    def attached(self, number: str) -> str:
        """The number with its unit behind it."""
        if self.sign is not None:
            return f"{number}{self.sign}"
        return f"{number} {self.name}" if self.name else number


@dataclass(frozen=True)
class Row:
    """How one quantity is shown in an inch job and in a metric job, and which way it rounds."""

    inch: Unit
    mm: Unit
    rounds: Rounds = "nearest"

    @property
    def dual(self) -> bool:
        """True when the other unit belongs in brackets."""
        return self.inch.name != self.mm.name

    def unit(self, system: System) -> Unit:
        """The unit of this quantity in one system."""
        return self.inch if system == "inch" else self.mm


def _same(unit: Unit, rounds: Rounds = "nearest") -> Row:
    return Row(unit, unit, rounds)


UNITS: Final[Mapping[Quantity, Row]] = {
    "length": Row(Unit("in", inch, places=4), Unit("mm", mm, places=3)),
    "fine_length": Row(Unit("in", inch, places=5), Unit("mm", mm, places=4)),
    "area": Row(Unit("in²", inch**2, figures=3), Unit("mm²", mm**2, figures=3)),
    "angle": _same(Unit("deg", degree, places=2, sign="°")),
    "speed": Row(Unit("ft/min", ft_per_min, places=0), Unit("m/min", m_per_min, places=1), "down"),
    "carriage_speed": Row(Unit("in/s", inch, places=3), Unit("mm/s", mm, places=2), "up"),
    "spindle_speed": _same(Unit(later("rpm"), rev_per_min, places=0), "down"),
    "force": Row(Unit("lbf", lbf, figures=3), Unit("N", 1.0, figures=3), "up"),
    "temperature_rise": Row(Unit("°F", 5 / 9, places=0, sign=" °F"), Unit("°C", 1.0, places=0, sign=" °C")),
    "mass": Row(Unit("lb", lb, figures=3), Unit("kg", 1.0, figures=3), "up"),
    "power": Row(Unit("hp", hp, figures=2), Unit("kW", kW, figures=2), "up"),
    "torque": Row(Unit("lbf·ft", lbf * ft, figures=3), Unit("N·m", 1.0, figures=3), "up"),
    "feed": Row(Unit(later("in/rev"), inch, places=4), Unit(later("mm/rev"), mm, places=3)),
    "roughness": Row(Unit("µin", inch / 1e6, figures=2), Unit("µm", um, figures=2), "up"),
    "money": _same(Unit("", 1.0, places=2), "up"),
    "duration": _same(Unit("min", minute, places=1), "up"),
    "time": _same(Unit("s", 1.0, places=1), "down"),
    "frequency": _same(Unit("Hz", 1.0, figures=3), "down"),
    "pressure": Row(Unit("psi", psi, figures=3), Unit("MPa", MPa, figures=3)),
    "stiffness": Row(Unit("lbf/in", lbf / inch, figures=3), Unit("N/mm", 1 / mm, figures=3)),
    "angular_stiffness": Row(Unit("lbf·in/rad", lbf * inch, figures=3), Unit("N·m/rad", 1.0, figures=3)),
    "second_moment": Row(Unit("in⁴", inch**4, figures=4), Unit("mm⁴", mm**4, figures=4)),
    "density": Row(Unit("lb/in³", lb / inch**3, figures=3), Unit("kg/m³", 1.0, figures=4)),
    "mass_per_length": Row(Unit("lb/ft", lb / ft, figures=3), Unit("kg/m", 1.0, figures=3)),
    "ratio": _same(Unit("", 1.0, figures=4)),
    "count": _same(Unit("", 1.0, places=0)),
    "tpi": _same(Unit("tpi", 1.0, places=3, sign=later(" per inch"))),
    "text": _same(Unit("", 1.0, places=0)),
}

_LENGTHS: Final = ("length", "fine_length")
_SHORT: Final = ("angle", "ratio", "tpi")  # trailing zeros say nothing here


def other(system: System) -> System:
    """The system that goes in brackets."""
    return "mm" if system == "inch" else "inch"


def decimals(number: float, unit: Unit) -> int:
    """Decimals that this unit shows of this number (negative: rounded to tens, hundreds)."""
    if unit.places is not None:
        return unit.places
    assert unit.figures is not None
    return unit.figures - 1 - floor(log10(abs(number))) if number else 0


def digits(number: float, places: int, rounds: Rounds = "nearest") -> str:
    """A number with so many decimals, rounded in one direction; a half rounds away from zero.

    >>> digits(57.0891, 3, "down"), digits(57.0891, 3, "up"), digits(4.0625, 3), digits(4003.4, -1, "up")
    ('57.089', '57.090', '4.063', '4010')
    """
    if not isfinite(number):
        raise ValueError(f"{number} cannot be shown on a sheet")
    exact = Decimal(repr(round(number, places + _DUST)))
    text = format(exact.quantize(Decimal(1).scaleb(-places), _MODES[rounds], _WIDE), "f")
    return spoken().figures(_signed(_grouped(text)))


def _grouped(text: str) -> str:
    """Thousands set apart by a narrow space from five figures on, as ISO 80000-1 has it: never by a comma."""
    whole, point, rest = text.partition(".")
    figures = whole.lstrip("-")
    if len(figures) < 5:
        return text
    return whole[: len(whole) - len(figures)] + f"{int(figures):,}".replace(",", "\u202f") + point + rest


def _signed(text: str) -> str:
    """A true minus sign, and none before zero."""
    if not text.startswith("-"):
        return text
    return text[1:] if not text.strip("-0.") else "−" + text[1:]


def tidied(number: str) -> str:
    """A number without trailing zeros behind the point.

    >>> tidied("17.0000"), tidied("0.1250"), tidied("100")
    ('17', '0.125', '100')
    """
    return number.rstrip("0").rstrip(".,") if "." in number or "," in number else number


@once_a_language  # a figure stands in its row, in its working, on the other lathes and in the route
def in_unit(
    value: float, quantity: Quantity, system: System, rounds: Rounds | None = None, tidy: bool = False
) -> str:
    """A SI value in the unit of one system, with its unit; rounded the quantity's own way unless said.

    >>> in_unit(0.0254, "length", "inch"), in_unit(0.0254, "length", "mm", tidy=True)
    ('1.0000 in', '25.4 mm')
    >>> in_unit(324, "duration", "inch"), in_unit(1441, "duration", "mm"), in_unit(4320, "duration", "mm")
    ('5.4 min', '25 min', '1 h 12 min')
    """
    if quantity in ("time", "duration") and value >= 10 * minute:
        return _long_time(value)
    row = UNITS[quantity]
    unit = row.unit(system)
    number = value / unit.si
    text = digits(number, decimals(number, unit), rounds or row.rounds)
    return unit.attached(tidied(text) if tidy or quantity in _SHORT else text)


def _long_time(value: float) -> str:
    """From ten minutes on seconds mean nothing: hours and whole minutes, rounded up."""
    hours, minutes = divmod(int(digits(value / minute, 0, "up").replace("\u202f", "")), 60)
    if hours:
        return say("{hours} h {minutes} min", hours=hours, minutes=minutes)
    return say("{minutes} min", minutes=minutes)


@dataclass(frozen=True)
class Written:
    """A figure as the sheet shows it: in its own unit, and in the other unit where that matters."""

    first: str
    second: str = ""
    as_written: str = ""  # the author's own words, where they are not what `first` says

    @property
    def text(self) -> str:
        """Both units in one line."""
        return f"{self.first} ({self.second})" if self.second else self.first


def written(figure: Figure, system: System) -> Written:
    """A figure as the sheet shows it; a dimension that somebody gave keeps the words it was given in."""
    value = figure.value
    if value is None:
        return Written(str(UNKNOWN))
    if isinstance(value, str):
        return Written(str(value))
    own = figure.system or system
    if figure.text:
        said = _as_said(figure, value, own)
        if said is not None:
            return said
    tidy = _needs_no_zeros(figure, value, own)
    rounds = None if figure.rounds == "nearest" else figure.rounds
    first = in_unit(value, figure.quantity, own, rounds, tidy)
    second = in_unit(value, figure.quantity, other(own), rounds, tidy)
    return Written(first, second if UNITS[figure.quantity].dual else "", figure.text)


def _needs_no_zeros(figure: Figure, value: float, system: System) -> bool:
    """True for a size that is not a limit and lies on the shop's rule: 17 in, not 17.0000 in."""
    if figure.quantity not in _LENGTHS or figure.rounds != "nearest":
        return False
    if figure.quantity == "fine_length":
        return True
    steps = value / _WHOLE[system]
    return abs(steps - round(steps)) < 1e-6


_NUMBER = re.compile(r"(?:(?P<whole>\d+)[ -])?(?P<top>\d+)/(?P<bottom>\d+)|(?P<decimal>\d*\.?\d+)")


def _leading_number(text: str) -> tuple[float, str] | None:
    """The number at the start of a written dimension and what follows it; None when there is none."""
    found = _NUMBER.match(text.strip())
    if found is None:
        return None
    rest = text.strip()[found.end() :].strip()
    if found["decimal"]:
        return float(found["decimal"]), rest
    if int(found["bottom"]) == 0:
        return None
    return float(int(found["whole"] or 0) + Fraction(int(found["top"]), int(found["bottom"]))), rest


def _as_said(figure: Figure, value: float, system: System) -> Written | None:
    """The author's own text, with the unit if it was left out, then the conversion.

    None when the text is in neither unit of this quantity ("20 thou"): then the number is shown instead.
    """
    said = _leading_number(figure.text)
    if said is None:
        return None
    number, rest = said
    row = UNITS[figure.quantity]
    for candidate in (system, other(system)):
        unit = row.unit(candidate)
        if abs(number * unit.si - value) <= 1e-9 * max(abs(value), unit.si):
            number_said = spoken().figures(figure.text.strip().removesuffix(rest)) + rest
            first = number_said if rest else unit.attached(number_said)
            second = in_unit(value, figure.quantity, other(candidate), figure.rounds, tidy=True)
            return Written(first, second if row.dual else "")
    return None


def limits_written(low: Figure, high: Figure, system: System) -> Written:
    """Two limits as one line, smallest first: ``2.2667 – 2.2747 in (57.575 – 57.777 mm)``."""
    lower, upper = written(low, system), written(high, system)
    second = _range(lower.second, upper.second) if lower.second else ""
    return Written(_range(lower.first, upper.first), second)


def _range(low: str, high: str) -> str:
    number, space, unit = low.rpartition(" ")
    return f"{number} – {high}" if space and high.endswith(space + unit) else f"{low} – {high}"


def places_needed(numbers: Iterable[float], fewest: int, most: int) -> int:
    """Decimals for a column: the fewest that show every number as it is, within two bounds.

    >>> places_needed([0.045, 0.1], 3, 4), places_needed([0.0455, 0.1], 3, 4)
    (3, 4)
    """
    column = list(numbers)
    for places in range(fewest, most):
        if all(abs(number - round(number, places)) < 10.0 ** -(places + 4) for number in column):
            return places
    return most
