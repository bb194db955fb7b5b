"""Where a place on the work lies on paper: true to scale, and broken where a long plain length says nothing.

Work that is too long is never squeezed: lengths of plain work with nothing in them are broken, longest
first, until the rest fits at the same scale along and across.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from generator.render.lines import BREAK_GAP
from generator.render.scale import Scale
from generator.sheet.drawn import SetupScene
from generator.si import Length

LEAST_LEFT: Final = 22.0  # mm of a broken length that stay on paper: common practice, no source
LEAST_CUT: Final = 12.0  # mm on paper below which a break is not worth its two lines


@dataclass(frozen=True)
class Stretch:
    """A length of the work, x in m from `start` to `end`, on paper from `left` to `right` in mm."""

    start: Length
    end: Length
    left: float
    right: float
    broken: bool

    @property
    def gap(self) -> tuple[float, float]:
        """Left and right line of the break."""
        middle = (self.left + self.right) / 2
        return (middle - BREAK_GAP / 2, middle + BREAK_GAP / 2)


@dataclass(frozen=True)
class Along:
    """The work laid out along the paper."""

    stretches: tuple[Stretch, ...]
    scale: Scale

    @property
    def left(self) -> float:
        """Paper position of the chuck end of the work, mm."""
        return self.stretches[0].left

    @property
    def right(self) -> float:
        """Paper position of the tailstock end of the work, mm."""
        return self.stretches[-1].right

    @property
    def breaks(self) -> tuple[Stretch, ...]:
        """The broken stretches."""
        return tuple(stretch for stretch in self.stretches if stretch.broken)

    def at(self, x: Length) -> float:
        """Paper position, mm, of a place x (m from the chuck face), true to scale from the nearest end."""
        for stretch in self.stretches:
            if x <= stretch.end or stretch is self.stretches[-1]:
                from_left = stretch.left + self.scale.mm(x - stretch.start)
                if not stretch.broken or from_left <= stretch.gap[0]:
                    return from_left
                return max(stretch.gap[1], stretch.right - self.scale.mm(stretch.end - x))
        raise ValueError(f"{x} m lies on no stretch of the work")

    def runs(self, start: Length, end: Length) -> list[tuple[float, float]]:
        """Paper runs from `start` to `end`, with the gaps of breaks left out."""
        left, right = self.at(start), self.at(end)
        runs: list[tuple[float, float]] = []
        for stretch in self.breaks:
            gap_left, gap_right = stretch.gap
            if left < gap_left and gap_right < right:
                runs.append((left, gap_left))
                left = gap_right
        return [*runs, (left, right)]


def lay_out(scene: SetupScene, scale: Scale, left: float, room: float) -> Along | None:
    """The work from `left` within `room` mm of paper; None when it does not fit even when broken."""
    pieces = _stretches(scene)
    lengths = [scale.mm(end - start) for start, end, _ in pieces]
    excess = sum(lengths) - room
    broken = [False] * len(pieces)
    if excess > 0:
        can = [
            plain and length >= LEAST_LEFT + LEAST_CUT
            for length, (_, _, plain) in zip(lengths, pieces, strict=True)
        ]
        keep = _kept([length for length, ok in zip(lengths, can, strict=True) if ok], excess)
        if keep is None:
            return None
        broken = [ok and length > keep for length, ok in zip(lengths, can, strict=True)]
        lengths = [keep if cut else length for length, cut in zip(lengths, broken, strict=True)]
    stretches = []
    for (start, end, _), length, cut in zip(pieces, lengths, broken, strict=True):
        stretches.append(Stretch(start, end, left, left + length, cut))
        left += length
    return Along(tuple(stretches), scale)


def _kept(lengths: Sequence[float], excess: float) -> float | None:
    """Length to which the longest lengths are cut, so that `excess` (mm) goes; None when it cannot."""
    ordered = sorted(lengths, reverse=True)
    for count in range(1, len(ordered) + 1):
        keep = (sum(ordered[:count]) - max(excess, LEAST_CUT * count)) / count
        shorter = ordered[count] if count < len(ordered) else 0.0
        if keep >= max(shorter, LEAST_LEFT):
            return keep
    keep = LEAST_LEFT
    return keep if sum(length - keep for length in ordered) >= excess and ordered else None


def _stretches(scene: SetupScene) -> list[tuple[Length, Length, bool]]:
    """The work cut at everything that must be seen; True marks plain lengths with nothing in them."""
    marks: list[tuple[Length, Length]] = [(-scene.grip, 0.0), (0.0, scene.dog)]
    if scene.follow_rest_at is not None:
        half = scene.follow_rest_width / 2
        marks.append((scene.follow_rest_at - half, scene.follow_rest_at + half))
    if scene.steady_at is not None:
        marks.append((scene.steady_at - scene.steady_width / 2, scene.steady_at + scene.steady_width / 2))
    marks += [(x - diameter / 2, x + diameter / 2) for x, diameter in scene.cross_holes]
    marks += [(x, x) for x in (scene.cut_from, scene.cut_to) if x is not None]
    first, last = scene.pieces[0].start, scene.pieces[-1].end
    cuts = sorted(
        {
            *(piece.start for piece in scene.pieces),
            last,
            *(x for mark in marks for x in mark if first < x < last),
        }
    )
    stretches = []
    for start, end in pairwise(cuts):
        middle = (start + end) / 2
        plain = any(
            piece.form == piece.inside == "plain" and piece.start <= middle <= piece.end
            for piece in scene.pieces
        )
        clear = not any(left < middle < right for left, right in marks)
        stretches.append((start, end, plain and clear))
    return stretches
