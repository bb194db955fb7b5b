"""Designations of threads of Whitworth form: BSW, BSF, and any diameter and pitch (BS 84).

    5/8 BSW                             size and series: the threads per inch are the series'
    1/2 in - 12 BSW (medium) nut        as the standard writes it
    W 3/8, 3/8 Whitworth                BSW
    1 1/4 in -16 Whit, 3/4-20 WHIT. FORM
    1/4-26 BSB, 1/4-40 ME               brass and model engineers' threads
"""

from __future__ import annotations

import re
from fractions import Fraction

from generator.errors import BadDesignation
from generator.language.lists import and_words
from generator.language.say import later, say
from generator.threads.designation import Designation, Side
from generator.threads.families.whitworth.series import FORMS, SPECIAL, STANDARD, of_series
from generator.threads.heads import inch_size_alone, whole_inch_head
from generator.threads.text import Written, number_text, take_hand, take_starts

ACCEPTED = later(
    "write size, threads per inch and series, like 5/8 BSW, 1/2 in - 12 BSW (medium), 3/8 BSF (free) or 1 "
    "1/4 in - 16 Whit"
)
SERIES = re.compile(
    r"(?<![A-Z])(?:(?P<bsw>B\.?\s?S\.?\s?W\b\.?)|(?P<bsf>B\.?\s?S\.?\s?F\b\.?)|(?P<bsb>B\.?\s?S\.?\s?B\b\.?|BRASS\b)"
    r"|(?P<me>M\.?\s?E\b\.?|MODEL\s+ENGINEERS?\b'?)|(?P<whit>WHIT(?:WORTH)?\b\.?))(?:\s*-?\s*FORM\b)?",
    re.ASCII,
)
OLD = re.compile(r"^W\.?\s*(?=[\d.])|(?<=[\d\"])\s*W$", re.ASCII)
_CLASS = re.compile(
    r"\(?\s*\b(?:CLASS|FIT)?\s*(CLOSE|MEDIUM|FREE|NORMAL)\b\s*(?:CLASS|FIT)?\b\s*\)?", re.ASCII
)
ONE_SIDE: dict[str, Side] = {"free": "external", "normal": "internal"}


def parse_whitworth(text: Written) -> Designation:
    """The thread of Whitworth form that a text names.

    Raises
    ------
    BadDesignation
        With what was written and what would be accepted.
    """
    upper, hand = take_hand(text, text.upper)
    upper, starts = take_starts(text, upper)
    upper, class_ = _take_class(text, upper)
    upper, series = _take_series(text, upper)
    front = upper.strip(" -")
    alone = inch_size_alone(front)
    if alone:
        front = f"{alone[0]}-{number_text(_of_series(text, series, alone[1]))}"
    head = whole_inch_head(text, front, starts, ACCEPTED)
    series = _checked(text, series, Fraction(str(head.nominal)), head.pitch, bool(alone))
    side = ONE_SIDE.get(class_) or text.side or "external"
    return Designation(
        text=text.written, family="WHIT", series=series, nominal=head.nominal, nominal_text=head.nominal_text,
        pitch=head.pitch, lead=head.lead, starts=head.starts, class_=class_ or "medium",
        class_assumed=not class_, pitch_assumed=bool(alone), hand=hand, unit="in", side=side,
        tpi=1 / head.pitch, side_assumed=text.side is None and class_ not in ONE_SIDE,
    )


def _take_class(text: Written, upper: str) -> tuple[str, str]:
    found = _CLASS.findall(upper)
    if len(set(found)) > 1:
        raise BadDesignation(
            say(
                '"{written}" says two classes; write one of close, medium, free, normal', written=text.written
            )
        )
    return _CLASS.sub(" ", upper).strip(" -"), found[0].lower() if found else ""


def _take_series(text: Written, upper: str) -> tuple[str, str]:
    found = SERIES.search(upper)
    if found is None:
        without = OLD.sub("", upper.strip())
        if without == upper.strip():
            raise BadDesignation(
                say('"{written}" names no series; {accepted}', written=text.written, accepted=ACCEPTED)
            )
        if re.search(r"[X*]\s*1\s*/", without):
            raise BadDesignation(
                say('"{written}": Whitworth threads with a diameter in millimeters (gas cylinder valves) '
                "are not held here; write special, diameter x pitch in mm and 55deg, like special "
                "21.8x1.814 55deg", written=text.written)
            )
        return without, SPECIAL
    left = SERIES.sub(" ", upper, count=1)
    if SERIES.search(left) and not found["whit"]:
        left = re.sub(r"WHIT(?:WORTH)?\b\.?(?:\s*-?\s*FORM\b)?", " ", left)
    if SERIES.search(left):
        raise BadDesignation(
            say('"{written}" names two series; {accepted}', written=text.written, accepted=ACCEPTED)
        )
    names = {"bsw": "BSW", "bsf": "BSF", "bsb": "BSB", "me": "ME", "whit": SPECIAL}
    return left.strip(" -"), names[found.lastgroup or "whit"]


def _of_series(text: Written, series: str, size: Fraction) -> Fraction:
    """Threads per inch that go with the size, where none were written."""
    found = of_series("BSW" if series == SPECIAL else series, size)
    if len(found) == 1:
        return found[0].tpi
    if found:
        several = and_words(f"{one.text}-{number_text(one.tpi)} {series}" for one in found)
        raise BadDesignation(
            say(
                '"{written}" does not say the threads per inch; there are {several}',
                written=text.written,
                several=several,
            )
        )
    known = "BSW" if series == SPECIAL else series
    raise BadDesignation(
        say('"{written}": {number_text} in is not a size of the {known} series; write the '
        'threads per '
        "inch too, like 1 1/4 in - 16 Whit", written=text.written, number_text=number_text(size), known=known)
    )


def _checked(text: Written, series: str, size: Fraction, pitch: Fraction, from_series: bool) -> str:
    """The series that diameter and pitch are of; other pitches are special threads of Whitworth form."""
    if series == SPECIAL and from_series:
        return "BSW"
    if series in (SPECIAL, *FORMS):
        return series
    found = of_series(series, size)
    if any(one.tpi == 1 / pitch for one in found):
        return series
    known = (
        say(
            "{text} {series} has {number_text} threads per inch",
            text=found[0].text, series=series, number_text=number_text(found[0].tpi),
        )
        if found
        else say(
            "{number_text} in is not a size of the {series} series",
            number_text=number_text(size), series=series,
        )
    )
    other = next((s for s in STANDARD if any(one.tpi == 1 / pitch for one in of_series(s, size))), "")
    instead = (
        f"; {number_text(1 / pitch)} is {other}" if other else ""
    )
    raise BadDesignation(
        say(
            '"{written}": {known}{instead}; for any other pitch write Whit, like 3/4-20 Whit',
            written=text.written,
            known=known,
            instead=instead,
        )
    )
