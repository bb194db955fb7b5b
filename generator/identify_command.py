"""The verb `identify`: which thread is this, from what was measured on it.

    identify           the verb itself
    read_measured      the words of the command line as readings
    identity_record    the answer as plain data
    worth_showing, identification_lines    of the candidates those that say something; the answer for people
"""

from __future__ import annotations

import json
import re
import textwrap
from argparse import Namespace
from collections.abc import Sequence
from typing import Any, Final

from generator import units
from generator.commands import CLEAN, UsageError
from generator.errors import BadQuantity
from generator.language.say import figure, later, say
from generator.sheet.figure import System
from generator.sheet.found_words import (
    LENGTHS,
    NAMES,
    disagreement_words,
    near_miss_sentences,
    reading_words,
    special_words,
    twin_sentences,
)
from generator.si import degree, inch, mm
from generator.threads.identify.candidate import Candidate, Distance
from generator.threads.identify.measured import Measured, Name, Reading, disagreement, faults, reading
from generator.threads.identify.search import Identification
from generator.threads.identify.search import identify as candidates_of
from generator.threads.identify.twins import NearMiss, Twin
from generator.threads.registry import family_of

OPTIONS: Final[tuple[Name, ...]] = (
    "major", "minor", "pitch_diameter", "pitch", "pitch_over_ten", "lead", "tpi", "angle", "taper"
)
SHOWN, NEAR_MISSES, LEAST_SHOWN = 10, 2, 4
FAR = 100  # times what is likely: not near, whatever else fits
MOST_STARTS: Final = 24
WIDTH: Final = 110
LEGEND: Final = later(
    "Each distance is how far the reading lies outside what the thread measures as made. The x after it says "
    "how many times what the reading's uncertainty and wear allow: up to 1x fits. {use}: only wear explains "
    "it."
)
_WITHIN = re.compile(r"(?P<value>.+?)\s*(?:±|\+/-|\+-|\bwithin\b)\s*(?P<within>.+)")
_UNITS: Final = {"angle": (degree, "deg"), "tpi": (1.0, "1/in"), "taper": (1.0, "")}


def identify(asked: Namespace) -> int:
    """Print what the thread may be, nearest first, what tells twins apart, and the thread as measured."""
    measured, system = read_measured(asked)
    found = candidates_of(measured, "in" if system == "inch" else "mm")
    shown = found.candidates if asked.all else worth_showing(found)
    if asked.json:
        print(json.dumps(identity_record(found, shown, system), allow_nan=False, ensure_ascii=False))
    else:
        print("\n".join(identification_lines(found, system, shown)))
    return CLEAN


def read_measured(asked: Namespace) -> tuple[Measured, System]:
    """The readings on the command line, and the system of the first length among them.

    Raises
    ------
    UsageError
        For a value that cannot be read, or measurements that no thread can have.
    """
    system: System | None = None
    common = _length("within", asked.within)[0] if asked.within else None
    found: dict[str, Reading] = {}
    for name in OPTIONS:
        text = getattr(asked, name)
        if text is None:
            continue
        found[name], of = _reading(name, text, common)
        system = system or of
    measured = Measured(
        **found, inside=asked.inside, worn=asked.worn, hand="left" if asked.left else "right",
        starts=_starts(asked.starts),
    )
    wrong = faults(measured)
    if wrong:
        raise UsageError("\n".join(f"{_option(name)}{sentence}" for name, sentence in wrong))
    return measured, system or ("inch" if "tpi" in found else "mm")


def _option(name: str) -> str:
    return f"--{name.replace('_', '-')} " if name else say("what was given ")


def _reading(name: Name, text: str, common: float | None) -> tuple[Reading, System | None]:
    """A value, with its own uncertainty behind ± where one is written."""
    parts = _WITHIN.fullmatch(text.strip())
    said = parts["value"] if parts else text
    if name not in LENGTHS:
        within = _other(name, parts["within"], zero=False) if parts else None
        return reading(name, _other(name, said), within), None
    length, system = _length(name, said)
    return reading(name, length, _length(name, parts["within"])[0] if parts else common), system


