"""How stiff is what holds the work: chuck, steady rest, center and follow rest, and the work put on them."""

from __future__ import annotations

import math
from typing import Final

from generator.calc.jaw_bed import gripped_stiffness
from generator.job.written import Given
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.head import called, used_head
from generator.sheet.holding.held_work import HeldWork
from generator.sheet.operation_task import Bench
from generator.si import Length

PRACTICE: Final = later("common practice, no source")
CHUCK_STIFFNESS: Final = 1e5  # N m/rad: a light lathe with short jaws; common practice, no source
STEADY_STIFFNESS: Final = 20e6  # N/m: middle of a planning range of 10 to 50 N/µm; common practice, no source
FOLLOW_STIFFNESS: Final = 20e6  # N/m: taken as that of a steady rest; common practice, no source


def held_work(bench: Bench) -> HeldWork:
    """The finished work with what holds it, each as stiff as the records say, or as common practice has it.

    A center whose stiffness nobody has written down is taken as rigid.
    """
    job, lathe, house, desk = bench.job, bench.lathe, bench.house, bench.desk
    holding = job.holding
    steady, center, follow = STEADY_STIFFNESS, math.inf, math.inf
    chuck = math.inf if holding.centers is not None else _chuck(bench)
    if holding.steady is not None:
        steady = desk.chosen(
            "holding.steady_stiffness", say("Stiffness of the steady rest"),
            (lathe.steady.stiffness if lathe.steady else None) or house.steady_stiffness,
            STEADY_STIFFNESS, "stiffness", PRACTICE,
        )
    said = (lathe.tailstock.stiffness if lathe.tailstock else None) or house.center_stiffness
    if holding.center is not None and said is not None:
        center = desk.chosen(
            "holding.center_stiffness", say("Stiffness of the center"), said, said.si, "stiffness", PRACTICE
        )
    if holding.follow_rest:
        follow = desk.chosen(
            "holding.follow_rest_stiffness", say("Stiffness of the follow rest"),
            (lathe.follow_rest.stiffness if lathe.follow_rest else None) or house.follow_rest_stiffness,
            FOLLOW_STIFFNESS, "stiffness", PRACTICE,
        )
    return HeldWork(
        job, lathe, bench.layout, bench.thread, bench.material, chuck, steady, center, follow
    )


def _chuck(bench: Bench) -> float:
    """Stiffness against tilting of what holds the work (N m/rad)."""
    head = used_head(bench.job, bench.lathe)
    said = (head.stiffness if head else None) or bench.house.chuck_stiffness
    whole = bench.desk.chosen(
        "holding.chuck_stiffness",
        say("Stiffness of the {called} against tilting", called=called(bench.job)),
        said,
        CHUCK_STIFFNESS,
        "angular_stiffness",
        say("{practice}; a light lathe with short jaws", practice=PRACTICE),
    )
    jaws = None if said is None else _jaw_length(bench)  # an assumed one is that of short jaws already
    return whole if jaws is None else _gripped(whole, bench.layout.grip, jaws, bench.desk)


def _jaw_length(bench: Bench) -> Length | None:
    """Length of hard jaws as they stand in the chuck (m); None where the record's length is not theirs."""
    chuck, head = bench.job.holding.chuck, used_head(bench.job, bench.lathe)
    length: Given | None = getattr(head, "jaw_length", None)
    if chuck is None or length is None or chuck.reversed or chuck.soft_jaws or chuck.pie_jaws:
        return None
    return length.si


def _gripped(whole: float, grip: Length, jaws: Length, desk: Desk) -> float:
    """What is left of a stiffness that somebody measured with the jaws full, when less of them grips."""
    if not 0 < grip < jaws:
        return whole
    return desk.computed(
        "holding.chuck_stiffness.gripped",
        say("Stiffness with the work gripped less deep than the jaws are long"),
        gripped_stiffness(whole, grip, jaws),
        "angular_stiffness",
        "{stiffness} × ({grip} ÷ {jaws}) × ({grip} ÷ {jaws}) × ({grip} ÷ {jaws})",
        {
            "stiffness": (whole, "angular_stiffness"),
            "grip": (grip, "length"),
            "jaws": (jaws, "length"),
        },
        say("derived: jaws as an even elastic bed"),
        note=say("taken for jaws that are gripped along all their length"),
        rounds="down",
    )
