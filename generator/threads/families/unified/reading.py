"""Unified inch designations: size, threads per inch, series, class, hand, engagement (ASME B1.1, section 6).

Reading order: `parse_unified`, then the pieces it reads from left to right, then the series check. The gaging
system of ASME B1.3, ``(21)``, says how a part is accepted and nothing of its sizes: it is read and dropped.
How a special length of engagement is written, ``SE 1.5``, is from memory of the standard.
"""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction

import generator.threads.families.unified.series as unified
from generator.errors import BadDesignation
from generator.language.say import later, say
from generator.threads.designation import Designation
from generator.threads.heads import inch_size, inch_size_alone
from generator.threads.rounding import decimal
from generator.threads.text import Written, mixed_number, take_hand, take_starts

LARGEST_GAGE = 12  # ASME B1.1: numbered sizes 0 to 12, diameter 0.060 + 0.013 N inch
GAGE_ZERO, GAGE_STEP = Decimal("0.060"), Decimal("0.013")  # inch
LEAD_ROUNDING = Fraction(1, 2000)  # inch: a lead may be written rounded, but no more than this

_SIZE = (
    r"(?:\#\s*(?P<gage>\d{1,2})"
    r"|(?P<size>\d{1,3}[ -]+\d{1,3}/\d{1,3}|\d{1,3}/\d{1,3}|\d{0,3}\.\d{1,6}|\d{1,3}\.?))"
)
_MARK = r"\s*(?:\"|''|INCH\b|IN\b\.?)?"
_TPI = r"(?P<tpi>\d{1,3}[ -]+\d/\d|\d{1,3}(?:\.\d{1,4})?)\s*(?:TPI\b)?"
_STARTS = (
    r"(?P<pitch>\d?\.\d{1,8})\s*P\s*-\s*(?P<lead>\d{0,2}\.\d{1,8})\s*L"
)
_FORM = re.compile(rf"{_SIZE}{_MARK}\s*(?:[-X]|\s)\s*(?:{_STARTS}|{_TPI})(?P<rest>(?:[^\d./].*)?)", re.ASCII)
_ANYWHERE = re.compile(r"(?<![A-Z])UNR?(?:C|F|EF|S)?(?![A-Z])", re.ASCII)
_ANY_CLASS = re.compile(r"(?<![\d./A-Z])\(?\s*([1-5][AB])\s*\)?(?![A-Z\d])", re.ASCII)
_LIKE_METRIC = re.compile(r"\d{1,3}(?:\.\d)?\s*X\s*\d?\.?\d", re.ASCII)
_SERIES = re.compile(r"[\s-]*UN(?P<root>R)?(?P<kind>C|F|EF|S)?(?![A-Z])(?P<tail>.*)", re.ASCII)
_ENGAGEMENT = re.compile(
    r"\b(?:SE|LE)\s*=?\s*(?P<length>\d{1,2}[ -]+\d{1,2}/\d{1,2}|\d{1,2}/\d{1,2}|\d{0,2}\.\d{1,6}|\d{1,2}\.?)"
    r"\s*(?:\"|''|IN(?:CH)?\b\.?)?(?![\d./])",
    re.ASCII,
)
_ACCEPTED = later(
    "write size-threads per inch, series, class, like 1/2-13 UNC-2A, 2 1/4-8 UN-2A, #10-32 UNF-2A or "
    "2.4375-10 UNS-2A"
)


