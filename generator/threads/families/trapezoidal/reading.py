"""Trapezoidal designations: Tr, diameter, pitch, hand, class, engagement (ISO 2902, ISO 2903)."""

from __future__ import annotations

import re
from fractions import Fraction

from generator.errors import BadDesignation
from generator.language.lists import and_words
from generator.language.say import later, say
from generator.threads.designation import Designation
from generator.threads.families.trapezoidal.tables import pitch_rows, pitches_of
from generator.threads.heads import metric_front, metric_head
from generator.threads.text import Written, mixed_number, number_text, take_hand

ACCEPTED = later("write it like Tr 40x7-7e, Tr 40x14(P7)-7e for two starts, or Tr 40x7LH-7e")
NAME = re.compile(r"(?:DIN\s*103(?:-\d)?\s*-?\s*)?TR(?:APEZ[A-Z]*)?\.?\s*(?=[\d.])", re.ASCII)
USUAL = {"external": "7e", "internal": "7H"}


def read_trapezoidal(text: Written) -> Designation:
    """The trapezoidal thread that a text names.

    Raises
    ------
    BadDesignation
        With what was written and what would be accepted.
    """
    upper, hand = take_hand(text, text.upper)
    plain = NAME.sub("", upper, count=1)
    alone = re.fullmatch(r"(\d{1,3}(?:\.\d+)?)(?:\s*-.*)?", plain.strip(), re.ASCII)
    if alone:
        raise BadDesignation(_without_pitch(text, Fraction(alone[1])))
    head = metric_head(text, plain, ACCEPTED)
    front = f"Tr {metric_front(head.nominal_text, head.pitch, head.lead)}"
    class_, group, engagement = _tail(text, head.rest, front)
    if head.pitch not in pitch_rows():
        near = sorted(pitch_rows(), key=lambda pitch: abs(pitch - head.pitch))[:2]
        raise BadDesignation(
            say(
                '"{written}": ISO 2902 has no pitch of {pitch} mm; the nearest are {near} (for several '
                "starts write the lead, and the pitch in brackets: Tr 40x14(P7))",
                written=text.written, pitch=number_text(head.pitch),
                near=and_words(map(number_text, sorted(near))),
            )
        )
    side = text.side or ("internal" if class_[1:] == "H" else "external")
    return Designation(
        text=text.written,
        family="TR",
        series="Tr",
        nominal=head.nominal,
        nominal_text=head.nominal_text,
        pitch=head.pitch,
        lead=head.lead,
        starts=head.starts,
        class_=class_ or USUAL[side],
        class_assumed=not class_,
        pitch_assumed=False,
        hand=hand,
        unit="mm",
        side="internal" if (class_ or USUAL[side])[1] == "H" else "external",
        side_assumed=not class_ and text.side is None,
        engagement_group=group,
        engagement=engagement,
    )


def write_trapezoidal(d: Designation) -> str:
    """Tr, diameter and pitch, LH, class, length or group of engagement."""
    hand = "LH" if d.hand == "left" else ""
    reach = number_text(d.engagement) if d.engagement is not None else d.engagement_group.replace("N", "")
    end = f"-{reach}" if reach else ""
    return f"Tr {metric_front(d.nominal_text, d.pitch, d.lead)}{hand}-{d.class_}{end}"


def _without_pitch(text: Written, nominal: Fraction) -> str:
    size, known = number_text(nominal), pitches_of(nominal)
    if not known:
        return say('"{written}" has no pitch; {accepted}', written=text.written, accepted=ACCEPTED)
    listed = ", ".join(number_text(pitch) for pitch in known)
    return say(
        '"{written}" has no pitch: the standard gives {size} mm the pitches {listed}, the first '
        "preferred; measure it and write Tr {size}x{number_text}-7e",
        written=text.written,
        size=size,
        listed=listed,
        number_text=number_text(known[0]),
    )


def _tail(text: Written, rest: str, front: str) -> tuple[str, str, float | None]:
    """Class (empty when left out), group of engagement, its length (mm) where that is written."""
    classes: list[str] = []
    group, engagement = "N", None
    for part in re.split(r"[\s-]+", rest.strip(" -")):
        number = mixed_number(part) if part else None
        if re.fullmatch(r"\d[A-Z]", part):
            classes.append(_class(text, part, front))
        elif part in ("N", "L"):
            group = part
        elif part == "S":
            raise BadDesignation(
                say(
                    '"{written}": ISO 2903 has the groups N and L of engagement; write {front}-7e',
                    written=text.written,
                    front=front,
                )
            )
        elif "/" in part:
            raise BadDesignation(
                say('"{written}" names a fit of two parts; write the thread to be cut alone, like '
                "{front}-7e, or {front}-7H for the nut", written=text.written, front=front)
            )
        elif number:
            engagement = float(number)
        elif part:
            raise BadDesignation(
                say('"{written}": "{part}" is not understood; write {front}-7e, or {front}LH-7e for the '
                "left hand", written=text.written, part=part, front=front)
            )
    if len(set(classes)) > 1:
        raise BadDesignation(
            say(
                '"{written}" names two classes; write one, like {front}-7e', written=text.written, front=front
            )
        )
    return classes[0] if classes else "", group, engagement


def _class(text: Written, part: str, front: str) -> str:
    grade, letter = part[0], part[1]
    if letter not in "HEC":
        raise BadDesignation(
            say('"{written}": trapezoidal threads have the positions e and c outside and H inside; '
            "write {front}-7e or {front}-7H", written=text.written, front=front)
        )
    if grade not in "789":
        raise BadDesignation(
            say('"{written}": the pitch diameter of trapezoidal threads has the grades 7, 8 and 9; '
            "write {front}-7e, 8e, 8c or 9c outside, 7H, 8H or 9H inside", written=text.written, front=front)
        )
    return grade + (letter if letter == "H" else letter.lower())
