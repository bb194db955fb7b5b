"""What to do about thin work in jaws: less grip, other jaws, a plug, the face; how to measure lobes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from generator.job.lathe_parts import LatheChuck
from generator.job.model import Chuck
from generator.language.lists import and_words
from generator.language.say import first_large, say
from generator.sheet.capacity import used_head
from generator.sheet.holding.case import Case
from generator.sheet.holding.thin_hold import ALLOWED_SHARE, known, tolerance_of
from generator.sheet.wording import fine_words, force_words, pressure_words, torque_words
from generator.si import Force, Length, Pressure, um

YIELD_SHARE = 0.5  # of the yield strength that the jaws may use; common practice, no source
SOFT_YIELDS = 0.001  # of the elastic modulus: about where soft metal gives; common practice, no source
ALL_YIELD = 0.01  # of the elastic modulus: no metal of a shop bears it; common practice, no source
SEEN = 2 * um      # lobes that a shop can measure


@dataclass(frozen=True)
class Judged:
    """Out-of-round `kept` when let go (None: no force is known) and `allowed`, m; the `largest` grip, N.

    `kinds` is what other jaws would leave at the same force, by key (m).
    """

    kept: Length | None
    allowed: Length
    largest: Force
    kinds: Mapping[str, Length]


def judge_lobes(case: Case, held: Chuck, judged: Judged) -> None:
    """Say whether the grip wanted crosses the grip that the tolerance leaves, and how to measure."""
    system, where = case.bench.system, held.grip.where
    needed, there = known(case, "grip.needed"), known(case, "grip.force")
    allowed, most = fine_words(judged.allowed, system), force_words(judged.largest, system)
    if needed is not None and needed > judged.largest:
        now = ""
        if there is not None and judged.kept is not None:
            now = say(
                " At the {grip} there is it keeps {kept}.",
                grip=force_words(there, system), kept=fine_words(judged.kept, system),
            )
        case.desk.find(
            "thin-grip", "check",
            say("{what} wants a grip of {grip}, but from {most} on what is turned round in these jaws is "
                "more than {allowed} out of round once it is let go.{now} {remedies}",
                what=_asking(case), grip=force_words(needed, system), most=most, allowed=allowed, now=now,
                remedies=_remedies(case, held, judged)),
            where,
        )
    elif there is not None and judged.kept is not None and judged.kept > judged.allowed:
        wanted = ""
        if needed is not None:
            wanted = say("; the cuts want {grip}", grip=force_words(needed, system))
        case.desk.find(
            "thin-out-of-round", "check",
            say("At a grip of {grip} what is turned round in these jaws keeps {kept} out of round once it is "
                "let go, more than {allowed}. For the last cuts slacken the jaws to no more than "
                "{most}{on_key}{wanted}.",
                grip=force_words(there, system), kept=fine_words(judged.kept, system), allowed=allowed,
                most=most, on_key=_on_key(case, judged.largest), wanted=wanted),
            where,
        )
    if judged.kept is not None and judged.kept >= SEEN:
        _say_gauge(case, held)


def judge_size(case: Case, change: Length, *, inside: bool) -> None:
    """Say when a diameter turned to size in the jaws is another once they let go."""
    tolerance, system = tolerance_of(case), case.bench.system
    if tolerance is None or change <= ALLOWED_SHARE * tolerance[0]:
        return
    words = {
        "change": fine_words(change, system), "tolerance": tolerance[1],
        "width": fine_words(tolerance[0], system),
    }
    case.desk.find(
        "thin-size", "check",
        say("The work shrinks by up to {change} on diameter when let go, more than a quarter of the "
            "{tolerance} of {width}. Grip less for the last cuts, and measure it let go before the last one.",
            **words) if inside
        else say("The work grows by up to {change} on diameter when let go, more than a quarter of the "
                 "{tolerance} of {width}. Grip less for the last cuts, and measure it let go before the last "
                 "one.", **words),
        case.bench.job.holding.grip.where,
    )


def judge_crushing(case: Case, stress: Pressure) -> None:
    """Say when the jaws stress the wall to more than half of its yield strength."""
    material, system = case.bench.shop_material, case.bench.system
    if material is None or material.yield_strength is None:
        _judge_unsaid(case, stress)
        return
    limit = material.yield_strength.si
    if stress <= YIELD_SHARE * limit:
        return
    crushed, words = stress > limit, (pressure_words(stress, system), pressure_words(limit, system))
    case.desk.find(
        "thin-crush", "stop" if crushed else "check",
        say("The jaws stress the wall to {stress}, {share:.0%} of the yield strength of {limit}: it is "
            "crushed, stays out of round and comes loose in the jaws. Grip lightly, put a plug in the bore, "
            "or hold it another way.", stress=words[0], share=stress / limit, limit=words[1]) if crushed
        else say("The jaws stress the wall to {stress}, {share:.0%} of the yield strength of {limit}; over "
                 "half, a hard spot or a dirty jaw marks or crushes it, and crushed work comes loose. Grip "
                 "lightly, put a plug in the bore, or hold it another way.",
                 stress=words[0], share=stress / limit, limit=words[1]),
        case.bench.job.holding.grip.where,
    )


def _judge_unsaid(case: Case, stress: Pressure) -> None:
    """The same where nobody said what the material bears: held against its elastic modulus."""
    material, system = case.bench.material, case.bench.system
    if material is None or stress <= SOFT_YIELDS * material.elastic_modulus:
        return
    crushed, soft = stress > ALL_YIELD * material.elastic_modulus, SOFT_YIELDS * material.elastic_modulus
    case.desk.find(
        "thin-crush", "stop" if crushed else "check",
        say("The jaws stress the wall to {stress}, more than any such metal bears: it is crushed, stays out "
            "of round and comes loose in the jaws. Grip lightly, put a plug in the bore, or hold it another "
            "way.",
            stress=pressure_words(stress, system)) if crushed
        else say("The jaws stress the wall to {stress}. What it bears is not in the shop's list (materials: "
                 "yield_strength), and soft metal as stiff as this gives from about {soft} on; crushed work "
                 "comes loose. Grip lightly, put a plug in the bore, or hold it another way.",
                 stress=pressure_words(stress, system), soft=pressure_words(soft, system)),
        case.bench.job.holding.grip.where,
    )


def say_plug(case: Case) -> None:
    """Say what a plug must be like to carry the jaws."""
    case.desk.find(
        "thin-plug", "note",
        say("The plug carries the jaws only where it fits without shake: by as much as it is smaller than "
            "the bore, the wall still gives. Take it out warm or with a jacking screw, not with a hammer."),
        case.bench.job.holding.grip.where,
    )


def _asking(case: Case) -> str:
    """The cut that asks most of the grip."""
    cut = case.desk.figures.get("grip.cut")
    if cut is None or not isinstance(cut.value, str):
        return say("The hardest cut")
    return first_large(cut.value)


def _remedies(case: Case, held: Chuck, judged: Judged) -> str:
    """Other ways to hold it, in the order in which a shop tries them, with what they would leave."""
    keys = [
        ("soft_jaws", say("soft jaws bored to the work")),
        ("six_jaws", say("six jaws")),
        ("pie_jaws", say("pie jaws")),
    ]
    if held.soft_jaws or held.pie_jaws:
        keys = keys[2:] if held.soft_jaws and not held.pie_jaws else []
    system = case.bench.system
    others = [
        (words, judged.kinds[key]) for key, words in keys
        if key in judged.kinds and not (key == "six_jaws" and held.jaws == 6)
    ]
    would = [
        say("{left} with {jaws}", left=fine_words(left, system), jaws=words)
        for words, left in others
        if left <= judged.allowed
    ]
    if would:
        return say(
            "The same grip would leave {listed}. Or carry the wall from inside with a plug or mandrel, clamp "
            "it on its face on the faceplate, or take lighter cuts, which want less grip.",
            listed=and_words(would),
        )
    rest = say(
        "Carry the wall from inside with a plug or mandrel, clamp it on its face on the faceplate, or take "
        "lighter cuts, which want less grip."
    )
    words, least = min(others, key=lambda one: one[1], default=("", 0.0))
    if not words:
        return rest
    even = say("Even {jaws} would leave {left}.", jaws=words, left=fine_words(least, system))
    return f"{even} {rest}"


def _on_key(case: Case, largest: Force) -> str:
    """The same on the key, where the record has what the key gives."""
    head = used_head(case.bench.job, case.bench.lathe)
    if not isinstance(head, LatheChuck) or head.key_torque is None or head.grip_force is None:
        return ""
    torque = largest / head.grip_force.si * head.key_torque.si
    return say(
        ", about {torque} on the key of a clean and greased chuck",
        torque=torque_words(torque, case.bench.system),
    )


def _say_gauge(case: Case, held: Chuck) -> None:
    """Three lobes hide from two points, four from three (ISO 4292, from memory)."""
    if held.jaws == 3:
        text = say(
            "Three jaws leave three lobes, and a micrometer or bore gauge with two points reads the same all "
            "around on them. Use a bore gauge with three points and turn it by 60°, or an indicator: at a "
            "jaw, and midway between two. Measure gripped and let go (ISO 4292)."
        )
    elif held.jaws == 4:
        text = say(
            "Four jaws leave four lobes, and a bore gauge with three points reads the same all around on "
            "them. Use two points, or an indicator: at a jaw, and midway between two. Measure gripped and "
            "let go (ISO 4292)."
        )
    else:
        return
    case.desk.find("thin-gauge", "note", text, held.grip.where)
