"""Figures of what is left of the part: wall, stress under pressure and load, threads. Never a verdict."""

from __future__ import annotations

from generator.sheet.holding.case import Case


def strength_section(case: Case) -> None:
    """Lay its figures and findings."""
