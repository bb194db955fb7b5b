"""The schemas take every good file as an editor parses it, and refuse what the reader refuses."""

from __future__ import annotations

import datetime
from pathlib import Path
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator

from generator.job.model import Job
from generator.job.reading import find_jobs
from generator.job.schema import job_schema, shop_schemas

ROOT = Path(__file__).parents[2]
SHOP = ROOT / "jobs" / "_shop"
BAD = Path(__file__).parent / "bad"
SHOP_FILES = [
    ("house", SHOP / "house.yml"),
    ("materials", SHOP / "materials.yml"),
    ("tools", SHOP / "tools.yml"),
    *(("lathe", path) for path in sorted((SHOP / "lathes").glob("*.yml"))),
]
# What the reader alone can say: relations, ranges of a unit, units of the whole file, marks of YAML itself.
BEYOND_A_SCHEMA = {
    "found-impossible",
    "thread-sides",
    "no-units",
    "mixed-systems",
    "mixed-systems-mm",
    "thread-scribbled",
    "repeated-keys",
    "alias",
    "materials-same-name",
    "tools-twice",
    "remark-signs",
    "lathe-no-screw",
    "lathe-order",
    "lathe-gap",
    "lathe-plate",
    "lathe-swings",
    "alias-bomb",
    "merge-key",
}


def parsed(text: str) -> Any:
    """As an editor sees it: plain numbers and words; a date is a word."""

    def plain(node: Any) -> Any:
        if isinstance(node, dict):
            return {str(key): plain(value) for key, value in node.items()}
        if isinstance(node, list):
            return [plain(value) for value in node]
        return node.isoformat() if isinstance(node, datetime.date) else node

    return plain(yaml.safe_load(text))


def test_the_schemas_are_schemas() -> None:
    for schema in (job_schema(), *shop_schemas().values()):
        Draft202012Validator.check_schema(schema)
        assert schema["title"]


@pytest.mark.parametrize("path", find_jobs(ROOT / "jobs"), ids=lambda path: path.parent.name)
def test_the_demo_jobs_are_taken(path: Path) -> None:
    Draft202012Validator(job_schema()).validate(parsed(path.read_text("utf-8")))


@pytest.mark.parametrize(("kind", "path"), SHOP_FILES, ids=lambda value: getattr(value, "stem", value))
def test_the_demo_shop_is_taken(kind: str, path: Path) -> None:
    Draft202012Validator(shop_schemas()[kind]).validate(parsed(path.read_text("utf-8")))


def test_the_small_job_is_taken_in_all_ways_of_writing(small_job: str) -> None:
    for old, new in [
        ("grip: 2}", "grip: {value: 2, assumed: yes}}"),
        ("grip: 2}", "grip: {value: 2 in, by: KL, with: rule}}"),
        ("grip: 2}", 'grip: "2 in"}'),
        ("grip: 2}", "grip: 50.8mm}"),
        ("  - relief:", "  - face:\n  - relief:"),
        ("mate: {part: clamp ring, thread: 2-8 UN-2B}", "mate: unknown"),
        ("title:", "revision: 2\ntitle:"),
        ("length: 1 3/4", "length: 1 3/4, from_end: 0"),
    ]:
        assert old in small_job
        Draft202012Validator(job_schema()).validate(parsed(small_job.replace(old, new)))


@pytest.mark.parametrize(
    "path",
    [path for path in sorted(BAD.glob("*.yml")) if path.stem not in BEYOND_A_SCHEMA],
    ids=lambda path: path.stem,
)
def test_bad_files_are_refused(path: Path) -> None:
    try:
        tree = parsed(path.read_text("utf-8"))
    except (yaml.YAMLError, UnicodeDecodeError, ValueError, RecursionError):
        return  # no editor gets as far as the schema
    kind = path.stem.partition("-")[0]
    schema = shop_schemas().get(kind) or job_schema()
    assert not Draft202012Validator(schema).is_valid(tree)


def test_every_key_says_what_it_is_for() -> None:
    """An editor shows the description beside the key."""
    for schema in (job_schema(), *shop_schemas().values()):
        blocks = [schema, *(part for part in schema["$defs"].values() if "properties" in part)]
        for block in blocks:
            for key, entry in block["properties"].items():
                at = schema["$defs"][entry["$ref"].rpartition("/")[2]] if "$ref" in entry else entry
                assert entry.get("description") or at.get("description"), key


def test_required_keys_are_those_of_the_models() -> None:
    assert job_schema()["required"] == [
        field.alias or name for name, field in Job.model_fields.items() if field.is_required()
    ]
