"""A taper thread at the lathe: blank at both ends, how the tool stands, what the gauge says, making it up.

`taper_thread_section` lays the figures and findings; the blank is laid with the thread (`taper_blank`).
"""

from __future__ import annotations

from generator.calc import taper_thread, taper_thread_setup
from generator.calc.taper import half_angle
from generator.job.lathe import Lathe
from generator.job.model import Job
from generator.job.operations import Thread
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.layout import Layout
from generator.sheet.plans import PassPlan, ThreadPlan
from generator.sheet.taper_blank import PRACTICE, taper_is_turned
from generator.sheet.taper_thread_method import lay_taper_method
from generator.sheet.threading import thread_operation
from generator.sheet.wording import fine_words, length_words
from generator.si import Length, degree

GEOMETRY = later("geometry of the taper")
CHAMFER = 0.02        # of the diameter at least; common practice: to just below the root, or over it inside
SHORT = 0.995         # of the standard's length: less than this is short
TURNS = (("half", later("1/2 turn"), 0.5), ("one", later("1 turn"), 1.0), ("two", later("2 turns"), 2.0))


def taper_thread_section(
    job: Job, lathe: Lathe, layout: Layout, thread: ThreadPlan, cuts: PassPlan, desk: Desk
) -> None:
    """Lay the figures of a taper thread, and what to look out for; nothing for a parallel one.

    Raises
    ------
    OutsideRange
        When the bore of an internal thread would close before its end.
    """
    operation = thread_operation(job)
    if operation is None or not thread.profile.taper:
        return
    _lay_shape(job, layout, thread, operation, desk)
    lay_taper_method(job, lathe, layout, thread, operation, desk)
    _lay_tool(thread, operation, desk)
    _lay_gauge(thread, cuts, operation, desk)
    _find_length(thread, operation, desk)
    _find_make_up(thread, operation, desk)


def _lay_shape(job: Job, layout: Layout, thread: ThreadPlan, operation: Thread, desk: Desk) -> None:
    """The blank at its far end, the chamfer at the mouth, and whether the taper is there."""
    ratio, inside, system = thread.profile.taper, thread.internal, thread.system
    length = abs(thread.start - thread.end)
    name, sign = ("bore", "−") if inside else ("blank", "+")
    far = desk.computed(
        "cut.taper.far_end",
        say("Bore at the far end of the thread") if inside else say("Blank at the far end of the thread"),
        taper_thread.far_diameter(thread.blank, ratio, length, inside),
        "length",
        f"{{{name}}} {sign} {{taper}} × {{length}}",
        {name: (thread.blank, "length"), "taper": (ratio, "ratio"), "length": (length, "length")},
        GEOMETRY,
        note=say("with the same setting as the thread"),
        system=system,
    )
    _lay_chamfer(thread, desk)
    span = layout.span_at((thread.start + thread.end) / 2)
    straight = None if inside or span is None or span.tapered else span.od_start
    full = length if straight is None else taper_thread.full_crests(straight, thread.blank, ratio)
    runs_out = full < length * SHORT
    if not taper_is_turned(job, layout, thread):
        to = say("to {far} over {length}", far=length_words(far, system), length=length_words(length, system))
        if runs_out:
            to = say(
                "until it runs out of the work {full} from the end, as on a pipe",
                full=length_words(full, system),
            )
        parts = {
            "designation": thread.designation.text, "blank": length_words(thread.blank, system),
            "ratio": 1 / ratio, "to": to,
        }
        desk.find(
            "taper-thread-blank", "check",
            say(
                "{designation}: no operation before the thread makes its taper. Bore it first, from {blank} "
                "at the face, falling 1 in {ratio:g} {to}, and leave the setting for the thread. A straight "
                "bore before it may have that smaller size at most.",
                **parts,
            )
            if inside
            else say(
                "{designation}: no operation before the thread makes its taper. Turn it first, from {blank} "
                "at the small end, rising 1 in {ratio:g} {to}, and leave the setting for the thread.",
                **parts,
            ),
            operation.length.where,
        )
    if runs_out and straight is not None:
        _find_crests(straight, full, thread, operation, desk)


