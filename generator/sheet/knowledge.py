"""What is known of the job itself: material, duty, mate; unknown is asked about and never filled in."""

from __future__ import annotations

from generator.job.model import Duty, Mate
from generator.job.reading import ReadJob
from generator.language.say import say
from generator.sheet.desk import Desk
from generator.sheet.figure import Figure, Kind
from generator.sheet.lines import Level
from generator.sheet.threading import thread_operation
from generator.tables.materials import MaterialRow
from generator.threads.gauging import TaperGauges
from generator.threads.registry import Designation, family_of, profile


def knowledge_section(read: ReadJob, desk: Desk, material: MaterialRow | None) -> None:
    """Material, duty and mate as known or unknown; unknown is asked about and never filled in."""
    job = read.job
    known = material is not None
    desk.lay(
        Figure(
            "job.material",
            say("Material"),
            job.material if known else None,
            "text",
            Kind.GIVEN if known else Kind.UNKNOWN,
            say("known by: {how}", how=job.material_known_by or say("not said")),
            where=read.where("material"),
            note="" if job.material_known_by else say("how it is known was not said"),
        )
    )
    if not known:
        desk.find(
            "material-unknown",
            "check",
            say(
                "The material is unknown, so there is no threading speed, force, weight or deflection on "
                "this sheet. Find it out before starting, or give the spindle step yourself."
            ),
            read.where("material"),
            say("What material is it, and how is that known?"),
        )
    elif not job.material_known_by:
        desk.find(
            "material-hearsay",
            "note",
            say(
                "How {material} is known was not said: certificate, stamp, word or guess?",
                material=job.material,
            ),
            read.where("material"),
            say("How is the material known?"),
        )
    for name, label, words in (
        ("asked", say("Asked for"), job.asked),
        ("agreed", say("Agreed instead"), job.agreed),
    ):
        if words:
            where = read.where(name)
            desk.lay(
                Figure(f"job.{name}", label, words, "text", Kind.GIVEN, say("the job file"), where=where)
            )
    if isinstance(job.duty, Duty):
        desk.lay(
            Figure(
                "job.duty",
                say("Duty"),
                job.duty.said,
                "text",
                Kind.GIVEN,
                say("as said by {who}", who=job.duty.by or say("somebody")),
                where=read.where("duty"),
            )
        )
    else:
        desk.unknown("job.duty", say("Duty"), "text", say("nobody said what the part must do"))
        desk.find(
            "duty-unknown",
            "check",
            say("What this part must do is unknown. Ask before cutting: people, lifting, brakes, pressure?"),
            read.where("duty"),
            say("What does the part do, and does anybody's safety depend on it?"),
        )
    if isinstance(job.mate, Mate):
        part = job.mate.part + (f", {job.mate.thread}" if job.mate.thread else "")
        words = (
            say("{part}, on the bench", part=part) if job.mate.on_bench
            else say("{part}, not seen", part=part)
        )
        desk.lay(
            Figure(
                "mate.part",
                say("Mate"),
                words,
                "text",
                Kind.GIVEN,
                job.mate.says or say("the job file"),
                where=read.where("mate"),
            )
        )
        if job.mate.engagement is not None:
            given = job.mate.engagement
            desk.lay(
                Figure(
                    "mate.engagement",
                    say("Engagement with the mate"),
                    given.si,
                    "length",
                    Kind(given.kind),
                    given.origin,
                    text=given.text,
                    where=given.where,
                )
            )
    elif (thread := thread_operation(job)) is not None:
        desk.unknown("mate.part", say("Mate"), "text", say("nobody said what the thread must fit"))
        level: Level = "stop" if thread.fit == "mate" else "check"
        desk.find(
            "mate-unknown",
            level,
            say(
                "The mating part is unknown. Cut to the limits {limits}, and do not hand over before it "
                "was tried.",
                limits=_measured(thread.read(), thread.fit),
            ),
            read.where("mate"),
            say("Where is the mating part, and may we have it?"),
        )


def _measured(own: Designation, fit: str) -> str:
    """Which limits stand in for the mate: those of what measures this thread."""
    gauging = family_of(own).gauging(own)
    if isinstance(gauging, TaperGauges):
        return say("of the taper gauge")
    if gauging is None:
        return say("of the groove width and of both diameters")
    if own.internal:
        return say("of the plug gauges")
    if fit != "gauge" and profile(own).wires_measure:
        return say("over wires")
    return say("of the ring gauges")
