"""Where the work lies along the lathe: x from the chuck face, + towards the tailstock."""

from __future__ import annotations

from dataclasses import dataclass

from generator.job.model import Job
from generator.si import Length


class Way:
    """From `start` to `end` along the lathe (m), in the direction in which the tool goes."""

    start: Length
    end: Length

    @property
    def low(self) -> Length:
        """The end nearer the chuck (m)."""
        return min(self.start, self.end)

    @property
    def high(self) -> Length:
        """The end nearer the tailstock (m)."""
        return max(self.start, self.end)


@dataclass(frozen=True)
class Span:
    """One section of the work as it lies: from `start` to `end` (m), a taper when the diameters differ."""

    start: Length
    end: Length
    od_start: Length
    od_end: Length
    bore: Length
    section_index: int

    def od_at(self, x: Length) -> Length:
        """Outside diameter at x (m), straight between the ends."""
        return self.od_start + (self.od_end - self.od_start) * (x - self.start) / (self.end - self.start)

    @property
    def tapered(self) -> bool:
        """True when the section is a taper."""
        return self.od_start != self.od_end


@dataclass(frozen=True)
class Layout:
    """The sections in order; the first begins at −grip, the last ends at the stick-out."""

    spans: tuple[Span, ...]
    grip: Length
    total: Length
    stick_out: Length

    def span_at(self, x: Length) -> Span | None:
        """The section at x (m); at a shoulder the one nearer the tailstock; None off the work."""
        if not self.spans or not self.spans[0].start <= x <= self.spans[-1].end:
            return None
        return next((span for span in reversed(self.spans) if span.start <= x), None)


def lay_out(job: Job) -> Layout:
    """Lay the job's sections along the lathe, from the chuck end towards the tailstock."""
    grip = job.holding.grip.si
    spans, x = [], -grip
    for index, section in enumerate(job.work):
        end = x + section.length.si
        od_end = section.od_end.si if section.od_end else section.od.si
        bore = section.bore.si if section.bore else 0.0
        spans.append(Span(x, end, section.od.si, od_end, bore, index))
        x = end
    return Layout(tuple(spans), grip, x + grip, x)
