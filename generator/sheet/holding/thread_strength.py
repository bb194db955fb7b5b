"""What the thread has to carry a load with: areas in tension and in shear, and how long it engages."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from generator.calc import thread_area as calc
from generator.errors import OutsideRange
from generator.job.model import Mate
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.figure import Kind, Quantity
from generator.sheet.holding.case import Case
from generator.sheet.holding.yield_share import NO_CHECK, Stress
from generator.sheet.mate_limits import mate_thread
from generator.sheet.plans import ThreadPlan
from generator.sheet.wording import length_words
from generator.si import Area, Force, Length, MPa
from generator.threads.registry import (
    Designation,
    ThreadLimits,
    limits,
    mate_of,
    profile,
    write_designation,
)

PRACTICE = later("common practice, no source")
LEAST_LEFT = 0.5  # pitches between the ends of a thread, for it to engage at all
TRIFLE = 1 * MPa  # in the threads: under it nobody asks how much engages; common practice, no source
UNEVEN = later("spread evenly, though the first threads carry more")
UNKNOWN: tuple[tuple[str, str, Quantity], ...] = (
    ("shear_area.external", later("Area in which the screw's threads shear"), "area"),
    ("shear_area.internal", later("Area in which the nut's threads shear"), "area"),
)


@dataclass(frozen=True)
class Sizes:
    """The limits at which screw and nut have least to shear (m), and the words for the mate's."""

    nut_minor: Length
    nut_pitch: Length
    screw_pitch: Length
    screw_major: Length
    words: str


@dataclass(frozen=True)
class Wanted:
    """The engagement wanted (m), and the words for the materials it was worked out for."""

    length: Length
    materials: str


def lay_thread_strength(case: Case, thread: ThreadPlan, pull: Force) -> list[Stress]:
    """Lay down the thread's areas, its stresses under the pull (N), and the engagement it wants.

    Raises
    ------
    OutsideRange
        When the bore leaves nothing of the screw.
    """
    if thread.profile.taper:
        why = say("a taper thread is not taken as one that carries a pull")
        case.desk.unknown("strength.stress_area", say("Tensile stress area of the thread"), "area", why)
        return []
    tension, of_screw = _lay_tension(case, thread, pull)
    engaged = _lay_engaged(case, thread)
    sizes = _sizes(case, thread)
    areas = None
    if engaged is not None and sizes is not None:
        areas = _lay_shear_areas(case.desk, thread, engaged, sizes)
    else:
        why = (
            say("nobody said how long it engages")
            if engaged is None
            else say("no standard here limits the mate")
        )
        for name, label, quantity in UNKNOWN:
            case.desk.unknown(f"strength.{name}", label, quantity, why)
    if engaged is None or areas is None:
        return [of_screw]
    of_threads = _lay_shear_stress(case, thread, pull, areas)
    wanted = _lay_equal(case, thread, tension, areas, engaged)
    if wanted is not None and engaged < wanted.length and max(one.counts for one in of_threads) > TRIFLE:
        _find_short(case, engaged, wanted)
    return [of_screw, *of_threads]


