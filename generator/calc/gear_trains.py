"""Change gears: the trains that the gears of a shop make, for a lead that is wanted.

    Train              gears in the order in which they hang
    clears             whether a train hangs on an ordinary banjo
    ChangeGears        the gears owned, with all their trains worked out once
    change_gears       the same, kept for the next question

A ratio is drivers over driven: turns of the last gear in one turn of the first. An idler between two gears
changes no ratio and is not counted; any gear that reaches will do. Ratios are compared as whole numbers.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property, lru_cache
from itertools import pairwise
from math import prod

import numpy as np
from numpy.typing import NDArray

from generator.calc.gear_rows import STEEPEST, Rows, choices, hang
from generator.errors import OutsideRange
from generator.language.say import later, say

Floats = NDArray[np.float64]

FEWEST_TEETH, MOST_TEETH = 8, 300   # below, no gear runs; above, products leave the exact range
CLEARANCE = 15                      # teeth; Machinery's Handbook, from memory
MOST_PAIRS = 3
MOST_GEARS_IN_THREES = 20           # 775,200 choices of six; with more gears only four are tried at a time
TO_BUY = range(16, 128)             # tooth numbers worth asking for; common practice
NEAR = 1e-12                        # share within which two ratios are looked at as whole numbers
PRACTICE = later("common practice, no source")


@dataclass(frozen=True)
class Train:
    """Teeth in the order driver, driven, driver, driven ...; the second and third share a stud."""

    gears: tuple[int, ...]

    @property
    def pairs(self) -> tuple[tuple[int, int], ...]:
        """(driver, driven) of each pair in mesh, from the spindle's side on."""
        return tuple(zip(self.gears[::2], self.gears[1::2], strict=True))

    @property
    def ratio(self) -> Fraction:
        """Product of the drivers over product of the driven gears.

        Examples
        --------
        >>> Train((48, 36, 18, 66)).ratio
        Fraction(4, 11)
        """
        return Fraction(prod(self.gears[::2]), prod(self.gears[1::2]))

    def describe(self) -> str:
        """The train in words, from the spindle's side to the leadscrew's.

        Examples
        --------
        >>> Train((40, 127)).describe()
        '40 drives 127'
        >>> Train((50, 63, 40, 80)).describe()
        '50 drives 63, beside it 40 drives 80'
        """
        return say(", beside it ").join(
            say("{driver} drives {driven}", driver=driver, driven=driven) for driver, driven in self.pairs
        )


def clears(train: Train, clearance: int = CLEARANCE) -> bool:
    """Whether each gear on a stud clears the stud before and the stud after, and no pair is too steep.

    Driver a drives b; on b's stud sits c, which drives d: ``a + b > c + clearance`` keeps c off the stud
    of a, ``c + d > b + clearance`` keeps b off the stud of d. With a
    second stud, on which e beside d drives f, also ``c + d > e + clearance`` and ``e + f > d + clearance``.

    Parameters
    ----------
    train : two, four or six gears
    clearance : teeth; half of it is the radius of a stud with its bush, in modules

    Returns
    -------
    True when it hangs.

    Notes
    -----
    All gears of one module, each pair in a plane of its own, every pair between 1:6 and 6:1 (common
    practice). Whether the banjo's slot reaches is not known: hang it and see.

    Examples
    --------
    >>> clears(Train((40, 60, 50, 75))), clears(Train((20, 30, 100, 40)))
    (True, False)

    Source
    ------
    Machinery's Handbook, change gears, for four gears (from memory); for six the same with each stud.
    """
    pairs = train.pairs
    gentle = all(max(a, b) <= STEEPEST * min(a, b) for a, b in pairs)
    return gentle and all(
        a + b > c + clearance and c + d > b + clearance
        for (a, b), (c, d) in pairwise(pairs)
    )


