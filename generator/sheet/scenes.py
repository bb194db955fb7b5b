"""What the two drawings show, from the plans: pieces of the work in x, and the groove with its passes."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from generator.job.lathe import Lathe
from generator.job.lathe_parts import Head
from generator.job.model import Chuck, Job
from generator.language.say import say
from generator.sheet.drawn import Piece, SetupScene, ThreadScene
from generator.sheet.layout import Layout, Span
from generator.sheet.plans import HoldingPlan, PassPlan, ReachPlan, ThreadPlan
from generator.sheet.reach_scene import reach_scene
from generator.si import Length

OUTLINE_CHUCK = 1.6  # chuck outline over the gripped diameter when the lathe record does not say
OUTLINE_LENGTH = 0.6  # chuck outline length over its diameter, likewise
DUST = 1e-9  # m: a thread or relief that ends so near to a shoulder ends at it
OUTLINE_STEADY = 0.4  # steady finger width over the diameter, likewise


def setup_scene(
    job: Job,
    lathe: Lathe,
    head: Head | None,
    layout: Layout,
    thread: ThreadPlan | None,
    holding: HoldingPlan,
    reach: ReachPlan | None = None,
) -> SetupScene:
    """The setup from above; outlines that the lathe record does not give are drawn in proportion."""
    held, gripped = job.holding.held, layout.spans[0].od_start
    diameter = head.diameter.si if head and head.diameter else OUTLINE_CHUCK * gripped
    length = head.length.si if head and head.length else OUTLINE_LENGTH * diameter
    width = lathe.steady.width.si if lathe.steady and lathe.steady.width else OUTLINE_STEADY * gripped
    right_hand = thread is None or thread.designation.hand == "right"
    cut_from = None if thread is None else (thread.start if right_hand else thread.end)
    follow_at, follow_width = _follow_rest(job, lathe, layout, cut_from)
    faceplate, centers, chuck = job.holding.faceplate, job.holding.centers, job.holding.chuck
    return SetupScene(
        pieces=tuple(piece for span in layout.spans for piece in _pieces(span, thread)),
        grip=layout.grip,
        jaws=chuck.jaws if chuck else 0,
        chuck_diameter=diameter,
        chuck_length=length,
        steady_at=holding.steady_at,
        steady_width=width,
        center=job.holding.center,
        cut_from=cut_from,
        cut_to=None if thread is None else (thread.end if right_hand else thread.start),
        cross_holes=tuple(
            (layout.stick_out - hole.from_end.si, hole.diameter.si) for hole in job.cross_holes
        ),
        designation=thread.designation.text if thread else "",
        system=job.units or lathe.units,
        job=job.job,
        caption=say("Setup seen from above: {held}", held=", ".join(_holding_words(job, holding))),
        reach=reach_scene(head, reach),
        held=held.kind,
        jaw_words=_jaw_words(chuck) if chuck else "",
        inside=chuck.inside if chuck else False,
        clamps=faceplate.clamps if faceplate else 0,
        clamp_circle=faceplate.clamp_circle.si if faceplate else 0.0,
        dog=centers.dog.si if centers else 0.0,
        follow_rest_at=follow_at,
        follow_rest_width=follow_width,
    )


def _holding_words(job: Job, holding: HoldingPlan) -> list[str]:
    """What holds and supports the work, for the caption."""
    words = [job.holding.held.words]
    if holding.steady_at is not None:
        words.append(say("steady rest"))
    if job.holding.follow_rest:
        words.append(say("follow rest"))
    if job.holding.center:
        words.append(say("live center") if job.holding.center == "live" else say("dead center"))
    return words


def _jaw_words(chuck: Chuck) -> str:
    """What the jaws are called."""
    jaws = say("pie jaws") if chuck.pie_jaws else say("soft jaws") if chuck.soft_jaws else say("jaws")
    return say("{jaws} turned around", jaws=jaws) if chuck.reversed else jaws


def _follow_rest(
    job: Job, lathe: Lathe, layout: Layout, cut_from: Length | None
) -> tuple[Length | None, Length]:
    """Where the jaws of the follow rest are drawn, beside the tool and on the work, and their width (m)."""
    if not job.holding.follow_rest:
        return None, 0.0
    rest, at = lathe.follow_rest, layout.stick_out / 2 if cut_from is None else cut_from
    width = rest.width.si if rest and rest.width else OUTLINE_STEADY * layout.spans[0].od_start
    low, high = sorted((width / 2, layout.stick_out - width / 2))
    return min(max(at, low), high), width


def _pieces(span: Span, thread: ThreadPlan | None) -> list[Piece]:
    """One span of the work, cut where the thread and its relief lie on it or in it."""
    plain = "plain" if span.od_start == span.od_end else "taper"
    if thread is None:
        return [Piece(span.start, span.end, span.od_start, span.od_end, span.bore, plain)]  # type: ignore[arg-type]
    cuts = {span.start, span.end}
    marks = [thread.start, thread.end]
    if thread.relief_start is not None and thread.relief_end is not None:
        marks += [thread.relief_start, thread.relief_end]
    cuts.update(mark for mark in marks if span.start + DUST < mark < span.end - DUST)
    edges = sorted(cuts)
    pieces = []
    for start, end in pairwise(edges):
        middle = (start + end) / 2
        if thread.internal:
            pieces.append(_inside_piece(span, start, end, plain, thread))
        elif thread.end < middle < thread.start:
            pieces.append(
                Piece(start, end, thread.blank, thread.blank, span.bore, "thread", thread.root_diameter)
            )
        elif (
            thread.relief_end is not None
            and thread.relief_start is not None
            and thread.relief_diameter is not None
            and thread.relief_end < middle < thread.relief_start
        ):
            pieces.append(
                Piece(start, end, thread.relief_diameter, thread.relief_diameter, span.bore, "relief")
            )
        else:
            pieces.append(Piece(start, end, _od(span, start), _od(span, end), span.bore, plain))  # type: ignore[arg-type]
    return pieces


def _inside_piece(span: Span, start: float, end: float, plain: str, thread: ThreadPlan) -> Piece:
    """A piece of the work that has an internal thread or its recess in the bore, or neither."""
    middle = (start + end) / 2
    piece = Piece(start, end, _od(span, start), _od(span, end), span.bore, plain)  # type: ignore[arg-type]
    if thread.end < middle < thread.start:
        return replace(piece, bore=thread.blank, root=thread.root_diameter, inside="thread")
    if (
        thread.relief_end is not None
        and thread.relief_start is not None
        and thread.relief_diameter is not None
        and thread.relief_end < middle < thread.relief_start
    ):
        return replace(piece, bore=thread.relief_diameter, inside="relief")
    return piece


def _od(span: Span, x: float) -> float:
    """Outside diameter of a span at x, straight between its ends."""
    share = (x - span.start) / (span.end - span.start)
    return span.od_start + share * (span.od_end - span.od_start)


def thread_scene(job: Job, thread: ThreadPlan, cuts: PassPlan) -> ThreadScene:
    """One groove with its passes; the load flank is drawn on the side that the tool feeds towards."""
    flanks = (thread.flanks.load, thread.flanks.clearance)
    return ThreadScene(
        pitch=thread.pitch,
        flanks=flanks if cuts.towards == "headstock" else flanks[::-1],
        crest_diameter=thread.blank,
        depth=cuts.passes[-1].depth,
        nose_flat=thread.nose_flat,
        nose_radius=thread.nose_radius,
        pass_depths=tuple(line.depth for line in cuts.passes if not line.spring),
        infeed_angle=cuts.infeed_angle,
        feed_towards=cuts.towards,
        designation=thread.designation.text,
        system=thread.system,
        job=job.job,
        internal=thread.internal,
    )
