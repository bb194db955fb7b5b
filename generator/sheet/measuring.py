"""Measuring the thread: what its readings mean beyond the sizes over wires and between balls."""

from __future__ import annotations

from generator.job.lathe import Lathe
from generator.job.model import Job
from generator.job.shop import Shop
from generator.sheet.corrections import corrections
from generator.sheet.desk import Desk
from generator.sheet.lines import CorrectionTable
from generator.sheet.measure_gauges import lay_gauges
from generator.sheet.measure_groove import lay_groove
from generator.sheet.measure_micrometer import lay_micrometer
from generator.sheet.measure_wires import lay_wire_ways
from generator.sheet.plans import PassPlan, ThreadPlan
from generator.sheet.threading import thread_operation


def measuring_section(
    job: Job, shop: Shop, lathe: Lathe, thread: ThreadPlan, cuts: PassPlan, desk: Desk
) -> CorrectionTable | None:
    """Lay down the section's figures; returns the table of what is still to be cut, on the dials of `lathe`.

    Raises
    ------
    OutsideRange
        As the parts of the section.
    """
    operation = thread_operation(job)
    assert operation is not None, "a thread plan comes from a thread operation"
    table = corrections(lathe, thread, cuts, desk)
    lay_wire_ways(thread, shop.tools, desk)
    lay_groove(thread, desk)
    lay_gauges(operation, thread, desk)
    lay_micrometer(thread, desk)
    return table
