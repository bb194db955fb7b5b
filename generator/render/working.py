"""The working of a figure in words: where a number comes from, on one line.

working_line      formula with names, then with numbers, then the result
origin_line       for a number that was not computed: who said it, and where
"""

from __future__ import annotations

import re

from generator.render.formats import UNITS, digits, tidied, written
from generator.sheet.figure import Figure, Kind, Quantity, System

_INPUT = re.compile(r"\{([^{}]+)\}")
_REMARK = re.compile(r"^(?P<rule>.*\S),\s*(?P<remark>(?:all )?in [a-z ]+)$")
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
    formula, put = figure.working.formula, figure.working.put
    rule = _REMARK.match(formula)
    expression, remark = (rule["rule"], f" ({rule['remark']})") if rule else (formula, "")
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

    names = _INPUT.sub(r"\1", expression)
    numbers = _INPUT.sub(number, expression)
    result = written(figure, system).first
    parts = [figure.label, names + remark]
    if numbers != names:
        parts.append(numbers)
    if result != numbers:
        parts.append(result)
    return " = ".join(parts)


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
    text = tidied(text)
    if quantity == "angle":
        return unit.attached(text)
    return text if bare or quantity in _UNITLESS else unit.attached(text)


_SAID = {
    Kind.MEASURED: "measured",
    Kind.GIVEN: "given",
    Kind.STANDARD: "from a standard",
    Kind.COMPUTED: "computed",
    Kind.SHOP: "the shop's choice",
    Kind.ASSUMED: "assumed",
    Kind.UNKNOWN: "unknown",
}


def origin_line(figure: Figure) -> str:
    """Who or what says so, in which line of which file, in which words.

    >>> origin_line(Figure("thread.length", "Thread length", 0.0445, "length", Kind.GIVEN, "the job file",
    ...                    text="1 3/4"))
    'Thread length: given, written “1 3/4”'
    """
    said = _SAID[figure.kind]
    if figure.text:
        said += f", written “{figure.text}”"
    if figure.where is not None:
        said += f", {figure.where.path.name} line {figure.where.line}"
    return f"{figure.label}: {said}"
