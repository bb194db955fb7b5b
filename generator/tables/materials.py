"""Material groups: stiffness, density, cutting force, threading speed with high-speed steel, from print."""

from __future__ import annotations

import difflib
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from generator.errors import SheetError
from generator.language.say import later, say
from generator.language.spoken import once_a_language
from generator.si import GPa, MPa, Pressure, Speed, ft_per_min
from generator.tables import rows

TABLE = "materials"
GROUP_WORDS: Final[Mapping[str, str]] = {
    one: one for one in (
        later("low-carbon steel"),
        later("medium-carbon steel"),
        later("high-carbon steel"),
        later("alloy steel"),
        later("heat-treated alloy steel"),
        later("tool steel"),
        later("austenitic stainless"),
        later("grey cast iron"),
        later("aluminium alloy"),
        later("brass"),
        later("bronze"),
        later("high-tensile bronze"),
        later("copper"),
        later("titanium alloy"),
    )
}
CATALOG = later("a cutting-tool maker's turning catalog of 2017")


class UnknownGroup(SheetError, ValueError):
    """A material group that the table does not have; the message names the nearest and all known ones."""


@dataclass(frozen=True)
class MaterialRow:
    """One group of materials.

    `elastic_modulus` Pa, `density` kg/m³, `expansion` 1/K (`source`). `k_c11` (Pa) and `m_c` are of the
    Kienzle formula with the chip thickness in mm (`force_source`). Threading speeds, m/s, are for high-speed
    steel (`speed_source`). `galls`: threads of this material seize on each other when fitted dry.
    """

    group: str
    elastic_modulus: Pressure
    density: float
    expansion: float
    k_c11: Pressure
    m_c: float
    threading_speed_low: Speed
    threading_speed_high: Speed
    galls: bool
    source: str
    speed_source: str
    force_source: str


def material_groups() -> tuple[str, ...]:
    """Names of all groups, in the order of the table."""
    return tuple(_groups())


def material_group(name: str) -> MaterialRow:
    """The row of a group.

    Raises
    ------
    UnknownGroup
        When the table has no such group.

    Examples
    --------
    >>> material_group("medium-carbon steel").density
    7850.0
    """
    known = _groups()
    if name not in known:
        near = difflib.get_close_matches(name, known, 1)
        hint = say("did you mean {near}? ", near=near[0]) if near else ""
        raise UnknownGroup(
            say(
                '"{name}" is not a material group: {hint}the list has {known}',
                name=name,
                hint=hint,
                known=", ".join(known),
            )
        )
    return known[name]


@once_a_language
def _groups() -> dict[str, MaterialRow]:
    return {row["group"]: _read(row) for row in rows.table(TABLE)}


def _read(row: dict[str, str]) -> MaterialRow:
    return MaterialRow(
        group=GROUP_WORDS[row["group"]],
        elastic_modulus=float(row["elastic_modulus"]) * GPa,
        density=float(row["density"]),
        expansion=float(row["expansion"]) * 1e-6,
        k_c11=float(row["k_c11"]) * MPa,
        m_c=float(row["m_c"]),
        threading_speed_low=float(row["threading_low"]) * ft_per_min,
        threading_speed_high=float(row["threading_high"]) * ft_per_min,
        galls=row["galls"] == "yes",
        source=later(row["source"]),
        speed_source=later(row["speed_source"]),
        force_source=say("{catalog}, VDI 3323 group {row}", catalog=CATALOG, row=row["vdi_3323"]),
    )
