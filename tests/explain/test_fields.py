"""The page Files: every key has a place of its own, an example that is read, and what counts without it."""

from __future__ import annotations

import json
import os
from collections.abc import Iterator
from pathlib import Path

from generator.explain.fields import FILE, field_lists, written_in
from generator.job.keys import file_keys

JOBS = Path(__file__).parents[2] / "jobs"
REWRITE = "REWRITE_LAID"


def demo_files() -> Iterator[tuple[str, Path]]:
    for kind in ("job", "log"):
        yield from ((kind, path) for path in sorted(JOBS.glob(f"*/*/{kind}.yml")))
    yield from (("lathe", path) for path in sorted(JOBS.glob("_shop/lathes/*.yml")))
    yield from ((kind, JOBS / f"_shop/{kind}.yml") for kind in ("materials", "tools", "house"))


def test_the_examples_are_how_the_demo_writes_each_key() -> None:
    """The demo's files are read without a fault by other tests, and so every example is one that is read."""
    text = json.dumps(written_in(demo_files()), ensure_ascii=False, indent=1) + "\n"
    if os.environ.get(REWRITE):
        FILE.write_text(text, encoding="utf-8")
    assert FILE.read_text(encoding="utf-8") == text, (
        f"the demo changed: {REWRITE}=1 python -m pytest tests/explain/test_fields.py writes fields.json anew"
    )


def test_every_key_of_the_models_has_one_place() -> None:
    listed = [one for kind in field_lists() for one in kind.fields]
    assert [one.name for one in listed] == [key.name for one in file_keys() for key in one.keys]
    places = [one.place for one in listed]
    assert len(places) == len(set(places))
    assert not any(" " in place or "(" in place for place in places)


def test_nearly_every_key_has_an_example_and_a_default_says_itself() -> None:
    listed = {one.place: one for kind in field_lists() for one in kind.fields}
    plain = [one for one in listed.values() if "block" not in one.wanted]
    assert len([one for one in plain if one.example]) > 0.85 * len(plain)
    assert listed["job.holding.chuck.reversed"].otherwise == "no"
    assert listed["job.status"].otherwise == "planned"
    assert listed["lathe.change_gears.most_pairs"].otherwise == "2"
    assert listed["job.operations.any.spindle"].example.startswith("spindle: ")
