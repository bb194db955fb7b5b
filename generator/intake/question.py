"""A question, and the way of an answer into a file.

    Question      one question: what is asked, where the answer goes, what it costs to leave it
    Answers       what was answered, by the names of the questions; an empty one was left for later
    yes_or_no     what somebody means who answers in English or in the language that is spoken
    plain         a choice as a file has it
    put           an answer into the tree of a file
    Kind          how an answer is written there: one value, yes or no, a list, from-to
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Final, Literal

from generator.job.written import NOWHERE, Block, Scalar
from generator.language.say import Later, say

Kind = Literal["value", "yes or no", "list", "range"]
Answers = dict[str, str]
_PLAIN: Final = re.compile(r"(0|[1-9][0-9]*)(\.[0-9]+)?|[0-9]{4}-[0-9]{2}-[0-9]{2}")


@dataclass(frozen=True)
class Question:
    """One question. `key` is its option's name, too, and its name in a draft.

    `field` is the dotted name of the entry of the file, empty where the answer only leads on. `default` is
    what Enter stands for; without one Enter leaves the question for later, which `costs` something. `needed`
    is what no file of its kind can do without. `choices` that are marked with `later` are shown in the
    language that is spoken, and taken in it as well. `aliases` are short ways to give an answer.
    """

    key: str
    section: str
    text: str
    field: str = ""
    hint: str = ""
    costs: str = ""
    default: str = ""
    needed: bool = False
    choices: tuple[str, ...] = ()
    kind: Kind = "value"
    aliases: Mapping[str, str] | None = None

    @property
    def option(self) -> str:
        """The option that answers it: `--pitch-over-ten`; one for all sizes of a section of the work."""
        return "--work" if self.field.startswith("work.") else f"--{self.key.replace('_', '-')}"


Script = Callable[[Mapping[str, str]], Iterator[Question]]


def yes_or_no(said: str) -> str:
    """An answer as a file has it; "" where it is neither yes nor no.

    >>> yes_or_no("Y"), yes_or_no("no"), yes_or_no("perhaps")
    ('yes', 'no', '')
    """
    word = said.strip().casefold()
    for answer, own in (("yes", say("yes")), ("no", say("no"))):
        if word and word in (answer, answer[0], own.casefold(), own[0].casefold()):
            return answer
    return ""


def plain(choice: str) -> str:
    """A choice as a file has it, whatever it is called where it is shown."""
    return choice.english if isinstance(choice, Later) else choice


def scalar(text: str) -> Scalar:
    """An answer as it is to stand in a file: figures and days plainly, words so that they stay words."""
    return Scalar(text, quoted=not _PLAIN.fullmatch(text))


def put(tree: Block, question: Question, text: str) -> None:
    """Set an answer into the tree of a file, in the form of its kind."""
    place: Any = tree
    *way, key = question.field.split(".")
    for step in way:
        if isinstance(place, list):
            while len(place) <= int(step):
                place.append(Block(NOWHERE))
            place = place[int(step)]
        else:
            place = place.setdefault(step, [] if step in ("work", "operations", "chucks") else Block(NOWHERE))
    place[key] = written(question.kind, text)


def written(kind: Kind, text: str) -> Any:
    """An answer in the form of its kind.

    Examples
    --------
    >>> written("list", "4, 4 1/2, 5"), written("list", "45 70 115")
    (['4', '4 1/2', '5'], ['45', '70', '115'])
    >>> written("range", "1/8 to 6")
    {'from': '1/8', 'to': '6'}
    """
    if kind == "yes or no":
        return Scalar(text)
    if kind == "list":
        parts = text.split(",") if "," in text or re.search("[^0-9. ]", text) else text.split()
        return [scalar(one.strip()) for one in parts if one.strip()]
    if kind == "range":
        block = Block(NOWHERE)
        parts = re.split(r"\s+(?:to|bis)\s+|\s*–\s*", text, maxsplit=1)
        block.update(zip(("from", "to"), map(scalar, parts), strict=False))
        return block
    return scalar(text)
