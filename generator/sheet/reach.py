"""Can the tool get from start to end of every cut without anything meeting anything, and with what room?

Carriage, tool, compound and follow rest travel; headstock, chuck, jaws, steady rest, tailstock and quill
stand (`obstacles`). What meets what is said in `reach_findings`; the slides' own travel is in `travel`.
What the lathe's record does not say costs only the checks that need it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from math import copysign, pi

from generator.calc.reach import Meeting, Obstacle, in_path, meetings
from generator.job.lathe import Lathe
from generator.job.model import HeldBy, Job
from generator.language.say import later, say, say_count
from generator.sheet.capacity import steady_where
from generator.sheet.desk import Desk
from generator.sheet.extents import Extent
from generator.sheet.figure import Quantity, System
from generator.sheet.head import FACE_WORDS, MORE_ROOM, ZERO_WORDS, face_at
from generator.sheet.layout import Layout, lay_out
from generator.sheet.obstacles import (
    BED,
    COMPOUND,
    LEAST_ROOM,
    QUILL,
    STEADY,
    TAILSTOCK,
    missing,
    standing,
    steady_base,
    travelling,
)
from generator.sheet.plans import ReachPlan
from generator.sheet.reach_findings import find_meetings
from generator.sheet.travel import quill_section, slides_section
from generator.sheet.wording import length_words
from generator.si import Angle, Length

PRACTICE = later("common practice, no source")
SAME = 1e-9  # m: two lengths closer than this are one
FROM_FACE: Mapping[HeldBy, str] = {
    "chuck": later("{end of the cut} from the jaws"),
    "collet": later("{end of the cut} from the collet"),
    "faceplate": later("{end of the cut} from the faceplate"),
    "centers": later("{end of the cut} from the dog"),
}
SIDES = {"left": later("towards the chuck"), "right": later("towards the tailstock")}

Near = list[tuple[Extent, Meeting]]


@dataclass
class _Ways:
    """The cuts and all that they are compared with."""

    job: Job
    lathe: Lathe
    layout: Layout
    cuts: list[Extent]
    steady_at: Length | None
    angle: Angle
    quill_out: Length = 0.0
    near: Near = field(default_factory=list)

    @property
    def obstacles(self) -> list[Obstacle]:
        """What stands, with the quill as far out as it is."""
        return standing(self.job, self.lathe, self.layout, self.steady_at, self.quill_out)

    def meetings(self, cut: Extent, angle: Angle) -> list[Meeting]:
        """What comes near what in one cut, the tightest first."""
        return [
            one
            for one in meetings(*cut.path, travelling(self.job, self.lathe, cut, angle), self.obstacles)
            if not (cut.before_steady and one.obstacle == STEADY)
            and not (one.obstacle == STEADY and self.thread_at_steady())
            and not (one.obstacle == QUILL and self._outside_quill(cut))
            and not (cut.no_center and one.obstacle in (QUILL, TAILSTOCK))
        ]

    def thread_at_steady(self) -> bool:
        """True where thread or relief lie under the fingers: that the place is wrong is said already."""
        fingers = [one for one in self.obstacles if one.name == STEADY and one.level != BED]
        return any(cut.threading and in_path(cut.low, cut.high, fingers) for cut in self.cuts)

    def look(self) -> None:
        """Compare every cut with what stands."""
        self.near = [(cut, one) for cut in self.cuts for one in self.meetings(cut, self.angle)]
        self.near.sort(key=lambda pair: pair[1].clearance)

    def at_worst(self) -> Near:
        """Compound against the rest as if it lay along the bed: it never reaches further."""
        along = copysign(pi / 2, self.angle)
        return [
            (cut, one) for cut in self.cuts for one in self.meetings(cut, along) if one.part == COMPOUND
        ]

    def _outside_quill(self, cut: Extent) -> bool:
        """True when the tool's point, and so all behind it, stays outside the quill's diameter."""
        tailstock = self.lathe.tailstock
        quill = tailstock.quill_diameter if tailstock else None
        ends = [one for one in (cut.from_diameter, cut.to_diameter) if one is not None]
        return quill is not None and bool(ends) and min(ends) >= quill.si


def reach_section(
    job: Job,
    lathe: Lathe,
    extents: Sequence[Extent],
    steady_at: Length | None,
    infeed_angle: Angle,
    desk: Desk,
    unchecked: list[str],
) -> ReachPlan:
    """Lay down the room of every cut and what is wrong; add to `unchecked` what the record does not say.

    `infeed_angle` is how far the compound is set over from the cross-slide direction (rad), negative when it
    is set over towards the headstock (see `extents.set_over`).
    """
    system = job.units or lathe.units
    _lay_thread_room(job, lathe, extents, steady_at, desk)
    outside = [cut for cut in extents if not _in_jaws(job, cut, system, desk)]
    ways = _Ways(job, lathe, lay_out(job), outside, steady_at, infeed_angle)
    _across_steady(ways, desk)
    ways.look()
    if ways.near:
        room = desk.chosen(
            "reach.clearance", say("Room wanted beside what travels"), None, LEAST_ROOM[system], "length",
            PRACTICE, system=system,
        )
        _set_quill(ways, room, system, desk, unchecked)
        for cut in outside:
            _lay_room(job, cut, [one for other, one in ways.near if other is cut], desk)
        find_meetings(job, lathe, ways.near, ways.at_worst(), room, infeed_angle, desk)
    for words in missing(job, lathe, outside, steady_at, infeed_angle):
        if words not in unchecked:
            unchecked.append(words)
    slides_section(lathe, extents, infeed_angle, system, desk, unchecked)
    quill_section(lathe, extents, system, desk, unchecked)
    if not ways.near or ways.thread_at_steady():
        return ReachPlan((), tuple(ways.obstacles), None, None, quill_out=ways.quill_out)
    cut, tightest = next((pair for pair in ways.near if pair[0].threading), ways.near[0])
    parts = tuple(travelling(job, lathe, cut, infeed_angle))
    return ReachPlan(parts, tuple(ways.obstacles), tightest, tightest.edge, cut.label, ways.quill_out)


# -- the thread's own room, as the carriage alone gives it ------------------------------------------------


def _lay_thread_room(
    job: Job, lathe: Lathe, extents: Sequence[Extent], steady_at: Length | None, desk: Desk
) -> None:
    """The carriage's room to the steady rest, or to what holds the work, at the end of thread and relief."""
    cuts = [cut for cut in extents if cut.threading and not cut.inside]
    if not cuts:
        return
    low, high = min(cut.low for cut in cuts), max(cut.high for cut in cuts if cut.name == "thread")
    if steady_at is not None:
        left = steady_at < low
        needs, last = (lathe.carriage_left, low) if left else (lathe.carriage_right, high)
        base = steady_base(lathe)[1 if left else 0]
        if needs is not None:
            distance = "{end of the cut} − {steady}" if left else "{steady} − {end of the cut}"
            desk.computed(
                "capacity.carriage",
                say("Room from the steady rest to the end of the cut"),
                (last - steady_at if left else steady_at - last) - base,
                "length",
                f"{distance} − {{steady, from its middle}}",
                {
                    "end of the cut": (last, "length"),
                    "steady": (steady_at, "length"),
                    "steady, from its middle": (base, "length"),
                },
                say("geometry"),
                note=say("the carriage needs {needs} on that side of the tool", needs=needs.with_unit),
                rounds="down",
            )
    kind, face = job.holding.held.kind, face_at(job)
    if low <= face or lathe.carriage_left is None or (steady_at is not None and steady_at < low):
        return
    put: dict[str, tuple[float, Quantity]] = {"end of the cut": (low, "length")}
    formula = say(FROM_FACE[kind])
    if face > 0:
        formula, put["dog"] = "{end of the cut} − {dog}", (face, "length")
    elif face < 0:
        formula, put["grip"] = "{end of the cut} + {grip}", (-face, "length")
    desk.computed(
        "capacity.carriage_to_chuck",
        say("Room from the {face_word} to the end of the cut", face_word=FACE_WORDS[kind]),
        low - face,
        "length",
        formula,
        put,
        say("geometry"),
        note=say(
            "the carriage needs {carriage_left} on that side of the tool",
            carriage_left=lathe.carriage_left.with_unit,
        ),
        rounds="down",
    )


