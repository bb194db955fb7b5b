"""Weight, balance point, lifting and slinging of the work as it is lifted in, and of what holds it."""

from __future__ import annotations

from dataclasses import dataclass

from generator.calc import lifting
from generator.calc.balance import Round, balance_point
from generator.calc.weight import volume, weight
from generator.language.say import later, say
from generator.sheet.figure import Kind, Quantity
from generator.sheet.head import called, used_head
from generator.sheet.holding.case import Case
from generator.sheet.holding.slings import lay_slings
from generator.sheet.holding.stock import finished_rounds, stock_rounds
from generator.sheet.lines import Level
from generator.sheet.operation_task import Bench
from generator.sheet.wording import mass_words, rule_words, torque_words
from generator.si import Length, Mass, degree, g_n
from generator.tables.materials import material_group, material_groups

WEIGHT: tuple[str, str, Quantity] = ("holding.weight", later("Weight of the work"), "mass")
LIFT_ALONE = 25.0  # kg, HSE INDG143 guideline filter, close to the body; not a legal limit
BY_HAND = 5.0      # kg: lighter than all but the farthest reach of the HSE filter; nothing to be said
MORE = 1.01        # of the finished weight, from which the weight of the stock is worth saying
DROOPS = 1.5       # balance point over grip, as of work that stands out three times what is gripped
LARGE_CHUCK = 0.2  # m: from about 8 in on a chuck is something to lift; common practice, no source

# Hands at the lathe, with the bed between: common practice, no source
REACH, HEIGHT, TRAVEL, TWIST = 0.50, 1.00, 0.25, 45 * degree
REACH_WORDS = later(
    "hands 50 cm from the ankles and 1 m up, body turned by 45°, now and then, a fair hold: common practice, "
    "no source"
)


@dataclass(frozen=True)
class Load:
    """The work as it is lifted in, and what one person lifts: close to the body, and reaching (kg)."""

    rounds: tuple[Round, ...]
    balance: Length
    mass: Mass
    alone: Mass
    reaching: Mass

    @property
    def heavy(self) -> bool:
        """True when it goes by hoist."""
        return self.mass > self.alone


# -- before the route -----------------------------------------------------------------------------------


def lay_weight(bench: Bench) -> float | None:
    """Lay down what the finished work weighs, and what one person may lift (kg; None not known)."""
    house, desk = bench.house, bench.desk
    material, layout = bench.material, bench.layout
    if material is None:
        desk.unknown(*WEIGHT, say("the material is unknown"))
        return None
    size = sum(volume(span.end - span.start, span.od_start, span.od_end, span.bore) for span in layout.spans)
    kilograms = desk.computed(
        *WEIGHT[:2],
        weight(size, material.density),
        WEIGHT[2],
        say("{ρ} × sum over sections of π ÷ 12 × (D² + D d + d²) × length − π ÷ 4 × bore² × length"),
        {"ρ": (material.density, "density")},
        material.source,
        rounds="up",
    )
    desk.chosen(
        "holding.lift_alone",
        say("Lifted by one person close to the body, at most"),
        house.lift_alone,
        LIFT_ALONE,
        "mass",
        say("HSE INDG143 guideline filter, close to the body; not a legal limit"),
    )
    return kilograms


def _judge_lift(bench: Bench, weighs: str, kilograms: Mass, alone: Mass) -> None:
    """What the hoist or one person does not lift."""
    lathe, desk, where = bench.lathe, bench.desk, bench.job.work[0].length.where
    if lathe.hoist is not None and kilograms > lathe.hoist.si:
        desk.find(
            "hoist",
            "stop",
            say("{weighs}; the hoist of {lathe} lifts {hoist}. It needs a stronger hoist.",
                weighs=weighs, lathe=lathe.name, hoist=lathe.hoist.with_unit),
            where,
        )
    elif kilograms > alone:
        tackle = (
            say("The hoist here is marked {mark}.", mark=lathe.hoist.with_unit) if lathe.hoist
            else say("The hoist here is not in the lathe's record.")
        )
        desk.find(
            "lift",
            "check",
            say("{weighs}, more than the {alone} one person lifts: use a hoist. {tackle}",
                weighs=weighs, alone=mass_words(alone, bench.system), tackle=tackle),
            where,
        )


