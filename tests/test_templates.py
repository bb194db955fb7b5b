"""Templates place finished text: they calculate nothing and compare nothing."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from jinja2 import Environment, nodes

TEMPLATES = Path(__file__).resolve().parent.parent / "site_templates"
FILES = sorted(path for path in TEMPLATES.rglob("*") if path.suffix in {".html", ".svg", ".j2", ".xml"})
ARITHMETIC = (
    nodes.Add,
    nodes.Sub,
    nodes.Mul,
    nodes.Div,
    nodes.FloorDiv,
    nodes.Mod,
    nodes.Pow,
    nodes.Neg,
    nodes.Pos,
)
ARITHMETIC_FILTERS = {
    "abs",
    "float",
    "int",
    "round",
    "sum",
    "min",
    "max",
    "length",
    "count",
    "format",
    "filesizeformat",
}


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.relative_to(TEMPLATES).as_posix())
def test_a_template_holds_no_arithmetic_and_no_comparison(path: Path) -> None:
    tree = Environment(extensions=["jinja2.ext.do"]).parse(path.read_text(encoding="utf-8"))
    for kind in (*ARITHMETIC, nodes.Compare):
        for node in tree.find_all(kind):
            pytest.fail(f"{path.name}:{node.lineno}: {kind.__name__}")
    for node in tree.find_all(nodes.Filter):
        assert node.name not in ARITHMETIC_FILTERS, f"{path.name}:{node.lineno}: filter {node.name}"


@pytest.mark.parametrize(
    "source", ["{{ a + 1 }}", "{{ a * b }}", "{{ -a }}", "{% if a > 2 %}x{% endif %}", "{{ a if b == c }}"]
)
def test_the_check_sees_arithmetic(source: str) -> None:
    tree = Environment().parse(source)
    assert any(list(tree.find_all(kind)) for kind in (*ARITHMETIC, nodes.Compare))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.relative_to(TEMPLATES).as_posix())
def test_a_template_switches_no_escaping_off(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert not re.search(r"\|\s*safe\b|autoescape\s+false", text)
    assert "http://" not in text.replace("http://www.w3.org/", "")
    assert "https://" not in text


THEME = [path for path in FILES if path.parent.name == "theme"]


@pytest.mark.parametrize("path", THEME, ids=lambda path: path.name)
def test_a_theme_template_escapes_what_comes_from_jobs(path: Path) -> None:
    """mkdocs renders the theme without escaping, so each text of a job is escaped by name."""
    for found in re.findall(r"{{(.*?)}}", path.read_text(encoding="utf-8")):
        if re.search(r"\b(entry|figure|source|labels)\b|archive\.s", found):
            assert re.search(r"\|\s*e\s*$", found.strip()), found
