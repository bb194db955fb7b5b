"""The pass table: the way in, counted on the slide's own dial, cut up, with what to expect after every pass.

`pass_section` decides the infeed (`infeed`), counts the whole way in graduations, lays down the lines and
their figures, and adds the remarks (`pass_remarks`).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import accumulate, pairwise

from generator.calc import passes, thread_form, wires
from generator.calc.cutting import cutting_power, thread_chip_area, thread_force
from generator.calc.dials import reading, whole_graduations
from generator.job.lathe import Lathe
from generator.job.model import Job
from generator.job.operations import Thread
from generator.job.shop import House
from generator.sheet.boring_bar import lay_bar
from generator.sheet.desk import Desk
from generator.sheet.infeed import (
    PRACTICE,
    Infeed,
    lay_cuts,
    lay_infeed,
    lay_springs,
    usual_count,
    usual_first_cut,
)
from generator.sheet.model import PassLine, Quantity, System
from generator.sheet.pass_remarks import dial_words, pass_remarks
from generator.sheet.plans import PassPlan, ThreadPlan
from generator.sheet.threading import thread_operation
from generator.sheet.wording import length_words
from generator.si import Length, inch, mm
from generator.tables.materials import MaterialRow

JONES = "geometry; Jones, Turning and Boring (1914), on the compound rest"
KIENZLE = "Kienzle (1952), DIN 6584; kc1.1 and mc"
TRY_ABOVE = {"inch": 0.002 * inch, "mm": 0.05 * mm}  # on pitch diameter; common practice
MEASURE_FROM = 0.8  # of the depth; common practice
DRIVE = 0.75        # share of the motor's power that reaches the spindle; common practice 0.7 to 0.8
MANY = 2            # times the usual number of passes is worth a word
PARTS = {1: "whole", 2: "half"}


@dataclass(frozen=True)
class Way:
    """The way in, counted on the dial: cumulative counts of one `step` of travel (m) each."""

    counts: tuple[int, ...]
    step: Length
    parts: int

    @property
    def travels(self) -> tuple[Length, ...]:
        """Travel after each pass, m."""
        return tuple(count * self.step for count in self.counts)


def pass_section(
    job: Job, lathe: Lathe, house: House, material: MaterialRow | None, thread: ThreadPlan, desk: Desk
) -> PassPlan:
    """Lay down the figures of the passes and return them.

    Raises
    ------
    OutsideRange
        When the lathe's dial record or the cuts asked for do not make a pass table.
    """
    operation = thread_operation(job)
    assert operation is not None
    system = lathe.units
    infeed = lay_infeed(operation, lathe, house, thread, desk)
    first, least = lay_cuts(operation, house, material, thread, system, desk)
    springs = lay_springs(operation, house, material, desk)
    way = _way(infeed, thread, first, least, operation, desk)
    lines = _lines(way, infeed, thread, house, material, springs)
    _lay_way(way, infeed, thread, system, desk)
    _lay_count(way, thread, first, least, system, operation, desk)
    _lay_expected(lines, thread, operation, desk)
    largest, last = _lay_force(lines, material, thread, desk)
    _lay_power(largest, thread, lathe, operation, desk)
    lay_bar(last, springs, operation, house, thread, desk)
    remarks = pass_remarks(operation, infeed, way.parts, thread, material, lines)
    return PassPlan(lines, dial_words(infeed, thread.internal), remarks, infeed.angle, largest, last)


# -- the way in, counted on the dial --------------------------------------------------------------------


def _way(
    infeed: Infeed, thread: ThreadPlan, first: Length, least: Length, operation: Thread, desk: Desk
) -> Way:
    """Whole graduations; half ones where no whole one lands inside the limits of the pitch diameter."""
    dial, travel = infeed.dial, passes.infeed_travel(thread.depth, infeed.angle)
    for parts in PARTS:
        step = dial.graduation / parts
        total = max(whole_graduations(travel, dial, parts), 1)
        if _lands_inside(infeed.depth(total * step), thread):
            break
    else:
        desk.find(
            "dial-coarse", "stop",
            f"No reading of the {infeed.slide} dial lands inside the limits of the pitch diameter, not even "
            "at half a graduation. Set a dial indicator against the slide, or feed in with a finer dial.",
            operation.length.where,
        )
    floor = max(whole_graduations(passes.infeed_travel(least, infeed.angle), dial, parts, "up"), 1)
    cap = max(whole_graduations(passes.infeed_travel(first, infeed.angle), dial, parts, "down"), floor)
    ends = [round(end) for end in passes.schedule(float(total), float(cap), float(floor))]
    cuts = [end - before for before, end in pairwise([0, *ends])]
    if max(cuts) == cuts[0]:  # what was left over goes to an earlier pass, so that the last cuts stay small
        cuts.sort(reverse=True)
    return Way(tuple(accumulate(cuts)), step, parts)


def _lands_inside(depth: Length, thread: ThreadPlan) -> bool:
    return thread.pitch_diameter_min <= _pitch_diameter(depth, thread) <= thread.pitch_diameter_max


def _pitch_diameter(depth: Length, thread: ThreadPlan) -> Length:
    return thread_form.pitch_diameter_at_depth(
        thread.blank, depth, thread.pitch, thread.half_angle, thread.nose_flat, thread.nose_radius,
        thread.internal,
    )


def _over_wires(depth: Length, thread: ThreadPlan) -> Length | None:
    """Expected size over the wires; None while they would not seat, and inside a bore."""
    if thread.wire is None:
        return None
    nose = thread.nose_flat, thread.nose_radius
    if not passes.wire_seats(thread.blank, depth, thread.wire, thread.pitch, thread.half_angle, *nose):
        return None
    diameter = _pitch_diameter(depth, thread)
    return wires.over_wires(diameter, thread.wire, thread.pitch, thread.lead, thread.half_angle)


# -- the lines of the table -----------------------------------------------------------------------------


def _lines(
    way: Way, infeed: Infeed, thread: ThreadPlan, house: House, material: MaterialRow | None, springs: int
) -> tuple[PassLine, ...]:
    """One line a pass, then the spring passes."""
    depths = [infeed.depth(travel) for travel in way.travels]
    trial, measured = _trial(depths, thread, house), _measured(depths)
    flat = thread.nose_flat or passes.equivalent_flat(thread.nose_radius, thread.half_angle)
    lines: list[PassLine] = []
    for number, (before, depth) in enumerate(pairwise([0.0, *depths])):
        travel = way.travels[number]
        turns, shown = reading(travel, infeed.dial, thread.internal)
        force = None if material is None else thread_force(
            material.k_c11, material.m_c, flat, before, depth, thread.half_angle, infeed.angle == 0
        )
        lines.append(PassLine(
            number + 1, depth, depth - before, travel, turns, shown,
            thread_chip_area(flat, before, depth, thread.half_angle), _pitch_diameter(depth, thread),
            _over_wires(depth, thread), force, measure=number in measured, try_mate=number == trial,
        ))
    end = lines[-1]
    lines += [
        PassLine(
            end.number + spring, end.depth, 0.0, end.travel, end.dial_turns, end.dial_reading, 0.0,
            end.pitch_diameter, end.over_wires, None, spring=True, measure=spring == springs,
        )
        for spring in range(1, springs + 1)
    ]
    return tuple(lines)


def _trial(depths: list[Length], thread: ThreadPlan, house: House) -> int | None:
    """The pass after which the mate is tried first: near size, and always before the last cut."""
    above = house.try_mate_above.si if house.try_mate_above else TRY_ABOVE[thread.system]
    before_last = len(depths) - 2

    def is_near(size: Length) -> bool:
        if thread.internal:
            return size >= thread.pitch_diameter_min - above
        return size <= thread.pitch_diameter_max + above

    near = (number for number, depth in enumerate(depths) if is_near(_pitch_diameter(depth, thread)))
    return None if before_last < 0 else min(next(near, before_last), before_last)


def _measured(depths: list[Length]) -> set[int]:
    """The passes after which to measure: at four fifths of the depth, and the last two."""
    end = len(depths) - 1
    at_depth = next(number for number, depth in enumerate(depths) if depth >= MEASURE_FROM * depths[-1])
    return {at_depth, max(end - 1, 0), end}


# -- figures --------------------------------------------------------------------------------------------


def _lay_way(way: Way, infeed: Infeed, thread: ThreadPlan, system: System, desk: Desk) -> None:
    """Travel on the slide and the depth it gives."""
    travel = way.travels[-1]
    there, back = "{depth}", "{travel}"
    put: dict[str, tuple[float, Quantity]] = {"depth": (thread.depth, "length")}
    put_back: dict[str, tuple[float, Quantity]] = {"travel": (travel, "length")}
    if infeed.angle:
        there, back = "{depth} ÷ cos {angle}", "{travel} × cos {angle}"
        put["angle"] = put_back["angle"] = (infeed.angle, "angle")
    desk.computed(
        "passes.travel", f"Travel of the {infeed.slide} from touch", travel, "length", there, put, JONES,
        system=system, note=f"rounded to {PARTS[way.parts]} graduations of this dial",
    )
    desk.computed(
        "passes.depth", "Depth the passes add up to, radial", infeed.depth(travel), "length", back, put_back,
        "geometry", system=system,
    )


def _lay_count(
    way: Way, thread: ThreadPlan, first: Length, least: Length, system: System, operation: Thread, desk: Desk
) -> None:
    """How many passes cut, and a word when they are many."""
    count, usual = len(way.counts), usual_count(thread)
    desk.computed(
        "passes.count", "Passes that cut", count, "count",
        "depth {first cut} × √k after pass k, no cut under {smallest cut}, until {depth}",
        {
            "first cut": (first, "length"), "smallest cut": (least, "length"),
            "depth": (thread.depth, "length"),
        },
        f"{PRACTICE}: chips of about one size", note="each reading rounded to the dial",
    )
    if count > MANY * usual:
        desk.find(
            "many-passes", "note",
            f"The first cut and the smallest cut make {count} passes; for this pitch about {usual} are usual "
            f"with high-speed steel, from a first cut of {length_words(usual_first_cut(thread), system)}. "
            "Give a larger first_cut or last_cut where tool and work bear it.",
            operation.length.where,
        )


def _lay_expected(lines: tuple[PassLine, ...], thread: ThreadPlan, operation: Thread, desk: Desk) -> None:
    """Sizes to expect after the last cut, and at the first trial of the mate."""
    last, trial = lines[-1], next((line for line in lines if line.try_mate), None)
    _lay_pitch_diameter("final", "Pitch diameter to expect at the end", last, thread, desk)
    if thread.wire is not None:
        _lay_over_wires("passes.final_over_wires", "Over wires to expect at the end", last, thread, desk)
        name, label = "passes.try_mate_over_wires", "Over wires at the first trial of the mate"
    else:
        name, label = "passes.try_mate_pitch_diameter", "Pitch diameter at the first trial"
    if trial is not None and thread.wire is not None:
        _lay_over_wires(name, label, trial, thread, desk)
        return
    if trial is not None:
        _lay_pitch_diameter("try_mate", label, trial, thread, desk)
        return
    desk.unknown(name, label, "length", "one cut makes the whole thread")
    desk.find(
        "one-cut", "check",
        "One cut makes the whole thread, so there is no line to try the mate above final size. Give a "
        "smaller first_cut.",
        operation.length.where,
    )


def _lay_pitch_diameter(stage: str, label: str, line: PassLine, thread: ThreadPlan, desk: Desk) -> None:
    """The pitch diameter after a pass, from the depth and the tool's nose."""
    way = -1 if thread.internal else 1
    tip = thread.depth - way * (thread.blank - thread.target) / 2
    formula = "{blank} − 2 × ({depth} − {tool below the pitch line})"
    names = ("blank", "tool below the pitch line")
    if thread.internal:
        formula = "{bore} + 2 × ({depth} − {tool past the pitch line})"
        names = ("bore", "tool past the pitch line")
    desk.computed(
        f"passes.{stage}_pitch_diameter", label, line.pitch_diameter, "length", formula,
        {names[0]: (thread.blank, "length"), "depth": (line.depth, "length"), names[1]: (tip, "length")},
        thread_form.GEOMETRY, system=thread.system,
    )


