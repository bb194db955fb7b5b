"""The tool that the thread wants: angle, nose, clearance of its sides, tilt; how a coarse groove is roughed.

What the tool on the bench has stands in `threading_tool`; this is what it should have.
"""

from __future__ import annotations

from generator.calc import form_tool
from generator.calc.form_tool import SIDES, leading_side, other_side
from generator.calc.infeed_strategy import roughing, rounded_floor
from generator.calc.thread_form import lead_angle
from generator.job.model import Job
from generator.job.operations import Thread
from generator.job.shop import ThreadTool, Tools
from generator.language.say import later, say
from generator.sheet.cutting_nose import lay_nose_range
from generator.sheet.desk import Desk
from generator.sheet.figure import Figure, Kind, Quantity
from generator.sheet.infeed import load_faces
from generator.sheet.plans import ThreadPlan
from generator.sheet.threading import thread_operation
from generator.sheet.wording import fine_words
from generator.si import Angle, Length, degree, mm

PRACTICE = later("common practice, no source")
TOOLS_FILE = "jobs/_shop/tools.yml"
WORKING = 3 * degree       # left free beside a flank; common practice 2 to 5 degrees
TILT_ABOVE = 5 * degree    # lead angle from which a tool is tilted, or its top ground; common practice
WITHIN = 0.1 * degree      # of the half angle, that a point off center height may cost; common practice
LOW = 0.5 * mm             # a height that has to be set closer than this is worth a figure
CLEARANCE = later(
    "geometry of the groove's lead angle; textbooks draw it from the circumference at the root and the lead"
)


def cutting_section(job: Job, tools: Tools, thread: ThreadPlan, desk: Desk) -> None:
    """Lay the figures of the tool that this thread wants, and what is wrong with the one named."""
    operation = thread_operation(job)
    assert operation is not None
    tool = next((one for one in tools.threading if one.name == operation.tool), None)
    lean = lead_angle(thread.lead, thread.target)
    _lay_angles(operation, thread, lean, desk)
    lay_nose_range(operation, tool, thread, desk)
    _lay_clearances(operation, tool, thread, lean, desk)
    _lay_height(thread, desk)
    _lay_roughing(thread, desk)


def _lay_angles(operation: Thread, thread: ThreadPlan, lean: Angle, desk: Desk) -> None:
    """Included angle, the leading flank of unlike ones, and what a tilted tool is ground to."""
    flanks = thread.flanks
    if flanks.square:
        return
    put: dict[str, tuple[float, Quantity]] = {"A": (flanks.load, "angle")}
    if flanks.symmetrical:
        formula = "2 × {A}"
    else:
        formula, put["B"] = "{A} + {B}", (flanks.clearance, "angle")
    desk.computed(
        "cut.included_angle",
        say("Included angle of the tool, its top level"),
        flanks.included,
        "angle",
        formula,
        put,
        thread.profile.source,
    )
    if not flanks.symmetrical:
        _lay_leading_flank(operation, thread, desk)
    if lean <= TILT_ABOVE:
        return
    ground = sum(form_tool.normal_angle(flank, lean) for flank in (flanks.load, flanks.clearance))
    desk.computed(
        "cut.tilted_angle", say("Included angle of a tool tilted to the lead angle"), ground, "angle",
        "2 × arctan(tan {A} × cos {λ})" if flanks.symmetrical
        else "arctan(tan {A} × cos {λ}) + arctan(tan {B} × cos {λ})",
        {**put, "λ": (lean, "angle")}, say("geometry: the groove cut square to its run"),
    )


