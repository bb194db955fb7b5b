"""Leads and leadscrews in millimetres as fractions, exactly as the files have them."""

from __future__ import annotations

from fractions import Fraction

from generator.calc import gearing
from generator.job.lathe import Lathe
from generator.job.written import Given
from generator.language.spoken import spoken
from generator.sheet.plans import ThreadPlan

PER_MM = {"mm": Fraction(1), "in": gearing.INCH}


def exact_lead(thread: ThreadPlan) -> Fraction:
    """Lead of the thread in mm, exactly."""
    return thread.designation.lead * PER_MM[thread.designation.unit]


def exact_mm(given: Given) -> Fraction:
    """A length of a lathe record in mm, exactly as it was written."""
    if given.unit in PER_MM:
        return given.exact * PER_MM[given.unit]
    return Fraction(given.si * 1000).limit_denominator(10**6)


def leadscrew_lead(lathe: Lathe) -> Fraction | None:
    """Lead of the leadscrew in mm."""
    screw = lathe.leadscrew
    if screw is not None and screw.tpi is not None:
        return gearing.INCH / screw.tpi.exact
    if screw is not None and screw.pitch is not None:
        return exact_mm(screw.pitch)
    return None


def lead_words(lead: Fraction) -> str:
    """A length as a leadscrew has it: 1/8 in, or 3 mm."""
    in_inches = lead / gearing.INCH
    of_inches = in_inches.denominator % 127 and in_inches.numerator % 127
    return f"{gearing.mixed(in_inches)} in" if of_inches else f"{decimal_words(lead)} mm"


def decimal_words(lead: Fraction) -> str:
    """A lead in millimetres as it stands on a plate, with the decimal sign of the language.

    >>> decimal_words(Fraction(5, 4))
    '1.25'
    """
    return spoken().figures(gearing.decimal(lead))
