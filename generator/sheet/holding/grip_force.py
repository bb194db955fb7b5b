"""The grip there is, said or from the torque on the key, and the torque that the key wants."""

from __future__ import annotations

from dataclasses import dataclass

from generator.calc.chuck_force import force_on_key
from generator.job.lathe_parts import LatheChuck, LatheCollet
from generator.job.model import Centers, Chuck, Collet, Faceplate
from generator.job.written import Given
from generator.language.say import later, say
from generator.sheet.capacity import used_head
from generator.sheet.holding.case import Case
from generator.sheet.holding.grip_demand import Demand, Gripped
from generator.sheet.holding.grip_friction import Friction
from generator.sheet.wording import torque_words
from generator.si import Force, Torque

MOST_BY_HAND = 500.0  # N m on a key, with both hands and no pipe; common practice, no source
MUCH_OVER = 2.0      # times the rated torque: screws and scroll may break; common practice, no source
DIRTY = 0.5          # of the force of a clean and greased chuck; common practice, no source
PRACTICE = later("common practice, no source")
FORCE = ("grip.force", later("Grip there is at rest"))


@dataclass(frozen=True)
class Wanted:
    """Grip wanted, N: what just `holds` the `worst` cut, with safety `at_rest`.

    `loss` is what the jaws' weight takes, or from inside adds, in that cut, `highest` the same at the highest
    step. `tips` is the cut that tips the work most. `at_best` holds the worst one with the most friction that
    what is said allows.
    """

    worst: Demand
    tips: Demand
    holds: Force
    at_best: Force
    at_rest: Force
    loss: Force
    highest: Force
    gripped: Gripped
    friction: Friction


def jaw_count(held: Chuck | Collet | Faceplate | Centers) -> int | None:
    """Number of jaws; None where there are none."""
    return held.jaws if isinstance(held, Chuck) else None


def rating_of(case: Case) -> tuple[Torque, Force] | None:
    """Torque on the key and the force that it gives, from the record of the chuck (N m, N)."""
    head = used_head(case.bench.job, case.bench.lathe)
    if not isinstance(head, LatheChuck) or head.key_torque is None or head.grip_force is None:
        return None
    return head.key_torque.si, head.grip_force.si


def lay_force(case: Case) -> Force | None:
    """Lay the grip there is at rest; None when nobody knows it (N)."""
    held, desk, rating = case.bench.job.holding.held, case.desk, rating_of(case)
    if isinstance(held, Collet):
        head = used_head(case.bench.job, case.bench.lathe)
        said = held.force or (head.grip_force if isinstance(head, LatheCollet) else None)
        return desk.given(*FORCE, said, "force", note=say("all around the work")) if said else None
    if not isinstance(held, Chuck):
        return None
    if held.force is not None:
        return desk.given(*FORCE, held.force, "force", note=say("all jaws together"))
    on_key = held.key_torque or case.bench.house.key_torque
    if on_key is None:
        return None
    if rating is None:
        _judge_key(case, held, on_key)
        return None
    force = desk.computed(
        *FORCE, force_on_key(on_key.si, *rating), "force", "{on the key} ÷ {rated torque} × {rated force}",
        {
            "on the key": (on_key.si, "torque"), "rated torque": (rating[0], "torque"),
            "rated force": (rating[1], "force"),
        },
        PRACTICE, rounds="down",
        note=say("all jaws together, clean and greased; about {dirty:.0%} of it dirty or dry", dirty=DIRTY),
    )
    if on_key.si > rating[0]:
        system = case.bench.system
        desk.find(
            "grip-over-key", "stop" if on_key.si > MUCH_OVER * rating[0] else "check",
            say("{torque} on the key is more than the {rated} this chuck is rated for: it strains scroll, "
                "screws and jaws. Use its own key, without a pipe on it.",
                torque=on_key.with_unit, rated=torque_words(rating[0], system)),
            on_key.where if held.key_torque else held.grip.where,
        )
    return force


def _judge_key(case: Case, held: Chuck, on_key: Given) -> None:
    """A torque that no hand puts on a key, of a chuck whose rating is not known."""
    if on_key.si > MOST_BY_HAND:
        case.desk.find(
            "grip-over-key", "check",
            say("{torque} on the key is more than a key is turned with by hand, about {most}. Look up what "
                "this chuck is rated for, and put no pipe on its key.",
                torque=on_key.with_unit, most=torque_words(MOST_BY_HAND, case.bench.system)),
            on_key.where if held.key_torque else held.grip.where,
        )


def lay_key(case: Case, wanted: Wanted) -> Torque | None:
    """Lay the torque that the key wants; None where the chuck's rating is not known."""
    rating = rating_of(case)
    if rating is None:
        return None
    return case.desk.computed(
        "grip.key_torque",
        say("Torque wanted on the key"),
        wanted.at_rest / rating[1] * rating[0],
        "torque",
        "{grip wanted} ÷ {rated force} × {rated torque}",
        {
            "grip wanted": (wanted.at_rest, "force"),
            "rated force": (rating[1], "force"),
            "rated torque": (rating[0], "torque"),
        },
        PRACTICE,
        rounds="up",
        note=say("clean and greased; dirty or dry about {times:g} times as much", times=1 / DIRTY),
    )
