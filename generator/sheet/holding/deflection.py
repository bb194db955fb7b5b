"""How far the held work gives under every cut, and what that leaves on its diameters."""

from __future__ import annotations

from typing import Final

from generator.language.lists import and_words
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.drawn import PlotScene
from generator.sheet.figure import Quantity
from generator.sheet.holding.case import Case
from generator.sheet.holding.climb import find_climbing, likewise
from generator.sheet.holding.cut_line import ERROR_SHARE, SHEAR_WORTH_SAYING, CutWalk, walk_cuts, walked
from generator.sheet.holding.deflection_plot import deflection_plot
from generator.sheet.holding.give_figures import beam_words, lay_deflection, lay_error, lay_spread
from generator.sheet.holding.held_work import HeldWork
from generator.sheet.holding.lengths import HELD_ALONE_BY, HELD_BY
from generator.sheet.holding.reactions import reactions_section
from generator.sheet.holding.sag import sag_section
from generator.sheet.wording import fine_words
from generator.si import Length, g_n

PRACTICE: Final = later("common practice, no source")
ALL_WORK: Final = 0.98  # of the deflection, from which it is the work's own and not that of what holds it
EDGES: Final = ("chamfer", "face")  # what the work gives under these, nobody measures
RIGID_STEP: Final = 8  # every so many places of the tool are enough to see what stiff supports would do

STIFFNESSES: Final = (
    "holding.chuck_stiffness", "holding.steady_stiffness", "holding.center_stiffness",
    "holding.follow_rest_stiffness",
)

UNKNOWN: Final[tuple[tuple[str, str, Quantity], ...]] = (
    ("holding.force", later("Radial force of the heaviest cut"), "force"),
    ("holding.deflection.max", later("Deflection under the heaviest cut"), "fine_length"),
    ("holding.diameter_error.max", later("Diameter error from the last cut"), "fine_length"),
)


def deflection_section(case: Case) -> tuple[PlotScene, ...]:
    """Lay down deflection along every cut, sag, and what each support carries; return the plot.

    The figures `holding.…` are those of the thread's cut; without one, of the cut that bends the work most.

    Raises
    ------
    OutsideRange
        When the work cannot be taken as a beam.
    """
    held, steady_at, desk = case.held, case.plan.steady_at, case.desk
    _lay_overhang(held, steady_at, desk)
    if held.material is None:
        for name, label, quantity in UNKNOWN:
            desk.unknown(name, label, quantity, say("the material is unknown"))
        return ()
    if steady_at is not None:
        _lay_weight_on_steady(held, steady_at, desk)
    sag_section(case)
    cuts = walk_cuts(case)
    leading = _leading(cuts)
    if leading is None:
        return ()
    _lay_leading(case, leading)
    for cut in _shown(cuts, leading):
        lay_deflection(cut, held, desk)
        if cut.shaped:
            lay_error(cut, held, desk)
            lay_spread(cut, held, desk)
    shaped = [cut for cut in cuts if cut.shaped]
    _find_errors([cut for cut in shaped if cut.load.name != "thread"], held, desk)
    find_climbing(cuts, held, desk)
    reactions_section(case, cuts)
    return deflection_plot(case, leading, shaped)


def _leading(cuts: tuple[CutWalk, ...]) -> CutWalk | None:
    """The thread's cut; without one the cut that bends the work most, one along the work before others."""
    threads = [cut for cut in cuts if cut.load.name == "thread"]
    return next(iter(threads), max(cuts, key=lambda cut: (cut.shaped, cut.deflection), default=None))


def _shown(cuts: tuple[CutWalk, ...], leading: CutWalk) -> list[CutWalk]:
    """The other cuts with figures of their own: those along the work, and the worst of those straight in."""
    others = [cut for cut in cuts if cut is not leading]
    plunged = [cut for cut in others if not cut.shaped and cut.load.name not in EDGES]
    worst = max(plunged, key=lambda cut: cut.deflection, default=None)
    return [cut for cut in others if cut.shaped or cut is worst]


def _lay_overhang(held: HeldWork, steady_at: Length | None, desk: Desk) -> None:
    far = max(held.cut_places(), default=held.layout.stick_out)
    cut_end = held.cut_end if held.cut_end is not None else held.layout.stick_out
    support = steady_at if steady_at is not None and steady_at <= cut_end else 0.0
    desk.computed(
        "holding.overhang",
        say("From the last support to the far end of the cut"),
        far - support,
        "length",
        "{far end of the cut} − {last support}",
        {"far end of the cut": (far, "length"), "last support": (support, "length")},
        say("geometry"),
        note=say("from the steady rest") if support else say("from the {origin}", origin=held.origin),
    )


def _lay_weight_on_steady(held: HeldWork, steady_at: Length, desk: Desk) -> None:
    carried = held.beam(steady_at).carried(g_n)
    weight = sum(carried)
    desk.computed(
        "holding.steady.weight",
        say("Weight on the steady rest"),
        carried[1],
        "force",
        "{weight outside the jaws} × {share of it}",
        {"weight outside the jaws": (weight, "force"), "share of it": (carried[1] / weight, "ratio")},
        beam_words(held),
        rounds="up",
    )


