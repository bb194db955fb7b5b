"""Refusals that many formulas share: a value has to be above zero, or at least zero, and finite."""

from __future__ import annotations

import math

from generator.errors import OutsideRange
from generator.language.say import say


def above_zero(quantity: str, value: float, unit: str = "") -> None:
    """Refuse zero, less, and what is not finite.

    >>> above_zero("feed", 0.0, "m/rev")
    Traceback (most recent call last):
    generator.errors.OutsideRange: feed 0 m/rev is out of range: at least 0 m/rev (it has to be above zero)
    """
    if not (value > 0 and math.isfinite(value)):
        raise OutsideRange(quantity, value, 0.0, None, say("it has to be above zero"), unit)


def at_least_zero(quantity: str, value: float, unit: str = "") -> None:
    """Refuse less than zero, and what is not finite.

    >>> at_least_zero("stock", -1.0, "m")
    Traceback (most recent call last):
    generator.errors.OutsideRange: stock -1 m is out of range: at least 0 m (it cannot be below zero)
    """
    if not (value >= 0 and math.isfinite(value)):
        raise OutsideRange(quantity, value, 0.0, None, say("it cannot be below zero"), unit)
