"""How the work is held: grip, stick-out, steady rest, weight, and how it stands up to cut and speed."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from generator.calc.beam import Beam, Segment, Support, section_area
from generator.errors import OutsideRange
from generator.job.model import Job
from generator.job.shop import House, Lathe
from generator.sheet.capacity import capacity_section, used_chuck
from generator.sheet.desk import Desk
from generator.sheet.layout import Layout, Span
from generator.sheet.model import Figure, Kind
from generator.sheet.plans import HoldingPlan, PassPlan, ThreadPlan
from generator.sheet.wording import fine_words, length_words, rpm_words
from generator.si import Force, Length, SpindleSpeed, lb
from generator.tables.materials import MaterialRow

PRACTICE = "common practice, no source"
CHUCK_STIFFNESS = 1e5  # N m/rad: a light lathe with short jaws; common practice, no source
STEADY_STIFFNESS = 20e6  # N/m: middle of a planning range of 10 to 50 N/µm; common practice, no source
THRUST_SHARE = 0.6  # radial over cutting force when threading; common practice, no source
STICK_OUT_LIMIT = 3.0  # diameters without a support; machine-safety texts
CENTER_LIMIT = 10.0  # diameters with a center and no steady; common practice, no source
CRITICAL_SHARE = 0.7  # of the critical speed; common practice, no source
LIFT_ALONE = 25.0  # kg, HSE INDG143 guideline filter, close to the body; not a legal limit
ERROR_SHARE = 0.25  # of the pitch diameter tolerance; common practice, no source
GRIP_SHARE = 1 / 3  # of the stick-out, without a center; common practice, no source
TAPER_STEPS = 8  # cylinders that stand in for a taper
PLACES_ALONG_CUT = 9
PLACES_TRIED = 25
WORTH_MOVING = 0.7  # a better place is named when the error falls below this share


def holding_section(
    job: Job,
    lathe: Lathe,
    house: House,
    material: MaterialRow | None,
    layout: Layout,
    thread: ThreadPlan | None,
    cuts: PassPlan | None,
    desk: Desk,
    spindle_speed: SpindleSpeed | None,
) -> HoldingPlan:
    """Lay down how the work is held and how it stands up to the heaviest cut; return the plan."""
    _lay_lengths(job, house, layout, desk)
    weight = _lay_weight(job, lathe, house, material, layout, desk)
    bench = _bench(job, lathe, house, material, layout, thread, desk)
    steady_at = _lay_steady(job, bench, desk)
    capacity_section(job, lathe, layout, thread, steady_at, desk)
    try:
        _lay_stiffness(job, bench, steady_at, cuts, house, desk, spindle_speed)
    except OutsideRange as error:
        desk.find(
            "beam-outside-range",
            "stop",
            f"The work cannot be worked out as a beam: {error}.",
            job.work[0].length.where,
        )
    return HoldingPlan(layout.stick_out, layout.grip, steady_at, weight)


# -- lengths and weight ---------------------------------------------------------------------------------


def _lay_lengths(job: Job, house: House, layout: Layout, desk: Desk) -> None:
    desk.computed(
        "work.length",
        "Length of the work",
        layout.total,
        "length",
        " + ".join(f"{{section {number}}}" for number in range(1, len(job.work) + 1)),
        {f"section {number}": (section.length.si, "length") for number, section in enumerate(job.work, 1)},
        "the sections of the job file",
    )
    holding = job.holding
    desk.given("holding.grip", "Grip in the jaws", holding.chuck.grip, "length")
    desk.computed(
        "holding.stick_out",
        "Stick-out from the jaws",
        layout.stick_out,
        "length",
        "{work} − {grip}",
        {"work": (layout.total, "length"), "grip": (layout.grip, "length")},
        "geometry",
    )
    at_jaws = layout.span_at(0.0)
    if at_jaws is None:
        desk.find(
            "grip-past-work",
            "stop",
            "The grip is longer than the work: nothing stands out of the jaws.",
            holding.chuck.grip.where,
            "How much of the work is in the jaws?",
        )
        return
    slenderness = desk.computed(
        "holding.slenderness",
        "Stick-out over diameter at the jaws",
        layout.stick_out / at_jaws.od_at(0.0),
        "ratio",
        "{stick-out} ÷ {diameter}",
        {"stick-out": (layout.stick_out, "length"), "diameter": (at_jaws.od_at(0.0), "length")},
        "machine-safety texts (support beyond three diameters); " + PRACTICE,
        rounds="up",
    )
    limit = house.stick_out_check.si if house.stick_out_check else STICK_OUT_LIMIT
    if holding.center is None and holding.steady is None and slenderness > limit:
        desk.find(
            "stick-out",
            "check",
            f"The work stands out {slenderness:.1f} diameters with nothing at its end; over {limit:g} it "
            "wants a center or a steady rest.",
            holding.chuck.grip.where,
        )
    if holding.center is not None and holding.steady is None and slenderness > CENTER_LIMIT:
        desk.find(
            "slender",
            "check",
            f"{slenderness:.1f} diameters between chuck and center; over {CENTER_LIMIT:g} it wants a follow "
            "rest or steady rest, or much lighter cuts.",
            holding.chuck.grip.where,
        )
    if holding.center is None and holding.steady is None and layout.grip < GRIP_SHARE * layout.stick_out:
        desk.find(
            "grip-short",
            "check",
            f"The jaws hold {holding.chuck.grip.with_unit}, less than a third of what stands out. Grip more, "
            "or support the end.",
            holding.chuck.grip.where,
        )
    if holding.steady is not None and holding.center is None and not holding.hold_back:
        desk.find(
            "no-hold-back",
            "check",
            "With a steady rest and no center, nothing but the jaws keeps the work from walking out of the "
            "chuck. Put on a hold-back, or say why it is not needed.",
            holding.chuck.grip.where,
        )


def _lay_weight(
    job: Job, lathe: Lathe, house: House, material: MaterialRow | None, layout: Layout, desk: Desk
) -> float | None:
    if material is None:
        desk.unknown("holding.weight", "Weight of the work", "mass", "the material is unknown")
        return None
    volume = sum(_volume(span) for span in layout.spans)
    weight = desk.computed(
        "holding.weight",
        "Weight of the work",
        volume * material.density,
        "mass",
        "sum over sections of {ρ} × π ÷ 4 × (D² − d²) × length",
        {"ρ": (material.density, "density")},
        material.source,
        rounds="up",
    )
    limit = desk.chosen(
        "holding.lift_alone",
        "Lifted by one person at most",
        house.lift_alone,
        LIFT_ALONE,
        "mass",
        "HSE INDG143 guideline filter, close to the body; not a legal limit",
    )
    if weight > limit:
        tackle = (
            f"the hoist is marked {lathe.hoist.with_unit}"
            if lathe.hoist
            else "the lathe's record names no hoist"
        )
        desk.find(
            "lift",
            "check",
            f"The work weighs about {weight:.0f} kg ({weight / lb:.0f} lb), more than the {limit:g} kg one "
            f"person lifts: use a hoist; {tackle}.",
            job.work[0].length.where,
        )
    if lathe.hoist is not None and weight > lathe.hoist.si:
        desk.find(
            "hoist",
            "stop",
            f"The work weighs about {weight:.0f} kg ({weight / lb:.0f} lb); the hoist of {lathe.name} lifts "
            f"{lathe.hoist.with_unit}.",
            job.work[0].length.where,
        )
    return weight


def _volume(span: Span) -> float:
    """Volume of a section (m³): a frustum less its bore."""
    outside = math.pi / 12 * (span.od_start**2 + span.od_start * span.od_end + span.od_end**2)
    return (outside - section_area(span.bore)) * (span.end - span.start)


# -- the beam -------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Bench:
    """All that the beam is made of, but for where the steady rest stands."""

    job: Job
    lathe: Lathe
    layout: Layout
    thread: ThreadPlan | None
    material: MaterialRow | None
    chuck_stiffness: float
    steady_stiffness: float

    @property
    def steady_width(self) -> Length:
        """Width of the steady's fingers, 0 where the record does not say (m)."""
        return self.lathe.steady.width.si if self.lathe.steady and self.lathe.steady.width else 0.0

    @property
    def cut_end(self) -> Length | None:
        """Where the tool is nearest to the chuck (m)."""
        if self.thread is None:
            return None
        return self.thread.end if self.thread.relief_end is None else self.thread.relief_end

    def cut_places(self) -> list[Length]:
        """Places along the cut where the deflection is worked out (m)."""
        if self.thread is None:
            return []
        start, end = (min(max(x, 0.0), self.layout.stick_out) for x in (self.thread.start, self.thread.end))
        return [end + (start - end) * step / (PLACES_ALONG_CUT - 1) for step in range(PLACES_ALONG_CUT)]

    def beam(self, steady_at: Length | None) -> Beam:
        """The work on its supports: elastic chuck and steady, rigid center."""
        supports = [Support(0.0, math.inf, self.chuck_stiffness)]
        if steady_at is not None:
            supports.append(Support(steady_at, self.steady_stiffness))
        if self.job.holding.center:
            supports.append(Support(self.layout.stick_out))
        assert self.material is not None
        return Beam(
            tuple(self._segments()), tuple(supports), self.material.elastic_modulus, self.material.density
        )

    def _segments(self) -> list[Segment]:
        thread = self.thread
        marks = {0.0, self.layout.stick_out}
        for span in self.layout.spans:
            marks.update((span.start, span.end))
            if span.tapered:
                marks.update(
                    span.start + (span.end - span.start) * k / TAPER_STEPS for k in range(TAPER_STEPS)
                )
        if thread is not None:
            marks.update(
                x for x in (thread.start, thread.end, thread.relief_start, thread.relief_end) if x is not None
            )
        edges = sorted(x for x in marks if 0.0 <= x <= self.layout.stick_out)
        segments = []
        for start, end in pairwise(edges):
            if end - start < 1e-9:
                continue
            middle = (start + end) / 2
            here = self.layout.span_at(middle)
            assert here is not None
            segments.append(Segment(start, end, min(here.od_at(middle), self._cut_down(middle)), here.bore))
        return segments

    def _cut_down(self, x: Length) -> Length:
        """Diameter that thread and relief leave at x; infinite away from them (m)."""
        thread = self.thread
        if thread is None:
            return math.inf
        if thread.end <= x <= thread.start:
            return thread.root_diameter
        if (
            thread.relief_end is not None
            and thread.relief_diameter is not None
            and thread.relief_end <= x <= thread.end
        ):
            return thread.relief_diameter
        return math.inf

    def worst(self, steady_at: Length | None, load: Force = 1.0) -> tuple[float, Length]:
        """Largest deflection under the tool along the cut (m), and where."""
        places = self.cut_places()
        gives = [abs(float(give)) for give in self.beam(steady_at).under_tool(load, places)]
        return max(zip(gives, places, strict=True))

    def place_fault(self, x: Length) -> str:
        """Why the steady rest cannot stand at x; empty when it can."""
        half = self.steady_width / 2
        span = self.layout.span_at(x)
        if x <= 0 or span is None or x >= self.layout.stick_out:
            return "is not on the work that stands out of the jaws"
        if self.thread is not None:
            end = self.cut_end
            assert end is not None
            if x + half > self.thread.end and x - half < self.thread.start:
                return "is on the thread"
            if x + half > end and x - half < self.thread.start:
                return "is on the relief"
        if span.tapered:
            return "is on a taper"
        if x - half < max(span.start, 0.0) or x + half > span.end:
            return "does not leave the fingers their whole width on one diameter"
        return ""

    def allowed_places(self) -> list[Length]:
        """Places to try for the steady rest, from the chuck outwards (m)."""
        last = self.layout.stick_out
        if self.cut_end is not None and self.lathe.carriage_left is not None:
            last = min(last, self.cut_end - self.lathe.carriage_left.si - self.steady_width / 2)
        places = [last * k / PLACES_TRIED for k in range(1, PLACES_TRIED + 1)]
        steady = self.lathe.steady
        return [
            x
            for x in places
            if not self.place_fault(x)
            and (span := self.layout.span_at(x)) is not None
            and (steady is None or steady.from_.si <= span.od_at(x) <= steady.to.si)
        ]


