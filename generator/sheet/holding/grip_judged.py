"""The grip there is against the grip wanted, in the words of the findings."""

from __future__ import annotations

from generator.calc.grip import lift_moment
from generator.errors import Location
from generator.job.model import Centers, Chuck, Collet, Faceplate
from generator.language.say import first_large, later, say
from generator.sheet.holding.case import Case
from generator.sheet.holding.grip_force import Wanted, jaw_count, rating_of
from generator.sheet.wording import force_words, torque_words
from generator.si import Force, Torque, kN

MUCH_LESS = 0.6      # of the worst cut's grip: worth saying that the others want so little
MOST_LOSS = 2 / 3    # of the grip may go with speed: EN 1550, as a chuck maker's manual quotes it
MOST_OF_CHUCK = 100 * kN   # of large chucks tightened by hand: common practice, no source
MOST_OF_COLLET = 40 * kN   # closed by drawbar or nut: common practice, no source
SCROLL_JAWS = 3
SCROLL = later(
    " A three-jaw scroll chuck of 8 in (200 mm), clean and greased, gives about 25 to 40 kN (5600 to 9000 "
    "lbf) with 150 to 200 N m (110 to 150 lbf ft) on its key: common practice, no source."
)


def judge_grip(
    case: Case, wanted: Wanted, force: Force | None, key: Torque | None, others: Force | None
) -> None:
    """Lay the findings on the grip there is, None where it is not known, and on the torque the key wants.

    `others` is the grip that just holds the cuts during which the other end is supported.
    """
    if force is None:
        _judge_unknown(case, wanted, key)
    else:
        _judge(case, wanted, force, others)
    _judge_lift(case, wanted, force)


def _judge_unknown(case: Case, wanted: Wanted, key: Torque | None) -> None:
    held, system, rating = case.bench.job.holding.held, case.bench.system, rating_of(case)
    jaws = jaw_count(held)
    what, grip = first_large(wanted.worst.words), force_words(wanted.at_rest, system)
    each = say(", {force} a jaw", force=force_words(wanted.at_rest / jaws, system)) if jaws else ""
    if rating is None or key is None:
        most = MOST_OF_COLLET if jaws is None else MOST_OF_CHUCK
        much = say(
            ", more than most give that are closed by hand: about {most}", most=force_words(most, system)
        )
        over = wanted.at_rest > most
        case.desk.find(
            "grip-unknown", "check" if over else "note",
            say("{what} wants a grip of {grip}{each}{much}. {unknown}: measure it with a gauge, or find in "
                "its maker's papers what it gives ({keys}).{scale}{friction}",
                what=what, grip=grip, each=each, much=much if over else "", unknown=_unknown_words(case),
                keys=_keys(case), scale=_scale_words(held), friction=_friction_words(wanted)),
            _where(case),
        )
    elif key > rating[0]:
        case.desk.find(
            "grip-over-key", "check",
            say("{what} wants a grip of {grip}, and the chuck is rated {rated} with {torque} on the key. "
                "{remedies}, or take a larger chuck; no pipe on the key.{friction}",
                what=what, grip=grip, rated=force_words(rating[1], system),
                torque=torque_words(rating[0], system), remedies=_remedies(case, wanted),
                friction=_friction_words(wanted)),
            _where(case),
        )
    else:
        case.desk.find(
            "grip-unknown", "note",
            say("{what} wants a grip of {grip}{each}: {torque} on the key of a clean and greased chuck. "
                "Nobody said how hard it is tightened (chuck: key_torque).{friction}",
                what=what, grip=grip, each=each, torque=torque_words(key, system),
                friction=_friction_words(wanted)),
            _where(case),
        )


def _unknown_words(case: Case) -> str:
    held = case.bench.job.holding.held
    if isinstance(held, Chuck) and held.key_torque is not None:
        return say("What force {torque} on the key gives is not known", torque=held.key_torque.with_unit)
    if isinstance(held, Collet):
        return say("How hard the collet closes is not known")
    return say("How hard the jaws press is not known")


def _scale_words(held: Chuck | Collet | Faceplate | Centers) -> str:
    """What such a chuck is likely to give, for a first idea."""
    return str(SCROLL) if jaw_count(held) == SCROLL_JAWS else ""


def _keys(case: Case) -> str:
    if case.bench.job.holding.collet is not None:
        return say("collet: force, or collets: grip_force in the lathe's record")
    return say("chuck: force, or chucks: key_torque and grip_force in the lathe's record")


