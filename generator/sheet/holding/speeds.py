"""Which spindle speeds the held work bears: where it begins to whip.

    speed_section     bending frequencies, critical speeds, the safe steps
    judge_speed       a speed against a critical one
"""

from __future__ import annotations

import math
from dataclasses import replace

from generator.calc.beam import Support
from generator.calc.modes import frequencies
from generator.calc.slenderness import ALONE
from generator.job.shop import House
from generator.job.written import Given
from generator.language.say import later, say
from generator.language.spoken import once_a_language
from generator.sheet.desk import Desk
from generator.sheet.figure import Quantity
from generator.sheet.holding.held_work import HeldWork
from generator.sheet.holding.safe_steps import lay_steps, speed_limit
from generator.sheet.holding.tail import TAIL, WHIRL, lay_tail
from generator.sheet.wording import rpm_words
from generator.si import Length, SpindleSpeed
from generator.tables.materials import MaterialRow, material_group, material_groups

__all__ = ["OPEN_END", "TAIL", "UNKNOWN", "judge_speed", "speed_section"]

PRACTICE = later("common practice, no source")
ELEMENTS = later("beam elements (Cook et al.)")
FEWER = 24  # elements, where one span or a bound is asked for: good to 0.1 %

OPEN_END = "holding.open_end.critical_speed"

UNKNOWN: tuple[tuple[str, str, Quantity], ...] = (
    ("holding.first_frequency", later("First bending frequency"), "frequency"),
    ("holding.critical_speed", later("Critical speed"), "spindle_speed"),
)

Put = dict[str, tuple[float, Quantity]]


def speed_section(
    held: HeldWork, steady_at: Length | None, house: House, spindle_speed: SpindleSpeed | None, desk: Desk
) -> None:
    """Lay down the speeds at which the work whips, with their findings.

    Raises
    ------
    OutsideRange
        When the work cannot be taken as a beam.
    """
    if held.material is None:
        for name, label, quantity in UNKNOWN:
            desk.unknown(name, label, quantity, say("the material is unknown"))
        _lay_least(held, steady_at, house, spindle_speed, desk)
        return
    critical = _lay_frequency(held, steady_at, held.material, desk)
    _lay_hinged(held, steady_at, house, spindle_speed, critical, desk)
    if spindle_speed is not None:
        desk.computed(
            "holding.speed_ratio",
            say("Spindle speed over critical speed"),
            spindle_speed / critical,
            "ratio",
            "{n} ÷ {n critical}",
            {"n": (spindle_speed, "spindle_speed"), "n critical": (critical, "spindle_speed")},
            PRACTICE,
            rounds="up",
            note=say("stay under {limit:g}", limit=speed_limit(house)),
        )
        judge_speed(
            "critical-speed", say("this work begins to whip"), say("Support it better or run slower."),
            spindle_speed, critical, house, held.job.holding.grip, desk,
        )
    if held.job.holding.center is not None and steady_at is None and held.job.holding.centers is None:
        _lay_open_end(held, held.material, desk)
    if held.job.holding.behind_spindle is not None:
        tail = lay_tail(held, held.material, held.job.holding.behind_spindle, desk)
        critical = min(critical, tail)
        if spindle_speed is not None:
            judge_speed(
                "tail-whip", say("the bar behind the headstock begins to whip"),
                say("Support it there, cut it shorter, or run slower."),
                spindle_speed, tail, house, held.job.holding.behind_spindle, desk,
            )
    lay_steps(held, critical, house, desk)


def judge_speed(
    id: str,
    what: str,
    remedy: str,
    speed: SpindleSpeed,
    critical: SpindleSpeed,
    house: House,
    about: Given,
    desk: Desk,
) -> None:
    """Find a speed that is too near to a critical one, or above it."""
    limit, ratio = speed_limit(house), speed / critical
    if ratio > limit:
        desk.find(
            id,
            "stop" if ratio >= 1 else "check",
            say("{speed} is {ratio:.0%} of the {critical} at which {what}; stay under {limit:.0%}. {remedy}",
                speed=rpm_words(speed), ratio=ratio, critical=rpm_words(critical), what=what, limit=limit,
                remedy=remedy),
            about.where,
        )


# -- where it whips ---------------------------------------------------------------------------------------


def _put(held: HeldWork, steady_at: Length | None, material: MaterialRow) -> Put:
    """What went into the frequency."""
    put: Put = {
        "stick-out": (held.layout.stick_out, "length"),
        "E": (material.elastic_modulus, "pressure"),
        "ρ": (material.density, "density"),
    }
    if math.isfinite(held.chuck_stiffness):
        put["k chuck"] = (held.chuck_stiffness, "angular_stiffness")
    if steady_at is not None:
        put["k steady"] = (held.steady_stiffness, "stiffness")
        put["its place"] = (steady_at, "length")
    if held.job.holding.center is not None and math.isfinite(held.center_stiffness):
        put["k center"] = (held.center_stiffness, "stiffness")
    return put


def _lowest(what: str, put: Put) -> str:
    named = ", ".join(f"{{{name}}}" for name in put)
    return say("{what} of det(K − (2 π f)² M) = 0 for beam elements with {named}", what=what, named=named)


def _is_slender(held: HeldWork) -> bool:
    """True for work so long that a second frequency means something: shorter work is no beam in it."""
    at_jaws = held.layout.span_at(0.0)
    return at_jaws is not None and held.layout.stick_out > ALONE * at_jaws.od_at(0.0)


