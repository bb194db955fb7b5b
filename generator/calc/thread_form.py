"""Geometry of a straight-flank thread and of the tool that cuts it.

Reading order: the fundamental triangle, flats of the basic profile, depth for the tool's own nose and its
inverse, widths and diameters of the groove, lead angle. Any consistent unit; SI (m, rad) by convention.
The groove of every such thread is half a pitch wide at the pitch cylinder (ISO 5408); all depths follow
from that, so they hold for flanks of any angle, alike or not. A square thread's groove is as wide at every
depth: its pitch diameter is taken halfway between crest and root. An internal thread is cut outwards from its
bore: the same formulas with the signs of the diameters exchanged.
"""

from __future__ import annotations

import math

from generator.calc.flanks import Flanks
from generator.calc.guards import above_zero
from generator.errors import OutsideRange
from generator.language.say import later, say
from generator.si import Angle, Length

GEOMETRY = later("geometry of the thread groove, half a pitch wide at the pitch cylinder (ISO 5408)")


def depth_for_flat(
    turned_diameter: Length,
    pitch_diameter: Length,
    pitch: Length,
    flanks: Flanks,
    nose_flat: Length,
    internal: bool = False,
) -> Length:
    """Radial depth from touch to reach a pitch diameter with a flat-nosed tool.

    h = (d_turned - d2)/2 + (P/2 - F) / (tan A + tan B);  internal: h = (D2 - D_bored)/2 + the same;
    square: h = d_turned - d2, internal D2 - D_bored

    Parameters
    ----------
    turned_diameter : diameter the thread is cut into, as measured (m)
    pitch_diameter : d2 wanted (m)
    pitch : P (m)
    flanks : both flanks (rad)
    nose_flat : F (m), from 0 (sharp) to less than P/2
    internal : the thread is cut outwards into a bore of `turned_diameter`

    Returns
    -------
    h (m), radial

    Raises
    ------
    OutsideRange
        When the flat is as wide as the groove at the pitch cylinder, or the depth comes out as nothing.

    Notes
    -----
    Range: 0 <= F < P/2.

    Examples
    --------
    On the basic major diameter a sharp 60 degree tool goes 7H/8 = 0.757772 P deep and a flat of P/4 goes
    5H/8 = 0.541266 P deep (ASME B1.1 profile).

    >>> SIXTY = Flanks.alike(math.radians(30))
    >>> depth_for_flat(10.0, 10.0 - 0.649519053, 1.0, SIXTY, 0.0)
    0.757772
    >>> depth_for_flat(10.0, 10.0 - 0.649519053, 1.0, SIXTY, 0.25)
    0.541266

    From the basic minor diameter a flat of P/8 goes outwards 5H/8 to the basic major diameter:

    >>> depth_for_flat(10.0 - 1.082531755, 10.0 - 0.649519053, 1.0, SIXTY, 0.125, internal=True)
    0.541266

    Source: geometry of the groove; ISO 68-1 and ASME B1.1 for the check values.
    """
    if flanks.square:
        below = _half_depth(turned_diameter, pitch_diameter, internal)
    else:
        below = _below_pitch_line(pitch, flanks, nose_flat, 0.0)
    return _depth(turned_diameter, pitch_diameter, below, internal)


