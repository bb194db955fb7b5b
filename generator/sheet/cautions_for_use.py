"""What whoever takes the part back must know before it is used; each rule is one function, as in `cautions`.

The shop judges neither strength nor fitness: these notes say who has to, and what the shop does not know.
"""

from __future__ import annotations

from collections.abc import Callable

from generator.job.model import Mate
from generator.language.say import say
from generator.sheet.caution_setup import PRACTICE, Setup
from generator.sheet.lines import Caution


def cautions_for_use(setup: Setup) -> tuple[Caution, ...]:
    """All notes for the use of this part, in the order of the rules: people first."""
    return tuple(caution for rule in RULES if (caution := rule(setup)) is not None)


def people(setup: Setup) -> Caution | None:
    """People stand on or under it."""
    if setup.duty is None or not setup.duty.people:
        return None
    return Caution(
        "use-people",
        "WARNING",
        say(
            "Before it goes back into use, have strength, material and fitness judged by a competent person, "
            "licensed where local codes ask for it."
        ),
        say("People depend on this part."),
        PRACTICE,
    )


def lifting(setup: Setup) -> Caution | None:
    """It is used for lifting."""
    if setup.duty is None or not setup.duty.lifting:
        return None
    return Caution(
        "use-lifting",
        "WARNING",
        say(
            "Before the first lift, have it examined thoroughly by someone competent who had no part in the "
            "repair."
        ),
        say("This part is used for lifting."),
        say("LOLER 1998 reg. 9 (United Kingdom); local rules elsewhere"),
    )


def brakes(setup: Setup) -> Caution | None:
    """It belongs to brakes."""
    if setup.duty is None or not setup.duty.brakes:
        return None
    return Caution(
        "use-brakes",
        "WARNING",
        say(
            "Do not run on it before the owner's inspection and brake test; local codes decide who may do "
            "them."
        ),
        say("Brakes depend on this part."),
        PRACTICE,
    )


def pressure(setup: Setup) -> Caution | None:
    """It holds pressure."""
    if setup.duty is None or setup.duty.pressure is None:
        return None
    return Caution(
        "use-pressure",
        "WARNING",
        say(
            "Have it inspected and tested under the code that applies before it holds pressure. The shop "
            "does not say that it is safe for any."
        ),
        say("This part holds pressure: {pressure} was said.", pressure=setup.duty.pressure.with_unit),
        say("PSSR 2000 (United Kingdom); ASME BPVC and B31 elsewhere"),
    )


def duty_unknown(setup: Setup) -> Caution | None:
    """Nobody said what it does."""
    if setup.duty is not None:
        return None
    return Caution(
        "use-unknown",
        "WARNING",
        say(
            "If people, lifting, brakes or pressure depend on it, have it judged by a competent person "
            "before use."
        ),
        say("The shop was not told what this part does."),
        PRACTICE,
    )


def material_unknown(setup: Setup) -> Caution | None:
    """Nobody knows what it is made of."""
    if setup.material is not None:
        return None
    return Caution(
        "use-material",
        "WARNING",
        say("Do not load, weld or heat it as if the material were known."),
        say("The material is not known."),
        PRACTICE,
    )


def left_hand(setup: Setup) -> Caution | None:
    """Its nut goes on the other way."""
    if setup.thread is None or setup.thread.designation.hand != "left":
        return None
    return Caution(
        "use-left-hand",
        "NOTICE",
        say(
            "It goes on when turned to the left, against the clock. A wrench pulled the usual way undoes it."
        ),
        say("The thread is left-hand."),
        PRACTICE,
    )


def by_hand(setup: Setup) -> Caution | None:
    """Every fresh thread: clean, oiled, and started by hand."""
    if setup.thread is None:
        return None
    mate = setup.job.mate
    tried = isinstance(mate, Mate) and mate.on_bench
    return Caution(
        "use-by-hand",
        "NOTICE",
        say(
            "Clean and oil both threads and start them by hand. Where it binds, back off and ask: do not "
            "force it with a wrench."
        )
        + (say(" This material seizes when it runs dry.") if setup.galls else ""),
        say("The thread is freshly cut.") if tried else say("The mating part was not here to try."),
        PRACTICE,
    )


RULES: tuple[Callable[[Setup], Caution | None], ...] = (
    people, lifting, brakes, pressure, duty_unknown, material_unknown, left_hand, by_hand,
)
