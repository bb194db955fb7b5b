"""ISO metric designations: M, diameter, pitch, tolerance class, group of engagement, hand (ISO 965-1).

Reading order: `parse_metric`, then pitch and lead, then what follows the first hyphen. Multiple-start
threads are read as ``M16xPh3P1.5``, in the older forms ``M16xL3-P1.5`` and ``M16x3(P1.5)``, and with their
starts in words.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Literal

from generator.errors import BadDesignation
from generator.language.say import later, say
from generator.threads.designation import Designation
from generator.threads.families.metric.grades import usual_class
from generator.threads.families.metric.pitches import coarse_pitches, fine_pitches
from generator.threads.text import Written, number_text, take_hand, take_starts

CREST_GRADES = "468"  # ISO 965-1: grades of the external major diameter
PITCH_GRADES = "3456789"  # ISO 965-1: grades of the external pitch diameter
INTERNAL_GRADES = "45678"  # ISO 965-1: grades of the internal pitch and minor diameters
POSITIONS = "efgh"
INTERNAL_POSITIONS = "GH"
GROUPS: dict[str, Literal["S", "N", "L"]] = {"S": "S", "N": "N", "L": "L"}  # ISO 965-1: short, normal, long

_NUMBER = r"\d{0,3}\.\d{1,4}|\d{1,3}"
_FORM = re.compile(
    rf"M\s*(?P<nominal>{_NUMBER})\s*(?:MM(?![A-WYZ]))?"
    rf"(?:\s*[X*]\s*(?:(?:PH|L)\s*(?P<lead>{_NUMBER})\s*[- ]?\s*\(?\s*P\s*(?P<of>{_NUMBER})\s*\)?"
    rf"|(?P<long>{_NUMBER})\s*\(\s*P\s*(?P<short>{_NUMBER})\s*\)"
    rf"|(?P<pitch>{_NUMBER}))|\s*(?:[X*]\s*P|P(?:ITCH)?|BY)\s*(?P<said>{_NUMBER}))?"
    r"(?:\s*MM\b)?(?P<tail>(?:[^\d.].*)?)",
    re.ASCII | re.IGNORECASE,
)
NAME = re.compile(
    r"(?:(?:DIN(?:\s*ISO)?\s*13(?:-\d{1,2})?|ISO(?:\s*(?:68|261|262|965)(?:-\d)?)?|METRIC)[\s:-]+)?"
    r"M(?P<fine>F)?\s*(?=[\d.])|METRIC[\s:-]*(?=[\d.])",
    re.ASCII,
)
_SPACED = re.compile(
    rf"M\s*(?P<nominal>{_NUMBER})(?:\s*-\s*|\s+)(?P<pitch>{_NUMBER})(?![\d.]|\s*[A-Za-z])", re.ASCII
)
_CLASS_APART = re.compile(r"(?<![\w.])([3-9])\s+([a-hA-H])(?![\w.])", re.ASCII)  # 6 g
_CLASSES_APART = re.compile(r"(?<![\w.])(\d[a-hA-H])\s+(\d[a-hA-H])(?![\w.])", re.ASCII)  # 4g 6g
_ACCEPTED = later(
    "write M, the diameter, x and the pitch, then the class, like M10x1.5-6g, M20x1.5-5g6g or M16xPh3 "
    "P1.5-6g"
)


def parse_metric(text: Written) -> Designation:
    """The metric thread that the tidied text names; its side decides the class where none is written.

    Raises
    ------
    BadDesignation
        With what was written and what would be accepted.

    Examples
    --------
    >>> from generator.threads.text import tidy
    >>> d = parse_metric(tidy("M16 x L3-P1.5 6H LH"))
    >>> d.starts, d.class_, d.hand
    (2, '6H', 'left')

    Source: ISO 965-1.
    """
    written = text.written
    plain = _CLASSES_APART.sub(r"\1\2", _CLASS_APART.sub(r"\1\2", text.plain))
    plain, said_starts = take_starts(text, _capitals_but_classes(plain))
    plain, hand = take_hand(text, plain)
    named = NAME.match(plain)
    plain = "M" + plain[named.end() :] if named else plain
    found = _FORM.fullmatch(_with_x(plain.strip()))
    if found is None:
        raise BadDesignation(
            say(
                '"{written}" is not a metric thread designation; {accepted}',
                written=written,
                accepted=_ACCEPTED,
            )
        )
    nominal = Fraction(found["nominal"])
    size = number_text(nominal)
    if nominal == 0:
        raise BadDesignation(
            say('"{written}": the diameter is zero; {accepted}', written=written, accepted=_ACCEPTED)
        )
    pitch, starts, coarse = _pitch(written, found, nominal, said_starts)
    if coarse and named and named["fine"]:
        raise BadDesignation(
            say(
                '"{written}" is a fine thread without its pitch; write it, like M{size}x1-6g',
                written=written,
                size=size,
            )
        )
    head = f"M{size}" if coarse else f"M{size}x{number_text(pitch)}"
    class_, group = _tail(written, found["tail"], head)
    usual = usual_class(nominal, pitch, text.side == "internal")
    return Designation(
        text=written,
        family="M",
        series="M",
        nominal=float(nominal),
        nominal_text=size,
        pitch=pitch,
        lead=starts * pitch,
        starts=starts,
        class_=class_ or usual,
        class_assumed=not class_,
        pitch_assumed=coarse,
        hand=hand,
        unit="mm",
        side="internal" if (class_ or usual)[1].isupper() else "external",
        engagement_group=group,
    )


def _with_x(plain: str) -> str:
    """M10-1.25 and M10 1.25 with an x between, where that pitch is one of the diameter's in ISO 261."""
    found = _SPACED.match(plain)
    if found is None:
        return plain
    nominal, pitch = Fraction(found["nominal"]), Fraction(found["pitch"])
    if coarse_pitches().get(nominal) != pitch and (nominal, pitch) not in {
        (size, fine) for size, fine, _ in fine_pitches()
    }:
        return plain
    return f"M{found['nominal']}X{found['pitch']}{plain[found.end() :]}"


