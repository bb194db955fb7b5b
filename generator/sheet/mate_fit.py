"""What the thread is cut to: the middle of its limits, or the size that fits a measured mate as it is wanted.

    Aim          the pitch diameter aimed at, and how far it may be off
    aim_of       decides it and lays it down
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.calc.thread_fit import coated_pitch_change, fit_band
from generator.job.model import Job, Mate
from generator.job.written import Given
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.figure import Quantity
from generator.sheet.threading import Threading
from generator.sheet.wording import fine_words
from generator.si import Length
from generator.threads.registry import write_designation

PRACTICE = later("common practice, no source")
SAME = 1e-9  # m: two sizes closer than this are one
FARTHEST = 0.2  # of the pitch, off the middle of the limits: farther off a 60 degree crest is gone


@dataclass(frozen=True)
class Aim:
    """Pitch diameter aimed at, and between which sizes it is to end (m); before any plating."""

    target: Length
    largest: Length
    smallest: Length


def aim_of(job: Job, threading: Threading, largest: Length, smallest: Length, desk: Desk) -> Aim:
    """The pitch diameter to cut to; `largest` and `smallest` are the limits to cut to (m).

    With a measured mate and the clearance wanted it is the mate's less the clearance (a thread inside: more),
    also outside the standard's limits, and then a question asks whether that is meant.
    """
    mate = job.mate if isinstance(job.mate, Mate) else None
    middle = (largest + smallest) / 2
    if mate is not None and mate.clearance is not None:
        fitted = _fitted(mate, mate.clearance, threading, (largest, smallest), desk)
        if fitted is not None:
            return fitted
    target = desk.computed(
        "thread.target", say("Pitch diameter aimed at"), middle, "length", "({d2 max} + {d2 min}) ÷ 2",
        {"d2 max": (largest, "length"), "d2 min": (smallest, "length")}, PRACTICE,
        note=say("the middle of the limits"), system=threading.system,
    )
    return Aim(target, largest, smallest)


def plating_growth(threading: Threading) -> Length:
    """What plating adds to the pitch diameter of a screw, or takes from a nut's (m); 0 without plating."""
    plating = threading.operation.plating
    if plating is None or threading.profile.square:
        return 0.0
    return coated_pitch_change(plating.si, threading.profile.flanks)


def _fitted(
    mate: Mate, clearance: Given, threading: Threading, limits: tuple[Length, Length], desk: Desk
) -> Aim | None:
    """The aim at a measured mate; None, with a finding, where it cannot be had from what is given."""
    system, inside = threading.system, threading.designation.internal
    size = mate.pitch_diameter
    if size is None:
        desk.find(
            "fit-unmeasured", "check",
            say(
                "The mate is to have {clearance} of play, and its pitch diameter is not given: the thread "
                "aims at the middle of its limits. Measure the mate and write mate: pitch_diameter.",
                clearance=clearance.with_unit,
            ),
            clearance.where, say("What does the mate measure on pitch diameter?"),
        )
        return None
    way, growth = 1 if inside else -1, plating_growth(threading)
    target = size.si + way * (clearance.si + growth)
    middle, tolerance = sum(limits) / 2, limits[0] - limits[1]
    if abs(target - middle) > FARTHEST * threading.pitch:
        desk.find(
            "fit-impossible", "stop",
            say(
                "With {clearance} of play in a mate of {size} the thread would have a pitch diameter of "
                "{target}, {off} off the middle of its limits: more than a fifth of the pitch, which leaves "
                "no sound crest. Measure the mate again.",
                clearance=clearance.with_unit, size=size.with_unit, target=fine_words(target, system),
                off=fine_words(abs(target - middle), system),
            ),
            size.where, say("Was the mate measured right, and is it this thread?"),
        )
        return None
    formula = f"{{mate}} {'+' if inside else '−'} {{clearance}}"
    put: dict[str, tuple[float, Quantity]] = {
        "mate": (size.si, "length"), "clearance": (clearance.si, "fine_length"),
    }
    if growth:
        formula += f" {'+' if inside else '−'} {{plating}}"
        put["plating"] = (growth, "fine_length")
    desk.computed(
        "thread.target", say("Pitch diameter aimed at"), target, "length", formula, put, say("arithmetic"),
        system=system, note=say("to fit this mate as it measures, not the middle of the limits"),
    )
    band = fit_band(tolerance, clearance.si)
    for name, sign in (("max", 1), ("min", -1)):
        desk.computed(
            f"thread.fit.{name}",
            say(
                "Pitch diameter for this mate, max"
            ) if sign > 0 else say("Pitch diameter for this mate, min"),
            target + sign * band / 2,
            "length",
            f"{{aim}} {'+' if sign > 0 else '−'} {{band}} ÷ 2",
            {"aim": (target, "length"), "band": (band, "fine_length")},
            PRACTICE,
            system=system,
            rounds="down" if sign > 0 else "up",
            note=say(
                "band: the clearance wanted, within a quarter and the whole of the standard's tolerance"
            ),
        )
    _check_limits(target, limits, threading, clearance, desk)
    return Aim(target, target + band / 2, target - band / 2)


def _check_limits(
    target: Length, limits: tuple[Length, Length], threading: Threading, clearance: Given, desk: Desk
) -> None:
    """A question, where the size that fits the mate is none that the standard allows."""
    largest, smallest = limits
    system, name = threading.system, write_designation(threading.designation)
    if smallest - SAME <= target <= largest + SAME:
        return
    over = target > largest
    what = (
        say("the largest of {name} before plating", name=name) if over and threading.operation.plating
        else say("the smallest of {name} before plating", name=name) if threading.operation.plating
        else say("the largest of {name}", name=name) if over
        else say("the smallest of {name}", name=name)
    )
    off = fine_words(target - largest if over else smallest - target, system)
    bound = fine_words(largest if over else smallest, system)
    beyond = (
        say("{off} over {what}, {bound}", off=off, what=what, bound=bound) if over
        else say("{off} under {what}, {bound}", off=off, what=what, bound=bound)
    )
    desk.find(
        "fit-outside-limits", "check",
        say(
            "Fitted to its mate the thread aims at {target}, {beyond}. It is then made for this mate: a "
            "gauge refuses it, and another mate may not go on or may hang loose. Mark the part so.",
            target=fine_words(target, system), beyond=beyond,
        ),
        clearance.where, say("Does the customer agree to a thread that fits this mate only?"),
    )
