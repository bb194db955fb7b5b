"""Crests that come out sharp: the grooves meet under the turned surface, and the thread is short of crest."""

from __future__ import annotations

from generator.calc.thread_form import crest_flat
from generator.errors import Location
from generator.language.say import say
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
    parts = {
        "designation": thread.designation.text, "short": fine_words(short, system),
        "blank": length_words(thread.blank, system), "crest": fine_words(crest, system),
    }
    desk.find(
        "crest-sharp", "check",
        say(
            "At the pitch diameter of the last pass the grooves meet: the crests of {designation} come out "
            "sharp, {short} below the bore of {blank}, at {crest}. Sharp crests cut hands and burr in the "
            "mate. Measure the bore again, or bore it to {crest} and over before threading.",
            **parts,
        )
        if thread.internal
        else say(
            "At the pitch diameter of the last pass the grooves meet: the crests of {designation} come out "
            "sharp, {short} below the blank of {blank}, at {crest}. Sharp crests cut hands and burr in the "
            "mate. Measure the blank again, or turn it to {crest} and under before threading.",
            **parts,
        ),
        where,
        say("Is the bore measured right, and is this the thread that is wanted?") if thread.internal
        else say("Is the blank measured right, and is this the thread that is wanted?"),
    )
