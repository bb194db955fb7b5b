"""What warming does: growth between chuck and center, under the steady rest, and in what is measured.

Where nobody said how warm the work gets, the figures are for each 10 °C, and stand only where that matters.
"""

from __future__ import annotations

import math

from generator.calc.heat import axial_stiffness, growth, held_force
from generator.calc.modes import buckling_push
from generator.calc.sections import section_area
from generator.job.model import Mate
from generator.job.written import Given
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.figure import Quantity
from generator.sheet.holding.case import Case
from generator.sheet.plans import ThreadPlan
from generator.sheet.wording import fine_words, force_words, length_words, rise_words
from generator.si import Force, Length, um
from generator.tables.materials import MaterialRow

EACH = 10.0        # K, for which the figures stand where nobody said how warm the work gets
SWELLS = 5 * um     # on radius, less does not change how fingers bear; common practice, no source
MATTERS = 0.1      # of the tolerance: less is lost in measuring; common practice, no source
MILLION = 1e6
DEGREE = {"inch": 5 / 9, "mm": 1.0}  # K in a degree of the job's own thermometer
GERE = later("Gere, Mechanics of Materials, 5th ed., sec. 2.5")
ISO_1 = later("ISO 1: sizes hold at 20 °C")
EACH_DEGREES = later("figures for each 10 °C; common practice, no source")
MEASURED = (
    ("over_wires", later("Size over wires")), ("between_balls", later("Size between balls")),
)


def heat_section(case: Case) -> None:
    """Lay down what grows while the work is cut and measured warm.

    Raises
    ------
    OutsideRange
        When a bore leaves no wall.
    """
    material, said = case.bench.material, case.bench.job.heat
    if material is None:
        if said.cutting is not None or said.measuring is not None:
            case.desk.unknown("heat.growth", say("Growth"), "fine_length", say("the material is unknown"))
        return
    _cutting(case, material)
    _measuring(case, material)


def _rise(desk: Desk, name: str, label: str, said: Given | None) -> float:
    """How much warmer, as the job says or for each 10 °C (K)."""
    if said is not None:
        return desk.given(name, label, said, "temperature_rise")
    return desk.chosen(name, label, None, EACH, "temperature_rise", EACH_DEGREES)


def _lay_growth(
    case: Case, name: str, label: str, size: Length, rise: float, material: MaterialRow, note: str,
    *, rounds: str = "up",
) -> Length:
    """Growth of a size with its working; the expansion stands in millionths a degree of the job's own."""
    put: dict[str, tuple[float, Quantity]] = {
        "size": (size, "length"),
        "expansion in millionths a degree": (
            material.expansion * DEGREE[case.bench.system] * MILLION, "ratio",
        ),
        "warmer by": (rise, "temperature_rise"),
    }
    return case.desk.computed(
        name, label, growth(size, rise, material.expansion), "fine_length",
        "{size} × {expansion in millionths a degree} × {warmer by} ÷ 1000000", put,
        f"{GERE}; {material.source}", note=note, rounds=rounds,
    )


# -- while it is cut ------------------------------------------------------------------------------------


def _cutting(case: Case, material: MaterialRow) -> None:
    holding, at = case.bench.job.holding, case.plan.steady_at
    stick_out = case.bench.layout.stick_out
    said = case.bench.job.heat.cutting
    journal = _journal(case, material) if at is not None and 0 < at < stick_out else None
    if stick_out <= 0 or (holding.center is None and journal is None):
        return
    rise = _rise(case.desk, "heat.cutting", say("Work warmer while it is cut"), said)
    if holding.center is not None:
        _lay_between(case, material, rise)
    if journal is not None:
        _lay_growth(
            case, "heat.steady_swell", say("Swelling under the steady rest, on radius"), journal / 2, rise,
            material,
            say("fingers set on cold work bear harder by so much: set them again after the first heavy cut"),
        )


def _journal(case: Case, material: MaterialRow) -> Length | None:
    """Diameter under the steady rest (m), where the job says how warm it gets or it swells enough to tell."""
    at = case.plan.steady_at
    span = case.bench.layout.span_at(at) if at is not None else None
    if span is None or at is None:
        return None
    diameter = span.od_at(at)
    swells = growth(diameter / 2, EACH, material.expansion) >= SWELLS
    return diameter if swells or case.bench.job.heat.cutting is not None else None


