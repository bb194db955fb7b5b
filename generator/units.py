"""Written text -> SI, for each kind of quantity: `3-1/2 in`, `20 thou`, `100 ft/min`, `29°30'`.

In reading order: read_number (the number grammar), Quantity and QUANTITIES (which units each kind takes),
read_amount (number and unit together), read_taper, pattern (the same as a regular expression, for an editor).

The grammar is strict because a guess here cuts metal: a decimal comma, a sign, an exponent or an unknown
unit is refused with the reason. The third-party unit library gives exact conversion factors only; it never
sees text from a file. Units that count revolutions are written out by hand, because that library takes a
revolution for 2 pi radians and drops the radian, which puts a spindle speed out by 2 pi.
"""

from __future__ import annotations

import difflib
import functools
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Final

import pint

from generator.errors import BadQuantity

LONGEST_NUMBER: Final = 40  # characters; longer than any figure a shop writes

_WHOLE = r"(?:0|[1-9][0-9]*)"
_DECIMAL = re.compile(rf"(?:{_WHOLE})?\.[0-9]+|{_WHOLE}")
_FRACTION = re.compile(r"([1-9][0-9]*)/([1-9][0-9]*)")
_MIXED = re.compile(r"([1-9][0-9]*)(?: +|-)([1-9][0-9]*)/([1-9][0-9]*)")
_ONE_CHARACTER_FRACTIONS: Final = "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"
_REFUSALS: tuple[tuple[re.Pattern[str], str], ...] = (
    (re.compile(r".*[0-9] *(\+ ?/ ?-|±).*"), "has a tolerance beside it: write the size alone"),
    (re.compile(r"[Øø⌀⌴].*"), "has a sign for the diameter in front: write the number without it"),
    (re.compile(r"[0-9]*\.[0-9]+ *[-–] *[0-9]*\.[0-9]+"), "is two numbers: write the one that counts"),
    (re.compile(r"[0-9]{1,3}(,[0-9]{3})+(\.[0-9]*)?"),
     "has a comma: write {no_comma} without it, or {point} with a point"),
    (re.compile(r".*,.*"), "has a decimal comma: write {point}, with a point"),
    (re.compile(r"[+-].*|−.*|–.*"), "has a sign: write the number without it"),
    (re.compile(r".*_.*"), "has an underscore: write the digits without it"),
    (re.compile(r".*:.*"), "has a colon: write one plain number, such as 1.5 or 1 1/2"),
    (re.compile(r".*/ *0+(?![0-9.]).*"), "divides by zero: write a fraction such as 1/2"),
    (re.compile(r"0+[0-9]+.*"),
     "starts with a zero: write the number without leading zeros, such as 10 or 0.10"),
    (re.compile(r".*/.*/.*"), "has two fractions in it: write one, such as 3 1/2"),
    (re.compile(r"[0-9.]+( +- *|- +)[0-9]+/[0-9]+"), "has spaces around the dash: write 3 1/2 or 3-1/2"),
    (re.compile(r"[0-9]+( +|-)[0-9]+/[0-9]+"),
     "is not a mixed number: write a whole number and a proper fraction, such as 3 1/2"),
    (re.compile(r".*\..*/.*|.*/.*\..*"), "mixes a point and a fraction: write 3.5 or 3 1/2"),
    (re.compile(r"[0-9]+\."), "ends in a point: write the digits after it, such as 12.0, or leave it out"),
    (re.compile(r".*\..*\..*"), "has two points in it: write one number, such as 1.5"),
    (re.compile(r"[0-9.]+( +[0-9.]+)+"),
     "has a space between its digits: write one number, such as 1000 or 3 1/2"),
)


