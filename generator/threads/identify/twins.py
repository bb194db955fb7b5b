"""Threads that the measurements cannot tell apart, and the one further measurement that would.

Nothing here is a list of known pairs: what two threads are expected to measure is compared, kind by kind, in
the order in which a shop gets at it.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from generator.si import Length, mm
from generator.threads.identify.candidate import Candidate, Distance
from generator.threads.identify.expected import Expected, Zone, expected
from generator.threads.identify.measured import DIAMETERS, TEN, Measured, Name

Kind = Literal["starts", "pitch", "taper", "angle", "flanks", "crest", "nothing"] | Name
Pair = tuple[tuple[float, float], tuple[float, float]]
NOTHING = 1e-9                     # m
MOST_TWINS = 8
# What a shop can tell apart: common practice, no source.
CRESTS_READ_TO = 0.1 * mm          # the distance over several pitches
LEAF_TELLS = math.radians(4)       # a wrong leaf rocks or shows light: 55 from 60, not 29 from 30
TAPER_TELLS = 0.03
LONGEST = 120 * mm                 # of thread, to count pitches along
MOST_PITCHES = 40
CALIPER_TELLS = 0.1 * mm           # between the sizes of two threads
MICROMETER_TELLS = 0.01 * mm
FLAT_TELLS = 0.08                  # of the pitch: a crest that is sharp, round or flat
TAPER_OVER = 6                     # threads: the shortest taper thread has them (1/8: ISO 7-1, ASME B1.20.1)
# How near a thread must be to deceive whoever takes a reading amiss: common practice, no source.
NEAR_PITCH, NEAR_ANGLE = 0.11, math.radians(6)  # of the pitch; rad
MOST_MISSES = 3


@dataclass(frozen=True)
class Telling:
    """A measurement that tells two threads apart, with what each of them is expected to show.

    `shows` is (low, high) of either, SI or a plain number; of a pitch over `count` pitches; of a taper the
    ratio, to be measured over `count` threads; of flanks the two angles; of a crest its flat's width and its
    radius. `read_to` is how well it must be read, either way; `again` says that it was read once already, not
    well enough.
    """

    kind: Kind
    shows: Pair
    read_to: float = 0.0
    count: int = 1
    again: bool = False


@dataclass(frozen=True)
class Twin:
    """Two candidates that both fit, and what would tell them apart."""

    first: Candidate
    second: Candidate
    telling: Telling


@dataclass(frozen=True)
class NearMiss:
    """A thread of that size which pitch or form rules out, and not by far: the one that deceives.

    `against` is the reading that rules it out best, `alone` that it is the only one. `if_worn` says that it
    is a diameter, which wear would explain though nobody called the thread worn.
    """

    first: Candidate
    second: Candidate
    against: Distance
    alone: bool = True
    if_worn: bool = False


def twins(candidates: Sequence[Candidate], measured: Measured) -> tuple[Twin, ...]:
    """The nearest candidate with each other one that fits as well, nearest first.

    Others that look alike to the measurement which tells them from the nearest are told apart after it.

    Parameters
    ----------
    candidates : nearest first, those that fit in front
    measured : what was measured

    Source: geometry of the threads; what a shop can tell apart is common practice, no source.
    """
    fitting = [one for one in candidates if one.fits][: MOST_TWINS + 1]
    return tuple(_told_apart(fitting, measured))


def _told_apart(group: Sequence[Candidate], measured: Measured) -> Iterator[Twin]:
    found = [Twin(group[0], one, telling(group[0].expected, one.expected, measured)) for one in group[1:]]
    yield from found
    alike: list[list[Twin]] = []
    for twin in found:
        same = next((others for others in alike if _look_alike(others[0].telling, twin.telling)), None)
        if same is None:
            alike.append([twin])
        else:
            same.append(twin)
    for others in alike:
        if others[0].telling.kind != "nothing":
            yield from _told_apart([twin.second for twin in others], measured)


def _look_alike(one: Telling, other: Telling) -> bool:
    """Whether two threads show the same to the same measurement."""
    if (one.kind, one.count, one.again) != (other.kind, other.count, other.again):
        return False
    mine, theirs = one.shows[1], other.shows[1]
    if one.kind in DIAMETERS:
        return mine[0] <= theirs[1] and theirs[0] <= mine[1]
    return all(abs(a - b) < max(2 * one.read_to, NOTHING) for a, b in zip(mine, theirs, strict=True))


def near_misses(candidates: Sequence[Candidate], measured: Measured) -> tuple[NearMiss, ...]:
    """Threads often met whose size fits and pitch or form is not far off, or whose size wear would explain.

    Parameters
    ----------
    candidates : nearest first, those that fit in front
    measured : what was measured

    Examples
    --------
    Of 12.6 mm and 19.5 mm over ten pitches, it is the pitch alone that rules out 1/2 BSW (BS 84):

    >>> from generator.threads.identify.measured import reading
    >>> from generator.threads.identify.search import identify
    >>> seen = Measured(major=reading("major", 0.0126), pitch_over_ten=reading("pitch_over_ten", 0.0195))
    >>> [(miss.second.text, miss.against.name) for miss in identify(seen).near_misses]
    [('1/2 in - 12 BSW (medium)', 'pitch_over_ten')]

    Source: how near is near is common practice, no source.
    """
    if not candidates or not candidates[0].fits:
        return ()
    found = (_near_miss(candidates[0], one, measured) for one in candidates if one.common)
    return tuple(itertools.islice((miss for miss in found if miss is not None), MOST_MISSES))


def _near_miss(first: Candidate, one: Candidate, measured: Measured) -> NearMiss | None:
    against = sorted((far for far in one.distances if not far.fits), key=lambda far: -far.share)
    if one.fits or len(against) == len(one.distances):
        return None
    worst, alone = against[0], len(against) == 1
    if any(far.name in DIAMETERS for far in against):
        explained = alone and not measured.worn and _wear_explains(one, worst)
        return NearMiss(first, one, worst, if_worn=True) if explained else None
    return NearMiss(first, one, worst, alone) if all(map(_near, against)) else None


def _wear_explains(one: Candidate, distance: Distance) -> bool:
    worn = expected(one.expected.designation, True).zone(distance.name)
    assert worn is not None  # it has a distance
    return abs(distance.off) <= (worn.under if distance.off < 0 else worn.over) + distance.within


def _near(distance: Distance) -> bool:
    near = {"angle": NEAR_ANGLE, "taper": math.inf}.get(distance.name, NEAR_PITCH * distance.low)
    return abs(distance.off) <= near


def telling(one: Expected, other: Expected, measured: Measured) -> Telling:
    """The first measurement, in the order in which a shop gets at it, that tells two threads apart.

    Parameters
    ----------
    one, other : the two threads, on the same side
    measured : what is known already

    Returns
    -------
    Telling; of kind ``nothing`` where they are alike in all that is measured

    Examples
    --------
    3/8-16 UNC and 3/8 BSW have the same size and pitch; the flanks are 60 and 55 degrees (ASME B1.1, BS 84):

    >>> from generator.threads.identify.expected import expected
    >>> from generator.threads.registry import parse_designation
    >>> unc, bsw = (expected(parse_designation(text), False) for text in ("3/8-16 UNC-2A", "3/8 BSW"))
    >>> found = telling(unc, bsw, Measured())
    >>> found.kind, [round(math.degrees(low)) for low, high in found.shows]
    ('angle', [60, 55])
    """
    return next(_ways(one, other, measured))


def _ways(one: Expected, other: Expected, measured: Measured) -> Iterator[Telling]:
    """What tells two threads apart, what is soonest done in front."""
    if one.designation.starts != other.designation.starts:
        yield Telling("starts", _alike(one.designation.starts, other.designation.starts))
    count = _pitches(one, other, measured)
    over = Telling(
        "pitch", _alike(count * one.pitch, count * other.pitch), read_to=CRESTS_READ_TO, count=count
    )
    if 0 < count <= TEN:
        yield over
    new, again = _forms(one, other, measured)
    yield from new
    if count > TEN:
        yield over
    for least in (CALIPER_TELLS, MICROMETER_TELLS):
        yield from _sizes(one, other, measured, least)
    yield from again
    (flat, round_), (other_flat, other_round) = crests = _crest(one), _crest(other)
    if math.hypot(flat - other_flat, round_ - other_round) >= FLAT_TELLS * min(one.pitch, other.pitch):
        yield Telling("crest", crests, read_to=FLAT_TELLS * min(one.pitch, other.pitch) / 2)
    yield Telling("nothing", _alike(0.0, 0.0))


def _alike(first: float, second: float) -> Pair:
    return (first, first), (second, second)


def _pitches(one: Expected, other: Expected, measured: Measured) -> int:
    """Over how many pitches the two differ by twice what the reading may be off at each; 0 for never."""
    apart = abs(one.pitch - other.pitch)
    if apart < NOTHING:
        return 0
    count = max(TEN, math.ceil(4 * CRESTS_READ_TO / apart))
    if measured.pitch_over_ten is not None:
        count = max(count, 2 * TEN)
    long = count > TEN and count * max(one.pitch, other.pitch) > LONGEST
    return 0 if count > MOST_PITCHES or long else count


def _forms(one: Expected, other: Expected, measured: Measured) -> tuple[list[Telling], list[Telling]]:
    """Taper and flanks where they differ enough: first what was not measured yet, then what was."""
    forms: tuple[list[Telling], list[Telling]] = ([], [])
    if abs(one.profile.taper - other.profile.taper) >= TAPER_TELLS:
        again = measured.taper is not None
        shows = _alike(one.profile.taper, other.profile.taper)
        forms[again].append(
            Telling("taper", shows, read_to=TAPER_TELLS / 2, count=TAPER_OVER, again=again)
        )
    leaning = one.profile.flanks, other.profile.flanks
    flanks = (leaning[0].load, leaning[0].clearance), (leaning[1].load, leaning[1].clearance)
    if abs(one.angle - other.angle) >= LEAF_TELLS:
        again = measured.angle is not None
        shows = _alike(one.angle, other.angle)
        forms[again].append(Telling("angle", shows, read_to=LEAF_TELLS / 2, again=again))
    elif max(abs(a - b) for a, b in zip(*flanks, strict=True)) >= LEAF_TELLS:
        forms[0].append(Telling("flanks", flanks, read_to=LEAF_TELLS / 2))
    return forms


def _crest(one: Expected) -> tuple[Length, Length]:
    """Width of the flat, and radius, of the crest of a screw (m)."""
    return one.profile.crest_flat * one.pitch, one.profile.crest_radius * one.pitch


def _sizes(one: Expected, other: Expected, measured: Measured, least: Length) -> Iterator[Telling]:
    """Diameters whose sizes do not overlap: crests, pitch diameter, root; then those read before."""
    order = sorted(DIAMETERS, key=lambda name: (name != measured.crest, name != "pitch_diameter"))
    for again in (False, True):
        for name in order:
            zones = one.zone(name), other.zone(name)
            if zones[0] is None or zones[1] is None or again is (getattr(measured, name) is None):
                continue
            first, second = _seen(zones[0], measured.worn), _seen(zones[1], measured.worn)
            gap = max(first[0] - second[1], second[0] - first[1])
            if gap >= least:
                yield Telling(name, (first, second), read_to=gap / 2, again=again)


def _seen(zone: Zone, worn: bool) -> tuple[Length, Length]:
    """The sizes that may be read: as made, and of worn threads with the wear."""
    return (zone.low - zone.under, zone.high + zone.over) if worn else (zone.low, zone.high)
