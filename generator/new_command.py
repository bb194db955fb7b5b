"""The verb `new`: a job file from answers, asked for in the order of the trade or given as options.

    new           the verb itself
    given         the options as answers

What is answered is kept in a draft until the job stands; the job's folder comes into the archive in one step.
"""

from __future__ import annotations

import contextlib
import datetime
import sys
from argparse import Namespace
from collections.abc import Iterator, Mapping, Sequence
from functools import cached_property
from pathlib import Path
from typing import Any, Final

from generator.commands import CLEAN, ERRORS, Shops, UsageError, job_file
from generator.errors import JobProblems
from generator.intake.checked import Whole, sentence
from generator.intake.dialog import HOW, Dialog, converse
from generator.intake.drafts import Draft, Keeper, drafts
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
from generator.new_follows import Follows
from generator.new_options import OPTIONS
from generator.pack.placing import AlreadyThere, place_folder
from generator.pack.taken import folder_name, free_number

SECTION_KEYS: Final = ("length", "od", "bore")
LIKE: Final = "like"  # in a draft: the job that is copied
OF_NEW_PART: Final = ("what came in", "what was measured", "what it must carry")  # of the options
OF_COPY: Final = ("units", "lathe", "material", "material_known_by")  # come from the copied job
LEFT: Final = "Left here; nothing is in the archive yet. Go on with: python -m generator new --resume {name}"


def new(asked: Namespace) -> int:
    """Ask for what is not given, show what follows, and write the job."""
    jobs = Path(asked.jobs or "jobs")
    shop = Shops(jobs).of(jobs / "0000" / "new" / "job.yml")
    if isinstance(shop, JobProblems):
        raise shop
    answers = given(asked)
    draft = _draft(asked, jobs)
    if draft is not None:
        answers = {**draft.answers, **answers}
    course = _Course(jobs, shop, answers)
    if wrong := course.dialog.wrong():
        if draft is None:
            raise UsageError("\n".join(f"{one.option}: {said}" for one, said in wrong))
        for question, said in wrong:
            print(f"Asked again, {question.option}: {said}")
            del course.dialog.answers[question.key]
    keeper = Keeper(jobs, draft)
    try:
        if not asked.no_questions and course.ask(keeper) == "stopped":
            if course.dialog.asked or sys.stdin.isatty():
                return _left(keeper)
            asked.no_questions = True  # nobody answers
        if asked.no_questions:
            return _without_questions(course, keeper, answers)
        return course.write(keeper)
    except KeyboardInterrupt:
        print()
        return _left(keeper)


def given(asked: Namespace) -> Answers:
    """The options of the command line as answers.

    Raises
    ------
    UsageError
        For a section of the work that is none.
    """
    answers = {
        name: said
        for options in OPTIONS.values() for name in options
        if (said := getattr(asked, f"say_{name}")) is not None
    }
    sections = asked.work or []
    for number, pairs in enumerate(sections, 1):
        for pair in pairs:
            key, equals, value = pair.partition("=")
            if not equals or key not in SECTION_KEYS:
                raise UsageError(
                    f'--work "{pair}" is not a size of a section: write --work length=14 od="2 1/4", and '
                    "bore=1 where it has one"
                )
            answers[f"{key}_{number}"] = value
        answers.setdefault(f"bore_{number}", "")
    if sections:
        answers[f"length_{len(sections) + 1}"] = ""
    if asked.like:
        answers[LIKE] = asked.like
    return answers


