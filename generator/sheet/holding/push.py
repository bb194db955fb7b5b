"""What the center pushes and carries: buckling, force on the center."""

from __future__ import annotations

from generator.sheet.holding.case import Case


def push_section(case: Case) -> None:
    """Lay its figures and findings."""
