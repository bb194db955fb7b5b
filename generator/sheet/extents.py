"""How far along the bed each cut goes, and what of it matters for reach."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from generator.calc.form_tool import Side
from generator.errors import Location
from generator.language.say import later, say
from generator.sheet.layout import Way
from generator.sheet.plans import OperationPlan, ThreadPlan
from generator.si import Angle, Length

RUN_OFF = 2  # pitches that a thread's tool runs up, or off, at its free end: common practice, no source
BY_QUILL = ("center_drill", "drill")  # held in the tailstock, not on the carriage
BY_HAND = ("polish",)
NAMES = {
    "face": later("Facing"),
    "center_drill": later("Center drilling"),
    "turn": later("Turning"),
    "taper": later("Taper turning"),
    "bore": later("Boring"),
    "drill": later("Drilling"),
    "groove": later("Grooving"),
    "chamfer": later("Chamfering"),
    "knurl": later("Knurling"),
    "part_off": later("Parting off"),
    "polish": later("Polishing"),
}


@dataclass(frozen=True)
class Extent(Way):
    """One cut along the bed: the tool's point goes from `start` to `end` (m; equal for a cut straight in).

    `name` is the cut's part of a figure name, `label` what the sheet calls it, `where` its line. `run_off` is
    how far the tool goes past the cut on its tailstock side, running up or running off. The cross slide goes
    from `from_diameter` to `to_diameter`; 0 is the center. A tool `inside` the work stands out `stands_out`
    further towards the chuck than a turning tool does (None: not known). `by_quill` is a tool in the
    tailstock. `before_steady` is a cut made before the steady rest is set, `no_center` one made without the
    tailstock center.
    """

    name: str
    label: str
    start: Length
    end: Length
    where: Location | None = None
    run_off: Length = 0.0
    from_diameter: Length | None = None
    to_diameter: Length | None = None
    inside: bool = False
    stands_out: Length | None = None
    by_quill: bool = False
    before_steady: bool = False
    no_center: bool = False

    @property
    def path(self) -> tuple[Length, Length]:
        """Where the tool's point is nearest to the chuck and to the tailstock (m)."""
        return (self.low, self.high + self.run_off)

    @property
    def threading(self) -> bool:
        """True for the thread and its relief."""
        return self.name in ("thread", "relief")


def thread_extents(
    thread: ThreadPlan | None,
    where: Location | None = None,
    relief_where: Location | None = None,
) -> list[Extent]:
    """The thread and its relief, the way the tool runs."""
    if thread is None:
        return []
    right_hand = thread.designation.hand == "right"
    end_of_cut = thread.end - thread.run_out
    start, end = (thread.start, end_of_cut) if right_hand else (end_of_cut, thread.start)
    found = [
        Extent(
            "thread",
            say("Thread"),
            start,
            end,
            where,
            RUN_OFF * thread.pitch,
            thread.blank,
            thread.root_diameter,
            thread.internal,
            thread.bar_out,
        )
    ]
    if thread.relief_start is not None and thread.relief_end is not None:
        found.append(
            Extent(
                "relief", say("Relief"), thread.relief_start, thread.relief_end, relief_where or where,
                from_diameter=thread.blank, to_diameter=thread.relief_diameter, inside=thread.internal,
                stands_out=thread.bar_out,
            )
        )
    return found


def route_extents(plans: Iterable[OperationPlan]) -> list[Extent]:
    """The other cuts of the route; the thread and its relief come from `thread_extents`."""
    return [
        Extent(
            f"{plan.name}_{plan.number}",
            say("{cut} (operation {number})", cut=NAMES.get(plan.name, plan.name), number=plan.number),
            plan.start,
            plan.end,
            plan.where,
            from_diameter=plan.from_diameter,
            to_diameter=plan.to_diameter,
            inside=plan.inside,
            stands_out=plan.tool_reach if plan.inside else None,
            by_quill=plan.name in BY_QUILL,
            before_steady=plan.band,
            no_center=plan.name == "face",
        )
        for plan in plans
        if plan.name not in ("thread", "relief", *BY_HAND)
    ]


def set_over(angle: Angle, towards: Side, *, inside: bool = False) -> Angle:
    """The compound's angle, negative where it is set over towards the headstock (rad).

    Fed in outside towards the headstock, as for a right-hand thread, its handle stands towards the tailstock,
    and the other way about; inside it stands at the other end. Common practice, no source.

    >>> set_over(0.5, "headstock"), set_over(0.5, "tailstock"), set_over(0.5, "tailstock", inside=True)
    (0.5, -0.5, 0.5)
    """
    return angle if (towards == "headstock") != inside else -angle
