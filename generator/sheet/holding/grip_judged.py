"""The grip there is against the grip wanted, in the words of the findings."""

from __future__ import annotations

from generator.calc.grip import lift_moment
from generator.errors import Location
from generator.job.model import Centers, Chuck, Collet, Faceplate
from generator.sheet.holding.case import Case
from generator.sheet.holding.grip_force import Wanted, jaw_count, rating_of
from generator.sheet.wording import force_words, torque_words
from generator.si import Force, Torque, kN

MUCH_LESS = 0.6      # of the worst cut's grip: worth saying that the others want so little
MOST_LOSS = 2 / 3    # of the grip may go with speed: EN 1550, as a chuck maker's manual quotes it
MOST_OF_CHUCK = 100 * kN   # of large chucks tightened by hand: common practice, no source
MOST_OF_COLLET = 40 * kN   # closed by drawbar or nut: common practice, no source
SCROLL_JAWS = 3
SCROLL = (
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
    wants = f"{_sentence(wanted.worst.words)} wants a grip of {force_words(wanted.at_rest, system)}"
    each = f", {force_words(wanted.at_rest / jaws, system)} a jaw" if jaws else ""
    if rating is None or key is None:
        most = MOST_OF_COLLET if jaws is None else MOST_OF_CHUCK
        much = f", more than most give that are closed by hand: about {force_words(most, system)}"
        over = wanted.at_rest > most
        case.desk.find(
            "grip-unknown", "check" if over else "note",
            f"{wants}{each}{much if over else ''}. {_unknown_words(case)}: measure it with a gauge, or find "
            f"in its maker's papers what it gives ({_keys(case)}).{_scale_words(held)}"
            f"{_friction_words(wanted)}",
            _where(case),
        )
    elif key > rating[0]:
        case.desk.find(
            "grip-over-key", "check",
            f"{wants}, and the chuck is rated {force_words(rating[1], system)} with "
            f"{torque_words(rating[0], system)} on the key. {_remedies(case, wanted)}, or take a larger "
            f"chuck; no pipe on the key.{_friction_words(wanted)}",
            _where(case),
        )
    else:
        case.desk.find(
            "grip-unknown", "note",
            f"{wants}{each}: {torque_words(key, system)} on the key of a clean and greased chuck. Nobody "
            f"said how hard it is tightened (chuck: key_torque).{_friction_words(wanted)}",
            _where(case),
        )


def _unknown_words(case: Case) -> str:
    held = case.bench.job.holding.held
    if isinstance(held, Chuck) and held.key_torque is not None:
        return f"What force {held.key_torque.with_unit} on the key gives is not known"
    return "How hard the collet closes is not known" if isinstance(held, Collet) else (
        "How hard the jaws press is not known"
    )


def _scale_words(held: Chuck | Collet | Faceplate | Centers) -> str:
    """What such a chuck is likely to give, for a first idea."""
    return SCROLL if jaw_count(held) == SCROLL_JAWS else ""


def _keys(case: Case) -> str:
    if case.bench.job.holding.collet is not None:
        return "collet: force, or collets: grip_force in the lathe's record"
    return "chuck: force, or chucks: key_torque and grip_force in the lathe's record"


def _judge(case: Case, wanted: Wanted, force: Force, others: Force | None) -> None:
    desk, system = case.desk, case.bench.system
    inside = wanted.gripped.inside
    turning, taken = force + (wanted.loss if inside else -wanted.loss), 0.0 if inside else wanted.highest
    if taken > MOST_LOSS * force:
        desk.find(
            "grip-speed", "stop",
            f"At the highest step the jaws' own weight takes {force_words(taken, system)} of a grip of "
            f"{force_words(force, system)}; more than two thirds must not go (EN 1550). Run slower.",
            _where(case),
        )
    gone = f" {force_words(wanted.loss, system)} of it goes with speed." if wanted.loss and not inside else ""
    what = f"The grip is {force_words(force, system)} at rest.{gone} {_sentence(wanted.worst.words)}"
    share = turning / wanted.holds if wanted.holds else 1.0
    more = _others_words(case, wanted, others) + _friction_words(wanted)
    if turning < wanted.holds:
        desk.find(
            "grip-low", "stop" if turning < wanted.at_best else "check",
            f"{what} needs {force_words(wanted.holds, system)} before the work slips or comes out: it has "
            f"{max(share, 0.0):.0%} of that. {_remedies(case, wanted)}{_harder(case)}.{more}",
            _where(case),
        )
    elif force < wanted.at_rest:
        desk.find(
            "grip-low", "check",
            f"{what} just holds with {force_words(wanted.holds, system)}; with safety it wants "
            f"{force_words(wanted.at_rest, system)} at rest. {_remedies(case, wanted)}{_harder(case)}; a cut "
            f"of {force / wanted.at_rest:.0%} of that force would do.{more}",
            _where(case),
        )


def _remedies(case: Case, wanted: Wanted) -> str:
    better = "a chuck instead" if case.bench.job.holding.collet is not None else "jaws that grip better"
    support = "Support its end, take" if wanted.worst.overhung and _stands_out(case) else "Take"
    push, around = wanted.worst.push, 2 * wanted.worst.torque / wanted.gripped.diameter
    seat = ""
    if push > around:
        seat = "Seat it against a stop, which takes the push along the lathe (chuck: seated). "
    return f"{seat}{support} less depth or feed, take {better}"


def _harder(case: Case) -> str:
    """A collet closes as hard as it does."""
    return "" if case.bench.job.holding.collet is not None else ", or grip harder"


def _stands_out(case: Case) -> bool:
    """True of work long enough for a rest or center to bear at its end."""
    at_jaws = case.bench.layout.span_at(0.0)
    return at_jaws is not None and case.bench.layout.stick_out > at_jaws.od_at(0.0)


def _friction_words(wanted: Wanted) -> str:
    """What would sharpen a figure that rests on friction which nobody said."""
    if not wanted.friction.unsaid:
        return ""
    guess = f" The friction of {wanted.friction.value:.2g} is the cautious guess"
    return f"{guess}: say {wanted.friction.unsaid}."


def _others_words(case: Case, wanted: Wanted, others: Force | None) -> str:
    if others is None or not wanted.worst.overhung or others > MUCH_LESS * wanted.holds:
        return ""
    return f" Cuts with its other end supported just hold with {force_words(others, case.bench.system)}."


def _judge_lift(case: Case, wanted: Wanted, force: Force | None) -> None:
    """Tipping that lifts a jaw's end, whichever is pressed with: the grip there is, or the one wanted."""
    pressing = force if force is not None else wanted.at_rest
    lift = lift_moment(pressing, wanted.gripped.length)
    tipping = wanted.tips.tipping
    if tipping <= lift:
        return
    system, collet = case.bench.system, case.bench.job.holding.collet is not None
    support = ", support its end" if _stands_out(case) else ""
    case.desk.find(
        "grip-tipping", "check",
        f"In {wanted.tips.words} nothing bears at the other end, and {torque_words(tipping, system)} tips "
        f"the work in the {'collet' if collet else 'jaws'}; from {torque_words(lift, system)} on "
        f"{'it leaves one end of the collet' if collet else 'one end of a jaw lifts'} at "
        f"{force_words(pressing, system)}, and the work rocks and works loose. "
        + ("Grip" if collet else "Seat it against a step of the jaws, grip")
        + f" a longer length, stand it out less{support}, or take lighter cuts.",
        wanted.tips.load.where,
    )


def _where(case: Case) -> Location | None:
    return case.bench.job.holding.grip.where


def _sentence(words: str) -> str:
    return words[:1].upper() + words[1:]
