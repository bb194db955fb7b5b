"""The lengths of a job as they were written, with the other unit beside them.

    both_units     a job -> a line for each length in it

What was written is exact; the other unit is rounded as a machinist reads it, 0.001 mm or 0.0001 in, and bears
a sign that says so (≈). An inch is 25.4 mm (ISO 31-1, exact), so inches can come out even in mm.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from pydantic import BaseModel

from generator.job.reading import ReadJob
from generator.job.written import Given

INCH: Final = Fraction(254, 10)  # mm
_MM: Final = {"mm": Fraction(1), "cm": Fraction(10), "m": Fraction(1000), "in": INCH, "ft": 12 * INCH,
              "thou": INCH / 1000}


def both_units(read: ReadJob) -> list[str]:
    """A line for each length that the job file has, in its order of the model."""
    return [line for name, given in _lengths(read.job) if (line := _line(name, given))]


def _line(name: str, given: Given) -> str:
    factor = _MM.get(given.unit)
    if factor is None:
        return ""
    mm = given.exact * factor
    other, unit, places = (mm, "mm", 3) if given.unit in ("in", "ft", "thou") else (mm / INCH, "in", 4)
    rounded = round(other, places)
    sign = "=" if rounded == other else "≈"
    text = f"{float(rounded):.{places}f}".rstrip("0").rstrip(".")
    return f"{name}: {given.with_unit} {sign} {text} {unit}"


def _lengths(value: object, name: str = "") -> Iterator[tuple[str, Given]]:
    if isinstance(value, Given):
        if value.quantity == "length":
            yield name, value
    elif isinstance(value, BaseModel):
        for key in type(value).model_fields:
            yield from _lengths(getattr(value, key), f"{name}.{key}" if name else key)
    elif isinstance(value, list | tuple):
        for number, one in enumerate(value):
            yield from _lengths(one, f"{name}.{number}")
