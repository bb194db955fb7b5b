"""Measurement of an internal thread between two balls: best ball, the ball used, the sizes between two."""

from __future__ import annotations

from generator.calc import balls, wire_choice, wires
from generator.calc.thread_form import lead_angle
from generator.job.shop import Tools
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.figure import Figure, Kind, Quantity
from generator.sheet.threading import Threading
from generator.sheet.wire_sizes import TOOLS_FILE
from generator.sheet.wire_words import best_wire_formula, between_flanks, form_words
from generator.si import Length

GEOMETRY = later("geometry of two balls in opposite grooves")


def lay_balls(
    threading: Threading, tools: Tools, largest: Length, smallest: Length, bore: Length, root: Length,
    desk: Desk,
) -> Length:
    """Lay down balls and the sizes between two for the limits of the pitch diameter; returns the ball (m).

    `bore` is the diameter of the crests, `root` that at the bottom of the groove, beyond which no ball
    goes (m).
    """
    flanks, system, pitch = threading.profile.flanks, threading.system, threading.pitch
    best = desk.computed(
        "thread.balls.best", say("Best ball"), wire_choice.best_wire(pitch, flanks), "fine_length",
        best_wire_formula(wire_choice.best_wire(1.0, flanks)), {"P": (pitch, "fine_length")},
        say("geometry: touches the flanks at the pitch line, as the best wire outside (NBS Handbook H28)"),
        system=system, note=between_flanks(flanks),
    )
    usable = threading.profile.usable_balls(pitch, (smallest - bore) / 2, (root - largest) / 2)
    ball, kind, why = _ball(tools, best, usable)
    desk.lay(
        Figure(
            "thread.balls.size", say("Ball used, two of them"), ball, "fine_length", kind, why, system=system
        )
    )
    _lay_between("max", largest, ball, threading, "down", desk)
    _lay_between("min", smallest, ball, threading, "up", desk)
    _lay_lead(smallest, ball, threading, desk)
    return ball


def _ball(tools: Tools, best: Length, usable: tuple[Length, Length]) -> tuple[Length, Kind, str]:
    """The ball to measure with, how it is known, and why this one."""
    chosen = wire_choice.choose_wire(best, [ball.si for ball in tools.balls], usable)
    if chosen is not None:
        return (
            chosen,
            Kind.SHOP,
            say("{tools_file}: the nearest usable ball of the shop's set", tools_file=TOOLS_FILE),
        )
    why = say("no ball of the shop's set fits") if tools.balls else say("the shop records no balls")
    return (
        wire_choice.fitting(best, usable),
        Kind.ASSUMED,
        say("{why}; one that touches both flanks is taken", why=why),
    )


def _lay_between(
    name: str, diameter: Length, ball: Length, threading: Threading, rounds: str, desk: Desk
) -> None:
    flanks, pitch, starts = threading.profile.flanks, threading.pitch, threading.designation.starts
    between = balls.between_balls(diameter, ball, pitch, starts, flanks)
    simple = balls.ball_circle(diameter, ball, pitch, flanks)
    put: dict[str, tuple[float, Quantity]] = {
        "D2": (diameter, "length"), "W": (ball, "fine_length"), "P": (pitch, "fine_length"),
    }
    circle = f"{{D2}} − {flanks.seat:.6g} × {{W}} + {1 / flanks.tangents:.6f} × {{P}}"
    if balls.form_of(diameter, ball, pitch, threading.lead, flanks) is wires.Form.EXACT:
        circle += " − {lead angle term}"
        exact = balls.ball_circle_exact(diameter, ball, pitch, threading.lead, flanks)
        put["lead angle term"] = (simple - exact, "fine_length")
    offset = " + ({P} ÷ 2)²" if starts % 2 else ""
    desk.computed(
        f"thread.between_balls.{name}", say("Between balls, {name}", name=name), between, "length",
        f"√(({circle})²{offset}) − {{W}}", put, GEOMETRY, rounds=rounds, system=threading.system,
        note=say("where no plug gauge is at hand; balls across from each other, the smallest reading counts"),
    )


def _lay_lead(diameter: Length, ball: Length, threading: Threading, desk: Desk) -> None:
    """What the lead angle takes off the circle of the balls' centers, and which form the sizes are by."""
    flanks, pitch, lead = threading.profile.flanks, threading.pitch, threading.lead
    simple = balls.ball_circle(diameter, ball, pitch, flanks)
    exact = balls.ball_circle_exact(diameter, ball, pitch, lead, flanks)
    form = balls.form_of(diameter, ball, pitch, lead, flanks)
    desk.computed(
        "thread.balls.lead_correction", say("What the lead angle takes off between balls"), simple - exact,
        "fine_length", "{simple circle} − {exact circle}",
        {"simple circle": (simple, "fine_length"), "exact circle": (exact, "fine_length")},
        say("geometry of a ball on both helical flanks; circle of the balls' centers"),
        note=form_words(form, lead_angle(lead, diameter), balls=True), system=threading.system,
    )
