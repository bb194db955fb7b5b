"""Names of what is written on the page at the machine: made of what a field is, not of where it stands.

entry_name                a field's name, from the words and figures around it
plan_words                what every pass of a plan rests on
"""

from __future__ import annotations

import hashlib
import json

from generator.language.say import later
from generator.render.formats import written
from generator.sheet.model import Sheet

LETTERS = 12  # of the hash: two fields of one job that meet by chance are one in 2 to the 48th
LATHE = later("Lathe")  # the field of the title block
PLAN = ("thread.designation", "thread.hand", "thread.blank", "passes.infeed_angle", "passes.travel")


def entry_name(kind: str, *what: str) -> str:
    """The same words and figures give the same name; one figure changed gives another.

    >>> entry_name("pass", "3", "0.0460") == entry_name("pass", "3", "0.0460")
    True
    >>> entry_name("pass", "3", "0.0460") == entry_name("pass", "3", "0.0465")
    False
    >>> entry_name("step", "a", "b") == entry_name("step", "ab", "")
    False
    """
    text = json.dumps(what, ensure_ascii=True)
    return f"{kind}-{hashlib.sha256(text.encode()).hexdigest()[:LETTERS]}"


def plan_words(sheet: Sheet) -> tuple[str, ...]:
    """Thread, blank, slide, its angle and travel, and lathe: where one of them changes, all passes do."""
    figures = (sheet.figures.get(name) for name in PLAN)
    said = ["" if figure is None else written(figure, sheet.system).text for figure in figures]
    lathe = next((field.text for field in sheet.title_block if str(field.label) == str(LATHE)), "")
    return (*said, sheet.pass_dial, lathe)
