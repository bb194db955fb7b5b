"""The answers as a job file.

    job_tree     answers -> the tree of the file, in the order of its keys
    probe        the same with stand-ins for what is not answered yet, to read what is
    job_text     the file itself, each block with what it is for
    remarks_on   what a key is for, as it stands over it
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

from generator.intake.job_questions import READINGS, Known, job_questions
from generator.intake.question import put, scalar
from generator.job.editor_line import editor_line
from generator.job.model import Job
from generator.job.writing import remark, remarked
from generator.job.written import NOWHERE, Block, Scalar
from generator.language.lists import or_words
from generator.language.say import later, say

SAID_BY_LEAVING_OUT: Final = {
    **dict.fromkeys(("inside", "worn", "on_bench", "follow_rest", "people", "lifting", "brakes"), "no"),
    "center": "none", "hand": "right",
}
BY_LEAF: Final = {  # the question says what it goes by
    "angle": later("angle leaf"), "tpi": later("thread leaf"),
}
REMARKS: Final[dict[str, str]] = {
    "job": later(
        "Which job this is. All of this file can be changed; check it with: python -m generator check"
    ),
    "units": later("A bare number below is in this unit; 12 mm, 3 1/2 in, 20 thou always work."),
    "lathe": later("The lathe it is run on, by the name of its file in _shop/lathes."),
    "material": later("A name in _shop/materials.yml, or unknown."),
    "work": later("The work, section by section, from the chuck end towards the tailstock."),
    "holding": later("How it is held; {ways}, then what supports it."),
    "mate": later("The part that the thread must fit."),
    "found": later(
        "The thread that came in, as it was measured: the sheet compares it with the one to be cut."
    ),
    "duty": later("What the part must do, as somebody said; nobody has judged it."),
    "operations": later(
        "What is done, in order. Where only the thread is written the sheet proposes the rest of the route."
    ),
}
NO_THREAD: Final = later("No thread is decided yet. When it is, take the # away and write it here:")
_EXAMPLE: Final = ("operations:", "  - thread: {designation: 1/2-13 UNC-2A, length: 1 1/4, fit: wires}")
_NONE_KNOWN: Final = Known((), (), "", "", "")


def job_tree(answers: Mapping[str, str], base: Block | None = None) -> Block:
    """The tree of a job file: `base` with the answers set into it; what is not known stays out.

    Parameters
    ----------
    answers : by the names of the questions
    base : what a copied job brings along
    """
    tree = Block(NOWHERE)
    if answers.get("held"):
        tree["holding"] = Block(NOWHERE)
        tree["holding"][answers["held"]] = Block(NOWHERE)
    for question in job_questions(_NONE_KNOWN, answers):
        said = answers.get(question.key, "")
        if not said or not question.field or SAID_BY_LEAVING_OUT.get(question.key) == said:
            continue
        put(tree, question, said)
    _measured(tree, answers)
    if "found" in tree and set(tree["found"]) <= {"inside"}:
        del tree["found"]
    if answers.get("inside") == "yes" and "operations" in tree:
        tree["operations"][0]["thread"]["inside"] = Scalar("yes")
    if answers.get("mate_part") == "" and "mate" not in (base or {}):
        tree.setdefault("mate", Scalar("unknown"))
    if answers.get("duty_said") == "":
        tree.setdefault("duty", Scalar("unknown"))
    whole = {**(base or {}), **tree}
    ordered = Block(NOWHERE)
    ordered.update({key: whole[key] for key in Job.model_fields if key in whole})
    return ordered


def _measured(tree: Block, answers: Mapping[str, str]) -> None:
    """A size of which it is known who measured it with what says so."""
    for key, with_ in READINGS.items():
        block = tree.get("mate" if key.startswith("mate_") else "found")
        name = key.removeprefix("mate_")
        if isinstance(block, dict) and name in block and answers.get("by") and answers.get(with_):
            block[name] = _said(block[name], answers["by"], answers[with_])
    for name, leaf in BY_LEAF.items():
        if name in tree.get("found", ()) and answers.get("by"):
            tree["found"][name] = _said(tree["found"][name], answers["by"], str(leaf))


def _said(value: Scalar, by: str, with_: str) -> Block:
    known = Block(NOWHERE)
    known.update({"value": value, "by": scalar(by), "with": scalar(with_)})
    return known


def probe(tree: Block) -> Block:
    """The tree, with something harmless in the place of what a job file cannot do without."""
    whole = Block(NOWHERE)
    whole.update(
        job=Scalar("0"),
        title=Scalar("-", quoted=True),
        lathe=Scalar("-", quoted=True),
        material=Scalar("unknown"),
        work=[{"length": Scalar("1 m"), "od": Scalar("1 m")}],
        holding={"collet": {"grip": Scalar("1 mm")}},
    )
    whole.update(tree)
    return whole


def remarks_on(key: str) -> list[str]:
    """What a key at the top of a job file is for; nothing for one that says it itself."""
    ways = or_words(["chuck", "collet", "faceplate", "centers"])  # keys: the same in every language
    return [say(REMARKS[key], ways=ways)] if key in REMARKS else []


def job_text(tree: Block, more: Mapping[str, Sequence[str]] | None = None, last: Sequence[str] = ()) -> str:
    """The text of a new job file.

    Parameters
    ----------
    tree : the job
    more : further remarks, by the key over which they stand
    last : remarks at the end
    """
    said = {key: remarks_on(key) for key in tree}
    for key, lines in (more or {}).items():
        if key in tree:
            said[key].extend(lines)
    text = editor_line("job") + "\n" + remarked(tree, said, last)
    if "operations" not in tree:
        text += "\n" + remark(NO_THREAD) + "".join(f"# {line}\n" for line in _EXAMPLE)
    return text
