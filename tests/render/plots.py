"""Invented plots of many kinds; SI values from shop units."""

from __future__ import annotations

from math import inf, nan, sin
from typing import Any

from generator.sheet.drawn import Barred, Curve, Mark, PlotScene
from generator.si import inch, lbf, mm, rev_per_min, thou, um


def curve(
    label: str, points: list[tuple[float, float]], kind: Any = "main", x: float = 1, y: float = 1
) -> Curve:
    return Curve(label, tuple((a * x, b * y) for a, b in points), kind)


def plot(curves: list[Curve], system: Any = "inch", **more: Any) -> PlotScene:
    main = curves[0].points if curves else ()
    picked = main[:: max(1, len(main) // 5)][:6]
    given: dict[str, Any] = {
        "id": "give",
        "title": "Give along the thread",
        "x_label": "From the chuck face",
        "x_quantity": "length",
        "y_label": "Error on diameter",
        "y_quantity": "fine_length",
        "curves": tuple(curves),
        "heads": ("Place", "From the chuck face", "Error on diameter"),
        "columns": ("length", "fine_length"),
        "rows": tuple((f"place {n}", point) for n, point in enumerate(picked, 1)),
        "caption": "The last cut, its force at every place of the tool.",
        "says": "The thread comes out largest at its free end.",
        "system": system,
        "job": "SW-101",
    }
    return PlotScene(**{**given, **more})


def along(first: float, last: float, count: int = 41) -> list[float]:
    return [first + (last - first) * n / (count - 1) for n in range(count)]


BOW = [(x, 0.35 + 0.004 * x**2) for x in along(9, 11.5)]
LIMIT = curve("a quarter of the tolerance", [(9, 1.1), (11.5, 1.1)], "limit", inch, thou)

PLOTS: dict[str, PlotScene] = {
    "thread on a center, inch": plot(
        [
            curve("last cut", BOW, "main", inch, thou),
            curve("heaviest cut", [(x, 1.6 * y) for x, y in BOW], "second", inch, thou),
            LIMIT,
        ],
        marks=(Mark("thread begins", 11.5 * inch), Mark("relief", 9 * inch)),
    ),
    "place for the steady, mm": plot(
        [
            curve(
                "give at the tool", [(x, 40 - 0.06 * x + 1e-4 * x**2) for x in along(60, 900)], "main", mm, um
            )
        ],
        "mm",
        title="Where the steady rest stands",
        x_label="Middle of the steady rest from the chuck face",
        y_label="Largest error on diameter along the thread, steady rest there",
        marks=(Mark("chosen", 640 * mm), Mark("chuck face", 0.0), Mark("end of the cut", 900 * mm)),
        barred=(
            Barred(0.0, 60 * mm, "carriage meets the chuck"),
            Barred(700 * mm, 850 * mm, "finished surface, not to be run on"),
            Barred(400 * mm, 405 * mm, "cross hole"),
        ),
    ),
    "one point": plot([curve("", [(5, 0.8)], "main", inch, thou)]),
    "one point at zero": plot([curve("", [(0, 0)], "main", inch, thou)]),
    "flat zero": plot([curve("", [(x, 0) for x in along(0, 12)], "main", inch, thou)]),
    "negative": plot(
        [
            curve("bows", [(x, 12 * sin(x / 60)) for x in along(0, 400)], "main", mm, um),
            curve("limit above", [(0, 9), (400, 9)], "limit", mm, um),
            curve("limit below", [(0, -9), (400, -9)], "limit", mm, um),
        ],
        "mm",
    ),
    "all negative": plot([curve("", [(x, -3 - x) for x in along(1, 4)], "main", inch, thou)]),
    "huge range": plot(
        [
            curve("force", [(x, 10**x) for x in along(-3, 8)], "main", mm, lbf),
            curve("limit", [(-3, 1e3), (8, 1e3)], "limit", mm, lbf),
        ],
        y_quantity="force",
        y_label="Push of the center",
        columns=("length", "force"),
    ),
    "tiny values": plot([curve("", [(x, 1e-5 * x) for x in along(0, 12)], "main", inch, thou)]),
    "large fine lengths": plot([curve("", [(x, 40 * x) for x in along(0, 12)], "main", inch, thou)]),
    "long labels": plot(
        [
            curve("with the steady rest where it stands now and the center snug", BOW, "main", inch, thou),
            curve(
                "without the steady rest, on the center alone",
                [(x, y + 0.02) for x, y in BOW],
                "second",
                inch,
                thou,
            ),
            curve(
                "in the chuck alone, as it is faced and drilled",
                [(x, 2 * y) for x, y in BOW],
                "third",
                inch,
                thou,
            ),
            curve(
                "a quarter of the pitch diameter tolerance of this class",
                [(9, 1.1), (11.5, 1.1)],
                "limit",
                inch,
                thou,
            ),
            curve("half of it", [(9, 1.12), (11.5, 1.12)], "limit", inch, thou),
        ],
        x_label="Tool's point from the chuck face, in the direction of the cut, towards the headstock",
        y_label="Error on diameter that the cut leaves when nothing is taken off in spring passes, at most",
        marks=(
            Mark("where the thread runs out into its relief", 9 * inch),
            Mark("as near to the cut as the carriage lets the steady rest stand", 11.4 * inch),
        ),
    ),
    "eight marks close together": plot(
        [curve("", BOW, "main", inch, thou)],
        marks=tuple(Mark(f"mark number {n}", (10 + n * 0.03) * inch) for n in range(8)),
    ),
    "eight marks close together at the end": plot(
        [curve("", BOW, "main", inch, thou)],
        marks=tuple(Mark(f"mark {n} of many", (11.5 - n * 0.05) * inch) for n in range(8)),
    ),
    "marks that face each other": plot(
        [curve("", BOW, "main", inch, thou)],
        marks=tuple(
            Mark(f"name of mark {n}", x * inch)
            for n, x in enumerate((9.0, 9.5, 10.0, 10.3, 10.6, 11.0, 11.5))
        ),
    ),
    "marks on one place": plot(
        [curve("", BOW, "main", inch, thou)],
        marks=(Mark("worst place", 10 * inch), Mark("steady rest", 10 * inch)),
    ),
    "barred all over": plot(
        [curve("", BOW, "main", inch, thou)],
        barred=(Barred(9 * inch, 11.5 * inch, "no turned band anywhere"),),
    ),
    "barred twice over": plot(
        [curve("", BOW, "main", inch, thou)],
        barred=(
            Barred(9 * inch, 11 * inch, "carriage meets the chuck"),
            Barred(10 * inch, 11.5 * inch, "carriage meets the tailstock"),
        ),
    ),
    "many narrow bars": plot(
        [curve("", BOW, "main", inch, thou)],
        barred=tuple(Barred((9 + n / 5) * inch, (9.02 + n / 5) * inch, f"shoulder {n}") for n in range(12)),
    ),
    "broken where it is not known": plot(
        [
            curve(
                "",
                [(x, nan if 3 < x < 5 else (inf if x > 9 else x)) for x in along(0, 10)],
                "main",
                inch,
                thou,
            )
        ]
    ),
    "nothing to draw": plot([curve("unknown", [(1, nan)], "main", inch, thou)], rows=()),
    "speeds": plot(
        [
            curve("first", [(x, 900 - 12 * x) for x in along(2, 40)], "main", inch, rev_per_min),
            curve("highest speed of the lathe", [(2, 600), (40, 600)], "limit", inch, rev_per_min),
        ],
        y_quantity="spindle_speed",
        y_label="Critical speed",
        columns=("length", "spindle_speed"),
        rows=(
            ("now", (12 * inch, 756 * rev_per_min)),
            ("limit", (None, 600 * rev_per_min)),
            ("why", ("far", None)),
        ),
    ),
    "a curve that runs off the plot": plot(
        [
            curve("error", [(x, 400 / x**2) for x in along(1, 58, 58)], "main", inch, thou),
            curve("a quarter of the tolerance", [(1, 2.2), (58, 2.2)], "limit", inch, thou),
        ],
        marks=(Mark("chosen", 46 * inch),),
    ),
    "a curve that comes back": plot(
        [
            curve("error", [(0, 1), (1, 1), (2, 90), (3, 95), (4, 2), (5, 3), (6, 200)], "main", inch, thou),
            curve("limit", [(0, 2), (6, 2)], "limit", inch, thou),
        ]
    ),
    "words in a column": plot(
        [curve("", BOW, "main", inch, thou)],
        heads=("Place", "From the chuck face", "Against it"),
        columns=("length", "text"),
        rows=(("jaws", (9 * inch, "carriage")), ("", (11.5 * inch, None)), ("worst", (None, ""))),
    ),
    "curves that end early": plot(
        [
            curve("chuck alone", [(x, 0.1 * x**2) for x in along(0, 4)], "main", inch, thou),
            curve("on a center", [(x, 0.1 * x) for x in along(0, 12)], "second", inch, thou),
        ]
    ),
}
