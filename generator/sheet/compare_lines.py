"""What one lathe has to say about a job, line by line, read off its finished sheet by the stable names.

`lathe_lines` goes the way of a machinist who is asked to take the job over: is the work held, does the
carriage reach, which levers, where do the half nuts close, which step, what do the dials read, the other
operations, has the lathe the power, how long does it take, and what could not be checked.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Final

from generator.job.lathe import Lathe
from generator.job.lathe_parts import Dial
from generator.language.say import figure, first_large, later, say, say_count
from generator.sheet.capacity import unchecked_of
from generator.sheet.compare import Line, OnLathe
from generator.sheet.figure import Figure, Kind, System
from generator.sheet.lines import Finding, OperationLine, PassLine
from generator.sheet.model import Sheet
from generator.sheet.wording import rpm_words
from generator.si import Length, inch, minute, mm

HELD, REACH, LEVERS = later("Can it be held"), later("Does it reach"), later("Levers and gears")
NUTS, SPINDLE, DIALS = later("Half nuts and thread dial"), later("Spindle"), later("Dials")
OPERATIONS, POWER, TIME = later("Other operations"), later("Power and stiffness"), later("Time")
NOT_KNOWN, FOUND = later("What is not known"), later("What else is found")

OFF_DIAMETER: Final[Mapping[System, tuple[float, str, float]]] = {  # number, its form, unit
    "inch": (0.010, ".3f", inch), "mm": (0.2, ".1f", mm),
}
COLUMNS: Final = ("step", "feed", "dial")  # of an operation: what is set, and may differ


@dataclass(frozen=True)
class Named:
    """A row that shows a figure of the sheet."""

    group: str
    name: str
    limited: bool = False  # its note says what the lathe allows
    fits: bool = False  # it is enough that the work's size is within that
    noted: bool = False  # its note says why it is so on this lathe
    grain: float = 0.0  # differences below it are none


HOLDING: Final = (
    Named(HELD, "capacity.swing_over_bed", limited=True, fits=True),
    Named(HELD, "capacity.swing_over_cross_slide", limited=True, fits=True),
    Named(HELD, "capacity.between_centers", limited=True, fits=True),
    Named(HELD, "capacity.chuck", limited=True, fits=True),
    Named(HELD, "capacity.collet", limited=True, fits=True),
    Named(HELD, "capacity.faceplate", limited=True, fits=True),
    Named(HELD, "capacity.steady", limited=True, fits=True),
    Named(HELD, "holding.steady.position", noted=True),
    Named(HELD, "capacity.follow_rest", limited=True, fits=True),
    Named(HELD, "capacity.spindle_bore", limited=True, fits=True),
    Named(HELD, "grip.needed"),
)
SLIDES: Final = (
    Named(REACH, "reach.compound_travel", limited=True, fits=True),
    Named(REACH, "reach.cross_travel", limited=True, fits=True),
)
CARRIAGE: Final = (  # where no room is worked out cut by cut
    Named(REACH, "capacity.carriage", limited=True),
    Named(REACH, "capacity.carriage_to_chuck", limited=True),
)
GEARING: Final = (Named(LEVERS, "lathe.gearbox"), Named(LEVERS, "lathe.change_gears", noted=True))
ROOMS: Final = re.compile(r"reach\..+\.(left|right)")  # what is left beside what travels, cut by cut
STIFFNESS: Final = (Named(POWER, "holding.diameter_error.max"),)
TIMES: Final = (Named(TIME, "time.set_up", grain=minute), Named(TIME, "time.total", grain=minute))

POWERS: Final = re.compile(r"passes\.power|operation\..+\.power")
ROOM, POWER_ROW, NOT_CHECKED = "reach.room", "power.most", "not_checked"
FOLLOWS: Final = frozenset({  # rows that are not known where something else stops the sheet
    "capacity.steady", "relief.time", "passes.dial", POWER_ROW, "holding.diameter_error.max", "time.set_up",
    "time.total", "grip.needed",
})
ROW_OF_FINDING: Final[Mapping[str, str]] = {
    "swing-bed": "capacity.swing_over_bed",
    "swing-gap": "capacity.swing_over_bed",
    "swing-slide": "capacity.swing_over_cross_slide",
    "too-long": "capacity.between_centers",
    "chuck-missing": "capacity.chuck",
    "chuck-range": "capacity.chuck",
    "grip-past-jaws": "capacity.chuck",
    "collet-missing": "capacity.collet",
    "collet-range": "capacity.collet",
    "collet-part-filled": "capacity.collet",
    "faceplate-missing": "capacity.faceplate",
    "faceplate-range": "capacity.faceplate",
    "faceplate-overhung": "capacity.faceplate",
    "follow-rest-missing": "capacity.follow_rest",
    "follow-rest-range": "capacity.follow_rest",
    "steady-missing": "capacity.steady",
    "steady-range": "capacity.steady",
    "steady-place": "holding.steady.position",
    "steady-better": "holding.steady.position",
    "cut-in-jaws": ROOM,
    "quill-out": ROOM,
    "compound-travel": "reach.compound_travel",
    "cross-travel": "reach.cross_travel",
    "spindle-bore": "capacity.spindle_bore",
    "hoist": "lift",
    "lift": "lift",
    "gearbox": "lathe.gearbox",
    "gearbox-unknown": "lathe.gearbox",
    "change-gears": "lathe.gearbox",
    "leadscrew-reverse": "lathe.gearbox",
    "leadscrew-reverse-unknown": "lathe.gearbox",
    "dial-gear": "lathe.thread_dial",
    "thread-dial-unknown": "lathe.thread_dial",
    "half-nuts-closed": "lathe.thread_dial",
    "dial-starts": "lathe.thread_dial",
    "screwed-nose": "lathe.thread_dial",
    "spindle-too-fast": "spindle.step",
    "spindle-step": "spindle.step",
    "spindle-fast": "spindle.step",
    "chuck-speed": "spindle.step",
    "chuck-speed-unknown": "spindle.step",
    "relief-time": "relief.time",
    "dial-coarse": "passes.dial",
    "many-passes": "passes.count",
    "power": POWER_ROW,
    "deflection": "holding.diameter_error.max",
    "grip-low": "grip.needed",
    "grip-over-key": "grip.needed",
    "grip-speed": "grip.needed",
    "grip-unknown": "grip.needed",
}


def row_of(finding: Finding, sheet: Sheet) -> str:
    """The row that a finding belongs to: by its id, else by the operation that it points to."""
    if "-meets-" in finding.id:
        return ROOM
    if finding.id in ROW_OF_FINDING:
        return ROW_OF_FINDING[finding.id]
    for operation in sheet.operations:
        if finding.where == operation.where and operation.name != "thread":
            return operation_row(operation.number)
    return finding.id


def operation_row(number: int) -> str:
    """The row of an operation, by its place in the route."""
    return f"operation.{number}"


def lathe_lines(on: OnLathe) -> dict[str, Line]:
    """Every line that this lathe has for the job, by its row, in the order of the rows."""
    lines = [
        *_named(on, HOLDING),
        *_lifting(on),
        *_reach(on),
        *_named(on, GEARING),
        *_half_nuts(on),
        *_spindle(on),
        *_passes(on),
        *_cross_dial(on),
        *_operations(on),
        *_power(on),
        *_named(on, STIFFNESS),
        *(_named(on, TIMES) if on.sheet.ready else ()),  # of a sheet that is stopped they leave out a part
        *_not_checked(on),
    ]
    return {line.id: line for line in lines}


def _named(on: OnLathe, rows: tuple[Named, ...]) -> Iterator[Line]:
    for row in rows:
        shown = on.sheet.figures.get(row.name)
        if shown is not None:
            limit = shown.note if row.limited else ""
            why = f"{first_large(shown.note)}." if row.noted and shown.note else ""
            yield Line(
                row.name, row.group, shown.label, (shown,), limit, why, fits=row.fits, grain=row.grain
            )


def _words(name: str, label: str, words: str, lathe: Lathe, note: str = "") -> Figure:
    """A figure of words from the lathe's own record."""
    return Figure(name, label, words, "text", Kind.SHOP, f"jobs/_shop/lathes/{lathe.lathe}.yml", note=note)


