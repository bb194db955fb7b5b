"""What jaws and steady fingers do to a thin wall, and what is left of it once the work is let go.

    thin_section     in the order: jaws, then fingers

The tube is found in `thin_tube`, how it is held in `thin_hold`; the figures are in `thin_figures`, what to do
about them in `thin_findings`, steady fingers in `thin_fingers`.
"""

from __future__ import annotations

from generator.job.model import Chuck, Collet
from generator.language.say import say
from generator.sheet.holding.case import Case
from generator.sheet.holding.thin_figures import (
    OUT_OF_ROUND,
    lay_allowed,
    lay_arc,
    lay_kept,
    lay_kinds,
    lay_largest,
    lay_out_of_round,
    lay_size_change,
    lay_stiffness,
    lay_stress,
    lay_wall,
)
from generator.sheet.holding.thin_findings import (
    Judged,
    judge_crushing,
    judge_lobes,
    judge_size,
    say_plug,
)
from generator.sheet.holding.thin_fingers import fingers_section
from generator.sheet.holding.thin_hold import Held, Pressing, hold, jaw_arc, jaw_kind, known, pressing
from generator.sheet.holding.thin_tube import Squeezed, gripped_tube, round_cuts
from generator.si import Length, Pressure, um

THIN = 0.1        # wall over outside diameter up to which the jaws' doings are always shown
WORTH = 2 * um    # out-of-round that is worth saying of a thicker wall


def thin_section(case: Case) -> None:
    """Lay down what jaws and steady fingers do to a thin wall, with the findings."""
    tube = gripped_tube(case)
    if tube is not None:
        _jaws(case, tube)
    fingers_section(case)


def _jaws(case: Case, tube: Squeezed) -> None:
    held, material = case.bench.job.holding.held, case.bench.material
    thin, force = tube.wall_share <= THIN, pressing(case)
    if material is None:
        if thin:
            lay_wall(case, tube)
            case.desk.unknown(
                "thin.out_of_round", OUT_OF_ROUND, "fine_length", say("the material is unknown")
            )
    elif isinstance(held, Collet):
        if thin:
            lay_wall(case, tube)
            if force is not None:  # it bears all round: no lobes, but it squeezes
                _size(case, tube, material.elastic_modulus, force, inside=False)
    elif isinstance(held, Chuck) and held.plug:
        if thin:
            lay_wall(case, tube)
            say_plug(case)
    elif isinstance(held, Chuck):
        arc = jaw_arc(case, tube, held.jaws, jaw_kind(held), inside=held.inside)
        how = hold(tube, held.jaws, arc, material.elastic_modulus, round_cuts(case, tube))
        if thin or (force and how.cuts and force.force / how.stiffness * how.share(how.cuts) > WORTH):
            _lobes(case, held, how, force)


def _size(case: Case, tube: Squeezed, modulus: Pressure, force: Pressing, *, inside: bool) -> None:
    change = lay_size_change(case, tube, modulus, force, inside=inside)
    judge_size(case, change, inside=inside)


def _lobes(case: Case, held: Chuck, how: Held, force: Pressing | None) -> None:
    lay_wall(case, how.tube)
    lay_arc(case, held, how)
    if how.cuts:
        _kept(case, held, how, force)
    if force is not None:
        lay_out_of_round(case, held, how, force)
        _size(case, how.tube, how.modulus, force, inside=held.inside)
    length = lay_stiffness(case, how)
    if force is not None:
        judge_crushing(case, lay_stress(case, how, force, length))


def _told_nothing(case: Case, each: float, least: Length) -> bool:
    """True where neither the grip there is nor the one wanted leaves what anybody could measure."""
    pressed = [known(case, name) or 0.0 for name in ("grip.force", "grip.needed")]
    return each * max(pressed) <= least


def _kept(case: Case, held: Chuck, how: Held, force: Pressing | None) -> None:
    """What is left once the work is let go, what may be, and what other jaws would leave."""
    shares = {
        inside: how.share(tuple(cut for cut in how.cuts if cut.inside == inside))
        for inside in sorted({cut.inside for cut in how.cuts}, reverse=True)
    }
    kept = [lay_kept(case, how, force, *one) for one in shares.items()] if force is not None else []
    allowed = lay_allowed(case)
    if force is not None and _told_nothing(case, max(kept) / force.force, min(allowed, WORTH)):
        return
    largest = lay_largest(case, how, allowed, max(shares.values()))
    kinds = lay_kinds(case, held, how, force) if force is not None else {}
    judge_lobes(case, held, Judged(max(kept, default=None), allowed, largest, kinds))
