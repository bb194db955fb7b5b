"""The table that stands by the micrometer: the thread reads so much too full, so much is still to be cut."""

from __future__ import annotations

from generator.calc.balls import between_balls
from generator.calc.correction import still_to_cut
from generator.calc.dials import Dial, whole_graduations
from generator.job.lathe import Lathe
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.figure import Quantity
from generator.sheet.infeed import slide_dial
from generator.sheet.lines import CorrectionRow, CorrectionTable, Reading
from generator.sheet.plans import PassPlan, ThreadPlan
from generator.si import Angle, Length, inch, mm

STEPS = {
    "inch": tuple(step * inch for step in (0.001, 0.002, 0.003, 0.005, 0.008, 0.010, 0.015, 0.020)),
    "mm": tuple(step * mm for step in (0.02, 0.04, 0.06, 0.10, 0.15, 0.20, 0.30, 0.50)),
}
HALVES = 2  # of a graduation: what the eye reads off between two lines
SOURCE = later("plane geometry: the pitch diameter follows twice the depth")


def corrections(lathe: Lathe, thread: ThreadPlan, cuts: PassPlan, desk: Desk) -> CorrectionTable | None:
    """The table for this thread and infeed; None where no reading follows the depth (square, taper).

    A taper thread has its gauge lines instead; a square groove is as wide as its tool.

    Raises
    ------
    OutsideRange
        When a turn of the lathe's dial does not hold a whole number of its divisions.
    """
    if not thread.profile.wires_measure:
        return None
    angle = cuts.infeed_angle
    formula, put = "1 ÷ 2", dict[str, tuple[float, Quantity]]()
    if angle:
        formula, put = "1 ÷ (2 × cos {α})", {"α": (angle, "angle")}
    desk.computed(
        "measure.correction",
        say("Still to cut on the {slide}, over what it reads too full", slide=cuts.slide),
        still_to_cut(1.0, angle),
        "ratio",
        formula,
        put,
        SOURCE,
        note=say("the table beside the passes, in the dials' own divisions"),
    )
    cross, compound = slide_dial(lathe.cross_dial), slide_dial(lathe.compound_dial)
    rows = tuple(
        CorrectionRow(
            off, off / 2, _on_dial(off, angle, compound) if angle else None, _on_dial(off, 0.0, cross)
        )
        for off in STEPS[thread.system] if off / 2 < thread.depth
    )
    last = cuts.passes[-1]
    reading: Reading = "pitch diameter"
    size = last.pitch_diameter
    if last.over_wires is not None:
        reading, size = "over wires", last.over_wires
    elif thread.ball is not None:
        reading = "between balls"
        size = between_balls(size, thread.ball, thread.pitch, thread.designation.starts, thread.flanks)
    return CorrectionTable(
        rows, reading, size, lathe.compound_dial.reads, lathe.cross_dial.reads, lathe.units
    )


def _on_dial(off: Length, angle: Angle, dial: Dial) -> Length:
    """What the dial is turned on, as it reads, down to half a division: never past what is to be cut."""
    return whole_graduations(still_to_cut(off, angle), dial, HALVES, "down") / HALVES * dial.division
