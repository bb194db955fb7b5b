"""The answers about a lathe as its file.

    lathe_tree     answers -> the tree of the file; only what was answered
    lathe_text     the file itself: what is missing and wanted is marked as assumed, the rest named at the end
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any, Final

from generator.intake.lathe_questions import ASSUMED, lathe_questions
from generator.intake.question import put, scalar, written
from generator.job.editor_line import editor_line
from generator.job.lathe import Lathe
from generator.job.writing import remarked
from generator.job.written import NOWHERE, Block, Scalar
from generator.language.say import later, say

NOT_READ: Final = later("NOT READ OFF THE LATHE YET: read it, write what it says, and take out assumed.")
REMARKS: Final[dict[str, str]] = {
    "lathe": later("The name of this file; jobs name the lathe by it."),
    "name": later("What the sheets call it."),
    "units": later("A bare number below is in this unit; 12 mm, 3 1/2 in, 20 thou always work."),
    "swing": later("Largest diameters that turn clear: whether work and chuck go in."),
    "between_centers": later(
        "Longest work between centers, nothing else mounted: whether it fits along the bed."
    ),
    "spindle": later(
        "Bore (what goes through), nose (how the chuck is held on it), speeds in turns a minute."
    ),
    "chucks": later(
        "The chucks, by their jaws, with the diameters they grip. Worth adding: length, diameter, "
        "jaw_length, top_speed, mass."
    ),
    "leadscrew": later("Threads in one inch (tpi), or pitch: gears and half nuts hang on it."),
    "thread_dial": later("Teeth of its gear, lines on its face, every how many a number stands; or none."),
    "gearbox": later("The threads on the plate: which levers to set."),
    "change_gears": later("Teeth of every gear there is: what can be made that is not on the plate."),
    "cross_dial": later(
        "Division and turn as marked; reads: radius, what the slide moves, or diameter, what comes off."
    ),
    "compound_dial": later("The same for the compound: every pass is given in its divisions."),
    "steady": later("Diameters the steady rest takes."),
    "follow_rest": later("Diameters the follow rest takes."),
    "power": later("Of the motor: whether a cut stalls it."),
}


def lathe_tree(answers: Mapping[str, str]) -> Block:
    """The tree of a lathe's file, as far as it is answered."""
    tree = Block(NOWHERE)
    tree["lathe"] = scalar(file_name(answers.get("lathe") or say("Lathe 1")))
    for question in lathe_questions(answers):
        said = answers.get(question.key, "")
        if question.key == "thread_dial" and said == "none":
            tree["thread_dial"] = Scalar("none")
        elif said and question.field and not (question.key == "top_speed" and not _has_chuck(answers)):
            put(tree, question, said)
    if "chucks" in tree:
        for jaws, chuck in zip(("3", "4"), tree["chucks"], strict=False):
            chuck["jaws"] = Scalar(jaws)
        tree["chucks"] = [_jaws_first(chuck) for chuck in tree["chucks"] if "grips" in chuck]
    return _ordered(tree)


def lathe_text(answers: Mapping[str, str]) -> str:
    """The text of a lathe's file."""
    tree = lathe_tree(answers)
    assumed = _with_assumed(tree, ASSUMED["mm" if answers.get("units") == "mm" else "inch"])
    remarks = {
        key: [REMARKS[key], *([NOT_READ] if key in assumed else [])] for key in tree if key in REMARKS
    }
    left = [
        f"- {one.text}: {one.costs}" for one in lathe_questions(answers)
        if one.costs and not answers.get(one.key)
    ]
    last = [say("Left for later, and what it costs not to know:"), *left] if left else []
    return editor_line("lathe") + "\n" + remarked(_ordered(tree), remarks, last)


def file_name(name: str) -> str:
    """The name of a lathe's file.

    >>> file_name("L2 Thirteen-inch lathe")
    'l2-thirteen-inch-lathe'
    """
    return re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")[:40].strip("-") or "lathe-1"


def _with_assumed(tree: Block, values: Mapping[str, str]) -> set[str]:
    """Put in what no sheet can do without, marked as assumed; the keys that got some of it."""
    got: set[str] = set()
    swing = tree.setdefault("swing", Block(NOWHERE))
    if "over_bed" not in swing:
        over = swing.pop("over_cross_slide", None)
        swing["over_bed"] = _assumed(values["swing"] if over is None else str(over))
        if over is not None:
            swing["over_cross_slide"] = over
        got.add("swing")
    if "between_centers" not in tree:
        tree["between_centers"] = _assumed(values["between_centers"])
        got.add("between_centers")
    spindle = tree.setdefault("spindle", Block(NOWHERE))
    if "speeds" not in spindle:
        spindle["speeds"] = [{"speed": _assumed(str(one))} for one in written("list", values["speeds"])]
        got.add("spindle")
    if "chucks" not in tree:
        ends = written("range", values["three_jaw"])
        grips = {end: _assumed(str(size)) for end, size in ends.items()}
        tree["chucks"] = [{"jaws": Scalar("3"), "grips": grips}]
        got.add("chucks")
    for dial in ("cross_dial", "compound_dial"):
        if dial not in tree:
            tree[dial] = Block(NOWHERE)
            tree[dial].update(
                division=_assumed(values["division"]), turn=_assumed(values["turn"]), reads=Scalar("radius")
            )
            got.add(dial)
    return got


def _assumed(value: str) -> Block:
    block = Block(NOWHERE)
    block.update(value=scalar(value), assumed=Scalar("yes"))
    return block


def _has_chuck(answers: Mapping[str, str]) -> bool:
    return bool(answers.get("three_jaw"))


def _jaws_first(chuck: Block) -> Block:
    first = Block(NOWHERE)
    first.update(jaws=chuck["jaws"], **{key: value for key, value in chuck.items() if key != "jaws"})
    return first


def _ordered(tree: Any) -> Block:
    """The keys in the order in which one gets at them."""
    first = ("lathe", "name", "units", "swing", "between_centers", "spindle", "chucks", "leadscrew")
    order = (*first, *(key for key in Lathe.model_fields if key not in first))
    ordered = Block(NOWHERE)
    ordered.update({key: tree[key] for key in order if key in tree})
    return ordered
