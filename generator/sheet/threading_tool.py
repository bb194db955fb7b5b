"""What the thread is cut into and with: the blank, the tool's nose, and the depth that follows from both."""

from __future__ import annotations

from generator.calc import thread_form
from generator.job.shop import ThreadTool, Tools
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.figure import Figure, Kind, Quantity
from generator.sheet.threading import Threading
from generator.sheet.wording import fine_words, pitch_share_words
from generator.si import Length, degree

PRACTICE = later("common practice, no source")
TOOLS_FILE = "jobs/_shop/tools.yml"
SAME = 1 - 1e-9
EIGHTH = 0.125  # of the pitch: the basic crest flat of ASME B1.1 and ISO 68-1


def lay_blank(threading: Threading, desk: Desk) -> Length:
    """The diameter the thread is cut into (m): as measured, else in the upper half of the limits."""
    if threading.operation.blank is not None:
        return desk.given("thread.blank", say("Blank diameter"), threading.operation.blank, "length")
    sizes, unit = threading.limits, threading.unit
    if sizes.major.max is None or sizes.major.min is None:
        basic = (threading.designation.nominal if sizes.major.max is None else sizes.major.max) * unit
        return desk.computed(
            "thread.blank", say("Blank diameter to turn"), basic, "length", "{d}", {"d": (basic, "length")},
            PRACTICE, kind=Kind.ASSUMED, system=threading.system,
            note=say("no standard limits its crests both ways; turn it to suit the mate, and measure it"),
        )
    largest, tolerance = sizes.major.max * unit, (sizes.major.max - sizes.major.min) * unit
    return desk.computed(
        "thread.blank",
        say("Blank diameter to turn"),
        largest - tolerance / 4,
        "length",
        "{d max} − {Td} ÷ 4",
        {"d max": (largest, "length"), "Td": (tolerance, "length")},
        PRACTICE,
        note=say("upper half of the limits; measure it cold and cut the thread into what you measured"),
        system=threading.system,
    )


def lay_crests(threading: Threading, desk: Desk) -> None:
    """The radius of the crests, where the form has round ones: a tool of one point leaves them flat."""
    share = threading.profile.crest_radius
    if share:
        desk.computed(
            "thread.crest_radius", say("Round the crests to"), share * threading.pitch, "fine_length",
            f"{share:.6g} × {{P}}", {"P": (threading.pitch, "fine_length")}, threading.profile.source,
            system=threading.system,
            note=say("a tool of one point leaves them flat: round them with a chaser or a fine file"),
        )


def named_tool(threading: Threading, tools: Tools) -> ThreadTool | None:
    """The tool of the shop that the operation names, or None."""
    wanted = threading.operation.tool
    return next((tool for tool in tools.threading if tool.name == wanted), None)


def lay_nose(threading: Threading, tools: Tools, desk: Desk) -> tuple[Length, Length]:
    """Nose flat and nose radius (m), one of them 0; that of the form is assumed when no tool is named."""
    tool = named_tool(threading, tools)
    if tool is None:
        return _assume_nose(threading, desk)
    _check_angle(tool, threading, desk)
    inside = threading.designation.internal
    if tool.inside and not inside:
        desk.find(
            "tool-inside", "check",
            say(
                "Tool {tool} is recorded as one for internal threads, and {designation} is an external one. "
                "Take another tool, or see that this one stands stiff enough.",
                tool=tool.name, designation=threading.designation.text,
            ),
            threading.operation.length.where,
        )
    if tool.nose_radius is not None:
        _lay_measured("nose_radius", say("Nose radius of tool {tool}", tool=tool.name), tool, threading, desk)
        if not inside:
            _check_radius(tool.nose_radius.si, threading, desk)
        return 0.0, tool.nose_radius.si
    if tool.nose_flat is None:
        return _assume_nose(threading, desk)
    _lay_measured("nose_flat", say("Nose flat of tool {tool}", tool=tool.name), tool, threading, desk)
    widest = threading.profile.widest_flat
    if not inside and not threading.profile.square and tool.nose_flat.si > widest * threading.pitch / SAME:
        desk.find(
            "nose-wide", "stop",
            say(
                "The nose flat of tool {tool} is {nose_flat}, wider than {share}, {widest}: at the right "
                "pitch diameter the root would be too shallow for the mate. Grind it narrower or take "
                "another tool.",
                tool=tool.name, nose_flat=tool.nose_flat.with_unit, share=pitch_share_words(widest),
                widest=fine_words(widest * threading.pitch, threading.system),
            ),
            threading.operation.length.where,
        )
    return tool.nose_flat.si, 0.0


def lay_depth(
    threading: Threading, blank: Length, target: Length, flat: Length, radius: Length, desk: Desk
) -> Length:
    """Radial depth (m) from touch to the pitch diameter aimed at, for the tool's own nose."""
    inside, pitch, flanks = threading.designation.internal, threading.pitch, threading.profile.flanks
    names = ("bore", "D2") if inside else ("blank", "d2")
    put: dict[str, tuple[float, Quantity]] = {
        names[0]: (blank, "length"), names[1]: (target, "length"), "P": (pitch, "fine_length"),
    }
    difference = "({D2} − {bore}) ÷ 2" if inside else "({blank} − {d2}) ÷ 2"
    angle = f"{flanks.load / degree:g}°"
    if radius:
        depth = thread_form.depth_for_radius(blank, target, pitch, flanks, radius, inside)
        below = (
            f"{{P}} ÷ (4 tan {angle}) − {{r}} × (1 ÷ sin {angle} − 1)" if flanks.symmetrical
            else f"{{P}} ÷ {2 * flanks.tangents:.6g} − {{r}} × {flanks.seat - 1:.6g}"
        )
        put["r"] = (radius, "fine_length")
    else:
        depth = thread_form.depth_for_flat(blank, target, pitch, flanks, flat, inside)
        below = "({P} ÷ 2 − {F}) ÷ " + (
            f"(2 tan {angle})" if flanks.symmetrical
            else f"(tan {angle} + tan {flanks.clearance / degree:g}°)"
        )
        put["F"] = (flat, "fine_length")
    return desk.computed(
        "thread.depth",
        say("Depth, radial, from touch"),
        depth,
        "length",
        f"{difference} + {below}",
        put,
        say(
            "geometry: the groove is half a pitch wide at the pitch cylinder ({source})",
            source=threading.profile.source,
        ),
        note=say("sizes come right on the pitch diameter, not on the depth"),
        system=threading.system,
    )


