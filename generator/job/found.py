"""What was measured on the thread that came in: the block `found` of a job file.

How well a reading is known is said by `within`, or told by the instrument it was taken with; where neither is
written, common practice stands in.
"""

from __future__ import annotations

from typing import Annotated, Final, Literal, Self

from pydantic import model_validator

from generator.job.fields import Angle, Count, Length, Number, Strict, TaperRatio, Text, Word, YesNo
from generator.job.written import Given, refused
from generator.si import mm
from generator.threads.identify.measured import (
    DIAMETERS,
    Measured,
    Name,
    Reading,
    faults,
    reading,
)

READINGS: Final[tuple[Name, ...]] = (
    "major", "minor", "pitch_diameter", "pitch", "pitch_over_ten", "tpi", "lead", "angle", "taper",
)
NO_LENGTHS: Final = ("tpi", "angle", "taper")
# How well a diameter is known by the instrument: common practice, no source.
INSTRUMENTS: Final = (
    ("micrometer", 0.01 * mm), ("wires", 0.02 * mm), ("caliper", 0.05 * mm), ("calliper", 0.05 * mm),
    ("vernier", 0.05 * mm), ("rule", 0.25 * mm), ("tape", 1 * mm),
    ("messschraube", 0.01 * mm), ("mikrometer", 0.01 * mm), ("messdr", 0.02 * mm),
    ("messschieber", 0.05 * mm), ("schieblehre", 0.05 * mm), ("stahlmaß", 0.25 * mm), ("lineal", 0.25 * mm),
    ("maßband", 1 * mm),
)


class Found(Strict):
    """What was measured on the thread that came in; one diameter or a pitch at least."""

    inside: YesNo = False
    """The thread measured is in a bore."""
    worn: YesNo = False
    """It is worn: outside it reads under, inside it reads over."""
    hand: Annotated[Literal["left", "right"], Word] = "right"
    """Its hand."""
    starts: Count | None = None
    """Number of its starts, where they were counted."""
    major: Length | None = None
    """Diameter over the crests outside, of the roots inside."""
    minor: Length | None = None
    """Diameter of the bore inside, of the roots outside."""
    pitch_diameter: Length | None = None
    """Pitch diameter, over wires or balls."""
    pitch: Length | None = None
    """From one crest to the next."""
    pitch_over_ten: Length | None = None
    """From one crest to the tenth after it."""
    tpi: Number | None = None
    """Threads in one inch, counted or by the leaf that seats."""
    lead: Length | None = None
    """What the mate advances in one turn, where it has several starts."""
    angle: Angle | None = None
    """Angle between the flanks, by the leaf that seats."""
    taper: TaperRatio | None = None
    """Change of diameter over length."""
    within: Length | None = None
    """How far the lengths here may be off, either way; else what is usual for the instrument."""
    notes: Text | None = None
    """What else was seen: wear, marks, the crests."""

    def measured(self) -> Measured:
        """The readings, each with how well it is known (SI)."""
        return Measured(
            **{name: self._reading(name) for name in READINGS},
            inside=self.inside, worn=self.worn, hand=self.hand, starts=self.starts,
        )

    def given(self) -> list[tuple[Name, Given]]:
        """What was written, in the order of the keys."""
        return [(name, one) for name in READINGS if (one := getattr(self, name)) is not None]

    def _reading(self, name: Name) -> Reading | None:
        given: Given | None = getattr(self, name)
        if given is None:
            return None
        within = None
        if name not in NO_LENGTHS and self.within is not None:
            within = self.within.si
        elif name in DIAMETERS:
            within = next((size for word, size in INSTRUMENTS if word in given.with_.lower()), None)
        return reading(name, given.si, within)

    @model_validator(mode="after")
    def _possible(self) -> Self:
        wrong = faults(self.measured())
        if wrong:
            raise refused(*wrong)
        return self
