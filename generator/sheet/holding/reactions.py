"""What jaws, steady rest and follow rest carry under the cuts of the route, in both planes.

The work's weight is in it, but not what a rest or a center is set up with. The center has its own section.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from generator.language.say import say
from generator.sheet.desk import Desk
from generator.sheet.head import ZERO_WORDS
from generator.sheet.holding.borne import Borne, Supported, most, supported
from generator.sheet.holding.case import Case
from generator.sheet.holding.cut_line import CutWalk, follow_place
from generator.sheet.holding.fingers import fingers_section
from generator.sheet.holding.give_figures import beam_words
from generator.sheet.holding.held_work import HeldWork
from generator.si import Force

COUPLE_SHARE: Final = 2 / 3  # of the grip: between the middles of two even rises of pressure


def reactions_section(case: Case, cuts: Sequence[CutWalk]) -> None:
    """Lay down what every support carries under the cut that loads it most, with findings."""
    found = supported(case.held, cuts)
    _lay_head(case, found)
    steadied = [one.steady for one in found if one.steady is not None]
    if steadied:
        fingers_section(case, steadied)
    followed = [cut for cut in cuts if cut.load.follow]
    if followed:
        _lay_follow(case, followed)


def _lay_force(name: str, label: str, one: Borne, at: int, held: HeldWork, desk: Desk) -> Force:
    where = held.place_words(float(one.cut.places[at]))
    return desk.computed(
        name,
        label,
        float(one.whole[at]),
        "force",
        "√({across}² + {up and down}²)",
        {"across": (abs(float(one.rear[at])), "force"), "up and down": (abs(float(one.up[at])), "force")},
        say("statics; {beam}", beam=beam_words(held)),
        note=say(
            "under {what}, the tool at {where}, the weight of the work with it",
            what=one.cut.what,
            where=where,
        ),
        rounds="up",
    )


def _lay_head(case: Case, found: Sequence[Supported]) -> None:
    held, desk = case.held, case.desk
    kind = held.job.holding.held.kind
    what = ZERO_WORDS[kind]
    force, at = most([one.head for one in found])
    _lay_force("give.head.force", say("Force across the {what}", what=what), force, at, held, desk)
    if kind == "centers":
        return
    worst = max(found, key=lambda one: float(one.moment.max()))
    main, moment = worst.cut.load.heaviest.main, float(worst.moment.max())
    desk.computed(
        "give.head.moment",
        say("Moment that bends the work at the {what}", what=what),
        moment,
        "torque",
        "{F} × {arm}",
        {"F": (main, "force"), "arm": (moment / main, "length")},
        say("statics; {beam}", beam=beam_words(held)),
        rounds="up",
        note=say(
            "under {what}, the weight of the work with it; as an arm of its cutting force",
            what=worst.cut.what,
        ),
    )
    if held.layout.grip > 0:
        desk.computed(
            "give.head.couple", say("Force at each end of the {what} from that moment", what=what),
            moment / (COUPLE_SHARE * held.layout.grip), "force", "{moment} ÷ ({share} × {grip})",
            {
                "moment": (moment, "torque"), "share": (COUPLE_SHARE, "ratio"),
                "grip": (held.layout.grip, "length"),
            },
            say("statics, pressure that rises evenly towards both ends of the grip"), rounds="up",
        )


def _lay_follow(case: Case, cuts: Sequence[CutWalk]) -> None:
    said = case.bench.job.holding.follow_rest_from_tool
    name, label = "give.follow.from_tool", say("Middle of the follow rest's jaws behind the tool")
    if said is not None:
        case.desk.given(name, label, said, "length")
    else:
        practice = say("half the width of its jaws and a little more; common practice, no source")
        case.desk.chosen(name, label, None, follow_place(case), "length", practice)
    for key, label, forces in (
        ("top", say("Force on the jaw of the follow rest above the work"), [cut.lift.rest for cut in cuts]),
        ("rear", say("Force on the jaw of the follow rest behind the work"), [cut.away.rest for cut in cuts]),
    ):
        cut, force = max(zip(cuts, forces, strict=True), key=lambda one: float(one[1].max()))
        largest = float(force.max())
        whole = cut.load.heaviest.main if key == "top" else cut.load.heaviest.radial
        case.desk.computed(
            f"give.follow.{key}",
            label,
            largest,
            "force",
            "{F} × {share of it}",
            {"F": (whole, "force"), "share of it": (largest / whole, "ratio")},
            beam_words(case.held),
            note=say("under {what}, without the weight of the work", what=cut.what),
            rounds="up",
        )
