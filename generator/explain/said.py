"""Every text that is shown of what was not written to be said: explanations, docstrings, meanings of keys.

    said_texts    all of them in English, for whoever looks whether a catalog has them

Texts in the code say themselves (`say`, `later`), those of templates and pages are cut out by
`generator.language.fragments`; the sentences of findings and cautions are such texts.
"""

from __future__ import annotations

import inspect
from collections.abc import Iterator

from generator.explain.cautions import when_texts
from generator.explain.docstrings import pieces
from generator.explain.written import figure_texts, finding_texts
from generator.job.described import described_texts
from generator.job.schema import described_models


def said_texts() -> Iterator[str]:
    """Each once.

    Examples
    --------
    >>> "Bar standing out of the back of the headstock." in said_texts()
    True
    """
    yield from dict.fromkeys(text for text in (*_explanations(), *when_texts(), *_keys()) if text)


def _explanations() -> Iterator[str]:
    """What was written by hand about figures and findings, and the docstrings of the calculations."""
    for figure in figure_texts().values():
        yield from (figure.says, figure.range, figure.label)
        if figure.by:
            yield from pieces(figure.by)
    for finding in finding_texts().values():
        yield from (finding.why, finding.do, str.__str__(finding.source))


def _keys() -> Iterator[str]:
    """What the keys and blocks of every file are."""
    for model in described_models():
        yield from described_texts(model).values()
        if model.__doc__:
            yield inspect.cleandoc(model.__doc__)
