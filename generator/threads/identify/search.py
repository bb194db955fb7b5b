"""All families asked: which standard threads may be the one that was measured, nearest first.

    identify      the candidates, the twins, and the thread as measured
    same_thread   whether two designations name one thread

The many sizes are first compared by plain numbers; limits of size are worked out for the nearest only.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import cache

from generator.errors import BadDesignation, OutsideRange
from generator.language.spoken import once_a_language
from generator.si import Length, inch, mm
from generator.threads.designation import Designation
from generator.threads.identify.candidate import Candidate, judge
from generator.threads.identify.expected import CREST_USED, CREST_WORN, expected
from generator.threads.identify.measured import DIAMETERS, Measured, Name, Reading
from generator.threads.identify.special import Special, special
from generator.threads.identify.twins import NearMiss, Twin, near_misses, twins
from generator.threads.registry import (
    families,
    family_of,
    parse_designation,
    profile,
    write_designation,
)

COMPARED = 150   # sizes whose limits are worked out
MOST_STARTS = 8
# Where a diameter lies below the basic major one, in pitches, over all families (stub Acme to ISO saw-tooth).
BELOW: dict[Name, tuple[float, float]] = {
    "major": (0.25, 0.0), "pitch_diameter": (1.1, 0.2), "minor": (1.9, 0.4),
}
LARGER_INSIDE = 0.5  # of the pitch: how much larger a nut may be than the basic size, Acme and Tr
ALONG_TAPER = 0.8    # of the pitch: a taper thread away from the plane that its size is named at


@dataclass(frozen=True)
class Identification:
    """What a thread may be: candidates nearest first, twins of the nearest, and the thread as measured.

    `near_misses` are those that deceive, though a reading rules them out.
    """

    measured: Measured
    candidates: tuple[Candidate, ...]
    twins: tuple[Twin, ...]
    near_misses: tuple[NearMiss, ...]
    special: Special

    @property
    def fitting(self) -> tuple[Candidate, ...]:
        """The candidates that no reading speaks against."""
        return tuple(one for one in self.candidates if one.fits)


@dataclass(frozen=True)
class _Size:
    text: str
    major: Length
    pitch: Length
    common: bool
    slack: Length


@once_a_language  # a job asks again for every other lathe
def identify(measured: Measured, unit: str = "mm") -> Identification:
    """Candidates from all families for what was measured.

    Parameters
    ----------
    measured : the readings (SI); a diameter or a pitch at least
    unit : in, mm: what the special thread is written in

    Returns
    -------
    Identification; its candidates are all that were compared, nearest first

    Notes
    -----
    What is likely is the uncertainty of the reading, the limits of the standard, and wear.

    Examples
    --------
    >>> from generator.threads.identify.measured import reading
    >>> seen = Measured(major=reading("major", 0.0126), pitch_over_ten=reading("pitch_over_ten", 0.0195))
    >>> identify(seen).candidates[0].text
    '1/2-13 UNC-2A'

    Source: the standard of each family.
    """
    found = sorted(_grouped(_judged(measured)), key=_place)
    return Identification(
        measured, tuple(found), twins(found, measured), near_misses(found, measured), special(measured, unit)
    )


def same_thread(one: Designation, other: Designation) -> bool:
    """Whether two designations name a thread of one size, pitch, form, hand, starts and side.

    >>> same_thread(parse_designation("1/2-13 UNC-2A"), parse_designation("1/2-13 NC-2"))
    True
    >>> same_thread(parse_designation("3/8-16 UNC-2A"), parse_designation("3/8 BSW"))
    False

    Raises
    ------
    OutsideRange
        Where the standard of one gives no sizes.
    """
    return expected(one, False).kind == expected(other, False).kind


@cache
def _sizes() -> tuple[_Size, ...]:
    """The standard sizes of all families in SI, once in a process."""
    found = []
    for family in families():
        taper = None
        for size in family.sizes():
            if taper is None:
                taper = profile(_screw(size.designation)).taper > 0
            unit = inch if size.unit == "in" else mm
            pitch = size.pitch * unit
            slack = ALONG_TAPER * pitch if taper else 0.0
            found.append(_Size(size.designation, size.major * unit, pitch, size.common, slack))
    return tuple(found)


@cache
def _screw(text: str) -> Designation:
    return parse_designation(text)


def _plain(size: _Size, measured: Measured, pitch: Reading | None) -> float:
    """How far a size is by plain numbers, over the uncertainty of the readings."""
    far = 0.0
    if pitch is not None:
        far += abs(pitch.value - size.pitch) / pitch.within
    elif measured.lead is not None:
        starts = _starts(measured, size.pitch)
        far += abs(measured.lead.value - starts * size.pitch) / measured.lead.within
    wear = (CREST_WORN if measured.worn else CREST_USED) * size.pitch
    for name in DIAMETERS:
        one = getattr(measured, name)
        if one is None:
            continue
        most, least = (size.major - share * size.pitch for share in reversed(BELOW[name]))
        inside = LARGER_INSIDE * size.pitch if measured.inside else 0.0
        low, high = least - size.slack - wear, most + size.slack + inside + wear
        far += max(low - one.value, one.value - high, 0.0) / one.within
    return far + (0.0 if size.common else 0.5)


def _starts(measured: Measured, pitch: Length) -> int:
    """How many starts a thread of that pitch has, by what was counted or by the lead."""
    if measured.starts:
        return measured.starts
    if measured.lead is None:
        return 1
    return min(max(round(measured.lead.value / pitch), 1), MOST_STARTS)


def _judged(measured: Measured) -> Iterator[Candidate]:
    pitch = measured.best_pitch
    for size in sorted(_sizes(), key=lambda size: _plain(size, measured, pitch))[:COMPARED]:
        for d in _sides(_screw(size.text), measured):
            try:
                yield judge(_as_found(d, measured), measured, size.common)
            except (OutsideRange, BadDesignation):
                continue  # no such thread in that hand or with so many starts


def _sides(screw: Designation, measured: Measured) -> Iterable[Designation]:
    return family_of(screw).mates(screw) if measured.inside else (screw,)


def _as_found(d: Designation, measured: Measured) -> Designation:
    """The thread with the hand and the starts that were found, written as its standard writes it."""
    starts = _starts(measured, float(d.pitch) * d.unit_si)
    found = replace(d, hand=measured.hand, starts=starts, lead=starts * d.pitch)
    return found if found == d and d.text else replace(found, text=write_designation(found))


def _grouped(candidates: Iterable[Candidate]) -> Iterator[Candidate]:
    """One candidate for each thread: what other standards call the same goes beside it."""
    groups: dict[tuple[object, ...], list[Candidate]] = {}
    for one in candidates:
        groups.setdefault(one.expected.kind, []).append(one)
    for group in groups.values():
        first, *others = sorted(group, key=_standing)
        yield replace(first, also=tuple(other.text for other in others))


def _place(one: Candidate) -> tuple[object, ...]:
    """The order of the answer: what fits first, then what is nearest; of two as near what is met oftener."""
    return not one.fits, round(one.score, 1), -family_of(one.expected.designation).order, one.score, one.text


def _standing(one: Candidate) -> tuple[object, ...]:
    """Of one thread under several names: what fits first, then what is common, then what has most limits."""
    thread = one.expected
    unsaid = sum(thread.zone(name) is None for name in DIAMETERS)
    return not one.fits, not one.common, unsaid, -family_of(thread.designation).order