def _draft(asked: Namespace, jobs: Path) -> Draft | None:
    """The draft to go on with, by its name or because somebody says so."""
    there = drafts(jobs) if not asked.fresh else []
    if asked.resume:
        found = next((one for one in there if one.path.stem == asked.resume), None)
        if found is None:
            names = ", ".join(one.path.stem for one in there)
            others = f"; there are {names}" if names else ""
            raise UsageError(f"--resume {asked.resume}: there is no such draft{others}")
        return found
    if not there or asked.no_questions or not sys.stdin.isatty():
        for one in there:
            name = one.path.stem
            print(f"There is a draft, {name}: go on with it by --resume {name}", file=sys.stderr)
        return None
    with contextlib.suppress(EOFError):
        for one in there:
            said = input(f'"{one.title}" was left halfway. Go on with it (yes or no) [yes]: ')
            if said.strip().lower() in ("", "y", "yes"):
                return one
    return None


def _left(keeper: Keeper) -> int:
    if keeper.path is None:
        print("Nothing was written.")
    else:
        print(LEFT.format(name=keeper.path.stem))
    return CLEAN


def _without_questions(course: _Course, keeper: Keeper, answers: Mapping[str, str]) -> int:
    if not answers:
        raise UsageError("There is nothing to write: answer the questions, or give options such as --title")
    if missing := course.dialog.missing():
        keeper.keep(course.dialog.answers)
        wanted = "\n".join(f"    {one.option}  {one.text.lower()}" for one in missing)
        print(f"A job cannot be written without:\n{wanted}", file=sys.stderr)
        if keeper.path is not None:
            print(LEFT.format(name=keeper.path.stem), file=sys.stderr)
        return ERRORS
    course.dialog.take_defaults()
    return course.write(keeper)


class _Course:
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
            return f"{said} is taken: {free} is free."
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
            self.dialog, _ask, lambda line: print(line, flush=True),
            lambda: keeper.keep(self.dialog.answers),
            lambda section: self._follows.lines(section, self.dialog.answers, self.tree(self.dialog.answers)),
        )

    def write(self, keeper: Keeper) -> int:
        """Put the job into the archive, and say what there is to say about it."""
        answers = self.dialog.answers
        used = {one.key for one in self.dialog.answered()} | {LIKE}
        for key in answers:
            if key not in used and answers[key]:
                print(f"Not used, for nothing asks for it here: --{key.replace('_', '-')}", file=sys.stderr)
        year, folder = answers["received"][:4], folder_name(answers["job"], answers["title"])
        target = self._jobs / year / folder
        text = self._text(target)
        try:
            read_job(target / "job.yml", self._shop, text.encode())
        except JobProblems as error:
            keeper.keep(answers)
            print("The answers do not make a job yet:", file=sys.stderr)
            for problem in error.problems:
                print(f"    {problem.field}: {problem.message}", file=sys.stderr)
            _left(keeper)
            return ERRORS
        for line in self._follows.of_sheet(self.tree(answers)):
            print(line)
        try:
            place_folder(target, {"job.yml": text.encode(), **self._files})
        except AlreadyThere as error:
            keeper.keep(answers)
            print(f"{error}. Give another number: --job", file=sys.stderr)
            return ERRORS
        keeper.remove()
        print(f"\nWritten: {target / 'job.yml'}")
        print(f"Check it:    python -m generator check {answers['job']}")
        print("Look at it:  python -m generator serve, or build and open site/index.html")
        return CLEAN

    def _text(self, target: Path) -> str:
        answers = self.dialog.answers
        tree = self.tree(answers)
        said = self._follows.alternatives(tree, answers.get("designation", ""))
        at = "operations" if "operations" in tree else "found"
        if self.like is not None:
            text = like_text(tree, self.like)
        else:
            text = job_text(tree, {at: said} if said and at in tree else {})
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
                f"{options}: comes from the job that is copied; change it in the new file afterwards"
            )


def _of_new_part(question: Question) -> bool:
    """Whether a question is asked of a copied job, too: it is about this very part."""
    return question.section in (CAME_IN, MEASURED, CARRIES) and question.key not in OF_COPY


def _ask(prompt: str) -> str:
    said = input(prompt)
    if not sys.stdin.isatty():
        print(said if said.isprintable() else "?")  # as a terminal would show it
    return said


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
