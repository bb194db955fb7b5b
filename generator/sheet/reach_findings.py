"""What to say when something that travels with the tool meets, or comes close to, something that stands."""

from __future__ import annotations

from collections.abc import Sequence

from generator.calc.reach import Meeting
from generator.errors import Location
from generator.job.lathe import Lathe
from generator.job.model import Job
from generator.language.say import first_small, later, say
from generator.sheet.capacity import steady_where
from generator.sheet.desk import Desk
from generator.sheet.extents import Extent
from generator.sheet.figure import System
from generator.sheet.head import FACE_WORDS, HEAD_WORDS, MORE_ROOM
from generator.sheet.lines import Level
from generator.sheet.obstacles import (
    CARRIAGE,
    CHUCK,
    COLLET,
    COMPOUND,
    DOG,
    FACEPLATE,
    FOLLOW_REST,
    HEADSTOCK,
    QUILL,
    STEADY,
    TAILSTOCK,
    TOOL,
    base_known,
)
from generator.sheet.wording import length_words
from generator.si import Angle, Length, degree

WORDS_OF_ID = {TOOL: "tool", FOLLOW_REST: "follow-rest", STEADY: "steady"}
NOT_SURE = (COLLET, QUILL)  # what may pass over or beside it: asked about, never a stop
TURNING = (CHUCK, FACEPLATE, DOG)  # what the carriage may not reach under
OTHERWISE = {STEADY: later(" Or make this cut before the steady rest is set.")}
SAME = 1e-9  # m: two places nearer than this are one


def find_meetings(
    job: Job,
    lathe: Lathe,
    near: Sequence[tuple[Extent, Meeting]],
    at_worst: Sequence[tuple[Extent, Meeting]],
    room: Length,
    angle: Angle,
    desk: Desk,
) -> None:
    """One finding for each pair that meets or comes close, naming its tightest cut and the others.

    Tool, compound, steady rest and tailstock stand as the thread and its relief want them; for another cut
    they can be set otherwise, so there it is asked about, once for each side, and never a stop, but for
    carriage and headstock.
    `near` has the compound's reach as it lies by its middle line, `at_worst` its whole length along the bed.
    """
    system = job.units or lathe.units
    pairs: dict[tuple[str, str], list[tuple[Extent, Meeting]]] = {}
    told: set[tuple[str, str]] = set()
    for cut, one in near:
        if one.clearance < (0.0 if _by_the_carriage_alone(lathe, one) else room) - SAME:
            if not cut.threading and one.obstacle != HEADSTOCK:
                if (cut.name, one.side) in told:
                    continue
                told.add((cut.name, one.side))
            pairs.setdefault((one.part, one.obstacle), []).append((cut, one))
    for tight in pairs.values():
        tight.sort(key=lambda pair: not (pair[0].threading and pair[1].clearance < -SAME))
        _find(job, lathe, tight, room, system, desk)
    said = {obstacle for part, obstacle in pairs if part == COMPOUND} | set(NOT_SURE)
    for cut, one in sorted(at_worst, key=lambda pair: pair[1].clearance):
        if cut.threading and one.clearance < -SAME and one.obstacle not in said:
            said.add(one.obstacle)
            desk.find(
                _id(one), "check",
                say(
                    "{cut}: set over {angle:.4g}° the compound may reach the {obstacle}. Its whole length "
                    "is {reach}, and there is {clearance}. Before starting, run the carriage there by hand "
                    "and see that slide and handle clear it.",
                    cut=cut.label, angle=abs(angle) / degree, obstacle=one.obstacle,
                    reach=length_words(one.reach, system),
                    clearance=length_words(one.clearance + one.reach, system),
                ),
                _where(job, cut, one),
            )


def _by_the_carriage_alone(lathe: Lathe, one: Meeting) -> bool:
    """True where the record gives no more than the carriage: then only what surely meets is said."""
    if one.obstacle == STEADY and one.part == CARRIAGE:
        return not base_known(lathe, "right" if one.side == "left" else "left")
    return _turns(one)


def _turns(one: Meeting) -> bool:
    """True for the carriage beside what turns with the spindle."""
    return one.part == CARRIAGE and one.obstacle in TURNING


