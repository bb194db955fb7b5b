"""The bar that stands out behind the headstock: where it whips, and what holds it there."""

from __future__ import annotations

import math

from generator.calc.beam import Beam, Segment, Support
from generator.calc.slenderness import ALONE
from generator.job.written import Given
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.figure import Figure, Kind, Working
from generator.sheet.holding.held_work import HeldWork
from generator.sheet.wording import length_words
from generator.si import Length, SpindleSpeed, mm
from generator.tables.materials import MaterialRow

TAIL = "holding.tail.critical_speed"
WHIRL = later("a round bar whirls at its bending frequency (Thomson, Theory of Vibration with Applications)")
FITS = 0.5 * mm  # play in which the bore of the spindle still holds a bar; common practice, no source


def lay_tail(held: HeldWork, material: MaterialRow, behind: Given, desk: Desk) -> SpindleSpeed:
    """Lay down where the bar behind the headstock whips, and ask what holds it; return that speed."""
    bar, spindle = held.layout.spans[0], held.lathe.spindle.bore
    beam = Beam(
        (Segment(0.0, behind.si, bar.od_start, bar.bore),),
        (Support(0.0, math.inf, math.inf),),
        material.elastic_modulus,
        material.density,
    )
    critical = beam.first_frequency()
    play = None if spindle is None else spindle.si - bar.od_start
    desk.lay(
        Figure(
            TAIL,
            say("Critical speed of the bar behind the headstock"),
            critical,
            "spindle_speed",
            Kind.COMPUTED,
            WHIRL,
            Working(
                "60 × 3.516 ÷ (2 π × {L}²) × √({E} × ({D}² + {d}²) ÷ (16 × {ρ}))",
                {
                    "L": (behind.si, "length"), "D": (bar.od_start, "length"), "d": (bar.bore, "length"),
                    "E": (material.elastic_modulus, "pressure"), "ρ": (material.density, "density"),
                },
            ),
            note=say("held tight where it leaves the spindle, nowhere behind it; a loose bar whips sooner"),
            rounds="down",
        )
    )
    _ask_support(held, behind, bar.od_start, play, desk)
    return critical


def _ask_support(held: HeldWork, behind: Given, diameter: Length, play: Length | None, desk: Desk) -> None:
    """A long tail wants a stand; a bar that lies loose in the spindle is not held where it leaves it."""
    out = behind.si / diameter
    if out <= ALONE:
        return
    text = say(
        "The bar stands {out:.1f} diameters out behind the headstock; over {alone:g} it wants a stand or "
        "a tube.",
        out=out,
        alone=ALONE,
    )
    if play is not None and play > FITS:
        text += say(
            " It lies loose in the spindle by {play}: put a bushing where it leaves the spindle, or it whips "
            "well below the speed worked out for a bar that is held there.",
            play=length_words(play, held.system),
        )
    asks = say("What carries the bar behind the headstock?")
    desk.find("tail-support", "check", text, behind.where, asks)
