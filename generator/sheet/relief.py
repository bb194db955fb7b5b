"""The thread relief: width, diameter, corner, and the wall that it and the thread leave in hollow work."""

from __future__ import annotations

from dataclasses import dataclass

from generator.calc import relief as relief_calc
from generator.calc.infeed_strategy import STEEP
from generator.errors import Location
from generator.job.lathe import Lathe
from generator.job.model import Job
from generator.job.operations import Relief
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.figure import Kind, System
from generator.sheet.layout import lay_out
from generator.sheet.plans import LathePlan, ThreadPlan
from generator.sheet.threading import relief_operation, thread_operation
from generator.sheet.wording import length_words
from generator.si import Length, mm
from generator.tables.relief import PITCHES, ReliefRow, relief_rows

PRACTICE = later("common practice, no source")
SAME = 1e-9  # m: two sizes closer than this are one
OUT = later("comes out through the outside")


def relief_section(job: Job, lathe: Lathe, thread: ThreadPlan, lathe_plan: LathePlan, desk: Desk) -> None:
    """Lay down the relief's figures and the walls, and what is wrong with them."""
    groove, system = relief_operation(job), job.units or lathe.units
    if groove is not None and thread.relief_diameter is not None:
        _lay_width(groove, thread, system, desk)
        _lay_diameter(groove, thread.relief_diameter, thread, system, desk)
        _lay_radius(groove, thread, system, desk)
        _compare_with_print(groove, thread, system, desk)
    _lay_walls(job, thread, system, desk)


def _lay_width(groove: Relief, thread: ThreadPlan, system: System, desk: Desk) -> None:
    """Width, against the pitch."""
    width = desk.given("relief.width", say("Relief width"), groove.width, "length")
    steep = thread.flanks.included <= STEEP
    pitches = relief_calc.STEEP_PITCHES if steep else relief_calc.LEAST_PITCHES
    least = desk.computed(
        "relief.width_least", say("Narrowest relief"),
        relief_calc.least_width(thread.pitch, steep=steep), "length", f"{pitches:g} × {{P}}",
        {"P": (thread.pitch, "fine_length")}, PRACTICE, rounds="up",
        note=say("and beside that, how far the tool reaches ahead of its point"),
    )
    low, high = relief_calc.usual_width(thread.pitch)
    if width < least - SAME:
        desk.find(
            "relief-narrow", "check",
            say(
                "The relief is {width} wide; {pitches:g} pitches are {least}, and the tool needs its own "
                "width beside that. Make it {low} or more, or grind the tool narrow.",
                width=groove.width.with_unit, pitches=pitches, least=length_words(least, system),
                low=length_words(max(low, least), system),
            ),
            groove.width.where, say("May the relief be wider?"),
        )
    elif width < low - SAME:
        desk.find(
            "relief-short", "note",
            say(
                "The relief is {width} wide; where there is room 2 to 3 pitches are usual, {low} to {high}. "
                "See that the tool clears the shoulder.",
                width=groove.width.with_unit, low=length_words(low, system), high=length_words(high, system),
            ),
            groove.width.where,
        )


def _lay_diameter(
    groove: Relief, diameter: Length, thread: ThreadPlan, system: System, desk: Desk
) -> None:
    """Diameter, against the root that this tool leaves."""
    name, label, root = "relief.diameter", say("Relief diameter"), thread.root_diameter
    if groove.diameter is not None:
        desk.given(name, label, groove.diameter, "length")
    else:
        under = relief_calc.UNDER_ROOT[thread.system]
        word, formula, note = (
            ("over", "{root} + {over}", say(
                "a little over the root, so that the tool runs out clear; nobody said"
            ))
            if thread.internal
            else (
                "under", "{root} − {under}", say(
                    "a little under the root, so that the tool runs out clear; nobody said"
                )
            )
        )
        desk.computed(
            name, label, diameter, "length", formula,
            {"root": (root, "length"), word: (under, "length")}, PRACTICE, kind=Kind.ASSUMED,
            rounds="up" if thread.internal else "down",
            note=note,
        )
    if thread.internal:
        _check_recess(groove, diameter, thread, system, desk)
    elif diameter >= root - SAME:
        deep_enough = relief_calc.default_diameter(root, thread.system)
        minor = thread.limits.minor.max
        over_all = minor is None or diameter >= minor * thread.designation.unit_si
        desk.find(
            "relief-root", "stop" if over_all else "check",
            say(
                "The relief diameter of {diameter} is not below the root of the thread, which this tool "
                "leaves at {root}: the point would cut the floor of the relief. Make it {deep_enough} or "
                "less.",
                diameter=length_words(diameter, system), root=length_words(root, system),
                deep_enough=length_words(deep_enough, system),
            ),
            (groove.diameter or groove.width).where, say("May the relief be deeper?"),
        )


