"""Cautions that follow from how the work is held and supported, and from cuts that are interrupted."""

from __future__ import annotations

from generator.calc.slenderness import ALONE, BETWEEN
from generator.job.model import Centers, Chuck, Collet, Faceplate
from generator.language.say import first_small, later, say
from generator.sheet.caution_setup import PRACTICE, Setup
from generator.sheet.head import FACE_WORDS, HEAD_WORDS
from generator.sheet.lines import Caution
from generator.sheet.wording import length_words
from generator.si import Length

SAME = 1e-6  # m: a hole and its drilling nearer than this are one
THIN_WALL = 0.1  # wall over outside diameter; common practice, no source
GUARD = later("OSHA letter of interpretation, 26 January 1979, citing ANSI B11.6")
HELD_IN = {
    "chuck": later("The work is held in a chuck."),
    "collet": later("The work is held in a collet."),
    "faceplate": later("The work is clamped on a faceplate."),
    "centers": later("The work turns between centers."),
}
KEEPS = {
    "chuck": later("Nothing but the jaws keeps this work from walking towards the tailstock."),
    "collet": later("Nothing but the collet keeps this work from walking towards the tailstock."),
    "faceplate": later("Nothing but the clamps keeps this work from walking towards the tailstock."),
}
HAMMERED = ("turn", "taper", "bore", "groove", "relief", "knurl")  # cuts that feel a hole across the work


def bar_behind_spindle(setup: Setup) -> Caution | None:
    """Bar standing out of the back of the headstock."""
    behind = setup.job.holding.behind_spindle
    if behind is None:
        return None
    return Caution(
        "bar-behind-spindle",
        "DANGER",
        say(
            "Support and guard the bar behind the headstock over its whole length and keep people out of its "
            "way. Start at the lowest speed. An unsupported bar bends over in one moment and strikes."
        ),
        say("{behind} of bar stands out of the back of the spindle.", behind=behind.with_unit),
        say("Washington State FACE report 10WA01001; WorkSafe Victoria, Safe use of metal turning lathes"),
    )


def what_turns(setup: Setup) -> Caution | None:
    """Always: keys and wrenches, sleeves and hair."""
    kind = setup.job.holding.held.kind
    away = say("Keep sleeves, rings, gloves and long hair away from what turns.")
    return Caution(
        "chuck-key" if kind == "chuck" else "what-turns",
        "WARNING",
        say("The hand stays on the chuck key until the key is out of the chuck. {away}", away=away)
        if kind == "chuck"
        else say("No wrench or key stays on what holds the work, not for a moment. {away}", away=away),
        HELD_IN[kind],
        say("machine-safety texts; WorkSafe Victoria, Safe use of metal turning lathes"),
    )


def dog_and_plate(setup: Setup) -> Caution | None:
    """A driving dog stands out from the work."""
    if not isinstance(setup.job.holding.held, Centers):
        return None
    return Caution(
        "dog",
        "WARNING",
        say(
            "Tail and screw of the dog catch sleeves, cloth and hands. Use a dog whose screw does not stand "
            "out, or guard it, and keep to its tailstock side. Nobody files or polishes near it."
        ),
        say("The work is driven by a dog."),
        GUARD,
    )


def between_centers(setup: Setup) -> Caution | None:
    """Two center holes are all that holds the work."""
    if not isinstance(setup.job.holding.held, Centers):
        return None
    return Caution(
        "between-centers",
        "WARNING",
        say(
            "Only the two centers hold this work. Lock tailstock and quill before the spindle starts, and "
            "never loosen them while it turns. A tool that digs in, or a center hole that is worn or too "
            "small, throws the work out: lighter cuts than in a chuck."
        ),
        say("The work turns between centers."),
        say("Jones, Turning and Boring (1914), from memory; common practice"),
    )


