"""Does the lathe take the work: what holds it, rests, swing and gap, length between centers, spindle bore.

What the lathe's record does not say cannot be checked; it is handed on, and `unchecked_note` names it all in
one note, each with the key to fill in.
"""

from __future__ import annotations

from collections.abc import Sequence

from generator.errors import Location
from generator.job.lathe import Lathe
from generator.job.lathe_parts import Head
from generator.job.model import Job
from generator.job.written import Given
from generator.language.say import say
from generator.sheet.capacity_head import head_section
from generator.sheet.desk import Desk
from generator.sheet.figure import Quantity, System
from generator.sheet.head import (
    HEAD_WORDS,
    LENGTH_KEYS,
    fits,
    range_words,
    used_chuck,
    used_collet,
    used_head,
)
from generator.sheet.layout import Layout
from generator.sheet.plans import ThreadPlan
from generator.sheet.swing import lay_size, swing_section
from generator.sheet.wording import length_words
from generator.si import Length

__all__ = ["capacity_section", "steady_where", "unchecked_note", "used_chuck", "used_collet", "used_head"]


def steady_where(job: Job) -> Location:
    """The line on the steady rest's place, or on the chuck where the file does not give one."""
    steady = job.holding.steady
    return steady.at.where if steady and isinstance(steady.at, Given) else job.holding.grip.where


def capacity_section(
    job: Job, lathe: Lathe, layout: Layout, thread: ThreadPlan | None, steady_at: Length | None, desk: Desk
) -> list[str]:
    """Compare the work with what the lathe takes; lay figures and findings, return what was not checked."""
    unchecked: list[str] = []
    head, system = used_head(job, lathe), job.units or lathe.units
    head_section(job, lathe, head, layout, system, desk, unchecked)
    _steady(job, lathe, layout, steady_at, system, desk, unchecked)
    _follow_rest(job, lathe, thread, system, desk)
    swing_section(job, lathe, head, layout, thread, system, desk, unchecked)
    _length(job, lathe, head, layout, system, desk, unchecked)
    _bore(job, lathe, layout, system, desk, unchecked)
    return unchecked


def unchecked_note(lathe: Lathe, unchecked: Sequence[str], desk: Desk) -> None:
    """Name every check that could not be made for this job, with the key of the record that it needs."""
    if unchecked:
        desk.find(
            "not-checked",
            "note",
            say(
                "Not checked, because the record of {lathe} says nothing of it: {unchecked}.",
                lathe=lathe.name, unchecked=", ".join(map(str, dict.fromkeys(unchecked))),
            ),
        )


def unchecked_of(note: str, lathe: Lathe) -> str:
    """What a sentence of `unchecked_note` names, without the words around it."""
    before, _, after = say(
        "Not checked, because the record of {lathe} says nothing of it: {unchecked}.",
        lathe=lathe.name, unchecked="\0",
    ).partition("\0")
    return note.removeprefix(before).removesuffix(after)


def _steady(
    job: Job,
    lathe: Lathe,
    layout: Layout,
    steady_at: Length | None,
    system: System,
    desk: Desk,
    unchecked: list[str],
) -> None:
    if steady_at is None:
        return
    span = layout.span_at(steady_at)
    if lathe.steady is None:
        desk.find(
            "steady-missing",
            "stop",
            say(
                "{lathe} has no steady rest in its record. If it has one, write it there; if not, take "
                "another lathe, or a center.",
                lathe=lathe.name,
            ),
            steady_where(job),
        )
        return
    if lathe.steady.width is None:
        unchecked.append(say("the width of the steady rest's fingers (steady: width)"))
    if span is not None:
        diameter = span.od_at(steady_at)
        lay_size(
            desk,
            "steady",
            say("Diameter at the steady rest"),
            diameter,
            say("the steady rest takes {steady}", steady=range_words(lathe.steady)),
        )
        if not fits(lathe.steady, diameter):
            desk.find(
                "steady-range",
                "stop",
                say(
                    "The work is {diameter} where the steady rest stands; the one of {lathe} takes "
                    "{steady}. Run it on another place, or take another lathe.",
                    diameter=length_words(diameter, system), lathe=lathe.name,
                    steady=range_words(lathe.steady),
                ),
                steady_where(job),
            )


