"""Rounding as the thread standards do it: in decimals, half to even (ASME B1.30)."""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, Decimal
from fractions import Fraction

FOUR = Decimal("0.0001")
THREE = Decimal("0.001")
SIX = Decimal("0.000001")
EIGHT = Decimal("0.00000001")

_PREFERRED = (
    "1.00 1.06 1.12 1.18 1.25 1.32 1.40 1.50 1.60 1.70 1.80 1.90 2.00 2.12 2.24 2.36 2.50 2.65 2.80 3.00 "
    "3.15 3.35 3.55 3.75 4.00 4.25 4.50 4.75 5.00 5.30 5.60 6.00 6.30 6.70 7.10 7.50 8.00 8.50 9.00 9.50"
)
R40 = tuple(map(Decimal, _PREFERRED.split()))  # the R 40 series of preferred numbers, ISO 3


def decimal(value: Fraction) -> Decimal:
    """A fraction as a decimal, to 28 places.

    >>> rounded(decimal(Fraction(1, 13)), EIGHT)
    Decimal('0.07692308')
    """
    return Decimal(value.numerator) / Decimal(value.denominator)


def rounded(value: Decimal, places: Decimal) -> Decimal:
    """`value` at the places of `places`, half to even.

    >>> rounded(Decimal("0.00125"), FOUR)
    Decimal('0.0012')
    """
    return value.quantize(places, ROUND_HALF_EVEN)


def preferred_number(value: Decimal, steps: int = 0) -> Decimal:
    """The R 40 number nearest to `value` (above zero), moved by `steps` along the series, to a whole number.

    >>> preferred_number(Decimal(132), 4)
    Decimal('170')
    """
    decade = value.adjusted()
    mantissa = value.scaleb(-decade)
    nearest = min(
        range(len(R40) + 1), key=lambda i: abs((R40[i] if i < len(R40) else Decimal(10)) - mantissa)
    )
    place = nearest + steps
    return rounded(R40[place % len(R40)].scaleb(decade + place // len(R40)), Decimal(1))
