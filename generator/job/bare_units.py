"""Which unit a bare length has: the one that the nearest `units` around it says."""

from __future__ import annotations

from typing import Any

from generator.errors import BadDesignation
from generator.job.written import Scalar, System
from generator.language.say import say
from generator.threads.registry import parse_designation
from generator.units import quoted


def say_units(node: object, system: System | None = None, mixed: str = "") -> None:
    """Tell every value the unit of a bare length there: the nearest `units` around it.

    A thread of the other system takes the units it says itself; where it says none, or others than its
    designation, a bare length in it has no unit.
    """
    if isinstance(node, Scalar):
        node.system, node.mixed = system, mixed
    elif isinstance(node, list):
        for entry in node:
            say_units(entry, system, mixed)
    elif isinstance(node, dict):
        said = node.get("units")
        if isinstance(said, str) and said.strip() in ("inch", "mm") and "designation" not in node:
            system, mixed = _system(said), ""
        elif isinstance(said, str) and said.strip() and "designation" not in node:
            system, mixed = None, say("units says {quoted}", quoted=quoted(said))
        for key, entry in node.items():
            if key == "thread" and isinstance(entry, dict):
                own, why = _thread_units(entry, system)
                say_units(entry, own, why or ("" if own else mixed))
            else:
                say_units(entry, system, mixed)


def _thread_units(thread: dict[str, Any], system: System | None) -> tuple[System | None, str]:
    said = thread.get("units")
    own = _system(said) if isinstance(said, str) and said.strip() in ("inch", "mm") else None
    try:
        unit = parse_designation(str(thread.get("designation", ""))).unit
    except BadDesignation:
        return own or system, ""
    of_thread: System = "inch" if unit == "in" else "mm"
    if of_thread in (own, system):
        return of_thread, ""
    if own is None and system is None:
        return None, ""
    other = "inch" if of_thread == "mm" else "mm"
    return None, say("the thread is in {of_thread} and the file in {other}", of_thread=of_thread, other=other)


def _system(text: str) -> System:
    return "inch" if text.strip() == "inch" else "mm"
