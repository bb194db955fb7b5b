"""The figures of thin work in jaws: wall, stiffness, out-of-round gripped and let go, grip, stress."""

from __future__ import annotations

from generator.calc import ring, ring_forces
from generator.calc.curved_beam import (
    bore_stress,
    outside_stress,
    thick_load_share,
    thick_midway_share,
    thick_moment_at_load,
)
from generator.calc.lobes import moment_share
from generator.job.model import Chuck
from generator.language.say import later, say
from generator.sheet.figure import Quantity
from generator.sheet.head import FACE_WORDS
from generator.sheet.holding.case import Case
from generator.sheet.holding.thin_hold import (
    ALLOWED_SHARE,
    Held,
    Pressing,
    hold,
    jaw_arc,
    jaw_width,
    tolerance_of,
    width_arc,
)
from generator.sheet.holding.thin_tube import Squeezed
from generator.si import Length, Pressure, mm

ALLOWED = 0.010 * mm   # where nobody said; common practice, no source
PRACTICE = later("common practice, no source")
RING = later(
    "Roark's Formulas for Stress and Strain, 7th ed., table 9.2; Timoshenko, Strength of Materials II"
)
TUBE = later("matrix solution of the tube as a beam on an elastic foundation, Hetényi (1946)")
OUT_OF_ROUND = later("Out-of-round in the jaws, while gripped")
RADII = later("largest less smallest radius")
LOBED = {3: later("three-lobed"), 4: later("four-lobed"), 6: later("six-lobed")}
KINDS = (
    ("three_jaws", later("Out-of-round kept, with three jaws"), 3, "hard"),
    ("four_jaws", later("Out-of-round kept, with four jaws"), 4, "hard"),
    ("six_jaws", later("Out-of-round kept, with six jaws"), 6, "hard"),
    ("soft_jaws", later("Out-of-round kept, with soft jaws bored to the work"), None, "soft"),
    ("pie_jaws", later("Out-of-round kept, with pie jaws"), None, "pie"),
)

Put = dict[str, tuple[float, Quantity]]


def lay_wall(case: Case, tube: Squeezed) -> None:
    """Lay the wall, and its share of the outside diameter."""
    wall = case.desk.computed(
        "thin.wall",
        say("Wall in the {face_words}", face_words=FACE_WORDS[case.bench.job.holding.held.kind]),
        tube.wall,
        "length",
        "({outside} − {bore}) ÷ 2",
        {"outside": (tube.od, "length"), "bore": (tube.bore, "length")},
        say("geometry"),
        rounds="down",
        note=say("of the finished work, a thread down to its root"),
    )
    case.desk.computed(
        "thin.wall_share", say("Wall over outside diameter"), tube.wall_share, "ratio", "{wall} ÷ {outside}",
        {"wall": (wall, "length"), "outside": (tube.od, "length")}, say("geometry"),
        note=say("up to 0.1 a wall is thin: common practice, no source"),
    )


def lay_arc(case: Case, held: Chuck, how: Held) -> None:
    """Lay how much of the work one soft or pie jaw bears on; hard jaws bear on a line."""
    if not how.half_arc:
        return
    width, across = jaw_width(case), how.tube.bore if held.inside else how.tube.od
    label = say("Arc of the work that one jaw bears on")
    note = say("bored to the very diameter of the work; jaws bored larger bear in their middle only")
    if not held.pie_jaws and width is not None and how.half_arc == width_arc(width, across):
        case.desk.computed(
            "thin.jaw_arc",
            label,
            2 * how.half_arc,
            "angle",
            say("2 × arcsin({width of a jaw} ÷ {diameter})"),
            {"width of a jaw": (width, "length"), "diameter": (across, "length")},
            say("geometry"),
            note=note,
        )
        return
    so = say("soft jaws that bear on half of the work")
    if held.pie_jaws:
        so = say("5 mm between two pie jaws")
    elif width is not None:
        so = say("5 mm between two so wide soft jaws")
    case.desk.chosen(
        "thin.jaw_arc", label, None, 2 * how.half_arc, "angle", f"{so}: {PRACTICE}; {note}"
    )


