"""ISO metric screw threads M (ISO 68-1, ISO 261, ISO 724, ISO 965-1)."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

from generator.language.say import later
from generator.threads.designation import Designation
from generator.threads.engagement import of_group
from generator.threads.families.metric.external import crest_allowance, metric_limits, normal_engagement
from generator.threads.families.metric.grades import usual_class
from generator.threads.families.metric.internal import internal_metric_limits
from generator.threads.families.metric.pitches import coarse_pitches, fine_pitches
from generator.threads.families.metric.reading import NAME, parse_metric
from generator.threads.families.metric.working import size_lines
from generator.threads.family import Family, StandardSize
from generator.threads.gauging import METRIC_CRESTS, Gauging, LimitGauges
from generator.threads.profile import SIXTY, THREE_EIGHTHS, Profile
from generator.threads.sizes import ThreadLimits
from generator.threads.text import Written, number_text

LEAST_ROOT_RADIUS = 0.125  # of the pitch, external: ISO 68-1, ISO 965-1


class Metric(Family):
    """ISO metric threads."""

    key = "M"
    name = later("ISO metric threads")
    standard = "ISO 68-1, ISO 261, ISO 965-1"
    examples = ("M10x1.5-6g", "M20x1.5-5g6g", "M10x1.5-6H", "M16xPh3P1.5-6g", "M24x2-6g-LH")
    order = 80

    def claims(self, text: Written) -> bool:
        """M and a number, with or without the standard or the word metric in front."""
        return NAME.match(text.upper) is not None

    def read(self, text: Written) -> Designation:
        """M, diameter, pitch, class, group of engagement, hand."""
        return parse_metric(text)

    def write(self, d: Designation) -> str:
        """As section 5 of the standard: ``M20x1.5-5g6g-LH``, the pitch always written."""
        pitch = f"Ph{number_text(d.lead)}P{number_text(d.pitch)}" if d.starts > 1 else number_text(d.pitch)
        group = "" if d.engagement_group in ("", "N") else f"-{d.engagement_group}"
        return f"M{d.nominal_text}x{pitch}-{d.class_}{group}" + ("-LH" if d.hand == "left" else "")

    def profile(self, d: Designation) -> Profile:
        """60 degrees, crest flat P/8; outside a root radius of P/8 at least."""
        return Profile(
            flanks=SIXTY, depth=0.54126588, crest_height=THREE_EIGHTHS,
            crest_flat=0.25 if d.internal else 0.125,
            tool_flat=0.125, source="ISO 68-1",
            least_radius=0.0 if d.internal else LEAST_ROOT_RADIUS,
        )

    def limits(self, d: Designation, engagement: float | None = None) -> ThreadLimits:
        """Positions e to h outside, G and H inside."""
        of_side = internal_metric_limits if d.internal else metric_limits
        sizes = of_side(d, engagement)
        return replace(sizes, places=3, lines=size_lines(sizes, crest_allowance(d)))

    def engagements(self, d: Designation) -> tuple[float, float] | None:
        """Those of the groups S and L; N goes without saying."""
        if d.engagement_group not in ("S", "L"):
            return None
        return of_group(d.engagement_group, normal_engagement(d))

    def mate(self, d: Designation) -> Designation:
        """The usual class of the other side: 6H for a screw, 6g for a nut, finer for the smallest."""
        class_ = usual_class(Fraction(d.nominal_text), d.pitch, not d.internal)
        return replace(d, text="", class_=class_, side=d.other_side, class_assumed=True)

    def gauging(self, d: Designation) -> Gauging:
        """Not-go two turns at most, as gauge makers print it from ISO 1502."""
        return LimitGauges(
            "ISO 1502", 2, METRIC_CRESTS, () if d.internal else ("crest of the no-go ring",)
        )

    def sizes(self) -> Iterable[StandardSize]:
        """The coarse series of ISO 261, and its fine pitches; those of ISO 262 are the common ones."""
        coarse = [(nominal, pitch, True) for nominal, pitch in coarse_pitches().items()]
        for nominal, pitch, common in sorted([*coarse, *fine_pitches()]):
            text = f"M{number_text(nominal)}x{number_text(pitch)}-{usual_class(nominal, pitch, False)}"
            yield StandardSize(text, float(nominal), float(pitch), "mm", common)


FAMILY = Metric()
