"""What is decided before the first cut: which slide feeds in, how large the cuts are, how many spring passes.

The job's word goes before the shop's house rules, and those before what is usual; each figure says which.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from generator.calc import passes
from generator.calc.dials import Dial
from generator.calc.form_tool import Side, leading_side, other_side
from generator.calc.infeed_strategy import house_angle, straight_in
from generator.job.lathe import Lathe
from generator.job.lathe_parts import Dial as DialRecord
from generator.job.operations import Thread
from generator.job.shop import House
from generator.job.written import Given
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.figure import Figure, Kind, Quantity, System
from generator.sheet.plans import ThreadPlan
from generator.si import Angle, Length, degree, inch, mm
from generator.tables.materials import MaterialRow

PRACTICE = later("common practice, no source")
HOUSE = "jobs/_shop/house.yml"
CROSS_SLIDE, COMPOUND = later("cross slide"), later("compound")
GUIDE = later("guide of a maker of carbide threading tools (2020)")
DEEPEST_FIRST_CUT = 0.5 * mm    # radial; the guide
SLOWER = 1.5                    # passes with high-speed steel over carbide; common practice: 1.5 to 2
LAST_CUT = {"inch": 0.0015 * inch, "mm": 0.04 * mm}  # radial; common practice: 0.001 to 0.002 in
HARDENING_LAST_CUT = {"inch": 0.002 * inch, "mm": 0.05 * mm}  # the guide: 0.05 mm at least
WORK_HARDENING = ("austenitic stainless",)                  # harden under a rubbing tool: no spring passes
SPRING_PASSES = 2               # common practice: one or two


@dataclass(frozen=True)
class Infeed:
    """The slide that feeds in: its name and dial, how far it is set over, to which end it also goes.

    The name is `CROSS_SLIDE` or `COMPOUND`.
    """

    slide: str
    dial: Dial
    record: DialRecord
    angle: Angle
    towards: Side

    def depth(self, travel: Length) -> Length:
        """Radial depth of a travel."""
        return travel * math.cos(self.angle)


def hardens(material: MaterialRow | None) -> bool:
    """True for a material that hardens under a tool that only rubs."""
    return material is not None and material.group in WORK_HARDENING


def lay_infeed(operation: Thread, lathe: Lathe, house: House, thread: ThreadPlan, desk: Desk) -> Infeed:
    """Straight in on the cross slide, or along the compound set over.

    Raises
    ------
    OutsideRange
        When a turn of the lathe's dial does not hold a whole number of its divisions.
    """
    name, label = "passes.infeed_angle", say("Compound set over from the cross-slide direction")
    asked, flanks, towards = operation.infeed, thread.flanks, feeds_towards(operation, thread)
    across = Infeed(CROSS_SLIDE, slide_dial(lathe.cross_dial), lathe.cross_dial, 0.0, towards)
    if asked.method == "plunge":
        desk.lay(Figure(name, label, 0.0, "angle", Kind.GIVEN, say("the job file: straight in")))
        if asked.angle is not None:
            desk.find(
                "infeed-contradiction", "stop",
                say(
                    "The infeed is given as plunge, and with an angle of {angle}: straight in has none.",
                    angle=asked.angle.with_unit,
                ),
                asked.angle.where, say("Straight in, or along the compound?"),
            )
        return across
    if asked.angle is not None:
        angle = asked.angle.si
        desk.given(name, label, asked.angle, "angle")
    elif "method" not in asked.model_fields_set and straight_in(thread.pitch, flanks):
        note = (
            say("a square thread goes straight in") if flanks.square else say("a fine pitch goes straight in")
        )
        desk.lay(Figure(name, label, 0.0, "angle", Kind.ASSUMED, PRACTICE, note=note))
        return across
    elif house.compound_angle is not None:
        angle = _lay_house_angle(name, label, house.compound_angle, thread, desk)
    else:
        angle = thread.profile.infeed
        note = (
            say("a little under the half angle, so that the trailing flank is shaved too")
            if flanks.symmetrical
            else say("a little under the clearance flank, which is shaved; the load flank is cut clean")
        )
        desk.lay(Figure(name, label, angle, "angle", Kind.ASSUMED, PRACTICE, note=note))
    steepest = thread.half_angle if flanks.symmetrical else flanks.clearance
    if angle > steepest + 1e-9:
        over = (
            say(
                "The compound angle of {angle:g} degrees is over the thread's half angle of {steepest:g}: "
                "the trailing flank would come out in steps. Half a degree under the half angle is usual.",
                angle=angle / degree, steepest=steepest / degree,
            )
            if flanks.symmetrical
            else say(
                "The compound angle of {angle:g} degrees is over the thread's clearance flank of "
                "{steepest:g}: the trailing flank would come out in steps. Half a degree under the clearance "
                "flank is usual.",
                angle=angle / degree, steepest=steepest / degree,
            )
        )
        desk.find(
            "infeed-angle", "stop", over,
            (asked.angle or operation.length).where, say("How far is the compound to be set over?"),
        )
        angle = steepest
    return Infeed(COMPOUND, slide_dial(lathe.compound_dial), lathe.compound_dial, angle, towards)


def _lay_house_angle(name: str, label: str, said: Given, thread: ThreadPlan, desk: Desk) -> Angle:
    """The shop's own angle for 60 degree threads; for other forms as much under the flank (rad)."""
    angle, flanks = said.si, thread.flanks
    if flanks.symmetrical and math.isclose(flanks.included, 60 * degree):
        text = say("{angle} degrees", angle=said.text) if said.bare else said.text
        desk.lay(Figure(name, label, angle, "angle", Kind.SHOP, HOUSE, text=text))
        return angle
    flank = flanks.half_angle if flanks.symmetrical else flanks.clearance
    return desk.computed(
        name, label, house_angle(angle, flanks), "angle", "{flank} − (30° − {house angle})",
        {"flank": (flank, "angle"), "house angle": (angle, "angle")}, HOUSE, kind=Kind.SHOP,
        note=say("the shop's angle is for 60 degree threads; this is as much under the flank"),
    )