def _lifting(on: OnLathe) -> Iterator[Line]:
    """The weight against the hoist: not known only where one person does not lift it."""
    weight, alone = (on.sheet.figures.get(name) for name in ("holding.weight", "holding.lift_alone"))
    if weight is None:
        return
    hoist = on.lathe.hoist
    heavy = bool(alone and _number(weight) > _number(alone))
    limit = (
        say("its hoist lifts {hoist}", hoist=hoist.with_unit)
        if hoist
        else say("no hoist in its record")
    )
    known = hoist is not None or not heavy
    why = (
        ""
        if known
        else say(
            "The record of {name} names no hoist, and one person does not lift this.", name=on.lathe.name
        )
    )
    yield Line("lift", HELD, weight.label, (weight,), limit, why, known, fits=True)


def _number(shown: Figure) -> float:
    return float(shown.value) if isinstance(shown.value, int | float) else 0.0


def _reach(on: OnLathe) -> Iterator[Line]:
    """The least room of all cuts, and the travel of the slides."""
    rooms = [
        one for name, one in on.sheet.figures.items() if ROOMS.fullmatch(name) and one.value is not None
    ]
    if not rooms:
        rooms = [line.figures[0] for line in _named(on, CARRIAGE) if line.is_known]
    if rooms:
        tightest = min(rooms, key=_number)
        limit = "; ".join(map(str, filter(None, (tightest.label, tightest.note))))
        yield Line(ROOM, REACH, say("Least room along the bed"), (replace(tightest, name=ROOM),), limit)
    yield from _named(on, SLIDES)


