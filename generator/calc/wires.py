"""Measurement of external threads over three wires: from pitch diameter to size over wires, and back.

Reading order: the simple form, the lead-angle form, the exact form, the choice between them (`over_wires`)
and the inverse. SI (m, rad). Which wire: `wire_choice`; two wires, one, a taper: `wires_few`.
"""

from __future__ import annotations

import math
from enum import StrEnum

from generator.calc.flanks import Flanks
from generator.calc.helicoid import rest
from generator.calc.thread_form import lead_angle
from generator.errors import OutsideRange
from generator.language.say import later, say
from generator.si import Length, degree, inch

SOURCE = later("NBS Handbook H28; ASME B1.2; Machinery's Handbook, 31st ed., p. 2127")
ASYMMETRIC = later("ASME B1.9; Machinery's Handbook (from memory)")
LEAD_TERM_FROM = 0.00015 * inch  # Machinery's Handbook, 31st ed., p. 2127; 0.004 mm in metric practice
EXACT_FROM = 5 * degree          # above, the lead-angle form is high by 0.0003 P and more
ITERATIONS, CLOSE = 50, 1e-13    # of the inverse; it gains about two digits a step


class Form(StrEnum):
    """The forms of the formula for the size over three wires."""

    SIMPLE = "simple"
    LEAD = "lead angle"
    EXACT = "exact"


def over_wires_simple(pitch_diameter: Length, wire: Length, pitch: Length, flanks: Flanks) -> Length:
    """Size over three wires, lead angle left out.

    M = E − P/(tan A + tan A1) + W [1 + cos((A1 − A)/2) / sin((A1 + A)/2)];
    alike: M = E + W (1 + 1/sin A) − (P/2) cot A;  60 degrees: M = E + 3 W − 0.866025 P

    Parameters
    ----------
    pitch_diameter : E (m)
    wire : W, as measured (m)
    pitch : P (m)
    flanks : A, A1

    Returns
    -------
    M (m)

    Notes
    -----
    For small lead angles; see `lead_correction`.

    Examples
    --------
    5/16-18, E = 0.2764 in, wire 0.035 in: 0.3333 in (Machinery's Handbook, 31st ed., p. 2130).
    Buttress, 7 and 45 degrees: M = E − 0.89064 P + 3.15689 W (ASME B1.9, from memory).

    >>> over_wires_simple(0.2764, 0.035, 1 / 18, Flanks.alike(math.radians(30)))
    0.3333
    >>> buttress = Flanks(math.radians(7), math.radians(45))
    >>> round(over_wires_simple(10, 0, 1, buttress), 5), round(over_wires_simple(10, 1, 0, buttress), 5)
    (9.10936, 13.15689)

    Source: NBS Handbook H28; ASME B1.2; ASME B1.9; Machinery's Handbook, 31st ed., p. 2127.
    """
    return pitch_diameter - pitch / flanks.tangents + wire * (1 + flanks.seat)


def lead_correction(pitch_diameter: Length, wire: Length, lead: Length, flanks: Flanks) -> Length:
    """What the lead angle adds to the size over three wires, by the lead-angle form.

    c = W (k' − k), with k = cos((A1 − A)/2) / sin((A1 + A)/2) and k' the same of the flanks as they lean
    square to the groove, tan A' = tan A cos B,  tan B = L / (π E)

    Parameters
    ----------
    pitch_diameter : E (m)
    wire : W (m)
    lead : L (m)
    flanks : A, A1

    Returns
    -------
    c (m)

    Notes
    -----
    To first order, where both lean alike, (W/2) tan² B cos A cot A. Taken into account above 0.00015 in.

    Examples
    --------
    1 1/4-7, basic E = 1.1572 in, best wire: under 0.00015 in.

    >>> sixty = Flanks.alike(math.radians(30))
    >>> lead_correction(1.1572 * inch, 0.0825 * inch, inch / 7, sixty) < LEAD_TERM_FROM
    True

    Source: Machinery's Handbook, 31st ed., p. 2127; NBS Handbook H28.
    """
    return wire * (flanks.across(lead_angle(lead, pitch_diameter)).seat - flanks.seat)


def over_wires_with_lead(
    pitch_diameter: Length, wire: Length, pitch: Length, lead: Length, flanks: Flanks
) -> Length:
    """Size over three wires with the lead angle.

    M = E − P/(tan A + tan A1) + W (1 + k'), k' as in `lead_correction`;
    alike: M = E + W [1 + (1/sin² A + cot² A tan² B)^(1/2)] − (P/2) cot A

    Parameters
    ----------
    pitch_diameter : E (m)
    wire : W (m)
    pitch : P (m)
    lead : L (m), in tan B = L / (π E)
    flanks : A, A1

    Returns
    -------
    M (m)

    Notes
    -----
    Lead angles up to about 5 degrees.

    Source: NBS Handbook H28; ASME B1.2; Machinery's Handbook, 31st ed., p. 2127.
    """
    simple = over_wires_simple(pitch_diameter, wire, pitch, flanks)
    return simple + lead_correction(pitch_diameter, wire, lead, flanks)


