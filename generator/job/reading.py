"""Files of the archive -> checked models, with the line and column of everything in them.

In reading order: read_job, read_log, read_checked, read_tree, read_block, read_shop, find_jobs. How a file
becomes a tree, and the tree a model: `job.source`. Nothing here writes.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from generator.errors import JobProblems, Location, Problem
from generator.job.bare_units import say_units
from generator.job.lathe import Lathe
from generator.job.log import ON_DIALS
from generator.job.log_names import LogNames
from generator.job.model import Job
from generator.job.shop import House, Materials, Shop, Tools
from generator.job.source import NO_ENTRIES, NO_KEYS, LogEntry, Model, Source
from generator.job.wording import Hole, places_of
from generator.job.written import Block, Listing, Scalar, System
from generator.language.say import say
from generator.units import quoted


@dataclass(frozen=True)
class ReadJob:
    """A checked job with its file: `where` gives the place of any entry by its dotted name."""

    path: Path
    job: Job
    places: Mapping[str, Location]
    text: str

    def where(self, field: str) -> Location:
        """The place of "operations.2.thread.hand", or of the nearest block around it that is written."""
        while field and field not in self.places:
            field = field.rpartition(".")[0]
        return self.places.get(field, Location(self.path))

    def problem(self, field: str, message: str) -> Problem:
        """A problem with one entry, found after reading, with its place and source line."""
        where = self.where(field)
        return Problem(where, field, message, self.text.splitlines()[where.line - 1])


def read_job(path: Path, shop: Shop | None = None, data: bytes | None = None) -> ReadJob:
    """Read and check one job file.

    Parameters
    ----------
    path : the job file
    shop : with it, names that the shop does not have stand among the other problems of a bad file
    data : its text, where it does not come from the file

    Raises
    ------
    JobProblems
        Everything that is wrong with the file, in file order.
    """
    source = Source(path, data)
    try:
        job = source.checked(Job)
    except JobProblems as error:
        raise JobProblems([*error.problems, *source.unknown_names(shop, error.problems)]) from None
    assert isinstance(source.tree, Block)  # a checked model came from a block
    return ReadJob(path, job, places_of(source.tree), source.text)


@dataclass(frozen=True)
class ReadLog:
    """What could be read of a log, and all that is wrong with it; the one never hides the other."""

    path: Path
    entries: tuple[LogEntry, ...]
    problems: tuple[Problem, ...] = ()
    tree: Listing | None = None


def read_log(
    path: Path, units: System | None, dials: System, data: bytes | None = None, names: LogNames | None = None
) -> ReadLog:
    """Read and check one log, entry by entry.

    Parameters
    ----------
    path : the log file, as problems name it
    units : unit of a bare length, the job's; None where the job says none
    dials : unit in which the dials of the lathe read, until the work is taken up on another
    data : its text, where it does not come from the file
    names : what entries may name; without it no name is checked, and the lathe stays the same

    Notes
    -----
    An entry that names what there is not stands among the problems and among the entries: without it the
    readings that follow would be taken for those of another lathe.
    """
    try:
        source = Source(path, data, blank=True)
    except JobProblems as error:
        return ReadLog(path, (), error.problems)
    if isinstance(source.tree, Scalar) and not source.tree:
        return ReadLog(path, (), tuple(source.problems), Listing(source.tree.where))
    if not isinstance(source.tree, Listing):
        return ReadLog(path, (), (*source.problems, source.problem(Location(path), "", NO_ENTRIES)))
    entries, source.problems = [], _of_entries(source.problems)
    for node in source.tree:
        dials = _dials_from(node, dials, names)
        _say_log_units(node, units, dials)
        if not isinstance(node, Hole) and (found := source.entry(node, names)) is not None:
            entries.append(found)
    problems = tuple(sorted(source.problems, key=lambda problem: problem.location))
    return ReadLog(path, tuple(entries), problems, source.tree)


def read_piece(
    path: Path, data: bytes, units: System | None, dials: System, now: str, names: LogNames | None = None
) -> tuple[Block, ...]:
    """Entries that are to be added to a log, checked: one block of keys, or a list of such blocks.

    Parameters
    ----------
    path : as problems name it
    data : the text
    units, dials, names : as for `read_log`
    now : stands in for a missing `at` while they are checked

    Raises
    ------
    JobProblems
        Everything that is wrong with them.
    """
    source = Source(path, data, blank=True)
    found = source.tree if isinstance(source.tree, Listing) else [source.tree]
    blocks = tuple(one for one in found if isinstance(one, Block))
    if not source.problems and not (blocks and len(blocks) == len(found)):
        source.problems.append(source.problem(Location(path), "", NO_ENTRIES))
    source.problems = _of_entries(source.problems)
    for block in blocks:
        dated = Block(block.where)
        dated.keys_where = {"at": block.where, **block.keys_where}
        dated.update({"at": Scalar(now, block.where), **block})
        dials = _dials_from(dated, dials, names)
        _say_log_units(dated, units, dials)
        source.entry(dated, names)
    if source.problems:
        raise JobProblems(source.problems)
    return blocks


def _of_entries(problems: Sequence[Problem]) -> list[Problem]:
    """The problems of a list, each named within its entry: the line says which one that is."""
    return [replace(problem, field=re.sub(r"^[0-9]+(\.|$)", "", problem.field)) for problem in problems]


def _say_log_units(node: object, units: System | None, dials: System) -> None:
    """A dial is read in its own unit, every other length in the job's."""
    say_units(node, units, "" if units else say("the job file does not say units"))
    if isinstance(node, dict):
        for key, value in node.items():
            if key in ON_DIALS:
                say_units(value, dials)
            elif isinstance(value, dict) and key in ("stop", "taken_up"):
                _say_log_units(value, units, dials)


