"""Whether the jaws hold the work: force wanted against force there is, speed, tipping, creeping, marks."""

from __future__ import annotations

from generator.sheet.holding.case import Case


def grip_section(case: Case) -> None:
    """Lay its figures and findings."""
