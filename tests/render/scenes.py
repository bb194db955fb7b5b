"""Invented setups and grooves to draw; sizes are of the trade, jobs are made up."""

from __future__ import annotations

from math import radians, sqrt
from typing import Any

from generator.sheet.model import Piece, SetupScene, ThreadScene
from generator.si import inch, mm


def piece(
    start: float,
    end: float,
    od: float,
    unit: float,
    od_end: float | None = None,
    bore: float = 0.0,
    form: Any = "plain",
    root: float | None = None,
) -> Piece:
    return Piece(
        start * unit,
        end * unit,
        od * unit,
        (od if od_end is None else od_end) * unit,
        bore * unit,
        form,
        None if root is None else root * unit,
    )


def setup(
    pieces: list[Piece],
    unit: float,
    grip: float,
    jaws: int,
    chuck: tuple[float, float],
    *,
    steady: float | None = None,
    steady_width: float = 1.5,
    center: Any = None,
    cut: tuple[float, float] | None = None,
    holes: tuple[tuple[float, float], ...] = (),
    thread: str = "",
    job: str = "SW-101",
) -> SetupScene:
    words = [
        f"{jaws}-jaw chuck",
        *(["steady rest"] if steady else []),
        *([f"{center} center"] if center else []),
    ]
    return SetupScene(
        pieces=tuple(pieces),
        grip=grip * unit,
        jaws=jaws,
        chuck_diameter=chuck[0] * unit,
        chuck_length=chuck[1] * unit,
        steady_at=None if steady is None else steady * unit,
        steady_width=steady_width * unit,
        center=center,
        cut_from=None if cut is None else cut[0] * unit,
        cut_to=None if cut is None else cut[1] * unit,
        cross_holes=tuple((x * unit, diameter * unit) for x, diameter in holes),
        designation=thread,
        system="inch" if unit == inch else "mm",
        job=job,
        caption="Setup seen from above: " + ", ".join(words),
    )


SETUPS: dict[str, SetupScene] = {
    "cross-drilled pin on a center": setup(
        [
            piece(-3, 8.625, 2.75, inch),
            piece(8.625, 9, 2.085, inch, form="relief"),
            piece(9, 11.5, 2.247, inch, form="thread", root=2.105),
        ],
        inch,
        3,
        4,
        (16, 7),
        center="live",
        cut=(11.5, 9),
        holes=((10.75, 0.375),),
        thread="2 1/4-8 UN-2A",
    ),
    "heavy shaft 62 in long in the steady": setup(
        [
            piece(-4, 50.5, 5.5, inch),
            piece(50.5, 50.75, 4.5, inch),
            piece(50.75, 51.5, 4.185, inch, form="relief"),
            piece(51.5, 58, 4.497, inch, form="thread", root=4.22),
        ],
        inch,
        4,
        4,
        (16, 7),
        steady=47,
        cut=(58, 51.5),
        thread="4 1/2-4 UN-2A",
    ),
    "shaft with the steady at 50": setup(
        [
            piece(-4, 50.75, 5.5, inch),
            piece(50.75, 51.5, 4.185, inch, form="relief"),
            piece(51.5, 58, 4.497, inch, form="thread", root=4.22),
        ],
        inch,
        4,
        4,
        (16, 7),
        steady=50,
        cut=(58, 51.5),
        thread="4 1/2-4 UN-2A",
    ),
    "stepped hollow work": setup(
        [
            piece(-2, 12, 2.25, inch, bore=1.125),
            piece(12, 15.0625, 2, inch, bore=1.125),
            piece(15.0625, 15.25, 1.82, inch, bore=1.125, form="relief"),
            piece(15.25, 17, 1.998, inch, bore=1.125, form="thread", root=1.85),
        ],
        inch,
        2,
        3,
        (10, 6.5),
        steady=11,
        cut=(17, 15.25),
        thread="2-8 UN-2A",
    ),
    "two bores and a center": setup(
        [
            piece(-2, 6, 4, inch, bore=2.5),
            piece(6, 9, 3, inch, bore=1.5),
            piece(9, 11, 2.995, inch, bore=1.5, form="thread", root=2.8),
        ],
        inch,
        2,
        3,
        (10, 6.5),
        center="dead",
        cut=(11, 9),
        thread="3-8 UN-2A",
    ),
    "slender metric stud": setup(
        [
            piece(-40, 123, 10, mm),
            piece(123, 130, 7.9, mm, form="relief"),
            piece(130, 160, 9.97, mm, form="thread", root=8.1),
        ],
        mm,
        40,
        3,
        (250, 140),
        center="live",
        cut=(160, 130),
        thread="M10-6g",
    ),
    "tiny M6 stud": setup(
        [
            piece(-12, 13, 6, mm),
            piece(13, 15, 4.5, mm, form="relief"),
            piece(15, 27, 5.97, mm, form="thread", root=4.8),
        ],
        mm,
        12,
        3,
        (160, 110),
        cut=(27, 15),
        thread="M6-6g",
    ),
    "bare chuck work": setup([piece(-1.5, 4.5, 3, inch)], inch, 1.5, 3, (6, 4.5)),
    "short and stubby": setup([piece(-10, 15, 120, mm)], mm, 10, 4, (315, 150)),
    "left-hand thread, steady close to it": setup(
        [
            piece(-2, 27.57, 1.25, inch),
            piece(27.57, 28, 1.065, inch, form="relief"),
            piece(28, 32, 1.25, inch, form="thread", root=1.08),
        ],
        inch,
        2,
        3,
        (6, 4.5),
        steady=27,
        steady_width=0.75,
        cut=(28, 32),
        thread="1 1/4-7 UNC-2A-LH",
    ),
    "left-hand thread without relief": setup(
        [piece(-2, 5, 1.25, inch), piece(5, 7, 1.25, inch, form="thread", root=1.08)],
        inch,
        2,
        3,
        (6, 4.5),
        cut=(5, 7),
        thread="1 1/4-7 UNC-2A-LH",
    ),
    "very long and thin": setup(
        [piece(-30, 2950, 12, mm), piece(2950, 2970, 11.97, mm, form="thread", root=10)],
        mm,
        30,
        3,
        (160, 110),
        center="dead",
        cut=(2970, 2950),
        thread="M12-6g",
    ),
    "taper, thread away from the end": setup(
        [
            piece(-2, 4, 2, inch),
            piece(4, 7, 2, inch, od_end=1.5),
            piece(7, 7.25, 1.2, inch, form="relief"),
            piece(7.25, 9, 1.498, inch, form="thread", root=1.38),
            piece(9, 10, 1.25, inch),
        ],
        inch,
        2,
        3,
        (10, 6.5),
        center="live",
        cut=(9, 7.25),
        thread="1 1/2-12 UN-2A",
    ),
    "shoulder beyond the start of the cut": setup(
        [
            piece(-2, 4, 2, inch),
            piece(4, 4.25, 1.7, inch, form="relief"),
            piece(4.25, 6, 1.9, inch, form="thread", root=1.75),
            piece(6, 7.5, 2.25, inch),
        ],
        inch,
        2,
        3,
        (10, 6.5),
        center="live",
        cut=(6, 4.25),
        thread="1.900-12 UN-2A",
    ),
    "thread on the whole stick-out": setup(
        [piece(-30, 0, 20, mm), piece(0, 900, 19.97, mm, form="thread", root=17)],
        mm,
        30,
        3,
        (160, 110),
        center="live",
        cut=(900, 0),
        thread="M20-6g",
    ),
    "hole in the plain length, hole in the thread": setup(
        [
            piece(-2, 6, 1.5, inch),
            piece(6, 6.25, 1.2, inch, form="relief"),
            piece(6.25, 8, 1.498, inch, form="thread", root=1.38),
        ],
        inch,
        2,
        3,
        (10, 6.5),
        cut=(8, 6.25),
        holes=((3, 0.5), (7.5, 0.1875)),
        thread="1 1/2-12 UN-2A",
    ),
    "deep grip, two jaw lengths": setup([piece(-8, 6, 2, inch), piece(6, 9, 1, inch)], inch, 8, 3, (10, 6.5)),
    "large ring": setup([piece(-25, 60, 700, mm, bore=500)], mm, 25, 4, (800, 200)),
}


