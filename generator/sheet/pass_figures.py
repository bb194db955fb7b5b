"""The figures of the passes: the way in, the count, sizes to expect, force and power."""

from __future__ import annotations

import math

from generator.calc import thread_form, wires
from generator.calc.cutting import cutting_power
from generator.job.lathe import Lathe
from generator.job.operations import Thread
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.figure import Quantity, System
from generator.sheet.infeed import PRACTICE, Infeed, usual_count, usual_first_cut
from generator.sheet.lines import PassLine
from generator.sheet.plans import ThreadPlan
from generator.sheet.way_in import PARTS, Way
from generator.sheet.wire_words import over_wires_formula, wires_source
from generator.sheet.wording import length_words
from generator.si import Length, hp, kW
from generator.tables.materials import MaterialRow

JONES = later("geometry; Jones, Turning and Boring (1914), on the compound rest")
KIENZLE = later("Kienzle (1952), DIN 6584; kc1.1 and mc")
DRIVE = 0.75  # share of the motor's power that reaches the spindle; common practice 0.7 to 0.8
MANY = 2      # times the usual number of passes is worth a word


def lay_way(way: Way, infeed: Infeed, thread: ThreadPlan, system: System, desk: Desk) -> None:
    """Travel on the slide and the depth it gives."""
    travel = way.travels[-1]
    there, back = "{depth}", "{travel}"
    put: dict[str, tuple[float, Quantity]] = {"depth": (thread.depth, "length")}
    put_back: dict[str, tuple[float, Quantity]] = {"travel": (travel, "length")}
    if infeed.angle:
        there, back = "{depth} ÷ cos {angle}", "{travel} × cos {angle}"
        put["angle"] = put_back["angle"] = (infeed.angle, "angle")
    desk.computed(
        "passes.travel",
        say("Travel of the {slide} from touch", slide=infeed.slide),
        travel,
        "length",
        there,
        put,
        JONES,
        system=system,
        note=say(PARTS[way.parts]),
    )
    desk.computed(
        "passes.depth",
        say("Depth the passes add up to, radial"),
        infeed.depth(travel),
        "length",
        back,
        put_back,
        say("geometry"),
        system=system,
    )


def lay_count(
    way: Way, thread: ThreadPlan, first: Length, least: Length, system: System, operation: Thread, desk: Desk
) -> None:
    """How many passes cut, and a word when they are many."""
    count, usual = len(way.counts), usual_count(thread)
    desk.computed(
        "passes.count",
        say("Passes that cut"),
        count,
        "count",
        say("depth {first cut} × √k after pass k, no cut under {smallest cut}, until {depth}"),
        {
            "first cut": (first, "length"),
            "smallest cut": (least, "length"),
            "depth": (thread.depth, "length"),
        },
        say("{practice}: chips of about one size", practice=PRACTICE),
        note=say("each reading rounded to the dial"),
    )
    if count > MANY * usual:
        desk.find(
            "many-passes", "note",
            say(
                "The first cut and the smallest cut make {count} passes; for this pitch about {usual} are "
                "usual with high-speed steel, from a first cut of {usual_first_cut}. Give a larger "
                "first_cut or last_cut where tool and work bear it.",
                count=count, usual=usual, usual_first_cut=length_words(usual_first_cut(thread), system),
            ),
            operation.length.where,
        )


def lay_expected(lines: tuple[PassLine, ...], thread: ThreadPlan, operation: Thread, desk: Desk) -> None:
    """Sizes to expect after the last cut, and at the first trial of the mate."""
    last, trial = lines[-1], next((line for line in lines if line.try_mate), None)
    _lay_pitch_diameter("final", say("Pitch diameter to expect at the end"), last, thread, desk)
    name, label = "passes.try_mate_pitch_diameter", say("Pitch diameter at the first trial")
    if thread.wire is not None:
        _lay_over_wires("passes.final_over_wires", say("Over wires to expect at the end"), last, thread, desk)
        name, label = "passes.try_mate_over_wires", say("Over wires at the first trial of the mate")
    if trial is not None:
        if thread.wire is not None:
            _lay_over_wires(name, label, trial, thread, desk)
        else:
            _lay_pitch_diameter("try_mate", label, trial, thread, desk)
        return
    desk.unknown(name, label, "length", say("one cut makes the whole thread"))
    desk.find(
        "one-cut", "check",
        say(
            "One cut makes the whole thread, so there is no line to try the mate above final size. Give a "
            "smaller first_cut."
        ),
        operation.length.where,
    )


