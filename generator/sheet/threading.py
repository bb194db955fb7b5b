"""What every part of the thread section starts from: the operation, its designation, form and limits."""

from __future__ import annotations

from dataclasses import dataclass

from generator.job.model import Job
from generator.job.operations import Relief, Thread
from generator.sheet.figure import System
from generator.sheet.plating import before_plating
from generator.si import Angle, Length
from generator.threads.profile import Profile
from generator.threads.registry import Designation, ThreadLimits, family_of, limits, profile


@dataclass(frozen=True)
class Threading:
    """The thread operation with its designation read, its form, and the standard's limits looked up.

    `limits` are those to cut to: before plating, where it is plated; `finished` are the standard's.
    """

    operation: Thread
    designation: Designation
    limits: ThreadLimits
    profile: Profile
    finished: ThreadLimits

    @property
    def system(self) -> System:
        """The thread's own unit."""
        return "inch" if self.designation.unit == "in" else "mm"

    @property
    def unit(self) -> float:
        """Metres in the thread's own unit."""
        return self.designation.unit_si

    @property
    def standard(self) -> str:
        """The standard that rules the thread."""
        return family_of(self.designation).standard

    @property
    def pitch(self) -> Length:
        """Pitch (m)."""
        return float(self.designation.pitch) * self.unit

    @property
    def lead(self) -> Length:
        """Lead (m)."""
        return float(self.designation.lead) * self.unit

    @property
    def half_angle(self) -> Angle:
        """Half angle of the groove (rad); of a buttress thread, that of the groove that widens as fast."""
        return self.profile.half_angle

    @property
    def basic_pitch_diameter(self) -> Length:
        """Nominal diameter less twice the height of the basic crests over the pitch line (m)."""
        return self.designation.nominal * self.unit - 2 * self.profile.addendum * self.pitch

    @property
    def basic_minor_diameter(self) -> Length:
        """Nominal diameter less twice the basic depth of the groove (m)."""
        return self.designation.nominal * self.unit - 2 * self.profile.depth * self.pitch


def threading_of(operation: Thread) -> Threading:
    """Read the designation, and look up its form and its limits.

    Raises
    ------
    BadDesignation, OutsideRange
        When no standard here gives the thread limits.
    """
    designation = operation.read()
    engagement = operation.engagement.si / designation.unit_si if operation.engagement else None
    finished, form = limits(designation, engagement), profile(designation)
    cut = before_plating(finished, operation.plating.si, form) if operation.plating else finished
    return Threading(operation, designation, cut, form, finished)


def thread_operation(job: Job) -> Thread | None:
    """The job's thread operation, or None."""
    return next((operation.thread for operation in job.operations if operation.thread), None)


def relief_operation(job: Job) -> Relief | None:
    """The job's relief operation, or None."""
    return next((operation.relief for operation in job.operations if operation.relief), None)
