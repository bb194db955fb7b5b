"""Which grades of tolerance ISO metric threads have at which pitch, and the usual classes (ISO 965-1)."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

# The finest pitch (mm) that has the grade: ISO 965-1; outside Machinery's Handbook, 31st ed., p. 2025,
# table 11; inside 27th ed., p. 1794, table 8, grade 8 from memory.
LEAST_PITCH_OUTSIDE = {7: Decimal("0.35"), 8: Decimal("0.8"), 9: Decimal("0.8")}
LEAST_PITCH_INSIDE = {5: Decimal("0.25"), 6: Decimal("0.3"), 7: Decimal("0.5"), 8: Decimal("0.8")}
SMALL_BELOW = Fraction(16, 10)  # mm; ISO 965-1: without a class 6g and 6H from M1.6 upwards, 6h and 5H below
FINEST_INSIDE = 4


def usual_class(nominal: Fraction, pitch: Fraction, inside: bool) -> str:
    """The class that is meant where none is written; inside the coarsest up to it that this pitch has.

    Parameters
    ----------
    nominal, pitch : diameter and pitch (mm)
    inside : the thread is in a bore

    Examples
    --------
    >>> usual_class(Fraction(10), Fraction(3, 2), False), usual_class(Fraction(7, 5), Fraction(3, 10), True)
    ('6g', '5H')

    Source: ISO 965-1, designation.
    """
    small = nominal < SMALL_BELOW
    if not inside:
        return "6h" if small else "6g"
    grade = 5 if small else 6
    while grade > FINEST_INSIDE and pitch < Fraction(LEAST_PITCH_INSIDE[grade]):
        grade -= 1
    return f"{grade}H"
