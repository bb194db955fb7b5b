"""Which spindle speeds the held work bears: bending frequency, the open end, the bar behind the headstock."""

from __future__ import annotations

import math

from generator.calc.beam import Beam, Segment, Support
from generator.job.fields import Given
from generator.job.shop import House
from generator.sheet.desk import Desk
from generator.sheet.holding.case import Case
from generator.sheet.holding.held_work import HeldWork
from generator.sheet.model import Figure, Kind, Quantity, Working
from generator.sheet.wording import rpm_words
from generator.si import Frequency, Length, SpindleSpeed

PRACTICE = "common practice, no source"
WHIRL = "a round bar whirls at its bending frequency (Thomson, Theory of Vibration with Applications)"
CRITICAL_SHARE = 0.7  # of the critical speed; common practice, no source

OPEN_END, TAIL = "holding.open_end.critical_speed", "holding.tail.critical_speed"

UNKNOWN: tuple[tuple[str, str, Quantity], ...] = (
    ("holding.first_frequency", "First bending frequency", "frequency"),
    ("holding.critical_speed", "Critical speed", "spindle_speed"),
)


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
            desk.unknown(name, label, quantity, "the material is unknown")
        return
    _lay_frequency(held, steady_at, house, spindle_speed, desk)
    if held.job.holding.center is not None and steady_at is None and held.job.holding.centers is None:
        _lay_open_end(held, desk)
    if held.job.holding.behind_spindle is not None:
        _lay_tail(held, held.job.holding.behind_spindle, house, spindle_speed, desk)


def unbalance_section(case: Case) -> None:
    """Lay down what a mass off the axis does at the speeds of the route."""


def _lay_frequency(
    held: HeldWork, steady_at: Length | None, house: House, spindle_speed: SpindleSpeed | None, desk: Desk
) -> None:
    material = held.material
    assert material is not None
    put: dict[str, tuple[float, Quantity]] = {
        "stick-out": (held.layout.stick_out, "length"),
        "E": (material.elastic_modulus, "pressure"),
        "ρ": (material.density, "density"),
        "k chuck": (held.chuck_stiffness, "angular_stiffness"),
    }
    if steady_at is not None:
        put["k steady"] = (held.steady_stiffness, "stiffness")
        put["its place"] = (steady_at, "length")
    frequency: Frequency = desk.computed(
        "holding.first_frequency",
        "First bending frequency",
        held.beam(steady_at).first_frequency(),
        "frequency",
        "lowest f of det(K − (2 π f)² M) = 0 for beam elements with "
        + ", ".join(f"{{{name}}}" for name in put),
        put,
        "beam elements (Cook et al.); Thomson, Theory of Vibration with Applications",
        note="the work in its supports, without the weight of chuck and spindle; looser supports lower it",
        rounds="down",
    )
    critical = desk.computed(
        "holding.critical_speed", "Critical speed", frequency, "spindle_speed", "60 × {f1}",
        {"f1": (frequency, "frequency")}, WHIRL, rounds="down",
    )
    if spindle_speed is None:
        return
    desk.computed(
        "holding.speed_ratio",
        "Spindle speed over critical speed",
        spindle_speed / critical,
        "ratio",
        "{n} ÷ {n critical}",
        {"n": (spindle_speed, "spindle_speed"), "n critical": (critical, "spindle_speed")},
        PRACTICE,
        rounds="up",
    )
    _judge_speed(
        "critical-speed", "this work begins to whip", "Support it better or run slower.",
        spindle_speed, critical, house, held.job.holding.grip, desk,
    )


def _lay_open_end(held: HeldWork, desk: Desk) -> None:
    """The work in the chuck alone, as it turns while its end is faced, center drilled or bored."""
    material = held.material
    assert material is not None
    desk.computed(
        OPEN_END,
        "Critical speed while the center is away",
        held.beam(None, end_open=True).first_frequency(),
        "spindle_speed",
        "lowest n of det(K − (2 π n)² M) = 0 for beam elements with {stick-out}, {E}, {ρ}, {k chuck}",
        {
            "stick-out": (held.layout.stick_out, "length"),
            "E": (material.elastic_modulus, "pressure"),
            "ρ": (material.density, "density"),
            "k chuck": (held.chuck_stiffness, "angular_stiffness"),
        },
        f"beam elements (Cook et al.); {WHIRL}",
        note="for facing, center drilling, and all work in the bore",
        rounds="down",
    )


def _lay_tail(
    held: HeldWork, behind: Given, house: House, spindle_speed: SpindleSpeed | None, desk: Desk
) -> None:
    """The bar behind the headstock, held where it leaves the spindle at best."""
    material, bar = held.material, held.layout.spans[0]
    assert material is not None
    beam = Beam(
        (Segment(0.0, behind.si, bar.od_start, bar.bore),),
        (Support(0.0, math.inf, math.inf),),
        material.elastic_modulus,
        material.density,
    )
    critical = beam.first_frequency()
    desk.lay(
        Figure(
            TAIL,
            "Critical speed of the bar behind the headstock",
            critical,
            "spindle_speed",
            Kind.COMPUTED,
            WHIRL,
            Working(
                "60 × 3.516 ÷ (2 π × {L}²) × √({E} × ({D}² + {d}²) ÷ (16 × {ρ}))",
                {
                    "L": (behind.si, "length"), "D": (bar.od_start, "length"), "d": (bar.bore, "length"),
                    "E": (material.elastic_modulus, "pressure"), "ρ": (material.density, "density"),
                },
            ),
            note="held tight where it leaves the spindle, nowhere behind it; a loose bar whips sooner",
            rounds="down",
        )
    )
    if spindle_speed is not None:
        _judge_speed(
            "tail-whip", "the bar behind the headstock begins to whip",
            "Support it there, cut it shorter, or run slower.", spindle_speed, critical, house, behind, desk,
        )


def _judge_speed(
    id: str,
    what: str,
    remedy: str,
    speed: SpindleSpeed,
    critical: SpindleSpeed,
    house: House,
    about: Given,
    desk: Desk,
) -> None:
    limit = house.speed_share_of_critical.si if house.speed_share_of_critical else CRITICAL_SHARE
    ratio = speed / critical
    if ratio > limit:
        desk.find(
            id,
            "stop" if ratio >= 1 else "check",
            f"{rpm_words(speed)} is {ratio:.0%} of the {rpm_words(critical)} at which {what}; stay under "
            f"{limit:.0%}. {remedy}",
            about.where,
        )
