"""The grip there is, said or from the key, against the grip wanted."""

from __future__ import annotations

from dataclasses import dataclass

from generator.calc.grip import force_on_key, lift_moment
from generator.errors import Location
from generator.job.lathe import LatheChuck, LatheCollet
from generator.job.model import Centers, Chuck, Collet, Faceplate
from generator.sheet.capacity import used_head
from generator.sheet.holding.case import Case
from generator.sheet.holding.grip_demand import Demand, Gripped
from generator.sheet.holding.grip_friction import Friction
from generator.sheet.wording import force_words, rpm_words, torque_words
from generator.si import Force, SpindleSpeed, Torque

DIRTY = 0.5          # of the force of a clean and greased chuck; common practice, no source
MUCH_LESS = 0.6      # of the worst cut's grip: worth saying that the others want so little
MOST_LOSS = 2 / 3    # of the grip may go with speed: EN 1550, as a chuck maker's manual quotes it
PRACTICE = "common practice, no source"
FORCE = ("grip.force", "Grip there is at rest")


@dataclass(frozen=True)
class Wanted:
    """Grip wanted, N: what just `holds` the `worst` cut, with safety `at_rest`; `loss` at `speed` (rev/s).

    `tips` is the cut that tips the work most. `at_best` holds the worst one with the most friction that what
    is said allows.
    """

    worst: Demand
    tips: Demand
    holds: Force
    at_best: Force
    at_rest: Force
    loss: Force
    speed: SpindleSpeed
    gripped: Gripped
    friction: Friction


def jaw_count(held: Chuck | Collet | Faceplate | Centers) -> int | None:
    """Number of jaws; None where there are none."""
    return held.jaws if isinstance(held, Chuck) else None


def force_section(case: Case, wanted: Wanted, others: Force | None) -> Force | None:
    """Lay the grip there is and its findings; None when nobody knows it.

    `others` is the grip that just holds the cuts during which the other end is supported.
    """
    force = _lay_force(case)
    if force is None:
        _lay_unknown(case, wanted)
    else:
        _judge(case, wanted, force, others)
    _judge_lift(case, wanted, force)
    return force


def _rating(case: Case) -> tuple[Torque, Force] | None:
    head = used_head(case.bench.job, case.bench.lathe)
    if not isinstance(head, LatheChuck) or head.key_torque is None or head.grip_force is None:
        return None
    return head.key_torque.si, head.grip_force.si


def _lay_force(case: Case) -> Force | None:
    held, desk, rating = case.bench.job.holding.held, case.desk, _rating(case)
    if isinstance(held, Collet):
        head = used_head(case.bench.job, case.bench.lathe)
        said = held.force or (head.grip_force if isinstance(head, LatheCollet) else None)
        return desk.given(*FORCE, said, "force", note="all round the work") if said else None
    if not isinstance(held, Chuck):
        return None
    if held.force is not None:
        return desk.given(*FORCE, held.force, "force", note="all jaws together")
    on_key = held.key_torque or case.bench.house.key_torque
    if on_key is None or rating is None:
        return None
    force = desk.computed(
        *FORCE, force_on_key(on_key.si, *rating), "force", "{on the key} ÷ {rated torque} × {rated force}",
        {
            "on the key": (on_key.si, "torque"), "rated torque": (rating[0], "torque"),
            "rated force": (rating[1], "force"),
        },
        PRACTICE, rounds="down",
        note=f"all jaws together, clean and greased; about {DIRTY:.0%} of it dirty or dry",
    )
    if on_key.si > rating[0]:
        system = case.bench.system
        desk.find(
            "grip-over-key", "check",
            f"{on_key.with_unit} on the key is more than the {torque_words(rating[0], system)} this chuck "
            "is rated for: it strains scroll, screws and jaws. Use its own key, without a pipe on it.",
            on_key.where if held.key_torque else held.grip.where,
        )
    return force


