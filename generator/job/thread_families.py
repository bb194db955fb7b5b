"""The thread families that are computed, as the site lists them: read off the families themselves.

    listed_families    every family with its form, how it is written, its sizes, and what of it is from memory
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cache

from generator.errors import BadDesignation
from generator.job.thread_print import from_memory
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


@cache
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
        family.name[0].upper() + family.name[1:], family.standard,
        " or ".join(forms) if any(family.sizes()) else "as it was measured",
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
        return "square"
    angle = f"{load + clearance:.4g} degrees"
    if abs(load - clearance) > 0.01:
        angle += f", flanks {load:.3g} and {clearance:.3g}"
    return angle + (f", taper 1 in {1 / form.taper:.3g}" if form.taper else "")


def _left(first: Designation) -> str:
    try:
        return write_designation(replace(first, text="", hand="left"))
    except BadDesignation:
        return ""


def _sizes(family: Family) -> str:
    """How many standard sizes, and from which to which."""
    sizes = list(family.sizes())
    if not sizes:
        return "any"
    smallest, largest = (pick(sizes, key=lambda one: one.major) for pick in (min, max))
    return f"{len(sizes)}, {smallest.designation} to {largest.designation}"
