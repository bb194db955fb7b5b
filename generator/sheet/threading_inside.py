"""What only an internal thread needs: the bore it is cut into, whether the tool fits, what decides its fit.

In reading order: `lay_bore` (the diameter before threading), `check_bar` (tool and bar in the bore),
`check_fit` (wires do not go inside), `check_way_in` (what stands in front of the thread).
"""

from __future__ import annotations

from generator.job.model import Job
from generator.job.operations import Bore
from generator.job.shop import ThreadTool
from generator.job.written import Given
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.layout import Layout
from generator.sheet.threading import Threading
from generator.sheet.wording import fine_words, length_words, pitch_share_words
from generator.si import Length

PRACTICE = later("common practice, no source")
TOOLS_FILE = "jobs/_shop/tools.yml"
STEEL_BAR = 4.0  # diameters that a steel bar may stand out: common practice, no source
SAME = 1e-9      # m: two sizes closer than this are one


def lay_bore(threading: Threading, job: Job, layout: Layout, middle: Length, desk: Desk) -> Length:
    """The bore the thread is cut into (m): as measured, else as it is or is bored to, else mid-limits."""
    if threading.operation.blank is not None:
        return desk.given("thread.blank", say("Bore before threading"), threading.operation.blank, "length")
    sizes, unit = threading.limits.minor, threading.unit
    basic = threading.basic_minor_diameter
    least = basic if sizes.min is None else sizes.min * unit
    largest = max(least, basic) if sizes.max is None else sizes.max * unit
    for given in _said(job, layout, middle):
        if least - SAME <= given.si <= largest + SAME:
            note = say("measure it cold, and cut the thread into what you measured")
            return desk.given("thread.blank", say("Bore before threading"), given, "length", note=note)
    return desk.computed(
        "thread.blank", say("Bore before threading"), (least + largest) / 2, "length",
        "({D1 min} + {D1 max}) ÷ 2", {"D1 min": (least, "length"), "D1 max": (largest, "length")}, PRACTICE,
        note=say("the middle of the limits; measure it cold and cut the thread into what you measured"),
        system=threading.system,
    )


def _said(job: Job, layout: Layout, middle: Length) -> list[Given]:
    """Bores that the job gives where the thread goes: bored before it, last first, then the work's own."""
    given: list[Given] = []
    for operation in job.operations:
        if operation.thread is not None:
            break
        if isinstance(operation.given, Bore) and operation.given.diameter is not None:
            given.insert(0, operation.given.diameter)
    span = layout.span_at(middle)
    own = job.work[span.section_index].bore if span else None
    return [*given, own] if own is not None else given


def check_bar(
    tool: ThreadTool | None, threading: Threading, bore: Length, depth: Length, deep: Length, desk: Desk
) -> None:
    """Does the tool go into the bore, does it reach, and does its bar stand out too far?

    `deep` is how far into the work the tool goes from the tailstock end (m).
    """
    if tool is None:
        return
    where, system = threading.operation.length.where, threading.system
    if not tool.inside:
        desk.find(
            "tool-outside", "check",
            say(
                "Tool {tool} is not recorded as one for internal threads. See that it goes into the bore, "
                "and write inside: yes in {tools_file}, or name another tool.",
                tool=tool.name, tools_file=TOOLS_FILE,
            ),
            where,
        )
    if tool.bar is not None:
        _check_room(tool, tool.bar, threading, bore, depth, desk)
    if tool.reach is not None and tool.reach.si < deep - SAME:
        desk.find(
            "bar-short", "stop",
            say(
                "The bar of tool {tool} reaches {reach}, and the end of the cut is {deep} inside the work. "
                "Set the bar out further where that is possible, or take a longer one.",
                tool=tool.name, reach=tool.reach.with_unit, deep=length_words(deep, system),
            ),
            where,
        )
    if tool.bar is None:
        return
    out = tool.reach.si if tool.reach is not None else deep
    least = "" if tool.reach is not None else say("; the least that this cut needs")
    ratio = desk.computed(
        "thread.tool.bar_ratio", say("Bar out of its holder, in diameters"), out / tool.bar.si, "ratio",
        "{bar out} ÷ {bar}", {"bar out": (out, "length"), "bar": (tool.bar.si, "length")}, PRACTICE,
        note=say("a steel bar chatters beyond about 4{least}", least=least),
    )
    if ratio > STEEL_BAR:
        desk.find(
            "bar-slender", "check",
            say(
                "The bar of tool {tool} stands out {ratio:.1f} times its diameter of {bar}; a steel bar is "
                "good to about 4. Take a thicker or shorter bar, or lighter cuts and more spring passes.",
                tool=tool.name, ratio=ratio, bar=tool.bar.with_unit,
            ),
            where,
        )


