"""Trees of the archive's files as text: what the reader reads back as the same tree.

    entry_text    one entry of a log, beginning with its dash
    file_text     a whole file, each value as it was written; remarks are not in the tree
"""

from __future__ import annotations

import re
from typing import Any, Final

import yaml

from generator.job.fields import Block, Listing, Scalar

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


def _written(node: Any) -> str:
    text: str = yaml.serialize(node, Dumper=yaml.SafeDumper, width=WIDTH, allow_unicode=True)
    return text


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
