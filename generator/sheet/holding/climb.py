"""Cuts so heavy for what holds the work that the tool digs in, or cuts far less than its dial says."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from generator.language.lists import and_words
from generator.language.say import first_large, say, say_count
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
    too = likewise(over[1:])
    if worst.deflection > worst.load.diameter / 2:
        desk.find(
            "climbs", "stop",
            say("{what} bends the work out of the tool's way by more than half its diameter: it cannot be "
                "cut as it is held.{too} {support}.",
                what=first_large(worst.what), too=too, support=first_large(_held_better(held, worst))),
            worst.load.where,
        )
        return
    desk.find(
        "climbs",
        "check",
        say("Under the heaviest cut of {what} the work gives {much} at {place}{against}. "
            "It may climb onto the tool or chatter.{too} {remedy}",
            what=worst.what, much=fine_words(worst.deflection, system),
            place=held.place_words(float(worst.places[worst.worst])), against=_against(worst, system),
            too=too, remedy=_remedy(worst, held)),
        worst.load.where,
    )


def likewise(others: Sequence[CutWalk]) -> str:
    """The sentence on further cuts of which a finding holds; empty without any."""
    if not others:
        return ""
    return say_count(
        " Operation {others} likewise.", " Operations {others} likewise.", len(others),
        others=and_words(cut.load.number for cut in others),
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
        return say(", more than {most}", most=fine_words(MOST_GIVE, system))
    return say(
        ", more than a quarter of the {depth} that is set, so that it cuts less than the dial says",
        depth=fine_words(depth, system),
    )


def _remedy(cut: CutWalk, held: HeldWork) -> str:
    depth = _depth(cut)
    suits = None if depth is None else depth_that_suits(depth, cut.deflection)
    support = _held_better(held, cut)
    if suits is not None:
        return say(
            "Cuts of at most {most} keep it within that; or {support}.",
            most=fine_words(suits, held.system), support=support,
        )
    if depth is not None:
        return say("No depth of cut is right for it as it is held: {support}.", support=support)
    if cut.load.name in ("face", "thread"):
        return say("Take it in lighter cuts, or {support}.", support=support)
    return say("Feed more lightly, or {support}.", support=support)


def _held_better(held: HeldWork, cut: CutWalk) -> str:
    less = "" if held.job.holding.centers is not None else say(", or let it stand out less")
    return f"{_support(held, cut)}{less}"


def _support(held: HeldWork, cut: CutWalk) -> str:
    holding = held.job.holding
    if not cut.load.center and not cut.load.inside and holding.center is None:
        return say("set a center or a steady rest")
    if not cut.load.steady and holding.steady is None:
        alone = cut.load.inside or cut.load.follow or cut.load.name not in ("turn", "thread")
        return say("set a steady rest") if alone else say("set a follow rest or a steady rest")
    return say("support it nearer the cut")
