"""Buttress designations of ASME B1.9: size, threads per inch, push or pull, class, root, hand."""

from __future__ import annotations

import re

from generator.errors import BadDesignation
from generator.language.say import later, say
from generator.threads.designation import Designation, Side
from generator.threads.heads import inch_head
from generator.threads.text import Written, take_hand

ACCEPTED = later(
    "write size-threads per inch, BUTT or PUSH-BUTT, class, like 2.5-8 BUTT-2A or 2.5-8 PUSH-BUTT-2B-LH; "
    "for the metric form write S 48x8"
)
_FORM = re.compile(r"[\s-]*(?P<way>PUSH|PULL)?[\s-]*BUTT(?:RESS)?(?P<tail>.*)", re.ASCII)
_IDLE = ("THD", "THREAD", "TYPE", "7/45", "7/45DEG", "DEG")  # words that change nothing


def parse_buttress(text: Written) -> Designation:
    """The buttress thread that a text names.

    Raises
    ------
    BadDesignation
        With what was written and what would be accepted.
    """
    upper, hand = take_hand(text, text.upper)
    head = inch_head(text, upper, ACCEPTED)
    found = _FORM.fullmatch(head.rest)
    if found is None:
        raise BadDesignation(
            say(
                '"{written}" is not a buttress thread designation; {accepted}',
                written=text.written,
                accepted=ACCEPTED,
            )
        )
    class_, flat_root, said = _tail(text, found["tail"])
    side: Side = said or text.side or "external"
    return Designation(
        text=text.written, family="BUTT", series="PUSH-BUTT" if found["way"] == "PUSH" else "BUTT",
        nominal=head.nominal, nominal_text=head.nominal_text, pitch=head.pitch, lead=head.lead,
        starts=head.starts, class_=(class_ or "2") + ("B" if side == "internal" else "A"),
        class_assumed=not class_, pitch_assumed=False, hand=hand, unit="in", side=side, tpi=1 / head.pitch,
        side_assumed=said is None and text.side is None, form="FL" if flat_root else "",
    )


def _tail(text: Written, tail: str) -> tuple[str, bool, Side | None]:
    """Class number, flat root, and the side that the class's letter says, of what follows BUTT."""
    classes: set[str] = set()
    flat_root = False
    for word in re.split(r"[\s-]+", tail.strip(" -")):
        if re.fullmatch(r"[123][AB]?", word):
            classes.add(word)
        elif word == "FL":
            flat_root = True
        elif re.fullmatch(r"\d[AB]?", word):
            raise BadDesignation(
                say(
                    '"{written}": buttress threads have classes 2 and 3, in older standards 1 too',
                    written=text.written,
                )
            )
        elif word and word not in _IDLE:
            raise BadDesignation(
                say(
                    '"{written}": "{word}" is not understood after BUTT; {accepted}',
                    written=text.written,
                    word=word,
                    accepted=ACCEPTED,
                )
            )
    if len(classes) > 1:
        raise BadDesignation(
            say('"{written}" says two things at once; write one class', written=text.written)
        )
    class_ = classes.pop() if classes else ""
    sides: dict[str, Side] = {"A": "external", "B": "internal"}
    return class_[:1], flat_root, sides.get(class_[1:])