def groove(
    pitch: float,
    depth: float,
    *,
    flat: float = 0.0,
    radius: float = 0.0,
    passes: int = 14,
    infeed: float = 29.5,
    half: float = 30.0,
    thread: str = "2-8 UN-2A",
    system: Any = "inch",
    towards: Any = "headstock",
) -> ThreadScene:
    """Lengths in mm, angles in degrees; passes of equal chip area."""
    depths = tuple(depth * mm * sqrt((number + 1) / passes) for number in range(passes))
    return ThreadScene(
        pitch * mm,
        radians(half),
        50 * mm,
        depth * mm,
        flat * mm,
        radius * mm,
        depths,
        radians(infeed),
        towards,
        thread,
        system,
        "SW-113",
    )


GROOVES: dict[str, ThreadScene] = {
    "2-8 UN, flat P/8": groove(3.175, 1.911, flat=3.175 / 8),
    "4 1/2-4 UN, rounded": groove(6.35, 3.78, radius=0.6875, passes=24, thread="4 1/2-4 UN-2A"),
    "M10, rounded": groove(1.5, 0.92, radius=0.2165, passes=9, thread="M10-6g", system="mm"),
    "left hand": groove(3.6286, 2.05, flat=0.6, passes=16, thread="1 1/4-7 UNC-2A-LH", towards="tailstock"),
    "M16, straight in": groove(2, 1.2269, flat=0.25, passes=10, infeed=0, thread="M16x2-6g", system="mm"),
    "M6": groove(1, 0.6134, flat=0.125, passes=6, thread="M6-6g", system="mm"),
    "M3": groove(0.5, 0.3067, flat=0.0625, passes=5, thread="M3-6g", system="mm"),
    "55 degrees": groove(
        2.309, 1.479, radius=0.317, half=27.5, infeed=27, passes=12, thread="11 tpi, 55 degrees"
    ),
    "29 degrees": groove(6.35, 3.43, flat=2.3, half=14.5, infeed=14, passes=40, thread="4 tpi, 29 degrees"),
    "one pass": groove(1, 0.6134, flat=0.125, passes=1, thread="M6-6g", system="mm"),
    "coarse": groove(25.4, 15, flat=3.2, passes=90, thread="6-1 UNS-2A"),
}