def _lay_tension(case: Case, thread: ThreadPlan, pull: Force) -> tuple[Area, Stress]:
    """The screw's stress area, less its bore, and the pull over it."""
    desk, nominal = case.desk, thread.designation.nominal * thread.designation.unit_si
    whose = say("the screw that goes in") if thread.internal else say("the thread")
    put: dict[str, tuple[float, Quantity]] = {
        "D": (nominal, "length"), "P": (thread.pitch, "fine_length"),
    }
    if thread.designation.family == "UN":
        area, formula = calc.stress_area_unified(nominal, thread.pitch), "0.7854 × ({D} − 0.9743 × {P})²"
        source = str(calc.H28)
    elif thread.designation.family == "M":
        area, formula = calc.stress_area_metric(nominal, thread.pitch), "0.7854 × ({D} − 0.9382 × {P})²"
        source = say("ISO 898-1, nominal stress area")
    else:
        pitch_diameter, minor = _least_of_screw(thread)
        area, formula = calc.stress_area_mean(pitch_diameter, minor), "0.7854 × (({d2} + {d3}) ÷ 2)²"
        put = {"d2": (pitch_diameter, "length"), "d3": (minor, "length")}
        source = say("ASME B1.5, rule of the tensile stress area")
    net = desk.computed(
        "strength.stress_area",
        say("Tensile stress area of {whose}", whose=whose),
        area,
        "area",
        formula,
        put,
        source,
        note=say("taken as solid") if thread.internal else "",
    )
    if thread.bore and not thread.internal:
        net = desk.computed(
            "strength.net_stress_area",
            say("The same, less the bore"),
            calc.net_stress_area(area, thread.bore),
            "area",
            "{A} − π ÷ 4 × {bore}²",
            {"A": (area, "area"), "bore": (thread.bore, "length")},
            say("geometry on the formula of solid screws"),
            rounds="down",
        )
    stress = desk.computed(
        "strength.screw_stress",
        say("Stress over the stress area of {whose}", whose=whose),
        pull / net,
        "pressure",
        "{F} ÷ {A}",
        {"F": (pull, "force"), "A": (net, "area")},
        say("statics"),
        rounds="up",
        note=say("root's stress concentration not in it; {no_check}", no_check=NO_CHECK),
    )
    return net, Stress(say("the stress in {whose}", whose=whose), stress, of_mate=thread.internal)


def _least_of_screw(thread: ThreadPlan) -> tuple[Length, Length]:
    """Least pitch and minor diameter of the screw (m), as far as the standard limits them."""
    own, unit = thread.designation, thread.designation.unit_si
    sizes = limits(mate_of(own)) if own.internal else thread.limits
    form, pitch = profile(own), thread.pitch
    pitch_diameter, minor = sizes.pitch_diameter.min, sizes.minor.min or sizes.minor.max
    return (
        own.nominal * unit - 2 * form.addendum * pitch if pitch_diameter is None else pitch_diameter * unit,
        own.nominal * unit - 2 * form.depth * pitch if minor is None else minor * unit,
    )


def _lay_engaged(case: Case, thread: ThreadPlan) -> Length | None:
    """How much thread engages (m): as the job says, else all of it less its ends."""
    mate, long = case.bench.job.mate, thread.start - thread.end
    name, label = "strength.engaged", say("Length of thread that engages")
    said = mate.engagement if isinstance(mate, Mate) else None
    if said is not None:
        return case.desk.computed(
            name, label, min(said.si, long), "length", say("the smaller of {engagement} and {thread length}"),
            {"engagement": (said.si, "length"), "thread length": (long, "length")}, say("the job file"),
            rounds="down", note=say("full threads: chamfers of either part are not taken off"),
        )
    ends = 1 if thread.relief_start is not None else 2
    if long <= (ends + LEAST_LEFT) * thread.pitch:
        case.desk.unknown(
            name, label, "length", say("nobody said, and the thread is hardly longer than its ends")
        )
        return None
    return case.desk.computed(
        name, label, long - ends * thread.pitch, "length", "{thread length} − {ends} × {P}",
        {"thread length": (long, "length"), "ends": (ends, "count"), "P": (thread.pitch, "fine_length")},
        PRACTICE, kind=Kind.ASSUMED, rounds="down",
        note=say("nobody said: all of it, less a pitch for the chamfer")
        + ("" if ends == 1 else say(" and one for the run-out")),
    )


# -- the sizes ---------------------------------------------------------------------------------------------


