"""What holds the work on the spindle: its entry in the lathe's record, and what it is called.

    used_chuck, used_collet, used_head    the record's entry; None where it has none
    face_at                               how far from x = 0 it reaches over the work
    called, HEAD_WORDS, FACE_WORDS, ZERO_WORDS, MORE_ROOM, LENGTH_KEYS   words of each way of holding
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from generator.job.lathe import Lathe
from generator.job.lathe_parts import Head, LatheChuck, LatheCollet, Range
from generator.job.model import HeldBy, Job
from generator.language.say import Later, later, say
from generator.si import Length

HEAD_WORDS: Final[Mapping[HeldBy, Later]] = {
    "chuck": later("chuck"), "collet": later("collet"), "faceplate": later("faceplate"),
    "centers": later("driving plate"),
}
FACE_WORDS: Final[Mapping[HeldBy, Later]] = {  # where x begins, or what the tool meets first on its way there
    "chuck": later("jaws"), "collet": later("collet"), "faceplate": later("faceplate"),
    "centers": later("dog"),
}
ZERO_WORDS: Final[Mapping[HeldBy, Later]] = {  # where x is 0
    "chuck": later("jaws"), "collet": later("collet"), "faceplate": later("faceplate"),
    "centers": later("headstock center"),
}
ORIGIN_WORDS: Final[Mapping[HeldBy, Later]] = {  # what a place on the work is measured from
    "chuck": later("chuck face"), "collet": later("collet"), "faceplate": later("faceplate"),
    "centers": later("headstock end"),
}
MORE_ROOM: Final[Mapping[HeldBy, Later]] = {  # how the tool gets more of it
    "chuck": later("Grip less"), "collet": later("Let the work stand out further"),
    "faceplate": later("Set the work out on parallels"), "centers": later("Turn the work end for end"),
}
LENGTH_KEYS: Final[Mapping[HeldBy, Later]] = {
    "chuck": later("the length of the chuck (chucks: length)"),
    "collet": later("how far the collet stands out of the spindle (collets: length)"),
    "faceplate": later("the thickness of the faceplate (faceplate: length)"),
    "centers": later("where the point of the headstock center stands (headstock_center: length)"),
}


def used_chuck(job: Job, lathe: Lathe) -> LatheChuck | None:
    """The lathe's chuck with the jaws that the job asks for; None, too, where no chuck holds the work."""
    asked = job.holding.chuck
    if asked is None:
        return None
    return next((chuck for chuck in lathe.chucks if chuck.jaws == asked.jaws), None)


def used_head(job: Job, lathe: Lathe) -> Head | None:
    """What the lathe's record says of that which holds the work on the spindle; None where nothing."""
    holding = job.holding
    if holding.chuck is not None:
        return used_chuck(job, lathe)
    if holding.collet is not None:
        return used_collet(job, lathe)
    return lathe.faceplate if holding.faceplate is not None else lathe.headstock_center


def used_collet(job: Job, lathe: Lathe) -> LatheCollet | None:
    """The set of collets with one for the work's diameter; the first set where none has."""
    if job.holding.collet is None:
        return None
    size = job.work[0].od.si
    return next((one for one in lathe.collets if fits(one.grips, size)), next(iter(lathe.collets), None))


def face_at(job: Job) -> Length:
    """Where the outside of the work is free for the tool (m).

    From the jaws' face on; past the dog between centers; all of it where the jaws grip in its bore.
    """
    holding = job.holding
    if holding.centers is not None:
        return holding.centers.dog.si
    return -holding.grip.si if holding.chuck is not None and holding.chuck.inside else 0.0


def called(job: Job) -> str:
    """What turns with the work, named so that the lathe's own can be told: "3-jaw chuck", "faceplate"."""
    chuck = job.holding.chuck
    return chuck.words if chuck is not None else str(HEAD_WORDS[job.holding.held.kind])


def fits(range_: Range, diameter: Length) -> bool:
    """True when a diameter lies in a range."""
    return range_.from_.si <= diameter <= range_.to.si


def range_words(range_: Range) -> str:
    """A range as it is written in the record."""
    return say("{least} to {most}", least=range_.from_.with_unit, most=range_.to.with_unit)
