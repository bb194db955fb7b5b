"""What a thread designation says, once it has been read."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from generator.si import inch, mm


@dataclass(frozen=True)
class Designation:
    """A screw thread as its designation gives it, in the thread's own unit.

    `text` is what was written. `series` is UNC, UNF, UNEF, UN, UNS (with R for the rounded root: UNRC) or M.
    `nominal` is the nominal major diameter, `nominal_text` its size as written (``2 1/4``, ``#10``, ``10``).
    `class_assumed` and `pitch_assumed` say that the designation left them out. `engagement_group` is S, N
    or L for metric threads, empty for Unified ones.
    """

    text: str
    family: Literal["UN", "M"]
    series: str
    nominal: float
    nominal_text: str
    pitch: Fraction
    lead: Fraction
    starts: int
    class_: str
    class_assumed: bool
    pitch_assumed: bool
    hand: Literal["right", "left"]
    unit: Literal["in", "mm"]
    rounded_root: bool
    engagement_group: str = ""

    @property
    def internal(self) -> bool:
        """True for a thread in a bore: classes 1B, 2B, 3B (ASME B1.1); capital letters (ISO 965-1)."""
        return self.class_[1] in "BGH"

    @property
    def side(self) -> Literal["internal", "external"]:
        """Internal or external, in the words of the standards."""
        return "internal" if self.internal else "external"

    @property
    def tpi(self) -> Fraction | None:
        """Threads per inch of a Unified thread; None for a metric one."""
        return 1 / self.pitch if self.family == "UN" else None

    @property
    def unit_si(self) -> float:
        """The thread's unit in meters."""
        return inch if self.unit == "in" else mm
