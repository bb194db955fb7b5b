"""Metric threads before ISO: International System (SI), French standard (SF), Loewenherz."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction
from functools import cache

from generator.calc.flanks import Flanks
from generator.errors import BadDesignation
from generator.language.say import later, say
from generator.tables.rows import table
from generator.threads.basic_sizes import basic_limits
from generator.threads.designation import Designation
from generator.threads.family import Family, StandardSize
from generator.threads.heads import metric_front, metric_head
from generator.threads.profile import Profile
from generator.threads.sizes import ThreadLimits
from generator.threads.text import Written, number_text, take_hand

ACCEPTED = later("write SI 10x1.5, SF 12x1.5 or LOEW 5x0.8, with the pitch where it is not the standard one")
_KEYS = re.compile(
    r"^\s*(?:(?P<SI>S\.?\s?I\b\.?|SI(?=\d))|(?P<SF>S\.?\s?F\b\.?|SF(?=\d))"
    r"|(?P<LOEW>LOEWENHERZ\b|L(?:Ö|O)WENHERZ\b|LOEW\b|LOEW(?=\d)))",
)


@cache
def _forms() -> dict[str, dict[str, str]]:
    return {row["key"]: row for row in table("old_metric_forms", __package__)}


@cache
def _pitches(key: str) -> dict[Fraction, Fraction]:
    row = _series(key)
    return {Fraction(a): Fraction(b) for a, b in (pair.split(":") for pair in row["pitches"].split())}


def _series(key: str) -> dict[str, str]:
    return next(row for row in table("old_metric_series", __package__) if row["key"] == key)


def _memory(d: Designation) -> tuple[str, ...]:
    """What could only be had from memory of old handbooks, in words."""
    over = _series(d.series)["memory_over"]
    standard = _pitches(d.series).get(Fraction(str(d.nominal))) == d.pitch
    known = over and standard and d.nominal > float(over)
    return (say("the standard pitch of this diameter"),) if known else ()


class OldMetric(Family):
    """Old metric threads."""

    key = "OLD-METRIC"
    name = later("Metric threads before ISO (SI, SF, Loewenherz)")
    standard = later("Zurich 1898, French standard of 1894, Loewenherz")
    examples = ("SI 10x1.5", "SF 12x1.5", "LOEW 5x0.8")
    order = 24

    def claims(self, text: Written) -> bool:
        """SI, SF or Loewenherz in front."""
        return _KEYS.match(text.upper) is not None

    def read(self, text: Written) -> Designation:
        """System, diameter, pitch, hand."""
        upper, hand = take_hand(text, text.upper)
        found = _KEYS.match(upper)
        if found is None:
            raise BadDesignation(
                say(
                    '"{written}" is not an old metric thread; {accepted}',
                    written=text.written,
                    accepted=ACCEPTED,
                )
            )
        series = found.lastgroup or ""
        front = upper[found.end() :].strip(" -")
        alone = re.fullmatch(r"M?\s*(\d{1,3}(?:\.\d)?)", front, re.ASCII)
        front = front.removeprefix("M").strip()
        if alone:
            pitch = _pitches(series).get(Fraction(alone[1]))
            if pitch is None:
                raise BadDesignation(
                    say(
                        '"{written}": {series} has no standard pitch for {alone}; {accepted}',
                        written=text.written,
                        series=series,
                        alone=alone[1],
                        accepted=ACCEPTED,
                    )
                )
            front = f"{alone[1]}X{number_text(pitch)}"
        head = metric_head(text, front, ACCEPTED)
        if head.rest.strip(" -"):
            raise BadDesignation(
                say(
                    '"{written}": "{rest}" is not understood; {accepted}',
                    written=text.written,
                    rest=head.rest.strip(" -"),
                    accepted=ACCEPTED,
                )
            )
        return Designation(
            text=text.written, family=self.key, series=series, nominal=head.nominal,
            nominal_text=head.nominal_text, pitch=head.pitch, lead=head.lead, starts=head.starts, class_="",
            class_assumed=False, pitch_assumed=bool(alone), hand=hand, unit="mm",
            side=text.side or "external", side_assumed=text.side is None,
        )

    def write(self, d: Designation) -> str:
        """``SI 10x1.5-LH``."""
        tail = ("-LH" if d.hand == "left" else "") + (" internal" if d.internal else "")
        return f"{d.series} {metric_front(d.nominal_text, d.pitch, d.lead)}{tail}"

    def profile(self, d: Designation) -> Profile:
        """Flats of P/8 at crest and root; 60 degrees, Loewenherz 53 degrees 8 minutes."""
        row = _forms()[d.series]
        flanks = Flanks.alike(math.radians(float(row["included_deg"]) / 2))
        return Profile(
            flanks=flanks, depth=float(row["depth"]), crest_flat=float(row["flat"]),
            tool_flat=float(row["flat"]), widest_flat=0.125,
            source=row["source"],
        )

    def limits(self, d: Designation, engagement: float | None = None) -> ThreadLimits:
        """Basic sizes of the form; no limits of these systems were found."""
        row = _forms()[d.series]
        depth = float(row["depth"])
        twin = (
            say(
                " A metric thread of today (M) of the same diameter and pitch goes together with it, and "
                "may serve in its place."
            ) if d.series != "LOEW"
            else say(" A metric thread (M) does not go together with it.")
        )
        return replace(
            basic_limits(
                d, addendum=depth / 2, root=depth, source=row["source"],
                remarks=(
                    say(
                        "No limits of {system} were found: the sizes are basic. Fit it to its mate.",
                        system=say(row["name"]),
                    ) + twin,
                ),
                memory=_memory(d),
            ),
            tabulated=_pitches(d.series).get(Fraction(str(d.nominal))) == d.pitch,
        )

    def sizes(self) -> Iterable[StandardSize]:
        """The standard pitches of each system."""
        for key in _forms():
            for diameter, pitch in _pitches(key).items():
                text = f"{key} {number_text(diameter)}x{number_text(pitch)}"
                yield StandardSize(text, float(diameter), float(pitch), "mm", common=False)


FAMILY = OldMetric()
