"""Where the slings go, how much each takes, and how high the hook has to be."""

from __future__ import annotations

import math

from generator.calc.sling import even_places, hook_height, leg_pull
from generator.language.say import later, say
from generator.sheet.figure import System
from generator.sheet.holding.case import Case
from generator.sheet.wording import rule_words
from generator.si import Length, Mass, degree, inch, mm

ROOM = 0.05         # m: a sling's own width and room for the hand, beside jaws and at the end
SHORT = 0.6         # m: work up to this length hangs in one sling
SPREADS = (0.5, 0.45, 0.4, 0.55, 0.35, 0.6, 0.3)  # of the length, from sling to sling, in order of preference
LEAN = 30 * degree  # from straight up, 60 degrees from level
TAPE = {"inch": inch / 4, "mm": 5 * mm}           # places and heights are given to so much
PRACTICE = later("common practice, no source")
NOT_JUDGED = later("Whether headstock, spindle and bed carry it is not judged here.")
UNTIL = later("Choke the slings so that they cannot slide, and keep them on until the work is held.")


def lay_slings(case: Case, balance: Length, end: Length, mass: Mass) -> None:
    """Lay down the places of one or two slings, outside what holds the work.

    `balance` and `end` are x of balance point and tailstock end (m).
    """
    bench = case.bench
    centers = bench.job.holding.centers
    low, high = (centers.dog.si if centers else 0.0) + ROOM, end - ROOM
    if not low < balance < high:
        case.desk.find(
            "sling", "note",
            say("The work balances {balance} from its tailstock end, where no sling goes once it is held, "
                "and anywhere else lets it tip. Bring it in on a board or cradle across the bed and take the "
                "sling off only when it is held. {not_judged}",
                balance=rule_words(end - balance, bench.system), not_judged=NOT_JUDGED),
            bench.job.work[0].length.where,
        )
        return
    places = _places(case, balance, low, high)
    if bench.layout.total <= SHORT or places[1] - places[0] < 2 * ROOM:
        _one(case, balance, end, bench.system)
    else:
        _two(case, places, end, mass, bench.system)


def _places(case: Case, balance: Length, low: Length, high: Length) -> tuple[Length, Length]:
    """Two places evenly each side of the balance point, clear of the steady rest where that can be."""
    total, at = case.bench.layout.total, case.plan.steady_at
    tried = [even_places(balance, low, high, spread * total) for spread in SPREADS]
    if at is None:
        return tried[0]
    room = case.held.steady_half + ROOM
    return next((pair for pair in tried if all(abs(place - at) >= room for place in pair)), tried[0])


def _one(case: Case, balance: Length, end: Length, system: System) -> None:
    place = _lay_place(case, "handling.sling", say("Sling, from the tailstock end"), balance, end)
    case.desk.find(
        "sling", "note",
        say("One sling at the balance point, {place} from the tailstock end; guide the work by hand so that "
            "it stays level. {until} {not_judged}",
            place=rule_words(place, system), until=UNTIL, not_judged=NOT_JUDGED),
        case.bench.job.work[0].length.where,
    )


def _two(case: Case, places: tuple[Length, Length], end: Length, mass: Mass, system: System) -> None:
    desk = case.desk
    far = _lay_place(case, "handling.sling.chuck", say("Sling nearer the chuck, from the tailstock end"),
                     places[0], end)
    near = _lay_place(
        case,
        "handling.sling.tailstock",
        say("Sling nearer the tailstock, from the tailstock end"),
        places[1],
        end,
    )
    lean = desk.chosen(
        "handling.sling_lean", say("Slings lean from straight up, at most"), None, LEAN, "angle",
        say("{practice}; ASME B30.9 advises against more than 60°", practice=PRACTICE),
    )
    desk.computed(
        "handling.sling_load", say("Load on each of the two slings"), leg_pull(mass, lean), "mass",
        "{weight} ÷ (2 × cos {lean})", {"weight": (mass, "mass"), "lean": (lean, "angle")}, say("statics"),
        rounds="up", note=say("one hook over the balance point; the marked load of a choked sling is less"),
    )
    step, height = TAPE[system], hook_height(far - near, lean)
    height = desk.computed(
        "handling.hook_height",
        say("Hook over the work, at least"),
        math.ceil(height / step) * step,
        "length",
        say("({far sling} − {near sling}) ÷ (2 × tan {lean}), up to the next {step}"),
        {
            "far sling": (far, "length"),
            "near sling": (near, "length"),
            "lean": (lean, "angle"),
            "step": (step, "length"),
        },
        say("geometry"),
        rounds="up",
    )
    desk.find(
        "sling", "note",
        say("Two slings, {near} and {far} from the tailstock end, evenly each side of the balance point, to "
            "one hook at least {height} above: so it hangs level. {until} {not_judged}",
            near=rule_words(near, system), far=rule_words(far, system), height=rule_words(height, system),
            until=UNTIL, not_judged=NOT_JUDGED),
        case.bench.job.work[0].length.where,
    )


def _lay_place(case: Case, name: str, label: str, place: Length, end: Length) -> Length:
    """Distance of a sling from the tailstock end, as a tape shows it."""
    step = TAPE[case.bench.system]
    return case.desk.computed(
        name, label, round((end - place) / step) * step, "length",
        say("{end} − {place}, to the nearest {step}"),
        {"end": (end, "length"), "place": (place, "length"), "step": (step, "length")},
        say("statics; {practice}", practice=PRACTICE), note=say("clear of what holds the work"),
    )
