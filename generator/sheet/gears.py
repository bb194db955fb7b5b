"""The gearbox of this lathe for this lead, reckoned in fractions from the lathe's own record."""

from __future__ import annotations

from fractions import Fraction

from generator.calc import gearing
from generator.errors import Location
from generator.job.lathe import Lathe
from generator.sheet.desk import Desk
from generator.sheet.exact import exact_mm, lead_words
from generator.sheet.model import Figure, Kind


def lay_gearbox(lathe: Lathe, lead: Fraction, where: Location, desk: Desk) -> bool:
    """The entry on the plate; True when there is an exact one."""
    name, label, source = "lathe.gearbox", "Gearbox", f"jobs/_shop/lathes/{lathe.lathe}.yml"
    if lathe.gearbox is None or not (lathe.gearbox.tpi or lathe.gearbox.pitches):
        desk.unknown(name, label, "text", "not computed: the lathe record has no gearbox plate")
        desk.find(
            "gearbox-unknown", "note",
            f"The record of {lathe.name} has no gearbox plate, so whether it cuts this lead was not checked.",
            where,
        )
        return False
    plate = gearing.Plate(
        [number.exact for number in lathe.gearbox.tpi],
        [exact_mm(pitch) for pitch in lathe.gearbox.pitches],
        lathe.gearbox.tpi_with_gears or "", lathe.gearbox.pitches_with_gears or "",
    )
    entry = gearing.plate_entry(lead, plate)
    if entry is not None:
        desk.lay(Figure(name, label, entry, "text", Kind.SHOP, source, note="an exact entry on the plate"))
        return True
    near = " and ".join(gearing.nearest_leads(lead, plate))
    desk.lay(Figure(name, label, "cannot be cut here", "text", Kind.SHOP, source))
    desk.find(
        "gearbox", "stop",
        f"{lathe.name} has no entry for a lead of {lead_words(lead)}; nearest on its plate: {near}. Take "
        "another lathe, or work out change gears and write the entry in the lathe's file.",
        where,
    )
    return False