def _lay_leading_flank(operation: Thread, thread: ThreadPlan, desk: Desk) -> None:
    """Which flank the leading side of the tool cuts, of unlike ones."""
    side, faces = leading_side(thread.designation.hand), load_faces(operation)
    angle = form_tool.flank_of_side(thread.flanks, side, faces)
    said = operation.load_flank is not None
    note = (
        say("the load flanks look at the chuck end") if faces == "headstock"
        else say("the load flanks look at the tailstock end")
    )
    desk.lay(
        Figure(
            "cut.leading_flank",
            say("Side of the tool towards the {side}: it leads, and cuts the load flank", side=SIDES[side])
            if angle == thread.flanks.load
            else say(
                "Side of the tool towards the {side}: it leads, and cuts the clearance flank",
                side=SIDES[side],
            ),
            angle,
            "angle",
            Kind.COMPUTED if said else Kind.ASSUMED,
            thread.profile.source,
            note=note if said else say("{note}; nobody said", note=note),
        )
    )
    if not said:
        desk.find(
            "load-flank", "check",
            say(
                "The flanks of {designation} are unlike, and nobody said which way the load comes: the "
                "sheet has the load flanks look at the tailstock end. Write load_flank: chuck or tailstock, "
                "for a tool ground the wrong way around makes scrap.",
                designation=thread.designation.text,
            ),
            operation.length.where, say("Which way does the load push on this thread?"),
        )


def _lay_clearances(
    operation: Thread, tool: ThreadTool | None, thread: ThreadPlan, lean: Angle, desk: Desk
) -> None:
    """How far both sides lean back under the edge, and whether the tool's leading one does."""
    small, large = sorted((thread.blank, thread.root_diameter))
    tilt = lean if lean > TILT_ABOVE else 0.0
    sides = form_tool.side_clearances(thread.lead, small, large, WORKING, tilt)
    side, faces = leading_side(thread.designation.hand), load_faces(operation)
    names = ("bore", "root") if thread.internal else ("root", "blank")
    tilted = " − {tilt}" if tilt else ""
    wanted: dict[str, Angle] = {}
    for key, label, end, across, diameter, value, formula in (
        ("leading", say("Side clearance, leading side (towards the {end})", end=SIDES[side]), side,
         names[0], small, sides.leading,
         f"arctan({{L}} ÷ (π × {{{names[0]}}})) + {{working}}{tilted}"),
        ("trailing", say("Side clearance, trailing side (towards the {end})", end=SIDES[other_side(side)]),
         other_side(side), names[1], large, sides.trailing,
         f"{{working}} − arctan({{L}} ÷ (π × {{{names[1]}}}))" + tilted.replace("−", "+")),
    ):
        flank = form_tool.flank_of_side(thread.flanks, end, faces)
        wanted[key] = form_tool.square_to_edge(value, flank)
        put: dict[str, tuple[float, Quantity]] = {
            "L": (thread.lead, "fine_length"), across: (diameter, "length"), "working": (WORKING, "angle"),
        }
        note = say("below 0: it may lean out under the edge so far") if value < 0 else ""
        if flank and value > 0:
            note = say("along the work; square to the edge {wanted:.1f}°", wanted=wanted[key] / degree)
        desk.computed(
            f"cut.clearance.{key}",
            label,
            value,
            "angle",
            formula,
            put | ({"tilt": (tilt, "angle")} if tilt else {}),
            CLEARANCE,
            rounds="up",
            note=note,
        )
    if tilt:
        _find_tilt(operation, tool, thread, lean, desk)
    ground = tool.side_clearance if tool is not None else None
    if tool is not None and ground is not None and ground.si < wanted["leading"] - 1e-6:
        desk.find(
            "side-clearance", "check",
            say(
                "The leading side of tool {tool} leans back {ground:g} degrees; this thread wants "
                "{wanted:.1f}, square to the edge, towards the {side}. It would rub on the flank, heat and "
                "push the work. Grind it, or take another tool.",
                tool=tool.name, ground=ground.si / degree, wanted=wanted["leading"] / degree,
                side=SIDES[side],
            ),
            operation.length.where,
        )


