"""Written text -> SI, for each kind of quantity: `3-1/2 in`, `20 thou`, `100 ft/min`, `29°30'`.

In reading order: read_number (the number grammar), read_amount (number and unit together, by the kinds of
`generator.quantities`), read_taper, pattern (the same as a regular expression, for an editor).

The grammar is strict because a guess here cuts metal: a decimal comma, a sign, an exponent or an unknown
unit is refused with the reason. The third-party unit library gives exact conversion factors only; it never
sees text from a file. Units that count revolutions are written out by hand, because that library takes a
revolution for 2 pi radians and drops the radian, which puts a spindle speed out by 2 pi.
"""

from __future__ import annotations

import difflib
import functools
import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

import pint

from generator.errors import BadQuantity
from generator.language.say import later, say
from generator.quantities import QUANTITIES, RATIO, Quantity

LONGEST_NUMBER: Final = 40  # characters; longer than any figure a shop writes

_WHOLE = r"(?:0|[1-9][0-9]*)"
_DECIMAL = re.compile(rf"(?:{_WHOLE})?\.[0-9]+|{_WHOLE}")
_FRACTION = re.compile(r"([1-9][0-9]*)/([1-9][0-9]*)")
_MIXED = re.compile(r"([1-9][0-9]*)(?: +|-)([1-9][0-9]*)/([1-9][0-9]*)")
_ONE_CHARACTER_FRACTIONS: Final = "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"
_REFUSALS: tuple[tuple[re.Pattern[str], str], ...] = (
    (re.compile(r".*[0-9] *(\+ ?/ ?-|±).*"), later("has a tolerance beside it: write the size alone")),
    (re.compile(r"[Øø⌀⌴].*"), later("has a sign for the diameter in front: write the number without it")),
    (re.compile(r"[0-9]*\.[0-9]+ *[-–] *[0-9]*\.[0-9]+"), later("is two numbers: write the one that counts")),
    (
        re.compile(r"[0-9]{1,3}(,[0-9]{3})+(\.[0-9]*)?"),
        later("has a comma: write {no_comma} without it, or {point} with a point"),
    ),
    (re.compile(r".*,.*"), later("has a decimal comma: write {point}, with a point")),
    (re.compile(r"[+-].*|−.*|–.*"), later("has a sign: write the number without it")),
    (re.compile(r".*_.*"), later("has an underscore: write the digits without it")),
    (re.compile(r".*:.*"), later("has a colon: write one plain number, such as 1.5 or 1 1/2")),
    (re.compile(r".*/ *0+(?![0-9.]).*"), later("divides by zero: write a fraction such as 1/2")),
    (
        re.compile(r"0+[0-9]+.*"),
        later("starts with a zero: write the number without leading zeros, such as 10 or 0.10"),
    ),
    (re.compile(r".*/.*/.*"), later("has two fractions in it: write one, such as 3 1/2")),
    (
        re.compile(r"[0-9.]+( +- *|- +)[0-9]+/[0-9]+"),
        later("has spaces around the dash: write 3 1/2 or 3-1/2"),
    ),
    (
        re.compile(r"[0-9]+( +|-)[0-9]+/[0-9]+"),
        later("is not a mixed number: write a whole number and a proper fraction, such as 3 1/2"),
    ),
    (re.compile(r".*\..*/.*|.*/.*\..*"), later("mixes a point and a fraction: write 3.5 or 3 1/2")),
    (
        re.compile(r"[0-9]+\."),
        later("ends in a point: write the digits after it, such as 12.0, or leave it out"),
    ),
    (re.compile(r".*\..*\..*"), later("has two points in it: write one number, such as 1.5")),
    (
        re.compile(r"[0-9.]+( +[0-9.]+)+"),
        later("has a space between its digits: write one number, such as 1000 or 3 1/2"),
    ),
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
        raise BadQuantity(
            say(
                "is longer than {longest_number} characters: write a number such as 2.250",
                longest_number=LONGEST_NUMBER,
            )
        )
    if _DECIMAL.fullmatch(text):
        return Fraction(text)
    if match := _FRACTION.fullmatch(text):
        return Fraction(int(match[1]), int(match[2]))
    if (match := _MIXED.fullmatch(text)) and int(match[2]) < int(match[3]):
        return int(match[1]) + Fraction(int(match[2]), int(match[3]))
    if not text:
        raise BadQuantity(say("has no number in it: write one such as 2.250 or 3 1/2"))
    if any(sign in text for sign in _ONE_CHARACTER_FRACTIONS):
        raise BadQuantity(say("has a fraction in one character: write it out, such as 3 1/2"))
    for pattern, reason in _REFUSALS:
        if pattern.fullmatch(text):
            raise BadQuantity(
                say(reason, no_comma=text.replace(",", ""), point=text.replace(",", ".", 1))
            )
    raise BadQuantity(say("is not a number: write one such as 2.250, .5, 1/2 or 3 1/2"))


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
        raise BadQuantity(
            say("{shown} is written with a power of ten: write it out, such as 1200 or 0.0012", shown=shown)
        )
    if not number:
        raise BadQuantity(
            say("{shown} is not {a}: write {examples}", shown=shown, a=wanted.a, examples=wanted.examples)
        )
    try:
        exact = read_number(number)
    except BadQuantity as error:
        raise BadQuantity(f"{shown} {error}") from None
    if wanted is RATIO:
        if unit:
            raise BadQuantity(
                say("{shown} has a unit: write the plain number {number}", shown=shown, number=number)
            )
        written, si = "", float(exact)
    else:
        written = _unit(unit, wanted, shown, number) if unit else bare or wanted.bare or ""
        if not written:
            raise BadQuantity(
                say("{shown} has no unit: write {examples}", shown=shown, examples=wanted.examples),
                no_unit=True,
            )
        si = float(exact * factor(quantity, written))
    if exact == 0 and not (wanted.zero if zero is None else zero):
        raise BadQuantity(
            say(
                "{shown} is zero: write {a} above zero, such as {examples}",
                shown=shown,
                a=wanted.a,
                examples=wanted.examples,
            )
        )
    if si >= wanted.high:
        raise BadQuantity(
            say(
                "{shown} is too much for {a}: write one below {high_text}",
                shown=shown,
                a=wanted.a,
                high_text=wanted.high_text,
            )
        )
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
TAPERS: Final = later("1:16, 1 in 16 or 3/4 in/ft")


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
        raise BadQuantity(say("{shown} is not a taper: write {tapers}", shown=shown, tapers=TAPERS))
    try:
        if per_foot is not None:
            taper = read_number(per_foot[1]) / 12
        else:
            assert ratio is not None
            length = read_number(ratio["length"])
            taper = read_number(ratio["one"]) / length if length else Fraction(0)
    except BadQuantity as error:
        raise BadQuantity(
            say("{shown} is not a taper, its number {error}", shown=shown, error=error)
        ) from None
    if taper <= 0 or taper > 1:
        raise BadQuantity(
            say("{shown} is not a taper that a thread can have: write {tapers}", shown=shown, tapers=TAPERS)
        )
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
        raise BadQuantity(
            say("{shown} has two single marks for inches: write {number} in", shown=shown, number=number)
        )
    if unit in wanted.refused:
        raise BadQuantity(f"{shown}: {wanted.refused[unit]}")
    if unit.rstrip(".") in wanted.units:
        raise BadQuantity(
            say(
                "{shown} has a point after the unit: write {number} {unit}",
                shown=shown,
                number=number,
                unit=unit.rstrip("."),
            )
        )
    if any(re.match(rf"{re.escape(known)} *[-0-9.]", unit) for known in wanted.units):
        raise BadQuantity(
            say("{shown} is more than one number: write {examples}", shown=shown, examples=wanted.examples)
        )
    for other in QUANTITIES.values():
        if unit in other.units:
            raise BadQuantity(
                say(
                    "{shown} is {a}, {wanted} is wanted: write {examples}",
                    shown=shown,
                    a=other.a,
                    wanted=wanted.a,
                    examples=wanted.examples,
                )
            )
    if near := nearest(unit, list(wanted.units)):
        raise BadQuantity(
            say(
                "{shown} has a unit that is not known for {a}: did you mean {near}? Write {examples}",
                shown=shown,
                a=wanted.a,
                near=near,
                examples=wanted.examples,
            )
        )
    raise BadQuantity(
        say(
            "{shown} has a unit that is not known for {a}: write {examples}",
            shown=shown,
            a=wanted.a,
            examples=wanted.examples,
        )
    )


def _degrees_and_minutes(parts: re.Match[str], shown: str) -> Amount:
    minutes = Fraction(parts[2])
    if minutes >= 60:
        raise BadQuantity(say("{shown} has 60 minutes or more: write 29°30' or 29.5 deg", shown=shown))
    exact = int(parts[1][:9]) + minutes / 60
    si = float(exact * factor("angle", "deg"))
    if si >= QUANTITIES["angle"].high:
        raise BadQuantity(say("{shown} is too much for an angle: write one below 180 degrees", shown=shown))
    return Amount(si, exact, "deg")


def _hours_and_minutes(parts: re.Match[str], shown: str) -> Amount:
    hours, minutes = int(parts[1][:9]), int(parts[2][:9])
    if minutes >= 60:
        raise BadQuantity(
            say("{shown} has 60 minutes or more beside hours: write 1 h 20 min or 80 min", shown=shown)
        )
    exact = Fraction(60 * hours + minutes)
    if not exact:
        raise BadQuantity(say("{shown} is zero: write a time above zero, such as 1 h 20 min", shown=shown))
    si = float(exact * factor("time", "min"))
    if si >= QUANTITIES["time"].high:
        raise BadQuantity(say("{shown} is too much for a time: write one below one year", shown=shown))
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
