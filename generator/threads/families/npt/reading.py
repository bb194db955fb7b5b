"""Designations of American taper pipe threads: size, threads per inch, NPT or NPTF, class, hand."""

from __future__ import annotations

import re
from collections.abc import Iterator

from generator.errors import BadDesignation
from generator.language.lists import and_words
from generator.language.say import later, say
from generator.threads.designation import Designation, Side
from generator.threads.families.npt.planes import PipeSize, pipe_sizes
from generator.threads.text import Written, mixed_number, number_text, take_hand, take_starts

ACCEPTED = later("write size, threads per inch and NPT, like 1/2-14 NPT or 2-11.5 NPT-LH")
_MARKS = (
    r"\"|''|\bINCH(?:ES)?\b|\bIN\b\.?|\bO\.?\s?D\b\.?|\bT\.?P\.?I\b\.?|\bTHREADS?\b"
    r"|\bASME\s*B1\.20\.\d\b"
)
_CLASS = re.compile(r"(?:CLASS|CL\.?)?\s*-?\s*(\d)", re.ASCII)
_SIDES: dict[str, Side] = {"M": "external", "F": "internal"}


def read_pipe_thread(
    text: Written, family: str, word: re.Pattern[str], accepted: str, classes: tuple[str, ...] = ()
) -> Designation:
    """The thread that a text names.

    `word` finds the family's name in capitals; its group `side` may be an M or F in front of it. `classes`
    are those that may follow it, the usual one first.

    Raises
    ------
    BadDesignation
        With what was written and what would be accepted.
    """
    upper, hand = take_hand(text, text.upper)
    upper, starts = take_starts(text, upper)
    found = word.search(upper)
    if found is None or len(word.findall(upper)) > 1:
        raise BadDesignation(
            say('"{written}" does not name one thread; {accepted}', written=text.written, accepted=accepted)
        )
    front, back = (re.sub(_MARKS, " ", part, flags=re.ASCII).strip(" -,.()") for part in (
        upper[: found.start()], upper[found.end() :]
    ))
    class_ = ""
    if front:
        class_ = _class(text, back, classes, accepted)
    size = _size(text, front or back, accepted)
    side = _side(text, found)
    pitch, count = size.pitch, starts or 1
    return Designation(
        text=text.written, family=family, series=family, nominal=size.major,
        nominal_text=size.name, pitch=pitch, lead=count * pitch, starts=count,
        class_=class_ or (classes[0] if classes else ""), class_assumed=bool(classes) and not class_,
        pitch_assumed=False, hand=hand, unit="in", side=side or "external", tpi=size.tpi,
        side_assumed=side is None,
    )


def write_pipe_thread(d: Designation, name: str) -> str:
    """As the standard: ``3/8-18 NPT-LH``; starts and side in words where they are not the usual ones."""
    tail = ("-LH" if d.hand == "left" else "") + (
        f" ({d.starts} starts)" if d.starts > 1 else ""
    )
    return f"{d.nominal_text}-{number_text(1 / d.pitch)} {name}{tail}" + (" internal" if d.internal else "")


def size_of(d: Designation) -> PipeSize:
    """The standard's size of a thread that was read here."""
    return next(size for size in pipe_sizes().values() if size.name == d.nominal_text)


def _side(text: Written, found: re.Match[str]) -> Side | None:
    said = _SIDES.get(found["side"] or "")
    if said and text.side and said != text.side:
        raise BadDesignation(
            say('"{written}" is said to be internal and external at once; write one', written=text.written)
        )
    return said or text.side


def _class(text: Written, back: str, classes: tuple[str, ...], accepted: str) -> str:
    """The class behind the name; empty when there is none."""
    if not back:
        return ""
    found = _CLASS.fullmatch(back)
    if found is None or found[1] not in classes:
        hint = say("; the classes are {classes}", classes=and_words(classes)) if classes and found else ""
        raise BadDesignation(
            say(
                '"{written}": "{back}" after the name is not understood{hint}; {accepted}',
                written=text.written,
                back=back,
                hint=hint,
                accepted=accepted,
            )
        )
    return found[1]


def _size(text: Written, body: str, accepted: str) -> PipeSize:
    """The size that `body` names, checked against the threads per inch beside it."""
    if not body:
        raise BadDesignation(
            say('"{written}" has no size; {accepted}', written=text.written, accepted=accepted)
        )
    sizes = pipe_sizes()
    for name, beside in splits(body):
        number = mixed_number(name)
        size = sizes.get(number) if number is not None else None
        if size is None:
            continue
        if not beside:
            return size
        tpi = mixed_number(beside)
        if tpi is None:
            continue
        if tpi != size.tpi:
            right = number_text(size.tpi)
            raise BadDesignation(
                say(
                    '"{written}": pipe size {name} has {right} threads per inch, not '
                    "{number_text}; write {name}-{right}, or look which size it is",
                    written=text.written,
                    name=size.name,
                    right=right,
                    number_text=number_text(tpi),
                )
            )
        return size
    raise BadDesignation(
        say(
            '"{written}" has no pipe size of the standard in front; the sizes are {name}; {accepted}',
            written=text.written,
            name=", ".join(size.name for size in sizes.values()),
            accepted=accepted,
        )
    )


def splits(body: str) -> Iterator[tuple[str, str]]:
    """The whole as a size, then every way to part it into size and threads per inch."""
    yield body, ""
    for gap in re.finditer(r"\s*[-X]\s*|\s+", body):
        if gap.end() < len(body):
            yield body[: gap.start()], body[gap.end() :]
