"""What a standard thread measures: its limits, and what use takes off or adds to them.

A worn crest outside reads under and never over, a worn bore reads over; flanks wear the same way. A root does
not wear, but may be cut deeper than the basic form. How much is likely is common practice, no source: shares
of the pitch, on the diameter.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from generator.language.spoken import once_a_language
from generator.si import Angle, Length
from generator.threads.designation import Designation
from generator.threads.identify.measured import DIAMETERS, Name
from generator.threads.profile import Profile
from generator.threads.registry import limits, profile
from generator.threads.sizes import Range

CREST_USED, CREST_WORN = 0.05, 0.30
FLANK_USED, FLANK_WORN = 0.02, 0.15
ROOT_DEEPER = 0.05
# Where a standard gives no limit towards looseness: what such threads were usually made to.
OPEN: Final = {"crest": 0.15, "flank": 0.10, "root": 0.25}
TAPER_PITCHES = 12  # along a taper thread, as nobody says where it was measured (ASME B1.20.1: L4 of 1/2 in)
REACH_OF_WEAR = {
    "crest": (CREST_USED, CREST_WORN), "flank": (FLANK_USED, FLANK_WORN), "root": (ROOT_DEEPER, ROOT_DEEPER),
}


@dataclass(frozen=True)
class Zone:
    """Sizes that a thread may measure (m): `low` to `high` as made, and beyond that by use.

    `under` and `over` are how far a used thread may well read below and above.
    """

    low: Length
    high: Length
    under: Length = 0.0
    over: Length = 0.0

    def off(self, value: Length) -> Length:
        """How far a reading lies below (negative) or above the sizes as made; 0 between them.

        >>> Zone(9.0, 10.0).off(8.5), Zone(9.0, 10.0).off(9.2)
        (-0.5, 0.0)
        """
        return min(value - self.low, 0.0) or max(value - self.high, 0.0)


@dataclass(frozen=True)
class Expected:
    """One thread with what is to be expected of it (SI); a zone is None where its standard says nothing."""

    designation: Designation
    profile: Profile
    major: Zone | None
    pitch_diameter: Zone | None
    minor: Zone | None

    @property
    def pitch(self) -> Length:
        """Pitch (m)."""
        return float(self.designation.pitch) * self.designation.unit_si

    @property
    def lead(self) -> Length:
        """Lead (m)."""
        return float(self.designation.lead) * self.designation.unit_si

    @property
    def angle(self) -> Angle:
        """Angle between the flanks (rad)."""
        return self.profile.flanks.included

    @property
    def kind(self) -> tuple[object, ...]:
        """Size, pitch and form: threads that have all of it alike are one thread under several names."""
        flanks = self.profile.flanks
        height = 2 * self.profile.addendum
        bore = 0.0  # some old nuts were bored smaller than those that took their place
        if self.designation.internal and self.minor is not None:
            bore = (self.designation.nominal * self.designation.unit_si - self.minor.low) / self.pitch
        in_mm = Fraction(127, 5) if self.designation.unit == "in" else Fraction(1)
        return (
            round(self.designation.nominal * float(in_mm), 3), self.designation.pitch * in_mm,
            round(flanks.load, 3), round(flanks.clearance, 3), round(self.profile.taper, 4), round(height, 1),
            round(bore, 1), self.designation.starts, self.designation.hand, self.designation.side,
        )

    def zone(self, name: Name) -> Zone | None:
        """The zone of one of the three diameters."""
        return getattr(self, name) if name in DIAMETERS else None


@once_a_language
def expected(d: Designation, worn: bool) -> Expected:
    """What a thread may measure, new or used.

    Parameters
    ----------
    d : the thread
    worn : it is known to be worn, so that much more wear is likely

    Raises
    ------
    OutsideRange
        Where the standard's tables and formulas end.

    Notes
    -----
    A taper thread's limits stand at its end face; anywhere along it, it reads more (outside) or less (inside)
    by what it rises over 12 pitches.

    Examples
    --------
    1/2-13 UNC-2A is 0.4985 to 0.4876 in over the crests (ASME B1.1); worn it may well read 0.0231 in under:

    >>> from generator.threads.registry import parse_designation
    >>> major = expected(parse_designation("1/2-13 UNC-2A"), True).major
    >>> [round(size / 0.0254, 4) for size in (major.high, major.low, major.under)]
    [0.4985, 0.4876, 0.0231]

    Source: the standard of each family; shares of wear are common practice, no source.
    """
    form, of = profile(d), limits(d)
    rise = form.taper * TAPER_PITCHES * float(d.pitch)
    crest, root = (of.minor, of.major) if d.internal else (of.major, of.minor)
    zones = [
        _zone(d, size, part, rise, worn)
        for size, part in ((crest, "crest"), (of.pitch_diameter, "flank"), (root, "root"))
    ]
    first, middle, last = reversed(zones) if d.internal else zones
    return Expected(d, form, first, middle, last)


def _zone(d: Designation, size: Range, part: str, rise: float, worn: bool) -> Zone | None:
    unit, pitch = d.unit_si, float(d.pitch)
    tight, loose = (size.min, size.max) if d.internal else (size.max, size.min)
    if tight is None and loose is None:
        return None
    sign = 1 if d.internal else -1
    open_ = OPEN[part] * pitch * sign
    tight = loose - open_ if tight is None and loose is not None else tight
    assert tight is not None
    loose = tight + open_ if loose is None else loose
    low, high = sorted((tight, loose))
    use = REACH_OF_WEAR[part][worn] * pitch
    if d.internal:
        return Zone((low - rise) * unit, high * unit, 0.0, use * unit)
    return Zone(low * unit, (high + rise) * unit, use * unit, 0.0)
