"""The thread: what it is, its limits, the tool's nose and the depth that follows, wires, where it lies.

Reading order: `thread_section` calls the small functions below it in the order a machinist works: what
thread, which limits, which blank, which tool, how deep, over which wire, where on the work.
"""

from __future__ import annotations

import math

from generator.calc import relief, thread_form, wires
from generator.calc.designation import Designation, parse_designation
from generator.calc.thread_limits import ThreadLimits, limits
from generator.job.model import Job, Relief, Thread
from generator.job.shop import ThreadTool, Tools
from generator.sheet.desk import Desk
from generator.sheet.layout import Layout
from generator.sheet.model import Figure, Kind, Quantity, System
from generator.sheet.plans import ThreadPlan
from generator.si import inch, mm

PRACTICE = "common practice, no source"
HALF_ANGLE = math.radians(30)
BASIC_PITCH_FACTOR = 0.649519053  # 3/4 of H over P for a 60 degree profile, ISO 68-1 and ASME B1.1


def thread_operation(job: Job) -> Thread | None:
    """The job's thread operation, or None."""
    return next((operation.thread for operation in job.operations if operation.thread), None)


def relief_operation(job: Job) -> Relief | None:
    """The job's relief operation, or None."""
    return next((operation.relief for operation in job.operations if operation.relief), None)


def thread_section(job: Job, tools: Tools, layout: Layout, desk: Desk) -> ThreadPlan | None:
    """Lay down the thread's figures and return its plan; None when the job cuts no thread.

    Raises
    ------
    BadDesignation, OutsideRange
        When no standard here gives the thread limits.
    """
    thread = thread_operation(job)
    if thread is None:
        return None
    designation = parse_designation(thread.designation)
    unit = designation.unit_si
    engagement = thread.engagement.si / unit if thread.engagement else None
    of_standard = limits(designation, engagement)
    system: System = "inch" if designation.unit == "in" else "mm"
    pitch, lead = float(designation.pitch) * unit, float(designation.lead) * unit

    _lay_identity(designation, thread, desk, system, pitch, lead)
    largest, smallest = _lay_limits(designation, of_standard, desk, system, pitch, lead)
    blank = _lay_blank(thread, of_standard, desk, system, unit)
    flat, radius = _lay_tool(thread, tools, designation, desk, system, pitch)
    target = desk.computed(
        "thread.target",
        "Pitch diameter aimed at",
        (largest + smallest) / 2,
        "length",
        "({d2 max} + {d2 min}) ÷ 2",
        {"d2 max": (largest, "length"), "d2 min": (smallest, "length")},
        PRACTICE,
        note="the middle of the limits",
        system=system,
    )
    depth = _lay_depth(desk, system, blank, target, pitch, flat, radius)
    root = desk.computed(
        "thread.root",
        "Root diameter this tool leaves",
        blank - 2 * depth,
        "length",
        "{blank} − 2 × {depth}",
        {"blank": (blank, "length"), "depth": (depth, "length")},
        "geometry of the groove",
        system=system,
    )
    wire = _lay_wires(thread, tools, desk, system, pitch, lead, largest, smallest)
    start = layout.stick_out - (thread.from_end.si if thread.from_end else 0.0)
    end = start - thread.length.si
    desk.given("thread.length", "Thread length", thread.length, "length")
    middle = layout.span_at((start + end) / 2)
    groove = relief_operation(job)
    return ThreadPlan(
        designation,
        of_standard,
        system,
        pitch,
        lead,
        HALF_ANGLE,
        start,
        end,
        blank,
        target,
        largest,
        smallest,
        root,
        flat,
        radius,
        depth,
        wire,
        middle.bore if middle else 0.0,
        relief_start=end if groove else None,
        relief_end=end - groove.width.si if groove else None,
        relief_diameter=_relief_diameter(groove, root, system) if groove else None,
    )


def _relief_diameter(groove: Relief, root: float, system: System) -> float:
    return groove.diameter.si if groove.diameter else relief.default_diameter(root, system)


