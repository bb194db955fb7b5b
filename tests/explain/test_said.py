"""What is shown of docstrings and models is said, and a catalog can know of each such text."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

import pytest

from generator.explain import said
from generator.explain.cautions import caution_entries
from generator.explain.docstrings import calculation
from generator.explain.fields import field_lists
from generator.explain.figures import figure_entries
from generator.explain.findings import finding_entries
from generator.explain.pages import finding_list, how_to_body
from generator.explain.written import figure_texts
from generator.job.schema import job_schema, log_schema, sender_schema, shop_schemas
from generator.language.spoken import MARKS, speak
from generator.site.explained import how_to_pages

MARKED = re.compile(f"{MARKS[0]}([^{''.join(MARKS)}]*){MARKS[1]}")
TEXTS = set(said.said_texts())


@pytest.fixture(autouse=True)
def marks() -> Iterator[None]:
    """Every text that is said stands in marks."""
    speak("en-XA")
    yield
    speak("en")


def in_marks(text: str) -> set[str]:
    """The texts in marks, and the test fails where words stand outside of them."""
    outside = MARKED.sub("", text)
    assert not re.search(r"[^\W\d_]{2}", outside), f"not said: {outside}"
    return set(MARKED.findall(text))


def test_a_calculation_is_said_in_pieces_that_the_list_has() -> None:
    for name in sorted({text.by for text in figure_texts().values() if text.by}):
        found = calculation(name)
        meanings = (meaning for _, meaning in found.inputs)
        words = (example.words for example in found.examples)
        for text in (found.says, found.gives, found.range, found.source, *meanings, *words):
            assert in_marks(text) <= TEXTS, name


def test_figures_and_findings_are_said_in_texts_that_the_list_has() -> None:
    for figure in figure_entries().values():
        assert in_marks(figure.says) <= TEXTS
        assert in_marks(figure.label)
        in_marks(figure.rounds)
    for finding in finding_entries().values():
        assert in_marks(finding.why) | in_marks(finding.do) <= TEXTS
        in_marks(finding.source)
    assert all(MARKS[0] in one["levels"] and MARKS[0] in one["harm"] for one in finding_list())


def test_cautions_are_said_in_texts_that_the_list_has() -> None:
    for caution in caution_entries():
        assert in_marks(caution.when) <= TEXTS
        in_marks(caution.where)
        in_marks(caution.signal)
        assert caution.text.startswith(MARKS[0])


def test_meanings_of_keys_and_blocks_are_said_in_texts_that_the_list_has() -> None:
    for kind in field_lists():
        for key in kind.fields:
            assert in_marks(key.meaning) <= TEXTS, key.place
            assert "(" not in MARKED.sub("", key.name), key.name


def descriptions(node: Any) -> Iterator[str]:
    if isinstance(node, dict):
        for key, one in node.items():
            if key == "description" and isinstance(one, str):
                yield one
            else:
                yield from descriptions(one)
    elif isinstance(node, list):
        for one in node:
            yield from descriptions(one)


def test_schemas_describe_themselves_in_the_language_of_the_shop() -> None:
    for schema in (job_schema(), log_schema(), sender_schema(), *shop_schemas().values()):
        assert [text for text in descriptions(schema) if not text.startswith(MARKS[0])] == []


def test_a_page_of_tasks_is_said_but_for_what_is_typed() -> None:
    page = how_to_pages()[1]
    assert page.title.startswith(MARKS[0])
    body = how_to_body(page.text.read_text(encoding="utf-8"))
    assert f"<h1>{page.title}</h1>" in body
    assert not any(MARKS[0] in code for code in re.findall(r"<pre>.*?</pre>", body, re.DOTALL))


def test_what_a_finding_says_is_chosen_in_english() -> None:
    said_in_marks = {id: len(one.sentences) for id, one in finding_entries().items()}
    speak("en")
    assert {id: len(one.sentences) for id, one in finding_entries().items()} == said_in_marks