def _bench(
    job: Job,
    lathe: Lathe,
    house: House,
    material: MaterialRow | None,
    layout: Layout,
    thread: ThreadPlan | None,
    desk: Desk,
) -> Bench:
    chuck = used_chuck(job, lathe)
    stiffness = desk.chosen(
        "holding.chuck_stiffness",
        "Stiffness of the chuck against tilting",
        (chuck.stiffness if chuck else None) or house.chuck_stiffness,
        CHUCK_STIFFNESS,
        "angular_stiffness",
        PRACTICE + "; a light lathe with short jaws",
    )
    steady_stiffness = STEADY_STIFFNESS
    if job.holding.steady is not None:
        steady_stiffness = desk.chosen(
            "holding.steady_stiffness",
            "Stiffness of the steady rest",
            (lathe.steady.stiffness if lathe.steady else None) or house.steady_stiffness,
            STEADY_STIFFNESS,
            "stiffness",
            PRACTICE,
        )
    return Bench(job, lathe, layout, thread, material, stiffness, steady_stiffness)


def _lay_steady(job: Job, bench: Bench, desk: Desk) -> Length | None:
    """Where the steady rest stands and why; None without one or with no place for it."""
    steady = job.holding.steady
    if steady is None:
        return None
    label = "Steady rest, its middle from the chuck face"
    if steady.at == "auto":
        return _lay_auto(job, bench, label, desk)
    at = desk.given("holding.steady.position", label, steady.at, "length")
    fault = bench.place_fault(at)
    if fault:
        desk.find(
            "steady-place",
            "stop",
            f"The steady rest at {steady.at.with_unit} from the chuck face {fault}. It runs on a turned, "
            "round, plain band that stays.",
            steady.at.where,
            "Where may the steady rest run?",
        )
        return at
    _check_band(job, bench, at, desk)
    if bench.thread is None or bench.material is None:
        return at
    error, _ = bench.worst(at)
    better = min(((bench.worst(x)[0], x) for x in bench.allowed_places()), default=None)
    if better is not None and better[0] < WORTH_MOVING * error:
        system = bench.lathe.units
        desk.find(
            "steady-better",
            "note",
            f"At {length_words(better[1], system)} from the chuck face the work would give "
            f"{1 - better[0] / error:.0%} less under the tool.",
            steady.at.where,
        )
    return at