def parse_unified(text: Written) -> Designation:
    """The Unified thread that the tidied text names.

    Raises
    ------
    BadDesignation
        With what was written and what would be accepted.

    Examples
    --------
    >>> from generator.threads.text import tidy
    >>> d = parse_unified(tidy("1 1/2-6 UNC-2A-LH SE 3"))
    >>> d.hand, d.engagement
    ('left', 3.0)

    Source: ASME B1.1, section 6.
    """
    written = text.written
    upper, said_starts = take_starts(text, text.upper)
    upper, engagement = _engagement(written, upper)
    upper, hand = take_hand(text, upper)
    found, pitch_assumed = _FORM.fullmatch(upper.strip()), False
    if found is None or _SERIES.fullmatch(found["rest"]) is None:
        upper, pitch_assumed = _arranged(upper)
        found = _FORM.fullmatch(upper.strip()) or found
    if found is None:
        raise BadDesignation(
            say(
                '"{written}" is not a Unified thread designation; {accepted}',
                written=written,
                accepted=_ACCEPTED,
            )
        )
    pitch, lead, starts = _pitch(written, found, said_starts)
    tpi = 1 / pitch
    named = _SERIES.fullmatch(found["rest"])
    nominal, size = _nominal(written, found, tpi, f"UN{named['kind'] or ''}" if named else "")
    head = f"{size}-{_number(tpi)}"
    if named is None and _LIKE_METRIC.match(upper.strip()):
        raise BadDesignation(
            say(
                '"{written}" has neither the M of a metric thread nor a series of inch threads; write it '
                "like M10x1.5-6g, or {right}",
                written=written, right=_right(head, nominal, tpi),
            )
        )
    if named is None:
        raise BadDesignation(
            say(
                '"{written}" names no series of Unified threads; {right_series}',
                written=written,
                right_series=_right_series(head, nominal, tpi),
            )
        )
    kind, root = named["kind"] or "", named["root"] or ""
    series = f"UN{root}{kind}"
    class_ = _class(written, named["tail"], f"{head} {series}")
    if root and class_.endswith("B"):
        raise BadDesignation(
            say(
                '"{written}": the rounded root (UNR) is of external threads only; write {head} '
                "UN{kind}-{class_}",
                written=written, head=head, kind=kind, class_=class_,
            )
        )
    _check_series(written, head, nominal, tpi, f"UN{kind}", root, class_)
    return Designation(
        text=written,
        family="UN",
        series=series,
        nominal=float(nominal),
        nominal_text=size,
        pitch=pitch,
        lead=lead,
        starts=starts,
        class_=class_,
        class_assumed=False,
        pitch_assumed=pitch_assumed,
        hand=hand,
        unit="in",
        side="internal" if class_.endswith("B") else "external",
        tpi=tpi,
        rounded_root=bool(root),
        engagement=engagement,
    )


def _arranged(upper: str) -> tuple[str, bool]:
    """Size, threads per inch, series and class in the order of the standard, where they stand in another.

    The threads per inch are those of a named series where none are written, and the second word is then True.

    >>> _arranged("UNC 1/2-13 2A"), _arranged("3/8 UNF-2B")
    (('1/2-13 UNC 2A', False), ('3/8-24 UNF 2B', True))
    """
    found = list(_ANYWHERE.finditer(upper))
    classes = _ANY_CLASS.findall(upper)
    if len(found) != 1 or len(classes) > 1:
        return upper, False
    series = found[0][0]
    front = " ".join(_ANY_CLASS.sub(" ", _ANYWHERE.sub(" ", upper)).split()).strip(" -")
    front = re.sub(r"\s*-\s*", "-", front)
    tail = f" {series} {''.join(classes)}".rstrip()
    gage = re.fullmatch(r"#?\s*(\d{1,2})", front, re.ASCII)
    alone = inch_size_alone(front)
    name = series.replace("R", "", 1)
    for diameter, size in (
        (decimal(alone[1]) if alone else None, front),
        (GAGE_ZERO + GAGE_STEP * int(gage[1]) if gage else None, f"#{gage[1]}" if gage else ""),
    ):
        tpi = None if diameter is None else unified.tpi_in_series(diameter, name)
        if tpi is not None:
            return f"{size}-{_number(tpi)}{tail}", True
    return front + tail, False