def read_number(text: str) -> Fraction:
    """Read a number as a machinist writes it, exactly.

    Takes `12`, `12.5`, `.5`, `2.250`, `1/2`, `3 1/2` and `3-1/2`.

    Raises
    ------
    BadQuantity
        Anything else; the message is a phrase that follows the quoted text.

    Examples
    --------
    >>> [str(read_number(text)) for text in ("12.5", ".5", "1/2", "3 1/2", "3-1/2", "2.250")]
    ['25/2', '1/2', '1/2', '7/2', '7/2', '9/4']
    """
    text = text.strip(" ")
    if len(text) > LONGEST_NUMBER:
        raise BadQuantity(f"is longer than {LONGEST_NUMBER} characters: write a number such as 2.250")
    if _DECIMAL.fullmatch(text):
        return Fraction(text)
    if match := _FRACTION.fullmatch(text):
        return Fraction(int(match[1]), int(match[2]))
    if (match := _MIXED.fullmatch(text)) and int(match[2]) < int(match[3]):
        return int(match[1]) + Fraction(int(match[2]), int(match[3]))
    if not text:
        raise BadQuantity("has no number in it: write one such as 2.250 or 3 1/2")
    if any(sign in text for sign in _ONE_CHARACTER_FRACTIONS):
        raise BadQuantity("has a fraction in one character: write it out, such as 3 1/2")
    for pattern, reason in _REFUSALS:
        if pattern.fullmatch(text):
            raise BadQuantity(reason.format(no_comma=text.replace(",", ""), point=text.replace(",", ".", 1)))
    raise BadQuantity("is not a number: write one such as 2.250, .5, 1/2 or 3 1/2")


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
            "length", "a length", "m", _LENGTHS, "2.5 in or 64 mm", 100.0, "100 m",
            refused={
                "mil": "mil is a thousandth of an inch to one and a millimeter to another: write thou or mm",
                "mils": "mil is a thousandth of an inch to one and a millimeter to another: write thou or mm",
            },
        ),
        Quantity(
            "speed", "a surface speed", "m/s",
            {"ft/min": "foot/min", "fpm": "foot/min", "sfm": "foot/min", "m/min": "m/min", "m/s": "m/s"},
            "100 ft/min or 30 m/min", 50.0, "3000 m/min",
        ),
        Quantity(
            "spindle_speed", "a spindle speed", "rev/s",
            {"rpm": _MINUTE, "rev/min": _MINUTE, "r/min": _MINUTE, "1/min": _MINUTE, "rev/s": Fraction(1)},
            "210 rpm", 20000 / 60, "20000 rpm", bare="rpm",
        ),
        Quantity(
            "feed", "a feed per revolution", "m/rev",
            {"in/rev": "inch", "ipr": "inch", "thou/rev": "thou", "mm/rev": "mm", "mm/r": "mm"},
            "0.005 in/rev or 0.12 mm/rev", 0.1, "100 mm/rev",
        ),
        Quantity(
            "force", "a force", "N",
            {"N": "N", "kN": "kN", "MN": "MN", "lbf": "lbf", "kgf": "kgf"},
            "500 lbf or 2.2 kN", 1e8, "100 MN",
            refused={
                "lb": "lb is a mass: write lbf for the force",
                "lbs": "lbs is a mass: write lbf for the force",
                "kg": "kg is a mass: write kgf for the force, or N",
                "ton": "a ton may be 2000 lb, 2240 lb or 1000 kg: write lbf or kN",
                "tons": "a ton may be 2000 lb, 2240 lb or 1000 kg: write lbf or kN",
            },
        ),
        Quantity(
            "pressure", "a pressure", "Pa",
            {"psi": "psi", "ksi": "ksi", "bar": "bar", "Pa": "Pa", "kPa": "kPa", "MPa": "MPa", "GPa": "GPa",
             "N/mm^2": "N/mm**2", "N/mm²": "N/mm**2"},
            "150 psi or 10 bar", 2e12, "2000 GPa",
        ),
        Quantity(
            "mass", "a mass", "kg",
            {"kg": "kg", "g": "g", "t": "tonne", "tonne": "tonne", "lb": "lb", "lbs": "lb", "oz": "oz"},
            "40 lb or 18 kg", 1e5, "100 t",
            refused={
                "ton": "a ton may be 2000 lb, 2240 lb or 1000 kg: write lb, kg or t",
                "tons": "a ton may be 2000 lb, 2240 lb or 1000 kg: write lb, kg or t",
            },
        ),
        Quantity(
            "angle", "an angle", "rad",
            {"deg": "degree", "degree": "degree", "degrees": "degree", "°": "degree", "rad": "radian"},
            "29.5 deg or 29°30'", 3.14159, "180 degrees", zero=True, bare="deg",
        ),
        Quantity(
            "time", "a time", "s",
            {"s": "s", "sec": "s", "second": "s", "seconds": "s", "min": "min", "minute": "min",
             "minutes": "min", "h": "hour", "hour": "hour", "hours": "hour"},
            "1.5 s or 20 min", 3.2e7, "one year",
        ),
        Quantity(
            "temperature_rise", "a difference of temperature", "K",
            {"C": "delta_degC", "°C": "delta_degC", "K": "kelvin", "F": "delta_degF", "°F": "delta_degF"},
            "15 °C or 27 °F", 1000.0, "1000 °C",
        ),
        Quantity(
            "power", "a power", "W", {"W": "W", "kW": "kW", "hp": "hp"}, "7.5 hp or 5.5 kW", 1e7, "10 MW",
        ),
        Quantity(
            "torque", "a torque", "N m",
            {"N m": "N*m", "Nm": "N*m", "N*m": "N*m", "kN m": "kN*m", "lbf ft": "lbf*foot",
             "lbf in": "lbf*inch"},
            "40 N m or 30 lbf ft", 1e7, "10 MN m",
        ),
        Quantity(
            "density", "a density", "kg/m^3",
            {"kg/m^3": "kg/m**3", "kg/m³": "kg/m**3", "g/cm^3": "g/cm**3", "g/cm³": "g/cm**3",
             "lb/in^3": "lb/inch**3", "lb/in³": "lb/inch**3"},
            "7850 kg/m^3 or 0.284 lb/in^3", 3e4, "30000 kg/m^3",
        ),
        Quantity(
            "stiffness", "a stiffness", "N/m",
            {"N/m": "N/m", "N/mm": "N/mm", "kN/mm": "kN/mm", "N/um": "N/um", "N/µm": "N/um", "N/μm": "N/um",
             "lbf/in": "lbf/inch"},
            "50 N/um or 280000 lbf/in", 1e12, "10^12 N/m",
        ),
        Quantity(
            "angular_stiffness", "an angular stiffness", "N m/rad",
            {"N m/rad": "N*m/radian", "Nm/rad": "N*m/radian", "N*m/rad": "N*m/radian",
             "kN m/rad": "kN*m/radian", "N mm/rad": "N*mm/radian", "lbf in/rad": "lbf*inch/radian"},
            "200000 N m/rad", 1e15, "10^15 N m/rad",
        ),
    )
}
RATIO: Final = Quantity("ratio", "a plain number", "1", {}, "11 1/2", 1e9, "10^9")


