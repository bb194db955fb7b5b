"""The pages of tasks: what they tell the reader to type is what the program takes."""

from __future__ import annotations

import re
import shlex
from collections.abc import Iterator
from pathlib import Path

import pytest

from generator.__main__ import _with_signs
from generator.command_line import command_parser
from generator.explain.pages import how_to_body
from generator.job.reading import read_job, read_log, read_shop
from generator.site.explained import how_to_pages

HOME = Path(__file__).parents[2]
PAGES = how_to_pages()
FENCED = re.compile(r"^```([^\n]*)\n(.*?)^```$", re.DOTALL | re.MULTILINE)
COMMAND = re.compile(r"python -m generator (?!\.)([^`\n]+)")
HAND_WRITTEN = sorted((HOME / "site_templates/pages").glob("*.md"))


def blocks(kind: str) -> Iterator[tuple[str, str]]:
    for page in PAGES:
        for found in FENCED.finditer(page.text.read_text(encoding="utf-8")):
            if found[1].strip() == kind:
                yield page.text.stem, found[2]


def commands() -> Iterator[tuple[str, str]]:
    for path in [page.text for page in PAGES] + HAND_WRITTEN:
        for found in COMMAND.finditer(path.read_text(encoding="utf-8")):
            yield path.stem, found[1].strip()


@pytest.mark.parametrize(("page", "line"), sorted(set(commands())))
def test_a_command_is_one_that_the_program_takes(page: str, line: str) -> None:
    asked = command_parser().parse_args(_with_signs(shlex.split(line)))
    assert callable(asked.run), page


@pytest.mark.parametrize(("page", "text"), [*blocks("yaml")])
def test_a_job_file_is_read_and_names_what_the_shop_has(page: str, text: str, tmp_path: Path) -> None:
    path = tmp_path / "2026" / page / "job.yml"
    path.parent.mkdir(parents=True)
    path.write_text(text, encoding="utf-8")
    assert read_job(path, read_shop(HOME / "jobs/_shop")).job.work


@pytest.mark.parametrize(("page", "text"), [*blocks("log")])
def test_a_log_is_read_whole(page: str, text: str, tmp_path: Path) -> None:
    path = tmp_path / "log.yml"
    path.write_text(text, encoding="utf-8")
    read = read_log(path, "inch", "inch")
    assert not read.problems, page
    assert read.entries


def test_there_is_a_page_for_each_task_and_every_block_is_of_a_kind_that_is_tried() -> None:
    assert len(PAGES) >= 8
    texts = [page.text.read_text(encoding="utf-8") for page in PAGES]
    kinds = {found[1].strip() for text in texts for found in FENCED.finditer(text)}
    assert kinds == {"sh", "yaml", "log"}


def test_the_body_is_whole_html() -> None:
    for page in PAGES:
        body = how_to_body(page.text.read_text(encoding="utf-8"))
        assert f"<h1>{page.title}</h1>" in body
        assert "```" not in body
