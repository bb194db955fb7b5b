"""What a slide's dial shows: whole graduations, turns and reading, on radius or on diameter.

    Dial               division and turn as the dial reads, and what it reads
    whole_graduations  a travel, rounded to what the dial can show
    reading            turns and reading for a travel
    travel_read        the travel of turns and reading
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from generator.errors import OutsideRange
from generator.language.say import say
from generator.si import Length

NEARLY = 1e-6  # of a graduation: two readings closer than this are one


@dataclass(frozen=True)
class Dial:
    """A dial as it reads: a diameter-reading dial shows twice the travel of its slide.

    `division` is one graduation and `turn` one whole turn, both as read, m.

    Raises
    ------
    OutsideRange
        When a turn does not hold a whole number of divisions: the record and the dial do not agree.
    """

    division: Length
    turn: Length
    reads: Literal["radius", "diameter"]

    def __post_init__(self) -> None:
        count = self.turn / self.division if self.division > 0 else 0.0
        if count < 1 - NEARLY or abs(count - round(count)) > NEARLY * max(count, 1):
            raise OutsideRange(
                say("divisions in one turn of the dial"),
                count,
                1,
                None,
                say("a turn holds a whole number of them"),
            )

    @property
    def per_travel(self) -> float:
        """Reading over slide travel: 2 on a diameter-reading dial, 1 on any other."""
        return 2.0 if self.reads == "diameter" else 1.0

    @property
    def graduation(self) -> Length:
        """Slide travel of one graduation, m."""
        return self.division / self.per_travel

    @property
    def divisions(self) -> int:
        """Graduations in one turn."""
        return round(self.turn / self.division)


def whole_graduations(
    travel: Length, dial: Dial, parts: int = 1, rounds: Literal["nearest", "down", "up"] = "nearest"
) -> int:
    """A slide travel counted in graduations of the dial, or in `parts` of a graduation.

    Parameters
    ----------
    travel : how far the slide moves, m
    dial : the slide's dial
    parts : 1 counts whole graduations, 2 half ones
    rounds : to the nearest, or only down or up

    Returns
    -------
    The count; times ``dial.graduation / parts`` it is the travel that the dial can show.

    Notes
    -----
    A half is rounded away from zero, as by eye.

    Examples
    --------
    0.0464 in on a dial of 0.001 in on radius, then on diameter:

    >>> whole_graduations(0.0464, Dial(0.001, 0.1, "radius"))
    46
    >>> whole_graduations(0.0464, Dial(0.001, 0.1, "diameter"))
    93

    Source
    ------
    Arithmetic.
    """
    count = travel / dial.graduation * parts
    if rounds == "down":
        return math.floor(count + NEARLY)
    if rounds == "up":
        return math.ceil(count - NEARLY)
    return math.floor(count + 0.5 + NEARLY)


def reading(travel: Length, dial: Dial, back: bool = False) -> tuple[int, Length]:
    """Whole turns, and then the reading, of a dial that stood at zero.

    ``travel ÷ travel of one turn``: whole turns, and what is left over as the dial reads.

    Parameters
    ----------
    travel : how far the slide has moved since zero, m
    dial : the slide's dial
    back : the slide is turned back, as for an internal thread: the numbers run down from zero

    Returns
    -------
    (turns, reading as the dial reads, m); turned back, whole turns back and the number then at the mark.

    Raises
    ------
    OutsideRange
        When the travel is negative.

    Notes
    -----
    A reading within a millionth of a graduation of a full turn is that turn and zero.

    Examples
    --------
    >>> turns, shown = reading(0.130, Dial(0.001, 0.1, "radius"))
    >>> turns, round(shown, 6)
    (1, 0.03)
    >>> turns, shown = reading(0.130, Dial(0.001, 0.4, "diameter"))
    >>> turns, round(shown, 6)
    (0, 0.26)
    >>> turns, shown = reading(0.130, Dial(0.001, 0.1, "radius"), back=True)
    >>> turns, round(shown, 6)
    (1, 0.07)

    Source
    ------
    Arithmetic.
    """
    if travel < 0:
        raise OutsideRange(say("travel from zero"), travel, 0.0, None, say("the dial counts from touch"), "m")
    shown = travel * dial.per_travel / dial.division
    turns = math.floor((shown + NEARLY) / dial.divisions)
    rest = max(shown - turns * dial.divisions, 0.0)
    if back and rest > NEARLY:
        rest = dial.divisions - rest
    return turns, rest * dial.division


def travel_read(turns: int, shown: Length, dial: Dial, back: bool = False) -> Length:
    """How far the slide has moved, from what its dial shows; the inverse of `reading`.

    ``turns × travel of one turn + reading``, a reading on diameter halved.

    Parameters
    ----------
    turns : whole turns since zero
    shown : the reading, as the dial reads, m
    dial : the slide's dial
    back : the slide is turned back, as for an internal thread: the numbers run down from zero

    Returns
    -------
    Travel since zero, m.

    Raises
    ------
    OutsideRange
        When the reading is none of this dial: it runs from zero to just under one turn.

    Notes
    -----
    A reading of this dial: from zero to just under one turn.

    Examples
    --------
    >>> round(travel_read(1, 0.030, Dial(0.001, 0.1, "radius")), 6)
    0.13
    >>> round(travel_read(1, 0.070, Dial(0.001, 0.1, "radius"), back=True), 6)
    0.13

    Source
    ------
    Arithmetic.
    """
    if not 0 <= shown < dial.turn - NEARLY * dial.division:
        raise OutsideRange(
            say("reading of the dial"),
            shown,
            0.0,
            dial.turn,
            say("a dial reads from zero to under one turn"),
            "m",
        )
    rest = dial.turn - shown if back and shown > NEARLY * dial.division else shown
    return (turns * dial.turn + rest) / dial.per_travel
