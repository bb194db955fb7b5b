"""When the mate, or the gauge, is tried: what is felt, what to look at before cutting more, what to cut then.

One row for each thing that is felt, made for this thread; nothing here orders a last cut by number alone.
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.calc.dials import whole_graduations
from generator.calc.heat import growth
from generator.calc.passes import infeed_travel
from generator.job.lathe import Lathe
from generator.job.model import Job
from generator.sheet.desk import Desk
from generator.sheet.infeed import feeding_dial
from generator.sheet.lines import FitRow
from generator.sheet.plans import PassPlan, ThreadPlan
from generator.sheet.wording import fine_words, length_words, rise_words
from generator.si import Length, mm
from generator.tables.materials import MaterialRow

WARM = 20.0  # K over the room, of a part just cut: warm to the hand; common practice, no source
NEAR_HOLE = 0.5  # pitches past the end of the thread: nearer, a hole's burr is in it
STILL_FULL = {
    "wires": "It still reads over the largest size", "plug gauge": "The go plug does not start either",
    "mate": "The groove is still narrower than its gauge block",
}


def trial_fit(
    job: Job, lathe: Lathe, material: MaterialRow | None, end_of_work: Length, thread: ThreadPlan,
    cuts: PassPlan, desk: Desk,
) -> tuple[FitRow, ...]:
    """The rows, in the order in which it is felt on the way in (common practice, no source).

    `end_of_work` is where the work ends towards the tailstock, from the chuck face (m).

    Raises
    ------
    OutsideRange
        When a turn of the lathe's dial does not hold a whole number of its divisions.
    """
    words = _Words(job, material, end_of_work, thread, _next_cut(lathe, thread, cuts, desk))
    if thread.fit_by == "taper gauge":
        return words.taper()
    return words.parallel()


def _next_cut(lathe: Lathe, thread: ThreadPlan, cuts: PassPlan, desk: Desk) -> str:
    """One least cut in divisions of the slide that feeds, and what it does to the pitch diameter."""
    dial = feeding_dial(lathe, cuts.slide)
    last = next(line.cut for line in reversed(cuts.passes) if not line.spring)
    count = max(whole_graduations(infeed_travel(last, cuts.infeed_angle), dial, rounds="down"), 1)
    step = count * dial.graduation
    angle = " × cos {α}" if cuts.infeed_angle else ""
    desk.computed(
        "measure.next_cut", f"Next cut at a trial, on the {cuts.slide}, not over", step, "length",
        "{divisions} × {travel of one}",
        {"divisions": (count, "count"), "travel of one": (dial.graduation, "fine_length")},
        "common practice, no source", note="as large as the last cut of the passes, in whole divisions",
        rounds="down", system=lathe.units,
    )
    if thread.flanks.square:
        return f"{_divisions(count)} of the {cuts.slide}"
    moved = desk.computed(
        "measure.next_cut_takes", "What that takes off the pitch diameter", 2 * cuts.depth(step),
        "fine_length", f"2 × {{next cut}}{angle}",
        {
            "next cut": (step, "length"), **({"α": (cuts.infeed_angle, "angle")} if angle else {}),
        },
        "plane geometry", system=thread.system,
        note="bored out by as much" if thread.internal else "",
    )
    return (
        f"{_divisions(count)} of the {cuts.slide}, which {'adds' if thread.internal else 'takes'} "
        f"{fine_words(moved, thread.system)} {'to' if thread.internal else 'off'} the pitch diameter"
    )


def _divisions(count: int) -> str:
    return "one division" if count == 1 else f"{count} divisions"


@dataclass(frozen=True)
class _Words:
    """The sentences for one thread; `cut` is the next cut in words."""

    job: Job
    material: MaterialRow | None
    end_of_work: Length
    thread: ThreadPlan
    cut: str

    @property
    def again(self) -> str:
        """The next cut, as a sentence; by no number alone."""
        return f"No more than {self.cut}; a spring pass; read, and try again."

    def parallel(self) -> tuple[FitRow, ...]:
        """Of a parallel thread, outside or inside."""
        thread, inside = self.thread, self.thread.internal
        square = thread.flanks.square
        full = (
            "Widen the groove with the compound along the axis, a little off the flank that does not bear."
            if square else f"Cut by the table Still to cut, in two cuts at least. {self.again}"
        )
        crest = (
            f"Measure the bore between the crests: {self._crest()}." if inside
            else f"Measure over the crests: {self._crest()}."
        )
        return (
            FitRow(
                "Does not start",
                (
                    "Burr on the first thread of either part, chip in the mate, first thread bruised.",
                    "Chamfer past the root; " + crest[0].lower() + crest[1:],
                    "Hand and pitch of the mate, by a leaf or against the part.",
                ),
                f"{STILL_FULL[thread.fit_by]}: {full[0].lower() + full[1:]} Inside its limits: cut nothing "
                "more; the mate, or a crest, is what stops it.",
                feels="does not start",
            ),
            FitRow(
                "Starts, and binds after N turns",
                (
                    f"It binds N × {length_words(thread.lead, thread.system)} from the start"
                    f"{self._holes()}",
                    "A burr at a hole or set screw of the mate, a chip, a bruise: look there in both.",
                    "Measure at both ends: a difference is taper"
                    + (", from a bar that springs." if inside else ", from center, steady rest or give."),
                    "Blue it: one flank, more with every turn, is lead or pitch, and no depth mends it.",
                ),
                "Back off at the first bind; a forced thread galls. Taper: spring passes at one reading. "
                f"Only if both ends still measure too full: {self.again[0].lower() + self.again[1:]}",
                feels="binds",
            ),
            FitRow(
                "Tight all along",
                (self._warm(), "Chips brushed out, a drop of oil, no burr standing on the crests."),
                "Measures inside the limits: the mate is tight or worn oval; measure it, and ask. Too full: "
                + self.again[0].lower() + self.again[1:],
            ),
            FitRow(
                "Tight, and shines at the crest only",
                (
                    crest,
                    "Root of the mate: filled with dirt or paint, or cut with a wider nose.",
                ),
                f"The flanks are right: {'open the bore' if inside else 'turn the crests down'} to their "
                "limits; no cut on the flanks.",
                at="crest",
            ),
            FitRow(
                "Free, then tight",
                (
                    f"The last turns: {self._end()}",
                    "Measure at both ends and in the middle: the work gave under the cut, or the tool wore.",
                    "Where the mate is longer than its gauge, lead error adds up over the length.",
                ),
                "Spring passes at the same reading until nothing comes off. Then as for one that binds.",
                at="the last turns",
            ),
            FitRow(
                "Rocks, or is loose",
                (
                    "Measure it: inside the limits, the mate is worn or "
                    + ("small" if inside else "large") + "; measure that, too.",
                    "Rocks on a few turns only: bell mouth, or a first thread cut too deep.",
                ),
                "Nothing puts metal back. Stop, write the reading down, and ask the customer before the part "
                "leaves the lathe.",
                feels="rocks",
            ),
        )

    def taper(self) -> tuple[FitRow, ...]:
        """Of a taper thread, tried with its gauge by hand."""
        return (
            FitRow(
                "The gauge does not start, or stops short",
                ("Burr, chip, chamfer.", "Gauge and thread at one temperature. " + self._warm()),
                "Cut on by the gauge lines of the thread data, for the turns that it stops short, in two "
                "cuts and a spring pass; then try again.",
                feels="does not start",
            ),
            FitRow(
                "The gauge rocks, or binds at one end",
                (
                    "Blue it: rubbed at one end only is the taper; look to the attachment or the set-over.",
                    "One flank all along: pitch, or a tool that stands square to the taper, not to the axis.",
                ),
                "Set the taper right first. No deeper cut mends it.",
                feels="rocks",
            ),
            FitRow(
                "The gauge is right, the mate stops short or rocks",
                ("The mate: its first thread, its own taper, an old standard.",),
                "Cut nothing more. Measure the mate, and ask.",
                feels="rocks", at="the mate; the gauge is right",
            ),
            FitRow(
                "The gauge goes too far",
                ("Read it again, by hand, threads clean.",),
                "Nothing puts metal back. Where the end of the work may be faced off, the thread moves back "
                "by as much; ask before it leaves the lathe. Do not make it up with sealant.",
                feels="free", at="past the gauge line",
            ),
        )

    def _crest(self) -> str:
        sizes = self.thread.limits.minor if self.thread.internal else self.thread.limits.major
        unit, system = self.thread.designation.unit_si, self.thread.system
        ends = [fine_words(end * unit, system) for end in (sizes.min, sizes.max) if end is not None]
        if len(ends) == 2:
            return f"{ends[0]} to {ends[1]}"
        if not ends:
            return "to suit the mate"
        return f"{'at least' if self.thread.internal else 'at most'} {ends[0]}"

    def _holes(self) -> str:
        """Where a cross hole of the work is met."""
        thread, system = self.thread, self.thread.system
        near = NEAR_HOLE * thread.pitch
        holes = [
            (self.end_of_work - hole.from_end.si, hole.diameter.si) for hole in self.job.cross_holes
        ]
        met = [hole for hole in holes if thread.end - near <= hole[0] <= thread.start + near]
        if not met:
            return "."
        at, diameter = max(met)
        turns = max(thread.start - at - diameter / 2, 0.0) / thread.lead
        return (
            f"; the cross hole of {length_words(diameter, system)} is met after {turns:.1f} turns: take its "
            "burr off inside the thread."
        )

    def _warm(self) -> str:
        """What a warm part does to the fit."""
        warm = "Let it cool to the warmth of the mate"
        if self.material is None:
            return f"{warm}: a warm part is a large part."
        grown = growth(self.thread.target, WARM, self.material.expansion)
        if grown < 0.001 * mm:
            return f"{warm}."
        return (
            f"{warm}: {rise_words(WARM, self.thread.system)} warmer, its pitch diameter is "
            f"{fine_words(grown, self.thread.system)} larger."
        )

    def _end(self) -> str:
        thread = self.thread
        if thread.relief_start is not None:
            return "into the relief, is its edge clear of burr, and the relief wide enough for the mate?"
        return "the thread runs out there; the mate needs a counterbore, or the thread more length."