def _lay_identity(
    designation: Designation, thread: Thread, desk: Desk, system: System, pitch: float, lead: float
) -> None:
    """Designation, hand, pitch, lead and starts, as the designation says."""
    said = f"the designation {designation.text}"
    standard = "ASME B1.1" if designation.family == "UN" else "ISO 68-1, ISO 261, ISO 965-1"

    def lay(
        name: str, label: str, value: float | str, quantity: Quantity, kind: Kind = Kind.GIVEN, note: str = ""
    ) -> None:
        desk.lay(Figure(f"thread.{name}", label, value, quantity, kind, said, note=note, system=system))

    lay("designation", "Thread", designation.text, "text")
    if thread.hand in (None, designation.hand):
        lay("hand", "Hand", f"{designation.hand} hand", "text")
    else:
        desk.unknown("thread.hand", "Hand", "text", "the designation and the job file differ")
    lay(
        "class",
        "Class",
        designation.class_,
        "text",
        Kind.ASSUMED if designation.class_assumed else Kind.GIVEN,
        "no class was written; 6g is the usual class for medium fit (ISO 965-1)"
        if designation.class_assumed
        else "",
    )
    if designation.tpi is not None:
        lay("tpi", "Threads per inch", float(designation.tpi), "tpi")
        desk.computed(
            "thread.pitch",
            "Pitch",
            pitch,
            "fine_length",
            "1 ÷ {n} inch",
            {"n": (float(designation.tpi), "tpi")},
            standard,
            system=system,
        )
    else:
        lay(
            "pitch",
            "Pitch",
            pitch,
            "length",
            Kind.STANDARD if designation.pitch_assumed else Kind.GIVEN,
            "the coarse pitch of ISO 261" if designation.pitch_assumed else "",
        )
    lay("starts", "Starts", designation.starts, "count")
    desk.computed(
        "thread.lead",
        "Lead",
        lead,
        "fine_length",
        "{starts} × {P}",
        {"starts": (designation.starts, "count"), "P": (pitch, "fine_length")},
        standard,
        system=system,
    )
    if designation.class_assumed:
        desk.find(
            "class-assumed",
            "check",
            f"{designation.text} names no class: 6g is assumed.",
            thread.length.where,
            "Which class of fit is wanted?",
        )