def _capitals_but_classes(plain: str) -> str:
    """The text in capitals, but for the letters of classes: they say by their case which side is meant."""
    kept = re.split(r"((?<![\d.])\d[a-zA-Z](?:\d[a-zA-Z])?(?![a-zA-Z\d.]))", plain, flags=re.ASCII)
    return "".join(part if at % 2 else part.upper() for at, part in enumerate(kept))


def _pitch(
    written: str, found: re.Match[str], nominal: Fraction, said: int | None
) -> tuple[Fraction, int, bool]:
    """Pitch (mm), starts, and whether the coarse pitch was left out; `said` is the starts in words."""
    if found["lead"] or found["long"]:
        lead, pitch = Fraction(found["lead"] or found["long"]), Fraction(found["of"] or found["short"])
        if pitch == 0 or lead == 0 or (lead / pitch).denominator != 1:
            raise BadDesignation(
                say(
                    '"{written}": the lead Ph is not a whole number of pitches P; {accepted}',
                    written=written,
                    accepted=_ACCEPTED,
                )
            )
        starts = int(lead / pitch)
        if said not in (None, starts):
            raise BadDesignation(
                say(
                    '"{written}" says {said} starts in words, and {starts} by its lead',
                    written=written,
                    said=said,
                    starts=starts,
                )
            )
        return pitch, starts, False
    if found["pitch"] or found["said"]:
        pitch = Fraction(found["pitch"] or found["said"])
        if pitch == 0:
            raise BadDesignation(
                say('"{written}": the pitch is zero; {accepted}', written=written, accepted=_ACCEPTED)
            )
        return pitch, said or 1, False
    coarse = coarse_pitches().get(nominal)
    if coarse is None:
        size = number_text(nominal)
        raise BadDesignation(
            say(
                '"{written}": ISO 261 has no coarse pitch for M{size}; write the pitch, like M{size}x1.5-6g',
                written=written,
                size=size,
            )
        )
    return coarse, said or 1, True


