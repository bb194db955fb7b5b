"""The tool that cuts one form of thread: its nose, the clearance of its sides, its angles, its height.

    nose_flat, nose_radius    the nose that leaves a wanted root at a wanted pitch diameter
    side_clearances           how far both sides of the tool must lean back under the edge, for the lead angle
    square_to_edge            the same angle as a protractor square to the edge shows it
    normal_angle              the flank as it is ground on a tool that is tilted to the lead angle
    unlike_angle              what a tilted tool that was not ground for it leaves in the axial section
    height_error              how far off center height the point may stand
    leading_side, flank_cut_by    which side of the tool leads, and which flank of the groove it cuts

The side that goes ahead is the *leading* one, the other the *trailing* one. The spindle turns forward and the
tool stands on the operator's side of the axis, outside and in a bore: the work comes down on it in both.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Literal

from generator.calc.flanks import Flanks
from generator.calc.guards import above_zero
from generator.calc.thread_form import lead_angle
from generator.errors import OutsideRange
from generator.language.say import later, say
from generator.si import Angle, Length

Side = Literal["headstock", "tailstock"]
SIDES: Final[dict[Side, str]] = {"headstock": later("headstock"), "tailstock": later("tailstock")}
Hand = Literal["right", "left"]
GEOMETRY = later("geometry of the groove")


@dataclass(frozen=True)
class Clearances:
    """Side clearances that a tool needs (rad); a trailing one below 0 may lean out that far."""

    leading: Angle
    trailing: Angle


def nose_flat(pitch: Length, flanks: Flanks, pitch_diameter: Length, root: Length) -> Length:
    """Flat at the nose that leaves this root at this pitch diameter.

    F = P/2 - (tan A + tan B) |d2 - root| / 2

    Parameters
    ----------
    pitch : P (m)
    flanks : A and B (rad), not square
    pitch_diameter : d2 or D2 (m)
    root : diameter at the bottom of the groove, under d2 outside and over D2 inside (m)

    Returns
    -------
    F (m); below 0 where even a sharp tool does not reach that root

    Raises
    ------
    OutsideRange
        For a square groove, which is as wide as its tool whatever its depth.

    Notes
    -----
    No range; both flanks straight.

    Examples
    --------
    Acme, 4 to the inch: between the basic pitch diameter and a root 0.020 in below the basic minor diameter
    the flat is 0.3707 P - 0.0052 in = 0.0875 in (Machinery's Data Sheets, 1910, Acme screw):

    >>> round(nose_flat(0.25, Flanks.alike(math.radians(14.5)), 1.375, 1.23), 4)
    0.0875

    Source: geometry of the groove, half a pitch wide at the pitch cylinder (ISO 5408).
    """
    _leaning(flanks)
    return pitch / 2 - flanks.tangents * abs(pitch_diameter - root) / 2


def nose_radius(pitch: Length, flanks: Flanks, pitch_diameter: Length, root: Length) -> Length:
    """Radius at the nose, tangent to both flanks, that leaves this root at this pitch diameter.

    r = (P / (2 (tan A + tan B)) - |d2 - root| / 2) / (seat - 1);  seat: see `Flanks.seat`

    Parameters
    ----------
    pitch : P (m)
    flanks : A and B (rad), not square
    pitch_diameter : d2 or D2 (m)
    root : diameter at the bottom of the groove (m)

    Returns
    -------
    r (m); below 0 where even a sharp tool does not reach that root

    Raises
    ------
    OutsideRange
        For a square groove.

    Notes
    -----
    No range; both flanks straight.

    Examples
    --------
    ISO 68-1: a root 17H/24 below the crest, from the pitch diameter H/3 down, is one of radius H/6:

    >>> height = 0.866025404
    >>> round(nose_radius(1.0, Flanks.alike(math.radians(30)), 10.0, 10.0 - 2 * height / 3) / height, 6)
    0.166667

    Source: geometry of a circle on both flanks; ISO 68-1 for the check value.
    """
    _leaning(flanks)
    return (pitch / 2 / flanks.tangents - abs(pitch_diameter - root) / 2) / (flanks.seat - 1)


def _leaning(flanks: Flanks) -> None:
    if flanks.square:
        raise OutsideRange(
            say("flank angle"), 0.0, 0.0, 90.0, say("a square groove is as wide as its tool"), "degrees"
        )


def side_clearances(
    lead: Length, small_diameter: Length, large_diameter: Length, working: Angle, tilt: Angle = 0.0
) -> Clearances:
    """How far the sides of the tool lean back below the edge, seen along the cross slide.

    leading: B(small) + working - tilt;  trailing: working - B(large) + tilt;  tan B(d) = L / (pi d)

    Parameters
    ----------
    lead : L, starts times pitch (m)
    small_diameter : of the groove: the root outside, the bore inside (m)
    large_diameter : the crest outside, the root inside (m)
    working : what is to stay free beside the flank, so that the tool cuts and does not rub (rad)
    tilt : how far the tool is turned about its own shank to the lead angle (rad); 0: its top lies level

    Returns
    -------
    Clearances (rad), in the vertical plane along the work

    Raises
    ------
    OutsideRange
        When a diameter or the lead is not above 0.

    Notes
    -----
    The groove leans most where it is smallest, least where it is largest; each side is ground for its worst
    place. A left-hand thread leads on the other side of the tool, and a thread in a bore on the same side as
    outside (see `leading_side`). No range is given in the source; the flanks' own angle is left out, which
    `square_to_edge` puts in.

    Examples
    --------
    A square thread of 1/2 in lead with a root of 1 1/2 in and a crest of 2 in leans 6.06 and 4.55 degrees:

    >>> found = side_clearances(0.5, 1.5, 2.0, math.radians(2))
    >>> [round(math.degrees(side), 2) for side in (found.leading, found.trailing)]
    [8.06, -2.55]

    Source: the angle of the tool's side is drawn from the circumference at the root and the lead: textbooks
    (such as Shop Practice, vol. 1, taps for square threads, in a web library); geometry.
    """
    above_zero(say("lead"), lead, "m")
    above_zero(say("small diameter"), small_diameter, "m")
    above_zero(say("large diameter"), large_diameter, "m")
    steep, flat = lead_angle(lead, small_diameter), lead_angle(lead, large_diameter)
    return Clearances(steep + working - tilt, working - flat + tilt)


def square_to_edge(clearance: Angle, flank: Angle) -> Angle:
    """A side clearance as it is ground, square to an edge that leans by the flank angle.

    tan C' = tan C cos A

    Parameters
    ----------
    clearance : C, in the vertical plane along the work (rad)
    flank : A, from the plane square to the axis (rad); 0 for a square thread

    Returns
    -------
    C' (rad)

    Notes
    -----
    No range is given in the source.

    Examples
    --------
    >>> round(math.degrees(square_to_edge(math.radians(6), math.radians(30))), 2)
    5.2

    Source: geometry of a plane through the edge.
    """
    return math.atan(math.tan(clearance) * math.cos(flank))


def normal_angle(flank: Angle, lead: Angle) -> Angle:
    """Half angle of a tool that stands square to the groove, for a flank measured along the axis.

    tan An = tan A cos B

    Parameters
    ----------
    flank : A, in the axial section (rad)
    lead : B, lead angle at the pitch diameter (rad)

    Returns
    -------
    An (rad)

    Notes
    -----
    No range; under 5 degrees of lead the difference is below a tenth of a degree.

    Examples
    --------
    Acme at 10 degrees: 14.5 becomes 14.29.

    >>> round(math.degrees(normal_angle(math.radians(14.5), math.radians(10))), 2)
    14.29

    Source: geometry; the relation between the normal and the axial pressure angle of worms.
    """
    return math.atan(math.tan(flank) * math.cos(lead))


def unlike_angle(flank: Angle, lead: Angle) -> Angle:
    """Half angle in the axial section that a tilted tool leaves, when it is ground to the axial angle.

    tan A' = tan A / cos B

    Parameters
    ----------
    flank : A, ground on the tool (rad)
    lead : B, how far the tool is tilted (rad)

    Returns
    -------
    A' (rad)

    Notes
    -----
    To the first order in the depth over the radius; no range is given.

    Examples
    --------
    >>> round(math.degrees(unlike_angle(math.radians(15), math.radians(10))), 2)
    15.22

    Source: geometry, the inverse of the normal section.
    """
    return math.atan(math.tan(flank) / math.cos(lead))


def height_error(crest: Length, root: Length, flank: Angle, allowed: Angle) -> Length:
    """How far above or below center height the point may stand until a flank is off by an angle.

    tan(A + allowed) / tan A = (sqrt(R^2 - e^2) - sqrt(r^2 - e^2)) / (R - r);  e^2 about 2 R r (ratio - 1)

    Parameters
    ----------
    crest, root : diameters of the groove's ends (m), not alike
    flank : A (rad), above 0
    allowed : change of the flank angle (rad)

    Returns
    -------
    e (m)

    Raises
    ------
    OutsideRange
        When a diameter is not above 0.

    Notes
    -----
    For e that is small beside the radii. A tool off center cuts the same axial form into a smaller or larger
    circle: the flanks come out flatter.

    Examples
    --------
    M6 x 1 to a tenth of a degree is cut within a quarter of a millimeter:

    >>> round(height_error(6.0, 4.77, math.radians(30), math.radians(0.1)), 2)
    0.24

    Source: geometry of a level tool beside the axis.
    """
    above_zero(say("crest diameter"), crest, "m")
    above_zero(say("root diameter"), root, "m")
    ratio = math.tan(flank + allowed) / math.tan(flank)
    return math.sqrt(crest * root / 2 * (ratio - 1))


def leading_side(hand: Hand) -> Side:
    """The side of the tool that goes ahead: towards the headstock for a right-hand thread.

    >>> leading_side("right"), leading_side("left")
    ('headstock', 'tailstock')

    Source: common practice; the spindle turns forward, the work comes down on the tool.
    """
    return "headstock" if hand == "right" else "tailstock"


def other_side(side: Side) -> Side:
    """The other end of the lathe.

    >>> other_side("headstock")
    'tailstock'
    """
    return "tailstock" if side == "headstock" else "headstock"


def flank_cut_by(side: Side) -> Side:
    """Where the flank looks that this side of the tool cuts: the groove's flanks look at each other.

    >>> flank_cut_by("headstock")
    'tailstock'

    Source: geometry.
    """
    return other_side(side)


def flank_of_side(flanks: Flanks, side: Side, load_faces: Side) -> Angle:
    """Angle of the flank that one side of the tool cuts (rad).

    Parameters
    ----------
    flanks : of the groove (rad)
    side : of the tool
    load_faces : the end of the lathe that the load flanks of this thread look at

    Returns
    -------
    Angle (rad)

    Examples
    --------
    A nut pushes the screw towards the headstock: the load flanks look towards the tailstock, and the
    headstock side of the tool, which leads in a right-hand thread, cuts them:

    >>> flanks = Flanks(math.radians(7), math.radians(45))
    >>> round(math.degrees(flank_of_side(flanks, "headstock", "tailstock")), 3)
    7.0

    Source: geometry.
    """
    return flanks.load if flank_cut_by(side) == load_faces else flanks.clearance