def depth_for_radius(
    turned_diameter: Length,
    pitch_diameter: Length,
    pitch: Length,
    flanks: Flanks,
    nose_radius: Length,
    internal: bool = False,
) -> Length:
    """Radial depth from touch to reach a pitch diameter with a round-nosed tool.

    h = (d_turned - d2)/2 + P/2 / (tan A + tan B) - r (cos((A-B)/2) / sin((A+B)/2) - 1);
    internal: h = (D2 - D_bored)/2 + the same; flanks alike: P/(4 tan A) - r (1/sin A - 1)

    Parameters
    ----------
    turned_diameter : diameter the thread is cut into, as measured (m)
    pitch_diameter : d2 wanted (m)
    pitch : P (m)
    flanks : both flanks (rad)
    nose_radius : r (m), tangent to both flanks
    internal : the thread is cut outwards into a bore of `turned_diameter`

    Returns
    -------
    h (m), radial

    Raises
    ------
    OutsideRange
        When the nose is too round to leave straight flanks at the pitch cylinder.

    Notes
    -----
    Range: the straight flank must begin below the pitch cylinder, r cos A < P/4.

    Examples
    --------
    ISO 68-1, ISO 724: with the nominal root radius H/6 the depth is 17H/24 = 0.613435 P.

    >>> SIXTY = Flanks.alike(math.radians(30))
    >>> depth_for_radius(10.0, 10.0 - 0.649519053, 1.0, SIXTY, 0.866025404 / 6)
    0.613435

    Source: geometry of the groove; ISO 724 for the check value.
    """
    below = _below_pitch_line(pitch, flanks, 0.0, nose_radius)
    return _depth(turned_diameter, pitch_diameter, below, internal)


def pitch_diameter_at_depth(
    turned_diameter: Length,
    depth: Length,
    pitch: Length,
    flanks: Flanks,
    nose_flat: Length = 0.0,
    nose_radius: Length = 0.0,
    internal: bool = False,
) -> Length:
    """Pitch diameter that a tool leaves at a radial depth from touch; the inverse of both depths.

    d2 = d_turned - 2 (h - b);  internal: D2 = D_bored + 2 (h - b);
    b = (P/2 - F)/(tan A + tan B) or P/2/(tan A + tan B) - r (cos((A-B)/2)/sin((A+B)/2) - 1);
    square: d2 = d_turned - h, internal D_bored + h

    Parameters
    ----------
    turned_diameter : as measured (m)
    depth : h, radial, from touch (m)
    pitch : P (m)
    flanks : both flanks (rad)
    nose_flat : F (m); used when `nose_radius` is 0
    nose_radius : r (m); 0 means a flat nose
    internal : the thread is cut outwards into a bore of `turned_diameter`

    Returns
    -------
    d2 (m). Before the tool reaches the pitch cylinder it is larger than the turned diameter (internal:
    smaller than the bore); what a measurement over wires would then say is the same number.

    Raises
    ------
    OutsideRange
        As `depth_for_flat` and `depth_for_radius`.

    Notes
    -----
    Range as in `depth_for_flat` and `depth_for_radius`.

    Examples
    --------
    >>> SIXTY = Flanks.alike(math.radians(30))
    >>> pitch_diameter_at_depth(10.0, 0.613435, 1.0, SIXTY, nose_radius=0.866025404 / 6)
    9.350481

    Source: geometry of the groove; ISO 724 for the check value.
    """
    past = depth / 2 if flanks.square else depth - _below_pitch_line(pitch, flanks, nose_flat, nose_radius)
    return turned_diameter + 2 * past if internal else turned_diameter - 2 * past


def root_diameter(turned_diameter: Length, depth: Length, internal: bool = False) -> Length:
    """Diameter at the bottom of the groove.

    d_root = d_turned - 2 h;  internal: D_root = D_bored + 2 h

    Parameters
    ----------
    turned_diameter : as measured (m)
    depth : h, radial, from touch (m)
    internal : the thread is cut outwards into a bore of `turned_diameter`

    Returns
    -------
    d_root (m)

    Raises
    ------
    OutsideRange
        When nothing is left.

    Notes
    -----
    Range: above zero.

    Examples
    --------
    ISO 724 and ISO 68-1: M10 x 1.5 at 17H/24 = 0.920152 mm depth has d3 = 8.160 mm.

    >>> root_diameter(10.0, 0.920152)
    8.160

    Source: geometry.
    """
    root = turned_diameter + 2 * depth if internal else turned_diameter - 2 * depth
    if root <= 0:
        raise OutsideRange(say("root diameter"), root, 0.0, None, GEOMETRY)
    return root