def _id(one: Meeting) -> str:
    part, obstacle = (WORDS_OF_ID.get(name, name) for name in (one.part, one.obstacle))
    return "-meets-".join((part, obstacle))  # a word of a table is English in `join`


def _where(job: Job, cut: Extent, one: Meeting) -> Location | None:
    if one.obstacle == STEADY:
        return steady_where(job)
    return cut.where if one.obstacle in (TAILSTOCK, QUILL) and cut.where else job.holding.grip.where


def _find(
    job: Job,
    lathe: Lathe,
    tight: Sequence[tuple[Extent, Meeting]],
    room: Length,
    system: System,
    desk: Desk,
) -> None:
    cut, one = tight[0]
    there = length_words(max(one.clearance + one.reach, 0.0), system)
    needs = length_words(one.reach, system)
    others = list(dict.fromkeys(other.label for other, _ in tight if other.label != cut.label))
    also = say(" The same in: {others}.", others=", ".join(others)) if others else ""
    if _turns(one):
        kind = job.holding.held.kind
        remedy = first_small(MORE_ROOM[kind])
        text = say(
            "{label}: from the {face_word} to the end of the cut there is {there}; carriage and tool holder "
            "reach {needs} to the left of the tool. Before starting, run the carriage there by hand with "
            "the {head_word} turned by hand; if they touch, {remedy} or set the tool out to the left.",
            label=cut.label, face_word=FACE_WORDS[kind], there=there, needs=needs, head_word=HEAD_WORDS[kind],
            remedy=remedy,
        )
    elif one.clearance < -SAME:
        text = say(
            "{label}: the {part} meets the {obstacle} before the tool is at the end of the cut: there is "
            "{there}, the {part} needs {needs}. {remedy}",
            label=cut.label, part=one.part, obstacle=one.obstacle, there=there, needs=needs,
            remedy=_remedy(job, one),
        )
    else:
        text = say(
            "{label}: the {part} comes within {clearance} of the {obstacle}; {room} is wanted. {remedy}",
            label=cut.label, part=one.part, clearance=length_words(max(one.clearance, 0.0), system),
            obstacle=one.obstacle, room=length_words(room, system), remedy=_remedy(job, one),
        )
    otherwise = "" if cut.threading or one.obstacle == HEADSTOCK else OTHERWISE.get(one.obstacle, "")
    desk.find(_id(one), _level(lathe, cut, one), f"{text}{otherwise}{also}", _where(job, cut, one))


def _level(lathe: Lathe, cut: Extent, one: Meeting) -> Level:
    """`stop` where they surely meet."""
    if not cut.threading and one.obstacle != HEADSTOCK:
        return "check"
    quill_unknown = lathe.tailstock is None or lathe.tailstock.quill_travel is None
    not_sure = _turns(one) or one.obstacle in NOT_SURE or (one.obstacle == TAILSTOCK and quill_unknown)
    if one.clearance >= -SAME or not_sure:
        return "check"
    return "stop"


def _remedy(job: Job, one: Meeting) -> str:
    """What to do about it."""
    if one.obstacle == STEADY and one.part == FOLLOW_REST:
        return say("Take the follow rest off for this cut, or the steady rest.")
    kind = job.holding.held.kind
    if one.obstacle == HEADSTOCK:
        return say(
            "{more_room}, or set the tool out towards the {head_word}.",
            more_room=MORE_ROOM[kind], head_word=HEAD_WORDS[kind],
        )
    if one.obstacle == FACE_WORDS[kind]:
        across = say("turn the compound across the bed")
        other = across if one.part == COMPOUND else say("set the tool out to the left of its holder")
        return say("{more_room}, or {other}.", more_room=MORE_ROOM[kind], other=other)
    return {
        STEADY: say("Move the steady rest towards the chuck, or set the tool over to that side.")
        if one.side == "left"
        else say("Move the steady rest towards the tailstock, or set the tool over to that side."),
        QUILL: say("Turn the compound across the bed, or use a longer center."),
        TAILSTOCK: {
            CARRIAGE: say(
                "Bring the quill out further, use a longer center, or set the tool over to that side."
            ),
            COMPOUND: say("Bring the quill out further, use a longer center, or turn the compound across."),
        }.get(one.part, say("Bring the quill out further, or use a longer center.")),
    }[one.obstacle]
