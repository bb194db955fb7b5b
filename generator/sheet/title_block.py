"""The title block: the fields of ISO 7200, then the shop's own."""

from __future__ import annotations

from generator.job.lathe import Lathe
from generator.job.model import Job
from generator.job.shop import House
from generator.sheet.model import TitleField

BY_HAND = "________"  # a field that is filled in by hand


def title_block(job: Job, house: House, lathe: Lathe, status: str) -> tuple[TitleField, ...]:
    """Fields in the order of ISO 7200 (data fields in title blocks and document headers)."""
    people = job.people
    fields = [
        ("Legal owner", house.shop),
        ("Identification number", job.job),
        ("Title", job.title),
        ("Document type", "Setup sheet"),
        ("Revision", job.revision),
        ("Status", status),
        ("Date of issue", job.issued.isoformat() if job.issued else BY_HAND),
        ("Creator", people.drawn_by or BY_HAND),
        ("Approval person", people.checked_by or BY_HAND),
        ("Language", house.language),
        ("Customer", job.customer or "unknown"),
        ("Received", job.received.isoformat() if job.received else "unknown"),
        ("Drawing", job.drawing or "none"),
        ("Lathe", lathe.name),
        ("Machinist", people.machinist or BY_HAND),
    ]
    return tuple(TitleField(label, text) for label, text in fields)
