"""Work as a beam: stepped, tapered and hollow rounds on elastic or rigid supports.

    Segment, Support, Beam          what the work is and what holds it
    Beam.deflections, Beam.slopes   under a load at one place
    Beam.under_tool                 under the load itself as it walks along the work
    Beam.reactions_along            what the supports carry meanwhile
    Beam.sag                        under its own weight
    Beam.reactions, Beam.carried    what the supports carry of a load, of the weight
    Beam.first_frequency            first bending frequency; more of them, and buckling, in `modes`

Deflections follow the direction of the load; a slope is positive where the deflection grows outwards.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise
from typing import Final

import numpy as np

from generator.calc.beam_elements import JOINED, UNITS, Array, Elements, Inside, Pieces, Unit
from generator.calc.beam_supports import Moved, OnSupports, Pushed
from generator.calc.guards import above_zero, at_least_zero
from generator.calc.modes import ELEMENTS, KEPT, frequencies
from generator.calc.sections import check_wall
from generator.errors import OutsideRange
from generator.language.say import say
from generator.si import Force, Frequency, Length, Pressure

SAME_PLACE: Final = 1e-4  # of the length: nearer supports share a node; what lies between would cost digits
WALL_LEFT: Final = 0.9  # of a taper's wall at least, from end to end of one piece of it; else it is cut
PLACES_KEPT: Final = 256  # lists of places: a job's tools and steady rests, on a shop's lathes
MOST_POISSON: Final = 0.5  # no material is beyond


@dataclass(frozen=True)
class Segment:
    """From `start` to `end` (m) one section, or a taper from `od` to `od_end`; its bore is straight."""

    start: Length
    end: Length
    od: Length
    bore: Length = 0.0
    od_end: Length | None = None


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
    poisson : Poisson's ratio, for work so short that shear counts (Timoshenko's beam); None leaves shear out
    push : along the whole work, N, as of a center

    Raises
    ------
    OutsideRange
        When segments are missing, do not join or leave no wall, a support stands off the work, or the
        supports do not hold it.

    Notes
    -----
    Without shear within 5 % for solid rounds longer than about 3.5 diameters past a clamp or 7 between
    supports.

    Source
    ------
    Beam elements: Cook et al., Concepts and Applications of Finite Element Analysis. Shear: Timoshenko's beam
    with the coefficient of Cowper, 1966.
    """

    segments: tuple[Segment, ...]
    supports: tuple[Support, ...]
    elastic_modulus: Pressure
    density: float = 0.0
    poisson: float | None = None
    push: Force = 0.0

    def __post_init__(self) -> None:
        if not self.segments:
            raise OutsideRange(say("number of segments"), 0, 1, None, say("a beam needs one"))
        for segment in self.segments:
            check_wall(segment.od, segment.bore)
            if segment.od_end is not None:
                check_wall(segment.od_end, segment.bore)
            if not segment.end > segment.start:
                raise OutsideRange(
                    say("end of a segment"),
                    segment.end,
                    segment.start,
                    None,
                    say("a segment has a length"),
                    "m",
                )
        for one, following in pairwise(self.segments):
            if abs(one.end - following.start) > JOINED:
                raise OutsideRange(
                    say("start of a segment"), following.start, one.end, one.end, say("segments join"), "m"
                )
        above_zero(say("elastic modulus"), self.elastic_modulus, "Pa")
        for support in self.supports:
            self.check_place(support.at, say("place of a support"))
            for stiffness in (support.stiffness, support.angular):
                if not stiffness >= 0:
                    reason = say("it cannot be below zero")
                    raise OutsideRange(say("stiffness of a support"), stiffness, 0.0, None, reason)
        across = {support.at for support in self.supports if support.stiffness > 0}
        tilting = any(support.angular > 0 for support in self.supports)
        if not across or len(across) + tilting < 2:
            raise OutsideRange(say("number of supports"), len(across), 2, None, say("the work must be held"))
        if self.poisson is not None and not 0 <= self.poisson <= MOST_POISSON:
            raise OutsideRange(
                say("Poisson's ratio"), self.poisson, 0.0, MOST_POISSON, say("of any material")
            )
        at_least_zero(say("push along the work"), self.push, "N")

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
            When a place is off the beam, or the work cannot be worked out.
        """
        return np.asarray(load * self.moved(where, [at], ("push",))[0][:, 0])

    def slopes(self, load: Force, at: Length, where: Sequence[Length]) -> Array:
        """Slope (rad) at the places `where` under a force `load` (N) across the beam at `at`.

        With shear it is the tilt of the section there.

        Raises
        ------
        OutsideRange
            When a place is off the beam, or the work cannot be worked out.
        """
        return np.asarray(load * self.moved([at], where, ("tilt",))[0][0])

    def under_tool(self, load: Force, places: Sequence[Length]) -> Array:
        """Deflection (m) of the loaded place itself, the load standing at each of `places` in turn.

        Raises
        ------
        OutsideRange
            When a place is off the beam, or the work cannot be worked out.
        """
        return load * self.moved_each(places, places, ("push",))[0]

    def sag(self, where: Sequence[Length], gravity: float) -> Array:
        """Deflection (m) at `where` under the work's own weight."""
        loads, weight = self._weight(gravity, where)
        return np.asarray(self._held().moved(self._reached(where), loads, ("push",))[0] @ weight)

    def reactions(self, load: Force, at: Length) -> tuple[Force, ...]:
        """Force (N) of each support on the work, against the load, in the order of `supports`."""
        return tuple(float(force) for force in self.reactions_along(load, [at])[:, 0])

    def reactions_along(self, load: Force, places: Sequence[Length]) -> Array:
        """The same for the load at each of `places` in turn, (supports, places), N.

        Raises
        ------
        OutsideRange
            When a place is off the beam, or the work cannot be worked out.
        """
        return load * self._held().reactions(self._reached(places))[0]

    def reactions_of_moment(self, places: Sequence[Length]) -> Array:
        """The same for 1 N m at each of `places`, raising the slope outwards, (supports, places), N/(N m)."""
        return self._held().reactions(self._reached(places))[1]

    def carried(self, gravity: float) -> tuple[Force, ...]:
        """Force (N) with which each support carries the work's own weight, in the order of `supports`."""
        return tuple(gravity * share for share in _carried(self))

    def first_frequency(self, elements: int = ELEMENTS) -> Frequency:
        """First bending frequency (Hz) of the beam on its supports, without added masses.

        For a round on supports alike all round it is the critical speed in rev/s (Thomson, Theory of
        Vibration with Applications). An upper bound: real chucks and steady rests are softer.
        """
        return frequencies(self, 1, elements=elements)[0]

    # -- for the modules beside this one ------------------------------------------------------------------

    def moved(
        self, readings: Sequence[Length], loads: Sequence[Length], units: tuple[Unit, ...] = UNITS
    ) -> Moved:
        """How readings move under unit loads: deflection under 1 N, under 1 N m, and slope under 1 N m.

        (readings, loads) each; m/N, 1/N, rad/(N m); or those of the three that are asked for.

        Raises
        ------
        OutsideRange
            When a place is off the beam, or the work cannot be worked out.
        """
        return self._held().moved(self._reached(readings), self._reached(loads), units)

    def moved_each(
        self, readings: Sequence[Length], loads: Sequence[Length], units: tuple[Unit, ...] = UNITS
    ) -> Moved:
        """The same of each reading under the load of its own number alone, (readings,) each."""
        return self._held().moved_each(self._reached(readings), self._reached(loads), units)

    def walked(
        self, places: Sequence[Length], watched: Sequence[Length]
    ) -> tuple[Moved, Moved, Array]:
        """Under unit loads at each of `places`: themselves, watched places, and how those lean under 1 N.

        As `moved_each` (places,) but for the slope, as `moved` (watched, places), and slopes (watched,
        places), rad/N.
        """
        held, at, beside = self._held(), self._reached(places), self._reached(watched)
        (lean,) = held.moved(at, beside, ("tilt",))
        return held.moved_each(at, at, ("push", "tilt")), held.moved(beside, at), lean.T

    def pushed(self, elements: int) -> Pushed:
        """The work in at least so many short elements, alike in length but for nodes at ends and supports."""
        held = _on_supports(self)
        parts = np.ceil(held.elements.lengths / (self.end - self.start) * elements - JOINED)
        spans = [
            np.linspace(*ends, int(count), endpoint=False)
            for ends, count in zip(pairwise(held.elements.nodes), parts, strict=True)
        ]
        nodes = np.append(np.concatenate(spans), self.end)
        return Pushed(held, Elements.between(nodes, held.elements.pieces), self.push)

    def check_place(self, x: Length, what: str) -> None:
        """Refuse a place off the work.

        Raises
        ------
        OutsideRange
            When it is.
        """
        if not self.start - JOINED <= x <= self.end + JOINED:
            raise OutsideRange(
                what,
                x,
                self.start,
                self.end,
                say("it stands on the work"),
                "m",
            )

    def cannot_stand(self) -> OutsideRange:
        """What to say where the solution fails: the push buckles the work, or it is too thin somewhere."""
        if self.push > 0:
            try:
                _on_supports(self).inverse  # noqa: B018
            except np.linalg.LinAlgError:
                return replace(self, push=0.0).cannot_stand()
            reason = say("the work buckles under it")
            return OutsideRange(say("push along the work"), self.push, None, None, reason, "N")
        thinnest = min(min(one.od, one.od_end or one.od) for one in self.segments)
        reason = say("too thin beside the rest of the work")
        return OutsideRange(say("thinnest diameter"), thinnest, None, None, reason, "m")

    def _held(self) -> OnSupports | Pushed:
        try:
            return _solved(self)
        except np.linalg.LinAlgError:
            raise self.cannot_stand() from None

    def _reached(self, places: Sequence[Length]) -> Inside:
        return _reach(self, tuple(places))

    def _weight(self, gravity: float, cuts: Sequence[Length] = ()) -> tuple[Inside, Array]:
        """Places along the work, with `cuts` between them, and what it weighs at each, N."""
        elements = _on_supports(self).elements
        within = np.clip(np.array(cuts, dtype=np.float64), self.start, self.end)
        places, lengths, piece, x = elements.along(within)
        return places, lengths * elements.pieces.section(piece, x)[0] * self.density * gravity