@dataclass(frozen=True)
class Amount:
    """A quantity as it was written: `exact` is the number in `unit`, `si` the same in SI."""

    si: float
    exact: Fraction
    unit: str
    bare: bool = False


@functools.cache
def factor(quantity: str, unit: str) -> Fraction:
    """How many SI units of `quantity` one `unit` is; exact, except where pi is in it.

    >>> factor("length", "in"), factor("spindle_speed", "rpm")
    (Fraction(127, 5000), Fraction(1, 60))
    """
    known = QUANTITIES[quantity]
    given = known.units[unit]
    if isinstance(given, Fraction):
        return given
    # a feed is a length per revolution: the library is asked for the length alone
    si = known.si.replace(" ", "*").replace("^", "**").replace("rad", "radian")
    target = "m" if quantity == "feed" else si
    return Fraction(_registry().Quantity(Fraction(1), given).to(target).magnitude)


@functools.cache
def _registry() -> pint.UnitRegistry[Fraction]:
    try:
        return pint.UnitRegistry(non_int_type=Fraction, cache_folder=":auto:")  # made once, in 0.3 s
    except OSError:  # nowhere to keep it
        return pint.UnitRegistry(non_int_type=Fraction)


def read_amount(text: str, quantity: str, bare: str | None = None, *, zero: bool | None = None) -> Amount:
    """Read a number with its unit; `bare` is the unit of a number that has none.

    Raises
    ------
    BadQuantity
        The message quotes what was written and says what would be accepted. `no_unit` is set when only
        the unit is missing.

    Examples
    --------
    >>> read_amount("3-1/2 in", "length").si
    0.0889
    >>> read_amount("20 thou", "length").si
    0.000508
    >>> read_amount("1 h 20 min", "time").si
    4800.0
    >>> read_amount("2 kg", "length")
    Traceback (most recent call last):
    generator.errors.BadQuantity: "2 kg" is a mass, a length is wanted: write 2.5 in or 64 mm
    """
    wanted = RATIO if quantity == RATIO.name else QUANTITIES[quantity]
    shown = quoted(text)
    number, unit = _split(text)
    if quantity == "angle" and (parts := _DEGREES_MINUTES.fullmatch(text.strip())):
        return _degrees_and_minutes(parts, shown)
    if quantity == "time" and (parts := _HOURS_MINUTES.fullmatch(text.strip())):
        return _hours_and_minutes(parts, shown)
    if re.fullmatch(r"[eE][+-]?[0-9]+.*", unit) and number:
        raise BadQuantity(f"{shown} is written with a power of ten: write it out, such as 1200 or 0.0012")
    if not number:
        raise BadQuantity(f"{shown} is not {wanted.a}: write {wanted.examples}")
    try:
        exact = read_number(number)
    except BadQuantity as error:
        raise BadQuantity(f"{shown} {error}") from None
    if wanted is RATIO:
        if unit:
            raise BadQuantity(f"{shown} has a unit: write the plain number {number}")
        written, si = "", float(exact)
    else:
        written = _unit(unit, wanted, shown, number) if unit else bare or wanted.bare or ""
        if not written:
            raise BadQuantity(f"{shown} has no unit: write {wanted.examples}", no_unit=True)
        si = float(exact * factor(quantity, written))
    if exact == 0 and not (wanted.zero if zero is None else zero):
        raise BadQuantity(f"{shown} is zero: write {wanted.a} above zero, such as {wanted.examples}")
    if si >= wanted.high:
        raise BadQuantity(f"{shown} is too much for {wanted.a}: write one below {wanted.high_text}")
    return Amount(si, exact, written, bare=not unit)