def _lay_limits(
    designation: Designation, of_standard: ThreadLimits, desk: Desk, system: System, pitch: float, lead: float
) -> tuple[float, float]:
    """Limits of size with their formulas; returns the pitch diameter's max and min (m)."""
    unit, source = designation.unit_si, of_standard.source
    nominal = designation.nominal * unit
    allowance = of_standard.allowance * unit
    if designation.family == "UN":
        factor = {"1A": 1.5, "2A": 1.0, "3A": 0.75}[designation.class_]
        rule = "{k} × (0.0015 ∛{D} + 0.0015 √{LE} + 0.015 ∛{P}²), all in inches"
        put: dict[str, tuple[float, Quantity]] = {
            "k": (factor, "ratio"),
            "D": (nominal, "length"),
            "LE": (of_standard.engagement * unit, "length"),
            "P": (pitch, "fine_length"),
        }
        crest_rule = f"{0.090 if designation.class_ == '1A' else 0.060:.3f} × ∛{{P}}², in inches"
        crest_put: dict[str, tuple[float, Quantity]] = {"P": (pitch, "fine_length")}
        es_rule = "0.300 × the class 2A tolerance" if allowance else "none for class 3A"
        es_put: dict[str, tuple[float, Quantity]] = {}
    else:
        rule, put = "the table's value for this pitch, diameter range and grade", {}
        crest_rule, crest_put, es_rule, es_put = (
            "the table's value for this pitch and grade",
            {},
            "the table's value for this pitch and position",
            {},
        )
    desk.computed(
        "thread.allowance",
        "Allowance",
        allowance,
        "length",
        es_rule,
        es_put,
        source,
        kind=Kind.STANDARD,
        system=system,
    )
    crest_tolerance = desk.computed(
        "thread.major.tolerance",
        "Major diameter tolerance",
        of_standard.major_tolerance * unit,
        "length",
        crest_rule,
        crest_put,
        source,
        kind=Kind.STANDARD,
        system=system,
    )
    pitch_tolerance = desk.computed(
        "thread.pitch_diameter.tolerance",
        "Pitch diameter tolerance",
        of_standard.pitch_tolerance * unit,
        "length",
        rule,
        put,
        source,
        kind=Kind.STANDARD,
        system=system,
    )

    def lay(
        name: str,
        label: str,
        value: float | None,
        formula: str,
        rounds: str,
        **inputs: tuple[float, Quantity],
    ) -> float | None:
        if value is None:
            return None
        named = {key.replace("_", " "): number for key, number in inputs.items()}
        return desk.computed(
            f"thread.{name}",
            label,
            value * unit,
            "length",
            formula,
            named,
            source,
            kind=Kind.STANDARD,
            system=system,
            rounds=rounds,
        )

    major_max = lay(
        "major.max",
        "Major diameter, max",
        of_standard.major.max,
        "{d} − {es}",
        "down",
        d=(nominal, "length"),
        es=(allowance, "length"),
    )
    lay(
        "major.min",
        "Major diameter, min",
        of_standard.major.min,
        "{d max} − {Td}",
        "up",
        d_max=(major_max or nominal, "length"),
        Td=(crest_tolerance, "length"),
    )
    largest = lay(
        "pitch_diameter.max",
        "Pitch diameter, max",
        of_standard.pitch_diameter.max,
        "{d max} − 0.64951905 × {P}",
        "down",
        d_max=(major_max or nominal, "length"),
        P=(pitch, "fine_length"),
    )
    smallest = lay(
        "pitch_diameter.min",
        "Pitch diameter, min",
        of_standard.pitch_diameter.min,
        "{d2 max} − {Td2}",
        "up",
        d2_max=(largest or nominal, "length"),
        Td2=(pitch_tolerance, "length"),
    )
    assert largest is not None
    assert smallest is not None
    minor_factor = "1.19078493" if designation.rounded_root else "1.08253175"
    lay(
        "minor.max",
        "Minor diameter, max (reference)",
        of_standard.minor.max,
        f"{{d max}} − {minor_factor} × {{P}}",
        "down",
        d_max=(major_max or nominal, "length"),
        P=(pitch, "fine_length"),
    )
    lay(
        "minor.min",
        "Minor diameter, min",
        of_standard.minor.min,
        "{d2 min} − 0.616025 × {P}",
        "up",
        d2_min=(smallest, "length"),
        P=(pitch, "fine_length"),
    )
    desk.computed(
        "thread.lead_angle",
        "Lead angle",
        thread_form.lead_angle(lead, largest),
        "angle",
        "arctan({L} ÷ (π × {d2}))",
        {"L": (lead, "fine_length"), "d2": (largest, "length")},
        "geometry of the helix; ASME B1.7",
        system=system,
    )
    desk.lay(
        Figure(
            "thread.engagement",
            "Length of engagement the limits are for",
            of_standard.engagement * unit,
            "length",
            Kind.STANDARD if of_standard.engagement_standard else Kind.GIVEN,
            source,
            system=system,
        )
    )
    for number, remark in enumerate(of_standard.remarks, 1):
        desk.find(f"limits-remark-{number}", "note", remark)
    if not of_standard.tabulated:
        desk.find(
            "not-tabulated",
            "note",
            f"{designation.text} is not in the standard's tables; its limits come from the standard's "
            "formulas.",
        )
    return largest, smallest


def _lay_blank(thread: Thread, of_standard: ThreadLimits, desk: Desk, system: System, unit: float) -> float:
    """The diameter the thread is cut into: as measured, else the upper half of the limits."""
    if thread.blank is not None:
        desk.given("thread.blank", "Blank diameter", thread.blank, "length")
        return thread.blank.si
    assert of_standard.major.max is not None
    largest, tolerance = of_standard.major.max * unit, of_standard.major_tolerance * unit
    return desk.computed(
        "thread.blank",
        "Blank diameter to turn",
        largest - tolerance / 4,
        "length",
        "{d max} − {Td} ÷ 4",
        {"d max": (largest, "length"), "Td": (tolerance, "length")},
        PRACTICE,
        note="upper half of the limits; measure it cold and cut the thread into what you measured",
        system=system,
    )


