"""Drawing scales: the recommended scales of ISO 5455, largest first."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from generator.si import Length

PAPER_MM_PER_M: Final = 1000.0

_ENLARGED: Final = (50, 20, 10, 5, 2)
_REDUCED: Final = (2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10000)


@dataclass(frozen=True)
class Scale:
    """A scale `paper`:`real`, for example 1:5."""

    paper: int
    real: int

    def __str__(self) -> str:
        return f"{self.paper}:{self.real}"

    @property
    def factor(self) -> float:
        """Length on paper over true length."""
        return self.paper / self.real

    def mm(self, length: Length) -> float:
        """Millimetres on paper of a true length in m.

        >>> Scale(1, 2).mm(0.0254)
        12.7
        """
        return length * PAPER_MM_PER_M * self.factor


SCALES: Final[tuple[Scale, ...]] = (
    *(Scale(n, 1) for n in _ENLARGED),
    Scale(1, 1),
    *(Scale(1, n) for n in _REDUCED),
)
"""Recommended scales, largest first.

Source: ISO 5455:1979, table 1 (published summary): 50:1 20:1 10:1 5:1 2:1, 1:1, 1:2 1:5 1:10 ... 1:10 000.
"""
