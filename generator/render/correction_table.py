"""What is still to be cut, as finished strings: one unit a column, named in its head.

CorrectionLine, CorrectionBlock   what the template gets
correction_block                  the table of a sheet -> CorrectionBlock
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from generator.language.say import later, say
from generator.render.formats import UNITS, decimals, digits, places_needed
from generator.render.pass_table import size_system
from generator.sheet.lines import Reading
from generator.sheet.model import Sheet
from generator.si import Length

SPRING = later("a spring pass")
COMPOUND_DIAMETER = later("The compound dial reads diameter, and so do the numbers under it.")
CROSS_DIAMETER = later("The cross slide dial reads diameter, and so do the numbers under it.")
_READING: Mapping[Reading, str] = {
    "over wires": later("Over wires"),
    "between balls": later("Between balls"),
    "pitch diameter": later("Pitch diameter"),
}
_SIZE: Mapping[Reading, str] = {
    "over wires": later("{size} over wires"),
    "between balls": later("{size} between balls"),
    "pitch diameter": later("{size} on the pitch diameter"),
}


@dataclass(frozen=True)
class CorrectionLine:
    """One row: what it reads over, the depth, and what the dials are turned on ("" where it is not fed)."""

    excess: str
    depth: str
    compound: str
    cross_slide: str


@dataclass(frozen=True)
class CorrectionBlock:
    """The table: what is read and the size it should be, the rows, and how the dials read.

    `under`: what is still to be cut shows as a reading under that size.
    """

    reading: str
    size: str
    under: bool
    size_unit: str
    dial_unit: str
    compound: bool
    lines: tuple[CorrectionLine, ...]
    remarks: tuple[str, ...]


def correction_block(sheet: Sheet) -> CorrectionBlock | None:
    """The table in the units of the pass table; None where nothing that is read follows the depth."""
    table = sheet.corrections
    if table is None:
        return None
    in_dial, in_size = UNITS["length"].unit(table.dials), UNITS["length"].unit(size_system(sheet))
    depth_places, size_places = decimals(1.0, in_dial), decimals(1.0, in_size)
    turned = [size for row in table.rows for size in (row.compound, row.cross_slide) if size is not None]
    dial_places = places_needed([size / in_dial.si for size in turned], depth_places - 1, depth_places)

    def on_dial(size: Length | None) -> str:
        if size is None:
            return ""
        return digits(size / in_dial.si, dial_places) if size > 0 else str(SPRING)

    compound = any(row.compound is not None for row in table.rows)
    return CorrectionBlock(
        reading=str(_READING[table.reading]),
        size=say(_SIZE[table.reading], size=in_size.attached(digits(table.size / in_size.si, size_places))),
        under=sheet.internal,
        size_unit=in_size.name,
        dial_unit=in_dial.name,
        compound=compound,
        lines=tuple(
            CorrectionLine(
                digits(row.excess / in_size.si, size_places),
                digits(row.depth / in_dial.si, depth_places),
                on_dial(row.compound),
                on_dial(row.cross_slide),
            )
            for row in table.rows
        ),
        remarks=tuple(
            said
            for said, reads, shown in (
                (COMPOUND_DIAMETER, table.compound_reads, compound),
                (CROSS_DIAMETER, table.cross_slide_reads, True),
            )
            if shown and reads == "diameter"
        ),
    )