def quoted(text: str, longest: int = 60) -> str:
    """What was written, on one line, in quotes, cut where it is long."""
    line = " ".join(text.split())
    return f'"{line if len(line) <= longest else line[:longest] + "..."}"'


def nearest(word: str, known: list[str]) -> str | None:
    """The known word most like the one written, if any is like it at all."""
    folded = {name.casefold(): name for name in reversed(known)}
    found = difflib.get_close_matches(word[:80].casefold(), list(folded), n=1, cutoff=0.6)
    return folded[found[0]] if found else None


_TAPER = re.compile(r"(?P<one>[^:]+?)(?: *: *| +in +)(?P<length>[^:]+)")
TAPERS: Final = "1:16, 1 in 16 or 3/4 in/ft"


def read_taper(text: str) -> Fraction:
    """A taper as the trade writes it: change of diameter over length.

    Raises
    ------
    BadQuantity
        The message quotes what was written and says what would be accepted.

    Examples
    --------
    >>> [str(read_taper(text)) for text in ("1:16", "1 in 16", "3/4 in/ft")]
    ['1/16', '1/16', '1/16']
    """
    shown, tidied = quoted(text), " ".join(text.split())
    per_foot = re.fullmatch(r"(.+?) ?(?:in|inch|\") ?(?:/|per) ?(?:ft|foot|a foot)", tidied)
    ratio = _TAPER.fullmatch(tidied)
    if per_foot is None and ratio is None:
        raise BadQuantity(f"{shown} is not a taper: write {TAPERS}")
    try:
        if per_foot is not None:
            taper = read_number(per_foot[1]) / 12
        else:
            assert ratio is not None
            length = read_number(ratio["length"])
            taper = read_number(ratio["one"]) / length if length else Fraction(0)
    except BadQuantity as error:
        raise BadQuantity(f"{shown} is not a taper, its number {error}") from None
    if taper <= 0 or taper > 1:
        raise BadQuantity(f"{shown} is not a taper that a thread can have: write {TAPERS}")
    return taper