def _lay_frequency(
    held: HeldWork, steady_at: Length | None, material: MaterialRow, desk: Desk
) -> SpindleSpeed:
    """The first two bending frequencies and the critical speed; return that."""
    beam = held.beam(steady_at)
    first = beam.first_frequency()
    put = _put(held, steady_at, material)
    desk.computed(
        "holding.first_frequency",
        say("First bending frequency"),
        first,
        "frequency",
        _lowest(say("lowest f"), put),
        put,
        say("{elements}; Thomson, Theory of Vibration with Applications", elements=ELEMENTS),
        note=say(
            "the work in its supports, without the weight of chuck and spindle; looser supports lower it"
        ),
        rounds="down",
    )
    if _is_slender(held):
        desk.computed(
            "holding.second_frequency",
            say("Second bending frequency"),
            frequencies(beam, 2)[1],
            "frequency",
            _lowest(say("second lowest f"), put),
            put,
            say("{elements}; Thomson, Theory of Vibration with Applications", elements=ELEMENTS),
            rounds="down",
        )
    return desk.computed(
        "holding.critical_speed", say("Critical speed"), first, "spindle_speed", "60 × {f1}",
        {"f1": (first, "frequency")}, WHIRL, rounds="down",
    )


def _lay_hinged(
    held: HeldWork,
    steady_at: Length | None,
    house: House,
    spindle_speed: SpindleSpeed | None,
    critical: SpindleSpeed,
    desk: Desk,
) -> None:
    """The same with jaws that do not hold against tilting: a lower bound for soft jaws and play.

    Only where something else holds the work too, and where it bars a step of the lathe.
    """
    holding, material = held.job.holding, held.material
    if material is None or holding.centers is not None or (steady_at is None and holding.center is None):
        return
    beam = held.beam(steady_at)
    hinged = replace(beam, supports=(Support(0.0), *beam.supports[1:]))
    least, limit = frequencies(hinged, 1, elements=FEWER)[0], speed_limit(house)
    if limit * least > max(one.si for one in held.lathe.spindle.speeds):
        return
    put = _put(held, steady_at, material)
    put.pop("k chuck", None)
    desk.computed(
        "holding.critical_speed.hinged", say("Critical speed if the jaws let the work tilt"), least,
        "spindle_speed", _lowest(say("60 × lowest f"), put) + say(", a hinge at the jaws"), put,
        f"{ELEMENTS}; {WHIRL}",
        note=say("a cautious bound for soft jaws, a short grip or play"), rounds="down",
    )
    soft = holding.chuck is not None and holding.chuck.soft_jaws
    if spindle_speed is not None and limit * least < spindle_speed <= limit * critical:
        desk.find(
            "critical-speed-hinged", "check" if soft else "note",
            say("{speed} is {ratio:.0%} of the {critical} at which the work would begin to whip if the jaws "
                "let it tilt{soft}. Grip long and tight, and bring the speed up step by step.",
                speed=rpm_words(spindle_speed), ratio=spindle_speed / least, critical=rpm_words(least),
                soft=say(", as soft jaws do") if soft else ""),
            holding.grip.where,
        )


def _lay_open_end(held: HeldWork, material: MaterialRow, desk: Desk) -> None:
    """The work in the chuck alone, as it turns while its end is faced, center drilled or bored."""
    put = _put(held, None, material)
    put.pop("k center", None)
    desk.computed(
        OPEN_END, say("Critical speed while the center is away"),
        held.beam(None, end_open=True).first_frequency(FEWER), "spindle_speed",
        _lowest(say("60 × lowest f"), put), put, f"{ELEMENTS}; {WHIRL}",
        note=say("for facing, center drilling, and all work in the bore"),
        rounds="down",
    )


# -- a material that nobody knows -------------------------------------------------------------------------


@once_a_language
def heaviest_and_softest() -> tuple[MaterialRow, ...]:
    """The groups than which no other is both softer and heavier: one of them whips first, whatever holds it.

    >>> [row.group for row in heaviest_and_softest()]
    ['aluminium alloy', 'brass', 'bronze', 'copper']
    """
    rows = [material_group(name) for name in material_groups()]
    return tuple(
        row for row in rows
        if not any(
            other.elastic_modulus <= row.elastic_modulus and other.density >= row.density
            and (other.elastic_modulus, other.density) != (row.elastic_modulus, row.density)
            for other in rows
        )
    )


def _lay_least(
    held: HeldWork, steady_at: Length | None, house: House, spindle_speed: SpindleSpeed | None, desk: Desk
) -> None:
    """The lowest critical speed that any of the known materials would have."""
    tried = [
        (replace(held, material=row).beam(steady_at).first_frequency(FEWER), row)
        for row in heaviest_and_softest()
    ]
    least, row = min(tried, key=lambda one: one[0])
    put = _put(held, steady_at, row)
    desk.computed(
        "holding.critical_speed.least",
        say("Critical speed at least, whatever the material"),
        least,
        "spindle_speed",
        _lowest(say("60 × lowest f"), put),
        put,
        f"{ELEMENTS}; {WHIRL}; {row.source}",
        note=say("the material is unknown: of those known here {group} whips first", group=row.group),
        rounds="down",
    )
    limit = speed_limit(house)
    if spindle_speed is not None and spindle_speed > limit * least:
        desk.find(
            "critical-speed-unknown", "check",
            say("{speed} is {ratio:.0%} of the {critical} at which the work would begin to whip if it were "
                "{group}; stay under {limit:.0%} until the material is known.",
                speed=rpm_words(spindle_speed), ratio=spindle_speed / least, critical=rpm_words(least),
                group=row.group, limit=limit),
            held.job.holding.grip.where, say("What material is it?"),
        )
    lay_steps(held, least, house, desk)
