"""Surface speeds by material group, operation and cutting material, from print.

    OPERATIONS, TOOLS   the names that the tables know
    SpeedRange          low and high speed, and where they come from
    speed_range         the range for one operation

A row of ``cutting_speeds.csv`` comes first; where there is none, the operation takes a share of another
operation's speed (``cutting_speed_shares.csv``), and so on down to turning with high-speed steel.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Final, NamedTuple

from generator.errors import OutsideRange, SheetError
from generator.language.say import later, say
from generator.si import Speed, ft_per_min, m_per_min
from generator.tables.materials import GROUP_WORDS, material_group, material_groups
from generator.tables.rows import table

HIGH_SPEED_STEEL: Final = "high-speed steel"
CARBIDE: Final = "carbide"
TOOLS: Final = (HIGH_SPEED_STEEL, CARBIDE)
TOOL_WORDS: Final[Mapping[str, str]] = {
    HIGH_SPEED_STEEL: later("high-speed steel"), CARBIDE: later("carbide"),
}
OPERATION_WORDS: Final[Mapping[str, str]] = {  # as the tables of speeds and feeds call them
    "face": later("face"), "turn rough": later("turn rough"), "turn finish": later("turn finish"),
    "bore": later("bore"), "drill": later("drill"), "center drill": later("center drill"),
    "ream": later("ream"), "groove": later("groove"), "part off": later("part off"),
    "thread": later("thread"), "knurl": later("knurl"), "chamfer": later("chamfer"),
    "taper": later("taper"), "polish": later("polish"),
}
UNITS: Final = {"ft/min": ft_per_min, "m/min": m_per_min}
TURNING: Final = "turn rough"
DRILLING: Final = "drill"
PRACTICE: Final = "common practice"  # as the tables say it
OPERATIONS: Final = (
    "face",
    TURNING,
    "turn finish",
    "bore",
    DRILLING,
    "center drill",
    "ream",
    "groove",
    "part off",
    "thread",
    "knurl",
    "chamfer",
    "taper",
    "polish",
)


class NoCuttingData(SheetError, ValueError):
    """An operation or a cutting material that the tables do not have; the message names those they have."""


@dataclass(frozen=True)
class SpeedRange:
    """Surface speeds from `low` to `high`, m/s.

    `source` is in words for the sheet, `from_memory` says that a figure in it was not checked against
    print, `note` is a sentence for the sheet, or empty. `practice`: common practice stands in it.

    Raises
    ------
    OutsideRange
        When `low` is not above zero or `high` is below it.
    """

    low: Speed
    high: Speed
    source: str
    from_memory: bool = False
    note: str = ""
    practice: bool = False

    def __post_init__(self) -> None:
        if not (self.low > 0 and math.isfinite(self.high)):
            raise OutsideRange(
                say("surface speed"), self.low, 0.0, None, say("it has to be above zero"), "m/s"
            )
        if self.high < self.low:
            raise OutsideRange(say("upper end of a range of surface speeds"), self.high, self.low, None,
                               say("it is not below the lower end"), "m/s")


class _Share(NamedTuple):
    operation: str
    tool: str
    low: float
    high: float
    source: str
    from_memory: bool
    note: str


Own = Mapping[tuple[str, str], SpeedRange]  # the shop's own ranges by operation and tool


def speed_range(
    group: str | None,
    operation: str,
    tool: str = HIGH_SPEED_STEEL,
    *,
    turning: SpeedRange | None = None,
    drilling: SpeedRange | None = None,
) -> SpeedRange:
    """Surface speed for an operation: a printed range, or a share of one.

    Parameters
    ----------
    group : material group as in ``materials.csv``; None when the material is not known
    operation : one of `OPERATIONS`
    tool : one of `TOOLS`
    turning : the shop's own range for rough turning with this tool; other operations are then shares of it
    drilling : the shop's own range for drilling with high-speed steel

    Returns
    -------
    SpeedRange. Without a group it runs from the slowest group's low end to the fastest group's high end: the
    low end is the careful one, and the note says so.

    Raises
    ------
    NoCuttingData
        When the tables know no such operation or tool.
    UnknownGroup
        When there is no such material group.

    Examples
    --------
    Facing 304 with carbide, roughing, in ft/min (US Air Force T.O. 1-1A-9, table 2-8):

    >>> found = speed_range("austenitic stainless", "turn rough", "carbide")
    >>> round(found.low / ft_per_min), round(found.high / ft_per_min), found.source
    (150, 200, 'US Air Force T.O. 1-1A-9, table 2-8')
    """
    known_operation(operation, OPERATIONS)
    known_tool(tool)
    given = {(TURNING, tool): turning, (DRILLING, HIGH_SPEED_STEEL): drilling}
    own = {place: found for place, found in given.items() if found is not None}
    if group is not None:
        material_group(group)
        return _of_group(group, operation, tool, own)
    return _over_all_groups(operation, tool, own)


def known_operation(operation: str, known: tuple[str, ...]) -> None:
    """Refuse an operation that a table does not have."""
    if operation not in known:
        raise NoCuttingData(
            say(
                'no cutting data for "{operation}": the table has {known}',
                operation=operation,
                known=", ".join(known),
            )
        )


def known_tool(tool: str) -> None:
    """Refuse a cutting material that the tables do not have."""
    if tool not in TOOLS:
        raise NoCuttingData(
            say(
                'no cutting data for a tool of "{tool}": the table has {tools}',
                tool=tool,
                tools=", ".join(TOOLS),
            )
        )


def _over_all_groups(operation: str, tool: str, own: Own) -> SpeedRange:
    every = {group: _of_group(group, operation, tool, own) for group in material_groups()}
    if len(set(every.values())) == 1:
        return next(iter(every.values()))
    slowest = min(every, key=lambda group: every[group].low)
    fastest = max(every, key=lambda group: every[group].high)
    return SpeedRange(
        every[slowest].low,
        every[fastest].high,
        f"{GROUP_WORDS[slowest]}: {every[slowest].source}; {GROUP_WORDS[fastest]}: {every[fastest].source}",
        every[slowest].from_memory or every[fastest].from_memory,
        say(
            "material not known: the range runs from {slowest} to {fastest}; start at the low end",
            slowest=GROUP_WORDS[slowest], fastest=GROUP_WORDS[fastest],
        ),
        every[slowest].practice or every[fastest].practice,
    )


def _of_group(group: str, operation: str, tool: str, own: Own) -> SpeedRange:
    if (operation, tool) in own:
        return own[operation, tool]
    printed = _printed().get((group, operation, tool))
    if printed is not None and (operation == TURNING or (TURNING, tool) not in own):
        return printed
    share = _share(operation, tool)
    return _take(share, _of_group(group, share.operation, share.tool, own))


def _take(share: _Share, of: SpeedRange) -> SpeedRange:
    parts = {
        "operation": OPERATION_WORDS[share.operation], "share": say(share.source), "source": of.source,
    }
    return SpeedRange(
        share.low * of.low,
        share.high * of.high,
        say("as {operation} ({share}); {operation}: {source}", **parts) if share.low == share.high == 1
        else say(
            "{low:.2g} to {high:.2g} of {operation} ({share}); {operation}: {source}",
            low=share.low, high=share.high, **parts,
        ),
        share.from_memory or of.from_memory,
        "; ".join(str(note) for note in (share.note, of.note) if note),
        of.practice or PRACTICE in share.source,
    )


@cache
def _printed() -> dict[tuple[str, str, str], SpeedRange]:
    return _threading() | {
        (row["group"], row["operation"], row["tool"]): SpeedRange(
            float(row["low"]) * UNITS[row["unit"]],
            float(row["high"]) * UNITS[row["unit"]],
            later(row["source"]),
            row["from_memory"] == "yes",
            later(row["note"]),
            PRACTICE in row["source"],
        )
        for row in table("cutting_speeds")
    }


def _threading() -> dict[tuple[str, str, str], SpeedRange]:
    """Threading speeds stand with their material group."""
    return {
        (row.group, "thread", HIGH_SPEED_STEEL): SpeedRange(
            row.threading_speed_low,
            row.threading_speed_high,
            row.speed_source,
            "from memory" in row.speed_source,
            practice=PRACTICE in row.speed_source,
        )
        for row in map(material_group, material_groups())
    }


@cache
def _share(operation: str, tool: str) -> _Share:
    row = next(
        row
        for row in table("cutting_speed_shares")
        if row["operation"] == operation and row["tool"] in {"", tool}
    )
    return _Share(
        row["of"],
        row["of_tool"] or tool,
        float(Fraction(row["low"])),
        float(Fraction(row["high"])),
        later(row["source"]),
        row["from_memory"] == "yes",
        later(row["note"]),
    )
