"""Safety notes that follow from this very setup.

Each rule is one function: it looks at the setup and returns a Caution or None. `cautions_section` runs them
all, the worst first. Signal words follow ANSI Z535.6: DANGER and WARNING for people who could be killed or
badly hurt, CAUTION for lesser injury, NOTICE for damage only. Nothing here replaces local codes, the lathe
maker's manual or licensed practice, and the sheet says so.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from generator.job.lathe import Lathe
from generator.job.model import Duty, Job
from generator.job.shop import House, Material
from generator.sheet.layout import Layout
from generator.sheet.model import Caution
from generator.sheet.plans import HoldingPlan, LathePlan, ThreadPlan
from generator.tables.materials import MaterialRow

PRACTICE = "common practice, no source"
ORDER = {"DANGER": 0, "WARNING": 1, "CAUTION": 2, "NOTICE": 3}
THIN_WALL = 0.1  # wall over outside diameter; common practice, no source
MANUAL_LIFT_LOW = 16.0  # kg, HSE INDG143 guideline filter: elbow height, close to the body


@dataclass(frozen=True)
class Setup:
    """What the rules look at."""

    job: Job
    lathe: Lathe
    house: House
    material: MaterialRow | None
    shop_material: Material | None
    layout: Layout
    thread: ThreadPlan | None
    levers: LathePlan | None
    holding: HoldingPlan

    @property
    def duty(self) -> Duty | None:
        """The duty when the customer said one."""
        return self.job.duty if isinstance(self.job.duty, Duty) else None

    @property
    def galls(self) -> bool:
        """True when the material is known to gall."""
        if self.shop_material is not None and self.shop_material.galls is not None:
            return self.shop_material.galls
        return bool(self.material and self.material.galls)


def cautions_section(setup: Setup) -> tuple[Caution, ...]:
    """All cautions of this setup, worst signal word first, otherwise in the order of the rules."""
    found = [caution for rule in RULES if (caution := rule(setup)) is not None]
    return tuple(sorted(found, key=lambda caution: ORDER[caution.signal]))


def bar_behind_spindle(setup: Setup) -> Caution | None:
    """Bar standing out of the back of the headstock."""
    behind = setup.job.holding.behind_spindle
    if behind is None:
        return None
    return Caution(
        "bar-behind-spindle",
        "DANGER",
        "Support and guard the bar behind the headstock over its whole length and keep people out of its "
        "way. Start at the lowest speed. An unsupported bar bends over in one moment and strikes.",
        f"{behind.with_unit} of bar stands out of the back of the spindle.",
        "Washington State FACE report 10WA01001; WorkSafe Victoria, Safe use of metal turning lathes",
    )


def emery_and_file(setup: Setup) -> Caution | None:
    """Burrs on a fresh thread invite emery cloth and the file; so does polishing."""
    polished = _has(setup, "polish")
    if setup.thread is None and not polished:
        return None
    return Caution(
        "emery-file",
        "WARNING",
        "Never hold emery cloth by hand against turning work, and wear no gloves: use a backing board or a "
        "holder in the tool post. File left-handed, with a handle on the file and arms clear of the jaws, or "
        "stop and deburr by hand.",
        "The work is polished on the lathe." if polished else "A fresh thread has burrs on its crests.",
        "HSE EIS2 and engineering FAQ; MCA Safety Bulletin 21 (2021); SafeWork NSW",
    )


def parting_off(setup: Setup) -> Caution | None:
    """A part comes off while the spindle turns."""
    if not _has(setup, "part_off"):
        return None
    steady = setup.job.holding.steady is not None
    return Caution(
        "parting-off",
        "WARNING",
        "Spindle slow, blade square and on center, short stick-out, oil; wood on the ways, and never a hand "
        "under the part. A long or heavy part is not parted through: stop, take it in a sling that does not "
        "pull, and saw the last of it with the spindle stopped.",
        "A part is cut off; " + (
            "the steady rest carries it, but does not keep it from jamming the blade." if steady else
            "nothing holds it when it comes off."
        ),
        "common practice, no source",
    )


def _has(setup: Setup, name: str) -> bool:
    return any(operation.name == name for operation in setup.job.operations)


def steady_rest(setup: Setup) -> Caution | None:
    """A steady rest carries the work."""
    if setup.job.holding.steady is None:
        return None
    return Caution(
        "steady-rest",
        "WARNING",
        "Set the fingers with the spindle stopped: lower ones to touch, top shut and locked, then the top "
        "finger. Work turns freely without shake. Oil the fingers, and look again after the first cut: a "
        "warm journal grips and gets worse by itself. Off the spindle axis the work bends every turn and "
        "walks out of the chuck.",
        "The work runs in a steady rest.",
        "Jones, Turning and Boring (1914); US Army TC 9-524 ch. 7; workshop texts on steady rests",
    )


def nothing_holds_back(setup: Setup) -> Caution | None:
    """Steady without center or hold-back."""
    holding = setup.job.holding
    if holding.steady is None or holding.center is not None or holding.hold_back:
        return None
    return Caution(
        "no-hold-back",
        "WARNING",
        "Nothing but the jaws keeps this work from walking towards the tailstock. Put on a hold-back, or "
        "thrust the cut towards the headstock, and mark the work at the jaws to see it move.",
        "Steady rest, and no center at the tailstock end.",
        "Jones, Turning and Boring (1914), sec. 16",
    )


def dead_center(setup: Setup) -> Caution | None:
    """The work runs on a center that stands still."""
    if setup.job.holding.center != "dead":
        return None
    return Caution(
        "dead-center",
        "WARNING",
        "Grease the center and its hole. The work grows as it warms and presses on the center: ease it and "
        "grease it again after each heavy cut, and stop at once when it squeals or smokes. A center that "
        "burns off lets the work go.",
        "The center stands still while the work turns on it.",
        "US Army TC 9-524 ch. 7 and Jones, Turning and Boring (1914), both from memory; common practice",
    )


def long_stock(setup: Setup) -> Caution | None:
    """Stick-out over three diameters."""
    at_jaws = setup.layout.span_at(0.0)
    if at_jaws is None or setup.layout.stick_out <= 3 * at_jaws.od_start:
        return None
    return Caution(
        "long-stock",
        "WARNING",
        "Long work whips. Do not start the spindle before the support is set and locked; keep to the speed "
        "on this sheet.",
        f"The work stands out {setup.layout.stick_out / at_jaws.od_start:.1f} times its diameter from the "
        "jaws.",
        "machine-safety texts (support beyond three diameters)",
    )


def people_depend(setup: Setup) -> Caution | None:
    """People stand on or under the part."""
    if setup.duty is None or not setup.duty.people:
        return None
    return Caution(
        "people",
        "WARNING",
        "People depend on this part. Work to the drawing or to what was agreed in writing; the owner has "
        "strength, material and fitness judged by a competent, where required licensed, person before it "
        "goes back into use.",
        f"The customer said: {setup.duty.said}",
        PRACTICE,
    )


def lifting_part(setup: Setup) -> Caution | None:
    """The part is used for lifting."""
    if setup.duty is None or not setup.duty.lifting:
        return None
    return Caution(
        "lifting-part",
        "WARNING",
        "A lifting part is examined thoroughly after repair, by someone competent and independent of the "
        "repair, before use.",
        f"The customer said: {setup.duty.said}",
        "LOLER 1998 reg. 9 (United Kingdom); local rules elsewhere",
    )


def brake_part(setup: Setup) -> Caution | None:
    """The part belongs to brakes."""
    if setup.duty is None or not setup.duty.brakes:
        return None
    return Caution(
        "brakes",
        "WARNING",
        "Brakes depend on this part. No hand-over before the owner's inspection and brake test; local codes "
        "decide who may do it.",
        f"The customer said: {setup.duty.said}",
        PRACTICE,
    )


def pressure_part(setup: Setup) -> Caution | None:
    """The part holds pressure."""
    if setup.duty is None or setup.duty.pressure is None:
        return None
    return Caution(
        "pressure",
        "WARNING",
        "A part under pressure is repaired only under the owner's procedure and the code that applies. "
        "Depressurise, purge and check for residues and trapped pressure before cutting a used body. This "
        "sheet does not say it is safe for a pressure.",
        f"Pressure {setup.duty.pressure.with_unit}; the customer said: {setup.duty.said}",
        "PSSR 2000 (United Kingdom); ASME BPVC and B31 elsewhere",
    )


def lift_the_work(setup: Setup) -> Caution | None:
    """Heavy work."""
    weight = setup.holding.weight_kg
    if weight is None or weight < MANUAL_LIFT_LOW:
        return None
    return Caution(
        "lift",
        "WARNING" if weight >= 25 else "CAUTION",
        "Lift with a hoist and sling or with help, and never over the reach of the bed by arm alone. Keep "
        "the sling on until jaws and support hold the work. Chucks are heavy too: use a cradle board.",
        f"The work weighs about {weight:.0f} kg ({weight / 0.45359237:.0f} lb).",
        "HSE INDG143 guideline filter (25 kg / 16 kg close in, much less reaching out); not a legal limit",
    )


def interrupted_cut(setup: Setup) -> Caution | None:
    """A cross hole in or near the thread."""
    thread = setup.thread
    if thread is None:
        return None
    for hole in setup.job.cross_holes:
        x = setup.layout.stick_out - hole.from_end.si
        if thread.end - hole.diameter.si <= x <= thread.start + hole.diameter.si:
            return Caution(
                "cross-hole",
                "CAUTION",
                "Drill the hole after threading, or plug it. Over an open hole the cut hammers: light cuts, "
                "firm grip, look at the center and the jaws between passes, and deburr the hole's edges "
                "before the mate goes on.",
                f"A {hole.diameter.with_unit} cross hole lies in the threaded length, "
                f"{hole.from_end.with_unit} from the end.",
                PRACTICE,
            )
    return None


def screwed_nose(setup: Setup) -> Caution | None:
    """A screwed spindle nose with the half nuts kept closed."""
    if setup.lathe.spindle.nose != "screwed" or setup.levers is None:
        return None
    if not setup.levers.keep_half_nuts_closed:
        return None
    return Caution(
        "screwed-nose",
        "WARNING",
        "The half nuts stay closed, so the spindle is reversed to bring the carriage back: a chuck screwed "
        "on the nose can unscrew. Let the spindle stop first, reverse gently at the lowest speed, withdraw "
        "the tool, or use a chuck lock.",
        f"{setup.lathe.name} has a screwed spindle nose.",
        PRACTICE,
    )


def left_hand(setup: Setup) -> Caution | None:
    """A left-hand thread starts beside the chuck end."""
    if setup.thread is None or setup.thread.designation.hand != "left":
        return None
    return Caution(
        "left-hand",
        "NOTICE",
        "The cut starts in the relief and runs towards the tailstock. Set the feed direction and try it with "
        "the tool clear; withdraw before the center.",
        "The thread is left-hand.",
        "Fox Valley Technical College, threading course; common practice",
    )


def galling(setup: Setup) -> Caution | None:
    """The material galls."""
    if setup.thread is None or not setup.galls:
        return None
    return Caution(
        "galling",
        "NOTICE",
        "This material picks up and seizes. Clean and lubricate both threads for every trial fit, turn "
        "slowly by hand, and back off at the first bind.",
        f"Material: {setup.job.material}.",
        "trade texts on galling of stainless, aluminium and titanium threads",
    )


def thin_wall(setup: Setup) -> Caution | None:
    """A thin wall in the jaws."""
    at_jaws = setup.layout.span_at(0.0)
    if at_jaws is None or not at_jaws.bore:
        return None
    wall = (at_jaws.od_start - at_jaws.bore) / 2
    if wall / at_jaws.od_start > THIN_WALL:
        return None
    return Caution(
        "thin-wall",
        "CAUTION",
        "Grip lightly with soft jaws bored to the work, or plug the bore: hard jaws make it three-lobed, and "
        "a crushed wall lets go.",
        f"The wall in the jaws is {wall * 1000:.1f} mm ({wall / 0.0254:.3f} in).",
        "Roark, ring under equal radial loads; common practice",
    )


def unknown_material(setup: Setup) -> Caution | None:
    """Nobody knows what the material is."""
    if setup.material is not None:
        return None
    return Caution(
        "unknown-material",
        "WARNING",
        "Find out what it is before cutting: chips of magnesium and titanium burn, some bronzes and platings "
        "make poisonous dust, hardened work breaks tools. Mark, look, magnet, file, spark, in that order; "
        "the magnet alone proves nothing.",
        "The material is unknown.",
        "US Army course EN0562; US Navy training manual on metal identification",
    )


def reversed_jaws(setup: Setup) -> Caution | None:
    """Jaws standing out beyond the chuck."""
    chuck = setup.job.holding.chuck
    if chuck is None or (chuck.jaws != 4 and not chuck.reversed):
        return None
    return Caution(
        "projecting-jaws",
        "CAUTION",
        "Jaws set by hand can stand out past the chuck's rim. Turn the chuck once by hand, check that all "
        "clears carriage and compound, and guard it where you can reach it.",
        "Independent or reversed jaws.",
        "OSHA letter of interpretation, 26 January 1979, citing ANSI B11.6",
    )


def chuck_key(setup: Setup) -> Caution | None:
    """Always: the chuck key."""
    return Caution(
        "chuck-key",
        "WARNING",
        "The hand stays on the chuck key until the key is out of the chuck. Sleeves, rings, gloves and long "
        "hair away from what turns.",
        "The work is held in a chuck.",
        "machine-safety texts; WorkSafe Victoria, Safe use of metal turning lathes",
    )


def chips_and_measuring(setup: Setup) -> Caution | None:
    """Always: chips and measuring."""
    return Caution(
        "chips",
        "CAUTION",
        "Eyes protected. Chips come off with a hook or brush, spindle stopped, never by hand. Stop the "
        "spindle and take the hand off the lever before measuring, setting the wires or trying the mate.",
        "Passes, wires and test fits are done beside the chuck.",
        "NAVEDTRA 14076 ch. 9; OSHA 29 CFR 1910.212",
    )


def work_in_a_bore(setup: Setup) -> Caution | None:
    """An internal thread: chips, fingers and cloth in a turning bore."""
    if setup.thread is None or not setup.thread.internal:
        return None
    return Caution(
        "work-in-a-bore",
        "WARNING",
        "Never put a finger, a cloth or emery into a turning bore: it is wound in. Chips pack in the bore: "
        "stop the spindle, run the bar out, and clear them with a brush or a hook. Gauge and try the mate "
        "with the spindle stopped and the bar clear.",
        "The thread is cut inside a bore.",
        "HSE EIS2 and engineering FAQ; NAVEDTRA 14076 ch. 9",
    )


RULES: tuple[Callable[[Setup], Caution | None], ...] = (
    bar_behind_spindle,
    chuck_key,
    steady_rest,
    nothing_holds_back,
    dead_center,
    long_stock,
    emery_and_file,
    parting_off,
    work_in_a_bore,
    unknown_material,
    screwed_nose,
    lift_the_work,
    people_depend,
    brake_part,
    lifting_part,
    pressure_part,
    interrupted_cut,
    thin_wall,
    reversed_jaws,
    chips_and_measuring,
    galling,
    left_hand,
)
