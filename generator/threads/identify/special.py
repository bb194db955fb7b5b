"""The thread kept as it was measured: always one of the answers, for no standard has to own it."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from generator.errors import BadDesignation
from generator.si import inch, mm
from generator.threads.designation import Designation
from generator.threads.families.special import ACCEPTED
from generator.threads.identify.measured import Measured, Name, Reading
from generator.threads.registry import parse_designation, profile, write_designation

FINEST = {"mm": 3, "in": 4}      # decimals of a size
TAPER_STEPS = 2                  # a taper is written as 1 in so many, to a half


@dataclass(frozen=True)
class Special:
    """The measured form as a designation; None with `wanted`, what must be measured first.

    `cannot` says why no thread can have these measurements.
    """

    designation: Designation | None
    wanted: tuple[Name, ...] = ()
    cannot: str = ""


def special(measured: Measured, unit: str) -> Special:
    """The special thread that keeps what was measured.

    Parameters
    ----------
    measured : the readings (SI)
    unit : in or mm

    Examples
    --------
    >>> from generator.threads.identify.measured import reading
    >>> seen = Measured(
    ...     major=reading("major", 0.0234), pitch=reading("pitch", 0.0018),
    ...     angle=reading("angle", math.radians(60)),
    ... )
    >>> special(seen, "mm").designation.text
    'special 23.4x1.8 60deg'
    """
    pitch = measured.best_pitch
    size = _size(measured)
    if pitch is None or size is None or measured.angle is None:
        parts: tuple[tuple[Name, Reading | None], ...] = (
            (measured.crest, size and size[1]), ("pitch_over_ten", pitch), ("angle", measured.angle),
        )
        return Special(None, tuple(name for name, one in parts if one is None))
    name, one = size
    form = f"{_number(math.degrees(measured.angle.value), 2)}deg" + _taper(measured.taper)
    if measured.major and measured.minor:
        depth = (measured.major.value - measured.minor.value) / 2
        form += f" depth {_number(depth / (mm if unit == 'mm' else inch), FINEST[unit])}"
    try:
        thread = _read(one.value, pitch.value, form, unit, measured)
        if name != "major":  # the size of a designation is its major diameter
            below = profile(thread).depth * (2 if name == "minor" else 1)
            thread = _read(one.value + below * pitch.value, pitch.value, form, unit, measured)
        starts = measured.starts or (round(measured.lead.value / pitch.value) if measured.lead else 1)
        if starts > 1:
            thread = replace(thread, starts=starts, lead=starts * thread.pitch)
            thread = parse_designation(write_designation(thread))
    except BadDesignation as error:
        why = str(error).partition(": ")[2] or str(error)
        return Special(None, cannot=why.partition(f"; {ACCEPTED}")[0])
    return Special(thread)


def _size(measured: Measured) -> tuple[Name, Reading] | None:
    sizes: tuple[tuple[Name, Reading | None], ...] = (
        ("major", measured.major), ("minor", measured.minor), ("pitch_diameter", measured.pitch_diameter),
    )
    return next(((name, one) for name, one in sizes if one), None)


def _read(size: float, pitch: float, form: str, unit: str, measured: Measured) -> Designation:
    if unit == "mm":
        front = f"{_number(size / mm, 3)}x{_number(pitch / mm, 4)}"
    else:
        front = f"{_number(size / inch, 4)}-{_number(inch / pitch, 4)}"
    hand = " LH" if measured.hand == "left" else ""
    thread = parse_designation(
        f"special {front} {form}{hand}{' internal' if measured.inside else ''}"
    )
    return replace(thread, text=write_designation(thread))


def _taper(taper: Reading | None) -> str:
    """As it is written: 1 in so many, to a half; nothing where it may as well be parallel."""
    if taper is None or taper.value <= taper.within:
        return ""
    return f" taper 1:{_number(round(TAPER_STEPS / taper.value) / TAPER_STEPS, 1)}"


def _number(value: float, places: int) -> str:
    """A number without a tail of zeros, which the other reader takes.

    >>> _number(23.4000001, 3), _number(7, 2)
    ('23.4', '7')
    """
    return f"{float(value):.{places}f}".rstrip("0").rstrip(".")
