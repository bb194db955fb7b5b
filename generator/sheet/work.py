"""The work as the job file has it: each dimension with how it is known, cross holes, limits, duty."""

from __future__ import annotations

from generator.job.model import Duty, Job
from generator.language.say import later, say
from generator.sheet.desk import Desk

SURFACES = {
    "turned": later("turned surface"), "ground": later("ground surface"), "rough": later("rough surface"),
}


def work_section(job: Job, desk: Desk) -> None:
    """Lay down every dimension of the work as its author wrote it, from the chuck end outwards."""
    for number, section in enumerate(job.work, 1):
        what = say("section {number}", number=number) + (f", {section.name}" if section.name else "")
        at, surface = (
            f"work.{number}",
            say(SURFACES[section.surface]) if section.surface else "",
        )
        desk.given(f"{at}.length", say("Length of {what}", what=what), section.length, "length")
        desk.given(
            f"{at}.od", say("Outside diameter of {what}", what=what), section.od, "length", note=surface
        )
        if section.od_end is not None:
            desk.given(
                f"{at}.od_end",
                say("Outside diameter at the end of {what}", what=what),
                section.od_end,
                "length",
            )
        if section.bore is not None:
            desk.given(f"{at}.bore", say("Bore of {what}", what=what), section.bore, "length")
    for number, hole in enumerate(job.cross_holes, 1):
        at = f"work.cross_hole_{number}"
        desk.given(
            f"{at}.diameter", say("Cross hole {number}, diameter", number=number), hole.diameter, "length"
        )
        desk.given(
            f"{at}.from_end",
            say("Cross hole {number}, from the tailstock end", number=number),
            hole.from_end,
            "length",
        )
    if job.limits.wall is not None:
        note = say("the customer's limit")
        desk.given("job.wall", say("Wall that must be left"), job.limits.wall, "length", note=note)
    if isinstance(job.duty, Duty):
        said = say("as said by {who}; not judged here", who=job.duty.by or say("somebody"))
        if job.duty.load is not None:
            desk.given("job.load", say("Load"), job.duty.load, "force", note=said)
        if job.duty.pressure is not None:
            desk.given("job.pressure", say("Pressure"), job.duty.pressure, "pressure", note=said)
