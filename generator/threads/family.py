"""What every thread family gives: reading and writing its designations, its form, its limits of size."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Literal

from generator.threads.designation import Designation
from generator.threads.gauging import Gauging, usual_gauging
from generator.threads.profile import Profile
from generator.threads.sizes import ThreadLimits
from generator.threads.text import Written


@dataclass(frozen=True)
class StandardSize:
    """One thread of a family's standard series: how it is written, its basic major diameter and pitch.

    `designation` is of the external thread in its usual class; `major` and `pitch` are in the family's own
    unit. `common` is False for series that a repair shop seldom meets.
    """

    designation: str
    major: float
    pitch: float
    unit: Literal["in", "mm"]
    common: bool = True


class Family(ABC):
    """One family of threads. `FAMILY` of its module is the only instance.

    Attributes
    ----------
    key : the family in records (``UN``, ``M``, ``ACME``)
    name : the family in a sentence (``Unified inch threads``)
    standard : the standard that rules it (``ASME B1.1``)
    examples : designations in the standard's own form, the most usual first
    order : families with a lower number are asked first whether a text is theirs
    """

    key: str
    name: str
    standard: str
    examples: tuple[str, ...]
    order: int = 50

    @abstractmethod
    def claims(self, text: Written) -> bool:
        """Whether the text can only be meant for this family, well written or not."""

    @abstractmethod
    def read(self, text: Written) -> Designation:
        """The thread that the text names.

        Raises
        ------
        BadDesignation
            With what was written and what would be accepted.
        """

    @abstractmethod
    def write(self, d: Designation) -> str:
        """The designation in the standard's own form; reading it again gives the same thread."""

    @abstractmethod
    def profile(self, d: Designation) -> Profile:
        """The form of the groove."""

    @abstractmethod
    def limits(self, d: Designation, engagement: float | None = None) -> ThreadLimits:
        """Limits of size, in the thread's own unit; `engagement` (own unit) None takes the standard's.

        Raises
        ------
        OutsideRange
            Where the standard's tables and formulas end.
        """

    def engagements(self, d: Designation) -> tuple[float, float] | None:
        """Lengths of engagement that the designation asks for, over .. up to and including (own unit).

        The same twice where it says a length; None where it says nothing.
        """
        return None if d.engagement is None else (d.engagement, d.engagement)

    def mate(self, d: Designation) -> Designation:
        """The usual other half: the same thread on the other side, in the class that goes with this one.

        That is the class as it is written here; a family whose sides have classes of their own says which.
        """
        return replace(d, text="", side=d.other_side, side_assumed=False)

    def mates(self, d: Designation) -> tuple[Designation, ...]:
        """Every other half that goes with a thread, the usual one first."""
        return (self.mate(d),)

    def gauging(self, d: Designation) -> Gauging | None:
        """How it is gauged; the rule of limit gauges, unless a standard of gauges says otherwise."""
        return usual_gauging(self.profile(d), d.internal)

    @abstractmethod
    def sizes(self) -> Iterable[StandardSize]:
        """The standard series, smallest first."""
