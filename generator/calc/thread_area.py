"""What a thread has to carry a load with: area in tension, areas in shear, and the engagement that needs.

    stress_area_unified, stress_area_metric   of the screw in tension
    net_stress_area                           of a hollow screw
    screw_shear_area, nut_shear_area          of the threads, over a length of engagement
    strength_ratio                            which of the two shears first
    equal_strength_engagement                 the length at which the threads hold as long as the screw

Areas are geometric, on the sizes of the limits at which least is left. The load is taken as spread evenly
over the engaged threads; the first ones carry more. Any one unit of length; SI by convention.
"""

from __future__ import annotations

import math

from generator.calc.guards import above_zero
from generator.calc.sections import section_area
from generator.errors import OutsideRange
from generator.language.say import later, say
from generator.si import Area, Length

TAN_30 = math.tan(math.radians(30))  # half angle of Unified and metric threads
UNIFIED_DOWN = 0.9743                # pitches under the major diameter: the printed 0.9743 ÷ n
METRIC_PITCH_DOWN = 0.649519053      # 3 ÷ 8 √3: d − d2 in pitches, ISO 724
METRIC_ROOT_DOWN = 1.226869322       # 17 ÷ 24 √3: d − d3 in pitches, ISO 898-1 (d3 = d1 − H ÷ 6)
H28 = later("FED-STD-H28/2 and ASME B1.1, appendix, in Machinery's Handbook, 24th ed. on")


def stress_area_unified(nominal: Length, pitch: Length) -> Area:
    """Area of a Unified screw in tension: ``A_t = 0.7854 (D − 0.9743 P)²``.

    Parameters
    ----------
    nominal : D, basic major diameter, m
    pitch : P = 1 inch ÷ threads per inch, m

    Returns
    -------
    m².

    Raises
    ------
    OutsideRange
        When nothing is left inside the thread.

    Notes
    -----
    For steels up to 100 000 psi; for stronger ones the handbook takes the least pitch diameter instead, which
    gives a few hundredths less.

    Examples
    --------
    1/2-13 and 1-8, in²:

    >>> round(stress_area_unified(0.5, 1 / 13), 4), round(stress_area_unified(1.0, 1 / 8), 3)
    (0.1419, 0.606)

    Source
    ------
    Machinery's Handbook, 24th ed. on, Formulas for stress areas, (2a); ASME B1.1 appendix.
    """
    _check_core(nominal, pitch, UNIFIED_DOWN)
    return math.pi / 4 * (nominal - UNIFIED_DOWN * pitch) ** 2


def stress_area_metric(nominal: Length, pitch: Length) -> Area:
    """Area of an ISO metric screw in tension: ``A_s = π ÷ 4 ((d2 + d3) ÷ 2)²``.

    Parameters
    ----------
    nominal : d, basic major diameter, m; d2 = d − 0.649519 P, d3 = d − 1.226869 P
    pitch : P, m

    Returns
    -------
    m².

    Raises
    ------
    OutsideRange
        When nothing is left inside the thread.

    Notes
    -----
    No range given in the source.

    Examples
    --------
    M10 and M24, mm²:

    >>> round(stress_area_metric(10, 1.5), 1), round(stress_area_metric(24, 3))
    (58.0, 353)

    Source
    ------
    ISO 898-1, nominal stress area.
    """
    _check_core(nominal, pitch, METRIC_ROOT_DOWN)
    mean = nominal - (METRIC_PITCH_DOWN + METRIC_ROOT_DOWN) / 2 * pitch
    return math.pi / 4 * mean**2


def stress_area_mean(pitch_diameter: Length, minor_diameter: Length) -> Area:
    """Area of a screw of any other form in tension: ``A = π ÷ 4 ((d2 + d3) ÷ 2)²``.

    Parameters
    ----------
    pitch_diameter : d2, the least one, m
    minor_diameter : d3, the least one, m

    Returns
    -------
    m².

    Raises
    ------
    OutsideRange
        When one of them is not above zero.

    Notes
    -----
    No range given in the source.

    Examples
    --------
    The same rule on the basic sizes of M10 gives the printed 58.0 mm² (ISO 724, ISO 898-1):

    >>> round(stress_area_mean(9.026, 8.160), 1)
    58.0

    Source
    ------
    ASME B1.5, tensile stress area; the same rule gives ISO 898-1 its areas.
    """
    above_zero(say("pitch diameter"), pitch_diameter, "m")
    above_zero(say("minor diameter"), minor_diameter, "m")
    return math.pi / 4 * ((pitch_diameter + minor_diameter) / 2) ** 2


def net_stress_area(area: Area, bore: Length) -> Area:
    """Area in tension of a hollow screw: ``A − π ÷ 4 b²``.

    Parameters
    ----------
    area : A, of the same screw without a bore, m²
    bore : b, m

    Returns
    -------
    m².

    Raises
    ------
    OutsideRange
        When the bore leaves nothing.

    Notes
    -----
    Geometry on a formula that was found on solid screws; no range given in the source.

    Examples
    --------
    >>> round(net_stress_area(2.7, 1.125), 3)
    1.706

    Source
    ------
    Geometry.
    """
    return section_area(math.sqrt(4 / math.pi * area), bore)