def faceplate(setup: Setup) -> Caution | None:
    """Clamps and bolts that turn in the open."""
    if not isinstance(setup.job.holding.held, Faceplate):
        return None
    return Caution(
        "faceplate",
        "WARNING",
        say(
            "Clamps, bolts and counterweight stand out and turn in the open: guard the plate, and keep out "
            "of its plane. Start at the lowest step. Stop after the first cut and tighten every bolt again, "
            "the counterweight's too."
        ),
        say("The work is clamped on a faceplate."),
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
        say(
            "Balance it before the spindle turns under power. Then begin at the lowest step and go up one at "
            "a time; at the first shaking go back. What shakes loosens its own clamps, and the lathe walks."
        ),
        say(
            "{mass} turn {radius} off the axis.",
            mass=heavy.mass.with_unit,
            radius=heavy.radius.with_unit,
        ),
        PRACTICE,
    )


def collet(setup: Setup) -> Caution | None:
    """A collet closes on one size only."""
    if not isinstance(setup.job.holding.held, Collet):
        return None
    return Caution(
        "collet",
        "CAUTION",
        say(
            "A collet holds work of its own size only, round, clean and without a ridge: on any other it "
            "grips at one end and lets go. Try by hand that the work neither turns nor pulls out. Never "
            "close it empty."
        ),
        say("The work is held in a collet."),
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
        say(
            "Jaws that open in a bore burst cast, hardened or thin work, and a ring that stretches lets go. "
            "Tighten by feel, with all jaws on the wall, and look for cracks before starting."
        ),
        say("The jaws grip from inside the bore."),
        PRACTICE,
    )


def steady_rest(setup: Setup) -> Caution | None:
    """A steady rest carries the work."""
    if setup.job.holding.steady is None:
        return None
    return Caution(
        "steady-rest",
        "WARNING",
        say(
            "Set the fingers with the spindle stopped: lower ones to touch, top shut and locked, then the "
            "top finger. Work turns freely without shake. Oil the fingers, and look again after the first "
            "cut: a warm journal grips and gets worse by itself. Off the spindle axis the work bends every "
            "turn and walks out of the chuck."
        ),
        say("The work runs in a steady rest."),
        say("Jones, Turning and Boring (1914); US Army TC 9-524 ch. 7; workshop texts on steady rests"),
    )


def nothing_holds_back(setup: Setup) -> Caution | None:
    """Steady without center or hold-back."""
    holding = setup.job.holding
    if holding.steady is None or holding.center is not None or holding.hold_back:
        return None
    kind = holding.held.kind
    return Caution(
        "no-hold-back",
        "WARNING",
        say(
            "{keeps} Put on a hold-back, or thrust the cut towards the headstock, and mark the work at the "
            "{face} to see it move.",
            keeps=KEEPS[kind], face=FACE_WORDS[kind],
        ),
        say("Steady rest, and no center at the tailstock end."),
        say("Jones, Turning and Boring (1914), sec. 16"),
    )


def dead_center(setup: Setup) -> Caution | None:
    """The work runs on a center that stands still."""
    if setup.job.holding.center != "dead":
        return None
    return Caution(
        "dead-center",
        "WARNING",
        say(
            "Grease the center and its hole. The work grows as it warms and presses on the center: ease it "
            "and grease it again after each heavy cut, and stop at once when it squeals or smokes. A center "
            "that burns off lets the work go."
        ),
        say("The center stands still while the work turns on it."),
        say("US Army TC 9-524 ch. 7 and Jones, Turning and Boring (1914), both from memory; common practice"),
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
        say(
            "Long work whips. Do not start the spindle before the support is set and locked; keep to the "
            "speed on this sheet."
        ),
        say("The work is {ratio:.1f} times as long between the centers as it is thick.", ratio=ratio)
        if centers
        else say(
            "The work stands out {ratio:.1f} times its diameter from the {face}.",
            ratio=ratio, face=FACE_WORDS[kind],
        ),
        say("machine-safety texts (support beyond three diameters); common practice, no source")
        if centers
        else say("machine-safety texts (support beyond three diameters)"),
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
        say(
            "The half nuts stay closed, so the spindle is reversed to bring the carriage back: a chuck "
            "screwed on the nose can unscrew. Let the spindle stop first, reverse gently at the lowest "
            "speed, withdraw the tool, or use a chuck lock."
        )
        if kind == "chuck"
        else say(
            "The half nuts stay closed, so the spindle is reversed to bring the carriage back: a {head} "
            "screwed on the nose can unscrew. Let the spindle stop first, reverse gently at the lowest "
            "speed, withdraw the tool, or use a lock.",
            head=HEAD_WORDS[kind],
        ),
        say("{name} has a screwed spindle nose.", name=setup.lathe.name),
        PRACTICE,
    )


