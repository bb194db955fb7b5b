"""Figures of what is left of the part: wall, stress under pressure and load, threads. Never a verdict.

They are laid only where the job says what the part must carry, or what wall it must keep. Nothing here says
that a part will do: the figures are for whoever decides.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import chain

from generator.calc import pressure as calc
from generator.calc.sections import section_area
from generator.job.model import Duty
from generator.language.say import later, say
from generator.sheet.figure import Figure, Kind, Quantity
from generator.sheet.holding.case import Case
from generator.sheet.holding.thread_strength import lay_thread_strength
from generator.sheet.holding.yield_share import NO_CHECK, Stress, judge_yield
from generator.sheet.relief import thin_places
from generator.sheet.wording import length_words
from generator.sheet.work_so_far import Stretch, work_before
from generator.si import Force, Length, Pressure

CAUTION = later("not a design check: a competent, where required licensed, person decides")
NOTCHES = later(
    "stress concentration is not in it: a corner or a thread root raises it, often 1.5 to 3 times"
)
STATICS = later("statics")


@dataclass(frozen=True)
class Wall:
    """A section of the finished part, and where it is."""

    outside: Length
    bore: Length
    words: str


def strength_section(case: Case) -> None:
    """Lay down wall, stresses and areas under the load and pressure that the job names.

    Raises
    ------
    OutsideRange
        When a size is no wall or no thread.
    """
    job = case.bench.job
    duty = job.duty if isinstance(job.duty, Duty) else None
    carries = duty is not None and (duty.load is not None or duty.pressure is not None)
    walls = _thin_walls(case)
    spare = job.limits.wall is not None and any(wall.bore for wall in walls)
    if not carries and not spare:
        return
    case.desk.lay(Figure(
        "strength.caution", say("What these figures are"), str(CAUTION), "text", Kind.COMPUTED,
        say("common practice, no source"),
    ))
    if spare:
        _lay_spare(case, walls)
    if duty is None or not carries or any(wall.bore >= wall.outside for wall in walls):
        return
    everywhere = _finished_walls(case)
    pull = _lay_pull(case, duty, everywhere)
    stresses: list[Stress] = []
    if duty.pressure is not None:
        stresses += _lay_wall_stress(case, duty, duty.pressure.si, (*walls, *everywhere))
    if pull is not None:
        stresses.append(_lay_axial(case, pull, walls or everywhere))
        if case.bench.thread is not None:
            stresses += lay_thread_strength(case, case.bench.thread, pull)
    judge_yield(case, stresses)


# -- sections ----------------------------------------------------------------------------------------------


def _thin_walls(case: Case) -> tuple[Wall, ...]:
    """Under the thread and at the relief."""
    thread = case.bench.thread
    if thread is None:
        return ()
    words = {"thread.wall": say("under the thread"), "relief.wall": say("at the relief")}
    return tuple(
        Wall(place.diameter, place.bore, words[place.name]) for place in thin_places(case.bench.job, thread)
    )


def _finished_walls(case: Case) -> tuple[Wall, ...]:
    """Every length of the part as the route leaves it, at its thinner end."""
    works = case.route.works
    work = works[-1] if works else work_before(case.bench.layout)
    return tuple(
        Wall(min(one.od_low, one.od_high), one.bore, _stretch_words(one, case)) for one in work.stretches
        if min(one.od_low, one.od_high) > one.bore
    )


def _stretch_words(one: Stretch, case: Case) -> str:
    system, tail = case.bench.system, case.bench.layout.stick_out
    return say(
        "from {length_words} to {length_words_2} from the tailstock end",
        length_words=length_words(tail - one.high, system),
        length_words_2=length_words(tail - one.low, system),
    )


def _lay_spare(case: Case, walls: tuple[Wall, ...]) -> None:
    limit = case.bench.job.limits.wall
    assert limit is not None
    thinnest = min((wall for wall in walls if wall.bore), key=lambda wall: wall.outside - wall.bore)
    left = (thinnest.outside - thinnest.bore) / 2
    case.desk.computed(
        "strength.wall_spare", say("Wall over what the customer wants"), left - limit.si, "length",
        "({outside} − {inside}) ÷ 2 − {limit}",
        {"outside": (thinnest.outside, "length"), "inside": (thinnest.bore, "length"),
         "limit": (limit.si, "length")},
        say("geometry, bore and outside taken as concentric"), rounds="down",
        note=say("{words}; what the bore runs out takes its half off", words=thinnest.words),
    )


# -- load and pressure -------------------------------------------------------------------------------------


def _lay_pull(case: Case, duty: Duty, everywhere: tuple[Wall, ...]) -> Force | None:
    """What pulls along the part (N): the load, and what the pressure pushes; None where it is not known."""
    desk, load = case.desk, None
    if duty.load is not None:
        load = desk.given(
            "strength.load", say("Load it must carry, as said"), duty.load, "force",
            note=say("taken along the axis, without bending and shock"),
        )
    if duty.pressure is None:
        return load
    desk.given(
        "strength.pressure", say("Pressure it must hold, as said"), duty.pressure, "pressure",
        note=say("over that outside"),
    )
    push = _lay_push(case, duty, everywhere)
    if push is None or load is None:
        return push if load is None else load
    return desk.computed(
        "strength.pull", say("Pull along the part, together"), load + push, "force", "{load} + {push}",
        {"load": (load, "force"), "push": (push, "force")}, STATICS, rounds="up",
        note=say("as if both pull the same way; {no_check}", no_check=NO_CHECK),
    )


def _lay_push(case: Case, duty: Duty, everywhere: tuple[Wall, ...]) -> Force | None:
    desk, thread = case.desk, case.bench.thread
    assert duty.pressure is not None
    name, label = "strength.seal_diameter", say("Diameter on which the pressure pushes")
    bore = thread.bore if thread is not None else max((wall.bore for wall in everywhere), default=0.0)
    if duty.seal_diameter is not None:
        seal = desk.given(name, label, duty.seal_diameter, "length")
    elif bore > 0:
        seal = desk.chosen(name, label, None, bore, "length", say("the bore; nobody said where it is sealed"))
    else:
        desk.unknown(name, label, "length", say("the work is solid, and nobody said where it is sealed"))
        return None
    pressure = duty.pressure.si
    return desk.computed(
        "strength.push", say("What the pressure pushes along the part"), calc.pressure_force(pressure, seal),
        "force", "{p} × π ÷ 4 × {seal}²", {"p": (pressure, "pressure"), "seal": (seal, "length")}, STATICS,
        rounds="up", note=NO_CHECK,
    )


def _lay_wall_stress(case: Case, duty: Duty, p: Pressure, walls: tuple[Wall, ...]) -> list[Stress]:
    """Thick-wall stresses under pressure where the wall is thinnest beside its bore; none in solid work."""
    hollow = [wall for wall in walls if wall.bore > 0]
    if not hollow:
        return []
    thinnest = max(hollow, key=lambda wall: wall.bore / wall.outside)
    outside, bore, wall = thinnest.outside, thinnest.bore, (thinnest.outside - thinnest.bore) / 2
    put: dict[str, tuple[float, Quantity]] = {
        "p": (p, "pressure"), "D": (outside, "length"), "d": (bore, "length"),
    }
    apart = say("; the load is not in it") if duty.load is not None else ""
    note = f"{thinnest.words}{apart}; {NO_CHECK}"
    for name, label, value, formula in (
        (
            "hoop.bore",
            say("Hoop stress at the bore"),
            calc.hoop_stress(p, bore, outside, bore),
            "{p} × ({D}² + {d}²) ÷ ({D}² − {d}²)",
        ),
        (
            "hoop.outside",
            say("Hoop stress at the outside"),
            calc.hoop_stress(p, bore, outside, outside),
            "2 × {p} × {d}² ÷ ({D}² − {d}²)",
        ),
        (
            "radial",
            say("Stress through the wall at the bore"),
            calc.radial_stress(p, bore, outside, bore),
            "−{p}",
        ),
        (
            "ends",
            say("Stress along the wall from the pressure, ends closed"),
            calc.end_stress(p, bore, outside),
            "{p} × {d}² ÷ ({D}² − {d}²)",
        ),
        (
            "von_mises",
            say("The three together at the bore (von Mises)"),
            calc.von_mises_at_bore(p, bore, outside),
            "√3 × {p} × {D}² ÷ ({D}² − {d}²)",
        ),
    ):
        case.desk.computed(
            f"strength.{name}",
            label,
            value,
            "pressure",
            formula,
            put,
            calc.LAME,
            rounds="nearest" if name == "radial" else "up",
            note=note,
        )
    barlow = calc.thin_wall_hoop(p, outside, wall)
    case.desk.computed(
        "strength.thin_wall",
        say("Hoop stress by the pipe formula (Barlow)"),
        barlow,
        "pressure",
        "{p} × {D} ÷ (2 × {t})",
        {"p": (p, "pressure"), "D": (outside, "length"), "t": (wall, "length")},
        say("Barlow"),
        rounds="up",
        note=say(
            "beside the others: it takes the wall as thin, and counts from the outside; {note}", note=note
        ),
    )
    von_mises = calc.von_mises_at_bore(p, bore, outside)
    return [
        Stress(say("the wall's stress under pressure"), von_mises),
        Stress(say("the wall's hoop stress by the pipe formula"), barlow),
    ]


def _lay_axial(case: Case, pull: Force, walls: tuple[Wall, ...]) -> Stress:
    """The pull over the smallest section of thread and relief, or of the whole part without a thread."""
    smallest = min(walls, key=lambda wall: section_area(wall.outside, wall.bore))
    holes = say("; cross holes are not taken off") if case.bench.job.cross_holes else ""
    value = case.desk.computed(
        "strength.axial", say("Stress along the part over its smallest section"),
        calc.axial_stress(pull, smallest.outside, smallest.bore), "pressure",
        "{F} ÷ (π ÷ 4 × ({D}² − {d}²))" if smallest.bore else "{F} ÷ (π ÷ 4 × {D}²)",
        dict(chain(
            (("F", (pull, "force")), ("D", (smallest.outside, "length"))),
            ((("d", (smallest.bore, "length")),) if smallest.bore else ()),
        )),
        STATICS, rounds="up", note=f"{smallest.words}{holes}; {NOTCHES}; {NO_CHECK}",
    )
    return Stress(say("the stress along the part"), value)
