"""Saw-tooth designations: S, diameter, pitch, hand, tolerance class (DIN 513)."""

from __future__ import annotations

import re

from generator.errors import BadDesignation
from generator.language.say import later, say
from generator.threads.designation import Designation, Side
from generator.threads.heads import metric_head
from generator.threads.text import Written, take_hand

ACCEPTED = later("write S diameter x pitch, class, like S48x8-7h, S40x14(P7)-7h or S48x8-7AZ for the nut")
POSITIONS: dict[str, Side] = {
    "h": "external", "e": "external", "c": "external", "AZ": "internal", "H": "internal",
}
USUAL: dict[Side, str] = {"external": "7h", "internal": "7AZ"}
_CLASS = re.compile(
    r"(?<=[-\s])(?P<grade>\d{1,2})\s?(?P<letter>(?!(?i:LH|RH|MM|X\b))[A-Za-z]{1,2})(?=$|[-\s])", re.ASCII
)
_IDLE = r"\bDIN\s*513(?:-\d)?\b|\b3/30(?:DEG)?\b|\bSAW[- ]?TOOTH\b|\bBUTTRESS\b"


def parse_sawtooth(text: Written) -> Designation:
    """The metric saw-tooth thread that a text names.

    Raises
    ------
    BadDesignation
        With what was written and what would be accepted.
    """
    class_, said, plain = _take_class(text)
    upper, hand = take_hand(text, re.sub(_IDLE, " ", plain.upper(), flags=re.ASCII).strip(" -"))
    head = metric_head(text, upper.removeprefix("S").strip(), ACCEPTED)
    if head.rest.strip(" -()"):
        raise BadDesignation(
            say(
                '"{written}": "{rest}" is not understood after the pitch; {accepted}',
                written=text.written,
                rest=head.rest.strip(" -()"),
                accepted=ACCEPTED,
            )
        )
    side: Side = said or text.side or "external"
    return Designation(
        text=text.written, family="S", series="S", nominal=head.nominal, nominal_text=head.nominal_text,
        pitch=head.pitch, lead=head.lead, starts=head.starts, class_=class_ or USUAL[side],
        class_assumed=not class_, pitch_assumed=False, hand=hand, unit="mm", side=side,
        side_assumed=said is None and text.side is None,
    )


def _take_class(text: Written) -> tuple[str, Side | None, str]:
    """Class and the side it says, and the text without it."""
    found = list(_CLASS.finditer(text.plain))
    if not found:
        return "", None, text.plain
    if len({one[0] for one in found}) > 1:
        raise BadDesignation(
            say('"{written}" says two things at once; write one class', written=text.written)
        )
    grade, letter = found[0]["grade"], found[0]["letter"]
    letter = "AZ" if letter.upper() == "AZ" else letter
    if letter.lower() in ("e", "c"):
        letter = letter.lower()
    if letter not in POSITIONS or grade not in ("7", "8", "9"):
        raise BadDesignation(
            say(
                '"{written}": saw-tooth threads have grades 7, 8 and 9, and positions h, e and c for the '
                "screw, AZ and H for the nut; {grade}{letter} is not one of them",
                written=text.written,
                grade=grade,
                letter=letter,
            )
        )
    return grade + letter, POSITIONS[letter], " ".join(_CLASS.sub(" ", text.plain).split())