def _engagement(written: str, upper: str) -> tuple[str, float | None]:
    """The text without a special length of engagement (in), and that length; None where none is written."""
    found = _ENGAGEMENT.search(upper)
    if found is None:
        return upper, None
    length = mixed_number(found["length"])
    if not length:
        raise BadDesignation(
            say(
                '"{written}": {found} is not a length of engagement; write it in inches, like SE 1.5',
                written=written,
                found=found["length"],
            )
        )
    return (upper[: found.start()].rstrip(" -") + upper[found.end() :]).strip(), float(length)


def _pitch(written: str, found: re.Match[str], said: int | None) -> tuple[Fraction, Fraction, int]:
    """Pitch and lead (in), number of starts; `said` is what words say of the starts."""
    if found["tpi"]:
        tpi = mixed_number(found["tpi"])
        if not tpi:
            raise BadDesignation(
                say(
                    '"{written}": the threads per inch are zero; {accepted}',
                    written=written,
                    accepted=_ACCEPTED,
                )
            )
        return 1 / tpi, (said or 1) / tpi, said or 1
    pitch = _near_unit_fraction(found["pitch"])
    written_pitch, written_lead = Fraction(found["pitch"]), Fraction(found["lead"])
    if not written_pitch or not written_lead:
        raise BadDesignation(
            say('"{written}": the pitch or the lead is zero; {accepted}', written=written, accepted=_ACCEPTED)
        )
    starts = round(written_lead / written_pitch)
    last_digit = Fraction(1, 10 ** len(found["lead"].partition(".")[2]))
    if starts < 1 or abs(starts * pitch - written_lead) > min(last_digit, LEAD_ROUNDING):
        raise BadDesignation(
            say(
                '"{written}": the lead {lead} is not a whole number of pitches of {pitch}; {starts} starts '
                "would have a lead of {exact:.4f}",
                written=written, lead=found["lead"], pitch=found["pitch"], starts=max(starts, 1),
                exact=float(max(starts, 1) * pitch),
            )
        )
    if said not in (None, starts):
        raise BadDesignation(
            say(
                '"{written}": a lead of {lead} with a pitch of {pitch} is {starts} starts, but the '
                "designation says {said}",
                written=written, lead=found["lead"], pitch=found["pitch"], starts=starts, said=said,
            )
        )
    return pitch, starts * pitch, starts


def _near_unit_fraction(text: str) -> Fraction:
    """A decimal pitch as one over a whole or half number of threads, when it is one to its last digit."""
    value = Fraction(text)
    if value == 0:
        return value
    half_digit = Fraction(1, 2 * 10 ** len(text.partition(".")[2]))
    threads = Fraction(round(2 / value), 2)
    return 1 / threads if threads and abs(1 / threads - value) <= half_digit else value


def _nominal(written: str, found: re.Match[str], tpi: Fraction, series: str) -> tuple[Decimal, str]:
    """Nominal diameter (in) and the size as a machinist writes it."""
    if found["gage"]:
        return _gage(written, int(found["gage"]))
    text = found["size"].rstrip(".")
    if text.isdecimal() and int(text) <= LARGEST_GAGE:
        gage, name = _gage(written, int(text))
        in_inches = unified.series_of(Decimal(text), tpi)
        if in_inches is None and (standard := unified.named_series().get((gage, tpi))):
            if series == standard:
                return gage, name
            raise BadDesignation(
                say(
                    '"{written}": is {text} a number size or {text} inches? For the number size write '
                    "{name}-{number} {standard}-2A, for inches write {text}.000",
                    written=written,
                    text=text,
                    name=name,
                    number=_number(tpi),
                    standard=standard,
                )
            )
    return decimal(inch_size(written, text, _ACCEPTED)), " ".join(re.split(r"[ -]+", text))


def _gage(written: str, number: int) -> tuple[Decimal, str]:
    if number > LARGEST_GAGE:
        raise BadDesignation(
            say(
                '"{written}": number sizes run from #0 to #{largest_gage}; write larger sizes in inches',
                written=written,
                largest_gage=LARGEST_GAGE,
            )
        )
    return GAGE_ZERO + GAGE_STEP * number, f"#{number}"


