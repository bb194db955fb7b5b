"""The command line: `python -m generator COMMAND`. Bad input gets a sentence and a status, no traceback."""

from __future__ import annotations

import argparse
import os
import re
import sys
from collections.abc import Callable, Sequence
from contextlib import suppress
from itertools import pairwise
from pathlib import Path

from generator import commands
from generator.collecting import collecting_seldom
from generator.command_line import command_parser
from generator.completing import completing
from generator.errors import SheetError, why_not
from generator.language.say import first_large, say
from generator.language.spoken import LANGUAGES, speak, written_for

INTERRUPTED = 130  # what a shell reports for a program ended by Ctrl-C


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command and return its exit status: 0 clean, 1 errors, 2 wrong usage."""
    os.environ.setdefault("NO_MKDOCS_2_WARNING", "1")  # the theme's notice about its own future
    words = list(sys.argv[1:] if argv is None else argv)
    speak(_language(words))
    parser = command_parser()
    completing(parser)
    asked = parser.parse_args(_with_signs(words))
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
        print(f"{error.filename or say('input or output')}: {first_large(why_not(error))}", file=sys.stderr)
        return commands.ERRORS
    except KeyboardInterrupt:
        print(say("Stopped."), file=sys.stderr)
        return INTERRUPTED


def _language(words: Sequence[str]) -> str:
    """The language of a command line, before it is understood: the shop's, or the one of a new shop.

    >>> _language(["start", "shop", "--language", "de"]), _language(["start", "shop", "--language=tlh"])
    ('de', 'en')
    """
    wanted = _given(words, "--language")
    if wanted in LANGUAGES:
        return wanted
    return written_for(Path(_given(words, "--jobs") or "jobs"))


def _given(words: Sequence[str], option: str) -> str:
    """The value of an option on a command line, before that is understood; "" where it is not given.

    >>> _given(["check", "--jobs", "a"], "--jobs"), _given(["build", "--jobs=b"], "--jobs")
    ('a', 'b')
    """
    for word, following in pairwise([*words, ""]):
        name, _, value = word.partition("=")
        if name == option:
            return value or following
    return ""


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
