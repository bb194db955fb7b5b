"""The title block: the fields of ISO 7200, then the shop's own."""

from __future__ import annotations

from generator.job.lathe import Lathe
from generator.job.model import Job
from generator.job.shop import House
from generator.language.say import say
from generator.language.spoken import spoken
from generator.sheet.model import TitleField

BY_HAND = "________"  # a field that is filled in by hand


def title_block(job: Job, house: House, lathe: Lathe, status: str) -> tuple[TitleField, ...]:
    """Fields in the order of ISO 7200 (data fields in title blocks and document headers)."""
    people = job.people
    fields = [
        (say("Legal owner"), house.shop),
        (say("Identification number"), job.job),
        (say("Title"), job.title),
        (say("Document type"), say("Setup sheet")),
        (say("Revision"), job.revision),
        (say("Status"), status),
        (say("Date of issue"), job.issued.isoformat() if job.issued else BY_HAND),
        (say("Creator"), people.drawn_by or BY_HAND),
        (say("Approval person"), people.checked_by or BY_HAND),
        (say("Language"), spoken().code),
        (say("Customer"), job.customer or say("unknown")),
        (say("Received"), job.received.isoformat() if job.received else say("unknown")),
        (say("Drawing"), job.drawing or say("none")),
        (say("Lathe"), lathe.name),
        (say("Machinist"), people.machinist or BY_HAND),
    ]
    return tuple(TitleField(label, text) for label, text in fields)
