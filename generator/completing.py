"""What a shell can complete: the words of the command line, the jobs and lathes of this folder.

    completing    answers a shell that asks, and ends; does nothing for anybody else
    jobs_here     the numbers of the jobs, for an option that wants one
    lathes_here   the names of the lathes
"""

from __future__ import annotations

import argparse
import os
import re
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Final

_NUMBER = re.compile(r"[A-Za-z]*-?\d+(?:-\d+)?[A-Z]?")  # what a job's folder begins with


def completing(parser: argparse.ArgumentParser) -> None:
    """Answer the shell, where it was the shell that started the program."""
    if "_ARGCOMPLETE" in os.environ:
        import argcomplete  # here: nobody else has to wait for it

        for action in _actions(parser):
            if action.dest in COMPLETED:
                action.completer = COMPLETED[action.dest]  # type: ignore[attr-defined]
        argcomplete.autocomplete(parser)


def _actions(parser: argparse.ArgumentParser) -> Iterator[argparse.Action]:
    for action in parser._actions:
        yield action
        if isinstance(action, argparse._SubParsersAction):
            for verb in action.choices.values():
                yield from _actions(verb)


def jobs_here(prefix: str, parsed_args: argparse.Namespace, **_: object) -> list[str]:
    """The numbers of the jobs that begin like this; a number that two folders have as their names."""
    names = sorted(path.parent.name for path in _jobs(parsed_args).glob("[0-9]*/*/job.yml"))
    numbers = [found[0] if (found := _NUMBER.match(name)) else name for name in names]
    many = Counter(numbers)
    words = [number if many[number] == 1 else name for number, name in zip(numbers, names, strict=True)]
    return [word for word in words if word.startswith(prefix)]


def lathes_here(prefix: str, parsed_args: argparse.Namespace, **_: object) -> list[str]:
    """The names of the lathes that begin like this."""
    names = sorted(path.stem for path in (_jobs(parsed_args) / "_shop" / "lathes").glob("*.yml"))
    return [name for name in names if name.startswith(prefix)]


def _jobs(asked: argparse.Namespace) -> Path:
    given = getattr(asked, "jobs", None)
    return Path((given[0] if isinstance(given, list) else given) or "jobs")


COMPLETED: Final = {"job": jobs_here, "lathe": lathes_here}
