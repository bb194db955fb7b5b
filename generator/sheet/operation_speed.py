"""Speed of an operation: surface speed by material and tool, spindle speed, and the step of this lathe."""

from __future__ import annotations

from collections.abc import Mapping

from generator.calc.cutting import spindle_speed
from generator.calc.slenderness import ALONE
from generator.job.model import HeldBy
from generator.job.operations import Settings
from generator.job.shop import Material
from generator.language.say import later, say
from generator.sheet.figure import Kind
from generator.sheet.head import used_head
from generator.sheet.holding.speeds import OPEN_END, TAIL
from generator.sheet.operation_task import PRACTICE, Task
from generator.sheet.spindle_step import Turned, check_head, lay_step
from generator.sheet.wording import rpm_words
from generator.si import Length, Speed, SpindleSpeed, ft_per_min, m_per_min
from generator.tables.cutting_speeds import CARBIDE, TOOL_WORDS, SpeedRange, speed_range

COURSE = later("US Army course OD1645, Lathe Operations (1988)")
OWN_FILE = "jobs/_shop/materials.yml"
CARBIDE_OVER_STEEL = (2.0, 3.0)  # US Navy course NAVEDTRA 14345: carbide two to three times high-speed steel
TIP_SPEEDS = {  # of the work in a steady rest; common practice, no source
    "bronze": 100 * ft_per_min, "brass": 100 * ft_per_min,
    "roller": 200 * ft_per_min, "ball": 200 * ft_per_min,
}
TIPS = {
    "bronze": later(
        "the bronze tips of the steady rest"
    ), "brass": later("the brass tips of the steady rest"),
    "roller": later("the roller tips of the steady rest"), "ball": later("the ball tips of the steady rest"),
}
OF_HEAD: Mapping[HeldBy, str] = {  # what it is marked with
    "chuck": later("the chuck's own"), "collet": later("the collet's own"),
    "faceplate": later("the faceplate's own"), "centers": later("the driving plate's own"),
}
CRITICAL_SHARE = 0.7             # of the critical speed; common practice, no source


def speed_for(task: Task, operation: str) -> SpeedRange:
    """The range of surface speed for this material and tool, the shop's own figures first."""
    bench, steel = task.bench, task.tool.steel
    group = bench.material.group if bench.material else None
    drilling = bench.shop_material.drilling_speed if bench.shop_material else None
    return speed_range(
        group, operation, steel, turning=_own_turning(bench.shop_material, steel),
        drilling=_own(drilling.si) if drilling else None,
    )


def lay_speed(
    task: Task, operation: str, diameter: Length | None, why: str = later("its diameter is not known"),
    *, key: str = "",
) -> SpindleSpeed | None:
    """Lay surface speed, wanted spindle speed and step; return the step.

    Parameters
    ----------
    operation : as the table of cutting speeds calls it
    diameter : largest in the cut, m; None when it is not known, for the reason `why`
    key : put before the names of the figures, for a second tool in the same operation
    """
    given, bench = task.entry.given, task.bench
    of = say("reaming: ") if key else ""
    limit = _lay_limit(task, given, operation, key, of)
    wanted: SpindleSpeed | None = None
    if diameter is None or diameter <= 0:
        task.unknown(f"{key}spindle_wanted", say("{of}spindle speed, not above", of=of), "spindle_speed", why)
    else:
        wanted = task.computed(
            f"{key}spindle_wanted",
            say("{of}spindle speed, not above", of=of),
            spindle_speed(limit, diameter),
            "spindle_speed",
            "{v} ÷ (π × {d})",
            {"v": (limit, "speed"), "d": (diameter, "length")},
            COURSE,
            rounds="down",
        )
    turned = Turned(
        task.what,
        task.name(f"{key}step"),
        task.label(say("{of}spindle step", of=of)),
        task.where,
        "operation",
        "check",
    )
    step = lay_step(turned, given.spindle, bench.lathe, wanted, task.desk, most=_caps(task))
    if not key:
        task.column("step")
    if step is not None:
        where = given.spindle.where if given.spindle else task.where
        head = used_head(bench.job, bench.lathe)
        check_head(head, bench.job, bench.lathe, step, where, task.desk)
        _check_whip(task, step)
        _check_tips(task, step)
        _check_open_end(task)
    return step


