"""Safety notes that follow from this very setup.

Each rule is one function: it looks at the setup and returns a Caution or None; those of the holding are in
`cautions_holding`. `cautions_section` runs them all, the worst first. Signal words follow ANSI Z535.6: DANGER
and WARNING for people who could be killed or badly hurt, CAUTION for lesser injury, NOTICE for damage only.
Nothing here replaces local codes, the lathe maker's manual or licensed practice, and the sheet says so.
"""

from __future__ import annotations

from collections.abc import Callable

from generator.language.say import say
from generator.sheet.caution_setup import PRACTICE, Setup
from generator.sheet.cautions_holding import (
    bar_behind_spindle,
    between_centers,
    collet,
    dead_center,
    dog_and_plate,
    faceplate,
    inside_grip,
    interrupted_cut,
    long_stock,
    nothing_holds_back,
    out_of_balance,
    reversed_jaws,
    screwed_nose,
    steady_rest,
    thin_wall,
    what_turns,
)
from generator.sheet.head import HEAD_WORDS
from generator.sheet.lines import Caution
from generator.sheet.wording import mass_words

__all__ = ["Setup", "cautions_section"]

ORDER = {"DANGER": 0, "WARNING": 1, "CAUTION": 2, "NOTICE": 3}
MANUAL_LIFT_LOW = 16.0  # kg, HSE INDG143 guideline filter: elbow height, close to the body


def cautions_section(setup: Setup) -> tuple[Caution, ...]:
    """All cautions of this setup, worst signal word first, otherwise in the order of the rules."""
    found = [caution for rule in RULES if (caution := rule(setup)) is not None]
    return tuple(sorted(found, key=lambda caution: ORDER[caution.signal]))


def emery_and_file(setup: Setup) -> Caution | None:
    """Burrs on a fresh thread invite emery cloth and the file; so does polishing."""
    polished = _has(setup, "polish")
    if setup.thread is None and not polished:
        return None
    return Caution(
        "emery-file",
        "WARNING",
        say(
            "Never hold emery cloth by hand against turning work, and wear no gloves: use a backing board or "
            "a holder in the tool post. File left-handed, with a handle on the file and arms clear of the "
            "jaws, or stop and deburr by hand."
        ),
        say("The work is polished on the lathe.")
        if polished
        else say("A fresh thread has burrs on its crests."),
        say("HSE EIS2 and engineering FAQ; MCA Safety Bulletin 21 (2021); SafeWork NSW"),
    )


def parting_off(setup: Setup) -> Caution | None:
    """A part comes off while the spindle turns."""
    if not _has(setup, "part_off"):
        return None
    steady = setup.job.holding.steady is not None
    return Caution(
        "parting-off",
        "WARNING",
        say(
            "Spindle slow, blade square and on center, short stick-out, oil; wood on the ways, and never a "
            "hand under the part. A long or heavy part is not parted through: stop, take it in a sling that "
            "does not pull, and saw the last of it with the spindle stopped."
        ),
        say("A part is cut off; the steady rest carries it, but does not keep it from jamming the blade.")
        if steady
        else say("A part is cut off; nothing holds it when it comes off."),
        PRACTICE,
    )


def _has(setup: Setup, name: str) -> bool:
    return any(operation.name == name for operation in setup.job.operations)


def people_depend(setup: Setup) -> Caution | None:
    """People stand on or under the part."""
    if setup.duty is None or not setup.duty.people:
        return None
    return Caution(
        "people",
        "WARNING",
        say(
            "People depend on this part. Work to the drawing or to what was agreed in writing; the owner has "
            "strength, material and fitness judged by a competent, where required licensed, person before it "
            "goes back into use."
        ),
        say("The customer said: {said}", said=setup.duty.said),
        PRACTICE,
    )


def lifting_part(setup: Setup) -> Caution | None:
    """The part is used for lifting."""
    if setup.duty is None or not setup.duty.lifting:
        return None
    return Caution(
        "lifting-part",
        "WARNING",
        say(
            "A lifting part is examined thoroughly after repair, by someone competent and independent of the "
            "repair, before use."
        ),
        say("The customer said: {said}", said=setup.duty.said),
        say("LOLER 1998 reg. 9 (United Kingdom); local rules elsewhere"),
    )


def brake_part(setup: Setup) -> Caution | None:
    """The part belongs to brakes."""
    if setup.duty is None or not setup.duty.brakes:
        return None
    return Caution(
        "brakes",
        "WARNING",
        say(
            "Brakes depend on this part. No hand-over before the owner's inspection and brake test; local "
            "codes decide who may do it."
        ),
        say("The customer said: {said}", said=setup.duty.said),
        PRACTICE,
    )