def _judge_unknown(case: Case, rounds: tuple[Round, ...]) -> None:
    """What the hoist or one person does not lift, should unknown material be the heaviest there is."""
    row = max((material_group(name) for name in material_groups()), key=lambda one: one.density)
    mass = weight(sum(one.volume for one in rounds), row.density)
    alone = case.bench.house.lift_alone.si if case.bench.house.lift_alone else LIFT_ALONE
    weighs = say(
        "The material is unknown: of {group} the work weighs about {mass}",
        group=row.group, mass=mass_words(mass, case.bench.system),
    )
    _judge_lift(case.bench, weighs, mass, alone)


# -- after it -------------------------------------------------------------------------------------------


def handling_section(case: Case) -> None:
    """Lay down weight and balance point as lifted in, what hands may lift, the slings, what droops.

    Raises
    ------
    OutsideRange
        When a bore leaves no wall.
    """
    bench = case.bench
    finished, rounds = finished_rounds(bench.layout), stock_rounds(bench.layout, case.route.plans)
    stocked = sum(one.volume for one in rounds) > MORE * sum(one.volume for one in finished)
    if not stocked:
        rounds = finished
    balance = _lay_balance(case, rounds, stocked)
    if bench.material is None:
        _judge_unknown(case, rounds)
        return
    alone = bench.desk.figures.get("holding.lift_alone")
    if alone is None or not isinstance(alone.value, float):
        return
    mass = weight(sum(one.volume for one in rounds), bench.material.density)
    if stocked:
        _lay_stock_weight(case, mass)
    words = mass_words(mass, bench.system)
    weighs = (
        say("With its stock the work weighs about {mass}", mass=words) if stocked
        else say("The work weighs about {mass}", mass=words)
    )
    _judge_lift(bench, weighs, mass, alone.value)
    reaching = _reaching(case, mass)
    load = Load(rounds, balance, mass, alone.value, reaching)
    _judge_reach(case, load)
    if load.heavy:
        lay_slings(case, balance, rounds[-1].end, mass)
    _droop(case, load)
    _head(case, load)
    case.desk.put_first("handling.stock_weight")


def _from_where(case: Case) -> str:
    """What x counts from, as the man with the rule says it."""
    faces = {
        "chuck": say("jaw face"), "collet": say("face of the collet"), "faceplate": say("faceplate"),
        "centers": say("headstock end"),
    }
    return faces[case.bench.job.holding.held.kind]


def _lay_balance(case: Case, rounds: tuple[Round, ...], stocked: bool) -> Length:
    """The balance point from chuck and from tailstock end, with every length's share of the weight."""
    total = sum(one.volume for one in rounds)
    put: dict[str, tuple[float, Quantity]] = {}
    products = []
    for number, one in enumerate(rounds, 1):
        share, middle = say("share {number}", number=number), say("middle {number}", number=number)
        put[share] = (one.volume / total, "ratio")
        put[middle] = (one.moment / one.volume, "length")
        products.append(f"{{{share}}} × {{{middle}}}")
    at = case.desk.computed(
        "handling.balance",
        say("Balance point from the {from_where}", from_where=_from_where(case)),
        balance_point(rounds),
        "length",
        " + ".join(products),
        put,
        say("statics"),
        note=say("as it is lifted in; share of the weight and balance point of every length, from the "
                 "headstock outwards") if stocked
        else say("share of the weight and balance point of every length, from the headstock outwards"),
    )
    end = rounds[-1].end
    case.desk.computed(
        "handling.balance_from_end", say("Balance point from the tailstock end"), end - at, "length",
        "{end} − {balance point}", {"end": (end, "length"), "balance point": (at, "length")}, say("geometry"),
        note=say("as it is lifted in") if stocked else "",
    )
    return at


def _lay_stock_weight(case: Case, mass: Mass) -> None:
    finished = case.desk.figures["holding.weight"].value
    assert isinstance(finished, float)
    case.desk.computed(
        "handling.stock_weight", say("Weight as it is lifted in"), mass, "mass", "{finished} + {stock}",
        {"finished": (finished, "mass"), "stock": (mass - finished, "mass")},
        say("the diameters that its cuts start from"), rounds="up", note=say("before anything is cut off it"),
    )


