"""Designations of the pipe threads R, Rc and Rp, and their old names (ISO 7-1)."""

from __future__ import annotations

import re
from dataclasses import dataclass

from generator.errors import BadDesignation
from generator.language.say import later, say
from generator.threads.designation import Designation, Side
from generator.threads.families.iso7.sizes import PipeSize, pipe_sizes
from generator.threads.families.npt.reading import splits
from generator.threads.text import Written, mixed_number, number_text, take_hand, take_starts

ACCEPTED = later(
    "write R 1/2 for the external thread, Rc 1/2 for the internal taper or Rp 1/2 for the parallel one"
)
SIDES: dict[str, Side] = {"R": "external", "Rc": "internal", "Rp": "internal"}
_STANDARDS = (
    r"\b(?:ISO\s*7(?:[-/]\s*1)?|(?:BS\s*)?(?:DIN\s*)?EN\s*10226(?:-[12])?|BS\s*21|DIN\s*2999(?:-1)?|DIN\s*3858"
    r"|JIS\s*B\s*0203|GB/?T\s*7306(?:\.[12])?)(?=$|[\s:-])(?:\s*:\s*\d{4}|-\d{4})?"
)
_TAPER = r"BSP\s?[.-]?\s?T(?:R|APER)?\b\.?|\bBSP\s+TAPER\b|(?<![A-Z])PT(?=[\s\d-]|$)"
_PARALLEL = r"(?<![A-Z])PS(?=[\s\d-]|$)"
_LETTERS = r"(?<![A-Z])R\s?[CP]?(?=[\s.-]*\d)"
NAMES = re.compile(rf"(?P<taper>{_TAPER})|(?P<parallel>{_PARALLEL})|(?P<letters>{_LETTERS})", re.ASCII)
_MARKS = r"\"|''|\bINCH(?:ES)?\b|\bIN\b\.?|\bT\.?P\.?I\b\.?"


@dataclass(frozen=True)
class _Name:
    """What the letters of a designation say."""

    series: str
    side_assumed: bool


def plain_of(text: Written) -> str:
    """The text in capitals without the name of the standard.

    >>> plain_of(Written("ISO 7-1 Rp 1/2", "ISO 7-1 Rp 1/2"))
    'RP 1/2'
    """
    return re.sub(_STANDARDS, " ", text.upper, flags=re.ASCII).strip(" -:,")


def read_iso7(text: Written) -> Designation:
    """The pipe thread that a text names.

    Raises
    ------
    BadDesignation
        With what was written and what would be accepted.
    """
    upper, hand = take_hand(text, plain_of(text))
    upper, starts = take_starts(text, upper)
    found = NAMES.search(upper)
    if found is None or len(NAMES.findall(upper)) > 1:
        raise BadDesignation(
            say('"{written}" does not name one thread; {accepted}', written=text.written, accepted=ACCEPTED)
        )
    name = _name(text, found)
    before, behind = (
        re.sub(_MARKS, " ", part, flags=re.ASCII).strip(" -,.()")
        for part in (upper[: found.start()], upper[found.end() :])
    )
    if before and behind:
        raise BadDesignation(
            say(
                '"{written}": "{behind}" after the name is not understood; {accepted}',
                written=text.written,
                behind=behind,
                accepted=ACCEPTED,
            )
        )
    size = _size(text, before or behind)
    count = starts or 1
    return Designation(
        text=text.written, family="R", series=name.series, nominal=float(size.major), nominal_text=size.name,
        pitch=size.pitch, lead=count * size.pitch, starts=count, class_="", class_assumed=False,
        pitch_assumed=False, hand=hand, unit="mm", side=SIDES[name.series], tpi=size.tpi,
        side_assumed=name.side_assumed,
    )


def write_iso7(d: Designation) -> str:
    """As ISO 7-1: ``R 1 1/2 LH``; several starts in words, which the standard has none for.

    >>> from generator.threads.text import tidy
    >>> write_iso7(read_iso7(tidy("1 1/2 BSPT left hand")))
    'R 1 1/2 LH'
    """
    tail = (" LH" if d.hand == "left" else "") + (
        f" ({d.starts} starts)" if d.starts > 1 else ""
    )
    return f"{d.series} {d.nominal_text}{tail}"


def _name(text: Written, found: re.Match[str]) -> _Name:
    """Series by the letters, and by the side where they leave it open."""
    if found["letters"]:
        letters = found["letters"].replace(" ", "")
        series = {"R": "R", "RC": "Rc", "RP": "Rp"}[letters]
    elif found["parallel"]:
        series = "Rp"
    else:
        return _Name("Rc" if text.side == "internal" else "R", text.side is None)
    if text.side not in (None, SIDES[series]):
        raise BadDesignation(
            say(
                '"{written}": {series} is the {sides} thread, and it is said to be {side}; {accepted}',
                written=text.written,
                series=series,
                sides=SIDES[series],
                side=text.side,
                accepted=ACCEPTED,
            )
        )
    return _Name(series, False)


def _size(text: Written, body: str) -> PipeSize:
    """The size that `body` names, checked against the threads per inch beside it."""
    sizes = pipe_sizes()
    for name, beside in splits(body):
        number = mixed_number(name)
        size = sizes.get(number) if number is not None else None
        tpi = mixed_number(beside) if beside else None
        if size is None or (beside and tpi is None):
            continue
        if tpi is not None and tpi != size.tpi:
            raise BadDesignation(
                say(
                    '"{written}": pipe size {name} has {number_text} threads per inch, not {tpi}; look '
                    "which size it is",
                    written=text.written, name=size.name, number_text=number_text(size.tpi),
                    tpi=number_text(tpi),
                )
            )
        return size
    raise BadDesignation(
        say(
            '"{written}" has no size of ISO 7-1; the sizes are {name}; {accepted}',
            written=text.written,
            name=", ".join(size.name for size in sizes.values()),
            accepted=ACCEPTED,
        )
    )
