"""Pipe threads where pressure-tight joints are made on the threads: R, Rc, Rp (ISO 7-1; old name BSPT)."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from generator.language.say import later, say
from generator.threads.designation import Designation
from generator.threads.families.iso7.limits import iso7_limits
from generator.threads.families.iso7.reading import NAMES, SIDES, plain_of, read_iso7, write_iso7
from generator.threads.families.iso7.sizes import TAPER, pipe_sizes
from generator.threads.family import Family, StandardSize
from generator.threads.gauging import Gauging, TaperGauges
from generator.threads.profile import WHITWORTH, Profile
from generator.threads.sizes import ThreadLimits
from generator.threads.text import Written

USUAL_MATE = {"R": "Rc", "Rc": "R", "Rp": "R"}


class PipeThreads(Family):
    """R (taper, external), Rc (taper, internal), Rp (parallel, internal); the size is a name."""

    key = "R"
    name = later("Pipe threads that seal on the thread")
    standard = "ISO 7-1"
    examples = ("R 1/2", "Rc 3/4", "Rp 1 1/2", "R 2 LH")
    order = 32

    def claims(self, text: Written) -> bool:
        """The letters R, Rc, Rp in front of a size; BSPT, and PT and PS of the Japanese standard."""
        found = NAMES.search(plain_of(text))
        return found is not None and (found["letters"] is None or found.start() == 0)

    def read(self, text: Written) -> Designation:
        """Letters, size, hand."""
        return read_iso7(text)

    def write(self, d: Designation) -> str:
        """As the standard: ``R 1 1/2 LH``."""
        return write_iso7(d)

    def profile(self, d: Designation) -> Profile:
        """55 degrees, rounded, square to the axis; on a taper of 1 in 16 unless parallel."""
        return replace(
            WHITWORTH, taper=0.0 if d.series == "Rp" else float(TAPER), source=say("Whitworth form, ISO 7-1")
        )

    def limits(self, d: Designation, engagement: float | None = None) -> ThreadLimits:
        """At the end, by the tolerance of the gauge plane."""
        return iso7_limits(d)

    def mate(self, d: Designation) -> Designation:
        """R and Rc; Rp goes with R, too."""
        series = USUAL_MATE[d.series]
        return replace(d, text="", series=series, side=SIDES[series], side_assumed=False)

    def mates(self, d: Designation) -> tuple[Designation, ...]:
        """A taper screw goes into a taper bore and into a parallel one."""
        usual = self.mate(d)
        return (usual, replace(usual, series="Rp")) if d.series == "R" else (usual,)

    def gauging(self, d: Designation) -> Gauging:
        """Two gauges that stand alike within half a turn (PN-EN 10226-3, the same as ISO 7-2)."""
        if d.internal:
            return TaperGauges(
                "ISO 7-2",
                say("two full-form taper plug gauges with a step, one of them relieved"),
                say(
                    "major and pitch diameter at the gauge plane, and by the relieved one the room beyond "
                    "it; not the bore between the crests"
                ),
                apart=0.5,
            )
        return TaperGauges(
            "ISO 7-2", say("full-form ring gauge and plain taper ring gauge, each with a step"),
            say(
                "the one minor and pitch diameter at the gauge plane, the other the crests; both alike: the "
                "taper"
            ),
            apart=0.5,
        )

    def sizes(self) -> Iterable[StandardSize]:
        """1/16 to 6."""
        for size in pipe_sizes().values():
            yield StandardSize(f"R {size.name}", float(size.major), float(size.pitch), "mm")


FAMILY = PipeThreads()
