"""A job file or log without what is nobody else's business, for whoever hands a job to another shop.

    without        the file without private entries, and in words what was left out
    still_named    where the customer is named all the same, in words of somebody's own

Which entries are private stands in one table below. What the part must do, what it carries and what material
it is stay whatever is left out, for safety hangs on them. A file that loses an entry is written anew from its
tree: every value stays as it was written, remarks (after #) go, for they may name somebody.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Final

from generator.errors import SheetError
from generator.job.editor_line import without_line
from generator.job.reading import read_tree
from generator.job.writing import file_text
from generator.job.written import Block, Listing
from generator.language.say import later, say

Private = tuple[tuple[tuple[str, ...], str], ...]  # keys from the top down, * for each; what stands there

CUSTOMERS: Final[Private] = (
    (("customer",), later("the customer")),
    (("drawing",), later("the number of the drawing")),
    (("asked",), later("what the customer asked")),
    (("agreed",), later("what was agreed with the customer")),
    (("duty", "by"), later("who said what the part must do")),
    (("mate", "says"), later("who told of the mate")),
)
PHOTOS: Final[Private] = ((("photos",), later("the pictures and their captions")),)
TIMES: Final[Private] = (
    (("operations", "*", "*", "time"), later("the time that an operation is known to take")),
)
PEOPLE: Final[Private] = ((("people",), later("who did what")),)
CUSTOMERS_IN_LOG: Final[Private] = (
    (("*", "agreed"), later("what was agreed with the customer")),
    (("*", "concession"), later("what the customer let pass outside its limits")),
)
TIMES_IN_LOG: Final[Private] = ((("*", "time"), later("the time that it took")),)
PEOPLE_IN_LOG: Final[Private] = ((("*", "by"), later("who did it")),)

REMARKS: Final = later("remarks in the file (after #)")
_NOT_ALONE: Final = frozenset({"at", "by", "operation", "start"})  # an entry of a log says more than these


def without(
    text: str | bytes, path: Path, *, customer: bool = False, photos: bool = False, times: bool = False,
    people: bool = False,
) -> tuple[bytes, list[str]]:
    """A job file, or a log, without some of its entries.

    Parameters
    ----------
    text : the whole file; a list at its top is a log
    path : as problems name it
    customer : without the customer, the number of the drawing, what was asked and agreed, who said so, and
        concessions
    photos : without the pictures, which are files beside the job
    times : without the times that work takes and took
    people : without who did what; who measured a size stays, for a size nobody measured is another

    Returns
    -------
    The new file, and what was left out, a few words each, none of them out of the file but its keys. Where
    nothing is left out, the file is as it was, byte by byte.

    Notes
    -----
    An entry of a log that says nothing more without them is left out whole.

    Raises
    ------
    JobProblems
        When the file cannot be read as YAML.
    SheetError
        When what is left would not read back as it was.
    """
    data = text.encode() if isinstance(text, str) else text
    tree = read_tree(path, data)
    log = isinstance(tree, Listing)
    private = [
        *((CUSTOMERS_IN_LOG if log else CUSTOMERS) if customer else ()),
        *((PHOTOS if not log else ()) if photos else ()),
        *((TIMES_IN_LOG if log else TIMES) if times else ()),
        *((PEOPLE_IN_LOG if log else PEOPLE) if people else ()),
    ]
    remarks = without_line(data).count(b"#") > _signs(tree)
    entries = [(entry, len(entry)) for entry in tree] if isinstance(tree, Listing) else []
    found: Counter[str] = Counter()
    for keys, words in private:
        label = f"{words} ({'.'.join(key for key in keys if key != '*')})"
        found[label] += _take_out(tree, keys)
    left_out = [
        say("{label}, {count} times", label=label, count=count) if count > 1 else label
        for label, count in found.items()
        if count
    ]
    if isinstance(tree, Listing):
        empty = [entry for entry, keys in entries if len(entry) < keys and _says_nothing(entry)]
        tree[:] = [entry for entry in tree if not any(entry is one for one in empty)]
        left_out += (
            [say("{empty} of the entries, which said nothing else", empty=len(empty))] if empty else []
        )
    if not left_out and not (customer and (remarks or b"\\" in data)):  # "\x23" could hide a remark's sign
        return data, []
    new = file_text(tree).encode()
    if read_tree(path, new) != tree:
        raise SheetError(
            say("{path}: cannot be written without its private entries: take them out by hand", path=path)
        )
    return new, [*left_out, str(REMARKS)] if remarks else left_out


def still_named(before: bytes, after: bytes, path: Path) -> list[str]:
    """The dotted names of entries of `after` that hold what `before`, a job file, has for its customer.

    Examples
    --------
    >>> job = b"customer: SM-114\\ntitle: Spindle of sm-114\\njob: SM-1145\\n"
    >>> still_named(job, without(job, Path("job.yml"), customer=True)[0], Path("job.yml"))
    ['title']
    """
    tree = read_tree(path, before)
    name = tree.get("customer", "") if isinstance(tree, Block) else ""
    if not isinstance(name, str) or not name.strip():
        return []
    named = re.compile(rf"(?<!\w){re.escape(name.strip())}(?!\w)", re.IGNORECASE)
    return [field for field, words in _words(read_tree(path, after)) if named.search(words)]


def _take_out(value: object, keys: tuple[str, ...]) -> int:
    """Take out what stands under these keys, and say how many times it stood there."""
    first, rest = keys[0], keys[1:]
    if isinstance(value, Block):
        if not rest:
            return int(value.pop(first, None) is not None)
        return sum(_take_out(value[key], rest) for key in value if first in ("*", key))
    if isinstance(value, Listing) and first == "*":
        return sum(_take_out(entry, rest) for entry in value)
    return 0


def _says_nothing(entry: Block) -> bool:
    """True for an entry of a log that tells when and who, and nothing of what happened."""
    unfinished = str(entry.get("finished", "")).strip().lower() in ("no", "false")
    return not set(entry) - _NOT_ALONE - ({"finished"} if unfinished else set())


def _signs(value: object) -> int:
    """How many # stand in the keys and values of a tree."""
    if isinstance(value, dict):
        return sum(key.count("#") + _signs(entry) for key, entry in value.items())
    if isinstance(value, list):
        return sum(map(_signs, value))
    return str(value).count("#")


def _words(value: object, name: str = "") -> Iterator[tuple[str, str]]:
    """Every value of a tree as written, with its dotted name."""
    if isinstance(value, dict | list):
        for key, entry in value.items() if isinstance(value, dict) else enumerate(value):
            yield from _words(entry, f"{name}.{key}" if name else str(key))
    else:
        yield name, str(value)
