"""How long the job takes, by operation and in all: cutting, and what the shop allows for the rest.

    given_times        what the job file says of it
    time_section       lays every time, gives the operations theirs, prices the job where there is a rate
    Parts              the time of one operation, part by part
    closing_travel     from one place of the thread dial to the next that serves

What is not known is left out, named, and makes the whole "at least". An estimate, not a quotation.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final

from generator.calc.operation_time import dial_wait
from generator.job.lathe import Lathe
from generator.job.reading import ReadJob
from generator.job.written import Given
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.exact import exact_lead, leadscrew_lead
from generator.sheet.figure import Quantity
from generator.sheet.half_nuts import dial_gears_of
from generator.sheet.lines import OperationLine
from generator.sheet.plans import OperationPlan
from generator.sheet.time_allowed import ALLOWED, PRACTICE, Timing
from generator.si import Length, Time, minute, mm

SUM: Final = later("arithmetic")
HOUR: Final = 60 * minute
NOT_IN_PRICE: Final = later(
    "an estimate, not a quotation: hours at the shop's rate; material, outside work, waiting, freight and "
    "tax are not in it"
)

Put = dict[str, tuple[float, Quantity]]


@dataclass(frozen=True)
class Parts:
    """The time of one operation, part by part, s; `whole` is what the job gives instead of all of them."""

    number: int
    set_up: Time = 0.0
    cut: Time = 0.0
    back: Time = 0.0
    measured: int = 0
    tried: int = 0
    whole: Time | None = None


def time_section(
    plans: tuple[OperationPlan, ...],
    lines: tuple[OperationLine, ...],
    given: Mapping[int, Given],
    timing: Timing,
) -> tuple[OperationLine, ...]:
    """Lay the times; return the operations with the time of each in the column "time".

    `given` has the time that the job file says for an operation, by its number.
    """
    if not lines:
        return ()
    planned = {plan.number: plan for plan in plans}
    done, known, missing, tool = [], [], [], ""
    for line in lines:
        before, tool = tool, _tool(line, timing.desk)
        name = f"operation.{line.number}.total_time"
        label = say("{number} {title}: time in all", number=line.number, title=line.title)
        if line.number in given:
            whole = timing.desk.given(name, label, given[line.number], "duration")
            known.append(Parts(line.number, whole=whole))
        elif (parts := _parts(line, planned.get(line.number), tool != before or not tool, timing)) is None:
            timing.desk.unknown(name, label, "duration", say("how long it cuts is not known"))
            missing.append(line)
        else:
            _lay_operation(name, label, parts, timing)
            known.append(parts)
        done.append(replace(line, figures={**line.figures, "time": name}))
    _lay_whole(known, missing, timing)
    return tuple(done)


def given_times(read: ReadJob, lines: tuple[OperationLine, ...]) -> dict[int, Given]:
    """The times that the job file gives for its operations, by their number in the route."""
    said = {
        read.where(f"operations.{place}"): operation.given.time
        for place, operation in enumerate(read.job.operations)
        if operation.given.time is not None
    }
    return {line.number: said[line.where] for line in lines if line.where is not None and line.where in said}


def _tool(line: OperationLine, desk: Desk) -> str:
    """The tool in words; empty where none is named, for two such need not be one."""
    figure = desk.figures.get(line.figures.get("tool", ""))
    return "" if figure is None or figure.value is None or figure.assumed else str(figure.value)


# -- one operation --------------------------------------------------------------------------------------


def _parts(line: OperationLine, plan: OperationPlan | None, new_tool: bool, timing: Timing) -> Parts | None:
    """The parts of one operation; None when how long it cuts is not known."""
    if plan is None or plan.cut_time is None:
        return None
    set_up = timing.allowed("tool") if new_tool else 0.0
    if line.name != "thread":
        back = _lay_come_back(line, max(len(plan.depths), 1), 0.0, "", plan.other_time or 0.0, timing)
        return Parts(line.number, set_up, plan.cut_time, back, int(bool(line.hold)))
    if timing.cuts is None or timing.thread is None or timing.levers is None:
        return None
    set_up += timing.allowed("levers")
    gears = timing.desk.figures.get("lathe.change_gears")
    if gears is not None and gears.value is not None:
        set_up += timing.allowed("gears")
    passes = len(timing.cuts.passes) * timing.thread.designation.starts
    waits, words = _lay_wait(plan.cut_time / passes, timing)
    back = _lay_come_back(line, passes, waits, words, plan.other_time or 0.0, timing)
    measured = sum(one.measure for one in timing.cuts.passes)
    tried = sum(one.try_mate for one in timing.cuts.passes) + 1  # and again when it is done
    return Parts(line.number, set_up, plan.cut_time, back, measured, tried)


def _lay_come_back(
    line: OperationLine, passes: int, wait: Time, words: str, other: Time, timing: Timing
) -> Time:
    """Lay the time to bring the tool back after every pass, with the wait or the way back under power."""
    each = timing.allowed("come_back")
    formula = "{passes} × {bringing back}"
    put: Put = {"passes": (passes, "count"), "bringing back": (each, "time")}
    if words:
        formula, put[words] = f"{{passes}} × ({{bringing back}} + {{{words}}})", (wait, "time")
    if other:
        formula, put["clearing chips"] = f"{formula} + {{clearing chips}}", (other, "time")
    return timing.desk.computed(
        f"operation.{line.number}.return_time",
        say("{number} {title}: bringing the tool back", number=line.number, title=line.title),
        passes * (each + wait) + other,
        "duration",
        formula,
        put,
        SUM,
    )


def _lay_wait(one_pass: Time, timing: Timing) -> tuple[Time, str]:
    """What each return of a threading tool waits for: the dial, or the carriage running back under power."""
    thread, levers = timing.thread, timing.levers
    assert thread is not None
    assert levers is not None
    if levers.keep_half_nuts_closed:
        timing.desk.computed(
            "time.run_back",
            say("Running back, half nuts closed, each pass"),
            one_pass,
            "time",
            say("as long as the pass, {pass}"),
            {"pass": (one_pass, "time")},
            say("arithmetic of the leadscrew"),
            note=say("the spindle reversed at the same step; a faster step back takes less"),
        )
        return one_pass, say("running back")
    travel, step = closing_travel(timing.lathe, levers.lead or exact_lead(thread)), levers.spindle_speed
    if travel is None or step is None:
        return 0.0, ""
    wait = timing.desk.computed(
        "time.dial_wait", say("Wait for the thread dial, each pass"),
        dial_wait(travel, thread.lead, step), "time", "{from place to place} ÷ ({L} × {n}) ÷ 2",
        {
            "from place to place": (travel, "fine_length"), "L": (thread.lead, "fine_length"),
            "n": (step, "spindle_speed"),
        },
        say("arithmetic of the leadscrew"), note=say("on average"),
    )
    return wait, say("waiting for the dial")


def closing_travel(lathe: Lathe, lead: Fraction) -> Length | None:
    """Travel between two places at which the half nuts may close, m; None where there are none.

    Parameters
    ----------
    lead : of the thread as it is cut, mm, exact
    """
    screw = leadscrew_lead(lathe)
    if screw is None:
        return None
    gear = dial_gears_of(lathe, screw, lead)[0]
    if gear.rule.anywhere:
        return float(screw) * mm
    if gear.rule.step is None:
        return None
    return float(gear.rule.step * gear.teeth * screw / gear.rule.marks) * mm


def _lay_operation(name: str, label: str, parts: Parts, timing: Timing) -> None:
    """The whole time of one operation from its parts."""
    measuring = parts.measured * timing.allowed("measure") if parts.measured else 0.0
    fitting = parts.tried * timing.allowed("fit") if parts.tried else 0.0
    timing.desk.computed(
        name, label, parts.set_up + parts.cut + parts.back + measuring + fitting, "duration",
        *_sum({
            later(
                "tool and levers"
            ): parts.set_up, later("cutting"): parts.cut, later("bringing back"): parts.back,
            later("measuring"): measuring, later("trying the mate"): fitting,
        }),
        SUM,
    )


def _sum(parts: Mapping[str, Time]) -> tuple[str, Put]:
    """A formula that adds up what is not nothing, and its numbers."""
    left = {words: value for words, value in parts.items() if value} or dict(list(parts.items())[:1])
    put: Put = {words: (value, "duration") for words, value in left.items()}
    return " + ".join("{" + words + "}" for words in left), put


# -- the whole job --------------------------------------------------------------------------------------


def _lay_whole(known: list[Parts], missing: list[OperationLine], timing: Timing) -> None:
    """The job by kinds of work, and in all."""
    desk, holding = timing.desk, timing.job.holding
    parts = [one for one in known if one.whole is None]
    up: dict[str, Time] = {later("chucking and truing"): timing.allowed("set_up")}
    if holding.steady is not None:
        up[later("steady rest")] = timing.allowed("steady")
    if holding.center is not None:
        up[later("center")] = timing.allowed("center")
    work = desk.computed(
        "time.work", say("Setting the work up"), sum(up.values()), "duration", *_sum(up), SUM
    )
    whole: dict[str, Time] = {
        later("setting up"): _lay_sum(
            "time.set_up",
            say("Setting up: work, tools, levers"),
            {later("work"): work, **_each((one.number, one.set_up) for one in parts)},
            timing,
        ),
        later("cutting"): _lay_sum(
            "time.cut", say("Cutting"), _each((one.number, one.cut) for one in parts), timing
        ),
        later("bringing back"): _lay_sum(
            "time.return",
            say("Bringing the tool back"),
            _each((one.number, one.back) for one in parts),
            timing,
        ),
        later(
            "measuring"
        ): _lay_times("measure", say("Measuring"), sum(one.measured for one in parts), timing),
        later(
            "trying the mate"
        ): _lay_times("fit", say("Trying the mate"), sum(one.tried for one in parts), timing),
    }
    if said := {
        say("operation {number}", number=one.number): one.whole for one in known if one.whole is not None
    }:
        whole[later(
            "as given"
        )] = _lay_sum("time.given", say("Operations whose time the job gives"), said, timing)
    words, usual, quantity = ALLOWED["hand_over"]
    whole[later("handing over")] = desk.chosen(
        "time.hand_over",
        say("Handing over: {words}", words=words),
        timing.house.times.hand_over,
        usual,
        quantity,
        PRACTICE,
    )
    without = ", ".join(f"{line.number} {line.title}" for line in missing)
    total = desk.computed(
        "time.total",
        say("The whole job, at least") if missing else say("The whole job"),
        sum(whole.values()),
        "duration",
        *_sum(whole),
        SUM,
        note=say("without what is not known: {without}", without=without) if missing else "",
    )
    _lay_price(total, bool(missing), timing)


def _each(times: Iterable[tuple[int, Time]]) -> dict[str, Time]:
    return {say("operation {number}", number=number): time for number, time in times}


def _lay_sum(name: str, label: str, parts: Mapping[str, Time], timing: Timing) -> Time:
    if not parts:
        parts = {say("nothing"): 0.0}
    return timing.desk.computed(name, label, sum(parts.values()), "duration", *_sum(parts), SUM)


def _lay_times(key: str, label: str, count: int, timing: Timing) -> Time:
    """So many times the same."""
    each = timing.allowed(key) if count else 0.0
    return timing.desk.computed(
        f"time.{key}", label, count * each, "duration", "{times} × {once}",
        {"times": (count, "count"), "once": (each, "duration")}, SUM,
    )


def _lay_price(total: Time, at_least: bool, timing: Timing) -> None:
    """An estimate to quote from, where the shop's file has a rate."""
    house = timing.house
    if house.rate is None:
        return
    money = f", {house.currency}" if house.currency else ""
    rate = timing.desk.chosen(
        "time.rate", say("Rate for an hour{money}", money=money), house.rate, 0.0, "money", PRACTICE
    )
    timing.desk.computed(
        "time.price",
        say("Estimate to quote from, at least{money}", money=money) if at_least
        else say("Estimate to quote from{money}", money=money),
        rate * total / HOUR,
        "money",
        "{rate} × {hours}",
        {"rate": (rate, "money"), "hours": (total / HOUR, "ratio")},
        SUM,
        note=NOT_IN_PRICE,
    )
