"""What warming does: growth between chuck and center, sizes measured warm."""

from __future__ import annotations

from generator.sheet.holding.case import Case


def heat_section(case: Case) -> None:
    """Lay its figures and findings."""
