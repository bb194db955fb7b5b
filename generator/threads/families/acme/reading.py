"""Acme designations: size, threads per inch or pitch and lead, ACME, class, hand (ASME B1.5)."""

from __future__ import annotations

import re

from generator.errors import BadDesignation
from generator.language.say import later, say
from generator.threads.designation import Designation
from generator.threads.families.acme.limits import CLASSES
from generator.threads.heads import Head, inch_front, inch_head
from generator.threads.text import Written, take_hand

ACCEPTED = later("write it like 1 1/2-4-ACME-2G, or 1.5-0.25P-0.5L-ACME-2G for several starts")


def read_acme(
    text: Written, family: str, word: str, written_word: str, accepted: str, forms: tuple[str, ...] = ()
) -> Designation:
    """The Acme thread that a text names.

    `word` is the pattern of the family's name in capitals, `written_word` how its standard writes it, and
    `forms` the short names of modified forms that may follow it.

    Raises
    ------
    BadDesignation
        With what was written and what would be accepted.
    """
    upper, hand = take_hand(text, text.upper)
    upper = re.sub(rf"^\s*(?:{word})[\s-]+(?=[#\d.])(.*)$", rf"\1 {written_word}", upper)
    head = inch_head(text, upper, accepted)
    class_, form = _tail(text, head, word, written_word, forms)
    return Designation(
        text=text.written,
        family=family,
        series=written_word + (f" {form}" if form else ""),
        nominal=head.nominal,
        nominal_text=head.nominal_text,
        pitch=head.pitch,
        lead=head.lead,
        starts=head.starts,
        class_=class_ or CLASSES[0],
        class_assumed=not class_,
        pitch_assumed=False,
        hand=hand,
        unit="in",
        side=text.side or "external",
        side_assumed=text.side is None,
        tpi=1 / head.pitch,
        form=form,
    )


def write_acme(d: Designation, name: str, class_: str) -> str:
    """Size, pitch, name, class, hand; the side where it is not the external one."""
    said = [inch_front(d.nominal_text, d.pitch, d.lead), name, class_, "LH" if d.hand == "left" else ""]
    return "-".join(part for part in said if part) + (" internal" if d.internal else "")


def _tail(
    text: Written, head: Head, word: str, written_word: str, forms: tuple[str, ...]
) -> tuple[str, str]:
    """Class (empty when left out) and modified form from what follows size and pitch."""
    front = inch_front(head.nominal_text, head.pitch, head.lead)
    rest, named = re.subn(word, " ", head.rest)
    if named != 1:
        raise BadDesignation(
            say(
                '"{written}": write the name once; {front}-{written_word}-2G',
                written=text.written,
                front=front,
                written_word=written_word,
            )
        )
    classes, modified = [], []
    for part in re.split(r"[\s-]+", re.sub(r"\(\s*\)", " ", rest)):
        if part in forms:
            modified.append(part)
        elif re.fullmatch(r"\d[A-Z]", part):
            classes.append(_class(text, part, f"{front}-{written_word}"))
        elif part:
            raise BadDesignation(
                say(
                    '"{written}": "{part}" is not understood; write {front}-{written_word}-2G, and -LH '
                    "at the end for a left-hand thread",
                    written=text.written,
                    part=part,
                    front=front,
                    written_word=written_word,
                )
            )
    if len(set(classes)) > 1 or len(set(modified)) > 1:
        raise BadDesignation(
            say('"{written}" says two things at once; write one class and one form', written=text.written)
        )
    return classes[0] if classes else "", modified[0] if modified else ""


def _class(text: Written, class_: str, front: str) -> str:
    if class_ in CLASSES:
        return class_
    if class_[1] == "C":
        raise BadDesignation(
            say(
                '"{written}": class {class_} is of the centralizing threads, which bear on the major '
                "diameter and have limits of their own (ASME B1.5, section 3); they are not computed here. "
                "Write {front}-2G for the general purpose thread, or take the limits from the standard",
                written=text.written, class_=class_, front=front,
            )
        )
    if class_ == "5G":
        raise BadDesignation(
            say(
                '"{written}": class 5G was dropped from the standard; the finest now is {front}-4G',
                written=text.written,
                front=front,
            )
        )
    raise BadDesignation(
        say('"{written}": Acme threads have classes 2G, 3G and 4G, the same for screw and nut; '
        "write {front}-2G", written=text.written, front=front)
    )
