"""Every text that can be said, from where it stands, and the catalogs that have them.

    python tests/language/catalog.py      writes what is new into each catalog, without a translation yet, and
                                          takes out what is said no more

Texts are looked for in calls of `say`, `say_count` and `later`, in the templates, in the plain pages and the
tasks, in the scripts and style sheets, in the explanations, and in the names that formulas put their figures
under.
"""

from __future__ import annotations

import ast
import io
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Final

from babel.messages.catalog import Catalog
from babel.messages.pofile import read_po, write_po

from generator.explain.said import said_texts
from generator.job.thread_print import thread_tables
from generator.language import fragments, scripts
from generator.tables.rows import worded

ROOT: Final = Path(__file__).resolve().parents[2]
CATALOGS: Final = ROOT / "generator" / "language"
WORDS: Final = re.compile(r"[^\W\d_]{3}")
NAME: Final = re.compile(r"\{([A-Za-z][\w ,:'-]*)\}")
RECKONED: Final = re.compile("[×÷−+√²³⁴]")  # it is in every formula that puts names together
HEAD: Final = (  # no dates and names: the history has them
    'msgid ""\nmsgstr ""\n"Language: {code}\\n"\n"Plural-Forms: {plurals}\\n"\n"MIME-Version: 1.0\\n"\n'
    '"Content-Type: text/plain; charset=utf-8\\n"\n"Content-Transfer-Encoding: 8bit\\n"\n\n'
)
Text = str | tuple[str, str]  # one, or the forms for one and for many


def texts() -> dict[Text, str]:
    """Every text, with the file that it was first found in."""
    found: dict[Text, str] = {}
    for path, text in _everywhere():
        found.setdefault(text, path.relative_to(ROOT).as_posix())
    return found


def _everywhere() -> Iterator[tuple[Path, Text]]:
    for path in sorted((ROOT / "generator").rglob("*.py")):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        for text in (*said_in(tree), *named_in(tree)):
            yield path, text
    templates = ROOT / "site_templates"
    for path in sorted(path for path in templates.rglob("*") if path.suffix in {".html", ".svg"}):
        yield from ((path, text) for text in fragments.texts_of(path.read_text(encoding="utf-8")))
    for path in sorted(templates.rglob("*.md")):
        yield from ((path, text) for text in fragments.texts_of_page(path.read_text(encoding="utf-8")))
    for path in sorted((templates / "js").glob("*.js")):
        yield from ((path, text) for text in scripts.texts_of(path.read_text(encoding="utf-8")))
    yield from ((ROOT / "generator" / "tables", text) for text in worded())
    yield from ((ROOT / "generator" / "threads", one.head) for one in thread_tables())
    yield from ((ROOT / "generator" / "explain", text) for text in said_texts())
    start = templates / "start"
    for path in sorted(start.glob("*.yml")):
        yield from ((path, text) for text in fragments.texts_of_remarks(path.read_text(encoding="utf-8")))
    for path in sorted(start.glob("*.txt")):
        yield from ((path, text) for text in fragments.texts_of_page(path.read_text(encoding="utf-8")))


def said_in(tree: ast.AST) -> Iterator[Text]:
    """Texts of the calls; a call with anything but a text in it is somebody's own `say` of a table."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            words = [one.value for one in node.args[:2] if isinstance(one, ast.Constant)]
            match node.func.id, words:
                case ("say" | "later", [str(text), *_]) if text:
                    yield text
                case "say_count", [str(one), str(many)]:
                    yield one, many


def named_in(tree: ast.AST) -> Iterator[str]:
    """The words under which figures are put into a formula, which the working shows."""
    filled = {
        id(node.args[0]) for node in ast.walk(tree)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
        and node.func.id in {"say", "say_count"} and node.args and node.keywords
    }
    filled |= {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}  # docstrings
    for node in ast.walk(tree):
        if (
            isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in filled
            and RECKONED.search(node.value)
        ):
            yield from (name for name in NAME.findall(node.value) if WORDS.search(name))


def read(code: str) -> Catalog:
    """The catalog of a language."""
    with (CATALOGS / f"{code}.po").open("rb") as file:
        return read_po(file, locale=code, abort_invalid=True)


def brought_up_to_date(catalog: Catalog) -> Catalog:
    """The same translations for the texts that there are, in the order of the files."""
    new = Catalog(locale=catalog.locale, project="lathe-setup-sheets", charset="utf-8", fuzzy=False)
    for text, path in texts().items():
        one = text if isinstance(text, str) else text[0]
        old = catalog.get(one)
        new.add(text, old.string if old and (old.id == text) else "", locations=[(path, None)])
    return new


def write(catalog: Catalog, code: str) -> None:
    """Write a catalog, its texts in the order of the files that they stand in."""
    written = io.BytesIO()
    write_po(written, catalog, width=110, omit_header=True, include_lineno=False)
    head = HEAD.format(code=code, plurals=catalog.plural_forms)
    (CATALOGS / f"{code}.po").write_bytes(head.encode("utf-8") + written.getvalue())


if __name__ == "__main__":
    for file in sorted(CATALOGS.glob("*.po")):
        write(brought_up_to_date(read(file.stem)), file.stem)