def _sizes(case: Case, thread: ThreadPlan) -> Sizes | None:
    """Limits of both on the weak side; the mate's as measured where it was."""
    mate = case.bench.job.mate if isinstance(case.bench.job.mate, Mate) else None
    named = mate_thread(mate, thread.designation) if mate else None
    other = named or _other_half(thread.designation)
    try:
        its = limits(other)
    except OutsideRange:
        return None
    if not (_limited(thread.limits) and _limited(its)):
        return None
    own, unit = thread.limits, thread.designation.unit_si
    measured = mate.pitch_diameter.si if mate and mate.pitch_diameter else None
    words = say("on the limits of this thread and of {text} that leave least", text=other.text)
    if not named:
        words += say(", taken for the mate's")
    if measured:
        words += say(", the mate's pitch diameter as measured")
    if thread.internal:
        return Sizes(
            max(_known(own.minor.max) * unit, thread.blank), thread.pitch_diameter_max,
            measured or _known(its.pitch_diameter.min) * unit, _major_min(its) * unit, words,
        )
    return Sizes(
        _known(its.minor.max) * unit, measured or _known(its.pitch_diameter.max) * unit,
        thread.pitch_diameter_min, min(_major_min(own) * unit, thread.blank), words,
    )


def _other_half(own: Designation) -> Designation:
    """The other half of the same thread, of the usual class beside this one."""
    other = mate_of(own)
    return replace(other, text=write_designation(other))


def _limited(sizes: ThreadLimits) -> bool:
    """True where the standard limits what shears: crests and pitch diameter, on the weak side."""
    if sizes.designation.internal:
        return None not in (sizes.minor.max, sizes.pitch_diameter.max)
    return None not in (sizes.major.min, sizes.pitch_diameter.min)


def _major_min(sizes: ThreadLimits) -> float:
    return _known(sizes.major.min)


def _known(size: float | None) -> float:
    assert size is not None, "the standard limits this diameter of every such thread"
    return size


# -- shear -------------------------------------------------------------------------------------------------


def _lay_shear_areas(
    desk: Desk, thread: ThreadPlan, engaged: Length, sizes: Sizes
) -> tuple[Area, Area] | None:
    """Areas of screw and nut; None where the two do not meet."""
    try:
        slope = math.tan(thread.half_angle)
        screw = calc.screw_shear_area(thread.pitch, engaged, sizes.nut_minor, sizes.screw_pitch, slope)
        nut = calc.nut_shear_area(thread.pitch, engaged, sizes.screw_major, sizes.nut_pitch, slope)
    except OutsideRange as error:
        for name, label, quantity in UNKNOWN:
            desk.unknown(f"strength.{name}", label, quantity, error.source)
        return None
    common: dict[str, tuple[float, Quantity]] = {
        "L": (engaged, "length"), "P": (thread.pitch, "fine_length"),
    }
    note, shears = f"{sizes.words}; {UNEVEN}", "π × {L} ÷ {P} ×"
    for (name, label, _), value, formula, put in (
        (UNKNOWN[0], screw, f"{shears} {{D1 max}} × ({{P}} ÷ 2 + {slope:.5f} × ({{d2 min}} − {{D1 max}}))",
         {"D1 max": sizes.nut_minor, "d2 min": sizes.screw_pitch}),
        (UNKNOWN[1], nut, f"{shears} {{d min}} × ({{P}} ÷ 2 + {slope:.5f} × ({{d min}} − {{D2 max}}))",
         {"d min": sizes.screw_major, "D2 max": sizes.nut_pitch}),
    ):
        diameters: dict[str, tuple[float, Quantity]] = {key: (size, "length") for key, size in put.items()}
        desk.computed(
            f"strength.{name}", label, value, "area", formula, {**common, **diameters},
            calc.H28, rounds="down", note=note,
        )
    return screw, nut