def _lay_chamfer(thread: ThreadPlan, desk: Desk) -> None:
    """45 degrees to just beyond the root at the mouth."""
    root, system, share = thread.root_diameter, thread.system, CHAMFER / 2
    beyond = share * thread.pitch
    desk.computed(
        "cut.taper.chamfer", say("Chamfer at the mouth, 45°, to a diameter of"),
        root + 2 * beyond if thread.internal else root - 2 * beyond, "length",
        "{root} " + ("+" if thread.internal else "−") + f" {CHAMFER:g} × {{P}}",
        {"root": (root, "length"), "P": (thread.pitch, "fine_length")}, PRACTICE,
        note=say("before threading; where it is longer, the gauge is read from where the thread begins"),
        system=system,
    )


def _find_crests(
    outside: Length, full: Length, thread: ThreadPlan, operation: Thread, desk: Desk
) -> None:
    """Straight work ends the taper sooner than the standard's full crests, or than hand engagement."""
    wanted, system = _line(thread, "gauge.l5") or _line(thread, "gauge.length"), thread.system
    if wanted is None or full >= wanted * SHORT:
        return
    desk.find(
        "taper-thread-crests", "check",
        say(
            "The work is {outside} across at {designation}: the taper runs out of it {full} from the end, "
            "and the crests beyond stay flat. The standard has them full for {wanted}: the work is too "
            "small.",
            outside=length_words(outside, system), designation=thread.designation.text,
            full=length_words(full, system), wanted=length_words(wanted, system),
        ),
        operation.length.where, say("Is it a pipe of this size, or is larger stock wanted?"),
    )


def _lay_tool(thread: ThreadPlan, operation: Thread, desk: Desk) -> None:
    """Square to the axis; and the nose against the root that the standard allows."""
    ratio, half = thread.profile.taper, thread.half_angle
    height, tilt = thread.profile.depth * thread.pitch, half_angle(ratio)
    cost = desk.computed(
        "cut.taper.tilt", say("Pitch diameter lost to a tool set square to the taper"),
        taper_thread_setup.tilt_diameter(height, half, tilt), "fine_length",
        "{h} ÷ 2 × (tan({A} + {α}) − tan({A} − {α})) ÷ tan {A}",
        {"h": (height, "fine_length"), "A": (half, "angle"), "α": (tilt, "angle")},
        say("geometry; NBS Handbook H28 (from memory)"), system=thread.system,
        note=say("set it square to the axis"),
    )
    turns = taper_thread.turns_for_depth(cost / 2, thread.lead, ratio)
    desk.find(
        "taper-thread-square", "check",
        say(
            "Set the tool square to the axis of the work, not to the side of the taper: {source} measures "
            "the flanks from the axis. Square to the taper they would lean {tilt:.2f} degrees, bear at "
            "crest and root only, and stop the gauge {turns:.1f} turns early. Hold the center gauge against "
            "the face or a straight part.",
            source=thread.profile.source, tilt=tilt / degree, turns=turns,
        ),
        operation.length.where,
    )
    _check_root(thread, operation, desk)


def _check_root(thread: ThreadPlan, operation: Thread, desk: Desk) -> None:
    """A nose so sharp that the root lies beyond what the standard allows at this pitch diameter."""
    sizes = thread.limits
    outer, inner = (
        (sizes.major.max, sizes.pitch_diameter.max) if thread.internal
        else (sizes.pitch_diameter.min, sizes.minor.min)
    )
    if outer is None or inner is None:
        return  # no standard limits its root
    room = (outer - inner) * thread.designation.unit_si
    deep = thread.root_diameter - thread.target if thread.internal else thread.target - thread.root_diameter
    beyond = deep - room
    if beyond > 1e-6 and thread.nose_flat > 0:
        desk.find(
            "taper-thread-root", "check",
            say(
                "The nose of the tool is so narrow that the root of {designation} comes {beyond} on the "
                "diameter beyond what the standard allows: the mate's crests do not meet it, and the joint "
                "leaks along the root unless the compound fills it.",
                designation=thread.designation.text, beyond=fine_words(beyond, thread.system),
            ),
            operation.length.where,
        )


