"""What a sheet knows of the jobs like it: where to ask for them, and by what they are ranked."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from generator.language.say import say
from generator.sheet.row import ArchiveRow
from generator.sheet.row_names import alike_address, alike_names, list_address, pitched, safe_name

TOP: Final = "../../"  # from the page of a sheet to the top of the site
UNKNOWN: Final = "unknown"  # two materials that nobody knows are not the same


@dataclass(frozen=True)
class AlikeBlock:
    """`data` are the scripts that list the jobs, a space between; `link` leads to a plain list, `words`.

    `turns`, `material` and `held` are what this sheet shares with some of them.
    """

    data: str
    turns: str
    material: str
    held: str
    link: str
    words: str


def alike_block(row: ArchiveRow) -> AlikeBlock:
    """Those of this job."""
    if row.thread is None:
        turns, link = "", list_address("material", safe_name(row.material))
        words = say("All jobs of this material")
    else:
        one = pitched(row.thread)
        turns, link = one.turns, list_address("thread", one.name)
        words = say("All jobs with this thread")
    material = row.material if row.material != UNKNOWN else ""
    data = " ".join(TOP + alike_address(name) for name in alike_names(row))
    return AlikeBlock(data, turns, material, row.held, TOP + link, words)
