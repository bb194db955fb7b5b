"""Lettering along a line: broken to a width, and kept apart.

wrapped      a text as lines no wider than a width
spread       places along a line, as near to where they are wanted as their sizes allow
"""

from __future__ import annotations

from collections.abc import Sequence

from generator.render.drawing import text_width


def wrapped(text: str, width: float) -> tuple[str, ...]:
    """A text as lines no wider than `width` mm, broken between words where that is possible.

    >>> wrapped("a quarter of the tolerance", 30)
    ('a quarter of the', 'tolerance')
    """
    lines: list[str] = []
    line = ""
    for word in str(text).split():
        longer = f"{line} {word}" if line else word
        if line and text_width(longer) > width:
            lines.append(line)
            longer = word
        while text_width(longer) > width and len(longer) > 1:
            fits = next(n for n in range(len(longer) - 1, 0, -1) if n == 1 or text_width(longer[:n]) <= width)
            lines.append(longer[:fits])
            longer = longer[fits:]
        line = longer
    return (*lines, line) if line else tuple(lines)


def spread(wanted: Sequence[float], sizes: Sequence[float], low: float, high: float) -> list[float]:
    """Middles of things of some sizes, in a row between `low` and `high` without overlap.

    Their order is that of the wanted middles. Where there is too little room they reach past `high`.

    >>> spread([5, 5, 9], [2, 2, 2], 0, 20)
    [4.0, 6.0, 9.0]
    """
    order = sorted(range(len(wanted)), key=lambda one: wanted[one])
    groups: list[tuple[float, float, list[int]]] = []  # where a run of things begins, its length, its members
    for one in order:
        start, length, members = wanted[one] - sizes[one] / 2, sizes[one], [one]
        while True:
            start = max(low, min(start, high - length))
            if not groups or groups[-1][0] + groups[-1][1] <= start:
                break
            _, its, others = groups.pop()
            members = [*others, *members]
            length += its
            start = _fitted(wanted, sizes, members)
        groups.append((start, length, members))
    places = [0.0] * len(wanted)
    for start, _, members in groups:
        for one in members:
            places[one] = start + sizes[one] / 2
            start += sizes[one]
    return places


def _fitted(wanted: Sequence[float], sizes: Sequence[float], members: Sequence[int]) -> float:
    """Where a run begins so that its members lie as near to their wanted middles as can be, on average."""
    before, sum_of = 0.0, 0.0
    for one in members:
        sum_of += wanted[one] - sizes[one] / 2 - before
        before += sizes[one]
    return sum_of / len(members)
