"""The first line of a file that tells an editor which schema the file follows.

    editor_line      the line, by kind of file and by where the schemas lie
    SCHEMAS          where the schemas of an archive lie, in its jobs folder; has_schemas, whether they do
    with_lines, without_line    files of a job's folder that begin with theirs; a file that does not

The editors that read such a line complete keys and show what each means as one types. For the reader of this
program it is a remark.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path, PurePosixPath
from typing import Final, Literal

FileKind = Literal["job", "log", "sender", "lathe", "materials", "tools", "house"]
SCHEMAS: Final = PurePosixPath("_shop", "schemas")
MARK: Final = "# yaml-language-server:"  # how the line begins
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
    return f"{MARK} $schema={'/'.join((*up, *down, f'{kind}.schema.json'))}\n"


def with_lines(files: Mapping[str, bytes], jobs: Path) -> dict[str, bytes]:
    """The files of a new job's folder, by name, each with its line where the schemas lie in that archive."""
    kinds: dict[str, FileKind] = {"job.yml": "job", "log.yml": "log", "sender.yml": "sender"}
    if not has_schemas(jobs):
        return dict(files)
    return {
        name: editor_line(kinds[name]).encode() + without_line(data) if name in kinds else data
        for name, data in files.items()
    }


def without_line(data: bytes) -> bytes:
    """A file that does not begin with such a line, nor with an empty one after it.

    Examples
    --------
    >>> without_line(editor_line("job").encode() + b"job: SW-1\\n"), without_line(b"# a\\n")
    (b'job: SW-1\\n', b'# a\\n')
    """
    first, _, rest = data.partition(b"\n")
    return rest.lstrip(b"\r\n") if first.startswith(MARK.encode()) else data


def has_schemas(jobs: Path) -> bool:
    """Whether the schemas lie in a jobs folder, so that the line leads somewhere."""
    return jobs.joinpath(*SCHEMAS.parts).is_dir()
