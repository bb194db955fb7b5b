"""The pass table: the way in, cut up into passes, with what to expect after every pass.

`pass_section` decides the infeed (`infeed`), counts the whole way in graduations (`way_in`), makes the lines,
lays down their figures (`pass_figures`, `boring_bar`), and adds the remarks (`pass_remarks`).
"""

from __future__ import annotations

from itertools import pairwise

from generator.calc import passes
from generator.calc.cutting import thread_chip_area, thread_force
from generator.calc.dials import reading
from generator.job.lathe import Lathe
from generator.job.model import Job
from generator.job.shop import House
from generator.sheet.boring_bar import lay_bar
from generator.sheet.desk import Desk
from generator.sheet.infeed import Infeed, lay_cuts, lay_infeed, lay_springs
from generator.sheet.lines import PassLine
from generator.sheet.pass_figures import lay_count, lay_expected, lay_force, lay_power, lay_way
from generator.sheet.pass_remarks import dial_words, pass_remarks
from generator.sheet.plans import PassPlan, ThreadPlan
from generator.sheet.sharp_crest import check_crest
from generator.sheet.threading import thread_operation
from generator.sheet.way_in import Way, count_way, over_wires_after, pitch_diameter_after
from generator.si import Length, inch, mm
from generator.tables.materials import MaterialRow

TRY_ABOVE = {"inch": 0.002 * inch, "mm": 0.05 * mm}  # on pitch diameter; common practice
MEASURE_FROM = 0.8  # of the depth; common practice


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
    way = count_way(infeed, thread, first, least, operation, desk)
    lines = _lines(way, infeed, thread, house, material, springs)
    lay_way(way, infeed, thread, system, desk)
    lay_count(way, thread, first, least, system, operation, desk)
    lay_expected(lines, thread, operation, desk)
    largest, last = lay_force(lines, material, thread, desk)
    lay_power(largest, thread, lathe, operation, desk)
    final = next(line for line in reversed(lines) if not line.spring)
    lay_bar(last, final.cut, springs, operation, house, thread, desk)
    check_crest(final.pitch_diameter, thread, operation.length.where, desk)
    remarks = pass_remarks(operation, infeed, way.parts, thread, material, lines)
    dial = dial_words(infeed, thread.internal)
    return PassPlan(lines, dial, remarks, infeed.angle, largest, last, infeed.towards, infeed.slide)


def _lines(
    way: Way, infeed: Infeed, thread: ThreadPlan, house: House, material: MaterialRow | None, springs: int
) -> tuple[PassLine, ...]:
    """One line a pass, then the spring passes."""
    depths = [infeed.depth(travel) for travel in way.travels]
    trial, measured = _trial(depths, thread, house), _measured(depths)
    flat = thread.nose_flat or passes.equivalent_flat(thread.nose_radius, thread.flanks)
    lines: list[PassLine] = []
    for number, (before, depth) in enumerate(pairwise([0.0, *depths])):
        travel = way.travels[number]
        turns, shown = reading(travel, infeed.dial, thread.internal)
        force = None if material is None else thread_force(
            material.k_c11, material.m_c, flat, before, depth, thread.half_angle, infeed.angle == 0
        )
        lines.append(PassLine(
            number + 1, depth, depth - before, travel, turns, shown,
            thread_chip_area(flat, before, depth, thread.half_angle), pitch_diameter_after(depth, thread),
            over_wires_after(depth, thread), force, measure=number in measured, try_mate=number == trial,
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

    near = (number for number, depth in enumerate(depths) if is_near(pitch_diameter_after(depth, thread)))
    return None if before_last < 0 else min(next(near, before_last), before_last)


def _measured(depths: list[Length]) -> set[int]:
    """The passes after which to measure: at four fifths of the depth, and the last two."""
    end = len(depths) - 1
    at_depth = next(number for number, depth in enumerate(depths) if depth >= MEASURE_FROM * depths[-1])
    return {at_depth, max(end - 1, 0), end}
