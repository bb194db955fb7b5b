"""A job copied as a new one: what was measured on the earlier part is not measured on this one.

    Copied       what is taken over: the tree, what has to be measured anew, what was left out
    copied       the one from the job file
    like_text    the text of the new file: entries that stayed as they were keep their remarks

Work, holding and operations are taken over. A size that was measured is marked as not measured; what was
found on the other thread, its mate's sizes, what was agreed, who did it, when, and what its part had to
carry are left out: they are another job's.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from generator.intake.job_file import remarks_on
from generator.job.editor_line import MARK, editor_line
from generator.job.writing import remarked
from generator.job.written import NOWHERE, Block, Scalar
from generator.language.say import later, say

LEFT_OUT: Final[dict[str, str]] = {
    "customer": later("whose it was"),
    "received": later("when it came in"),
    "issued": later("when its sheet was issued"),
    "revision": later("its revision"),
    "status": later("where it stood"),
    "agreed": later("what was agreed"),
    "asked": later("what was asked"),
    "drawing": later("its drawing"),
    "superseded_by": later("the sheet that takes its place"),
    "people": later("who did what"),
    "photos": later("its pictures"),
    "found": later("what was measured on its thread"),
    "duty": later("what it had to carry"),
    "material_known_by": later("how its material was known"),
    "notes": later("its notes"),
}
OF_MATE: Final = ("pitch_diameter", "major", "minor", "on_bench", "says")
OF_THREAD: Final = ("blank",)
NOT_COPIED: Final = ("job", "title")


@dataclass(frozen=True)
class Copied:
    """What a job hands on: `tree`, the file's text, `again` to be measured anew, `left` in words."""

    tree: Block
    written: Block
    text: str
    number: str
    again: tuple[str, ...]
    left: tuple[str, ...]


def copied(written: Block, text: str) -> Copied:
    """What a new job takes over from another.

    Parameters
    ----------
    written : the job file as it is written
    text : its text

    Examples
    --------
    >>> earlier, size = Block(NOWHERE), Block(NOWHERE)
    >>> size.update(value=Scalar("2.2405"), by=Scalar("KL"), **{"with": Scalar("micrometer")})
    >>> earlier.update(job=Scalar("SW-1"), status=Scalar("done"), work=[{"length": size, "od": Scalar("2")}])
    >>> new = copied(earlier, "")
    >>> new.tree, new.again
    ({'work': [{'length': {'value': '2.2405', 'assumed': 'yes'}, 'od': '2'}]}, ('work: length 2.2405',))
    """
    tree, again, left = Block(NOWHERE), list[str](), list[str]()
    for key, value in written.items():
        if key in NOT_COPIED:
            continue
        if key in LEFT_OUT:
            left.append(f"{key} ({LEFT_OUT[key]})")
            continue
        tree[key] = _unmeasured(value, key, again, left)
    if not tree.get("mate", True):
        del tree["mate"]
    return Copied(tree, written, text, str(written.get("job", "")), tuple(again), tuple(left))


def _unmeasured(value: Any, place: str, again: list[str], left: list[str]) -> Any:
    """The same entry with nothing in it that was measured."""
    if isinstance(value, list):
        return [_unmeasured(one, place, again, left) for one in value]
    if not isinstance(value, dict):
        return value
    block = Block(NOWHERE)
    if "value" in value and ("by" in value or "with" in value):
        block.update(value=value["value"], assumed=Scalar("yes"))
        again.append(f"{place} {value['value']}")
        return block
    drop = OF_MATE if place == "mate" else OF_THREAD if place.endswith("thread") else ()
    for key, entry in value.items():
        if key in drop:
            left.append(f"{place.replace(': ', '.')}.{key}")
            continue
        block[key] = _unmeasured(entry, f"{place}: {key}", again, left)
    return block


def like_text(new: Block, like: Copied, more: Mapping[str, Sequence[str]] | None = None) -> str:
    """The text of the new file: blocks that are as they were keep the words and remarks they had.

    Parameters
    ----------
    new : the tree of the new job
    like : what was copied
    more : remarks, by the key over which they stand
    """
    told = [
        say("Copied from {number}: work, holding and operations are those of that job.", number=like.number)
    ]
    if like.again:
        told.append(
            say("Measure these anew, they are marked as not measured: {again}.", again="; ".join(like.again))
        )
    if like.left:
        told.append(say("Left out, for they are that job's own: {left}.", left=", ".join(like.left)))
    lines = like.text.splitlines()
    parts = [editor_line("job")]
    for key, value in new.items():
        own = _own_lines(key, like.written, lines)
        if key in like.written and own and value == like.written[key]:
            parts.append(own)
            continue
        said = remarks_on(key) if key not in like.written else []
        alone = Block(NOWHERE)
        alone[key] = value
        first = told if key == "job" else ()
        parts.append(remarked(alone, {key: [*first, *said, *(more or {}).get(key, ())]}))
    return "".join(parts)


def _own_lines(key: str, written: Block, lines: Sequence[str]) -> str:
    """The lines of a key at the top of a file, with the remarks right over it."""
    starts = {name: place.line - 1 for name, place in written.keys_where.items()}
    if key not in starts or any(written.keys_where[name].column != 1 for name in starts):
        return ""
    begin = starts[key]
    end = min((line for line in starts.values() if line > begin), default=len(lines))
    while end > begin + 1 and _apart(lines[end - 1]):
        end -= 1
    while begin > 0 and lines[begin - 1].startswith("#") and not lines[begin - 1].startswith(MARK):
        begin -= 1
    gap = begin > 0 and not lines[begin - 1].strip()
    return "\n" * gap + "".join(f"{line}\n" for line in lines[begin:end])


def _apart(line: str) -> bool:
    return not line.strip() or line.startswith("#")