def _half_nuts(on: OnLathe) -> Iterator[Line]:
    dial, rule = (on.sheet.figures.get(name) for name in ("lathe.thread_dial", "lathe.thread_dial.rule"))
    if dial is not None:
        why = f"{first_large(str(rule.value))}." if rule is not None and rule.value else ""
        yield Line(dial.name, NUTS, dial.label, (dial,), why=why)


def _spindle(on: OnLathe) -> Iterator[Line]:
    step, wanted, time = (on.sheet.figures.get(n) for n in ("spindle.step", "spindle.wanted", "relief.time"))
    if step is not None:
        why = ""
        if step.kind is Kind.COMPUTED and wanted is not None and _number(wanted):
            why = say(
                "The highest step that {name} has up to {speed}.",
                name=on.lathe.name, speed=rpm_words(_number(wanted)),
            )
        yield Line(step.name, SPINDLE, step.label, (step,), why=why or step.note)
    if time is not None:
        yield Line(time.name, SPINDLE, time.label, (time,))


# -- dials ----------------------------------------------------------------------------------------------


def _passes(on: OnLathe) -> Iterator[Line]:
    """First and last pass as they are counted on this lathe's dial, and how many there are."""
    sheet, label = on.sheet, say("First and last pass, on the dial")
    cuts = [line for line in sheet.passes if not line.spring]
    if cuts:
        figures = (_reading("passes.first", cuts[0], on), _reading("passes.last", cuts[-1], on))
        yield Line(
            "passes.dial",
            DIALS,
            label,
            figures,
            why=say("Set on the {pass_dial}.", pass_dial=sheet.pass_dial),
        )
    elif "passes.travel" in sheet.figures:
        why = say("no pass table: a finding stops the sheet")
        blank = Figure("passes.dial", label, None, "text", Kind.UNKNOWN, why, note=why)
        yield Line("passes.dial", DIALS, label, (blank,))
    yield from _named(on, (Named(DIALS, "passes.count"),))


def _infeed_dial(on: OnLathe) -> Dial:
    """The dial of the slide that feeds in: straight in with the cross slide, else the compound."""
    angle = on.sheet.figures.get("passes.infeed_angle")
    straight = angle is not None and angle.value == 0
    return on.lathe.cross_dial if straight else on.lathe.compound_dial


