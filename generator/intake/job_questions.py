"""The questions about a new job, in the order of the trade.

What came in, what was measured, which thread it could be, what the work is, how it is held, what it must
carry. Two that measure a thread the same way get the same questions in the same order: clean it, over the
crests, ten pitches, the leaf (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import count

from generator.intake.question import Question
from generator.language.say import later, say

CAME_IN, MEASURED, THREAD = (
    later("What came in"),
    later("What was measured"),
    later("Which thread it could be"),
)
WORK, HELD, CARRIES = later("What the work is"), later("How it is held"), later("What it must carry")
MOST_SECTIONS = 12
READINGS = {  # of the thread that came in: what goes by an instrument, and the answer that names it
    "major": "major_with", "minor": "minor_with", "pitch_over_ten": "pitch_over_ten_with",
    "mate_minor": "mate_with", "mate_major": "mate_with",
}
FOUND = ("major", "minor", "pitch_diameter", "pitch_over_ten", "pitch", "tpi", "lead", "angle", "taper")
OF_THREAD = (*FOUND, "inside", "hand", "starts", "worn")  # what the candidates hang on
BY_OPTION = {  # never asked for, taken where they are given
    "pitch_diameter": later("Pitch diameter, over wires or balls"),
    "pitch": later("From one crest to the next"),
    "lead": later("What the mate advances in one turn"),
    "taper": later("Change of diameter over length"),
}
_LENGTH = later("2 1/4, 57 mm or 20 thou; a bare number is in the job's unit")


@dataclass(frozen=True)
class Known:
    """What the shop has to offer: names of lathes and materials, its unit, the next number, today.

    `candidates` are the threads that the answers so far may mean, nearest first.
    """

    lathes: Sequence[str]
    materials: Sequence[str]
    units: str
    number: str
    today: str
    candidates: Callable[[Mapping[str, str]], Sequence[str]] = field(default=lambda answers: ())


def job_questions(known: Known, answers: Mapping[str, str]) -> Iterator[Question]:
    """The questions in their order; those that depend on an earlier answer come when it is there."""
    yield from _came_in(known, answers)
    yield from _measured(answers)
    yield from _thread(known, answers)
    yield from _work(answers)
    yield from _held(answers)
    yield from _carries(answers)


def _came_in(known: Known, answers: Mapping[str, str]) -> Iterator[Question]:
    yield Question(
        "title",
        CAME_IN,
        say("What is the job, in a few words"),
        "title",
        say("such as Gate stud, new thread"),
        needed=True,
    )
    yield Question("customer", CAME_IN, say("Whose is it"), "customer", say("a code is best: WM-01"))
    yield Question("job", CAME_IN, say("Job number"), "job", default=known.number, needed=True)
    yield Question("received", CAME_IN, say("Day it came in"), "received", default=known.today, needed=True)
    yield Question(
        "units",
        CAME_IN,
        say("Unit of every bare number you write"),
        "units",
        default=known.units,
        needed=True,
        choices=("inch", "mm"),
    )
    lathes = tuple(known.lathes)
    yield Question(
        "lathe",
        CAME_IN,
        say("Which lathe"),
        "lathe",
        default=lathes[0] if len(lathes) == 1 else "",
        needed=True,
        choices=lathes,
    )
    names = ", ".join(list(known.materials)[:12])
    yield Question(
        "material",
        CAME_IN,
        say("Material"),
        "material",
        say("{names}; or unknown", names=names) if names else "",
        default="unknown",
        needed=True,
    )
    if answers.get("material") not in (None, "unknown"):
        yield Question(
            "material_known_by", CAME_IN, say("How is the material known"), "material_known_by",
            choices=(later("certificate"), later("stamp"), later("word"), later("guess")),
            costs=say("The sheet asks for it: speeds and grip depend on the material."),
        )
    yield Question("asked", CAME_IN, say("What the customer asks for"), "asked", say("in their words"))


def _measured(answers: Mapping[str, str]) -> Iterator[Question]:
    yield Question(
        "inside", MEASURED, say("Is the thread in a bore"), "found.inside", default="no", kind="yes or no"
    )
    inside = answers.get("inside") == "yes"
    yield Question(
        "by", MEASURED, say("Who measures"), "", say("a role or initials: machinist 1"),
        costs=say("Sizes are then written as given, not as measured."),
    )
    if inside:
        yield from _reading(
            answers, "minor", say("Bore over the crests, where it is least worn"), "found.minor", _LENGTH
        )
    else:
        yield from _reading(
            answers, "major", say("Diameter over the crests, at the least worn turn"), "found.major", _LENGTH
        )
    yield from _reading(
        answers, "pitch_over_ten", say("From one crest to the tenth after it, with a rule"),
        "found.pitch_over_ten", _LENGTH,
    )
    if not answers.get("pitch_over_ten"):
        yield Question(
            "tpi",
            MEASURED,
            say("Threads in one inch, by the leaf that seats"),
            "found.tpi",
            say("13 or 11 1/2"),
            costs=say("Without a pitch no thread can be told from another."),
        )
    for key, text in BY_OPTION.items():
        if key in answers:
            yield Question(key, MEASURED, text, f"found.{key}")
    if any(answers.get(name) for name in FOUND[:-2]):
        yield Question(
            "angle",
            MEASURED,
            say("Angle of the leaf that seats without rocking"),
            "found.angle",
            say("60, 55, 30 or 29 degrees"),
            costs=say("Inch threads of 55 and of 60 degrees may look the same."),
        )
        yield Question(
            "hand", MEASURED, say("Hand"), "found.hand", default="right",
            choices=(later("right"), later("left")),
        )
        yield Question("starts", MEASURED, say("Starts, counted at the end"), "found.starts", say("1 or 2"))
        yield Question(
            "worn", MEASURED, say("Is it worn"), "found.worn", default="no", kind="yes or no",
        )
    yield from _mate(answers, inside)


def _mate(answers: Mapping[str, str], inside: bool) -> Iterator[Question]:
    yield Question(
        "mate_part", MEASURED, say("What part does the thread fit"), "mate.part", say("nut, clamp ring"),
        costs=say("The sheet asks for the mate, and says nothing of the fit."),
    )
    if not answers.get("mate_part"):
        return
    yield Question(
        "on_bench", MEASURED, say("Is that part here to try"), "mate.on_bench", default="no", kind="yes or no"
    )
    if inside:
        yield from _reading(
            answers, "mate_major", say("Its diameter over the crests"), "mate.major", _LENGTH, "mate_with"
        )
    else:
        yield from _reading(
            answers, "mate_minor", say("Its bore over the crests"), "mate.minor", _LENGTH, "mate_with"
        )


def _reading(
    answers: Mapping[str, str], key: str, text: str, place: str, hint: str, with_: str = ""
) -> Iterator[Question]:
    """A size, and what it was measured with; who measured is asked once."""
    yield Question(key, MEASURED, text, place, hint)
    if answers.get(key) and answers.get("by"):
        yield Question(
            with_ or READINGS[key],
            MEASURED,
            say("Measured with"),
            "",
            say("micrometer 0-1 in, caliper, rule"),
            costs=say("It is then written as given, not as measured."),
        )


def _thread(known: Known, answers: Mapping[str, str]) -> Iterator[Question]:
    candidates = known.candidates(answers)
    yield Question(
        "designation",
        THREAD,
        say("Which thread is to be cut"),
        "operations.0.thread.designation",
        say("its number in the list, or as on a drawing: 1/2-13 UNC-2A, M16x2-6g") if candidates
        else say("as on a drawing: 1/2-13 UNC-2A, M16x2-6g"),
        costs=say("The job then has no thread to cut: write it into the file when you know it."),
        aliases={str(number): one for number, one in enumerate(candidates, 1)},
    )
    if not answers.get("designation"):
        return
    yield Question(
        "thread_length",
        THREAD,
        say("Length of full thread"),
        "operations.0.thread.length",
        _LENGTH,
        needed=True,
    )
    yield Question(
        "fit", THREAD, say("What decides that it fits"), "operations.0.thread.fit", default="wires",
        choices=(later("wires"), later("mate"), later("gauge")),
    )


def _work(answers: Mapping[str, str]) -> Iterator[Question]:
    for number in count(1):
        place = f"work.{number - 1}"
        first = number == 1
        which = (
            say("Length at the chuck end, with what is in the jaws")
            if first
            else say("Length of the next section towards the tailstock, Enter when there is none")
        )
        length = Question(f"length_{number}", WORK, which, f"{place}.length", _LENGTH * first, needed=first)
        yield length
        if not answers.get(length.key) or number == MOST_SECTIONS:
            return
        yield Question(f"od_{number}", WORK, say("Its outside diameter"), f"{place}.od", needed=True)
        yield Question(f"bore_{number}", WORK, say("Its bore, Enter when it is solid"), f"{place}.bore")


def _held(answers: Mapping[str, str]) -> Iterator[Question]:
    yield Question(
        "held",
        HELD,
        say("What holds it"),
        "",
        needed=True,
        choices=(later("chuck"), later("collet"), later("centers"), later("faceplate")),
    )
    held = answers.get("held")
    if held == "chuck":
        yield Question("jaws", HELD, say("Jaws"), "holding.chuck.jaws", needed=True, choices=("3", "4", "6"))
    if held in ("chuck", "collet"):
        yield Question(
            "grip", HELD, say("How much of the work is gripped"), f"holding.{held}.grip", _LENGTH, needed=True
        )
    if held == "faceplate":
        yield Question("clamps", HELD, say("Clamps"), "holding.faceplate.clamps", "3", needed=True)
        yield Question(
            "clamp_circle",
            HELD,
            say("Diameter of the circle they press on"),
            "holding.faceplate.clamp_circle",
            _LENGTH,
            needed=True,
        )
    ends = (later("live"), later("dead"))
    yield Question(
        "center", HELD, say("Center in the tailstock"), "holding.center",
        default="" if held == "centers" else "none", needed=True,
        choices=ends if held == "centers" else (later("none"), *ends),
    )
    if held == "centers":
        yield Question(
            "dog", HELD, say("How much the dog takes"), "holding.centers.dog", _LENGTH, needed=True
        )
    yield Question(
        "steady", HELD, say("Middle of the steady rest from the chuck face"), "holding.steady.at",
        say("or auto to have it placed; Enter for none"),
    )
    yield Question(
        "follow_rest",
        HELD,
        say("Does a follow rest travel with the tool"),
        "holding.follow_rest",
        default="no",
        kind="yes or no",
    )


def _carries(answers: Mapping[str, str]) -> Iterator[Question]:
    yield Question(
        "duty_said", CARRIES, say("What must the part do, as the customer says"), "duty.said",
        say("holds a gate shut; a rope pulls on it"),
        costs=say("The sheet asks for it: people may depend on the part."),
    )
    if not answers.get("duty_said"):
        return
    yield Question("duty_by", CARRIES, say("Who says so"), "duty.by", say("customer, the old drawing"))
    for key, text in (
        ("people", say("Do people depend on it")), ("lifting", say("Does it lift anything")),
        ("brakes", say("Is it part of a brake")),
    ):
        yield Question(key, CARRIES, text, f"duty.{key}", default="no", kind="yes or no")
    yield Question(
        "load", CARRIES, say("Load it must carry"), "duty.load", say("500 lbf or 2.2 kN"),
        costs=say("Then no strength is worked out."),
    )
    yield Question(
        "pressure",
        CARRIES,
        say("Pressure it must hold"),
        "duty.pressure",
        say("150 psi or 10 bar; Enter for none"),
    )
