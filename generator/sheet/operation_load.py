"""What an operation asks of the lathe: force by Kienzle, torque and power against step and motor.

    lay_force       cutting force of the largest cut in turning, facing, boring
    lay_plunge      cutting force of a grooving or parting tool
    lay_load        power and torque that follow, and what is over
"""

from __future__ import annotations

import math

from generator.calc import spindle
from generator.calc.cutting import cutting_power, grooving_force, likely_force, turning_force
from generator.calc.power import motor_power, spindle_torque
from generator.job.lathe_parts import SpindleStep
from generator.language.say import later, say
from generator.sheet.figure import Quantity
from generator.sheet.lines import Level
from generator.sheet.operation_task import PRACTICE, Task
from generator.sheet.wording import rpm_words
from generator.si import FeedPerRev, Force, Length, Power, SpindleSpeed, Torque, ft, hp, kW, lbf, mm
from generator.tables.materials import MaterialRow

KIENZLE = later("Kienzle (1952), DIN 6584; kc1.1 and mc")
EFFICIENCY = 0.75     # of a geared engine lathe, 0.7 to 0.8; common practice, no source
STALLS = 1.25         # times what there is: more than the scatter of the handbooks
SQUARE = math.pi / 2  # entering angle of a tool that cuts a square shoulder
NO_MATERIAL = later("the material is unknown")


def lay_force(task: Task, depth: Length | None, feed: FeedPerRev | None, why: str = "") -> Force | None:
    """Lay the cutting force of a cut so deep at this feed; None with the reason when something is missing."""
    material, words = task.bench.material, say("cutting force of the largest cut")
    missing = NO_MATERIAL if material is None else why if depth is None or feed is None else ""
    if material is None or depth is None or feed is None:
        task.unknown("force", words, "force", missing)
        return None
    own = task.tool.entering_angle
    angle = own.si if own is not None and 0 < own.si < math.pi else SQUARE
    force = turning_force(material.k_c11, material.m_c, depth, feed, angle)
    return task.computed(
        "force", words, force, "force", "{kc1.1} × {h in mm}^(−{mc}) × {depth} × {f}",
        {
            **_kienzle(material, feed * math.sin(angle)), "depth": (depth, "length"), "f": (feed, "feed"),
        },
        f"{KIENZLE}: {material.force_source}", rounds="up", note=_scatter(),
    )


def lay_plunge(task: Task, width: Length | None, feed: FeedPerRev | None, why: str = "") -> Force | None:
    """Lay the cutting force of a tool so wide that goes straight in."""
    material, words = task.bench.material, say("cutting force, straight in")
    missing = NO_MATERIAL if material is None else why
    if material is None or width is None or feed is None:
        task.unknown("force", words, "force", missing)
        return None
    return task.computed(
        "force", words, grooving_force(material.k_c11, material.m_c, width, feed), "force",
        "{kc1.1} × {h in mm}^(−{mc}) × {width} × {f}",
        {**_kienzle(material, feed), "width": (width, "length"), "f": (feed, "feed")},
        f"{KIENZLE}: {material.force_source}", rounds="up", note=_scatter(),
    )


def _scatter() -> str:
    low, high = likely_force(1.0)
    return say(
        "a handbook value: likely {low:g} times it with a sharp tool to {high:g} times it with a worn one",
        low=low, high=high,
    )


def lay_load(
    task: Task, force: Force | None, diameter: Length | None, step: SpindleSpeed | None
) -> Power | None:
    """Lay torque at the spindle and power of the motor for a force at a diameter; find what is over."""
    words = say("power of the motor")
    if force is None or diameter is None or step is None:
        why = (
            say("the force is unknown") if force is None
            else say("the spindle step is unknown") if step is None
            else say("the diameter is unknown")
        )
        task.unknown("power", words, "power", why)
        return None
    torque = task.computed(
        "torque", say("torque at the spindle"), spindle_torque(force, diameter), "torque", "{F} × {d} ÷ 2",
        {"F": (force, "force"), "d": (diameter, "length")}, say("DIN 6584; arithmetic"), rounds="up",
    )
    at_tool = cutting_power(force, math.pi * diameter * step)
    power = lay_motor(
        task, at_tool, "{F} × π × {d} × {n} ÷ {share that arrives}",
        {"F": (force, "force"), "d": (diameter, "length"), "n": (step, "spindle_speed")},
    )
    judge_load(task, torque, power, step)
    return power


