"""The stresses of a part against the yield strength that the shop's list gives its material."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from generator.language.say import later, say
from generator.sheet.holding.case import Case
from generator.sheet.wording import pressure_words
from generator.si import Pressure

NO_CHECK = later("not a design check")  # stands with every figure of strength


@dataclass(frozen=True)
class Stress:
    """A stress of the part, in words and Pa; `shear` counts √3 times (von Mises), `of_mate` is the mate's."""

    words: str
    value: Pressure
    shear: bool = False
    of_mate: bool = False

    @property
    def counts(self) -> Pressure:
        """What it counts beside a pull (Pa).

        >>> round(Stress("a thread's", 100.0, shear=True).counts, 1)
        173.2
        """
        return math.sqrt(3) * self.value if self.shear else self.value


def judge_yield(case: Case, stresses: Sequence[Stress]) -> None:
    """Lay down the largest stress over the yield strength, where that is known; a word when it gives."""
    bench, desk = case.bench, case.desk
    for of_mate, material in ((False, bench.shop_material), (True, bench.mate_shop_material)):
        known = [one for one in stresses if one.of_mate == of_mate]
        if material is None or material.yield_strength is None or not known:
            continue
        whose, key = (say("the mate's material"), "mate_yield") if of_mate else (say("the material"), "yield")
        strength = desk.given(
            f"strength.{key}",
            say("Yield strength of {whose}", whose=whose),
            material.yield_strength,
            "pressure",
        )
        largest = max(known, key=lambda one: one.counts)
        share = desk.computed(
            f"strength.{key}_share",
            say("Largest of these stresses over the yield strength of {whose}", whose=whose),
            largest.counts / strength,
            "ratio",
            "√3 × {stress} ÷ {yield strength}" if largest.shear else "{stress} ÷ {yield strength}",
            {"stress": (largest.value, "pressure"), "yield strength": (strength, "pressure")},
            say("von Mises (1913) for shear; arithmetic"),
            rounds="up",
            note=say(
                "{words}; without notches, bending, shock and load that comes and goes: {no_check}",
                words=largest.words,
                no_check=NO_CHECK,
            ),
        )
        if share > 1:
            words = {
                "which": largest.words, "stress": pressure_words(largest.value, bench.system), "whose": whose,
                "strength": pressure_words(strength, bench.system),
            }
            desk.find(
                "strength-mate-yield" if of_mate else "strength-yield", "stop",
                say("Under what the customer says it must carry, {which} comes to {stress}, in shear; the "
                    "shop's list gives {whose} {strength} yield strength, 0.577 of it in shear. It would "
                    "give. Stop and have a competent, where required licensed, person decide.", **words)
                if largest.shear
                else say("Under what the customer says it must carry, {which} comes to {stress}; the shop's "
                         "list gives {whose} {strength} yield strength. It would give. Stop and have a "
                         "competent, where required licensed, person decide.", **words),
                bench.job.work[0].length.where,
                say("Who decides what this part may carry, and of what material?"),
            )
