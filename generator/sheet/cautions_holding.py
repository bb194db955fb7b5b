"""Cautions that follow from how the work is held and supported, and from cuts that are interrupted."""

from __future__ import annotations

from generator.calc.slenderness import ALONE, BETWEEN
from generator.job.model import Centers, Chuck, Collet, CrossHole, Faceplate
from generator.sheet.caution_setup import PRACTICE, Setup
from generator.sheet.head import FACE_WORDS, HEAD_WORDS
from generator.sheet.lines import Caution
from generator.sheet.wording import length_words
from generator.si import Length

SAME = 1e-6  # m: a hole and its drilling nearer than this are one
THIN_WALL = 0.1  # wall over outside diameter; common practice, no source
GUARD = "OSHA letter of interpretation, 26 January 1979, citing ANSI B11.6"
HELD_IN = {
    "chuck": "The work is held in a chuck.", "collet": "The work is held in a collet.",
    "faceplate": "The work is clamped on a faceplate.", "centers": "The work turns between centers.",
}
KEEPS = {"chuck": "jaws keeps", "collet": "collet keeps", "faceplate": "clamps keeps"}
HAMMERED = ("turn", "taper", "bore", "groove", "relief", "knurl")  # cuts that feel a hole across the work


def bar_behind_spindle(setup: Setup) -> Caution | None:
    """Bar standing out of the back of the headstock."""
    behind = setup.job.holding.behind_spindle
    if behind is None:
        return None
    return Caution(
        "bar-behind-spindle",
        "DANGER",
        "Support and guard the bar behind the headstock over its whole length and keep people out of its "
        "way. Start at the lowest speed. An unsupported bar bends over in one moment and strikes.",
        f"{behind.with_unit} of bar stands out of the back of the spindle.",
        "Washington State FACE report 10WA01001; WorkSafe Victoria, Safe use of metal turning lathes",
    )


def what_turns(setup: Setup) -> Caution | None:
    """Always: keys and wrenches, sleeves and hair."""
    kind = setup.job.holding.held.kind
    away = "Keep sleeves, rings, gloves and long hair away from what turns."
    return Caution(
        "chuck-key" if kind == "chuck" else "what-turns",
        "WARNING",
        f"The hand stays on the chuck key until the key is out of the chuck. {away}" if kind == "chuck" else
        f"No wrench or key stays on what holds the work, not for a moment. {away}",
        HELD_IN[kind],
        "machine-safety texts; WorkSafe Victoria, Safe use of metal turning lathes",
    )


def dog_and_plate(setup: Setup) -> Caution | None:
    """A driving dog stands out from the work."""
    if not isinstance(setup.job.holding.held, Centers):
        return None
    return Caution(
        "dog",
        "WARNING",
        "Tail and screw of the dog catch sleeves, cloth and hands. Use a dog whose screw does not stand "
        "out, or guard it, and keep to its tailstock side. Nobody files or polishes near it.",
        "The work is driven by a dog.",
        GUARD,
    )


def between_centers(setup: Setup) -> Caution | None:
    """Two center holes are all that holds the work."""
    if not isinstance(setup.job.holding.held, Centers):
        return None
    return Caution(
        "between-centers",
        "WARNING",
        "Only the two centers hold this work. Lock tailstock and quill before the spindle starts, and "
        "never loosen them while it turns. A tool that digs in, or a center hole that is worn or too "
        "small, throws the work out: lighter cuts than in a chuck.",
        "The work turns between centers.",
        "Jones, Turning and Boring (1914), from memory; common practice",
    )


def faceplate(setup: Setup) -> Caution | None:
    """Clamps and bolts that turn in the open."""
    if not isinstance(setup.job.holding.held, Faceplate):
        return None
    return Caution(
        "faceplate",
        "WARNING",
        "Clamps, bolts and counterweight stand out and turn in the open: guard the plate, and keep out of "
        "its plane. Start at the lowest step. Stop after the first cut and tighten every bolt again, the "
        "counterweight's too.",
        "The work is clamped on a faceplate.",
        GUARD,
    )


