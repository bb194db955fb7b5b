"""Entries of a log as text: what the reader reads back as the same tree.

    entry_text    one entry, beginning with its dash
"""

from __future__ import annotations

from typing import Any, Final

import yaml

from generator.job.fields import Block, Scalar

WIDTH: Final = 110
_TEXT: Final = "tag:yaml.org,2002:str"
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
    text: str = yaml.serialize(
        yaml.SequenceNode("tag:yaml.org,2002:seq", [_node(entry, flow=False)], flow_style=False),
        Dumper=yaml.SafeDumper, width=WIDTH, allow_unicode=True,
    )
    return text


def _node(value: object, flow: bool = True) -> Any:
    if isinstance(value, dict):
        pairs = [(_scalar(Scalar(key)), _node(entry)) for key, entry in value.items()]
        return yaml.MappingNode("tag:yaml.org,2002:map", pairs, flow_style=flow)
    if isinstance(value, list):
        return yaml.SequenceNode(
            "tag:yaml.org,2002:seq", [_node(entry) for entry in value], flow_style=True
        )
    return _scalar(value if isinstance(value, Scalar) else Scalar(str(value)))


def _scalar(value: Scalar) -> Any:
    text = str(value)
    tag = _TEXT if value.quoted else _RESOLVER.resolve(yaml.ScalarNode, text, (True, False))
    return yaml.ScalarNode(tag, text, style="|" if "\n" in text else None)