def _find_tilt(
    operation: Thread, tool: ThreadTool | None, thread: ThreadPlan, lean: Angle, desk: Desk
) -> None:
    """A lead angle at which a level tool cuts with one edge only."""
    recorded = tool is not None and tool.side_clearance is not None
    measure = (
        "" if recorded
        else say(" Measure its side clearance and write side_clearance in {file}.", file=TOOLS_FILE)
    )
    desk.find(
        "tool-tilt", "check",
        say(
            "The lead angle of {thread} is {angle:.1f} degrees: with its top level the leading edge is keen "
            "and the trailing one blunt. Tilt the tool by that angle and grind it for it, or leave its top "
            "level, grind it to the axial angle and the sides for the lead.{measure}",
            thread=thread.designation.text, angle=lean / degree, measure=measure,
        ),
        operation.length.where,
    )


def _lay_height(thread: ThreadPlan, desk: Desk) -> None:
    """How close to center height the point must stand, where that is close."""
    if thread.flanks.square:
        return
    flank = max(thread.flanks.load, thread.flanks.clearance)
    crest, root = thread.blank, thread.root_diameter
    off = form_tool.height_error(crest, root, flank, WITHIN)
    if off >= LOW:
        return
    desk.computed(
        "cut.height",
        say("Point within this of center height"),
        off,
        "fine_length",
        "√({crest} × {root} ÷ 2 × (tan({A} + {change}) ÷ tan {A} − 1))",
        {
            "crest": (crest, "length"),
            "root": (root, "length"),
            "A": (flank, "angle"),
            "change": (WITHIN, "angle"),
        },
        say("geometry of a level tool beside the axis"),
        rounds="down",
        system=thread.system,
        note=say(
            "it changes the half angle by {within:g}° ({practice})", within=WITHIN / degree, practice=PRACTICE
        ),
    )


def _lay_roughing(thread: ThreadPlan, desk: Desk) -> None:
    """The slot and the side steps of a coarse groove with steep flanks."""
    bottom = thread.nose_flat or rounded_floor(thread.nose_radius)
    steps = roughing(thread.pitch, thread.flanks, thread.depth, bottom)
    if steps is None:
        return
    system, left = thread.system, thread.depth - steps.depth
    desk.lay(Figure(
        "cut.rough.how", say("Roughing"), _roughing_words(thread, steps.plunges, steps.shift), "text",
        Kind.COMPUTED, PRACTICE,
    ))
    slot = bottom - 2 * left
    desk.computed(
        "cut.rough.width", say("Grooving tool for the slot, width"), steps.width, "length",
        "{floor} − 2 × {left}" if steps.plunges == 1 else say("{slot}, the widest tool {widest}"),
        {"floor": (bottom, "fine_length"), "left": (left, "fine_length")} if steps.plunges == 1
        else {"slot": (slot, "fine_length"), "widest": (steps.width, "length")},
        PRACTICE, kind=Kind.ASSUMED, rounds="down", system=system,
    )
    desk.computed(
        "cut.rough.depth", say("Slot to this depth, radial"), steps.depth, "length", "{depth} − {left}",
        {"depth": (thread.depth, "length"), "left": (left, "fine_length")}, PRACTICE, kind=Kind.ASSUMED,
        rounds="down", system=system,
    )
    desk.computed(
        "cut.rough.side_steps", say("Side steps off each flank"), steps.side_steps, "count",
        "({floor} + {depth} × {tangents of the flanks} − {slot}) ÷ 2 ÷ {side step}",
        {
            "floor": (bottom, "fine_length"), "depth": (thread.depth, "length"),
            "tangents of the flanks": (thread.flanks.tangents, "ratio"), "slot": (slot, "fine_length"),
            "side step": (steps.step, "fine_length"),
        },
        PRACTICE, kind=Kind.ASSUMED,
    )


def _roughing_words(thread: ThreadPlan, plunges: int, shift: Length) -> str:
    slot = (
        say("straight in with the grooving tool")
        if plunges == 1
        else say(
            "{plunges} slots side by side, {shift} apart",
            plunges=plunges,
            shift=fine_words(shift, thread.system),
        )
    )
    if thread.flanks.square:
        return say(
            "{slot}; then the finishing tool of full width, or one side after the other with the compound "
            "along the bed",
            slot=slot,
        )
    return say(
        "{slot}; then the form tool off one flank and the other in turn with the compound along the bed, "
        "and last straight in to size",
        slot=slot,
    )
