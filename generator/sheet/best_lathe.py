"""Which lathe of the shop is the best for a job, and why: the lathes in order, one sentence each.

They are asked in turn, and the first answer that differs decides: how much stops the job, how much is left
to decide or to find out, how the lead is had, how soon the half nuts may close again, how much room the
carriage has left, how long it takes, how hard the motor works; and the lathe that the job is planned for goes
first where nothing differs. The order of the questions is common practice, no source. What a lathe's record
does not say counts as left to find out: a short record makes no good lathe.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import ceil, floor, inf, isfinite
from typing import Final

from generator.calc.thread_dial import DialRule
from generator.language.say import first_large, later, say, say_count
from generator.sheet.compare import OnLathe
from generator.sheet.compare_lines import ROOMS, lathe_lines, most_power
from generator.sheet.wording import length_words
from generator.si import Length, minute, mm

ROOM_ENOUGH: Final = 6  # mm along the bed, whole ones; more is no better; common practice
DUST: Final = 1e-6  # mm
MINUTES_APART: Final = 5  # a shorter difference is not worth moving a job for; common practice
LOAD_LIGHT: Final = 0.5  # of the motor's power; under this a stronger lathe is no better; common practice

LEADS: Final = (
    later("the levers alone give the lead"),
    later("change gears give the lead exactly"),
    later("the lead is only near"),
    later("the lead cannot be had"),
    later("how the lead is had is not known"),
)
KEPT_CLOSED: Final = 7  # the hardest answer of `ease`


@dataclass(frozen=True)
class Fitness:
    """The answers of one lathe: `room` in m, `time` in s, `load` in shares of the motor's power.

    `time` and `load` are infinite where they are not known, `room` where nothing limits it.
    """

    stops: int
    open: int
    lead: int
    dial: int
    dial_words: str
    room: Length
    time: float
    load: float
    planned: bool
    inch_first: bool


@dataclass(frozen=True)
class Ranked:
    """One lathe in its place (1 is the best), with the reason in one sentence."""

    on: OnLathe
    place: int
    reason: str
    stops: int
    open: int


@dataclass(frozen=True)
class Question:
    """One question: the answer as a number, the smaller the better, and the answer in words."""

    rank: Callable[[Fitness], float]
    words: Callable[[Fitness], str]


QUESTIONS: Final = (
    Question(lambda fit: fit.stops, lambda fit: _stops_words(fit)),
    Question(lambda fit: fit.open, lambda fit: _open_words(fit)),
    Question(lambda fit: fit.lead, lambda fit: LEADS[fit.lead]),
    Question(lambda fit: fit.dial, lambda fit: say("the half nuts: {dial_words}", dial_words=fit.dial_words)),
    Question(lambda fit: -_whole_mm(fit.room), lambda fit: _room_words(fit)),
    Question(lambda fit: _steps(fit.time), lambda fit: _time_words(fit)),
    Question(lambda fit: max(fit.load, LOAD_LIGHT), lambda fit: _load_words(fit)),
)


def ranking(lathes: Sequence[OnLathe], planned: OnLathe) -> tuple[Ranked, ...]:
    """All lathes in order of preference for this job, each with its reason.

    Parameters
    ----------
    lathes : the job on each of them
    planned : the one that the job file names; it goes first where nothing else differs
    """
    asked = [(_fitness(one, one is planned), one) for one in lathes]
    asked.sort(
        key=lambda pair: (*(question.rank(pair[0]) for question in QUESTIONS), not pair[0].planned)
    )
    ranked = []
    for place, (fit, on) in enumerate(asked, 1):
        beside = asked[0] if place > 1 else asked[1] if len(asked) > 1 else None
        reason = _reason(fit, *_named(beside)) if beside else say("The only lathe of the shop.")
        ranked.append(Ranked(on, place, reason, fit.stops, fit.open))
    return tuple(ranked)


def _named(asked: tuple[Fitness, OnLathe]) -> tuple[Fitness, str]:
    return asked[0], asked[1].lathe.name


def _reason(fit: Fitness, other: Fitness, name: str) -> str:
    """The first answer that tells two lathes apart, in a sentence."""
    for question in QUESTIONS:
        if question.rank(fit) != question.rank(other):
            return say(
                "{here}; on {name} {there}.",
                here=first_large(question.words(fit)), name=name, there=question.words(other),
            )
    if fit.planned:
        return say("As good as {name}, and the job is planned for it.", name=name)
    return (
        say("As good as {name}, for which the job is planned.", name=name)
        if other.planned
        else say("As good as {name}.", name=name)
    )


def _fitness(on: OnLathe, planned: bool) -> Fitness:
    sheet, lines = on.sheet, lathe_lines(on)
    dial = sheet.figures.get("lathe.thread_dial")
    total = _value(on, "time.total") if sheet.ready else None
    power = most_power(sheet)
    watts = power.value if power is not None and isinstance(power.value, int | float) else None
    rooms = [_value(on, name) for name in sheet.figures if ROOMS.fullmatch(name)]
    checks = sum(finding.level == "check" for finding in sheet.findings)
    return Fitness(
        stops=len(on.stops),
        open=checks + sum(not line.is_known for line in lines.values()),
        lead=_lead(on),
        dial=_dial(on),
        dial_words=str(dial.value) if dial is not None and dial.value is not None else say("not known"),
        room=min((room for room in rooms if room is not None), default=inf),
        time=inf if total is None else total,
        load=watts / on.lathe.power.si if watts is not None and on.lathe.power is not None else inf,
        planned=planned,
        inch_first=sheet.system == "inch",
    )


def _value(on: OnLathe, name: str) -> float | None:
    figure = on.sheet.figures.get(name)
    return None if figure is None or not isinstance(figure.value, int | float) else float(figure.value)


def _lead(on: OnLathe) -> int:
    """How the lead is had, as a place in `LEADS`; 0 for a job that cuts no thread."""
    figures = on.sheet.figures
    if "thread.lead" not in figures:
        return 0
    gearbox = figures.get("lathe.gearbox")
    levels = {finding.level for finding in on.sheet.findings if finding.id == "gearbox"}
    if "stop" in levels:
        return LEADS.index("the lead cannot be had")
    if gearbox is None or gearbox.value is None:
        return LEADS.index("how the lead is had is not known")
    if "check" in levels:
        return LEADS.index("the lead is only near")
    return int("lathe.change_gears" in figures or _has_own_gears(on, str(gearbox.value)))


def _has_own_gears(on: OnLathe, entry: str) -> bool:
    """True for an entry of the plate that its own gears belong to, as the record writes them."""
    box = on.lathe.gearbox
    written = (box.tpi_with_gears, box.pitches_with_gears) if box is not None else ()
    return any(gears in entry for gears in written if gears)


def _dial(on: OnLathe) -> int:
    """How easy the half nuts are, by `ease`; what is not known goes with closed half nuts."""
    dial, scene = on.sheet.figures.get("lathe.thread_dial"), on.sheet.dial_scene
    if dial is None or dial.value is None or any(one.id == "half-nuts-closed" for one in on.sheet.findings):
        return KEPT_CLOSED
    return ease(scene.closing) if scene is not None and scene.closing is not None else 0


def ease(rule: DialRule) -> int:
    """How easy a rule of the thread dial is: 0 is any place, then any line, and so on.

    >>> ease(DialRule(False, 1, ((1, 2),), 2, 1)), ease(DialRule(False, None, (), 2, 1))
    (1, 7)
    """
    if rule.anywhere:
        return 0
    if rule.step is None:
        return KEPT_CLOSED
    harder = (
        rule.step == 1, rule.step == rule.numbered_every and rule.step < rule.marks,
        rule.step % rule.numbered_every > 0 and rule.step < rule.marks, rule.marks == 2 * rule.step,
        rule.step < rule.marks,
    )
    return harder.index(True) + 1 if True in harder else KEPT_CLOSED - 1


def _stops_words(fit: Fitness) -> str:
    if not fit.stops:
        return say("nothing stops it")
    return say_count("{count} thing stops it", "{count} things stop it", fit.stops)


def _open_words(fit: Fitness) -> str:
    if not fit.open:
        return say("nothing is left to decide or find out")
    return say_count(
        "{count} thing is left to decide or find out", "{count} things are left to decide or find out",
        fit.open,
    )


def _whole_mm(room: Length) -> float:
    return min(floor(room / mm + DUST), ROOM_ENOUGH) if isfinite(room) else ROOM_ENOUGH


def _room_words(fit: Fitness) -> str:
    if fit.room == inf:
        return say("the room along the bed is not known")
    return say(
        "the least room along the bed is {room}",
        room=length_words(fit.room, "inch" if fit.inch_first else "mm"),
    )


def _steps(time: float) -> float:
    return time if time == inf else ceil(time / minute / MINUTES_APART)


def _time_words(fit: Fitness) -> str:
    return (
        say("the time is not known")
        if fit.time == inf
        else say("it takes about {minutes} min", minutes=ceil(fit.time / minute))
    )


def _load_words(fit: Fitness) -> str:
    return (
        say("the load on the motor is not known")
        if fit.load == inf
        else say("the motor works at {percent:.0f}%", percent=100 * fit.load)
    )