def _tail(written: str, tail: str, head: str) -> tuple[str, Literal["S", "N", "L"]]:
    """Tolerance class (empty when left out) and group of engagement."""
    classes: list[str] = []
    groups: list[Literal["S", "N", "L"]] = []
    for word in re.split(r"[\s-]+", tail):
        upper = word.upper()
        if re.fullmatch(r"\d[A-Z](\d[A-Z])?", upper):
            classes.append(_class(written, word, head))
        elif upper in GROUPS:
            groups.append(GROUPS[upper])
        elif "/" in word:
            raise BadDesignation(
                say('"{written}" names a fit of two parts; write the thread to be cut alone, like {head}-6g, '
                "or {head}-6H for the internal one", written=written, head=head)
            )
        elif word:
            raise BadDesignation(
                say(
                    '"{written}": "{word}" is not understood after the pitch; '
                    "write {head}-6g, and -LH at the end for a left-hand thread",
                    written=written,
                    word=word,
                    head=head,
                )
            )
    if len(set(classes)) > 1 or len(set(groups)) > 1:
        raise BadDesignation(
            say(
                '"{written}" says two things at once; write one class and one hand, like {head}-6g-LH',
                written=written,
                head=head,
            )
        )
    return classes[0] if classes else "", groups[0] if groups else "N"


def _class(written: str, word: str, head: str) -> str:
    """A checked class, pitch diameter first: 6g, 5g6g outside, 6H, 5H6H inside."""
    grade, position = word[0], word[1]
    crest_grade, crest_position = (word[2], word[3]) if len(word) == 4 else (grade, position)
    if position.isupper() != crest_position.isupper():
        raise BadDesignation(
            say('"{written}": {word} mixes a capital letter (internal thread) with a small one (external); '
            "write {head}-6g or {head}-6H", written=written, word=word, head=head)
        )
    if position.isupper():
        _check_internal(written, word, head, (grade, position), (crest_grade, crest_position))
    else:
        _check_external(written, word, head, (grade, position), (crest_grade, crest_position))
    crest = f"{crest_grade}{crest_position}"
    return f"{grade}{position}" if f"{grade}{position}" == crest else f"{grade}{position}{crest}"


def _check_internal(
    written: str, word: str, head: str, pitch: tuple[str, str], crest: tuple[str, str]
) -> None:
    """Refuse positions and grades that internal threads do not have."""
    for _, position in (pitch, crest):
        if position not in INTERNAL_POSITIONS:
            raise BadDesignation(
                say(
                    '"{written}": internal threads have positions G and H (capital letters); write {head}-6H',
                    written=written,
                    head=head,
                )
                + (
                    say(
                        ", or {head}-6{position} for the external thread",
                        head=head, position=position.lower(),
                    )
                    if position in "EF"
                    else ""
                )
            )
    for (grade, position), diameter in ((pitch, "pitch"), (crest, "minor")):
        if grade not in INTERNAL_GRADES:
            raise BadDesignation(
                say(
                    '"{written}": grade {grade} does not exist for the {diameter} diameter of an internal '
                    "thread; 4 to 8 do, like {head}-6{position}",
                    written=written,
                    grade=grade,
                    diameter=diameter,
                    head=head,
                    position=position,
                )
            )


def _check_external(
    written: str, word: str, head: str, pitch: tuple[str, str], crest: tuple[str, str]
) -> None:
    """Refuse positions and grades that external threads do not have."""
    (grade, position), (crest_grade, crest_position) = pitch, crest
    if position in "abcd" or crest_position in "abcd":
        raise BadDesignation(
            say('"{written}": positions a to d are not computed here: take their limits from ISO 965-1; '
            "e, f, g and h are, like {head}-6g", written=written, head=head)
        )
    if position not in POSITIONS or crest_position not in POSITIONS:
        raise BadDesignation(
            say(
                '"{written}": external threads have positions e, f, g and h; write {head}-6g',
                written=written,
                head=head,
            )
        )
    if grade not in PITCH_GRADES:
        raise BadDesignation(
            say('"{written}": grade {grade} does not exist for the pitch diameter; 3 to 9 do, '
            "like {head}-6{position}", written=written, grade=grade, head=head, position=position)
        )
    if crest_grade not in CREST_GRADES:
        raise BadDesignation(
            say(
                '"{written}": the major diameter has grades 4, 6 and 8 only; write pitch diameter and crest '
                "apart, like {head}-{grade}{position}6{position}",
                written=written,
                head=head,
                grade=grade,
                position=position,
            )
        )