def _length(name: str, text: str) -> tuple[float, System]:
    try:
        amount = units.read_amount(text, "length")
    except BadQuantity as error:
        number = text.strip()
        hint = say(
            "{quoted} has no unit: write {number}mm or {number}in", quoted=units.quoted(number), number=number
        )
        raise UsageError(f"{_option(name)}{hint if error.no_unit else error}") from None
    in_inches = (units.factor("length", amount.unit) / units.factor("length", "thou")).denominator == 1
    return amount.si, "inch" if in_inches else "mm"


def _other(name: Name, text: str, zero: bool | None = None) -> float:
    """An angle (degrees where no unit is written), threads per inch, or a taper."""
    try:
        if name == "taper":
            return float(units.read_taper(text))
        plain = re.sub(r"\s*(?:tpi|threads? per inch)\s*$", "", text, flags=re.IGNORECASE)
        if name == "tpi":
            return units.read_amount(plain, "ratio").si
        return units.read_amount(text, name, zero=zero).si
    except BadQuantity as error:
        raise UsageError(f"{_option(name)}{error}") from None


def _starts(text: str | None) -> int | None:
    if text is None:
        return None
    if not re.fullmatch(r"[1-9][0-9]?", text.strip(), re.ASCII) or int(text) > MOST_STARTS:
        raise UsageError(
            say(
                "--starts {quoted} is not a number of starts: write one from 1 to {most_starts}",
                quoted=units.quoted(text),
                most_starts=MOST_STARTS,
            )
        )
    return int(text)


def worth_showing(found: Identification) -> Sequence[Candidate]:
    """Those that fit, and the next few that are at all near."""
    fitting = found.fitting[:SHOWN]
    near = max(NEAR_MISSES, LEAST_SHOWN - len(fitting)) if len(fitting) == len(found.fitting) else 0
    shown = found.candidates[: len(fitting) + near]
    return [one for one in shown if all(distance.share <= FAR for distance in one.distances)]


# -- as plain data --------------------------------------------------------------------------------------


def identity_record(found: Identification, shown: Sequence[Candidate], system: System) -> dict[str, Any]:
    """The answer as plain data: lengths in mm, angles in degrees, a taper as a ratio."""
    special = found.special.designation
    return {
        "measured": {
            name: {"value": _out(name, one.value), "within": _out(name, one.within), "unit": _unit(name)}
            for name, one in found.measured.readings()
        },
        "inside": found.measured.inside,
        "worn": found.measured.worn,
        "hand": found.measured.hand,
        "starts": found.measured.starts,
        "candidates": [_candidate(one) for one in shown],
        "fitting": len(found.fitting),
        "twins": [_twin(twin, system) for twin in found.twins],
        "near_misses": [_near_miss(miss, system) for miss in found.near_misses],
        "special": {
            "designation": special.text if special else None,
            "measure_first": list(found.special.wanted),
            "text": special_words(found.special),
        },
    }


def _candidate(one: Candidate) -> dict[str, Any]:
    family = family_of(one.expected.designation)
    return {
        "designation": one.text,
        "family": family.key,
        "standard": family.standard,
        "also": list(one.also),
        "fits": one.fits,
        "score": round(one.score, 4),
        "distances": [_distance(distance) for distance in one.distances],
    }


def _distance(one: Distance) -> dict[str, Any]:
    numbers = {key: _out(one.name, getattr(one, key)) for key in ("measured", "low", "high", "off", "likely")}
    return {
        "name": one.name, **numbers, "unit": _unit(one.name), "share": round(one.share, 4), "fits": one.fits,
        "by_use": one.by_use,
    }


def _twin(twin: Twin, system: System) -> dict[str, Any]:
    telling = twin.telling
    (text,) = twin_sentences([twin], system)
    return {
        "first": twin.first.text, "second": twin.second.text, "measure": telling.kind, "count": telling.count,
        "again": telling.again, "text": text,
    }


