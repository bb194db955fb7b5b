"""A large archive of the demo shop: N varied jobs of forty years, the same for the same N.

    python tests/benchmarks/many_jobs.py N FOLDER

Threads of several families outside and inside, plain turning, the three lathes, chuck with center or steady
rest, collet, logs with times, stops and lessons. All invented.
"""

from __future__ import annotations

import random
import shutil
import sys
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import Final, NamedTuple

ROOT: Final = Path(__file__).resolve().parents[2]
YEARS: Final = range(1987, 2027)
LAST_OPEN: Final = 40  # jobs that are not done yet
INCH: Final = {
    "1/2-13 UNC": "1/2", "5/8-11 UNC": "5/8", "3/4-10 UNC": "3/4", "7/8-9 UNC": "7/8", "1-8 UNC": "1",
    "1 1/4-7 UNC": "1 1/4", "1 1/2-12 UNF": "1 1/2", "1 1/2-8 UN": "1 1/2", "2-8 UN": "2",
    "2 1/4-8 UN": "2 1/4", "3/4-16 UNF": "3/4", "1-12 UNF": "1",
}
METRIC: Final = {
    "M12x1.75": "12", "M16x2": "16", "M20x2.5": "20", "M24x3": "24", "M30x3.5": "30", "M36x4": "36",
    "M42x4.5": "42", "M24x2": "24", "M30x1.5": "30", "M48x3": "48",
}
MATERIALS: Final = ("1045 steel", "1018 steel", "EN8 steel", "4140 steel 30 HRC", "316 stainless")
PARTS: Final = (
    "Valve spindle", "Gate stud", "Pump shaft", "Hinge pin", "Tie rod", "Coupling bolt", "Press screw",
    "Roller end", "Anchor rod", "Steering pin", "Winch shaft", "Gland stud",
)
WORK: Final = ("thread re-cut", "new, like the old one", "made to its mate", "new thread", "worn end")
SAID: Final = (
    "Chips curled well.", "The nut galled on the old thread.", "Mate ran on by hand.", "Ran true to a hair.",
    "Steady fingers squeaked, oiled them.", "Customer came to look.", "Band file dulled, took a new one.",
)
LEARNED: Final = (
    "Break the edge of the relief before the mate is tried.", "The bar springs: take the last cut twice.",
    "Set the fingers with the work warm.", "Ask for the nut first; three of four were worn.",
    "Half nuts jump on this lead when the leadscrew is dry.",
)


class Kind(NamedTuple):
    """Unit system of a job: its lathes, threads, class outside, sizes added to the thread's."""

    units: str
    lathes: tuple[str, ...]
    threads: dict[str, str]
    outside: str
    collar: str
    length: str
    relief: str


KINDS: Final = (
    Kind("inch", ("long-bed", "thirteen-inch"), INCH, "2A", "3/8", "8", "5/16"),
    Kind("mm", ("metric",), METRIC, "6g", "8", "200", "8"),
)