def interrupted_cut(setup: Setup) -> Caution | None:
    """A cut over a hole across the work: the thread first, else the first operation that meets one."""
    thread, holes = setup.thread, setup.job.cross_holes
    for hole in holes if thread is not None else ():
        x = setup.layout.stick_out - hole.from_end.si
        if thread is not None and _meets(x, thread.end, thread.start, reach=hole.diameter.si):
            return _hammers(
                say("Drill the hole after threading, or plug it."),
                say(
                    "A {diameter} cross hole lies in the threaded length, {from_end} from the end.",
                    diameter=hole.diameter.with_unit, from_end=hole.from_end.with_unit,
                ),
                mate=True,
            )
    for place, plan in enumerate(setup.route.plans):
        for hole in holes if plan.name in HAMMERED else ():
            x = setup.layout.stick_out - hole.from_end.si
            ends = sorted((plan.start, plan.end))
            if _meets(x, *ends, reach=hole.diameter.si / 2) and not _drilled_later(setup, place, x):
                return _hammers(
                    say("Drill the hole after this cut, or plug it."),
                    say(
                        "A {diameter} cross hole lies under operation {number} ({title}), {from_end} from "
                        "the end.",
                        diameter=hole.diameter.with_unit, number=plan.number,
                        title=first_small(setup.route.lines[place].title),
                        from_end=hole.from_end.with_unit,
                    ),
                )
    return None


def _meets(x: Length, low: Length, high: Length, *, reach: Length) -> bool:
    return low - reach <= x <= high + reach


def _drilled_later(setup: Setup, place: int, x: Length) -> bool:
    """True when the route drills this hole only after the cut at that place of it."""
    after = setup.route.plans[place + 1 :]
    return any(one.name == "drill" and one.start == one.end and abs(one.start - x) < SAME for one in after)


def _hammers(first: str, lies: str, *, mate: bool = False) -> Caution:
    """A cut runs over a hole across the work."""
    return Caution(
        "cross-hole",
        "CAUTION",
        say(
            "{first} Over an open hole the cut hammers: light cuts, firm grip, look at the center and the "
            "jaws between passes, and deburr the hole's edges{mate}.",
            first=first,
            mate=say(" before the mate goes on") if mate else "",
        ),
        lies,
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
        say(
            "Grip lightly with soft jaws bored to the work, or plug the bore: every hard jaw presses a lobe "
            "into it, and a crushed wall lets go."
        ),
        say(
            "The wall in the {face} is {wall}.",
            face=FACE_WORDS[setup.job.holding.held.kind], wall=length_words(wall, setup.system),
        ),
        say("Roark, ring under equal radial loads; common practice"),
    )


def reversed_jaws(setup: Setup) -> Caution | None:
    """Jaws standing out beyond the chuck."""
    chuck = setup.job.holding.chuck
    if chuck is None or not (chuck.jaws == 4 or chuck.reversed or chuck.past_body):
        return None
    return Caution(
        "projecting-jaws",
        "CAUTION",
        say(
            "Jaws set by hand can stand out past the chuck's rim. Turn the chuck once by hand, check that "
            "all clears carriage and compound, and guard it where you can reach it."
        ),
        say("The jaws stand out {past_body} past the chuck's body.", past_body=chuck.past_body.with_unit)
        if chuck.past_body
        else say("Independent or reversed jaws."),
        GUARD,
    )
