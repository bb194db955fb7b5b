"""A question on the terminal, or through a pipe as if it were one."""

from __future__ import annotations

import io
import sys
from typing import Final

_ESCAPED: Final = "surrogateescape"


def ask(prompt: str) -> str:
    """What is answered to a prompt; bytes that are no text come as signs that no answer may have.

    Raises
    ------
    EOFError
        When nobody answers any more.
    """
    if isinstance(sys.stdin, io.TextIOWrapper) and sys.stdin.errors != _ESCAPED:
        sys.stdin.reconfigure(errors=_ESCAPED)
    said = input(prompt)
    if not sys.stdin.isatty():
        print(said if said.isprintable() else "?")  # as a terminal would show it
    return said
