"""How much a sheet costs in the site, beside an ordinary page of mkdocs with the same content.

    python tests/benchmarks/sheets_beside_pages.py [N]

One run builds N sheets and then N pages, and prints the ratio; seconds alone say little on a busy machine.
Not a test: nothing here passes or fails.
"""

from __future__ import annotations

import shutil
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from mkdocs.commands.build import build
from mkdocs.config import load_config

from generator.render.environment import templates_folder
from generator.site import archive as archive_module

ROOT = Path(__file__).resolve().parents[2]
SAMPLE = "SW-101-ramp-hinge-pin"


def seconds(work: Callable[[], object]) -> float:
    """Processor time of the work, once: what other programs do at the same time does not count."""
    start = time.process_time()
    work()
    return time.process_time() - start


def main(count: int) -> None:
    """Build both sites and print what each took."""
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder)
        jobs = home / "jobs"
        shutil.copytree(ROOT / "jobs" / "_shop", jobs / "_shop")
        text = (ROOT / "jobs" / "2026" / SAMPLE / "job.yml").read_text(encoding="utf-8")
        for number in range(count):
            job = jobs / "2026" / f"B-{number:05}-pin" / "job.yml"
            job.parent.mkdir(parents=True)
            job.write_text(text.replace("SW-101", f"B-{number:05}"), encoding="utf-8")
        settings = home / "mkdocs.yml"
        settings.write_text(
            f"INHERIT: {(templates_folder() / 'mkdocs.yml').as_posix()}\n"
            f"docs_dir: {(templates_folder() / 'pages').as_posix()}\n"
            f"theme: {{custom_dir: {(templates_folder() / 'theme').as_posix()}}}\n",
            encoding="utf-8",
        )
        sheets = seconds(lambda: build(load_config(str(settings))))

        shop = archive_module.try_shop(jobs / "_shop")
        some = archive_module.find_jobs(jobs)
        computing = seconds(lambda: [archive_module.make_entry(job, shop) for job in some])

        body = archive_module.make_entry(some[0], shop).body
        docs = home / "docs"
        docs.mkdir()
        (docs / "index.md").write_text("# Pages\n", encoding="utf-8")
        for number in range(count):
            (docs / f"{number:05}.md").write_text(f"# Page {number}\n\n{body}\n", encoding="utf-8")
        plain = home / "plain.yml"
        plain.write_text(
            "site_name: Plain\nsite_dir: plain\nnot_in_nav: '*.md'\nnav: [index.md]\nplugins: []\n"
            "theme: {name: material, font: false}\n",
            encoding="utf-8",
        )
        pages = seconds(lambda: build(load_config(str(plain))))

    print(f"{count} sheets, read, computed and written: {sheets:.2f} s, of which computing {computing:.2f} s")
    print(f"{count} pages of the same content through mkdocs: {pages:.2f} s")
    print(f"a sheet without its computing costs {max(sheets - computing, 0.0) / pages:.2f} of a page")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 100)
