"""The names above the marks of a plot: beside the lines that they name, never on another line or name.

A name stands to the right of the top of its line, or to the left where there is no room, in rows above the
plot. A line runs up to the row of its own name, so a name must stand higher than every line that it spans.
Where no such rows exist, or too many would be needed, the marks are numbered and the names go into a key.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from generator.render.drawing import LETTER, text_width
from generator.render.spread import wrapped

NAME_WIDTH: Final = 30.0  # mm of a name on one line: common practice, no source
ROW: Final = 3.8  # mm from one row of names to the next
GAP: Final = 0.9  # mm between a line and its name
AIR: Final = 1.2  # mm between two names in a row, and between a name and another's line
MOST_ROWS: Final = 6
SAME: Final = 0.3  # mm: marks nearer than this share a line


@dataclass(frozen=True)
class Name:
    """The name of a mark: the x of its line, its lines of text and where they begin, and its lowest row."""

    x: float
    lines: tuple[str, ...]
    left: float
    row: int

    @property
    def right(self) -> float:
        """Where its longest line of text ends."""
        return self.left + max(map(text_width, self.lines))

    @property
    def top_row(self) -> int:
        """The row of its first line of text."""
        return self.row + len(self.lines) - 1

    def meets(self, other: Name) -> bool:
        """True when the two names share room, or one stands on the line of the other."""
        if self.left < other.right + AIR and other.left < self.right + AIR:
            rows = self.row <= other.top_row and other.row <= self.top_row
            return rows or self._spans(other) or other._spans(self)
        return self._spans(other) or other._spans(self)

    def _spans(self, other: Name) -> bool:
        """True when the line of `other`, up to its name, runs through this name."""
        near = self.left - AIR < other.x < self.right + AIR and abs(self.x - other.x) > SAME
        return near and other.row >= self.row


def merged(marks: Sequence[tuple[float, str]]) -> list[tuple[float, str]]:
    """Marks from left to right; those on one line as one, with their names behind each other."""
    found: list[tuple[float, str]] = []
    for x, text in sorted(marks):
        if found and x - found[-1][0] <= SAME:
            found[-1] = (found[-1][0], f"{found[-1][1]}; {text}")
        else:
            found.append((x, text))
    return found


def place_names(marks: Sequence[tuple[float, str]], left: float, right: float) -> list[Name] | None:
    """Names of marks (x in mm and text, from left to right) between two edges; None: number them."""
    width = min(NAME_WIDTH, (right - left) / 3 - 2 * AIR)
    texts = [wrapped(text, width) for _, text in marks]
    widths = [max(map(text_width, lines)) for lines in texts]
    fits = sum(x + GAP + wide <= right for (x, _), wide in zip(marks, widths, strict=True))
    for turned in range(fits, -1, -1):  # from this one on, names stand to the left of their lines
        names = _placed(marks, texts, widths, turned)
        if names is not None and all(left <= name.left and name.right <= right for name in names):
            return names
    return None


def _placed(
    marks: Sequence[tuple[float, str]], texts: Sequence[tuple[str, ...]], widths: Sequence[float], turned: int
) -> list[Name] | None:
    """Each name in the lowest row in which it meets no other; None when one finds none."""
    placed: list[Name] = []
    for number in (*range(turned - 1, -1, -1), *range(turned, len(marks))):
        x = marks[number][0]
        start = x + GAP if number < turned else x - GAP - widths[number]
        rows = (Name(x, texts[number], start, row) for row in range(MOST_ROWS))
        free = (name for name in rows if not any(name.meets(other) for other in placed))
        name = next(free, None)
        if name is None or name.top_row >= MOST_ROWS:
            return None
        placed.append(name)
    return placed


def rows_above(names: Sequence[Name]) -> float:
    """Room above the plot that the names take (mm)."""
    return max((name.top_row + 1 for name in names), default=0) * ROW


def base_line(name: Name, line: int, top: float) -> float:
    """Base line of one of its lines of text, above a plot whose upper edge is `top` (mm)."""
    return top - 1.0 - ROW * (name.top_row - line)


def line_top(name: Name, top: float) -> float:
    """Where its line ends: beside the lowest line of its name (mm)."""
    return top - 1.0 - ROW * name.row - LETTER
