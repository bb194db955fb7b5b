"""The verb `start`: a folder becomes an archive, with the shop's lathe, an example and the files explained.

It comes there in one step; what stands in the folder already is never touched.
"""

from __future__ import annotations

import datetime
import os
import shutil
import tempfile
from argparse import Namespace
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Final

from generator.asking import ask
from generator.commands import CLEAN, UsageError, all_schemas
from generator.errors import JobProblems
from generator.in_one_step import folder_to_disk, write_new
from generator.intake.archive import READ_ME, archive_files
from generator.intake.checked import Whole, sentence
from generator.intake.dialog import Dialog, converse
from generator.intake.lathe_file import lathe_tree
from generator.intake.lathe_questions import lathe_questions
from generator.intake.question import Question
from generator.job.lathe import Lathe
from generator.job.reading import read_checked, read_shop
from generator.language.say import later, say, say_count
from generator.language.spoken import OFFERED, speak
from generator.render.environment import templates_folder
from generator.start_options import OPTIONS

HOW: Final = later(
    "Walk to the lathe with this. Enter leaves a question for later, or takes what stands in [brackets];\n"
    "back goes to the question before, stop leaves the rest for later. Everything can be changed in the file."
)
_BEGINS: Final = ".starting-"


def start(asked: Namespace) -> int:
    """Ask about the lathe, or take what is given, and write the archive."""
    folder = Path(asked.folder)
    _refuse(folder, asked.add)
    answers = {name: said for name in OPTIONS if (said := getattr(asked, f"say_{name}")) is not None}
    whole = Whole(lathe_tree, lambda data: read_checked(Path("lathe"), Lathe, data))
    dialog = Dialog(_questions, lambda said, question: sentence(whole, said, question), answers)
    if wrong := dialog.wrong():
        raise UsageError("\n".join(f"{one.option}: {said}" for one, said in wrong))
    if not asked.later:
        print(HOW)
        converse(dialog, ask, lambda line: print(line, flush=True), lambda: None)
    dialog.take_defaults()
    _place(folder, dialog.answers)
    print()
    print(say("Written: {folder}. Begin with {read_me}.", folder=folder, read_me=folder / READ_ME))
    if left := [one for one in dialog.answered() if one.costs and not dialog.answers[one.key]]:
        print(
            say_count(
                "Left for later: {count} question about the lathe; its file names it at the end.",
                "Left for later: {count} questions about the lathe; its file names them at the end.",
                len(left),
            )
        )
    print(say("Go there:            cd {folder}", folder=folder))
    print(say("Begin a job:         python -m generator new"))
    print(say("Look at the example: python -m generator serve"))
    return CLEAN


def _questions(answers: Mapping[str, str]) -> Iterator[Question]:
    """The questions, in the language that was answered to the first of them."""
    if (chosen := answers.get("language")) in OFFERED:
        speak(chosen)
    return lathe_questions(answers)


def _refuse(folder: Path, add: bool) -> None:
    """Say no to a folder that has an archive already, or other things that nobody spoke of."""
    if folder.exists() and not folder.is_dir():
        raise UsageError(say("{folder}: is a file; give a folder", folder=folder))
    if (folder / "jobs").exists():
        raise UsageError(
            say("{folder}: has a folder jobs already, and stays as it is; give another folder", folder=folder)
        )
    inside = folder.iterdir() if folder.is_dir() else ()
    there = sorted(one.name for one in inside if not one.name.startswith(_BEGINS))
    if there and not add:
        some = ", ".join([*there[:3], *(["…"] if len(there) > 3 else [])])
        raise UsageError(
            say(
                "{folder}: has other things in it ({some}); give an empty or a new folder, or say --add to "
                "put the archive beside them",
                folder=folder,
                some=some,
            )
        )


def _place(folder: Path, answers: Mapping[str, str]) -> None:
    """Write everything beside its place, read it as it will be read, and give it its name."""
    templates = {path.name: path.read_text("utf-8") for path in (templates_folder() / "start").iterdir()}
    files = archive_files(answers, datetime.date.today().isoformat(), templates, all_schemas())
    folder.mkdir(parents=True, exist_ok=True)
    for left in folder.glob(f"{_BEGINS}*"):
        shutil.rmtree(left, ignore_errors=True)
    staging = Path(tempfile.mkdtemp(prefix=_BEGINS, dir=folder))
    try:
        for name, data in files.items():
            path = staging / name
            path.parent.mkdir(parents=True, exist_ok=True)
            write_new(path, data)
        try:
            read_shop(staging / "jobs" / "_shop")
        except JobProblems as error:
            wrong = "\n".join(f"{one.field}: {one.message}" for one in error.problems)
            raise UsageError(
                say("The answers do not make a lathe; nothing was written:\n{wrong}", wrong=wrong)
            ) from None
        for inside in (staging / "jobs").rglob("*"):
            if inside.is_dir():
                folder_to_disk(inside)
        if not (folder / READ_ME).exists():
            os.rename(staging / READ_ME, folder / READ_ME)
        if os.path.lexists(folder / "jobs"):
            raise UsageError(say("{folder}: has a folder jobs now, and stays as it is", folder=folder))
        os.rename(staging / "jobs", folder / "jobs")
        folder_to_disk(folder)
    finally:
        shutil.rmtree(staging, ignore_errors=True)