def _lay_unknown(case: Case, wanted: Wanted) -> None:
    holding, desk, system, rating = case.bench.job.holding, case.desk, case.bench.system, _rating(case)
    jaws, where = jaw_count(holding.held), holding.grip.where
    wants = f"{_sentence(wanted.worst.words)} wants a grip of {force_words(wanted.at_rest, system)}"
    each = f", {force_words(wanted.at_rest / jaws, system)} a jaw" if jaws else ""
    if rating is None:
        desk.find(
            "grip-unknown", "note",
            f"{wants}{each}. How hard {_who(case)} is not known: measure it with a gauge, or find in its "
            f"maker's papers what it gives ({_keys(case)}).{_friction_words(wanted)}",
            where,
        )
        return
    torque = desk.computed(
        "grip.key_torque", "Torque wanted on the key", wanted.at_rest / rating[1] * rating[0], "torque",
        "{grip wanted} ÷ {rated force} × {rated torque}",
        {
            "grip wanted": (wanted.at_rest, "force"), "rated force": (rating[1], "force"),
            "rated torque": (rating[0], "torque"),
        },
        PRACTICE, rounds="up", note=f"clean and greased; dirty or dry about {1 / DIRTY:g} times as much",
    )
    if torque > rating[0]:
        desk.find(
            "grip-over-key", "check",
            f"{wants}, and the chuck is rated {force_words(rating[1], system)} with "
            f"{torque_words(rating[0], system)} on the key. {_remedies(wanted)}, or take a larger chuck; no "
            "pipe on the key.",
            where,
        )
        return
    desk.find(
        "grip-unknown", "note",
        f"{wants}{each}: {torque_words(torque, system)} on the key of a clean and greased chuck. Nobody said "
        f"how hard it is tightened (chuck: key_torque).{_friction_words(wanted)}",
        where,
    )


def _who(case: Case) -> str:
    return "the collet closes" if case.bench.job.holding.collet is not None else "the jaws press"


def _keys(case: Case) -> str:
    if case.bench.job.holding.collet is not None:
        return "collet: force, or collets: grip_force in the lathe's record"
    return "chuck: force, or chucks: key_torque and grip_force in the lathe's record"


def _judge(case: Case, wanted: Wanted, force: Force, others: Force | None) -> None:
    desk, system = case.desk, case.bench.system
    loss = 0.0 if wanted.gripped.inside else wanted.loss
    turning = force - loss
    at_speed = f" At {rpm_words(wanted.speed)} {force_words(loss, system)} of it is gone." if loss else ""
    if loss > MOST_LOSS * force:
        desk.find(
            "grip-speed", "stop",
            f"At {rpm_words(wanted.speed)} the jaws' own weight takes {force_words(loss, system)} of a grip "
            f"of {force_words(force, system)}; more than two thirds must not go (EN 1550). Run slower.",
            _where(case),
        )
    what = f"The grip is {force_words(force, system)} at rest.{at_speed} {_sentence(wanted.worst.words)}"
    share = turning / wanted.holds if wanted.holds else 1.0
    more = _others_words(case, wanted, others) + _friction_words(wanted)
    if turning < wanted.holds:
        desk.find(
            "grip-low", "stop" if turning < wanted.at_best else "check",
            f"{what} needs {force_words(wanted.holds, system)} before the work slips or comes out: it has "
            f"{max(share, 0.0):.0%} of that. {_remedies(wanted)}, or grip harder.{more}",
            _where(case),
        )
    elif force < wanted.at_rest:
        desk.find(
            "grip-low", "check",
            f"{what} just holds with {force_words(wanted.holds, system)}; with safety it wants "
            f"{force_words(wanted.at_rest, system)} at rest. {_remedies(wanted)}, or grip "
            f"harder; a cut of {force / wanted.at_rest:.0%} of that force would do.{more}",
            _where(case),
        )


def _remedies(wanted: Wanted) -> str:
    support = "Support its end, take" if wanted.worst.overhung else "Take"
    return f"{support} less depth or feed, take jaws that grip better"


def _friction_words(wanted: Wanted) -> str:
    """What would sharpen a figure that rests on friction which nobody said."""
    if not wanted.friction.unsaid:
        return ""
    guess = f" The friction of {wanted.friction.value:.2g} is the cautious guess"
    return f"{guess}: say {wanted.friction.unsaid}."


def _others_words(case: Case, wanted: Wanted, others: Force | None) -> str:
    if others is None or not wanted.worst.overhung or others > MUCH_LESS * wanted.holds:
        return ""
    return f" Cuts with its other end supported just hold with {force_words(others, case.bench.system)}."


def _judge_lift(case: Case, wanted: Wanted, force: Force | None) -> None:
    """Tipping that lifts a jaw's end, whichever is pressed with: the grip there is, or the one wanted."""
    pressing = force if force is not None else wanted.at_rest
    lift = lift_moment(pressing, wanted.gripped.length)
    tipping = wanted.tips.tipping
    if tipping <= lift:
        return
    system = case.bench.system
    case.desk.find(
        "grip-tipping", "check",
        f"In {wanted.tips.words} nothing bears at the other end, and {torque_words(tipping, system)} tips "
        f"the work in the jaws; from {torque_words(lift, system)} on one end of a jaw lifts at "
        f"{force_words(pressing, system)}, and the work rocks and works loose. Seat it against a step of the "
        "jaws, grip a longer length, stand it out less, support its end, or take lighter cuts.",
        wanted.tips.load.where,
    )


def _where(case: Case) -> Location | None:
    return case.bench.job.holding.grip.where


def _sentence(words: str) -> str:
    return words[:1].upper() + words[1:]
