"""How heavy a page is: it opens on a phone in the shop, at the far end of a slow line.

250 kB for a page, style sheets and scripts apart, is the project's own limit: common practice, no source.
"""

from __future__ import annotations

import importlib.util
import re
import zlib
from base64 import b64decode
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from generator.job.shop import Shop
from generator.render.environment import environment
from generator.render.packed import HEAVIEST, packed, unmarked
from generator.render.packed import unpacked as unpacked_here
from generator.site.archive import Made, make_entry, try_shop

_spec = importlib.util.spec_from_file_location("large_jobs", Path(__file__).with_name("large_jobs.py"))
assert _spec is not None
assert _spec.loader is not None
large_jobs = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(large_jobs)

JOBS = Path(__file__).parents[2] / "jobs"
LIMIT = 250_000  # bytes of a page
PACKED = re.compile(
    r'<div class="packed">.*?<script type="application/zlib">(.*?)</script>\n</div>', re.DOTALL
)
OF_THE_SITE = re.compile(  # what stands alone has none of it
    r'<section class="alike".*?</section>\n?| data-explained="[^"]*"| <a class="explains".*?</a>', re.DOTALL
)
LARGE = ((20, 0), (5, 200), (20, 200), (40, 0), (40, 400))  # operations, entries in the log


@pytest.fixture(scope="module")
def shop() -> Shop:
    found = try_shop(JOBS / "_shop")
    assert isinstance(found, Shop)
    return found


def unpacked(body: str) -> str:
    """The body as the browser makes it whole again."""
    return PACKED.sub(lambda found: zlib.decompress(b64decode(found[1])).decode(), body)


@pytest.fixture(scope="module", params=LARGE, ids=lambda size: f"{size[0]} operations, {size[1]} entries")
def large(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory, shop: Shop
) -> tuple[Made, Made]:
    """A large job as a page of the site, and as one that stands alone."""
    path = large_jobs.large_job(tmp_path_factory.mktemp("jobs") / "2026", *request.param)
    return make_entry(path, shop), make_entry(path, shop, alone=True)


def test_a_large_job_is_a_light_page_too_and_whole_when_it_is_unpacked(
    large: tuple[Made, Made], read_page: Callable[[str], Any]
) -> None:
    made, alone = large
    assert not made.entry.problems
    assert len(alone.body.encode()) > HEAVIEST
    assert len(made.body.encode()) <= HEAVIEST
    assert unpacked(made.body) == unpacked_here(made.body)
    assert OF_THE_SITE.sub("", unpacked(made.body)) == alone.body
    root = read_page(made.body)
    for part in root.all("div", class_="packed"):
        assert "python -m generator print" in part.text


def test_parts_are_packed_only_as_far_as_they_have_to_be() -> None:
    names = ("route", "log", "working")
    parts = "".join(f"<!--part {name}--><p>{name * 2000}</p><!--/part-->" for name in names)
    made = [packed(parts, environment(), heaviest) for heaviest in (10**6, 20_000, 12_000, 0)]
    assert [len(PACKED.findall(body)) for body in made] == [0, 1, 2, 3]
    assert {unpacked(body) for body in made} == {unmarked(parts)}


def test_the_page_with_the_frame_of_the_theme_stays_under_the_limit(demo_site: Path) -> None:
    """Next to nothing of a demo job needs to be packed: one screw of 62 inches, held in four places."""
    pages = [page.read_text(encoding="utf-8") for page in demo_site.glob("sheets/*/*.html")]
    sheets = [page.partition("<article")[2].rpartition("</article>")[0] for page in pages]
    assert len(pages) >= 15
    assert sum(map(bool, map(PACKED.search, pages))) <= 1
    heaviest = max(len(page.encode()) for page in pages)
    assert heaviest < LIMIT
    assert HEAVIEST + heaviest - max(len(sheet.encode()) for sheet in sheets) < LIMIT
