"""The figures of taking a stopped thread up, each with its working."""

from __future__ import annotations

from typing import Final

from generator.calc.take_up import rests_higher, runout_cleaned_up
from generator.language.say import later, say
from generator.sheet.figure import Quantity
from generator.sheet.log_passes import infeed_travels
from generator.sheet.take_up_left import Left
from generator.si import Length, inch, mm

GEOMETRY: Final = later("geometry")
WIDER: Final = {"inch": 0.005 * inch, "mm": 0.1 * mm}  # of the flat, as the card reckons for


def lay_depth_left(left: Left) -> Length | None:
    """What is still to be cut, as the stop says, else by the pass table and the dial (m, radial)."""
    logged, name, label = left.logged, "take_up.depth_left", say("Still to be cut, radial")
    given = left.stop.depth_left
    if given is not None:
        return logged.desk.given(name, label, given, "length")
    cuts = logged.cuts
    travels = [
        travel for one, travel in zip(logged.threads, infeed_travels(logged).at, strict=True)
        if travel is not None and not left.entry.at.before(one.entry.at)
    ]
    if cuts is None or not travels:
        return None
    end, reached = cuts.passes[-1].depth, cuts.depth(travels[-1])
    return logged.desk.computed(
        name,
        label,
        max(end - reached, 0.0),
        "length",
        "{depth of the last pass} − {depth by the dial}",
        {"depth of the last pass": (end, "length"), "depth by the dial": (reached, "length")},
        say("arithmetic; nothing less than 0"),
        system=logged.lathe.units,
        note=say("the stop does not say it"),
    )


def lay_runout(depth_left: Length | None, left: Left) -> Length | None:
    """The most runout that what is left still cleans up (m, full reading)."""
    if not depth_left:
        return None
    return left.logged.desk.computed(
        "take_up.runout", say("Runout that the cuts left clean up, not over"), runout_cleaned_up(depth_left),
        "length", "2 × {still to be cut}", {"still to be cut": (depth_left, "length")}, GEOMETRY,
        system=left.logged.lathe.units, rounds="down", note=say("full reading of the indicator"),
    )


def lay_rests_higher(left: Left) -> Length | None:
    """How much higher the point rests for so much more of flat (m); None in a square groove, or if round."""
    logged, thread = left.logged, left.logged.thread
    if thread is None or thread.flanks.square or thread.nose_flat <= 0:
        return None
    wider, flanks = WIDER[logged.lathe.units], thread.flanks
    put: dict[str, tuple[float, Quantity]] = {
        "wider": (wider, "fine_length"),
        "one flank": (flanks.load, "angle"), "other flank": (flanks.clearance, "angle"),
    }
    return logged.desk.computed(
        "take_up.rests_higher",
        say("A wider flat rests higher by"),
        rests_higher(wider, flanks),
        "fine_length",
        "{wider} ÷ (tan {one flank} + tan {other flank})",
        put,
        GEOMETRY,
        system=logged.lathe.units,
        note=say("the point on both flanks, radial"),
    )
