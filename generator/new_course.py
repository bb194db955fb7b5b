"""One job of `new` on its way: the questions it gets, the tree of its answers, its place in the archive.

    Course     asks, checks, shows what follows, writes
    left       says how to go on with what was left
"""

from __future__ import annotations

import contextlib
import datetime
import sys
from collections.abc import Iterator, Mapping, Sequence
from functools import cached_property
from pathlib import Path
from typing import Any, Final

from generator.asking import ask
from generator.commands import CLEAN, ERRORS, UsageError, job_file
from generator.errors import JobProblems
from generator.intake.checked import Whole, sentence
from generator.intake.dialog import HOW, Dialog, converse
from generator.intake.drafts import Keeper
from generator.intake.job_file import job_text, job_tree, probe
from generator.intake.job_questions import CAME_IN, CARRIES, MEASURED, OF_THREAD, Known, job_questions
from generator.intake.like import Copied, copied, like_text
from generator.intake.number import next_number
from generator.intake.question import Answers, Question
from generator.job.beside import SENDER
from generator.job.editor_line import has_schemas, without_line
from generator.job.names import unknown_names
from generator.job.reading import find_jobs, read_block, read_job
from generator.job.sender import read_sender, with_sender
from generator.job.shop import Shop
from generator.job.written import Block
from generator.language.say import later, say
from generator.new_follows import Follows
from generator.new_options import OPTIONS
from generator.pack.placing import AlreadyThere, place_folder
from generator.pack.taken import folder_name, free_number

LIKE: Final = "like"  # in a draft: the job that is copied
OF_NEW_PART: Final = ("what came in", "what was measured", "what it must carry")  # of the options
OF_COPY: Final = ("units", "lathe", "material", "material_known_by")  # come from the copied job
LEFT: Final = later(
    "Left here; nothing is in the archive yet. Go on with: python -m generator new --resume {name}"
)


def left(keeper: Keeper) -> int:
    """Say how to go on with what was left."""
    if keeper.path is None:
        print(say("Nothing was written."))
    else:
        print(say(LEFT, name=keeper.path.stem))
    return CLEAN


