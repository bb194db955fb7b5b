"""The work as a beam on chuck, steady rest and center."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from generator.calc.beam import Beam, Segment, Support
from generator.calc.slenderness import POISSON
from generator.job.lathe import Lathe
from generator.job.model import Job
from generator.language.say import say
from generator.sheet.figure import System
from generator.sheet.head import ORIGIN_WORDS
from generator.sheet.layout import Layout
from generator.sheet.plans import CutLoad, ThreadPlan
from generator.sheet.wording import length_words
from generator.sheet.work_so_far import WorkSoFar
from generator.si import Length
from generator.tables.materials import MaterialRow

PLACES_ALONG_CUT = 9
DUST = 1e-9  # m: two places nearer than this are one


@dataclass(frozen=True)
class HeldWork:
    """All that the beam is made of, but for where the steady rest stands.

    `chuck_stiffness` N m/rad against tilting; steady rest, center and follow rest N/m.
    """

    job: Job
    lathe: Lathe
    layout: Layout
    thread: ThreadPlan | None
    material: MaterialRow | None
    chuck_stiffness: float
    steady_stiffness: float
    center_stiffness: float = math.inf
    follow_stiffness: float = math.inf

    @property
    def system(self) -> System:
        """The unit that stands first on this job's sheet."""
        return self.job.units or self.lathe.units

    @property
    def origin(self) -> str:
        """What a place on the work is measured from, in words."""
        return ORIGIN_WORDS[self.job.holding.held.kind]

    def place_words(self, x: Length) -> str:
        """A place on the work in words: "11.000 in (279.40 mm) from the chuck face"."""
        return say(
            "{length_words} from the {origin}", length_words=length_words(x, self.system), origin=self.origin
        )

    @property
    def steady_half(self) -> Length:
        """Half the width of the steady's fingers, 0 where the record does not say (m)."""
        return self.lathe.steady.width.si / 2 if self.lathe.steady and self.lathe.steady.width else 0.0

    @property
    def cut_end(self) -> Length | None:
        """Where the tool is nearest to the chuck (m)."""
        if self.thread is None:
            return None
        return self.thread.end if self.thread.relief_end is None else self.thread.relief_end

    def cut_places(self) -> list[Length]:
        """Places along the thread where the deflection is worked out, from the chuck outwards (m).

        None without a thread, or with one that does not lie on the work outside the jaws.
        """
        if self.thread is None:
            return []
        start, end = (min(max(x, 0.0), self.layout.stick_out) for x in (self.thread.start, self.thread.end))
        if start - end < DUST:
            return []
        return [end + (start - end) * step / (PLACES_ALONG_CUT - 1) for step in range(PLACES_ALONG_CUT)]

    # -- the beam -------------------------------------------------------------------------------------

    def beam(self, steady_at: Length | None, *, rigid: bool = False, end_open: bool = False) -> Beam:
        """The finished work on its supports, as soft as they are or rigid.

        In the order: chuck or headstock center, then steady rest, then center. `end_open` leaves the center
        away, as while its hole is drilled.
        """
        center = self.job.holding.center is not None and not end_open
        return self.beam_of(self._segments(), steady_at, center=center, rigid=rigid)

    def beam_under(
        self, load: CutLoad, steady_at: Length | None, *, rigid: bool = False, shear: bool = False
    ) -> Beam:
        """The work as a cut of the route leaves it, on the supports that bear during it.

        A thread leaves its root; its own cut is the finished work's.
        """
        segments = self._segments() if load.name == "thread" else self._state(load.work)
        bears = steady_at if load.steady else None
        return self.beam_of(segments, bears, center=load.center, rigid=rigid, shear=shear)

    def beam_of(
        self, segments: Sequence[Segment], steady_at: Length | None, *, center: bool, rigid: bool = False,
        shear: bool = False,
    ) -> Beam:
        """Segments on the supports of this job."""
        assert self.material is not None
        if self.job.holding.centers is not None:
            supports = [Support(0.0, math.inf if rigid else self.center_stiffness)]
        else:
            supports = [Support(0.0, math.inf, math.inf if rigid else self.chuck_stiffness)]
        if steady_at is not None:
            supports.append(Support(steady_at, math.inf if rigid else self.steady_stiffness))
        if center:
            supports.append(Support(self.layout.stick_out, math.inf if rigid else self.center_stiffness))
        return Beam(
            tuple(segments), tuple(supports), self.material.elastic_modulus, self.material.density,
            POISSON if shear else None,
        )

    def _state(self, work: WorkSoFar) -> list[Segment]:
        """What stands out of the jaws of the work in some state."""
        segments: list[Segment] = []
        for one in work.stretches:
            if one.high <= DUST:
                continue
            low = segments[-1].end if segments else max(one.low, 0.0)
            segments.append(Segment(low, one.high, one.od_at(low), one.bore, one.od_high))
        return segments

    def _segments(self) -> list[Segment]:
        thread = self.thread
        marks = {0.0, self.layout.stick_out, *(span.start for span in self.layout.spans)}
        if thread is not None:
            ends = (thread.start, thread.end, thread.relief_start, thread.relief_end)
            marks.update(x for x in ends if x is not None)
        segments: list[Segment] = []
        for start, end in pairwise(sorted(x for x in marks if 0.0 <= x <= self.layout.stick_out)):
            if end - start < DUST:
                continue
            begin, middle = segments[-1].end if segments else start, (start + end) / 2
            here = self.layout.span_at(middle)
            assert here is not None
            most = self._cut_down(middle)
            low, high = (min(here.od_at(x), most) for x in (begin, end))
            segments.append(Segment(begin, end, low, max(here.bore, self._opened(middle)), high))
        return segments

    def _cut_down(self, x: Length) -> Length:
        """Outside diameter that thread and relief leave at x; infinite away from them (m)."""
        cut = self._cut_at(x)
        return math.inf if cut is None or (self.thread is not None and self.thread.internal) else cut

    def _opened(self, x: Length) -> Length:
        """Bore that an internal thread and its recess leave at x; 0 away from them (m)."""
        cut = self._cut_at(x)
        return 0.0 if cut is None or self.thread is None or not self.thread.internal else cut

    def _cut_at(self, x: Length) -> Length | None:
        """Diameter of the thread's root or of the relief at x; None away from them (m)."""
        thread = self.thread
        if thread is None:
            return None
        if thread.end <= x <= thread.start:
            return thread.root_diameter
        if (
            thread.relief_end is not None
            and thread.relief_diameter is not None
            and thread.relief_end <= x <= thread.end
        ):
            return thread.relief_diameter
        return None
