"""The questions about the shop's lathe, as one reads them off it: the plate, a tape measure, the dials.

    lathe_questions     the questions in their order
    ASSUMED             what stands in, marked as assumed, for what no sheet can do without
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from generator.intake.question import Question
from generator.language.say import later, say
from generator.language.spoken import OFFERED

SHOP, SIZE, SPINDLE, SCREW, DIALS, RESTS = (
    later("The shop"),
    later("What it takes"),
    later("Spindle and chucks"),
    later("Leadscrew and gears"),
    later("Dials"),
    later("Steady rest and motor"),
)
# By unit; of no lathe: the sheet says stop until they are read off. Common practice, no source.
ASSUMED: Final[dict[str, dict[str, str]]] = {
    "inch": {
        "swing": "12", "between_centers": "36", "speeds": "45, 70, 115, 200, 400, 800",
        "three_jaw": "1/8 to 6", "division": "0.001", "turn": "0.100",
    },
    "mm": {
        "swing": "300", "between_centers": "1000", "speeds": "45, 70, 115, 200, 400, 800",
        "three_jaw": "3 to 150", "division": "0.02", "turn": "4",
    },
}
_STOPS: Final = later("Until it is known every sheet says: not ready to run.")


def lathe_questions(answers: Mapping[str, str]) -> Iterator[Question]:
    """The questions in their order; those that depend on an earlier answer come when it is there."""
    yield Question(
        "language", SHOP, say("Language of the sheets, the site and these questions"), choices=OFFERED,
        default="en", needed=True,
    )
    yield Question(
        "shop", SHOP, say("Name of the shop, for the sheets"), default=say("Our shop"), needed=True
    )
    yield Question(
        "units", SHOP, say("Is the lathe an inch or a metric one, by its dials and leadscrew"), "units",
        choices=("inch", "mm"), default="inch", needed=True,
    )
    yield Question(
        "lathe", SHOP, say("What do you call the lathe"), "name", default=say("Lathe 1"), needed=True
    )
    metric = answers.get("units") == "mm"
    yield from _size(metric)
    yield from _spindle(metric)
    yield from _screw(answers, metric)
    yield from _dials(answers, metric)
    yield from _rests(metric)


def _from_to(low: str, high: str) -> str:
    return say("{low} to {high}", low=low, high=high)


def _size(metric: bool) -> Iterator[Question]:
    yield Question(
        "swing", SIZE, say("Largest diameter that turns clear of the bed"), "swing.over_bed",
        "400" if metric else "13", costs=say("The sheet cannot say whether the work turns clear."),
    )
    yield Question(
        "swing_cross",
        SIZE,
        say("Largest diameter that turns clear of the cross slide"),
        "swing.over_cross_slide",
        "230" if metric else "8",
        costs=say("The sheet cannot say whether the work clears the cross slide."),
    )
    yield Question(
        "between_centers", SIZE, say("Longest work between centers"), "between_centers",
        "1000" if metric else "40", costs=say("The sheet cannot say whether the work fits along the bed."),
    )


def _spindle(metric: bool) -> Iterator[Question]:
    yield Question(
        "bore", SPINDLE, say("Bore through the spindle"), "spindle.bore", "38" if metric else "1 3/8",
        costs=say("Bars then cannot be planned through the spindle."),
    )
    yield Question(
        "nose", SPINDLE, say("How is the chuck held on the spindle"), "spindle.nose",
        choices=(later("camlock"), later("screwed"), later("bolted"), later("taper key")),
        costs=say("A screwed chuck can come off in reverse, and the sheet cannot warn of it."),
    )
    yield Question(
        "speeds", SPINDLE, say("Speeds on the plate, from low to high"), "spindle.speeds", "45, 70, 115, 200",
        kind="list", costs=_STOPS,
    )
    yield Question(
        "three_jaw", SPINDLE, say("Three-jaw chuck: smallest to largest diameter it grips"), "chucks.0.grips",
        _from_to("3", "160") if metric else _from_to("1/8", "6"), kind="range",
        costs=say("Without any chuck every sheet says: not ready to run."),
    )
    yield Question(
        "four_jaw", SPINDLE, say("Four-jaw chuck: smallest to largest diameter it grips"), "chucks.1.grips",
        _from_to("10", "200") if metric else _from_to("1/2", "8"), kind="range",
        costs=say("Jobs then cannot name it."),
    )
    yield Question(
        "top_speed", SPINDLE, say("Highest speed marked on the chuck"), "chucks.0.top_speed", "2000 rpm",
        costs=say("The sheet asks you to find it before the lathe is run."),
    )


def _screw(answers: Mapping[str, str], metric: bool) -> Iterator[Question]:
    if metric:
        yield Question(
            "leadscrew", SCREW, say("Pitch of the leadscrew"), "leadscrew.pitch", "6",
            costs=say("Nothing can be said of gears and half nuts."),
        )
    else:
        yield Question(
            "leadscrew", SCREW, say("Threads in one inch of the leadscrew"), "leadscrew.tpi", "8",
            costs=say("Nothing can be said of gears and half nuts."),
        )
    yield Question(
        "thread_dial", SCREW, say("Thread dial: teeth of its gear, or none"), "thread_dial.teeth", "16",
        costs=say("The sheet cannot name the lines at which the half nuts may be closed."),
        aliases={say("none").casefold(): "none"},
    )
    if answers.get("thread_dial") not in (None, "", "none"):
        yield Question("dial_lines", SCREW, say("Lines on its face"), "thread_dial.lines", "8", needed=True)
        yield Question(
            "dial_numbered", SCREW, say("Lines from one number to the next"), "thread_dial.numbered_every",
            "2", default="1", needed=True,
        )
    yield Question(
        "gearbox", SCREW,
        say("Pitches on the plate of the gearbox") if metric
        else say("Threads in one inch on the plate of the gearbox"),
        "gearbox.pitches" if metric else "gearbox.tpi",
        "1, 1.25, 1.5, 1.75, 2" if metric else "4, 4 1/2, 5, 6, 7, 8, 10, 11 1/2, 12, 13",
        kind="list", costs=say("The sheet cannot say how the levers are set."),
    )
    yield Question(
        "change_gears",
        SCREW,
        say("Teeth of the change gears, each that you have"),
        "change_gears.gears",
        "20, 24, 24, 30, 40, 127",
        kind="list",
        costs=say("Threads that are not on the plate cannot be set up."),
    )


_DIALS: Final = {  # one division, what it is, one turn
    "cross": (
        later("Dial of the cross slide: one division as marked"),
        later(
            "Is a division of the cross slide what the slide moves (radius), or what comes off the diameter"
        ),
        later("Dial of the cross slide: one whole turn as marked"),
    ),
    "compound": (
        later("Dial of the compound: one division as marked"),
        later("Is a division of the compound what the slide moves (radius), or what comes off the diameter"),
        later("Dial of the compound: one whole turn as marked"),
    ),
}


def _dials(answers: Mapping[str, str], metric: bool) -> Iterator[Question]:
    for slide, (division, reads, turn) in _DIALS.items():
        yield Question(
            f"{slide}_division", DIALS, str(division), f"{slide}_dial.division",
            "0.02" if metric else "0.001", costs=_STOPS,
        )
        if answers.get(f"{slide}_division"):
            yield Question(
                f"{slide}_reads", DIALS, str(reads), f"{slide}_dial.reads", say("try it with an indicator"),
                choices=(later("radius"), later("diameter")), needed=True,
            )
            yield Question(
                f"{slide}_turn", DIALS, str(turn), f"{slide}_dial.turn", "4" if metric else "0.100",
                needed=True,
            )


def _rests(metric: bool) -> Iterator[Question]:
    for key, name in (("steady", say("Steady rest")), ("follow_rest", say("Follow rest"))):
        yield Question(
            key,
            RESTS,
            say("{name}: smallest to largest diameter", name=name),
            key,
            _from_to("10", "100") if metric else _from_to("1/4", "4"),
            kind="range",
            costs=say("Jobs then cannot use it."),
        )
    yield Question(
        "power", RESTS, say("Power of the motor"), "power", say("3 hp or 2.2 kW"),
        costs=say("The sheet cannot say whether it stalls."),
    )
