"""What the thread is cut into and with: the blank, the tool's nose, and the depth that follows from both."""

from __future__ import annotations

from generator.calc import thread_form
from generator.job.shop import ThreadTool, Tools
from generator.sheet.desk import Desk
from generator.sheet.model import Figure, Kind, Quantity
from generator.sheet.threading import Threading
from generator.sheet.wording import fine_words
from generator.si import Length, degree

PRACTICE = "common practice, no source"
TOOLS_FILE = "jobs/_shop/tools.yml"
LEAST_RADIUS = {"M": 0.125, "UNR": 0.10825318}  # of the pitch: ISO 68-1 and 965-1; ASME B1.1
WIDEST_FLAT = 0.25    # of the pitch: the basic root flat, ASME B1.1 and ISO 68-1
ASSUMED_FLAT = 0.125  # of the pitch; common practice, no source
SAME = 1 - 1e-9


def lay_blank(threading: Threading, desk: Desk) -> Length:
    """The diameter the thread is cut into (m): as measured, else in the upper half of the limits."""
    if threading.operation.blank is not None:
        return desk.given("thread.blank", "Blank diameter", threading.operation.blank, "length")
    sizes, unit = threading.limits, threading.unit
    assert sizes.major.max is not None, "every external thread has one"
    assert sizes.major_tolerance is not None, "every external thread has one"
    largest, tolerance = sizes.major.max * unit, sizes.major_tolerance * unit
    return desk.computed(
        "thread.blank", "Blank diameter to turn", largest - tolerance / 4, "length", "{d max} − {Td} ÷ 4",
        {"d max": (largest, "length"), "Td": (tolerance, "length")}, PRACTICE,
        note="upper half of the limits; measure it cold and cut the thread into what you measured",
        system=threading.system,
    )


def named_tool(threading: Threading, tools: Tools) -> ThreadTool | None:
    """The tool of the shop that the operation names, or None."""
    wanted = threading.operation.tool
    return next((tool for tool in tools.threading if tool.name == wanted), None)


def lay_nose(threading: Threading, tools: Tools, desk: Desk) -> tuple[Length, Length]:
    """Nose flat and nose radius (m), one of them 0; a flat of P/8 is assumed when no tool is named."""
    tool = named_tool(threading, tools)
    if tool is None:
        return _assume_flat(threading, desk), 0.0
    _check_angle(tool, threading, desk)
    inside = threading.designation.internal
    if tool.inside and not inside:
        desk.find(
            "tool-inside", "check",
            f"Tool {tool.name} is recorded as one for internal threads, and {threading.designation.text} is "
            "an external one. Take another tool, or see that this one stands stiff enough.",
            threading.operation.length.where,
        )
    if tool.nose_radius is not None:
        _lay_measured("nose_radius", f"Nose radius of tool {tool.name}", tool, threading, desk)
        if not inside:
            _check_radius(tool.nose_radius.si, threading, desk)
        return 0.0, tool.nose_radius.si
    if tool.nose_flat is None:
        return _assume_flat(threading, desk), 0.0
    _lay_measured("nose_flat", f"Nose flat of tool {tool.name}", tool, threading, desk)
    if not inside and tool.nose_flat.si > WIDEST_FLAT * threading.pitch:
        desk.find(
            "nose-wide", "stop",
            f"The nose flat of tool {tool.name} is {tool.nose_flat.with_unit}, wider than a quarter of the "
            f"pitch, {fine_words(WIDEST_FLAT * threading.pitch, threading.system)}: at the right pitch "
            "diameter the root would be too shallow for the mate. Grind it narrower or take another tool.",
            threading.operation.length.where,
        )
    return tool.nose_flat.si, 0.0


def lay_depth(
    threading: Threading, blank: Length, target: Length, flat: Length, radius: Length, desk: Desk
) -> Length:
    """Radial depth (m) from touch to the pitch diameter aimed at, for the tool's own nose."""
    inside, pitch = threading.designation.internal, threading.pitch
    names = ("bore", "D2") if inside else ("blank", "d2")
    put: dict[str, tuple[float, Quantity]] = {
        names[0]: (blank, "length"), names[1]: (target, "length"), "P": (pitch, "fine_length"),
    }
    difference = "({D2} − {bore}) ÷ 2" if inside else "({blank} − {d2}) ÷ 2"
    if radius:
        depth = thread_form.depth_for_radius(blank, target, pitch, threading.half_angle, radius, inside)
        formula = f"{difference} + {{P}} ÷ (4 tan 30°) − {{r}} × (1 ÷ sin 30° − 1)"
        put["r"] = (radius, "fine_length")
    else:
        depth = thread_form.depth_for_flat(blank, target, pitch, threading.half_angle, flat, inside)
        formula = f"{difference} + ({{P}} ÷ 2 − {{F}}) ÷ (2 tan 30°)"
        put["F"] = (flat, "fine_length")
    return desk.computed(
        "thread.depth", "Depth, radial, from touch", depth, "length", formula, put,
        "geometry: the groove is half a pitch wide at the pitch cylinder (ISO 68-1)",
        note="sizes come right on the pitch diameter, not on the depth", system=threading.system,
    )


def _lay_measured(entry: str, label: str, tool: ThreadTool, threading: Threading, desk: Desk) -> None:
    given = tool.nose_radius if entry == "nose_radius" else tool.nose_flat
    assert given is not None
    desk.lay(Figure(
        f"thread.tool.{entry}", label, given.si, "fine_length", Kind.SHOP, TOOLS_FILE,
        text=given.with_unit, system=threading.system,
    ))


def _assume_flat(threading: Threading, desk: Desk) -> Length:
    desk.find(
        "tool-assumed", "check",
        "No threading tool with a measured nose is named, so its flat is assumed as an eighth of the pitch. "
        f"Measure the flat and write it in {TOOLS_FILE}: a flat that differs by 0.001 in moves the pitch "
        "diameter by 0.0017 in.",
        threading.operation.length.where,
    )
    return desk.computed(
        "thread.tool.nose_flat", "Nose flat of the tool", ASSUMED_FLAT * threading.pitch, "fine_length",
        "{P} ÷ 8", {"P": (threading.pitch, "fine_length")}, PRACTICE, kind=Kind.ASSUMED,
        system=threading.system, note="no tool was named; measure the flat, for the depth follows from it",
    )


def _check_angle(tool: ThreadTool, threading: Threading, desk: Desk) -> None:
    if abs(tool.angle.si - threading.profile.flanks.included) > 1e-6:
        desk.find(
            "tool-angle", "stop",
            f"Tool {tool.name} is ground to {tool.angle.si / degree:g} degrees; {threading.designation.text} "
            f"has flanks at {threading.profile.flanks.included / degree:g} degrees "
            f"({threading.profile.source}). Take another tool.",
            threading.operation.length.where,
        )


def _check_radius(radius: Length, threading: Threading, desk: Desk) -> None:
    """Least root radius where the profile asks for one."""
    profile = "UNR" if threading.designation.rounded_root else threading.designation.family
    least = LEAST_RADIUS.get(profile, 0.0) * threading.pitch
    if radius < least * SAME:
        desk.find(
            "nose-radius", "check",
            f"The nose radius {fine_words(radius, threading.system)} is under the "
            f"{fine_words(least, threading.system)} that the root of {threading.designation.text} asks for "
            "(ISO 965-1; ASME B1.1). Decide whether this thread needs the rounded root.",
            threading.operation.length.where,
        )
