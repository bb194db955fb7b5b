"""The groove of a square thread is measured across: wires do not rest between its flanks."""

from __future__ import annotations

import math

from generator.calc.thread_form import lead_angle
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.plans import ThreadPlan
from generator.sheet.wording import fine_words

PRACTICE = later("common practice, no source")


def lay_groove(thread: ThreadPlan, desk: Desk) -> None:
    """Lay the width of a square groove, its limits where it has them, and what a gauge block finds there.

    along the axis: the family's limits, else P/2;  square to the groove, where a block lies: that × cos λ
    """
    if not thread.profile.square:
        return
    unit, system = thread.designation.unit_si, thread.system
    across = math.cos(lead_angle(thread.lead, thread.target))
    limits = {line.name: line.value * unit for line in thread.limits.lines}
    laid = False
    for end, does, rounds in (("max", say("does not go in"), "down"), ("min", say("goes in"), "up")):
        width = limits.get(f"groove.width.{end}")
        if width is None:
            continue
        laid = True
        desk.computed(
            f"measure.groove_width.{end}", say("Groove along the axis, {end}", end=end), width, "fine_length",
            "{P} ÷ 2 + {play}",
            {"P": (thread.pitch, "fine_length"), "play": (width - thread.pitch / 2, "fine_length")}, PRACTICE,
            rounds=rounds, system=system,
            note=say(
                "a gauge block or feeler lies square to the groove: one of {width} {does}",
                width=fine_words(width * across, system), does=does,
            ),
        )
    if not laid:
        width = thread.pitch / 2
        desk.computed(
            "measure.groove_width", say("Groove along the axis, basic"), width, "fine_length", "{P} ÷ 2",
            {"P": (thread.pitch, "fine_length")}, PRACTICE, system=system,
            note=say(
                "square to the groove, where a gauge block lies: {width}; the play is what the fit wants",
                width=fine_words(width * across, system),
            ),
        )
