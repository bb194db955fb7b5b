"""The schemas take every good file as an editor parses it, and refuse what the reader refuses."""

from __future__ import annotations

import datetime
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Annotated, Any

import pytest
import yaml
from jsonschema import Draft202012Validator
from pydantic import BaseModel, TypeAdapter

from generator.commands import all_schemas
from generator.job.editor_line import editor_line
from generator.job.examples import examples
from generator.job.fields import Strict
from generator.job.model import Job
from generator.job.reading import find_jobs
from generator.job.schema import job_schema, log_schema, sender_schema, shop_schemas
from generator.job.written import NOWHERE, Block, Scalar

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
    for schema in (job_schema(), log_schema(), sender_schema(), *shop_schemas().values()):
        blocks = [schema, *(part for part in schema["$defs"].values() if "properties" in part)]
        for block in blocks:
            for key, entry in block.get("properties", {}).items():
                at = schema["$defs"][entry["$ref"].rpartition("/")[2]] if "$ref" in entry else entry
                assert entry.get("description") or at.get("description"), key


def test_required_keys_are_those_of_the_models() -> None:
    assert job_schema()["required"] == [
        field.alias or name for name, field in Job.model_fields.items() if field.is_required()
    ]


# -- examples ----------------------------------------------------------------------------------------------


def written_by(model: type[BaseModel]) -> Iterator[type[BaseModel]]:
    for one in model.__subclasses__():
        yield one
        yield from written_by(one)


def as_read(example: Any) -> Any:
    """An example as the reader of the files hands it on: every value is text, in a file that says units."""
    if isinstance(example, dict):
        block = Block(NOWHERE)
        block.update({key: as_read(value) for key, value in example.items()})
        return block
    if isinstance(example, list):
        return [as_read(one) for one in example]
    return Scalar(str(example), system="inch")


SHOWN = [(model, key) for model in written_by(Strict) for key in examples(model)]


@pytest.mark.parametrize(("model", "key"), SHOWN, ids=lambda one: getattr(one, "__name__", one))
def test_the_reader_takes_every_example(model: type[BaseModel], key: str) -> None:
    fields = {field.alias or name: field for name, field in model.model_fields.items()}
    field = fields[key]
    whole = TypeAdapter(Annotated[field.annotation, *field.metadata] if field.metadata else field.annotation)
    for example in examples(model)[key]:
        whole.validate_python(as_read(example))


def shows_itself(entry: dict[str, Any], schema: dict[str, Any]) -> bool:
    """Whether an editor can show somebody what goes there: examples, a choice, or the keys of a block."""
    if {"examples", "enum", "const", "properties"} & set(entry) or entry.get("type") in ("null", "boolean"):
        return True
    if "$ref" in entry:
        return shows_itself(schema["$defs"][entry["$ref"].rpartition("/")[2]], schema)
    if entry.get("type") == "array":
        return shows_itself(entry["items"], schema)
    choices = [*entry.get("anyOf", []), *entry.get("oneOf", [])]
    return bool(choices) and all(shows_itself(one, schema) for one in choices)


def test_every_key_shows_what_goes_there() -> None:
    for schema in (job_schema(), log_schema(), sender_schema(), *shop_schemas().values()):
        blocks = {schema["title"]: schema, **schema["$defs"]}
        for name, block in blocks.items():
            for key, entry in block.get("properties", {}).items():
                assert shows_itself(entry, schema), f"{name}: {key}"


def test_the_schema_takes_every_example() -> None:
    for schema in (job_schema(), log_schema(), sender_schema(), *shop_schemas().values()):
        for block in (schema, *schema["$defs"].values()):
            for entry in block.get("properties", {}).values():
                for example in entry.get("examples", ()):
                    Draft202012Validator({**entry, "$defs": schema["$defs"]}).validate(example)


def test_the_schemas_in_the_demo_archive_are_those_of_the_program() -> None:
    """When they differ: python -m generator schema --out jobs/_shop/schemas."""
    for name, schema in all_schemas().items():
        assert json.loads((SHOP / "schemas" / f"{name}.schema.json").read_text("utf-8")) == schema, name


def test_every_file_of_the_demo_archive_names_its_schema() -> None:
    for path in (ROOT / "jobs").rglob("*.yml"):
        kind = "lathe" if path.parent.name == "lathes" else path.stem
        first = path.read_text("utf-8").splitlines()[0]
        assert f"{first}\n" == editor_line(kind)
        assert (path.parent / first.partition("=")[2]).resolve() == SHOP / "schemas" / f"{kind}.schema.json"
