"""The course of a dialog, apart from any terminal: which question is next, and whether an answer will do.

    Dialog       questions in their order, the answers so far, one step back
    converse     a dialog with somebody who answers, until all is asked or it is left
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Final, Literal

from generator.intake.question import Answers, Question, Script, plain, yes_or_no
from generator.language.say import later, say

LATER, STOP, BACK = "later", "stop", "back"
HOW: Final = later(
    "Enter leaves a question for later, or takes what stands in [brackets]. back goes to the question\n"
    "before, stop leaves the job here, to be taken up again."
)
LONGEST: Final = 2000
SHORT: Final = 16  # characters of a hint that may be said again
Check = Callable[[Mapping[str, str], Question], "str | None"]
Ask = Callable[[str], str]
Tell = Callable[[str], None]


class Dialog:
    """A course of questions. Answers that are given beforehand are not asked for."""

    def __init__(self, script: Script, check: Check, answers: Mapping[str, str] | None = None) -> None:
        self._script, self._check = script, check
        self.answers: Answers = dict(answers or {})
        self.asked: list[str] = []

    def next(self) -> Question | None:
        """The question whose turn it is; None when all are answered."""
        return next((one for one in self._script(self.answers) if _open(one, self.answers)), None)

    def answered(self) -> list[Question]:
        """The questions that have an answer, in their order; those left for later are among them."""
        return [one for one in self._script(self.answers) if one.key in self.answers]

    def answer(self, question: Question, said: str) -> str | None:
        """Take an answer, or hand back the sentence that says why it will not do."""
        said = " ".join(said.split(" ")).strip()
        if said.lower() == LATER:
            said = ""
        said = said or question.default
        if not said and question.needed:
            return say("This is needed: {hint}.", hint=question.hint) if question.hint else say(
                "This is needed."
            )
        if said:
            said = _chosen(question, said)
            sentence = _unprintable(said) or _no_choice(question, said)
            sentence = sentence or self._check({**self.answers, question.key: said}, question)
            if sentence:
                return sentence
        self.answers[question.key] = said
        self.asked.append(question.key)
        return None

    def back(self) -> bool:
        """Take back the last answer that was given here; False where there is none."""
        if not self.asked:
            return False
        del self.answers[self.asked.pop()]
        return True

    def wrong(self) -> list[tuple[Question, str]]:
        """Answers given beforehand that will not do, each with the reason."""
        found = []
        for question in self.answered():
            said = self.answers[question.key]
            if not said:
                continue
            self.answers[question.key] = said = _chosen(question, said)
            sentence = _unprintable(said) or _no_choice(question, said)
            if sentence := sentence or self._check(self.answers, question):
                found.append((question, sentence))
        return found

    def missing(self) -> list[Question]:
        """What is needed and not answered, were nothing more to be asked."""
        left: dict[str, str] = dict(self.answers)
        found = list[Question]()
        while True:
            question = next((one for one in self._script(left) if _open(one, left)), None)
            if question is None:
                return found
            if question.needed and not question.default:
                found.append(question)
            left[question.key] = question.default or "?" * question.needed

    def take_defaults(self) -> None:
        """Answer all that is left as Enter would."""
        while (question := self.next()) is not None:
            self.answers[question.key] = question.default


def _open(question: Question, answers: Mapping[str, str]) -> bool:
    """Whether a question has no answer yet; what is needed cannot be left empty."""
    return not answers.get(question.key) if question.needed else question.key not in answers


def _chosen(question: Question, said: str) -> str:
    """The answer itself, where a short way to it was taken."""
    lowered = said.casefold()
    if question.aliases and lowered in question.aliases:
        return question.aliases[lowered]
    if question.kind == "yes or no":
        return yes_or_no(said) or said
    taken = {name.casefold(): plain(one) for one in question.choices for name in (str(one), plain(one))}
    return taken.get(lowered, said)


def _no_choice(question: Question, said: str) -> str | None:
    choices = (later("yes"), later("no")) if question.kind == "yes or no" else question.choices
    if choices and said not in choices:
        shown = ", ".join(map(str, choices))
        return say('"{said}" is none of these: {choices}.', said=said[:60], choices=shown)
    return None


def _unprintable(said: str) -> str | None:
    if not said.isprintable():
        return say("There is a sign in it that cannot be printed: type it again.")
    if len(said) > LONGEST:
        return say(
            "It is longer than {longest} characters: put the rest into the file afterwards.", longest=LONGEST
        )
    return None


def converse(
    dialog: Dialog, ask: Ask, tell: Tell, keep: Callable[[], None],
    follows: Callable[[str], Iterable[str]] = lambda section: (),
) -> Literal["done", "stopped"]:
    """Ask until all is answered, or somebody leaves.

    Parameters
    ----------
    ask : what prints a question and hands back the answer; EOFError leaves
    tell : what prints a line
    keep : called after each answer: what is answered so far must not be lost
    follows : lines about what follows, by the section of questions that was just finished
    """
    section, hinted = "", set[str]()
    while True:
        question = dialog.next()
        if question is None or question.section != section:
            if section:
                for line in follows(section):
                    tell(line)
            if question is None:
                return "done"
            section = question.section
            tell(f"\n{section}")
        try:
            said = ask(_prompt(question, question.hint not in hinted or len(question.hint) < SHORT))
        except EOFError:
            tell("")
            return "stopped"
        hinted.add(question.hint)
        word = said.strip().lower()
        if word == STOP:
            return "stopped"
        if word == BACK:
            back = dialog.back()
            tell(f"    {say('Back one question.') if back else say('There is nothing before this.')}")
            section = ""
            keep()
            continue
        sentence = dialog.answer(question, said)
        if sentence:
            tell(f"    {sentence}")
            hinted.discard(question.hint)
            continue
        if not dialog.answers[question.key] and question.costs:
            tell(f"    {say('Left for later. {costs}', costs=question.costs)}")
        keep()


def _prompt(question: Question, with_hint: bool) -> str:
    """The line that asks; how a length is written is said once, not at every one."""
    yes_no = question.kind == "yes or no"
    options = say("yes or no") if yes_no else ", ".join(map(str, question.choices))
    said = "; ".join(one for one in (options, str(question.hint) * with_hint) if one)
    shown = (later("yes"), later("no")) if yes_no else question.choices
    default = next((str(one) for one in shown if one == question.default), question.default)
    default = f" [{default}]" if default else ""
    return f"  {question.text}{f' ({said})' if said else ''}{default}: "