def _lay_gauge(thread: ThreadPlan, cuts: PassPlan, operation: Thread, desk: Desk) -> None:
    """What to feed in where the gauge stops short, and how it is read."""
    ratio, angle = thread.profile.taper, cuts.infeed_angle
    for key, words, turns in TURNS:
        desk.computed(
            f"thread.gauge.cut.{key}",
            say("Gauge stops {turns} short: compound further in by", turns=words) if angle
            else say("Gauge stops {turns} short: cross slide further in by", turns=words),
            taper_thread.travel_for_turns(turns, thread.lead, ratio, angle),
            "fine_length",
            "{turns} × {taper} × {L} ÷ 2" + (" ÷ cos {angle}" if angle else ""),
            {
                "turns": (turns, "ratio"),
                "taper": (ratio, "ratio"),
                "L": (thread.lead, "fine_length"),
                **({"angle": (angle, "angle")} if angle else {}),
            },
            GEOMETRY,
            system=thread.system,
        )
    each_way = _line(thread, "gauge.turns_each_way", length=False)
    may = (
        ""
        if each_way is None
        else say(
            "; {turns} either way will do ({source})",
            turns=_turns(each_way), source=thread.limits.source,
        )
    )
    desk.find(
        "taper-thread-gauge", "note",
        say(
            "The plug gauge decides: by hand, threads clean and the burr off, never by force. It should "
            "stop with its mark flush with the face{may}. Where it stops short, cut deeper by the gauge "
            "lines; where it goes too far, the thread is cut too deep, and only shortening its end saves "
            "it. Wires do not measure a taper thread like a parallel one.",
            may=may,
        )
        if thread.internal
        else say(
            "The ring gauge decides: by hand, threads clean and the burr off, never by force. It should "
            "stop with its small face flush with the end of the work{may}. Where it stops short, cut deeper "
            "by the gauge lines; where it goes too far, the thread is cut too deep, and only shortening its "
            "end saves it. Wires do not measure a taper thread like a parallel one.",
            may=may,
        ),
        operation.length.where,
    )


def _find_length(thread: ThreadPlan, operation: Thread, desk: Desk) -> None:
    """A thread shorter than the standard's effective one runs out before the joint is tight."""
    if thread.internal:
        parts = [_line(thread, name) for name in ("gauge.l1", "gauge.l3")]
        wanted = sum(part for part in parts if part is not None) if all(parts) else None
        what = say("engagement by hand and by wrench")
    else:
        wanted = _line(thread, "gauge.l2") or _line(thread, "gauge.useful")
        what = say("effective thread")
    length = abs(thread.start - thread.end)
    if wanted is not None and length < wanted * SHORT:
        desk.find(
            "taper-thread-short", "check",
            say(
                "The thread is {length} long, and the {what} of {designation} is {wanted} ({source}): it "
                "would run out before the joint is tight.",
                length=operation.length.with_unit, what=what, designation=thread.designation.text,
                wanted=length_words(wanted, thread.system), source=thread.limits.source,
            ),
            operation.length.where, say("Is a shorter thread wanted, or how long is it to be?"),
        )


def _find_make_up(thread: ThreadPlan, operation: Thread, desk: Desk) -> None:
    """By hand, then by wrench; force does not seal; pressure is for those who may work on it."""
    hand, wrench = (
        _line(thread, f"gauge.{name}_turns", length=False) for name in ("hand", "wrench")
    )
    turns = "" if hand is None else say(" about {hand:.1f} turns", hand=hand)
    more = "" if wrench is None else say(" about {turns} more", turns=_turns(wrench))
    dry = thread.designation.family == "NPTF"
    seal = (
        say("dry, or with a little lubricant against galling")
        if dry
        else say("with a sealing compound or tape")
    )
    only = say(" It seals dry only with another NPTF thread.") if dry else ""
    desk.find(
        "taper-thread-pressure", "check",
        say(
            "Made up{turns} by hand, then{more} by wrench, {seal}.{only} A joint that leaks is not made "
            "tight by force: fittings split. Gas, steam and pressure piping: the local code, a licensed "
            "fitter and a pressure test before use decide, not this sheet.",
            turns=turns, more=more, seal=seal, only=only,
        ),
        operation.length.where, say("What does the joint carry, and at what pressure?"),
    )


def _turns(count: float) -> str:
    return say("1 turn") if count == 1 else say("{turns:g} turns", turns=count)


def _line(thread: ThreadPlan, name: str, length: bool = True) -> float | None:
    """A further size of the standard by its name: a length in m, or a number; None where it has none."""
    value = next((line.value for line in thread.limits.lines if line.name == name), None)
    return value if value is None or not length else value * thread.designation.unit_si
