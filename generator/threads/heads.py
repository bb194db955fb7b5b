"""What stands in front of most designations: size and pitch, in inches or in millimeters.

    inch_head     1 1/4-4, #10-24, 2.5-0.125P-0.25L, 10-8(2P)
    metric_head   48x8, 40x14 P7, 40x14(P7), 60x9 with the starts in words
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from fractions import Fraction

from generator.errors import BadDesignation
from generator.language.say import say
from generator.threads.text import Written, mixed_number, number_text, take_starts

LARGEST_GAGE = 20  # numbered screws of the old lists go beyond the 12 of ASME B1.1
FINEST_FRACTION = 64  # of an inch, on a rule

_INCH = re.compile(
    r"(?P<size>#\s*\d{1,2}|\d{1,3}[ -]+\d{1,3}/\d{1,3}|\d{1,3}/\d{1,3}|\d{0,3}\.\d{1,6}|\d{1,3}\.?)"
    r"\s*(?:\"|''|INCH(?:ES)?\b|IN\b\.?)?\s*(?:[-X]|\s)\s*"
    r"(?:(?P<pitch>\d?\.\d{1,8}|\d)\s*P\s*-\s*(?P<lead>\d{0,2}\.\d{1,8}|\d{1,2})\s*L"
    r"|(?P<tpi>\d{1,3}[ -]+\d{1,2}/\d{1,2}|\d{1,3}(?:\.\d{1,4})?)(?:\s*(?:TPI|THREADS?)\b)?"
    r"\s*(?:\(\s*(?P<times>\d{1,2})\s*P\s*\))?)(?P<rest>(?:[^\d.].*)?)",
    re.ASCII,
)
_METRIC = re.compile(
    r"(?P<size>\d{1,4}(?:\.\d{1,4})?)\s*(?:MM)?\s*[X*]\s*(?P<first>\d{1,3}(?:\.\d{1,4})?)\s*(?:MM\b)?"
    r"\s*(?:\(?\s*P\s*(?P<pitch>\d{1,3}(?:\.\d{1,4})?)\s*\)?)?(?P<rest>(?:[^\d.].*)?)",
    re.ASCII,
)


_SIZE_ALONE = re.compile(r"(?P<size>[\d./ -]*\d)\s*(?:\"|''|INCH(?:ES)?\b|IN\b\.?)?", re.ASCII)


@dataclass(frozen=True)
class Head:
    """Size, pitch, lead (own unit) and starts of a designation, and what follows them."""

    nominal: float
    nominal_text: str
    pitch: Fraction
    lead: Fraction
    starts: int
    rest: str


def inch_head(text: Written, upper: str, accepted: str) -> Head:
    """Size and threads per inch, or pitch and lead, at the front of `upper`.

    Threads per inch count the threads side by side of a multiple-start thread: its pitch is one over them.

    Raises
    ------
    BadDesignation
        With what was written, and with `accepted`, which says what would do.

    Examples
    --------
    >>> head = inch_head(Written("x", "x"), "1 1/4-4 (2 STARTS) SQ", "write it so")
    >>> head.nominal, head.pitch, head.lead, head.rest.strip()
    (1.25, Fraction(1, 4), Fraction(1, 2), 'SQ')
    """
    upper, said = take_starts(text, upper)
    found = _INCH.fullmatch(upper.strip())
    if found is None:
        raise BadDesignation(
            say(
                '"{written}" has no size and threads per inch in front; {accepted}',
                written=text.written,
                accepted=accepted,
            )
        )
    nominal, name = _inch_size(text, found["size"], accepted)
    times = int(found["times"]) if found["times"] else None
    if found["tpi"]:
        tpi = mixed_number(found["tpi"])
        if not tpi:
            raise BadDesignation(
                say(
                    '"{written}": the threads per inch are zero; {accepted}',
                    written=text.written,
                    accepted=accepted,
                )
            )
        if "/" in found["tpi"] and 16 % tpi.denominator:
            raise BadDesignation(
                say(
                    '"{written}": {found} is not a number of threads per inch as the trade writes it',
                    written=text.written,
                    found=found["tpi"],
                )
            )
        pitch, written_starts = 1 / tpi, times
    else:
        pitch, written_starts = _pitch_and_lead(text, found["pitch"], found["lead"], accepted)
    starts = _one(text, said, written_starts)
    return Head(float(nominal), name, pitch, starts * pitch, starts, found["rest"])


def whole_inch_head(text: Written, front: str, starts: int | None, accepted: str) -> Head:
    """Size and pitch with nothing behind them; `starts` is the number of starts said in words elsewhere.

    Raises
    ------
    BadDesignation
        With what was written, what of it is not understood, and `accepted`.

    Examples
    --------
    >>> whole_inch_head(Written("x", "x"), "3/8-26", 2, "write it so").lead
    Fraction(1, 13)
    """
    head = inch_head(
        text, f"{front} ({starts} STARTS)" if starts else front, accepted
    )
    if head.rest.strip(" -"):
        raise BadDesignation(
            say(
                '"{written}": "{rest}" is not understood; {accepted}',
                written=text.written,
                rest=head.rest.strip(" -"),
                accepted=accepted,
            )
        )
    return head


def inch_size_alone(front: str) -> tuple[str, Fraction] | None:
    """A size in inches with nothing behind it, as written and as a number; None for anything else.

    >>> inch_size_alone("1 1/4 IN."), inch_size_alone("5/8-11")
    (('1 1/4', Fraction(5, 4)), None)
    """
    found = _SIZE_ALONE.fullmatch(front.strip(" -"))
    size = mixed_number(found["size"]) if found else None
    return (found["size"], size) if found and size else None


def metric_head(text: Written, upper: str, accepted: str) -> Head:
    """Diameter and pitch, or diameter, lead and pitch, at the front of `upper`.

    Raises
    ------
    BadDesignation
        With what was written, and with `accepted`, which says what would do.

    Examples
    --------
    >>> metric_head(Written("x", "x"), "40X14(P7)-7E", "write it so").starts
    2
    """
    upper, said = take_starts(text, upper)
    found = _METRIC.fullmatch(upper.strip())
    if found is None:
        raise BadDesignation(
            say(
                '"{written}" has no diameter and pitch in front; {accepted}',
                written=text.written,
                accepted=accepted,
            )
        )
    size, first = Fraction(found["size"]), Fraction(found["first"])
    pitch = Fraction(found["pitch"]) if found["pitch"] else first
    if not size or not first or not pitch:
        raise BadDesignation(
            say(
                '"{written}": the diameter or the pitch is zero; {accepted}',
                written=text.written,
                accepted=accepted,
            )
        )
    written_starts = None
    if found["pitch"]:
        if first % pitch:
            raise BadDesignation(
                say(
                    '"{written}": the lead {lead} is not a whole number of pitches of {pitch}',
                    written=text.written, lead=number_text(first), pitch=number_text(pitch),
                )
            )
        written_starts = int(first / pitch)
    starts = _one(text, said, written_starts)
    return Head(float(size), number_text(size), pitch, starts * pitch, starts, found["rest"])


def inch_front(nominal_text: str, pitch: Fraction, lead: Fraction) -> str:
    """Size and threads per inch as they are written in front; pitch and lead for several starts.

    >>> inch_front("1 1/4", Fraction(1, 4), Fraction(1, 2)), inch_front("2.5", Fraction(1, 8), Fraction(1, 8))
    ('1 1/4-0.25P-0.5L', '2.5-8')
    """
    if lead == pitch:
        return f"{nominal_text}-{number_text(1 / pitch)}"
    return f"{nominal_text}-{_decimals(pitch)}P-{_decimals(lead)}L"


def metric_front(nominal_text: str, pitch: Fraction, lead: Fraction) -> str:
    """Diameter and pitch as they are written in front; lead and pitch for several starts.

    >>> metric_front("40", Fraction(7), Fraction(14))
    '40x14(P7)'
    """
    if lead == pitch:
        return f"{nominal_text}x{number_text(pitch)}"
    return f"{nominal_text}x{number_text(lead)}(P{number_text(pitch)})"


def _decimals(length: Fraction) -> str:
    return f"{float(length):.8f}".rstrip("0").rstrip(".")


def _one(text: Written, said: int | None, written: int | None) -> int:
    """The number of starts, of what words and figures say."""
    if said is not None and written is not None and said != written:
        raise BadDesignation(
            say(
                '"{written}" says {said} starts in words, and {by_lead} by its lead',
                written=text.written, said=said, by_lead=written,
            )
        )
    return said or written or 1


def _inch_size(text: Written, size: str, accepted: str) -> tuple[Fraction, str]:
    if size[0] == "#":
        gage = int(re.sub(r"\D", "", size))
        if gage > LARGEST_GAGE:
            raise BadDesignation(
                say(
                    '"{written}": number sizes end at #{largest_gage}; write inches',
                    written=text.written,
                    largest_gage=LARGEST_GAGE,
                )
            )
        return Fraction(60 + 13 * gage, 1000), f"#{gage}"
    return inch_size(text.written, size, accepted), " ".join(re.split(r"[ -]+", size.strip().rstrip(".")))


def inch_size(written: str, size: str, accepted: str) -> Fraction:
    """A size in inches, whole, decimal or with a fraction that is on a rule.

    Raises
    ------
    BadDesignation
        For nothing, and for a fraction that nobody writes, like 3/2, 1/3, 10/32 or 1/128.

    Examples
    --------
    >>> inch_size("1 1/4-4 SQ", "1 1/4", "write it so")
    Fraction(5, 4)
    """
    value, fraction = mixed_number(size), re.search(r"(\d+)\s*/\s*(\d+)\s*$", size)
    if not value:
        raise BadDesignation(
            say(
                '"{written}": {size} is not a size as the trade writes it; {accepted}',
                written=written,
                size=size.strip(),
                accepted=accepted,
            )
        )
    if fraction is None:
        return value
    top, bottom = int(fraction[1]), int(fraction[2])
    if FINEST_FRACTION % bottom:
        raise BadDesignation(
            say('"{written}": {size} is not in halves, quarters, eighths, sixteenths, thirty-seconds or '
            "sixty-fourths of an inch; write the size as a decimal", written=written, size=size.strip())
        )
    if math.gcd(top, bottom) > 1:
        raise BadDesignation(
            say(
                '"{written}": {top}/{bottom} would be {fraction}; write that if it is meant, or '
                "#{top}-{bottom} for the number size {top} with {bottom} threads",
                written=written,
                top=top,
                bottom=bottom,
                fraction=Fraction(top, bottom),
            )
        )
    return value


def _pitch_and_lead(text: Written, pitch: str, lead: str, accepted: str) -> tuple[Fraction, int]:
    """Pitch (in), as one over a number of threads in eighths where it is one, and starts."""
    written, led = Fraction(pitch), Fraction(lead)
    if not written or not led:
        raise BadDesignation(
            say(
                '"{written}": the pitch or the lead is zero; {accepted}',
                written=text.written,
                accepted=accepted,
            )
        )
    half_digit = Fraction(1, 2 * 10 ** len(pitch.partition(".")[2]))
    threads = Fraction(round(8 / written), 8)
    exact = 1 / threads if threads and abs(1 / threads - written) <= half_digit else written
    starts = max(round(led / written), 1)
    rounding = Fraction(1, 2 * 10 ** len(lead.partition(".")[2]))
    if min(abs(starts * exact - led), abs(starts * written - led)) > rounding:
        raise BadDesignation(
            say(
                '"{written}": the lead {lead} is not a whole number of pitches of {pitch}; {starts} starts '
                "would have a lead of {exact:.4f}",
                written=text.written, lead=lead, pitch=pitch, starts=starts, exact=float(starts * exact),
            )
        )
    return exact, starts
