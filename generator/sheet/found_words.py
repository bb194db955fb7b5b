"""What was measured on a thread and what it may be, in sentences: the same on a sheet and in a terminal."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from typing import Final

from generator.calc.thread_dial import ordinal
from generator.language.lists import and_words
from generator.language.say import figure, first_small, later, say
from generator.sheet.figure import System
from generator.sheet.wording import fine_words, length_words
from generator.si import Length, inch, mm
from generator.threads.identify.candidate import Candidate, Distance
from generator.threads.identify.measured import DIAMETERS, Measured, Name, Reading
from generator.threads.identify.special import Special
from generator.threads.identify.twins import TAPER_OVER, Kind, NearMiss, Telling, Twin

NAMES: Final[dict[Name, str]] = {
    "major": later("major diameter"),
    "pitch_diameter": later("pitch diameter"),
    "minor": later("minor diameter"),
    "pitch": later("pitch"),
    "pitch_over_ten": later("ten pitches"),
    "tpi": later("threads per inch"),
    "lead": later("advance in a turn"),
    "angle": later("flank angle"),
    "taper": later("taper of the thread"),
}
LENGTHS: Final[tuple[Name, ...]] = (*DIAMETERS, "pitch", "pitch_over_ten", "lead")
KEEP: Final = later("special: keep the measured form")
# What to do, by what tells two threads apart: outside, inside.
_DO: Final[dict[Kind, tuple[str, str]]] = {
    "starts": (later("Count the starts at the end face"), ""),
    "taper": (
        later("Measure over the crests at two places {threads} threads apart"),
        later("Measure the bore at two depths {threads} threads apart"),
    ),
    "angle": (
        later("Try the angle leaf between the flanks"),
        later("Try the angle leaf between the flanks of a cast"),
    ),
    "flanks": (later("Look which way each flank leans"), later("Look on a cast which way each flank leans")),
    "major": (
        later("Measure over the crests where they are least worn"),
        later("Measure the roots, on a cast"),
    ),
    "minor": (later("Measure the root diameter"), later("Measure the bore where it is least worn")),
    "pitch_diameter": (
        later("Measure the pitch diameter over wires"),
        later("Measure the pitch diameter between balls"),
    ),
    "crest": (later("Look at the crests under a glass"), later("Look at the roots of a cast under a glass")),
}
NOTHING_TELLS: Final = later(
    "No measurement tells them apart: try the mate, or ask where the part comes from."
)
_SEVERAL: Final = ("pitch_over_ten", "tpi")
_PARALLEL, _STEPS = 1e-6, 2
# What rules others out: alone or best, one word or several; of one other thread, of several.
_RULES: Final[Mapping[tuple[bool, bool], tuple[str, str]]] = {
    (True, False): (
        later("Not to be mistaken for {threads}. Only the {name} rules it out: {values}."),
        later("Not to be mistaken for {threads}. Only the {name} rules them out: {values}."),
    ),
    (True, True): (
        later("Not to be mistaken for {threads}. Only the {name} rule it out: {values}."),
        later("Not to be mistaken for {threads}. Only the {name} rule them out: {values}."),
    ),
    (False, False): (
        later("Not to be mistaken for {threads}. The {name} rules it out best: {values}."),
        later("Not to be mistaken for {threads}. The {name} rules them out best: {values}."),
    ),
    (False, True): (
        later("Not to be mistaken for {threads}. The {name} rule it out best: {values}."),
        later("Not to be mistaken for {threads}. The {name} rule them out best: {values}."),
    ),
}


def angle_words(angle: float) -> str:
    """An angle as the trade says it.

    >>> angle_words(math.radians(47.5)), angle_words(math.radians(60))
    ('47.5 degrees', '60 degrees')
    """
    degrees = math.degrees(angle)
    if f"{degrees:.4g}" == "1":
        return say("1 degree")
    return say("{degrees:.4g} degrees", degrees=degrees)


def taper_words(taper: float) -> str:
    """A taper as 1 in so much, to a half.

    >>> taper_words(1 / 16), taper_words(0.0)
    ('1 in 16', 'none')
    """
    return say("1 in {ratio:g}", ratio=round(_STEPS / taper) / _STEPS) if taper > _PARALLEL else say("none")


def value_words(name: Name, value: float, system: System) -> str:
    """One reading, or what a thread is expected to show, with its unit.

    >>> value_words("major", 0.0126, "mm"), value_words("tpi", 13.0, "mm")
    ('12.60 mm (0.496 in)', '13')
    """
    if name in LENGTHS:
        return length_words(value, system) if name != "pitch" else fine_words(value, system)
    if name == "angle":
        return angle_words(value)
    return taper_words(value) if name == "taper" else figure(value, ".4g")


def reading_words(name: Name, one: Reading, system: System) -> str:
    """One reading with how well it is known."""
    value, within = value_words(name, one.value, system), within_words(name, one, system)
    if one.said:
        return say("{name} {value}, within {within}", name=NAMES[name], value=value, within=within)
    return say("{name} {value}, within {within}, assumed", name=NAMES[name], value=value, within=within)


def within_words(name: Name, one: Reading, system: System) -> str:
    """How well a reading is known."""
    if name in LENGTHS:
        return close_words(one.within, system)
    return angle_words(one.within) if name == "angle" else figure(one.within, ".2g")


def close_words(value: float, system: System) -> str:
    """How closely something is read, in two figures, rounded down.

    >>> close_words(0.0001, "mm"), close_words(0.0000289, "inch")
    ('0.1 mm (0.0039 in)', '0.0011 in (0.028 mm)')
    """
    in_mm, in_inches = f"{_two_figures(value / mm)} mm", f"{_two_figures(value / inch)} in"
    return f"{in_inches} ({in_mm})" if system == "inch" else f"{in_mm} ({in_inches})"


def _two_figures(value: float) -> str:
    step = 10.0 ** (math.floor(math.log10(value)) - 1)
    return figure(math.floor(value / step + 1e-6) * step, ".2g")


def distance_words(one: Distance, system: System) -> str:
    """How far one reading is from a thread.

    >>> distance_words(Distance("major", 0.0126, 0.0127, 0.0128, -0.0001, 0.0002, 0.00005), "mm")
    'major diameter 0.100 mm (0.0039 in) under, which use explains'
    """
    name = NAMES[one.name]
    if abs(one.off) <= _least(one):
        return (
            say("{name} within its limits", name=name)
            if one.high > one.low
            else say("{name} right", name=name)
        )
    if one.name in LENGTHS:
        far = fine_words(abs(one.off), system)
    elif one.name == "angle":
        far = angle_words(abs(one.off))
    else:
        far = figure(abs(one.off), ".2g")
    under = one.off < 0
    if not one.fits:
        return (
            say("{name} {far} under, more than is likely", name=name, far=far) if under
            else say("{name} {far} over, more than is likely", name=name, far=far)
        )
    if one.by_use:
        return (
            say("{name} {far} under, which use explains", name=name, far=far) if under
            else say("{name} {far} over, which use explains", name=name, far=far)
        )
    return (
        say("{name} {far} under", name=name, far=far) if under
        else say("{name} {far} over", name=name, far=far)
    )


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
            say(
                "{thread}, {name} {shown} as made",
                thread=miss.second.text, name=NAMES[name], shown=_expected_words(miss.against, system),
            )
            for miss in group
        )
        return say("If it is worn, it may be {made}.", made=say("; or ").join(made))
    first = group[0].first
    (of_first,) = (one for one in first.distances if one.name == name)
    shows = {_expected_words(of_first, system): [first.text]}
    for miss in group:
        shows.setdefault(_expected_words(miss.against, system), []).append(miss.second.text)
    threads = and_words(miss.second.text for miss in group)
    one, several = _RULES[group[0].alone, name in _SEVERAL]
    rule = one if len(group) == 1 else several
    return say(rule, threads=threads, name=NAMES[name], values=_values(shows))


def _values(shows: Mapping[str, Sequence[str]]) -> str:
    return "; ".join(
        say("{shown} for {threads}", shown=shown, threads=and_words(texts))
        for shown, texts in shows.items()
    )


def _expected_words(one: Distance, system: System) -> str:
    if one.name in LENGTHS:
        return range_words(one.low, one.high, system)
    return value_words(one.name, one.low, system)


def _sentence(group: Sequence[Twin], system: System, nearest: Candidate) -> str:
    first, telling = group[0].first, group[0].telling
    others = [twin.second.text for twin in group]
    names = and_words([first.text, *others])
    if telling.kind == "nothing":
        return say("{threads} fit what was measured. {then}", threads=names, then=NOTHING_TELLS)
    inside = first.expected.designation.internal
    shows = {_shown(telling, telling.shows[0], first.expected.pitch, system): [first.text]}
    for twin in group:
        shown = _shown(twin.telling, twin.telling.shows[1], twin.second.expected.pitch, system)
        shows.setdefault(shown, []).append(twin.second.text)
    do = _do(telling, [twin.telling for twin in group], inside, system)
    if first is nearest:
        return say(
            "{threads} fit what was measured. {do}: {values}.", threads=names, do=do, values=_values(shows)
        )
    return say(
        "To tell {threads} apart: {do}: {values}.",
        threads=names, do=first_small(do), values=_values(shows),
    )


def _do(telling: Telling, group: Iterable[Telling], inside: bool, system: System) -> str:
    if telling.kind == "pitch":
        behind, close = ordinal(telling.count), close_words(telling.read_to, system)
        if not inside:
            return say(
                "Measure from one crest to the {behind} after it, to {close}", behind=behind, close=close
            )
        return say(
            "Measure on a cast from one crest to the {behind} after it, to {close}",
            behind=behind, close=close,
        )
    outside_words, inside_words = _DO[telling.kind]
    do = say((inside_words if inside else "") or outside_words, threads=TAPER_OVER)
    if telling.again:
        do = say("{do}, once more", do=do)
    if telling.kind in DIAMETERS:
        close = close_words(min(one.read_to for one in group), system)
        do = say("{do}, to {close} either way", do=do, close=close)
    return do


def _shown(telling: Telling, pair: tuple[float, float], pitch: Length, system: System) -> str:
    low, high = pair
    match telling.kind:
        case "starts":
            return f"{low:.0f}"
        case "angle":
            return angle_words(low)
        case "flanks":
            return say(
                "{one:.4g} and {other:.4g} degrees", one=math.degrees(low), other=math.degrees(high)
            )
        case "taper":
            return (
                say("{far} apart", far=fine_words(low * telling.count * pitch, system))
                if low > _PARALLEL
                else say("alike")
            )
        case "crest":
            if high:
                return say("round, radius {radius},", radius=fine_words(high, system))
            return say("flat, {width} wide,", width=fine_words(low, system)) if low else say("sharp")
        case _:
            return range_words(low, high, system)


def range_words(low: float, high: float, system: System) -> str:
    """One size, or from one to the other, the wanted unit first.

    >>> range_words(0.0117, 0.0118, "mm")
    '11.70 to 11.80 mm (0.4606 to 0.4646 in)'
    """
    if high > low:
        in_mm = say("{low:.2f} to {high:.2f} mm", low=low / mm, high=high / mm)
        in_inches = say("{low:.4f} to {high:.4f} in", low=low / inch, high=high / inch)
    else:
        in_mm, in_inches = f"{figure(low / mm, '.2f')} mm", f"{figure(low / inch, '.4f')} in"
    return f"{in_inches} ({in_mm})" if system == "inch" else f"{in_mm} ({in_inches})"


def special_words(one: Special) -> str:
    """The last line of every answer: the thread as it was measured."""
    if one.designation is not None:
        return f"{KEEP}: {one.designation.text}"
    if not one.wanted:
        return f"{KEEP}: {one.cannot}"
    wanted = and_words(NAMES[name] for name in one.wanted)
    return say("{keep}, once measured too: {wanted}", keep=KEEP, wanted=wanted)


def disagreement_words(measured: Measured, names: tuple[Name, Name], system: System) -> str:
    """Two readings of the pitch that cannot both be right."""
    said = []
    for name in names:
        one = getattr(measured, name)
        pitch = Measured(**{name: one}).best_pitch
        assert pitch is not None
        means = fine_words(pitch.value, system)
        said.append(
            say(
                "{name} {value} make a pitch of {means}",
                name=NAMES[name], value=value_words(name, one.value, system), means=means,
            )
        )
    return say("{one}, {other}: they cannot both be right, measure again.", one=said[0], other=said[1])

