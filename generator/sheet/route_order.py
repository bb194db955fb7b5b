"""The sensible order of operations, and what is wrong with a bad one.

    Placed          an operation with where it lies
    sorted_route    the sensible order
    lay_faults      a finding for each pair that stands the wrong way round
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import NamedTuple

from generator.job.model import Job
from generator.job.operations import Bore, Chamfer, Drill, Knurl, Turn
from generator.language.say import first_large, first_small, later, say
from generator.sheet.desk import Desk
from generator.sheet.lines import Level
from generator.sheet.operation_places import Place, drilled_across
from generator.sheet.operation_words import title_of
from generator.sheet.route_entries import SAME, Entry

SHAPES = ("turn", "taper")
HOLES = ("bore", "drill")
LIGHT = ("face", "center_drill")  # cuts that may come before the steady rest or the center is set


@dataclass(frozen=True)
class Placed:
    """An operation and where it lies on the work."""

    entry: Entry
    place: Place

    @property
    def name(self) -> str:
        """Its key in the job file."""
        return self.entry.name

    @property
    def words(self) -> str:
        """How a sentence names it: "thread (line 24)"."""
        title = title_of(self.entry)
        return f"{first_small(title)} ({self.entry.line})"

    @property
    def band(self) -> bool:
        """True for the band that the steady rest runs on."""
        return isinstance(self.entry.given, Turn) and self.entry.given.band

    @property
    def away(self) -> bool:
        """True for what is done at another machine."""
        return isinstance(self.entry.given, Drill) and drilled_across(self.entry.given)

    def meets(self, other: Placed) -> bool:
        """True when both cut the same surface somewhere."""
        mine, its = self.place, other.place
        shared = min(mine.high, its.high) - max(mine.low, its.low)
        at_one_place = mine.length <= SAME or its.length <= SAME
        return mine.inside == its.inside and (shared > SAME or (at_one_place and shared >= -SAME))

    def same_end(self, other: Placed) -> bool:
        """True when both work on the same end of the work."""
        mine, its = (getattr(one.entry.given, "end", None) or "right" for one in (self, other))
        return bool(mine == its)


class Rule(NamedTuple):
    """`wrong(first, second, job)` is true when `second` belongs before `first`, for the reason given."""

    id: str
    level: Level
    wrong: Callable[[Placed, Placed, Job], bool]
    reason: str


def _is(first: str | tuple[str, ...], second: str | tuple[str, ...]) -> Callable[[Placed, Placed], bool]:
    firsts, seconds = ((one,) if isinstance(one, str) else one for one in (first, second))
    return lambda one, two: one.name in firsts and two.name in seconds


def _chamfer_of_thread(one: Placed, two: Placed, _: Job) -> bool:
    given = two.entry.given
    return one.name == "thread" and isinstance(given, Chamfer) and one.place.overlaps(two.place)


def _seal_bore(one: Placed, two: Placed, _: Job) -> bool:
    return one.name == "thread" and isinstance(two.entry.given, Bore) and two.entry.given.seal


def _needs_band(one: Placed, two: Placed, job: Job) -> bool:
    return two.band and not one.band and one.name not in LIGHT and job.holding.steady is not None


def _needs_center(one: Placed, two: Placed, job: Job) -> bool:
    uses = one.name not in ("face", "center_drill", *HOLES, "chamfer", "part_off") and not one.band
    return uses and two.name == "center_drill" and job.holding.center is not None and two.same_end(one)


def _own_blank(one: Placed, two: Placed, _: Job) -> bool:
    cuts = HOLES if one.place.inside else SHAPES
    return one.name == "thread" and two.name in cuts and not two.away and one.meets(two)


def _met(rule: Callable[[Placed, Placed], bool]) -> Callable[[Placed, Placed, Job], bool]:
    return lambda one, two, _: rule(one, two) and one.meets(two)


def _ends(rule: Callable[[Placed, Placed], bool]) -> Callable[[Placed, Placed, Job], bool]:
    return lambda one, two, _: rule(one, two) and one.same_end(two)


def _into_bore(one: Placed, two: Placed, _: Job) -> bool:
    return one.name == "bore" and two.name == "drill" and not two.away and one.meets(two)


def _after_part_off(one: Placed, two: Placed, _: Job) -> bool:
    return one.name == "part_off" and two.name != "part_off" and not two.away


RULES = (
    Rule("order-part-off", "stop", _after_part_off,
         later("once the part is off there is nothing left in the chuck to work on")),
    Rule("order-relief", "check", lambda one, two, _: one.name == "thread" and two.name == "relief",
         later("without its relief the tool has nowhere to run out, and each pass ends in the shoulder")),
    Rule("order-chamfer", "check", _chamfer_of_thread,
         later(
             "the first turn starts ragged without the chamfer, and chamfering afterwards throws a burr "
             "into the finished thread"
         )),
    Rule("order-seal-bore", "check", _seal_bore,
         later(
             "the bar and the chips of boring would mark the finished thread, and its burr would lie in the "
             "seal bore: bore first, then thread, then take the burr off"
         )),
    Rule("order-band", "check", _needs_band,
         later(
             "the steady rest runs on that band, so the band has to be there before any cut that needs it"
         )),
    Rule("order-center", "check", _needs_center,
         later("the cut is held by a center that has no hole yet")),
    Rule("order-blank", "check", _own_blank,
         later(
             "the cut would take the finished thread off, or its depth is counted from a blank that does "
             "not exist yet"
         )),
    Rule("order-knurl", "check", _met(lambda one, two: isinstance(one.entry.given, Knurl)
                                      and two.name in SHAPES),
         later("turning takes the knurl off again; knurl after the last cut of that diameter")),
    Rule("order-polish", "check", _met(_is("polish", (*SHAPES, "knurl", "groove", "relief"))),
         later("the cut takes the polished surface off again")),
    Rule("order-drill", "check", _ends(lambda one, two: one.name == "drill" and not one.away
                                       and two.name == "center_drill"),
         later("the drill wanders without a center to start in")),
    Rule("order-bore", "check", _into_bore,
         later("the drill would follow the bore and spoil its size; drill first, then bore")),
    Rule("order-groove", "check", _met(_is(("groove", "relief"), SHAPES)),
         later("the groove is measured from the turned diameter, and turning over it throws a burr into it")),
    Rule("order-edge", "check", _met(_is("chamfer", (*SHAPES, "bore"))),
         later("the cut takes the chamfer off again")),
    Rule("order-face", "check", _ends(_is(("center_drill", "chamfer", "thread"), "face")),
         later("all lengths count from the faced end, and facing later shortens what was cut there")),
)

_RANKS = {
    "face": 0, "center_drill": 1, "turn": 3, "taper": 3, "drill": 4, "bore": 5, "groove": 6, "relief": 7,
    "chamfer": 8, "knurl": 9, "polish": 10, "thread": 11, "part_off": 13,
}
_BAND, _AWAY = 2, 12


def sorted_route(placed: tuple[Placed, ...]) -> tuple[Placed, ...]:
    """The sensible order: end and center first, then shapes, holes, grooves, edges, thread, part off.

    Operations of one kind keep the order in which they were written (common practice, no source).
    """
    return tuple(sorted(placed, key=_rank))


def _rank(one: Placed) -> int:
    return _BAND if one.band else _AWAY if one.away else _RANKS[one.name]


def faults(placed: tuple[Placed, ...], job: Job) -> Iterator[tuple[Rule, Placed, Placed]]:
    """Each operation that stands too late, once, with the first one that it belongs before."""
    said: set[tuple[str, int]] = set()
    for place, second in enumerate(placed):
        for first in placed[:place]:
            for rule in RULES:
                key = (rule.id, place)
                if key not in said and rule.wrong(first, second, job):
                    said.add(key)
                    yield rule, first, second


def lay_faults(placed: tuple[Placed, ...], job: Job, desk: Desk) -> None:
    """A finding for each operation that stands too late."""
    for rule, first, second in faults(placed, job):
        desk.find(
            rule.id, rule.level,
            say(
                "{second} stands after {first}: {reason}. Move {line} above {other}, or write order: "
                "propose.",
                second=first_large(second.words), first=first.words, reason=rule.reason,
                line=second.entry.line, other=first.entry.line,
            ),
            second.entry.where,
        )
