"""Imports go downward only, so that a reader can take the package from the bottom up."""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

PACKAGE = Path(__file__).resolve().parent.parent / "generator"

BOTTOM = {"si", "errors"}
MAY_IMPORT = {  # part: the parts below it
    "language": set(),
    "errors": set(),
    "si": set(),
    "quantities": set(),
    "units": {"quantities", *BOTTOM},
    "tables": BOTTOM,
    "calc": {"tables", *BOTTOM},
    "threads": {"calc", "tables", *BOTTOM},
    "user_cache": set(),
    "collecting": set(),
    "completing": set(),
    "terminal": BOTTOM,
    "in_one_step": set(),
    "pictures": {"user_cache", *BOTTOM},
    "job": {"in_one_step", "threads", "calc", "quantities", "units", "pictures", "tables", *BOTTOM},
    "sheet": {"job", "threads", "calc", "tables", *BOTTOM},
    "render": {"sheet", "user_cache", *BOTTOM},
    "explain": {"render", "sheet", "job", "threads", "calc", *BOTTOM},
    "archive": {"render", "sheet", *BOTTOM},
    "site": {"collecting", "explain", "archive", "render", "sheet", "job", "pictures", *BOTTOM},
    "commands": {"terminal", "site", "pack", "render", "sheet", "job", *BOTTOM},
    "framework": {"commands", "collecting", "site", "archive", "render", *BOTTOM},
    "gear_command": {"commands", "sheet", "job", "calc", "units", *BOTTOM},
    "compare_command": {"commands", "terminal", "site", "render", "sheet", "job", "units", *BOTTOM},
    "identify_command": {"commands", "sheet", "threads", "units", *BOTTOM},
    "whole_file": {"commands", "in_one_step"},
    "print_command": {"commands", "terminal", "framework", "whole_file", "site", "render", *BOTTOM},
    "export_command": {"commands", "terminal", "whole_file", "site", "render", *BOTTOM},
    "pack": {"in_one_step", "pictures", "job", *BOTTOM},
    "share_command": {
        "commands", "terminal", "whole_file", "pack", "site", "render", "sheet", "job", *BOTTOM,
    },
    "receive_command": {
        "commands", "terminal", "paper_reading", "pack", "pictures", "site", "render", "sheet", "job",
        *BOTTOM,
    },
    "paper_command": {"commands", "terminal", "whole_file", "site", "render", "job", *BOTTOM},
    "paper_reading": {"pictures", "job", *BOTTOM},
    "intake": {"in_one_step", "pack", "job", "threads", "units", *BOTTOM},
    "asking": set(),
    "start_options": set(),
    "start_command": {
        "asking", "commands", "start_options", "in_one_step", "intake", "render", "job", *BOTTOM,
    },
    "new_options": set(),
    "new_follows": {
        "commands", "identify_command", "intake", "site", "render", "sheet", "terminal", "threads", "job",
        *BOTTOM,
    },
    "new_course": {"asking", "commands", "new_follows", "new_options", "intake", "pack", "job", *BOTTOM},
    "new_command": {"commands", "new_course", "new_options", "intake", "job", *BOTTOM},
    "log_options": set(),
    "usage": {"commands"},
    "log_command": {"commands", "terminal", "log_options", "site", "sheet", "job", *BOTTOM},
    "command_line": {
        "commands", "framework", "gear_command", "compare_command", "identify_command", "log_command",
        "log_options", "print_command", "export_command", "paper_command", "share_command",
        "receive_command", "start_command", "start_options", "new_command", "new_options", "usage",
    },
    "__main__": {"command_line", "commands", "framework", "errors", "collecting", "completing"},
    "setup": set(),
    "__init__": set(),
}
ONLY_IN = {  # library: where alone it is imported
    "yaml": {"job.source", "job.writing"},
    "argcomplete": {"completing"},
    "babel": {"language"},
    "click": {"site.progress", "terminal"},
    "distributed": {"site.machines"},
    "watchdog": {"site.watching"},
    "filelock": {"job.log_file", "site.kept"},
    "pint": {"units"},
    "jinja2": {"render", "framework.theme_files"},
    "markdown": {"explain"},
    "markupsafe": {"explain", "render"},
    "mkdocs": {"framework"},
    "pydantic": {"job", "pack", "site.pages"},
    "PIL": {"pictures"},
    "platformdirs": {"user_cache"},
    "segno": {"render"},
    "zxingcpp": {"paper_reading"},
}
FILES = sorted(PACKAGE.rglob("*.py"))


def dotted(path: Path) -> str:
    """`job.reading` for generator/job/reading.py."""
    return ".".join(path.relative_to(PACKAGE).with_suffix("").parts).removesuffix(".__init__")


def imported(path: Path) -> Iterator[str]:
    """Full names of all modules that a file imports, also inside functions and for types only."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: write imports in full"
            module = node.module or ""
            yield module
            for alias in node.names:  # `from generator.job import reading` imports a module
                if (PACKAGE.parent / Path(*module.split("."), f"{alias.name}.py")).is_file():
                    yield f"{module}.{alias.name}"


def within(name: str, parts: set[str]) -> bool:
    return any(name == part or name.startswith(f"{part}.") for part in parts)


@pytest.mark.parametrize("path", FILES, ids=dotted)
def test_a_module_imports_only_what_lies_below_it(path: Path) -> None:
    module = dotted(path)
    part = module.partition(".")[0]
    for name in imported(path):
        if name in {"generator", f"generator.{part}"}:
            continue
        if name.startswith("generator."):
            below = name.removeprefix("generator.")
            may = {part, "language", *MAY_IMPORT[part]}  # every part says something
            assert within(below, may), f"generator.{module} imports {name}"


@pytest.mark.parametrize("path", FILES, ids=dotted)
def test_a_library_stays_at_its_edge(path: Path) -> None:
    for name in imported(path):
        allowed = ONLY_IN.get(name.partition(".")[0])
        assert allowed is None or within(dotted(path), allowed), f"generator.{dotted(path)} imports {name}"


def test_calculation_imports_no_files_and_no_text_formats() -> None:
    banned = {"pathlib", "json", "html", "yaml", "jinja2", "mkdocs", "pint", "pydantic", "os", "io"}
    for path in (PACKAGE / "calc").glob("*.py"):
        found = {name.partition(".")[0] for name in imported(path)} & banned
        assert not found, f"{path.name} imports {found}"


def test_there_is_no_ring_of_imports() -> None:
    graph = {
        dotted(path): {
            name.removeprefix("generator.")
            for name in imported(path)
            if name.startswith("generator.") and name.removeprefix("generator.") != dotted(path)
        }
        for path in FILES
    }
    done: set[str] = set()

    def walk(module: str, above: tuple[str, ...]) -> None:
        assert module not in above, " -> ".join((*above, module))
        if module not in done:
            for below in graph.get(module, ()):
                walk(below, (*above, module))
            done.add(module)

    for module in graph:
        walk(module, ())


def test_setup_and_the_package_itself_need_only_the_standard_library() -> None:
    for name in ("setup.py", "__init__.py"):
        assert {found.partition(".")[0] for found in imported(PACKAGE / name)} <= sys.stdlib_module_names


def test_the_package_imports_nothing_when_it_is_imported() -> None:
    code = "import sys; before = set(sys.modules); import generator; print(sorted(set(sys.modules) - before))"
    found = subprocess.run([sys.executable, "-I", "-c", code], capture_output=True, text=True, check=True)
    assert found.stdout.strip() == "['generator']"
