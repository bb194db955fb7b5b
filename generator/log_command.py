"""The verb `log`: one more entry in the log of a job, from options or from a piece of YAML.

    log              the verb itself
    written_entry    the options as an entry
    asked_for        what a stop leaves out, asked on the terminal

The entry is checked before anything is written. Where it cannot be written it is printed, and so not lost.
"""

from __future__ import annotations

import datetime
import re
import sys
from argparse import Namespace
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from generator.commands import CLEAN, ERRORS, Shops, UsageError, job_file
from generator.errors import JobProblems, Location
from generator.job.log_file import LogNotWritten, append_entries, with_entries
from generator.job.log_names import LogNames, log_names
from generator.job.reading import ReadJob, read_job, read_piece
from generator.job.shop import Shop
from generator.job.writing import entry_text
from generator.job.written import Block, Scalar, System
from generator.language.say import say, say_count
from generator.log_options import OPTIONS
from generator.sheet.compute import compute_sheet
from generator.sheet.happened import History
from generator.site.job_files import LOG
from generator.terminal import LEVELS, say_problem

STDIN: Final = "-"
SLIPS: Final = ("log-operation", "log-dial", "log-measured")  # a slip of the pen: better asked before
_NUMBER: Final = re.compile(r"(0|[1-9][0-9]*)(\.[0-9]+)?")


def log(asked: Namespace) -> int:
    """Add an entry, say what was written, and what there is to say about it."""
    path = job_file(asked.job, Path(asked.jobs or "jobs"))
    shop = Shops(Path(asked.jobs or "jobs")).of(path)
    if isinstance(shop, JobProblems):
        raise shop
    read = read_job(path, shop)
    if read.job.lathe not in shop.lathes:
        raise UsageError(
            say(
                "{path}: there is no lathe {lathe} in the shop; put the job right first",
                path=path,
                lathe=read.job.lathe,
            )
        )
    units, dials = read.job.units, shop.lathes[read.job.lathe].units
    names = log_names(read.job, shop)
    try:
        entries = _entries(asked, units, dials, names)
        entries = asked_for(entries, read, shop) if _at_a_terminal(asked) else entries
    except JobProblems as error:
        for problem in error.problems:
            print(_said(problem.field, problem.message, problem.location), file=sys.stderr)
        print(say("Nothing was written."), file=sys.stderr)
        return ERRORS
    try:
        about = _about(entries, read, shop)
        if about.slips and not asked.anyway:
            print("\n".join(about.slips), file=sys.stderr)
            print(say("Nothing was written. To write it all the same, say --anyway."), file=sys.stderr)
            return ERRORS
        written = append_entries(path.with_name(LOG), entries, units, dials, now, names=names)
    except LogNotWritten as error:
        return _not_written(error, entries)
    count = say_count("one entry", "{count} entries", len(entries))
    print(say("Written to {file}: {count}.", file=path.with_name(LOG), count=count))
    for problem in written.problems:
        print(say("An older entry cannot be read: {problem}", problem=problem), file=sys.stderr)
    print("".join(f"{line}\n" for line in (*about.slips, *about.says)), end="")
    return CLEAN


def now() -> str:
    """The time of this machine, as an entry has it."""
    return f"{datetime.datetime.now():%Y-%m-%d %H:%M}"


# -- from options or a piece to entries -----------------------------------------------------------------

_OF_OPTIONS: Final = Path("options")


