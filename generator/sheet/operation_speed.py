"""Speed of an operation: surface speed by material and tool, spindle speed, and the step of this lathe."""

from __future__ import annotations

from generator.calc.cutting import spindle_speed
from generator.job.operations import Settings
from generator.job.shop import Material
from generator.sheet.capacity import used_chuck
from generator.sheet.model import Kind
from generator.sheet.operation_task import Task
from generator.sheet.spindle_step import Turned, check_chuck, lay_step
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
    chuck = used_chuck(bench.job, bench.lathe)
    turned = Turned(
        task.what, task.name(f"{key}step"), task.label(f"{of}spindle step"), task.where, "operation", "check"
    )
    step = lay_step(turned, given.spindle, bench.lathe, wanted, task.desk, most=_caps(task))
    if not key:
        task.column("step")
    if step is not None:
        check_chuck(chuck, bench.lathe, step, given.spindle.where if given.spindle else task.where, task.desk)
        _check_whip(task, step)
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
    """What the step stays below beside the cutting speed: the chuck's mark, the steady's tips, whipping."""
    chuck, caps = used_chuck(task.bench.job, task.bench.lathe), {}
    if chuck is not None and chuck.top_speed is not None:
        caps["the chuck's own"] = chuck.top_speed.si
    band, rest = task.desk.figures.get("holding.steady.diameter"), task.bench.lathe.steady
    if band is not None and isinstance(band.value, float) and band.value > 0:
        tips = (rest.tips if rest else None) or "bronze"
        caps[f"the {tips} tips of the steady rest"] = spindle_speed(TIP_SPEEDS[tips], band.value)
    critical = _critical(task)
    if critical is not None:
        caps["the share of the critical speed"] = _share(task) * critical
    return caps


def _critical(task: Task) -> SpindleSpeed | None:
    figure = task.desk.figures.get("holding.critical_speed")
    return figure.value if figure is not None and isinstance(figure.value, float) else None


def _share(task: Task) -> float:
    own = task.bench.house.speed_share_of_critical
    return own.si if own else CRITICAL_SHARE


def _check_whip(task: Task, step: SpindleSpeed) -> None:
    """A step that the job asks for against the critical speed of the work as it is held."""
    critical, share = _critical(task), _share(task)
    if critical is None or step <= share * critical:
        return
    task.find(
        "operation-whip", "stop" if step >= critical else "check",
        f"At {rpm_words(step)} {task.what} runs at {step / critical:.0%} of the {rpm_words(critical)} at "
        f"which this work begins to whip; stay under {share:.0%}. Take a slower step, or support the work "
        "better.",
        task.entry.given.spindle.where if task.entry.given.spindle else None,
    )