def _lay_between(case: Case, material: MaterialRow, rise: float) -> None:
    """Growth between chuck and center, and, of a warmth that somebody said, the most that it can push."""
    desk, bench = case.desk, case.bench
    ends = (
        say("between the centers")
        if bench.job.holding.centers is not None
        else say("between chuck and center")
    )
    longer = _lay_growth(
        case, "heat.growth", say("Growth {ends}", ends=ends), bench.layout.stick_out, rise, material,
        say("ease the center and set it again as the work warms"),
    )
    said = bench.job.heat.cutting
    if said is None:  # for each 10 °C the push is only an alarm: nobody knows how warm it gets
        return
    pieces = [
        (one.end - one.start, section_area(one.od, one.bore))
        for one in case.held.beam(case.plan.steady_at).segments
    ]
    stiffness = axial_stiffness(pieces, material.elastic_modulus)
    push = desk.figures.get("give.center.push")
    beside = (
        say(
            ", beside the {force} that the center is set with", force=force_words(push.value, bench.system)
        )
        if push is not None and isinstance(push.value, float)
        else ""
    )
    thrust = desk.computed(
        "heat.thrust",
        say("Push on the center if nothing gave"),
        held_force(longer, stiffness),
        "force",
        "{growth} × {stiffness along}",
        {"growth": (longer, "fine_length"), "stiffness along": (stiffness, "stiffness")},
        say("{gere}; stiffness E ÷ Σ (length ÷ section) of the finished work", gere=GERE),
        rounds="up",
        note=say(
            "the most it can be{beside}: chuck, center and quill give, and jaws let the work slide",
            beside=beside,
        ),
    )
    bows = _bows_words(case, material, thrust)
    desk.find(
        "ease-center", "check",
        say("{rise} warmer, the work grows {growth} {ends}. If nothing gave, that would push with "
            "{thrust}{beside}.{bows} Ease the center and set it again as the work warms.",
            rise=rise_words(rise, bench.system), growth=fine_words(longer, bench.system), ends=ends,
            thrust=force_words(thrust, bench.system), beside=beside, bows=bows),
        said.where,
    )


def _bows_words(case: Case, material: MaterialRow, thrust: Force) -> str:
    """Of work so slender that it gives way to the push by bowing out: from which push on."""
    most = buckling_push(case.held.beam(case.plan.steady_at))
    if thrust <= most:
        return ""
    case.desk.computed(
        "heat.buckling", say("Push that buckles the work"), most, "force",
        say("lowest P of det(K − P K_g) = 0 for beam elements with {stick-out}, {E}"),
        {
            "stick-out": (case.bench.layout.stick_out, "length"), "E": (material.elastic_modulus, "pressure"),
        },
        say("beam elements (Cook et al.); Timoshenko and Gere, Theory of Elastic Stability"), rounds="down",
        note=say("straight work, on its supports as soft as they are"),
    )
    return say(
        " It would not bear that: from {force} on it bows out.", force=force_words(most, case.bench.system)
    )


# -- while it is measured -------------------------------------------------------------------------------


def _measuring(case: Case, material: MaterialRow) -> None:
    said, thread = case.bench.job.heat.measuring, case.bench.thread
    plain = _plain_diameter(case)
    of_thread = thread is not None and (
        said is not None
        or growth(thread.target, EACH, material.expansion) >= MATTERS * _tolerance(thread)
    )
    allowed = case.bench.job.limits.diameter
    of_plain = plain is not None and (
        said is not None
        or (allowed is not None and growth(plain, EACH, material.expansion) >= MATTERS * allowed.si)
    )
    if not of_thread and not of_plain:
        return
    rise = _rise(case.desk, "heat.measuring", say("Work warmer than 20 °C when it is measured"), said)
    if of_plain:
        assert plain is not None
        _lay_growth(
            case,
            "heat.diameter_growth",
            say("Largest turned or bored diameter reads larger by"),
            plain,
            rise,
            material,
            say("at {size}; {iso_1}", size=length_words(plain, case.bench.system), iso_1=ISO_1),
            rounds="nearest",
        )
    if of_thread:
        assert thread is not None
        _lay_thread(case, thread, material, rise)


