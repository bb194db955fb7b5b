"""The nose that this thread allows: not so wide that the mate's crests meet the root, and not too narrow."""

from __future__ import annotations

from typing import Final

from generator.calc import form_tool
from generator.errors import OutsideRange
from generator.job.operations import Thread
from generator.job.shop import ThreadTool
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.figure import Quantity
from generator.sheet.plans import ThreadPlan
from generator.sheet.wording import fine_words
from generator.si import Length
from generator.threads.registry import limits, mate_of

SAME = 1e-9  # m: two sizes closer than this are one
PRINT = 1.01  # the standards round limits and radii apart from each other
GEOMETRY = later("geometry of the groove, half a pitch wide at the pitch cylinder (ISO 5408)")
OF_MATE: Final = {  # sizes of the mate, as formulas name them
    "d max": later("d max of the mate"), "D1 min": later("D1 min of the mate"),
}


def lay_nose_range(
    operation: Thread, tool: ThreadTool | None, thread: ThreadPlan, desk: Desk
) -> None:
    """Lay the widest and the narrowest nose, and hold the named tool's nose to them.

    A taper thread has its own rule for the root (`taper_thread`), and gets none here.
    """
    if thread.profile.taper:
        return
    what = "radius" if thread.nose_radius else "flat"
    most = _most(what, thread, desk)
    least = _least(what, most, thread, desk)
    measured = tool is not None and (tool.nose_flat is not None or tool.nose_radius is not None)
    nose = thread.nose_radius or thread.nose_flat
    if tool is None or not measured:
        return
    if what == "radius" and most is not None and nose > PRINT * most:
        desk.find(
            "nose-blunt", "stop",
            say(
                "The nose radius of tool {tool} is {nose}, over the {most} that clears the crests of the "
                "mate of {designation}: they would meet the root before the flanks meet. Grind it smaller "
                "or take another tool.",
                tool=tool.name, nose=fine_words(nose, thread.system), most=fine_words(most, thread.system),
                designation=thread.designation.text,
            ),
            operation.length.where,
        )
    elif least is not None and nose < least - SAME and not thread.profile.least_radius:
        desk.find(
            "nose-sharp", "check",
            say(
                "The nose of tool {tool} is {nose}, under the {least} that keeps the root of {designation} "
                "inside the standard's limit: the groove comes out deeper. Decide whether the work has the "
                "wall for it.",
                tool=tool.name, nose=fine_words(nose, thread.system), least=fine_words(least, thread.system),
                designation=thread.designation.text,
            ),
            operation.length.where,
        )


def _most(what: str, thread: ThreadPlan, desk: Desk) -> Length | None:
    """The widest nose (m): the root just clears the mate's largest crests at the worst pitch diameter."""
    pitch, profile, inside = thread.pitch, thread.profile, thread.internal
    label = (
        say("Nose radius of the tool, at most") if what == "radius"
        else say("Nose flat of the tool, at most")
    )
    widest = profile.widest_flat * pitch
    if profile.square:
        return desk.computed(
            "cut.nose.most", label, widest, "fine_length", f"{profile.widest_flat:.6g} × {{P}}",
            {"P": (pitch, "fine_length")}, profile.source, rounds="down", system=thread.system,
        )
    found = _shallowest_root(thread)
    if found is None:
        return None
    name, root = found
    worst = thread.pitch_diameter_min if inside else thread.pitch_diameter_max
    most = _nose(what, thread, worst, root)
    if what == "flat" and not inside and widest < most:
        return desk.computed(
            "cut.nose.most", label, widest, "fine_length", f"{profile.widest_flat:.6g} × {{P}}",
            {"P": (pitch, "fine_length")}, profile.source, rounds="down", system=thread.system,
        )
    if most <= 0:
        return None
    names = ("D2 min" if inside else "d2 max", name)
    return _lay(what, "most", label, most, names, (worst, root), thread, desk)


def _least(what: str, most: Length | None, thread: ThreadPlan, desk: Desk) -> Length | None:
    """The narrowest nose (m): the root just inside the standard's limit, where it gives one."""
    unit, inside = thread.designation.unit_si, thread.internal
    limit = thread.limits.major.max if inside else thread.limits.minor.min
    label = (
        say("Nose radius of the tool, at least") if what == "radius"
        else say("Nose flat of the tool, at least")
    )
    if what == "radius" and thread.profile.least_radius:
        least = thread.profile.least_radius * thread.pitch
        return desk.computed(
            "cut.nose.least", label, least, "fine_length", f"{thread.profile.least_radius:.6g} × {{P}}",
            {"P": (thread.pitch, "fine_length")}, thread.profile.source, rounds="up", system=thread.system,
        )
    if limit is None or thread.profile.square:
        return None
    worst = thread.pitch_diameter_max if inside else thread.pitch_diameter_min
    least = _nose(what, thread, worst, limit * unit)
    own = thread.profile.tool_flat * thread.pitch
    if least <= SAME or (most is not None and least > most - SAME) or (what == "flat" and least > own):
        return None  # a limit that the form's own nose does not keep is one for another shape of root
    names = ("D2 max", "D max") if inside else ("d2 min", "d1 min")
    return _lay(what, "least", label, least, names, (worst, limit * unit), thread, desk)


def _shallowest_root(thread: ThreadPlan) -> tuple[str, Length] | None:
    """Name and size (m) of the shallowest root that will do: inside its limit, clear of the mate's crests."""
    inside, unit = thread.internal, thread.designation.unit_si
    own = thread.limits.major.min if inside else thread.limits.minor.max
    try:
        other = limits(mate_of(thread.designation))
        crest = other.major.max if inside else other.minor.min
    except OutsideRange:
        crest = None
    roots = {
        ("D min" if inside else "d1 max"): own,
        (OF_MATE["d max"] if inside else OF_MATE["D1 min"]).english: crest,
    }
    known = [(size * unit, name) for name, size in roots.items() if size is not None]
    if not known:
        return None
    size, name = max(known) if inside else min(known)
    return name, size


def _nose(what: str, thread: ThreadPlan, pitch_diameter: Length, root: Length) -> Length:
    of = form_tool.nose_radius if what == "radius" else form_tool.nose_flat
    return of(thread.pitch, thread.flanks, pitch_diameter, root)


def _lay(
    what: str, end: str, label: str, value: Length, names: tuple[str, str], put: tuple[Length, Length],
    thread: ThreadPlan, desk: Desk,
) -> Length:
    """One end of the range with its working."""
    flanks = thread.flanks
    larger, smaller = reversed(names) if thread.internal else names
    between = f"({{{larger}}} − {{{smaller}}}) ÷ 2"
    formula = f"{{P}} ÷ 2 − {flanks.tangents:.6g} × {between}"
    if what == "radius":
        formula = f"({{P}} ÷ {2 * flanks.tangents:.6g} − {between}) ÷ {flanks.seat - 1:.6g}"
    filled: dict[str, tuple[float, Quantity]] = {"P": (thread.pitch, "fine_length")}
    filled |= {name: (size, "length") for name, size in zip(names, put, strict=True)}
    return desk.computed(
        f"cut.nose.{end}", label, value, "fine_length", formula, filled, GEOMETRY,
        rounds="down" if end == "most" else "up", system=thread.system,
    )