_NUMBER_THEN_UNIT = re.compile(r"([^A-Za-zµμΩ°\"″”'′²³]*)(.*)", re.DOTALL)
_DEGREES_MINUTES = re.compile(r"([0-9]+) ?° ?([0-9]+(?:\.[0-9]+)?) ?['′]")
_HOURS_MINUTES = re.compile(r"([0-9]+) *(?:h|hour|hours) *([0-9]+) *(?:min|minute|minutes)")


def _split(text: str) -> tuple[str, str]:
    if re.search(r"(?<![0-9]) *1/min$", text):  # the one unit that starts with a digit
        return text[: text.rindex("1/min")].strip(), "1/min"
    if match := re.fullmatch(r"(.*[0-9]) +1/min", text.strip()):
        return match[1], "1/min"
    match = _NUMBER_THEN_UNIT.fullmatch(text.strip())
    assert match is not None  # both groups may be empty, so the pattern fits any text
    return match[1].strip(), re.sub(r"\s+", " ", match[2].strip())


def _unit(unit: str, wanted: Quantity, shown: str, number: str) -> str:
    if unit in wanted.units:
        return unit
    if unit == "''" and '"' in wanted.units:
        raise BadQuantity(f"{shown} has two single marks for inches: write {number} in")
    if unit in wanted.refused:
        raise BadQuantity(f"{shown}: {wanted.refused[unit]}")
    if unit.rstrip(".") in wanted.units:
        raise BadQuantity(f"{shown} has a point after the unit: write {number} {unit.rstrip('.')}")
    if any(re.match(rf"{re.escape(known)} *[-0-9.]", unit) for known in wanted.units):
        raise BadQuantity(f"{shown} is more than one number: write {wanted.examples}")
    for other in QUANTITIES.values():
        if unit in other.units:
            raise BadQuantity(f"{shown} is {other.a}, {wanted.a} is wanted: write {wanted.examples}")
    near = nearest(unit, list(wanted.units))
    hint = f"did you mean {near}? Write" if near else "write"
    raise BadQuantity(f"{shown} has a unit that is not known for {wanted.a}: {hint} {wanted.examples}")


def _degrees_and_minutes(parts: re.Match[str], shown: str) -> Amount:
    minutes = Fraction(parts[2])
    if minutes >= 60:
        raise BadQuantity(f"{shown} has 60 minutes or more: write 29°30' or 29.5 deg")
    exact = int(parts[1][:9]) + minutes / 60
    si = float(exact * factor("angle", "deg"))
    if si >= QUANTITIES["angle"].high:
        raise BadQuantity(f"{shown} is too much for an angle: write one below 180 degrees")
    return Amount(si, exact, "deg")


def _hours_and_minutes(parts: re.Match[str], shown: str) -> Amount:
    hours, minutes = int(parts[1][:9]), int(parts[2][:9])
    if minutes >= 60:
        raise BadQuantity(f"{shown} has 60 minutes or more beside hours: write 1 h 20 min or 80 min")
    exact = Fraction(60 * hours + minutes)
    if not exact:
        raise BadQuantity(f"{shown} is zero: write a time above zero, such as 1 h 20 min")
    si = float(exact * factor("time", "min"))
    if si >= QUANTITIES["time"].high:
        raise BadQuantity(f"{shown} is too much for a time: write one below one year")
    return Amount(si, exact, "min")


def pattern(quantity: str) -> str:
    """A regular expression for the same text, for a schema; it leaves the range to `read_amount`."""
    number = r"([1-9][0-9]*[ -]+)?[1-9][0-9]*/[1-9][0-9]*|(0|[1-9][0-9]*)?\.[0-9]+|0|[1-9][0-9]*"
    if quantity == RATIO.name:
        return f"^ *({number}) *$"
    units = "|".join(re.escape(unit).replace(r"\ ", " +") for unit in QUANTITIES[quantity].units)
    either = f"({number})( *({units}))?"
    if quantity == "angle":
        either = f"{either}|[0-9]+ ?° ?[0-9]+(\\.[0-9]+)? ?['′]"
    if quantity == "time":
        either = f"{either}|[0-9]+ *(h|hour|hours) *[0-9]+ *(min|minute|minutes)"
    return f"^ *({either}) *$"