def _entries(
    asked: Namespace, units: System | None, dials: System, names: LogNames
) -> tuple[Block, ...]:
    """The entries asked for, checked.

    Raises
    ------
    UsageError
        For no entry, or two ways of writing one at once.
    JobProblems
        Everything that is wrong with them.
    """
    entry = written_entry(asked)
    said = bool(set(entry) - {"at", "by"})
    if asked.piece is None and (said or sys.stdin.isatty()):
        if not said:
            raise UsageError(
                say(
                    "There is nothing to write: say what happened with options, such as --operation thread "
                    "--pass 12 --dial 0.089, or give a piece of YAML with --from FILE or on standard input"
                )
            )
        return read_piece(_OF_OPTIONS, entry_text(entry).encode(), units, dials, now(), names)
    if entry:
        raise UsageError(say("Write the entry with options or as a piece of YAML, not both"))
    if asked.piece in (None, STDIN):
        name, data = Path(say("standard input")), sys.stdin.buffer.read()
    else:
        name, data = Path(asked.piece), Path(asked.piece).read_bytes()
    if not data.strip():
        raise UsageError(
            say(
                "{name}: there is nothing in it to write; say what happened with options, such as "
                "--operation thread --pass 12 --dial 0.089",
                name=name,
            )
        )
    return read_piece(name, data, units, dials, now(), names)


def written_entry(asked: Namespace) -> Block:
    """The options as an entry, in the order of its keys; nothing in it is checked yet.

    Raises
    ------
    UsageError
        For a pair after --stop or --taken-up that is none.
    """
    entry = _block()
    for name, field in OPTIONS.items():
        value = getattr(asked, f"say_{name}")
        if value is None:
            continue
        within, _, key = field.rpartition(".")
        block = entry.setdefault(within, _block()) if within else entry
        block[key] = _words(value) if name == "lesson_for" else _as_written(value)
    for key, pairs in (("stop", asked.stop), ("taken_up", asked.taken_up)):
        if pairs is not None:
            entry[key] = _pairs(key, pairs) if pairs else Scalar("yes")
    if asked.finished:
        entry["finished"] = Scalar("yes")
    return _with_inspected(entry)


def _words(value: str) -> list[Scalar]:
    """Several words of the command line, with commas or without."""
    return [_as_written(word) for word in value.replace(",", " ").split()]


def _with_inspected(entry: Block) -> Block:
    """A reading for the inspection record as the one of a list, with its instrument, place and turns."""
    if "inspected" not in entry:
        return entry
    reading = entry["inspected"]
    for block, keys in (("measured", ("with", "where")), ("fit", ("turns",))):
        if block in entry and set(entry[block]) <= set(keys):
            reading.update(entry.pop(block))
    entry["inspected"] = [reading]
    return entry


def _block() -> Block:
    return Block(Location(_OF_OPTIONS))


def _as_written(value: str) -> Scalar:
    """A value of the command line: a number plainly, text in quotes where YAML needs them."""
    return Scalar(value, quoted=not _NUMBER.fullmatch(value))


def _pairs(name: str, pairs: Sequence[str]) -> Block:
    block = _block()
    for pair in pairs:
        key, equals, value = pair.partition("=")
        if not equals or not key.strip():
            option = name.replace("_", "-")
            raise UsageError(
                say(
                    '--{option} "{pair}" is not a key and a value: write --{option} stick_out=11.5',
                    option=option,
                    pair=pair,
                )
            )
        block[key.strip().replace("-", "_")] = _as_written(value.strip())
    return block


def _said(field: str, message: str, where: Location) -> str:
    """A problem: of an option by its name, of a piece of YAML by its place."""
    if where.path != _OF_OPTIONS:
        return f"{where}: {field}: {message}" if field else f"{where}: {message}"
    field = field.replace("inspected.0", "inspected", 1)
    names = {of: f"--{name.replace('_', '-')}" for name, of in OPTIONS.items()}
    block, _, key = field.partition(".")
    option = names.get(field) or f"--{block.replace('_', '-')}{f' {key}' if key else ''}"
    return f"{option}: {message}" if field else say("The entry {message}", message=message)


# -- a stop on the terminal -----------------------------------------------------------------------------


def _at_a_terminal(asked: Namespace) -> bool:
    return asked.stop is not None and sys.stdin.isatty() and sys.stdout.isatty()


