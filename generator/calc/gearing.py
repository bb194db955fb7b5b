"""Leads as fractions, because 25.4 is one, and how they stand on a gearbox plate.

    INCH               one inch in millimetres, exactly
    mixed              11 1/2, as it stands on a plate
    decimal            1.25, as it stands there too
"""

from __future__ import annotations

from fractions import Fraction

from generator.language.spoken import spoken

INCH = Fraction(127, 5)  # mm; the international inch of 1959


def mixed(value: Fraction) -> str:
    """A fraction as a machinist writes it.

    Parameters
    ----------
    value : not negative

    Returns
    -------
    Text such as "8", "11 1/2", "3/4".

    Examples
    --------
    >>> mixed(Fraction(23, 2)), mixed(Fraction(8)), mixed(Fraction(3, 4))
    ('11 1/2', '8', '3/4')
    """
    whole, rest = divmod(value.numerator, value.denominator)
    if not rest:
        return str(whole)
    return (f"{whole} " if whole else "") + f"{rest}/{value.denominator}"


def decimal(value: Fraction) -> str:
    """A lead in millimetres as it stands on a plate: a decimal where it ends, else a fraction.

    Examples
    --------
    >>> decimal(Fraction(5, 4)), decimal(Fraction(3)), decimal(Fraction(25, 7))
    ('1.25', '3', '3 4/7')
    """
    text = f"{float(value):.6f}".rstrip("0").rstrip(".")
    return spoken().figures(text) if Fraction(text) == value else mixed(value)
