"""Work as a beam: stepped hollow rounds on elastic or rigid supports, by beam elements.

    Segment, Support, Beam          what the work is and what holds it
    Beam.deflections                under a load at one place
    Beam.under_tool                 under the load itself as it walks along the work
    Beam.sag                        under its own weight
    Beam.reactions, Beam.carried    what the supports carry of a load, of the weight
    Beam.first_frequency            first bending frequency

Nodes stand at every step, support and load, so the static solution is exact (Euler-Bernoulli); the
frequency uses shorter elements. Deflections follow the direction of the load.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray
from scipy.linalg import eigh

from generator.calc.sections import second_moment, section_area
from generator.errors import OutsideRange
from generator.si import Force, Frequency, Length, Pressure

ELEMENTS_FOR_FREQUENCY = 40  # along the whole beam; 10 a span give f1 to better than 0.01 %
JOINED = 1e-9      # m: two segments meet
SAME_PLACE = 1e-4  # m: nearer places share a station, for very short elements drown the long ones' digits
HELD_IN_A_PLANE = 2  # a bar in a plane moves across and tilts
KEPT = 512         # results: the steady rest's places that are tried, on a shop's lathes

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Segment:
    """A length of one section, from `start` to `end` (m)."""

    start: Length
    end: Length
    od: Length
    bore: Length = 0.0


@dataclass(frozen=True)
class Support:
    """Holds the work at `at` (m): `stiffness` N/m across, `angular` N m/rad against tilting; inf is rigid."""

    at: Length
    stiffness: float = math.inf
    angular: float = 0.0


@dataclass(frozen=True)
class Beam:
    """Segments in order without gaps, supports anywhere on them.

    Parameters
    ----------
    segments : from the chuck face outwards
    supports : chuck, steady rest, center
    elastic_modulus : E, Pa
    density : kg/m³, for own weight and frequency

    Raises
    ------
    OutsideRange
        When segments are missing or do not join, or a support stands off the work.

    Notes
    -----
    Slender beams: within 5 % for solid rounds longer than about 3.5 diameters past a clamp or 7 between
    supports; shear is left out.

    Source
    ------
    Beam elements: Cook et al., Concepts and Applications of Finite Element Analysis.
    """

    segments: tuple[Segment, ...]
    supports: tuple[Support, ...]
    elastic_modulus: Pressure
    density: float = 0.0

    def __post_init__(self) -> None:
        if not self.segments:
            raise OutsideRange("number of segments", 0, 1, None, "a beam needs one")
        for one, following in pairwise(self.segments):
            if abs(one.end - following.start) > JOINED:
                raise OutsideRange(
                    "start of a segment", following.start, one.end, one.end, "segments join", "m"
                )
        for support in self.supports:
            self._on_beam(support.at, "support")
        held = sum((support.stiffness > 0) + (support.angular > 0) for support in self.supports)
        if held < HELD_IN_A_PLANE:
            raise OutsideRange("number of supports", held, HELD_IN_A_PLANE, None, "the work must be held")

    @property
    def start(self) -> Length:
        """Where the beam begins, m."""
        return self.segments[0].start

    @property
    def end(self) -> Length:
        """Where the beam ends, m."""
        return self.segments[-1].end

    def deflections(self, load: Force, at: Length, where: Sequence[Length]) -> Array:
        """Deflection (m) at the places `where` under a force `load` (N) across the beam at `at`.

        Raises
        ------
        OutsideRange
            When a place is off the beam, or the supports do not hold the work.
        """
        stations = self._places(at, *where)
        moved = self._solve(stations, self._point_load(stations, load, at))
        return moved[[2 * _index(stations, x) for x in where]]

    def under_tool(self, load: Force, places: Sequence[Length]) -> Array:
        """Deflection (m) of the loaded place itself, the load standing at each of `places` in turn.

        Raises
        ------
        OutsideRange
            When a place is off the beam.
        """
        return load * _give_under_tool(self, tuple(places))

    def sag(self, where: Sequence[Length], gravity: float) -> Array:
        """Deflection (m) at `where` under the work's own weight."""
        stations = self._places(*where)
        moved = self._solve(stations, self._own_weight(stations, gravity))
        return moved[[2 * _index(stations, x) for x in where]]

    def reactions(self, load: Force, at: Length) -> tuple[Force, ...]:
        """Force (N) of each support on the work, against the load, in the order of `supports`."""
        stations = self._places(at)
        loads = self._point_load(stations, load, at)
        return self._carried(stations, loads)

    def carried(self, gravity: float) -> tuple[Force, ...]:
        """Force (N) with which each support carries the work's own weight, in the order of `supports`."""
        stations = self._places()
        return self._carried(stations, self._own_weight(stations, gravity))

    def first_frequency(self, elements: int = ELEMENTS_FOR_FREQUENCY) -> Frequency:
        """First bending frequency (Hz) of the beam on its supports, without added masses.

        For a round on supports alike all round it is the critical speed in rev/s (Thomson, Theory of
        Vibration with Applications). An upper bound: real chucks and steady rests are softer.
        """
        return _first_frequency(self, elements)

    # -- stations -------------------------------------------------------------------------------------

    def _on_beam(self, x: Length, what: str) -> None:
        if not self.start - JOINED <= x <= self.end + JOINED:
            raise OutsideRange(f"place of a {what}", x, self.start, self.end, "it stands on the work", "m")

    def _places(self, *extra: Length) -> list[Length]:
        for x in extra:
            self._on_beam(x, "load or reading")
        wanted = [segment.start for segment in self.segments] + [self.end]
        wanted += [support.at for support in self.supports] + list(extra)
        places: list[Length] = []
        for x in sorted(wanted):
            if not places or x - places[-1] > SAME_PLACE:
                places.append(x)
        return places

    def _refined(self, elements: int) -> list[Length]:
        longest = (self.end - self.start) / elements
        places = self._places()
        refined = [places[0]]
        for start, end in pairwise(places):
            count = max(1, math.ceil((end - start) / longest))
            refined += [start + (end - start) * step / count for step in range(1, count + 1)]
        return refined

    def _segment_at(self, x: Length) -> Segment:
        return next(segment for segment in self.segments if x <= segment.end)

    # -- matrices -------------------------------------------------------------------------------------

    def _stiffness(self, stations: list[Length], with_supports: bool = True) -> Array:
        def element(length: Length, segment: Segment) -> Array:
            bending = self.elastic_modulus * second_moment(segment.od, segment.bore) / length**3
            return bending * np.array(
                [
                    [12, 6 * length, -12, 6 * length],
                    [6 * length, 4 * length**2, -6 * length, 2 * length**2],
                    [-12, -6 * length, 12, -6 * length],
                    [6 * length, 2 * length**2, -6 * length, 4 * length**2],
                ]
            )

        matrix = self._assembled(stations, element)
        for support in self.supports if with_supports else ():
            row = 2 * _index(stations, support.at)
            matrix[row, row] += 0.0 if math.isinf(support.stiffness) else support.stiffness
            matrix[row + 1, row + 1] += 0.0 if math.isinf(support.angular) else support.angular
        return matrix

    def _mass(self, stations: list[Length]) -> Array:
        def element(length: Length, segment: Segment) -> Array:
            share = self.density * section_area(segment.od, segment.bore) * length / 420
            return share * np.array(
                [
                    [156, 22 * length, 54, -13 * length],
                    [22 * length, 4 * length**2, 13 * length, -3 * length**2],
                    [54, 13 * length, 156, -22 * length],
                    [-13 * length, -3 * length**2, -22 * length, 4 * length**2],
                ]
            )

        return self._assembled(stations, element)

    def _assembled(self, stations: list[Length], element: Callable[[Length, Segment], Array]) -> Array:
        size = 2 * len(stations)
        matrix = np.zeros((size, size))
        for number, (start, end) in enumerate(pairwise(stations)):
            piece = element(end - start, self._segment_at((start + end) / 2))
            rows = slice(2 * number, 2 * number + 4)
            matrix[rows, rows] += piece
        return matrix

    def _free(self, stations: list[Length]) -> list[int]:
        fixed = set()
        for support in self.supports:
            row = 2 * _index(stations, support.at)
            if math.isinf(support.stiffness):
                fixed.add(row)
            if math.isinf(support.angular):
                fixed.add(row + 1)
        return [row for row in range(2 * len(stations)) if row not in fixed]

    def _point_load(self, stations: list[Length], load: Force, at: Length) -> Array:
        loads = np.zeros(2 * len(stations))
        loads[2 * _index(stations, at)] = load
        return loads

    def _own_weight(self, stations: list[Length], gravity: float) -> Array:
        loads = np.zeros(2 * len(stations))
        for number, (start, end) in enumerate(pairwise(stations)):
            segment, length = self._segment_at((start + end) / 2), end - start
            weight = self.density * section_area(segment.od, segment.bore) * gravity
            rows = slice(2 * number, 2 * number + 4)
            loads[rows] += weight * np.array([length / 2, length**2 / 12, length / 2, -(length**2) / 12])
        return loads

    def _carried(self, stations: list[Length], loads: Array) -> tuple[Force, ...]:
        moved = self._solve(stations, loads)
        left_over = loads - self._stiffness(stations, with_supports=False) @ moved
        return tuple(float(left_over[2 * _index(stations, support.at)]) for support in self.supports)

    def _solve(self, stations: list[Length], loads: Array) -> Array:
        free = self._free(stations)
        stiffness = self._stiffness(stations)[np.ix_(free, free)]
        moved = np.zeros(loads.shape)
        try:
            moved[free] = np.linalg.solve(stiffness, loads[free])
        except np.linalg.LinAlgError:
            raise self._too_thin() from None
        return moved

    def _too_thin(self) -> OutsideRange:
        thinnest = min(segment.od for segment in self.segments)
        reason = "too thin beside the rest of the work"
        return OutsideRange("thinnest diameter", thinnest, None, None, reason, "m")


