"""Contradictions between the thread that is cut and the thread of its mate."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from generator.errors import BadDesignation
from generator.job.contradiction import Contradiction
from generator.job.model import Mate
from generator.job.reading import ReadJob
from generator.language.lists import and_words
from generator.language.say import say, say_count
from generator.threads.registry import Designation, family_of, parse_designation, profile
from generator.units import quoted

SAME_ANGLE: Final = 1e-4  # rad
SAME_TAPER: Final = 1e-6
SAME_ENGAGEMENT: Final = 0.01  # relative: 38 mm is the same as 1 1/2 in


def mate_contradictions(read: ReadJob, named: str, designation: Designation) -> Iterator[Contradiction]:
    """What the thread of the mate, as the job names it, says against the thread to cut, `named`."""
    mate = read.job.mate
    if not isinstance(mate, Mate) or mate.thread is None:
        return
    where = read.where("mate.thread")
    other = _read_mate(mate.thread)
    if other is None:
        yield Contradiction(
            "mate-unread", "note",
            say(
                "The mate's thread {quoted} (line {line}) cannot be read, so it was not compared with "
                "{named}.",
                quoted=quoted(mate.thread),
                line=where.line,
                named=named,
            ),
            where,
        )
        return
    pairs = {
        say("diameter"): (designation.nominal * designation.unit_si, other.nominal * other.unit_si),
        say("pitch"): (float(designation.pitch) * designation.unit_si, float(other.pitch) * other.unit_si),
    }
    differing = [what for what, (one, two) in pairs.items() if abs(one - two) > 1e-6 * one]
    differing += [say("number of starts")] if designation.starts != other.starts else []
    differing += [say("hand")] if designation.hand != other.hand else []
    own_form, its_form = profile(designation), profile(other)
    angles = own_form.flanks, its_form.flanks
    differing += [say("flank angle")] if abs(angles[0].included - angles[1].included) > SAME_ANGLE else []
    tapers = abs(own_form.taper - its_form.taper) > SAME_TAPER
    differing += [say("taper")] if tapers and designation.family != other.family else []  # R goes with Rp
    lengths = [family_of(one).engagements(one) for one in (designation, other)]
    differing += [say("length of engagement")] if not _meet(*lengths) else []
    if differing:
        yield Contradiction(
            "mate-differs",
            "stop",
            say_count(
                "The mate has {thread} (line {line}), and the thread to cut is {named}: {listed} differs.",
                "The mate has {thread} (line {line}), and the thread to cut is {named}: {listed} differ.",
                len(differing),
                thread=mate.thread,
                line=where.line,
                named=named,
                listed=and_words(differing),
            ),
            where,
            say("Which thread does the mate have, and which one is to be cut?"),
        )
    elif other.side == designation.side and not other.class_assumed and _names_side(mate.thread):
        yield Contradiction(
            "mate-same-side",
            "stop",
            say(
                "The mate has {thread} (line {line}), an internal thread, and the thread to cut, {named}, is "
                "internal too: they do not go together.",
                thread=mate.thread,
                line=where.line,
                named=named,
            )
            if designation.internal
            else say(
                "The mate has {thread} (line {line}), an external thread, and the thread to cut, {named}, is "
                "external too: they do not go together.",
                thread=mate.thread,
                line=where.line,
                named=named,
            ),
            where,
            say("Is the thread to be cut outside or inside?"),
        )


def _read_mate(text: str) -> Designation | None:
    """The mate's thread, with a usual class where it names none; None when it cannot be read."""
    for words in (text, _as_external(text)):
        try:
            return parse_designation(words)
        except BadDesignation:
            continue
    return None


def _names_side(text: str) -> bool:
    """True when a designation says by its class whether it is outside or inside."""
    return re.search(r"\b[123]\s*[ABab]\b|[3-9][e-hGH]", text) is not None


def _as_external(text: str) -> str:
    """The mate's designation with a shaft class for its hole class or none: the class is not compared."""
    text = re.sub(r"\b([123])[Bb]\b", r"\1A", text)
    if not re.search(r"[123][Aa]", text):
        text = re.sub(r"(?i)(UN[A-Z]*)", r"\1-2A", text, count=1)
    return re.sub(r"(?<![0-9])[3-9][GH]([3-9][GH])?(?![0-9A-Za-z])", "6g", text)


def _meet(one: tuple[float, float] | None, two: tuple[float, float] | None) -> bool:
    """True when two designations can be meant for one length of engagement."""
    return one is None or two is None or (within(two[0], (0, one[1])) and within(one[0], (0, two[1])))


def within(length: float, asked: tuple[float, float]) -> bool:
    """True for a length of engagement that lies between two."""
    over, up_to = asked
    return over * (1 - SAME_ENGAGEMENT) <= length <= up_to * (1 + SAME_ENGAGEMENT)