def _follow_rest(
    job: Job, lathe: Lathe, thread: ThreadPlan | None, system: System, desk: Desk
) -> None:
    """The follow rest's range against the diameter it runs on."""
    if not job.holding.follow_rest:
        return
    rest = lathe.follow_rest
    if rest is None:
        desk.find(
            "follow-rest-missing",
            "stop",
            say(
                "{lathe} has no follow rest in its record. If it has one, write it there; if not, take "
                "another lathe, or a steady rest.",
                lathe=lathe.name,
            ),
            job.holding.grip.where,
        )
        return
    if thread is None or thread.internal:
        return
    lay_size(
        desk,
        "follow_rest",
        say("Diameter at the follow rest"),
        thread.blank,
        say("the follow rest takes {rest}", rest=range_words(rest)),
    )
    if not fits(rest, thread.blank):
        desk.find(
            "follow-rest-range",
            "stop",
            say(
                "The follow rest runs on {blank}; the one of {lathe} takes {rest}. Take a steady rest, or "
                "another lathe.",
                blank=length_words(thread.blank, system), lathe=lathe.name, rest=range_words(rest),
            ),
            job.holding.grip.where,
        )


def _length(
    job: Job,
    lathe: Lathe,
    head: Head | None,
    layout: Layout,
    system: System,
    desk: Desk,
    unchecked: list[str],
) -> None:
    """Work between the points of both centers; else head, work and tailstock center one behind the other."""
    holding = job.holding
    if holding.behind_spindle is not None:
        return
    put, words = {"work": layout.total}, HEAD_WORDS[holding.held.kind].english
    if holding.centers is None:
        if head is None or head.length is None:
            unchecked.append(LENGTH_KEYS[holding.held.kind])
            return
        put[words] = head.length.si
        if holding.center:
            if lathe.center_length is None:
                unchecked.append(say("the length of the center (center_length)"))
            else:
                put["center"] = lathe.center_length.si
    need = sum(put.values())
    quantities: dict[str, tuple[float, Quantity]] = {name: (value, "length") for name, value in put.items()}
    desk.computed(
        "capacity.between_centers",
        say("Length needed between centers"),
        need,
        "length",
        " + ".join(f"{{{name}}}" for name in put),
        quantities,
        say("common practice, no source"),
        note=say(
            "{name} has {between_centers}",
            name=lathe.name, between_centers=lathe.between_centers.with_unit,
        ),
        rounds="up",
    )
    if need > lathe.between_centers.si:
        takes = (
            say("The work takes {need}", need=length_words(need, system)) if holding.centers
            else say(
                "Work, {head} and center take {need}",
                head=HEAD_WORDS[holding.held.kind], need=length_words(need, system),
            )
        )
        through = (
            "" if holding.centers or holding.faceplate else say(", or pass the work through the spindle")
        )
        desk.find(
            "too-long",
            "stop",
            say(
                "{takes}; {lathe} has {between_centers} between centers. Take a longer lathe{through}.",
                takes=takes, lathe=lathe.name, between_centers=lathe.between_centers.with_unit,
                through=through,
            ),
            job.work[0].length.where,
        )


def _bore(
    job: Job, lathe: Lathe, layout: Layout, system: System, desk: Desk, unchecked: list[str]
) -> None:
    if job.holding.behind_spindle is None:
        return
    if lathe.spindle.bore is None:
        unchecked.append(say("the spindle bore (spindle: bore)"))
        return
    inside = layout.spans[0].od_start
    lay_size(
        desk,
        "spindle_bore",
        say("Diameter through the spindle"),
        inside,
        say("the spindle bore is {bore}", bore=lathe.spindle.bore.with_unit),
    )
    if inside > lathe.spindle.bore.si:
        desk.find(
            "spindle-bore",
            "stop",
            say(
                "The bar is {inside}; the spindle bore of {lathe} is {bore}. It does not pass: take a lathe "
                "with a larger bore.",
                inside=length_words(inside, system), lathe=lathe.name, bore=lathe.spindle.bore.with_unit,
            ),
            job.holding.behind_spindle.where,
        )
