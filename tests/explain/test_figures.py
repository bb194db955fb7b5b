"""Every figure is explained, nothing that is gone is, and what is said of one is what the program does."""

from __future__ import annotations

import ast
import os
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from generator.errors import JobProblems
from generator.explain.docstrings import calculation
from generator.explain.figures import figure_entries
from generator.explain.laid import as_text, file_of, laid, laid_of
from generator.explain.pages import CHAPTERS
from generator.explain.written import figure_texts
from generator.language.spoken import CATALOGS, speak
from generator.sheet.explained_at import any_name
from generator.sheet.model import Sheet
from generator.site.archive import make_sheet, try_shop

HOME = Path(__file__).parents[2]
SOURCES = [*(HOME / "generator/sheet").rglob("*.py"), *(HOME / "generator/threads").rglob("*.py")]
TEXTS = figure_texts()
BY = sorted({text.by for text in TEXTS.values() if text.by})
REWRITE = "REWRITE_LAID"


def demo_sheets() -> list[Sheet]:
    """Every sheet of the demo archive."""
    shop, found = try_shop(HOME / "jobs/_shop"), []
    for path in sorted((HOME / "jobs").glob("*/*/job.yml")):
        try:
            found.append(make_sheet(path, shop))
        except JobProblems:
            continue
    assert len(found) > 10
    return found


@pytest.fixture(scope="module")
def sheets() -> list[Sheet]:
    """Every sheet of the demo archive, in English."""
    return demo_sheets()


def test_every_figure_of_a_demo_sheet_is_explained(sheets: list[Sheet]) -> None:
    names = {any_name(name) for sheet in sheets for name in sheet.figures}
    assert names - TEXTS.keys() == set()


@pytest.fixture(params=["en", *sorted(one.stem for one in CATALOGS.glob("*.po"))])
def code(request: pytest.FixtureRequest) -> Iterator[str]:
    """English, then each language of a catalog, while it is spoken."""
    speak(request.param)
    yield request.param
    speak("en")


def test_what_is_kept_of_the_demo_sheets_is_what_they_lay_down(code: str, sheets: list[Sheet]) -> None:
    text = as_text(laid_of(sheets if code == "en" else demo_sheets()))
    if os.environ.get(REWRITE):
        file_of(code).write_text(text, encoding="utf-8")
    assert file_of(code).read_text(encoding="utf-8") == text, (
        f"figures changed: {REWRITE}=1 python -m pytest tests/explain/test_figures.py writes the files anew"
    )


def test_a_translated_sheet_lays_down_the_same_figures(code: str) -> None:
    speak("en")
    english = laid()
    speak(code)
    for name, one in laid().items():
        assert (one.quantity, one.kinds, one.rounds) == (
            english[name].quantity, english[name].kinds, english[name].rounds
        ), name
        assert not any("{" in text for text in (*one.labels, *one.formulas)), name


def literals() -> Iterator[str]:
    """Every text and pattern of a text in the sources, as regular expressions."""
    for path in SOURCES:
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                yield re.escape(any_name(node.value))
            elif isinstance(node, ast.JoinedStr):
                parts = [re.escape(str(one.value)) if isinstance(one, ast.Constant) else "[a-z0-9_.]+"
                         for one in node.values]
                if any(re.search("[a-z]{3}", one) and one[0] != "[" for one in parts):
                    yield "".join(parts)


def test_no_explanation_of_a_figure_that_is_gone() -> None:
    """Its name, or its last word, stands in the sources; what no demo sheet shows has its label here."""
    known = [re.compile(one) for one in set(literals())]
    gone = []
    for name, text in TEXTS.items():
        words = name.split(".")
        if not any(one.fullmatch(name) or one.fullmatch(words[-1]) for one in known):
            gone.append(name)
        assert (name in laid()) != bool(text.label and text.quantity), f"{name}: label and quantity of it"
    assert not gone


def test_every_figure_has_its_page() -> None:
    assert {name.partition(".")[0] for name in TEXTS} == set(CHAPTERS)


@pytest.mark.parametrize("name", BY)
def test_a_calculation_says_formula_units_range_source_and_example(name: str) -> None:
    """numpydoc sections and Source, in the docstring of the very function that the program calls."""
    found = calculation(name)
    lacks = [what for what, there in (
        ("formula", found.has_formula), ("range", found.range), ("source", found.source),
        ("example", found.examples), ("inputs", found.inputs), ("returns", found.gives),
    ) if not there]
    assert not lacks


def called() -> set[str]:
    """Every name that the sheets' modules and those below them use."""
    found = set()
    for path in [*SOURCES, *(HOME / "generator/calc").glob("*.py")]:
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Attribute):
                found.add(node.attr)
            elif isinstance(node, ast.Name):
                found.add(node.id)
    return found


def test_a_calculation_that_explains_is_one_that_is_called() -> None:
    used = called()
    assert [name for name in BY if name.rpartition(".")[2] not in used] == []


def test_an_entry_says_it_all() -> None:
    for entry in figure_entries().values():
        assert entry.label
        assert entry.says.endswith((".", "?"))
        assert entry.unit
        assert entry.sources
        if entry.formulas or entry.calculation:
            assert entry.range


@pytest.mark.parametrize(
    ("name", "anchor"),
    [
        ("operation.12.feed", "operation.n.feed"), ("give.2.error", "give.n.error"),
        ("work.cross_hole_1.from_end", "work.cross_hole_n.from_end"), ("reach.thread.left", "reach.cut.left"),
        ("reach.center_drill_2.quill", "reach.cut.quill"), ("found.candidate.1", "found.candidate.n"),
        ("thread.gauge.e0", "thread.gauge.e0"), ("reach.quill_out", "reach.quill_out"),
    ],
)
def test_the_name_of_any(name: str, anchor: str) -> None:
    assert any_name(name) == anchor