def _check_recess(
    groove: Relief, diameter: Length, thread: ThreadPlan, system: System, desk: Desk
) -> None:
    """The recess of an internal thread, against the root that this tool leaves."""
    root = thread.root_diameter
    if diameter > root + SAME:
        return
    large_enough = relief_calc.default_recess(root, thread.system)
    desk.find(
        "relief-root", "stop",
        say(
            "The relief diameter of {diameter} is not over the root of the thread, which this tool leaves "
            "at {root}: the point would cut the floor of the relief. Make it {large_enough} or more.",
            diameter=length_words(diameter, system), root=length_words(root, system),
            large_enough=length_words(large_enough, system),
        ),
        (groove.diameter or groove.width).where, say("May the relief be deeper?"),
    )


def _lay_radius(groove: Relief, thread: ThreadPlan, system: System, desk: Desk) -> None:
    """Corner radius, against what is usual."""
    name, label, given = "relief.radius", say("Corner radius of the relief"), groove.radius
    low, high = relief_calc.corner_radius(thread.depth)
    usual = say("usual is {low} to {high}", low=length_words(low, system), high=length_words(high, system))
    if given is None:
        desk.computed(
            name, label, low, "length", "{depth of thread} ÷ 4",
            {"depth of thread": (thread.depth, "length")}, PRACTICE, kind=Kind.ASSUMED,
            rounds="up", note=say("the least that is usual; nobody said"),
        )
        desk.find(
            "relief-radius", "note",
            say(
                "No corner radius is given for the relief; {usual}. Never leave it sharp on a part that "
                "carries load.",
                usual=usual,
            ),
            groove.width.where,
        )
        return
    radius = desk.given(name, label, given, "length")
    if radius == 0:
        desk.find(
            "relief-sharp", "check",
            say(
                "The relief is to have sharp corners; {usual}. A sharp corner starts cracks under load.",
                usual=usual,
            ),
            given.where, say("May the corner of the relief be rounded?"),
        )
    elif 2 * radius > groove.width.si + SAME:
        desk.find(
            "relief-radius-wide", "check",
            say(
                "Two corner radii of {given} do not go into a relief {width} wide.",
                given=given.with_unit, width=groove.width.with_unit,
            ),
            given.where, say("Which corner radius is it to be?"),
        )
    elif radius < low - SAME:
        desk.find(
            "relief-radius-small", "note", say(
                "The corner radius of {given} is small; {usual}.",
                given=given.with_unit, usual=usual,
            ),
            given.where,
        )


def _compare_with_print(groove: Relief, thread: ThreadPlan, system: System, desk: Desk) -> None:
    """What the published tables give for this metric pitch; for other V threads only where that differs."""
    if thread.designation.family != "M":
        _compare_with_scaled(groove, thread, system, desk)
        return
    rows = relief_rows(thread.designation.pitch, thread.internal)
    if not rows:
        return
    diameter = thread.designation.nominal - rows[0].diameter_less / mm
    desk.find(
        "relief-standard", "note",
        say(
            "Published reliefs for a pitch of {pitch:g} mm: diameter {diameter:g} mm, corner radius "
            "{radius:g} mm; width {widths}. Read in public transcriptions of the standards; the drawing "
            "comes first.",
            pitch=thread.pitch / mm, diameter=diameter, radius=rows[0].radius / mm,
            widths='; '.join(_row_words(row) for row in rows),
        ),
        groove.width.where,
    )


def _compare_with_scaled(groove: Relief, thread: ThreadPlan, system: System, desk: Desk) -> None:
    """A relief of another V thread against those of the nearest metric pitch, in pitches."""
    if thread.flanks.included <= STEEP or not thread.flanks.symmetrical or thread.profile.taper:
        return
    nearest = min(PITCHES, key=lambda pitch: abs(float(pitch) * mm - thread.pitch))
    rows = relief_rows(nearest, thread.internal)
    shares = [(row, thread.pitch / row.pitch) for row in rows]
    low = min(row.width_least * share for row, share in shares)
    high = max(row.width_most * share for row, share in shares)
    if low - SAME <= groove.width.si <= high + SAME:
        return
    radius = rows[0].radius * shares[0][1]
    desk.find(
        "relief-standard", "note",
        say(
            "No standard here has reliefs for {designation}. Those of metric threads, in pitches, come to "
            "{low} (short) to {high} (regular) of width and a corner radius of {radius} ({standard}); the "
            "drawing comes first.",
            designation=thread.designation.text, low=length_words(low, system),
            high=length_words(high, system), radius=length_words(radius, system), standard=rows[0].standard,
        ),
        groove.width.where,
    )


