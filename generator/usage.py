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
from generator.language.lists import or_words
from generator.language.say import later, say

SEE: Final = later("see --help for an example")


class _Words(argparse.HelpFormatter):
    """Lines that do not break an option at its hyphen, so that an example can be copied."""

    def add_usage(self, usage: Any, actions: Any, groups: Any, prefix: str | None = None) -> None:
        """How the command is used, behind a word that is said."""
        super().add_usage(usage, actions, groups, say("usage: ") if prefix is None else prefix)

    def _get_help_string(self, action: argparse.Action) -> str:
        """What an option is for, as it is said; nothing is filled into it."""
        return str(action.help or "").replace("%", "%%")

    def _fill_text(self, text: str, width: int, indent: str) -> str:
        words = " ".join(text.split())
        return textwrap.fill(
            words, width, initial_indent=indent, subsequent_indent=indent, break_on_hyphens=False
        )


class Parser(argparse.ArgumentParser):
    """A parser of the standard library; its commands are of this kind, too."""

    def __init__(self, *given: Any, **named: Any) -> None:
        super().__init__(*given, **{"formatter_class": _Words, "add_help": False, **named})
        self._positionals.title, self._optionals.title = say("positional arguments"), say("options")
        self.add_argument("-h", "--help", action="help", help=say("show this help message and exit"))

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
    if near:
        return say(
            '{option}: "{written}" is not known here: did you mean {near}? Write {known}',
            option=found["what"],
            written=written,
            near=near[0],
            known=or_words(known),
        )
    return say(
        '{option}: "{written}" is not known here: write {known}',
        option=found["what"],
        written=written,
        known=or_words(known),
    )


# What the library says, and what to say instead.
_SAID: Final[tuple[tuple[str, Callable[[re.Match[str]], str]], ...]] = (
    (r"argument (?P<what>[^:]+): invalid choice: (?P<written>.*?) \(.*choose from (?P<known>.*)\)", _choice),
    (
        r"the following arguments are required: (.*)",
        lambda said: say("{said} is missing: {see}", said=said[1], see=SEE),
    ),
    (
        r"one of the arguments (.*) is required",
        lambda said: say("one of {said} is missing: {see}", said=said[1], see=SEE),
    ),
    (
        r"unrecognized arguments: (.*)",
        lambda said: say("{said} is not taken here: {see}", said=said[1], see=SEE),
    ),
    (
        r"argument ([^:]+): expected .*",
        lambda said: say("{said} stands without its value: write it behind", said=said[1]),
    ),
    (
        r"argument ([^:]+): ignored explicit argument (.*)",
        lambda said: say("{option} takes no value: leave {value} out", option=said[1], value=said[2]),
    ),
    (
        r"argument ([^:]+): not allowed with argument (.*)",
        lambda said: say(
            "{one} and {other} do not go together: leave one out", one=said[1], other=said[2]
        ),
    ),
    (
        r"ambiguous option: (\S+) could match (.*)",
        lambda said: say("{option} may be {known}: write more of it", option=said[1], known=said[2]),
    ),
)