def pressure_part(setup: Setup) -> Caution | None:
    """The part holds pressure."""
    if setup.duty is None or setup.duty.pressure is None:
        return None
    return Caution(
        "pressure",
        "WARNING",
        say(
            "A part under pressure is repaired only under the owner's procedure and the code that applies. "
            "Depressurize, purge and check for residues and trapped pressure before cutting a used body. "
            "This sheet does not say it is safe for a pressure."
        ),
        say(
            "Pressure {pressure}; the customer said: {said}",
            pressure=setup.duty.pressure.with_unit,
            said=setup.duty.said,
        ),
        say("PSSR 2000 (United Kingdom); ASME BPVC and B31 elsewhere"),
    )


def lift_the_work(setup: Setup) -> Caution | None:
    """Heavy work."""
    weight = setup.lifted_kg
    if weight is None or weight < MANUAL_LIFT_LOW:
        return None
    return Caution(
        "lift",
        "WARNING" if weight >= 25 else "CAUTION",
        say(
            "Lift with a hoist and sling or with help, and never over the reach of the bed by arm alone. "
            "Keep the sling on until the work is held and supported. Chucks are heavy too: use a cradle "
            "board."
        ),
        say(
            "The work weighs about {weight} as it is lifted in.",
            weight=mass_words(weight, setup.system),
        ),
        say(
            "HSE INDG143 guideline filter (25 kg / 16 kg close in, much less reaching out); not a legal limit"
        ),
    )


def left_hand(setup: Setup) -> Caution | None:
    """A left-hand thread starts beside the chuck end."""
    if setup.thread is None or setup.thread.designation.hand != "left":
        return None
    return Caution(
        "left-hand",
        "NOTICE",
        say(
            "The cut starts in the relief and runs towards the tailstock. Set the feed direction and try it "
            "with the tool clear; withdraw before the center."
        ),
        say("The thread is left-hand."),
        say("Fox Valley Technical College, threading course; common practice"),
    )


def galling(setup: Setup) -> Caution | None:
    """The material galls."""
    if setup.thread is None or not setup.galls:
        return None
    return Caution(
        "galling",
        "NOTICE",
        say(
            "This material picks up and seizes. Clean and lubricate both threads for every trial fit, turn "
            "slowly by hand, and back off at the first bind."
        ),
        say("Material: {material}.", material=setup.job.material),
        say("trade texts on galling of stainless, aluminum and titanium threads"),
    )


def unknown_material(setup: Setup) -> Caution | None:
    """Nobody knows what the material is."""
    if setup.material is not None:
        return None
    return Caution(
        "unknown-material",
        "WARNING",
        say(
            "Find out what it is before cutting: chips of magnesium and titanium burn, some bronzes and "
            "platings make poisonous dust, hardened work breaks tools. Mark, look, magnet, file, spark, in "
            "that order; the magnet alone proves nothing."
        ),
        say("The material is unknown."),
        say("US Army course EN0562; US Navy training manual on metal identification"),
    )


def chips_and_measuring(setup: Setup) -> Caution | None:
    """Always: chips and measuring."""
    return Caution(
        "chips",
        "CAUTION",
        say(
            "Wear eye protection. Chips come off with a hook or brush, spindle stopped, never by hand. Stop "
            "the spindle and take the hand off the lever before measuring, setting the wires or trying the "
            "mate."
        ),
        say(
            "Passes, wires and test fits are done beside the {head}.",
            head=HEAD_WORDS[setup.job.holding.held.kind],
        ),
        "NAVEDTRA 14076 ch. 9; OSHA 29 CFR 1910.212",
    )


def work_in_a_bore(setup: Setup) -> Caution | None:
    """An internal thread: chips, fingers and cloth in a turning bore."""
    if setup.thread is None or not setup.thread.internal:
        return None
    return Caution(
        "work-in-a-bore",
        "WARNING",
        say(
            "Never put a finger, a cloth or emery into a turning bore: it is wound in. Chips pack in the "
            "bore: stop the spindle, run the bar out, and clear them with a brush or a hook. Gauge and try "
            "the mate with the spindle stopped and the bar clear."
        ),
        say("The thread is cut inside a bore."),
        say("HSE EIS2 and engineering FAQ; NAVEDTRA 14076 ch. 9"),
    )


RULES: tuple[Callable[[Setup], Caution | None], ...] = (
    bar_behind_spindle,
    what_turns,
    dog_and_plate,
    faceplate,
    out_of_balance,
    between_centers,
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
    inside_grip,
    collet,
    reversed_jaws,
    chips_and_measuring,
    galling,
    left_hand,
)
