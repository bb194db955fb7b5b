"""An answer checked by the reader of the file that it goes into, so that both say the same.

    Whole       how the tree of a file is made of answers, and read
    sentence    what the reader has to say to one answer; None where it takes it
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from generator.errors import JobProblems, Missing, Problem
from generator.intake.question import Question
from generator.job.writing import file_text
from generator.job.written import Block


@dataclass(frozen=True)
class Whole:
    """A kind of file: `tree` makes it of answers, `read` reads its text and raises `JobProblems`."""

    tree: Callable[[Mapping[str, str]], Block]
    read: Callable[[bytes], object]

    def problems(self, answers: Mapping[str, str]) -> Sequence[Problem]:
        """All that is wrong with the file as far as it is answered."""
        try:
            self.read(file_text(self.tree(answers)).encode())
        except JobProblems as error:
            return error.problems
        return ()


def sentence(whole: Whole, answers: Mapping[str, str], question: Question) -> str | None:
    """What is wrong with an answer, in the reader's words: what was right without it, and is not with it."""
    if not question.field:
        return None
    without = {key: said for key, said in answers.items() if key != question.key}
    before = {(one.field, one.message) for one in whole.problems(without)}
    for one in whole.problems(answers):
        if (one.field, one.message) not in before and _concerns(one, question.field):
            inner = one.field.removeprefix(question.field).lstrip(".")
            said = f"{inner}: " if inner and inner != one.field else ""
            return f"{said}{one.message}."
    return None


def _concerns(one: Problem, field: str) -> bool:
    """Whether a problem is about an entry: at it or in it, or between it and what stands beside it."""
    if one.field == field or one.field.startswith(f"{field}."):
        return True
    if isinstance(one, Missing):
        return False
    around = field.rpartition(".")[0]
    return bool(around) and (one.field == around or one.field.startswith(f"{around}."))
