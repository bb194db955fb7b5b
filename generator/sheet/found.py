"""Which thread came in: what was measured on it, the standard threads nearest to that, and what to decide.

    found_section    the block `found` of the job file on the sheet

The thread to cut is compared with what was found, on whichever side that was measured: of a bore that was
measured for a screw that is cut, it is the other half that is compared.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from generator.calc.thread_dial import and_words
from generator.errors import Location, OutsideRange
from generator.job.found import Found
from generator.job.model import Job
from generator.sheet.desk import Desk
from generator.sheet.figure import Figure, Kind, Quantity, System, Working
from generator.sheet.found_words import (
    NAMES,
    disagreement_words,
    distance_words,
    near_miss_sentences,
    reading_words,
    special_words,
    twin_sentences,
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
PLACES: Final = ("Nearest thread", "Next", "Next after that")
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
        said = disagreement_words(measured, names, system)
        desk.find("found-pitch", "check", said[0].upper() + said[1:], where)
        return  # nothing can be told from readings of which one is wrong
    wanted = thread_operation(job)
    to_cut = _compared(wanted.read(), measured) if wanted is not None else None
    if to_cut is not None:
        if _find_differs(job, to_cut, answer, where, system, desk):
            return
    elif not answer.fitting:
        desk.find(
            "found-none", "check",
            f"No standard thread fits what was measured; the nearest is {answer.candidates[0].text}. Measure "
            f"again, or make it to the mate. {_sentence(special_words(answer.special))}",
            where,
        )
    _find_twins(to_cut, answer, where, system, desk)


def _in_inches(found: Found) -> bool:
    unit = next((one.unit for _, one in found.given() if one.quantity == "length"), "in")
    return unit in ("in", "inch", "inches", '"', "thou")


def _lay_measured(found: Found, measured: Measured, system: System, desk: Desk) -> None:
    """Every reading as written, with how well it is known; the pitch worked out where it was not measured."""
    side = "inside" if found.inside else "outside"
    starts = f", {found.starts} starts" if found.starts and found.starts > 1 else ""
    desk.lay(Figure(
        "found.thread", "Thread that came in", f"{side}, {found.hand} hand{starts}{', worn' * found.worn}",
        "text", Kind.GIVEN, "given in the file",
    ))
    known = dict(measured.readings())
    for name, given in found.given():
        label = NAMES[name].capitalize()
        within = reading_words(name, known[name], system).rpartition(", within ")[2]
        desk.given(f"found.{name}", label, given, _QUANTITIES.get(name, "length"), note=f"within {within}")
    if found.pitch is None and found.pitch_over_ten is not None:
        desk.computed(
            "found.pitch", "Pitch", found.pitch_over_ten.si / TEN, "fine_length", f"{{ten pitches}} ÷ {TEN}",
            {"ten pitches": (found.pitch_over_ten.si, "length")}, "arithmetic", system=system,
        )
    elif found.pitch is None and found.tpi is not None:
        desk.computed(
            "found.pitch", "Pitch", inch / found.tpi.si, "fine_length", "1 ÷ {n} inch",
            {"n": (found.tpi.si, "tpi")}, "arithmetic", system=system,
        )
    if found.notes:
        desk.lay(Figure(
            "found.notes", "What else was seen", found.notes, "text", Kind.GIVEN, "given in the file"
        ))


def _lay_candidates(answer: Identification, system: System, desk: Desk) -> None:
    """The nearest threads with the distance of every reading, and the thread as measured."""
    for number, (place, one) in enumerate(zip(PLACES, answer.candidates, strict=False), 1):
        far = "; ".join(distance_words(distance, system) for distance in one.distances)
        desk.lay(Figure(
            f"found.candidate.{number}", place,
            f"{one.text}, {'fits' if one.fits else 'does not fit'}", "text",
            Kind.COMPUTED,
            f"{family_of(one.expected.designation).standard}; what wear leaves likely is common practice",
            working=Working(far),
            note=far + (f"; the same thread: {', '.join(one.also)}" if one.also else ""),
        ))
    if answer.near_misses:
        said = " ".join(near_miss_sentences(answer.near_misses, system))
        desk.lay(Figure(
            "found.mistaken", "Easily taken for it",
            and_words(miss.second.text for miss in answer.near_misses), "text", Kind.COMPUTED,
            "the standard of each thread; how near is near is common practice",
            working=Working(said), note=said,
        ))
    kept = answer.special.designation
    desk.lay(Figure(
        "found.special", "Or no standard thread", special_words(answer.special), "text",
        Kind.COMPUTED if kept else Kind.GIVEN, "as measured",
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
        far.append(f"{measured.hand} hand was found")
    if measured.starts and measured.starts != d.starts:
        far.append(f"{measured.starts} starts were counted")
    if not far:
        return False
    fits = [one.text for one in answer.fitting[:SHOWN]]
    nearest = f"what was measured fits {' or '.join(fits)}" if fits else "no standard thread fits it"
    desk.find(
        "found-differs", "note" if job.agreed else "check",
        f"{d.text} does not fit the thread that came in: {'; '.join(far)}. {_sentence(nearest)} "
        + ("Another thread was agreed; see there." if job.agreed else
           "Measure again; if another thread is meant, write under agreed why."),
        where,
        "" if job.agreed else "Is it meant to get another thread than it had?",
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
        more = f" {left} more fit as well." if left > 0 else ""
        level: Level = "check" if any(twin.second.common for twin in found) else "note"
        desk.find("found-twin", level, " ".join(twin_sentences(found, system)) + more, where)


def _sentence(words: str) -> str:
    return f"{words[0].upper()}{words[1:]}."
