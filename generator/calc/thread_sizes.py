"""What limits of size are made of."""

from __future__ import annotations

from dataclasses import dataclass

from generator.calc.thread_designation import Designation


@dataclass(frozen=True)
class Range:
    """Largest and smallest size in the thread's own unit; None where the standard gives no limit."""

    max: float | None
    min: float | None


@dataclass(frozen=True)
class ThreadLimits:
    """Limits of size of one thread, in its own unit, rounded as the standard prints them.

    `engagement` is the length of engagement that the limits are for (for a metric thread the longest of
    its group); `engagement_standard` is False when a length outside the standard's went into the formula.
    `allowance` is the distance of the crest and pitch diameter from the basic size, towards looseness.
    `major_tolerance` is of external threads and `minor_tolerance` of internal ones: that of the crest.
    `tabulated` says that the standard's tables hold this combination. `remarks` are finished sentences on
    what is not verified or special here.
    """

    designation: Designation
    major: Range
    pitch_diameter: Range
    minor: Range
    allowance: float
    major_tolerance: float | None
    pitch_tolerance: float
    engagement: float
    engagement_standard: bool
    tabulated: bool
    remarks: tuple[str, ...]
    source: str
    minor_tolerance: float | None = None
