"""The thread: what it is and where it lies, with its limits, blank, tool, depth and wires.

`thread_section` goes the machinist's way: what thread, which limits, which blank, which tool, how deep,
over which wire, where on the work.
"""

from __future__ import annotations

from generator.calc import relief
from generator.job.model import Job
from generator.job.shop import Tools
from generator.language.say import later, say
from generator.sheet.ball_sizes import lay_balls
from generator.sheet.desk import Desk
from generator.sheet.figure import Figure, Kind, Quantity
from generator.sheet.layout import Layout
from generator.sheet.limits_of_size import lay_limits
from generator.sheet.mate_fit import Aim, aim_of
from generator.sheet.mate_limits import lay_mate
from generator.sheet.plans import ThreadPlan
from generator.sheet.taper_blank import lay_taper_blank
from generator.sheet.threading import (
    Threading,
    relief_operation,
    thread_operation,
    threading_of,
)
from generator.sheet.threading_inside import (
    check_bar,
    check_fit,
    check_root,
    check_way_in,
    lay_bore,
)
from generator.sheet.threading_tool import (
    lay_blank,
    lay_crests,
    lay_depth,
    lay_nose,
    lay_square_depth,
    named_tool,
)
from generator.sheet.wire_sizes import lay_wires

OF_SERIES = later("not written: the standard one of this size")


def thread_section(job: Job, tools: Tools, layout: Layout, desk: Desk) -> ThreadPlan | None:
    """Lay down the thread's figures and return its plan; None when the job cuts no thread.

    Raises
    ------
    BadDesignation, OutsideRange
        When no standard here gives the thread limits.
    """
    operation = thread_operation(job)
    if operation is None:
        return None
    threading = threading_of(operation)
    system = threading.system
    _lay_identity(threading, desk)
    of_standard = lay_limits(threading, desk)
    known = next((end for end in of_standard if end is not None), threading.basic_pitch_diameter)
    largest, smallest = (known if end is None else end for end in of_standard)
    start = layout.stick_out - (operation.from_end.si if operation.from_end else 0.0)
    end = start - operation.length.si
    inside, tool = threading.designation.internal, named_tool(threading, tools)
    taper = threading.profile.taper > 0
    if taper:
        blank = lay_taper_blank(threading, desk)
    elif inside:
        blank = lay_bore(threading, job, layout, (start + end) / 2, desk)
    else:
        blank = lay_blank(threading, desk)
    flat, radius = lay_nose(threading, tools, desk)
    lay_crests(threading, desk)
    if threading.profile.square:
        depth = lay_square_depth(threading, blank, desk)
        target = blank + depth if inside else blank - depth
        largest = smallest = target
    else:
        aim = aim_of(job, threading, largest, smallest, desk)
        target, largest, smallest = aim.target, aim.largest, aim.smallest
        depth = lay_depth(threading, blank, target, flat, radius, desk)
    root = desk.computed(
        "thread.root", say("Root diameter this tool leaves"),
        blank + 2 * depth if inside else blank - 2 * depth, "length",
        "{bore} + 2 × {depth}" if inside else "{blank} − 2 × {depth}",
        {"bore" if inside else "blank": (blank, "length"), "depth": (depth, "length")},
        say("geometry of the groove"), system=system,
    )
    wire = ball = None
    if not inside and threading.profile.wires_measure:
        wire = lay_wires(threading, tools, largest, smallest, root, desk)
    if not taper:  # both halves of a taper thread are gauged, each at a plane of its own
        lay_mate(job, threading, Aim(target, largest, smallest), blank, root, desk)
    desk.given("thread.length", say("Thread length"), operation.length, "length")
    middle = layout.span_at((start + end) / 2)
    groove = relief_operation(job)
    floor = None
    if groove is not None:
        usual = relief.default_recess if inside else relief.default_diameter
        floor = groove.diameter.si if groove.diameter else usual(root, system)
    if inside:
        deep = layout.stick_out - end + (groove.width.si if groove else 0.0)
        if threading.profile.wires_measure:
            ball = lay_balls(threading, tools, largest, smallest, blank, root, desk)
        check_fit(threading, desk)
        check_root(tool, threading, root, desk)
        check_bar(tool, threading, blank, depth, deep, desk)
        check_way_in(job, threading, layout, start, desk)
    return ThreadPlan(
        designation=threading.designation,
        limits=threading.limits,
        system=system,
        pitch=threading.pitch,
        lead=threading.lead,
        profile=threading.profile,
        start=start,
        end=end,
        blank=blank,
        target=target,
        pitch_diameter_max=largest,
        pitch_diameter_min=smallest,
        root_diameter=root,
        nose_flat=flat,
        nose_radius=radius,
        depth=depth,
        wire=wire,
        ball=ball,
        bore=middle.bore if middle else 0.0,
        relief_start=end if groove else None,
        relief_end=end - groove.width.si if groove else None,
        relief_diameter=floor,
        internal=inside,
        bar=tool.bar.si if inside and tool and tool.bar else None,
        bar_out=tool.reach.si if inside and tool and tool.reach else None,
        run_out=operation.run_out.si if operation.run_out and groove is None else 0.0,
    )


def _lay_identity(threading: Threading, desk: Desk) -> None:
    """Designation, hand, pitch, lead and starts, as the designation says."""
    designation, operation, system = threading.designation, threading.operation, threading.system
    said = say("the designation {designation}", designation=designation.text)
    standard = threading.standard

    def lay(
        name: str, label: str, value: float | str, quantity: Quantity, kind: Kind = Kind.GIVEN, note: str = ""
    ) -> None:
        desk.lay(Figure(f"thread.{name}", label, value, quantity, kind, said, note=note, system=system))

    lay("designation", say("Thread"), designation.text, "text")
    if operation.hand in (None, designation.hand):
        lay("hand", say(
            "Hand"
        ), say("right hand") if designation.hand == "right" else say("left hand"), "text")
    else:
        desk.unknown("thread.hand", say("Hand"), "text", say("the designation and the job file differ"))
    if designation.class_ and designation.class_assumed:
        note = say(
            "no class was written; {class_} is the usual one ({standard})",
            class_=designation.class_, standard=standard,
        )
        lay("class", say("Class"), designation.class_, "text", Kind.ASSUMED, note)
        desk.find(
            "class-assumed", "check",
            say(
                "{designation} names no class: {usual} is assumed.",
                designation=designation.text, usual=designation.class_,
            ),
            operation.length.where, say("Which class of fit is wanted?"),
        )
    elif designation.class_:
        lay("class", say("Class"), designation.class_, "text")
    if designation.tpi is not None:
        per_inch: tuple[float, Quantity] = (float(designation.tpi), "tpi")
        if designation.pitch_assumed:
            lay("tpi", say("Threads per inch"), *per_inch, Kind.STANDARD, OF_SERIES)
        else:
            lay("tpi", say("Threads per inch"), *per_inch)
        desk.computed(
            "thread.pitch",
            say("Pitch"),
            threading.pitch,
            "fine_length",
            say("1 ÷ {n} inch"),
            {"n": per_inch},
            standard,
            system=system,
        )
    elif designation.pitch_assumed:
        lay("pitch", say("Pitch"), threading.pitch, "length", Kind.STANDARD, OF_SERIES)
    else:
        lay("pitch", say("Pitch"), threading.pitch, "length")
    lay("starts", say("Starts"), designation.starts, "count")
    desk.computed(
        "thread.lead", say("Lead"), threading.lead, "fine_length", "{starts} × {P}",
        {"starts": (designation.starts, "count"), "P": (threading.pitch, "fine_length")}, standard,
        system=system,
    )