def lay_stiffness(case: Case, how: Held) -> Length:
    """Lay the force of all jaws over their out-of-round, with ring and length; the length that takes part."""
    tube, thin = how.tube, ring.out_of_round_share(how.n)
    size = (tube.radius, tube.wall)
    thick = thick_load_share(how.n, *size) + thick_midway_share(how.n, *size)
    case.desk.computed(
        "thin.ring", say("Ring factor: out-of-round over W R³ ÷ (E I)"), thick, "ratio",
        "{thin ring} × {what its thickness adds}",
        {"thin ring": (thin, "ratio"), "what its thickness adds": (thick / thin, "ratio")}, RING,
        note=say("{n} equal loads W; R mean radius; curved beam with hoop force and shear", n=how.n),
    )
    gripped = tube.end - tube.start
    length = ring.deflection(thick, 1.0, tube.radius, tube.wall, 1.0, how.modulus) / how.points
    case.desk.computed(
        "thin.length",
        say("Length of ring that takes part"),
        length,
        "length",
        "{gripped} × {that and what helps beside it}",
        {
            "gripped": (gripped, "length"),
            "that and what helps beside it": (length / gripped, "ratio"),
        },
        TUBE,
        note=say(
            "matrix solution from the tube's mean radius, wall, grip and length; thicker lengths, a flange "
            "or a bottom help more than is worked out here"
        ),
    )
    put: Put = {
        "jaws": (float(how.n), "count"), "E": (how.modulus, "pressure"), "length": (length, "length"),
        "t": (tube.wall, "length"), "ring factor": (thick, "ratio"), "R": (tube.radius, "length"),
    }
    below = "12 × {ring factor} × {R}³"
    if how.half_arc:
        put["what arcs leave of it"] = (how.in_jaws / how.points, "ratio")
        below += " × {what arcs leave of it}"
    case.desk.computed(
        "thin.stiffness", say("Stiffness: force of all jaws over out-of-round"), how.stiffness, "stiffness",
        f"{{jaws}} × {{E}} × {{length}} × {{t}}³ ÷ ({below})", put, RING, rounds="down",
        note=say("t is the wall, R its mean radius"),
    )
    return length


def lay_out_of_round(case: Case, held: Chuck, how: Held, force: Pressing) -> None:
    """Lay the out-of-round in the jaws."""
    way = say("pushed out at the jaws") if held.inside else say("pressed in at the jaws")
    case.desk.computed(
        "thin.out_of_round", OUT_OF_ROUND, force.force / how.stiffness, "fine_length",
        f"{{{force.words}}} ÷ {{stiffness}}",
        {force.words: (force.force, "force"), "stiffness": (how.stiffness, "stiffness")}, RING, rounds="up",
        note=f"{RADII}; {LOBED[how.n]}, {way}",
    )


def lay_size_change(
    case: Case, tube: Squeezed, modulus: Pressure, force: Pressing, *, inside: bool
) -> Length:
    """Lay what the even part of the squeeze does to a diameter turned to size in the jaws."""
    gripped = tube.end - tube.start
    return case.desk.computed(
        "thin.size_change",
        say("Diameter turned in the grip, smaller once let go by") if inside
        else say("Diameter turned in the grip, larger once let go by"),
        ring_forces.diameter_change(force.force, tube.radius, tube.wall, gripped, modulus), "fine_length",
        f"{{{force.words}}} × {{R}} ÷ (π × {{gripped}} × {{t}} × {{E}})",
        {
            force.words: (force.force, "force"), "R": (tube.radius, "length"), "gripped": (gripped, "length"),
            "t": (tube.wall, "length"), "E": (modulus, "pressure"),
        },
        say("Hooke's law; hoop force of a ring, Timoshenko, Strength of Materials II"), rounds="up",
        note=say("on its mean over all directions, at most: the tube beside the grip helps"),
    )


