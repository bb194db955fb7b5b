"""How far the bar of an internal thread springs away in the last cut, and how many spring passes undo it."""

from __future__ import annotations

from math import inf

from generator.calc.beam import Beam, Segment, Support
from generator.calc.boring_spring import spring_passes
from generator.job.operations import Thread
from generator.job.shop import House
from generator.language.say import later, say, say_count
from generator.sheet.desk import Desk
from generator.sheet.holding.cut_line import ERROR_SHARE
from generator.sheet.holding.loads import THRUST_SHARE
from generator.sheet.plans import ThreadPlan
from generator.sheet.wording import fine_words
from generator.si import Force, GPa, Length

STEEL = 205 * GPa  # elastic modulus of a steel bar: Gere, Mechanics of Materials, 5th ed., Appendix H
DENSITY = 7850.0   # kg/m^3, the same source; the bar's own weight does not enter
BEAM = later(
    "cantilever with the load at its end (Roark, Formulas for Stress and Strain, beam table, case 1a)"
)


def lay_bar(
    last: Force | None, cut: Length, springs: int, operation: Thread, house: House, thread: ThreadPlan,
    desk: Desk,
) -> None:
    """Lay down the error on diameter that the bar's spring makes; nothing where bar or force are unknown.

    `cut` is the last cut, radial (m). Of a square thread it is the major diameter that suffers, of any other
    the pitch diameter.
    """
    bar, out = thread.bar, thread.bar_out
    if bar is None or out is None or last is None:
        return
    share = house.thrust_share.si if house.thrust_share else THRUST_SHARE
    beam = Beam((Segment(0.0, out, bar),), (Support(0.0, inf, inf),), STEEL, DENSITY)
    spring = float(beam.under_tool(share * last, [out])[0])
    error = desk.computed(
        "passes.bar_error",
        say("What the bar springs away in the last cut, on diameter"),
        2 * spring,
        "fine_length",
        "2 × {share} × {F last} × {bar out}³ ÷ (3 × {E} × π × {bar}⁴ ÷ 64)",
        {
            "share": (share, "ratio"),
            "F last": (last, "force"),
            "bar out": (out, "length"),
            "E": (STEEL, "pressure"),
            "bar": (bar, "length"),
        },
        say("{beam}; radial force over cutting force: common practice, no source", beam=BEAM),
        rounds="up",
        system=thread.system,
        note=say("the thread comes out that much smaller until spring passes take it out"),
    )
    tolerance = _tolerance(thread)
    if tolerance is None or error <= ERROR_SHARE * tolerance:
        return
    wanted = desk.computed(
        "passes.bar_springs", say("Spring passes until a quarter of the tolerance is left of it"),
        spring_passes(spring, cut, ERROR_SHARE * tolerance / 2), "count",
        say("ln({left} ÷ {spring}) ÷ ln({spring} ÷ ({cut} + {spring})), up"),
        {
            "left": (ERROR_SHARE * tolerance / 2, "fine_length"), "spring": (spring, "fine_length"),
            "cut": (cut, "fine_length"),
        },
        say("arithmetic of a spring, the force in proportion to the cut: common practice, no source"),
    )
    what = say("major diameter") if thread.flanks.square else say("pitch diameter")
    left = "" if springs else say(" and there is no spring pass")
    more = (
        say_count(" {count} spring pass would do it.", " {count} spring passes would do it.", round(wanted))
        if wanted > springs else ""
    )
    desk.find(
        "bar-springs", "check",
        say(
            "The bar of tool {tool} springs away by {error} on diameter in the last cut, more than a "
            "quarter of the {what} tolerance of {tolerance}{left}.{more} Take a thicker bar or set "
            "it out less, take smaller last cuts, and repeat the last reading until it does not cut.",
            tool=operation.tool, error=fine_words(error, thread.system), what=what,
            tolerance=fine_words(tolerance, thread.system), left=left, more=more,
        ),
        operation.length.where,
    )


def _tolerance(thread: ThreadPlan) -> Length | None:
    """Tolerance of the diameter that the bar's spring makes smaller (m); None where nothing limits it."""
    if not thread.flanks.square:
        tolerance = thread.pitch_diameter_max - thread.pitch_diameter_min
        return tolerance if tolerance > 0 else None
    limits = thread.limits.major
    if limits.max is None or limits.min is None:
        return None
    return (limits.max - limits.min) * thread.designation.unit_si
