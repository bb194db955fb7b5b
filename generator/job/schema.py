"""JSON Schema of job files, logs and shop files, from the models that read them, for an editor.

A schema sees a file as an editor parses it: `14` is a number, `2 1/4` a text. It takes everything that the
reader takes, and leaves to the reader what a schema cannot say (ranges of a unit, the file's own units).
Its words are in the language of the shop, for whoever writes the files.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Final, get_args

from pydantic import BaseModel
from pydantic.json_schema import GenerateJsonSchema

from generator.job.described import described
from generator.job.examples import examples
from generator.job.fields import QUANTITY_SCHEMAS, Strict, in_words
from generator.job.lathe import Lathe
from generator.job.log import SIZES, LogFile
from generator.job.model import HeldBy, Job
from generator.job.operations import Cut
from generator.job.sender import Sender
from generator.job.shop import House, Materials, Tools
from generator.language.say import later, say
from generator.threads.identify.measured import DIAMETERS, PITCHES

DIALECT: Final = GenerateJsonSchema.schema_dialect

CUTS: Final[list[type[Cut]]] = [Cut, *Cut.__subclasses__()]
MAY_STAND_ALONE: Final = {f"#/$defs/{cut.__name__}" for cut in CUTS}  # `- face:` is all that is wanted

RELATIONS: Final[dict[str, dict[str, Any]]] = {  # between the keys of a block, as its model checks them
    "Holding": {
        "oneOf": [{"required": [kind]} for kind in get_args(HeldBy)],
        "dependentRequired": {
            "centers": ["center"], "center_push": ["center"], "follow_rest_from_tool": ["follow_rest"],
        },
    },
    "Found": {"anyOf": [{"required": [name]} for name in (*DIAMETERS, *PITCHES, "lead")]},
    "Measured": {
        "anyOf": [{"required": [name]} for name in SIZES], "dependentRequired": {"wire": ["over_wires"]},
    },
    "Fit": {"anyOf": [{"required": ["turns"]}, {"required": ["feels"]}]},
    "Entry": {"minProperties": 2, "dependentRequired": {"turns": ["dial"], "cross_turns": ["cross"]}},
    "LatheChuck": {"dependentRequired": {"key_torque": ["grip_force"], "grip_force": ["key_torque"]}},
}

_SHOP_FILES: Final[dict[str, tuple[type[Strict], str]]] = {
    "lathe": (Lathe, later("A lathe: jobs/_shop/lathes/NAME.yml")),
    "materials": (Materials, later("The materials of the shop: jobs/_shop/materials.yml")),
    "tools": (Tools, later("Threading tools and measuring wires: jobs/_shop/tools.yml")),
    "house": (House, later("What the shop does its own way: jobs/_shop/house.yml")),
}


def job_schema() -> dict[str, Any]:
    """The schema of a job file."""
    return _schema(Job, later("A job: jobs/YEAR/NUMBER-NAME/job.yml"))


def log_schema() -> dict[str, Any]:
    """The schema of a log."""
    return _schema(LogFile, later("A log: log.yml beside the job file; a list of entries, oldest first"))


def sender_schema() -> dict[str, Any]:
    """The schema of what a setup brought along that was taken in."""
    return _schema(
        Sender, later("What a setup of another shop brought along: sender.yml beside the job file")
    )


def shop_schemas() -> dict[str, dict[str, Any]]:
    """The schemas of the shop's own files, by kind of file: lathe, materials, tools, house."""
    return {name: _schema(model, title) for name, (model, title) in _SHOP_FILES.items()}


def _schema(model: type[BaseModel], title: str) -> dict[str, Any]:
    used: dict[str, dict[str, Any]] = {}
    written = model.model_json_schema(by_alias=True)
    _describe(model, written)
    known = {one.__name__: one for one in described_models()}
    for name, block in written.get("$defs", {}).items():
        _describe(known[name], block)
    schema = _tidy(written, used)
    definitions = {**schema.pop("$defs", {}), **dict(sorted(used.items()))}
    if "Operation" in definitions:
        definitions["Operation"] |= {"minProperties": 1, "maxProperties": 1}
    for name, relation in RELATIONS.items():
        if name in definitions:
            definitions[name] |= relation
    return {"$schema": DIALECT, **schema, "title": str(title), "$defs": definitions}


def _describe(model: type[BaseModel], schema: dict[str, Any]) -> None:
    """Put in what each key means, and what may be written there."""
    if "description" in schema:
        schema["description"] = say(schema["description"])
    for name, meaning in described(model).items():
        schema["properties"][model.model_fields[name].alias or name]["description"] = meaning
    for name, some in examples(model).items():
        if name in schema["properties"]:
            schema["properties"][name]["examples"] = some


def described_models() -> Iterator[type[BaseModel]]:
    """Every model of a file or of a block in one: what they and their keys are is said in the schemas.

    By name, whichever was imported first.
    """
    yield LogFile
    yield from sorted(_models(Strict), key=lambda one: (one.__module__, one.__qualname__))


def _models(base: type[BaseModel]) -> Iterator[type[BaseModel]]:
    for one in base.__subclasses__():
        yield one
        yield from _models(one)


def _tidy(node: Any, used: dict[str, dict[str, Any]]) -> Any:
    """One definition for each kind of quantity, no generated titles, no nulls where a value is wanted.

    An operation with nothing after its colon is the one place where an empty value means something.
    """
    if isinstance(node, list):
        return [_tidy(entry, used) for entry in node]
    if not isinstance(node, dict):
        return node
    node = {
        key: _tidy(entry, used) for key, entry in node.items() if key != "title" or isinstance(entry, dict)
    }
    if node.get("default", ...) is None:
        del node["default"]
    if name := node.pop("$comment", None):
        used[name] = {"description": in_words(name), **QUANTITY_SCHEMAS[name]}
        node["$ref"] = f"#/$defs/{name}"
    choices = node.get("anyOf", [])
    if {"type": "null"} in choices and not any(choice.get("$ref") in MAY_STAND_ALONE for choice in choices):
        choices.remove({"type": "null"})
        if len(choices) == 1:
            del node["anyOf"]
            node = {**choices[0], **node}
    return node
