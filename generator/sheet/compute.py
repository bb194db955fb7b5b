"""The second arrow: a checked job and the shop become a Sheet.

    contradictions -> layout -> thread -> lathe settings -> passes -> relief -> holding -> route
    -> holding under load -> reach -> log -> cautions -> Sheet

Each section lays its figures and findings on one desk. With a `stop` finding the sheet keeps what is known,
is not ready to run, and carries no passes.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import lru_cache

from generator.errors import JobProblems, OutsideRange
from generator.job.beside import Successor
from generator.job.checks import check_job
from generator.job.lathe import Lathe
from generator.job.model import Job, Mate
from generator.job.pictures import job_pictures
from generator.job.reading import ReadJob, ReadLog
from generator.job.shop import Material, Shop
from generator.job.successor import successor
from generator.language.say import later, say
from generator.sheet.archive_row import STATUSES, archive_row
from generator.sheet.capacity import unchecked_note
from generator.sheet.cautions import Setup, cautions_section
from generator.sheet.cautions_for_use import cautions_for_use
from generator.sheet.cutting_tool import cutting_section
from generator.sheet.desk import Desk
from generator.sheet.dial_face import dial_scene
from generator.sheet.exact import exact_lead
from generator.sheet.extents import Extent, route_extents, set_over, thread_extents
from generator.sheet.found import found_section
from generator.sheet.happened import History
from generator.sheet.harm import in_order_of_harm
from generator.sheet.head import used_head
from generator.sheet.history import history_section
from generator.sheet.holding.section import holding_section, under_load_section
from generator.sheet.indexing import indexing_section
from generator.sheet.inspection import inspection
from generator.sheet.inspection_record import concessions, inspected_lines
from generator.sheet.knowledge import knowledge_section
from generator.sheet.lathe_assumed import lathe_assumed
from generator.sheet.lathe_settings import lathe_section
from generator.sheet.layout import Layout, lay_out
from generator.sheet.logged import Logged, lathe_now
from generator.sheet.measuring import measuring_section
from generator.sheet.model import Inspected, Section, Sheet
from generator.sheet.operation_task import Bench
from generator.sheet.order_of_work import order_of_work
from generator.sheet.passes import pass_section
from generator.sheet.plans import HoldingPlan, LathePlan, PassPlan, ReachPlan, Route, ThreadPlan
from generator.sheet.reach import reach_section
from generator.sheet.relief import relief_section
from generator.sheet.route import route_section
from generator.sheet.row import NOT_READY
from generator.sheet.scenes import setup_scene, thread_scene
from generator.sheet.take_up import take_up_card
from generator.sheet.taper_thread import taper_thread_section
from generator.sheet.thread import thread_section
from generator.sheet.thread_end import thread_end_section
from generator.sheet.threading import relief_operation, thread_operation
from generator.sheet.time_allowed import Timing
from generator.sheet.time_taken import given_times, time_section
from generator.sheet.title_block import title_block
from generator.sheet.to_size import to_size
from generator.sheet.trial_fit import trial_fit
from generator.sheet.work import work_section
from generator.tables.materials import MaterialRow, material_group

READY = later("ready to run")
OVER = frozenset({"done", "scrapped"})  # what a job is that nobody runs any more

SECTIONS = (
    ("holding", later("Work holding"), ("holding.", "capacity.", "reach.")),
    ("give", later("Under the cut"), ("give.",)),
    ("grip", later("Grip"), ("grip.",)),
    ("thin", later("Thin work"), ("thin.",)),
    ("strength", later("Strength left"), ("strength.",)),
    ("heat", later("Heat"), ("heat.",)),
    ("handling", later("Weight and handling"), ("handling.",)),
    ("lathe", later("Lathe settings"), ("spindle.", "carriage.", "lathe.")),
    ("found", later("Which thread this is"), ("found.",)),
    ("thread", later("Thread data"), ("thread.",)),
    ("mate", later("The mate"), ("mate.",)),
    ("measuring", later("Measuring the thread"), ("measure.",)),
    ("cutting", later("Tool and infeed"), ("cut.",)),
    ("relief", later("Relief"), ("relief.",)),
    ("passes", later("Passes"), ("passes.",)),
    ("time", later("Time"), ("time.",)),
    ("log", later("By the log"), ("log.",)),
    ("take-up", later("Taking it up"), ("take_up.",)),
    ("work", later("The work"), ("work.",)),
    ("job", later("Job"), ("job.",)),
)

KEY_FIGURES = (
    "spindle.step",
    "lathe.gearbox",
    "lathe.change_gears",
    "lathe.thread_dial",
    "lathe.thread_dial.next_start",
    "thread.blank",
    "thread.major.max",
    "thread.major.min",
    "thread.between_balls.max",
    "thread.between_balls.min",
    "passes.infeed_angle",
    "passes.travel",
    "thread.over_wires.max",
    "thread.over_wires.min",
    "thread.wire.size",
    "relief.width",
    "relief.diameter",
    "relief.time",
    "holding.grip",
    "holding.stick_out",
    "holding.steady.position",
)


BORE_LIMITS = ("thread.minor.max", "thread.minor.min")  # of the crests inside, as the major's outside


def _key_figures(thread: ThreadPlan | None) -> tuple[str, ...]:
    """What stands first on the sheet: of an internal thread the limits of its bore, not of its roots."""
    if thread is None or not thread.internal:
        return KEY_FIGURES
    after = KEY_FIGURES.index("thread.blank") + 1
    rest = tuple(name for name in KEY_FIGURES[after:] if not name.startswith("thread.major."))
    return (*KEY_FIGURES[:after], *BORE_LIMITS, *rest)


def compute_sheet(read: ReadJob, shop: Shop, log: ReadLog | None = None) -> Sheet:
    """Compute the whole sheet of one job, and set what its log says beside what was planned.

    Raises
    ------
    JobProblems
        When the job names a lathe, material or tool that the shop files do not have, or a thread that
        cannot be read.
    """
    problems, contradictions = check_job(read, shop)
    if problems:
        raise JobProblems(problems)
    job, desk = read.job, Desk()
    pictures, unshown = job_pictures(read)
    newer, superseded = successor(read)
    for found in (*contradictions, *unshown, *superseded):
        desk.find(found.id, found.level, found.text, found.where, found.asks)

    lathe = shop.lathes[job.lathe]
    shop_material = shop.materials.get(job.material)
    material = effective_material(shop_material)
    now_on = lathe_now(log, lathe, shop.lathes)
    layout = lay_out(job)
    lathe_assumed(read, lathe, desk)
    knowledge_section(read, desk, material)
    work_section(job, desk)
    found_section(job, desk)

    thread: ThreadPlan | None = None
    levers: LathePlan | None = None
    cuts: PassPlan | None = None
    try:
        thread = thread_section(job, shop.tools, layout, desk)
        if thread is not None:
            levers = lathe_section(job, lathe, shop.house, material, thread, desk)
            cuts = pass_section(job, lathe, shop.house, material, thread, desk)
            cutting_section(job, shop.tools, thread, desk)
            indexing_section(job, lathe, thread, cuts, desk)
            taper_thread_section(job, lathe, layout, thread, cuts, desk)
            relief_section(job, lathe, thread, levers, desk)
            thread_end_section(job, lathe, shop.house, thread, levers, desk)
            cuts = replace(
                cuts, corrections=measuring_section(job, shop, now_on, thread, cuts, desk),
                trial_fit=trial_fit(job, lathe, material, layout.stick_out, thread, cuts, desk),
                to_size=to_size(now_on, thread, cuts, desk),
            )
    except OutsideRange as error:
        desk.find("outside-range", "stop", f"{error}.", read.where("operations"))
    mate_shop_material = _mate_material(job, shop)
    bench = Bench(
        job, lathe, shop.house, shop.tools, material, shop_material, layout, thread, levers, cuts, desk,
        effective_material(mate_shop_material), mate_shop_material,
    )
    placed, held = holding_section(bench, levers.spindle_speed if levers else None)
    route = route_section(read, bench)
    holding = under_load_section(bench, held, placed, route)
    timing = Timing(job, lathe, shop.house, thread, levers, cuts, desk)
    timed = time_section(route.plans, route.lines, given_times(read, route.lines), timing)
    route = replace(route, lines=timed)
    unchecked = list(holding.unchecked)
    extents = [*extents_of(job, thread), *route_extents(route.plans)]
    reach = reach_section(
        job, lathe, extents, holding.steady_at, _set_over(thread, cuts), desk, unchecked
    )
    unchecked_note(lathe, unchecked, desk)
    setup = Setup(job, lathe, shop.house, material, shop_material, layout, thread, levers, holding, route)
    ready = not any(finding.level == "stop" for finding in desk.findings)
    logged = None if log is None else Logged(
        job, log, lathe, thread, levers, cuts, route.lines, desk, job.units or lathe.units,
        shop.lathes, shop.tools,
    )
    history = history_section(logged)
    card = take_up_card(logged)
    inspected = inspected_lines(inspection(job, desk, thread), logged)
    sheet = _assemble(
        read, shop, lathe, layout, desk, thread, cuts, holding, reach, route, ready, setup, history, newer,
        inspected, log,
    )
    return replace(
        sheet, pictures=pictures, for_use=cautions_for_use(setup), take_up=card,
        conceded=concessions(inspected, logged),
    )


def extents_of(job: Job, thread: ThreadPlan | None) -> list[Extent]:
    """The cuts whose way is checked."""
    threading, relief = thread_operation(job), relief_operation(job)
    return thread_extents(
        thread, threading.length.where if threading else None, relief.width.where if relief else None
    )


def _set_over(thread: ThreadPlan | None, cuts: PassPlan | None) -> float:
    """How the compound stands, negative towards the headstock (rad)."""
    if thread is None or cuts is None:
        return 0.0
    return set_over(cuts.infeed_angle, cuts.towards, inside=thread.internal)


def _status(status: str, ready: bool) -> str:
    """The status of a job in its title block; whether it can be run, as long as somebody might."""
    if not ready:
        return str(NOT_READY)
    return str(STATUSES[status]) if status in OVER else f"{STATUSES[status]}, {READY}"


def _mate_material(job: Job, shop: Shop) -> Material | None:
    """The mate's material, where the job names one of the shop's list."""
    mate = job.mate
    return shop.materials.get(mate.material) if isinstance(mate, Mate) and mate.material else None


def effective_material(shop_material: Material | None) -> MaterialRow | None:
    """The published row of the material's group with the shop's own values put in; None when unknown."""
    if shop_material is None:
        return None
    row = material_group(shop_material.group)
    density, modulus = shop_material.density, shop_material.elastic_modulus
    speed, force, exponent = (
        shop_material.threading_speed, shop_material.specific_force, shop_material.force_exponent
    )
    if not (density or modulus or speed or force or exponent):
        return row
    return replace(
        row,
        density=density.si if density else row.density,
        elastic_modulus=modulus.si if modulus else row.elastic_modulus,
        threading_speed_high=speed.si if speed else row.threading_speed_high,
        k_c11=force.si if force else row.k_c11,
        m_c=exponent.si if exponent else row.m_c,
        speed_source="jobs/_shop/materials.yml" if speed else row.speed_source,
        force_source="jobs/_shop/materials.yml" if force or exponent else row.force_source,
        source=say("{source}; changed in jobs/_shop/materials.yml", source=row.source)
        if density or modulus
        else row.source,
    )


def _sections(names: Iterable[str], notes: tuple[str, ...]) -> Iterator[Section]:
    """The sections that have a figure, each with its own in the order in which they were laid down."""
    figures: dict[str, list[str]] = {}
    for name in names:
        for id in _sections_with(name):
            figures.setdefault(id, []).append(name)
    for id, title, _ in SECTIONS:
        if id in figures:
            yield Section(id, title, tuple(figures[id]), notes if id == "job" else ())


@lru_cache(maxsize=4096)  # every job has nearly the same names
def _sections_with(name: str) -> tuple[str, ...]:
    return tuple(id for id, _, prefixes in SECTIONS if name.startswith(prefixes))


def _assemble(
    read: ReadJob,
    shop: Shop,
    lathe: Lathe,
    layout: Layout,
    desk: Desk,
    thread: ThreadPlan | None,
    cuts: PassPlan | None,
    holding: HoldingPlan,
    reach: ReachPlan,
    route: Route,
    ready: bool,
    setup: Setup,
    history: History | None,
    newer: Successor | None,
    inspected: tuple[Inspected, ...],
    log: ReadLog | None,
) -> Sheet:
    job, cautions = read.job, cautions_section(setup)
    status = _status(job.status, ready)
    if newer is not None:
        status = say("superseded by {number}", number=newer.number)
    findings = in_order_of_harm(desk.findings)
    return Sheet(
        job=job.job,
        title=job.title,
        slug=read.path.parent.name,
        year=int(read.path.parent.parent.name) if read.path.parent.parent.name.isdigit() else 0,
        system=job.units or lathe.units,
        title_block=title_block(job, shop.house, lathe, status),
        ready=ready,
        status=status,
        findings=findings,
        cautions=cautions,
        figures=dict(desk.figures),
        sections=tuple(_sections(desk.figures, tuple(job.notes))),
        steps=order_of_work(
            job, route, thread,
            heavy=any(caution.id == "lift" for caution in cautions), thin="thin.out_of_round" in desk.figures,
        ),
        operations=route.lines,
        plots=holding.plots,
        passes=cuts.passes if cuts and ready else (),
        pass_dial=cuts.dial if cuts else "",
        pass_remarks=cuts.remarks if cuts else (),
        corrections=cuts.corrections if cuts and ready else None,
        trial_fit=cuts.trial_fit if cuts and ready else (),
        internal=thread is not None and thread.internal,
        to_size=cuts.to_size if cuts and ready else None,
        revision=job.revision,
        shop=shop.house.shop,
        inspected=inspected,
        setup_scene=setup_scene(job, lathe, used_head(job, lathe), layout, thread, holding, reach),
        thread_scene=thread_scene(job, thread, cuts) if thread and cuts and ready else None,
        dial_scene=dial_scene(lathe, thread.designation, levers.lead or exact_lead(thread), job.job)
        if thread and (levers := setup.levers)
        else None,
        index=archive_row(
            read, lathe, ready, findings, history, log, route.lines,
            (desk.figures.get("time.total"), desk.figures.get("log.time")),
        ),
        history=history,
        key_figures=tuple(name for name in _key_figures(thread) if name in desk.figures),
        successor=newer,
    )