def speed_words(low: Speed, high: Speed) -> str:
    """A range of surface speeds in both units."""
    return say(
        "{low:.0f} to {high:.0f} ft/min ({low_metric:.0f} to {high_metric:.0f} m/min)",
        low=low / ft_per_min, high=high / ft_per_min, low_metric=low / m_per_min,
        high_metric=high / m_per_min,
    )


def _lay_limit(task: Task, given: Settings, operation: str, key: str, of: str) -> Speed:
    """The surface speed not to go above: the job's own, else the upper end of the range.

    Of a material that nobody knows, the lower end: that of the hardest to cut.
    """
    name, words = f"{key}surface_speed", say("{of}surface speed, not above", of=of)
    found = speed_for(task, operation)
    if given.speed is not None:
        limit = task.given(name, words, given.speed, "speed")
        if task.bench.material is not None and limit > found.high * (1 + 1e-9):
            task.find(
                "operation-speed", "check",
                say(
                    "The {speed} of {what} are above {range}, the range for {steel} in {group} ({source}). "
                    "Decide whether the tool bears it.",
                    speed=given.speed.with_unit, what=task.what, range=speed_words(found.low, found.high),
                    steel=TOOL_WORDS[task.tool.steel], group=task.bench.material.group, source=found.source,
                ),
                given.speed.where,
            )
        return limit
    known = task.bench.material is not None
    end = say("upper end") if known else say("lower end, for the material is unknown")
    note = say(
        "{end} of {range} for {steel}",
        end=end, range=speed_words(found.low, found.high), steel=TOOL_WORDS[task.tool.steel],
    )
    note += f"; {found.note}" if found.note else ""
    note += say("; a value from memory is in it, check a copy") if found.from_memory else ""
    kind = Kind.SHOP if OWN_FILE in found.source else (
        Kind.ASSUMED if found.practice or not known else Kind.STANDARD
    )
    limit = found.high if known else found.low
    task.chosen(name, words, limit, "speed", kind, found.source, note=note, rounds="down")
    return limit


def _own_turning(material: Material | None, steel: str) -> SpeedRange | None:
    if material is None:
        return None
    if steel != CARBIDE:
        return _own(material.turning_speed.si) if material.turning_speed else None
    if material.carbide_speed:
        return _own(material.carbide_speed.si)
    if material.turning_speed is None:
        return None
    low, high = (share * material.turning_speed.si for share in CARBIDE_OVER_STEEL)
    return SpeedRange(
        low,
        high,
        say(
            "two to three times high-speed steel (US Navy course NAVEDTRA 14345); that: {own_file}",
            own_file=OWN_FILE,
        ),
    )


def _own(speed: Speed) -> SpeedRange:
    return SpeedRange(speed, speed, OWN_FILE)


def _caps(task: Task) -> dict[str, SpindleSpeed]:
    """What else the step stays below: the mark on what holds the work, the steady's tips, whipping."""
    job, caps = task.bench.job, {}
    head = used_head(job, task.bench.lathe)
    if head is not None and head.top_speed is not None:
        caps[OF_HEAD[job.holding.held.kind]] = head.top_speed.si
    on_tips = _on_tips(task)
    if on_tips is not None:
        caps[on_tips[0]] = on_tips[1]
    caps.update({name: _share(task) * speed for name, _, speed in _criticals(task)})
    return caps


def _on_tips(task: Task) -> tuple[str, SpindleSpeed] | None:
    """The speed that the tips of the steady rest bear, and what they are called."""
    band, rest = task.desk.figures.get("holding.steady.diameter"), task.bench.lathe.steady
    if band is None or not isinstance(band.value, float) or band.value <= 0:
        return None
    tips = (rest.tips if rest else None) or "bronze"
    return TIPS[tips], spindle_speed(TIP_SPEEDS[tips], band.value)


