"""How far one thread is from what was measured, reading by reading."""

from __future__ import annotations

import math
from dataclasses import dataclass

from generator.si import inch
from generator.threads.designation import Designation
from generator.threads.identify.expected import Expected, expected
from generator.threads.identify.measured import TEN, Measured, Name, Reading

SELDOM = 1.0       # how much nearer a thread that is seldom met must be to stand first; so each guessed start
WITHIN_ZONE = 0.1  # weight of the place between the limits: it only orders threads that fit alike
WIDE_ZONE = 0.02   # weight of wide limits: what fits close ones says more


@dataclass(frozen=True)
class Distance:
    """One reading against one thread: SI, threads per inch for ``tpi``, a plain ratio for ``taper``.

    `low` to `high` are the sizes as made, `off` how far the reading lies outside them, with its sign, and
    `likely` how far it may well lie there: the uncertainty of the reading, and wear on the side of wear.
    """

    name: Name
    measured: float
    low: float
    high: float
    off: float
    likely: float
    within: float

    @property
    def share(self) -> float:
        """The distance over what is likely; up to 1 the reading fits."""
        return abs(self.off) / self.likely

    @property
    def fits(self) -> bool:
        """True where the reading is as near as is likely."""
        return self.share <= 1 + 1e-9

    @property
    def by_use(self) -> bool:
        """True where only wear explains the reading."""
        return self.fits and abs(self.off) > self.within


@dataclass(frozen=True)
class Candidate:
    """A thread that was compared, with the distance of every reading.

    `also` names threads of other standards that are the same in size, pitch and form. `guessed_starts` are
    those above one that nobody counted and no pitch shows.
    """

    expected: Expected
    distances: tuple[Distance, ...]
    common: bool = True
    guessed_starts: int = 0
    also: tuple[str, ...] = ()

    @property
    def text(self) -> str:
        """The designation."""
        return self.expected.designation.text

    @property
    def fits(self) -> bool:
        """True where no reading speaks against it."""
        return all(distance.fits for distance in self.distances)

    @property
    def score(self) -> float:
        """What orders the candidates, least first: all distances over what is likely, together."""
        far = math.hypot(*(distance.share for distance in self.distances))
        return far + sum(map(_place, self.distances)) + SELDOM * (self.guessed_starts + (not self.common))


def _place(distance: Distance) -> float:
    """How far a reading that fits lies from the middle of what is likely, and how wide that is; small."""
    zone = distance.high - distance.low
    from_middle = abs(distance.measured - (distance.low + distance.high) / 2) / (zone / 2 + distance.likely)
    return WITHIN_ZONE * min(from_middle, 1.0) + WIDE_ZONE * math.log1p(zone / distance.within)


def judge(d: Designation, measured: Measured, common: bool = True) -> Candidate:
    """One thread against all readings.

    Parameters
    ----------
    d : the thread, on the side that was measured
    measured : the readings (SI)
    common : a shop meets it often

    Raises
    ------
    OutsideRange
        Where the thread's standard gives no sizes.

    Examples
    --------
    12.6 mm and 19.5 mm over ten pitches fit 1/2-13 UNC; ten pitches of 1/2-12 BSW are 1.7 mm longer:

    >>> from generator.threads.identify.measured import reading
    >>> from generator.threads.registry import parse_designation
    >>> seen = Measured(major=reading("major", 0.0126), pitch_over_ten=reading("pitch_over_ten", 0.0195))
    >>> judge(parse_designation("1/2-13 UNC-2A"), seen).fits
    True
    >>> bsw = judge(parse_designation("1/2-12 BSW"), seen)
    >>> [(one.name, round(one.off * 1000, 2)) for one in bsw.distances]
    [('major', 0.0), ('pitch_over_ten', -1.67)]

    Source: the standards for the sizes; what is likely is common practice, no source.
    """
    thread = expected(d, measured.worn)
    found = (_distance(thread, name, one) for name, one in measured.readings())
    counted = measured.starts is not None or measured.best_pitch is not None
    return Candidate(
        thread, tuple(one for one in found if one is not None), common, 0 if counted else d.starts - 1
    )


def _distance(thread: Expected, name: Name, one: Reading) -> Distance | None:
    if (zone := thread.zone(name)) is not None:
        off = zone.off(one.value)
        likely = one.within + (zone.under if off < 0 else zone.over)
        return Distance(name, one.value, zone.low, zone.high, off, likely, one.within)
    wanted = _exact(thread, name)
    if wanted is None:
        return None
    return Distance(name, one.value, wanted, wanted, one.value - wanted, one.within, one.within)


def _exact(thread: Expected, name: Name) -> float | None:
    match name:
        case "pitch":
            return thread.pitch
        case "pitch_over_ten":
            return TEN * thread.pitch
        case "tpi":
            return inch / thread.pitch
        case "lead":
            return thread.lead
        case "angle":
            return thread.angle
        case "taper":
            return thread.profile.taper
        case _:
            return None
