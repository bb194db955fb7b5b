"""The lead that is wanted, exactly; a worm's lead has pi in it, so no gears ever give it exactly.

    PI                 pi to fifty places
    WantedLead         a lead in mm: a fraction, or a fraction times pi
    lead_of_length     a lead written as a length
    lead_of_tpi        a lead from threads per inch
    lead_of_module     a worm's lead from its module
    lead_of_diametral_pitch
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.calc.gearing import INCH, decimal, mixed
from generator.calc.guards import above_zero
from generator.errors import OutsideRange
from generator.language.say import say

PI = Fraction("3.14159265358979323846264338327950288419716939937511")  # 50 places
SHORTEST, LONGEST = Fraction(1, 100), Fraction(10_000)  # mm; a lead outside these is a slip of the pen


@dataclass(frozen=True)
class WantedLead:
    """How far the thread goes in one turn.

    `rational` is mm; with `times_pi` the lead is that many times pi, which no fraction is, and then
    `is_exactly` is never true. `words` say it in the trade's terms.

    Raises
    ------
    OutsideRange
        When it is shorter or longer than any lathe cuts.
    """

    rational: Fraction
    words: str
    times_pi: bool = False

    def __post_init__(self) -> None:
        if not SHORTEST <= self.rational <= LONGEST:
            low, high = float(SHORTEST), float(LONGEST)
            source = say("what a lathe can cut")
            raise OutsideRange(say("lead"), float(self.rational), low, high, source, "mm")

    @property
    def length(self) -> Fraction:
        """The lead in mm; with pi to fifty places where pi is in it.

        Examples
        --------
        >>> float(lead_of_module(Fraction(1)).length)
        3.141592653589793
        """
        return self.rational * PI if self.times_pi else self.rational

    def is_exactly(self, lead: Fraction) -> bool:
        """True when a lead in mm is this one and no other.

        Examples
        --------
        >>> lead_of_tpi(Fraction(8)).is_exactly(Fraction("3.175"))
        True
        >>> lead_of_module(Fraction(1)).is_exactly(PI)
        False
        """
        return not self.times_pi and lead == self.rational

    def error(self, lead: Fraction) -> float:
        """How much longer a lead in mm is than this one, as a share of this one (1e-6 is 1 ppm).

        Examples
        --------
        22/7 taken for pi is 402.5 parts in a million too much (arithmetic):

        >>> round(lead_of_module(Fraction(1)).error(Fraction(22, 7)) * 1e6, 1)
        402.5
        """
        return float(lead / self.length - 1)


def lead_of_length(lead: Fraction, starts: int = 1, inch: bool = False) -> WantedLead:
    """A lead from the pitch as a length.

    Parameters
    ----------
    lead : pitch, mm, or inches with `inch`
    starts : number of starts; the lead is so many pitches
    inch : the pitch is in inches

    Raises
    ------
    OutsideRange
        When pitch or starts are not above zero.

    Examples
    --------
    >>> lead_of_length(Fraction(3, 2)).words, lead_of_length(Fraction(1, 8), 2, inch=True).rational
    ('1.5 mm', Fraction(127, 20))
    """
    words = f"{mixed(lead)} in" if inch else f"{decimal(lead)} mm"
    return WantedLead(lead * (INCH if inch else 1) * _starts(starts), words + _of_starts(starts))


def lead_of_tpi(tpi: Fraction, starts: int = 1) -> WantedLead:
    """A lead from the threads in one inch: ``starts × 25.4 mm ÷ threads``.

    Parameters
    ----------
    tpi : threads in one inch, exactly
    starts : of the thread

    Returns
    -------
    The lead, exact, with the words it is called by.

    Raises
    ------
    OutsideRange
        When threads or starts are not above zero.

    Notes
    -----
    Exact, in fractions. No range.

    Examples
    --------
    >>> lead_of_tpi(Fraction(8)).rational, lead_of_tpi(Fraction(23, 2)).words
    (Fraction(127, 40), '11 1/2 threads per inch')

    Source
    ------
    Arithmetic; the inch of 25.4 mm exactly.
    """
    above_zero(say("threads per inch"), float(tpi))
    words = say("{threads} threads per inch", threads=mixed(tpi)) + _of_starts(starts)
    return WantedLead(INCH / tpi * _starts(starts), words)


def lead_of_module(module: Fraction, starts: int = 1) -> WantedLead:
    """Lead of a worm: ``π × m × starts``.

    Parameters
    ----------
    module : axial module, mm
    starts : number of starts

    Raises
    ------
    OutsideRange
        When module or starts are not above zero.

    Notes
    -----
    No range given in the source.

    Examples
    --------
    >>> round(float(lead_of_module(Fraction(2), 2).length), 5), lead_of_module(Fraction(2), 2).words
    (12.56637, 'module 2, 2 starts')

    Source
    ------
    ISO 1122-2 (worm gears: axial pitch, module); from memory.
    """
    above_zero(say("module"), float(module))
    words = say("module {module}", module=decimal(module)) + _of_starts(starts)
    return WantedLead(module * _starts(starts), words, True)


def lead_of_diametral_pitch(diametral_pitch: Fraction, starts: int = 1) -> WantedLead:
    """Lead of a worm: ``π × 25.4 mm ÷ DP × starts``.

    Parameters
    ----------
    diametral_pitch : axial diametral pitch, teeth to one inch of pitch diameter
    starts : number of starts

    Raises
    ------
    OutsideRange
        When diametral pitch or starts are not above zero.

    Notes
    -----
    No range given in the source.

    Examples
    --------
    Circular pitch of 16 diametral pitch: 0.1963 in (circular pitch table, Machinery's Handbook, from memory)

    >>> round(float(lead_of_diametral_pitch(Fraction(16)).length / INCH), 4)
    0.1963

    Source
    ------
    Machinery's Handbook, Gearing, circular pitch = 3.1416 ÷ diametral pitch; from memory.
    """
    above_zero(say("diametral pitch"), float(diametral_pitch))
    words = say("{teeth} diametral pitch", teeth=mixed(diametral_pitch)) + _of_starts(starts)
    return WantedLead(INCH / diametral_pitch * _starts(starts), words, True)


def _starts(starts: int) -> int:
    above_zero(say("starts"), starts)
    return starts


def _of_starts(starts: int) -> str:
    return say(", {starts} starts", starts=starts) if starts != 1 else ""
