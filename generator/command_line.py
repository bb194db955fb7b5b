"""What may be typed: every command with its options, its help and its examples, and the code that it runs."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Sequence
from typing import Any

from generator import commands
from generator.language.say import say
from generator.log_options import log_options
from generator.new_options import new_options
from generator.start_options import start_options
from generator.usage import Parser


class _Once(argparse.Action):
    """A value that may be given once only: the last of two would be taken without a word."""

    def __call__(
        self, parser: argparse.ArgumentParser, namespace: argparse.Namespace,
        values: str | Sequence[Any] | None, option_string: str | None = None,
    ) -> None:
        if getattr(namespace, self.dest) is not None:
            parser.error(
                say(
                    "{option_string} is given twice: give the reading that you trust",
                    option_string=option_string,
                )
            )
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
    said = identify.add_argument_group(say("what was measured, each as VALUE or 'VALUE ± UNCERTAINTY'"))

    def reading(option: str, metavar: str, help: str) -> None:
        said.add_argument(option, action=_Once, metavar=metavar, help=help)

    reading("--major", metavar="LENGTH", help=say("over the crests outside, of the roots inside"))
    reading("--minor", metavar="LENGTH", help=say("the bore inside, over the roots outside"))
    reading("--pitch-diameter", metavar="LENGTH", help=say("over wires or balls"))
    reading("--pitch-over-ten", metavar="LENGTH", help=say("from one crest to the tenth after it"))
    reading("--pitch", metavar="LENGTH", help=say("from one crest to the next, or by leaf"))
    reading("--tpi", metavar="NUMBER", help=say("threads in one inch, by count or by leaf"))
    reading("--lead", metavar="LENGTH", help=say("what the mate advances in one turn"))
    reading("--angle", metavar="DEGREES", help=say("between the flanks, by leaf"))
    reading("--taper", metavar="TAPER", help=say("change of diameter over length: 1:16 or 3/4 in/ft"))
    reading("--within", metavar="LENGTH", help=say("how far the lengths may be off, either way"))
    identify.add_argument("--inside", action="store_true", help=say("the thread is in a bore"))
    identify.add_argument(
        "--worn", action="store_true", help=say("it is worn: reads under outside, over inside")
    )
    identify.add_argument("--left", action="store_true", help=say("left hand"))
    identify.add_argument("--starts", metavar="NUMBER", help=say("number of starts, where counted"))
    identify.add_argument("--all", action="store_true", help=say("show all threads that were compared"))
    identify.add_argument("--json", action="store_true", help=say("one JSON object, for other programs"))


def command_parser() -> argparse.ArgumentParser:
    """The parser of all commands, its words in the language that is spoken."""
    parser = Parser(
        prog="python -m generator",
        description=say("Setup sheets for thread repair on manual engine lathes."),
        epilog=say("example: python -m generator build --site site"),
    )
    verbs = parser.add_subparsers(required=True, metavar="COMMAND")

    def verb(
        name: str, run: Callable[[argparse.Namespace], int], said: str, example: str
    ) -> argparse.ArgumentParser:
        added = verbs.add_parser(
            name,
            help=said,
            description=said,
            epilog=say("example: python -m generator {example}", example=example),
        )
        added.set_defaults(run=run)
        return added

    def takes_one_job(command: argparse.ArgumentParser) -> None:
        command.add_argument("job", metavar="JOB", help=say("a job file, its folder or its number"))

    def takes_jobs(command: argparse.ArgumentParser) -> None:
        command.add_argument(
            "--jobs",
            metavar="DIR",
            help=say("the jobs folder (default: the one mkdocs.yml names, else jobs)"),
        )

    def takes_folders(command: argparse.ArgumentParser) -> None:
        command.add_argument(
            "--jobs",
            metavar="DIR",
            action="append",
            help=say(
                "a jobs folder; again for each further one (default: those mkdocs.yml names, else jobs)"
            ),
        )

    def chooses_pages(command: argparse.ArgumentParser) -> None:
        command.add_argument(
            "--pages",
            choices=("everything", "machine", "file", "customer"),
            default="everything",
            help=say("what of each sheet is printed; can be changed in the browser (default: everything)"),
        )
        command.add_argument(
            "--paper",
            choices=("A4", "Letter"),
            help=say("the size of the paper (default: as the printer has it)"),
        )

    def without_cache(verb: argparse.ArgumentParser) -> None:
        verb.add_argument("--no-cache", action="store_true", help=say("make every sheet anew, and keep none"))

    started = verb(
        "start",
        _start,
        say("Make an archive in a folder: your lathe asked for in plain questions, an example, a guide."),
        "start shop --units inch --swing 13 --between-centers 40",
    )
    start_options(started)

    begun = verb(
        "new",
        _new,
        say("Write a new job from answers, and show at once what follows; can be left and taken up again."),
        'new --title "Gate stud" --major 0.489 --pitch-over-ten 0.769',
    )
    new_options(begun)
    takes_jobs(begun)

    build = verb(
        "build",
        _build,
        say("Build the site of all jobs; it replaces the earlier one in one step."),
        "build --jobs jobs --site site",
    )
    takes_folders(build)
    build.add_argument("--site", metavar="DIR", help=say("where the site goes (default: site)"))
    without_cache(build)
    build.add_argument(
        "--strict", action="store_true", help=say("keep the earlier site when a job has errors")
    )
    build.add_argument(
        "--machines", metavar="ADDRESS", help=say("let the machines of a Dask scheduler make the sheets")
    )

    serve = verb(
        "serve",
        _serve,
        say("Show the site in a browser and follow changes, until Ctrl-C."),
        "serve --addr 127.0.0.1:8000",
    )
    takes_folders(serve)
    without_cache(serve)
    serve.add_argument("--addr", metavar="HOST:PORT", help=say("where to listen (default: 127.0.0.1:8000)"))

    check = verb(
        "check",
        commands.check,
        say("Check jobs: errors at file:line:column, then findings. Writes nothing."),
        "check jobs/2026/SW-113-bollard-spindle/job.yml",
    )
    check.add_argument(
        "job", nargs="*", metavar="JOB", help=say("a job file, its folder or its number (default: all)")
    )
    takes_jobs(check)
    check.add_argument("--json", action="store_true", help=say("one JSON object, for other programs"))

    figures = verb(
        "figures",
        commands.figures,
        say("Print every figure and finding of one job."),
        "figures SW-113 --json",
    )
    takes_one_job(figures)
    takes_jobs(figures)
    figures.add_argument("--json", action="store_true", help=say("one JSON object, for other programs"))

    thread = verb(
        "thread",
        commands.thread,
        say("Print the limits of threads, in the order given."),
        'thread "2-8 UN-2A" "M20x1.5-6g" --json',
    )
    thread.add_argument(
        "designation", nargs="+", metavar="DESIGNATION", help=say('as on a drawing: "2-8 UN-2A"')
    )
    thread.add_argument("--json", action="store_true", help=say("one JSON object a line, for other programs"))

    identify = verb(
        "identify",
        _identify,
        say("Find out which thread it is: the standard threads nearest to what was measured."),
        "identify --major 12.6mm --pitch-over-ten 19.5mm --angle 60",
    )
    _identify_options(identify)

    gears = verb(
        "gears",
        _gears,
        say("Find plate entry and change gears for leads: inch, metric, module or diametral pitch."),
        'gears --lathe long-bed "8 tpi" "1.5 mm" "module 1" "16 DP"',
    )
    gears.add_argument(
        "lead",
        nargs="+",
        metavar="LEAD",
        help=say('"8 tpi", "1.5 mm", "module 1", "16 DP", "2 mm, 3 starts"'),
    )
    gears.add_argument("--lathe", metavar="NAME", help=say("a lathe of the shop (default: each of them)"))
    gears.add_argument(
        "--over", metavar="LENGTH", help=say('sum errors over this length (default: "1 in" or "25 mm")')
    )
    takes_jobs(gears)
    gears.add_argument("--json", action="store_true", help=say("one JSON object a line, for other programs"))

    compare = verb(
        "compare",
        _compare,
        say("Compare a job on its lathe with other lathes of the shop, and name the best one."),
        "compare SW-113 --lathe thirteen-inch",
    )
    takes_one_job(compare)
    compare.add_argument(
        "--lathe",
        nargs="+",
        action="extend",
        metavar="NAME",
        help=say("other lathes of the shop (default: all)"),
    )
    takes_jobs(compare)
    compare.add_argument("--json", action="store_true", help=say("one JSON object, for other programs"))

    shared = verb(
        "share",
        _share,
        say(
            "Write a job as one zip for another shop: job, log, pictures, what it uses of the shop, the "
            "sheet."
        ),
        "share SW-113 -o spindle.zip --without times,log",
    )
    takes_one_job(shared)
    shared.add_argument("-o", "--out", metavar="FILE", help=say("the zip (default: the job folder's name)"))
    shared.add_argument(
        "--without", action="append", default=[], metavar="LIST",
        help=say("what stays here: customer, photos, times, log, with commas between"),
    )
    shared.add_argument(
        "--with", dest="with_", action="append", default=[], metavar="customer",
        help=say("let the customer's details go along; otherwise they stay here"),
    )
    takes_jobs(shared)

    received = verb(
        "receive",
        _receive,
        say("Take in a setup from another shop as a new job, computed for a lathe of this one."),
        "receive spindle.zip --lathe long-bed",
    )
    received.add_argument("file", metavar="FILE", help=say("the zip that `share` wrote"))
    received.add_argument(
        "--lathe", metavar="NAME", help=say("a lathe of this shop (default: the one that suits best)")
    )
    received.add_argument("--show", action="store_true", help=say("only show what it would add and change"))
    takes_jobs(received)

    log = verb(
        "log",
        _log,
        say("Write down what happened at the lathe: one more entry in the log of a job."),
        'log SW-101 --operation thread --pass 12 --dial 0.089 --over-wires 2.2847 --with "micrometer 2-3 in"',
    )
    log_options(log)
    takes_jobs(log)

    printed = verb(
        "print",
        _print,
        say("Write the sheets of chosen jobs as one file, to open in a browser and print."),
        "print SW-113 SW-116 --pages machine --paper A4",
    )
    printed.add_argument("job", nargs="+", metavar="JOB", help=say("a job file, its folder or its number"))
    chooses_pages(printed)
    printed.add_argument(
        "--out", metavar="FILE", default="setup-sheets.html",
        help=say("the file to write (default: setup-sheets.html); an earlier set is replaced, nothing else"),
    )
    takes_jobs(printed)

    sheet = verb(
        "sheet",
        _sheet,
        say("Write the sheet of one job as a file that needs nothing else."),
        "sheet SW-113 -o bollard.html",
    )
    takes_one_job(sheet)
    sheet.add_argument(
        "-o", "--out", metavar="FILE",
        help=say("the file to write (default: named as the job's folder); an earlier sheet is replaced"),
    )
    chooses_pages(sheet)
    takes_jobs(sheet)

    exported = verb(
        "export",
        _export,
        say("Write figures and passes of chosen jobs as CSV for a spreadsheet, or as JSON."),
        "export SW-113 SW-116 -o figures.csv",
    )
    exported.add_argument("job", nargs="*", metavar="JOB", help=say("a job file, its folder or its number"))
    exported.add_argument("--all", action="store_true", help=say("every job of the jobs folder"))
    exported.add_argument(
        "-o", "--out", metavar="FILE", required=True,
        help=say("FILE.csv, with the passes in FILE-passes.csv beside it, or FILE.json with both"),
    )
    exported.add_argument(
        "--what", metavar="figures,passes", help=say("only the one or the other, in FILE.csv itself")
    )
    exported.add_argument("--force", action="store_true", help=say("replace files that are there already"))
    takes_jobs(exported)

    paper = verb(
        "paper",
        _paper,
        say("Write a job as one page to hand over on paper, with the job file in a code on it."),
        "paper SW-113 --paper A4",
    )
    takes_one_job(paper)
    paper.add_argument(
        "-o", "--out", metavar="FILE",
        help=say("the file to write (default: NUMBER-paper.html); an earlier page is replaced, nothing else"),
    )
    paper.add_argument(
        "--with", dest="with_", choices=("customer",), metavar="customer",
        help=say("with what is private to the customer, which is left out otherwise"),
    )
    paper.add_argument(
        "--paper",
        choices=("A4", "Letter"),
        default="A4",
        help=say("the size of the paper (default: A4)"),
    )
    takes_jobs(paper)

    schema = verb(
        "schema",
        commands.schema,
        say("Print the JSON Schema of a job file, for an editor that completes it."),
        "schema --out schemas",
    )
    schema.add_argument(
        "--out", metavar="DIR", help=say("write the schemas of job and shop files into this folder")
    )
    return parser