def _lay_auto(job: Job, bench: Bench, label: str, desk: Desk) -> Length | None:
    places = bench.allowed_places()
    if not places:
        desk.find(
            "steady-place",
            "stop",
            "There is no plain, round place for the steady rest between the chuck and the cut that leaves "
            "the carriage its room.",
            job.holding.chuck.grip.where,
            "Where may the steady rest run?",
        )
        desk.unknown("holding.steady.position", label, "length", "no place for it")
        return None
    if bench.thread is None:
        at, why = (
            places[len(places) * 3 // 4],
            "about three quarters out, where the bending frequency is highest",
        )
    elif bench.material is None:
        at, why = places[-1], "as near to the cut as the carriage allows; the material is unknown"
    else:
        at = min((bench.worst(x)[0], x) for x in places)[1]
        why = f"of {len(places)} places tried, the work gives least under the tool here"
    desk.lay(
        Figure(
            "holding.steady.position",
            label,
            at,
            "length",
            Kind.COMPUTED,
            "beam elements; " + PRACTICE,
            note=why,
        )
    )
    _check_band(job, bench, at, desk)
    return at


def _check_band(job: Job, bench: Bench, at: Length, desk: Desk) -> None:
    span = bench.layout.span_at(at)
    assert span is not None
    if job.work[span.section_index].surface not in ("turned", "ground"):
        desk.find(
            "steady-band",
            "check",
            "Nobody said that the place where the steady rest runs is turned. Turn a true band there first, "
            "a little wider than the fingers, or use a cat-head.",
            job.work[span.section_index].length.where,
        )


def _lay_stiffness(
    job: Job,
    bench: Bench,
    steady_at: Length | None,
    cuts: PassPlan | None,
    house: House,
    desk: Desk,
    spindle_speed: SpindleSpeed | None,
) -> None:
    """Deflection under the cut and the first bending frequency."""
    if bench.layout.span_at(0.0) is None or (
        steady_at is not None and bench.place_fault(steady_at).startswith("is not on")
    ):
        return
    if bench.material is None:
        for name, label, quantity in (
            ("deflection.max", "Deflection under the heaviest cut", "fine_length"),
            ("diameter_error.max", "Diameter error from the last cut", "fine_length"),
            ("first_frequency", "First bending frequency", "frequency"),
        ):
            desk.unknown(f"holding.{name}", label, quantity, "the material is unknown")  # type: ignore[arg-type]
        return
    if cuts is not None and cuts.largest_force is not None and bench.thread is not None:
        _lay_deflection(bench, steady_at, cuts, cuts.largest_force, house, desk)
    frequency = desk.lay(
        Figure(
            "holding.first_frequency",
            "First bending frequency",
            bench.beam(steady_at).first_frequency(),
            "frequency",
            Kind.COMPUTED,
            "beam elements (Cook et al.); Thomson, Theory of Vibration with Applications",
            rounds="down",
            note=f"from {bench.material.elastic_modulus / 1e9:.0f} GPa, {bench.material.density:.0f} kg/m³ "
                 f"and "
            f"the assumed chuck and steady stiffness; real chucks are softer: an upper bound",
        )
    ).value
    assert isinstance(frequency, float)
    desk.computed(
        "holding.critical_speed",
        "Critical speed",
        frequency,
        "spindle_speed",
        "60 × {f1}",
        {"f1": (frequency, "frequency")},
        "a round bar whirls at its bending frequency (Thomson)",
        rounds="down",
    )
    if spindle_speed is None:
        return
    ratio = desk.computed(
        "holding.speed_ratio",
        "Spindle speed over critical speed",
        spindle_speed / frequency,
        "ratio",
        "{n} ÷ {n critical}",
        {"n": (spindle_speed, "spindle_speed"), "n critical": (frequency, "spindle_speed")},
        PRACTICE,
        rounds="up",
    )
    limit = house.speed_share_of_critical.si if house.speed_share_of_critical else CRITICAL_SHARE
    if ratio > limit:
        desk.find(
            "critical-speed",
            "stop" if ratio >= 1 else "check",
            f"{rpm_words(spindle_speed)} is {ratio:.0%} of the speed at which this work begins to whip; stay "
            f"under {limit:.0%}. Support it better or run slower.",
            job.holding.chuck.grip.where,
        )


def _lay_deflection(
    bench: Bench, steady_at: Length | None, cuts: PassPlan, largest: Force, house: House, desk: Desk
) -> None:
    share = desk.chosen(
        "holding.thrust_share",
        "Radial force over cutting force",
        house.thrust_share,
        THRUST_SHARE,
        "ratio",
        PRACTICE,
    )
    force = desk.computed(
        "holding.force",
        "Radial force of the heaviest cut",
        share * largest,
        "force",
        "{share} × {F}",
        {"share": (share, "ratio"), "F": (largest, "force")},
        "Kienzle (1952); " + PRACTICE,
        rounds="up",
    )
    give, place = bench.worst(steady_at)
    source = "beam elements (Cook et al.), chuck and steady elastic, center rigid"
    moved = desk.computed(
        "holding.deflection.max",
        "Deflection under the heaviest cut",
        force * give,
        "fine_length",
        "{F} ÷ {stiffness under the tool}",
        {"F": (force, "force"), "stiffness under the tool": (1 / give, "stiffness")},
        source,
        note=f"largest at {length_words(place, bench.lathe.units)} from the chuck face",
        rounds="up",
    )
    if steady_at is not None:
        beam = bench.beam(steady_at)
        reaction = abs(beam.reactions(force, place)[1])
        desk.computed(
            "holding.steady.force",
            "Force on the steady rest from the cut",
            reaction,
            "force",
            "{F} × {share of it}",
            {"F": (force, "force"), "share of it": (reaction / force, "ratio")},
            source,
            rounds="up",
        )
    last = cuts.last_force
    thread = bench.thread
    if last is None or thread is None:
        return
    error = desk.computed(
        "holding.diameter_error.max",
        "Diameter error from the last cut",
        2 * moved * last / largest,
        "fine_length",
        "2 × {deflection} × {F last} ÷ {F heaviest}",
        {"deflection": (moved, "fine_length"), "F last": (last, "force"), "F heaviest": (largest, "force")},
        "geometry: the surface moves away from the tool",
        note="spring passes take part of it out",
        rounds="up",
    )
    tolerance = thread.pitch_diameter_max - thread.pitch_diameter_min
    system = bench.job.units or bench.lathe.units
    if error > ERROR_SHARE * tolerance:
        desk.find(
            "deflection",
            "check",
            f"The work gives {fine_words(error, system)} on diameter under the last cut, more than a quarter "
            f"of the pitch diameter tolerance of {fine_words(tolerance, system)}. Support it nearer the cut, "
            "take smaller last cuts, and measure at both ends of the thread.",
            bench.job.holding.chuck.grip.where,
        )
