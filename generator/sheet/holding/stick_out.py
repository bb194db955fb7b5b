"""How far the work may stick out, and whether a center is enough, from the same beam."""

from __future__ import annotations

from generator.sheet.holding.case import Case
from generator.sheet.model import PlotScene


def stick_out_section(case: Case) -> tuple[PlotScene, ...]:
    """Lay its figures and findings; return its plots."""
    return ()
