"""What an operation is called on the sheet, and what was written of it, in the job file's own words."""

from __future__ import annotations

from generator.job.operations import Bore, Chamfer, Cut, Drill, Knurl, Relief, Taper, Thread, Turn
from generator.sheet.route_entries import Entry

WORDS = {
    "face": "Face",
    "center_drill": "Center drill",
    "turn": "Turn",
    "taper": "Turn the taper",
    "bore": "Bore",
    "drill": "Drill",
    "groove": "Groove",
    "chamfer": "Chamfer",
    "knurl": "Knurl",
    "part_off": "Part off",
    "polish": "Polish",
    "relief": "Cut the relief",
    "thread": "Cut the thread",
}
BAND = "Turn the band for the steady rest"
SCRATCH = "Scratch pass first; measure and try the mate at the marked passes"  # usual hold of a thread


def title_of(entry: Entry) -> str:
    """A few words: "Turn to 2 1/4 in", "Cut 2-8 UN-2A"."""
    given, words = entry.given, WORDS[entry.name]
    if isinstance(given, Thread):
        return f"Cut {given.designation}"
    if isinstance(given, Relief):
        return words
    if isinstance(given, Turn) and given.band:
        words = BAND
    if isinstance(given, Chamfer):
        words = "Cut the seal lead-in" if given.lead_in else "Chamfer"
        words += " inside" if given.inside else ""
    if isinstance(given, Bore) and given.seal:
        words = "Bore the seal bore"
    if isinstance(given, Drill) and given.ream:
        words = "Drill and ream"
    if isinstance(given, Taper) and given.named:
        return f"{words}, {given.named}"
    if given.diameter is not None and entry.name in ("turn", "bore", "drill"):
        return f"{words} {'' if entry.name == 'drill' else 'to '}{given.diameter.with_unit}"
    if entry.name in ("face", "center_drill") and given.end is not None:
        return f"{words} the {given.end} end" if entry.name == "face" else f"{words}, {given.end} end"
    return words


def written_words(given: Cut | Relief | Thread) -> str:
    """The sizes as they were written, and the note."""
    if isinstance(given, Thread):
        return f"{given.length.with_unit} long" + (f"; {given.note}" if given.note else "")
    if isinstance(given, Relief):
        return _relief_words(given)
    parts = [
        f"{label} {said.with_unit}"
        for label, said in (
            ("diameter", given.diameter),
            ("small end", getattr(given, "diameter_end", None)),
            ("from diameter", given.from_diameter),
            ("length", given.length),
            ("width", given.width),
            ("depth", given.depth),
            ("angle", given.angle),
            ("pitch", given.pitch if isinstance(given, Knurl) else None),
            ("from the tailstock end", given.from_end),
        )
        if said is not None
    ]
    if isinstance(given, Knurl) and given.pattern:
        parts.insert(0, given.pattern)
    return ", ".join(part for part in [*parts, given.note or ""] if part)


def _relief_words(relief: Relief) -> str:
    words = f"{relief.width.with_unit} wide"
    diameter = relief.diameter
    words += f", {diameter.with_unit} diameter" if diameter else ", diameter as in the relief figures"
    words += f", corner radius {relief.radius.with_unit}" if relief.radius else ""
    return words + (f", {relief.note}" if relief.note else "")