def _near_miss(miss: NearMiss, system: System) -> dict[str, Any]:
    (text,) = near_miss_sentences([miss], system)
    return {
        "first": miss.first.text, "second": miss.second.text, "against": miss.against.name,
        "alone": miss.alone, "if_worn": miss.if_worn, "text": text,
    }


def _out(name: str, value: float) -> float:
    factor = mm if name in LENGTHS else _UNITS[name][0]
    return round(value / factor, 5)


def _unit(name: str) -> str:
    return "mm" if name in LENGTHS else _UNITS[name][1]


# -- for a terminal -------------------------------------------------------------------------------------


def identification_lines(
    found: Identification, system: System, shown: Sequence[Candidate] | None = None
) -> list[str]:
    """The answer for a terminal: candidates worth showing, or those given; twins; the thread as measured."""
    measured, shown = found.measured, worth_showing(found) if shown is None else shown
    side = [
        say("inside") if measured.inside else say("outside"),
        say("left hand") if measured.hand == "left" else say("right hand"),
        *([say("worn")] if measured.worn else []),
    ]
    said = [
        say("Measured, {side}:", side=", ".join(side)),
        *(f"    {reading_words(*one, system)}" for one in measured.readings()),
        "",
    ]
    if (names := disagreement(measured)) is not None:
        said += [disagreement_words(measured, names, system), ""]
    if not shown:
        return [
            *said,
            say("No standard thread comes near what was measured: measure again, in the right unit."),
            "",
            special_words(found.special),
        ]
    if not found.fitting:
        said += [say("No standard thread fits what was measured. The nearest:"), ""]
    said += _table(shown, system)
    left = len(found.fitting) - sum(one.fits for one in shown)
    if left > 0:
        said.append(say("    and {left} more that fit: --all shows them", left=left))
    said += ["", textwrap.fill(say(LEGEND, use=say("use")), WIDTH), ""]
    sentences = twin_sentences(found.twins, system) + near_miss_sentences(found.near_misses, system)
    for sentence in sentences:
        said += [textwrap.fill(sentence, WIDTH), ""]
    return [*said, special_words(found.special)]


def _table(shown: Sequence[Candidate], system: System) -> list[str]:
    """One row a candidate, one column a reading, the same thread under other names below it."""
    names = [distance.name for distance in max((one.distances for one in shown), key=len, default=())]
    rows = [["", say("thread"), say("fits"), *(str(NAMES[name]) for name in names)]]
    for number, one in enumerate(shown, 1):
        cells = {distance.name: _cell(distance, system) for distance in one.distances}
        fits = say("yes") if one.fits else say("no")
        rows.append([f"{number:3}", one.text, fits, *(cells.get(name, say("no limits")) for name in names)])
    widths = [max(len(row[place]) for row in rows) for place in range(len(rows[0]))]
    lines = []
    for row, also in zip(rows, ((), *(one.also for one in shown)), strict=True):
        lines.append("  ".join(f"{cell:<{width}}" for cell, width in zip(row, widths, strict=True)).rstrip())
        if also:
            lines.append(say("       the same thread: {also}", also=", ".join(also)))
    return lines


def _cell(one: Distance, system: System) -> str:
    mark = f"  {figure(one.share, '.1f')}x"
    if one.by_use:
        mark += f" {say('use')}"
    if one.name in LENGTHS:
        in_mm, in_inches = say("{off:+.3f} mm", off=one.off / mm), say("{off:+.4f} in", off=one.off / inch)
        if one.off == 0 and one.high > one.low:
            return say("as made")
        if abs(one.off) < 0.5e-6:
            return "0"
        return (f"{in_inches} ({in_mm})" if system == "inch" else f"{in_mm} ({in_inches})") + mark
    off = one.off / _UNITS[one.name][0]
    if abs(off) <= 5e-4:
        return "0"
    return figure(off, "+.3g") + " deg" * (one.name == "angle") + mark