def _lay_leading(case: Case, cut: CutWalk) -> None:
    """The figures of the leading cut, and what is to be said of a thread that comes out too uneven."""
    held, desk, load = case.held, case.desk, cut.load
    share = load.heaviest.radial / load.heaviest.main
    desk.computed(
        "holding.force",
        say("Radial force of the heaviest cut"),
        load.heaviest.radial,
        "force",
        "{share} × {F}",
        {"share": (share, "ratio"), "F": (load.heaviest.main, "force")},
        say("Kienzle (1952); {practice}", practice=PRACTICE),
        rounds="up",
        note="" if load.name == "thread" else cut.what,
    )
    places = [*cut.places[::RIGID_STEP], *cut.places[-1:]]
    rigid = walked(case, load, cut.plan, places, rigid=True, shear=cut.sheared).deflection
    note = _shear_words(case, cut)
    if rigid < ALL_WORK * cut.deflection:
        stiff = say(
            "it would be {fine_words} if {holders} did not give",
            fine_words=fine_words(rigid, held.system),
            holders=_holders(held, cut),
        )
        note = "; ".join(filter(None, (stiff, note)))
    lay_deflection(cut, held, desk, name="holding.deflection.max", note=note)
    if load.steady and case.plan.steady_at is not None:
        _lay_steady_force(held, cut, desk)
    if cut.shaped:
        error = lay_error(cut, held, desk, name="holding.diameter_error.max")
        lay_spread(cut, held, desk)
        if load.name == "thread":
            _find_thread_error(held, cut, error, rigid, desk)


def _find_thread_error(held: HeldWork, cut: CutWalk, error: Length, rigid: Length, desk: Desk) -> None:
    tolerance = cut.load.tolerance
    if tolerance is None or error <= ERROR_SHARE * tolerance:
        return
    if cut.deflection > cut.load.diameter / 2:
        return  # the finding of the cut that bends it so far says it all
    of_this = ""
    if any(figure.assumed for name, figure in desk.figures.items() if name in STIFFNESSES):
        of_this = say(
            " How much {holders} gave in this is assumed; with no give there it would be {fine_words}.",
            holders=_holders(held, cut),
            fine_words=fine_words(error * rigid / cut.deflection, held.system),
        )
    desk.find(
        "deflection",
        "check",
        say("The work gives {error} on diameter under the last cut, more than a quarter of the pitch "
            "diameter tolerance of {tolerance}.{of_this} Support it nearer the cut, take smaller last cuts, "
            "and measure at both ends of the thread.",
            error=fine_words(error, held.system), tolerance=fine_words(tolerance, held.system),
            of_this=of_this),
        held.job.holding.grip.where,
    )


def _find_errors(cuts: list[CutWalk], held: HeldWork, desk: Desk) -> None:
    """One finding for all cuts but the thread's whose error takes more than a quarter of their tolerance."""
    over = [
        (abs(cut.shape.worst) / cut.load.tolerance, cut)
        for cut in cuts
        if cut.load.tolerance and abs(cut.shape.worst) > ERROR_SHARE * cut.load.tolerance
        and cut.deflection <= cut.load.diameter / 2
    ]
    if not over:
        return
    over.sort(key=lambda one: -one[0])
    worst = over[0][1]
    assert worst.load.tolerance is not None
    desk.find(
        "deflection",
        "check",
        say("The work gives {error} on diameter under the last cut of {what}, more than a quarter of the "
            "tolerance of {tolerance}.{too} Support it nearer the cut, take smaller last cuts, and measure "
            "at both ends and in the middle.",
            error=fine_words(abs(worst.shape.worst), held.system), what=worst.what,
            tolerance=fine_words(worst.load.tolerance, held.system),
            too=likewise([cut for _, cut in over[1:]])),
        worst.load.where,
    )


def _holders(held: HeldWork, cut: CutWalk) -> str:
    """What held the work elastically under this cut."""
    kind = held.job.holding.held.kind
    rests = [say("steady rest")] if cut.load.steady else []
    if cut.load.follow:
        rests.append(say("follow rest"))
    return and_words([HELD_BY[kind], *rests]) if rests else str(HELD_ALONE_BY[kind])


def _shear_words(case: Case, cut: CutWalk) -> str:
    """What shear adds, in so short work that it must not be left out."""
    if not cut.sheared:
        return ""
    place = [float(cut.places[cut.worst])]
    bending = walked(case, cut.load, cut.plan, place, shear=False).deflection
    extra = cut.deflection / bending - 1 if bending > 0 else 0.0
    if extra <= SHEAR_WORTH_SAYING:
        return ""
    much = say("adds about {extra:.0%}", extra=extra) if extra <= 1 else say("is most of it")
    return say("shear of such short work is in it and {much}", much=much)


def _lay_steady_force(held: HeldWork, cut: CutWalk, desk: Desk) -> None:
    reaction = held.steady_stiffness * float(abs(cut.away.watched[1]).max())
    force = cut.load.heaviest.radial
    desk.computed(
        "holding.steady.force",
        say("Force on the steady rest from the cut"),
        reaction,
        "force",
        "{F} × {share of it}",
        {"F": (force, "force"), "share of it": (reaction / force, "ratio")},
        beam_words(held),
        rounds="up",
    )