def _number(value: Fraction) -> str:
    """Threads per inch as written: 13, 4.5."""
    return str(value.numerator) if value.denominator == 1 else f"{float(value):.6g}"


def _right_series(head: str, nominal: Decimal, tpi: Fraction, root: str = "", class_: str = "2A") -> str:
    right, standard = _right(head, nominal, tpi, root, class_), unified.series_of(nominal, tpi)
    if standard:
        return say(
            "{head} is of the {standard} series: write {right}",
            head=head, standard=standard, right=right,
        )
    return say("{head} is of no standard series: write {right}", head=head, right=right)


def _right(head: str, nominal: Decimal, tpi: Fraction, root: str = "", class_: str = "2A") -> str:
    series = unified.series_of(nominal, tpi)
    return f"{head} UN{root}{series[2:] if series else 'S'}-{class_}"


def _check_series(
    written: str, head: str, nominal: Decimal, tpi: Fraction, series: str, root: str, class_: str
) -> None:
    """Refuse a named series that does not have this diameter or this pitch."""
    standard = unified.series_of(nominal, tpi)
    if series == "UNS" and standard:
        raise BadDesignation(
            say(
                '"{written}": {head} is not special, it is of the {standard} series; write '
                "UN{root}{letters} in place of UN{root}S",
                written=written, head=head, standard=standard, root=root, letters=standard[2:],
            )
        )
    if series not in unified.NAMED_SERIES or standard == series:
        return
    right = unified.tpi_in_series(nominal, series)
    if right is not None:
        size = head.rpartition("-")[0]
        raise BadDesignation(
            say(
                '"{written}": {series} of this size has {number} threads per inch, not {written_number}; '
                "write {size}-{number} UN{root}{letters}-{class_}, or {head} UN{root}{part}-{class_}",
                written=written, series=series, number=_number(right), written_number=_number(tpi), size=size,
                root=root, letters=series[2:], class_=class_, head=head, part=(standard or "UNS")[2:],
            )
        )
    right_series = _right_series(head, nominal, tpi, root, class_)
    raise BadDesignation(
        say(
            '"{written}": the {series} series has no such size; {right_series}',
            written=written,
            series=series,
            right_series=right_series,
        )
    )


def _class(written: str, tail: str, head: str) -> str:
    """The class, from what follows the series."""
    tail = re.sub(r"\(\s*2[123]\s*\)", " ", tail)  # gaging system, ASME B1.3
    classes: list[str] = []
    for word in re.split(r"[\s()-]+", tail):
        if re.fullmatch(r"[1-5][AB]", word):
            classes.append(word)
        elif word in ("1", "2", "3"):
            raise BadDesignation(
                say(
                    '"{written}": class {word} needs its letter, A for external threads, B for internal '
                    "ones; write {head}-{word}A",
                    written=written, word=word, head=head,
                )
            )
        elif word in ("SE", "LE"):
            raise BadDesignation(
                say('"{written}": {word} stands for a special length of engagement; write it in inches after '
                "the class, like {head}-2A SE 1.5", written=written, word=word, head=head)
            )
        elif word:
            raise BadDesignation(
                say(
                    '"{written}": "{word}" is not understood after the series; '
                    "write {head}-2A, and -LH at the end for a left-hand thread",
                    written=written,
                    word=word,
                    head=head,
                )
            )
    if len(set(classes)) > 1:
        raise BadDesignation(
            say(
                '"{written}" says two things at once; write one class and one hand, like {head}-2A-LH',
                written=written,
                head=head,
            )
        )
    if not classes:
        raise BadDesignation(
            say('"{written}" names no class; for an external thread write {head}-1A, {head}-2A or {head}-3A, '
            "for an internal one B in place of A", written=written, head=head)
        )
    if classes[0][0] in "45":
        side = classes[0][1]
        raise BadDesignation(
            say(
                '"{written}": Unified threads have classes 1{side}, 2{side} and 3{side}; write '
                "{head}-2{side}",
                written=written, side=side, head=head,
            )
        )
    return classes[0]
