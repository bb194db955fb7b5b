"""Starts that the thread dial does not tell apart, indexed by the compound: is its travel enough."""

from __future__ import annotations

from fractions import Fraction

from generator.errors import Location
from generator.job.lathe import Lathe
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.wording import length_words
from generator.si import mm

PRACTICE = later("common practice, no source")


def lay_index_travel(lathe: Lathe, furthest: int, pitch: Fraction, where: Location, desk: Desk) -> None:
    """Lay how far the compound moves from the first start to the furthest one, and hold it to its travel.

    Parameters
    ----------
    furthest : number of the last start that is indexed; the first is 1
    pitch : of the thread, mm, exact

    Notes
    -----
    The compound stands along the bed and moves one pitch from start to start, always the same way, so that
    its screw's play stays on one side.
    """
    steps, has = furthest - 1, lathe.compound_travel
    needs = desk.computed(
        "lathe.index_travel", say("Compound, first to last start"), steps * float(pitch) * mm, "length",
        "{starts on} × {P}", {"starts on": (float(steps), "count"), "P": (float(pitch) * mm, "fine_length")},
        PRACTICE, note=say("compound along the bed, one pitch from start to start, always the same way"),
        rounds="up",
    )
    if has is not None and needs > has.si:
        desk.find(
            "index-travel", "check",
            say(
                "Indexing to start {furthest} takes {needs} of the compound, and that of {lathe} travels "
                "{has}. Index at the driving plate or the first gear.",
                furthest=furthest, needs=length_words(needs, lathe.units), lathe=lathe.name,
                has=has.with_unit,
            ),
            where,
        )
