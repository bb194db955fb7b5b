"""What the steady rest's fingers carry, how the work stands in them, and whether it lifts off."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np
from numpy.typing import NDArray

from generator.calc.steady_fingers import finger_forces
from generator.language.say import first_large, later, say
from generator.sheet.holding.borne import Borne
from generator.sheet.holding.case import Case
from generator.sheet.holding.give_figures import beam_words
from generator.sheet.wording import fine_words, force_words
from generator.si import Force, inch, kN, mm

Array = NDArray[np.float64]

FINGER_LOAD: Final = 1 * kN  # on one finger of a small lathe's steady rest; common practice, no source
PRACTICE: Final = later("common practice, no source")
NAMES: Final = {
    2: (("front", later("the lower finger at the front")), ("rear", later("the lower finger at the rear")),
        ("top", later("the upper finger"))),
    1: (("front", later("the upper finger at the front")), ("rear", later("the upper finger at the rear")),
        ("bottom", later("the lower finger"))),
}


def fingers_section(case: Case, borne: Sequence[Borne]) -> None:
    """Lay down slope and finger forces at the steady rest, each under the cut that makes it largest."""
    steady = case.bench.lathe.steady
    lower = steady.lower_fingers if steady is not None else 2
    forces = [finger_forces(one.rear, one.up, lower=lower) for one in borne]
    _lay_slope(case, borne)
    _lay_fingers(case, borne, forces, NAMES[lower])
    _find_lifted(case, borne, forces, NAMES[lower])


def _lay_slope(case: Case, borne: Sequence[Borne]) -> None:
    system = case.held.system
    slopes = [np.hypot(one.cut.away.slopes[1], one.cut.lift.slopes[1]) for one in borne]
    worst, slope = max(zip(borne, slopes, strict=True), key=lambda one: float(one[1].max()))
    largest = float(slope.max())
    base, words = (1 * inch, "1 in") if system == "inch" else (100 * mm, "100 mm")
    case.desk.computed(
        "give.steady.slope",
        say("Slope of the work at the steady rest under the heaviest cut"),
        largest,
        "ratio",
        "{rise} ÷ {length}",
        {"rise": (largest * base, "fine_length"), "length": (base, "length")},
        beam_words(case.held),
        rounds="up",
        note=say(
            "{fine_words} in {words}, under {what}",
            fine_words=fine_words(largest * base, system, 1),
            words=words,
            what=worst.cut.what,
        ),
    )


def _lay_fingers(
    case: Case, borne: Sequence[Borne], forces: Sequence[Array], names: Sequence[tuple[str, str]]
) -> None:
    held, desk, steady = case.held, case.desk, case.bench.lathe.steady
    said = steady.finger_load if steady else None
    limit = desk.chosen(
        "give.steady.finger_load", say("Largest force on one finger"), said, FINGER_LOAD, "force",
        say("{practice}; small lathes", practice=PRACTICE),
    )
    largest: list[tuple[Force, str, Borne]] = []
    for number, (key, words) in enumerate(names):
        one, each = max(zip(borne, forces, strict=True), key=lambda pair: float(pair[1][number].max()))
        at = int(each[number].argmax())
        force, whole = float(each[number][at]), float(one.whole[at])
        largest.append((force, words, one))
        desk.computed(
            f"give.finger.{key}",
            say("Force on {words} of the steady rest", words=words),
            force,
            "force",
            "{force on the steady rest} × {share}",
            {
                "force on the steady rest": (whole, "force"),
                "share": (force / whole if whole > 0 else 0.0, "ratio"),
            },
            say("statics of three fingers that only push; {beam}", beam=beam_words(held)),
            rounds="up",
            note=say("under {what}, cut and weight together", what=one.cut.what)
            if force > 0
            else say("free under every cut"),
        )
    force, words, one = max(largest, key=lambda each: each[0])
    if force > limit:
        desk.find(
            "finger-load", "check",
            say("Under {what} {finger} of the steady rest carries {force}; {most} is the most for one "
                "finger{whose}. Take lighter cuts, or stand the steady rest elsewhere.",
                what=one.cut.what, finger=words, force=force_words(force, held.system),
                most=force_words(limit, held.system),
                whose="" if said else say(", as shops have it for small lathes")),
            one.cut.load.where,
        )


def _find_lifted(
    case: Case, borne: Sequence[Borne], forces: Sequence[Array], names: Sequence[tuple[str, str]]
) -> None:
    """What the cut does and the weight alone does not: it lifts the work against the top of the rest."""
    above = [2] if names[2][0] == "top" else [0, 1]
    tops = [each[above].sum(axis=0) for each in forces]
    number = max(range(len(tops)), key=lambda one: float(tops[one].max()))
    at = int(tops[number].argmax())
    if tops[number][at] <= 0:
        return
    cut, each = borne[number].cut, forces[number][:, at]
    free = next(words for (_, words), carries in zip(names, each, strict=True) if carries == 0)
    case.desk.find(
        "finger-lifts", "note",
        say("{what} lifts the work in the steady rest: its top carries {force}, and {finger} comes free. "
            "Shut and lock the top before the spindle turns; if it is open, the work climbs out.",
            what=first_large(cut.what), force=force_words(float(each[above].max()), case.held.system),
            finger=free),
        cut.load.where,
    )
