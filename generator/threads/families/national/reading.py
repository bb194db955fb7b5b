"""American National designations: size, threads per inch, series, class, hand (NBS Handbook H28)."""

from __future__ import annotations

import re

from generator.errors import BadDesignation
from generator.language.say import later, say
from generator.threads.designation import Designation
from generator.threads.families.national.series import sizes
from generator.threads.heads import inch_head
from generator.threads.text import Written, take_hand, take_starts

ACCEPTED = later(
    "write size-threads per inch, series, class, like 1/2-13 NC-2, 3/4-16 NF-3, 2-8 N-2 or 1 1/8-10 NS-2; "
    "1/2-13 USS and 1/2-20 SAE for the older series"
)
CLASSES = ("1", "2", "3", "4")
SERIES = re.compile(
    r"(?<![A-Z])(?:(?P<national>NC|NF|NEF|NS|N)"
    r"|(?P<uss>U\.?\s?S\.?\s?S\b\.?|U\.?\s?S\.?\s+(?:STD|STANDARD|FORM)\b\.?|SELLERS|FRANKLIN\s+INSTITUTE)"
    r"|(?P<sae>S\.?\s?A\.?\s?E\b\.?|ALAM))(?![A-Z])",
    re.ASCII,
)


def parse_national(text: Written) -> Designation:
    """The American National, US Standard or SAE thread that a text names.

    Raises
    ------
    BadDesignation
        With what was written and what would be accepted.
    """
    upper, starts = take_starts(text, text.upper)
    upper, hand = take_hand(text, upper)
    found = SERIES.search(upper)
    if found is None:
        raise BadDesignation(
            say('"{written}" names no series; {accepted}', written=text.written, accepted=ACCEPTED)
        )
    series = found["national"] or ("USS" if found["uss"] else "SAE")
    front, tail = upper[: found.start()], upper[found.end() :]
    front = _gage(front.strip(" -"), series)
    head = inch_head(
        text, f"{front} ({starts} STARTS)" if starts else front, ACCEPTED
    )
    if head.rest.strip(" -"):
        raise BadDesignation(
            say(
                '"{written}": "{rest}" is not understood; {accepted}',
                written=text.written,
                rest=head.rest.strip(" -"),
                accepted=ACCEPTED,
            )
        )
    class_ = _class(text, tail, series)
    national = found["national"] is not None
    return Designation(
        text=text.written, family="N", series=series, nominal=head.nominal, nominal_text=head.nominal_text,
        pitch=head.pitch, lead=head.lead, starts=head.starts, class_=class_ or ("2" if national else ""),
        class_assumed=national and not class_, pitch_assumed=False, hand=hand, unit="in",
        side=text.side or "external", tpi=1 / head.pitch, side_assumed=text.side is None,
    )


def _gage(front: str, series: str) -> str:
    """Size and pitch, with # in front of a bare number that can only be a number size (10-24 NC)."""
    found = re.fullmatch(r"(\d{1,2})\s*-\s*(\d{2})", front, re.ASCII)
    if found and any(
        size == f"#{found[1]}" and tpi == int(found[2]) and of == series for size, _, tpi, of in sizes()
    ):
        return "#" + front
    return front


def _class(text: Written, tail: str, series: str) -> str:
    words = [word for word in re.split(r"[\s-]+", tail) if word not in ("", "CLASS", "FIT", "THREAD")]
    if not words:
        return ""
    if len(set(words)) > 1:
        raise BadDesignation(
            say(
                '"{written}": "{words}" is not understood; {accepted}',
                written=text.written,
                words=" ".join(words),
                accepted=ACCEPTED,
            )
        )
    if series in ("USS", "SAE"):
        raise BadDesignation(
            say(
                '"{written}": {series} threads have no class; leave out "{words}"',
                written=text.written,
                series=series,
                words=words[0],
            )
        )
    if re.fullmatch(r"[123][AB]", words[0]):
        raise BadDesignation(
            say(
                '"{written}": class {words} is of Unified threads; write {series}-{class_}, or U in front '
                "of the series for a Unified thread",
                written=text.written, words=words[0], series=series, class_=words[0][0],
            )
        )
    if words[0] not in CLASSES:
        raise BadDesignation(
            say(
                '"{written}": American National threads have classes 1 to 4; {accepted}',
                written=text.written,
                accepted=ACCEPTED,
            )
        )
    return words[0]
