"""Standard tapers: ratio and sizes, from print.

    TaperRow        one taper
    standard_taper  by name
    taper_names     all names, in the order of the table
"""

from __future__ import annotations

import difflib
from dataclasses import dataclass
from functools import cache

from generator.errors import SheetError
from generator.language.say import later, say
from generator.si import Length, ft, inch
from generator.tables.rows import table


class UnknownTaper(SheetError, ValueError):
    """A taper that the table does not have; the message names the nearest and all known ones."""


@dataclass(frozen=True)
class TaperRow:
    """One standard taper.

    `ratio` is change of diameter over length. `large` is the diameter at the gauge line, `small` that of the
    small end of the plug, `length` from one to the other, m; None where the source gives none.
    """

    name: str
    ratio: float
    large: Length | None
    small: Length | None
    length: Length | None
    source: str
    from_memory: bool

    @property
    def per_foot(self) -> Length:
        """Change of diameter in a foot of length, m."""
        return self.ratio * ft


def taper_names() -> tuple[str, ...]:
    """Names of all tapers, in the order of the table."""
    return tuple(taper.name for taper in _tapers().values())


def standard_taper(name: str) -> TaperRow:
    """The taper of that name, written with or without capitals.

    Raises
    ------
    UnknownTaper
        When the table has no such taper.

    Examples
    --------
    >>> round(standard_taper("Morse 4").per_foot / inch, 5)
    0.62326
    """
    known = _tapers()
    found = known.get(_plain(name))
    if found is None:
        near = difflib.get_close_matches(_plain(name), known, 1)
        hint = say("did you mean {name}? ", name=known[near[0]].name) if near else ""
        raise UnknownTaper(
            say(
                '"{name}" is not a standard taper: {hint}the list has {taper_names}',
                name=name,
                hint=hint,
                taper_names=", ".join(taper_names()),
            )
        )
    return found


def _plain(name: str) -> str:
    return " ".join(name.casefold().split())


@cache
def _tapers() -> dict[str, TaperRow]:
    return {_plain(row["name"]): _read(row) for row in table("tapers")}


def _read(row: dict[str, str]) -> TaperRow:
    def size(column: str) -> Length | None:
        return float(row[column]) * inch if row[column] else None

    return TaperRow(
        row["name"],
        float(row["per_foot"]) * inch / ft,
        size("large"),
        size("small"),
        size("length"),
        later(row["source"]),
        row["from_memory"] == "yes",
    )
