"""The options of the verb `log`, and where the value of each stands in an entry.

    OPTIONS        option -> key of the entry, with the block it stands in
    log_options    gives them to the command line
"""

from __future__ import annotations

from argparse import ArgumentParser
from typing import Final

from generator.language.say import later, say

OPTIONS: Final[dict[str, str]] = {
    "at": "at", "by": "by", "operation": "operation", "pass": "pass", "start": "start",
    "turns": "turns", "dial": "dial",
    "cross_turns": "cross_turns", "cross": "cross",
    "over_wires": "measured.over_wires", "between_balls": "measured.between_balls",
    "pitch_diameter": "measured.pitch_diameter", "major": "measured.major", "minor": "measured.minor",
    "diameter": "measured.diameter", "bore": "measured.bore", "depth": "measured.depth",
    "length": "measured.length", "width": "measured.width", "runout": "measured.runout",
    "wire": "measured.wire", "with": "measured.with", "where": "measured.where",
    "tried": "fit.with", "fit_turns": "fit.turns", "feels": "fit.feels", "tight_at": "fit.where",
    "feature": "inspected.feature", "found": "inspected.found", "left": "inspected.left",
    "goes": "inspected.goes", "accepted": "inspected.accepted",
    "concession": "concession.what", "concession_for": "concession.feature", "concession_by": "concession.by",
    "concession_on": "concession.on", "concession_reference": "concession.reference",
    "note": "note", "asked": "agreed.asked", "agreed": "agreed.agreed", "agreed_on": "agreed.on",
    "agreed_with": "agreed.with", "time": "time", "do_differently": "do_differently",
    "watch_out": "watch_out", "lesson_for": "lesson_for",
}
_HELP: Final[dict[str, str]] = {
    "at": later("when, as 2026-03-04 or '2026-03-04 14:20' (default: now)"),
    "by": later("who did it, as a role, such as 'machinist 1'"),
    "operation": later("the operation: its name, or its number in the route"),
    "pass": later("the pass of the pass table"),
    "start": later("which start of a thread of several, from 1"),
    "turns": later("whole turns of the dial that feeds in"),
    "dial": later("what that dial then reads"),
    "cross_turns": later("whole turns of the cross-slide dial"),
    "cross": later("what the cross-slide dial then reads"),
    "over_wires": later("over wires, as measured"),
    "between_balls": later("between balls, as measured"),
    "pitch_diameter": later("pitch diameter, as measured"),
    "major": later("major, as measured"),
    "minor": later("minor, as measured"),
    "diameter": later("diameter, as measured"),
    "bore": later("bore, as measured"),
    "depth": later("depth, as measured"),
    "length": later("length, as measured"),
    "width": later("width, as measured"),
    "runout": later("runout, as measured"),
    "with": later("the instrument, such as 'micrometer 2-3 in'"),
    "where": later("where on the work it was measured, such as 'at the shoulder'"),
    "wire": later("the wire, where it is not the one of the sheet"),
    "tried": later("what was tried on: the mate, a gauge"),
    "fit_turns": later("turns that it went on, such as 3 1/2"),
    "feels": later("does not start, binds, tight, free or rocks"),
    "tight_at": later("where it is tight or stopped"),
    "feature": later("a line of the inspection record, by its short name there"),
    "found": later("its size as it came in"),
    "left": later("its size as it leaves"),
    "goes": later("yes or no: whether the mate or gauge goes on as it should"),
    "accepted": later("how it was accepted: mate, gauge, wires, balls or size"),
    "concession": later("what the customer lets pass outside its limits"),
    "concession_for": later("the line of the inspection record that it is about"),
    "concession_by": later("who of the customer's people agreed, a role or a code"),
    "concession_on": later("the day it was agreed, such as 2026-03-02"),
    "concession_reference": later("a letter or an order that says so"),
    "note": later("anything else, in your own words"),
    "asked": later("what was asked"),
    "agreed": later("what was agreed"),
    "agreed_on": later("the day it was agreed, such as 2026-03-02"),
    "agreed_with": later("who agreed, a role or a code"),
    "time": later("time that it took, such as '25 min' or '1 h 20 min'"),
    "do_differently": later("what to do differently next time"),
    "watch_out": later("what to watch out for next time"),
    "lesson_for": later("which other jobs these two are for, with the same: part, thread, lathe, material"),
}
_GROUPS: Final = (
    (later("what the entry is about"), ("at", "by", "operation", "pass", "start")),
    (later("the dials"), ("turns", "dial", "cross_turns", "cross")),
    (
        later("what was measured"),
        tuple(key for key, field in OPTIONS.items() if field.startswith("measured.")),
    ),
    (later("how the mate or a gauge went on"), ("tried", "fit_turns", "feels", "tight_at")),
    (
        later("the inspection record; --with, --where and --fit-turns go with it"),
        ("feature", "found", "left", "goes", "accepted"),
    ),
    (later("what the customer lets pass"), tuple(key for key in OPTIONS if key.startswith("concession"))),
    (
        later("notes, what was agreed, time, lessons"),
        (
            "note", "asked", "agreed", "agreed_on", "agreed_with", "time", "do_differently", "watch_out",
            "lesson_for",
        ),
    ),
)


def log_options(command: ArgumentParser) -> None:
    """The options of the verb."""
    command.add_argument("job", metavar="JOB", help=say("a job file, its folder or its number"))
    for title, names in _GROUPS:
        group = command.add_argument_group(title)
        for name in names:
            metavar = name.rpartition("_")[2].upper()
            option = f"--{name.replace('_', '-')}"
            group.add_argument(option, metavar=metavar, dest=f"say_{name}", help=_HELP[name])
    stops = command.add_argument_group(say("stopping, taking up, finishing"))
    for name, said in (
        (
            "stop",
            say(
                "the work is left: what is needed to take the thread up, as keys and values; what is left "
                "out is asked for on a terminal, such as cross=0.212 depth_left=0.0122"
            ),
        ),
        (
            "taken-up",
            say("the work is back on the lathe: how it stands, as keys and values, such as dial=0.084"),
        ),
    ):
        stops.add_argument(f"--{name}", nargs="*", metavar="KEY=VALUE", help=said)
    stops.add_argument(
        "--finished", action="store_true", help=say("the operation is done; without one, the job")
    )
    command.add_argument(
        "--anyway", action="store_true",
        help=say("write it although the job has no such operation, or its dial or thread cannot read that"),
    )
    command.add_argument(
        "--from", dest="piece", metavar="FILE",
        help=say("take the entry from a piece of YAML instead (- for standard input)"),
    )
