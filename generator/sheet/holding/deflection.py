"""How far the held work gives under the cut, and what the steady rest carries."""

from __future__ import annotations

from generator.calc.slenderness import shear_share
from generator.sheet.desk import Desk
from generator.sheet.holding.case import Case
from generator.sheet.holding.held_work import HeldWork
from generator.sheet.model import PlotScene, Quantity
from generator.sheet.plans import PassPlan
from generator.sheet.wording import fine_words, length_words
from generator.si import Force, Length, g_n

LEAST_GIVE = 1e-12  # m/N, at a rigid support: a micrometre under a meganewton is nothing
BEAM = "beam elements (Cook et al.), chuck and steady elastic, center rigid"
PRACTICE = "common practice, no source"
ERROR_SHARE = 0.25  # of the pitch diameter tolerance; common practice, no source
SHEAR_WORTH_SAYING = 0.05  # of the deflection

STIFFNESSES = ("holding.chuck_stiffness", "holding.steady_stiffness")

UNKNOWN: tuple[tuple[str, str, Quantity], ...] = (
    ("holding.force", "Radial force of the heaviest cut", "force"),
    ("holding.deflection.max", "Deflection under the heaviest cut", "fine_length"),
    ("holding.diameter_error.max", "Diameter error from the last cut", "fine_length"),
)


def deflection_section(case: Case) -> tuple[PlotScene, ...]:
    """Lay down deflection along the cut and force on the steady rest with their findings; return the plots.

    Raises
    ------
    OutsideRange
        When the work cannot be taken as a beam.
    """
    held, steady_at, desk, cuts = case.held, case.plan.steady_at, case.desk, case.bench.cuts
    _lay_overhang(held, steady_at, desk)
    if held.material is None:
        for name, label, quantity in UNKNOWN:
            desk.unknown(name, label, quantity, "the material is unknown")
        return ()
    if steady_at is not None:
        _lay_weight_on_steady(held, steady_at, desk)
    thread = case.load_of("thread")
    if thread is not None and cuts is not None and cuts.largest_force is not None and held.cut_places():
        _lay_deflection(held, steady_at, cuts, cuts.largest_force, thread.heaviest.radial, desk)
    return ()


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
    held: HeldWork, steady_at: Length | None, cuts: PassPlan, largest: Force, radial: Force, desk: Desk
) -> None:
    share = radial / largest
    force = desk.computed(
        "holding.force",
        "Radial force of the heaviest cut",
        radial,
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
            held.job.holding.grip.where,
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


