"""The work as the job file has it: each dimension with how it is known, cross holes, limits, duty."""

from __future__ import annotations

from generator.job.model import Duty, Job
from generator.sheet.desk import Desk


def work_section(job: Job, desk: Desk) -> None:
    """Lay down every dimension of the work as its author wrote it, from the chuck end outwards."""
    for number, section in enumerate(job.work, 1):
        what = f"section {number}" + (f", {section.name}" if section.name else "")
        at, surface = f"work.{number}", f"{section.surface} surface" if section.surface else ""
        desk.given(f"{at}.length", f"Length of {what}", section.length, "length")
        desk.given(f"{at}.od", f"Outside diameter of {what}", section.od, "length", note=surface)
        if section.od_end is not None:
            desk.given(f"{at}.od_end", f"Outside diameter at the end of {what}", section.od_end, "length")
        if section.bore is not None:
            desk.given(f"{at}.bore", f"Bore of {what}", section.bore, "length")
    for number, hole in enumerate(job.cross_holes, 1):
        at = f"work.cross_hole_{number}"
        desk.given(f"{at}.diameter", f"Cross hole {number}, diameter", hole.diameter, "length")
        desk.given(f"{at}.from_end", f"Cross hole {number}, from the tailstock end", hole.from_end, "length")
    if job.limits.wall is not None:
        note = "the customer's limit"
        desk.given("job.wall", "Wall that must be left", job.limits.wall, "length", note=note)
    if isinstance(job.duty, Duty):
        said = f"as said by {job.duty.by or 'somebody'}; not judged here"
        if job.duty.load is not None:
            desk.given("job.load", "Load", job.duty.load, "force", note=said)
        if job.duty.pressure is not None:
            desk.given("job.pressure", "Pressure", job.duty.pressure, "pressure", note=said)
