"""Jaws that stand out past the body of the chuck."""

from __future__ import annotations

from generator.calc.chuck_force import past_body_speed
from generator.language.say import later, say
from generator.sheet.capacity import used_chuck
from generator.sheet.holding.case import Case
from generator.sheet.holding.grip_demand import Gripped
from generator.sheet.lines import Level
from generator.sheet.wording import length_words, rpm_words
from generator.si import Length

GUARD = later("OSHA letter of interpretation, 26 January 1979, citing ANSI B11.6")
PAST = ("grip.past_body", later("Jaws past the body of the chuck"))


def past_body_section(case: Case, gripped: Gripped) -> None:
    """Lay how far the jaws stand out, the lower top speed that follows, and what to do about it."""
    held, desk, system = case.bench.job.holding.chuck, case.desk, case.bench.system
    if held is None:
        return
    chuck = used_chuck(case.bench.job, case.bench.lathe)
    past = _lay_past(case, gripped)
    if past is None:
        return
    speeds = [plan.spindle_speed for plan in case.route.plans if plan.spindle_speed is not None]
    highest, limit = max(speeds, default=0.0), ""
    level: Level = "note"
    if chuck is not None and chuck.top_speed is not None and chuck.diameter is not None:
        top = desk.computed(
            "grip.past_body.speed", say("Top speed with the jaws so far out"),
            past_body_speed(chuck.top_speed.si, chuck.diameter.si, past), "spindle_speed",
            "{marked} × √({body} ÷ ({body} + 4 × {past}))",
            {
                "marked": (chuck.top_speed.si, "spindle_speed"), "body": (chuck.diameter.si, "length"),
                "past": (past, "length"),
            },
            say("centrifugal force of a jaw, derived here; an estimate"), rounds="down",
            note=say("the maker's own figure for reversed jaws comes first"),
        )
        level = "check" if highest > top else "note"
        limit = (
            say(" Keep below {top}, not the {marked} marked on the chuck; the highest step here is "
                "{highest}.",
                top=rpm_words(top), marked=chuck.top_speed.with_unit, highest=rpm_words(highest))
            if highest > top
            else say(" Keep below {top}, not the {marked} marked on the chuck.",
                     top=rpm_words(top), marked=chuck.top_speed.with_unit)
        )
    where = held.past_body.where if held.past_body else held.grip.where
    desk.find(
        "grip-past-body", level,
        say("The jaws stand {past} past the body of the chuck: they strike further out and sit on fewer "
            "teeth of scroll or screw.{limit} Turn the chuck once by hand past carriage and compound, and "
            "guard it where a hand can reach ({guard}).",
            past=length_words(past, system), limit=limit, guard=GUARD),
        where,
    )


def _lay_past(case: Case, gripped: Gripped) -> Length | None:
    """As said; else what is sure, since a jaw lies outside of what it grips from outside (m)."""
    held, chuck = case.bench.job.holding.chuck, used_chuck(case.bench.job, case.bench.lathe)
    assert held is not None
    if held.past_body is not None:
        return case.desk.given(*PAST, held.past_body, "length")
    body = chuck.diameter.si if chuck is not None and chuck.diameter is not None else None
    if gripped.inside or body is None or gripped.diameter <= body:
        return None
    return case.desk.computed(
        *PAST, (gripped.diameter - body) / 2, "length", "({d} − {body}) ÷ 2",
        {"d": (gripped.diameter, "length"), "body": (body, "length")},
        say("geometry: the jaws lie outside of the work"), note=say("at least: measure it"), rounds="up",
    )