def _dials_from(node: object, dials: System, names: LogNames | None) -> System:
    """The unit of the dials from an entry on: that of the lathe on which it takes the work up."""
    back = node.get("taken_up") if isinstance(node, dict) else None
    lathe = back.get("lathe") if isinstance(back, dict) else None
    if names is None or not isinstance(lathe, str):
        return dials
    return names.lathes.get(" ".join(lathe.split()), dials)


def read_checked(path: Path, model: type[Model], data: bytes | None = None) -> Model:
    """Read one file of the archive as the model it belongs to; `data` is its text where it is not there yet.

    Raises
    ------
    JobProblems
        Everything that is wrong with the file, in file order.
    """
    return Source(path, data).checked(model)


def read_tree(path: Path, data: bytes | None = None) -> Block | Listing:
    """A job file (a block) or a log (a list) as it is written, no value read; an empty file has no entries.

    Parameters
    ----------
    path : the file, as problems name it
    data : its text, where it does not come from the file

    Raises
    ------
    JobProblems
        Where it is no plain YAML.
    """
    source = Source(path, data, blank=True)
    tree = Listing(source.tree.where) if isinstance(source.tree, Scalar) and not source.tree else source.tree
    if not source.problems and not isinstance(tree, Block | Listing):
        source.problems.append(source.problem(Location(path), "", NO_KEYS))
    if source.problems:
        raise JobProblems(source.problems)
    assert isinstance(tree, Block | Listing)  # else there is a problem
    return tree


def read_block(path: Path, data: bytes | None = None) -> Block:
    """A file of keys and values as it is written, no value read; parameters and errors as `read_tree`."""
    source = Source(path, data)
    tree = source.block()
    if source.problems:
        raise JobProblems(source.problems)
    return tree


def read_shop(folder: Path) -> Shop:
    """Read and check the shop's own files: house.yml, materials.yml, tools.yml, lathes/*.yml.

    Raises
    ------
    JobProblems
        Everything that is wrong in all of them.
    """
    problems: list[Problem] = []

    def checked(path: Path, model: type[Model]) -> Model | None:
        try:
            return read_checked(path, model)
        except JobProblems as error:
            problems.extend(error.problems)
            return None

    house = checked(folder / "house.yml", House)
    tools = checked(folder / "tools.yml", Tools) if (folder / "tools.yml").exists() else Tools()
    listed = checked(folder / "materials.yml", Materials) if (folder / "materials.yml").exists() else None
    materials = {material.name: material for material in listed.materials} if listed else {}
    lathes: dict[str, Lathe] = {}
    for path in sorted((folder / "lathes").glob("*.yml")):
        lathe = checked(path, Lathe)
        if lathe is None:
            continue
        if lathe.lathe != path.stem:
            source = Source(path)
            problems.append(source.problem(
                places_of(source.block()).get("lathe", Location(path)), "lathe",
                say(
                    "{quoted} is not the name of the file: write lathe: {stem}, or name the file {lathe}.yml",
                    quoted=quoted(lathe.lathe),
                    stem=path.stem,
                    lathe=lathe.lathe,
                ),
            ))
        lathes[path.stem] = lathe
    if not lathes and not problems:
        message = say("no lathe is described here: write one file for each, such as lathes/long-bed.yml")
        problems.append(Problem(Location(folder / "lathes"), "", message))
    if problems or house is None or tools is None:
        raise JobProblems(problems)
    return Shop(house=house, lathes=lathes, materials=materials, tools=tools)


def find_jobs(jobs_dir: Path) -> list[Path]:
    """The job files of an archive, `<year>/<folder>/job.yml`, sorted, without `_shop` and hidden ones."""
    return sorted(
        path for path in jobs_dir.glob("*/*/job.yml")
        if not any(part.startswith(("_", ".")) for part in path.relative_to(jobs_dir).parts)
    )