def over_wires_exact(
    pitch_diameter: Length, wire: Length, pitch: Length, lead: Length, flanks: Flanks
) -> Length:
    """Size over straight wires that rest on the true helical flanks: M = 2 R + W, R by `helicoid.rest`.

    Parameters
    ----------
    pitch_diameter : E (m)
    wire : W (m)
    pitch : P (m)
    lead : L (m)
    flanks : A, A1

    Returns
    -------
    M (m)

    Raises
    ------
    OutsideRange
        When the wire does not come to rest on both flanks.

    Notes
    -----
    Any lead angle at which the wire still seats.

    Source: geometry of the helicoid; compare Buckingham's table in Machinery's Handbook, 31st ed., p. 2136.
    """
    return 2 * rest(pitch_diameter, wire, pitch, lead, flanks) + wire


def follows(pitch_diameter: Length, wire: Length, lead: Length, flanks: Flanks) -> bool:
    """Whether both flanks curve away from a straight wire, so that it touches where a ball would.

    sin A > (W/E) tan² B, with the A of the flank that leans less

    Parameters
    ----------
    pitch_diameter : E (m)
    wire : W (m)
    lead : L (m), in tan B = L / (π E)
    flanks : A, A1

    Returns
    -------
    False for a flank of 0 degrees, and for one of 1 degree at lead angles over 15 degrees.

    Notes
    -----
    Over such a flank the wire lies on its two ends, and reads higher than `over_wires_exact` by 0.0006 P at
    a lead angle of 3 degrees, 0.002 P at 10 and 0.004 P at 18: found by lowering a wire onto it.

    Examples
    --------
    >>> upright = Flanks(0.0, math.radians(45))
    >>> follows(40.0, 3.3, 6.0, upright), follows(40.0, 3.3, 6.0, Flanks(math.radians(3), math.radians(30)))
    (False, True)

    Source: geometry of the helicoid.
    """
    tangent = math.tan(lead_angle(lead, pitch_diameter))
    return math.sin(min(flanks.load, flanks.clearance)) > wire / pitch_diameter * tangent**2


def form_of(pitch_diameter: Length, wire: Length, lead: Length, flanks: Flanks) -> Form:
    """The form that the lead angle asks for.

    Simple while the lead angle adds 0.00015 in at most; with the lead angle up to 5 degrees; exact above.

    Source: Machinery's Handbook, 31st ed., p. 2127; NBS Handbook H28.
    """
    if lead_angle(lead, pitch_diameter) > EXACT_FROM:
        return Form.EXACT
    adds = lead_correction(pitch_diameter, wire, lead, flanks)
    return Form.LEAD if adds > LEAD_TERM_FROM else Form.SIMPLE


def over_wires(pitch_diameter: Length, wire: Length, pitch: Length, lead: Length, flanks: Flanks) -> Length:
    """Size over three wires, in the form that the lead angle asks for (`form_of`).

    Without the lead angle ``M = E + W (1 + 1 ÷ sin A) − P ÷ (2 tan A)`` where both flanks lean alike.

    Parameters
    ----------
    pitch_diameter : E (m)
    wire : W (m)
    pitch : P (m)
    lead : L (m)
    flanks : A, A1

    Returns
    -------
    M (m)

    Raises
    ------
    OutsideRange
        As `over_wires_exact`.

    Notes
    -----
    Range: any lead angle.

    Examples
    --------
    7/16-16, E = 0.3969 in, wire 0.050 in: 0.4928 in (Machinery's Handbook, 31st ed., p. 2130).

    >>> over_wires(0.3969 * inch, 0.050 * inch, inch / 16, inch / 16, Flanks.alike(math.radians(30))) / inch
    0.4928

    Source: Machinery's Handbook, 31st ed., p. 2127; NBS Handbook H28; ASME B1.2.
    """
    form = form_of(pitch_diameter, wire, lead, flanks)
    return over_wires_by(form, pitch_diameter, wire, pitch, lead, flanks)


def over_wires_by(
    form: Form, diameter: Length, wire: Length, pitch: Length, lead: Length, flanks: Flanks
) -> Length:
    """Size over three wires by a form that was chosen before; as `over_wires` otherwise (m)."""
    if form is Form.SIMPLE:
        return over_wires_simple(diameter, wire, pitch, flanks)
    by = over_wires_exact if form is Form.EXACT else over_wires_with_lead
    return by(diameter, wire, pitch, lead, flanks)


def pitch_diameter_from_wires(
    over: Length, wire: Length, pitch: Length, lead: Length, flanks: Flanks
) -> Length:
    """Pitch diameter from a measured size over three wires; the inverse of `over_wires`.

    E = M + P/(tan A + tan A1) − W (1 + k), less what the lead angle adds where `over_wires` has it

    Parameters
    ----------
    over : M, as measured (m)
    wire : W (m)
    pitch : P (m)
    lead : L (m)
    flanks : A, A1

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

    >>> sixty = Flanks.alike(math.radians(30))
    >>> pitch_diameter_from_wires(0.3333 * inch, 0.035 * inch, inch / 18, inch / 18, sixty) / inch
    0.2764

    Source: Machinery's Handbook, 31st ed., p. 2127; NBS Handbook H28; ASME B1.2.
    """
    diameter = over - over_wires_simple(0.0, wire, pitch, flanks)
    if not diameter > 0:
        raise OutsideRange(say("size over wires"), over / inch, (over - diameter) / inch, None, SOURCE, "in")
    form = form_of(diameter, wire, lead, flanks)
    for _ in range(ITERATIONS):
        step = over - over_wires_by(form, diameter, wire, pitch, lead, flanks)
        diameter += step
        if abs(step) < CLOSE * over:
            break
    return diameter


