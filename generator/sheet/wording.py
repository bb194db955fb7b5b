"""How a number stands in a sentence of a finding or a remark: rounded as the trade says it, both units."""

from __future__ import annotations

from generator.language.say import figure, later, say
from generator.sheet.figure import System
from generator.si import (
    Force,
    Length,
    Mass,
    MPa,
    Pressure,
    SpindleSpeed,
    Time,
    Torque,
    ft,
    inch,
    kN,
    lb,
    lbf,
    mm,
    psi,
    rev_per_min,
)

NOTHING = 1e-9  # in or mm: what a sum leaves of nothing
SHARES = {0.125: later("an eighth of the pitch"), 0.25: later("a quarter of the pitch")}


def length_words(value: Length, system: System) -> str:
    """A length, the job's unit first.

    >>> length_words(0.009525, "inch"), length_words(0.009525, "mm")
    ('0.375 in (9.53 mm)', '9.53 mm (0.375 in)')
    """
    in_inches, in_mm = _at_least(value / inch, 3, "in"), _at_least(value / mm, 2, "mm")
    return f"{in_inches} ({in_mm})" if system == "inch" else f"{in_mm} ({in_inches})"


def fine_words(value: Length, system: System, finer: int = 0) -> str:
    """A small length: deflections and tolerances, the job's unit first, `finer` by so many places.

    >>> fine_words(0.0001, "inch"), fine_words(0.0001, "mm")
    ('0.0039 in (0.100 mm)', '0.100 mm (0.0039 in)')
    >>> fine_words(0.0000013, "mm", 1)
    '0.0013 mm (0.00005 in)'
    >>> fine_words(0.0000008, "inch")
    'less than 0.0001 in (0.001 mm)'
    """
    in_inches, in_mm = _at_least(value / inch, 4 + finer, "in"), _at_least(value / mm, 3 + finer, "mm")
    return f"{in_inches} ({in_mm})" if system == "inch" else f"{in_mm} ({in_inches})"


def one_unit_words(value: Length, system: System) -> str:
    """A small length in one unit, where there is no room for both.

    >>> one_unit_words(0.00031, "inch"), one_unit_words(0.00031, "mm")
    ('0.0122 in', '0.310 mm')
    """
    return fine_words(value, system).partition(" (")[0]


def rule_words(value: Length, system: System) -> str:
    """A length as a rule or a tape shows it, the job's unit first.

    >>> rule_words(0.656968, "inch"), rule_words(0.656968, "mm")
    ('25.9 in (657 mm)', '657 mm (25.9 in)')
    """
    in_inches, in_mm = _at_least(value / inch, 1, "in"), _at_least(value / mm, 0, "mm")
    return f"{in_inches} ({in_mm})" if system == "inch" else f"{in_mm} ({in_inches})"


def mass_words(value: Mass, system: System) -> str:
    """A weight, the job's unit first.

    >>> mass_words(25.0, "inch"), mass_words(25.0, "mm")
    ('55 lb (25 kg)', '25 kg (55 lb)')
    """
    in_pounds, in_kg = _at_least(value / lb, 0, "lb"), _at_least(value, 0, "kg")
    return f"{in_pounds} ({in_kg})" if system == "inch" else f"{in_kg} ({in_pounds})"


def force_words(value: Force, system: System) -> str:
    """A force, the job's unit first.

    >>> force_words(12345.0, "inch"), force_words(678.0, "mm")
    ('2780 lbf (12.3 kN)', '678 N (152 lbf)')
    """
    in_pounds = f"{_three_figures(value / lbf)} lbf"
    in_newtons = f"{_three_figures(value / kN)} kN" if abs(value) >= kN else f"{_three_figures(value)} N"
    return f"{in_pounds} ({in_newtons})" if system == "inch" else f"{in_newtons} ({in_pounds})"


def torque_words(value: Torque, system: System) -> str:
    """A torque, the job's unit first.

    >>> torque_words(135.6, "inch"), torque_words(90.0, "mm")
    ('100 lbf ft (136 N m)', '90 N m (66.4 lbf ft)')
    """
    in_pounds, in_newtons = f"{_three_figures(value / (lbf * ft))} lbf ft", f"{_three_figures(value)} N m"
    return f"{in_pounds} ({in_newtons})" if system == "inch" else f"{in_newtons} ({in_pounds})"


def pressure_words(value: Pressure, system: System) -> str:
    """A pressure or stress, the job's unit first.

    >>> pressure_words(350e6, "inch"), pressure_words(350e6, "mm")
    ('50800 psi (350 MPa)', '350 MPa (50800 psi)')
    """
    in_psi, in_mpa = f"{_three_figures(value / psi)} psi", f"{_three_figures(value / MPa)} MPa"
    return f"{in_psi} ({in_mpa})" if system == "inch" else f"{in_mpa} ({in_psi})"


def rise_words(rise: float, system: System) -> str:
    """How much warmer something is (K), the job's unit first.

    >>> rise_words(10.0, "inch"), rise_words(20 * 5 / 9, "mm")
    ('18 °F (10 °C)', '11 °C (20 °F)')
    """
    in_fahrenheit, in_celsius = f"{rise * 9 / 5:.0f} °F", f"{rise:.0f} °C"
    return f"{in_fahrenheit} ({in_celsius})" if system == "inch" else f"{in_celsius} ({in_fahrenheit})"


def _at_least(value: float, places: int, unit: str) -> str:
    """A number to so many places; one that would show as nothing is less than the last of them.

    >>> _at_least(0.00003, 4, "in"), _at_least(0.0, 4, "in"), _at_least(-0.00003, 4, "in")
    ('less than 0.0001 in', '0.0000 in', '0.0000 in')
    """
    form = f".{places}f"
    if float(format(value, form)):
        return f"{figure(value, form)} {unit}"
    if value > NOTHING:
        return say("less than {least} {unit}", least=figure(10**-places, form), unit=unit)
    return f"{figure(0.0, form)} {unit}"


def _three_figures(value: float) -> str:
    return figure(float(f"{value:.3g}"), ".12g")


def pitch_share_words(share: float) -> str:
    """A share of the pitch, by its name where it has one.

    >>> pitch_share_words(0.125), pitch_share_words(0.37069)
    ('an eighth of the pitch', '0.3707 of the pitch')
    """
    return say(SHARES[share]) if share in SHARES else say("{share:.4g} of the pitch", share=share)


def rpm_words(speed: SpindleSpeed) -> str:
    """A spindle speed.

    >>> rpm_words(32 / 60)
    '32 rpm'
    >>> rpm_words(38437 / 60), rpm_words(105.19 / 60)
    ('38437 rpm', '105.2 rpm')
    """
    turns = speed / rev_per_min
    return say("{turns:.0f} rpm", turns=turns) if turns >= 1000 else say("{turns:.4g} rpm", turns=turns)


def seconds_words(time: Time) -> str:
    """A time to react in: rounded down, for it must not be promised longer than it is.

    >>> seconds_words(0.4999), seconds_words(5.625)
    ('0.49 s', '5.6 s')
    """
    places = 100 if time < 1 else 10
    return f"{figure(int(time * places + 1e-6) / places, 'g')} s"
