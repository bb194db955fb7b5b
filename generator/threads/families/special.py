"""Threads of no standard, "keep the measured form": diameter, pitch and angle as measured on the mate.

    special 23.4x1.8 60deg                  millimeters: diameter x pitch, then the angle between the flanks
    special 0.921-14.5 55deg                inches: diameter-threads per inch
    special 40x6 7/45deg                    flanks that lean differently: the load flank first
    special 0.921-14.5 55deg taper 1:16     taper on the diameter over the length
    special 23.4x1.8 60deg depth 1.05       depth of the groove as measured, in the thread's own unit
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from dataclasses import dataclass

from generator.calc.flanks import Flanks
from generator.errors import BadDesignation, OutsideRange
from generator.language.say import later, say
from generator.threads.designation import Designation
from generator.threads.family import Family, StandardSize
from generator.threads.heads import inch_front, inch_head, metric_front, metric_head
from generator.threads.profile import Profile
from generator.threads.sizes import Range, ThreadLimits, size_line
from generator.threads.text import Written, take_hand

ACCEPTED = later(
    "write special, the size and the angle between the flanks, like special 23.4x1.8 60deg (mm) or special "
    "0.921-14.5 55deg taper 1:16 (inch)"
)
STEEP = math.radians(35)        # included angle up to which half a pitch of depth is taken (Acme, Tr, square)
TRUNCATION = 0.125              # of the height of the sharp V, at crest and root: as the old 60 degree forms
SOURCE = later("the mate as measured")
_ANGLE = re.compile(
    r"(?P<one>\d{1,3}(?:\.\d{1,4})?)(?:\s*/\s*(?P<other>\d{1,2}(?:\.\d{1,4})?))?\s*DEG(?:REES?)?\b"
)
_TAPER = re.compile(r"\bTAPER\s*1\s*:\s*(?P<ratio>\d{1,3}(?:\.\d{1,3})?)")
_DEPTH = re.compile(r"\bDEPTH\s*(?P<depth>\d{0,3}\.?\d{1,5})")


@dataclass(frozen=True)
class Form:
    """Flanks (degrees), taper 1 in `ratio` (0: none) and depth (own unit; 0: not measured)."""

    load: float
    clearance: float
    ratio: float = 0.0
    depth: float = 0.0

    @property
    def flanks(self) -> Flanks:
        """The flanks."""
        return Flanks(math.radians(self.load), math.radians(self.clearance))

    def share(self, pitch: float) -> float:
        """Depth of the groove over the pitch: as measured, else as the nearest forms have it."""
        if self.depth:
            return self.depth / pitch
        if self.flanks.included <= STEEP:
            return 0.5
        return (1 - 2 * TRUNCATION) / self.flanks.tangents

    @property
    def text(self) -> str:
        """As it stands in a designation."""
        angle = (
            f"{2 * self.load:g}deg" if self.load == self.clearance else f"{self.load:g}/{self.clearance:g}deg"
        )
        taper = f" taper 1:{self.ratio:g}" if self.ratio else ""
        return angle + taper + (f" depth {self.depth:g}" if self.depth else "")


def read_form(text: Written, words: str) -> Form:
    """The form that the words behind the size say.

    >>> read_form(Written("x", "x"), "55DEG TAPER 1:16").text
    '55deg taper 1:16'
    """
    found = _ANGLE.search(words)
    if found is None:
        raise BadDesignation(
            say(
                '"{written}" says no angle between the flanks; {accepted}',
                written=text.written,
                accepted=ACCEPTED,
            )
        )
    one = float(found["one"])
    load, clearance = (one, float(found["other"])) if found["other"] else (one / 2, one / 2)
    taper, depth = _TAPER.search(words), _DEPTH.search(words)
    left = words
    for piece in (found, taper, depth):
        left = left.replace(piece[0], " ") if piece else left
    if left.strip(" -"):
        raise BadDesignation(
            say(
                '"{written}": "{left}" is not understood; {accepted}',
                written=text.written,
                left=left.strip(" -").lower(),
                accepted=ACCEPTED,
            )
        )
    if max(load, clearance) > 60:
        raise BadDesignation(
            say(
                '"{written}": flanks leaning over 60 degrees make no thread; {accepted}',
                written=text.written,
                accepted=ACCEPTED,
            )
        )
    if taper and float(taper["ratio"]) < 3:
        raise BadDesignation(
            say(
                '"{written}": a taper of 1:{taper} makes no thread; {accepted}',
                written=text.written,
                taper=taper["ratio"],
                accepted=ACCEPTED,
            )
        )
    return Form(
        load, clearance, float(taper["ratio"]) if taper else 0.0, float(depth["depth"]) if depth else 0.0
    )


class Special(Family):
    """Threads made to their mate."""

    key = "SPECIAL"
    name = later("Special threads, made to the mate as measured")
    standard = later("no standard")
    examples = (
        "special 23.4x1.8 60deg", "special 0.921-14.5 55deg", "special 40x6 7/45deg",
        "special 23.4x1.8 60deg depth 1.05",
    )
    order = 1

    def claims(self, text: Written) -> bool:
        """The word special in front."""
        return text.upper.startswith("SPECIAL")

    def read(self, text: Written) -> Designation:
        """Special, size, angle, taper, depth, hand."""
        upper, hand = take_hand(text, text.upper.removeprefix("SPECIAL").strip(" -"))
        unit = "mm" if re.match(r"[\d.]+\s*(?:MM)?\s*[X*]", upper, re.ASCII) else "in"
        found = _ANGLE.search(upper)
        front, words = (upper[: found.start()], upper[found.start() :]) if found else (upper, "")
        head = (metric_head if unit == "mm" else inch_head)(text, front.strip(" -"), ACCEPTED)
        form = read_form(text, f"{words} {head.rest}")
        pitch = float(head.pitch)
        if head.nominal - 2 * form.share(pitch) * pitch <= 0:
            raise BadDesignation(
                say('"{written}": the groove is as deep as the thread is thick', written=text.written)
            )
        if form.flanks.tangents * form.share(pitch) >= 1 - 1e-9:
            raise BadDesignation(
                say('"{written}": at that depth two grooves meet below the crest; measure depth and angle '
                "again", written=text.written)
            )
        return Designation(
            text=text.written, family=self.key, series="special", nominal=head.nominal,
            nominal_text=head.nominal_text, pitch=head.pitch, lead=head.lead, starts=head.starts, class_="",
            class_assumed=False, pitch_assumed=False, hand=hand, unit="mm" if unit == "mm" else "in",
            side=text.side or "external", tpi=1 / head.pitch if unit == "in" else None,
            side_assumed=text.side is None, form=form.text,
        )

    def write(self, d: Designation) -> str:
        """Special, size, form: ``special 23.4x1.8 60deg LH internal``."""
        front = (metric_front if d.unit == "mm" else inch_front)(d.nominal_text, d.pitch, d.lead)
        hand, side = " LH" if d.hand == "left" else "", " internal" if d.internal else ""
        return f"special {front} {d.form}{hand}{side}"

    def profile(self, d: Designation) -> Profile:
        """The angle as measured; depth as measured, else as the nearest forms have it."""
        form, pitch = _form(d), float(d.pitch)
        depth = form.share(pitch)
        flanks = form.flanks
        flat = 0.5 - depth / 2 * flanks.tangents
        return Profile(
            flanks=flanks, depth=depth, crest_flat=max(flat, 0.0), tool_flat=max(flat, 0.01),
            widest_flat=max(flat, 0.25) if not flanks.square else 0.5,
            taper=1 / form.ratio if form.ratio else 0.0, source=SOURCE,
        )

    def limits(self, d: Designation, engagement: float | None = None) -> ThreadLimits:
        """Basic sizes from the form; no limits, for no standard gives any."""
        depth = _form(d).share(float(d.pitch)) * float(d.pitch)
        places = 3 if d.unit == "mm" else 4
        major, effective, minor = (round(d.nominal - times * depth, places) for times in (0, 1, 2))
        if minor <= 0:
            raise OutsideRange(say("core"), minor, 0.0, None, say("geometry of a thread groove"), d.unit)
        put = (d.nominal, depth)
        if d.internal:
            ends = (Range(None, major), Range(None, effective), Range(None, minor))
            name = "min"
        else:
            ends = (Range(major, None), Range(effective, None), Range(minor, None))
            name = "max"
        letter = "D" if d.internal else "d"
        return ThreadLimits(
            designation=d,
            major=ends[0],
            pitch_diameter=ends[1],
            minor=ends[2],
            allowance=0.0,
            major_tolerance=None,
            pitch_tolerance=None,
            engagement=None,
            engagement_standard=True,
            tabulated=True,
            remarks=tuple(_remarks(d)),
            source=SOURCE,
            places=places,
            plane=say("at the end face where the thread starts") if "taper" in d.form else "",
            lines=(
                size_line(
                    f"major.{name}",
                    major,
                    say("{D}, as measured") if d.internal else say("{d}, as measured"),
                    d.nominal,
                    label=say("Major diameter, basic"),
                ),
                size_line(
                    f"pitch_diameter.{name}",
                    effective,
                    f"{{{letter}}} − {{h}}",
                    *put,
                    label=say("Pitch diameter, basic"),
                ),
                size_line(
                    f"minor.{name}",
                    minor,
                    f"{{{letter}}} − 2 × {{h}}",
                    *put,
                    label=say("Minor diameter, basic"),
                ),
            ),
        )

    def sizes(self) -> Iterable[StandardSize]:
        """None: no standard has them."""
        return ()


def _form(d: Designation) -> Form:
    return read_form(Written(d.form, d.form), d.form.upper())


def _remarks(d: Designation) -> list[str]:
    form = _form(d)
    said = [
        say(
            "No standard: made to the mate as measured. The sizes are basic; the clearance is what the fit "
            "wants. Try the mate, and write down what was cut."
        )
    ]
    if not form.depth:
        said.append(
            say(
                "The depth of the groove was not measured, so it is taken as the nearest forms have it: "
                "half a pitch for steep flanks, three quarters of the sharp V for others. Measure crest and "
                "root of the mate."
            )
        )
    if form.load != form.clearance:
        said.append(
            say(
                "The {load:g} degree flank carries the load, the {clearance:g} degree one clears.",
                load=form.load, clearance=form.clearance,
            )
        )
    return said


FAMILY = Special()