def _check_room(
    tool: ThreadTool, bar: Given, threading: Threading, bore: Length, depth: Length, desk: Desk
) -> None:
    """Room behind the bar when the point is clear of the crests on the other side."""
    where, system = threading.operation.length.where, threading.system
    room = desk.computed(
        "thread.tool.room", say("Room behind the bar, tool withdrawn"), bore - bar.si - depth, "length",
        "{bore} − {bar} − {depth}",
        {"bore": (bore, "length"), "bar": (bar.si, "length"), "depth": (depth, "length")}, say("geometry"),
        note=say("the point stands out of the bar by the depth of the thread at least"), rounds="down",
        system=system,
    )
    if room <= SAME:
        desk.find(
            "bar-thick", "stop",
            say(
                "Tool {tool} does not go into the bore: its bar of {bar} and the depth of the thread, "
                "{depth}, are more than the bore of {bore}. Take a thinner bar.",
                tool=tool.name, bar=bar.with_unit, depth=fine_words(depth, system),
                bore=length_words(bore, system),
            ),
            where,
        )
    elif room < depth:
        desk.find(
            "bar-tight", "check",
            say(
                "Behind the bar of tool {tool} there is {room} when the point is clear of the thread. Set a "
                "stop for the withdrawal, and clear the chips after every pass.",
                tool=tool.name, room=fine_words(room, system),
            ),
            where,
        )


def check_fit(threading: Threading, desk: Desk) -> str:
    """What decides that the thread fits, `gauge` or `mate`: wires do not go inside."""
    operation = threading.operation
    if operation.wire is not None:
        desk.find(
            "wire-inside", "check",
            say(
                "A wire of {wire} is given, and {designation} is an internal thread: wires do not go inside "
                "it. The wire is left out.",
                wire=operation.wire.with_unit, designation=threading.designation.text,
            ),
            operation.wire.where,
        )
    if operation.fit != "wires":
        return operation.fit
    if "fit" in operation.model_fields_set:
        desk.find(
            "fit-wires-inside", "stop",
            say(
                "The fit is to be decided over wires, and {designation} is an internal thread: wires do not "
                "go inside it. Write fit: gauge for {plug}, or fit: mate.",
                designation=threading.designation.text, plug=_plug(threading),
            ),
            operation.length.where, say("What decides that it fits: a plug gauge, or the mating part?"),
        )
    else:
        desk.find(
            "fit-unsaid", "check",
            say(
                "Nobody said what decides that {designation} fits; inside a bore it is a plug gauge or the "
                "mating part. The sheet goes by a plug gauge.",
                designation=threading.designation.text,
            ),
            operation.length.where, say("What decides that it fits: a plug gauge, or the mating part?"),
        )
    return "gauge"


def _plug(threading: Threading) -> str:
    return say("a taper plug gauge") if threading.profile.taper else say("a go and no-go plug gauge")


def check_way_in(job: Job, threading: Threading, layout: Layout, start: Length, desk: Desk) -> None:
    """A center stands where the bar goes in; a narrower bore in front keeps tool and mate out."""
    where, name = threading.operation.length.where, threading.designation.text
    if job.holding.center is not None:
        desk.find(
            "center-in-bore", "stop",
            say(
                "A live center supports the work, and the bar for {thread} goes in at the same end. Hold "
                "the work by chuck and steady rest, or grip it short.",
                thread=name,
            )
            if job.holding.center == "live"
            else say(
                "A dead center supports the work, and the bar for {thread} goes in at the same end. Hold "
                "the work by chuck and steady rest, or grip it short.",
                thread=name,
            ),
            job.holding.grip.where,
        )
    least = _least_major(threading)
    in_front = [span.bore for span in layout.spans if span.start >= start - SAME]
    if in_front and min(in_front) < least - SAME:
        desk.find(
            "mouth-narrow", "stop",
            say(
                "In front of {thread} the bore is {in_front}, smaller than the thread's {least}: neither "
                "tool nor mate gets to it. Turn the work end for end, or open the bore.",
                thread=name, in_front=length_words(min(in_front), threading.system),
                least=length_words(least, threading.system),
            ),
            where, say("From which end does the mate go in, and how large is the bore there?"),
        )


def check_root(tool: ThreadTool | None, threading: Threading, root: Length, desk: Desk) -> None:
    """A nose so wide that the groove ends short of the least major diameter at the right pitch diameter."""
    least = _least_major(threading)
    if tool is None or root >= least - SAME:
        return
    profile, system = threading.profile, threading.system
    flat = profile.tool_flat * threading.pitch
    does = (
        say("A radius of {radius}", radius=fine_words(profile.tool_radius * threading.pitch, system))
        if profile.tool_radius
        else say(
            "A flat of {flat}, {share},",
            flat=fine_words(flat, system), share=pitch_share_words(profile.tool_flat),
        )
    )
    desk.find(
        "nose-wide", "stop",
        say(
            "With the nose of tool {tool} the groove is {root} across when the pitch diameter is right, and "
            "the major diameter must be {least} at least: the crests of the mate would jam. {does} or less "
            "does it. Grind it narrower or take another tool.",
            tool=tool.name, root=length_words(root, system), least=length_words(least, system), does=does,
        ),
        threading.operation.length.where,
    )


def _least_major(threading: Threading) -> Length:
    """Least major diameter (m); the nominal one where no standard gives it."""
    least = threading.limits.major.min
    return (threading.designation.nominal if least is None else least) * threading.unit