def lay_square_depth(threading: Threading, blank: Length, desk: Desk) -> Length:
    """Radial depth (m) of a square thread: to its root, for no depth widens its groove."""
    inside, unit = threading.designation.internal, threading.unit
    limits = threading.limits.major if inside else threading.limits.minor
    ends = [end * unit for end in (limits.max, limits.min) if end is not None]
    basic = threading.designation.nominal * unit if inside else threading.basic_minor_diameter
    root = sum(ends) / len(ends) if ends else basic
    names = ("bore", "root") if inside else ("blank", "root")
    return desk.computed(
        "thread.depth",
        say("Depth, radial, from touch"),
        (root - blank if inside else blank - root) / 2,
        "length",
        "({root} − {bore}) ÷ 2" if inside else "({blank} − {root}) ÷ 2",
        {names[0]: (blank, "length"), names[1]: (root, "length")},
        PRACTICE,
        system=threading.system,
        note=say("the width of the groove is the tool's; measure it with a gauge block, and try the mate"),
    )


def _lay_measured(entry: str, label: str, tool: ThreadTool, threading: Threading, desk: Desk) -> None:
    given = tool.nose_radius if entry == "nose_radius" else tool.nose_flat
    assert given is not None
    desk.lay(Figure(
        f"thread.tool.{entry}", label, given.si, "fine_length", Kind.SHOP, TOOLS_FILE,
        text=given.with_unit, system=threading.system,
    ))


def _assume_nose(threading: Threading, desk: Desk) -> tuple[Length, Length]:
    """The nose that the form asks for, where no tool was named: flat and radius (m), one of them 0."""
    profile, pitch, system = threading.profile, threading.pitch, threading.system
    if profile.tool_radius:
        what, share = "radius", profile.tool_radius
        moves = profile.flanks.seat - 1
    else:
        what, share = "flat", profile.tool_flat
        moves = 0.0 if profile.square else 1 / profile.flanks.tangents
    effect = (
        say(": the groove is as wide as it") if not moves
        else say(
            ": a radius that differs by 0.001 in moves the pitch diameter by {moves:.4f} in",
            moves=2 * moves * 0.001,
        )
        if what == "radius"
        else say(
            ": a flat that differs by 0.001 in moves the pitch diameter by {moves:.4f} in",
            moves=2 * moves * 0.001,
        )
    )
    parts = {"share": pitch_share_words(share), "tools_file": TOOLS_FILE, "effect": effect}
    desk.find(
        "tool-assumed", "check",
        say(
            "No threading tool with a measured nose is named, so its radius is assumed as {share}. Measure "
            "the radius and write it in {tools_file}{effect}.",
            **parts,
        )
        if what == "radius"
        else say(
            "No threading tool with a measured nose is named, so its flat is assumed as {share}. Measure "
            "the flat and write it in {tools_file}{effect}.",
            **parts,
        ),
        threading.operation.length.where,
    )
    size = desk.computed(
        f"thread.tool.nose_{what}",
        say(
            "Nose radius of the tool"
        ) if what == "radius" else say("Nose flat of the tool"), share * pitch, "fine_length",
        "{P} ÷ 8" if share == EIGHTH else f"{share:.6g} × {{P}}", {"P": (pitch, "fine_length")},
        PRACTICE if share == EIGHTH else profile.source, kind=Kind.ASSUMED, system=system,
        note=say("no tool was named; measure it, for the depth follows from it"),
    )
    return (0.0, size) if what == "radius" else (size, 0.0)


def _check_angle(tool: ThreadTool, threading: Threading, desk: Desk) -> None:
    wanted = threading.profile.flanks.included
    if not threading.profile.square and abs(tool.angle.si - wanted) > 1e-6:
        desk.find(
            "tool-angle", "stop",
            say(
                "Tool {tool} is ground to {angle:g} degrees; {designation} has flanks at {wanted:g} degrees "
                "({source}). Take another tool.",
                tool=tool.name, angle=tool.angle.si / degree, designation=threading.designation.text,
                wanted=wanted / degree, source=threading.profile.source,
            ),
            threading.operation.length.where,
        )


def _check_radius(radius: Length, threading: Threading, desk: Desk) -> None:
    """Least root radius where the profile asks for one."""
    least = threading.profile.least_radius * threading.pitch
    if radius < least * SAME:
        desk.find(
            "nose-radius", "check",
            say(
                "The nose radius {radius} is under the {least} that the root of {designation} asks for "
                "({source}). Decide whether this thread needs the rounded root.",
                radius=fine_words(radius, threading.system), least=fine_words(least, threading.system),
                designation=threading.designation.text, source=threading.profile.source,
            ),
            threading.operation.length.where,
        )
