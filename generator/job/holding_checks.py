"""Contradictions of the ways of holding: what each of them cannot do, and what stands beside it for nothing.

Positions count from the chuck end of the work, in m.
"""

from __future__ import annotations

from collections.abc import Iterator

from generator.job.contradiction import SAME, Contradiction, length_like, said
from generator.job.model import Centers, Chuck, Collet, Job, Section
from generator.job.operations import Bore, Chamfer, Drill, Face, Operation, Thread, Turn
from generator.job.reading import ReadJob
from generator.job.work_checks import section_lines, total_length
from generator.language.lists import and_words
from generator.language.say import say


def holding_contradictions(read: ReadJob) -> Iterator[Contradiction]:
    """All of them, in the order of the job file."""
    held = read.job.holding.held
    if isinstance(held, Chuck):
        yield from _inside(read, held)
        yield from _jaws(read, held)
    elif isinstance(held, Collet):
        yield from _collet(read, held)
    elif isinstance(held, Centers):
        yield from _dog(read.job, held)
        yield from _in_the_end(read)
    yield from _supports(read)
    yield from _unbalance(read.job)


# -- chuck, collet, dog -----------------------------------------------------------------------------------


def _sections_within(work: list[Section], depth: float) -> Iterator[tuple[Section, float]]:
    """Sections that begin less than a depth from the chuck end, and where each begins (m)."""
    start = 0.0
    for section in work:
        if start >= depth - SAME:
            return
        yield section, start
        start += section.length.si


def _inside(read: ReadJob, chuck: Chuck) -> Iterator[Contradiction]:
    """Jaws that open in a bore need one, as deep as they reach, and of one size."""
    if not chuck.inside:
        return
    where, first = read.where("holding.chuck.inside"), read.job.work[0]
    if first.bore is None:
        yield Contradiction(
            "inside-no-bore", "stop",
            say(
                "The jaws grip from inside (line {line}), and the work has no bore at its chuck end (line "
                "{end_line}).",
                line=where.line,
                end_line=first.od.where.line,
            ),
            where, say("Is there a bore at that end, and how large is it?"),
        )
        return
    for section, start in list(_sections_within(read.job.work, chuck.grip.si))[1:]:
        bore = section.bore.si if section.bore else 0.0
        depth, place = length_like(start, chuck.grip), section.bore or section.od
        if bore < first.bore.si - SAME:
            yield Contradiction(
                "inside-bore-short",
                "stop",
                say(
                    "The jaws reach {grip} into the bore of {bore}, which is only "
                    "{depth} deep (line {line}).",
                    grip=said(chuck.grip),
                    bore=said(first.bore),
                    depth=depth,
                    line=place.where.line,
                ),
                chuck.grip.where,
                say("How deep is the bore, and how far do the jaws go in?"),
            )
            return
        if bore > first.bore.si + SAME:
            yield Contradiction(
                "grip-past-shoulder",
                "check",
                say(
                    "The jaws reach {grip} into the bore, which widens at {depth} from "
                    "{bore} to {place}: they bear only up to there. Grip less.",
                    grip=said(chuck.grip),
                    depth=depth,
                    bore=said(first.bore),
                    place=said(place),
                ),
                chuck.grip.where,
            )
            return


def _jaws(read: ReadJob, chuck: Chuck) -> Iterator[Contradiction]:
    """Kinds of jaws that exclude each other, and a plug without a bore."""
    if chuck.plug and chuck.inside:
        yield Contradiction(
            "plug-inside", "stop",
            say("The jaws grip from inside the bore, and a plug fills it: there is room for one of the two."),
            read.where("holding.chuck.plug"), say("Do the jaws grip from outside or from inside?"),
        )
    elif chuck.plug and not any(one.bore for one, _ in _sections_within(read.job.work, chuck.grip.si)):
        yield Contradiction(
            "plug-no-bore", "check",
            say(
                "A plug fills the bore under the jaws, and the work has no bore in the {grip} that they "
                "hold.",
                grip=said(chuck.grip),
            ),
            read.where("holding.chuck.plug"), say("Is there a bore?"),
        )
    jaws = say("pie jaws") if chuck.pie_jaws else say("soft jaws")
    if not (chuck.soft_jaws or chuck.pie_jaws):
        return
    if chuck.reversed:
        yield Contradiction(
            "jaws-contradict", "check",
            say(
                "The jaws are {jaws} and reversed. Soft jaws are bored where they stand; turned around they "
                "have to be bored again.",
                jaws=jaws,
            ),
            read.where("holding.chuck.reversed"), say("Which jaws are on the chuck?"),
        )
    if chuck.face in ("serrated", "diamond-cut"):
        yield Contradiction(
            "jaws-contradict", "check",
            say(
                "The jaws are {jaws}, and their face is serrated: soft jaws are bored smooth, and hold less "
                "than serrated ones.",
                jaws=jaws,
            )
            if chuck.face == "serrated"
            else say(
                "The jaws are {jaws}, and their face is diamond-cut: soft jaws are bored smooth, and hold "
                "less than diamond-cut ones.",
                jaws=jaws,
            ),
            read.where("holding.chuck.face"), say("Which jaws are on the chuck?"),
        )


def _collet(read: ReadJob, collet: Collet) -> Iterator[Contradiction]:
    """A collet wants round, smooth work."""
    for place, (section, _) in enumerate(_sections_within(read.job.work, collet.grip.si)):
        if section.surface == "rough":
            yield Contradiction(
                "collet-rough", "check",
                say(
                    "The collet holds {grip} of the work, and the surface there is rough: it holds on a few "
                    "high spots, and they spoil the collet. Turn that end first, or take a chuck.",
                    grip=said(collet.grip),
                ),
                read.where(f"work.{place}.surface"),
            )
            return