def _named_tool(name: str | None, tools: Tools) -> ThreadTool | None:
    return next((tool for tool in tools.threading if tool.name == name), None)


def _lay_tool(
    thread: Thread, tools: Tools, designation: Designation, desk: Desk, system: System, pitch: float
) -> tuple[float, float]:
    """Nose flat and nose radius (m), one of them 0; the basic crest flat P/8 is assumed when nobody said."""
    tool = _named_tool(thread.tool, tools)
    if tool is not None and tool.nose_radius is not None:
        radius = tool.nose_radius.si
        desk.lay(
            Figure(
                "thread.tool.nose_radius",
                f"Nose radius of tool {tool.name}",
                radius,
                "fine_length",
                Kind.SHOP,
                "jobs/_shop/tools.yml",
                text=tool.nose_radius.text,
                system=system,
            )
        )
        _check_nose_radius(radius, designation, desk, thread, pitch)
        return 0.0, radius
    if tool is not None and tool.nose_flat is not None:
        flat = tool.nose_flat.si
        desk.lay(
            Figure(
                "thread.tool.nose_flat",
                f"Nose flat of tool {tool.name}",
                flat,
                "fine_length",
                Kind.SHOP,
                "jobs/_shop/tools.yml",
                text=tool.nose_flat.text,
                system=system,
            )
        )
        if flat > pitch / 4:
            desk.find(
                "nose-wide",
                "stop",
                f"The nose flat of tool {tool.name} is wider than a quarter of the pitch: at the right pitch "
                "diameter the root would be too shallow for the mate. Grind it narrower or take another "
                "tool.",
                thread.length.where,
            )
        return flat, 0.0
    flat = desk.computed(
        "thread.tool.nose_flat",
        "Nose flat of the tool",
        pitch / 8,
        "fine_length",
        "{P} ÷ 8",
        {"P": (pitch, "fine_length")},
        PRACTICE,
        kind=Kind.ASSUMED,
        system=system,
        note="no tool was named; measure the flat, for the depth follows from it",
    )
    desk.find(
        "tool-assumed",
        "check",
        "No threading tool is named, so its nose flat is assumed as an eighth of the pitch. Measure the flat "
        "and write it in jobs/_shop/tools.yml: a flat that differs by 0.001 in moves the pitch diameter by "
        "0.0017 in.",
        thread.length.where,
    )
    return flat, 0.0


def _check_nose_radius(
    radius: float, designation: Designation, desk: Desk, thread: Thread, pitch: float
) -> None:
    """Least root radius where the profile asks for one: 0.125 P for ISO metric, 0.108253 P for UNR."""
    least = {"M": 0.125, "UN": 0.10825318 if designation.rounded_root else 0.0}[designation.family] * pitch
    if radius < least * (1 - 1e-9):
        desk.find(
            "nose-radius",
            "check",
            f"The nose radius {radius * 1000:.3f} mm is under the {least * 1000:.3f} mm that the root of "
            f"{designation.text} asks for (ISO 965-1; ASME B1.1). Decide whether this thread needs the "
            "rounded root.",
            thread.length.where,
        )


def _lay_depth(
    desk: Desk, system: System, blank: float, target: float, pitch: float, flat: float, radius: float
) -> float:
    """Radial depth from touch to the pitch diameter aimed at, for the tool's own nose."""
    put: dict[str, tuple[float, Quantity]] = {
        "blank": (blank, "length"),
        "d2": (target, "length"),
        "P": (pitch, "fine_length"),
    }
    if radius:
        depth = thread_form.depth_for_radius(blank, target, pitch, HALF_ANGLE, radius)
        formula = "({blank} − {d2}) ÷ 2 + {P} ÷ (4 tan 30°) − {r} × (1 ÷ sin 30° − 1)"
        put["r"] = (radius, "fine_length")
    else:
        depth = thread_form.depth_for_flat(blank, target, pitch, HALF_ANGLE, flat)
        formula = "({blank} − {d2}) ÷ 2 + ({P} ÷ 2 − {F}) ÷ (2 tan 30°)"
        put["F"] = (flat, "fine_length")
    return desk.computed(
        "thread.depth",
        "Depth, radial, from touch",
        depth,
        "length",
        formula,
        put,
        "geometry: the groove is half a pitch wide at the pitch cylinder (ISO 68-1)",
        note="sizes come right on the pitch diameter, not on the depth",
        system=system,
    )


