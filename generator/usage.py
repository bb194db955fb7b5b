"""What is wrong with a command line, in plain words: a parser whose errors are our own sentences."""

from __future__ import annotations

import argparse
import difflib
import re
import sys
import textwrap
from collections.abc import Callable
from typing import Any, Final, NoReturn

from generator.commands import USAGE

SEE: Final = "see --help for an example"


class _Words(argparse.HelpFormatter):
    """Lines that do not break an option at its hyphen, so that an example can be copied."""

    def _fill_text(self, text: str, width: int, indent: str) -> str:
        words = " ".join(text.split())
        return textwrap.fill(
            words, width, initial_indent=indent, subsequent_indent=indent, break_on_hyphens=False
        )


class Parser(argparse.ArgumentParser):
    """A parser of the standard library; its commands are of this kind, too."""

    def __init__(self, *given: Any, **named: Any) -> None:
        super().__init__(*given, **{"formatter_class": _Words, **named})

    def error(self, message: str) -> NoReturn:
        """Print how the command is used and what is wrong, and leave with status 2."""
        self.print_usage(sys.stderr)
        self.exit(USAGE, f"{self.prog}: {in_plain_words(message)}\n")


def in_plain_words(message: str) -> str:
    """What the library says of a command line, as a sentence that says what to write.

    Examples
    --------
    >>> in_plain_words("argument --paper: invalid choice: 'A5' (choose from 'A4', 'Letter')")
    '--paper: "A5" is not known here: write A4 or Letter'
    >>> in_plain_words("the following arguments are required: JOB")
    'JOB is missing: see --help for an example'
    >>> in_plain_words("argument --major: expected one argument")
    '--major stands without its value: write it behind'
    """
    for pattern, sentence in _SAID:
        if found := re.fullmatch(pattern, message, re.DOTALL):
            return sentence(found)
    return message


def _choice(found: re.Match[str]) -> str:
    written, known = found["written"].strip("'"), [one.strip(" '") for one in found["known"].split(",")]
    near = difflib.get_close_matches(written, known, n=1)
    hint = f"did you mean {near[0]}? Write" if near else "write"
    return f'{found["what"]}: "{written}" is not known here: {hint} {", ".join(known[:-1])} or {known[-1]}'


# What the library says, and what to say instead.
_SAID: Final[tuple[tuple[str, Callable[[re.Match[str]], str]], ...]] = (
    (r"argument (?P<what>[^:]+): invalid choice: (?P<written>.*?) \(.*choose from (?P<known>.*)\)", _choice),
    (r"the following arguments are required: (.*)", lambda said: f"{said[1]} is missing: {SEE}"),
    (r"one of the arguments (.*) is required", lambda said: f"one of {said[1]} is missing: {SEE}"),
    (r"unrecognized arguments: (.*)", lambda said: f"{said[1]} is not taken here: {SEE}"),
    (r"argument ([^:]+): expected .*", lambda said: f"{said[1]} stands without its value: write it behind"),
    (r"argument ([^:]+): ignored explicit argument (.*)",
     lambda said: f"{said[1]} takes no value: leave {said[2]} out"),
    (r"argument ([^:]+): not allowed with argument (.*)",
     lambda said: f"{said[1]} and {said[2]} do not go together: leave one out"),
    (r"ambiguous option: (\S+) could match (.*)",
     lambda said: f"{said[1]} may be {said[2]}: write more of it"),
)
