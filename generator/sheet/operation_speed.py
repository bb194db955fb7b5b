"""Speed of an operation: surface speed by material and tool, spindle speed, and the step of this lathe."""

from __future__ import annotations

from generator.calc.cutting import spindle_speed
from generator.calc.slenderness import ALONE
from generator.job.operations import Settings
from generator.job.shop import Material
from generator.sheet.figure import Kind
from generator.sheet.head import HEAD_WORDS, called, used_head
from generator.sheet.holding.speeds import OPEN_END, TAIL
from generator.sheet.operation_task import PRACTICE, Task
from generator.sheet.spindle_step import Turned, check_head, lay_step
from generator.sheet.wording import rpm_words
from generator.si import Length, Speed, SpindleSpeed, ft_per_min, m_per_min
from generator.tables.cutting_speeds import CARBIDE, SpeedRange, speed_range

COURSE = "US Army course OD1645, Lathe Operations (1988)"
OWN_FILE = "jobs/_shop/materials.yml"
CARBIDE_OVER_STEEL = (2.0, 3.0)  # US Navy course NAVEDTRA 14345: carbide two to three times high-speed steel
TIP_SPEEDS = {  # of the work in a steady rest; common practice, no source
    "bronze": 100 * ft_per_min, "brass": 100 * ft_per_min,
    "roller": 200 * ft_per_min, "ball": 200 * ft_per_min,
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
    task: Task, operation: str, diameter: Length | None, why: str = "its diameter is not known",
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
    of = f"{operation}ing: " if key else ""
    limit = _lay_limit(task, given, operation, key, of)
    wanted: SpindleSpeed | None = None
    if diameter is None or diameter <= 0:
        task.unknown(f"{key}spindle_wanted", f"{of}spindle speed, not above", "spindle_speed", why)
    else:
        wanted = task.computed(
            f"{key}spindle_wanted", f"{of}spindle speed, not above", spindle_speed(limit, diameter),
            "spindle_speed", "{v} ÷ (π × {d})", {"v": (limit, "speed"), "d": (diameter, "length")}, COURSE,
            rounds="down",
        )
    turned = Turned(
        task.what, task.name(f"{key}step"), task.label(f"{of}spindle step"), task.where, "operation", "check"
    )
    step = lay_step(turned, given.spindle, bench.lathe, wanted, task.desk, most=_caps(task))
    if not key:
        task.column("step")
    if step is not None:
        where = given.spindle.where if given.spindle else task.where
        head = used_head(bench.job, bench.lathe)
        check_head(head, called(bench.job), bench.lathe, step, where, task.desk)
        _check_whip(task, step)
        _check_tips(task, step)
        _check_open_end(task)
    return step


def speed_words(low: Speed, high: Speed) -> str:
    """A range of surface speeds in both units."""
    return (
        f"{low / ft_per_min:.0f} to {high / ft_per_min:.0f} ft/min "
        f"({low / m_per_min:.0f} to {high / m_per_min:.0f} m/min)"
    )


def _lay_limit(task: Task, given: Settings, operation: str, key: str, of: str) -> Speed:
    """The surface speed not to go above: the job's own, else the upper end of the range.

    Of a material that nobody knows, the lower end: that of the hardest to cut.
    """
    name, words = f"{key}surface_speed", f"{of}surface speed, not above"
    found = speed_for(task, operation)
    if given.speed is not None:
        limit = task.given(name, words, given.speed, "speed")
        if task.bench.material is not None and limit > found.high * (1 + 1e-9):
            task.find(
                "operation-speed", "check",
                f"The {given.speed.with_unit} of {task.what} are above "
                f"{speed_words(found.low, found.high)}, the range for {task.tool.steel} in "
                f"{task.bench.material.group} ({found.source}). Decide whether the tool bears it.",
                given.speed.where,
            )
        return limit
    known = task.bench.material is not None
    end = "upper end" if known else "lower end, for the material is unknown"
    note = f"{end} of {speed_words(found.low, found.high)} for {task.tool.steel}"
    note += f"; {found.note}" if found.note else ""
    note += "; a value from memory is in it, check a copy" if found.from_memory else ""
    kind = Kind.SHOP if OWN_FILE in found.source else (
        Kind.ASSUMED if "common practice" in found.source or not known else Kind.STANDARD
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
        low, high, f"two to three times high-speed steel (US Navy course NAVEDTRA 14345); that: {OWN_FILE}"
    )


def _own(speed: Speed) -> SpeedRange:
    return SpeedRange(speed, speed, OWN_FILE)


def _caps(task: Task) -> dict[str, SpindleSpeed]:
    """What else the step stays below: the mark on what holds the work, the steady's tips, whipping."""
    job, caps = task.bench.job, {}
    head = used_head(job, task.bench.lathe)
    if head is not None and head.top_speed is not None:
        caps[f"the {HEAD_WORDS[job.holding.held.kind]}'s own"] = head.top_speed.si
    on_tips = _on_tips(task)
    if on_tips is not None:
        caps[on_tips[0]] = on_tips[1]
    caps.update({f"the share of {named}": _share(task) * speed for named, _, speed in _criticals(task)})
    return caps


def _on_tips(task: Task) -> tuple[str, SpindleSpeed] | None:
    """The speed that the tips of the steady rest bear, and what they are called."""
    band, rest = task.desk.figures.get("holding.steady.diameter"), task.bench.lathe.steady
    if band is None or not isinstance(band.value, float) or band.value <= 0:
        return None
    tips = (rest.tips if rest else None) or "bronze"
    return f"the {tips} tips of the steady rest", spindle_speed(TIP_SPEEDS[tips], band.value)


def _end_open(task: Task) -> bool:
    """True where the center has to be away, and no steady rest stands in for it."""
    holding, name = task.bench.job.holding, task.entry.name
    in_the_end = name in ("face", "center_drill") or task.place.inside
    return in_the_end and holding.center is not None and holding.steady is None


def _criticals(task: Task) -> list[tuple[str, str, SpindleSpeed]]:
    """Each critical speed that bears on this operation: its name, what begins to whip there, rev/s."""
    held = (
        (OPEN_END, "the critical speed without the center", "this work begins to whip without its center")
        if _end_open(task) else
        ("holding.critical_speed", "the critical speed", "this work begins to whip")
    )
    tail = (TAIL, "the critical speed of the bar behind the headstock",
            "the bar behind the headstock begins to whip")
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
    for _, what, critical in _criticals(task):
        if step <= share * critical:
            continue
        task.find(
            "operation-whip", "stop" if step >= critical else "check",
            f"At {rpm_words(step)} {task.what} runs at {step / critical:.0%} of the {rpm_words(critical)} at "
            f"which {what}; stay under {share:.0%}. Take a slower step, or support it better.",
            task.entry.given.spindle.where if task.entry.given.spindle else None,
        )


def _check_tips(task: Task, step: SpindleSpeed) -> None:
    """A step that the job asks for against the tips of the steady rest."""
    on_tips = _on_tips(task)
    if on_tips is not None and step > on_tips[1] * (1 + 1e-9):
        task.find(
            "operation-tips", "check",
            f"At {rpm_words(step)} {task.what} turns faster than the {rpm_words(on_tips[1])} that "
            f"{on_tips[0]} bear at this diameter ({PRACTICE}): they burn and the journal grips. "
            "Take a slower step.",
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
    back = "pull the work back through the spindle, " if goes_in else ""
    task.find(
        "open-end", "check",
        f"{task.opening} is done with the center away, and the work stands out {figure.value:.1f} diameters; "
        f"over {limit:g} it can bend and be thrown out. Set a steady rest near its end for it, {back}"
        "or have the end ready before this setup.",
    )
