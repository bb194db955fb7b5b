"""What limits of size are made of, with the working that a sheet shows beside each."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Literal

from generator.errors import OutsideRange
from generator.language.lists import and_words
from generator.language.say import later, say
from generator.threads.designation import Designation

PutQuantity = Literal["length", "fine_length", "ratio", "count", "angle"]
Put = Mapping[str, tuple[float, PutQuantity]]


def known(size: float | None) -> float:
    """A size that this thread always has; what the standard leaves open is an error of the caller.

    >>> known(1.5)
    1.5
    """
    assert size is not None, "the standard gives no such limit"
    return size


@dataclass(frozen=True)
class Range:
    """Largest and smallest size in the thread's own unit; None where the standard gives no limit."""

    max: float | None
    min: float | None


@dataclass(frozen=True)
class SizeLine:
    """One size of a thread with its working, as the sheet lays it down.

    `name` is the end of the figure's name (``major.max``, ``pitch_diameter.tolerance``, ``gauge.e0``),
    `value` in the thread's own unit, `formula` a sentence or formula with ``{names}`` and `put` what goes in
    for them (lengths in the thread's own unit). `rounds` is the safe side for the second unit.
    """

    name: str
    label: str
    value: float
    formula: str
    put: Put = field(default_factory=dict)
    rounds: Literal["down", "up", "nearest"] = "nearest"
    note: str = ""
    quantity: PutQuantity = "length"


def remembered(*said: str) -> tuple[str, ...]:
    """What could only be had from memory, each in words; empty ones are left out.

    >>> remembered("the allowance", "", "the tolerance")
    ('the allowance', 'the tolerance')
    """
    return tuple(str(one) for one in said if one)


def too_coarse(
    d: Designation, left: float | Decimal, what: str = later("core"), name: str = later("this thread")
) -> OutsideRange:
    """The refusal of a thread whose pitch leaves no core, bore or minor diameter.

    `left` is what is left in the thread's own unit; `name` stands in where the thread was never written.
    """
    reason = say("the pitch is too coarse for this diameter")
    return OutsideRange(
        say("{what} of {thread}", what=what, thread=d.text or name), float(left), 0.0, None, reason, d.unit
    )


def in_inches(formula: str) -> str:
    """A formula that holds for sizes in inches only.

    >>> in_inches("0.06 × ∛{P}²")
    '0.06 × ∛{P}², in inches'
    """
    return say("{formula}, in inches", formula=formula)


LABELS = {
    "allowance": later("Allowance"),
    "major.tolerance": later("Major diameter tolerance"),
    "pitch_diameter.tolerance": later("Pitch diameter tolerance"),
    "minor.tolerance": later("Minor diameter tolerance"),
    "major.max": later("Major diameter, max"),
    "major.min": later("Major diameter, min"),
    "pitch_diameter.max": later("Pitch diameter, max"),
    "pitch_diameter.min": later("Pitch diameter, min"),
    "minor.max": later("Minor diameter, max"),
    "minor.min": later("Minor diameter, min"),
}
NO_MAX = later("the standard gives no max: a deeper groove costs only wall")


def size_line(
    name: str,
    value: float | None,
    formula: str,
    *put: float | tuple[float, PutQuantity] | None,
    label: str = "",
    note: str = "",
) -> SizeLine:
    """A line with the usual label and safe side of its name, its formula's names filled in their order.

    Parameters
    ----------
    name : end of the figure's name; a max is shown rounded down in the second unit, a min up
    value : in the thread's own unit
    formula : with ``{names}``
    put : one value for each name in the order in which they first stand in the formula: a length (own unit),
        or value and quantity; ``P``, ``L`` and ``p`` are fine lengths
    label, note : where they are not the usual ones

    Examples
    --------
    >>> size_line("minor.max", 8.676, "{D1 min} + {TD1}", 8.376, 0.3).rounds
    'down'
    """
    names = list(dict.fromkeys(re.findall(r"{([^}]+)}", formula)))
    values = dict(zip(names, put, strict=True))
    filled: dict[str, tuple[float, PutQuantity]] = {}
    for one, given in values.items():
        if isinstance(given, tuple):
            filled[one] = given
        else:
            filled[one] = (known(given), "fine_length" if one in FINE else "length")
    rounds = _ROUNDS.get(name.rpartition(".")[2], "nearest")
    return SizeLine(name, label or LABELS[name], known(value), formula, filled, rounds, note)


FINE = ("P", "L", "p")
_ROUNDS: dict[str, Literal["down", "up", "nearest"]] = {"max": "down", "min": "up"}


@dataclass(frozen=True)
class ThreadLimits:
    """Limits of size of one thread, in its own unit, rounded as the standard prints them.

    `engagement` is the length of engagement that the limits are for (for a metric thread the longest of
    its group), None where the standard names none; `engagement_standard` is False when a length outside the
    standard's went into the formula. `allowance` is the distance of the crest and pitch diameter from the
    basic size, towards looseness. `major_tolerance` is of external threads and `minor_tolerance` of internal
    ones: that of the crest.
    A taper thread's limits are those at `plane`, which says where that is; empty for parallel threads.
    `tabulated` says that the standard's tables hold this combination. `remarks` are finished sentences on
    what is not verified or special here; `from_memory` names the figures that could only be had from memory
    of the standard, in words (``tolerances of class 3G``), `memory` all of them in one phrase.
    `places` is the number of decimals that the standard prints. `lines` are all sizes in the order in which
    the sheet lays them down, each with its working.
    """

    designation: Designation
    major: Range
    pitch_diameter: Range
    minor: Range
    allowance: float
    major_tolerance: float | None
    pitch_tolerance: float | None
    engagement: float | None
    engagement_standard: bool
    tabulated: bool
    remarks: tuple[str, ...]
    source: str
    minor_tolerance: float | None = None
    from_memory: tuple[str, ...] = ()
    places: int = 4
    plane: str = ""
    lines: tuple[SizeLine, ...] = ()

    @property
    def memory(self) -> str:
        """What is from memory, in one phrase; empty when nothing is."""
        return and_words(self.from_memory) if self.from_memory else ""
