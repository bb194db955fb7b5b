"""Friction at the jaws: the work's surface and the jaws' face as the job says them, or the cautious ones."""

from __future__ import annotations

from generator.job.model import Chuck, Collet, Faceplate
from generator.sheet.holding.case import Case
from generator.sheet.model import Figure, Kind, Working
from generator.tables.jaw_friction import jaw_friction

SMOOTHEST = "ground"  # of the surfaces that the table has: grips least
BARE = "smooth"       # of the faces


def jaw_face(held: Chuck | Collet | Faceplate) -> tuple[str, str]:
    """Face that holds the work, and why, where nobody said it."""
    if not isinstance(held, Chuck):
        return BARE, ""
    if held.face is not None:
        return held.face, ""
    if held.soft_jaws or held.pie_jaws:
        return BARE, ""
    return BARE, "the jaws' face is not said, so smooth"


def lay_friction(case: Case, held: Chuck | Collet | Faceplate, section: int) -> float:
    """Lay the friction where the work is held; `section` of the work lies there."""
    surface = case.bench.job.work[section].surface
    face, why = jaw_face(held)
    material = case.bench.material
    found = jaw_friction(surface or SMOOTHEST, face, material.group if material else None)
    guesses = [why] if why else []
    if surface is None:
        guesses.append("the surface in them is not said, so fine turned or ground")
    where = {"chuck": "jaws", "collet": "collet", "faceplate": "faceplate"}[held.kind]
    words = f"{face} {where} on {surface or 'fine turned or ground'} work"
    case.desk.lay(Figure(
        "grip.friction", f"Friction at the {where}", found.value, "ratio",
        Kind.ASSUMED if guesses else Kind.STANDARD, found.source,
        Working("{of steel} × {of this metal}", {
            "of steel": (found.steel, "ratio"), "of this metal": (found.factor, "ratio"),
        }),
        note="; ".join([words, *guesses]), rounds="down",
    ))
    return found.value