def _judge(case: Case, wanted: Wanted, force: Force, others: Force | None) -> None:
    desk, system = case.desk, case.bench.system
    inside = wanted.gripped.inside
    turning, taken = force + (wanted.loss if inside else -wanted.loss), 0.0 if inside else wanted.highest
    if taken > MOST_LOSS * force:
        desk.find(
            "grip-speed", "stop",
            say("At the highest step the jaws' own weight takes {taken} of a grip of {grip}; more than two "
                "thirds must not go (EN 1550). Run slower.",
                taken=force_words(taken, system), grip=force_words(force, system)),
            _where(case),
        )
    gone = ""
    if wanted.loss and not inside:
        gone = say(" {loss} of it goes with speed.", loss=force_words(wanted.loss, system))
    grip, what, holds = force_words(force, system), first_large(wanted.worst.words), wanted.holds
    share = turning / holds if holds else 1.0
    more = _others_words(case, wanted, others) + _friction_words(wanted)
    if turning < holds:
        desk.find(
            "grip-low", "stop" if turning < wanted.at_best else "check",
            say("The grip is {grip} at rest.{gone} {what} needs {holds} before the work slips or comes out: "
                "it has {share:.0%} of that. {remedies}{harder}.{more}",
                grip=grip, gone=gone, what=what, holds=force_words(holds, system), share=max(share, 0.0),
                remedies=_remedies(case, wanted), harder=_harder(case), more=more),
            _where(case),
        )
    elif force < wanted.at_rest:
        desk.find(
            "grip-low", "check",
            say("The grip is {grip} at rest.{gone} {what} just holds with {holds}; with safety it wants "
                "{wanted} at rest. {remedies}{harder}; a cut of {share:.0%} of that force would do.{more}",
                grip=grip, gone=gone, what=what, holds=force_words(holds, system),
                wanted=force_words(wanted.at_rest, system), remedies=_remedies(case, wanted),
                harder=_harder(case), share=force / wanted.at_rest, more=more),
            _where(case),
        )


def _remedies(case: Case, wanted: Wanted) -> str:
    collet = case.bench.job.holding.collet is not None
    if wanted.worst.overhung and _stands_out(case):
        ways = (
            say("Support its end, take less depth or feed, take a chuck instead") if collet
            else say("Support its end, take less depth or feed, take jaws that grip better")
        )
    else:
        ways = (
            say("Take less depth or feed, take a chuck instead") if collet
            else say("Take less depth or feed, take jaws that grip better")
        )
    push, around = wanted.worst.push, 2 * wanted.worst.torque / wanted.gripped.diameter
    if push <= around:
        return ways
    seat = say("Seat it against a stop, which takes the push along the lathe (chuck: seated).")
    return f"{seat} {ways}"


def _harder(case: Case) -> str:
    """A collet closes as hard as it does."""
    return "" if case.bench.job.holding.collet is not None else say(", or grip harder")


def _stands_out(case: Case) -> bool:
    """True of work long enough for a rest or center to bear at its end."""
    at_jaws = case.bench.layout.span_at(0.0)
    return at_jaws is not None and case.bench.layout.stick_out > at_jaws.od_at(0.0)


def _friction_words(wanted: Wanted) -> str:
    """What would sharpen a figure that rests on friction which nobody said."""
    if not wanted.friction.unsaid:
        return ""
    return say(
        " The friction of {friction:.2g} is the cautious guess: say {unsaid}.",
        friction=wanted.friction.value, unsaid=wanted.friction.unsaid,
    )


def _others_words(case: Case, wanted: Wanted, others: Force | None) -> str:
    if others is None or not wanted.worst.overhung or others > MUCH_LESS * wanted.holds:
        return ""
    return say(
        " Cuts with its other end supported just hold with {grip}.",
        grip=force_words(others, case.bench.system),
    )


def _judge_lift(case: Case, wanted: Wanted, force: Force | None) -> None:
    """Tipping that lifts a jaw's end, whichever is pressed with: the grip there is, or the one wanted."""
    pressing = force if force is not None else wanted.at_rest
    lift = lift_moment(pressing, wanted.gripped.length)
    tipping = wanted.tips.tipping
    if tipping <= lift:
        return
    system, collet = case.bench.system, case.bench.job.holding.collet is not None
    words = {
        "what": wanted.tips.words,
        "tipping": torque_words(tipping, system),
        "lift": torque_words(lift, system),
        "grip": force_words(pressing, system),
        "support": say(", support its end") if _stands_out(case) else "",
    }
    case.desk.find(
        "grip-tipping", "check",
        say("In {what} nothing bears at the other end, and {tipping} tips the work in the collet; from "
            "{lift} on it leaves one end of the collet at {grip}, and the work rocks and works loose. Grip a "
            "longer length, stand it out less{support}, or take lighter cuts.", **words) if collet
        else say("In {what} nothing bears at the other end, and {tipping} tips the work in the jaws; from "
                 "{lift} on one end of a jaw lifts at {grip}, and the work rocks and works loose. Seat it "
                 "against a step of the jaws, grip a longer length, stand it out less{support}, or take "
                 "lighter cuts.", **words),
        wanted.tips.load.where,
    )


def _where(case: Case) -> Location | None:
    return case.bench.job.holding.grip.where
