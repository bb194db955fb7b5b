"""The working of a figure in words: where a number comes from, on one line.

working_line      formula with names, then with numbers, then the result
origin_line       for a number that was not computed: who said it, and where
origin_words      the same without the name of the figure
"""

from __future__ import annotations

import re

from generator.language.say import later, say
from generator.language.spoken import spoken
from generator.render.formats import UNITS, digits, tidied, written
from generator.sheet.figure import Figure, Kind, Quantity, System

_INPUT = re.compile(r"\{([^{}]+)\}")
_REMARK = re.compile(  # ", all in inches"
    r"^(?P<rule>.*\S),\s*(?P<remark>(?:(?:all|alles) )?in [^\W\d_]+(?: [^\W\d_]+)*)(?P<end>\W?)$"
)
_POINT = re.compile(r"(\{[^{}]+\})|(?<=\d)\.(?=\d)")  # names in braces are no numbers
REMARKS = frozenset({
    later("in inches"), later("all in inches"), later("in millimeters"), later("all in millimeters"),
    later("in turns"),
})  # fmt: skip
_FIGURES = 6  # significant figures of an input that is no length
_POWERS = tuple("²³⁴")
_UNITLESS = ("ratio", "count", "tpi", "text")


def working_line(figure: Figure, system: System) -> str:
    """The formula with names, with the numbers put in, and the result; the origin where nothing was computed.

    Numbers stand without units when all share the unit of the result; otherwise each carries its own, so
    that a line with mixed units can be checked as it stands; one that is squared stands in brackets with its
    unit. An angle always carries its sign.

    Raises
    ------
    KeyError
        When the formula names an input that was not put in: the working would be untrue.
    """
    if figure.working is None or figure.value is None:
        return origin_line(figure)
    own = figure.system or system
    formula, put = str(figure.working.formula), figure.working.put
    rule = _REMARK.match(formula)
    expression, remark = (rule["rule"] + rule["end"], _remark(rule["remark"])) if rule else (formula, "")
    expression = _POINT.sub(lambda found: found[1] or spoken().figures("."), expression)
    units = {_unit(quantity, own) for _, quantity in put.values() if quantity not in (*_UNITLESS, "angle")}
    bare = units <= {_unit(figure.quantity, own)}

    def number(found: re.Match[str]) -> str:
        try:
            value, quantity = put[found[1]]
        except KeyError:
            raise KeyError(f"{figure.name}: its formula names {found[1]!r}, which was not put in") from None
        text = _put_in(value, quantity, own, bare)
        powered = found.string[found.end():].startswith(_POWERS)
        return f"({text})" if powered and " " in text else text

    names = _INPUT.sub(lambda found: say(found[1]), expression)
    numbers = _INPUT.sub(number, expression)
    result = written(figure, system).first
    parts = [str(figure.label), names + remark]
    if numbers != names:
        parts.append(numbers)
    if result != numbers:
        parts.append(result)
    return " = ".join(parts)


def _remark(words: str) -> str:
    """In which unit a formula counts; one that was said with its formula is in no table."""
    return f" ({say(words) if words in REMARKS else words})"


def _unit(quantity: Quantity, system: System) -> str:
    return UNITS[quantity].unit(system).name


def _put_in(value: float, quantity: Quantity, system: System, bare: bool) -> str:
    """An input as it goes into the formula: one digit more than the sheet shows, no trailing zeros."""
    unit = UNITS[quantity].unit(system)
    number = value / unit.si
    if quantity in ("length", "fine_length"):
        assert unit.places is not None
        text = digits(number, unit.places + 1)
    else:
        text = f"{number:.{_FIGURES}g}"
        if "e" in text:
            text = f"{float(text):f}" if abs(number) < 1 else f"{float(text):.0f}"
        text = spoken().figures(text)
    text = tidied(text)
    if quantity == "angle":
        return unit.attached(text)
    return text if bare or quantity in _UNITLESS else unit.attached(text)


_SAID = {
    Kind.MEASURED: later("measured"),
    Kind.GIVEN: later("given"),
    Kind.STANDARD: later("from a standard"),
    Kind.COMPUTED: later("computed"),
    Kind.SHOP: later("the shop's choice"),
    Kind.ASSUMED: later("assumed"),
    Kind.UNKNOWN: later("unknown"),
}


def origin_line(figure: Figure) -> str:
    """Who or what says so, in which line of which file, in which words.

    >>> origin_line(Figure("thread.length", "Thread length", 0.0445, "length", Kind.GIVEN, "the job file",
    ...                    text="1 3/4"))
    'Thread length: given, written “1 3/4”'
    """
    return f"{figure.label}: {origin_words(figure)}"


def origin_words(figure: Figure) -> str:
    """The same without the name of the figure."""
    said = str(_SAID[figure.kind])
    if figure.text:
        said += say(", written “{text}”", text=figure.text)
    if figure.where is not None:
        said += say(", {name} line {line}", name=figure.where.path.name, line=figure.where.line)
    return said