def lay_motor(
    task: Task, at_tool: Power, formula: str, put: dict[str, tuple[float, Quantity]]
) -> Power:
    """Lay the power of the motor for a power at the tool."""
    share = _share(task)
    return task.computed(
        "power", say("power of the motor"), motor_power(at_tool, share), "power", formula,
        {**put, "share that arrives": (share, "ratio")}, say("DIN 6584; arithmetic"), rounds="up",
    )


def judge_load(
    task: Task, torque: Torque, power: Power, step: SpindleSpeed, most: float = 1.0
) -> None:
    """Power against the motor and the step, torque against the step, as far as the record has them.

    `most` is how many times as much as worked out it may well be.
    """
    lathe, own = task.bench.lathe, _own_step(task, step)
    if lathe.power is not None:
        _judge(
            task,
            "operation-power",
            power / lathe.power.si,
            _power_words(power),
            say("the motor of {name} gives {power}", name=lathe.name, power=lathe.power.with_unit),
            most,
        )
    if own is not None and own.power is not None:
        share = _share(task)
        _judge(
            task,
            "operation-power",
            power * share / own.power.si,
            say("{power} at the tool", power=_power_words(power * share)),
            say(
                "{name} gives {power} at its step of {step}",
                name=lathe.name, power=own.power.with_unit, step=rpm_words(step),
            ),
            most,
        )
    if own is not None and own.torque is not None:
        _judge(
            task,
            "operation-torque",
            torque / own.torque.si,
            say(
                "{torque:.0f} lbf ft ({newton_meters:.0f} N m)",
                torque=torque / (lbf * ft), newton_meters=torque,
            ),
            say(
                "{name} gives {torque} at its step of {step}",
                name=lathe.name, torque=own.torque.with_unit, step=rpm_words(step),
            ),
            most,
        )


def _judge(task: Task, id: str, share: float, wants: str, has: str, most: float) -> None:
    if share * most <= 1 or any(one.id == id and task.what in one.text for one in task.desk.findings):
        return
    level: Level = "stop" if share > STALLS else "check"
    more = say(", likely up to {most:g} times as much", most=most) if most > 1 else ""
    task.find(
        id, level,
        say(
            "The largest cut of {what} wants {wants}{more}, and {has}. Take less depth (cut), a finer feed "
            "or a slower step.",
            what=task.what, wants=wants, more=more, has=has,
        ),
    )


def _power_words(power: Power) -> str:
    return say("{power:.2g} hp ({kilowatts:.2g} kW)", power=power / hp, kilowatts=power / kW)


def _share(task: Task) -> float:
    """Share of the motor's power that arrives; laid once for all operations."""
    name, own = "operation.efficiency", task.bench.house.efficiency
    if name not in task.desk.figures:
        task.desk.chosen(
            name, say("Share of the motor's power that reaches the tool"), own, EFFICIENCY, "ratio", PRACTICE
        )
    return own.si if own is not None else EFFICIENCY


def _own_step(task: Task, step: SpindleSpeed) -> SpindleStep | None:
    return next((one for one in task.bench.lathe.spindle.speeds if spindle.same(one.si, step)), None)


def _kienzle(material: MaterialRow, thickness: Length) -> dict[str, tuple[float, Quantity]]:
    return {
        "kc1.1": (material.k_c11, "pressure"), "mc": (material.m_c, "ratio"),
        "h in mm": (thickness / mm, "ratio"),
    }