def _reading(name: str, line: PassLine, on: OnLathe) -> Figure:
    """Turns and divisions of one pass."""
    dial = _infeed_dial(on)
    words = _divisions(line.dial_reading, dial)
    if line.dial_turns:
        words = say_count(
            "{count} turn and {divisions}", "{count} turns and {divisions}", line.dial_turns, divisions=words
        )
    return _words(name, say("Pass {number}, on the dial", number=line.number), words, on.lathe)


def _divisions(reading: Length, dial: Dial) -> str:
    """A reading in divisions, to a tenth, as far as an eye reads between two lines."""
    count = reading / dial.division.si
    shown = figure(count, ".0f" if f"{count:.1f}".endswith(".0") else ".1f")
    return say("{count} divisions of {division}", count=shown, division=dial.division.with_unit)


def _cross_dial(on: OnLathe) -> Iterator[Line]:
    """What a cut off the diameter shows on the cross dial: radius and diameter dials differ by two."""
    number, form, unit = OFF_DIAMETER[on.sheet.system]
    dial, on_diameter = on.lathe.cross_dial, on.lathe.cross_dial.reads == "diameter"
    size = f"{figure(number, form)} {'in' if unit == inch else 'mm'}"
    label = say("Cross dial for {size} off the diameter", size=size)
    shown = _divisions(number * unit if on_diameter else number * unit / 2, dial)
    why = say("This cross dial reads diameter.") if on_diameter else say("This cross dial reads radius.")
    yield Line("cross_dial", DIALS, label, (_words("cross_dial", label, shown, on.lathe),), why=why)


# -- operations, power, what is not known -----------------------------------------------------------------


def _operations(on: OnLathe) -> Iterator[Line]:
    """What is set for each operation but the thread, which has rows of its own."""
    for operation in on.sheet.operations:
        figures = tuple(_set_for(operation, on.sheet))
        if figures and operation.name != "thread":
            label = f"{operation.number} {operation.title}"
            yield Line(operation_row(operation.number), OPERATIONS, label, figures)


def _set_for(operation: OperationLine, sheet: Sheet) -> Iterator[Figure]:
    for column in COLUMNS:
        shown = sheet.figures.get(operation.figures.get(column, ""))
        if shown is not None and shown.value is not None:
            yield shown


def most_power(sheet: Sheet) -> Figure | None:
    """The largest power that any operation takes, or a figure without a value where none is known."""
    powers = [one for name, one in sheet.figures.items() if POWERS.fullmatch(name)]
    known = [one for one in powers if isinstance(one.value, int | float)]
    return max(known, key=_number) if known else next(iter(powers), None)


def _power(on: OnLathe) -> Iterator[Line]:
    shown = most_power(on.sheet)
    if shown is None:
        return
    motor, label = on.lathe.power, say("Most power wanted")
    cut = say("threading") if shown.name == "passes.power" else str(shown.label).partition(":")[0]
    limit = say("{cut}; the motor has {motor}", cut=cut, motor=motor.with_unit) if motor else cut
    why = (
        "" if motor else say("The record of {name} does not say how strong the motor is.", name=on.lathe.name)
    )
    yield Line(POWER_ROW, POWER, label, (replace(shown, name=POWER_ROW),), limit, why, motor is not None)


def _not_checked(on: OnLathe) -> Iterator[Line]:
    """What was not checked on this lathe because its record does not say."""
    for finding in on.sheet.findings:
        if finding.id == "not-checked":
            items = unchecked_of(finding.text, on.lathe)
            left = replace(_words(NOT_CHECKED, say("Not checked"), items, on.lathe), kind=Kind.UNKNOWN)
            why = say("The record of {name} does not say.", name=on.lathe.name)
            yield Line(NOT_CHECKED, NOT_KNOWN, say("Not checked"), (left,), why=why, known=False)
            return
    nothing = _words(NOT_CHECKED, say("Not checked"), say("nothing"), on.lathe)
    yield Line(NOT_CHECKED, NOT_KNOWN, say("Not checked"), (nothing,))