def many_jobs(count: int, folder: Path) -> None:
    """Make a jobs folder with `count` jobs and the demo shop."""
    shutil.copytree(ROOT / "jobs" / "_shop", folder / "_shop")
    choose = random.Random(count)
    for number in range(count):
        year = YEARS[number * len(YEARS) // count]
        name = f"J-{number:05}"
        part, work = choose.choice(PARTS), choose.choice(WORK)
        job = folder / str(year) / f"{name}-{part.lower().replace(' ', '-')}"
        job.mkdir(parents=True)
        is_open = number >= count - LAST_OPEN
        lines = [f"job: {name}", f"title: {part}, {work}", *_job(choose, year, is_open)]
        (job / "job.yml").write_text("\n".join(lines) + "\n", encoding="utf-8")
        if choose.random() < 0.7:
            log = "\n".join(_log(choose, year, is_open))
            (job / "log.yml").write_text(f"{log}\n", encoding="utf-8")


def _job(choose: random.Random, year: int, is_open: bool) -> Iterator[str]:
    kind = choose.choice(KINDS)
    thread, size = choose.choice(list(kind.threads.items()))
    status = choose.choice(("quoted", "planned", "in work")) if is_open else "done"
    yield f"customer: {choose.choice('ABDEGKMNPS')}{choose.choice('MNRST')}-{choose.randrange(40):02}"
    yield f"received: {year}-{choose.randrange(1, 3):02}-{choose.randrange(1, 28):02}"
    yield f"status: {status}"
    yield f"units: {kind.units}"
    yield f"lathe: {choose.choice(kind.lathes)}"
    yield f"material: {choose.choice(MATERIALS)}"
    collar, end = _sum(size, kind.collar), choose.choice((2, 3, 4))
    long = Fraction(end) if kind.units == "inch" else Fraction(end * 25)
    yield "work:"
    yield f"  - {{length: {kind.length}, od: {collar}, surface: turned}}"
    yield f"  - {{length: {long}, od: {size}}}"
    yield "holding:"
    grip = "2" if kind.units == "inch" else "50"
    if choose.random() < 0.2:
        yield f"  collet: {{grip: {grip}}}"
        yield "  center: live"
    else:
        yield f"  chuck: {{jaws: {choose.choice((3, 4))}, grip: {grip}}}"
        yield "  center: live" if choose.random() < 0.7 else "  steady: {at: auto}"
    if choose.random() < 0.5:
        bench = choose.choice(("yes", "no"))
        yield f"mate: {{part: {choose.choice(('nut', 'clamp ring', 'coupling'))}, on_bench: {bench}}}"
    duty = choose.choice(("Holds a gate.", "Turns a pump.", "Carries a beam."))
    yield f"duty: {{said: {duty}, by: customer}}"
    yield "operations:"
    yield f"  - turn: {{diameter: {size}, length: {long}, from_diameter: {collar}}}"
    yield f"  - relief: {{width: {kind.relief}}}"
    if choose.random() < 0.6:
        yield "  - chamfer: {end: right, angle: 45}"
    left = "-LH" if choose.random() < 0.08 else ""
    length = long - (1 if kind.units == "inch" else 25) * Fraction(1, 2)
    yield f"  - thread: {{designation: {thread}-{kind.outside}{left}, length: {_text(length)}, fit: gauge}}"


def _log(choose: random.Random, year: int, is_open: bool) -> Iterator[str]:
    day = f"{year}-{choose.randrange(3, 12):02}-{choose.randrange(1, 28):02}"
    by = f"by: machinist {choose.choice((1, 2))}"
    for clock, name, least, most in (("08:10", "turn", 8, 50), ("09:30", "relief", 3, 12)):
        yield _done(f"{day} {clock}, {by}", name, choose.randrange(least, most))
    if is_open:
        return
    yield _done(f"{day} 10:20, {by}", "thread", choose.randrange(20, 90))
    said = [f"note: '{choose.choice(SAID)}'"]
    if choose.random() < 0.15:
        said.append(f"{choose.choice(('watch_out', 'do_differently'))}: '{choose.choice(LEARNED)}'")
    yield f"- {{at: {day} 11:00, {by}, finished: yes, {', '.join(said)}}}"


def _done(when: str, operation: str, minutes: int) -> str:
    return f"- {{at: {when}, operation: {operation}, finished: yes, time: {minutes} min}}"


def _sum(size: str, more: str) -> str:
    return _text(sum((Fraction(part) for part in (*size.split(), more)), Fraction(0)))


def _text(value: Fraction) -> str:
    """As a job file has it: 2 3/8.

    >>> _text(Fraction(19, 8)), _text(Fraction(3, 4)), _text(Fraction(12))
    ('2 3/8', '3/4', '12')
    """
    whole, rest = divmod(value, 1)
    return " ".join(str(part) for part in (whole, rest) if part) or "0"


if __name__ == "__main__":
    many_jobs(int(sys.argv[1]), Path(sys.argv[2]))
