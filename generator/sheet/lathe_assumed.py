"""What a lathe's record only assumes: nobody has read it off that lathe, and the sheet says so first."""

from __future__ import annotations

from collections.abc import Iterator

from generator.job.lathe import Lathe
from generator.job.reading import ReadJob
from generator.job.written import Given
from generator.language.lists import and_words
from generator.language.say import say
from generator.sheet.desk import Desk


def lathe_assumed(read: ReadJob, lathe: Lathe, desk: Desk) -> None:
    """Findings for speeds, chucks and dials, which nothing may be run by, and for sizes of the lathe."""
    where, file = read.where("lathe"), f"jobs/_shop/lathes/{lathe.lathe}.yml"
    if risky := list(_risky(lathe)):
        desk.find(
            "lathe-assumed", "stop",
            say(
                "Nobody has read {risky} off {lathe}: its record only assumes them. A dial that reads the "
                "other way takes twice the cut, and at a wrong speed work is thrown. Read them, and write "
                "them into {file}.",
                risky=and_words(risky), lathe=lathe.name, file=file,
            ),
            where,
        )
    if sizes := list(_sizes(lathe)):
        desk.find(
            "lathe-size-assumed", "check",
            say(
                "Nobody has measured {sizes} on {lathe}: its record only assumes them, so whether the work "
                "goes in is not known. Measure, and write it into {file}.",
                sizes=and_words(sizes), lathe=lathe.name, file=file,
            ),
            where,
        )


def _risky(lathe: Lathe) -> Iterator[str]:
    if _any(*(step.speed for step in lathe.spindle.speeds)):
        yield say("the speeds")
    for chuck in lathe.chucks:
        if _any(chuck.grips.from_, chuck.grips.to):
            yield say("what the {jaws}-jaw chuck grips", jaws=chuck.jaws)
    if _any(lathe.cross_dial.division, lathe.cross_dial.turn):
        yield say("the dial of the cross slide")
    if _any(lathe.compound_dial.division, lathe.compound_dial.turn):
        yield say("the dial of the compound")


def _sizes(lathe: Lathe) -> Iterator[str]:
    if _any(lathe.swing.over_bed):
        yield say("the swing over the bed")
    if _any(lathe.between_centers):
        yield say("the length between centers")


def _any(*values: Given) -> bool:
    return any(value.kind == "assumed" for value in values)
