"""The command line: `python -m generator COMMAND`. Bad input gets a sentence and a status, no traceback."""

from __future__ import annotations

import argparse
import os
import re
import sys
from collections.abc import Callable, Sequence
from contextlib import suppress
from typing import Any

from generator import commands
from generator.collecting import collecting_seldom
from generator.completing import completing
from generator.errors import SheetError
from generator.log_options import log_options
from generator.new_options import new_options
from generator.start_options import start_options
from generator.usage import Parser

INTERRUPTED = 130  # what a shell reports for a program ended by Ctrl-C


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command and return its exit status: 0 clean, 1 errors, 2 wrong usage."""
    os.environ.setdefault("NO_MKDOCS_2_WARNING", "1")  # the theme's notice about its own future
    parser = _parser()
    completing(parser)
    asked = parser.parse_args(_with_signs(sys.argv[1:] if argv is None else argv))
    run: Callable[[argparse.Namespace], int] = asked.run
    try:
        return run(asked)
    except commands.UsageError as error:
        print(f"{error}", file=sys.stderr)
        return commands.USAGE
    except SheetError as error:
        print(f"{error}", file=sys.stderr)
        return commands.ERRORS
    except BrokenPipeError:  # the reader of our output has gone, as with `| head`
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return commands.ERRORS
    except OSError as error:
        print(f"{error.filename or 'input or output'}: {error.strerror or error}", file=sys.stderr)
        return commands.ERRORS
    except KeyboardInterrupt:
        print("Stopped.", file=sys.stderr)
        return INTERRUPTED


def _with_signs(words: Sequence[str]) -> list[str]:
    """A value with a sign joined to its option, so that it is the value that gets the sentence.

    >>> _with_signs(["identify", "--pitch", "-2mm", "--worn"])
    ['identify', '--pitch=-2mm', '--worn']
    """
    joined: list[str] = []
    for word in words:
        if joined and re.match(r"-[.\d]", word) and re.fullmatch(r"--[\w-]+", joined[-1]):
            joined[-1] += f"={word}"
        else:
            joined.append(word)
    return joined


class _Once(argparse.Action):
    """A value that may be given once only: the last of two would be taken without a word."""

    def __call__(
        self, parser: argparse.ArgumentParser, namespace: argparse.Namespace,
        values: str | Sequence[Any] | None, option_string: str | None = None,
    ) -> None:
        if getattr(namespace, self.dest) is not None:
            parser.error(f"{option_string} is given twice: give the reading that you trust")
        setattr(namespace, self.dest, values)


def _build(asked: argparse.Namespace) -> int:
    from generator.framework.building import build  # here, so that the other commands do not pay for it

    return build(asked)


def _serve(asked: argparse.Namespace) -> int:
    from generator.framework.building import serve  # here, as above

    return serve(asked)


def _start(asked: argparse.Namespace) -> int:
    from generator.start_command import start  # here, as above

    return start(asked)


def _new(asked: argparse.Namespace) -> int:
    from generator.new_command import new  # here, as above

    return new(asked)


def _gears(asked: argparse.Namespace) -> int:
    from generator.gear_command import gears  # here, as above

    return gears(asked)


def _compare(asked: argparse.Namespace) -> int:
    from generator.compare_command import compare  # here, as above

    return compare(asked)


def _share(asked: argparse.Namespace) -> int:
    from generator.share_command import share  # here, as above

    return share(asked)


def _receive(asked: argparse.Namespace) -> int:
    from generator.receive_command import receive  # here, as above

    return receive(asked)


def _identify(asked: argparse.Namespace) -> int:
    from generator.identify_command import identify  # here, as above

    return identify(asked)


def _log(asked: argparse.Namespace) -> int:
    from generator.log_command import log  # here, as above

    return log(asked)


def _print(asked: argparse.Namespace) -> int:
    from generator.print_command import print_set  # here, as above

    return print_set(asked)


def _sheet(asked: argparse.Namespace) -> int:
    from generator.print_command import one_sheet  # here, as above

    return one_sheet(asked)


def _export(asked: argparse.Namespace) -> int:
    from generator.export_command import export  # here, as above

    return export(asked)


def _paper(asked: argparse.Namespace) -> int:
    from generator.paper_command import paper  # here, as above

    return paper(asked)


def _identify_options(identify: argparse.ArgumentParser) -> None:
    said = identify.add_argument_group("what was measured, each as VALUE or 'VALUE ± UNCERTAINTY'")

    def reading(option: str, metavar: str, help: str) -> None:
        said.add_argument(option, action=_Once, metavar=metavar, help=help)

    reading("--major", metavar="LENGTH", help="over the crests outside, of the roots inside")
    reading("--minor", metavar="LENGTH", help="the bore inside, over the roots outside")
    reading("--pitch-diameter", metavar="LENGTH", help="over wires or balls")
    reading("--pitch-over-ten", metavar="LENGTH", help="from one crest to the tenth after it")
    reading("--pitch", metavar="LENGTH", help="from one crest to the next, or by leaf")
    reading("--tpi", metavar="NUMBER", help="threads in one inch, by count or by leaf")
    reading("--lead", metavar="LENGTH", help="what the mate advances in one turn")
    reading("--angle", metavar="DEGREES", help="between the flanks, by leaf")
    reading("--taper", metavar="TAPER", help="change of diameter over length: 1:16 or 3/4 in/ft")
    reading("--within", metavar="LENGTH", help="how far the lengths may be off, either way")
    identify.add_argument("--inside", action="store_true", help="the thread is in a bore")
    identify.add_argument("--worn", action="store_true", help="it is worn: reads under outside, over inside")
    identify.add_argument("--left", action="store_true", help="left hand")
    identify.add_argument("--starts", metavar="NUMBER", help="number of starts, where counted")
    identify.add_argument("--all", action="store_true", help="show all threads that were compared")
    identify.add_argument("--json", action="store_true", help="one JSON object, for other programs")


def _parser() -> argparse.ArgumentParser:
    parser = Parser(
        prog="python -m generator",
        description="Setup sheets for thread repair on manual engine lathes.",
        epilog="example: python -m generator build --site site",
    )
    verbs = parser.add_subparsers(required=True, metavar="COMMAND")

    def verb(
        name: str, run: Callable[[argparse.Namespace], int], said: str, example: str
    ) -> argparse.ArgumentParser:
        added = verbs.add_parser(
            name, help=said, description=said, epilog=f"example: python -m generator {example}"
        )
        added.set_defaults(run=run)
        return added

    def takes_one_job(command: argparse.ArgumentParser) -> None:
        command.add_argument("job", metavar="JOB", help="a job file, its folder or its number")

    def takes_jobs(command: argparse.ArgumentParser) -> None:
        command.add_argument(
            "--jobs", metavar="DIR", help="the jobs folder (default: the one mkdocs.yml names, else jobs)"
        )

    def takes_folders(command: argparse.ArgumentParser) -> None:
        command.add_argument(
            "--jobs", metavar="DIR", action="append",
            help="a jobs folder; again for each further one (default: those mkdocs.yml names, else jobs)",
        )

    def chooses_pages(command: argparse.ArgumentParser) -> None:
        command.add_argument(
            "--pages",
            choices=("everything", "machine", "file", "customer"),
            default="everything",
            help="what of each sheet is printed; can be changed in the browser (default: everything)",
        )
        command.add_argument(
            "--paper", choices=("A4", "Letter"), help="the size of the paper (default: as the printer has it)"
        )

    def without_cache(verb: argparse.ArgumentParser) -> None:
        verb.add_argument("--no-cache", action="store_true", help="make every sheet anew, and keep none")

    started = verb(
        "start",
        _start,
        "Make an archive in a folder: your lathe asked for in plain questions, an example, a guide.",
        "start shop --units inch --swing 13 --between-centers 40",
    )
    start_options(started)

    begun = verb(
        "new",
        _new,
        "Write a new job from answers, and show at once what follows; can be left and taken up again.",
        'new --title "Gate stud" --major 0.489 --pitch-over-ten 0.769',
    )
    new_options(begun)
    takes_jobs(begun)

    build = verb(
        "build",
        _build,
        "Build the site of all jobs; it replaces the earlier one in one step.",
        "build --jobs jobs --site site",
    )
    takes_folders(build)
    build.add_argument("--site", metavar="DIR", help="where the site goes (default: site)")
    without_cache(build)
    build.add_argument("--strict", action="store_true", help="keep the earlier site when a job has errors")
    build.add_argument(
        "--machines", metavar="ADDRESS", help="let the machines of a Dask scheduler make the sheets"
    )

    serve = verb(
        "serve",
        _serve,
        "Show the site in a browser and follow changes, until Ctrl-C.",
        "serve --addr 127.0.0.1:8000",
    )
    takes_folders(serve)
    without_cache(serve)
    serve.add_argument("--addr", metavar="HOST:PORT", help="where to listen (default: 127.0.0.1:8000)")

    check = verb(
        "check",
        commands.check,
        "Check jobs: errors at file:line:column, then findings. Writes nothing.",
        "check jobs/2026/SW-113-bollard-spindle/job.yml",
    )
    check.add_argument(
        "job", nargs="*", metavar="JOB", help="a job file, its folder or its number (default: all)"
    )
    takes_jobs(check)
    check.add_argument("--json", action="store_true", help="one JSON object, for other programs")

    figures = verb(
        "figures", commands.figures, "Print every figure and finding of one job.", "figures SW-113 --json"
    )
    takes_one_job(figures)
    takes_jobs(figures)
    figures.add_argument("--json", action="store_true", help="one JSON object, for other programs")

    thread = verb(
        "thread",
        commands.thread,
        "Print the limits of threads, in the order given.",
        'thread "2-8 UN-2A" "M20x1.5-6g" --json',
    )
    thread.add_argument("designation", nargs="+", metavar="DESIGNATION", help='as on a drawing: "2-8 UN-2A"')
    thread.add_argument("--json", action="store_true", help="one JSON object a line, for other programs")

    identify = verb(
        "identify",
        _identify,
        "Find out which thread it is: the standard threads nearest to what was measured.",
        "identify --major 12.6mm --pitch-over-ten 19.5mm --angle 60",
    )
    _identify_options(identify)

    gears = verb(
        "gears",
        _gears,
        "Find plate entry and change gears for leads: inch, metric, module or diametral pitch.",
        'gears --lathe long-bed "8 tpi" "1.5 mm" "module 1" "16 DP"',
    )
    gears.add_argument(
        "lead", nargs="+", metavar="LEAD", help='"8 tpi", "1.5 mm", "module 1", "16 DP", "2 mm, 3 starts"'
    )
    gears.add_argument("--lathe", metavar="NAME", help="a lathe of the shop (default: each of them)")
    gears.add_argument(
        "--over", metavar="LENGTH", help='sum errors over this length (default: "1 in" or "25 mm")'
    )
    takes_jobs(gears)
    gears.add_argument("--json", action="store_true", help="one JSON object a line, for other programs")

    compare = verb(
        "compare",
        _compare,
        "Compare a job on its lathe with other lathes of the shop, and name the best one.",
        "compare SW-113 --lathe thirteen-inch",
    )
    takes_one_job(compare)
    compare.add_argument(
        "--lathe", nargs="+", action="extend", metavar="NAME", help="other lathes of the shop (default: all)"
    )
    takes_jobs(compare)
    compare.add_argument("--json", action="store_true", help="one JSON object, for other programs")

    shared = verb(
        "share",
        _share,
        "Write a job as one zip for another shop: job, log, pictures, what it uses of the shop, the sheet.",
        "share SW-113 -o spindle.zip --without times,log",
    )
    takes_one_job(shared)
    shared.add_argument("-o", "--out", metavar="FILE", help="the zip (default: the job folder's name)")
    shared.add_argument(
        "--without", action="append", default=[], metavar="LIST",
        help="what stays here: customer, photos, times, log, with commas between",
    )
    shared.add_argument(
        "--with", dest="with_", action="append", default=[], metavar="customer",
        help="let the customer's details go along; otherwise they stay here",
    )
    takes_jobs(shared)

    received = verb(
        "receive",
        _receive,
        "Take in a setup from another shop as a new job, computed for a lathe of this one.",
        "receive spindle.zip --lathe long-bed",
    )
    received.add_argument("file", metavar="FILE", help="the zip that `share` wrote")
    received.add_argument(
        "--lathe", metavar="NAME", help="a lathe of this shop (default: the one that suits best)"
    )
    received.add_argument("--show", action="store_true", help="only show what it would add and change")
    takes_jobs(received)

    log = verb(
        "log",
        _log,
        "Write down what happened at the lathe: one more entry in the log of a job.",
        'log SW-101 --operation thread --pass 12 --dial 0.089 --over-wires 2.2847 --with "micrometer 2-3 in"',
    )
    log_options(log)
    takes_jobs(log)

    printed = verb(
        "print",
        _print,
        "Write the sheets of chosen jobs as one file, to open in a browser and print.",
        "print SW-113 SW-116 --pages machine --paper A4",
    )
    printed.add_argument("job", nargs="+", metavar="JOB", help="a job file, its folder or its number")
    chooses_pages(printed)
    printed.add_argument(
        "--out", metavar="FILE", default="setup-sheets.html",
        help="the file to write (default: setup-sheets.html); an earlier set is replaced, nothing else",
    )
    takes_jobs(printed)

    sheet = verb(
        "sheet",
        _sheet,
        "Write the sheet of one job as a file that needs nothing else.",
        "sheet SW-113 -o bollard.html",
    )
    takes_one_job(sheet)
    sheet.add_argument(
        "-o", "--out", metavar="FILE",
        help="the file to write (default: named as the job's folder); an earlier sheet is replaced",
    )
    chooses_pages(sheet)
    takes_jobs(sheet)

    exported = verb(
        "export",
        _export,
        "Write figures and passes of chosen jobs as CSV for a spreadsheet, or as JSON.",
        "export SW-113 SW-116 -o figures.csv",
    )
    exported.add_argument("job", nargs="*", metavar="JOB", help="a job file, its folder or its number")
    exported.add_argument("--all", action="store_true", help="every job of the jobs folder")
    exported.add_argument(
        "-o", "--out", metavar="FILE", required=True,
        help="FILE.csv, with the passes in FILE-passes.csv beside it, or FILE.json with both",
    )
    exported.add_argument(
        "--what", metavar="figures,passes", help="only the one or the other, in FILE.csv itself"
    )
    exported.add_argument("--force", action="store_true", help="replace files that are there already")
    takes_jobs(exported)

    paper = verb(
        "paper",
        _paper,
        "Write a job as one page to hand over on paper, with the job file in a code on it.",
        "paper SW-113 --paper A4",
    )
    takes_one_job(paper)
    paper.add_argument(
        "-o", "--out", metavar="FILE",
        help="the file to write (default: NUMBER-paper.html); an earlier page is replaced, nothing else",
    )
    paper.add_argument(
        "--with", dest="with_", choices=("customer",), metavar="customer",
        help="with what is private to the customer, which is left out otherwise",
    )
    paper.add_argument(
        "--paper", choices=("A4", "Letter"), default="A4", help="the size of the paper (default: A4)"
    )
    takes_jobs(paper)

    schema = verb(
        "schema",
        commands.schema,
        "Print the JSON Schema of a job file, for an editor that completes it.",
        "schema --out schemas",
    )
    schema.add_argument(
        "--out", metavar="DIR", help="write the schemas of job and shop files into this folder"
    )
    return parser


def run() -> None:
    """The program as it is started from a shell."""
    collecting_seldom()
    status = main()
    for stream in (sys.stdout, sys.stderr):
        with suppress(OSError, ValueError):
            stream.flush()
    os._exit(status)  # all is done: taking what is known of 20,000 jobs apart would take half a second


if __name__ == "__main__":
    run()
