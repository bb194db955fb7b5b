"""Crests that come out sharp: the grooves meet under the turned surface, and the thread is short of crest."""

from __future__ import annotations

from generator.calc.thread_form import crest_flat
from generator.errors import Location
from generator.sheet.desk import Desk
from generator.sheet.plans import ThreadPlan
from generator.sheet.wording import fine_words, length_words
from generator.si import Length

DUST = 1e-6  # of the pitch: a crest this narrow is sharp, and nothing is cut away


def check_crest(pitch_diameter: Length, thread: ThreadPlan, where: Location | None, desk: Desk) -> None:
    """Say so where the last pass leaves no flat on the crest, with the blank that would.

    `pitch_diameter` is that after the last pass (m).
    """
    flat = crest_flat(thread.blank, pitch_diameter, thread.pitch, thread.flanks, thread.internal)
    if thread.flanks.square or flat >= -DUST * thread.pitch:
        return
    short, system = -flat / thread.flanks.tangents, thread.system
    crest = thread.blank + 2 * short if thread.internal else thread.blank - 2 * short
    before = "bore" if thread.internal else "blank"
    desk.find(
        "crest-sharp", "check",
        f"At the pitch diameter of the last pass the grooves meet: the crests of {thread.designation.text} "
        f"come out sharp, {fine_words(short, system)} below the {before} of "
        f"{length_words(thread.blank, system)}, at {fine_words(crest, system)}. Sharp crests cut hands and "
        f"burr in the mate. Measure the {before} again, or {'bore' if thread.internal else 'turn'} it to "
        f"{fine_words(crest, system)} {'and over' if thread.internal else 'and under'} before threading.",
        where, f"Is the {before} measured right, and is this the thread that is wanted?",
    )