def load_faces(operation: Thread) -> Side:
    """The end of the lathe that the load flanks look at; the tailstock where nobody said."""
    return "headstock" if operation.load_flank == "chuck" else "tailstock"


def feeds_towards(operation: Thread, thread: ThreadPlan) -> Side:
    """The end that the tool also goes towards as it is fed in: that of the flank which is cut, not shaved."""
    if thread.flanks.symmetrical:
        return leading_side(thread.designation.hand)
    return other_side(load_faces(operation))


def feeding_dial(lathe: Lathe, slide: str) -> Dial:
    """The dial of the slide that feeds a thread in, the compound or the cross slide."""
    return slide_dial(lathe.compound_dial if slide == "compound" else lathe.cross_dial)


def slide_dial(record: DialRecord) -> Dial:
    """The dial of a slide, from the lathe's record."""
    return Dial(record.division.si, record.turn.si, record.reads)


def lay_cuts(
    operation: Thread, house: House, material: MaterialRow | None, thread: ThreadPlan, system: System,
    desk: Desk,
) -> tuple[Length, Length]:
    """Largest first cut and smallest cut, radial."""
    label = say("First cut, radial, not over")
    first = _lay_choice("passes.first_cut", label, operation.first_cut, house.first_cut, system, desk)
    if first is None:
        first = _lay_usual_first_cut(label, thread, system, desk)
    label = say("Smallest cut, radial")
    least = _lay_choice("passes.last_cut", label, operation.last_cut, house.last_cut, system, desk)
    if least is None:
        hard = hardens(material)
        least = (HARDENING_LAST_CUT if hard else LAST_CUT)[system]
        note = say("a lighter cut rubs and hardens this material") if hard else say("a lighter cut rubs")
        desk.lay(Figure("passes.last_cut", label, least, "length", Kind.ASSUMED, GUIDE if hard else PRACTICE,
                        note=note, system=system))
    if least > first * (1 + 1e-9):
        if operation.first_cut is None and operation.last_cut is None and house.first_cut is None:
            return first, first
        desk.find(
            "cuts-contradict", "stop",
            say(
                "The smallest cut is larger than the first cut may be: look at first_cut and last_cut in "
                "the job and in the house rules."
            ),
            (operation.last_cut or operation.first_cut or operation.length).where,
            say("How much is the first cut to take, and how little the last?"),
        )
        least = first
    return first, least


def _lay_choice(
    name: str, label: str, given: Given | None, house: Given | None, system: System, desk: Desk
) -> Length | None:
    """The job's word, else the shop's; None when neither says."""
    if given is not None:
        return desk.given(name, label, given, "length")
    if house is not None:
        text = house.with_unit
        desk.lay(Figure(name, label, house.si, "length", Kind.SHOP, HOUSE, text=text, system=system))
        return house.si
    return None


def usual_count(thread: ThreadPlan) -> int:
    """Passes that high-speed steel usually takes for this pitch."""
    return round(SLOWER * sum(passes.usual_passes(thread.pitch)) / 2)


def usual_first_cut(thread: ThreadPlan) -> Length:
    """The first cut that makes about that many passes."""
    return thread.depth / math.sqrt(usual_count(thread))


def _lay_usual_first_cut(label: str, thread: ThreadPlan, system: System, desk: Desk) -> Length:
    """A first cut that makes about the usual number of passes, up to half a millimetre."""
    wanted = usual_first_cut(thread)
    formula = "{depth} ÷ √{usual passes}"
    put: dict[str, tuple[float, Quantity]] = {
        "depth": (thread.depth, "length"), "usual passes": (usual_count(thread), "count"),
    }
    if wanted > DEEPEST_FIRST_CUT:
        formula, put = "{deepest first cut}", {"deepest first cut": (DEEPEST_FIRST_CUT, "length")}
    return desk.computed(
        "passes.first_cut",
        label,
        min(wanted, DEEPEST_FIRST_CUT),
        "length",
        formula,
        put,
        say(
            "{guide}: passes by pitch, first cut up to 0.5 mm; half as many passes again for high-speed "
            "steel: {practice}",
            guide=GUIDE,
            practice=PRACTICE,
        ),
        kind=Kind.ASSUMED,
        system=system,
        rounds="down",
        note=say("nobody said"),
    )


def lay_springs(
    operation: Thread, house: House, material: MaterialRow | None, desk: Desk
) -> int:
    """Spring passes; none on a material that hardens under a rubbing tool, unless the job asks for them."""
    name, label = "passes.spring", say("Spring passes")
    if operation.spring_passes is not None:
        desk.lay(Figure(name, label, operation.spring_passes, "count", Kind.GIVEN, say("the job file"),
                        where=operation.length.where))
        return operation.spring_passes
    if hardens(material):
        desk.lay(
            Figure(
                name,
                label,
                0,
                "count",
                Kind.ASSUMED,
                GUIDE,
                note=say(
                    "the material hardens under a rubbing tool; give spring_passes in the job to have some"
                ),
            )
        )
        return 0
    if house.spring_passes is not None:
        desk.lay(Figure(name, label, house.spring_passes, "count", Kind.SHOP, HOUSE))
        return house.spring_passes
    desk.lay(
        Figure(name, label, SPRING_PASSES, "count", Kind.ASSUMED, PRACTICE, note=say("one or two are usual"))
    )
    return SPRING_PASSES
