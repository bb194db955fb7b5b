"""Friction at the jaws: the work's surface and the jaws' face as the job says them, or the cautious ones."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from generator.job.model import Chuck, Collet, Faceplate
from generator.language.lists import and_words
from generator.language.say import later, say
from generator.sheet.figure import Figure, Kind, Working
from generator.sheet.holding.case import Case
from generator.tables.jaw_friction import jaw_friction

SMOOTHEST = "ground"  # of the surfaces that the table has: grips least
BARE = "smooth"       # of the faces
ROUGHEST, TEETH = "rough", "serrated"  # what grips most
SURFACES: Final[Mapping[str, str]] = {
    "turned": later("turned"), "ground": later("ground"), "rough": later("rough"),
}
FACES: Final[Mapping[str, str]] = {
    "smooth": later("smooth"), "diamond-cut": later("diamond-cut"), "serrated": later("serrated"),
}
WHERE: Final[Mapping[str, str]] = {
    "chuck": later("jaws"), "collet": later("collet"), "faceplate": later("faceplate"),
}


def jaw_face(held: Chuck | Collet | Faceplate) -> tuple[str, str]:
    """Face that holds the work, and why, where nobody said it."""
    if not isinstance(held, Chuck):
        return BARE, ""
    if held.face is not None:
        return held.face, ""
    if held.soft_jaws or held.pie_jaws:
        return BARE, ""
    return BARE, say("the jaws' face is not said, so smooth")


@dataclass(frozen=True)
class Friction:
    """Friction where the work is held; `most` is what may be, by what is said, `unsaid` what is not."""

    value: float
    most: float
    unsaid: str


def lay_friction(case: Case, held: Chuck | Collet | Faceplate, section: int) -> Friction:
    """Lay the friction where the work is held; `section` of the work lies there."""
    surface = case.bench.job.work[section].surface
    face, why = jaw_face(held)
    material = case.bench.material
    found = jaw_friction(surface or SMOOTHEST, face, material.group if material else None)
    guesses, unsaid = ([why], [say("the jaws' face (chuck: face)")]) if why else ([], [])
    if surface is None:
        guesses.append(say("the surface there is not said, so fine turned or ground"))
        unsaid.append(say("the surface there (work: surface)"))
    where = WHERE[held.kind]
    words = say(
        "{face} {where} on {surface} work", face=FACES[face], where=where,
        surface=SURFACES[surface] if surface else say("fine turned or ground"),
    )
    case.desk.lay(Figure(
        "grip.friction", say("Friction at the {where}", where=where), found.value, "ratio",
        Kind.ASSUMED if guesses else Kind.STANDARD, found.source,
        Working("{of steel} × {of this metal}", {
            "of steel": (found.steel, "ratio"), "of this metal": (found.factor, "ratio"),
        }),
        note="; ".join([words, *guesses]), rounds="down",
    ))
    best = jaw_friction(surface or ROUGHEST, TEETH if why else face, material.group if material else None)
    return Friction(found.value, best.value, and_words(unsaid) if unsaid else "")