def out_of_balance(setup: Setup) -> Caution | None:
    """A mass off the axis."""
    heavy = setup.job.holding.unbalance
    if heavy is None:
        return None
    return Caution(
        "unbalance",
        "WARNING",
        "Balance it before the spindle turns under power. Then begin at the lowest step and go up one at a "
        "time; at the first shaking go back. What shakes loosens its own clamps, and the lathe walks.",
        f"{heavy.mass.with_unit} turn {heavy.radius.with_unit} off the axis.",
        PRACTICE,
    )


def collet(setup: Setup) -> Caution | None:
    """A collet closes on one size only."""
    if not isinstance(setup.job.holding.held, Collet):
        return None
    return Caution(
        "collet",
        "CAUTION",
        "A collet holds work of its own size only, round, clean and without a ridge: on any other it grips "
        "at one end and lets go. Try by hand that the work neither turns nor pulls out. Never close it "
        "empty.",
        "The work is held in a collet.",
        PRACTICE,
    )


def inside_grip(setup: Setup) -> Caution | None:
    """Jaws that press outwards."""
    held = setup.job.holding.held
    if not isinstance(held, Chuck) or not held.inside:
        return None
    return Caution(
        "inside-grip",
        "CAUTION",
        "Jaws that open in a bore burst cast, hardened or thin work, and a ring that stretches lets go. "
        "Tighten by feel, with all jaws on the wall, and look for cracks before starting.",
        "The jaws grip from inside the bore.",
        PRACTICE,
    )


def steady_rest(setup: Setup) -> Caution | None:
    """A steady rest carries the work."""
    if setup.job.holding.steady is None:
        return None
    return Caution(
        "steady-rest",
        "WARNING",
        "Set the fingers with the spindle stopped: lower ones to touch, top shut and locked, then the top "
        "finger. Work turns freely without shake. Oil the fingers, and look again after the first cut: a "
        "warm journal grips and gets worse by itself. Off the spindle axis the work bends every turn and "
        "walks out of the chuck.",
        "The work runs in a steady rest.",
        "Jones, Turning and Boring (1914); US Army TC 9-524 ch. 7; workshop texts on steady rests",
    )


def nothing_holds_back(setup: Setup) -> Caution | None:
    """Steady without center or hold-back."""
    holding = setup.job.holding
    if holding.steady is None or holding.center is not None or holding.hold_back:
        return None
    keeps, at = KEEPS[holding.held.kind], FACE_WORDS[holding.held.kind]
    return Caution(
        "no-hold-back",
        "WARNING",
        f"Nothing but the {keeps} this work from walking towards the tailstock. Put on a hold-back, or "
        f"thrust the cut towards the headstock, and mark the work at the {at} to see it move.",
        "Steady rest, and no center at the tailstock end.",
        "Jones, Turning and Boring (1914), sec. 16",
    )


def dead_center(setup: Setup) -> Caution | None:
    """The work runs on a center that stands still."""
    if setup.job.holding.center != "dead":
        return None
    return Caution(
        "dead-center",
        "WARNING",
        "Grease the center and its hole. The work grows as it warms and presses on the center: ease it and "
        "grease it again after each heavy cut, and stop at once when it squeals or smokes. A center that "
        "burns off lets the work go.",
        "The center stands still while the work turns on it.",
        "US Army TC 9-524 ch. 7 and Jones, Turning and Boring (1914), both from memory; common practice",
    )


def long_stock(setup: Setup) -> Caution | None:
    """Stick-out over three diameters; between centers over ten."""
    at_jaws = setup.layout.span_at(0.0)
    if at_jaws is None:
        return None
    ratio = setup.layout.stick_out / at_jaws.od_start
    centers, kind = setup.job.holding.centers is not None, setup.job.holding.held.kind
    if ratio <= (BETWEEN if centers else ALONE):
        return None
    return Caution(
        "long-stock",
        "WARNING",
        "Long work whips. Do not start the spindle before the support is set and locked; keep to the speed "
        "on this sheet.",
        f"The work is {ratio:.1f} times as long between the centers as it is thick." if centers else
        f"The work stands out {ratio:.1f} times its diameter from the {FACE_WORDS[kind]}.",
        "machine-safety texts (support beyond three diameters)" + (f"; {PRACTICE}" if centers else ""),
    )