class Course:
    """One job on its way from answers to a file."""

    def __init__(self, jobs: Path, shop: Shop, answers: Answers) -> None:
        self._jobs, self._files = jobs, dict[str, bytes]()
        self.like = self._copied(answers[LIKE]) if LIKE in answers else None
        self._shop = self._with_sender(shop)
        self._folders = [path.parent.name for path in find_jobs(jobs)]
        self._follows = Follows(jobs / "0000" / "new" / "job.yml", self._shop)
        self._whole = Whole(lambda said: probe(self.tree(said)), self._read)
        if self.like is not None:
            self._no_options_of_copy(answers)
            answers.setdefault("title", str(self.like.written["title"]))
        self._found: tuple[object, Sequence[str]] | None = None
        self.dialog = Dialog(lambda said: self._script(said), self._check, answers)

    # -- from answers to the tree --------------------------------------------------------------------------

    @cached_property
    def known(self) -> Known:
        """What the shop has to offer."""
        shop, today = self._shop, datetime.date.today()
        return Known(
            tuple(shop.lathes), tuple(shop.materials),
            shop.house.units or next(iter(shop.lathes.values())).units,
            next_number(_newest(self._jobs), self._folders, today.year), today.isoformat(),
            self._candidates,
        )

    def tree(self, answers: Mapping[str, str]) -> Block:
        """The job as far as it is answered; a bare number is in the shop's unit until one is said."""
        if self.like is not None:
            return job_tree(answers, self.like.tree)
        return job_tree({"units": self.known.units, **answers})

    def _candidates(self, answers: Mapping[str, str]) -> Sequence[str]:
        """The threads that were measured; looked up again only when something else was."""
        measured = tuple((key, answers.get(key)) for key in ("units", *OF_THREAD))
        if self._found is None or self._found[0] != measured:
            self._found = measured, self._follows.candidates(self.tree(answers))
        return self._found[1]

    def _script(self, answers: Mapping[str, str]) -> Iterator[Question]:
        for question in job_questions(self.known, answers):
            if self.like is None or _of_new_part(question):
                yield question

    def _read(self, data: bytes) -> object:
        return read_job(self._follows.path, self._shop, data)

    def _check(self, answers: Mapping[str, str], question: Question) -> str | None:
        said = answers[question.key]
        if question.key == "job" and (free := free_number(said, self._folders)) != said:
            return say("{said} is taken: {free} is free.", said=said, free=free)
        if question.key in ("lathe", "material"):
            for _, message in unknown_names({question.key: said}, self._shop):
                return f"{message}."
        return sentence(self._whole, answers, question)

    # -- the dialog ----------------------------------------------------------------------------------------

    def ask(self, keeper: Keeper) -> str:
        """Ask for what is not answered."""
        print(HOW)
        with contextlib.suppress(ImportError):
            import readline  # noqa: F401  # arrows and earlier answers, where the system has it
        return converse(
            self.dialog, ask, lambda line: print(line, flush=True),
            lambda: keeper.keep(self.dialog.answers),
            lambda section: self._follows.lines(section, self.dialog.answers, self.tree(self.dialog.answers)),
        )

    def stands(self) -> Path | None:
        """The job file that these very answers have become; an interruption may leave the draft as well."""
        if self.dialog.next() is not None:
            return None
        path = self._target() / "job.yml"
        return path if path.is_file() and path.read_bytes() == self._text().encode() else None

    def _target(self) -> Path:
        answers = self.dialog.answers
        return self._jobs / answers["received"][:4] / folder_name(answers["job"], answers["title"])

    def write(self, keeper: Keeper) -> int:
        """Put the job into the archive, and say what there is to say about it."""
        answers = self.dialog.answers
        used = {one.key for one in self.dialog.answered()} | {LIKE}
        for key in answers:
            if key not in used and answers[key]:
                print(
                    say("Not used, for nothing asks for it here: --{option}", option=key.replace("_", "-")),
                    file=sys.stderr,
                )
        target, text = self._target(), self._text()
        try:
            read_job(target / "job.yml", self._shop, text.encode())
        except JobProblems as error:
            keeper.keep(answers)
            print(say("The answers do not make a job yet:"), file=sys.stderr)
            for problem in error.problems:
                print(f"    {problem.field}: {problem.message}", file=sys.stderr)
            left(keeper)
            return ERRORS
        for line in self._follows.of_sheet(self.tree(answers)):
            print(line)
        print(f"\n{self._follows.summary}")
        try:
            self._still_free(answers["job"])
            place_folder(target, {"job.yml": text.encode(), **self._files})
        except AlreadyThere as error:
            keeper.keep(answers)
            print(say("{error}. Give another number: --job", error=error), file=sys.stderr)
            left(keeper)
            return ERRORS
        keeper.remove()
        print(say("Written: {file}", file=target / "job.yml"))
        print(say("Check it:    python -m generator check {number}", number=answers["job"]))
        print(say("Look at it:  python -m generator serve, or build and open site/index.html"))
        return CLEAN

    def _still_free(self, number: str) -> None:
        """Look again whether somebody else took the number meanwhile."""
        folders = [path.parent.name for path in find_jobs(self._jobs)]
        if (free := free_number(number, folders)) != number:
            raise AlreadyThere(say("{number} was taken meanwhile, {free} is free", number=number, free=free))

    def _text(self) -> str:
        answers = self.dialog.answers
        tree = self.tree(answers)
        designation = "" if self.like is not None else answers.get("designation", "")
        said = {"found": self._follows.alternatives(tree, designation)}  # so that it goes where these go
        text = job_text(tree, said) if self.like is None else like_text(tree, self.like, said)
        return text if has_schemas(self._jobs) else without_line(text.encode()).decode()

    # -- a copy --------------------------------------------------------------------------------------------

    def _copied(self, asked: str) -> Copied:
        path = job_file(asked, self._jobs)
        data = path.read_bytes()
        read_job(path, None, data)  # what cannot be read is not copied
        beside = path.with_name(SENDER)
        if beside.is_file():
            self._files[SENDER] = beside.read_bytes()
        return copied(read_block(path, data), data.decode("utf-8-sig"))

    def _with_sender(self, shop: Shop) -> Shop:
        if not self._files or self.like is None:
            return shop
        sender = read_sender(job_file(self.like.number, self._jobs).parent)
        return with_sender(shop, sender) if sender is not None else shop

    def _no_options_of_copy(self, answers: Mapping[str, str]) -> None:
        own = {key for heading in OF_NEW_PART for key in OPTIONS[heading]} - set(OF_COPY)
        if too := sorted(key for key, said in answers.items() if said and key not in {*own, LIKE}):
            options = ", ".join(f"--{key.replace('_', '-')}" for key in too)
            raise UsageError(
                say(
                    "{options}: comes from the job that is copied; change it in the new file afterwards",
                    options=options,
                )
            )


def _of_new_part(question: Question) -> bool:
    """Whether a question is asked of a copied job, too: it is about this very part."""
    return question.section in (CAME_IN, MEASURED, CARRIES) and question.key not in OF_COPY


def _newest(jobs: Path) -> list[str]:
    """Numbers of the jobs of the newest year, the one that came in last at the end."""
    paths = find_jobs(jobs)
    newest = [path for path in paths if paths and path.parent.parent.name == paths[-1].parent.parent.name]
    found: list[tuple[str, str]] = []
    for path in newest:
        with contextlib.suppress(JobProblems):
            tree: Any = read_block(path)
            found.append((str(tree.get("received", "")), str(tree.get("job", ""))))
    return [number for _, number in sorted(found)]
