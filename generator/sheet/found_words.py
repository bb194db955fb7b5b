"""What was measured on a thread and what it may be, in sentences: the same on a sheet and in a terminal."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from typing import Final

from generator.calc.thread_dial import and_words, ordinal
from generator.sheet.figure import System
from generator.sheet.wording import fine_words, length_words
from generator.si import Length, inch, mm
from generator.threads.identify.candidate import Candidate, Distance
from generator.threads.identify.measured import DIAMETERS, Measured, Name, Reading
from generator.threads.identify.special import Special
from generator.threads.identify.twins import TAPER_OVER, Kind, NearMiss, Telling, Twin

NAMES: Final[dict[Name, str]] = {
    "major": "major diameter", "pitch_diameter": "pitch diameter", "minor": "minor diameter",
    "pitch": "pitch", "pitch_over_ten": "ten pitches", "tpi": "threads per inch",
    "lead": "advance in a turn", "angle": "flank angle", "taper": "taper",
}
LENGTHS: Final[tuple[Name, ...]] = (*DIAMETERS, "pitch", "pitch_over_ten", "lead")
KEEP: Final = "special: keep the measured form"
# What to do, by what tells two threads apart: outside, inside.
_DO: Final[dict[Kind, tuple[str, str]]] = {
    "starts": ("Count the starts at the end face", ""),
    "taper": (
        f"Measure over the crests at two places {TAPER_OVER} threads apart",
        f"Measure the bore at two depths {TAPER_OVER} threads apart",
    ),
    "angle": ("Try the angle leaf between the flanks", "Try the angle leaf between the flanks of a cast"),
    "flanks": ("Look which way each flank leans", "Look on a cast which way each flank leans"),
    "major": ("Measure over the crests where they are least worn", "Measure the roots, on a cast"),
    "minor": ("Measure the root diameter", "Measure the bore where it is least worn"),
    "pitch_diameter": ("Measure the pitch diameter over wires", "Measure the pitch diameter between balls"),
    "crest": ("Look at the crests under a glass", "Look at the roots of a cast under a glass"),
}
NOTHING_TELLS: Final = "No measurement tells them apart: try the mate, or ask where the part comes from."
_SEVERAL: Final = ("pitch_over_ten", "tpi")
_PARALLEL, _STEPS = 1e-6, 2


def angle_words(angle: float) -> str:
    """An angle as the trade says it.

    >>> angle_words(math.radians(47.5)), angle_words(math.radians(60))
    ('47.5 degrees', '60 degrees')
    """
    said = f"{math.degrees(angle):.4g}"
    return f"{said} degree{'s' * (said != '1')}"


def taper_words(taper: float) -> str:
    """A taper as 1 in so much, to a half.

    >>> taper_words(1 / 16), taper_words(0.0)
    ('1 in 16', 'none')
    """
    return f"1 in {round(_STEPS / taper) / _STEPS:g}" if taper > _PARALLEL else "none"


def value_words(name: Name, value: float, system: System) -> str:
    """One reading, or what a thread is expected to show, with its unit.

    >>> value_words("major", 0.0126, "mm"), value_words("tpi", 13.0, "mm")
    ('12.60 mm (0.496 in)', '13')
    """
    if name in LENGTHS:
        return length_words(value, system) if name != "pitch" else fine_words(value, system)
    if name == "angle":
        return angle_words(value)
    return taper_words(value) if name == "taper" else f"{value:.4g}"


def reading_words(name: Name, one: Reading, system: System) -> str:
    """One reading with how well it is known."""
    if name in LENGTHS:
        within = close_words(one.within, system)
    elif name == "angle":
        within = angle_words(one.within)
    else:
        within = f"{one.within:.2g}"
    said = "" if one.said else ", assumed"
    return f"{NAMES[name]} {value_words(name, one.value, system)}, within {within}{said}"


def close_words(value: float, system: System) -> str:
    """How closely something is read, in two figures, rounded down.

    >>> close_words(0.0001, "mm"), close_words(0.0000289, "inch")
    ('0.1 mm (0.0039 in)', '0.0011 in (0.028 mm)')
    """
    in_mm, in_inches = f"{_two_figures(value / mm)} mm", f"{_two_figures(value / inch)} in"
    return f"{in_inches} ({in_mm})" if system == "inch" else f"{in_mm} ({in_inches})"


def _two_figures(value: float) -> str:
    step = 10.0 ** (math.floor(math.log10(value)) - 1)
    return f"{math.floor(value / step + 1e-6) * step:.2g}"


def distance_words(one: Distance, system: System) -> str:
    """How far one reading is from a thread.

    >>> distance_words(Distance("major", 0.0126, 0.0127, 0.0128, -0.0001, 0.0002, 0.00005), "mm")
    'major diameter 0.100 mm (0.0039 in) under, which use explains'
    """
    name = NAMES[one.name]
    if abs(one.off) <= _least(one):
        return f"{name} within its limits" if one.high > one.low else f"{name} right"
    if one.name in LENGTHS:
        far = fine_words(abs(one.off), system)
    elif one.name == "angle":
        far = angle_words(abs(one.off))
    else:
        far = f"{abs(one.off):.2g}"
    way = "under" if one.off < 0 else "over"
    if not one.fits:
        return f"{name} {far} {way}, more than is likely"
    return f"{name} {far} {way}" + (", which use explains" if one.by_use else "")


def _least(one: Distance) -> float:
    """What shows as nothing."""
    return {"angle": math.radians(0.05), "tpi": 0.005, "taper": 0.0005}.get(one.name, 0.5e-6)


def twin_sentences(twins: Sequence[Twin], system: System) -> list[str]:
    """What tells the nearest candidate from the others that fit: one sentence for each measurement."""
    groups: dict[tuple[object, ...], list[Twin]] = {}
    for twin in twins:
        telling = twin.telling
        groups.setdefault((twin.first.text, telling.kind, telling.count, telling.again), []).append(twin)
    return [_sentence(group, system, twins[0].first) for group in groups.values()]


def near_miss_sentences(misses: Sequence[NearMiss], system: System) -> list[str]:
    """What deceives, by the reading that rules it out best: a sentence for each, one for what may be worn."""
    groups: dict[tuple[Name, bool, bool], list[NearMiss]] = {}
    for miss in misses:
        groups.setdefault((miss.against.name, miss.alone, miss.if_worn), []).append(miss)
    return [_near_misses(name, group, system) for (name, _, _), group in groups.items()]


def _near_misses(name: Name, group: Sequence[NearMiss], system: System) -> str:
    if group[0].if_worn:
        made = (
            f"{miss.second.text}, {NAMES[name]} {_expected_words(miss.against, system)} as made"
            for miss in group
        )
        return f"If it is worn, it may be {'; or '.join(made)}."
    first = group[0].first
    (of_first,) = (one for one in first.distances if one.name == name)
    shows = {_expected_words(of_first, system): [first.text]}
    for miss in group:
        shows.setdefault(_expected_words(miss.against, system), []).append(miss.second.text)
    texts = [miss.second.text for miss in group]
    rules = f"{NAMES[name]} rule{'' if name in _SEVERAL else 's'} {'it' if len(group) == 1 else 'them'} out"
    told = f"Only the {rules}" if group[0].alone else f"The {rules} best"
    return f"Not to be mistaken for {and_words(texts)}. {told}: {_values(shows)}."


def _values(shows: Mapping[str, Sequence[str]]) -> str:
    return "; ".join(f"{shown} for {and_words(texts)}" for shown, texts in shows.items())


def _expected_words(one: Distance, system: System) -> str:
    if one.name in LENGTHS:
        return range_words(one.low, one.high, system)
    return value_words(one.name, one.low, system)


def _sentence(group: Sequence[Twin], system: System, nearest: Candidate) -> str:
    first, telling = group[0].first, group[0].telling
    others = [twin.second.text for twin in group]
    names = and_words([first.text, *others])
    if telling.kind == "nothing":
        return f"{names} fit what was measured. {NOTHING_TELLS}"
    inside = first.expected.designation.internal
    shows = {_shown(telling, telling.shows[0], first.expected.pitch, system): [first.text]}
    for twin in group:
        shown = _shown(twin.telling, twin.telling.shows[1], twin.second.expected.pitch, system)
        shows.setdefault(shown, []).append(twin.second.text)
    do = _do(telling, [twin.telling for twin in group], inside, system)
    if first is nearest:
        return f"{names} fit what was measured. {do}: {_values(shows)}."
    return f"To tell {names} apart: {do[0].lower()}{do[1:]}: {_values(shows)}."


def _do(telling: Telling, group: Iterable[Telling], inside: bool, system: System) -> str:
    if telling.kind == "pitch":
        behind, to = ordinal(telling.count), close_words(telling.read_to, system)
        return f"Measure{' on a cast' * inside} from one crest to the {behind} after it, to {to}"
    outside_words, inside_words = _DO[telling.kind]
    words = (inside_words if inside else "") or outside_words
    if telling.again:
        words = f"{words}, once more"
    if telling.kind in DIAMETERS:
        words += f", to {close_words(min(one.read_to for one in group), system)} either way"
    return words


def _shown(telling: Telling, pair: tuple[float, float], pitch: Length, system: System) -> str:
    low, high = pair
    match telling.kind:
        case "starts":
            return f"{low:.0f}"
        case "angle":
            return angle_words(low)
        case "flanks":
            return f"{math.degrees(low):.4g} and {math.degrees(high):.4g} degrees"
        case "taper":
            return f"{fine_words(low * telling.count * pitch, system)} apart" if low > _PARALLEL else "alike"
        case "crest":
            if high:
                return f"round, radius {fine_words(high, system)},"
            return f"flat, {fine_words(low, system)} wide," if low else "sharp"
        case _:
            return range_words(low, high, system)


def range_words(low: float, high: float, system: System) -> str:
    """One size, or from one to the other, the wanted unit first.

    >>> range_words(0.0117, 0.0118, "mm")
    '11.70 to 11.80 mm (0.4606 to 0.4646 in)'
    """
    in_mm = f"{low / mm:.2f}" + (f" to {high / mm:.2f}" if high > low else "") + " mm"
    in_inches = f"{low / inch:.4f}" + (f" to {high / inch:.4f}" if high > low else "") + " in"
    return f"{in_inches} ({in_mm})" if system == "inch" else f"{in_mm} ({in_inches})"


def special_words(one: Special) -> str:
    """The last line of every answer: the thread as it was measured."""
    if one.designation is not None:
        return f"{KEEP}: {one.designation.text}"
    if not one.wanted:
        return f"{KEEP}: {one.cannot}"
    wanted = and_words(NAMES[name] for name in one.wanted)
    return f"{KEEP}, once measured too: {wanted}"


def disagreement_words(measured: Measured, names: tuple[Name, Name], system: System) -> str:
    """Two readings of the pitch that cannot both be right."""
    said = []
    for name in names:
        one = getattr(measured, name)
        pitch = Measured(**{name: one}).best_pitch
        assert pitch is not None
        means = fine_words(pitch.value, system)
        said.append(f"{NAMES[name]} {value_words(name, one.value, system)} make a pitch of {means}")
    return f"{said[0]}, {said[1]}: they cannot both be right, measure again."

