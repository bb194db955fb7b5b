"""What of a sheet can be printed: everything, or the pages for one reader of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from generator.language.say import later

EVERYTHING: Final = "everything"
PARTS: Final = {  # word of the command line: class on the sheet, read by print.css; what the page calls it
    EVERYTHING: ("", later("everything")),
    "machine": ("print-machine", later("pages for the machine")),
    "file": ("print-file", later("pages for the file")),
    "customer": ("print-customer", later("page for the customer")),
}


@dataclass(frozen=True)
class PrintChoice:
    """One line of the choice: the class it puts on the sheet, its words, and whether it is the one chosen."""

    value: str
    words: str
    chosen: bool = False


CARD: Final = PrintChoice("print-card", later("card to take it up"))  # of a sheet that has one


def print_choices(chosen: str = EVERYTHING, *, card: bool = False) -> tuple[PrintChoice, ...]:
    """The choice in its order; `chosen` is a word of `PARTS`, and with a `card` that can be chosen, too."""
    parts = tuple(PrintChoice(*said, chosen=part == chosen) for part, said in PARTS.items())
    return (*parts, CARD) if card else parts
