"""A thread that is plated afterwards: what the plating adds, and the limits that it is cut to before.

After plating a screw's largest size may use up its allowance, to the basic size and no more, and its smallest
is still the standard's; a nut's the other way round (ASME B1.1, ISO 965-1: coated threads).
"""

from __future__ import annotations

from dataclasses import replace

from generator.calc.thread_fit import coated_diameter_change, coated_pitch_change
from generator.language.say import later, say
from generator.si import Length, degree
from generator.threads.profile import Profile
from generator.threads.registry import Range, ThreadLimits
from generator.threads.sizes import SizeLine, size_line

DIAMETERS = {
    "major": later("Major diameter"),
    "pitch_diameter": later("Pitch diameter"),
    "minor": later("Minor diameter"),
}


def before_plating(finished: ThreadLimits, thickness: Length, profile: Profile) -> ThreadLimits:
    """The limits to cut to, so that the standard's hold after plating; its own lines stay, more follow.

    outside: max = the smaller of d max and d max + es − growth; min = d min − growth; inside mirrored

    Parameters
    ----------
    finished : the standard's limits
    thickness : of the plating (m), on each surface
    profile : the form of the thread; a square one is given back as it is, but for its crests

    Returns
    -------
    ThreadLimits in the thread's own unit, not rounded: a plating is thinner than a last place.

    Source: ASME B1.1 and ISO 965-1, coated threads; geometry.
    """
    d = finished.designation
    each = coated_diameter_change(thickness) / d.unit_si
    flanks = 0.0 if profile.square else coated_pitch_change(thickness, profile.flanks) / d.unit_si
    growth = {"major": each, "pitch_diameter": flanks, "minor": each}
    moved = {name: _moved(finished, name, growth[name]) for name in growth}
    lines = [
        size_line(
            "plating.growth", flanks, f"2 × {{t}} ÷ sin {profile.half_angle / degree:g}°"
            if profile.flanks.symmetrical and not profile.square else say("what {t} on each flank adds"),
            thickness / d.unit_si, label=say("Plating adds on pitch diameter"),
        ),
        *(
            line
            for name in growth
            if name in ("pitch_diameter", "minor" if d.internal else "major")
            for line in _lines(finished, name, moved[name], growth[name])
        ),
    ]
    return replace(
        finished, major=moved["major"], pitch_diameter=moved["pitch_diameter"], minor=moved["minor"],
        lines=(*finished.lines, *lines),
    )


def _moved(finished: ThreadLimits, name: str, growth: float) -> Range:
    """The limits of one diameter before plating."""
    of, spare = getattr(finished, name), max(growth - finished.allowance, 0.0)
    if finished.designation.internal:
        return Range(_plus(of.max, growth), _plus(of.min, spare))
    return Range(_plus(of.max, -spare), _plus(of.min, -growth))


def _plus(size: float | None, change: float) -> float | None:
    return None if size is None else size + change


def _lines(finished: ThreadLimits, name: str, moved: Range, growth: float) -> list[SizeLine]:
    """Both limits of one diameter before plating, with their working."""
    of, inside = getattr(finished, name), finished.designation.internal
    found = []
    for end in ("max", "min"):
        size, standard = getattr(moved, end), getattr(of, end)
        if size is None:
            continue
        keeps_allowance = (end == "max") != inside
        sign = "+" if inside else "−"
        formula, put = f"{{limit}} {sign} {{growth}}", [standard, growth]
        if keeps_allowance:
            formula = f"{{limit}} {sign} ({{growth}} − {{allowance}})"
            put = [standard, growth, finished.allowance]
            if growth <= finished.allowance:
                formula, put = say("{limit}, as the allowance takes the plating"), [standard]
        found.append(
            size_line(
                f"before_plating.{name}.{end}", size, formula, *put,
                label=say("{diameters} before plating, {end}", diameters=DIAMETERS[name], end=end),
            )
        )
    return found
