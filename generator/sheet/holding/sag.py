"""How far the work sags under its own weight, on its supports and before they bear."""

from __future__ import annotations

from typing import Final

import numpy as np

from generator.calc.beam import Beam
from generator.calc.carried import own_weight
from generator.language.say import say
from generator.sheet.desk import Desk
from generator.sheet.holding.case import Case
from generator.sheet.holding.give_figures import beam_words
from generator.sheet.holding.held_work import HeldWork
from generator.sheet.holding.lengths import HELD_BY
from generator.sheet.wording import fine_words
from generator.si import Length, g_n, mm

PLACES: Final = 31
LOOKS: Final = 3
WORTH_SAYING: Final = 0.01 * mm  # common practice, no source
WORTH_FEELING: Final = 0.001 * mm  # on diameter
WORTH_LIFTING: Final = 0.02 * mm  # what an indicator shows at once; common practice, no source


def sag_section(case: Case) -> None:
    """Lay down the sag of the finished work, and how far it hangs before steady rest or center bear."""
    held, steady_at, desk = case.held, case.plan.steady_at, case.desk
    center = held.job.holding.center is not None
    sag, x, beam = _worst(held.beam(steady_at))
    if abs(sag) >= WORTH_SAYING:
        span = held.layout.span_at(x)
        felt = 2 * sag**2 / span.od_at(x) if span else 0.0
        much = (
            say("only {much}", much=fine_words(felt, held.system))
            if felt >= WORTH_FEELING
            else say("next to nothing")
        )
        _lay(
            "give.sag",
            say("Sag of the work under its own weight"),
            sag,
            x,
            beam,
            held,
            desk,
            say(
                "it stays where it is while the work turns, so that a tool at center height feels {much} of "
                "it on diameter; it counts when the work is indicated",
                much=much,
            ),
        )
    if held.job.holding.centers is not None or not (center or steady_at is not None):
        return
    at = steady_at if steady_at is not None else held.layout.stick_out
    alone = held.beam_of(beam.segments, None, center=False)
    hangs = float(alone.sag([at], g_n)[0])
    if hangs >= WORTH_LIFTING:
        kind, assumed = HELD_BY[held.job.holding.held.kind], _assumed(desk)
        if steady_at is not None:
            label = say("Sag in the {kind} alone, at the steady rest", kind=kind)
            note = say(
                "set the steady rest with an indicator on the work beside the jaws, so that it neither lifts "
                "the work nor lets it hang{assumed}", assumed=assumed,
            )
        else:
            label = say("Sag in the {kind} alone, at the center", kind=kind)
            note = say(
                "set the center with an indicator on the work beside the jaws, so that it neither lifts the "
                "work nor lets it hang{assumed}", assumed=assumed,
            )
        _lay("give.sag.alone", label, hangs, at, alone, held, desk, note)


def _assumed(desk: Desk) -> str:
    stiffness = desk.figures.get("holding.chuck_stiffness")
    return say("; how much the chuck gives in this is assumed") if stiffness and stiffness.assumed else ""


def _worst(beam: Beam) -> tuple[Length, Length, Beam]:
    """Largest sag of a beam, and where (m): looked for all along it, then more closely beside the worst."""
    low, high = beam.start, beam.end
    for _ in range(LOOKS):
        places = [float(x) for x in np.linspace(low, high, PLACES)]
        sags = beam.sag(places, g_n)
        at = int(np.abs(sags).argmax())
        low, high = places[max(at - 1, 0)], places[min(at + 1, PLACES - 1)]
    return float(sags[at]), places[at], beam


def _lay(
    name: str, label: str, sag: Length, x: Length, beam: Beam, held: HeldWork, desk: Desk, note: str
) -> None:
    weight, _ = own_weight(beam.segments, beam.density, g_n)
    desk.computed(
        name, label, abs(sag), "fine_length", "{weight outside the jaws} ÷ {stiffness against it}",
        {
            "weight outside the jaws": (weight, "force"),
            "stiffness against it": (weight / abs(sag), "stiffness"),
        },
        beam_words(held),
        note=say("at {place}; {note}", place=held.place_words(x), note=note), rounds="up",
    )
