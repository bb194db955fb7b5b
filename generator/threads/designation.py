"""What a thread designation says, once it has been read."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from generator.si import inch, mm

Side = Literal["internal", "external"]
Hand = Literal["right", "left"]


@dataclass(frozen=True)
class Designation:
    """A screw thread as its designation gives it, in the thread's own unit.

    `text` is what was written. `family` is the key of its family, `series` a word of that family (UNC, UNRF,
    M, BSF …). `nominal` is the basic major diameter, `nominal_text` its size as written (``2 1/4``, ``#10``,
    ``10``; the size of a pipe thread is a name, not a measure). `tpi` is threads per inch, None where the
    family counts in millimeters of pitch. `class_` is empty where the family has none.
    `class_assumed`, `pitch_assumed` and `side_assumed` say that the designation left them out.
    `engagement_group` is S, N or L for metric threads, `engagement` a length written in the designation (own
    unit). `rounded_root` is of UNR threads. `form` is what the designation says about the form of the groove
    where the family leaves that open (``60deg``, ``7/45deg taper 1:16``).
    """

    text: str
    family: str
    series: str
    nominal: float
    nominal_text: str
    pitch: Fraction
    lead: Fraction
    starts: int
    class_: str
    class_assumed: bool
    pitch_assumed: bool
    hand: Hand
    unit: Literal["in", "mm"]
    side: Side
    tpi: Fraction | None = None
    side_assumed: bool = False
    rounded_root: bool = False
    engagement_group: str = ""
    engagement: float | None = None
    form: str = ""

    @property
    def internal(self) -> bool:
        """True for a thread in a bore."""
        return self.side == "internal"

    @property
    def other_side(self) -> Side:
        """The side that its mate is on."""
        return "external" if self.internal else "internal"

    @property
    def unit_si(self) -> float:
        """The thread's unit in meters."""
        return inch if self.unit == "in" else mm
