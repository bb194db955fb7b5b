"""The thread families that are computed, as the site lists them: read off the families themselves.

    listed_families    every family with its form, how it is written, its sizes, and what of it is from memory
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from generator.errors import BadDesignation
from generator.job.thread_print import from_memory
from generator.language.say import first_large, say
from generator.language.spoken import once_a_language
from generator.threads.designation import Designation
from generator.threads.family import Family
from generator.threads.registry import (
    families,
    mate_of,
    parse_designation,
    profile,
    write_designation,
)


@dataclass(frozen=True)
class ListedFamily:
    """One family in words: `written` are designations that can be typed as they stand.

    `inside` is the other half of the first of them, `left` its left-hand form; "" where there is none.
    """

    name: str
    standard: str
    form: str
    written: tuple[str, ...]
    inside: str
    left: str
    sizes: str
    from_memory: tuple[str, ...]


@once_a_language
def listed_families() -> tuple[ListedFamily, ...]:
    """Every family, by name."""
    memory = {one.family: one.figures for one in from_memory()}
    return tuple(
        _listed(family, memory.get(family.name, ()))
        for family in sorted(families(), key=lambda one: one.name.casefold())
    )


def _listed(family: Family, memory: tuple[str, ...]) -> ListedFamily:
    first = parse_designation(family.examples[0])
    forms = dict.fromkeys(_form(parse_designation(text)) for text in family.examples)
    return ListedFamily(
        first_large(family.name), family.standard,
        say(" or ").join(forms) if any(family.sizes()) else say("as it was measured"),
        family.examples, write_designation(mate_of(first)), _left(first), _sizes(family), memory,
    )


def _form(d: Designation) -> str:
    """Angle of the flanks, taper where it has one.

    >>> _form(parse_designation("1/2-14 NPT")), _form(parse_designation("S40x7-7h"))
    ('60 degrees, taper 1 in 16', '33 degrees, flanks 3 and 30')
    """
    form = profile(d)
    load, clearance = (math.degrees(angle) for angle in (form.flanks.load, form.flanks.clearance))
    if form.square:
        return say("square")
    angle = say("{angle:.4g} degrees", angle=load + clearance)
    if abs(load - clearance) > 0.01:
        angle += say(", flanks {load:.3g} and {clearance:.3g}", load=load, clearance=clearance)
    return angle + (say(", taper 1 in {length:.3g}", length=1 / form.taper) if form.taper else "")


def _left(first: Designation) -> str:
    try:
        return write_designation(replace(first, text="", hand="left"))
    except BadDesignation:
        return ""


def _sizes(family: Family) -> str:
    """How many standard sizes, and from which to which."""
    sizes = list(family.sizes())
    if not sizes:
        return say("any")
    smallest, largest = (pick(sizes, key=lambda one: one.major) for pick in (min, max))
    return say(
        "{count}, {smallest} to {largest}",
        count=len(sizes),
        smallest=smallest.designation,
        largest=largest.designation,
    )
