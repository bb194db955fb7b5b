"""The comparison with the other lathes as plain text for people: the best lathe, then each other lathe."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from typing import Final

from generator.language.say import later, say
from generator.render.compare_table import (
    JUDGES_NOTHING,
    label_words,
    line_words,
    says_words,
    state,
    summary_words,
)
from generator.sheet.compare import Compared, Verdict
from generator.sheet.figure import System
from generator.sheet.other_lathes import Comparison

WIDTH, INDENT = 100, 4
VERDICT_WORDS: Final[dict[Verdict, str]] = {
    "cannot be done": later("cannot be done"), "changes": later("changes"), "not known": later("not known"),
}  # fmt: skip
STAYS: Final = later("stays")


def compare_lines(compared: Comparison) -> Iterator[str]:
    """Plain text for people: the best lathe, then each other lathe row by row."""
    sheet = compared.here.sheet
    yield say(
        "{job} {title}, planned for {name}", job=sheet.job, title=sheet.title, name=compared.here.lathe.name
    )
    yield ""
    yield summary_words(compared)
    for ranked in compared.ranking:
        yield from _wrapped(f"{ranked.place}. {ranked.on.lathe.name}: {ranked.reason}", INDENT)
    yield str(JUDGES_NOTHING)
    for one in compared.others:
        yield ""
        yield from other_lathe_lines(one, sheet.system)


def other_lathe_lines(one: Compared, system: System) -> Iterator[str]:
    """One other lathe row by row: what cannot be done there, what changes, what stays."""
    yield f"{one.there.lathe.name}: {_verdict_words(one)}"
    yield from _block(one, system)


def _verdict_words(one: Compared) -> str:
    if one.can_be_done:
        return say("nothing stops it there")
    if one.having("cannot be done"):
        return say("it cannot be done there as it is planned")
    return say("what stops it here stops it there")


def _block(one: Compared, system: System) -> Iterator[str]:
    for verdict in VERDICT_WORDS:
        rows = [row for row in one.having(verdict) if state(row, one, system) == "differs"]
        if rows:
            yield f"  {VERDICT_WORDS[verdict]}"
        for row in rows:
            here, there = line_words(row.here, system), line_words(row.there, system)
            values = "" if row.here is None and row.there is None else f": {here} -> {there}"
            yield from _wrapped(f"{label_words(row, system)}{values}", INDENT)
            if row.reason:
                yield from _wrapped(row.reason, 2 * INDENT)
    stays = [row for row in one.rows if row.here is not None and state(row, one, system) == "same"]
    if stays:
        yield f"  {STAYS}"
        yield from _wrapped("; ".join(says_words(row, system) for row in stays), INDENT)


def _wrapped(text: str, indent: int) -> list[str]:
    return textwrap.wrap(
        text, WIDTH, initial_indent=" " * indent, subsequent_indent=" " * (indent + 2), break_on_hyphens=False
    )
