"""Measurement of external threads over three wires: best and usable wire, size over wires and back.

Reading order: the wire, the simple form, the lead-angle term, the exact form above 5 degrees, the choice
between them (`over_wires`), the inverse. SI (m, rad).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import root

from generator.calc.thread_form import lead_angle
from generator.errors import OutsideRange
from generator.si import Angle, Length, degree, inch

SOURCE = "NBS Handbook H28; ASME B1.2; Machinery's Handbook, 31st ed., p. 2127"
LEAD_TERM_FROM = 0.00015 * inch  # Machinery's Handbook, 31st ed., p. 2127; 0.004 mm in metric practice
ADDENDUM = 0.32475953  # 3H/8 over the pitch, of 60 degrees: ASME B1.1, ISO 68-1
ITERATIONS, CLOSE = 50, 1e-13  # of the inverse; it gains about two digits a step
EXACT_FROM = 5 * degree  # above, the lead-angle form is high by 0.0003 P and more


def best_wire(pitch: Length, half_angle: Angle) -> Length:
    """Wire that touches the flanks at the pitch cylinder.

    W = P / (2 cos A)

    Parameters
    ----------
    pitch : P (m)
    half_angle : A (rad)

    Returns
    -------
    W (m)

    Notes
    -----
    No range given in the source.

    Examples
    --------
    Acme, 8 threads per inch: 0.06456 in (Machinery's Handbook, 31st ed., p. 2135).

    >>> best_wire(1 / 8, math.radians(14.5))
    0.06456

    Source: NBS Handbook H28; ASME B1.2; Machinery's Handbook, 31st ed., p. 2135.
    """
    return pitch / (2 * math.cos(half_angle))


def usable_wires(pitch: Length, half_angle: Angle, addendum: float = ADDENDUM) -> tuple[Length, Length]:
    """Smallest and largest wire that can be measured over.

    min: over the wires = over the crests;  max: the wire touches the flanks at the crest edge

    W min = (2 a P + P cot A / 2) / (1 + 1/sin A);   W max = (1/2 + 2 a tan A) P / cos A,
    with a P the addendum, from the pitch line to the crest

    Parameters
    ----------
    pitch : P (m)
    half_angle : A (rad)
    addendum : a, over pitch

    Returns
    -------
    (W min, W max) (m)

    Notes
    -----
    No range given in the source. A real crest is a little lower than the basic one, so both ends are
    to be kept away from.

    Examples
    --------
    Acme: 0.487263 P to 0.650013 P (Machinery's Handbook, 31st ed., p. 2135; addendum 0.25 P).

    >>> tuple(round(w, 4) for w in usable_wires(1.0, math.radians(14.5), 0.25))
    (0.4873, 0.65)

    Source: geometry; Machinery's Handbook, 31st ed., p. 2135 for the check values.
    """
    cot = 1 / math.tan(half_angle)
    smallest = (2 * addendum + cot / 2) * pitch / (1 + 1 / math.sin(half_angle))
    return smallest, (0.5 + 2 * addendum / cot) * pitch / math.cos(half_angle)


def choose_wire(
    best: Length, available: Sequence[Length], pitch: Length, half_angle: Angle, addendum: float = ADDENDUM
) -> Length | None:
    """The usable wire of a set that is nearest to the best wire (m), or None when none is usable.

    Source: common practice, no source.
    """
    smallest, largest = usable_wires(pitch, half_angle, addendum)
    usable = [wire for wire in available if smallest < wire < largest]
    return min(usable, key=lambda wire: (abs(wire - best), wire), default=None)


def over_wires_simple(pitch_diameter: Length, wire: Length, pitch: Length, half_angle: Angle) -> Length:
    """Size over three wires, lead angle left out.

    M = E + W (1 + 1/sin A) - (P/2) cot A;  for 60 degrees M = E + 3 W - 0.866025 P

    Parameters
    ----------
    pitch_diameter : E (m)
    wire : W, as measured (m)
    pitch : P (m)
    half_angle : A (rad)

    Returns
    -------
    M (m)

    Notes
    -----
    For small lead angles; see `lead_correction`.

    Examples
    --------
    5/16-18, E = 0.2764 in, wire 0.035 in: 0.3333 in (Machinery's Handbook, 31st ed., p. 2130).

    >>> over_wires_simple(0.2764, 0.035, 1 / 18, math.radians(30))
    0.3333

    Source: NBS Handbook H28; ASME B1.2; Machinery's Handbook, 31st ed., p. 2127.
    """
    return pitch_diameter + wire * (1 + 1 / math.sin(half_angle)) - pitch / 2 / math.tan(half_angle)


def lead_correction(
    pitch_diameter: Length, wire: Length, pitch: Length, lead: Length, half_angle: Angle
) -> Length:
    """First-order term that the lead angle adds to the size over wires.

    c = (W/2) tan^2 B cos A cot A,  tan B = L / (pi E)

    Parameters
    ----------
    pitch_diameter : E (m)
    wire : W (m)
    pitch : P (m); not used by the term, kept so that all wire functions are called alike
    lead : L (m)
    half_angle : A (rad)

    Returns
    -------
    c (m)

    Notes
    -----
    First order in tan^2 B. Taken into account above 0.00015 in.

    Examples
    --------
    1 1/4-7, basic E = 1.1572 in, best wire: under 0.00015 in.

    >>> lead_correction(1.1572 * inch, 0.0825 * inch, inch / 7, inch / 7, math.radians(30)) < LEAD_TERM_FROM
    True

    Source: Machinery's Handbook, 31st ed., p. 2127; NBS Handbook H28.
    """
    del pitch
    tangent = math.tan(lead_angle(lead, pitch_diameter))
    return wire / 2 * tangent**2 * math.cos(half_angle) / math.tan(half_angle)


def over_wires_with_lead(
    pitch_diameter: Length, wire: Length, pitch: Length, lead: Length, half_angle: Angle
) -> Length:
    """Size over three wires with the lead angle.

    M = E + W [1 + (1/sin^2 A + cot^2 A tan^2 B)^(1/2)] - (P/2) cot A

    Parameters
    ----------
    pitch_diameter : E (m)
    wire : W (m)
    pitch : P (m)
    lead : L (m), in tan B = L / (pi E)
    half_angle : A (rad)

    Returns
    -------
    M (m)

    Notes
    -----
    Lead angles up to about 5 degrees.

    Source: NBS Handbook H28; ASME B1.2; Machinery's Handbook, 31st ed., p. 2127.
    """
    tangent = math.tan(lead_angle(lead, pitch_diameter))
    cot = 1 / math.tan(half_angle)
    reach = math.sqrt(1 / math.sin(half_angle) ** 2 + (cot * tangent) ** 2)
    return pitch_diameter + wire * (1 + reach) - pitch / 2 * cot


def over_wires_exact(
    pitch_diameter: Length, wire: Length, pitch: Length, lead: Length, half_angle: Angle
) -> Length:
    """Size over straight wires that rest on the true helical flanks.

    Flank: z(r, t) = L t/2 pi + P/4 + (r - E/2) tan A. The wire's axis runs through (c, 0, 0) along
    (0, cos s, sin s). The least distance from axis to flank is W/2, and the wire turns to the s that makes c
    least; M = 2 c + W.

    Parameters
    ----------
    pitch_diameter : E (m)
    wire : W (m)
    pitch : P (m)
    lead : L (m)
    half_angle : A (rad)

    Returns
    -------
    M (m)

    Raises
    ------
    OutsideRange
        When the wire does not come to rest on both flanks.

    Notes
    -----
    Any lead angle at which the wire still seats; solved in units of E.

    Source: geometry of the helicoid; compare Buckingham's table in Machinery's Handbook, 31st ed., p. 2136.
    """
    size, p, turn = wire / pitch_diameter, pitch / pitch_diameter, lead / pitch_diameter / (2 * math.pi)
    slope = math.tan(half_angle)

    def conditions(unknown: NDArray[np.float64], /) -> NDArray[np.float64]:
        c, r, t, s = (float(value) for value in unknown)
        x, y, z = r * math.cos(t) - c, r * math.sin(t), turn * t + p / 4 + (r - 0.5) * slope
        along = y * math.cos(s) + z * math.sin(s)
        # d/dr, d/dt, d/ds of half the squared distance x^2 + y^2 + z^2 - along^2
        yr, zr = math.sin(t), slope
        yt, zt = r * math.cos(t), turn
        return np.array(
            [
                x * x + y * y + z * z - along * along - (size / 2) ** 2,
                x * math.cos(t) + y * yr + z * zr - along * (yr * math.cos(s) + zr * math.sin(s)),
                x * -r * math.sin(t) + y * yt + z * zt - along * (yt * math.cos(s) + zt * math.sin(s)),
                along * (z * math.cos(s) - y * math.sin(s)),
            ]
        )

    guess_c = (over_wires_with_lead(1.0, size, p, lead / pitch_diameter, half_angle) - size) / 2
    guess = [guess_c, guess_c - size / 2 * math.sin(half_angle), 0.01, math.atan(2 * turn)]
    found = root(conditions, guess, tol=1e-13)
    if not found.success or found.x[0] <= 0:
        low, high = usable_wires(pitch, half_angle)
        raise OutsideRange(
            "wire", wire / inch, low / inch, high / inch, "wires that seat on the flanks of this thread", "in"
        )
    return float(2 * found.x[0] + size) * pitch_diameter


def over_wires(
    pitch_diameter: Length, wire: Length, pitch: Length, lead: Length, half_angle: Angle
) -> Length:
    """Size over three wires, in the form that the lead angle asks for.

    Simple while the lead-angle term is up to 0.00015 in; with the lead angle up to 5 degrees; exact above.

    Parameters
    ----------
    pitch_diameter : E (m)
    wire : W (m)
    pitch : P (m)
    lead : L (m)
    half_angle : A (rad)

    Returns
    -------
    M (m)

    Raises
    ------
    OutsideRange
        As `over_wires_exact`.

    Notes
    -----
    Range as said above.

    Examples
    --------
    7/16-16, E = 0.3969 in, wire 0.050 in: 0.4928 in (Machinery's Handbook, 31st ed., p. 2130).

    >>> over_wires(0.3969 * inch, 0.050 * inch, inch / 16, inch / 16, math.radians(30)) / inch
    0.4928

    Source: Machinery's Handbook, 31st ed., p. 2127; NBS Handbook H28; ASME B1.2.
    """
    form = _form(pitch_diameter, wire, pitch, lead, half_angle)
    return form(pitch_diameter)


def pitch_diameter_from_wires(
    over: Length, wire: Length, pitch: Length, lead: Length, half_angle: Angle
) -> Length:
    """Pitch diameter from a measured size over three wires; the inverse of `over_wires`.

    E = M - W (1 + 1/sin A) + (P/2) cot A, less the lead-angle term where `over_wires` has it

    Parameters
    ----------
    over : M, as measured (m)
    wire : W (m)
    pitch : P (m)
    lead : L (m)
    half_angle : A (rad)

    Returns
    -------
    E (m)

    Raises
    ------
    OutsideRange
        When no pitch diameter above zero gives that size.

    Notes
    -----
    Range as in `over_wires`.

    Examples
    --------
    5/16-18 over 0.035 in wires reads 0.3333 in: E = 0.2764 in (Machinery's Handbook, 31st ed., p. 2130).

    >>> pitch_diameter_from_wires(0.3333 * inch, 0.035 * inch, inch / 18, inch / 18, math.radians(30)) / inch
    0.2764

    Source: Machinery's Handbook, 31st ed., p. 2127; NBS Handbook H28; ASME B1.2.
    """
    diameter = over - over_wires_simple(0.0, wire, pitch, half_angle)
    if not diameter > 0:
        raise OutsideRange("size over wires", over / inch, (over - diameter) / inch, None, SOURCE, "in")
    form = _form(diameter, wire, pitch, lead, half_angle)
    for _ in range(ITERATIONS):
        step = over - form(diameter)
        diameter += step
        if abs(step) < CLOSE * over:
            break
    return diameter


def _form(
    pitch_diameter: float, wire: float, pitch: float, lead: float, half_angle: float
) -> Callable[[float], float]:
    """The form of the formula that this lead angle asks for, as a function of the pitch diameter."""
    if lead_angle(lead, pitch_diameter) > EXACT_FROM:
        return lambda e: over_wires_exact(e, wire, pitch, lead, half_angle)
    if lead_correction(pitch_diameter, wire, pitch, lead, half_angle) > LEAD_TERM_FROM:
        return lambda e: over_wires_with_lead(e, wire, pitch, lead, half_angle)
    return lambda e: over_wires_simple(e, wire, pitch, half_angle)