def crest_flat(
    turned_diameter: Length, pitch_diameter: Length, pitch: Length, flanks: Flanks, internal: bool = False
) -> Length:
    """Axial width of the crest that is left at a pitch diameter; negative when two grooves meet under it.

    F = P/2 - (tan A + tan B) (d_turned - d2)/2;  internal: (D2 - D_bored)/2

    Parameters
    ----------
    turned_diameter : diameter the thread is cut into, as measured (m)
    pitch_diameter : d2 (m)
    pitch : P (m)
    flanks : both flanks (rad)
    internal : the thread is cut outwards into a bore of `turned_diameter`

    Returns
    -------
    F (m). Negative, the crest is sharp, -F / (tan A + tan B) under the turned surface.

    Notes
    -----
    Range: flanks that lean.

    Examples
    --------
    On the basic major diameter of ASME B1.1 and ISO 68-1 an eighth of the pitch is left, on the basic minor
    diameter of the nut a quarter.

    >>> SIXTY = Flanks.alike(math.radians(30))
    >>> round(crest_flat(10.0, 10.0 - 0.649519053, 1.0, SIXTY), 6)
    0.125
    >>> round(crest_flat(10.0 - 1.082531755, 10.0 - 0.649519053, 1.0, SIXTY, internal=True), 6)
    0.25

    Source: geometry of the groove; ASME B1.1, ISO 68-1 for the check values.
    """
    return pitch / 2 - flanks.tangents * _half_depth(turned_diameter, pitch_diameter, internal)


def lead_angle(lead: Length, pitch_diameter: Length) -> Angle:
    """Lead angle of the helix at the pitch diameter.

    tan B = L / (pi d2)

    Parameters
    ----------
    lead : L, advance in one turn, starts times pitch (m)
    pitch_diameter : d2 (m)

    Returns
    -------
    B (rad)

    Raises
    ------
    OutsideRange
        When either is not above zero.

    Notes
    -----
    No range given in the source.

    Examples
    --------
    1/4-32 UNEF, basic pitch diameter 0.2297 in: 2 degrees 29 minutes (Machinery's Handbook, 31st ed.,
    p. 1980).

    >>> math.degrees(lead_angle(1 / 32, 0.2297))
    2.48

    Source: ASME B1.7; Machinery's Handbook, 31st ed., p. 1980.
    """
    above_zero(say("lead"), lead)
    above_zero(say("pitch diameter"), pitch_diameter)
    return math.atan(lead / (math.pi * pitch_diameter))


def _below_pitch_line(pitch: float, flanks: Flanks, nose_flat: float, nose_radius: float) -> float:
    """How far the tool's end lies below the pitch cylinder when the groove there is half a pitch wide."""
    if not 0 < pitch < math.inf:
        raise OutsideRange(say("pitch"), pitch, 0.0, None, GEOMETRY)
    if flanks.square:
        raise OutsideRange(say("nose radius"), nose_radius, 0.0, 0.0, say("a square groove has a flat floor"))
    if nose_radius:
        largest = pitch / 2 / (flanks.tangents * (flanks.seat - math.sin(min(flanks.load, flanks.clearance))))
        if not 0 < nose_radius < largest:
            raise OutsideRange(say("nose radius"), nose_radius, 0.0, largest, GEOMETRY)
        return pitch / 2 / flanks.tangents - nose_radius * (flanks.seat - 1)
    if not 0 <= nose_flat < pitch / 2:
        raise OutsideRange(say("nose flat"), nose_flat, 0.0, pitch / 2, GEOMETRY)
    return (pitch / 2 - nose_flat) / flanks.tangents


def _half_depth(turned_diameter: float, pitch_diameter: float, internal: bool) -> float:
    """How far the pitch line lies under the turned surface."""
    return (pitch_diameter - turned_diameter if internal else turned_diameter - pitch_diameter) / 2


def _depth(turned_diameter: float, pitch_diameter: float, below: float, internal: bool) -> float:
    depth = _half_depth(turned_diameter, pitch_diameter, internal) + below
    if depth <= 0:
        raise OutsideRange(say("depth of thread"), depth, 0.0, None, GEOMETRY)
    return depth
