"""Trees of the archive's files as text: what the reader reads back as the same tree.

    entry_text    one entry of a log, beginning with its dash
    file_text     a whole file, each value as it was written; remarks are not in the tree
    remarked      a block of keys with remarks over its keys, for people who go on writing by hand
    remark        a sentence as lines that begin with the sign of a remark
"""

from __future__ import annotations

import re
import textwrap
from collections.abc import Mapping, Sequence
from typing import Any, Final

import yaml

from generator.job.written import Block, Listing, Scalar

WIDTH: Final = 110
_TEXT: Final = "tag:yaml.org,2002:str"
_LIST: Final = "tag:yaml.org,2002:seq"
_BLOCK: Final = "tag:yaml.org,2002:map"
# What only double quotes keep.
_ESCAPED: Final = re.compile("[^\n -~\xa0-\u2027\u202a-\ufefe\uff00-\U0010ffff]")
_RESOLVER: Any = yaml.resolver.Resolver()


def entry_text(entry: Block) -> str:
    r"""One entry as an item of a list, with its line end; blocks in it stand in braces.

    A value that was written plainly stays plain; text gets quotes where it would be read as something else.

    Examples
    --------
    >>> block = Block(Scalar("").where)
    >>> block.update(at=Scalar("2026-03-04"), note=Scalar("yes", quoted=True))
    >>> entry_text(block)
    "- at: 2026-03-04\n  note: 'yes'\n"
    """
    return _written(yaml.SequenceNode(_LIST, [_node(entry, flow=False)], flow_style=False))


def file_text(tree: Block | Listing) -> str:
    r"""A job file, or a log, as its tree has it: keys and entries a line each, what is in them in braces.

    Examples
    --------
    >>> tree = Block(Scalar("").where)
    >>> tree.update(job=Scalar("SW-1"), work=[{"length": Scalar("14"), "od": Scalar("2 1/4")}])
    >>> file_text(tree)
    'job: SW-1\nwork:\n- {length: 14, od: 2 1/4}\n'
    """
    if isinstance(tree, dict):
        pairs = [(_scalar(Scalar(key)), _entries(value)) for key, value in tree.items()]
        return _written(yaml.MappingNode(_BLOCK, pairs, flow_style=not pairs))
    return "".join(map(entry_text, tree))


def remarked(tree: Block, remarks: Mapping[str, Sequence[str]], last: Sequence[str] = ()) -> str:
    r"""A file of keys and values with remarks: over a key those of that key, at the end the last ones.

    Whatever a remark says, it stays a remark: line ends and other signs that cannot be printed become spaces.

    Examples
    --------
    >>> tree = Block(Scalar("").where)
    >>> tree.update(job=Scalar("SW-1"), title=Scalar("Pin"))
    >>> remarked(tree, {"title": ["What it is:\nlathe: none"]})
    'job: SW-1\n\n# What it is: lathe: none\ntitle: Pin\n'
    """
    written = list[str]()
    for key, value in tree.items():
        said = "".join(map(remark, remarks.get(key, ())))
        pair = _scalar(Scalar(key)), _opened(value)
        text = _written(yaml.MappingNode(_BLOCK, [pair], flow_style=False), _Indented)
        written.append(("\n" if said and written else "") + said + text)
    return "".join(written) + ("\n" if last else "") + "".join(map(remark, last))


def remark(sentence: str) -> str:
    """A sentence as a remark, of several lines where it is long."""
    plain = " ".join("".join(sign if sign.isprintable() else " " for sign in str(sentence)).split())
    return "".join(f"# {line}\n" for line in textwrap.wrap(plain, WIDTH - 2, break_on_hyphens=False))


class _Indented(yaml.SafeDumper):
    """Writes the dashes of a list further in than its key, as people do."""

    def increase_indent(self, flow: bool = False, indentless: bool = False) -> None:
        super().increase_indent(flow, False)


def _written(node: Any, dumper: type[yaml.SafeDumper] = yaml.SafeDumper) -> str:
    text: str = yaml.serialize(node, Dumper=dumper, width=WIDTH, allow_unicode=True)
    return text


def _opened(value: object) -> Any:
    """What stands under a key, a line for each entry of a block that holds blocks or lists."""
    if isinstance(value, dict) and any(isinstance(entry, dict | list) for entry in value.values()):
        pairs = [(_scalar(Scalar(key)), _entries(entry)) for key, entry in value.items()]
        return yaml.MappingNode(_BLOCK, pairs, flow_style=False)
    return _entries(value)


def _entries(value: object) -> Any:
    """What stands under a key of the file: a list of blocks a line each, anything else on the key's line."""
    if isinstance(value, list) and any(isinstance(entry, dict) for entry in value):
        # an entry of one key, such as an operation, needs no braces
        lines = [_node(one, flow=not (isinstance(one, dict) and len(one) == 1)) for one in value]
        return yaml.SequenceNode(_LIST, lines, flow_style=False)
    return _node(value)


def _node(value: object, flow: bool = True) -> Any:
    if isinstance(value, dict):
        pairs = [(_scalar(Scalar(key)), _node(entry)) for key, entry in value.items()]
        return yaml.MappingNode(_BLOCK, pairs, flow_style=flow)
    if isinstance(value, list):
        return yaml.SequenceNode(_LIST, [_node(entry) for entry in value], flow_style=True)
    return _scalar(value if isinstance(value, Scalar) else Scalar(str(value)))


def _scalar(value: Scalar) -> Any:
    text = str(value)
    tag = _TEXT if value.quoted else _RESOLVER.resolve(yaml.ScalarNode, text, (True, False))
    return yaml.ScalarNode(tag, text, style='"' if _ESCAPED.search(text) else "|" if "\n" in text else None)
