"""How the held work stands up to the cut and to the speed: deflection, steady force, first frequency."""

from __future__ import annotations

import math

from generator.calc.beam import Beam, Segment, Support
from generator.calc.slenderness import shear_share
from generator.job.fields import Given
from generator.job.shop import House
from generator.sheet.desk import Desk
from generator.sheet.held_work import HeldWork
from generator.sheet.model import Figure, Kind, Quantity, Working
from generator.sheet.plans import PassPlan
from generator.sheet.wording import fine_words, length_words, rpm_words
from generator.si import Force, Frequency, Length, SpindleSpeed, g_n

LEAST_GIVE = 1e-12  # m/N, at a rigid support: a micrometre under a meganewton is nothing
PRACTICE = "common practice, no source"
BEAM = "beam elements (Cook et al.), chuck and steady elastic, center rigid"
WHIRL = "a round bar whirls at its bending frequency (Thomson, Theory of Vibration with Applications)"
THRUST_SHARE = 0.6  # radial over cutting force when threading; common practice, no source
CRITICAL_SHARE = 0.7  # of the critical speed; common practice, no source
ERROR_SHARE = 0.25  # of the pitch diameter tolerance; common practice, no source
SHEAR_WORTH_SAYING = 0.05  # of the deflection

OPEN_END, TAIL = "holding.open_end.critical_speed", "holding.tail.critical_speed"
STIFFNESSES = ("holding.chuck_stiffness", "holding.steady_stiffness")

UNKNOWN: tuple[tuple[str, str, Quantity], ...] = (
    ("holding.force", "Radial force of the heaviest cut", "force"),
    ("holding.deflection.max", "Deflection under the heaviest cut", "fine_length"),
    ("holding.diameter_error.max", "Diameter error from the last cut", "fine_length"),
    ("holding.first_frequency", "First bending frequency", "frequency"),
    ("holding.critical_speed", "Critical speed", "spindle_speed"),
)


def rigidity_section(
    held: HeldWork,
    steady_at: Length | None,
    cuts: PassPlan | None,
    house: House,
    spindle_speed: SpindleSpeed | None,
    desk: Desk,
) -> None:
    """Lay down deflection along the cut, force on the steady rest, and critical speed with their findings.

    Raises
    ------
    OutsideRange
        When the work cannot be taken as a beam.
    """
    if held.layout.stick_out <= 0 or (steady_at is not None and not 0 < steady_at < held.layout.stick_out):
        return
    _lay_overhang(held, steady_at, desk)
    if held.material is None:
        for name, label, quantity in UNKNOWN:
            desk.unknown(name, label, quantity, "the material is unknown")
        return
    if steady_at is not None:
        _lay_weight_on_steady(held, steady_at, desk)
    if cuts is not None and cuts.largest_force is not None and held.cut_places():
        _lay_deflection(held, steady_at, cuts, cuts.largest_force, house, desk)
    _lay_frequency(held, steady_at, house, spindle_speed, desk)
    if held.job.holding.center is not None and steady_at is None:
        _lay_open_end(held, desk)
    if held.job.holding.behind_spindle is not None:
        _lay_tail(held, held.job.holding.behind_spindle, house, spindle_speed, desk)


def _last_support(held: HeldWork, steady_at: Length | None) -> Length:
    """The support nearest to the cut on its chuck side (m)."""
    cut_end = held.cut_end if held.cut_end is not None else held.layout.stick_out
    return steady_at if steady_at is not None and steady_at <= cut_end else 0.0


def _lay_overhang(held: HeldWork, steady_at: Length | None, desk: Desk) -> None:
    far = max(held.cut_places(), default=held.layout.stick_out)
    support = _last_support(held, steady_at)
    desk.computed(
        "holding.overhang",
        "From the last support to the far end of the cut",
        far - support,
        "length",
        "{far end of the cut} − {last support}",
        {"far end of the cut": (far, "length"), "last support": (support, "length")},
        "geometry",
        note="from the steady rest" if support else "from the chuck face",
    )


def _lay_weight_on_steady(held: HeldWork, steady_at: Length, desk: Desk) -> None:
    carried = held.beam(steady_at).carried(g_n)
    weight = sum(carried)
    desk.computed(
        "holding.steady.weight",
        "Weight on the steady rest",
        carried[1],
        "force",
        "{weight outside the jaws} × {share of it}",
        {"weight outside the jaws": (weight, "force"), "share of it": (carried[1] / weight, "ratio")},
        BEAM,
        rounds="up",
    )


