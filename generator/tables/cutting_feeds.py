"""Feeds and depths of cut by operation and cutting material, from print.

    FeedRange      low and high feed, and where they come from
    feed_range     the range for one operation
    DepthRange     low and high depth of one cut
    depth_range    the range for a roughing or a finishing cut
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from generator.errors import OutsideRange
from generator.language.say import later, say
from generator.si import FeedPerRev, Length, inch
from generator.tables.cutting_speeds import (
    HIGH_SPEED_STEEL,
    OPERATION_WORDS,
    OPERATIONS,
    NoCuttingData,
    known_operation,
    known_tool,
)
from generator.tables.rows import table

BY_DIAMETER: Final = ("drill", "center drill", "ream")
REAMING: Final = (2.0, 3.0)  # times the feed of a drill of that size
LEAD_IS_FEED: Final = "thread"
BY_HAND: Final = "polish"
DEPTH_OPERATIONS: Final = (
    "turn rough",
    "turn finish",
    "face rough",
    "face finish",
    "bore rough",
    "bore finish",
)


@dataclass(frozen=True)
class FeedRange:
    """Feeds from `low` to `high`, m a revolution; `source`, `from_memory` and `note` as in `SpeedRange`."""

    low: FeedPerRev
    high: FeedPerRev
    source: str
    from_memory: bool = False
    note: str = ""


@dataclass(frozen=True)
class DepthRange:
    """Depths of one cut from `low` to `high`, on the radius, m."""

    low: Length
    high: Length
    source: str
    from_memory: bool = False


def feed_range(
    operation: str, tool: str = HIGH_SPEED_STEEL, *, diameter: Length | None = None
) -> FeedRange | None:
    """Feed for an operation.

    Parameters
    ----------
    operation : one of ``cutting_speeds.OPERATIONS``
    tool : one of ``cutting_speeds.TOOLS``
    diameter : of the drill, the pilot or the reamer, m

    Returns
    -------
    FeedRange; None for a thread, whose feed is its lead, and for polishing, which has none.

    Raises
    ------
    NoCuttingData
        When the tables know no such operation or tool, or a drill's diameter is missing.
    OutsideRange
        When the diameter is not above zero.

    Notes
    -----
    A reamer takes two to three times the feed of a drill of its size (common practice, no source).

    Examples
    --------
    A 3/8 in drill, in inches a revolution (US Navy course NAVEDTRA 14345):

    >>> found = feed_range("drill", diameter=0.375 * inch)
    >>> round(found.low / inch, 4), round(found.high / inch, 4)
    (0.004, 0.007)
    """
    known_operation(operation, OPERATIONS)
    known_tool(tool)
    if operation in {LEAD_IS_FEED, BY_HAND}:
        return None
    if operation not in BY_DIAMETER:
        return _read(
            next(
                row
                for row in table("cutting_feeds")
                if row["operation"] == operation and row["tool"] in {"", tool}
            )
        )
    if diameter is None:
        raise NoCuttingData(
            say(
                "the feed of {operation} goes by the diameter of the tool: it is missing",
                operation=OPERATION_WORDS[operation],
            )
        )
    if not diameter > 0:
        raise OutsideRange(say("diameter"), diameter, 0.0, None, say("it has to be above zero"), "m")
    drilled = _read(_row_of_drill(diameter))
    if operation == "ream":
        low, high = REAMING
        return FeedRange(
            low * drilled.low,
            high * drilled.high,
            say(
                "{low:g} to {high:g} times a drill's (common practice, no source); drill: {source}",
                low=low, high=high, source=drilled.source,
            ),
            drilled.from_memory,
        )
    return drilled


def depth_range(operation: str, tool: str = HIGH_SPEED_STEEL) -> DepthRange:
    """Depth of one cut, on the radius: "turn rough", "turn finish", and the same of face and bore.

    Raises
    ------
    NoCuttingData
        When the table knows no such operation or tool.

    Examples
    --------
    >>> found = depth_range("turn rough")
    >>> round(found.low / inch, 3), round(found.high / inch, 3)
    (0.05, 0.15)
    """
    known_operation(operation, DEPTH_OPERATIONS)
    known_tool(tool)
    row = next(row for row in table("cutting_depths") if row["operation"] == operation)
    return DepthRange(
        float(row["low"]) * inch, float(row["high"]) * inch, later(row["source"]), row["from_memory"] == "yes"
    )



def _row_of_drill(diameter: Length) -> dict[str, str]:
    size = Fraction(diameter / inch).limit_denominator(10**6)
    return next(
        row
        for row in table("cutting_feeds")
        if row["operation"] == "drill" and (not row["up_to"] or size <= Fraction(row["up_to"]))
    )


def _read(row: dict[str, str]) -> FeedRange:
    return FeedRange(
        float(row["low"]) * inch,
        float(row["high"]) * inch,
        later(row["source"]),
        row["from_memory"] == "yes",
        later(row["note"]),
    )
