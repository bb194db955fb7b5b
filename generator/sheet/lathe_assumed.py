"""What a lathe's record only assumes: nobody has read it off that lathe, and the sheet says so first."""

from __future__ import annotations

from collections.abc import Iterator

from generator.calc.thread_dial import and_words
from generator.job.lathe import Lathe
from generator.job.reading import ReadJob
from generator.job.written import Given
from generator.sheet.desk import Desk


def lathe_assumed(read: ReadJob, lathe: Lathe, desk: Desk) -> None:
    """Findings for speeds, chucks and dials, which nothing may be run by, and for sizes of the lathe."""
    where = read.where("lathe")
    if risky := list(_risky(lathe)):
        desk.find(
            "lathe-assumed", "stop",
            f"Nobody has read {and_words(risky)} off {lathe.name}: its record only assumes them. A dial that "
            "reads the other way takes twice the cut, and at a wrong speed work is thrown. Read them, and "
            f"write them into jobs/_shop/lathes/{lathe.lathe}.yml.",
            where,
        )
    if sizes := list(_sizes(lathe)):
        desk.find(
            "lathe-size-assumed", "check",
            f"Nobody has measured {and_words(sizes)} on {lathe.name}: its record only assumes them, so "
            f"whether the work goes in is not known. Measure, and write it into "
            f"jobs/_shop/lathes/{lathe.lathe}.yml.",
            where,
        )


def _risky(lathe: Lathe) -> Iterator[str]:
    if _any(*(step.speed for step in lathe.spindle.speeds)):
        yield "the speeds"
    for chuck in lathe.chucks:
        if _any(chuck.grips.from_, chuck.grips.to):
            yield f"what the {chuck.jaws}-jaw chuck grips"
    for name, dial in (("cross slide", lathe.cross_dial), ("compound", lathe.compound_dial)):
        if _any(dial.division, dial.turn):
            yield f"the dial of the {name}"


def _sizes(lathe: Lathe) -> Iterator[str]:
    if _any(lathe.swing.over_bed):
        yield "the swing over the bed"
    if _any(lathe.between_centers):
        yield "the length between centers"


def _any(*values: Given) -> bool:
    return any(value.kind == "assumed" for value in values)