def _lay_wires(
    thread: Thread,
    tools: Tools,
    desk: Desk,
    system: System,
    pitch: float,
    lead: float,
    largest: float,
    smallest: float,
) -> float:
    """Best wire, wire chosen, and the sizes over it; returns the wire (m)."""
    source = "NBS Handbook H28; ASME B1.2"
    best = desk.computed(
        "thread.wire.best",
        "Best wire",
        wires.best_wire(pitch, HALF_ANGLE),
        "fine_length",
        "0.577350 × {P}",
        {"P": (pitch, "fine_length")},
        source,
        system=system,
    )
    low, high = wires.usable_wires(pitch, HALF_ANGLE)
    chosen = wires.choose_wire(best, [wire.si for wire in tools.wires], pitch, HALF_ANGLE)
    if thread.wire is not None:
        wire, kind, why = thread.wire.si, Kind(thread.wire.kind), thread.wire.origin
        if not low <= wire <= high:
            desk.find(
                "wire-unusable",
                "stop",
                f"A {thread.wire.text} wire does not seat on the flanks of this pitch: wires from "
                f"{low * 1000:.3f} to {high * 1000:.3f} mm do ({low / 0.0254:.4f} to {high / 0.0254:.4f} "
                "in).",
                thread.wire.where,
            )
    elif chosen is not None:
        wire, kind, why = chosen, Kind.SHOP, "jobs/_shop/tools.yml: the nearest usable wire of the shop's set"
    else:
        wire, kind, why = best, Kind.ASSUMED, "no wire of the shop fits this pitch; the best wire is assumed"
        desk.find(
            "wire-missing",
            "check",
            "No wire of the shop's set seats in this pitch. Borrow the best wire or measure with a thread "
            "micrometer.",
            thread.length.where,
        )
    desk.lay(Figure("thread.wire.size", "Wire used", wire, "fine_length", kind, why, system=system))
    correction = wires.lead_correction(largest, wire, pitch, lead, HALF_ANGLE)
    for name, label, diameter, rounds in (
        ("max", "Over wires, max", largest, "down"),
        ("min", "Over wires, min", smallest, "up"),
    ):
        exact = wires.over_wires(diameter, wire, pitch, lead, HALF_ANGLE)
        places, unit = (4, inch) if system == "inch" else (3, mm)  # as the standards print limits
        value = round(exact / unit, places) * unit
        simple = wires.over_wires_simple(diameter, wire, pitch, HALF_ANGLE)
        put: dict[str, tuple[float, Quantity]] = {
            "d2": (diameter, "length"),
            "W": (wire, "fine_length"),
            "P": (pitch, "fine_length"),
        }
        formula = "{d2} + 3 × {W} − 0.866025 × {P}"
        if exact != simple:
            formula += " + {lead angle term}"
            put["lead angle term"] = (exact - simple, "fine_length")
        desk.computed(
            f"thread.over_wires.{name}",
            label,
            value,
            "length",
            formula,
            put,
            source,
            system=system,
            rounds=rounds,
        )
    desk.computed(
        "thread.wire.lead_correction",
        "What the lead angle would add over wires",
        correction,
        "fine_length",
        "{W} ÷ 2 × tan² {λ} × cos 30° × cot 30°",
        {"W": (wire, "fine_length"), "λ": (thread_form.lead_angle(lead, largest), "angle")},
        source + "; left out where it is under 0.00015 in (0.004 mm)",
        system=system,
    )
    return wire
