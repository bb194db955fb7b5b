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
from generator.language.say import first_small, later, say, say_count
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
    "wires": later("It still reads over the largest size"),
    "plug gauge": later("The go plug does not start either"),
    "mate": later("The groove is still narrower than its gauge block"),
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
        "measure.next_cut",
        say("Next cut at a trial, on the {slide}, not over", slide=cuts.slide),
        step,
        "length",
        "{divisions} × {travel of one}",
        {"divisions": (count, "count"), "travel of one": (dial.graduation, "fine_length")},
        say("common practice, no source"),
        note=say("as large as the last cut of the passes, in whole divisions"),
        rounds="down",
        system=lathe.units,
    )
    if thread.flanks.square:
        return say("{divisions} of the {slide}", divisions=_divisions(count), slide=cuts.slide)
    moved = desk.computed(
        "measure.next_cut_takes", say("What that takes off the pitch diameter"), 2 * cuts.depth(step),
        "fine_length", f"2 × {{next cut}}{angle}",
        {
            "next cut": (step, "length"), **({"α": (cuts.infeed_angle, "angle")} if angle else {}),
        },
        say("plane geometry"), system=thread.system,
        note=say("bored out by as much") if thread.internal else "",
    )
    parts = {
        "divisions": _divisions(count), "slide": cuts.slide, "moved": fine_words(moved, thread.system),
    }
    return (
        say(
            "{divisions} of the {slide}, which adds {moved} to the pitch diameter",
            **parts,
        ) if thread.internal
        else say("{divisions} of the {slide}, which takes {moved} off the pitch diameter", **parts)
    )


