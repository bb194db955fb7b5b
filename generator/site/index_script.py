"""The table of jobs as a script."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable
from operator import attrgetter
from typing import Final

from generator.sheet.row import ArchiveRow
from generator.site.entry import Entry

COLUMNS: Final[dict[str, Callable[[ArchiveRow], str]]] = {
    "number": attrgetter("number"), "title": attrgetter("title"), "thread": attrgetter("designation"),
    "material": attrgetter("material"), "lathe": attrgetter("lathe"), "holding": attrgetter("held"),
    "year": attrgetter("year"), "status": attrgetter("status"),
}
FILTERS: Final = ("year", "lathe", "status")  # columns with few different words


def index_script(entries: Iterable[Entry]) -> str:
    """The table of jobs as a classic script, which a browser also loads from disk.

    Each row is `[address, the columns in their order, ready, the text to search]`. `<` is escaped, so
    that no text of a job can end a script element.
    """
    rows = [
        [
            entry.link,
            *(say(entry.row) for say in COLUMNS.values()),
            "yes" if entry.row.ready else "",
            " ".join(filter(None, (entry.row.customer, entry.row.text))),
        ]
        for entry in entries
    ]
    data = json.dumps(rows, ensure_ascii=False, separators=(",", ":"))
    safe = data.replace("<", "\\u003c").replace("\u2028", "\\u2028").replace("\u2029", "\\u2029")
    return f"var setupSheetJobs={safe};\n"