def _reaching(case: Case, mass: Mass) -> Mass:
    """What the NIOSH equation recommends with the bed between (kg); laid where there is something to lift."""
    hold = lifting.coupling("fair", HEIGHT)
    limit = lifting.recommended_weight(REACH, HEIGHT, TRAVEL, TWIST, hold=hold)
    if mass <= BY_HAND:
        return limit
    shares = {
        "reach": lifting.recommended_weight(REACH, lifting.KNUCKLE) / lifting.LOAD_CONSTANT,
        "height": lifting.recommended_weight(lifting.NEAR, HEIGHT) / lifting.LOAD_CONSTANT,
        "turning": lifting.recommended_weight(lifting.NEAR, lifting.KNUCKLE, twist=TWIST)
        / lifting.LOAD_CONSTANT,
        "hold": hold,
    }
    put: dict[str, tuple[float, Quantity]] = {"limit": (lifting.LOAD_CONSTANT, "mass")}
    put.update((name, (share, "ratio")) for name, share in shares.items())
    return case.desk.computed(
        "handling.lift_reaching",
        say("Lifted by one person over the bed, at most"),
        limit,
        "mass",
        " × ".join(f"{{{name}}}" for name in put),
        put,
        say("NIOSH 94-110 (rev. 2021); not a legal limit"),
        kind=Kind.ASSUMED,
        rounds="down",
        note=REACH_WORDS,
    )


def _judge_reach(case: Case, load: Load) -> None:
    if load.heavy or load.mass <= load.reaching:
        return
    system = case.bench.system
    case.desk.find(
        "lift-reach", "note",
        say("The work weighs about {mass}: one person may lift that close to the body, but over the bed no "
            "more than {most}. Two people, or the hoist.",
            mass=mass_words(load.mass, system), most=mass_words(load.reaching, system)),
        case.bench.job.work[0].length.where,
    )


def _droop(case: Case, load: Load) -> None:
    """The balance point of work that hangs out of what holds it, until something else holds it, too."""
    job, system = case.bench.job, case.bench.system
    grip, supported = case.bench.layout.grip, job.holding.steady is not None or job.holding.center is not None
    plate = job.holding.faceplate  # flat on it, clamped all round, only long work hangs out
    hangs_out = load.balance > (plate.clamp_circle.si if plate else 0.0 if load.heavy else DROOPS * grip)
    if job.holding.centers is not None or not hangs_out or load.mass <= load.reaching:
        return
    moment = case.desk.computed(
        "handling.droop",
        say("Moment on the {called}, while nothing else holds the work", called=called(job)),
        load.mass * g_n * load.balance,
        "torque",
        "{weight} × {balance point}",
        {"weight": (load.mass * g_n, "force"), "balance point": (load.balance, "length")},
        say("statics"),
        rounds="up",
        note=say("what headstock, spindle and bed may carry is not judged here"),
    )
    until = say("the steady rest is set") if job.holding.steady is not None else say("the center is in")
    level: Level = "check" if load.heavy else "note"
    held = (
        say("and only {grip} is gripped", grip=rule_words(grip, system)) if grip
        else say("and nothing is inside jaws")
    )
    hangs = say(
        "Its balance point lies {balance} out from the {from_where}, {held}: held there alone it hangs with "
        "{moment} on its end and may work loose.",
        balance=rule_words(load.balance, system), from_where=_from_where(case), held=held,
        moment=torque_words(moment, system),
    )
    keep = say("Keep it on the sling until it is held tight, and carry its end, where a rest or center can.")
    if supported:
        keep = (
            say("Keep it on the sling until {until}.", until=until) if load.heavy
            else say("Keep it on the block or sling until {until}.", until=until)
        )
    case.desk.find("droop", level, f"{hangs} {keep}", job.holding.grip.where)


def _head(case: Case, load: Load) -> None:
    """The chuck or whatever holds the work, as one more thing to lift."""
    bench, job = case.bench, case.bench.job
    head, held = used_head(job, bench.lathe), job.holding.held
    if head is None:
        return
    words = called(job)
    name, label = "handling.head_weight", say("Weight of the {head}", head=words)
    if head.mass is None:
        large = head.diameter is not None and head.diameter.si >= LARGE_CHUCK
        if large and held.kind in ("chuck", "faceplate"):
            case.desk.unknown(name, label, "mass", say("the lathe's record does not give it (mass)"))
        return
    mass, system = case.desk.given(name, label, head.mass, "mass"), bench.system
    if mass <= load.reaching:
        return
    hoist = bench.lathe.hoist
    too_heavy, more = hoist is not None and mass > hoist.si, ""
    if hoist is not None and too_heavy:
        more = say(
            ", more than the {hoist} that the hoist of {lathe} lifts",
            hoist=hoist.with_unit, lathe=bench.lathe.name,
        )
    case.desk.find(
        "chuck-lift", "check" if too_heavy else "note",
        say("The {head} weighs {mass}{more}. If it has to be put on: hoist, or two people where it is light "
            "enough, with a cradle board on the bed under it.",
            head=words, mass=mass_words(mass, system), more=more),
        job.holding.grip.where,
    )