def asked_for(
    entries: tuple[Block, ...], read: ReadJob, shop: Shop, ask: Callable[[str], str] = input
) -> tuple[Block, ...]:
    """The entries, with what the stop leaves out as it was answered; an empty answer leaves it out."""
    units, dials = read.job.units, shop.lathes[read.job.lathe].units
    (entry,) = entries
    wanted = _wanted(entries, read, shop)
    if wanted:
        print(say("What is needed to take the thread up; press Enter for what cannot be said."))
    for key, words in wanted:
        while True:
            try:
                answer = ask(f"  {words} [{key}]: ").strip()
            except EOFError:
                print()
                return (entry,)
            if not answer:
                break
            more = _with_stop(entry, key, answer)
            try:
                (entry,) = read_piece(_OF_OPTIONS, entry_text(more).encode(), units, dials, now())
            except JobProblems as error:
                print(f"    {error.problems[0].message}")
                continue
            break
    return (entry,)


def _wanted(entries: tuple[Block, ...], read: ReadJob, shop: Shop) -> tuple[tuple[str, str], ...]:
    """What the stop would leave out, were it written as it is."""
    units, dials = read.job.units, shop.lathes[read.job.lathe].units
    try:
        log = with_entries(
            read.path.with_name(LOG), entries, units, dials, now, log_names(read.job, shop)
        )
        history = compute_sheet(read, shop, log).history
    except (LogNotWritten, OSError, JobProblems):
        return ()  # writing it says why
    return history.stop_wants if history else ()


def _with_stop(entry: Block, key: str, answer: str) -> Block:
    more, stop = _block(), _block()
    more.update(entry)
    if isinstance(entry["stop"], Block):
        stop.update(entry["stop"])
    stop[key] = _as_written(answer)
    more["stop"] = stop
    return more


# -- what is said afterwards ----------------------------------------------------------------------------


def _not_written(error: LogNotWritten, entries: Sequence[Block]) -> int:
    """Why it is not in the log; the entry itself, so that it can be put there by hand."""
    print(error, file=sys.stderr)
    for problem in error.problems:
        say_problem(problem, sys.stderr)
    print(say("The log is as it was. This is what was not written:"), file=sys.stderr)
    for entry in entries:
        print(entry_text(entry), end="", file=sys.stderr)
    return ERRORS


@dataclass(frozen=True)
class _About:
    """What the sheet says to new entries: slips of the pen first."""

    slips: tuple[str, ...] = ()
    says: tuple[str, ...] = ()


def _about(entries: tuple[Block, ...], read: ReadJob, shop: Shop) -> _About:
    """Findings about the entries, were they written, and how their passes differ from the plan.

    Raises
    ------
    LogNotWritten
        When the log cannot take them.
    """
    units, dials = read.job.units, shop.lathes[read.job.lathe].units
    try:
        log = with_entries(
            read.path.with_name(LOG), entries, units, dials, now, log_names(read.job, shop)
        )
        sheet = compute_sheet(read, shop, log)
    except (OSError, JobProblems):
        return _About()  # writing says why; `check` says what is wrong with the job
    new = log.entries[-len(entries) :]
    slips: list[str] = []
    found: list[str] = []
    for finding in sheet.findings:
        where = finding.where
        if where is None or where.path != log.path or where.line < new[0].where().line:
            continue
        text = f"{LEVELS[finding.level]}: {finding.text}{f' {finding.asks}' if finding.asks else ''}"
        (slips if finding.id in SLIPS else found).append(text)
    passes = {one.entry.pass_ for one in new} - {None}
    return _About(tuple(slips), (*_sentences(sheet.history, passes), *found))


def _sentences(history: History | None, passes: set[int | None]) -> Iterator[str]:
    """The sentences about these passes, and how the thread goes on."""
    if history is None or not passes:
        return
    of_passes = [sentence for number, sentence in history.of_passes if number in passes]
    for sentence in history.says:
        if sentence in of_passes or sentence in history.of_thread:
            yield sentence