def _lay_over_wires(name: str, label: str, line: PassLine, thread: ThreadPlan, desk: Desk) -> None:
    if line.over_wires is None:
        desk.unknown(name, label, "length", "the wires do not seat at this depth")
        return
    assert thread.wire is not None, "a size over wires was reckoned with one"
    diameter, wire, pitch = line.pitch_diameter, thread.wire, thread.pitch
    lead_term = line.over_wires - wires.over_wires_simple(diameter, wire, pitch, thread.half_angle)
    formula = "{d2} + 3 × {W} − 0.866025 × {P}"
    put: dict[str, tuple[float, Quantity]] = {
        "d2": (diameter, "length"), "W": (wire, "fine_length"), "P": (pitch, "fine_length"),
    }
    if abs(lead_term) > 1e-9:
        formula += " + {lead angle term}"
        put["lead angle term"] = (lead_term, "fine_length")
    desk.computed(name, label, line.over_wires, "length", formula, put, wires.SOURCE, system=thread.system)


def _lay_force(
    lines: tuple[PassLine, ...], material: MaterialRow | None, thread: ThreadPlan, desk: Desk
) -> tuple[float | None, float | None]:
    """Largest and last cutting force; None when the material is unknown."""
    name, label = "passes.largest_force", "Largest cutting force"
    cuts = [(line.force, line) for line in lines if line.force is not None]
    if material is None or not cuts:
        desk.unknown(name, label, "force", "the material is unknown")
        return None, None
    largest, line = max(cuts, key=lambda cut: cut[0])
    thickness = (largest / line.chip_area / material.k_c11) ** (-1 / material.m_c)
    desk.computed(
        name, f"{label}, in pass {line.number}", largest, "force",
        "{kc1.1} × {h in mm}^(−{mc}) × {chip area}",
        {
            "kc1.1": (material.k_c11, "pressure"), "mc": (material.m_c, "ratio"),
            "h in mm": (thickness, "ratio"), "chip area": (line.chip_area, "area"),
        },
        f"{KIENZLE}: {material.force_source}", rounds="up",
        note="a handbook value, good to about 20 % or worse; a worn tool takes more",
    )
    return largest, cuts[-1][0]


def _lay_power(
    largest: float | None, thread: ThreadPlan, lathe: Lathe, operation: Thread, desk: Desk
) -> None:
    """Power of the largest cut at the spindle step, against the motor."""
    name, label = "passes.power", "Power at the tool"
    step = desk.figures.get("spindle.step")
    if largest is None or step is None or not isinstance(step.value, float | int):
        missing = "material" if largest is None else "spindle step"
        desk.unknown(name, label, "power", f"the {missing} is unknown")
        return
    speed, across = math.pi * thread.cutting_diameter * step.value, "root" if thread.internal else "blank"
    power = desk.computed(
        name, label, cutting_power(largest, speed), "power", f"{{F}} × π × {{{across}}} × {{n}}",
        {
            "F": (largest, "force"), across: (thread.cutting_diameter, "length"),
            "n": (step.value, "spindle_speed"),
        },
        "DIN 6584; arithmetic", rounds="up",
    )
    if lathe.power is not None and power > DRIVE * lathe.power.si:
        desk.find(
            "power", "check",
            f"The largest cut wants more than three quarters of the {lathe.power.with_unit} of {lathe.name}. "
            "Give a smaller first_cut.",
            operation.length.where,
        )
