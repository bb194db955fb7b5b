"""Marks that the jaws leave on the work."""

from __future__ import annotations

from generator.calc.contact import contact_modulus, first_yield_pressure, line_pressure, mean_pressure
from generator.job.lathe_parts import LatheChuck
from generator.job.model import Chuck
from generator.language.say import later, say
from generator.sheet.capacity import used_head
from generator.sheet.holding.case import Case
from generator.sheet.holding.grip_demand import Gripped
from generator.sheet.holding.grip_friction import SURFACES, jaw_face
from generator.sheet.wording import pressure_words
from generator.si import Force, GPa
from generator.tables.jaw_friction import jaw_friction

JAW_STEEL = 205 * GPa  # hardened steel jaws
FINISHED = ("turned", "ground")
STRIPS = later("Put strips of brass, copper or aluminum under the jaws, or take soft jaws bored to the work")
HERTZ = later(
    "Johnson, Contact Mechanics, 1985, from memory; Carvill, Mechanical Engineer's Data Handbook, p. 52"
)
YIELD = later("Johnson, Contact Mechanics, 1985, section 6.1, from memory")
PATTERN = {  # by the face of the jaws
    "diamond-cut": later(
        "Diamond-cut jaws leave their pattern on the {surface} surface. {strips}; both grip as smooth jaws "
        "do, with {less:.0%} of the friction."
    ),
    "serrated": later(
        "Serrated jaws leave their pattern on the {surface} surface. {strips}; both grip as smooth jaws do, "
        "with {less:.0%} of the friction."
    ),
}
MEAN = ("grip.jaw_pressure", later("Mean pressure under a jaw"))


def marks_section(case: Case, gripped: Gripped, pressing: Force) -> None:
    """Lay the pressure under the jaws at a grip of `pressing` (N), and whether they mark the work."""
    held, desk = case.bench.job.holding.chuck, case.desk
    if held is None:
        return
    each, head = pressing / held.jaws, used_head(case.bench.job, case.bench.lathe)
    width = head.jaw_width if isinstance(head, LatheChuck) else None
    bored = held.soft_jaws or held.pie_jaws
    if width is not None and not held.pie_jaws:
        desk.computed(
            *MEAN, mean_pressure(each, width.si, gripped.length), "pressure",
            "{force of a jaw} ÷ ({width} × {length})",
            {
                "force of a jaw": (each, "force"), "width": (width.si, "length"),
                "length": (gripped.length, "length"),
            },
            say("arithmetic"),
            note=say("where the jaws fit the work") if bored else say("on their whole face"),
        )
    elif not held.pie_jaws:
        desk.unknown(
            *MEAN,
            "pressure",
            say(
                "the record of {lathe} does not say how wide a jaw is (chucks: jaw_width)",
                lathe=case.bench.lathe.name,
            ),
        )
    if bored:
        return
    face, _ = jaw_face(held)
    if face != "smooth":
        _find_teeth(case, held, gripped, face)
    elif not held.inside and _finished(case):
        _lay_line(case, held, gripped, each)


def _finished(case: Case) -> str:
    """Surface in the jaws, where a mark on it matters; empty otherwise."""
    surfaces = {
        case.bench.job.work[span.section_index].surface for span in case.bench.layout.spans if span.start < 0
    }
    return next((surface for surface in reversed(FINISHED) if surface in surfaces), "")


def _find_teeth(case: Case, held: Chuck, gripped: Gripped, face: str) -> None:
    surface, material = _finished(case), case.bench.material
    if not surface:
        return
    group = material.group if material else None
    less = jaw_friction(surface, "smooth", group).value / jaw_friction(surface, face, group).value
    case.desk.find(
        "grip-marks", "check",
        say(PATTERN[face], surface=SURFACES[surface], strips=STRIPS, less=less),
        held.grip.where,
    )


def _lay_line(case: Case, held: Chuck, gripped: Gripped, each: Force) -> None:
    """A hard flat jaw on a round touches on a line."""
    material, desk, system = case.bench.material, case.desk, case.bench.system
    if material is None:
        return
    modulus = contact_modulus(JAW_STEEL, material.elastic_modulus)
    highest = desk.computed(
        "grip.line_pressure", say("Highest pressure under a hard flat jaw"),
        line_pressure(each, gripped.length, gripped.diameter, modulus), "pressure",
        "√({force of a jaw} ÷ {length} × {modulus of the contact} ÷ (π × {d} ÷ 2))",
        {
            "force of a jaw": (each, "force"), "length": (gripped.length, "length"),
            "modulus of the contact": (modulus, "pressure"), "d": (gripped.diameter, "length"),
        },
        HERTZ, note=say("it touches on a line; the end of a jaw presses harder"), rounds="up",
    )
    begins = highest / first_yield_pressure(1.0)
    desk.computed(
        "grip.marks.yield", say("Yield strength up to which it marks"), begins, "pressure", "{highest} × 0.6",
        {"highest": (highest, "pressure")}, YIELD, rounds="up",
        note=say("a metal that yields at less begins to give below the surface"),
    )
    shop = case.bench.shop_material
    strength = shop.yield_strength if shop is not None else None
    if shop is None or strength is None or strength.si > begins:
        return
    desk.find(
        "grip-marks", "check",
        say("Hard jaws mark the {surface} surface: on a line they press with {pressure}, and {metal}, which "
            "yields at {strength}, begins to give at {begins}. {strips}.",
            surface=SURFACES[_finished(case)], pressure=pressure_words(highest, system), metal=shop.name,
            strength=strength.with_unit, begins=pressure_words(first_yield_pressure(strength.si), system),
            strips=STRIPS),
        held.grip.where,
    )
