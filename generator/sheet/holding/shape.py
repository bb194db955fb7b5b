"""The shape that a cut leaves, in the words of the shop."""

from __future__ import annotations

from typing import Final

from generator.sheet.holding.cut_line import CutWalk
from generator.sheet.holding.held_work import HeldWork
from generator.sheet.wording import fine_words
from generator.si import Length, um

NOTHING: Final = 2 * um  # on diameter, less than a shop measures; common practice, no source
NAMES: Final = {
    "taper": "a taper", "bell": "bell-shaped", "barrel": "a barrel", "waist": "a waist",
}


def shape_words(cut: CutWalk, held: HeldWork) -> str:
    """What the last cut leaves, as a part of a sentence: "turns out … bigger at … than at …: a barrel"."""
    shape, system = cut.shape, held.system
    if abs(shape.worst) < NOTHING:
        return "comes out as set, as near as can be measured"
    if shape.form == "even" or shape.spread < NOTHING:
        size = "bigger" if shape.worst > 0 else "smaller"
        return f"comes out {fine_words(abs(shape.worst), system)} {size} all along"
    return (
        f"comes out {fine_words(shape.spread, system)} bigger {place_words(shape.largest_at, cut, held)} "
        f"than {place_words(shape.smallest_at, cut, held)}: {NAMES[shape.form]}"
    )


def place_words(x: Length, cut: CutWalk, held: HeldWork) -> str:
    """A place on a cut, by its end or by its distance."""
    for end, words in ((cut.places[0], "headstock"), (cut.places[-1], "tailstock")):
        if abs(x - end) < 1e-6:
            return f"at its end towards the {words}"
    return f"at {held.place_words(x)}"
