"""What the fingers of a steady rest do to a thin tube."""

from __future__ import annotations

from generator.language.say import later, say
from generator.sheet.capacity import steady_where
from generator.sheet.holding.case import Case
from generator.sheet.holding.thin_hold import known
from generator.sheet.holding.thin_tube import tube_around
from generator.sheet.wording import fine_words, force_words, length_words
from generator.si import Force, lbf

THIN = 0.1        # wall over outside diameter; common practice, no source
FINGERS = 3
EXAMPLE = {"inch": 50 * lbf, "mm": 200.0}  # N on each finger, tightened by hand to stop run-out
RING = later(
    "Roark's Formulas for Stress and Strain, 7th ed., table 9.2; Timoshenko, Strength of Materials II"
)
TUBE = later("matrix solution of the tube as a beam on an elastic foundation, Hetényi (1946)")
FINGER = "give.finger."           # the force on each of the fingers
WHOLE = "holding.steady.force"    # on all of them: stands in where nobody knows each


def fingers_section(case: Case) -> None:
    """Lay down how a thin tube gives under steady fingers, and say not to tighten them."""
    at, material = case.plan.steady_at, case.bench.material
    if at is None or material is None:
        return
    bare = tube_around(case, at, at)
    if bare is None or bare.wall_share > THIN:
        return
    half = max(case.held.steady_half, bare.wall)
    tube = tube_around(case, max(at - half, bare.low), min(at + half, bare.high))
    if tube is None:
        return
    desk, system = case.desk, case.bench.system
    give = tube.lobes(FINGERS, 0.0, material.elastic_modulus, [(tube.start, tube.end)])
    desk.computed(
        "thin.steady.wall",
        say("Wall under the steady rest"),
        tube.wall,
        "length",
        "({outside} − {bore}) ÷ 2",
        {"outside": (tube.od, "length"), "bore": (tube.bore, "length")},
        say("geometry"),
        rounds="down",
    )
    force = _hardest(case)
    if force is not None:
        desk.computed(
            "thin.steady.give", say("Tube under the fingers, out-of-round as it turns"), force * give,
            "fine_length",
            "{force of a finger} ÷ {its stiffness}",
            {"force of a finger": (force, "force"), "its stiffness": (1 / give, "stiffness")},
            f"{RING}; {TUBE}", rounds="up",
            note=say("three equal fingers, all as hard as the one that carries most; at most"),
        )
    hard = EXAMPLE[system]
    desk.find(
        "thin-steady", "note",
        say("The tube has {wall} of wall under the steady rest: {force} on each finger would press it {much} "
            "out of round. Fingers only touch; never tighten one on a thin tube to stop runout. Fingers and "
            "tool stand still, so what is cut there comes round but off size, and the wall is worked at "
            "every turn.",
            wall=length_words(tube.wall, system), force=force_words(hard, system),
            much=fine_words(hard * give, system)),
        steady_where(case.bench.job),
    )


def _hardest(case: Case) -> Force | None:
    """Force on the finger that carries most (N); None where nobody knows one."""
    each = [known(case, name) for name in case.desk.figures if name.startswith(FINGER)]
    return max((force for force in each if force is not None), default=known(case, WHOLE))
