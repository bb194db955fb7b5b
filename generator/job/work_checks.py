"""Contradictions of the work and its holding: sections, grip, cross holes.

Positions count from the chuck end of the work, in m.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from generator.job.contradiction import SAME, Contradiction, length_like, lines, said
from generator.job.model import Job, Section
from generator.job.written import Given
from generator.language.say import say


def work_contradictions(job: Job) -> Iterator[Contradiction]:
    """All of them, in the order of the job file."""
    yield from _bores(job)
    yield from _sum(job)
    yield from _grip(job)
    for hole in job.cross_holes:
        yield from _cross_hole(job, hole.diameter, hole.from_end)


def total_length(work: Sequence[Section]) -> float:
    """Length over all sections (m)."""
    return sum(section.length.si for section in work)


def section_at(work: Sequence[Section], place: float) -> tuple[Section, float]:
    """The section at a place, and where it begins (m)."""
    start = 0.0
    for section in work:
        if place < start + section.length.si:
            return section, start
        start += section.length.si
    return work[-1], start - work[-1].length.si


def straight_from(work: Sequence[Section], section: Section) -> float:
    """Where the diameter of a section begins (m), with the sections before it that have the same one."""
    start = began = 0.0
    for one in work:
        if abs(one.od.si - section.od.si) > SAME or one.od_end is not None:
            began = start + one.length.si
        if one is section:
            return min(began, start)
        start += one.length.si
    return began


def bore_from(work: Sequence[Section], section: Section) -> float:
    """Where the bore of a section begins (m), with the sections before it that have the same bore."""
    start = began = 0.0
    bore = section.bore.si if section.bore else 0.0
    for one in work:
        if abs((one.bore.si if one.bore else 0.0) - bore) > SAME:
            began = start + one.length.si
        if one is section:
            return min(began, start)
        start += one.length.si
    return began


def section_lines(work: Sequence[Section]) -> str:
    """Where the lengths of the sections are written."""
    return lines(section.length for section in work)


def _bores(job: Job) -> Iterator[Contradiction]:
    for place, section in enumerate(job.work, 1):
        smallest = min(section.od, section.od_end or section.od, key=lambda one: one.si)
        if section.bore is not None and section.bore.si >= smallest.si - SAME:
            yield Contradiction(
                "bore-too-large",
                "stop",
                say(
                    "Section {place} of the work has a bore of {bore} in an outside diameter of "
                    "{smallest}: there is no wall left.",
                    place=place,
                    bore=said(section.bore),
                    smallest=said(smallest),
                ),
                section.bore.where,
                say("What are the bore and the outside diameter there?"),
            )


def _sum(job: Job) -> Iterator[Contradiction]:
    total, written = total_length(job.work), job.total_length
    if written is not None and abs(total - written.si) > SAME:
        yield Contradiction(
            "sections-sum",
            "stop",
            say(
                "The sections add up to {length_like} ({section_lines}), and total_length says {written}.",
                length_like=length_like(total, written),
                section_lines=section_lines(job.work),
                written=said(written),
            ),
            written.where,
            say("How long is the work overall, and how long is each section?"),
        )


def _grip(job: Job) -> Iterator[Contradiction]:
    grip, total, chuck = job.holding.grip, total_length(job.work), job.holding.chuck
    collet = job.holding.collet is not None
    if grip.si >= total - SAME:
        yield Contradiction(
            "grip-too-long",
            "stop",
            say(
                "The grip of {grip} is not shorter than the work, which is {length_like} "
                "long ({section_lines}).",
                grip=said(grip),
                length_like=length_like(total, grip),
                section_lines=section_lines(job.work),
            ),
            grip.where,
            say("How much of the work is to be inside the collet?")
            if collet
            else say("How much of the work is to be inside the jaws?"),
        )
        return
    if chuck is not None and chuck.inside:
        return  # the bore counts: `holding_checks`
    start = 0.0
    for before, after in pairwise(job.work):
        start += before.length.si
        ends = before.od_end or before.od
        if start < grip.si - SAME and abs(after.od.si - ends.si) > SAME:
            if after.od.si < ends.si:
                means = (
                    say("the collet bears only up to it") if collet else say("the jaws bear only up to it")
                )
            else:
                means = (
                    say("the collet cannot close on both diameters")
                    if collet
                    else say("the jaws cannot close on both diameters")
                )
            yield Contradiction(
                "grip-past-shoulder",
                "check",
                say(
                    "The grip of {grip} goes past the shoulder at {length_like} from "
                    "{ends} to {od}: {means}. Grip less, or turn the work end for end.",
                    grip=said(grip),
                    length_like=length_like(start, grip),
                    ends=said(ends),
                    od=said(after.od),
                    means=means,
                ),
                grip.where,
            )
            return


def _cross_hole(job: Job, diameter: Given, from_end: Given) -> Iterator[Contradiction]:
    total = total_length(job.work)
    if from_end.si > total + SAME:
        yield Contradiction(
            "cross-hole-outside",
            "stop",
            say(
                "The cross hole is {from_end} from the tailstock end, and the work is "
                "{length_like} long ({section_lines}).",
                from_end=said(from_end),
                length_like=length_like(total, from_end),
                section_lines=section_lines(job.work),
            ),
            from_end.where,
            say("Where is the cross hole?"),
        )
        return
    section, start = section_at(job.work, total - from_end.si)
    end = section.od_end or section.od
    od = section.od.si + (end.si - section.od.si) * (total - from_end.si - start) / section.length.si
    if diameter.si >= od - SAME:
        yield Contradiction(
            "cross-hole-too-large",
            "stop",
            say(
                "The cross hole of {diameter} is not smaller than the work there, "
                "{length_like} (line {line}).",
                diameter=said(diameter),
                length_like=length_like(od, diameter),
                line=section.od.where.line,
            ),
            diameter.where,
            say("What are the diameter of the hole and of the work there?"),
        )
    elif from_end.si < diameter.si / 2 - SAME:
        yield Contradiction(
            "cross-hole-breaks-out", "check",
            say(
                "The cross hole of {diameter} with its axis {from_end} from the end breaks out of the end "
                "face.",
                diameter=said(diameter),
                from_end=said(from_end),
            ),
            from_end.where, say("Is the hole open at the end face?"),
        )
