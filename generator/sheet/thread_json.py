"""One thread as a record for other programs: what ``python -m generator thread … --json`` prints."""

from __future__ import annotations

import math
from typing import Any

from generator.calc import wire_choice, wires
from generator.calc.thread_form import lead_angle
from generator.errors import BadQuantity, OutsideRange
from generator.language.say import say
from generator.threads.profile import Profile
from generator.threads.registry import (
    Designation,
    Range,
    ThreadLimits,
    limits,
    parse_designation,
    profile,
    write_designation,
)

WIRE_PLACES = 4
NO_WIRES: dict[str, Any] = {"best": None, "size": None, "over_wires": {"max": None, "min": None}}


def thread_record(text: str, wire: float | None = None) -> dict[str, Any]:
    """The record of one designation, in the thread's own unit.

    Parameters
    ----------
    text : designation, as for `parse_designation`
    wire : wire to measure over, in the thread's own unit; None takes the best wire, at four places

    Returns
    -------
    Keys designation, family (UN or M), class, hand (right or left), starts, unit (in or mm), pitch, lead,
    major, pitch_diameter, minor (each max and min, None where the standard gives no limit),
    lead_angle_deg (at the pitch diameter of most material), wires (best, size, over_wires with max and min),
    standard_form (the designation as the standard writes it), memory (what of the limits is only from memory
    of the standard; empty when nothing), plane (where the limits of a taper thread are; empty for others).
    Limits and sizes over wires stand at the places the standard prints. Wires do not go inside an internal
    thread: `best` is then the best ball, and there is no size over wires. Where the best wire does not seat
    in a groove so shallow, `size` is one that does. Square and taper threads have no wires here.

    Raises
    ------
    BadDesignation
        When the designation cannot be read.
    OutsideRange
        When the standard has no limits for it, or the wire does not seat on its flanks.
    BadQuantity
        When a wire is given for a thread that wires do not measure.

    Source: ASME B1.1, ISO 965-1 for the limits; ASME B1.2, NBS Handbook H28 for wires.
    """
    designation = parse_designation(text)
    of_standard = limits(designation)
    unit = designation.unit_si
    lead = float(designation.lead) * unit
    sizes = of_standard.pitch_diameter
    full = sizes.min if designation.internal else sizes.max
    reference = full if full is not None else designation.nominal
    return {
        "designation": designation.text,
        "family": designation.family,
        "class": designation.class_,
        "hand": designation.hand,
        "starts": designation.starts,
        "unit": designation.unit,
        "pitch": round(float(designation.pitch), 8),
        "lead": round(float(designation.lead), 8),
        "major": _pair(of_standard.major),
        "pitch_diameter": _pair(sizes),
        "minor": _pair(of_standard.minor),
        "lead_angle_deg": round(math.degrees(lead_angle(lead, reference * unit)), 4),
        "wires": _no_wires(designation, wire) if designation.internal else _wires(of_standard, wire),
        "standard_form": write_designation(designation),
        "memory": of_standard.memory,
        "plane": of_standard.plane,
    }


def _no_wires(designation: Designation, wire: float | None) -> dict[str, Any]:
    if wire is not None:
        raise BadQuantity(
            say(
                "{text} is an internal thread: wires do not go inside it. Leave the wire out, and measure "
                "with plug gauges, the mate, or balls.",
                text=designation.text,
            )
        )
    form = profile(designation)
    if not form.wires_measure:
        return NO_WIRES
    best = wire_choice.best_wire(float(designation.pitch), form.flanks)
    return {"best": round(best, 6), "size": None, "over_wires": {"max": None, "min": None}}


def _wires(of_standard: ThreadLimits, wire: float | None) -> dict[str, Any]:
    """The best wire, the wire used, and the limits over it, in the thread's own unit."""
    designation, sizes = of_standard.designation, of_standard.pitch_diameter
    unit, places, form = designation.unit_si, of_standard.places, profile(designation)
    if not form.wires_measure:
        if wire is not None:
            raise BadQuantity(
                say(
                    "{text} is not measured over three wires: {instead}.",
                    text=designation.text, instead=_instead(form),
                )
            )
        return NO_WIRES
    pitch, lead = float(designation.pitch) * unit, float(designation.lead) * unit
    best = wire_choice.best_wire(pitch, form.flanks) / unit
    smallest, largest = (end / unit for end in form.usable_wires(pitch, _root_below(of_standard)))
    size = round(wire_choice.fitting(best, (smallest, largest)), WIRE_PLACES) if wire is None else wire
    if wire is not None and not smallest < size < largest:
        raise OutsideRange(
            say("wire"),
            size,
            math.ceil(smallest * 1e4) / 1e4,
            math.floor(largest * 1e4) / 1e4,
            say("wires that seat on the flanks of {text}", text=designation.text),
            designation.unit,
        )

    def over(diameter: float | None) -> float | None:
        if diameter is None:
            return None
        return round(wires.over_wires(diameter * unit, size * unit, pitch, lead, form.flanks) / unit, places)

    return {
        "best": round(best, 6),
        "size": size,
        "over_wires": {"max": over(sizes.max), "min": over(sizes.min)},
    }


def _root_below(of_standard: ThreadLimits) -> float | None:
    """How deep the highest root that the standard allows lies under the pitch line (m); None where unsaid."""
    effective, root = of_standard.pitch_diameter.max, of_standard.minor.max
    if effective is None or root is None:
        return None
    return (effective - root) / 2 * of_standard.designation.unit_si


def _instead(form: Profile) -> str:
    """What measures a thread that wires do not."""
    if form.square:
        return say(
            "they do not seat between square flanks. Measure the diameters and the width of the groove"
        )
    return say("its size is another at every place along the taper. The taper ring gauge decides")


def _pair(limit: Range) -> dict[str, float | None]:
    return {"max": limit.max, "min": limit.min}