def _row_words(row: ReliefRow) -> str:
    doubts = [words for words in (say("from memory, not checked") if row.memory else "", row.doubt) if words]
    doubted = f" ({'; '.join(map(str, doubts))})" if doubts else ""
    return say(
        "{standard} {width_least:g} to {width_most:g} mm{doubted}",
        standard=row.standard, width_least=row.width_least / mm, width_most=row.width_most / mm,
        doubted=doubted,
    )


@dataclass(frozen=True)
class ThinPlace:
    """A place where a wall is left between outside and bore, 0 in solid work.

    `name` and `label` are of the wall's figure; `where` is what the job file says of it.
    """

    name: str
    label: str
    diameter: Length
    bore: Length
    where: Location
    breaks: str = later("breaks into the bore")


def _lay_walls(job: Job, thread: ThreadPlan, system: System, desk: Desk) -> None:
    """Wall at the root and at the relief of hollow work, against the customer's limit."""
    places = thin_places(job, thread)
    walls = [_lay_wall(job, place, system, desk) for place in places if place.bore]
    if walls and job.limits.wall is None:
        desk.find(
            "wall-limit", "check",
            say(
                "The work is hollow and keeps {walls} of wall at the thinnest, and nobody said how much it "
                "must be.",
                walls=length_words(min(walls), system),
            ),
            places[0].where, say("What wall must be left under the thread and at the relief?"),
        )


def thin_places(job: Job, thread: ThreadPlan) -> tuple[ThinPlace, ...]:
    """What the thread's root and the relief leave of the work, in this order."""
    operation, groove = thread_operation(job), relief_operation(job)
    assert operation is not None
    places = [_wall_under_thread(job, thread, operation.length.where)]
    start, end, diameter = thread.relief_start, thread.relief_end, thread.relief_diameter
    if groove is not None and start is not None and end is not None and diameter is not None:
        name, label, place = "relief.wall", say("Wall at the relief"), (groove.diameter or groove.width).where
        places.append(
            ThinPlace(name, label, _smallest_od(job, end, start), diameter, place, OUT)
            if thread.internal else ThinPlace(name, label, diameter, _largest_bore(job, end, start), place)
        )
    return tuple(places)


def _wall_under_thread(job: Job, thread: ThreadPlan, where: Location) -> ThinPlace:
    name, label = "thread.wall", say("Wall under the thread")
    if thread.internal:
        outside = _smallest_od(job, thread.end, thread.start)
        return ThinPlace(name, label, outside, thread.root_diameter, where, OUT)
    bore = max(thread.bore, _largest_bore(job, thread.end, thread.start))
    return ThinPlace(name, label, thread.root_diameter, bore, where)


def _lay_wall(job: Job, place: ThinPlace, system: System, desk: Desk) -> Length:
    """One wall and its judgement."""
    left = desk.computed(
        place.name, place.label, relief_calc.wall(place.diameter, place.bore), "length",
        "({outside} − {inside}) ÷ 2",
        {"outside": (place.diameter, "length"), "inside": (place.bore, "length")},
        say("geometry, bore and outside taken as concentric"), rounds="down",
    )
    id, limit = place.name.replace(".", "-"), job.limits.wall
    if left <= 0:
        desk.find(
            id, "stop", say(
                "{place}: nothing is left, the cut {breaks}.",
                place=place.label, breaks=place.breaks,
            ), place.where,
            say("Are bore and outside right, and may the thread be another size?"),
        )
    elif limit is not None and left < limit.si - SAME:
        desk.find(
            id, "stop",
            say(
                "{place}: {left} is left, and the customer wants {limit} at least. Ask, or take a smaller "
                "thread.",
                place=place.label, left=length_words(left, system), limit=limit.with_unit,
            ),
            place.where, say("May the wall be thinner, or the thread another size?"),
        )
    return left


def _largest_bore(job: Job, low: Length, high: Length) -> Length:
    """Largest bore between two places of the work."""
    spans = [span for span in lay_out(job).spans if span.start < high - SAME and span.end > low + SAME]
    return max((span.bore for span in spans), default=0.0)


def _smallest_od(job: Job, low: Length, high: Length) -> Length:
    """Smallest outside diameter between two places of the work."""
    spans = [span for span in lay_out(job).spans if span.start < high - SAME and span.end > low + SAME]
    ends = [span.od_at(x) for span in spans for x in (max(low, span.start), min(high, span.end))]
    return min(ends, default=0.0)
