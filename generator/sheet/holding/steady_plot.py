"""The curve that the steady rest's place was chosen from: diameter error for every place it could take."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from generator.language.say import say
from generator.sheet.drawn import Barred, Curve, Mark, PlotScene
from generator.sheet.holding.cut_line import ERROR_SHARE
from generator.sheet.holding.held_work import HeldWork
from generator.sheet.holding.steady_places import Stretch
from generator.sheet.holding.steady_trial import Tried
from generator.sheet.wording import fine_words, length_words
from generator.si import Length

NAMED = 3  # further places in the table, spread over those that are free


def steady_plot(
    held: HeldWork, tried: Tried, at: Length, best: Length | None, asked: bool
) -> PlotScene:
    """The plot, with the place it has, the better one where there is one, and what bars the others."""
    out = held.layout.stick_out
    curves = [
        Curve(
            say("Diameter error, {of}", of=tried.of),
            tuple((x, 2 * tried.force * give) for x, give in zip(tried.places, tried.gives, strict=True)),
        )
    ]
    thread = held.thread
    if thread is not None and tried.of_thread:
        limit = ERROR_SHARE * (thread.pitch_diameter_max - thread.pitch_diameter_min)
        curves.append(
            Curve(say("A quarter of the pitch diameter tolerance"), ((0.0, limit), (out, limit)), "limit")
        )
    marks = [Mark(say("as asked") if asked else say("steady rest"), at)]
    if best is not None and asked and tried.give(best) < tried.give(at):
        marks.append(Mark(say("least error"), best))
    passed_over = [one for one in tried.drawn if one.rank > tried.rank(at)]
    return PlotScene(
        id="steady",
        title=say("Where the steady rest stands"),
        x_label=say("Middle of the steady rest from the {origin}", origin=held.origin),
        x_quantity="length",
        y_label=say("Largest diameter error along the cut"),
        y_quantity="fine_length",
        curves=tuple(curves),
        heads=(
            say("Place"),
            say("From the {origin}", origin=held.origin),
            say("Diameter error"),
            say("Against it"),
        ),
        columns=("length", "fine_length", "text"),
        rows=_rows(held, tried, at, best, asked),
        caption=say(
            "Steady rest at every place of the work, under {of}. "
            "It cannot stand, or is passed over, where a reason is written.",
            of=tried.of,
        ),
        says=_says(held, tried, at, best, asked),
        system=held.system,
        job=held.job.job,
        marks=tuple(marks),
        barred=_apart((*tried.bars, *passed_over), out),
    )


def _rows(
    held: HeldWork, tried: Tried, at: Length, best: Length | None, asked: bool
) -> tuple[tuple[str, tuple[float | str | None, ...]], ...]:
    """The place it has, the best, the first and last that are free and a few between, from the chuck out."""
    named: dict[Length, str] = {}
    free = list(tried.free)
    for number in range(NAMED + 2 if free else 0):
        named[free[round(number * (len(free) - 1) / (NAMED + 1))]] = ""
    if free:
        named[free[0]], named[free[-1]] = say("nearest to the headstock"), say("nearest to the tailstock")
    if best is not None:
        named[best] = say("least error")
    named[at] = say("as asked") if asked else say("chosen")
    rows = []
    for x in sorted(named):
        bar = next((one for one in tried.bars if one.takes(x)), None) or tried.against(x)
        rows.append((named[x], (x, tried.error(x), bar.why if bar else "")))
    return tuple(rows)


def _says(held: HeldWork, tried: Tried, at: Length, best: Length | None, asked: bool) -> str:
    system = held.system
    here = say(
        "At {place} {of} leaves {error} on diameter",
        place=held.place_words(at), of=tried.of, error=fine_words(tried.error(at), system),
    )
    if asked and best is not None and tried.give(best) < tried.give(at):
        return say(
            "{here}; at {place} it would leave {error}.",
            here=here, place=length_words(best, system), error=fine_words(tried.error(best), system),
        )
    if min(tried.give(x) for x in tried.free or (at,)) < tried.give(at):
        return say("{here}; the places that would leave less have something against them.", here=here)
    return say("{here}; no place that is free leaves less.", here=here)


def _apart(stretches: Sequence[Stretch], out: Length) -> tuple[Barred, ...]:
    """Stretches of the work side by side, each with the first reason that holds there."""
    marks = sorted({0.0, out, *(min(max(x, 0.0), out) for one in stretches for x in (one.start, one.end))})
    found: list[Barred] = []
    for a, b in pairwise(marks):
        middle = (a + b) / 2
        why = next((one.why for one in stretches if one.takes(middle)), "")
        if not why:
            continue
        if found and found[-1].why == why and found[-1].end == a:
            found[-1] = Barred(found[-1].start, b, why)
        else:
            found.append(Barred(a, b, why))
    return tuple(found)
