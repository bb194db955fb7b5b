"""What jaws and steady fingers do to a thin wall, and what is left of it once the work is let go."""

from __future__ import annotations

from generator.sheet.holding.case import Case


def thin_section(case: Case) -> None:
    """Lay its figures and findings."""
