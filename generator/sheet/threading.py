"""What every part of the thread section starts from: the operation, its designation and limits."""

from __future__ import annotations

import math
from dataclasses import dataclass

from generator.calc.designation import Designation, parse_designation
from generator.calc.thread_limits import ThreadLimits, limits
from generator.job.model import Job
from generator.job.operations import Relief, Thread
from generator.sheet.model import System
from generator.si import Length

HALF_ANGLE = math.radians(30)  # of Unified and ISO metric threads: ASME B1.1, ISO 68-1


@dataclass(frozen=True)
class Threading:
    """The thread operation with its designation read and the standard's limits looked up."""

    operation: Thread
    designation: Designation
    limits: ThreadLimits

    @property
    def system(self) -> System:
        """The thread's own unit."""
        return "inch" if self.designation.unit == "in" else "mm"

    @property
    def unit(self) -> float:
        """Metres in the thread's own unit."""
        return self.designation.unit_si

    @property
    def pitch(self) -> Length:
        """Pitch (m)."""
        return float(self.designation.pitch) * self.unit

    @property
    def lead(self) -> Length:
        """Lead (m)."""
        return float(self.designation.lead) * self.unit


def threading_of(operation: Thread) -> Threading:
    """Read the designation and look up its limits.

    Raises
    ------
    BadDesignation, OutsideRange
        When no standard here gives the thread limits.
    """
    designation = parse_designation(operation.designation)
    engagement = operation.engagement.si / designation.unit_si if operation.engagement else None
    return Threading(operation, designation, limits(designation, engagement))


def thread_operation(job: Job) -> Thread | None:
    """The job's thread operation, or None."""
    return next((operation.thread for operation in job.operations if operation.thread), None)


def relief_operation(job: Job) -> Relief | None:
    """The job's relief operation, or None."""
    return next((operation.relief for operation in job.operations if operation.relief), None)