def _lay_shear_stress(
    case: Case, thread: ThreadPlan, pull: Force, areas: tuple[Area, Area]
) -> list[Stress]:
    stresses = []
    for name, whose, area, of_mate in (
        ("external", say("the screw's threads"), areas[0], thread.internal),
        ("internal", say("the nut's threads"), areas[1], not thread.internal),
    ):
        value = case.desk.computed(
            f"strength.shear_stress.{name}",
            say("Shear stress of {whose}", whose=whose),
            pull / area,
            "pressure",
            "{F} ÷ {A}",
            {"F": (pull, "force"), "A": (area, "area")},
            say("statics"),
            rounds="up",
            note=f"{UNEVEN}; {NO_CHECK}",
        )
        stresses.append(Stress(say("the stress of {whose}", whose=whose), value, shear=True, of_mate=of_mate))
    return stresses


# -- engagement --------------------------------------------------------------------------------------------


def _lay_equal(
    case: Case, thread: ThreadPlan, tension: Area, areas: tuple[Area, Area], engaged: Length
) -> Wanted | None:
    """The engagement at which the threads shear no sooner than the screw pulls; None where not known."""
    desk, bench = case.desk, case.bench
    name, label = (
        "strength.engagement_equal",
        say("Engagement at which the threads hold as long as the screw"),
    )
    strengths = _strengths(case, thread)
    if strengths is None:
        why = say("the mate is of another material, and a yield strength is not in the shop's list")
        desk.unknown(name, label, "length", why)
        return None
    (screw, nut), ratio = areas, calc.strength_ratio(*areas, *strengths)
    screw_side = ratio <= 1
    put: dict[str, tuple[float, Quantity]] = {
        "A t": (tension, "area"), "A s": (screw if screw_side else nut, "area"), "L": (engaged, "length"),
    }
    formula = "2 × {A t} × {L} ÷ {A s}"
    if not screw_side and strengths[0] != strengths[1]:
        formula += " × {strength of screw} ÷ {strength of nut}"
        put["strength of screw"] = (strengths[0], "pressure")
        put["strength of nut"] = (strengths[1], "pressure")
    of_same = isinstance(bench.job.mate, Mate) and bench.job.mate.material is not None
    equal = strengths[0] == strengths[1]
    materials = (
        ""
        if not equal
        else say("one material on both sides")
        if of_same
        else say("one material on both sides, as nobody said the mate's")
    )
    first = say("the screw's threads shear first") if screw_side else say("the nut's threads shear first")
    wanted = desk.computed(
        name,
        label,
        calc.equal_strength_engagement(tension, screw, engaged, ratio),
        "length",
        formula,
        put,
        calc.H28,
        rounds="up",
        kind=Kind.COMPUTED if of_same or not equal else Kind.ASSUMED,
        note="; ".join(one for one in (materials, first) if one),
    )
    return Wanted(wanted, materials)


def _find_short(case: Case, engaged: Length, wanted: Wanted) -> None:
    bench, mate = case.bench, case.bench.job.mate
    said = mate.engagement if isinstance(mate, Mate) else None
    case.desk.find(
        "strength-engagement", "check",
        say("{engaged} of thread engages; for threads that shear no sooner than the screw pulls apart "
            "{wanted} is wanted{materials}. Say so to whoever decides what the part may carry, before the "
            "thread is cut.",
            engaged=length_words(engaged, bench.system), wanted=length_words(wanted.length, bench.system),
            materials=f" ({wanted.materials})" if wanted.materials else ""),
        said.where if said else bench.job.work[0].length.where,
        say("Is the length of thread that engages enough for the load?"),
    )


def _strengths(case: Case, thread: ThreadPlan) -> tuple[float, float] | None:
    """Yield strengths of screw and nut, alike where one material is said or nobody said; None not known."""
    bench, mate = case.bench, case.bench.job.mate
    if not isinstance(mate, Mate) or mate.material is None or mate.material == bench.job.material:
        return 1.0, 1.0
    own, other = bench.shop_material, bench.mate_shop_material
    if own is None or other is None or own.yield_strength is None or other.yield_strength is None:
        return None
    pair = (own.yield_strength.si, other.yield_strength.si)
    return (pair[1], pair[0]) if thread.internal else pair