def _lay_deflection(
    held: HeldWork, steady_at: Length | None, cuts: PassPlan, largest: Force, house: House, desk: Desk
) -> None:
    share = desk.chosen(
        "holding.thrust_share", "Radial force over cutting force", house.thrust_share, THRUST_SHARE, "ratio",
        PRACTICE,
    )
    force = desk.computed(
        "holding.force",
        "Radial force of the heaviest cut",
        share * largest,
        "force",
        "{share} × {F}",
        {"share": (share, "ratio"), "F": (largest, "force")},
        "Kienzle (1952); " + PRACTICE,
        rounds="up",
    )
    give, place = held.worst(steady_at)
    give = max(give, LEAST_GIVE)
    rigid = held.worst(steady_at, rigid=True)[0]
    moved = desk.computed(
        "holding.deflection.max",
        "Deflection under the heaviest cut",
        force * give,
        "fine_length",
        "{F} ÷ {stiffness under the tool}",
        {"F": (force, "force"), "stiffness under the tool": (1 / give, "stiffness")},
        BEAM,
        note=f"largest at {length_words(place, held.system)} from the chuck face; it would be "
        f"{fine_words(force * rigid, held.system)} if {_holders(steady_at)} did not give"
        + _shear_words(held, steady_at, place, rigid / give),
        rounds="up",
    )
    if steady_at is not None:
        _lay_steady_force(held, steady_at, force, desk)
    if cuts.last_force is None or held.thread is None:
        return
    last = cuts.last_force
    error = desk.computed(
        "holding.diameter_error.max",
        "Diameter error from the last cut",
        2 * moved * last / largest,
        "fine_length",
        "2 × {deflection} × {F last} ÷ {F heaviest}",
        {"deflection": (moved, "fine_length"), "F last": (last, "force"), "F heaviest": (largest, "force")},
        "geometry: the surface moves away from the tool",
        note="spring passes take part of it out",
        rounds="up",
    )
    tolerance = held.thread.pitch_diameter_max - held.thread.pitch_diameter_min
    if error > ERROR_SHARE * tolerance:
        of_this = ""
        if any(figure.assumed for name, figure in desk.figures.items() if name in STIFFNESSES):
            of_this = (
                f" How much {_holders(steady_at)} gave in this is assumed; with no give there it would be "
                f"{fine_words(error * rigid / give, held.system)}."
            )
        desk.find(
            "deflection",
            "check",
            f"The work gives {fine_words(error, held.system)} on diameter under the last cut, more than a "
            f"quarter of the pitch diameter tolerance of {fine_words(tolerance, held.system)}.{of_this} "
            "Support it nearer the cut, take smaller last cuts, and measure at both ends of the thread.",
            held.job.holding.chuck.grip.where,
        )


def _holders(steady_at: Length | None) -> str:
    return "the chuck" if steady_at is None else "chuck and steady rest"


def _shear_words(held: HeldWork, steady_at: Length | None, place: Length, bending: float) -> str:
    """A warning where the work is so short that beam formulas without shear understate it."""
    span = held.layout.span_at(place)
    length = place - _last_support(held, steady_at)
    if span is None or length <= 0:
        return ""
    both_ends = held.job.holding.center is not None
    extra = bending * shear_share(length, span.od_at(place), span.bore, both_ends=both_ends)
    if extra <= SHEAR_WORTH_SAYING:
        return ""
    return f"; shear of such short work, left out here, adds about {extra:.0%}"


def _lay_steady_force(held: HeldWork, steady_at: Length, force: Force, desk: Desk) -> None:
    beam = held.beam(steady_at)
    reaction = max(abs(beam.reactions(force, x)[1]) for x in held.cut_places())
    desk.computed(
        "holding.steady.force",
        "Force on the steady rest from the cut",
        reaction,
        "force",
        "{F} × {share of it}",
        {"F": (force, "force"), "share of it": (reaction / force, "ratio")},
        BEAM,
        rounds="up",
    )


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
        spindle_speed, critical, house, held.job.holding.chuck.grip, desk,
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
