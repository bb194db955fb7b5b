"""What an operation is called on the sheet, and what was written of it, in the job file's own words."""

from __future__ import annotations

from generator.job.operations import Bore, Chamfer, Cut, Drill, Knurl, Relief, Taper, Thread, Turn
from generator.language.say import later, say
from generator.sheet.route_entries import Entry

WORDS = {
    "face": later("Face"),
    "center_drill": later("Center drill"),
    "turn": later("Turn"),
    "taper": later("Turn the taper"),
    "bore": later("Bore"),
    "drill": later("Drill"),
    "groove": later("Groove"),
    "chamfer": later("Chamfer"),
    "knurl": later("Knurl"),
    "part_off": later("Part off"),
    "polish": later("Polish"),
    "relief": later("Cut the relief"),
    "thread": later("Cut the thread"),
}
CHAMFERS = {  # by whether it leads a seal in, and whether it is inside
    (False, False): later("Chamfer"),
    (False, True): later("Chamfer inside"),
    (True, False): later("Cut the seal lead-in"),
    (True, True): later("Cut the seal lead-in inside"),
}
ENDS = {
    ("face", "left"): later("Face the left end"),
    ("face", "right"): later("Face the right end"),
    ("center_drill", "left"): later("Center drill, left end"),
    ("center_drill", "right"): later("Center drill, right end"),
}
BAND = later("Turn the band for the steady rest")
SCRATCH = later("Scratch pass first; measure and try the mate at the marked passes")  # usual hold of a thread


def title_of(entry: Entry) -> str:
    """A few words: "Turn to 2 1/4 in", "Cut 2-8 UN-2A"."""
    given = entry.given
    words: str = WORDS[entry.name]
    if isinstance(given, Thread):
        return say("Cut {designation}", designation=given.designation)
    if isinstance(given, Relief):
        return words
    if isinstance(given, Turn) and given.band:
        words = BAND
    if isinstance(given, Chamfer):
        words = CHAMFERS[given.lead_in, given.inside]
    if isinstance(given, Bore) and given.seal:
        words = say("Bore the seal bore")
    if isinstance(given, Drill) and given.ream:
        words = say("Drill and ream")
    if isinstance(given, Taper) and given.named:
        return f"{words}, {given.named}"
    if given.diameter is not None and entry.name in ("turn", "bore", "drill"):
        size = given.diameter.with_unit
        if entry.name == "drill":
            return f"{words} {size}"
        if words == WORDS["bore"]:
            return say("Bore to {size}", size=size)
        return say("{words} to {size}", words=words, size=size)
    if entry.name in ("face", "center_drill") and given.end is not None:
        return ENDS[entry.name, given.end]
    return words


def written_words(given: Cut | Relief | Thread) -> str:
    """The sizes as they were written, and the note."""
    if isinstance(given, Thread):
        return say("{length} long", length=given.length.with_unit) + (
            f"; {given.note}" if given.note else ""
        )
    if isinstance(given, Relief):
        return _relief_words(given)
    parts = [
        f"{label} {said.with_unit}"
        for label, said in (
            (say("diameter"), given.diameter),
            (say("small end"), getattr(given, "diameter_end", None)),
            (say("from diameter"), given.from_diameter),
            (say("length"), given.length),
            (say("width"), given.width),
            (say("depth"), given.depth),
            (say("angle"), given.angle),
            (say("pitch"), given.pitch if isinstance(given, Knurl) else None),
            (say("from the tailstock end"), given.from_end),
        )
        if said is not None
    ]
    if isinstance(given, Knurl) and given.pattern:
        parts.insert(0, given.pattern)
    return ", ".join(part for part in [*parts, given.note or ""] if part)


def _relief_words(relief: Relief) -> str:
    words = say("{width} wide", width=relief.width.with_unit)
    diameter = relief.diameter
    words += (
        say(", {diameter} diameter", diameter=diameter.with_unit)
        if diameter
        else say(", diameter as in the relief figures")
    )
    words += say(", corner radius {radius}", radius=relief.radius.with_unit) if relief.radius else ""
    return words + (f", {relief.note}" if relief.note else "")
