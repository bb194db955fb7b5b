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

from generator.sheet.compare import OnLathe
from generator.sheet.compare_lines import ROOMS, capital, lathe_lines, most_power
from generator.sheet.wording import length_words
from generator.si import Length, minute, mm

ROOM_ENOUGH: Final = 6  # mm along the bed, whole ones; more is no better; common practice
DUST: Final = 1e-6  # mm
MINUTES_APART: Final = 5  # a shorter difference is not worth moving a job for; common practice
LOAD_LIGHT: Final = 0.5  # of the motor's power; under this a stronger lathe is no better; common practice

LEADS: Final = (
    "the levers alone give the lead",
    "change gears give the lead exactly",
    "the lead is only near",
    "the lead cannot be had",
    "how the lead is had is not known",
)
PLACES: Final = (  # how the sheet says where the half nuts may close, the easiest first
    "any place",
    "any line",
    "numbered lines",
    "every",
    "one opposite pair",
    "lines of one set",
    "the same line",
    "keep the half nuts closed",
)


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
    Question(lambda fit: fit.dial, lambda fit: f"the half nuts: {fit.dial_words}"),
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
        reason = _reason(fit, *_named(beside)) if beside else "The only lathe of the shop."
        ranked.append(Ranked(on, place, reason, fit.stops, fit.open))
    return tuple(ranked)


def _named(asked: tuple[Fitness, OnLathe]) -> tuple[Fitness, str]:
    return asked[0], asked[1].lathe.name


def _reason(fit: Fitness, other: Fitness, name: str) -> str:
    """The first answer that tells two lathes apart, in a sentence."""
    for question in QUESTIONS:
        if question.rank(fit) != question.rank(other):
            return f"{capital(question.words(fit))}; on {name} {question.words(other)}."
    if fit.planned:
        return f"As good as {name}, and the job is planned for it."
    return f"As good as {name}, for which the job is planned." if other.planned else f"As good as {name}."


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
        dial=_dial(str(dial.value) if dial is not None and dial.value is not None else ""),
        dial_words=str(dial.value) if dial is not None and dial.value is not None else "not known",
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
    return int("lathe.change_gears" in figures or " with " in str(gearbox.value))


def _dial(words: str) -> int:
    """How easy the half nuts are, as a place in `PLACES`; what is not known goes with closed half nuts."""
    last = len(PLACES) - 1
    return next((place for place, known in enumerate(PLACES) if known in words), last)


def _stops_words(fit: Fitness) -> str:
    if not fit.stops:
        return "nothing stops it"
    return f"{fit.stops} thing{' stops' if fit.stops == 1 else 's stop'} it"


def _open_words(fit: Fitness) -> str:
    if not fit.open:
        return "nothing is left to decide or find out"
    return f"{fit.open} thing{' is' if fit.open == 1 else 's are'} left to decide or find out"


def _whole_mm(room: Length) -> float:
    return min(floor(room / mm + DUST), ROOM_ENOUGH) if isfinite(room) else ROOM_ENOUGH


def _room_words(fit: Fitness) -> str:
    if fit.room == inf:
        return "the room along the bed is not known"
    return f"the least room along the bed is {length_words(fit.room, 'inch' if fit.inch_first else 'mm')}"


def _steps(time: float) -> float:
    return time if time == inf else ceil(time / minute / MINUTES_APART)


def _time_words(fit: Fitness) -> str:
    return "the time is not known" if fit.time == inf else f"it takes about {ceil(fit.time / minute)} min"


def _load_words(fit: Fitness) -> str:
    return "the load on the motor is not known" if fit.load == inf else f"the motor works at {fit.load:.0%}"