@dataclass(frozen=True)
class _Table:
    """Choices of gears sorted by ratio, and those of one ratio by how well they run."""

    ratios: Floats
    gears: Rows

    def within(self, low: Floats, high: Floats) -> Iterator[tuple[tuple[int, ...], Rows]]:
        """(place, all choices from low to high there), for every place that has any."""
        first, last = np.searchsorted(self.ratios, low, "left"), np.searchsorted(self.ratios, high, "right")
        for place in zip(*np.nonzero(last > first), strict=True):
            yield tuple(map(int, place)), self.gears[first[place] : last[place]]

    def beside(self, wanted: Floats) -> Iterator[tuple[int, Rows]]:
        """(place, the best choice of the ratio next to it), for the ratios closest to any wanted one.

        More than one only where they are equally close.
        """
        above = np.searchsorted(self.ratios, wanted)
        places = np.clip(np.stack((above - 1, above)), 0, len(self.ratios) - 1)
        off = np.abs(self.ratios[places] / wanted - 1)
        for side, place in zip(*np.nonzero(off <= off.min() * (1 + NEAR)), strict=True):
            first = int(np.searchsorted(self.ratios, self.ratios[places[side, place]]))
            yield int(place), self.gears[first]


@dataclass(frozen=True)
class ChangeGears:
    """The gears owned, and how many pairs the banjo takes.

    Parameters
    ----------
    gears : teeth of every gear, sorted; one owned twice stands twice
    most_pairs : pairs in a train: 1, 2 (one compound stud) or 3 (two)
    clearance : teeth by which a pair must reach past the next stud

    Raises
    ------
    OutsideRange
        For no gears at all, a gear of fewer than 8 or more than 300 teeth, or pairs other than 1 to 3.

    Notes
    -----
    With more than 20 gears, trains of three pairs are too many to work out: `pairs_tried` is then 2.
    """

    gears: tuple[int, ...]
    most_pairs: int = MOST_PAIRS
    clearance: int = CLEARANCE

    def __post_init__(self) -> None:
        if len(self.gears) < 2:
            raise OutsideRange(
                say("number of change gears"), len(self.gears), 2, None, say("a train needs two gears")
            )
        for teeth in self.gears:
            if not FEWEST_TEETH <= teeth <= MOST_TEETH:
                raise OutsideRange(say("teeth of a change gear"), teeth, FEWEST_TEETH, MOST_TEETH, PRACTICE)
        if not 1 <= self.most_pairs <= MOST_PAIRS:
            raise OutsideRange(
                say("pairs of change gears"), self.most_pairs, 1, MOST_PAIRS, say("an ordinary banjo")
            )
        if self.clearance < 0:
            raise OutsideRange(say("clearance of a stud in teeth"), self.clearance, 0, None, PRACTICE)

    @property
    def pairs_tried(self) -> int:
        """The most pairs for which all trains are worked out."""
        return min(self.most_pairs, 2) if len(self.gears) > MOST_GEARS_IN_THREES else self.most_pairs

    @cached_property
    def tables(self) -> tuple[_Table, ...]:
        """All trains that hang: of one pair, of two, of three."""
        return tuple(self._table(pairs) for pairs in range(1, self.pairs_tried + 1))

    def _table(self, pairs: int) -> _Table:
        trains, steepest = hang(*choices(self.gears, pairs, pairs), self.clearance)
        hung = np.isfinite(steepest)
        trains, steepest = trains[hung], steepest[hung]
        ratios = trains[:, ::2].prod(axis=1) / trains[:, 1::2].prod(axis=1)
        order = np.lexsort((*trains.T[::-1], steepest, -trains.min(axis=1), ratios))
        return _Table(ratios[order], trains[order])

    @cached_property
    def open_tables(self) -> tuple[tuple[int, int, _Table], ...]:
        """(drivers, driven, all choices of them): what lacks one gear to be a train."""
        found = []
        for pairs in range(1, self.pairs_tried + 1):
            for drivers, driven in ((pairs - 1, pairs), (pairs, pairs - 1)):
                one, other = choices(self.gears, drivers, driven)
                ratios = one.prod(axis=1) / other.prod(axis=1)
                order = np.argsort(ratios, kind="stable")
                found.append((drivers, driven, _Table(ratios[order], np.hstack((one, other))[order])))
        return tuple(found)

    def exact(self, ratios: Sequence[Fraction], most: int = 4) -> list[tuple[int, Train]]:
        """Trains of exactly one of some ratios, the best first.

        Fewest gears first; of equally many the train with the larger smallest gear, then the one whose
        steepest pair is nearer to 1:1, then the one with the smaller numbers.

        Parameters
        ----------
        ratios : drivers over driven; one of them is enough
        most : how many trains to name at most

        Returns
        -------
        (place in `ratios`, train).

        Examples
        --------
        >>> ChangeGears((20, 40, 80, 127)).exact([Fraction(40, 127)])
        [(0, Train(gears=(40, 127)))]
        """
        wanted, found = _floats(ratios), list[tuple[int, Train]]()
        for table in self.tables:
            for (place,), rows in table.within(wanted, wanted):
                trains = [Train(tuple(row)) for row in rows[:most].tolist()]
                found += [(place, train) for train in trains if train.ratio == ratios[place]]
            if len(found) >= most:
                break
        return sorted(found, key=_best_first)[:most]

    def closest(self, ratios: Sequence[Fraction], pairs: int) -> tuple[int, Train] | None:
        """The train of so many pairs that comes closest to one of some ratios, as a share of it.

        Parameters
        ----------
        ratios : drivers over driven
        pairs : 1, 2 or 3

        Returns
        -------
        (place in `ratios`, train), of equally close ones the best; None when none of that size hangs.

        Examples
        --------
        >>> ChangeGears((20, 40, 50, 127)).closest([Fraction(1, 3)], 1)
        (0, Train(gears=(40, 127)))
        """
        if pairs > self.pairs_tried or not len(self.tables[pairs - 1].ratios):
            return None
        found = self.tables[pairs - 1].beside(_floats(ratios))
        return min(((place, Train(tuple(row.tolist()))) for place, row in found), key=_best_first)

    def lacking(self, ratios: Sequence[Fraction]) -> tuple[int, int, Train] | None:
        """The smallest gear which, added to those owned, makes a train of exactly one of some ratios.

        Parameters
        ----------
        ratios : drivers over driven; one of them is enough

        Returns
        -------
        (teeth of the gear, place in `ratios`, the best train with it), for gears of 16 to 127 teeth; None
        when no single gear does it.

        Examples
        --------
        >>> ChangeGears((20, 40, 50, 80)).lacking([Fraction(40, 127)])
        (127, 0, Train(gears=(40, 127)))
        """
        teeth, wanted = np.array(TO_BUY), _floats(ratios)[:, None]
        hits: dict[tuple[int, int], list[tuple[int, Rows]]] = {}
        for drivers, driven, table in self.open_tables:
            of_the_rest = wanted / teeth if drivers < driven else wanted * teeth
            for (place, which), rows in table.within(of_the_rest * (1 - NEAR), of_the_rest * (1 + NEAR)):
                gear = TO_BUY[which]
                full = np.insert(rows, drivers, gear, axis=1)
                hits.setdefault((gear, max(drivers, driven)), []).append((place, full))
        for gear, pairs in sorted(hits):
            rows = np.concatenate([rows for _, rows in hits[gear, pairs]])
            places = np.repeat(*np.transpose([(place, len(rows)) for place, rows in hits[gear, pairs]]))
            trains, steepest = hang(np.sort(rows[:, :pairs]), np.sort(rows[:, pairs:]), self.clearance)
            hung = np.isfinite(steepest)
            placed = zip(places[hung].tolist(), map(Train, map(tuple, trains[hung].tolist())), strict=True)
            found = [(place, train) for place, train in placed if train.ratio == ratios[place]]
            if found:
                return gear, *min(found, key=_best_first)
        return None


def _floats(ratios: Sequence[Fraction]) -> Floats:
    return np.array([float(ratio) for ratio in ratios])


def _best_first(placed: tuple[int, Train]) -> tuple[object, ...]:
    place, train = placed
    steepest = max(max(pair) / min(pair) for pair in train.pairs)
    return len(train.pairs), -min(train.gears), steepest, train.gears, place


@lru_cache(maxsize=16)
def _kept(gears: tuple[int, ...], most_pairs: int, clearance: int) -> ChangeGears:
    return ChangeGears(gears, most_pairs, clearance)


def change_gears(
    gears: Sequence[int], most_pairs: int = MOST_PAIRS, clearance: int = CLEARANCE
) -> ChangeGears:
    """The gears owned, in any order; asked for again, with its trains already worked out.

    Raises
    ------
    OutsideRange
        As `ChangeGears`.

    Examples
    --------
    >>> change_gears([40, 20]).gears
    (20, 40)
    >>> change_gears([40, 0])  # doctest: +ELLIPSIS
    Traceback (most recent call last):
    generator.errors.OutsideRange: teeth of a change gear 0 is out of range: ...
    """
    return _kept(tuple(sorted(gears)), most_pairs, clearance)
