"""Friction between the jaws of a chuck and the work, from print.

    SURFACES, FACES     what the table knows
    jaw_friction        of a work surface, a jaw face and a material
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from generator.errors import SheetError
from generator.language.say import later, say
from generator.tables.materials import GROUP_WORDS
from generator.tables.rows import table

GUIDE = later("a chuck maker's guide to clamping force, RN-1391, table 4")
STEEL = 1.0  # the table is for steel
SURFACES = ("ground", "turned", "rough")
FACES = ("smooth", "diamond-cut", "serrated")


class UnknownJaw(SheetError, ValueError):
    """A surface or a jaw face that the table does not have; the message names all known ones."""


@dataclass(frozen=True)
class JawFriction:
    """Friction of steel work in these jaws, `steel`, and how the material changes it, `factor`."""

    steel: float
    factor: float
    source: str

    @property
    def value(self) -> float:
        """Friction of this material in these jaws."""
        return self.steel * self.factor


def jaw_friction(surface: str, face: str, group: str | None = None) -> JawFriction:
    """Friction between jaws and work.

    Parameters
    ----------
    surface : of the work where it is gripped: ground (fine turned, too), turned or rough
    face : of the jaws: smooth, diamond-cut or serrated
    group : material group of the work; one that the table does not name counts as steel

    Returns
    -------
    The printed figures; `value` is their product.

    Raises
    ------
    UnknownJaw
        When the table does not have the surface or the face.

    Notes
    -----
    Clean and dry to lightly oiled contact, jaws that fit the work; no range is given in the source.

    Examples
    --------
    >>> jaw_friction("turned", "serrated").value
    0.35
    >>> round(jaw_friction("ground", "smooth", "grey cast iron").value, 3)
    0.056

    Source
    ------
    A chuck maker's guide to clamping force, RN-1391, table 4.
    """
    rows = _rows()
    if surface not in rows:
        raise UnknownJaw(
            say(
                '"{surface}" is not a work surface of the table, which has {rows}',
                surface=surface,
                rows=", ".join(rows),
            )
        )
    if face not in FACES:
        raise UnknownJaw(
            say(
                '"{face}" is not a jaw face of the table, which has {faces}',
                face=face,
                faces=", ".join(FACES),
            )
        )
    factor, how = _materials().get(group or "", (STEEL, ""))
    source = GUIDE if not group or how in ("", "printed") else say(
        "{guide}; {group} taken as brass",
        guide=GUIDE, group=GROUP_WORDS[group],
    )
    return JawFriction(rows[surface][face], factor, source)


@cache
def _rows() -> dict[str, dict[str, float]]:
    return {row["surface"]: {face: float(row[face]) for face in FACES} for row in table("jaw_friction")}


@cache
def _materials() -> dict[str, tuple[float, str]]:
    return {row["group"]: (float(row["factor"]), row["source"]) for row in table("jaw_materials")}
