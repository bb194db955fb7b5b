"""Cuts so heavy for what holds the work that the tool digs in, or cuts far less than its dial says."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from generator.sheet.desk import Desk
from generator.sheet.figure import System
from generator.sheet.holding.cut_line import CutWalk
from generator.sheet.holding.held_work import HeldWork
from generator.sheet.holding.loads import ALONG
from generator.sheet.wording import fine_words
from generator.si import Length, mm

SHARE_OF_DEPTH: Final = 0.25  # deflection over depth of cut; common practice, no source
MOST_GIVE: Final = 0.25 * mm  # deflection under any cut; common practice, no source


def depth_that_suits(depth: Length, deflection: Length) -> Length | None:
    """Largest depth of cut under which the work gives no more than is sound; None where no depth will do.

    The force grows with the depth, and the deflection with the force.

    >>> depth_that_suits(0.002, 0.0004)  # under 2 mm it gives 0.4 mm: a fifth, but more than 0.25 mm
    0.00125
    >>> depth_that_suits(0.002, 0.0006) is None  # more than a quarter of the depth, of any depth
    True
    """
    if deflection > SHARE_OF_DEPTH * depth:
        return None
    return depth if deflection <= MOST_GIVE else depth * MOST_GIVE / deflection


def find_climbing(cuts: Sequence[CutWalk], held: HeldWork, desk: Desk) -> None:
    """One finding for all cuts that bend the work too far, with the depth that would be right."""
    told = any(finding.id == "open-end" for finding in desk.findings)
    over = sorted(
        (cut for cut in cuts if _climbs(cut) and not (told and _open(cut, held))),
        key=lambda cut: -cut.deflection,
    )
    if not over:
        return
    worst, system = over[0], held.system
    others = [str(cut.load.number) for cut in over[1:]]
    too = f" Operation{'s' if len(others) > 1 else ''} {' and '.join(others)} likewise." if others else ""
    if worst.deflection > worst.load.diameter / 2:
        desk.find(
            "climbs", "stop",
            f"{worst.what[:1].upper()}{worst.what[1:]} bends the work out of the tool's way by more than "
            f"half its diameter: it cannot be cut as it is held.{too} "
            f"{_held_better(held, worst).capitalize()}.",
            worst.load.where,
        )
        return
    desk.find(
        "climbs",
        "check",
        f"Under the heaviest cut of {worst.what} the work gives {fine_words(worst.deflection, system)} at "
        f"{held.place_words(float(worst.places[worst.worst]))}{_against(worst, system)}. "
        f"It may climb onto the tool or chatter.{too} {_remedy(worst, held)}",
        worst.load.where,
    )


def _climbs(cut: CutWalk) -> bool:
    depth = _depth(cut)
    return cut.deflection > MOST_GIVE or (depth is not None and cut.deflection > SHARE_OF_DEPTH * depth)


def _open(cut: CutWalk, held: HeldWork) -> bool:
    """True for a cut made with the center away: the finding of its open end asks for the same support."""
    return held.job.holding.center is not None and not cut.load.center and not cut.load.steady


def _depth(cut: CutWalk) -> Length | None:
    """Depth of the heaviest cut along the work (m); None where the force does not grow with it."""
    return max(cut.plan.depths) if cut.load.name in ALONG and cut.plan.depths else None


def _against(cut: CutWalk, system: System) -> str:
    depth = _depth(cut)
    if depth is None or cut.deflection <= SHARE_OF_DEPTH * depth:
        return f", more than {fine_words(MOST_GIVE, system)}"
    return (
        f", more than a quarter of the {fine_words(depth, system)} that is set, "
        "so that it cuts less than the dial says"
    )


def _remedy(cut: CutWalk, held: HeldWork) -> str:
    depth = _depth(cut)
    suits = None if depth is None else depth_that_suits(depth, cut.deflection)
    support = _held_better(held, cut)
    if suits is not None:
        return f"Cuts of at most {fine_words(suits, held.system)} keep it within that; or {support}."
    if depth is not None:
        return f"No depth of cut is right for it as it is held: {support}."
    lightly = "Take it in lighter cuts" if cut.load.name in ("face", "thread") else "Feed more lightly"
    return f"{lightly}, or {support}."


def _held_better(held: HeldWork, cut: CutWalk) -> str:
    less = "" if held.job.holding.centers is not None else ", or let it stand out less"
    return f"{_support(held, cut)}{less}"


def _support(held: HeldWork, cut: CutWalk) -> str:
    holding = held.job.holding
    if not cut.load.center and not cut.load.inside and holding.center is None:
        return "set a center or a steady rest"
    if not cut.load.steady and holding.steady is None:
        alone = cut.load.inside or cut.load.follow or cut.load.name not in ("turn", "thread")
        return "set a steady rest" if alone else "set a follow rest or a steady rest"
    return "support it nearer the cut"