def screwed_nose(setup: Setup) -> Caution | None:
    """A screwed spindle nose with the half nuts kept closed."""
    if setup.lathe.spindle.nose != "screwed" or setup.levers is None:
        return None
    kind = setup.job.holding.held.kind
    if not setup.levers.keep_half_nuts_closed or kind == "collet":
        return None
    return Caution(
        "screwed-nose",
        "WARNING",
        "The half nuts stay closed, so the spindle is reversed to bring the carriage back: a "
        f"{HEAD_WORDS[kind]} screwed on the nose can unscrew. Let the spindle stop first, reverse gently at "
        f"the lowest speed, withdraw the tool, or use a {'chuck ' if kind == 'chuck' else ''}lock.",
        f"{setup.lathe.name} has a screwed spindle nose.",
        PRACTICE,
    )


def interrupted_cut(setup: Setup) -> Caution | None:
    """A cut over a hole across the work: the thread first, else the first operation that meets one."""
    thread, holes = setup.thread, setup.job.cross_holes
    for hole in holes if thread is not None else ():
        x = setup.layout.stick_out - hole.from_end.si
        if thread is not None and _meets(x, thread.end, thread.start, reach=hole.diameter.si):
            first = "Drill the hole after threading, or plug it."
            return _hammers(hole, first, "lies in the threaded length")
    for place, plan in enumerate(setup.route.plans):
        for hole in holes if plan.name in HAMMERED else ():
            x = setup.layout.stick_out - hole.from_end.si
            ends = sorted((plan.start, plan.end))
            if _meets(x, *ends, reach=hole.diameter.si / 2) and not _drilled_later(setup, place, x):
                title = setup.route.lines[place].title
                what = f"lies under operation {plan.number} ({title[:1].lower()}{title[1:]})"
                return _hammers(hole, "Drill the hole after this cut, or plug it.", what)
    return None


def _meets(x: Length, low: Length, high: Length, *, reach: Length) -> bool:
    return low - reach <= x <= high + reach


def _drilled_later(setup: Setup, place: int, x: Length) -> bool:
    """True when the route drills this hole only after the cut at that place of it."""
    later = setup.route.plans[place + 1 :]
    return any(one.name == "drill" and one.start == one.end and abs(one.start - x) < SAME for one in later)


def _hammers(hole: CrossHole, first: str, lies: str) -> Caution:
    """A cut runs over a hole across the work."""
    mate = " before the mate goes on" if "thread" in lies else ""
    return Caution(
        "cross-hole",
        "CAUTION",
        f"{first} Over an open hole the cut hammers: light cuts, firm grip, look at the center and the jaws "
        f"between passes, and deburr the hole's edges{mate}.",
        f"A {hole.diameter.with_unit} cross hole {lies}, {hole.from_end.with_unit} from the end.",
        PRACTICE,
    )


def thin_wall(setup: Setup) -> Caution | None:
    """A thin wall in the jaws."""
    at_jaws = setup.layout.span_at(0.0)
    squeezed = setup.job.holding.held.kind in ("chuck", "collet")
    if at_jaws is None or not at_jaws.bore or not squeezed:
        return None
    wall = (at_jaws.od_start - at_jaws.bore) / 2
    if wall / at_jaws.od_start > THIN_WALL:
        return None
    return Caution(
        "thin-wall",
        "CAUTION",
        "Grip lightly with soft jaws bored to the work, or plug the bore: every hard jaw presses a lobe into "
        "it, and a crushed wall lets go.",
        f"The wall in the {FACE_WORDS[setup.job.holding.held.kind]} is {length_words(wall, setup.system)}.",
        "Roark, ring under equal radial loads; common practice",
    )


def reversed_jaws(setup: Setup) -> Caution | None:
    """Jaws standing out beyond the chuck."""
    chuck = setup.job.holding.chuck
    if chuck is None or not (chuck.jaws == 4 or chuck.reversed or chuck.past_body):
        return None
    return Caution(
        "projecting-jaws",
        "CAUTION",
        "Jaws set by hand can stand out past the chuck's rim. Turn the chuck once by hand, check that all "
        "clears carriage and compound, and guard it where you can reach it.",
        f"The jaws stand out {chuck.past_body.with_unit} past the chuck's body." if chuck.past_body else
        "Independent or reversed jaws.",
        GUARD,
    )
