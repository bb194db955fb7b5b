"""What was measured on a thread, and how well each reading is known.

Readings in SI (m, rad); threads per inch as the trade counts them, a taper as change of diameter over length.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator
from dataclasses import dataclass, fields, replace
from typing import Literal

from generator.language.say import later, say
from generator.si import inch, mm
from generator.threads.designation import Hand

Name = Literal[
    "major", "pitch_diameter", "minor", "pitch", "pitch_over_ten", "tpi", "lead", "angle", "taper"
]
WORDS: dict[Name, str] = {
    "major": later("major"), "pitch_diameter": later("pitch diameter"), "minor": later("minor"),
}
DIAMETERS: tuple[Name, ...] = ("major", "pitch_diameter", "minor")
PITCHES: tuple[Name, ...] = ("pitch", "pitch_over_ten", "tpi")
TEN = 10
# How well a reading is known where nobody says: common practice, no source.
USUAL_WITHIN: dict[Name, float] = {
    "major": 0.05 * mm, "pitch_diameter": 0.03 * mm, "minor": 0.05 * mm,  # a caliper; over wires
    "pitch_over_ten": 0.2 * mm, "lead": 0.2 * mm,                         # two crests judged by eye
    "angle": math.radians(2.5), "taper": 0.01,                            # a leaf that seats; two diameters
}
PITCH_SHARE = 0.02                                                        # of the pitch: a leaf that seats
SHARPEST: dict[Name, float] = {"pitch": 0.01 * mm, "tpi": 0.05}


@dataclass(frozen=True)
class Reading:
    """One measurement: the value, and how far it may be off either way; `said` when somebody told how far."""

    value: float
    within: float
    said: bool = False


def reading(name: Name, value: float, within: float | None = None) -> Reading:
    """A reading with the uncertainty that it has, or the usual one of its kind.

    Parameters
    ----------
    name : what was measured
    value, within : m, rad, threads per inch, or a plain ratio

    Examples
    --------
    >>> reading("tpi", 13.0).within
    0.26

    Source: common practice, no source.
    """
    if within is not None:
        return Reading(value, within, said=True)
    if name in SHARPEST:
        return Reading(value, max(PITCH_SHARE * value, SHARPEST[name]))
    return Reading(value, USUAL_WITHIN[name])


@dataclass(frozen=True)
class Measured:
    """What is known of a thread that came in; None is not measured.

    `pitch` is from crest to the next crest, whatever start it is of; `lead` what one turn advances.
    `worn` says that the thread is used enough to read out of its limits. `starts` None was not counted.
    """

    major: Reading | None = None
    pitch_diameter: Reading | None = None
    minor: Reading | None = None
    pitch: Reading | None = None
    pitch_over_ten: Reading | None = None
    tpi: Reading | None = None
    lead: Reading | None = None
    angle: Reading | None = None
    taper: Reading | None = None
    inside: bool = False
    worn: bool = False
    hand: Hand = "right"
    starts: int | None = None

    def readings(self) -> Iterator[tuple[Name, Reading]]:
        """All that was measured, in the order of the fields."""
        for field in fields(self):
            value = getattr(self, field.name)
            if isinstance(value, Reading):
                yield field.name, value  # type: ignore[misc]  # every field that holds a Reading is a Name

    @property
    def best_pitch(self) -> Reading | None:
        """The pitch (m) by the reading that knows it best; with starts counted, the lead tells it too."""
        known = [one for one in (self.pitch, self.pitch_over_ten and _tenth(self.pitch_over_ten)) if one]
        if self.tpi:
            pitch = inch / self.tpi.value
            known.append(replace(self.tpi, value=pitch, within=pitch * self.tpi.within / self.tpi.value))
        if self.lead and self.starts:
            known.append(
                replace(self.lead, value=self.lead.value / self.starts, within=self.lead.within / self.starts)
            )
        return min(known, key=lambda one: one.within, default=None)

    @property
    def crest(self) -> Name:
        """The diameter that a caliper reaches: over the crests outside, the bore inside."""
        return "minor" if self.inside else "major"


def _tenth(ten: Reading) -> Reading:
    return replace(ten, value=ten.value / TEN, within=ten.within / TEN)


def faults(measured: Measured) -> tuple[tuple[str, str], ...]:
    """What cannot be true of any thread: the reading it stands at (or nothing), and a sentence about it.

    >>> faults(Measured())[0][1][:34]
    'is neither a diameter nor a pitch '
    """
    found: list[tuple[str, str]] = []
    if not any(getattr(measured, name) for name in (*DIAMETERS, *PITCHES, "lead")):
        found.append(
            (
                "",
                say(
                    "is neither a diameter nor a pitch to go by: measure the bore, and ten pitches"
                ) if measured.inside
                else say(
                    "is neither a diameter nor a pitch to go by: measure over the crests, and ten pitches"
                ),
            )
        )
    found += [
        (name, say("is known no better than its own size: measure it closer"))
        for name, one in measured.readings()
        if one.said and one.within >= one.value and name not in ("angle", "taper")
    ]
    sizes = [(name, one) for name in DIAMETERS if (one := getattr(measured, name))]
    for (larger, over), (smaller, under) in itertools.pairwise(sizes):
        if under.value >= over.value:
            one, other = WORDS[smaller], WORDS[larger]
            found.append(
                (
                    smaller,
                    say("is not smaller than {other}: measure {one} and {other} again", other=other, one=one),
                )
            )
    pitch = measured.best_pitch
    if pitch and sizes and pitch.value >= sizes[0][1].value:
        at = next(name for name in (*PITCHES, "lead") if getattr(measured, name))
        found.append((at, say("makes a pitch as large as the thread: measure it again")))
    if measured.lead and pitch and measured.lead.value + measured.lead.within < pitch.value - pitch.within:
        found.append(("lead", say("is less than the pitch: a turn advances one pitch at least")))
    if measured.taper and measured.taper.value >= 1 / 3:
        found.append(
            ("taper", say("is steeper than any thread: write change of diameter over length, like 1:16"))
        )
    return tuple(found)


def disagreement(measured: Measured) -> tuple[Name, Name] | None:
    """Two readings of the pitch that cannot both be right, or None.

    >>> disagreement(Measured(tpi=reading("tpi", 12), pitch_over_ten=reading("pitch_over_ten", 0.0195)))
    ('tpi', 'pitch_over_ten')
    """
    alone = {
        name: pitch
        for name in PITCHES
        if getattr(measured, name)
        and (pitch := Measured(**{name: getattr(measured, name)}).best_pitch)
    }
    names = sorted(alone, key=lambda name: -alone[name].within)
    for place, one in enumerate(names):
        for other in names[place + 1 :]:
            if abs(alone[one].value - alone[other].value) > alone[one].within + alone[other].within:
                return one, other
    return None
