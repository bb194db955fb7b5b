"""The verb `new`: a job file from answers, asked for in the order of the trade or given as options.

    new           the verb itself
    given         the options as answers

What is answered is kept in a draft until the job stands; the job's folder comes into the archive in one step.
"""

from __future__ import annotations

import contextlib
import sys
from argparse import Namespace
from collections.abc import Mapping
from pathlib import Path
from typing import Final

from generator.commands import CLEAN, ERRORS, Shops, UsageError
from generator.errors import JobProblems
from generator.intake.drafts import Draft, Keeper, draft_files, read_draft
from generator.intake.question import Answers, yes_or_no
from generator.language.say import first_small, say
from generator.new_course import LEFT, LIKE, Course, left
from generator.new_options import OPTIONS

SECTION_KEYS: Final = ("length", "od", "bore")


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
    course = Course(jobs, shop, answers)
    keeper = Keeper(jobs, draft)
    if draft is not None and (stands := course.stands()) is not None:
        keeper.remove()
        print(say("It is written already, and was only not tidied up: {stands}", stands=stands))
        return CLEAN
    if wrong := course.dialog.wrong():
        if draft is None:
            raise UsageError("\n".join(f"{one.option}: {said}" for one, said in wrong))
        for question, said in wrong:
            print(say("Asked again, {option}: {said}", option=question.option, said=said))
            del course.dialog.answers[question.key]
    try:
        if not asked.no_questions and course.ask(keeper) == "stopped":
            if course.dialog.asked or sys.stdin.isatty():
                return left(keeper)
            asked.no_questions = True  # nobody answers
        if asked.no_questions:
            return _without_questions(course, keeper, answers)
        return course.write(keeper)
    except KeyboardInterrupt:
        print()
        return left(keeper)


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
                    say(
                        '--work "{pair}" is not a size of a section: write --work length=14 od="2 1/4", and '
                        "bore=1 where it has one",
                        pair=pair,
                    )
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
    there = draft_files(jobs) if not asked.fresh else []
    if asked.resume:
        found = next((one for one in there if one.stem == asked.resume), None)
        if found is None:
            if not there:
                raise UsageError(say("--resume {resume}: there is no such draft", resume=asked.resume))
            raise UsageError(
                say(
                    "--resume {resume}: there is no such draft; there are {drafts}",
                    resume=asked.resume,
                    drafts=", ".join(one.stem for one in there),
                )
            )
        return read_draft(found)
    if not there or asked.no_questions or not sys.stdin.isatty():
        for one in there:
            print(
                say("There is a draft, {stem}: go on with it by --resume {stem}", stem=one.stem),
                file=sys.stderr,
            )
        return None
    with contextlib.suppress(EOFError):
        for one in there:
            said = input(say("{stem} was left halfway. Go on with it (yes or no) [yes]: ", stem=one.stem))
            if not said.strip() or yes_or_no(said) == "yes":
                return read_draft(one)
    return None


def _without_questions(course: Course, keeper: Keeper, answers: Mapping[str, str]) -> int:
    if not answers:
        raise UsageError(
            say("There is nothing to write: answer the questions, or give options such as --title")
        )
    if missing := course.dialog.missing():
        keeper.keep(course.dialog.answers)
        wanted = "\n".join(f"    {one.option}  {first_small(one.text)}" for one in missing)
        print(say("A job cannot be written without:\n{wanted}", wanted=wanted), file=sys.stderr)
        if keeper.path is not None:
            print(say(LEFT, name=keeper.path.stem), file=sys.stderr)
        return ERRORS
    course.dialog.take_defaults()
    return course.write(keeper)
