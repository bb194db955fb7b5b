"""The command `paper`: a job as one page to hand over, with its job file in a code on it.

    paper    the command
"""

from __future__ import annotations

import sys
from argparse import Namespace
from pathlib import Path

from generator.commands import CLEAN, ERRORS, Shops, job_file
from generator.errors import JobProblems
from generator.language.say import say
from generator.terminal import say_problem
from generator.whole_file import free_place, write_whole


def paper(asked: Namespace) -> int:
    """Write the page, and say where it is, what was left out, and whether the code holds the job file."""
    from generator.job.editor_line import without_line
    from generator.job.without import still_named, without
    from generator.render.paper_code import paper_code
    from generator.render.paper_page import MARK, paper_page
    from generator.site.archive import make_bare_sheet
    from generator.site.job_files import LOG

    jobs = Path(asked.jobs or "jobs")
    path = job_file(asked.job, jobs)
    shop = Shops(jobs).of(path)
    try:
        whole = path.read_bytes()
        sheet = make_bare_sheet(path, shop, whole)  # what is wrong with the file is said of the file as it is
        data, left_out = without(whole, path, customer=asked.with_ != "customer")
        data = without_line(data)  # it costs room in the code, and says nothing where there are no schemas
        if left_out:
            sheet = make_bare_sheet(path, shop, data)
    except JobProblems as error:
        for problem in error.problems:
            say_problem(problem, sys.stderr)
        return ERRORS
    out = free_place(Path(asked.out or f"{_file_name(sheet.job)}-paper.html"), jobs, "-o", MARK)
    stays = [
        *([say("The log: work has begun, ask for it.")] if path.with_name(LOG).exists() else []),
        *([say("The pictures; only their names are in the code.")] if sheet.pictures else []),
    ]
    write_whole(out, paper_page(sheet, data, left_out, stays, asked.paper))
    print(say("Written {job} on one page of {paper}.", job=sheet.job, paper=asked.paper))
    if left_out:
        print(say("Left out, for it is private to the customer: {left_out}", left_out="; ".join(left_out)))
        print(say("  (--with customer puts it in)"))
    if over := paper_code(data).over:
        print(
            say(
                "The job file does not fit a code: it has {over:,} bytes too many. Use share instead.",
                over=over,
            )
        )
    print(say("Open {out} and print it at 100 %", out=out))
    print(say("  or {as_uri}", as_uri=out.as_uri()))
    if left_out and (named := still_named(whole, data, path)):
        print(
            say(
                "The customer is still named in: {named}. Read the page before you hand it over.",
                named=", ".join(named),
            ),
            file=sys.stderr,
        )
    return CLEAN


def _file_name(number: str) -> str:
    """A job's number as the beginning of a file's name."""
    return "".join(sign if sign.isalnum() or sign in "-_." else "-" for sign in number).lstrip(".") or "job"