def _end_open(task: Task) -> bool:
    """True where the center has to be away, and no steady rest stands in for it."""
    holding, name = task.bench.job.holding, task.entry.name
    in_the_end = name in ("face", "center_drill") or task.place.inside
    return in_the_end and holding.center is not None and holding.steady is None


def _criticals(task: Task) -> list[tuple[str, str, SpindleSpeed]]:
    """Each critical speed that bears on this operation: the name of its share, what begins to whip, rev/s."""
    held = (
        (
            OPEN_END,
            later("the share of the critical speed without the center"),
            say("this work begins to whip without its center"),
        )
        if _end_open(task)
        else ("holding.critical_speed", later(
            "the share of the critical speed"
        ), say("this work begins to whip"))
    )
    tail = (TAIL, later("the share of the critical speed of the bar behind the headstock"),
            say("the bar behind the headstock begins to whip"))
    found = ((name, what, task.desk.figures.get(figure)) for figure, name, what in (held, tail))
    return [
        (name, what, figure.value) for name, what, figure in found
        if figure is not None and isinstance(figure.value, float)
    ]


def _share(task: Task) -> float:
    own = task.bench.house.speed_share_of_critical
    return own.si if own else CRITICAL_SHARE


def _check_whip(task: Task, step: SpindleSpeed) -> None:
    """A step that the job asks for against the critical speeds of the work as it is held, and its tail."""
    share = _share(task)
    for _, whips, critical in _criticals(task):
        if step <= share * critical:
            continue
        task.find(
            "operation-whip", "stop" if step >= critical else "check",
            say(
                "At {step} {what} runs at {share_of:.0%} of the {critical} at which {whips}; stay under "
                "{share:.0%}. Take a slower step, or support it better.",
                step=rpm_words(step), what=task.what, share_of=step / critical, critical=rpm_words(critical),
                whips=whips, share=share,
            ),
            task.entry.given.spindle.where if task.entry.given.spindle else None,
        )


def _check_tips(task: Task, step: SpindleSpeed) -> None:
    """A step that the job asks for against the tips of the steady rest."""
    on_tips = _on_tips(task)
    if on_tips is not None and step > on_tips[1] * (1 + 1e-9):
        task.find(
            "operation-tips", "check",
            say(
                "At {step} {what} turns faster than the {most} that {tips} bear at this diameter "
                "({practice}): they burn and the journal grips. Take a slower step.",
                step=rpm_words(step), what=task.what, most=rpm_words(on_tips[1]), tips=on_tips[0],
                practice=PRACTICE,
            ),
            task.entry.given.spindle.where if task.entry.given.spindle else None,
        )


def _check_open_end(task: Task) -> None:
    """Work that needs its center, cut while the center is away."""
    figure, own = task.desk.figures.get("holding.slenderness"), task.bench.house.stick_out_check
    limit = own.si if own is not None else ALONE
    if task.bench.job.holding.centers is not None:
        return  # said already: the centers are in the way
    if not _end_open(task) or figure is None or not isinstance(figure.value, float) or figure.value <= limit:
        return
    if any(finding.id == "open-end" for finding in task.desk.findings):
        return
    bore, span = task.bench.lathe.spindle.bore, task.bench.layout.span_at(0.0)
    goes_in = bore is not None and span is not None and max(span.od_start, span.od_end) < bore.si
    back = say("pull the work back through the spindle, ") if goes_in else ""
    task.find(
        "open-end", "check",
        say(
            "{opening} is done with the center away, and the work stands out {figure:.1f} diameters; over "
            "{limit:g} it can bend and be thrown out. Set a steady rest near its end for it, {back}or have "
            "the end ready before this setup.",
            opening=task.opening, figure=figure.value, limit=limit, back=back,
        ),
    )
