"""ISO metric designations: M, diameter, pitch, tolerance class, group of engagement, hand (ISO 965-1).

Reading order: `parse_metric`, then pitch and lead, then what follows the first hyphen.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Literal

from generator.errors import BadDesignation
from generator.threads.designation import Designation, Side
from generator.threads.families.metric.pitches import coarse_pitches

CREST_GRADES = "468"  # ISO 965-1: grades of the external major diameter
PITCH_GRADES = "3456789"  # ISO 965-1: grades of the external pitch diameter
INTERNAL_GRADES = "45678"  # ISO 965-1: grades of the internal pitch and minor diameters
POSITIONS = "efgh"
INTERNAL_POSITIONS = "GH"
GROUPS: dict[str, Literal["S", "N", "L"]] = {"S": "S", "N": "N", "L": "L"}  # ISO 965-1: short, normal, long
FINEST_CLASS_DIAMETER = Fraction(16, 10)  # ISO 965-1: without a class, 6g from M1.6 upwards and 6h below

_NUMBER = r"\d{0,3}\.\d{1,4}|\d{1,3}"
_FORM = re.compile(
    rf"M\s*(?P<nominal>{_NUMBER})"
    rf"(?:\s*[X*]\s*(?:PH\s*(?P<lead>{_NUMBER})\s*[- ]?\s*P\s*(?P<of>{_NUMBER})|(?P<pitch>{_NUMBER})))?"
    r"(?:\s*MM\b)?(?P<tail>(?:[^\d.].*)?)",
    re.ASCII | re.IGNORECASE,
)
_ACCEPTED = (
    "write M, the diameter, x and the pitch, then the class, like M10x1.5-6g, M20x1.5-5g6g or M16xPh3 P1.5-6g"
)


def parse_metric(written: str, plain: str, side: Side | None = None) -> Designation:
    """The metric thread that `plain`, the tidied text, names; `written` is quoted in errors.

    `side` decides the class that is taken where none is written.
    """
    found = _FORM.fullmatch(plain)
    if found is None:
        raise BadDesignation(f'"{written}" is not a metric thread designation; {_ACCEPTED}')
    nominal = Fraction(found["nominal"])
    size = _text(nominal)
    if nominal == 0:
        raise BadDesignation(f'"{written}": the diameter must be above zero; {_ACCEPTED}')
    pitch, lead, starts, coarse = _pitch(written, found, nominal, size)
    head = f"M{size}" if coarse else f"M{size}x{_text(pitch)}"
    class_, group, hand = _tail(written, found["tail"], head, starts)
    usual = "6H" if side == "internal" else "6g" if nominal >= FINEST_CLASS_DIAMETER else "6h"
    return Designation(
        text=written,
        family="M",
        series="M",
        nominal=float(nominal),
        nominal_text=size,
        pitch=pitch,
        lead=lead,
        starts=starts,
        class_=class_ or usual,
        class_assumed=not class_,
        pitch_assumed=coarse,
        hand=hand,
        unit="mm",
        side="internal" if (class_ or usual)[1].isupper() else "external",
        engagement_group=group,
    )


def _pitch(
    written: str, found: re.Match[str], nominal: Fraction, size: str
) -> tuple[Fraction, Fraction, int, bool]:
    """Pitch, lead (mm), starts, and whether the coarse pitch was left out."""
    if found["lead"]:
        lead, pitch = Fraction(found["lead"]), Fraction(found["of"])
        if pitch == 0 or lead == 0 or (lead / pitch).denominator != 1:
            raise BadDesignation(f'"{written}": the lead Ph must be a whole number of pitches P; {_ACCEPTED}')
        return pitch, lead, int(lead / pitch), False
    if found["pitch"]:
        pitch = Fraction(found["pitch"])
        if pitch == 0:
            raise BadDesignation(f'"{written}": the pitch must be above zero; {_ACCEPTED}')
        return pitch, pitch, 1, False
    coarse = coarse_pitches().get(nominal)
    if coarse is None:
        raise BadDesignation(
            f'"{written}": ISO 261 has no coarse pitch for M{size}; write the pitch, like M{size}x1.5-6g'
        )
    return coarse, coarse, 1, True


def _text(value: Fraction) -> str:
    return f"{float(value):.6g}"


def _tail(
    written: str, tail: str, head: str, starts: int
) -> tuple[str, Literal["S", "N", "L"], Literal["right", "left"]]:
    """Tolerance class (empty when left out), group of engagement, hand."""
    tail = re.sub(r"\(\s*(\w+)\s+STARTS?\s*\)", " ", tail, flags=re.IGNORECASE) if starts > 1 else tail
    tail = re.sub(r"\bLEFT[\s-]*HAND(ED)?\b|\bL\.\s*H\.", " LH ", tail, flags=re.IGNORECASE)
    tail = re.sub(r"\bRIGHT[\s-]*HAND(ED)?\b|\bR\.\s*H\.", " RH ", tail, flags=re.IGNORECASE)
    classes: list[str] = []
    groups: list[Literal["S", "N", "L"]] = []
    hands: list[str] = []
    for word in re.split(r"[\s-]+", tail):
        upper = word.upper()
        if re.fullmatch(r"\d[A-Z](\d[A-Z])?", upper):
            classes.append(_class(written, word, head))
        elif upper in ("LH", "RH", "LEFT", "RIGHT"):
            hands.append(upper[0])
        elif upper in GROUPS:
            groups.append(GROUPS[upper])
        elif "/" in word:
            raise BadDesignation(
                f'"{written}" names a fit of two parts; write the thread to be cut alone, like {head}-6g, '
                f"or {head}-6H for the internal one"
            )
        elif word:
            raise BadDesignation(
                f'"{written}": "{word}" is not understood after the pitch; '
                f"write {head}-6g, and -LH at the end for a left-hand thread"
            )
    if len(set(classes)) > 1 or len(set(hands)) > 1 or len(set(groups)) > 1:
        raise BadDesignation(
            f'"{written}" says two things at once; write one class and one hand, like {head}-6g-LH'
        )
    return (
        classes[0] if classes else "",
        groups[0] if groups else "N",
        "left" if hands and hands[0] == "L" else "right",
    )


def _class(written: str, word: str, head: str) -> str:
    """A checked class, pitch diameter first: 6g, 5g6g outside, 6H, 5H6H inside."""
    grade, position = word[0], word[1]
    crest_grade, crest_position = (word[2], word[3]) if len(word) == 4 else (grade, position)
    if position.isupper() != crest_position.isupper():
        raise BadDesignation(
            f'"{written}": {word} mixes a capital letter (internal thread) with a small one (external); '
            f"write {head}-6g or {head}-6H"
        )
    if position.isupper():
        _check_internal(written, word, head, (grade, position), (crest_grade, crest_position))
    else:
        _check_external(written, word, head, (grade, position), (crest_grade, crest_position))
    return f"{grade}{position}" if grade == crest_grade else f"{grade}{position}{crest_grade}{position}"


def _check_internal(
    written: str, word: str, head: str, pitch: tuple[str, str], crest: tuple[str, str]
) -> None:
    """Refuse positions and grades that internal threads do not have."""
    for _, position in (pitch, crest):
        if position not in INTERNAL_POSITIONS:
            raise BadDesignation(
                f'"{written}": internal threads have positions G and H (capital letters); write {head}-6H'
                + (f", or {head}-6{position.lower()} for the external thread" if position in "EF" else "")
            )
    _check_one_position(written, word, head, pitch, crest)
    for (grade, position), diameter in ((pitch, "pitch"), (crest, "minor")):
        if grade not in INTERNAL_GRADES:
            raise BadDesignation(
                f'"{written}": grade {grade} does not exist for the {diameter} diameter of an internal '
                f"thread; 4 to 8 do, like {head}-6{position}"
            )


def _check_external(
    written: str, word: str, head: str, pitch: tuple[str, str], crest: tuple[str, str]
) -> None:
    """Refuse positions and grades that external threads do not have."""
    (grade, position), (crest_grade, crest_position) = pitch, crest
    if position in "abcd" or crest_position in "abcd":
        raise BadDesignation(
            f'"{written}": positions a to d are not computed yet; e, f, g and h are, like {head}-6g'
        )
    if position not in POSITIONS or crest_position not in POSITIONS:
        raise BadDesignation(f'"{written}": external threads have positions e, f, g and h; write {head}-6g')
    _check_one_position(written, word, head, pitch, crest)
    if grade not in PITCH_GRADES:
        raise BadDesignation(
            f'"{written}": grade {grade} does not exist for the pitch diameter; 3 to 9 do, '
            f"like {head}-6{position}"
        )
    if crest_grade not in CREST_GRADES:
        raise BadDesignation(
            f'"{written}": the major diameter has grades 4, 6 and 8 only; write pitch diameter and crest '
            f"apart, like {head}-{grade}{position}6{position}"
        )


def _check_one_position(
    written: str, word: str, head: str, pitch: tuple[str, str], crest: tuple[str, str]
) -> None:
    (grade, position), (crest_grade, crest_position) = pitch, crest
    if position != crest_position:
        raise BadDesignation(
            f'"{written}": pitch diameter and crest at different positions ({word}) are not computed yet; '
            f"write one letter, like {head}-{grade}{position}{crest_grade}{position}"
        )
