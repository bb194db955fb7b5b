"""The work as it is after each operation: which diameters the next tool meets.

    Stretch      a length of the work between two places
    WorkSoFar    all of them; every cut gives the next state
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from generator.sheet.layout import Layout
from generator.si import Length

SAME = 1e-9  # m: places closer than this are one


@dataclass(frozen=True)
class Stretch:
    """From `low` to `high` (x from the chuck face, m), with its diameters; `touched` once a cut was there."""

    low: Length
    high: Length
    od_low: Length
    od_high: Length
    bore: Length
    touched: bool = False

    def od_at(self, x: Length) -> Length:
        """Outside diameter at x, straight between the ends."""
        return self.od_low + (self.od_high - self.od_low) * (x - self.low) / (self.high - self.low)


@dataclass(frozen=True)
class WorkSoFar:
    """The state of the work before an operation."""

    stretches: tuple[Stretch, ...]

    def largest(self, low: Length, high: Length) -> Length | None:
        """Largest outside diameter between two places; None off the work."""
        found = [max(one.od_at(a), one.od_at(b)) for one, a, b in self._between(low, high)]
        return max(found, default=None)

    def smallest(self, low: Length, high: Length) -> Length | None:
        """Smallest outside diameter between two places; None off the work."""
        found = [min(one.od_at(a), one.od_at(b)) for one, a, b in self._between(low, high)]
        return min(found, default=None)

    def bore(self, low: Length, high: Length) -> Length:
        """Smallest hole between two places: 0 where any of it is solid, or off the work."""
        return min((one.bore for one, _, _ in self._between(low, high)), default=0.0)

    def touched(self, low: Length, high: Length) -> bool:
        """True when an operation has cut somewhere between two places."""
        return any(one.touched for one, _, _ in self._between(low, high))

    def cut_through(self) -> Stretch | None:
        """The first stretch, from the chuck, whose hole is as large as its outside; None with a wall."""
        return next((one for one in self.stretches if min(one.od_low, one.od_high) <= one.bore), None)

    def turned(self, low: Length, high: Length, od_low: Length, od_high: Length) -> WorkSoFar:
        """The work after a cut that leaves these diameters at the two places."""
        cut = Stretch(low, high, od_low, od_high, 0.0)
        return self._after(low, high, lambda one: replace(
            one, od_low=cut.od_at(one.low), od_high=cut.od_at(one.high), touched=True
        ))

    def bored(self, low: Length, high: Length, diameter: Length) -> WorkSoFar:
        """The work after a hole of this diameter."""
        return self._after(low, high, lambda one: replace(one, bore=max(one.bore, diameter), touched=True))

    def _between(self, low: Length, high: Length) -> Iterable[tuple[Stretch, Length, Length]]:
        """The stretches that two places share, each with the part of it; at one place the one left of it."""
        if high - low <= SAME:
            low = low - 2 * SAME
        for one in self.stretches:
            a, b = max(one.low, low), min(one.high, high)
            if b - a > SAME:
                yield one, a, b

    def _after(self, low: Length, high: Length, change: Callable[[Stretch], Stretch]) -> WorkSoFar:
        if high - low <= SAME:
            return self
        after: list[Stretch] = []
        for one in self.stretches:
            a, b = max(one.low, low), min(one.high, high)
            if b - a <= SAME:
                after.append(one)
                continue
            parts = [(one.low, a, False), (a, b, True), (b, one.high, False)]
            for start, end, cut in parts:
                if end - start > SAME:
                    part = replace(
                        one, low=start, high=end, od_low=one.od_at(start), od_high=one.od_at(end)
                    )
                    after.append(change(part) if cut else part)
        return WorkSoFar(tuple(after))


def work_before(layout: Layout) -> WorkSoFar:
    """The work as the job file describes it."""
    return WorkSoFar(tuple(
        Stretch(span.start, span.end, span.od_start, span.od_end, span.bore) for span in layout.spans
    ))
