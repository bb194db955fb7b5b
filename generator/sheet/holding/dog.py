"""Work between centers: the dog carries the torque, the centers the rest."""

from __future__ import annotations

from generator.language.say import say
from generator.sheet.holding.case import Case
from generator.sheet.holding.grip_demand import demands
from generator.sheet.holding.grip_words import STATICS, lay_cut, lay_torque
from generator.sheet.wording import force_words


def dog_section(case: Case) -> None:
    """Lay what the dog must carry round, and the finding on its tail."""
    centers, desk, system = case.bench.job.holding.centers, case.desk, case.bench.system
    worst = max(demands(case, 0.0), key=lambda one: one.torque)
    span = case.bench.layout.span_at(0.0)
    if centers is None or span is None or worst.torque <= 0:
        return
    lay_cut(desk, worst, say("Cut with the most torque"))
    torque, size = lay_torque(desk, worst), span.od_start
    desk.computed(
        "grip.dog.around",
        say("Force around the work under the dog"),
        2 * torque / size,
        "force",
        "2 × {T} ÷ {d}",
        {"T": (torque, "torque"), "d": (size, "length")},
        STATICS,
        rounds="up",
        note=say("its screw must press hard enough that friction carries this"),
    )
    tail = desk.computed(
        "grip.dog.tail", say("Force on the dog's tail, one diameter from the axis"), torque / size, "force",
        "{T} ÷ {d}", {"T": (torque, "torque"), "d": (size, "length")}, STATICS, rounds="up",
        note=say("less with a longer tail"),
    )
    surface = case.bench.job.work[0].surface
    strip = say(" Lay a strip of brass or copper under the screw.") if surface in ("turned", "ground") else ""
    desk.find(
        "dog-tail", "note",
        say("The dog drives with {force} on its tail. Tie the tail to its driver: it must neither knock at a "
            "cut that comes and goes nor slip off, nor press the work off its center. The screw may leave a "
            "mark.{strip}", force=force_words(tail, system), strip=strip),
        centers.dog.where,
    )