@lru_cache(maxsize=KEPT)
def _on_supports(beam: Beam) -> OnSupports:
    """Nodes at both ends and every support."""
    near = SAME_PLACE * (beam.end - beam.start)
    nodes = [beam.start]
    for x in sorted(support.at for support in beam.supports):
        if x - nodes[-1] > near and beam.end - x > near:
            nodes.append(x)
    nodes.append(beam.end)
    at, across, tilting = np.array([(one.at, one.stiffness, one.angular) for one in beam.supports]).T
    node = np.searchsorted((np.array(nodes)[1:] + nodes[:-1]) / 2, at)
    return OnSupports(Elements.between(np.array(nodes), _pieces(beam)), node, across, tilting)


@lru_cache(maxsize=PLACES_KEPT)
def _reach(beam: Beam, places: tuple[Length, ...]) -> Inside:
    """Places on the work: the same ones are asked about again and again."""
    wanted = np.array(places, dtype=np.float64)
    x = np.clip(wanted, beam.start, beam.end)
    for off in wanted[~(np.abs(x - wanted) <= JOINED)]:
        beam.check_place(float(off), say("place of a load or reading"))
    return _on_supports(beam).elements.reach(x)


@lru_cache(maxsize=KEPT)
def _solved(beam: Beam) -> OnSupports | Pushed:
    """The work on its supports, its solution found once."""
    held = _on_supports(beam)
    held.inverse  # noqa: B018 (refused where the digits are lost)
    if not beam.push:
        return held
    pushed = beam.pushed(ELEMENTS)
    pushed.further  # noqa: B018 (refused where the work buckles)
    return pushed


@lru_cache(maxsize=KEPT)
def _carried(beam: Beam) -> tuple[float, ...]:
    """What each support carries of the work's mass, kg."""
    loads, mass = beam._weight(1.0)
    return tuple(float(share) for share in beam._held().reactions(loads)[0] @ mass)


def _pieces(beam: Beam) -> Pieces:
    """The segments as pieces; a steep taper is cut where a tenth of its wall has gone, and again."""
    edges, rows = [], []
    for segment in beam.segments:
        od_end = segment.od if segment.od_end is None else segment.od_end
        walls = segment.od - segment.bore, od_end - segment.bore
        count = max(1, math.ceil(abs(math.log(walls[1] / walls[0]) / math.log(WALL_LEFT))))
        rise = (od_end - segment.od) / (segment.end - segment.start)
        for step in range(count):
            grown = walls[0] * ((walls[1] / walls[0]) ** (step / count) - 1)
            edges.append(segment.start + (grown / rise if step else 0.0))
            rows.append((segment.od + grown, segment.bore, rise))
    od, bore, rise = np.array(rows).T
    edges.append(beam.end)
    return Pieces(np.array(edges), od, bore, rise, beam.elastic_modulus, beam.density, beam.poisson)