# -- cuts that cannot be compared -------------------------------------------------------------------------


def _in_jaws(job: Job, cut: Extent, system: System, desk: Desk) -> bool:
    """True for a cut that ends in jaws or collet, at the faceplate or under the dog, which is then said.

    Jaws that grip in the bore bar the bore instead of the outside.
    """
    grip, kind, chuck = job.holding.grip, job.holding.held.kind, job.holding.chuck
    jaws_in_bore = chuck is not None and chuck.inside
    if cut.by_quill or (cut.inside and not jaws_in_bore):
        return False
    face = 0.0 if cut.inside else face_at(job)
    if cut.low > face or (face < 0 and cut.low >= face - SAME):
        return False
    if cut.threading:
        if all(finding.id != "cut-in-jaws" for finding in desk.findings):
            past = length_words(face - cut.low, system)
            ends = {
                "chuck": say(
                    "{past} inside the jaws, which hold {grip} of the work",
                    past=past, grip=grip.with_unit,
                ),
                "collet": say(
                    "{past} inside the collet, which holds {grip} of the work",
                    past=past, grip=grip.with_unit,
                ),
                "faceplate": say("at the faceplate, and the tool runs into it"),
                "centers": say(
                    "{past} under the dog, which takes {face} of the work",
                    past=past, face=length_words(face, system),
                ),
            }
            more = MORE_ROOM[kind]
            otherwise = "" if kind == "centers" else say(", or turn the work end for end")
            desk.find("cut-in-jaws", "stop", say(
                "The cut ends {ends}. {more}{otherwise}.",
                ends=ends[kind], more=more, otherwise=otherwise,
            ), grip.where)
    else:
        less = {"chuck": say(", or grip less"), "faceplate": say(", or set the work out on parallels")}.get(
            kind, ""
        )
        desk.find(
            "operation-in-jaws",
            "check",
            say(
                "{cut} reaches the {face_word} as the work is held now. Turn the work end for end for it "
                "and check the carriage's way again{less}.",
                cut=cut.label, face_word=FACE_WORDS[kind], less=less,
            ),
            cut.where or grip.where,
        )
    return True


