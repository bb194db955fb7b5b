"""The command `share`: a job as one ordinary zip for another shop."""

from __future__ import annotations

import sys
import tempfile
from argparse import Namespace
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

from generator.commands import CLEAN, ERRORS, Shops, UsageError, job_file
from generator.errors import JobProblems
from generator.language.say import say
from generator.terminal import say_problem
from generator.whole_file import free_place, write_whole

if TYPE_CHECKING:
    from generator.job.reading import ReadLog
    from generator.job.shop import Shop
    from generator.pack.handed import Handed
    from generator.sheet.model import Sheet


def share(asked: Namespace) -> int:
    """Write the zip, and say what is in it, what was left out and what to look at before it goes."""
    from generator.job.lessons import FINISHED
    from generator.job.reading import read_job
    from generator.pack.contents import READ_ME, SHEET
    from generator.pack.handed import PARTS, handed, read_me
    from generator.pack.zipped import zipped
    from generator.site.archive import log_beside, make_sheet

    leave = _left(asked.without, asked.with_, PARTS)
    jobs = Path(asked.jobs or "jobs")
    path = job_file(asked.job, jobs)
    shops = Shops(jobs)
    try:
        sheet = make_sheet(path, shops.of(path))
        read = read_job(path)
    except JobProblems as error:
        for problem in error.problems:
            say_problem(problem, sys.stderr)
        print(
            say("{job}: has errors, so it is not handed over; nothing was written", job=asked.job),
            file=sys.stderr,
        )
        return ERRORS
    log: ReadLog | None = log_beside(read, shops.of(path))
    whole = handed(read, log, shops.folder_of(path), _tools(sheet, shops.of(path)), leave)
    house, lathe = shops.of(path).house, shops.of(path).lathes[read.job.lathe]
    said = (read.job.job, read.job.title, house.shop, lathe.name, whole.left_out)
    files = {**whole.files, READ_ME: read_me(*said).encode(), SHEET: _sheet(whole, read.job.job, path)}
    data = zipped(
        files, job=read.job.job, title=read.job.title, shop=house.shop, lathe=lathe.name,
        left_out=whole.left_out,
    )
    out = _own_file(Path(asked.out or f"{path.parent.name}.zip"), jobs)
    write_whole(out, data)
    print(
        say(
            "Written {out}: {files} files, {data:.0f} kB.",
            out=out,
            files=len(files) + 1,
            data=len(data) / 1000,
        )
    )
    for one in whole.left_out:
        print(say("Left out: {one}", one=one))
    for one in whole.look_at:
        print(say("Look at this before it goes: {one}", one=one))
    if read.job.status == "done":
        print(say("Its status is done: whoever takes it in gets it as planned."))
    elif read.job.status in FINISHED:
        print(say("Its status is scrapped: whoever takes it in gets it as planned."))
    return CLEAN


def _left(without: list[str], wanted: list[str], parts: tuple[str, ...]) -> set[str]:
    """What stays here: the customer's details unless they are asked for, and what was named."""
    named = [{one.strip() for some in given for one in some.split(",")} for given in (without, wanted)]
    for one in sorted(named[0] | named[1]):
        if one not in parts:
            raise UsageError(
                say(
                    "{part}: cannot be left out: write {parts}",
                    part=one or say("an empty word"),
                    parts=", ".join(parts),
                )
            )
    if both := sorted(named[0] & named[1]):
        raise UsageError(say("{both}: stands after --with and after --without; take one out", both=both[0]))
    return (named[0] | {"customer"}) - named[1]


def _tools(sheet: Sheet, shop: Shop) -> list[str]:
    """The tools that the sheet takes; it says of what steel each is, too."""
    figures = [sheet.figures[one.figures["tool"]] for one in sheet.operations if "tool" in one.figures]
    words = [f"{figure.value}, " for figure in figures]
    names = [tool.name for tool in shop.tools.threading] + [tool.name for tool in shop.tools.cutting]
    return [name for name in names if any(said.startswith(f"{name}, ") for said in words)]


def _sheet(whole: Handed, number: str, path: Path) -> bytes:
    """The sheet of what is handed over, and of nothing else, whole in itself."""
    from generator.pack.placing import lay_out
    from generator.render.print_set import set_document
    from generator.site.archive import make_entry, try_shop

    with tempfile.TemporaryDirectory(prefix="setup-") as folder:
        jobs = Path(folder, "jobs")
        here = lay_out(whole.files, jobs, path.parent.parent.name, path.parent.name)
        made = make_entry(here, try_shop(jobs / "_shop"), alone=True)
    if made.entry.problems:
        raise JobProblems(made.entry.problems)
    return set_document([number], [made.body]).encode()


def _own_file(out: Path, jobs: Path) -> Path:
    """Where the zip goes: a new file, or in the place of an earlier zip of this command.

    Raises
    ------
    UsageError
        As `free_place`.
    """
    from generator.pack.contents import FORMAT, PackRefused
    from generator.pack.zipped import unzipped

    earlier = False
    with suppress(OSError, PackRefused):
        earlier = bool(unzipped(out.read_bytes()))
    return free_place(out, jobs, "-o", FORMAT, replace=earlier)