def _lay_pitch_diameter(stage: str, label: str, line: PassLine, thread: ThreadPlan, desk: Desk) -> None:
    """The pitch diameter after a pass, from the depth and the tool's nose."""
    way, name = (-1, "bore") if thread.internal else (1, "blank")
    put: dict[str, tuple[float, Quantity]] = {name: (thread.blank, "length"), "depth": (line.depth, "length")}
    if thread.flanks.square:
        formula = "{bore} + {depth}" if thread.internal else "{blank} − {depth}"
        label = say("{label}, halfway between crest and root", label=label)
    else:
        tip, formula = (
            ("tool past the pitch line", "{bore} + 2 × ({depth} − {tool past the pitch line})")
            if thread.internal
            else ("tool below the pitch line", "{blank} − 2 × ({depth} − {tool below the pitch line})")
        )
        put[tip] = (thread.depth - way * (thread.blank - thread.target) / 2, "length")
    desk.computed(
        f"passes.{stage}_pitch_diameter", label, line.pitch_diameter, "length", formula, put,
        thread_form.GEOMETRY, system=thread.system,
    )


def _lay_over_wires(name: str, label: str, line: PassLine, thread: ThreadPlan, desk: Desk) -> None:
    if line.over_wires is None:
        desk.unknown(name, label, "length", say("the wires do not seat at this depth"))
        return
    assert thread.wire is not None, "a size over wires was reckoned with one"
    diameter, wire, pitch = line.pitch_diameter, thread.wire, thread.pitch
    lead_term = line.over_wires - wires.over_wires_simple(diameter, wire, pitch, thread.flanks)
    formula = over_wires_formula(thread.flanks)
    put: dict[str, tuple[float, Quantity]] = {
        "d2": (diameter, "length"), "W": (wire, "fine_length"), "P": (pitch, "fine_length"),
    }
    if abs(lead_term) > 1e-9:
        formula += " + {lead angle term}"
        put["lead angle term"] = (lead_term, "fine_length")
    source = wires_source(thread.flanks)
    desk.computed(name, label, line.over_wires, "length", formula, put, source, system=thread.system)


def lay_force(
    lines: tuple[PassLine, ...], material: MaterialRow | None, thread: ThreadPlan, desk: Desk
) -> tuple[float | None, float | None]:
    """Largest and last cutting force; None when the material is unknown."""
    name, label = "passes.largest_force", say("Largest cutting force")
    cuts = [(line.force, line) for line in lines if line.force is not None]
    if material is None or not cuts:
        desk.unknown(name, label, "force", say("the material is unknown"))
        return None, None
    largest, line = max(cuts, key=lambda cut: cut[0])
    thickness = (largest / line.chip_area / material.k_c11) ** (-1 / material.m_c)
    desk.computed(
        name, say("{label}, in pass {number}", label=label, number=line.number), largest, "force",
        "{kc1.1} × {h in mm}^(−{mc}) × {chip area}",
        {
            "kc1.1": (material.k_c11, "pressure"), "mc": (material.m_c, "ratio"),
            "h in mm": (thickness, "ratio"), "chip area": (line.chip_area, "area"),
        },
        f"{KIENZLE}: {material.force_source}", rounds="up",
        note=say("a handbook value, good to about 20 % or worse; a worn tool takes more"),
    )
    return largest, cuts[-1][0]


def lay_power(
    largest: float | None, thread: ThreadPlan, lathe: Lathe, operation: Thread, desk: Desk
) -> None:
    """Power of the largest cut at the spindle step, against the motor."""
    name, label = "passes.power", say("Power at the tool")
    step = desk.figures.get("spindle.step")
    if largest is None or step is None or not isinstance(step.value, float | int):
        desk.unknown(
            name, label, "power",
            say("the material is unknown") if largest is None else say("the spindle step is unknown"),
        )
        return
    speed, across = math.pi * thread.cutting_diameter * step.value, "root" if thread.internal else "blank"
    power = desk.computed(
        name, label, cutting_power(largest, speed), "power", f"{{F}} × π × {{{across}}} × {{n}}",
        {
            "F": (largest, "force"), across: (thread.cutting_diameter, "length"),
            "n": (step.value, "spindle_speed"),
        },
        say("DIN 6584; arithmetic"), rounds="up",
    )
    if lathe.power is not None and power > DRIVE * lathe.power.si:
        desk.find(
            "power", "check",
            say(
                "The largest cut wants {power:.2g} hp ({kilowatts:.2g} kW), more than three quarters of the "
                "{motor} of {lathe}. Give a smaller first_cut.",
                power=power / hp, kilowatts=power / kW, motor=lathe.power.with_unit, lathe=lathe.name,
            ),
            operation.length.where,
        )
