"""The first line of a file that tells an editor which schema the file follows.

    editor_line      the line, by kind of file and by where the schemas lie
    SCHEMAS          where the schemas of an archive lie, in its jobs folder

The editors that read such a line complete keys and show what each means as one types. For the reader of this
program it is a remark.
"""

from __future__ import annotations

from pathlib import Path, PurePosixPath
from typing import Final, Literal

FileKind = Literal["job", "log", "sender", "lathe", "materials", "tools", "house"]
SCHEMAS: Final = PurePosixPath("_shop", "schemas")
_PLACES: Final[dict[FileKind, tuple[str, ...]]] = {  # of the file's folder, below the jobs folder
    "job": ("YEAR", "JOB"), "log": ("YEAR", "JOB"), "sender": ("YEAR", "JOB"),
    "lathe": ("_shop", "lathes"), "materials": ("_shop",), "tools": ("_shop",), "house": ("_shop",),
}


def editor_line(kind: FileKind) -> str:
    """The line for a file of that kind in its usual place, with its line end.

    Examples
    --------
    >>> editor_line("lathe")
    '# yaml-language-server: $schema=../schemas/lathe.schema.json\\n'
    >>> editor_line("job")
    '# yaml-language-server: $schema=../../_shop/schemas/job.schema.json\\n'
    """
    place = _PLACES[kind]
    inside = place[0] == SCHEMAS.parts[0]
    up = [".."] * (len(place) - inside)
    down = SCHEMAS.parts[inside:]
    return f"# yaml-language-server: $schema={'/'.join((*up, *down, f'{kind}.schema.json'))}\n"


def has_schemas(jobs: Path) -> bool:
    """Whether the schemas lie in a jobs folder, so that the line leads somewhere."""
    return jobs.joinpath(*SCHEMAS.parts).is_dir()
