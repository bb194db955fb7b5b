"""The times that are not cutting: the shop's own for each, else those of common practice, marked as assumed.

    ALLOWED     what there is to do besides cutting, and how long it usually takes
    Timing      what the times of a job rest on besides its operations
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from generator.job.lathe import Lathe
from generator.job.model import Job
from generator.job.shop import House
from generator.job.written import Given
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.figure import Quantity
from generator.sheet.plans import LathePlan, PassPlan, ThreadPlan
from generator.si import Time, minute

PRACTICE: Final = later("common practice, no source")
ALLOWED: Final[Mapping[str, tuple[str, Time, Quantity]]] = {  # common practice stands in; no source
    "set_up": (later("cleaning, chucking, truing"), 20 * minute, "duration"),
    "steady": (later("setting the steady rest"), 15 * minute, "duration"),
    "center": (later("setting the center"), 5 * minute, "duration"),
    "tool": (later("a tool change"), 3 * minute, "duration"),
    "levers": (later("setting levers"), 3 * minute, "duration"),
    "gears": (later("changing gears"), 15 * minute, "duration"),
    "come_back": (later("each way back"), 15.0, "time"),
    "measure": (later("measuring once"), 1 * minute, "duration"),
    "fit": (later("trying the mate once"), 2 * minute, "duration"),
    "hand_over": (later("deburring, cleaning, marking"), 10 * minute, "duration"),
}


@dataclass(frozen=True)
class Timing:
    """What the times rest on besides the operations; plans are None where their section has none."""

    job: Job
    lathe: Lathe
    house: House
    thread: ThreadPlan | None
    levers: LathePlan | None
    cuts: PassPlan | None
    desk: Desk

    def allowed(self, key: str) -> Time:
        """The shop's own time for something, else that of common practice; laid when it is first needed."""
        name, (words, usual, quantity) = f"time.allowed.{key}", ALLOWED[key]
        laid = self.desk.figures.get(name)
        if laid is not None and isinstance(laid.value, float):
            return laid.value
        own: Given | None = getattr(self.house.times, key)
        return self.desk.chosen(name, say("Time for {words}", words=words), own, usual, quantity, PRACTICE)