def screw_shear_area(
    pitch: Length, engagement: Length, nut_minor_max: Length, screw_pitch_min: Length,
    slope: float = TAN_30,
) -> Area:
    """Area in which the screw's threads shear: ``A = π L ÷ P × K (P ÷ 2 + tan A (E − K))``.

    Parameters
    ----------
    pitch : P, m; of one thread, also where there are several starts
    engagement : L, m
    nut_minor_max : K, largest minor diameter of the nut, m
    screw_pitch_min : E, least pitch diameter of the screw, m
    slope : tan A, of the half angle; the mean of both flanks of a buttress thread

    Returns
    -------
    m².

    Raises
    ------
    OutsideRange
        When a length is not above zero, or the threads do not meet.

    Notes
    -----
    Printed for 60 degrees; of other angles by the same geometry. The threads shear on the cylinder of the
    nut's crests.

    Examples
    --------
    10 threads per inch, 0.75 in engaged, K 0.62, E 0.6388, in²:

    >>> round(screw_shear_area(0.1, 0.75, 0.62, 0.6388), 6)
    0.888983

    Source
    ------
    FED-STD-H28/2 and ASME B1.1, appendix; Machinery's Handbook, 24th ed. on.
    """
    above_zero(say("length of engagement"), engagement, "m")
    return engagement * _ring(pitch, nut_minor_max, slope * (screw_pitch_min - nut_minor_max))


def nut_shear_area(
    pitch: Length, engagement: Length, screw_major_min: Length, nut_pitch_max: Length,
    slope: float = TAN_30,
) -> Area:
    """Area in which the nut's threads shear: ``A = π L ÷ P × D (P ÷ 2 + tan A (D − E))``.

    Parameters
    ----------
    pitch : P, m; of one thread, also where there are several starts
    engagement : L, m
    screw_major_min : D, least major diameter of the screw, m
    nut_pitch_max : E, largest pitch diameter of the nut, m
    slope : tan A, of the half angle; the mean of both flanks of a buttress thread

    Returns
    -------
    m².

    Raises
    ------
    OutsideRange
        When a length is not above zero, or the threads do not meet.

    Notes
    -----
    Printed for 60 degrees; of other angles by the same geometry. The threads shear on the cylinder of the
    screw's crests.

    Examples
    --------
    On the basic sizes, 1 in of 1-8 (D 1, E 0.9188), in²:

    >>> round(nut_shear_area(0.125, 1.0, 1.0, 0.9188), 3)
    2.749

    Source
    ------
    FED-STD-H28/2 and ASME B1.1, appendix; Machinery's Handbook, 24th ed. on.
    """
    above_zero(say("length of engagement"), engagement, "m")
    return engagement * _ring(pitch, screw_major_min, slope * (screw_major_min - nut_pitch_max))


def strength_ratio(
    screw_area: Area, nut_area: Area, screw_strength: float = 1.0, nut_strength: float = 1.0
) -> float:
    """How much sooner the nut's threads shear than the screw's: ``J = A_s σ_s ÷ (A_n σ_n)``.

    Parameters
    ----------
    screw_area, nut_area : A_s, A_n, in shear over the same engagement, m²
    screw_strength, nut_strength : σ_s, σ_n, strengths of the two materials, in one unit

    Returns
    -------
    Above 1 the nut's threads shear first.

    Raises
    ------
    OutsideRange
        When one of them is not above zero.

    Notes
    -----
    The handbook takes tensile strengths; yield strengths serve while both materials are ductile.

    Examples
    --------
    >>> strength_ratio(1.0, 1.25, 400, 200)
    1.6

    Source
    ------
    FED-STD-H28/2; Machinery's Handbook, 24th ed. on, relative strength factor J.
    """
    for what, value in ((say("area in shear"), screw_area), (say("area in shear"), nut_area),
                        ("strength", screw_strength), ("strength", nut_strength)):
        above_zero(what, value)
    return screw_area * screw_strength / (nut_area * nut_strength)


def equal_strength_engagement(
    tensile_area: Area, screw_area: Area, engagement: Length, ratio: float = 1.0
) -> Length:
    """Engagement at which the threads shear no sooner than the screw pulls apart.

    L_e = 2 A_t ÷ (A_s ÷ L) × J, with J at least 1; with one material
    L_e = 2 A_t ÷ (π K (1 ÷ 2 + 0.57735 n (E − K)))

    Parameters
    ----------
    tensile_area : A_t, net of a bore, m²
    screw_area : A_s, in shear over `engagement`, m²
    engagement : L, m
    ratio : J of `strength_ratio`

    Returns
    -------
    L_e, m.

    Raises
    ------
    OutsideRange
        When one of them is not above zero.

    Notes
    -----
    The 2 takes the strength in shear as half that in tension, a little low and so to the safe side.

    Examples
    --------
    1/2-13 UNC-2A in a 2B nut: A_t 0.1419, K 0.434, E 0.4435, in:

    >>> round(equal_strength_engagement(0.1419, screw_shear_area(1 / 13, 1.0, 0.434, 0.4435), 1.0), 3)
    0.364

    Source
    ------
    FED-STD-H28/2; Machinery's Handbook, 24th ed. on, length of engagement, (1).
    """
    for what, value in ((say("area in tension"), tensile_area), (say("area in shear"), screw_area),
                        (say("length of engagement"), engagement), (say("ratio of strengths"), ratio)):
        above_zero(what, value)
    return 2 * tensile_area / (screw_area / engagement) * max(1.0, ratio)


def _ring(pitch: Length, diameter: Length, thicker: Length) -> Length:
    """Area in shear per length on a cylinder on which the thread is `thicker` than at the pitch line."""
    above_zero(say("pitch"), pitch, "m")
    above_zero(say("diameter"), diameter, "m")
    thick = pitch / 2 + thicker
    if thick <= 0:
        raise OutsideRange(
            say("thickness of the thread"), thick, 0.0, None, say("the threads do not meet"), "m"
        )
    return math.pi * diameter * thick / pitch


def _check_core(nominal: Length, pitch: Length, down: float) -> None:
    above_zero(say("pitch"), pitch, "m")
    if not nominal > down * pitch:
        raise OutsideRange(
            say("nominal diameter"), nominal, down * pitch, None, say("nothing is left inside it"), "m"
        )
