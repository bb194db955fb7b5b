"""An invented route: six operations with their settings and times, as the page gets them."""

from __future__ import annotations

from collections.abc import Iterable

from generator.sheet.figure import Figure, Kind, Quantity, Working
from generator.sheet.lines import OperationLine
from generator.si import hp, inch, lbf, minute, rev_per_min, um

PRACTICE = "common practice, no source"

Entry = tuple[str, str, float | str | None, Quantity]
Row = tuple[str, str, str, str, bool, tuple[Entry, ...]]


def _cut(
    tool: str, rpm: float, feed: float | None, passes: int, depth: float, dial: str, *rest: Entry
) -> tuple[Entry, ...]:
    fed: tuple[Entry, ...] = () if feed is None else (("feed", "Feed", feed * inch, "feed"),)
    return (
        ("tool", "Tool", tool, "text"),
        ("step", "Spindle step", rpm * rev_per_min, "spindle_speed"),
        *fed,
        ("passes", "Cuts", passes, "count"),
        ("depth", "Largest cut", depth * inch, "length"),
        ("dial", "Dial", dial, "text"),
        *rest,
    )


def _load(force: float, power: float) -> tuple[Entry, Entry]:
    return ("force", "Force", force * lbf, "force"), ("power", "Power", power * hp, "power")


_FACE = _cut(
    "T1",
    125,
    0.005,
    2,
    0.020,
    "carriage dial 0.040",
    *_load(96, 0.21),
    ("roughness", "Roughness", 2.5 * um, "roughness"),
    ("time", "Time", 4.2 * minute, "duration"),
)
_DRILL: tuple[Entry, ...] = (
    ("tool", "Tool", "center drill 5", "text"),
    ("step", "Spindle step", 520 * rev_per_min, "spindle_speed"),
    ("time", "Time", 5.1 * minute, "duration"),
)
_TURN = _cut(
    "T1",
    125,
    0.005,
    4,
    0.080,
    "0.480, 1 turn and 0.080",
    *_load(389, 0.9),
    ("roughness", "Roughness", 1.6 * um, "roughness"),
    ("time", "Time", 24.3 * minute, "duration"),
)
_RELIEF = _cut(
    "T4", 50, 0.002, 1, 0.0833, "0.165", *_load(228, 0.13), ("time", "Time", 9 * minute, "duration")
)
_CHAMFER = _cut("T5", 125, None, 1, 0.080, "0.160", ("time", "Time", 4 * minute, "duration"))
_THREAD = _cut(
    "V1", 32, 0.125, 12, 0.020, "as in the pass table", *_load(161, 0.09), ("time", "Time", None, "duration")
)

ROUTE: tuple[Row, ...] = (
    ("face", "Face the right end", "take 0.040 in off; to a clean face", "", False, _FACE),
    ("center_drill", "Center drill the right end", "", "", False, _DRILL),
    (
        "turn",
        "Turn to the blank, Ø 2.2476 in, over 2 7/8 in",
        "from Ø 2.75 in; shoulder square",
        "",
        False,
        _TURN,
    ),
    (
        "relief",
        "Relief 3/8 in wide, Ø 2.085 in",
        "corner radius 1/16 in",
        "measure the wall left",
        False,
        _RELIEF,
    ),
    ("chamfer", "Chamfer the right end, 45°", "to just below the root", "", True, _CHAMFER),
    (
        "thread",
        "Cut 2 1/4-8 UN-2A over 2 1/2 in",
        "compound at 29.5°",
        "measure over wires; try the mate",
        False,
        _THREAD,
    ),
)

TIMES = (
    ("time.work", "Setting the work up", 24.0),
    ("time.hand_over", "Handing over", 10.0),
    ("time.total", "Time for the job, at least", 80.6),
)


def figures() -> Iterable[Figure]:
    """All figures of the route."""
    for number, (_, title, _, _, _, entries) in enumerate(ROUTE, 1):
        for key, label, value, quantity in entries:
            kind = Kind.UNKNOWN if value is None else Kind.SHOP if key == "tool" else Kind.COMPUTED
            if (number, key) == (3, "depth"):
                kind = Kind.ASSUMED
            working = None
            if key == "time" and isinstance(value, float):
                working = Working(
                    "{cutting} + {tool}", {"cutting": (value - 180, quantity), "tool": (180, quantity)}
                )
            yield Figure(
                f"operation.{number}.{key}",
                f"{number} {title}: {label.lower()}",
                value,
                quantity,
                kind,
                PRACTICE,
                working,
                note="how long the return takes is not known" if value is None else "",
            )
    for name, label, minutes in TIMES:
        yield Figure(name, label, minutes * minute, "duration", Kind.SHOP, "the shop's own files")


def operations() -> tuple[OperationLine, ...]:
    """The lines of the route."""
    return tuple(
        OperationLine(
            number,
            name,
            title,
            {key: f"operation.{number}.{key}" for key, *_ in entries},
            detail,
            hold,
            proposed,
        )
        for number, (name, title, detail, hold, proposed, entries) in enumerate(ROUTE, 1)
    )