def _index(stations: list[Length], x: Length) -> int:
    return min(range(len(stations)), key=lambda number: abs(stations[number] - x))


# -- worked out once ----------------------------------------------------------------------------------------

# The same work stands on the same supports on every lathe of the shop, but for what the records change, and a
# sheet asks some of this twice: results are kept by the beam's own numbers.


@lru_cache(maxsize=KEPT)
def _give_under_tool(beam: Beam, places: tuple[Length, ...]) -> Array:
    """Deflection (m/N) of each of the places under a force there; not to be written to."""
    stations = beam._places(*places)
    rows = [2 * _index(stations, x) for x in places]
    loads = np.zeros((2 * len(stations), len(rows)))
    loads[rows, range(len(rows))] = 1.0
    give = beam._solve(stations, loads)[rows, range(len(rows))]
    give.setflags(write=False)
    return give


@lru_cache(maxsize=KEPT)
def _first_frequency(beam: Beam, elements: int) -> Frequency:
    """First bending frequency, Hz."""
    stations = beam._refined(elements)
    free = beam._free(stations)
    stiffness = beam._stiffness(stations)[np.ix_(free, free)]
    mass = beam._mass(stations)[np.ix_(free, free)]
    last = len(free) - 1  # of M x = (1/ω²) K x, where the slowest is the largest and keeps its digits
    try:
        slowest = eigh(mass, stiffness, eigvals_only=True, subset_by_index=[last, last])[0]
    except np.linalg.LinAlgError:
        raise beam._too_thin() from None
    if slowest <= 0:
        length = beam.end - beam.start
        raise OutsideRange("length that stands out", length, None, None, "too short to bend as a beam", "m")
    return float(1 / (2 * math.pi * math.sqrt(slowest)))