def _tolerance(thread: ThreadPlan) -> Length:
    """Tolerance of the pitch diameter (m); without end where no standard limits it."""
    return thread.pitch_diameter_max - thread.pitch_diameter_min or math.inf


def _plain_diameter(case: Case) -> Length | None:
    """The largest diameter that the route turns or bores (m); None without one."""
    sizes = [plan.to_diameter for plan in case.route.plans if plan.name in ("turn", "bore")]
    return max((size for size in sizes if size > 0), default=None)


def _lay_thread(case: Case, thread: ThreadPlan, material: MaterialRow, rise: float) -> None:
    """Limits of the thread as they read on warm work, and what warming does to the fit."""
    desk, said = case.desk, case.bench.job.heat.measuring
    larger = _lay_growth(
        case,
        "heat.pitch_growth",
        say("Pitch diameter reads larger by"),
        thread.target,
        rise,
        material,
        say("the gauge at 20 °C; at 20 °C the size is so much smaller ({iso_1})", iso_1=ISO_1),
        rounds="nearest",
    )
    _lay_pair(case, thread, "pitch_diameter", say("Pitch diameter"), larger)
    for name, label in MEASURED:
        if f"thread.{name}.max" in desk.figures:
            _lay_pair(case, thread, name, label, larger)
    _lay_mate(case, thread, material, rise)
    share = larger / _tolerance(thread)
    if share < MATTERS:
        return
    desk.find(
        "heat-measure", "check" if said else "note",
        say("Measured {rise} over 20 °C (68 °F), the pitch diameter reads {larger} larger, {share:.0%} of "
            "its tolerance. Let the work cool before it is measured, or measure to the limits on the warm "
            "work, under Heat.{fit}",
            rise=rise_words(rise, case.bench.system), larger=fine_words(larger, thread.system), share=share,
            fit=_fit_words(case, thread)),
        said.where if said else case.bench.job.work[0].length.where,
    )


def _fit_words(case: Case, thread: ThreadPlan) -> str:
    if not isinstance(case.bench.job.mate, Mate):
        return ""
    if thread.internal:
        return say(" Try the mate when both are equally warm: what goes on warm may seize as it cools.")
    return say(" Try the mate when both are equally warm: what fits warm is loose when it is cold.")


def _lay_pair(case: Case, thread: ThreadPlan, name: str, label: str, larger: Length) -> None:
    """Both limits of something measured, as they read on warm work."""
    for end, rounds in (("max", "down"), ("min", "up")):
        figure = case.desk.figures.get(f"thread.{name}.{end}")
        if figure is None or not isinstance(figure.value, float):
            continue  # no standard limits it
        cold = figure.value
        case.desk.computed(
            f"heat.{name}.{end}",
            say("{label} on the warm work, {end}", label=label, end=end),
            cold + larger,
            "length",
            "{at 20 °C} + {growth}",
            {"at 20 °C": (cold, "length"), "growth": (larger, "fine_length")},
            ISO_1,
            rounds=rounds,
            system=thread.system,
        )


def _lay_mate(case: Case, thread: ThreadPlan, material: MaterialRow, rise: float) -> None:
    """What becomes of the play when work and mate of different materials warm together."""
    other = case.bench.mate_material
    if other is None or other.expansion == material.expansion:
        return
    own = growth(thread.target, rise, material.expansion)
    mate = _lay_growth(
        case, "heat.mate_growth", say("The mate grows at its pitch diameter"), thread.target, rise, other,
        say("as warm as the work; it is {group}", group=other.group), rounds="nearest",
    )
    nut, screw = (own, mate) if thread.internal else (mate, own)
    case.desk.computed(
        "heat.play_change", say("Play changes when both are as warm"), nut - screw, "fine_length",
        "{nut} − {screw}", {"nut": (nut, "fine_length"), "screw": (screw, "fine_length")}, say("arithmetic"),
        note=say("more play when both are warm") if nut > screw else say("less play when both are warm"),
        system=thread.system,
    )
