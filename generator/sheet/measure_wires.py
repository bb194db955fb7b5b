"""Other ways with wires: how three are laid, two or one where the thread is too short, and on a taper.

`lay_wire_ways` asks for the sizes over three wires, which lie with the thread (`wire_sizes`).
"""

from __future__ import annotations

import math

from generator.calc import wire_choice, wires_few
from generator.calc.taper import half_angle
from generator.job.shop import Tools
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.figure import Figure, Kind
from generator.sheet.plans import ThreadPlan
from generator.sheet.wire_sizes import SET_SOURCE
from generator.sheet.wire_words import over_taper_formula
from generator.sheet.wording import fine_words, length_words
from generator.si import Length, mm

PRACTICE = later("common practice, no source")
GEOMETRY = later("geometry of the wires; common practice")
ANVIL = 6.3 * mm   # across a micrometer's faces: common practice, no source
ENDS = 2           # pitches of full thread beside the outer wires: common practice, no source
GAUGE_PLANES = ("gauge.l1", "gauge.length")
FARTHEST = 1.5     # pitches from the end of the thread that the single wire keeps: common practice, no source


def lay_wire_ways(thread: ThreadPlan, tools: Tools, desk: Desk) -> None:
    """Lay how the wires lie, and sizes over two wires and over one; over three on an external taper."""
    if thread.wire is not None:
        _lay_three(thread, desk)
        _lay_two_and_one(thread, thread.wire, desk)
    elif thread.profile.taper and not (thread.internal or thread.profile.square):
        _lay_taper(thread, tools, desk)


def _lay_three(thread: ThreadPlan, desk: Desk) -> None:
    """Where the three wires lie; that the anvil does not reach over two, that the thread is too short."""
    even, system = thread.designation.starts % 2 == 0, thread.system
    apart = (2 if even else 1) * thread.pitch
    if even:
        laid = say("two on one side with one groove between them, the third straight across from that groove")
    else:
        laid = say("two in neighboring grooves, the third across from the ridge between them")
    notes = [say("then the micrometer stands square by itself")]
    if even:
        notes = [say("with {starts} starts groove faces groove", starts=thread.designation.starts), *notes]
    if apart > ANVIL:
        notes.append(
            say(
                "the two lie {apart} apart: where the anvil does not reach over both, lay a gauge block on "
                "them and take it off the reading",
                apart=fine_words(apart, system),
            )
        )
    if abs(thread.start - thread.end) < apart + ENDS * thread.pitch:
        notes.append(say("this thread is too short for three: take two, or one"))
    desk.lay(
        Figure(
            "measure.three_wires",
            say("Three wires"),
            laid,
            "text",
            Kind.COMPUTED,
            PRACTICE,
            note="; ".join(notes),
        )
    )


def _lay_two_and_one(thread: ThreadPlan, wire: Length, desk: Desk) -> None:
    """Over two wires, one each side, and over one wire and the crests opposite, for both limits."""
    pitch, starts, system = thread.pitch, thread.designation.starts, thread.system
    limits = _limits(desk)
    rock = say("one on each side, half a pitch apart: rock the micrometer, the largest reading counts")
    for end, rounds, three in limits:
        desk.computed(
            f"measure.two_wires.{end}", say("Over two wires, {end}", end=end),
            wires_few.over_two_wires(three, wire, pitch, starts), "length",
            "{W} + √(({M} − {W})² + ({P} ÷ 2)²)" if starts % 2 else "{M}",
            {
                "M": (three, "length"),
                **({"W": (wire, "fine_length"), "P": (pitch, "fine_length")} if starts % 2 else {}),
            },
            GEOMETRY, rounds=rounds, system=system,
            note=rock if starts % 2 else say("one on each side, straight across: as over three"),
        )
    crest = say(
        "measure the crests where the wire lies; here they are {blank}",
        blank=length_words(thread.blank, system),
    )
    for end, rounds, three in limits:
        desk.computed(
            f"measure.one_wire.{end}", say("Over one wire and the crests across, {end}", end=end),
            wires_few.over_one_wire(three, thread.blank), "length", "({M} + {d}) ÷ 2",
            {"M": (three, "length"), "d": (thread.blank, "length")}, GEOMETRY, rounds=rounds, system=system,
            note=say("{crest}. Half of any runout is in it", crest=crest),
        )


def _limits(desk: Desk) -> list[tuple[str, str, Length]]:
    """Ends, safe sides and sizes over three wires (m); one only where the thread has one limit."""
    ends: list[tuple[str, str, Length]] = []
    for end, rounds in (("max", "down"), ("min", "up")):
        size = desk.figures[f"thread.over_wires.{end}"].value
        assert isinstance(size, float)
        if not ends or size != ends[0][2]:
            ends.append((end, rounds, size))
    return ends


def _lay_taper(thread: ThreadPlan, tools: Tools, desk: Desk) -> None:
    """Over three wires with the single one at the gauge plane, or as near to it as the thread goes."""
    pitch, taper, flanks, system = thread.pitch, thread.profile.taper, thread.flanks, thread.system
    best = wire_choice.best_wire(pitch, flanks)
    usable = thread.profile.usable_wires(pitch, (thread.target - thread.root_diameter) / 2)
    own = wire_choice.choose_wire(best, [one.si for one in tools.wires], usable)
    wire = wire_choice.fitting(best, usable) if own is None else own
    desk.lay(
        Figure(
            "measure.taper_wires.size",
            say("Wire for the taper thread"),
            wire,
            "fine_length",
            Kind.ASSUMED if own is None else Kind.SHOP,
            say("no wire of the shop fits this pitch; one that does") if own is None else SET_SOURCE,
            system=system,
        )
    )
    at, where = _plane(thread)
    desk.lay(Figure(
        "measure.taper_wires.at", say("The single wire's groove, from the end"), at, "length", Kind.COMPUTED,
        where, note=say("the other two lie beside it on the other side; the micrometer follows the taper"),
        system=system,
    ))
    further = taper * pitch * math.cos(half_angle(taper))
    for end, diameter, rounds in (
        ("max", thread.pitch_diameter_max, "down"), ("min", thread.pitch_diameter_min, "up")
    ):
        local = diameter + taper * at
        desk.computed(
            f"measure.taper_wires.{end}", say("Over three wires there, {end}", end=end),
            wires_few.over_wires_taper(local, wire, pitch, flanks, taper), "length",
            over_taper_formula(flanks, taper),
            {
                "E": (diameter, "length"), "taper": (taper, "ratio"), "x": (at, "length"),
                "W": (wire, "fine_length"), "P": (pitch, "fine_length"),
            },
            wires_few.TAPER_SOURCE, rounds=rounds, system=system,
            note=say(
                "each groove further from the end reads {further} more; the taper gauge decides",
                further=fine_words(further, system),
            ),
        )


def _plane(thread: ThreadPlan) -> tuple[Length, str]:
    """How far from the small end the single wire lies (m), and why there."""
    unit, length = thread.designation.unit_si, abs(thread.start - thread.end)
    farthest = length - FARTHEST * thread.pitch
    for line in thread.limits.lines:
        if line.name in GAUGE_PLANES and 0 < line.value * unit <= farthest:
            return line.value * unit, say("{source}: the gauge plane", source=thread.limits.source)
    return length / 2, say("the middle of the thread")