def _dog(job: Job, centers: Centers) -> Iterator[Contradiction]:
    """The dog on the work, and work that is hollow where a center should go."""
    total = total_length(job.work)
    if centers.dog.si >= total - SAME:
        yield Contradiction(
            "dog-too-long",
            "stop",
            say(
                "The dog takes {dog} of the work, which is {length_like} long "
                "({section_lines}): nothing is left to turn.",
                dog=said(centers.dog),
                length_like=length_like(total, centers.dog),
                section_lines=section_lines(job.work),
            ),
            centers.dog.where,
            say("How much of the work does the dog take?"),
        )
        return
    first = job.work[0]
    for section, start in list(_sections_within(job.work, centers.dog.si))[1:]:
        if abs(section.od.si - first.od.si) > SAME:
            yield Contradiction(
                "dog-past-shoulder",
                "check",
                say(
                    "The dog takes {dog}, past the shoulder at {length_like} "
                    "from {first} to {second}. Set it on one diameter.",
                    dog=said(centers.dog),
                    length_like=length_like(start, centers.dog),
                    first=said(first.od),
                    second=said(section.od),
                ),
                centers.dog.where,
            )
            return


# -- the ends, where centers stand ------------------------------------------------------------------------


def _in_the_end(read: ReadJob) -> Iterator[Contradiction]:
    """Between centers nothing can be done in an end: a center stands there."""
    holding = read.job.holding
    carried = holding.steady is not None and holding.hold_back
    for place, operation in enumerate(read.job.operations):
        where = read.where(f"operations.{place}.{operation.name}")
        name = operation.name.replace("_", " ")
        what = say("{operation} (line {line})", operation=name, line=where.line)
        if _goes_in(operation):
            needs = say(
                "The work turns between centers, and {what} needs the end where a center stands.", what=what
            )
            advice = (
                say(
                    "Take the tailstock center away only with the steady rest set, and the work tied to the "
                    "driving plate."
                )
                if carried
                else say(
                    "Do it before, in a chuck; or set a steady rest, tie the work to the driving plate and "
                    "write hold_back: yes."
                )
            )
            yield Contradiction(
                "centers-in-the-way", "check" if carried else "stop", f"{needs} {advice}", where,
                say("In which setup is it done?"),
            )
        elif isinstance(operation.given, Face):
            yield Contradiction(
                "centers-face", "check",
                say(
                    "The work turns between centers: {what} reaches only as far as the center. Take a half "
                    "center, or face both ends to length before, in a chuck.",
                    what=what,
                ),
                where,
            )


def _goes_in(operation: Operation) -> bool:
    given = operation.given
    if isinstance(given, Drill):
        return not (given.across or (given.from_end is not None and given.from_end.si > 0))
    return operation.center_drill is not None or isinstance(given, Bore) or (
        isinstance(given, Chamfer) and given.inside
    )


def _supports(read: ReadJob) -> Iterator[Contradiction]:
    """Supports that stand beside the others for nothing, or where they cannot."""
    job, holding = read.job, read.job.holding
    if holding.behind_spindle is not None and (holding.centers or holding.faceplate):
        yield Contradiction(
            "behind-spindle-held",
            "stop",
            say(
                "{length} of bar stand out behind the headstock, and the work is held between centers: a "
                "center or the plate closes that way.",
                length=said(holding.behind_spindle),
            )
            if holding.centers
            else say(
                "{length} of bar stand out behind the headstock, and the work is held on the faceplate: a "
                "center or the plate closes that way.",
                length=said(holding.behind_spindle),
            ),
            holding.behind_spindle.where,
            say("How is the work held?"),
        )
    if holding.hold_back and holding.center is not None and holding.centers is None:
        yield Contradiction(
            "hold-back-center",
            "note",
            say("The live center keeps the work in the chuck; a hold-back does nothing beside it.")
            if holding.center == "live"
            else say("The dead center keeps the work in the chuck; a hold-back does nothing beside it."),
            read.where("holding.hold_back"),
        )
    if holding.center is not None:
        ends = [job.work[-1], *([job.work[0]] if holding.centers else [])]
        bores = list(dict.fromkeys(said(one.bore) for one in ends if one.bore is not None))
        if bores:
            yield Contradiction(
                "center-hollow", "check",
                say(
                    "A center is to stand in an end that is bored {listed}. It wants a true chamfer on the "
                    "mouth of the bore and a center large enough for it, or a plug with a center hole, "
                    "fitted so that it cannot turn.",
                    listed=and_words(bores),
                ),
                read.where("holding.center"), say("What does the center run in?"),
            )
    if holding.follow_rest and not any(_along(one) for one in job.operations):
        yield Contradiction(
            "follow-rest-idle",
            "check",
            say(
                "A follow rest is to travel with the tool, and no operation turns or threads along the "
                "outside."
            ),
            read.where("holding.follow_rest"),
            say("Which cut is it for?"),
        )


def _along(operation: Operation) -> bool:
    given = operation.given
    if isinstance(given, Thread):
        return not given.read().internal
    return isinstance(given, Turn) or operation.taper is not None


def _unbalance(job: Job) -> Iterator[Contradiction]:
    heavy, total = job.holding.unbalance, total_length(job.work)
    if heavy is None or heavy.at is None:
        return
    out = total - job.holding.grip.si
    if heavy.at.si > out + SAME:
        yield Contradiction(
            "unbalance-outside",
            "stop",
            say(
                "The mass off the axis is {at} from the chuck face, and the work ends at "
                "{length_like} ({section_lines}).",
                at=said(heavy.at),
                length_like=length_like(out, heavy.at),
                section_lines=section_lines(job.work),
            ),
            heavy.at.where,
            say("Where is the heavy side?"),
        )
