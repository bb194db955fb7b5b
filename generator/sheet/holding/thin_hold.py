"""How jaws hold a tube: on points or arcs, how stiff it is against them, with what force."""

from __future__ import annotations

import math
from dataclasses import dataclass

from generator.job.lathe_parts import LatheChuck
from generator.job.model import Chuck
from generator.language.say import Later, later
from generator.sheet.capacity import used_head
from generator.sheet.holding.case import Case
from generator.sheet.holding.thin_tube import RoundCut, Squeezed
from generator.si import Angle, Force, Length, Pressure, mm

ALLOWED_SHARE = 0.25  # of a tolerance on diameter that the jaws' doings may take; common practice, no source
OF_DIAMETER, OF_THREAD = later("tolerance on diameter"), later("pitch diameter tolerance")
JAW_GAP = 5 * mm  # between two pie jaws, and soft jaws as wide; common practice, no source


@dataclass(frozen=True)
class Pressing:
    """The force of all jaws to reckon with, N, and what it is: the grip there is, else the one wanted."""

    words: str
    force: Force


@dataclass(frozen=True)
class Held:
    """A tube in n jaws that bear on arcs of twice `half_arc` (rad); E, and the cuts that leave it round.

    `in_jaws` is the out-of-round there for 1 N of each jaw, `points` the same of jaws that bear on lines (m).
    """

    tube: Squeezed
    n: int
    half_arc: Angle
    modulus: Pressure
    cuts: tuple[RoundCut, ...]
    points: Length
    in_jaws: Length

    @property
    def stiffness(self) -> float:
        """Force of all jaws over the out-of-round in them (N/m)."""
        return self.n / self.in_jaws

    def share(self, cuts: tuple[RoundCut, ...]) -> float:
        """Out-of-round at the worst place of these cuts over that in the jaws."""
        where = [(cut.low, cut.high) for cut in cuts]
        return self.tube.lobes(self.n, self.half_arc, self.modulus, where) / self.in_jaws


def hold(tube: Squeezed, n: int, half_arc: Angle, modulus: Pressure, cuts: tuple[RoundCut, ...]) -> Held:
    """A tube in n jaws."""
    gripped = [(tube.start, tube.end)]
    points = tube.lobes(n, 0.0, modulus, gripped)
    spread = tube.lobes(n, half_arc, modulus, gripped) if half_arc else points
    return Held(tube, n, half_arc, modulus, cuts, points, spread)


def jaw_kind(held: Chuck) -> str:
    """"pie", "soft" or "hard"."""
    return "pie" if held.pie_jaws else "soft" if held.soft_jaws else "hard"


def jaw_arc(case: Case, tube: Squeezed, n: int, kind: str, *, inside: bool) -> Angle:
    """Half the angle of the work on which one of n jaws bears (rad); hard jaws bear on a line."""
    if kind == "hard":
        return 0.0
    spacing, across, width = math.pi / n, tube.bore if inside else tube.od, jaw_width(case)
    widest = max(spacing - JAW_GAP / across, 0.0)
    if kind == "pie":
        return widest
    return spacing / 2 if width is None else min(width_arc(width, across), widest)


def width_arc(width: Length, across: Length) -> Angle:
    """Half the angle that a jaw's width spans on a diameter (rad)."""
    return math.asin(min(width / across, 1.0))


def jaw_width(case: Case) -> Length | None:
    """Width of one jaw of the chuck, where the lathe's record says it (m)."""
    head = used_head(case.bench.job, case.bench.lathe)
    return head.jaw_width.si if isinstance(head, LatheChuck) and head.jaw_width is not None else None


def tolerance_of(case: Case) -> tuple[Length, Later] | None:
    """Tolerance of the diameters, the customer's or the thread's, with its name (m); None without one."""
    said, thread = case.bench.job.limits.diameter, case.bench.thread
    if said is not None:
        return said.si, OF_DIAMETER
    width = thread.pitch_diameter_max - thread.pitch_diameter_min if thread is not None else 0.0
    return (width, OF_THREAD) if width else None


def pressing(case: Case) -> Pressing | None:
    """The force of all jaws to reckon with; None where neither is known."""
    for name, words in (("grip.force", "grip there is"), ("grip.needed", "grip wanted")):
        value = known(case, name)
        if value is not None:
            return Pressing(words, value)
    return None


def known(case: Case, name: str) -> float | None:
    """Value of a figure that is on the desk and above zero."""
    figure = case.desk.figures.get(name)
    value = figure.value if figure is not None else None
    return value if isinstance(value, float) and value > 0 else None
