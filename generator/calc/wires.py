"""Measurement of external threads over wires: best and usable wire, size over wires and back.

Reading order: the wire; over three wires the simple form, the lead-angle form, the exact form, the choice
between them (`over_wires`) and the inverse; then two wires, one wire, three wires on a taper. SI (m, rad).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from enum import StrEnum

from generator.calc.flanks import Flanks
from generator.calc.guards import above_zero
from generator.calc.helicoid import rest
from generator.calc.taper import half_angle
from generator.calc.thread_form import lead_angle
from generator.errors import OutsideRange
from generator.si import Length, degree, inch

SOURCE = "NBS Handbook H28; ASME B1.2; Machinery's Handbook, 31st ed., p. 2127"
ASYMMETRIC = "ASME B1.9; Machinery's Handbook (from memory)"
TAPER_SOURCE = "NBS Handbook H28; Machinery's Handbook, 31st ed., p. 2138"
LEAD_TERM_FROM = 0.00015 * inch  # Machinery's Handbook, 31st ed., p. 2127; 0.004 mm in metric practice
EXACT_FROM = 5 * degree          # above, the lead-angle form is high by 0.0003 P and more
ADDENDUM = 0.32475953            # 3H/8 over the pitch, of 60 degrees: ASME B1.1, ISO 68-1
KEEP_OFF = 0.1                   # of the usable range, from its ends: common practice, no source
ITERATIONS, CLOSE = 50, 1e-13    # of the inverse; it gains about two digits a step


class Form(StrEnum):
    """The forms of the formula for the size over three wires."""

    SIMPLE = "simple"
    LEAD = "lead angle"
    EXACT = "exact"


def best_wire(pitch: Length, flanks: Flanks) -> Length:
    """Wire that touches the flanks at the pitch cylinder, or as near to it as one wire can on both.

    W = P / (2 cos A) where both lean alike; else
    W = P cos A (1 + cos² A1) / [(1 + cos A cos A1) (1 + cos(A + A1))]

    Parameters
    ----------
    pitch : P (m)
    flanks : A of the one that leans less, A1 of the other

    Returns
    -------
    W (m)

    Notes
    -----
    Range: flanks of which one leans at least. Where they differ, a wire that touches one at the pitch line
    touches the other above or below it; this one lies between the two. The second formula is ours: it gives
    the printed constant of the 7/45 degree buttress thread, of which the derivation was not to be had, and
    goes over into the first. The wire over which equal errors of both angles cancel is 0.0006 P smaller.

    Examples
    --------
    Acme, 8 threads per inch: 0.06456 in (Machinery's Handbook, 31st ed., p. 2135); buttress, 7 and 45
    degrees: 0.54147 P (ASME B1.9, from memory).

    >>> best_wire(1 / 8, Flanks.alike(math.radians(14.5)))
    0.06456
    >>> round(best_wire(1.0, Flanks(math.radians(7), math.radians(45))), 5)
    0.54147

    Source: NBS Handbook H28; ASME B1.2; Machinery's Handbook, 31st ed., p. 2135; ASME B1.9.
    """
    steep, flat = (math.cos(angle) for angle in sorted((flanks.load, flanks.clearance)))
    return pitch * steep * (1 + flat**2) / ((1 + steep * flat) * (1 + math.cos(flanks.included)))


def usable_wires(
    pitch: Length, flanks: Flanks, crest: float = ADDENDUM, root: float = math.inf, crest_radius: float = 0.0
) -> tuple[Length, Length]:
    """Smallest and largest wire that can be measured over; balls inside alike, with the bore's own crest.

    min: over the wires = over the crests, and clear of the root;  max: it touches a flank at the crest's edge

    W min = 2 (h + a) / (k + 1), not less than 2 (h − b) / (k − 1);
    W max = 2 (h + a − r (1 − sin A)) / (k − sin A), with the A of the flank that leans less,
    h = P / 2 (tan A + tan A1), k = cos((A − A1)/2) / sin((A + A1)/2)

    Parameters
    ----------
    pitch : P (m)
    flanks : A, A1
    crest : a, from the pitch line to the crest, over the pitch
    root : b, from the pitch line to the root, over the pitch; left out, there is room below the wire
    crest_radius : r, of a rounded crest, over the pitch

    Returns
    -------
    (W min, W max) (m); the first is not less than the other where no wire can be used.

    Notes
    -----
    Range: flanks of which one leans at least. A real crest is a little lower than the basic one, so both
    ends are to be kept away from.

    Examples
    --------
    Acme: 0.487263 P to 0.650013 P (Machinery's Handbook, 31st ed., p. 2135; addendum 0.25 P).

    >>> tuple(round(w, 4) for w in usable_wires(1.0, Flanks.alike(math.radians(14.5)), 0.25))
    (0.4873, 0.65)

    Source: geometry; Machinery's Handbook, 31st ed., p. 2135 for the check values.
    """
    sharp, seat, least = 0.5 / flanks.tangents, flanks.seat, math.sin(min(flanks.load, flanks.clearance))
    level = 2 * (sharp + crest) / (seat + 1)
    bottom = 2 * (sharp - root) / (seat - 1)
    edge = 2 * (sharp + crest - crest_radius * (1 - least)) / (seat - least)
    return max(level, bottom) * pitch, edge * pitch


def choose_wire(best: Length, available: Sequence[Length], usable: tuple[Length, Length]) -> Length | None:
    """The usable wire of a set that is nearest to the best wire (m), or None when none is usable.

    Source: common practice, no source.
    """
    fit = [wire for wire in available if usable[0] < wire < usable[1]]
    return min(fit, key=lambda wire: (abs(wire - best), wire), default=None)


def fitting(best: Length, usable: tuple[Length, Length]) -> Length:
    """The best wire where it is usable, else the usable one next to it, a tenth of the range inside (m).

    In a shallow groove, as of stub Acme threads, the best wire can lie on the root; in a deep one, as of
    sawtooth threads, below the crests.

    >>> round(fitting(0.5, (0.4, 0.7)), 3), round(fitting(0.5, (0.6, 0.8)), 3)
    (0.5, 0.62)

    Source: geometry; the tenth is common practice, no source.
    """
    smallest, largest = usable
    if smallest < best < largest:
        return best
    inside = KEEP_OFF * (largest - smallest)
    return smallest + inside if best <= smallest else largest - inside


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
        raise OutsideRange("size over wires", over / inch, (over - diameter) / inch, None, SOURCE, "in")
    form = form_of(diameter, wire, lead, flanks)
    for _ in range(ITERATIONS):
        step = over - over_wires_by(form, diameter, wire, pitch, lead, flanks)
        diameter += step
        if abs(step) < CLOSE * over:
            break
    return diameter


def over_two_wires(over: Length, wire: Length, pitch: Length, starts: int) -> Length:
    """Size over two wires, one on each side, by a micrometer that is rocked to its largest reading.

    M2 = W + [(M3 − W)² + (P/2)²]^(1/2) with an odd number of starts;  M2 = M3 with an even one

    Parameters
    ----------
    over : M3, the size over three wires (m)
    wire : W (m)
    pitch : P (m)
    starts : half a turn on, the nearest groove lies half a pitch off unless this is even

    Returns
    -------
    M2 (m)

    Raises
    ------
    OutsideRange
        Where M3 is not above W.

    Notes
    -----
    Range: above zero. The faces then stand square to the line through both wires, not to the thread's axis.

    Examples
    --------
    >>> over_two_wires(10.0, 1.0, 2.4, 1), over_two_wires(10.0, 1.0, 2.4, 2)
    (10.08, 10.0)

    Source: geometry; common practice, no source.
    """
    above_zero("size over wires less the wire", over - wire, "m")
    return wire + math.hypot(over - wire, pitch / 2 if starts % 2 else 0.0)


def over_one_wire(over: Length, crest: Length) -> Length:
    """Size over one wire and the crests opposite: M1 = (M3 + d) / 2.

    Parameters
    ----------
    over : M3, the size over three wires (m)
    crest : d, the crest diameter as measured at the same place (m)

    Returns
    -------
    M1 (m)

    Notes
    -----
    Range: crests round and true to the thread; half of what they run out, and of an error of d, is in it.

    Examples
    --------
    >>> over_one_wire(10.5, 10.0)
    10.25

    Source: geometry; common practice, no source.
    """
    return (over + crest) / 2


def over_wires_taper(
    pitch_diameter: Length, wire: Length, pitch: Length, flanks: Flanks, taper: float
) -> Length:
    """Size over three wires on a taper thread, of which the faces of the micrometer follow the taper.

    M = [E − P/(tan A + tan A1) + W (sec b + k)] / sec b,  tan b = taper / 2, k as in `lead_correction`;
    60 degrees, 1 in 16:  E = 1.00049 M − 3.00049 W + 0.86603 P

    Parameters
    ----------
    pitch_diameter : E, where the single wire lies (m)
    wire : W (m)
    pitch : P (m)
    flanks : A, A1, from the plane across the axis
    taper : on the diameter over the length

    Returns
    -------
    M (m)

    Notes
    -----
    Range: tapers up to 3/4 inch per foot, 1 in 16; lead angle left out, as the source does.

    Examples
    --------
    The constants of 60 degrees and 1 in 16:

    >>> over = over_wires_taper(1.0, 0.1, 0.125, Flanks.alike(math.radians(30)), 1 / 16)
    >>> round(1.00049 * over - 3.00049 * 0.1 + 0.86603 * 0.125, 5)
    1.0

    Source: NBS Handbook H28; Machinery's Handbook, 31st ed., p. 2138.
    """
    inclined = 1 / math.cos(half_angle(taper))
    return (pitch_diameter - pitch / flanks.tangents + wire * (inclined + flanks.seat)) / inclined
