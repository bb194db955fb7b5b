"""Which thread came in: what was measured on it, the standard threads nearest to that, and what to decide.

    found_section    the block `found` of the job file on the sheet

The thread to cut is compared with what was found, on whichever side that was measured: of a bore that was
measured for a screw that is cut, it is the other half that is compared.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from generator.errors import Location, OutsideRange
from generator.job.found import Found
from generator.job.model import Job
from generator.language.lists import and_words, or_words
from generator.language.say import first_large, later, say, say_count
from generator.sheet.desk import Desk
from generator.sheet.figure import Figure, Kind, Quantity, System, Working
from generator.sheet.found_words import (
    NAMES,
    disagreement_words,
    distance_words,
    near_miss_sentences,
    special_words,
    twin_sentences,
    within_words,
)
from generator.sheet.lines import Level
from generator.sheet.threading import thread_operation
from generator.si import inch
from generator.threads.designation import Designation
from generator.threads.identify.candidate import Candidate, judge
from generator.threads.identify.measured import TEN, Measured, Name, disagreement
from generator.threads.identify.search import Identification, identify
from generator.threads.identify.twins import twins
from generator.threads.registry import family_of, write_designation

SHOWN: Final = 3
TWINS: Final = 4
PLACES: Final = (later("Nearest thread"), later("Next"), later("Next after that"))
_QUANTITIES: Final[dict[Name, Quantity]] = {"tpi": "tpi", "angle": "angle", "taper": "ratio"}


def found_section(job: Job, desk: Desk) -> None:
    """Lay down what was measured and the nearest threads, and say what must be decided."""
    if job.found is None:
        return
    system = job.units or ("inch" if _in_inches(job.found) else "mm")
    measured, where = job.found.measured(), job.found.given()[0][1].where
    _lay_measured(job.found, measured, system, desk)
    answer = identify(measured, "in" if system == "inch" else "mm")
    _lay_candidates(answer, system, desk)
    if (names := disagreement(measured)) is not None:
        desk.find("found-pitch", "check", first_large(disagreement_words(measured, names, system)), where)
        return  # nothing can be told from readings of which one is wrong
    wanted = thread_operation(job)
    to_cut = _compared(wanted.read(), measured) if wanted is not None else None
    if to_cut is not None:
        if _find_differs(job, to_cut, answer, where, system, desk):
            return
    elif not answer.fitting:
        desk.find(
            "found-none", "check",
            say(
                "No standard thread fits what was measured; the nearest is {nearest}. Measure again, or "
                "make it to the mate. {special}",
                nearest=answer.candidates[0].text, special=_sentence(special_words(answer.special)),
            ),
            where,
        )
    _find_twins(to_cut, answer, where, system, desk)


def _in_inches(found: Found) -> bool:
    unit = next((one.unit for _, one in found.given() if one.quantity == "length"), "in")
    return unit in ("in", "inch", "inches", '"', "thou")


def _lay_measured(found: Found, measured: Measured, system: System, desk: Desk) -> None:
    """Every reading as written, with how well it is known; the pitch worked out where it was not measured."""
    starts = say(", {starts} starts", starts=found.starts) if found.starts and found.starts > 1 else ""
    desk.lay(
        Figure(
            "found.thread",
            say("Thread that came in"),
            say(
                "{side}, {hand}{starts}{worn}",
                side=say("inside") if found.inside else say("outside"),
                hand=say("left hand") if found.hand == "left" else say("right hand"),
                starts=starts,
                worn=say(", worn") * found.worn,
            ),
            "text",
            Kind.GIVEN,
            say("given in the file"),
        )
    )
    known = dict(measured.readings())
    for name, given in found.given():
        one = known[name]
        within = within_words(name, one, system)
        desk.given(
            f"found.{name}",
            first_large(str(NAMES[name])),
            given,
            _QUANTITIES.get(name, "length"),
            note=say("within {within}", within=within) if one.said
            else say("within {within}, assumed", within=within),
        )
    if found.pitch is None and found.pitch_over_ten is not None:
        desk.computed(
            "found.pitch",
            say("Pitch"),
            found.pitch_over_ten.si / TEN,
            "fine_length",
            f"{{ten pitches}} ÷ {TEN}",
            {"ten pitches": (found.pitch_over_ten.si, "length")},
            say("arithmetic"),
            system=system,
        )
    elif found.pitch is None and found.tpi is not None:
        desk.computed(
            "found.pitch", say("Pitch"), inch / found.tpi.si, "fine_length", say("1 ÷ {n} inch"),
            {"n": (found.tpi.si, "tpi")}, say("arithmetic"), system=system,
        )
    if found.notes:
        desk.lay(
            Figure(
                "found.notes",
                say("What else was seen"),
                found.notes,
                "text",
                Kind.GIVEN,
                say("given in the file"),
            )
        )


def _lay_candidates(answer: Identification, system: System, desk: Desk) -> None:
    """The nearest threads with the distance of every reading, and the thread as measured."""
    for number, (place, one) in enumerate(zip(PLACES, answer.candidates, strict=False), 1):
        far = "; ".join(distance_words(distance, system) for distance in one.distances)
        desk.lay(
            Figure(
                f"found.candidate.{number}",
                str(place),
                say("{thread}, fits", thread=one.text) if one.fits
                else say("{thread}, does not fit", thread=one.text),
                "text",
                Kind.COMPUTED,
                say(
                    "{standard}; what wear leaves likely is common practice",
                    standard=family_of(one.expected.designation).standard,
                ),
                working=Working(far),
                note=say("{far}; the same thread: {also}", far=far, also=", ".join(one.also)) if one.also
                else far,
            )
        )
    if answer.near_misses:
        said = " ".join(near_miss_sentences(answer.near_misses, system))
        desk.lay(Figure(
            "found.mistaken", say("Easily taken for it"),
            and_words(miss.second.text for miss in answer.near_misses), "text", Kind.COMPUTED,
            say("the standard of each thread; how near is near is common practice"),
            working=Working(said), note=said,
        ))
    kept = answer.special.designation
    desk.lay(Figure(
        "found.special", say("Or no standard thread"), special_words(answer.special), "text",
        Kind.COMPUTED if kept else Kind.GIVEN, say("as measured"),
    ))


def _compared(d: Designation, measured: Measured) -> Candidate | None:
    """The thread to cut, on the side that was measured, against the readings; None where it has no sizes."""
    halves = (d,) if d.internal == measured.inside else family_of(d).mates(d)
    judged = []
    for half in halves:
        try:
            judged.append(judge(replace(half, text=half.text or write_designation(half)), measured))
        except OutsideRange:
            continue
    return min(judged, key=lambda one: (not one.fits, one.score), default=None)


def _find_differs(
    job: Job, to_cut: Candidate, answer: Identification, where: Location, system: System, desk: Desk
) -> bool:
    """Whether the thread to cut is not what was measured; says so."""
    d, measured = to_cut.expected.designation, answer.measured
    far = [distance_words(one, system) for one in to_cut.distances if not one.fits]
    if d.hand != measured.hand:
        far.append(
            say("left hand was found") if measured.hand == "left" else say("right hand was found")
        )
    if measured.starts and measured.starts != d.starts:
        far.append(say_count("{count} start was counted", "{count} starts were counted", measured.starts))
    if not far:
        return False
    fits = [one.text for one in answer.fitting[:SHOWN]]
    nearest = (
        say("What was measured fits {fits}.", fits=or_words(fits))
        if fits
        else say("No standard thread fits it.")
    )
    then = (
        say("Another thread was agreed; see there.") if job.agreed
        else say("Measure again; if another thread is meant, write under agreed why.")
    )
    desk.find(
        "found-differs", "note" if job.agreed else "check",
        say(
            "{thread} does not fit the thread that came in: {far}. {nearest} {then}",
            thread=d.text, far="; ".join(far), nearest=nearest, then=then,
        ),
        where,
        "" if job.agreed else say("Is it meant to get another thread than it had?"),
    )
    return True


def _find_twins(
    to_cut: Candidate | None, answer: Identification, where: Location, system: System, desk: Desk
) -> None:
    """What was measured fits several threads: the one to cut, or the nearest, and others."""
    fitting = list(answer.fitting)
    if to_cut is not None:
        kind = to_cut.expected.kind
        fitting = [to_cut, *(one for one in fitting if one.expected.kind != kind)]
    found = twins(fitting[: TWINS + 1], answer.measured)
    if found:
        left = len(fitting) - TWINS - 1
        more = (
            say_count(" {count} more fits as well.", " {count} more fit as well.", left) if left > 0 else ""
        )
        level: Level = "check" if any(twin.second.common for twin in found) else "note"
        desk.find("found-twin", level, " ".join(twin_sentences(found, system)) + more, where)


def _sentence(words: str) -> str:
    return f"{first_large(words)}."