def _divisions(count: int) -> str:
    return say_count("one division", "{count} divisions", count)


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
        return say("No more than {cut}; a spring pass; read, and try again.", cut=self.cut)

    def parallel(self) -> tuple[FitRow, ...]:
        """Of a parallel thread, outside or inside."""
        thread, inside = self.thread, self.thread.internal
        square = thread.flanks.square
        full = (
            say(
                "Widen the groove with the compound along the axis, a little off the flank that does not "
                "bear."
            )
            if square
            else say("Cut by the table Still to cut, in two cuts at least. {again}", again=self.again)
        )
        crest = (
            say("Measure the bore between the crests: {crest}.", crest=self._crest()) if inside
            else say("Measure over the crests: {crest}.", crest=self._crest())
        )
        return (
            FitRow(
                say("Does not start"),
                (
                    say("Burr on the first thread of either part, chip in the mate, first thread bruised."),
                    say("Chamfer past the root; {crest}", crest=first_small(crest)),
                    say("Hand and pitch of the mate, by a leaf or against the part."),
                ),
                say(
                    "{still_full}: {full} Inside its limits: cut nothing more; the mate, or a crest, is "
                    "what stops it.",
                    still_full=STILL_FULL[thread.fit_by], full=first_small(full),
                ),
                feels="does not start",
            ),
            FitRow(
                say("Starts, and binds after N turns"),
                (
                    say(
                        "It binds N × {lead} from the start{holes}",
                        lead=length_words(thread.lead, thread.system), holes=self._holes(),
                    ),
                    say("A burr at a hole or set screw of the mate, a chip, a bruise: look there in both."),
                    say("Measure at both ends: a difference is taper, from a bar that springs.")
                    if inside
                    else say(
                        "Measure at both ends: a difference is taper, from center, steady rest or give."
                    ),
                    say("Blue it: one flank, more with every turn, is lead or pitch, and no depth mends it."),
                ),
                say(
                    "Back off at the first bind; a forced thread galls. Taper: spring passes at one "
                    "reading. Only if both ends still measure too full: {again}",
                    again=first_small(self.again),
                ),
                feels="binds",
            ),
            FitRow(
                say("Tight all along"),
                (self._warm(), say("Chips brushed out, a drop of oil, no burr standing on the crests.")),
                say(
                    "Measures inside the limits: the mate is tight or worn oval; measure it, and ask. Too "
                    "full: {again}",
                    again=first_small(self.again),
                ),
            ),
            FitRow(
                say("Tight, and shines at the crest only"),
                (
                    crest,
                    say("Root of the mate: filled with dirt or paint, or cut with a wider nose."),
                ),
                say("The flanks are right: open the bore to their limits; no cut on the flanks.")
                if inside
                else say("The flanks are right: turn the crests down to their limits; no cut on the flanks."),
                at=say("crest"),
            ),
            FitRow(
                say("Free, then tight"),
                (
                    say("The last turns: {end}", end=self._end()),
                    say(
                        "Measure at both ends and in the middle: the work gave under the cut, or the tool "
                        "wore."
                    ),
                    say("Where the mate is longer than its gauge, lead error adds up over the length."),
                ),
                say("Spring passes at the same reading until nothing comes off. Then as for one that binds."),
                at=say("the last turns"),
            ),
            FitRow(
                say("Rocks, or is loose"),
                (
                    say("Measure it: inside the limits, the mate is worn or small; measure that, too.")
                    if inside
                    else say("Measure it: inside the limits, the mate is worn or large; measure that, too."),
                    say("Rocks on a few turns only: bell mouth, or a first thread cut too deep."),
                ),
                say(
                    "Nothing puts metal back. Stop, write the reading down, and ask the customer before the "
                    "part leaves the lathe."
                ),
                feels="rocks",
            ),
        )

    def taper(self) -> tuple[FitRow, ...]:
        """Of a taper thread, tried with its gauge by hand."""
        return (
            FitRow(
                say("The gauge does not start, or stops short"),
                (say(
                    "Burr, chip, chamfer."
                ), say("Gauge and thread at one temperature. {warm}", warm=self._warm())),
                say(
                    "Cut on by the gauge lines of the thread data, for the turns that it stops short, in "
                    "two cuts and a spring pass; then try again."
                ),
                feels="does not start",
            ),
            FitRow(
                say("The gauge rocks, or binds at one end"),
                (
                    say(
                        "Blue it: rubbed at one end only is the taper; look to the attachment or the "
                        "set-over."
                    ),
                    say(
                        "One flank all along: pitch, or a tool that stands square to the taper, not to the "
                        "axis."
                    ),
                ),
                say("Set the taper right first. No deeper cut mends it."),
                feels="rocks",
            ),
            FitRow(
                say("The gauge is right, the mate stops short or rocks"),
                (say("The mate: its first thread, its own taper, an old standard."),),
                say("Cut nothing more. Measure the mate, and ask."),
                feels="rocks",
                at=say("the mate; the gauge is right"),
            ),
            FitRow(
                say("The gauge goes too far"),
                (say("Read it again, by hand, threads clean."),),
                say(
                    "Nothing puts metal back. Where the end of the work may be faced off, the thread moves "
                    "back by as much; ask before it leaves the lathe. Do not make it up with sealant."
                ),
                feels="free",
                at=say("past the gauge line"),
            ),
        )

    def _crest(self) -> str:
        sizes = self.thread.limits.minor if self.thread.internal else self.thread.limits.major
        unit, system = self.thread.designation.unit_si, self.thread.system
        ends = [fine_words(end * unit, system) for end in (sizes.min, sizes.max) if end is not None]
        if len(ends) == 2:
            return say("{low} to {high}", low=ends[0], high=ends[1])
        if not ends:
            return say("to suit the mate")
        return say(
            "at least {size}",
            size=ends[0],
        ) if self.thread.internal else say("at most {size}", size=ends[0])

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
        return say(
            "; the cross hole of {diameter} is met after {turns:.1f} turns: take its burr off inside the "
            "thread.",
            diameter=length_words(diameter, system), turns=turns,
        )

    def _warm(self) -> str:
        """What a warm part does to the fit."""
        warm = say("Let it cool to the warmth of the mate")
        if self.material is None:
            return say("{warm}: a warm part is a large part.", warm=warm)
        grown = growth(self.thread.target, WARM, self.material.expansion)
        if grown < 0.001 * mm:
            return f"{warm}."
        return say(
            "{warm}: {rise} warmer, its pitch diameter is {grown} larger.",
            warm=warm, rise=rise_words(WARM, self.thread.system), grown=fine_words(grown, self.thread.system),
        )

    def _end(self) -> str:
        thread = self.thread
        if thread.relief_start is not None:
            return say("into the relief, is its edge clear of burr, and the relief wide enough for the mate?")
        return say("the thread runs out there; the mate needs a counterbore, or the thread more length.")
