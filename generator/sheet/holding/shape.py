"""The shape that a cut leaves, in the words of the shop."""

from __future__ import annotations

from typing import Final

from generator.language.say import later, say
from generator.sheet.holding.cut_line import CutWalk
from generator.sheet.holding.held_work import HeldWork
from generator.sheet.wording import fine_words
from generator.si import Length, um

NOTHING: Final = 2 * um  # on diameter, less than a shop measures; common practice, no source
SAME: Final = 1e-6  # m: two places nearer than this are one
NAMES: Final = {
    "taper": later("a taper"), "bell": later("bell-shaped"), "barrel": later("a barrel"),
    "waist": later("a waist"),
}


def shape_words(cut: CutWalk, held: HeldWork) -> str:
    """What the last cut leaves, as a part of a sentence: "turns out … bigger at … than at …: a barrel"."""
    shape, system = cut.shape, held.system
    if abs(shape.worst) < NOTHING:
        return say("comes out as set, as near as can be measured")
    if shape.form == "even" or shape.spread < NOTHING:
        much = fine_words(abs(shape.worst), system)
        if shape.worst > 0:
            return say("comes out {much} bigger all along", much=much)
        return say("comes out {much} smaller all along", much=much)
    return say(
        "comes out {much} bigger {where} than {elsewhere}: {form}",
        much=fine_words(shape.spread, system),
        where=place_words(shape.largest_at, cut, held),
        elsewhere=place_words(shape.smallest_at, cut, held),
        form=NAMES[shape.form],
    )


def place_words(x: Length, cut: CutWalk, held: HeldWork) -> str:
    """A place on a cut, by its end or by its distance."""
    if abs(x - cut.places[0]) < SAME:
        return say("at its end towards the headstock")
    if abs(x - cut.places[-1]) < SAME:
        return say("at its end towards the tailstock")
    return say("at {place}", place=held.place_words(x))
