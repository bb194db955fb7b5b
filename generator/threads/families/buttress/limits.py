"""Limits of size of buttress threads, outside and inside: classes 2, 3 and the older 1 (ASME B1.9)."""

from __future__ import annotations

from decimal import Decimal

from generator.language.say import say
from generator.threads.designation import Designation
from generator.threads.families.buttress.series import preferred_pitches, range_of
from generator.threads.families.buttress.working import size_lines
from generator.threads.rounding import EIGHT, FOUR, SIX, decimal, rounded
from generator.threads.sizes import Range, ThreadLimits, too_coarse

SOURCE = "ASME B1.9"
HEIGHT = Decimal("0.6")                # basic height of engagement over P
MINOR_FACTOR = Decimal("1.32542")      # external minor below the major diameter, over P
MAJOR_FACTOR = Decimal("0.12542")      # internal major above the basic one, over P
DEEPEST_ROOT = Decimal("0.80803")      # least root truncation: root past the pitch diameter, over P
CLASS_FACTOR = {"1": Decimal("1.5"), "2": Decimal(1), "3": Decimal(2) / Decimal(3)}
FIVE = Decimal("0.00001")
THIRD = Decimal(1) / Decimal(3)
PITCHES_OF_ENGAGEMENT = 10


def tolerance_class_2(diameter: Decimal, pitch: Decimal, engagement: Decimal | None = None) -> Decimal:
    """Pitch diameter tolerance of class 2, the base of all classes.

    T = 0.002 D^(1/3) + 0.00278 LE^(1/2) + 0.00854 P^(1/2);  for LE = 10 P: 0.002 D^(1/3) + 0.0173 P^(1/2)

    Parameters
    ----------
    diameter : D, basic major diameter, for the table's ranges their mean (in)
    pitch : P (in)
    engagement : LE (in); None for ten pitches

    Returns
    -------
    T (in), five places.

    Notes
    -----
    Range: the table stands from 0.5 to 24 in and 20 to 1 threads per inch.

    Examples
    --------
    10 threads per inch, over 1.5 to 2.5 in (Machinery's Handbook, 27th ed., p. 1854, table 4: 0.0080):

    >>> tolerance_class_2(Decimal(2), Decimal("0.1"))
    Decimal('0.00799')

    Source: ASME B1.9, pitch diameter tolerances.
    """
    by_diameter = rounded(Decimal("0.002") * diameter**THIRD, FIVE)
    if engagement is None:
        return by_diameter + rounded(Decimal("0.0173") * pitch.sqrt(), FIVE)
    return by_diameter + rounded(
        Decimal("0.00278") * engagement.sqrt() + Decimal("0.00854") * pitch.sqrt(), FIVE
    )


def buttress_limits(d: Designation, engagement: float | None = None) -> ThreadLimits:
    """Limits of size of a buttress thread.

    G = T of class 3
    outside: major D - G, pitch D - 0.6 P - G, minor max D - 1.32542 P - G, min pitch min - 0.80803 P
    inside: minor D - 1.2 P, pitch D - 0.6 P, major min D + 0.12542 P, max pitch max + 0.80803 P

    Parameters
    ----------
    d : a buttress thread
    engagement : LE (in), or None for ten pitches

    Returns
    -------
    ThreadLimits (in), four places.

    Raises
    ------
    OutsideRange
        For a pitch so coarse that no core is left.

    Notes
    -----
    Range: the formulas; a remark says where the standard's table ends.

    Source: ASME B1.9; Machinery's Handbook, 27th ed., pp. 1853-1855, tables 3 to 5.
    """
    size = rounded(Decimal(str(d.nominal)), FOUR)
    pitch = rounded(decimal(d.pitch), EIGHT)
    ten = PITCHES_OF_ENGAGEMENT * pitch
    used = ten if engagement is None else rounded(Decimal(str(engagement)), SIX)
    standard = used == rounded(ten, SIX) or used == ten
    ends = range_of(size)
    mean = size if ends is None else (ends[0] + ends[1]) / 2
    base = tolerance_class_2(mean, pitch, None if standard else used)
    tolerance = rounded(base * CLASS_FACTOR[d.class_[0]], FOUR)
    allowance = rounded(base * CLASS_FACTOR["3"], FOUR)
    if size - MINOR_FACTOR * pitch - allowance - tolerance <= 0:
        raise too_coarse(d, size - MINOR_FACTOR * pitch)
    if d.internal:
        effective = rounded(size - HEIGHT * pitch, FOUR)
        bore = rounded(size - 2 * HEIGHT * pitch, FOUR)
        major = Range(
            float(rounded(effective + tolerance + DEEPEST_ROOT * pitch, FOUR)),
            float(rounded(size + MAJOR_FACTOR * pitch, FOUR)),
        )
        minor = Range(float(bore + tolerance), float(bore))
        pitch_diameter = Range(float(effective + tolerance), float(effective))
    else:
        crest = size - allowance
        effective = rounded(size - HEIGHT * pitch, FOUR) - allowance
        major = Range(float(crest), float(crest - tolerance))
        minor = Range(
            float(rounded(size - MINOR_FACTOR * pitch - allowance, FOUR)),
            float(rounded(effective - tolerance - DEEPEST_ROOT * pitch, FOUR)),
        )
        pitch_diameter = Range(float(effective), float(effective - tolerance))
    tabulated = 1 / d.pitch in preferred_pitches(size)
    sizes = ThreadLimits(
        designation=d, major=major, pitch_diameter=pitch_diameter, minor=minor,
        allowance=0.0 if d.internal else float(allowance),
        major_tolerance=None if d.internal else float(tolerance), pitch_tolerance=float(tolerance),
        minor_tolerance=float(tolerance) if d.internal else None, engagement=float(used),
        engagement_standard=standard, tabulated=tabulated, remarks=tuple(_remarks(d, ends is None)),
        source=SOURCE, from_memory=(say("tolerances of class 1"),) if d.class_[0] == "1" else (),
    )
    return size_lines(sizes, float(mean), float(allowance))


def _remarks(d: Designation, outside_table: bool) -> list[str]:
    """Which flank carries the load and which way it faces, and what is special."""
    said = [
        say(
            "The 7 degree flank carries the load. This is a pull type thread (the screw pulls): as the "
            "screw goes into its nut its 45 degree flank leads and its 7 degree flank follows. Hold the "
            "tool against a sketch of the part before the first cut: the wrong way around it makes scrap."
        )
        if d.series == "BUTT"
        else say(
            "The 7 degree flank carries the load. This is a push type thread (the screw pushes): as the "
            "screw goes into its nut its 7 degree flank leads and its 45 degree flank follows. Hold the "
            "tool against a sketch of the part before the first cut: the wrong way around it makes scrap."
        ),
    ]
    if outside_table:
        said.append(
            say("Beyond the table of ASME B1.9 (0.5 to 24 in) the tolerance comes from the formula alone.")
        )
    if d.starts > 1:
        said.append(
            say(
                "The limits are those of a single-start thread; check a multiple-start thread with ASME "
                "B1.9."
            )
        )
    if d.class_[0] == "1":
        said.append(
            say(
                "Class 1 (free) stood in the standard of 1953 only; its tolerance is 1.5 times that of "
                "class 2."
            )
        )
    return said