def lay_stress(case: Case, how: Held, force: Pressing, length: Length) -> Pressure:
    """Lay the largest stress of the wall: bending of the length that takes part, and hoop force."""
    tube, each = how.tube, force.force / how.n
    gripped = tube.end - tube.start
    moment = thick_moment_at_load(each, tube.radius, tube.wall, how.n) * moment_share(how.n, how.half_arc)
    size = (tube.radius, tube.wall, length)
    bending = max(abs(one(moment, 0.0, *size)) for one in (bore_stress, outside_stress))
    straight = ring_forces.bending_stress(moment, tube.wall, length)
    hoop = ring_forces.hoop_midway(each, how.n)
    return case.desk.computed(
        "thin.stress",
        say("Largest stress of the wall under the jaws"),
        bending + hoop / (gripped * tube.wall),
        "pressure",
        "6 × {curved wall} × {moment over W R} × {W} × {R} ÷ ({length} × {t}²) "
        "+ {hoop force} ÷ ({gripped} × {t})",
        {
            "curved wall": (bending / straight, "ratio"),
            "W": (each, "force"),
            "moment over W R": (moment / (each * tube.radius), "ratio"),
            "R": (tube.radius, "length"),
            "length": (length, "length"),
            "t": (tube.wall, "length"),
            "hoop force": (hoop, "force"),
            "gripped": (gripped, "length"),
        },
        RING,
        rounds="up",
        note=say("W is the force of one jaw; the dent under it left out: not a design check"),
    )


def lay_kept(case: Case, how: Held, force: Pressing, inside: bool, share: float) -> Length:
    """Lay what a bore, or an outside, that is turned round in these jaws keeps when let go."""
    low = min(cut.low for cut in how.cuts if cut.inside == inside)
    where = say("in the jaws") if low < how.tube.end else say("at the end of the cut nearer to the jaws")
    return case.desk.computed(
        "thin.kept.bore" if inside else "thin.kept.outside",
        say("Out-of-round that the bore keeps, let go") if inside
        else say("Out-of-round that the outside keeps, let go"),
        force.force / how.stiffness * share,
        "fine_length",
        f"{{{force.words}}} ÷ {{stiffness}} × {{share at the cut}}",
        {
            force.words: (force.force, "force"),
            "stiffness": (how.stiffness, "stiffness"),
            "share at the cut": (share, "ratio"),
        },
        f"{RING}; {TUBE}",
        rounds="up",
        note=say(
            "turned round in these jaws; {radii}; {lobed}; most {where}",
            radii=RADII,
            lobed=LOBED[how.n],
            where=where,
        ),
    )


def lay_allowed(case: Case) -> Length:
    """Lay the out-of-round that may be left: the customer's, a quarter of a tolerance, or assumed."""
    said, desk, tolerance = case.bench.job.limits.round, case.desk, tolerance_of(case)
    name, label = "thin.allowed", say("Out-of-round that may be left")
    if said is not None:
        return desk.given(name, label, said, "fine_length", note=RADII)
    if tolerance is None:
        return desk.chosen(name, label, None, ALLOWED, "fine_length", PRACTICE)
    width, whose = tolerance[0], tolerance[1].english
    return desk.computed(
        name, label, ALLOWED_SHARE * width, "fine_length", f"{{{whose}}} ÷ 4",
        {whose: (width, "fine_length")}, PRACTICE, rounds="down", note=RADII,
    )


def lay_largest(case: Case, how: Held, allowed: Length, share: float) -> float:
    """Lay the largest grip that leaves no more than is allowed."""
    return case.desk.computed(
        "thin.largest_grip",
        say("Largest grip that leaves no more"),
        allowed * how.stiffness / share,
        "force",
        "{allowed} × {stiffness} ÷ {share at the cut}",
        {
            "allowed": (allowed, "fine_length"),
            "stiffness": (how.stiffness, "stiffness"),
            "share at the cut": (share, "ratio"),
        },
        RING,
        rounds="down",
        note=say("all jaws together"),
    )


def lay_kinds(case: Case, held: Chuck, how: Held, force: Pressing) -> dict[str, Length]:
    """Lay what other jaws would leave at the same force; what each leaves, by its key."""
    found = {}
    for key, label, jaws, kind in KINDS:
        n = jaws or how.n
        arc = jaw_arc(case, how.tube, n, kind, inside=held.inside)
        other = hold(how.tube, n, arc, how.modulus, how.cuts)
        share = other.share(how.cuts)
        found[key] = case.desk.computed(
            f"thin.with.{key}", label, force.force / other.stiffness * share, "fine_length",
            f"{{{force.words}}} ÷ {{stiffness so held}} × {{share at the cut}}",
            {
                force.words: (force.force, "force"), "stiffness so held": (other.stiffness, "stiffness"),
                "share at the cut": (share, "ratio"),
            },
            f"{RING}; {TUBE}", rounds="up", note=say("at the same force of all jaws together"),
        )
    return found