def _across_steady(ways: _Ways, desk: Desk) -> None:
    """Cuts whose own way leads through the steady rest's fingers; the thread's is said with its place."""
    fingers = [one for one in ways.obstacles if one.name == STEADY and one.level != BED]
    across = [
        cut.label
        for cut in ways.cuts
        if in_path(*cut.path, fingers)
        and not (cut.threading or cut.inside or cut.by_quill or cut.before_steady)
    ]
    if across:
        desk.find(
            "cut-passes-steady",
            "check",
            say_count(
                "{cuts} runs through the place of the steady rest. Do it before the steady rest is set, or "
                "move the steady rest.",
                "{cuts} run through the place of the steady rest. Do it before the steady rest is set, or "
                "move the steady rest.",
                len(across), cuts=", ".join(across),
            ),
            steady_where(ways.job),
        )


# -- quill and room ---------------------------------------------------------------------------------------


def _set_quill(ways: _Ways, room: Length, system: System, desk: Desk, unchecked: list[str]) -> None:
    """Bring the quill out as far as carriage and compound want it, and say so."""
    tight = min((one.clearance for _, one in ways.near if one.obstacle == TAILSTOCK), default=room)
    if tight >= room:
        return
    tailstock = ways.lathe.tailstock
    travel = tailstock.quill_travel if tailstock else None
    if travel is None:
        unchecked.append(say("how far the quill comes out (tailstock: quill_travel)"))
        return
    wanted = room - tight
    ways.quill_out = min(wanted, travel.si)
    ways.look()
    desk.computed(
        "reach.quill_out", say("Quill out at least"), ways.quill_out, "length",
        say("{room wanted} − {room with the quill in}, at most {quill travel}"),
        {
            "room wanted": (room, "length"),
            "room with the quill in": (tight, "length"),
            "quill travel": (travel.si, "length"),
        },
        say("geometry"), rounds="up",
    )
    desk.find(
        "quill-out",
        "note" if wanted <= travel.si / 2 + SAME else "check",
        say(
            "Set the tailstock with its quill at least {quill_out} out, of {travel}, for the carriage to "
            "clear it. The further out, the more it gives.",
            quill_out=length_words(ways.quill_out, system), travel=travel.with_unit,
        ),
        ways.job.holding.grip.where,
    )


def _lay_room(job: Job, cut: Extent, near: Sequence[Meeting], desk: Desk) -> None:
    """The smallest room of one cut on each side."""
    for side, words in SIDES.items():
        tightest = next((one for one in near if one.side == side), None)
        if tightest is None:
            continue
        tool, part = say("tool at"), f"{tightest.part} {words}"
        standing_at = say(
            "{obstacle} from the {zero_word}",
            obstacle=tightest.obstacle, zero_word=ZERO_WORDS[job.holding.held.kind],
        )
        formula = (
            f"{{{tool}}} − {{{part}}} − ({{{standing_at}}})"
            if side == "left"
            else f"{{{standing_at}}} − {{{tool}}} − {{{part}}}"
        )
        desk.computed(
            f"reach.{cut.name}.{side}",
            say("{label}: room {words}", label=cut.label, words=words),
            tightest.clearance,
            "length",
            formula,
            {
                tool: (tightest.edge, "length"),
                part: (tightest.reach, "length"),
                standing_at: (tightest.face, "length"),
            },
            say("geometry"),
            note=say("{part} beside the {obstacle}", part=tightest.part, obstacle=tightest.obstacle),
            rounds="down",
        )
